//! What hands and tools can't do is explained by the rules and resources that matter, with what would
//! mend it.

use assembly::{
    Ask, Away, Missing, Network, Plan, Resource, Resources, Rule, Shortage, Situation, Step, Want,
};

use crate::schedule::{bench, demands, two_joints};
use crate::{after, finished_by, finished_within, nozzle, plan};

fn shortage(plan: &Plan, resources: &Resources) -> Option<Shortage> {
    let situation = Situation::fresh(plan);
    let network = Network::new(plan, &situation).unwrap();
    network.shortage(resources, || true).unwrap()
}

fn missing(want: Want, change: Option<i64>, offered: bool) -> Missing {
    Missing {
        want,
        change,
        offered,
    }
}

/// The press goes back at minute 34, and pressing takes 20 and 15: 35. By CP-SAT there is no schedule.
#[test]
fn computed_the_press_is_named_and_not_the_hands() {
    let (durations, mut rules) = nozzle(10);
    for rule in &mut rules {
        if let Ask::FinishedBy { time, .. } = &mut rule.ask {
            *time = 34;
        }
    }
    let plan = plan(&durations, &rules);
    let found = shortage(&plan, &bench(&plan, Resource::of(1))).unwrap();
    assert!(found.minimal);
    // A second press mends nothing: one pair of hands works one press.
    assert_eq!(
        found.parts,
        [
            missing(Want::Rule(15), Some(35), true),
            missing(Want::Rule(16), Some(35), true),
            missing(Want::Capacity(1), None, false),
        ]
    );
    let helped = shortage(&plan, &bench(&plan, Resource::of(2))).unwrap();
    assert_eq!(helped.parts[2], missing(Want::Capacity(1), Some(2), true));
}

/// All subsets enumerated with CP-SAT: the second joint's own rules are innocent.
#[test]
fn computed_two_joints_are_too_close_for_one_person() {
    let plan = two_joints(Some(12));
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..4)).unwrap();
    let found = shortage(&plan, &hands).unwrap();
    assert!(found.minimal);
    assert_eq!(
        found.parts,
        [
            missing(Want::Rule(0), None, false),
            // Were the first open for 21, the second could be spread and closed, 13, before it is, 8.
            missing(Want::Rule(1), Some(21), false),
            // Or the second is done, 13, before the first.
            missing(Want::Rule(4), Some(13), true),
            missing(Want::Rule(5), Some(13), true),
            missing(Want::Capacity(0), Some(2), true),
        ]
    );
}

/// A joint of 13 minutes, 12 until the evening ends; the next day is after the ramp.
#[test]
fn law_the_shift_is_named_where_it_is_what_is_short() {
    let rules = [
        after(0, 1, 0),
        finished_within(0, 1, 10),
        finished_by(1, 100),
    ];
    let steps = vec![
        Step::lasting(5),
        Step {
            least: 6,
            likely: 8,
            most: 9,
        },
    ];
    let plan = Plan::new(steps, rules.to_vec()).unwrap();
    let hands = Resource {
        capacity: 1,
        away: vec![Away {
            from: 12,
            until: 90,
            units: 1,
        }],
    };
    let hands = Resources::new(&plan, vec![hands], &demands(0, 0..2)).unwrap();
    let found = shortage(&plan, &hands).unwrap();
    assert_eq!(
        found.parts,
        [
            missing(Want::Rule(0), None, false),
            // Spread at the very end of the evening, closed first thing on the next.
            missing(Want::Rule(1), Some(86), false),
            missing(Want::Rule(2), Some(103), true),
            missing(Want::Capacity(0), Some(2), true),
            missing(Want::Away(0), Some(1), true),
            missing(Want::Duration(1), Some(7), true),
        ]
    );
}

#[test]
fn law_a_step_that_needs_more_than_there_is_is_short_alone() {
    let plan = plan(&[5, 5], &[after(0, 1, 0)]);
    let both = [demands(0, [0, 1]), demands(0, [1])].concat();
    let hands = Resources::new(&plan, vec![Resource::of(1)], &both).unwrap();
    let found = shortage(&plan, &hands).unwrap();
    assert_eq!(found.parts, [missing(Want::Capacity(0), Some(2), true)]);
}

#[test]
fn law_what_can_be_done_is_no_shortage() {
    let plan = two_joints(Some(13));
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..4)).unwrap();
    assert_eq!(shortage(&plan, &hands), None);
}

/// A finish asked for is the first thing a person gives.
#[test]
fn law_a_finish_too_soon_for_one_pair_of_hands() {
    let plan = plan(&[10, 10], &[]);
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..2)).unwrap();
    let situation = Situation {
        finish: Some(15),
        ..Situation::fresh(&plan)
    };
    let network = Network::new(&plan, &situation).unwrap();
    let found = network.shortage(&hands, || true).unwrap().unwrap();
    assert_eq!(
        found.parts,
        [
            missing(Want::Finish, Some(20), true),
            missing(Want::Capacity(0), Some(2), true)
        ]
    );
}

/// A hundred other steps on the bench don't hide the two that matter.
#[test]
fn law_a_corner_is_found_in_a_long_plan() {
    let mut durations = vec![5; 100];
    let mut rules: Vec<Rule> = (0..99)
        .filter(|step| step % 10 != 9)
        .map(|step| after(step, step + 1, 3))
        .collect();
    durations.extend([5, 8, 5, 8]);
    let joints = two_joints(Some(12));
    let shifted = joints.rules().iter().map(|rule| {
        let ask = match rule.ask {
            Ask::After { first, then, lag } => Ask::After {
                first: first + 100,
                then: then + 100,
                lag,
            },
            Ask::FinishedWithin { first, then, most } => Ask::FinishedWithin {
                first: first + 100,
                then: then + 100,
                most,
            },
            Ask::StartWithinStart { first, then, most } => Ask::StartWithinStart {
                first: first + 100,
                then: then + 100,
                most,
            },
            other => other,
        };
        Rule { ask, ..*rule }
    });
    rules.extend(shifted);
    let first = rules.len() - 6;
    let plan = plan(&durations, &rules);
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..104)).unwrap();
    let found = shortage(&plan, &hands).unwrap();
    assert!(found.minimal);
    let wants: Vec<Want> = found.parts.iter().map(|part| part.want).collect();
    let rules = [0, 1, 4, 5].map(|rule| Want::Rule(first + rule));
    assert_eq!(wants, [&rules[..], &[Want::Capacity(0)]].concat());
}
