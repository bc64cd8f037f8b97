//! Lives, costs, fits and posteriors against scipy.

use serde_json::Value;
use service::cost::{Bill, Cost, Fade, best, rate};
use service::life::Life;
use service::posterior::{Posterior, Prior};
use service::records::{Record, fit};
use service::wear::Growth;

use crate::record::{Parts, all, close, compare, compare_live, near, number, recorded};

const PARTS: Parts<'_> = &[
    ("ends", ends),
    ("costs", costs),
    ("fits", fits),
    ("posteriors", posteriors),
    ("growths", growths),
];
const CASES: usize = 34;

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

fn life(case: &Value) -> Life {
    let given = all(&case["given"]["life"]);
    let wears = Life::new(given[0], given[1]).unwrap();
    wears.struck(given[2], 1.0).unwrap()
}

fn ends(case: &Value) {
    let found = life(case).ends(number(&case["given"]["age"])).unwrap();
    near(case, "ends", &[found.good, found.struck, found.worn]);
}

fn costs(case: &Value) {
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
    let cost: Cost = bill.cost().unwrap();
    let life = life(case);
    let found = best(&life, &cost);
    close(case, "at", found.at.unwrap());
    close(case, "rate", found.rate);
    let half = 0.5 * all(&case["given"]["life"])[1];
    close(case, "half", rate(&life, &cost, half).unwrap());
}

fn records(case: &Value) -> Vec<Record> {
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
