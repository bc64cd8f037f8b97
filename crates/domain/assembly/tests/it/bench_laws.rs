//! Laws of plans for hands and tools, over small benches of every shape.

use assembly::{
    Ask, Away, Demand, Network, NoSchedule, Plan, Resource, Resources, Rule, Schedule, Situation,
    Step, Want,
};
use proptest::prelude::*;

use crate::schedule::assert_obeys;

/// What a bench is made of.
#[derive(Clone, Debug)]
struct Bench {
    durations: Vec<i64>,
    rules: Vec<Ask>,
    list: Vec<Resource>,
    demands: Vec<Demand>,
}

impl Bench {
    fn plan(&self) -> Plan {
        let steps = self.durations.iter().copied().map(Step::lasting).collect();
        let rules = self.rules.iter().copied().map(Rule::negotiable).collect();
        Plan::new(steps, rules).unwrap()
    }

    fn resources(&self, plan: &Plan) -> Resources {
        Resources::new(plan, self.list.clone(), &self.demands).unwrap()
    }

    fn first(&self) -> Result<Schedule, NoSchedule> {
        let plan = self.plan();
        let fresh = Situation::fresh(&plan);
        let network = Network::new(&plan, &fresh).unwrap();
        let schedule = network.schedule(&self.resources(&plan))?;
        assert_obeys(&plan, &self.resources(&plan), &schedule);
        Ok(schedule)
    }

    /// The best finish, none if there is no plan at all. So small a bench is always decided.
    fn best(&self) -> Option<i64> {
        let plan = self.plan();
        let fresh = Situation::fresh(&plan);
        let network = Network::new(&plan, &fresh).unwrap();
        match network.prove(&self.resources(&plan), None, |_| true) {
            Ok(schedule) => {
                assert_obeys(&plan, &self.resources(&plan), &schedule);
                assert_eq!(schedule.gap(), 0);
                Some(schedule.finish)
            }
            Err(NoSchedule::Contradictory(_) | NoSchedule::Impossible) => None,
            Err(NoSchedule::NotFound) => panic!("left open: {self:?}"),
        }
    }
}

fn ask(kind: u8, [one, other]: [usize; 2], time: i64) -> Ask {
    let (first, then) = (one.min(other), one.max(other));
    match kind {
        0..=2 => Ask::After {
            first,
            then,
            lag: (time - 10).max(0),
        },
        3 => Ask::StartWithin {
            first,
            then,
            most: time,
        },
        4 => Ask::FinishedWithin {
            first,
            then,
            most: time + 8,
        },
        5 => Ask::StartWithinStart {
            first: one,
            then: other,
            most: time + 4,
        },
        6 => Ask::Together { first, then },
        7 => Ask::NotBefore { step: one, time },
        _ => Ask::FinishedBy {
            step: one,
            time: 3 * time + 10,
        },
    }
}

/// Three to five steps, most of them with hands and some with a tool, one to seven rules, and up to two
/// absences of each: crowded, so that orders matter, and no step asks for more than there is.
fn benches() -> impl Strategy<Value = Bench> {
    (3_usize..6).prop_flat_map(|count| {
        let durations = prop::collection::vec(1_i64..9, count);
        let rule = (0..count, 1..count, 0_u8..9, 0_i64..14);
        let rules = prop::collection::vec(rule, 1..8).prop_map(move |rules| {
            let made = rules.into_iter();
            made.map(|(one, by, kind, time)| ask(kind, [one, (one + by) % count], time))
                .collect()
        });
        let away = (0_i64..30, 1_i64..12, 1_u32..3).prop_map(|(from, lasts, units)| Away {
            from,
            until: from + lasts,
            units,
        });
        let absences = prop::collection::vec(away, 0..3);
        let list = prop::collection::vec((1_u32..4, absences), 2);
        let units = prop::collection::vec((0_u32..12, 0_u32..6), count);
        (durations, rules, list, units).prop_map(|(durations, rules, list, units)| {
            let resource = |(capacity, away)| Resource { capacity, away };
            let list: Vec<Resource> = list.into_iter().map(resource).collect();
            let demand = |step: usize, resource: usize, dice: u32| Demand {
                step,
                resource,
                units: dice % (list[resource].capacity + 1),
            };
            let demands = units.iter().enumerate().flat_map(|(step, &(hands, tool))| {
                // Of the hands mostly some, of the tool mostly none.
                let hands = if hands < 10 {
                    1 + hands % list[0].capacity
                } else {
                    0
                };
                let tool = if tool < 2 { 1 + tool } else { 0 };
                [demand(step, 0, hands), demand(step, 1, tool)]
            });
            Bench {
                durations,
                rules,
                demands: demands.collect(),
                list,
            }
        })
    })
}

/// The best finish up to a limit, by trying every start of every step.
fn tried(bench: &Bench, limit: i64) -> Option<i64> {
    let plan = bench.plan();
    let resources = bench.resources(&plan);
    let mut below = limit + 1;
    each(&plan, &resources, &mut Vec::new(), &mut below);
    Some(below).filter(|finish| *finish <= limit)
}

fn each(plan: &Plan, resources: &Resources, starts: &mut Vec<i64>, below: &mut i64) {
    let step = starts.len();
    if step == plan.steps().len() {
        let ends = starts.iter().zip(plan.steps());
        let ends = ends.map(|(start, step)| start + step.likely);
        *below = (*below).min(ends.max().unwrap_or(0));
        return;
    }
    for start in 0.. {
        if start + plan.steps()[step].likely >= *below {
            return;
        }
        starts.push(start);
        if stands(plan, resources, starts) {
            each(plan, resources, starts, below);
        }
        starts.pop();
    }
}

/// Whether the first steps so placed break nothing among themselves.
fn stands(plan: &Plan, resources: &Resources, starts: &[i64]) -> bool {
    let at = |step: usize| {
        let start = starts.get(step)?;
        Some((*start, start + plan.steps()[step].likely))
    };
    let ruled = plan.rules().iter().all(|rule| {
        let both = |first, then| at(first).zip(at(then));
        match rule.ask {
            Ask::After { first, then, lag } => {
                both(first, then).is_none_or(|(a, b)| b.0 >= a.1 + lag)
            }
            Ask::StartWithin { first, then, most } => {
                both(first, then).is_none_or(|(a, b)| b.0 <= a.1 + most)
            }
            Ask::FinishedWithin { first, then, most } => {
                both(first, then).is_none_or(|(a, b)| b.1 <= a.1 + most)
            }
            Ask::StartWithinStart { first, then, most } => {
                both(first, then).is_none_or(|(a, b)| b.0 <= a.0 + most)
            }
            Ask::Together { first, then } => both(first, then).is_none_or(|(a, b)| a.0 == b.0),
            Ask::NotBefore { step, time } => at(step).is_none_or(|a| a.0 >= time),
            Ask::FinishedBy { step, time } => at(step).is_none_or(|a| a.1 <= time),
        }
    });
    let Some((begins, ends)) = at(starts.len() - 1) else {
        return ruled;
    };
    ruled
        && resources
            .list()
            .iter()
            .enumerate()
            .all(|(number, resource)| {
                let units = |step: usize| {
                    let need = resources.needs(step).iter().find(|(r, _)| *r == number);
                    need.map_or(0, |(_, units)| *units)
                };
                units(starts.len() - 1) == 0
                    || (begins..ends).all(|time| {
                        let away = resource
                            .away
                            .iter()
                            .filter(|a| a.from <= time && time < a.until);
                        let away: u32 = away.map(|a| a.units).sum();
                        let held = (0..starts.len())
                            .filter(|&s| at(s).is_some_and(|(b, e)| b <= time && time < e));
                        let held: u32 = held.map(units).sum();
                        held <= resource.capacity.saturating_sub(away)
                    })
            })
}

/// Beyond this no bench of four steps need wait.
const LONG: i64 = 80;

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Trying every start of up to four steps finds the same.
    #[test]
    fn law_the_best_is_the_best_of_all(mut bench in benches()) {
        prop_assume!(bench.durations.len() <= 4);
        for rule in &mut bench.rules {
            if let Ask::After { lag, .. } = rule {
                *lag /= 3;
            }
        }
        let tried = tried(&bench, LONG);
        prop_assert_eq!(bench.best().filter(|finish| *finish <= LONG), tried);
    }

    #[test]
    fn law_bound_best_and_first_are_in_order(bench in benches()) {
        let best = bench.best();
        match bench.first() {
            Ok(first) => {
                let best = best.unwrap();
                prop_assert!(first.bound <= best && best <= first.finish);
            }
            Err(NoSchedule::NotFound) => {}
            Err(_) => prop_assert_eq!(best, None),
        }
    }

    #[test]
    fn law_the_same_again_is_the_same(bench in benches()) {
        prop_assert_eq!(bench.first(), bench.first());
        prop_assert_eq!(bench.best(), bench.best());
    }

    #[test]
    fn law_a_rule_more_never_helps(bench in benches(), more in (0_usize..6, 1_usize..6, 0_u8..9, 0_i64..20)) {
        let (one, by, kind, time) = more;
        let count = bench.durations.len();
        prop_assume!(one < count && by < count);
        let mut stricter = bench.clone();
        stricter.rules.push(ask(kind, [one, (one + by) % count], time));
        match (bench.best(), stricter.best()) {
            (Some(before), Some(after)) => prop_assert!(before <= after),
            (before, after) => prop_assert!(after.is_none(), "{before:?} {after:?}"),
        }
    }

    #[test]
    fn law_more_hands_never_hurt(bench in benches(), which in 0_usize..2) {
        let mut richer = bench.clone();
        richer.list[which].capacity += 1;
        let mut always = bench.clone();
        always.list[which].away.clear();
        for other in [richer, always] {
            match (other.best(), bench.best()) {
                (Some(after), Some(before)) => prop_assert!(after <= before),
                (after, before) => prop_assert!(before.is_none(), "{before:?} {after:?}"),
            }
        }
    }

    #[test]
    fn law_the_order_of_the_list_does_not_matter(bench in benches()) {
        let last = bench.durations.len() - 1;
        let turned = Bench {
            durations: bench.durations.iter().rev().copied().collect(),
            rules: bench.rules.iter().map(|rule| turn(*rule, last)).collect(),
            list: bench.list.clone(),
            demands: bench
                .demands
                .iter()
                .map(|demand| Demand { step: last - demand.step, ..*demand })
                .collect(),
        };
        prop_assert_eq!(bench.best(), turned.best());
    }

    /// Every part of a shortage is needed, and what is said to mend it does.
    #[test]
    fn law_a_shortage_is_least_and_mended(bench in benches()) {
        let plan = bench.plan();
        let fresh = Situation::fresh(&plan);
        let network = Network::new(&plan, &fresh).unwrap();
        let resources = bench.resources(&plan);
        let found = match network.shortage(&resources, || true) {
            Ok(found) => found,
            Err(NoSchedule::Contradictory(_)) => return Ok(()),
            Err(other) => panic!("{other:?}"),
        };
        prop_assert_eq!(found.is_none(), bench.best().is_some());
        let Some(found) = found else { return Ok(()) };
        prop_assert!(found.minimal);
        let wants: Vec<Want> = found.parts.iter().map(|part| part.want).collect();
        prop_assert_eq!(with(&bench, &wants).best(), None);
        for spared in 0..wants.len() {
            let mut rest = wants.clone();
            rest.remove(spared);
            prop_assert!(with(&bench, &rest).best().is_some(), "{:?} of {:?}", wants[spared], wants);
        }
        for part in &found.parts {
            if let Some(change) = part.change {
                prop_assert!(changed(&bench, part.want, change).best().is_some(), "{part:?}");
            }
        }
    }
}

/// A rule with the steps of the list turned round.
fn turn(ask: Ask, last: usize) -> Ask {
    match ask {
        Ask::After { first, then, lag } => Ask::After {
            first: last - first,
            then: last - then,
            lag,
        },
        Ask::StartWithin { first, then, most } => Ask::StartWithin {
            first: last - first,
            then: last - then,
            most,
        },
        Ask::FinishedWithin { first, then, most } => Ask::FinishedWithin {
            first: last - first,
            then: last - then,
            most,
        },
        Ask::StartWithinStart { first, then, most } => Ask::StartWithinStart {
            first: last - first,
            then: last - then,
            most,
        },
        Ask::Together { first, then } => Ask::Together {
            first: last - first,
            then: last - then,
        },
        Ask::NotBefore { step, time } => Ask::NotBefore {
            step: last - step,
            time,
        },
        Ask::FinishedBy { step, time } => Ask::FinishedBy {
            step: last - step,
            time,
        },
    }
}

/// Only some of the rules, capacities and absences.
fn with(bench: &Bench, wants: &[Want]) -> Bench {
    let mut less = bench.clone();
    let rules = bench.rules.iter().enumerate();
    less.rules = rules
        .filter(|(rule, _)| wants.contains(&Want::Rule(*rule)))
        .map(|(_, ask)| *ask)
        .collect();
    for (number, resource) in less.list.iter_mut().enumerate() {
        if !wants.contains(&Want::Capacity(number)) {
            resource.capacity = 1000;
        }
        if !wants.contains(&Want::Away(number)) {
            resource.away.clear();
        }
    }
    less
}

/// One part changed as it is said to mend.
fn changed(bench: &Bench, want: Want, change: i64) -> Bench {
    let mut other = bench.clone();
    match want {
        Want::Rule(rule) => {
            let (Ask::After { lag: value, .. }
            | Ask::StartWithin { most: value, .. }
            | Ask::FinishedWithin { most: value, .. }
            | Ask::StartWithinStart { most: value, .. }
            | Ask::NotBefore { time: value, .. }
            | Ask::FinishedBy { time: value, .. }) = &mut other.rules[rule]
            else {
                panic!("nothing to change");
            };
            *value = change;
        }
        Want::Capacity(resource) => other.list[resource].capacity = u32::try_from(change).unwrap(),
        Want::Away(resource) => {
            for away in &mut other.list[resource].away {
                away.from += change;
            }
            other.list[resource]
                .away
                .retain(|away| away.from < away.until);
        }
        Want::Duration(step) => other.durations[step] = change,
        Want::Finish => panic!("none was asked for"),
    }
    other
}
