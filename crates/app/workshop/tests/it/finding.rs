//! Findings: what can be found where, how much it matters, and what it holds up.

use clearance::Verdict;
use jiff::Timestamp;
use quantity::Unit;
use workshop::act::Act;
use workshop::audit::{About, Line, State, audit};
use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::entry::Body;
use workshop::gap::Shown;
use workshop::inspect::parts::{Unfit, held, teardown};
use workshop::inspect::{Area, Flaw, Inspection, Severity};

use crate::inspect::{Fields, LEAK, NICK, REREAD, draft, keep, say, with};
use crate::journal::Journal;

const SNAPPED: Fields = &[
    ("area", "bolts"),
    ("which", "Upper left"),
    ("flaw", "snapped"),
    ("todo", "repair"),
];

fn why(journal: &Journal, fields: Fields) -> (Option<&'static str>, String) {
    let refusal = say(&mut journal.clone(), Sheet::Finding, "x", fields).unwrap_err();
    (refusal.field(), refusal.to_string())
}

/// Every flaw is at home somewhere, and a person is never left without a word for what they see.
#[test]
fn law_every_flaw_is_found_somewhere_and_every_part_has_flaws_of_its_own() {
    for flaw in Flaw::ALL {
        assert!(
            Area::ALL.iter().any(|area| flaw.makes_sense_at(*area)),
            "{flaw:?}"
        );
    }
    for area in Area::ALL {
        let flaws = area.flaws();
        assert!(flaws.contains(&Flaw::Nothing) && flaws.contains(&Flaw::Other));
        assert!(flaws.len() >= 3, "{area:?}");
    }
}

#[test]
fn law_a_combination_that_makes_no_sense_is_refused_with_the_way_out() {
    let journal = Journal::described();
    for (area, flaw) in [
        ("bearing", "nick-leading"),
        ("anode", "torn-boot"),
        ("bolts", "spun-insert"),
        ("ring", "root-crack"),
        ("grate", "tip-rounded"),
        ("seal", "spun-insert"),
    ] {
        let fields: Fields = &[("area", area), ("flaw", flaw), ("todo", "scrap")];
        let (field, words) = why(&journal, fields);
        assert_eq!(field, Some("flaw"));
        assert!(words.contains("There it may be:"), "{words}");
        assert!(words.contains("something else"), "{words}");
    }
    let (_, words) = why(
        &journal,
        &[
            ("area", "bolts"),
            ("flaw", "spun-insert"),
            ("todo", "scrap"),
        ],
    );
    assert_eq!(
        words,
        "“spun insert” is not found at “bolts”. There it may be: bent, corroded, snapped, pulled \
         thread, seized, stretched, loose. Choose one of these, or another part, or “something \
         else” in your own words."
    );
}

#[test]
fn practice_what_a_file_does_not_mend_is_refused_and_repair_is_the_way_out() {
    let journal = Journal::described();
    let (field, words) = why(&journal, &with(SNAPPED, &[("todo", "dress")]));
    assert_eq!(field, Some("todo"));
    assert!(words.contains("Repair it at the bench"), "{words}");
    keep(&mut journal.clone(), Sheet::Finding, "bolt", SNAPPED);
}

#[test]
fn law_a_name_stays_as_it_was_written_and_a_blade_is_a_capital() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Finding, "bolt", SNAPPED);
    keep(
        &mut journal,
        Sheet::Finding,
        "nick",
        &with(NICK, &[("which", "a")]),
    );
    let which = |key: &str| {
        let job = journal.job();
        let mut all = job.inspected.findings_in_order().into_iter();
        let (_, state) = all.find(|(k, _)| k.as_str() == key).unwrap();
        state.finding.value.which.clone()
    };
    assert_eq!(
        (which("bolt"), which("nick")),
        ("Upper left".into(), "A".into())
    );
}

#[test]
fn law_severity_is_as_usual_unless_a_reason_says_otherwise() {
    let mut journal = Journal::described();
    let read = |fields: Fields| match draft(Sheet::Finding, "x", fields).read(Unit::Thou).unwrap() {
        Inspection::Found { finding, .. } => finding.severity,
        other => panic!("{other:?}"),
    };
    assert_eq!(read(SNAPPED), Severity::Float);
    assert_eq!(read(NICK), Severity::Watch);
    let milder = with(SNAPPED, &[("severity", "watch")]);
    let (field, words) = why(&journal, &milder);
    assert_eq!(field, Some("severity_why"));
    assert!(
        words.starts_with("It usually stops the craft from floating."),
        "{words}"
    );
    let milder = with(&milder, &[("severity_why", "a spare hole, not used")]);
    keep(&mut journal, Sheet::Finding, "bolt", &milder);
    assert_eq!(held(&journal.job())[0].severity, Severity::Watch);
    let sound: Fields = &[
        ("area", "anode"),
        ("flaw", "nothing"),
        ("todo", "fit"),
        ("severity", "stops-floating"),
    ];
    assert_eq!(why(&journal, sound).0, Some("severity"));
}

#[test]
fn law_what_is_open_is_held_and_what_is_closed_is_not() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Finding, "bolt", SNAPPED);
    let open = held(&journal.job());
    assert_eq!(open[0].what, "bolts Upper left, snapped");
    for settled in [
        &[("how", "replaced")][..],
        &[("how", "repaired"), ("reason", "drilled out")],
        &[
            ("how", "accepted"),
            ("reason", "the manual has no bolt there"),
        ],
    ] {
        let mut closed = journal.clone();
        keep(&mut closed, Sheet::Settled, "bolt", settled);
        assert_eq!(held(&closed.job()), []);
        // Noted anew it is open again.
        keep(&mut closed, Sheet::Finding, "bolt", SNAPPED);
        assert_eq!(held(&closed.job()).len(), 1);
    }
    let accepted = say(
        &mut journal.clone(),
        Sheet::Settled,
        "bolt",
        &[("how", "accepted")],
    );
    assert_eq!(accepted.unwrap_err().field(), Some("reason"));
}

/// A result that is out is a finding that nobody had to note.
#[test]
fn law_a_result_that_is_out_is_a_finding_by_itself() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Leak, "", &with(LEAK, &[("end", "40")]));
    keep(
        &mut journal,
        Sheet::Rotor,
        "",
        &[("spin", "binds"), ("spline_step", "yes")],
    );
    let keys = |journal: &Journal| -> Vec<String> {
        held(&journal.job())
            .iter()
            .map(|held| held.key.to_string())
            .collect()
    };
    assert_eq!(keys(&journal), ["rotor-out", "leak-out"]);
    assert_eq!(held(&journal.job())[0].severity, Severity::Float);
    // Both are lines of the account, and stay lines of it.
    let account = |journal: &Journal| -> Vec<(&str, State)> {
        let lines = audit(&journal.job(), Timestamp::UNIX_EPOCH).lines;
        let result = |line: &Line| match line.about {
            About::Result(own) => Some((own, line.state())),
            _ => None,
        };
        lines.iter().filter_map(result).collect()
    };
    assert_eq!(
        account(&journal),
        [("rotor-out", State::Open), ("leak-out", State::Open)]
    );
    // It cannot be said to be mended; it is measured anew, or taken as it is with a reason.
    let mended = say(
        &mut journal.clone(),
        Sheet::Settled,
        "leak-out",
        &[("how", "repaired")],
    );
    let mended = mended.unwrap_err();
    assert_eq!(mended.field(), Some("how"));
    assert!(mended.to_string().contains("measured anew"), "{mended}");
    let fine = say(
        &mut journal.clone(),
        Sheet::Settled,
        "gap-out",
        &[("how", "accepted"), ("reason", "so")],
    );
    assert!(
        fine.unwrap_err()
            .to_string()
            .contains("There is no finding")
    );
    keep(
        &mut journal,
        Sheet::Settled,
        "leak-out",
        &[
            ("how", "accepted"),
            ("reason", "the manual tests it in oil"),
        ],
    );
    assert_eq!(keys(&journal), ["rotor-out"]);
    assert_eq!(
        account(&journal),
        [("rotor-out", State::Open), ("leak-out", State::ByReason)]
    );
    // Out once more, it is open once more.
    keep(&mut journal, Sheet::Leak, "", &with(LEAK, &[("end", "41")]));
    assert_eq!(keys(&journal), ["rotor-out", "leak-out"]);
    keep(&mut journal, Sheet::Leak, "", LEAK);
    assert_eq!(keys(&journal), ["rotor-out"]);
    assert_eq!(
        account(&journal),
        [("rotor-out", State::Open), ("leak-out", State::Accounted)]
    );
}

#[test]
fn law_a_gap_taken_as_out_is_a_finding_until_it_is_answered() {
    let mut journal = Journal::rich();
    let out = Shown {
        verdict: Verdict::Out,
        ..journal.shown()
    };
    journal.record(Body::GapAccepted(out));
    assert_eq!(held(&journal.job()).last().unwrap().key.as_str(), "gap-out");
    keep(
        &mut journal,
        Sheet::Settled,
        "gap-out",
        &[
            ("how", "accepted"),
            ("reason", "one season more, flat water"),
        ],
    );
    assert!(!teardown(&journal.job()).unfit.contains(&Unfit::Gap));
    journal.act(Act::Undo);
    assert!(teardown(&journal.job()).unfit.contains(&Unfit::Gap));
}

#[test]
fn law_a_severity_comes_back_out_of_its_sheet() {
    for severity in [
        &[][..],
        &[("severity", "watch"), ("severity_why", "seen before")],
    ] {
        let said = draft(Sheet::Finding, "bolt", &with(SNAPPED, severity));
        let said = said.read(Unit::Thou).unwrap();
        let again = InspectionDraft::of(&said, Unit::Thou);
        assert_eq!(again.read(Unit::Thou).unwrap(), said);
    }
}

#[test]
fn law_a_second_reading_that_was_answered_is_no_open_line() {
    let mut journal = Journal::rich();
    let rubs: Fields = &[("turns", "rubs"), ("rubs", "at 4")];
    keep(&mut journal, Sheet::Reread, "", &with(REREAD, rubs));
    let reread = |journal: &Journal| {
        let lines = audit(&journal.job(), Timestamp::UNIX_EPOCH).lines;
        let line = lines.iter().find(|line| line.about == About::Reread);
        line.unwrap().state()
    };
    assert_eq!(reread(&journal), State::Open);
    let reason: Fields = &[("how", "accepted"), ("reason", "rubs on paint only")];
    keep(&mut journal, Sheet::Settled, "reread-out", reason);
    assert_eq!(reread(&journal), State::ByReason);
    // Out once more, it is open once more.
    keep(&mut journal, Sheet::Reread, "", &with(REREAD, rubs));
    assert_eq!(reread(&journal), State::Open);
}
