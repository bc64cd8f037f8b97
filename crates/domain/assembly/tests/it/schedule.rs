//! Plans for hands and tools. Optima said to be computed are by OR-tools 9.15 CP-SAT and, where said,
//! by a time-indexed integer programme in `HiGHS` as well.

use assembly::{
    Ask, Away, Demand, LeftOut, Limit, Network, NoSchedule, Plan, Progress, Resource, Resources,
    Rule, Schedule, Situation,
};

use crate::{after, finished_by, finished_within, nozzle, plan};

/// One unit of a resource for each of some steps.
pub(crate) fn demands(resource: usize, steps: impl IntoIterator<Item = usize>) -> Vec<Demand> {
    let one = |step| Demand {
        step,
        resource,
        units: 1,
    };
    steps.into_iter().map(one).collect()
}

/// One person for every step, and the press for two of them.
pub(crate) fn bench(plan: &Plan, hands: Resource) -> Resources {
    let mut demanded = demands(0, 0..plan.steps().len());
    demanded.extend(demands(1, [1, 2]));
    Resources::new(plan, vec![hands, Resource::of(1)], &demanded).unwrap()
}

/// Whether a schedule obeys every rule of a plan that nothing has happened in, and every resource.
pub(crate) fn assert_obeys(plan: &Plan, resources: &Resources, schedule: &Schedule) {
    let span = |step: usize| {
        let start = schedule.starts[step]?;
        Some((start, start + plan.steps()[step].likely))
    };
    for rule in plan.rules() {
        let holds = match rule.ask {
            Ask::After { first, then, lag } => span(first)
                .zip(span(then))
                .is_none_or(|((_, ends), (begins, _))| begins >= ends + lag),
            Ask::StartWithin { first, then, most } => span(first)
                .zip(span(then))
                .is_none_or(|((_, ends), (begins, _))| begins <= ends + most),
            Ask::FinishedWithin { first, then, most } => span(first)
                .zip(span(then))
                .is_none_or(|((_, ends), (_, ended))| ended <= ends + most),
            Ask::StartWithinStart { first, then, most } => span(first)
                .zip(span(then))
                .is_none_or(|((began, _), (begins, _))| begins <= began + most),
            Ask::Together { first, then } => schedule.starts[first] == schedule.starts[then],
            Ask::NotBefore { step, time } => span(step).is_none_or(|(begins, _)| begins >= time),
            Ask::FinishedBy { step, time } => span(step).is_none_or(|(_, ends)| ends <= time),
        };
        assert!(holds, "{rule:?}\n{schedule:?}");
    }
    let steps = 0..plan.steps().len();
    for (resource, given) in resources.list().iter().enumerate() {
        let away = given.away.iter().flat_map(|a| [a.from, a.until]);
        let changes: Vec<i64> = steps
            .clone()
            .filter_map(span)
            .map(|(begins, _)| begins)
            .chain(away)
            .collect();
        for time in changes {
            let away = given
                .away
                .iter()
                .filter(|a| a.from <= time && time < a.until);
            let away: u32 = away.map(|a| a.units).sum();
            let held = steps.clone().filter(|&step| {
                span(step).is_some_and(|(begins, ends)| begins <= time && time < ends)
            });
            let units = |step: usize| {
                let need = resources.needs(step).iter().find(|(r, _)| *r == resource);
                need.map_or(0, |(_, units)| *units)
            };
            let held: u32 = held.map(units).sum();
            let there = given.capacity.saturating_sub(away);
            assert!(
                held == 0 || held <= there,
                "resource {resource} at {time}: {held} of {there}\n{schedule:?}"
            );
        }
    }
    let ends = steps.filter_map(span).map(|(_, ends)| ends);
    assert_eq!(schedule.finish, ends.max().unwrap_or(0));
    assert!(schedule.bound <= schedule.finish);
}

fn solved(plan: &Plan, resources: &Resources) -> Schedule {
    let situation = Situation::fresh(plan);
    let schedule = Network::new(plan, &situation)
        .unwrap()
        .schedule(resources)
        .unwrap();
    assert_obeys(plan, resources, &schedule);
    schedule
}

fn best(plan: &Plan, resources: &Resources) -> i64 {
    let schedule = solved(plan, resources);
    assert_eq!(schedule.gap(), 0, "{schedule:?}");
    schedule.finish
}

#[test]
fn computed_nozzle_with_one_pair_of_hands() {
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    assert_eq!(best(&plan, &bench(&plan, Resource::of(1))), 1577);
    assert_eq!(best(&plan, &Resources::none(&plan)), 1535);
}

/// `HiGHS` says the same.
#[test]
fn computed_nozzle_with_short_cures() {
    let (durations, mut rules) = nozzle(10);
    for rule in &mut rules {
        if let Ask::After { lag, .. } = &mut rule.ask {
            *lag = (*lag).min(60);
        }
    }
    let plan = plan(&durations, &rules);
    assert_eq!(best(&plan, &bench(&plan, Resource::of(1))), 197);
}

#[test]
fn computed_nozzle_tool_back_at_35() {
    let (durations, mut rules) = nozzle(10);
    for rule in &mut rules {
        if let Ask::FinishedBy { time, .. } = &mut rule.ask {
            *time = 35;
        }
    }
    let plan = plan(&durations, &rules);
    assert_eq!(best(&plan, &bench(&plan, Resource::of(1))), 1577);
}

#[test]
fn computed_nozzle_replanned_after_a_long_check() {
    let (durations, rules) = nozzle(25);
    let plan = plan(&durations, &rules);
    assert_eq!(best(&plan, &bench(&plan, Resource::of(1))), 1592);
}

/// Two joints, the second spread at most so long after the first.
pub(crate) fn two_joints(most: Option<i64>) -> Plan {
    let mut rules = vec![
        after(0, 1, 0),
        finished_within(0, 1, 10),
        after(2, 3, 0),
        finished_within(2, 3, 10),
        Rule::negotiable(Ask::StartWithinStart {
            first: 2,
            then: 0,
            most: 0,
        }),
    ];
    rules.extend(most.map(|most| {
        Rule::negotiable(Ask::StartWithinStart {
            first: 0,
            then: 2,
            most,
        })
    }));
    plan(&[5, 8, 5, 8], &rules)
}

#[test]
fn computed_two_joints() {
    for (hands, most, finish) in [(2, Some(12), 13), (1, Some(13), 26), (1, None, 26)] {
        let plan = two_joints(most);
        let hands = Resources::new(&plan, vec![Resource::of(hands)], &demands(0, 0..4)).unwrap();
        assert_eq!(best(&plan, &hands), finish, "{most:?}");
    }
    let plan = two_joints(Some(12));
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..4)).unwrap();
    let situation = Situation::fresh(&plan);
    let network = Network::new(&plan, &situation).unwrap();
    assert_eq!(network.schedule(&hands), Err(NoSchedule::NotFound));
}

/// A step of ten fits neither into the nine before the break nor over it; a cure of thirty goes on.
#[test]
fn law_steps_fit_between_and_cures_go_on() {
    let plan = plan(&[10, 10], &[after(0, 1, 30)]);
    let away = |from, until| Away {
        from,
        until,
        units: 1,
    };
    let hands = Resource {
        capacity: 1,
        away: vec![away(9, 20), away(30, 60), away(60, 61)],
    };
    let hands = Resources::new(&plan, vec![hands], &demands(0, 0..2)).unwrap();
    let schedule = solved(&plan, &hands);
    assert_eq!(schedule.starts, [Some(20), Some(61)]);
    assert_eq!((schedule.gap(), schedule.limit), (0, Limit::Away));
}

/// A shift ends in the middle of what would be a joint: it is begun in the next one.
#[test]
fn law_a_joint_is_placed_as_a_whole() {
    let rules = [after(0, 1, 0), finished_within(0, 1, 10), after(2, 3, 0)];
    let plan = plan(&[5, 8, 3, 3], &rules);
    let hands = Resource {
        capacity: 1,
        away: vec![Away {
            from: 12,
            until: 20,
            units: 1,
        }],
    };
    let hands = Resources::new(&plan, vec![hands], &demands(0, 0..4)).unwrap();
    let schedule = solved(&plan, &hands);
    assert_eq!(
        (schedule.starts[0], schedule.starts[1]),
        (Some(20), Some(25))
    );
    assert_eq!((schedule.finish, schedule.gap()), (33, 0));
}

#[test]
fn law_what_runs_holds_what_it_needs() {
    let plan = plan(&[10, 10, 4], &[]);
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..3)).unwrap();
    let situation = Situation {
        now: 7,
        progress: vec![
            Progress::Running { began: 2 },
            Progress::NotStarted,
            Progress::Done { began: 0, ended: 2 },
        ],
        ..Situation::fresh(&plan)
    };
    let network = Network::new(&plan, &situation).unwrap();
    let schedule = network.schedule(&hands).unwrap();
    assert_eq!(schedule.starts, [Some(2), Some(12), Some(0)]);
    assert_eq!((schedule.finish, schedule.gap()), (22, 0));
}

/// The part for closing is of unknown date: nobody spreads for it, and the rest is planned.
#[test]
fn law_what_hangs_on_a_closed_gate_is_left_out() {
    let rules = [
        after(0, 1, 0),
        finished_within(0, 1, 10),
        after(1, 2, 0),
        after(3, 0, 0),
        finished_by(2, 1),
    ];
    let plan = plan(&[5, 8, 3, 3], &rules);
    let situation = Situation {
        closed: vec![1],
        ..Situation::fresh(&plan)
    };
    let network = Network::new(&plan, &situation).unwrap();
    let schedule = network.schedule(&Resources::none(&plan)).unwrap();
    let left = |step, because| LeftOut { step, because };
    assert_eq!(
        schedule.left_out,
        [left(0, Some((1, 1))), left(1, None), left(2, Some((2, 1)))]
    );
    assert_eq!(schedule.starts, [None, None, None, Some(0)]);
    assert_eq!(schedule.finish, 3);
}

/// Two days of work by one pair of hands, told as what fills them.
#[test]
fn law_the_bound_names_the_work_that_fills_the_time() {
    let plan = plan(&[10, 20, 30], &[]);
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..3)).unwrap();
    let schedule = solved(&plan, &hands);
    assert_eq!(schedule.finish, 60);
    assert_eq!(
        schedule.limit,
        Limit::Work {
            resource: 0,
            from: 0,
            until: 59,
            steps: vec![0, 1, 2]
        }
    );
}
