//! The fold is total, and a withdrawal can always be taken back.

use clearance::Answer;
use proptest::prelude::*;
use quantity::Unit;
use workshop::act::Act;
use workshop::choose::Choosing;
use workshop::decide::decide;
use workshop::draft::inspect::Sheet;
use workshop::entry::{Body, Entry, EntryId};
use workshop::fold::{Misfit, fold};
use workshop::gap::{Inputs, evidence};
use workshop::job::{Job, Pump};
use workshop::judge::judge;
use workshop::refusal::Refusal;
use workshop::walk::progress;

use crate::chosen;
use crate::inspect::{CONE, LEAK, NICK, REREAD, VISIT, draft};
use crate::journal::{Journal, afresh, limits, pump, spot, stamp, tried};
use crate::water;

/// The job without what is about the journal and not about the pump.
fn state(journal: &Journal) -> Job {
    Job {
        position: 0,
        undo: None,
        redo: None,
        ..journal.job()
    }
}

fn misfits(journal: &Journal) -> Vec<(u64, Misfit)> {
    let objections = journal.objections().into_iter();
    objections.map(|open| (open.position, open.why)).collect()
}

/// The rich journal with everything `decide` would have kept out.
fn unruly() -> Journal {
    let mut journal = Journal::rich();
    journal.force(Body::Withdrawn {
        entry: EntryId::new("nowhere").unwrap(),
    });
    journal.force(Body::JobOpened {
        title: "Once more".into(),
        note: String::new(),
        follows: None,
    });
    journal.force(tried(7, 11, &[("13", Answer::Goes)]));
    journal.force(tried(2, 3, &[]));
    journal.force(Body::PumpDescribed(Pump {
        blades: 0,
        positions: 0,
        ..pump()
    }));
    journal.force(Body::PumpDescribed(pump()));
    for (sheet, key, fields) in [
        (Sheet::Finding, "nick", NICK),
        (Sheet::Settled, "nick", &[("how", "repaired")][..]),
        (Sheet::Settled, "never-noted", &[("how", "repaired")]),
        (Sheet::Leak, "", LEAK),
        (Sheet::Cone, "", CONE),
        (Sheet::Reread, "", REREAD),
        (Sheet::Visit, "h-48", VISIT),
    ] {
        let said = draft(sheet, key, fields).read(Unit::Thou).unwrap();
        journal.force(Body::Inspected(said));
    }
    for body in [
        water::outing("lake", "before"),
        water::log("lake", "a"),
        water::runs("a", &[(0, 9000), (5000, 90_000)]),
        water::figures("lake"),
        water::log("gone", "b"),
        water::runs("c", &[(9000, 0)]),
        water::figures("gone"),
        water::taken("of something else".into()),
        water::put_away("a"),
        chosen::said_craft(&chosen::craft()),
        chosen::said_option("wide", &chosen::nozzle("200")),
        chosen::put_away("wide"),
        chosen::put_away("never-named"),
        chosen::said_wish("both", ""),
        chosen::said_steadies(&[["12000", "", ""]]),
        Body::Chose(Choosing::Taken(Box::new(chosen::told(
            "gone",
            "of nothing".into(),
        )))),
    ] {
        journal.force(body);
    }
    // One that withdraws itself, and two that withdraw each other.
    let next = journal.entries.len() + 1;
    for target in [next, next + 2, next + 1] {
        let entry = EntryId::new(&format!("e-{target}")).unwrap();
        journal.force(Body::Withdrawn { entry });
    }
    journal.force(Body::Unknown {
        kind: "future-kind".into(),
        version: 1,
        json: "?".into(),
    });
    journal
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn law_any_subset_and_interleaving_folds(
        keep in prop::collection::vec(prop::bool::weighted(0.8), 104),
        order in Just((0_u64..104).collect::<Vec<u64>>()).prop_shuffle(),
    ) {
        let kept: Vec<Entry> = unruly()
            .entries
            .into_iter()
            .enumerate()
            .filter(|(index, _)| keep[*index])
            .map(|(index, entry)| Entry { position: order[index] + 1, ..entry })
            .collect();
        let (job, objections) = fold(&kept);
        // The order in memory does not matter, the positions do.
        let mut reversed = kept.clone();
        reversed.reverse();
        prop_assert_eq!(&fold(&reversed), &(job.clone(), objections.clone()));
        prop_assert!(objections.is_sorted_by_key(|open| open.position));
        for open in &objections {
            prop_assert!(kept.iter().any(|entry| entry.new.id == open.entry));
        }
        // What follows from a job does not fail either, and refuses rather than panics.
        let walk = progress(&job);
        prop_assert!(walk.done <= walk.all);
        drop(evidence(&job));
        for act in [Act::Undo, Act::Redo] {
            let decided = decide(&job, act, stamp("next"));
            let refused = matches!(
                decided,
                Err(Refusal::NothingToUndo | Refusal::NothingToRedo | Refusal::ReadOnly { .. })
            );
            prop_assert!(decided.is_ok() || refused);
        }
    }

    #[test]
    fn law_withdrawing_a_withdrawal_restores(length in 1_usize..34, target in 0_usize..34) {
        let mut journal = Journal::rich();
        prop_assert!(journal.entries.len() >= 34);
        journal.entries.truncate(length);
        let before = state(&journal);
        let target = &journal.entries[target % length].new.id;
        let gone = Body::Withdrawn { entry: target.clone() };
        let first = journal.force(gone);
        let without = state(&journal);
        let second = journal.force(Body::Withdrawn { entry: first });
        prop_assert_eq!(state(&journal), before.clone());
        let third = journal.force(Body::Withdrawn { entry: second });
        prop_assert_eq!(state(&journal), without);
        journal.force(Body::Withdrawn { entry: third });
        prop_assert_eq!(state(&journal), before);
    }

    #[test]
    fn law_undoing_all_and_redoing_all_changes_nothing(length in 1_usize..34) {
        let mut journal = Journal::rich();
        journal.entries.truncate(length);
        // What lies undone already would be restored by one more "Redo" than there were "Undo".
        let before = state(&journal);
        let mut undone = 0;
        while journal.try_act(Act::Undo).is_ok() {
            undone += 1;
        }
        prop_assert_eq!(state(&journal).pump, None);
        for _ in 0..undone {
            journal.act(Act::Redo);
        }
        prop_assert_eq!(state(&journal), before);
    }
}

#[test]
fn law_a_rich_job_has_no_objections() {
    let journal = Journal::rich();
    assert_eq!(misfits(&journal), []);
    let job = journal.job();
    assert_eq!(job.tries.len(), 12);
    assert!(job.tries.values().all(|tries| tries.len() == 2));
    assert!(job.accepted.is_some());
    assert_eq!(job.walk(), workshop::job::Walk::LeafByLeaf);
}

#[test]
fn law_undo_steps_back_and_redo_steps_forward() {
    let mut journal = Journal::described();
    journal.record(tried(0, 0, &[("12", Answer::Goes)]));
    journal.record(tried(0, 1, &[("13", Answer::Goes)]));
    let tries = |journal: &Journal| journal.job().tries.keys().copied().collect::<Vec<_>>();
    assert_eq!(journal.job().redo, None);
    journal.act(Act::Undo);
    assert_eq!(tries(&journal), [spot(0, 0)]);
    let redo = journal.job().redo.unwrap();
    assert_eq!(
        redo.body,
        tried(0, 1, &[("13", Answer::Goes)]),
        "what comes back"
    );
    journal.act(Act::Undo);
    assert_eq!(tries(&journal), []);
    journal.act(Act::Redo);
    assert_eq!(tries(&journal), [spot(0, 0)]);
    journal.act(Act::Redo);
    assert_eq!(tries(&journal), [spot(0, 0), spot(0, 1)]);
    assert_eq!(journal.try_act(Act::Redo), Err(Refusal::NothingToRedo));
    journal.act(Act::Undo);
    // Something else done leaves nothing to restore.
    journal.record(tried(0, 2, &[("13", Answer::Goes)]));
    assert_eq!(journal.try_act(Act::Redo), Err(Refusal::NothingToRedo));
    assert_eq!(tries(&journal), [spot(0, 0), spot(0, 2)]);
}

#[test]
fn law_the_opening_is_not_undone() {
    let mut journal = Journal::default();
    journal.act(crate::journal::opened());
    assert_eq!(journal.try_act(Act::Undo), Err(Refusal::NothingToUndo));
    assert_eq!(journal.job().title.as_deref(), Some("Spring rebuild"));
}

#[test]
fn law_measuring_anew_counts_alone_until_withdrawn() {
    let mut journal = Journal::described();
    journal.record(tried(0, 0, &[("12", Answer::Goes), ("13", Answer::WontGo)]));
    journal.record(afresh(tried(0, 0, &[("14", Answer::Drags)])));
    assert_eq!(journal.job().tries[&spot(0, 0)].len(), 1);
    journal.act(Act::Undo);
    assert_eq!(journal.job().tries[&spot(0, 0)].len(), 2);
}

#[test]
fn law_a_spot_the_pump_no_longer_has_is_an_open_item() {
    let mut journal = Journal::described();
    journal.record(tried(2, 3, &[("13", Answer::Goes)]));
    journal.record(Body::PumpDescribed(Pump {
        blades: 2,
        ..pump()
    }));
    assert_eq!(misfits(&journal), [(4, Misfit::NoSuchSpot)]);
    assert!(journal.job().tries.is_empty());
    assert_eq!(journal.job().latest, None);
    journal.act(Act::Undo);
    assert_eq!(misfits(&journal), []);
    assert!(journal.job().tries.contains_key(&spot(2, 3)));
}

#[test]
fn law_a_result_is_open_again_when_its_readings_change() {
    let mut journal = Journal::rich();
    let taken = journal.job().accepted.unwrap();
    journal.record(tried(1, 1, &[("15", Answer::WontGo)]));
    let open = [(taken.position, Misfit::AcceptedForOtherReadings)];
    assert_eq!(misfits(&journal), open);
    assert!(journal.job().accepted.is_some(), "it stays on record");
    journal.act(Act::Undo);
    assert_eq!(misfits(&journal), []);
    journal.record(Body::LimitsStated(workshop::job::Limits {
        greatest: None,
        ..limits()
    }));
    assert_eq!(misfits(&journal), open);
    let shown = judge(&Inputs::of(&journal.job()).unwrap()).shown().unwrap();
    journal.record(Body::GapAccepted(shown));
    assert_eq!(misfits(&journal), [], "taking the new result closes it");
}

#[test]
fn law_what_does_not_fit_is_named() {
    let mut journal = Journal::default();
    journal.force(Body::PumpDescribed(pump()));
    for title in ["First", "Second"] {
        journal.force(Body::JobOpened {
            title: title.into(),
            note: String::new(),
            follows: None,
        });
    }
    journal.force(Body::Withdrawn {
        entry: EntryId::new("nowhere").unwrap(),
    });
    // A withdrawal reaches back only.
    journal.force(Body::Withdrawn {
        entry: EntryId::new("e-6").unwrap(),
    });
    journal.force(Body::Unknown {
        kind: "future-kind".into(),
        version: 2,
        json: "{}".into(),
    });
    assert_eq!(
        misfits(&journal),
        [
            (1, Misfit::BeforeOpening),
            (3, Misfit::OpenedTwice),
            (4, Misfit::NothingToWithdraw),
            (5, Misfit::NothingToWithdraw),
            (6, Misfit::Newer),
        ]
    );
    assert_eq!(journal.job().read_only, Some(("future-kind".into(), 2)));
    assert!(journal.job().pump.is_some(), "it counts all the same");
}
