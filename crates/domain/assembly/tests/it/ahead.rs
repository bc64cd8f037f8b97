//! Before a clock is started, with the hands and tools there are.

use assembly::{
    Away, Continuation, Demand, Network, Pace, Plan, Progress, Resource, Resources, Situation,
    Step, Want,
};

use crate::schedule::demands;
use crate::{after, finished_within, not_before, plan, start_within};

/// Spread, close within ten; the wrench for closing. Then something else that can wait.
fn joint(close: Step) -> Plan {
    let steps = vec![Step::lasting(5), close, Step::lasting(30)];
    let rules = vec![after(0, 1, 0), finished_within(0, 1, 10)];
    Plan::new(steps, rules).unwrap()
}

fn ahead(plan: &Plan, situation: &Situation, resources: &Resources) -> Continuation {
    let network = Network::new(plan, situation).unwrap();
    let found = network.look_ahead_with(0, resources, || true).unwrap();
    assert_eq!(found.chain, [1]);
    found.outcome
}

/// One person, and a wrench that is away for a while.
fn bench(plan: &Plan, away: Vec<Away>) -> Resources {
    let wrench = Resource { capacity: 1, away };
    let demanded = [demands(0, 0..3), demands(1, [1])].concat();
    Resources::new(plan, vec![Resource::of(1), wrench], &demanded).unwrap()
}

fn away(from: i64, until: i64) -> Vec<Away> {
    vec![Away {
        from,
        until,
        units: 1,
    }]
}

#[test]
fn law_a_wrench_lent_out_stops_the_clock_from_starting() {
    let plan = joint(Step::lasting(8));
    let fresh = Situation::fresh(&plan);
    let fits = Continuation::Fits(vec![Some(0), Some(5), None]);
    assert_eq!(ahead(&plan, &fresh, &bench(&plan, Vec::new())), fits);
    // Back at 7: two minutes of the ten are left over.
    let fits = Continuation::Fits(vec![Some(0), Some(7), None]);
    assert_eq!(ahead(&plan, &fresh, &bench(&plan, away(0, 7))), fits);
    let Continuation::Short(Pace::Least, found) = ahead(&plan, &fresh, &bench(&plan, away(0, 8)))
    else {
        panic!("closing ends at 16 at the soonest, and 15 is the last");
    };
    let wants: Vec<_> = found.parts.iter().map(|part| part.want).collect();
    assert_eq!(wants, [Want::Rule(1), Want::Capacity(1), Want::Away(1)]);
    let limit = found.parts[0];
    assert_eq!((limit.change, limit.offered), (Some(11), false));
}

#[test]
fn law_it_counts_on_the_most_it_may_take() {
    let plan = joint(Step {
        least: 6,
        likely: 8,
        most: 10,
    });
    let fresh = Situation::fresh(&plan);
    assert!(matches!(
        ahead(&plan, &fresh, &bench(&plan, away(15, 20))),
        Continuation::Fits(_)
    ));
    // The evening ends a minute too soon for the slowest closing, though not for the likely one.
    assert!(matches!(
        ahead(&plan, &fresh, &bench(&plan, away(14, 40))),
        Continuation::Short(Pace::Most, _)
    ));
}

#[test]
fn law_a_running_step_holds_the_hands() {
    let plan = joint(Step::lasting(8));
    let running = |began| Situation {
        now: 30,
        progress: vec![
            Progress::NotStarted,
            Progress::NotStarted,
            Progress::Running { began },
        ],
        ..Situation::fresh(&plan)
    };
    let hands = bench(&plan, Vec::new());
    let found = ahead(&plan, &running(0), &hands);
    assert_eq!(found, Continuation::Fits(vec![Some(30), Some(35), Some(0)]));
    let Continuation::Short(_, found) = ahead(&plan, &running(1), &hands) else {
        panic!("the hands are free a minute later");
    };
    assert_eq!(found.parts[0].want, Want::Capacity(0));
}

#[test]
fn law_a_gate_in_the_chain_is_told_first() {
    let plan = joint(Step::lasting(8));
    let situation = Situation {
        closed: vec![1],
        ..Situation::fresh(&plan)
    };
    let hands = bench(&plan, Vec::new());
    assert_eq!(ahead(&plan, &situation, &hands), Continuation::Gate(1));
}

/// Ready for the next coat only when the part has come, and at the latest ten after the first: if the
/// first is over too soon, the window is missed.
#[test]
fn law_being_too_soon_misses_a_window_too() {
    let first = Step {
        least: 5,
        likely: 20,
        most: 25,
    };
    let rules = vec![after(0, 1, 0), start_within(0, 1, 10), not_before(1, 18)];
    let plan = Plan::new(vec![first, Step::lasting(5)], rules).unwrap();
    let fresh = Situation::fresh(&plan);
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..2)).unwrap();
    assert!(matches!(
        ahead(&plan, &fresh, &hands),
        Continuation::Contradictory(Pace::Least, _)
    ));
}

/// Two joints to be closed after one spreading, each with a wrench and a person: two people fit.
#[test]
fn law_two_clocks_ask_for_two_pairs_of_hands() {
    let rules = [
        after(0, 1, 0),
        finished_within(0, 1, 10),
        after(0, 2, 0),
        finished_within(0, 2, 10),
    ];
    let plan = plan(&[5, 8, 8], &rules);
    let situation = Situation::fresh(&plan);
    let network = Network::new(&plan, &situation).unwrap();
    let with = |hands: u32| {
        let demanded: Vec<Demand> = demands(0, 0..3);
        let hands = Resources::new(&plan, vec![Resource::of(hands)], &demanded).unwrap();
        network.look_ahead_with(0, &hands, || true).unwrap().outcome
    };
    assert!(network.look_ahead(0).unwrap().outcome.is_ok());
    assert_eq!(with(2), Continuation::Fits(vec![Some(0), Some(5), Some(5)]));
    assert!(matches!(with(1), Continuation::Short(..)));
}
