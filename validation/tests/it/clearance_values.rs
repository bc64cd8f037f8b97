//! Tip clearance against scipy.

use clearance::causes::{
    Bounds, Cause, Column, Fit, Frame, Reading, Survey, bounds, least_squares, rank,
};
use clearance::population::{Spread, fit};
use clearance::{
    Band, Cell, Contribution, Feel, Model, combine, ln_cell_probability, ln_normal_cdf, posterior,
};
use serde_json::Value;

use crate::record::{Parts, all, assert_close, compare, compare_live, number, numbers, recorded};

const PARTS: Parts<'_> = &[
    ("tails", tails),
    ("quantiles", quantiles),
    ("populations", population),
    ("posteriors", gaps),
    ("causes", causes),
    ("evidence", evidence),
];
const CASES: usize = 15;

#[test]
fn computed_scipy_recorded() {
    compare(&recorded("clearance"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_scipy_live() {
    // One recipe on two machines: its optimisers stop within 1e-8, its roots within 1e-9.
    compare_live("clearance", PARTS, CASES, 1e-6);
}

fn tails(case: &Value) {
    let (given, expect, name) = (
        &case["given"],
        &case["expect"],
        case["name"].as_str().unwrap(),
    );
    let within = number(&case["within"]["relative"]);
    if name == "normal tails" {
        let ours = all(&given["x"]).into_iter().map(ln_normal_cdf);
        each(ours, &expect["ln_cdf"], within, name);
    } else {
        let ends = all(&given["low"]).into_iter().zip(all(&given["high"]));
        let ours = ends.map(|(a, b)| ln_cell_probability(a, b));
        each(ours, &expect["ln_probability"], within, name);
    }
}

fn quantiles(case: &Value) {
    let (given, expect, name) = (
        &case["given"],
        &case["expect"],
        case["name"].as_str().unwrap(),
    );
    let within = number(&case["within"]["relative"]);
    if name == "normal quantiles" {
        // The guard of a limit at 0 with unit uncertainty is the quantile itself.
        let band = Band {
            least: Some(0.0),
            greatest: None,
        };
        let ours = all(&given["p"])
            .into_iter()
            .map(|p| band.guarded(1.0, p).unwrap().least.unwrap());
        each(ours, &expect["z"], within, name);
    } else {
        let level = number(&given["level"]);
        let ours = all(&given["freedom"]).into_iter().map(|freedom| {
            let one = Contribution {
                sensitivity: 1.0,
                uncertainty: 1.0,
                freedom,
            };
            combine(&[one]).unwrap().expanded(level).unwrap()
        });
        each(ours, &expect["t"], within, name);
    }
}

fn population(case: &Value) {
    let (given, expect, name) = (
        &case["given"],
        &case["expect"],
        case["name"].as_str().unwrap(),
    );
    let within = number(&case["within"]["relative"]);
    let cells = cells(given, f64::NEG_INFINITY);
    let fit = fit(&cells, Spread::Free).unwrap();
    let (low, high) = fit.mean_interval(&cells, number(&given["drop"])).unwrap();
    for (ours, key) in [
        (fit.mean, "mean_m"),
        (fit.sd, "sd_m"),
        (fit.ln_likelihood, "ln_likelihood"),
        (fit.mean_error, "mean_error_m"),
        (fit.ln_sd_error, "ln_sd_error"),
    ] {
        assert_close(
            ours,
            number(&expect[key]),
            within,
            &format!("{name}, {key}"),
        );
    }
    each([low, high].into_iter(), &expect["profile_m"], within, name);
}

/// Shares of our draws below the quantiles of the exact law.
fn gaps(case: &Value) {
    let (given, expect, name) = (
        &case["given"],
        &case["expect"],
        case["name"].as_str().unwrap(),
    );
    let law = &given["model"];
    let model = Model {
        feel: Feel {
            goes: 0.0,
            free: 0.0,
            scatter: number(&law["scatter_m"]),
        },
        leaf_tolerance: number(&law["leaf_tolerance_m"]),
        chord: number(&law["chord_m"]),
        spread: number(&law["spread_m"]),
    };
    let drawn = posterior(&cells(given, 0.0), &model, 20).unwrap();
    let share = |key: &str, length: f64| {
        drawn.probability(|gaps| match key {
            "least_m" => gaps.iter().any(|&g| g < length),
            "greatest_m" => gaps.iter().all(|&g| g < length),
            _ => gaps[0] < length,
        })
    };
    let errors = number(&case["within"]["standard_errors"]);
    let steps = number(&case["within"]["absolute"]);
    for key in ["least_m", "greatest_m", "first_m"] {
        for (p, length) in all(&given["p"]).iter().zip(all(&expect[key])) {
            let ours = share(key, length);
            let allowed = errors * (p * (1.0 - p) / 10_000.0).sqrt() + steps;
            assert!(
                (ours - p).abs() <= allowed,
                "{name}, {key} at {length}: {ours} for {p} +- {allowed:.4}"
            );
        }
    }
}

/// The worked example of four blades at eight positions.
fn causes(case: &Value) {
    let (given, expect, name) = (
        &case["given"],
        &case["expect"],
        case["name"].as_str().unwrap(),
    );
    let within = number(&case["within"]["relative"]);
    let thou = 25.4e-6;
    let rows = given["low_thou"].as_array().unwrap().iter();
    let cells = rows.flat_map(all).map(|low| Cell {
        low: low * thou,
        high: (low + 1.0) * thou,
    });
    let survey = surveyed(
        Frame::even(4, 8, 1).unwrap(),
        cells,
        (number(&given["scatter_m"]), &[0.0]),
    );
    let mut set = vec![Cause::Uneven, Cause::OffCentre, Cause::Oval];
    if let Some(position) = given["local"].as_u64() {
        set.push(Cause::Local(usize::try_from(position).unwrap()));
    }
    let values = |fit: &Fit, of: fn(&Fit, Column) -> Option<f64>| -> Vec<f64> {
        fit.columns().iter().map(|&c| of(fit, c).unwrap()).collect()
    };
    let squares = least_squares(&survey, &set).unwrap();
    let likely = clearance::causes::fit(&survey, &set).unwrap();
    for (ours, key) in [
        (values(&squares, Fit::value), "least_squares_m"),
        (values(&squares, Fit::error), "least_squares_error_m"),
        (values(&likely, Fit::value), "likely_m"),
        (values(&likely, Fit::error), "likely_error_m"),
    ] {
        each(
            ours.into_iter(),
            &expect[key],
            within,
            &format!("{name}, {key}"),
        );
    }
    assert_close(
        likely.ln_likelihood(),
        number(&expect["ln_likelihood"]),
        within,
        name,
    );
    let last = *likely.columns().last().unwrap();
    let (low, high) = likely
        .interval(&survey, last, 0.5 * 2.705_543_454_095_404)
        .unwrap();
    each([low, high].into_iter(), &expect["profile_m"], within, name);
    let within = number(&case["within"]["bounds"]);
    match bounds(&survey, &set).unwrap() {
        Bounds::Within(spans) => {
            let ends = spans.iter().flat_map(|(_, span)| [span.low, span.high]);
            each(ends, &expect["spans_m"], within, name);
        }
        Bounds::Violated(by) => assert_close(by, number(&expect["violation_m"]), within, name),
    }
}

/// Logarithm of the probability of the cells under sets of causes.
fn evidence(case: &Value) {
    let given = &case["given"];
    let survey = surveyed(
        Frame::even(2, 4, 1).unwrap(),
        cells(given, 0.0).into_iter(),
        (5e-6, &all(&given["roughness_m"])),
    );
    let ranking = rank(&survey);
    let within = number(&case["within"]["absolute"]);
    for (key, set) in [
        ("none", vec![]),
        ("local", vec![Cause::Local(2)]),
        ("blade", vec![Cause::Blade(0)]),
    ] {
        let ours = ranking.candidates.iter().find(|c| c.causes == set).unwrap();
        let theirs = number(&case["expect"]["ln_evidence"][key]);
        let off = (ours.ln_evidence - theirs).abs();
        assert!(
            off <= within,
            "{key}: {} against {theirs}",
            ours.ln_evidence
        );
    }
}

/// Cells at every spot of a frame, by a hand that scatters and a ring of some roughness.
fn surveyed(
    frame: Frame,
    cells: impl Iterator<Item = Cell>,
    (scatter, roughness): (f64, &[f64]),
) -> Survey {
    let spots: Vec<_> = frame.spots().collect();
    let readings = spots.into_iter().zip(cells);
    let readings = readings
        .map(|(spot, cell)| Reading { spot, cell })
        .collect();
    let feel = Feel {
        goes: 0.0,
        free: 0.0,
        scatter,
    };
    let model = Model {
        feel,
        ..Model::default()
    };
    Survey::new(frame, readings, model, roughness).unwrap()
}

fn cells(given: &Value, open: f64) -> Vec<Cell> {
    numbers(&given["low_m"], open)
        .into_iter()
        .zip(numbers(&given["high_m"], f64::INFINITY))
        .map(|(low, high)| Cell { low, high })
        .collect()
}

fn each(ours: impl Iterator<Item = f64>, theirs: &Value, within: f64, name: &str) {
    let (ours, theirs): (Vec<f64>, _) = (ours.collect(), all(theirs));
    assert_eq!(ours.len(), theirs.len(), "{name}: lengths");
    for (i, (&ours, &theirs)) in ours.iter().zip(&theirs).enumerate() {
        assert_close(ours, theirs, within, &format!("{name}[{i}]"));
    }
}
