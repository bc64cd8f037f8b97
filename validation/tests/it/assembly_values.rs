//! Plans for hands and tools against CP-SAT of OR-tools, chances against numpy.

use assembly::{
    Ask, Away, Demand, Network, NoSchedule, Plan, Resource, Resources, Rule, Situation, Step,
};
use serde_json::Value;

use crate::record::{Parts, all, assert_close, compare, compare_live, number, recorded};

const PARTS: Parts<'_> = &[("schedules", schedules), ("chances", chances)];
const CASES: usize = 65;

#[test]
fn computed_ortools_recorded() {
    compare(&recorded("assembly"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_ortools_live() {
    // Whole numbers and seeded draws: the same to the last digits of a mean.
    compare_live("assembly", PARTS, CASES, 1e-12);
}

fn whole(value: &Value) -> i64 {
    value.as_i64().unwrap()
}

fn place(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

fn units(value: &Value) -> u32 {
    u32::try_from(value.as_u64().unwrap()).unwrap()
}

fn rows(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().unwrap().iter()
}

/// A bench as a recipe writes it.
pub(crate) fn bench(given: &Value) -> (Plan, Resources) {
    let steps = rows(&given["steps"]).map(|lasts| Step::lasting(whole(lasts)));
    let rule = |row: &Value| {
        let (first, then, value) = (place(&row[1]), place(&row[2]), whole(&row[3]));
        let ask = match row[0].as_str().unwrap() {
            "after" => Ask::After {
                first,
                then,
                lag: value,
            },
            "start_within" => Ask::StartWithin {
                first,
                then,
                most: value,
            },
            "finished_within" => Ask::FinishedWithin {
                first,
                then,
                most: value,
            },
            "start_within_start" => Ask::StartWithinStart {
                first,
                then,
                most: value,
            },
            "not_before" => Ask::NotBefore {
                step: first,
                time: value,
            },
            "finished_by" => Ask::FinishedBy {
                step: first,
                time: value,
            },
            other => panic!("no rule is called {other}"),
        };
        Rule::negotiable(ask)
    };
    let plan = Plan::new(steps.collect(), rows(&given["rules"]).map(rule).collect()).unwrap();
    let resource = |row: &Value| Resource {
        capacity: units(&row["capacity"]),
        away: rows(&row["away"])
            .map(|away| Away {
                from: whole(&away[0]),
                until: whole(&away[1]),
                units: units(&away[2]),
            })
            .collect(),
    };
    let demand = |row: &Value| Demand {
        step: place(&row[0]),
        resource: place(&row[1]),
        units: units(&row[2]),
    };
    let list = rows(&given["resources"]).map(resource).collect();
    let demands: Vec<Demand> = rows(&given["demands"]).map(demand).collect();
    let resources = Resources::new(&plan, list, &demands).unwrap();
    (plan, resources)
}

fn schedules(case: &Value) {
    let (plan, resources) = bench(&case["given"]);
    let situation = Situation::fresh(&plan);
    let network = Network::new(&plan, &situation).unwrap();
    let theirs = case["expect"]["finish"].as_i64();
    let ours = match network.prove(&resources, None, |_| true) {
        Ok(schedule) => {
            assert_eq!(schedule.gap(), 0, "{}", case["name"]);
            Some(schedule.finish)
        }
        Err(NoSchedule::Contradictory(_) | NoSchedule::Impossible) => None,
        Err(NoSchedule::NotFound) => panic!("{}: left open", case["name"]),
    };
    assert_eq!(ours, theirs, "{}", case["name"]);
    if let Ok(first) = network.schedule(&resources) {
        assert!(first.bound <= theirs.unwrap() && theirs.unwrap() <= first.finish);
    }
}

fn chances(case: &Value) {
    let (given, expect) = (&case["given"], &case["expect"]);
    let step = |row: &Value| Step {
        least: whole(&row[0]),
        likely: whole(&row[1]),
        most: whole(&row[2]),
    };
    let order = |row: &Value| {
        Rule::negotiable(Ask::After {
            first: place(&row[0]),
            then: place(&row[1]),
            lag: 0,
        })
    };
    let steps = rows(&given["steps"]).map(step).collect();
    let plan = Plan::new(steps, rows(&given["after"]).map(order).collect()).unwrap();
    let situation = Situation::fresh(&plan);
    let network = Network::new(&plan, &situation).unwrap();
    let none = Resources::none(&plan);
    let schedule = network.schedule(&none).unwrap();
    let found = network.tries(&none, &schedule, (20_000, 7));
    let within = &case["within"];
    assert_close(
        found.mean(),
        number(&expect["mean_s"]),
        number(&within["mean"]),
        "mean",
    );
    let times = rows(&given["times_s"]).map(whole);
    for (time, theirs) in times.zip(all(&expect["shares"])) {
        let off = (found.by(time) - theirs).abs();
        assert!(off <= number(&within["share"]), "{time} s: off by {off}");
    }
}
