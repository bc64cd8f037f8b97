//! Tests of the public face.
#![expect(
    clippy::unwrap_used,
    reason = "a test whose input is refused has failed"
)]

mod ahead;
mod bench;
mod bench_laws;
mod benchmarks;
mod chance;
mod contradiction;
mod laws;
mod networks;
mod refused;
mod schedule;
mod shortage;

use assembly::{Ask, Contradiction, Network, Plan, Rule, Situation, Step, Window};

/// A plan of steps that always take as long.
fn plan(durations: &[i64], rules: &[Rule]) -> Plan {
    let steps = durations.iter().copied().map(Step::lasting).collect();
    Plan::new(steps, rules.to_vec()).unwrap()
}

fn after(first: usize, then: usize, lag: i64) -> Rule {
    Rule::negotiable(Ask::After { first, then, lag })
}

fn start_within(first: usize, then: usize, most: i64) -> Rule {
    Rule::physics(Ask::StartWithin { first, then, most })
}

fn finished_within(first: usize, then: usize, most: i64) -> Rule {
    Rule::physics(Ask::FinishedWithin { first, then, most })
}

fn not_before(step: usize, time: i64) -> Rule {
    Rule::negotiable(Ask::NotBefore { step, time })
}

fn finished_by(step: usize, time: i64) -> Rule {
    Rule::negotiable(Ask::FinishedBy { step, time })
}

/// The windows of a plan before anything has happened.
fn windows(plan: &Plan, finish: Option<i64>) -> Result<Vec<Window>, Vec<Contradiction>> {
    let situation = Situation {
        finish,
        ..Situation::fresh(plan)
    };
    Network::new(plan, &situation).unwrap().windows()
}

/// When the last step ends if all start at the earliest.
fn length(windows: &[Window]) -> i64 {
    windows.iter().map(|window| window.ends).max().unwrap()
}

/// The windows for the shortest finish.
fn critical(plan: &Plan) -> Vec<Window> {
    let finish = length(&windows(plan, None).unwrap());
    windows(plan, Some(finish)).unwrap()
}

fn earliest(windows: &[Window]) -> Vec<i64> {
    windows.iter().map(|window| window.earliest).collect()
}

fn slacks(windows: &[Window]) -> Vec<i64> {
    windows
        .iter()
        .map(|window| window.slack().unwrap())
        .collect()
}

/// The joint of a nozzle on a bench, in minutes; the times are invented.
///
/// 0 paint nozzle, 1 press ring, 2 impeller on shaft, 3 tip clearance, 4 degrease flange,
/// 5 spread sealant, 6 close joint, 7 torque, 8 seat cone, 9 fit nozzle, 10 water test.
fn nozzle(clearance: i64) -> (Vec<i64>, Vec<Rule>) {
    let durations = vec![15, 20, 15, clearance, 12, 5, 8, 12, 10, 25, 30];
    let rules = vec![
        after(1, 3, 0),
        after(2, 3, 0),
        after(3, 5, 0),
        after(4, 5, 0),
        start_within(4, 5, 30),
        after(5, 6, 0),
        finished_within(5, 6, 10),
        after(6, 7, 0),
        start_within(6, 7, 15),
        after(7, 8, 0),
        start_within(7, 8, 20),
        after(7, 9, 0),
        Rule::physics(Ask::After {
            first: 0,
            then: 9,
            lag: 1440,
        }),
        Rule::physics(Ask::After {
            first: 8,
            then: 10,
            lag: 1440,
        }),
        after(9, 10, 0),
        finished_by(1, 60),
        finished_by(2, 60),
    ];
    (durations, rules)
}
