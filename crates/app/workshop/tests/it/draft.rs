//! A job as typed: what it says is what the job is.

use clearance::Answer;
use quantity::Unit;
use workshop::act::Act;
use workshop::draft::{JobDraft, LeavesDraft, LimitsDraft, PumpDraft};
use workshop::entry::Body;
use workshop::job::{Fact, Job, LeafSet, Spot, Tried, Walk};

use crate::journal::{Journal, leaves, limits, mm, spot, thou, tried};

/// What a job says, whoever said it and when; lengths by their value, as two texts may mean one.
fn says(job: &Job) -> String {
    fn value<T>(fact: Option<&Fact<T>>) -> Option<&T> {
        fact.map(|fact| &fact.value)
    }
    let length = |entered: &quantity::Entered| entered.value.to_bits();
    let pump = value(job.pump.as_ref())
        .map(|p| (p.blades, p.positions, length(&p.bore), p.view, p.rotation));
    let leaves = value(job.leaves.as_ref()).map(|l| {
        let thicknesses: Vec<u64> = l.thicknesses.iter().map(length).collect();
        let rest = (
            l.tolerance.as_ref().map(length),
            l.feel.as_ref().map(length),
        );
        (
            l.unit,
            thicknesses,
            length(&l.width),
            l.lead,
            l.posture,
            rest,
        )
    });
    let limits = value(job.limits.as_ref()).map(|l| {
        let figures = (
            l.least.as_ref().map(length),
            l.greatest.as_ref().map(length),
        );
        (figures, l.measure, l.page.clone(), l.rub_in)
    });
    let walk = value(job.walk.as_ref()).map(|walk| match walk {
        Walk::LeafByLeaf => Err("leaf by leaf"),
        Walk::RoundFirst => Err("round first"),
        Walk::TwoLeaves { go, no_go } => Ok((length(go), length(no_go))),
    });
    let tried = |t: &Fact<Tried>| (length(&t.value.leaf), t.value.answer);
    let tries: Vec<(Spot, Vec<(u64, Answer)>)> = job
        .tries
        .iter()
        .map(|(spot, tries)| (*spot, tries.iter().map(tried).collect()))
        .collect();
    format!(
        "{:?} {:?} {pump:?} {leaves:?} {limits:?} {walk:?} {tries:?}",
        job.title, job.note
    )
}

fn read_into_an_empty_job(draft: &JobDraft) -> Journal {
    let mut journal = Journal::default();
    for act in draft.acts(&Job::default()).unwrap() {
        journal.act(act);
    }
    journal
}

fn jobs() -> Vec<Journal> {
    let mut opened = Journal::default();
    opened.act(crate::journal::opened());
    let mut two_leaves = Journal::rich();
    two_leaves.record(Body::WalkChosen(Walk::TwoLeaves {
        go: thou("12"),
        no_go: mm("0.4"),
    }));
    // Everything was said in thou; now the leaves are marked in millimetres.
    let mut other_unit = two_leaves.clone();
    other_unit.record(Body::LeavesDescribed(LeafSet {
        unit: Unit::Millimetre,
        thicknesses: ["0,25", "0.3", "13 thou", "1/64 in"].map(mm).to_vec(),
        tolerance: Some(thou("0.2")),
        ..leaves()
    }));
    vec![
        opened,
        Journal::described(),
        Journal::rich(),
        two_leaves,
        other_unit,
    ]
}

#[test]
fn law_a_job_read_from_its_draft_is_the_same_job() {
    for journal in jobs() {
        let draft = JobDraft::of(&journal.job());
        let again = read_into_an_empty_job(&draft);
        assert_eq!(says(&again.job()), says(&journal.job()));
        assert_eq!(again.objections(), []);
        assert_eq!(JobDraft::of(&again.job()), draft);
    }
}

#[test]
fn law_a_draft_that_says_what_is_there_asks_for_nothing() {
    for journal in jobs() {
        let job = journal.job();
        assert_eq!(JobDraft::of(&job).acts(&job), Ok(Vec::new()));
        // A draft that leaves things out takes nothing away.
        let only = JobDraft {
            title: job.title.clone().unwrap(),
            ..JobDraft::default()
        };
        assert_eq!(only.acts(&job), Ok(Vec::new()));
    }
}

#[test]
fn law_what_is_written_otherwise_but_means_the_same_asks_for_nothing() {
    let job = Journal::described().job();
    let mut draft = JobDraft::of(&job);
    draft.leaves.as_mut().unwrap().thicknesses = "15 14, 13; 12 11\n10".into();
    draft.pump.as_mut().unwrap().bore = " 140 ".into();
    assert_eq!(draft.acts(&job), Ok(Vec::new()));
}

#[test]
fn law_only_what_is_new_is_asked_for() {
    let mut journal = Journal::described();
    journal.record(tried(0, 0, &[("13", Answer::Goes)]));
    let mut draft = JobDraft::of(&journal.job());
    draft.limits = Some(LimitsDraft::of(&limits(), Unit::Thou));
    draft.readings[0].1 = "13-14".into();
    draft.readings.push(("B 12".into(), "12 drags".into()));
    let acts = draft.acts(&journal.job()).unwrap();
    assert_eq!(acts.len(), 3);
    for act in acts {
        journal.act(act);
    }
    let job = journal.job();
    assert_eq!(job.tries[&spot(0, 0)].len(), 2);
    assert_eq!(job.tries[&spot(1, 0)].len(), 1);
    assert_eq!(draft.acts(&job), Ok(Vec::new()), "once is enough");
}

#[test]
fn law_a_bare_limit_takes_the_unit_of_the_drafts_own_leaves() {
    let mut journal = Journal::described();
    journal.record(Body::LimitsStated(workshop::job::Limits {
        least: Some(thou("4")),
        greatest: None,
        ..limits()
    }));
    let mut draft = JobDraft::of(&journal.job());
    let leaves = draft.leaves.as_mut().unwrap();
    leaves.unit = "mm".into();
    leaves.thicknesses = "0.3 0.4 0.5".into();
    // A figure that either unit can have: what is bare takes the draft's.
    draft.limits.as_mut().unwrap().least = "4".into();
    for act in draft.acts(&journal.job()).unwrap() {
        journal.act(act);
    }
    let least = journal.job().limits.unwrap().value.least.unwrap();
    assert_eq!(least.value.to_bits(), mm("4").value.to_bits());
}

#[test]
fn law_a_list_of_leaves_may_be_written_in_many_ways() {
    let thicknesses = |text: &str| {
        let draft = LeavesDraft {
            thicknesses: text.into(),
            ..LeavesDraft::of(&leaves())
        };
        let read = draft.read().unwrap().thicknesses;
        read.iter()
            .map(|leaf| leaf.value.to_bits())
            .collect::<Vec<u64>>()
    };
    let wanted: Vec<u64> = ["10", "11", "12"]
        .map(|leaf| thou(leaf).value.to_bits())
        .into();
    for text in [
        "10 11 12",
        "12; 11; 10",
        "10, 11, 12",
        "10 thou; 11 thou; 12 thou",
        "10 11 12 thou",
        "0.010 0.011 0.012 in",
        "10\n11\n12",
        "0.254 0.2794 0.3048 mm",
    ] {
        assert_eq!(thicknesses(text), wanted, "{text}");
    }
    assert_eq!(thicknesses("0,254 mm"), wanted[..1]);
}

#[test]
fn law_a_field_that_cannot_be_read_is_named() {
    let good = PumpDraft::of(&crate::journal::pump());
    let refusal = |change: fn(&mut PumpDraft)| {
        let mut draft = good.clone();
        change(&mut draft);
        let refusal = draft.read().unwrap_err();
        (refusal.field().unwrap(), refusal.to_string())
    };
    assert_eq!(
        refusal(|draft| draft.blades = "three".into()),
        (
            "blades",
            "“three” will not do here: write a number of blades from 2 to 8.".into()
        )
    );
    assert_eq!(
        refusal(|draft| draft.view = "sideways".into()),
        (
            "view",
            "“sideways” is none of the choices: looking-forward, looking-aft.".into()
        )
    );
    assert_eq!(
        refusal(|draft| draft.rotation = String::new()),
        ("rotation", "This is empty and must be filled in.".into())
    );
    assert_eq!(refusal(|draft| draft.bore = "wide".into()).0, "bore");
}

#[test]
fn law_a_file_of_another_job_is_refused() {
    let job = Journal::described().job();
    let draft = JobDraft {
        title: "Autumn".into(),
        ..JobDraft::of(&job)
    };
    assert_eq!(
        draft.acts(&job).unwrap_err().to_string(),
        "The job with this id is called “Spring rebuild” here, not “Autumn”. Give the file \
         another id."
    );
    let lost = JobDraft {
        title: "Spring rebuild".into(),
        readings: vec![("A 12".into(), "13".into())],
        ..JobDraft::default()
    };
    assert_eq!(
        lost.acts(&Job::default()).unwrap_err().to_string(),
        "Describe the pump first: blades, clock positions, bore."
    );
    let first = draft.acts(&Job::default()).unwrap();
    assert!(matches!(&first[0], Act::Record(Body::JobOpened { .. })));
}
