//! Lives, costs, fits, posteriors, horizons and strikes against scipy and numpy.

use serde_json::Value;
use service::cost::{Bill, Cost, Fade, best, rate, run_to_failure};
use service::horizon::{Kept, within};
use service::life::Life;
use service::posterior::{Posterior, Prior};
use service::records::{Record, fit};
use service::strikes::Strikes;
use service::wear::Growth;

use crate::record::{Parts, all, close, compare, compare_live, near, number, recorded};

const PARTS: Parts<'_> = &[
    ("ends", ends),
    ("costs", costs),
    ("fits", fits),
    ("posteriors", posteriors),
    ("growths", growths),
    ("horizons", horizons),
    ("draws", draws),
    ("rates", rates),
    ("strikes", strikes),
];
const CASES: usize = 56;

#[test]
fn computed_service_recorded() {
    compare(&recorded("service"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_service_live() {
    // One recipe on two machines: the place of a least value is told to the root of rounding.
    compare_live("service", PARTS, CASES, 2e-6);
}

pub(crate) fn life(case: &Value) -> Life {
    let given = all(&case["given"]["life"]);
    let wears = Life::new(given[0], given[1]).unwrap();
    wears.struck(given[2], 1.0).unwrap()
}

fn ends(case: &Value) {
    let found = life(case).ends(number(&case["given"]["age"])).unwrap();
    near(case, "ends", &[found.good, found.struck, found.worn]);
}

fn cost(case: &Value) -> Cost {
    let given = all(&case["given"]["cost"]);
    let bill = Bill {
        part: given[0],
        consumables: 0.0,
        labour: 0.0,
        wage: 0.0,
        failure: given[1] - given[0],
        fade: Some(Fade {
            share: given[2],
            after: 1.0,
            worth: 1.0,
        }),
    };
    bill.cost().unwrap()
}

fn costs(case: &Value) {
    let (life, cost) = (life(case), cost(case));
    let found = best(&life, &cost);
    close(case, "at", found.at.unwrap());
    close(case, "rate", found.rate);
    let half = 0.5 * all(&case["given"]["life"])[1];
    close(case, "half", rate(&life, &cost, half).unwrap());
}

fn horizon(case: &Value) -> f64 {
    let given = &case["given"];
    let kept = Kept {
        age: number(&given["age"]),
        hours: number(&given["hours"]),
    };
    within(&life(case), &cost(case), given["at"].as_f64(), kept).unwrap()
}

fn horizons(case: &Value) {
    close(case, "cost", horizon(case));
}

/// As near as so many standard errors of what was drawn.
fn drawn(case: &Value, what: &str, ours: f64, theirs: f64, error: f64) {
    let off = (ours - theirs) / error;
    let within = number(&case["within"]["relative"]);
    assert!(
        off.abs() <= within,
        "{}, {what}: {ours} against {theirs}, off by {off:.2} standard errors",
        case["name"]
    );
}

fn draws(case: &Value) {
    let (given, expect) = (&case["given"], &case["expect"]);
    let (theirs, error) = (number(&expect["cost"]), number(&expect["error"]));
    drawn(case, "cost", horizon(case), theirs, error);
    let (life, age) = (life(case), number(&given["age"]));
    let hours = number(&given["hours"]);
    let run = given["at"].as_f64().map_or(hours, |at| hours.min(at - age));
    let (before, after) = (life.ends(age).unwrap(), life.ends(age + run).unwrap());
    let of_those = |after: f64, before: f64| (after - before) / life.survival(age).unwrap();
    let ours = [
        life.through(age, run).unwrap(),
        of_those(after.struck, before.struck),
        of_those(after.worn, before.worn),
    ];
    let many = number(&given["draws"]);
    for (ours, theirs) in ours.into_iter().zip(all(&expect["ends"])) {
        // Where none is to be drawn none was.
        let error = (ours * (1.0 - ours) / many).sqrt().max(1.0 / many);
        drawn(case, "ends", ours, theirs, error);
    }
}

fn rates(case: &Value) {
    let (life, cost) = (life(case), cost(case));
    let ours = case["given"]["at"].as_f64().map_or_else(
        || run_to_failure(&life, &cost),
        |at| rate(&life, &cost, at).unwrap(),
    );
    let expect = &case["expect"];
    let (theirs, error) = (number(&expect["rate"]), number(&expect["error"]));
    drawn(case, "rate", ours, theirs, error);
}

fn strikes(case: &Value) {
    let given = &case["given"];
    let seen = u32::try_from(given["seen"].as_u64().unwrap()).unwrap();
    let found = Strikes::guess(number(&given["guess"])).unwrap();
    let found = found.seen(seen, number(&given["hours"])).unwrap();
    close(case, "mean", found.mean());
    close(case, "low", found.quantile(0.1).unwrap());
    close(case, "high", found.quantile(0.9).unwrap());
    let (chance, run) = (number(&given["chance"]), number(&given["run"]));
    close(case, "survival", found.survival(chance, run).unwrap());
}

pub(crate) fn records(case: &Value) -> Vec<Record> {
    let each = case["given"]["records"].as_array().unwrap().iter();
    each.map(|one| match one[0].as_str().unwrap() {
        "failed" => Record::Failed(number(&one[1])),
        "good" => Record::Good(number(&one[1])),
        _ => Record::Between(number(&one[1]), number(&one[2])),
    })
    .collect()
}

fn fits(case: &Value) {
    let found = fit(&records(case)).unwrap();
    close(case, "shape", found.shape);
    close(case, "scale", found.scale);
    close(case, "log_likelihood", found.log_likelihood);
}

fn posteriors(case: &Value) {
    let given = all(&case["given"]["prior"]);
    let prior = Prior {
        shape: given[0],
        shape_spread: given[1],
        scale: given[2],
        scale_spread: given[3],
    };
    let found = Posterior::new(&prior, &records(case)).unwrap();
    close(case, "shape", found.mean(|one| one.shape));
    close(case, "scale", found.mean(|one| one.scale));
    close(case, "survival", found.survival(50.0).unwrap());
    close(case, "through", found.through(30.0, 50.0).unwrap());
}

fn growths(case: &Value) {
    let given = &case["given"];
    let pairs = given["seen"].as_array().unwrap().iter();
    let seen: Vec<(f64, f64)> = pairs.map(|p| (number(&p[0]), number(&p[1]))).collect();
    let found = Growth::fit(&seen).unwrap();
    close(case, "shape", found.shape);
    close(case, "rate", found.rate);
    let (margin, time) = (number(&given["margin"]), number(&given["time"]));
    close(case, "stays", found.stays(margin, time).unwrap());
}
