//! Fits, chances and the cheapest age against the libraries lifelines and reliability.

use serde_json::Value;
use service::cost::{Cost, best};
use service::life::Life;
use service::records::fit;

use crate::record::{Parts, all, close, compare, compare_live, number, recorded};
use crate::service_values::{life, records};

const PARTS: Parts<'_> = &[("fits", fits), ("chances", chances), ("costs", costs)];
const CASES: usize = 21;

#[test]
fn computed_lives_recorded() {
    compare(&recorded("lives"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_lives_live() {
    // Where an optimizer stops differs by as much from machine to machine.
    compare_live("lives", PARTS, CASES, 2e-5);
}

fn fits(case: &Value) {
    let found = fit(&records(case)).unwrap();
    close(case, "shape", found.shape);
    close(case, "scale", found.scale);
    close(case, "log_likelihood", found.log_likelihood);
    close(case, "shape_error", found.shape_error);
    close(case, "scale_error", found.scale_error);
}

fn chances(case: &Value) {
    let given = &case["given"];
    let (age, more) = (number(&given["age"]), number(&given["more"]));
    let struck = life(case);
    close(case, "through", struck.through(age, more).unwrap());
    let wear = all(&given["life"]);
    let wears = Life::new(wear[0], wear[1]).unwrap();
    close(case, "worn", wears.through(age, more).unwrap());
}

fn costs(case: &Value) {
    let given = all(&case["given"]["cost"]);
    let found = best(&life(case), &Cost::new(given[0], given[1]).unwrap());
    if case["expect"]["at"].is_null() {
        close(case, "rate", found.rate);
    } else {
        close(case, "at", found.at.unwrap());
    }
}
