//! What is looked at and measured around the gap.

use quantity::Unit;
use workshop::act::Act;
use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::entry::{Body, Key};
use workshop::inspect::Area;
use workshop::inspect::parts::{Look, Unfit, blades_left, teardown};
use workshop::inspect::rotor::Fault;
use workshop::refusal::Refusal;

use crate::journal::Journal;

pub(crate) type Fields<'a> = &'a [(&'a str, &'a str)];

pub(crate) fn draft(sheet: Sheet, key: &str, fields: Fields) -> InspectionDraft {
    for (name, _) in fields {
        assert!(sheet.fields().contains(name), "{name}");
    }
    InspectionDraft::new(sheet, key.to_owned(), |field| {
        let found = fields.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    })
}

/// With the text of some fields in place of others.
pub(crate) fn with<'a>(
    fields: &[(&'a str, &'a str)],
    other: &[(&'a str, &'a str)],
) -> Vec<(&'a str, &'a str)> {
    let kept = fields
        .iter()
        .filter(|(name, _)| !other.iter().any(|(n, _)| n == name));
    kept.chain(other).copied().collect()
}

pub(crate) fn say(
    journal: &mut Journal,
    sheet: Sheet,
    key: &str,
    fields: Fields,
) -> Result<(), Refusal> {
    let said = draft(sheet, key, fields).read(Unit::Thou)?;
    journal.try_act(Act::Record(Body::Inspected(said)))
}

pub(crate) fn keep(journal: &mut Journal, sheet: Sheet, key: &str, fields: Fields) {
    say(journal, sheet, key, fields).unwrap();
}

fn refused(journal: &Journal, sheet: Sheet, fields: Fields) -> (Option<&'static str>, String) {
    let refusal = say(&mut journal.clone(), sheet, "x", fields).unwrap_err();
    (refusal.field(), refusal.to_string())
}

const ROTOR: Fields = &[
    ("float_aft", "0.05"),
    ("float_forward", "-0.10"),
    ("float_limit", "0.3"),
    ("spin", "smooth"),
];
pub(crate) const LEAK: Fields = &[
    ("push", "pressure"),
    ("start", "70"),
    ("end", "70"),
    ("hold", "10"),
    ("start_temperature", "20"),
    ("end_temperature", "20"),
    ("turned", "yes"),
    ("step", "1"),
    ("allowed", "5"),
];
pub(crate) const NICK: Fields = &[
    ("area", "blades"),
    ("which", "A"),
    ("flaw", "nick-leading"),
    ("todo", "dress"),
];
pub(crate) const CONE: Fields = &[
    ("half_angle", "10"),
    ("fitted", "0.3"),
    ("shims", "0.1 0.3 0.5"),
    ("stack", "opens"),
];
pub(crate) const REREAD: Fields = &[
    ("clock_12", "13-14"),
    ("clock_3", "13-14"),
    ("clock_6", "13-14"),
    ("clock_9", "13-14"),
    ("turns", "free"),
];
pub(crate) const VISIT: Fields = &[("hours", "48"), ("gap", "13-14"), ("figure", "mean")];
pub(crate) const RING: Fields = &[
    ("seat", "plastic-pressed"),
    ("polymer", "nylon"),
    ("wall", "6"),
    ("soaked", "dry"),
    ("turning", "stainless"),
    ("bench", "20"),
    ("water", "5"),
];

#[test]
fn law_a_sheet_reads_as_it_was_filled() {
    for (sheet, key, fields) in [
        (Sheet::Rotor, "", ROTOR),
        (Sheet::Leak, "", LEAK),
        (Sheet::Finding, "nick", NICK),
        (
            Sheet::Settled,
            "nick",
            &[("how", "accepted"), ("reason", "shallow")][..],
        ),
        (
            Sheet::Sizes,
            "",
            &[("bore_12", "140.2"), ("bore_430", "5.52 in")],
        ),
        (Sheet::Ring, "", RING),
        (Sheet::Cone, "", CONE),
        (Sheet::Reread, "", REREAD),
        (Sheet::Visit, "h-48", VISIT),
        (
            Sheet::Visit,
            "h-9",
            &[("hours", "9"), ("gap", "0.33-0.36 mm"), ("figure", "least")],
        ),
    ] {
        let said = draft(sheet, key, fields).read(Unit::Thou).unwrap();
        let again = InspectionDraft::of(&said, Unit::Thou);
        assert_eq!(again.read(Unit::Thou).unwrap(), said, "{again:?}");
        // And in the other unit of the leaves: a bare number then gets its unit.
        let metric = InspectionDraft::of(&said, Unit::Millimetre);
        let InspectionDraft { sheet, key, fields } = metric.clone();
        let back = InspectionDraft::of(&metric.read(Unit::Millimetre).unwrap(), Unit::Millimetre);
        assert_eq!(back, InspectionDraft { sheet, key, fields });
    }
}

#[test]
fn practice_no_file_mends_a_crack_a_bend_or_a_tip() {
    let journal = Journal::described();
    for flaw in ["root-crack", "missing-piece", "bent", "tip-rounded"] {
        let (field, why) = refused(&journal, Sheet::Finding, &with(NICK, &[("flaw", flaw)]));
        assert_eq!(field, Some("todo"));
        assert!(
            why.contains("Send it out") && why.contains("no source"),
            "{why}"
        );
        for todo in ["send-out", "scrap"] {
            let fields = with(NICK, &[("flaw", flaw), ("todo", todo)]);
            keep(&mut journal.clone(), Sheet::Finding, "f", &fields);
        }
    }
    keep(&mut journal.clone(), Sheet::Finding, "f", NICK);
}

#[test]
#[expect(clippy::too_many_lines, reason = "one refusal a row, read as a table")]
fn law_a_refusal_names_the_value_the_limit_and_the_way_out() {
    let journal = Journal::described();
    for (sheet, fields, field, words) in [
        (
            Sheet::Rotor,
            with(ROTOR, &[("float_aft", "50")]),
            "float_aft",
            "“50” was read as 50\u{a0}mm, which is outside -25 to 25\u{a0}mm.",
        ),
        (
            Sheet::Rotor,
            vec![("page", "5-9")],
            "float_aft",
            "Nothing is filled in.",
        ),
        (
            Sheet::Rotor,
            vec![("track", "smooth"), ("groove", "0.1")],
            "groove",
            "A depth, and no groove is felt.",
        ),
        (
            Sheet::Leak,
            with(LEAK, &[("start", "70 psi")]),
            "start",
            "“70 psi” is outside 0.146 to 14.5\u{a0}psi.",
        ),
        (
            Sheet::Leak,
            with(LEAK, &[("start_temperature", "-40")]),
            "start_temperature",
            "“-40” was read as -40\u{a0}°C, which is outside -20 to 60\u{a0}°C.",
        ),
        (
            Sheet::Leak,
            with(LEAK, &[("end_temperature", "")]),
            "end_temperature",
            "This is empty",
        ),
        (
            Sheet::Finding,
            with(NICK, &[("which", "D")]),
            "which",
            "“D” names no blade: this impeller has 3, lettered from A.",
        ),
        (
            Sheet::Finding,
            with(NICK, &[("area", "vanes"), ("which", "99")]),
            "which",
            "“99” names no vane.",
        ),
        (
            Sheet::Finding,
            with(NICK, &[("area", "seal")]),
            "which",
            "There is one of these only, so “A” says too much here.",
        ),
        (
            Sheet::Finding,
            with(NICK, &[("which", "")]),
            "which",
            "This is empty",
        ),
        (
            Sheet::Finding,
            with(NICK, &[("todo", "fit")]),
            "reason",
            "This is empty",
        ),
        (
            Sheet::Finding,
            with(NICK, &[("flaw", "other")]),
            "words",
            "This is empty",
        ),
        (
            Sheet::Finding,
            with(NICK, &[("flaw", "nothing")]),
            "todo",
            "Nothing was found",
        ),
        (
            Sheet::Sizes,
            vec![("impeller", "139"), ("method", "two-tips")],
            "method",
            "With 3 blades no tip stands across",
        ),
        (
            Sheet::Ring,
            with(RING, &[("wall", "6 in")]),
            "wall",
            "“6 in” is outside 0.0197 to 1.96\u{a0}in.",
        ),
        (
            Sheet::Cone,
            with(CONE, &[("shims", "")]),
            "shims",
            "This is empty",
        ),
        (
            Sheet::Reread,
            with(REREAD, &[("clock_6", "loose")]),
            "clock_6",
            "“loose” is not understood.",
        ),
        (
            Sheet::Reread,
            with(REREAD, &[("turns", "rubs")]),
            "rubs",
            "This is empty",
        ),
        (
            Sheet::Reread,
            with(REREAD, &[("rubs", "at 4")]),
            "rubs",
            "It cannot turn free and rub.",
        ),
        (
            Sheet::Visit,
            with(VISIT, &[("gap", "14-13")]),
            "gap",
            "“14” must be smaller than “13”.",
        ),
    ] {
        let (at, why) = refused(&journal, sheet, &fields);
        assert_eq!(at, Some(field), "{why}");
        assert!(why.starts_with(words), "{why}");
    }
    let shims = ["0.1"; 17].join(" ");
    let (_, why) = refused(&journal, Sheet::Cone, &with(CONE, &[("shims", &shims)]));
    assert!(why.starts_with("17 are too many: at most 16"), "{why}");
    let (_, why) = refused(&journal, Sheet::Settled, &[("how", "repaired")]);
    assert_eq!(why, "There is no finding “x” in this job. Note it first.");
}

#[test]
fn law_the_gap_of_this_job_belongs_to_one_visit() {
    let mut journal = Journal::described();
    let now: Fields = &[("hours", "60"), ("figure", "mean")];
    keep(&mut journal, Sheet::Visit, "now", now);
    keep(
        &mut journal,
        Sheet::Visit,
        "now",
        &with(now, &[("hours", "61")]),
    );
    let (field, _) = refused(&journal, Sheet::Visit, now);
    assert_eq!(field, Some("gap"));
}

#[test]
fn law_a_finding_stays_open_until_someone_says_what_became_of_it() {
    let mut journal = Journal::described();
    let scored: Fields = &[("area", "ring"), ("flaw", "scored"), ("todo", "scrap")];
    keep(&mut journal, Sheet::Finding, "ring", scored);
    keep(&mut journal, Sheet::Finding, "nick", NICK);
    let state = teardown(&journal.job());
    let key = |text: &str| Key::new(text).unwrap();
    assert_eq!(state.unfit, [Unfit::Finding(key("ring"))]);
    assert_eq!(state.dress, [key("nick")]);
    assert_eq!(
        state.seen,
        [Look::Area(Area::Blades), Look::Area(Area::Ring)]
    );

    let (field, _) = refused(&journal, Sheet::Settled, &[("how", "accepted")]);
    assert_eq!(field, None);
    let accepted = say(
        &mut journal.clone(),
        Sheet::Settled,
        "ring",
        &[("how", "accepted")],
    );
    assert_eq!(accepted.unwrap_err().field(), Some("reason"));
    keep(&mut journal, Sheet::Settled, "ring", &[("how", "replaced")]);
    keep(&mut journal, Sheet::Settled, "nick", &[("how", "repaired")]);
    let state = teardown(&journal.job());
    assert!(state.unfit.is_empty() && state.dress.is_empty());
    journal.act(Act::Undo);
    assert_eq!(teardown(&journal.job()).dress, [key("nick")]);
    journal.act(Act::Redo);
    // Noted anew, it is open again.
    keep(&mut journal, Sheet::Finding, "ring", scored);
    assert_eq!(
        teardown(&journal.job()).unfit,
        [Unfit::Finding(key("ring"))]
    );
}

#[test]
fn practice_blades_are_dressed_alike() {
    let mut journal = Journal::described();
    assert_eq!(blades_left(&journal.job()), Vec::<String>::new());
    keep(
        &mut journal,
        Sheet::Finding,
        "nick",
        &with(NICK, &[("which", "a, c")]),
    );
    assert_eq!(blades_left(&journal.job()), ["B"]);
    keep(
        &mut journal,
        Sheet::Finding,
        "other",
        &with(NICK, &[("which", "B")]),
    );
    assert_eq!(blades_left(&journal.job()), Vec::<String>::new());
}

#[test]
fn practice_a_rough_bearing_and_a_spline_step_are_not_fit() {
    for (fields, fault) in [
        (("spin", "rough"), Fault::Rough),
        (("spin", "gritty"), Fault::Gritty),
        (("spin", "binds"), Fault::Binds),
        (("spline_step", "yes"), Fault::SplineStep),
    ] {
        let mut journal = Journal::described();
        keep(&mut journal, Sheet::Rotor, "", &with(ROTOR, &[fields]));
        assert_eq!(teardown(&journal.job()).unfit, [Unfit::Rotor(fault)]);
    }
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Rotor, "", ROTOR);
    assert_eq!(teardown(&journal.job()).unfit, []);
    keep(
        &mut journal,
        Sheet::Rotor,
        "",
        &with(ROTOR, &[("float_limit", "0.10")]),
    );
    assert_eq!(teardown(&journal.job()).unfit.len(), 1);
}
