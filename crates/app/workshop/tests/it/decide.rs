//! Each refusal in the words a person reads: the value, the limit, the way out.

use clearance::Answer;
use quantity::Entered;
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::entry::{Body, EntryId, JobId};
use workshop::job::{Job, LeafSet, Limits, Measure, Pump, Walk};
use workshop::refusal::Refusal;

use crate::journal::{Journal, leaves, limits, mm, opened, pump, stamp, thou, tried};

fn refused(job: &Job, body: Body) -> Refusal {
    decide(job, Act::Record(body), stamp("next")).unwrap_err()
}

/// A body, the field its refusal belongs to, and the sentence.
type Case = (Body, Option<&'static str>, &'static str);

fn check(job: &Job, cases: Vec<Case>) {
    for (body, field, sentence) in cases {
        let refusal = refused(job, body.clone());
        assert_eq!(refusal.to_string(), sentence, "{body:?}");
        assert_eq!(refusal.field(), field, "{sentence}");
    }
}

fn opening(title: &str, note: &str) -> Body {
    Body::JobOpened {
        title: title.into(),
        note: note.into(),
        follows: None,
    }
}

#[test]
fn law_an_accepted_act_becomes_one_stamped_entry() {
    let job = Journal::described().job();
    let body = Body::LimitsStated(limits());
    let new = decide(&job, Act::Record(body.clone()), stamp("next")).unwrap();
    assert_eq!(new.len(), 1);
    assert_eq!(new[0].id.as_str(), "next");
    assert_eq!(new[0].seen, 3);
    assert_eq!(new[0].happened_at, stamp("next").now);
    assert_eq!((&*new[0].device, &*new[0].who), ("tablet", "A. Example"));
    assert_eq!(new[0].program, workshop::PROGRAM);
    assert_eq!(new[0].body, body);
}

#[test]
fn law_a_job_is_opened_once_and_first() {
    let long = "x".repeat(201);
    check(
        &Job::default(),
        vec![
            (
                opening(" ", ""),
                Some("title"),
                "This is empty and must be filled in.",
            ),
            (
                opening(&long, ""),
                Some("title"),
                "This text has 201 characters; it may have 200, and no control characters. \
                 Shorten it.",
            ),
            (
                opening("Job", "bell \u{7}"),
                Some("note"),
                "This text has 6 characters; it may have 2000, and no control characters. \
                 Shorten it.",
            ),
            (Body::PumpDescribed(pump()), None, "Open the job first."),
        ],
    );
    let mut journal = Journal::default();
    journal.act(opened());
    check(
        &journal.job(),
        vec![
            (
                opening("Job", ""),
                None,
                "This job is open already. Choose another id.",
            ),
            (
                tried(0, 0, &[("13", Answer::Goes)]),
                None,
                "Describe the pump first: blades, clock positions, bore.",
            ),
        ],
    );
    journal.record(Body::PumpDescribed(pump()));
    check(
        &journal.job(),
        vec![(
            tried(0, 0, &[("13", Answer::Goes)]),
            None,
            "Describe the leaves first: thicknesses, width, how they are led in.",
        )],
    );
}

#[test]
fn law_a_pump_out_of_range_is_refused() {
    let with = |blades, positions, bore: &str| {
        Body::PumpDescribed(Pump {
            blades,
            positions,
            bore: mm(bore),
            ..pump()
        })
    };
    check(
        &Journal::described().job(),
        vec![
            (
                with(1, 4, "140"),
                Some("blades"),
                "“1” will not do here: write a number of blades from 2 to 8.",
            ),
            (
                with(9, 4, "140"),
                Some("blades"),
                "“9” will not do here: write a number of blades from 2 to 8.",
            ),
            (
                with(3, 5, "140"),
                Some("positions"),
                "“5” will not do here: write 4, 6, 8 or 12 clock positions.",
            ),
            (
                with(3, 4, "49.9"),
                Some("bore"),
                "“49.9” was read as 49.9\u{a0}mm, which is outside 50 to 500\u{a0}mm. Check the \
                 unit and the decimal point.",
            ),
            (
                with(3, 4, "14 m"),
                Some("bore"),
                "“14 m” is outside 0.05 to 0.5\u{a0}m. Check the unit and the \
                 decimal point.",
            ),
        ],
    );
}

#[test]
fn law_leaves_out_of_range_or_order_are_refused() {
    let with = |thicknesses: Vec<Entered>| {
        Body::LeavesDescribed(LeafSet {
            thicknesses,
            ..leaves()
        })
    };
    let many = (0..65).map(|n| thou(&format!("{}", 10 + n))).collect();
    let other = |change: fn(&mut LeafSet)| {
        let mut leaves = leaves();
        change(&mut leaves);
        Body::LeavesDescribed(leaves)
    };
    check(
        &Journal::described().job(),
        vec![
            (
                with(Vec::new()),
                Some("thicknesses"),
                "This is empty and must be filled in.",
            ),
            (
                with(many),
                Some("thicknesses"),
                "“65” will not do here: write 1 to 64 leaves.",
            ),
            (
                with(vec![mm("13")]),
                Some("thicknesses"),
                "“13” was read as 13\u{a0}mm, which is outside 0.01 to 3\u{a0}mm. Check the unit \
                 and the decimal point; for thousandths of an inch write 13\u{a0}thou.",
            ),
            (
                with(vec![thou("13"), mm("0.3302")]),
                Some("thicknesses"),
                "The leaf “0.3302” is in the list twice. Take one out.",
            ),
            (
                other(|leaves| leaves.width = mm("60")),
                Some("width"),
                "“60” was read as 60\u{a0}mm, which is outside 1 to 50\u{a0}mm. Check the unit \
                 and the decimal point; for thousandths of an inch write 60\u{a0}thou.",
            ),
            (
                other(|leaves| leaves.tolerance = Some(mm("-0.01"))),
                Some("tolerance"),
                "“-0.01” was read as -0.01\u{a0}mm, which is outside 0 to 0.1\u{a0}mm. Check the \
                 unit and the decimal point.",
            ),
            (
                other(|leaves| leaves.feel = Some(mm("0"))),
                Some("feel"),
                "“0” was read as 0\u{a0}mm, which is outside 0.001 to 0.2\u{a0}mm. Check the unit \
                 and the decimal point.",
            ),
        ],
    );
}

#[test]
fn law_limits_and_walks_out_of_range_or_order_are_refused() {
    let limits = |least: Option<&str>, greatest: Option<&str>| {
        Body::LimitsStated(Limits {
            least: least.map(thou),
            greatest: greatest.map(thou),
            measure: Measure::Radial,
            page: String::new(),
            rub_in: false,
        })
    };
    let walk = |go: &str, no_go: &str| {
        Body::WalkChosen(Walk::TwoLeaves {
            go: thou(go),
            no_go: thou(no_go),
        })
    };
    check(
        &Journal::described().job(),
        vec![
            (
                limits(None, None),
                Some("least"),
                "This is empty and must be filled in.",
            ),
            (
                limits(None, Some("1 in")),
                Some("greatest"),
                "“1 in” is outside 0.00197 to 0.236\u{a0}in. Check the unit and the decimal \
                 point.",
            ),
            (
                // An inch figure on thou leaves must not pass for a limit nothing can miss.
                limits(Some("0.013"), None),
                Some("least"),
                "“0.013” was read as 0.013\u{a0}thou, which is outside 1.97 to 236\u{a0}thou. \
                 Check the unit and the decimal point; for inches write 0.013\u{a0}in.",
            ),
            (
                limits(None, Some("0")),
                Some("greatest"),
                "“0” was read as 0\u{a0}thou, which is outside 1.97 to 236\u{a0}thou. Check the \
                 unit and the decimal point.",
            ),
            (
                limits(Some("20"), Some("0.3 mm")),
                Some("least"),
                "“20” must be smaller than “0.3 mm”. Swap them or mend one.",
            ),
            (
                limits(Some("10"), Some("10")),
                Some("least"),
                "“10” must be smaller than “10”. Swap them or mend one.",
            ),
            (
                walk("0", "13"),
                Some("go"),
                "“0” was read as 0\u{a0}thou, which is outside 0.394 to 118\u{a0}thou. Check the \
                 unit and the decimal point.",
            ),
            (
                walk("14", "13"),
                Some("go"),
                "“14” must be smaller than “13”. Swap them or mend one.",
            ),
        ],
    );
}

#[test]
fn law_a_try_that_cannot_be_is_refused() {
    let many: Vec<(&str, Answer)> = vec![("13", Answer::Goes); 17];
    check(
        &Journal::described().job(),
        vec![
            (
                tried(3, 0, &[("13", Answer::Goes)]),
                Some("spot"),
                "There is no blade D: this pump has 3 blades, A to C.",
            ),
            (
                tried(0, 4, &[("13", Answer::Goes)]),
                Some("spot"),
                "There is no such place: this pump is read at 4 clock positions.",
            ),
            (
                tried(0, 0, &[]),
                Some("reading"),
                "This is empty and must be filled in.",
            ),
            (
                tried(0, 0, &many),
                Some("reading"),
                "“17” will not do here: write 1 to 16 leaves at a time.",
            ),
            (
                tried(0, 0, &[("130", Answer::Goes)]),
                Some("reading"),
                "“130” was read as 130\u{a0}thou, which is outside 0.394 to 118\u{a0}thou. Check \
                 the unit and the decimal point.",
            ),
            (
                tried(0, 0, &[("0.40", Answer::Goes)]),
                Some("reading"),
                "“0.40” was read as 0.40\u{a0}thou; your leaves are 10 to 15\u{a0}thou. Check \
                 the unit and the decimal point; for millimetres write 0.40\u{a0}mm.",
            ),
        ],
    );
}

#[test]
fn law_a_result_is_taken_only_as_it_stands() {
    let mut journal = Journal::described();
    journal.record(tried(0, 0, &[("13", Answer::Goes), ("14", Answer::WontGo)]));
    let shown = Body::GapAccepted(journal.shown());
    journal.record(tried(0, 1, &[("13", Answer::Goes)]));
    check(
        &journal.job(),
        vec![(
            shown.clone(),
            None,
            "The readings changed since this result was shown. Look at the new result, then take \
             it.",
        )],
    );
    journal.act(Act::Undo);
    journal.record(shown.clone());
    assert!(journal.job().accepted.is_some());

    let mut bare = Journal::default();
    bare.act(opened());
    check(
        &bare.job(),
        vec![(
            shown,
            None,
            "Describe the pump first: blades, clock positions, bore.",
        )],
    );
}

#[test]
fn law_only_undo_and_redo_withdraw() {
    let journal = Journal::described();
    let entry = EntryId::new("e-2").unwrap();
    check(
        &journal.job(),
        vec![(
            Body::Withdrawn { entry },
            None,
            "There is no entry “e-2” here to withdraw.",
        )],
    );
    let nothing = |act| decide(&Job::default(), act, stamp("next")).unwrap_err();
    assert_eq!(nothing(Act::Undo).to_string(), "There is nothing to undo.");
    assert_eq!(
        nothing(Act::Redo).to_string(),
        "There is nothing to restore."
    );
}

#[test]
fn law_a_job_of_a_newer_program_is_read_only() {
    let sentence = "A newer program wrote “future-kind” (version 2) in this job. It can be read \
                    here but not changed; open it with the newer program.";
    let unknown = Body::Unknown {
        kind: "future-kind".into(),
        version: 2,
        json: "{}".into(),
    };
    let mut journal = Journal::described();
    check(&journal.job(), vec![(unknown.clone(), None, sentence)]);
    journal.force(unknown);
    for act in [
        Act::Undo,
        Act::Redo,
        Act::Record(Body::LimitsStated(limits())),
    ] {
        let refusal = decide(&journal.job(), act, stamp("next")).unwrap_err();
        assert_eq!(refusal.to_string(), sentence);
    }
}

#[test]
fn law_who_and_device_are_short() {
    let refused = |device: &str, who: &str| {
        let stamp = Stamp {
            device: device.into(),
            who: who.into(),
            ..stamp("next")
        };
        decide(&Job::default(), opened(), stamp)
            .unwrap_err()
            .field()
    };
    let long = "x".repeat(201);
    assert_eq!(refused(&long, ""), Some("device"));
    assert_eq!(refused("", &long), Some("who"));
}

#[test]
fn law_ids_are_plain() {
    let longest = "x".repeat(64);
    for id in ["a", "spring-2026", longest.as_str()] {
        assert_eq!(JobId::new(id).unwrap().as_str(), id);
        assert_eq!(EntryId::new(id).unwrap().to_string(), id);
    }
    let long = "x".repeat(65);
    for id in ["", "A", "a b", "a/b", "ä", "..", long.as_str()] {
        assert!(JobId::new(id).is_err(), "{id}");
        assert!(EntryId::new(id).is_err(), "{id}");
    }
    assert_eq!(
        JobId::new("No 1").unwrap_err().to_string(),
        "“No 1” is no id: 1 to 64 lower-case letters, digits and hyphens."
    );
}
