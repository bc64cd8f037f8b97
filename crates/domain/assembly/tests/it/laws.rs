//! Laws over plans of every shape.

use assembly::{
    Ask, Contradiction, Deadline, Network, Pace, Part, Plan, Progress, Readiness, Rule, Situation,
    Source, Step, Window,
};
use proptest::prelude::*;

use crate::{length, windows as solved};

/// Up to nine steps with up to fourteen rules. Orders run from lower to higher steps, so that they
/// make no ring; everything else runs as it likes, and about half of the plans contradict themselves.
fn plans() -> impl Strategy<Value = (Vec<Step>, Vec<Rule>)> {
    (2_usize..9).prop_flat_map(|count| {
        let step = (0_i64..20, 0_i64..10, 0_i64..10).prop_map(|(least, more, most)| Step {
            least,
            likely: least + more,
            most: least + more + most,
        });
        let steps = prop::collection::vec(step, count);
        let rule = (0..count, 1..count, 0_u8..12, 0_i64..60, any::<bool>());
        let rules = prop::collection::vec(rule, 0..14).prop_map(move |rules| {
            let made = rules.into_iter();
            made.map(|(one, by, kind, time, physics)| {
                let other = (one + by) % count;
                let ask = ask(kind, [one, other], time);
                if physics {
                    Rule::physics(ask)
                } else {
                    Rule::negotiable(ask)
                }
            })
            .collect()
        });
        (steps, rules)
    })
}

fn ask(kind: u8, [one, other]: [usize; 2], time: i64) -> Ask {
    let (first, then) = (one.min(other), one.max(other));
    match kind {
        0..=3 => Ask::After {
            first,
            then,
            lag: (time - 40).max(0),
        },
        4 => Ask::StartWithin {
            first,
            then,
            most: time,
        },
        5 => Ask::StartWithin {
            first: one,
            then: other,
            most: time,
        },
        6 => Ask::FinishedWithin {
            first,
            then,
            most: time,
        },
        7 => Ask::FinishedWithin {
            first: one,
            then: other,
            most: time,
        },
        8 => Ask::StartWithinStart {
            first: one,
            then: other,
            most: time,
        },
        9 => Ask::Together { first, then },
        10 => Ask::NotBefore { step: one, time },
        _ => Ask::FinishedBy {
            step: one,
            time: 2 * time,
        },
    }
}

fn made(steps: &[Step], rules: &[Rule]) -> Plan {
    Plan::new(steps.to_vec(), rules.to_vec()).unwrap()
}

/// Whether starts obey a rule, in the words of the rule itself.
fn obeys(ask: Ask, starts: &[i64], ends: &[i64]) -> bool {
    match ask {
        Ask::After { first, then, lag } => starts[then] >= ends[first] + lag,
        Ask::StartWithin { first, then, most } => starts[then] <= ends[first] + most,
        Ask::FinishedWithin { first, then, most } => ends[then] <= ends[first] + most,
        Ask::StartWithinStart { first, then, most } => starts[then] <= starts[first] + most,
        Ask::Together { first, then } => starts[first] == starts[then],
        Ask::NotBefore { step, time } => starts[step] >= time,
        Ask::FinishedBy { step, time } => ends[step] <= time,
    }
}

/// The least starts by pushing every start up until every rule is obeyed, or None when they rise
/// beyond what all durations and numbers together could ask for.
fn pushed(steps: &[Step], rules: &[Rule]) -> Option<Vec<i64>> {
    let mut starts = vec![0; steps.len()];
    let lasts = |step: usize| steps[step].likely;
    loop {
        let before = starts.clone();
        for rule in rules {
            let (step, least) = match rule.ask {
                Ask::After { first, then, lag } => (then, starts[first] + lasts(first) + lag),
                Ask::StartWithin { first, then, most } => {
                    (first, starts[then] - most - lasts(first))
                }
                Ask::FinishedWithin { first, then, most } => {
                    (first, starts[then] + lasts(then) - most - lasts(first))
                }
                Ask::StartWithinStart { first, then, most } => (first, starts[then] - most),
                Ask::Together { first, then } => {
                    starts[first] = starts[first].max(starts[then]);
                    (then, starts[first])
                }
                Ask::NotBefore { step, time } => (step, time),
                Ask::FinishedBy { step, time } if starts[step] + lasts(step) > time => return None,
                Ask::FinishedBy { step, .. } => (step, 0),
            };
            starts[step] = starts[step].max(least);
        }
        if starts == before {
            return Some(starts);
        }
        // Fourteen rules of a minute and nine steps of forty seconds ask for less.
        if starts.iter().any(|start| *start > 5000) {
            return None;
        }
    }
}

/// A plan with one number changed as a part of a contradiction proposes.
fn changed(steps: &[Step], rules: &[Rule], part: Part, value: i64) -> Plan {
    let (mut steps, mut rules) = (steps.to_vec(), rules.to_vec());
    match part.source {
        Source::Duration(step) => steps[step].likely = value,
        Source::Rule(rule) => match &mut rules[rule].ask {
            Ask::After { lag: number, .. }
            | Ask::StartWithin { most: number, .. }
            | Ask::FinishedWithin { most: number, .. }
            | Ask::StartWithinStart { most: number, .. }
            | Ask::NotBefore { time: number, .. }
            | Ask::FinishedBy { time: number, .. } => *number = value,
            Ask::Together { .. } => unreachable!("it has no number"),
        },
        source => unreachable!("{source:?} has no number here"),
    }
    made(&steps, &rules)
}

/// What the plan looks like just after a time, or just before it, if every step starts at its earliest.
fn executed(plan: &Plan, windows: &[Window], now: i64, after: bool) -> Situation {
    let progress = windows.iter().map(|window| {
        let (began, ended) = (window.earliest, window.ends);
        if began > now || (began == now && !after) {
            Progress::NotStarted
        } else if ended > now {
            Progress::Running { began }
        } else {
            Progress::Done { began, ended }
        }
    });
    Situation {
        now,
        progress: progress.collect(),
        ..Situation::fresh(plan)
    }
}

/// Anything that can have happened by a time.
fn happened(now: i64) -> impl Strategy<Value = Progress> {
    (0_u8..7, 0..=now, 0..=now).prop_map(|(kind, one, other)| match kind {
        0 | 1 => Progress::NotStarted,
        2 => Progress::Running { began: one },
        3 | 4 => Progress::Done {
            began: one.min(other),
            ended: one.max(other),
        },
        5 => Progress::DoneBefore,
        _ => Progress::Deferred,
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_the_earliest_is_what_pushing_gives((steps, rules) in plans()) {
        let found = solved(&made(&steps, &rules), None).ok();
        let found = found.map(|found| found.iter().map(|w| w.earliest).collect::<Vec<_>>());
        prop_assert_eq!(found, pushed(&steps, &rules));
    }

    #[test]
    fn law_earliest_and_latest_obey_every_rule((steps, rules) in plans(), spare in 0_i64..30) {
        let plan = made(&steps, &rules);
        let Ok(loose) = solved(&plan, None) else { return Ok(()) };
        let found = solved(&plan, Some(length(&loose) + spare)).unwrap();
        let lasts = |starts: &[i64]| -> Vec<i64> {
            starts.iter().zip(&steps).map(|(start, step)| start + step.likely).collect()
        };
        let earliest: Vec<i64> = found.iter().map(|w| w.earliest).collect();
        let latest: Vec<i64> = found.iter().map(|w| w.latest.unwrap()).collect();
        for starts in [earliest, latest] {
            let ends = lasts(&starts);
            for rule in &rules {
                prop_assert!(obeys(rule.ask, &starts, &ends), "{:?} {:?}", rule, starts);
            }
            prop_assert!(ends.iter().all(|end| *end <= length(&loose) + spare));
        }
    }

    /// One second later than the latest is too late.
    #[test]
    fn law_the_latest_is_the_latest((steps, rules) in plans(), step in 0_usize..9) {
        let step = step % steps.len();
        let Ok(found) = solved(&made(&steps, &rules), None) else { return Ok(()) };
        let at_least = |time| {
            let held = Rule::negotiable(Ask::NotBefore { step, time });
            solved(&made(&steps, &[rules.as_slice(), &[held]].concat()), None)
        };
        match found[step].latest {
            Some(latest) => {
                prop_assert!(at_least(latest).is_ok());
                prop_assert!(at_least(latest + 1).is_err());
            }
            None => prop_assert!(at_least(1_000_000).is_ok()),
        }
    }

    /// The rules of an explanation contradict each other, and without any one of them they don't.
    #[test]
    fn law_explanations_are_irreducible((steps, rules) in plans()) {
        let Err(found) = solved(&made(&steps, &rules), None) else { return Ok(()) };
        prop_assert!(found.is_sorted_by(|a, b| a.short_by >= b.short_by));
        for contradiction in &found {
            prop_assert_eq!(contradiction.short_by, contradiction.parts.iter().map(|p| p.adds).sum::<i64>());
            prop_assert!(contradiction.short_by > 0);
            let named: Vec<Rule> = contradiction.parts.iter().filter_map(|part| match part.source {
                Source::Rule(rule) => Some(rules[rule]),
                _ => None,
            }).collect();
            prop_assert!(solved(&made(&steps, &named), None).is_err());
            for out in 0..named.len() {
                let mut left = named.clone();
                left.remove(out);
                prop_assert!(solved(&made(&steps, &left), None).is_ok(), "{:?} without {}", named, out);
            }
        }
    }

    /// A proposed change mends what it is proposed for, and one second less does not.
    #[test]
    fn law_a_change_just_mends((steps, rules) in plans()) {
        let Err(found) = solved(&made(&steps, &rules), None) else { return Ok(()) };
        let [only] = found.as_slice() else { return Ok(()) };
        for &part in &only.parts {
            if let Some(value) = part.change {
                let plan = changed(&steps, &rules, part, value);
                prop_assert!(solved(&plan, None).is_ok(), "{:?} in {:?}", part, only);
                // One second towards what it was.
                let was = match part.source {
                    Source::Duration(step) => steps[step].likely,
                    Source::Rule(rule) => match rules[rule].ask {
                        Ask::After { lag, .. } => lag,
                        Ask::NotBefore { time, .. } | Ask::FinishedBy { time, .. } => time,
                        Ask::StartWithin { most, .. } | Ask::FinishedWithin { most, .. }
                        | Ask::StartWithinStart { most, .. } => most,
                        Ask::Together { .. } => value,
                    },
                    _ => value,
                };
                let less = changed(&steps, &rules, part, value + (was - value).signum());
                prop_assert!(solved(&less, None).is_err(), "{:?} in {:?}", part, only);
            }
            let physics = matches!(part.source, Source::Rule(rule) if rules[rule] == Rule::physics(rules[rule].ask));
            prop_assert_eq!(part.offered, part.change.is_some() && !physics);
        }
    }

    /// Without one rule of each explanation the plan stands.
    #[test]
    fn law_the_explanations_are_all((steps, rules) in plans()) {
        let Err(found) = solved(&made(&steps, &rules), None) else { return Ok(()) };
        let mut left: Vec<Option<Rule>> = rules.iter().copied().map(Some).collect();
        for contradiction in &found {
            if let Some(Part { source: Source::Rule(rule), .. }) = contradiction.parts.last() {
                left[*rule] = None;
            }
        }
        let left: Vec<Rule> = left.into_iter().flatten().collect();
        prop_assert!(solved(&made(&steps, &left), None).is_ok());
    }

    #[test]
    fn law_a_rule_more_makes_nothing_earlier((steps, rules) in plans()) {
        prop_assume!(!rules.is_empty());
        let less = solved(&made(&steps, &rules[1..]), None);
        let Ok(more) = solved(&made(&steps, &rules), None) else { return Ok(()) };
        for (less, more) in less.unwrap().iter().zip(&more) {
            prop_assert!(less.earliest <= more.earliest);
            prop_assert!(less.latest.is_none_or(|latest| more.latest.is_some_and(|l| l <= latest)));
        }
    }

    #[test]
    fn law_a_shift_of_the_origin_shifts_all((steps, rules) in plans(), by in -100_i64..100) {
        let moved: Vec<Rule> = rules.iter().map(|rule| {
            let mut rule = *rule;
            if let Ask::NotBefore { time, .. } | Ask::FinishedBy { time, .. } = &mut rule.ask {
                *time += by;
            }
            rule
        }).collect();
        let there = made(&steps, &moved);
        let later = Situation { now: by, ..Situation::fresh(&there) };
        let there = Network::new(&there, &later).unwrap().windows();
        match solved(&made(&steps, &rules), None) {
            Ok(here) => {
                let here: Vec<Window> = here.iter().map(|w| Window {
                    earliest: w.earliest + by,
                    latest: w.latest.map(|latest| latest + by),
                    ends: w.ends + by,
                }).collect();
                prop_assert_eq!(there, Ok(here));
            }
            Err(here) => {
                let short = |found: &[Contradiction]| found.iter().map(|c| c.short_by).collect::<Vec<_>>();
                prop_assert_eq!(short(&there.unwrap_err()), short(&here));
            }
        }
    }

    /// Whoever starts everything at its earliest finds, at any moment, the same plan before him.
    #[test]
    fn law_what_was_planned_and_done_changes_nothing((steps, rules) in plans(), now in 0_i64..400) {
        let plan = made(&steps, &rules);
        let Ok(planned) = solved(&plan, None) else { return Ok(()) };
        let situation = executed(&plan, &planned, now, true);
        let network = Network::new(&plan, &situation).unwrap();
        prop_assert_eq!(network.broken(), []);
        let found = network.windows().unwrap();
        for (found, planned) in found.iter().zip(&planned) {
            prop_assert_eq!((found.earliest, found.ends), (planned.earliest, planned.ends));
        }
        prop_assert!(network.clocks().iter().all(|clock| clock.left >= 0));
    }

    /// When the plan starts a step, something is ready, and any ready step alone, or all of them at
    /// once, may start and nothing runs out.
    #[test]
    fn law_what_is_ready_can_start((steps, rules) in plans(), [step, one] in any::<[prop::sample::Index; 2]>()) {
        let plan = made(&steps, &rules);
        let Ok(planned) = solved(&plan, None) else { return Ok(()) };
        let now = step.get(&planned).earliest;
        let mut situation = executed(&plan, &planned, now, false);
        let network = Network::new(&plan, &situation).unwrap();
        let found = network.ready().unwrap();
        let ready: Vec<usize> = (0..steps.len()).filter(|&step| found[step] == Readiness::Ready).collect();
        // Steps of no duration, some of them together, may wait for each other in a ring.
        prop_assume!(!ready.is_empty());
        let mut alone = situation.clone();
        alone.progress[*one.get(&ready)] = Progress::Running { began: now };
        for &step in &ready {
            situation.progress[step] = Progress::Running { began: now };
        }
        for started in [alone, situation] {
            let network = Network::new(&plan, &started).unwrap();
            prop_assert_eq!(network.broken(), []);
            prop_assert!(network.windows().is_ok());
        }
    }

    /// Whatever has happened, there is an answer, and a contradiction is one.
    #[test]
    fn law_any_history_has_an_answer((steps, rules) in plans(), now in 0_i64..100, history in prop::collection::vec(happened(99), 9), finish in prop::option::of(0_i64..300)) {
        let plan = made(&steps, &rules);
        let progress = history.into_iter().take(steps.len());
        let situation = Situation { now: 99 + now, finish, progress: progress.collect(), ..Situation::fresh(&plan) };
        let network = Network::new(&plan, &situation).unwrap();
        prop_assert!(network.broken().iter().all(|broken| broken.by >= 0));
        let answers = [network.windows().err(), network.ready().err()];
        let ahead = (0..steps.len()).filter_map(|step| network.look_ahead(step).ok()?.outcome.err());
        for found in answers.into_iter().flatten().chain(ahead) {
            prop_assert!(!found.is_empty());
            for contradiction in found {
                prop_assert!(contradiction.short_by > 0);
                let sources = contradiction.parts.iter().map(|part| part.source);
                prop_assert!(sources.clone().all(|one| sources.clone().filter(|other| *other == one).count() == 1), "{:?}", contradiction);
            }
        }
        for clock in network.clocks() {
            // A clock that has run out is a broken rule; together is due at once and breaks nothing.
            let told = network.broken().iter().any(|broken| broken.rule == clock.rule);
            let open = !matches!(rules[clock.rule].ask, Ask::Together { .. });
            let (Deadline::Start { step, .. } | Deadline::End { step, .. }) = clock.deadline;
            let here = situation.progress[step] != Progress::Deferred;
            prop_assert_eq!(told, open && here && clock.left < 0, "{:?}", clock);
        }
    }

    /// The finish proposed instead of one too soon is the soonest.
    #[test]
    fn law_a_finish_just_mends((steps, rules) in plans(), finish in 0_i64..100) {
        let plan = made(&steps, &rules);
        let Ok(loose) = solved(&plan, None) else { return Ok(()) };
        let Err(found) = solved(&plan, Some(finish)) else { return Ok(()) };
        prop_assert_eq!(found.len(), 1);
        let part = found[0].parts.last().unwrap();
        prop_assert_eq!((part.source, part.change), (Source::Finish, Some(length(&loose))));
    }

    /// What cannot be at the least durations is beyond hurrying; orders alone always can.
    #[test]
    fn law_orders_never_contradict((steps, rules) in plans()) {
        let orders: Vec<Rule> = rules.into_iter().filter(|rule| matches!(rule.ask, Ask::After { .. })).collect();
        let plan = made(&steps, &orders);
        let ends = [Pace::Least, Pace::Likely, Pace::Most].map(|pace| {
            let situation = Situation { pace, ..Situation::fresh(&plan) };
            length(&Network::new(&plan, &situation).unwrap().windows().unwrap())
        });
        prop_assert!(ends.is_sorted());
    }
}
