//! What is typed and cannot be read, or not so. All data are invented.

use workshop::draft::upkeep::{
    DoneDraft, MeterDraft, MishapDraft, PieceDraft, PointDraft, RuleDraft, SortDraft, UsageDraft,
};
use workshop::refusal::Refusal;
use workshop::upkeep::recheck::Point;
use workshop::upkeep::{MonthDay, Part, Servicing, Usage};

use super::super::{
    bare, kept_up, key, piece, rule, said, said_piece, said_rule, said_sort, said_usage, sort,
    usage, words,
};
use super::{accepted, refused, with};

#[test]
fn practice_a_season_has_two_days_of_any_year() {
    let season = |from: &str, until: &str| {
        let draft = with(usage(), |d| (d.from, d.until) = (words(from), words(until)));
        draft
            .read()
            .map_err(|refusal| (refusal.field(), refusal.to_string()))
    };
    assert!(season("", "").unwrap().open.is_none());
    assert!(season("11-01", "02-29").unwrap().open.is_some());
    let half = "An edge of the season stands alone. Fill in both, or neither.";
    assert_eq!(
        season("05-01", "").unwrap_err(),
        (Some("until"), words(half))
    );
    assert_eq!(
        season("", "05-01").unwrap_err(),
        (Some("from"), words(half))
    );
    let none =
        "“02-30” is no day of a year. Write month and day, such as 05-01 for the first of May.";
    assert_eq!(
        season("02-30", "05-01").unwrap_err(),
        (Some("from"), words(none))
    );
    assert_eq!(
        season("05-01", "02-30").unwrap_err(),
        (Some("until"), words(none))
    );
    // One that was not typed.
    let day = |month, day| MonthDay { month, day };
    let body = said(Servicing::Usage(Box::new(Usage {
        open: Some((day(5, 1), day(2, 30))),
        ..Usage::default()
    })));
    assert_eq!(refused(&bare(), body), (Some("until"), words(none)));
}

#[test]
fn practice_what_is_typed_of_service_and_cannot_be_read_names_its_field() {
    let field = |refusal: Refusal| refusal.field();
    let usage = |change: fn(&mut UsageDraft)| with(usage(), change).read().map_err(field).err();
    assert_eq!(usage(|d| d.water = words("mud")), Some(Some("water")));
    assert_eq!(usage(|d| d.week = words("6 mm")), Some(Some("week")));
    assert_eq!(usage(|d| d.wage = words("20 EUR")), Some(Some("wage")));
    let sort = |change: fn(&mut SortDraft)| with(sort("a"), change).read().map_err(field).err();
    assert_eq!(sort(|d| d.kind = words("rotor")), Some(Some("kind")));
    assert_eq!(sort(|d| d.trust = words("much")), Some(Some("trust")));
    assert_eq!(sort(|d| d.price = words("$45")), Some(Some("price")));
    assert_eq!(sort(|d| d.option = words("No key")), Some(None));
    let piece = |change: fn(&mut PieceDraft)| with(piece(), change).read().map_err(field).err();
    assert_eq!(piece(|d| d.part.clear()), Some(Some("part")));
    assert_eq!(piece(|d| d.fitted.clear()), Some(Some("fitted")));
    assert_eq!(
        piece(|d| d.elsewhere = words("maybe")),
        Some(Some("elsewhere"))
    );
    assert_eq!(piece(|d| d.end.clear()), Some(Some("end")));
    assert_eq!(piece(|d| d.ended.clear()), Some(Some("ended")));
    let rule = |change: fn(&mut RuleDraft)| with(rule(), change).read().map_err(field).err();
    assert_eq!(rule(|d| d.months = words("600")), Some(Some("months")));
    assert_eq!(rule(|d| d.after.push(words("cold"))), Some(Some("after")));
    assert_eq!(rule(|d| d.edge = words("winter")), Some(Some("edge")));
    let empty = [
        MeterDraft::default().read().map(drop),
        MishapDraft::default().read().map(drop),
        DoneDraft::default().read().map(drop),
        PointDraft::default().read().map(drop),
    ];
    let fields = empty.map(|read| read.unwrap_err().field());
    assert_eq!(fields, ["hours", "what", "task", "point"].map(Some));
    let day = MeterDraft {
        on: words("2026-02-30"),
        hours: words("1"),
    };
    assert!(day.read().unwrap_err().to_string().contains("2026-02-30"));
}

#[test]
fn law_months_run_from_one_to_a_hundred_and_twenty() {
    let months = |text: &str| said_rule("bearing", &with(rule(), |d| d.months = words(text)));
    accepted(&bare(), months("1"));
    accepted(&bare(), months("120"));
    for text in ["0", "121"] {
        let (field, said) = refused(&bare(), months(text));
        assert_eq!(field, Some("months"));
        assert!(said.contains(text) && said.contains("1 to 120"), "{said}");
    }
}

#[test]
fn law_texts_of_service_have_their_length() {
    let (long, longer) = ("x".repeat(201), "x".repeat(2001));
    let texts = [
        (
            "currency",
            said_usage(&with(usage(), |d| d.currency.clone_from(&long))),
        ),
        (
            "name",
            said_sort("soft", &with(sort("Soft"), |d| d.name.clone_from(&long))),
        ),
        (
            "note",
            said_sort("soft", &with(sort("Soft"), |d| d.note.clone_from(&longer))),
        ),
        (
            "note",
            said_piece("first", &with(piece(), |d| d.note.clone_from(&longer))),
        ),
        (
            "name",
            said_rule("bearing", &with(rule(), |d| d.name.clone_from(&long))),
        ),
        (
            "page",
            said_rule("bearing", &with(rule(), |d| d.page.clone_from(&long))),
        ),
        (
            "note",
            said(Servicing::Rechecked {
                point: Point::Gap,
                well: None,
                note: longer,
            }),
        ),
    ];
    for (field, body) in texts {
        assert_eq!(refused(&kept_up(), body).0, Some(field));
    }
    let nameless = Part::default();
    let part = Some(Box::new(nameless));
    let key = key("bare");
    let (field, said) = refused(&bare(), said(Servicing::Part { key, part }));
    assert_eq!(
        (field, said.as_str()),
        (Some("name"), "This is empty and must be filled in.")
    );
}
