//! The label of a pump, and the history its code opens. All of it is invented.

use jiff::ZonedDateTime;
use report::page::history::{self, Other};
use report::page::label::{self, Address, LONGEST_ADDRESS, Label, NoAddress, SIZES};
use report::page::{Next, Page, Section, Tone};
use workshop::entry::JobId;
use workshop::fold::fold;
use workshop::upkeep::answer::{Answer, answer};

use crate::choose::Journal;
use crate::text::text;

fn now() -> ZonedDateTime {
    "2026-06-01T10:00:00+02:00[Europe/Berlin]".parse().unwrap()
}

fn says(journal: &Journal) -> Answer {
    answer(&fold(&journal.0).0, now().date())
}

fn labelled(journal: &Journal, size: &str, address: &Address) -> (Page, Label) {
    let (job, _) = fold(&journal.0);
    let page = label::page(&label::View {
        id: &JobId::new("two-seat").unwrap(),
        job: &job,
        entries: &journal.0,
        says: &says(journal),
        size,
        address,
        path: "/job/two-seat/history",
    });
    let label = page.evidence.iter().find_map(|section| match section {
        Section::Label(label) => Some(label.as_ref().clone()),
        _ => None,
    });
    (page, label.unwrap())
}

fn asked() -> Address {
    Address::Asked("http://192.168.1.20:8080".into())
}

fn history(journal: &Journal, earlier: &[Other], later: &[Other]) -> Page {
    let (job, objections) = fold(&journal.0);
    history::page(&history::View {
        id: &JobId::new("two-seat").unwrap(),
        job: &job,
        objections: &objections,
        entries: &journal.0,
        says: &says(journal),
        earlier,
        later,
        now: &now(),
    })
}

fn closed() -> Journal {
    let mut journal = Journal::everything();
    journal.all_well();
    let says = says(&journal);
    journal.close(&says);
    journal
}

#[test]
fn practice_a_label_before_and_after_the_job_is_closed() {
    let (open, _) = labelled(&Journal::open(), "62", &asked());
    let (done, _) = labelled(&closed(), "a6", &asked());
    insta::assert_snapshot!(format!("{}\n-----\n{}", text(&open), text(&done)));
}

#[test]
fn law_the_code_and_the_words_under_it_are_one_address() {
    let (_, label) = labelled(&Journal::open(), "62", &asked());
    let code = label.code.unwrap().into_string();
    assert!(
        code.contains("http://192.168.1.20:8080/job/two-seat/history"),
        "{code}"
    );
    assert_eq!(label.short, "192.168.1.20:8080/job/two-seat/history");
    let secure = Address::Typed("https://bench.example".into());
    let (_, label) = labelled(&Journal::open(), "62", &secure);
    assert_eq!(label.short, "https://bench.example/job/two-seat/history");
}

#[test]
fn law_on_this_machine_only_is_said() {
    let here = Address::Loopback("http://127.0.0.1:8080".into());
    let (page, label) = labelled(&Journal::open(), "62", &here);
    assert_eq!(page.answer.tone, Tone::Open);
    assert!(page.answer.headline.contains("on this machine only"));
    // The field waits empty: nobody should send back what does not help.
    assert_eq!(label.typed, "");
}

#[test]
fn law_what_was_typed_stays_beside_why_it_is_refused() {
    let refusals = [
        NoAddress::Malformed,
        NoAddress::Scheme,
        NoAddress::User,
        NoAddress::Path,
        NoAddress::Loopback,
        NoAddress::Long(333),
    ];
    let mut said = Vec::new();
    for why in refusals {
        let refused = Address::Refused {
            typed: "what I typed".into(),
            why,
            instead: "http://127.0.0.1:8080".into(),
        };
        let (_, label) = labelled(&Journal::open(), "62", &refused);
        assert_eq!(label.typed, "what I typed");
        said.extend(label.refusal);
    }
    assert_eq!(said.len(), refusals.len());
    assert!(said[5].contains("333") && said[5].contains(&LONGEST_ADDRESS.to_string()));
    insta::assert_snapshot!(said.join("\n"));
}

#[test]
fn law_a_size_nobody_knows_is_the_first_and_only_a_sheet_has_copies() {
    for (size, expected, copies) in [("62", "62", 1), ("sheet", "sheet", 6), ("huge", "62", 1)] {
        let (_, label) = labelled(&Journal::open(), size, &asked());
        assert_eq!((label.size, label.copies), (expected, copies));
    }
    assert_eq!(SIZES.len(), 3);
}

#[test]
fn law_the_longest_address_and_job_still_make_a_code_that_a_camera_reads() {
    let base = format!("https://{}.example", "a".repeat(LONGEST_ADDRESS - 16));
    let path = format!("/job/{}/history", "b".repeat(64));
    let code = chart::qr(&format!("{base}{path}")).unwrap().into_string();
    let side: f64 = code
        .split("0 0 ")
        .nth(1)
        .unwrap()
        .split(' ')
        .next()
        .unwrap()
        .parse()
        .unwrap();
    // 30 mm with the free modules; cameras of phones read modules of 0.4 mm at arm's length: common practice.
    assert!(30.0 / side > 0.4, "{side} modules on 30 mm");
}

#[test]
fn practice_a_history_with_jobs_before_and_after() {
    let other = |id: &str, here: Option<&str>| Other {
        id: JobId::new(id).unwrap(),
        here: here.map(|title| (title.to_owned(), "2025-10-01".parse().unwrap())),
    };
    let earlier = [
        other("last-autumn", Some("Autumn: new ring")),
        other("before-all", None),
    ];
    let later = [other("next-spring", Some("Spring: gravel again"))];
    let page = history(&closed(), &earlier, &later);
    assert!(matches!(&page.next, Next::Go { .. }));
    insta::assert_snapshot!(text(&page));
}

#[test]
fn law_a_history_without_a_plan_and_after_a_mishap_says_so() {
    let page = history(&Journal::open(), &[], &[]);
    assert_eq!(page.answer.tone, Tone::Open);
    assert!(
        page.answer.headline.starts_with("No plan says"),
        "{}",
        page.answer.headline
    );
    let mut struck = closed();
    struck.happened("strike", "2026-05-03");
    let page = history(&struck, &[], &[]);
    assert_eq!(page.answer.tone, Tone::Stop);
    assert!(
        page.answer
            .headline
            .contains("look at the pump before it runs")
    );
}
