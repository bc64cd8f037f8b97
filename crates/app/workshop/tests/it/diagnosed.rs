//! What is wrong: what counts as evidence, and since when. All data are invented.

use std::collections::BTreeMap;

use diagnosis::check::Check;
use diagnosis::fault::Fault;
use diagnosis::signature::Observable;
use diagnosis::symptom::Symptom;
use diagnosis::weigh::Item;
use quantity::{Unit, parse};
use workshop::act::Act;
use workshop::choose::{Choosing, CraftFacts};
use workshop::diagnose::answer::{Against, Answer, answer};
use workshop::diagnose::{Diagnosing, cannot_start, evidence};
use workshop::draft::choose::{CraftDraft, FittingDraft};
use workshop::draft::diagnose::{CHECKS, CheckDraft, FAULTS, SYMPTOMS, SearchDraft};
use workshop::draft::{JobDraft, inspect::Sheet};
use workshop::entry::{Body, Key};
use workshop::fold::{Misfit, fold};
use workshop::refusal::Refusal;
use workshop::water::{Figure, Read, Trialling, Way, What};

use crate::chosen::said_craft;
use crate::inspect::{Fields, NICK, say};
use crate::journal::Journal;
use crate::water::outing;

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

/// Speed both ways, engine speed and a start, read off.
fn ran(name: &str, [speed, engine, start]: [&str; 3]) -> Body {
    let figure = |what, text: &str, unit| Figure {
        what,
        value: parse(text, unit).unwrap(),
        read: Read::Receiver,
    };
    let to = parse("30", Unit::MilePerHour).unwrap();
    Body::Trialled(Trialling::Figures {
        outing: key(name),
        figures: vec![
            figure(What::TopSpeed(Way::There), speed, Unit::MilePerHour),
            figure(What::TopSpeed(Way::Back), speed, Unit::MilePerHour),
            figure(What::EngineSpeed, engine, Unit::Rpm),
            figure(What::Start { to }, start, Unit::Second),
        ],
    })
}

const WELL: [&str; 3] = ["46", "7550 rpm", "3.4 s"];

/// A craft that a run can be learnt from.
fn ordinary(gap: &str) -> Body {
    held_at("8000 rpm", gap)
}

/// The same with its limiter there.
fn held_at(limiter: &str, gap: &str) -> Body {
    let words = |text: &str| text.to_owned();
    said_craft(&CraftDraft {
        power: words("110 kW"),
        rated: words("7700 rpm"),
        limiter: words(limiter),
        impeller: words("154 mm"),
        fitted: FittingDraft {
            leading: words("13.5"),
            trailing: words("18.5"),
            nozzle: words("85"),
            gap: words(gap),
            ..FittingDraft::default()
        },
        ..CraftDraft::default()
    })
}

/// A craft that ran well, and was run again.
fn again(figures: [&str; 3]) -> Journal {
    with_gap("0.3 mm", figures)
}

fn with_gap(gap: &str, figures: [&str; 3]) -> Journal {
    of_craft(ordinary(gap), figures)
}

fn of_craft(craft: Body, figures: [&str; 3]) -> Journal {
    let mut journal = Journal::described();
    journal.record(craft);
    journal.record(outing("well", "before"));
    journal.record(ran("well", WELL));
    journal.record(outing("again", "after"));
    journal.record(ran("again", figures));
    journal
}

fn symptoms(all: &[(Symptom, bool)]) -> Body {
    let all: BTreeMap<Symptom, bool> = all.iter().copied().collect();
    Body::Diagnosed(Diagnosing::Symptoms(all))
}

fn checked(check: Check, found: Option<bool>) -> Body {
    Body::Diagnosed(Diagnosing::Checked {
        check,
        found,
        note: String::new(),
    })
}

fn told(journal: &Journal) -> Answer {
    answer(&journal.job())
}

fn chance(journal: &Journal, fault: Fault) -> f64 {
    told(journal).weighed.chances[fault as usize]
}

/// "rpm off points to engine or loading; speed off with rpm right points to hull": G. Cox's rule, and the
/// trade's.
#[test]
fn practice_what_falls_short_tells_where_to_look() {
    let weak = again(["41", "6900 rpm", "3.9 s"]);
    let [first, _] = told(&weak).leaders();
    assert_eq!(first.0, Fault::Engine, "{:?}", told(&weak).weighed.causes);
    let slow = again(["41", "7480 rpm", "3.6 s"]);
    assert_eq!(told(&slow).leaders()[0].0, Fault::Dirty);
    assert!(chance(&slow, Fault::Engine) < 0.5 * chance(&weak, Fault::Engine));
    let slips = again(["43.5", "7950 rpm", "3.5 s"]);
    assert!(chance(&slips, Fault::Slip) > 10.0 * chance(&slips, Fault::Dirty));
    let well = again(WELL);
    assert_eq!(told(&well).leaders()[0].0, Fault::Nothing);
}

/// An engine that its limiter holds turns hardly faster, so it says little of what slips. Common practice, no source.
#[test]
fn practice_a_limiter_that_holds_hides_what_slips() {
    let slow = ["42", "7680 rpm", "3.55 s"];
    let [held, free] = ["7700 rpm", "8000 rpm"]
        .map(|limiter| chance(&of_craft(held_at(limiter, "0.3 mm"), slow), Fault::Slip));
    assert!(held > 2.0 * free, "{held} {free}");
}

#[test]
fn law_a_run_that_was_learnt_from_is_no_evidence() {
    let mut journal = Journal::described();
    journal.record(ordinary("0.3 mm"));
    journal.record(outing("only", "after"));
    journal.record(ran("only", WELL));
    let only = told(&journal);
    assert_eq!(only.against, Against::Description);
    let held = told(&again(WELL));
    assert_eq!(held.against, Against::Run(key("well")));
    // Of a description alone less is known than of the craft's own run, and of speeds and times too little.
    let quantities = |answer: &Answer| answer.compared.len();
    assert_eq!((quantities(&only), quantities(&held)), (1, 3));
    assert_eq!(only.compared[0].seen.observable, Observable::TopEngine);
    assert!(only.compared[0].spread > 3.0 * held.compared[1].spread);
    // Of two before the rebuild the earlier is what the later is held against.
    journal.record(outing("later", "after"));
    journal.record(ran("later", WELL));
    let chosen = Body::Chose(Choosing::Craft(Box::new(CraftFacts {
        outing: Some(key("later")),
        ..journal.job().choices.craft.unwrap().value
    })));
    journal.record(chosen);
    assert_eq!(told(&journal).against, Against::Run(key("only")));
    // The suspect run is not learnt from, whatever it shows.
    let other = told(&again(["38", "6700 rpm", "4 s"]));
    for (a, b) in held.compared.iter().zip(&other.compared) {
        assert_eq!(a.expected.to_bits(), b.expected.to_bits());
    }
}

#[test]
fn practice_without_a_craft_or_a_run_signs_and_checks_are_weighed() {
    let mut journal = Journal::described();
    let before = told(&journal);
    assert_eq!(before.against, Against::NotRun);
    assert!(before.known.items().is_empty());
    journal.record(symptoms(&[
        (Symptom::Growl, true),
        (Symptom::Vibration, true),
    ]));
    journal.record(checked(Check::Turn, Some(true)));
    assert_eq!(told(&journal).leaders()[0].0, Fault::Bearing);
    journal.record(checked(Check::Turn, Some(false)));
    assert!(chance(&journal, Fault::Bearing) < 0.2);
    journal.record(checked(Check::Turn, None));
    let items = told(&journal).known.items();
    assert_eq!(
        items,
        [
            Item::Answer(Symptom::Vibration),
            Item::Answer(Symptom::Growl)
        ]
    );
}

/// What was heard of the craft as it ran before says nothing of it after the rebuild.
#[test]
fn law_evidence_belongs_to_the_run_it_was_seen_on() {
    let mut journal = again(WELL);
    journal.record(symptoms(&[(Symptom::Roar, true)]));
    journal.record(checked(Check::Intake, Some(false)));
    say(&mut journal, Sheet::Finding, "nick", NICK).unwrap();
    let told_of = |journal: &Journal| {
        let items = told(journal).known.items().into_iter();
        items
            .filter(|item| !matches!(item, Item::Seen(_)))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        told_of(&journal),
        [
            Item::Answer(Symptom::Roar),
            Item::Check(Check::Intake),
            Item::Check(Check::Blades)
        ]
    );
    let mut later = journal.clone();
    later.record(outing("later", "after"));
    assert_eq!(told_of(&later), []);
    // Named again, the run before has what was seen of it.
    let outing = Some(key("again"));
    later.record(Body::Diagnosed(Diagnosing::Suspect { outing }));
    assert_eq!(told_of(&later), told_of(&journal));
}

/// Hands that go into a pump trust this: whoever ran it since has put the lanyard back.
#[test]
fn law_that_it_cannot_start_holds_until_it_runs_again() {
    let mut journal = again(WELL);
    assert!(!cannot_start(&journal.job()));
    journal.record(Body::Diagnosed(Diagnosing::MadeSafe(true)));
    assert!(cannot_start(&journal.job()));
    let mut ran = journal.clone();
    ran.record(outing("later", "after"));
    assert!(!cannot_start(&ran.job()));
    journal.record(Body::Diagnosed(Diagnosing::MadeSafe(false)));
    assert!(!cannot_start(&journal.job()));
    // It is no part of a file.
    assert_eq!(
        JobDraft::of(&journal.job()).diagnosis,
        SearchDraft::default()
    );
}

#[test]
fn law_a_gap_that_was_renewed_between_two_runs_is_expected_to_show() {
    let plain = told(&again(WELL));
    let mut journal = Journal::described();
    journal.record(ordinary("0.3 mm"));
    journal.record(outing("well", "before"));
    journal.record(ran("well", WELL));
    for body in Journal::rich().entries {
        if matches!(
            body.new.body,
            Body::LimitsStated(_) | Body::LeavesTried { .. }
        ) {
            journal.record(body.new.body);
        }
    }
    let shown = journal.shown();
    journal.record(Body::GapAccepted(shown));
    let mut before = journal.clone();
    before.record(outing("again", "after"));
    before.record(ran("again", WELL));
    let told_before = told(&before);
    assert!(told_before.gap.is_none());
    let speed = |answer: &Answer| answer.compared[0].expected;
    assert!((speed(&told_before) - speed(&plain)).abs() > 1e-4);
    // Measured after it ran, it is evidence: as wide as it should be speaks against a worn ring.
    let mut after = with_gap("0.35 mm", ["45", "7600 rpm", "4 s"]);
    let worn = chance(&after, Fault::Clearance);
    for body in Journal::rich().entries {
        if matches!(
            body.new.body,
            Body::LimitsStated(_) | Body::LeavesTried { .. }
        ) {
            after.record(body.new.body);
        }
    }
    let shown = after.shown();
    after.record(Body::GapAccepted(shown));
    let (gap, should_be) = told(&after).gap.unwrap();
    assert_eq!(gap.observable, Observable::Gap);
    assert!((gap.value - should_be).abs() < 1e-4);
    assert!(chance(&after, Fault::Clearance) < 0.3 * worn);
}

#[test]
fn law_a_cause_taken_holds_on_what_it_rested_on() {
    let mut journal = again(["41", "6900 rpm", "3.9 s"]);
    let says = told(&journal);
    let taken = |journal: &Journal| {
        let told = says.told(Fault::Engine, "The engine is down.".to_owned());
        let mut journal = journal.clone();
        let said = Body::Diagnosed(Diagnosing::Taken(Box::new(told)));
        journal.try_act(Act::Record(said)).map(|()| journal)
    };
    assert_eq!(says.evidence, evidence(&journal.job()));
    journal = taken(&journal).unwrap();
    assert_eq!(journal.objections(), []);
    journal.record(symptoms(&[(Symptom::Misfire, true)]));
    let why = |journal: &Journal| {
        let objections = journal.objections().into_iter();
        objections.map(|open| open.why).collect::<Vec<_>>()
    };
    assert_eq!(why(&journal), [Misfit::CauseTakenOnOtherGrounds]);
    assert_eq!(taken(&journal).err(), Some(Refusal::ShownIsStale));
    journal.act(Act::Undo);
    assert_eq!(why(&journal), []);
}

#[test]
fn law_every_subset_folds() {
    let mut journal = again(WELL);
    let outing = Some(key("again"));
    journal.record(Body::Diagnosed(Diagnosing::Suspect { outing }));
    journal.record(symptoms(&[(Symptom::Roar, true), (Symptom::Hot, false)]));
    journal.record(checked(Check::Intake, Some(true)));
    journal.record(Body::Diagnosed(Diagnosing::MadeSafe(true)));
    journal.act(Act::Undo);
    let last = journal.entries.split_off(journal.entries.len() - 7);
    for set in 0..1_u32 << last.len() {
        let kept = last.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1);
        let mut entries = journal.entries.clone();
        entries.extend(kept.map(|(_, entry)| entry.clone()));
        let (job, _) = fold(&entries);
        drop((evidence(&job), JobDraft::of(&job).acts(&job).unwrap()));
    }
}

#[test]
fn law_a_draft_brings_the_search_of_a_job_and_says_nothing_twice() {
    let mut journal = again(WELL);
    let outing = Some(key("again"));
    journal.record(Body::Diagnosed(Diagnosing::Suspect { outing }));
    journal.record(symptoms(&[(Symptom::Roar, true), (Symptom::Hot, false)]));
    journal.record(checked(Check::Intake, Some(true)));
    let draft = JobDraft::of(&journal.job());
    assert_eq!(draft.diagnosis.outing, "again");
    assert_eq!(draft.diagnosis.yes, ["roar"]);
    assert_eq!(draft.diagnosis.no, ["hot"]);
    assert_eq!(draft.diagnosis.checks[0].found, "something");
    assert_eq!(draft.acts(&journal.job()).unwrap(), []);
    assert_eq!(
        JobDraft::card(&journal.job()).diagnosis,
        SearchDraft::default()
    );
}

#[test]
fn practice_what_cannot_be_read_names_what_can() {
    let draft = |yes: &[&str], no: &[&str]| {
        let words = |all: &[&str]| all.iter().map(|word| (*word).to_owned()).collect();
        SearchDraft {
            yes: words(yes),
            no: words(no),
            ..SearchDraft::default()
        }
    };
    let both = draft(&["roar"], &["roar"]).symptoms().unwrap_err();
    assert_eq!(both.field(), Some("no"));
    assert_eq!(
        both.to_string(),
        "“roar” stands under what is so and under what is not; keep one of them."
    );
    let other = draft(&["singing"], &[]).symptoms().unwrap_err();
    assert_eq!(other.field(), Some("yes"));
    assert!(other.to_string().contains("roar"), "{other}");
    let check = CheckDraft {
        check: "intake".to_owned(),
        found: "maybe".to_owned(),
        note: String::new(),
    };
    assert_eq!(check.read().unwrap_err().field(), Some("found"));
    let nowhere = Body::Diagnosed(Diagnosing::Suspect {
        outing: Some(key("nowhere")),
    });
    let mut journal = again(WELL);
    let refusal = journal.try_act(Act::Record(nowhere)).unwrap_err();
    assert_eq!(refusal.field(), Some("outing"));
}

#[test]
fn law_everything_has_a_word_of_its_own() {
    for symptom in Symptom::ALL {
        assert_eq!(
            SYMPTOMS.iter().filter(|(_, one)| *one == symptom).count(),
            1
        );
    }
    for check in Check::ALL {
        assert_eq!(CHECKS.iter().filter(|(_, one)| *one == check).count(), 1);
    }
    for fault in Fault::ALL {
        assert_eq!(FAULTS.iter().filter(|(_, one)| *one == fault).count(), 1);
    }
}

/// Findings of parts answer the checks of the same parts.
#[test]
fn practice_the_bench_is_evidence() {
    let sound: Fields = &[("area", "grate"), ("flaw", "nothing"), ("todo", "fit")];
    let blocked: Fields = &[("area", "grate"), ("flaw", "blocked"), ("todo", "dress")];
    let mut journal = again(["43", "7400 rpm", "4.5 s"]);
    let beforehand = chance(&journal, Fault::Grate);
    say(&mut journal, Sheet::Finding, "grate", blocked).unwrap();
    assert!(chance(&journal, Fault::Grate) > 2.0 * beforehand);
    say(&mut journal, Sheet::Finding, "grate", sound).unwrap();
    assert!(chance(&journal, Fault::Grate) < 0.5 * beforehand);
}
