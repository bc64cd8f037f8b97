use clearance::{
    Band, Cell, Estimated, Limits, Model, Verdict, conformity, posterior, probability_in_interval,
    verdict,
};

use crate::{THOU, assert_near};

fn up_to(greatest: f64) -> Band {
    Band {
        least: None,
        greatest: Some(greatest),
    }
}

#[test]
fn published_jcgm_106_zener_diode() {
    // Printed as 0.92.
    let diode = Estimated {
        value: -5.47,
        uncertainty: 0.05,
    };
    assert_near(diode.probability_within(&up_to(-5.40)).unwrap(), 0.92, 5e-3);
}

#[test]
fn computed_scipy_normal_conformity() {
    // scipy 1.17.1, norm.cdf and norm.ppf, six digits.
    let within = |value, uncertainty, band| {
        Estimated { value, uncertainty }
            .probability_within(&band)
            .unwrap()
    };
    assert_near(within(-5.47, 0.05, up_to(-5.40)), 0.919_243, 5e-7);
    assert_near(within(0.55, 0.02, up_to(0.60)), 0.993_790, 5e-7);
    let both = Band {
        least: Some(0.30),
        greatest: Some(0.40),
    };
    assert_near(within(0.36, 0.03, both), 0.886_039, 5e-7);
    assert_near(
        up_to(0.60).guarded(0.02, 0.95).unwrap().greatest.unwrap(),
        0.567_103,
        5e-7,
    );
    for (p, z) in [
        (0.8, 0.841_621),
        (0.9, 1.281_552),
        (0.95, 1.644_854),
        (0.975, 1.959_964),
        (0.99, 2.326_348),
        (0.999, 3.090_232),
    ] {
        assert_near(
            -up_to(0.0).guarded(1.0, p).unwrap().greatest.unwrap(),
            z,
            5e-7,
        );
    }
}

#[test]
fn published_jcgm_106_one_sided_guards() {
    // The standard's table rounds to two decimals.
    for (p, z) in [
        (0.80, 0.84),
        (0.90, 1.28),
        (0.95, 1.64),
        (0.99, 2.33),
        (0.999, 3.09),
    ] {
        assert_near(
            -up_to(0.0).guarded(1.0, p).unwrap().greatest.unwrap(),
            z,
            5e-3,
        );
    }
}

#[test]
fn law_interval_before_feel() {
    let cell = Cell {
        low: 13.0,
        high: 15.0,
    };
    for (limit, p) in [
        (14.5, 0.75),
        (12.0, 0.0),
        (13.0, 0.0),
        (15.0, 1.0),
        (16.0, 1.0),
    ] {
        assert_near(probability_in_interval(&cell, limit).unwrap(), p, 1e-15);
    }
}

fn thirteen_goes_fifteen_wont() -> Cell {
    Cell {
        low: 13.0 * THOU + 10e-6,
        high: 15.0 * THOU + 10e-6,
    }
}

#[test]
fn practice_stated_clearance_is_met_when_its_leaf_goes() {
    for spots in [1, 32] {
        let drawn = posterior(
            &vec![thirteen_goes_fifteen_wont(); spots],
            &Model::default(),
            1,
        )
        .unwrap();
        let judge = |least, greatest| {
            let within = conformity(&drawn, &Limits::Radial { least, greatest })
                .unwrap()
                .within;
            verdict(within, 0.95)
        };
        assert_eq!(judge(Some(13.0 * THOU), None), Verdict::In, "{spots} spots");
        assert_eq!(
            judge(None, Some(13.0 * THOU)),
            Verdict::Out,
            "{spots} spots"
        );
        assert_eq!(
            judge(Some(14.5 * THOU), None),
            Verdict::Undecided,
            "{spots} spots"
        );
    }
}

#[test]
fn law_diametral_limits_are_on_the_sum() {
    let cells = [thirteen_goes_fifteen_wont(); 2];
    let drawn = posterior(&cells, &Model::default(), 1).unwrap();
    let held = |least| {
        let limits = Limits::Diametral {
            least: Some(least),
            greatest: None,
            opposite: vec![(0, 1)],
        };
        conformity(&drawn, &limits).unwrap().within
    };
    // Twice the radial figure is met; a radial reading of the same figure would not decide.
    assert!(held(26.0 * THOU) > 0.95);
    assert!(held(2.0 * 15.0 * THOU + 30e-6) < 0.05);
    let sum = drawn.sum_of(0, 1);
    assert!(sum.low > 26.0 * THOU && sum.high < 30.0 * THOU + 30e-6);
}

#[test]
fn law_verdicts_are_symmetric() {
    for (p, said) in [
        (1.0, Verdict::In),
        (0.95, Verdict::In),
        (0.949, Verdict::Undecided),
        (0.051, Verdict::Undecided),
        (0.05, Verdict::Out),
        (0.0, Verdict::Out),
        (f64::NAN, Verdict::Undecided),
    ] {
        assert_eq!(verdict(p, 0.95), said, "{p}");
    }
}
