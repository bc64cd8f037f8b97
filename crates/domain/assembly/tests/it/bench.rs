//! At the bench: what may start, what waits for what, which clock runs, what fits.

use assembly::{
    Ask, Broken, Clock, Deadline, Error, Network, Plan, Progress, Readiness, Rule, Situation,
    Source, Step, Wait,
};

use crate::{after, finished_by, finished_within, not_before, nozzle, plan, start_within};

use Progress::{Deferred, Done, DoneBefore, NotStarted, Running};

fn at(plan: &Plan, now: i64, progress: &[Progress]) -> Situation {
    Situation {
        now,
        progress: progress.to_vec(),
        ..Situation::fresh(plan)
    }
}

fn ready(plan: &Plan, situation: &Situation, closed: &[usize]) -> Vec<Readiness> {
    let situation = Situation {
        closed: closed.to_vec(),
        ..situation.clone()
    };
    Network::new(plan, &situation).unwrap().ready().unwrap()
}

fn waits(wait: Wait) -> Readiness {
    Readiness::Waits(vec![wait])
}

/// The first steps of the nozzle: what nothing comes before may start, degreasing at once too, as
/// its window of 30 minutes outlasts the checks.
#[test]
fn law_ready_at_the_start() {
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    let found = ready(&plan, &Situation::fresh(&plan), &[]);
    let may: Vec<usize> = (0..11)
        .filter(|&step| found[step] == Readiness::Ready)
        .collect();
    assert_eq!(may, [0, 1, 2, 4]);
    assert_eq!(
        found[3],
        Readiness::Waits(vec![
            Wait::Step { rule: 0, step: 1 },
            Wait::Step { rule: 1, step: 2 },
        ])
    );
}

/// Degreased at once, the flange would be dirty again before a long check lets the sealant on.
#[test]
fn law_too_early_says_until_when_and_why() {
    let (durations, rules) = nozzle(60);
    let plan = plan(&durations, &rules);
    let found = ready(&plan, &Situation::fresh(&plan), &[]);
    let because = vec![
        Source::Now,
        Source::Duration(1),
        Source::Rule(0),
        Source::Duration(3),
        Source::Rule(2),
        Source::Rule(4),
        Source::Duration(4),
    ];
    assert_eq!(
        found[4],
        waits(Wait::TooEarly {
            time: 20 + 60 - 42,
            because
        })
    );
}

#[test]
fn law_gates_lags_and_dates_hold_back() {
    let rules = [after(0, 1, 100), not_before(2, 50), after(0, 3, 0)];
    let plan = plan(&[10; 4], &rules);
    let progress = [
        Done {
            began: 0,
            ended: 10,
        },
        NotStarted,
        NotStarted,
        NotStarted,
    ];
    let found = ready(&plan, &at(&plan, 40, &progress), &[3]);
    assert_eq!(
        found,
        [
            Readiness::Begun,
            waits(Wait::Until { rule: 0, time: 110 }),
            waits(Wait::Until { rule: 1, time: 50 }),
            waits(Wait::Gate),
        ]
    );
    let found = ready(&plan, &at(&plan, 110, &progress), &[]);
    assert_eq!(
        found[1..],
        [Readiness::Ready, Readiness::Ready, Readiness::Ready]
    );
}

/// One cure, two gates: it may get wet before it may be loaded.
#[test]
fn law_one_step_carries_several_lags() {
    let cure = |then, lag| {
        Rule::physics(Ask::After {
            first: 0,
            then,
            lag,
        })
    };
    let plan = plan(&[10; 3], &[cure(1, 60), cure(2, 1440)]);
    let progress = [
        Done {
            began: 0,
            ended: 10,
        },
        NotStarted,
        NotStarted,
    ];
    let found = ready(&plan, &at(&plan, 100, &progress), &[]);
    assert_eq!(found[1], Readiness::Ready);
    assert_eq!(
        found[2],
        waits(Wait::Until {
            rule: 1,
            time: 1450
        })
    );
}

#[test]
fn law_a_step_that_takes_longer_than_planned_still_holds_back() {
    let plan = plan(&[10, 10], &[after(0, 1, 0)]);
    let late = at(&plan, 25, &[Running { began: 0 }, NotStarted]);
    let network = Network::new(&plan, &late).unwrap();
    assert_eq!(network.windows().unwrap()[1].earliest, 25);
    assert_eq!(
        ready(&plan, &late, &[])[1],
        waits(Wait::Step { rule: 0, step: 0 })
    );
}

#[test]
fn law_a_step_left_off_passes_on_what_it_waits_for() {
    let rules = [after(0, 1, 0), after(1, 2, 500)];
    let plan = plan(&[10, 20, 10], &rules);
    let found = ready(
        &plan,
        &at(&plan, 5, &[Running { began: 0 }, Deferred, NotStarted]),
        &[],
    );
    assert_eq!(
        found,
        [
            Readiness::Begun,
            Readiness::Deferred,
            waits(Wait::Step { rule: 0, step: 0 })
        ]
    );
    let progress = [
        Done {
            began: 0,
            ended: 10,
        },
        Deferred,
        NotStarted,
    ];
    assert_eq!(
        ready(&plan, &at(&plan, 10, &progress), &[])[2],
        Readiness::Ready
    );
}

#[test]
fn law_unseen_work_counts_its_lag_from_the_origin() {
    let rules = [after(0, 1, 60), start_within(0, 2, 5)];
    let plan = plan(&[10; 3], &rules);
    let found = ready(
        &plan,
        &at(&plan, 30, &[DoneBefore, NotStarted, NotStarted]),
        &[],
    );
    assert_eq!(found[1], waits(Wait::Until { rule: 0, time: 60 }));
    assert_eq!(found[2], Readiness::Ready);
    // Before the origin it can't have been later than now.
    let early = at(&plan, -20, &[DoneBefore, NotStarted, NotStarted]);
    let wait = Wait::Until { rule: 0, time: 40 };
    assert_eq!(ready(&plan, &early, &[])[1], waits(wait));
    let windows = Network::new(&plan, &early).unwrap().windows().unwrap();
    assert_eq!(windows[1].earliest, 40);
}

#[test]
fn law_what_nobody_saw_is_not_judged() {
    let rules = [after(0, 1, 60), not_before(1, 50), finished_by(1, -50)];
    let plan = plan(&[10; 2], &rules);
    let later = at(&plan, 30, &[NotStarted, DoneBefore]);
    assert_eq!(Network::new(&plan, &later).unwrap().broken(), []);
}

#[test]
fn law_partners_wait_for_each_other() {
    let rules = [
        Rule::negotiable(Ask::Together { first: 0, then: 1 }),
        Rule::negotiable(Ask::Together { first: 1, then: 2 }),
        not_before(2, 50),
    ];
    let plan = plan(&[10; 3], &rules);
    let found = ready(&plan, &Situation::fresh(&plan), &[]);
    // The date reaches the others as a window that isn't open yet.
    assert!(
        matches!(found[0], Readiness::Waits(ref waits) if matches!(waits[0], Wait::TooEarly { time: 50, .. }))
    );
    let found = ready(&plan, &at(&plan, 60, &[NotStarted; 3]), &[2]);
    assert_eq!(
        found,
        [
            waits(Wait::Partner { rule: 0, step: 1 }),
            waits(Wait::Partner { rule: 1, step: 2 }),
            waits(Wait::Gate),
        ]
    );
    // One begun, the other is due at once and may start although a moment has gone.
    let begun = at(&plan, 63, &[Running { began: 60 }, NotStarted, NotStarted]);
    assert_eq!(ready(&plan, &begun, &[])[1], Readiness::Ready);
    assert_eq!(
        Network::new(&plan, &begun).unwrap().clocks(),
        [Clock {
            rule: 0,
            deadline: Deadline::Start { step: 1, by: 60 },
            left: -3
        }]
    );
}

#[test]
fn law_clocks_run_from_what_happened() {
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    let mut progress = vec![Done { began: 0, ended: 0 }; 5];
    progress.extend([NotStarted; 6]);
    let clocks = |now, progress: &[Progress]| {
        let situation = at(&plan, now, progress);
        Network::new(&plan, &situation).unwrap().clocks()
    };
    let spread = Clock {
        rule: 4,
        deadline: Deadline::Start { step: 5, by: 30 },
        left: 25,
    };
    assert_eq!(clocks(5, &progress), [spread]);
    progress[5] = Running { began: 5 };
    assert_eq!(clocks(8, &progress), []);
    progress[5] = Done {
        began: 5,
        ended: 10,
    };
    let close = Clock {
        rule: 6,
        deadline: Deadline::End { step: 6, by: 20 },
        left: 9,
    };
    assert_eq!(clocks(11, &progress), [close]);
    progress[6] = Running { began: 11 };
    assert_eq!(clocks(22, &progress), [Clock { left: -2, ..close }]);
}

/// The skin time has run out: it is told, and the rest of the plan still stands.
#[test]
fn law_a_clock_run_out_is_broken_and_spoils_nothing() {
    let rules = [after(0, 1, 0), start_within(0, 1, 10), after(1, 2, 0)];
    let plan = plan(&[5, 8, 5], &rules);
    let late = at(
        &plan,
        20,
        &[Done { began: 0, ended: 5 }, NotStarted, NotStarted],
    );
    let network = Network::new(&plan, &late).unwrap();
    assert_eq!(network.broken(), [Broken { rule: 1, by: 5 }]);
    assert_eq!(network.clocks()[0].left, -5);
    assert_eq!(network.windows().unwrap()[2].earliest, 28);
}

#[test]
fn law_whoever_has_begun_out_of_turn_is_told() {
    let rules = [after(0, 1, 30)];
    let plan = plan(&[5, 8], &rules);
    let early = at(&plan, 10, &[NotStarted, Running { began: 10 }]);
    let network = Network::new(&plan, &early).unwrap();
    assert_eq!(network.broken(), [Broken { rule: 0, by: 30 }]);
    assert!(network.windows().is_ok());
    // At the very moment, with no lag to miss, it is out of turn all the same.
    let plain = crate::plan(&[5, 8], &[after(0, 1, 0)]);
    let network = Network::new(&plain, &early).unwrap();
    assert_eq!(network.broken(), [Broken { rule: 0, by: 0 }]);
    assert!(network.windows().is_ok());
    // Seen from afterwards: done in the wrong order, by so much.
    let after_all = at(
        &plan,
        50,
        &[
            Done {
                began: 40,
                ended: 45,
            },
            Done {
                began: 10,
                ended: 18,
            },
        ],
    );
    let network = Network::new(&plan, &after_all).unwrap();
    assert_eq!(network.broken(), [Broken { rule: 0, by: 65 }]);
}

/// Everything up to degreasing is done; spreading would start the clocks.
fn before_spreading(now: i64) -> (Plan, Situation) {
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    let mut progress = vec![
        Done {
            began: 0,
            ended: 12
        };
        5
    ];
    progress[0] = NotStarted;
    progress.extend([NotStarted; 6]);
    let situation = at(&plan, now, &progress);
    (plan, situation)
}

#[test]
fn law_look_ahead_follows_the_clocks_and_nothing_else() {
    let (plan, situation) = before_spreading(30);
    let ahead = Network::new(&plan, &situation)
        .unwrap()
        .look_ahead(5)
        .unwrap();
    assert_eq!(ahead.chain, [6, 7, 8]);
    let fit = ahead.outcome.unwrap();
    // Closing takes 8 of its 10 minutes; 15 and 20 more are granted to torque and cone.
    let slacks: Vec<_> = fit
        .windows
        .iter()
        .map(|window| window.slack().unwrap())
        .collect();
    assert_eq!(slacks, [2, 2 + 15, 2 + 15 + 20]);
    assert_eq!(fit.spare, Some(2));
    assert_eq!(fit.windows[0].earliest, 35);
}

/// A clock that a step already done has started binds the chain too: the cone by then, the torque so
/// that the cone can be.
#[test]
fn law_look_ahead_minds_the_clocks_that_run() {
    let (durations, mut rules) = nozzle(10);
    rules.push(finished_within(4, 8, 50));
    let plan = plan(&durations, &rules);
    let (_, situation) = before_spreading(30);
    let network = Network::new(&plan, &situation).unwrap();
    let found = network.look_ahead(5).unwrap().outcome.unwrap_err();
    // Degreased at 12; spreading, closing, torque and cone end 35 minutes from now.
    assert_eq!(found[0].short_by, 30 + 35 - (12 + 50));
}

/// A step left off is no part of a chain, but what is before it and not done still is.
#[test]
fn law_look_ahead_passes_a_step_left_off() {
    let rules = [
        after(0, 3, 0),
        finished_within(0, 3, 20),
        after(1, 2, 0),
        after(2, 3, 0),
    ];
    let plan = plan(&[5, 12, 40, 10], &rules);
    let mut situation = at(&plan, 0, &[NotStarted, NotStarted, Deferred, NotStarted]);
    // A finish wanted for the whole is not asked here.
    situation.finish = Some(1);
    let network = Network::new(&plan, &situation).unwrap();
    let ahead = network.look_ahead(0).unwrap();
    assert_eq!(ahead.chain, [1, 3]);
    assert_eq!(ahead.outcome.unwrap().spare, Some(5 + 20 - 12 - 10));
}

/// The chain is told in the order of the work, not of the lists.
#[test]
fn law_look_ahead_is_in_the_order_of_work() {
    let rules = [
        after(2, 1, 0),
        after(1, 0, 0),
        finished_within(2, 1, 10),
        finished_within(1, 0, 10),
    ];
    let plan = plan(&[5, 6, 3], &rules);
    let fresh = Situation::fresh(&plan);
    let ahead = Network::new(&plan, &fresh).unwrap().look_ahead(2).unwrap();
    assert_eq!(ahead.chain, [1, 0]);
}

#[test]
fn law_look_ahead_counts_with_the_longest() {
    let steps = vec![
        Step::lasting(5),
        Step {
            least: 6,
            likely: 8,
            most: 11,
        },
    ];
    let rules = vec![after(0, 1, 0), finished_within(0, 1, 10)];
    let plan = Plan::new(steps, rules).unwrap();
    let fresh = Situation::fresh(&plan);
    let network = Network::new(&plan, &fresh).unwrap();
    assert!(network.windows().is_ok());
    let found = network.look_ahead(0).unwrap().outcome.unwrap_err();
    assert_eq!(found[0].short_by, 1);
}

/// A step that must come between, even if no clock is for it, is in the chain; a deadline of another
/// day is not asked.
#[test]
fn law_look_ahead_takes_in_what_is_between() {
    let rules = [
        after(0, 1, 0),
        after(1, 2, 0),
        finished_within(0, 2, 10),
        after(2, 3, 1440),
        finished_by(3, 100),
        not_before(1, 8),
    ];
    let plan = plan(&[5, 1, 3, 30], &rules);
    let fresh = Situation::fresh(&plan);
    let network = Network::new(&plan, &fresh).unwrap();
    assert!(network.windows().is_err());
    let ahead = network.look_ahead(0).unwrap();
    assert_eq!(ahead.chain, [1, 2]);
    assert_eq!(ahead.outcome.unwrap().spare, Some(15 - (8 + 1 + 3)));
}

#[test]
fn law_look_ahead_of_a_step_whose_turn_it_is_not() {
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    let fresh = Situation::fresh(&plan);
    let network = Network::new(&plan, &fresh).unwrap();
    let ahead = network.look_ahead(5).unwrap();
    // Not checked yet; with pressing before that, half an hour from now is the soonest.
    let found = ahead.outcome.unwrap_err();
    assert_eq!(found.len(), 1);
    let last = found[0].parts.last().unwrap();
    assert_eq!((last.source, last.change), (Source::StartNow, Some(30)));
    let (plan, mut situation) = before_spreading(30);
    assert_eq!(
        Network::new(&plan, &situation).unwrap().look_ahead(11),
        Err(Error::NoSuchStep {
            step: 11,
            steps: 11
        })
    );
    situation.progress[5] = Deferred;
    assert_eq!(
        Network::new(&plan, &situation).unwrap().look_ahead(5),
        Err(Error::NotOpen { step: 5 })
    );
}
