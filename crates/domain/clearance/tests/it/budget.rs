use clearance::{Cell, Contribution, Feel, Model, budget, combine, rectangular};

use crate::{THOU, assert_near};

/// 13 / 15 thou without any allowance.
const BARE: Cell = Cell {
    low: 13.0 * THOU,
    high: 15.0 * THOU,
};

fn model(scatter: f64, leaf_tolerance: f64, chord: f64) -> Model {
    let feel = Feel {
        goes: 0.0,
        free: 0.0,
        scatter,
    };
    Model {
        feel,
        leaf_tolerance,
        chord,
        ..Model::default()
    }
}

#[test]
fn computed_numpy_single_gap() {
    // numpy 2.4.6; printed to 1e-6 mm.
    for (scatter, u) in [
        (0.0, 14.665e-6),
        (5e-6, 15.494e-6),
        (10e-6, 17.750e-6),
        (20e-6, 24.800e-6),
    ] {
        let lines = budget(&BARE, &model(scatter, 0.0, 0.0)).unwrap();
        assert_near(lines.estimate, 355.6e-6, 1e-12);
        assert_near(lines.combined.uncertainty, u, 1e-9);
    }
}

#[test]
fn computed_numpy_worked_budget() {
    // numpy 2.4.6; printed to 1e-5 mm, chord of a 6 mm leaf in a bore of 70 mm radius.
    let lines = budget(&BARE, &model(10e-6, 5e-6, 64.315e-6)).unwrap();
    assert_near(lines.step, 14.665e-6, 1e-8);
    assert_near(lines.leaf, 2.887e-6, 1e-8);
    assert_near(lines.feel, 10e-6, 1e-15);
    assert_near(lines.chord, 18.566e-6, 1e-8);
    assert_near(lines.estimate, 387.76e-6, 1e-8);
    assert_near(lines.combined.uncertainty, 25.847e-6, 1e-8);
    // Coverage 2 is printed there; the normal quantile of 95.45 % is 2 to 4e-6.
    assert_near(
        lines.combined.expanded(0.954_499_736).unwrap(),
        51.7e-6,
        1e-8,
    );
}

/// The end gauge of example H.1, in nm and degrees C.
fn end_gauge() -> Vec<Contribution> {
    let line = |sensitivity, uncertainty, freedom| Contribution {
        sensitivity,
        uncertainty,
        freedom,
    };
    let length = 50_000_623.0;
    vec![
        line(1.0, 25.0, 18.0),
        line(1.0, 5.8, 24.0),
        line(1.0, 3.9, 5.0),
        line(1.0, 6.7, 8.0),
        line(-length * -0.1, rectangular(1e-6), 50.0),
        line(-length * 11.5e-6, rectangular(0.05), 2.0),
    ]
}

#[test]
fn published_jcgm_100_end_gauge() {
    let combined = combine(&end_gauge()).unwrap();
    // Printed in whole nanometres and whole degrees of freedom, cut down.
    assert_near(combined.uncertainty, 32.0, 0.5);
    assert_near(combined.freedom.floor(), 16.0, 0.0);
    // The printed 93 nm is 2.92 times the rounded 32 nm.
    let factor = combined.expanded(0.99).unwrap() / combined.uncertainty;
    assert_near(factor * 32.0, 93.0, 0.5);
}

#[test]
fn computed_gtc_end_gauge() {
    // GTC 1.5.1 for u and nu, scipy 1.17.1 for t; as many digits as it printed.
    let combined = combine(&end_gauge()).unwrap();
    assert_near(combined.uncertainty, 31.66388, 5e-6);
    assert_near(combined.freedom, 16.7519, 5e-5);
    assert_near(combined.expanded(0.99).unwrap(), 92.483, 5e-4);
}

#[test]
fn law_expanded_tends_to_the_normal() {
    let line = |freedom| {
        [Contribution {
            sensitivity: 1.0,
            uncertainty: 1.0,
            freedom,
        }]
    };
    let known = combine(&line(f64::INFINITY))
        .unwrap()
        .expanded(0.95)
        .unwrap();
    let mut last = f64::INFINITY;
    for freedom in [1.0, 3.0, 10.0, 100.0, 1e4, 1e6] {
        let factor = combine(&line(freedom)).unwrap().expanded(0.95).unwrap();
        assert!(known < factor && factor < last);
        last = factor;
    }
    // t exceeds z by (z^3 + z) / (4 nu), 2.4e-6 here.
    assert_near(last, known, 3e-6);
}
