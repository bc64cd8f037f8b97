//! The plan changed piece by piece. All of it is invented.

use workshop::draft::bench::{Edit, RuleDraft, StepDraft};
use workshop::entry::Key;
use workshop::job::Job;
use workshop::plan::{Ask, Plan};
use workshop::refusal::{Obstacle, Refusal};

use crate::work::{Desk, T, begun, key, plan};

fn job() -> (Job, String) {
    let job = Desk::with(plan()).fold().0;
    let seen = job.bench.plan.as_ref().unwrap().entry.to_string();
    (job, seen)
}

fn step(name: &str) -> StepDraft {
    StepDraft {
        name: name.to_owned(),
        takes: "5".to_owned(),
        opens: "float".to_owned(),
        ..StepDraft::default()
    }
}

fn changed(edit: &Edit) -> Result<Plan, Refusal> {
    let (job, seen) = job();
    edit.apply(&job, &seen)
}

fn new_step(name: &str, follows: &str) -> Edit {
    Edit::NewStep {
        step: step(name),
        follows: follows.to_owned(),
        plan: String::new(),
    }
}

#[test]
fn law_a_plan_begins_with_its_first_step() {
    let edit = |plan: &str| Edit::NewStep {
        step: step("Press the ring in"),
        follows: String::new(),
        plan: plan.to_owned(),
    };
    let laid = edit(" Rebuild ").apply(&Job::default(), "").unwrap();
    assert_eq!(laid.name, "Rebuild");
    assert_eq!(laid.steps[0].key, key("press-the-ring-in"));
    assert_eq!(
        edit(" ").apply(&Job::default(), ""),
        Err(Refusal::Empty { field: "plan" })
    );
    assert_eq!(
        Edit::Name("Other".to_owned()).apply(&Job::default(), ""),
        Err(Refusal::Work(Obstacle::NoPlan))
    );
}

#[test]
fn law_a_new_step_stands_behind_the_one_it_follows_and_waits_for_it() {
    let laid = changed(&new_step("Align", "spread")).unwrap();
    assert_eq!(laid.steps[2].key, key("align"));
    let Ask::After { first, then, lag } = &laid.rules.last().unwrap().ask else {
        panic!("a wait");
    };
    assert_eq!((first, then, lag), (&key("spread"), &key("align"), &None));
    let free = changed(&new_step("Align", "")).unwrap();
    assert_eq!(free.steps.last().unwrap().key, key("align"));
    assert_eq!(free.rules, plan().rules);
}

#[test]
fn law_a_name_that_is_there_gets_a_key_of_its_own() {
    let laid = changed(&new_step("Spread", "")).unwrap();
    assert_eq!(laid.steps.last().unwrap().key, key("spread-2"));
    assert_eq!(
        Key::free("§", "step", |_| false).unwrap(),
        key("step"),
        "a name without a letter"
    );
}

#[test]
fn law_a_step_said_anew_keeps_its_key_its_place_and_its_rules() {
    let mut draft = StepDraft::of(&plan().steps[1]);
    draft.name = "Spread the sealant".to_owned();
    draft.takes = "6".to_owned();
    let laid = changed(&Edit::Step(draft)).unwrap();
    assert_eq!(laid.steps[1].name, "Spread the sealant");
    assert_eq!(laid.steps[1].key, key("spread"));
    assert_eq!(laid.rules, plan().rules);
}

#[test]
fn law_a_step_taken_off_takes_its_rules_and_no_other() {
    let laid = changed(&Edit::StepOff("spread".to_owned())).unwrap();
    assert!(laid.place(&key("spread")).is_none());
    let names = |rule: &workshop::plan::Rule| rule.names(&key("spread"));
    let left: Vec<_> = plan()
        .rules
        .into_iter()
        .filter(|rule| !names(rule))
        .collect();
    assert_eq!(laid.rules, left);
}

#[test]
fn law_a_step_of_which_something_was_said_stays() {
    let mut desk = Desk::ready();
    desk.say(begun("spread"), T);
    let job = desk.fold().0;
    let seen = job.bench.plan.as_ref().unwrap().entry.to_string();
    let off = Edit::StepOff("spread".to_owned());
    assert_eq!(
        off.apply(&job, &seen),
        Err(Refusal::Work(Obstacle::HasHistory {
            step: "spread".to_owned()
        }))
    );
}

#[test]
fn law_rules_come_and_go_by_their_place() {
    let cure = RuleDraft {
        kind: "after".to_owned(),
        first: "press".to_owned(),
        then: "launch".to_owned(),
        time: "2 h".to_owned(),
        why: "cure, invented sheet".to_owned(),
        physics: true,
    };
    let laid = changed(&Edit::NewRule(cure.clone())).unwrap();
    assert_eq!(laid.rules.len(), plan().rules.len() + 1);
    let mut fewer = plan().rules;
    fewer.remove(2);
    assert_eq!(
        changed(&Edit::RuleOff("2".to_owned())).unwrap().rules,
        fewer
    );
    for place in ["", "99", "-1"] {
        assert_eq!(
            changed(&Edit::RuleOff(place.to_owned())),
            Err(Refusal::Empty { field: "rule" })
        );
    }
    let none = RuleDraft {
        first: String::new(),
        ..cure
    };
    assert_eq!(
        changed(&Edit::NewRule(none)),
        Err(Refusal::Empty { field: "first" })
    );
}

#[test]
fn law_a_part_that_is_needed_stays() {
    let laid = changed(&Edit::NewPart("O-ring".to_owned())).unwrap();
    assert_eq!(laid.parts.last().unwrap().key, key("o-ring"));
    assert_eq!(
        changed(&Edit::PartOff("ring".to_owned())),
        Err(Refusal::Work(Obstacle::Needed {
            part: "ring".to_owned(),
            step: "press".to_owned()
        }))
    );
    assert!(matches!(
        changed(&Edit::PartOff("none".to_owned())),
        Err(Refusal::Work(Obstacle::NoSuchPart { .. }))
    ));
}

#[test]
fn law_a_plan_changed_meanwhile_is_looked_at_first() {
    let (job, _) = job();
    let stale = Err(Refusal::Work(Obstacle::PlanChanged));
    assert_eq!(Edit::Name("X".to_owned()).apply(&job, "other"), stale);
    assert_eq!(Edit::Name("X".to_owned()).apply(&job, ""), stale);
    assert_eq!(
        Edit::Name("X".to_owned()).apply(&Job::default(), "plan-1"),
        stale
    );
}
