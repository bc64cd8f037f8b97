use joint::scatter::{Method, combined, half_width};
use joint::{
    Applied, Class, Friction, FrictionRange, Interval, Stated, ceiling, convert, preload, torque,
    torque_factor, utilisation,
};
use proptest::prelude::*;

use crate::{assert_near, both, hex};

fn point(friction: f64) -> FrictionRange {
    range(friction, friction)
}

fn range(low: f64, high: f64) -> FrictionRange {
    let range = Interval { low, high };
    FrictionRange {
        thread: range,
        head: range,
    }
}

#[test]
fn computed_python_a_dry_torque_kept() {
    // Python 3.11.7, M6 A2-70, plain hexagon head: torque and friction stated, friction found, F1
    // and F2 in kN, torque of equal preload, limit at the new friction; printed to 0.01.
    for (stated, meant, found, [f1, f2, equal, limit]) in [
        (10.0, 0.20, 0.12, [6.40, 10.01, 6.39, 7.16]),
        (10.0, 0.20, 0.10, [6.40, 11.65, 5.50, 7.35]),
        (10.0, 0.20, 0.16, [6.40, 7.81, 8.19, 6.77]),
        (12.2, 0.30, 0.12, [5.38, 12.22, 5.37, 7.16]),
        (10.0, 0.20, 0.30, [6.40, 4.41, 14.53, f64::NAN]),
    ] {
        let screw = hex("M6");
        let at = |friction| preload(&screw, stated, both(friction)).unwrap() / 1e3;
        assert_near(at(meant), f1, 5.1e-3);
        assert_near(at(found), f2, 5.1e-3);
        let stated = Stated {
            torque: stated,
            friction: point(meant),
        };
        let new = convert(&screw, Class::Stainless70, &stated, &point(found)).unwrap();
        assert_near(new.torque.low, equal, 5.1e-3);
        assert_near(new.torque.high, equal, 5.1e-3);
        let bound = ceiling(&screw, Class::Stainless70, both(found)).unwrap();
        if limit.is_finite() {
            assert_near(bound.preload / 1e3, limit, 5.1e-3);
        }
        assert_near(new.ceiling, bound.torque, 1e-9);
    }
}

#[test]
fn computed_python_a_dry_torque_on_grease() {
    // Python 3.11.7: 10 N m at 0.20 is 5.5 to 8.2 N m at 0.10 to 0.16, to 0.1 N m; and the greased
    // screw must stay below what 0.10 bears.
    let stated = Stated {
        torque: 10.0,
        friction: point(0.20),
    };
    let screw = hex("M6");
    let new = convert(&screw, Class::Stainless70, &stated, &range(0.10, 0.16)).unwrap();
    assert_near(new.torque.low, 5.5, 0.051);
    assert_near(new.torque.high, 8.2, 0.051);
    let bound = ceiling(&screw, Class::Stainless70, both(0.10)).unwrap();
    assert_near(new.ceiling, bound.torque, 1e-9);
    assert!(new.torque.high > new.ceiling);
}

#[test]
fn law_conversion_keeps_the_preload() {
    let screw = joint::Screw {
        prevailing: 0.5,
        ..hex("M8")
    };
    let stated = Stated {
        torque: 20.0,
        friction: point(0.25),
    };
    let new = convert(&screw, Class::Stainless70, &stated, &point(0.11)).unwrap();
    let before = preload(&screw, 20.0, both(0.25)).unwrap();
    let after = torque(&screw, before, both(0.11)).unwrap();
    // The same quotient in another order: rounding only.
    assert_near(new.torque.low, after, 1e-12);
    let factor = |friction| torque_factor(&screw, both(friction)).unwrap();
    assert_near(after, 0.5 + 19.5 * factor(0.11) / factor(0.25), 1e-12);
}

#[test]
fn computed_python_scatter_of_a_factor() {
    // Python 3.11.7, per cent, printed to 0.1.
    for (factor, percent) in [
        (1.2, 9.1),
        (1.4, 16.7),
        (1.6, 23.1),
        (1.8, 28.6),
        (2.0, 33.3),
        (2.5, 42.9),
        (4.0, 60.0),
    ] {
        assert_near(100.0 * half_width(factor).unwrap(), percent, 0.051);
    }
}

#[test]
fn published_vdi_2230_1986_scatter_by_method() {
    // VDI 2230:1986 as a distributor quotes it: per cent of scatter beside the factor. Whole per
    // cents, and one that comes from 1.1 is printed as 5: one unit.
    for (method, low, high) in [
        (Method::YieldOrAngle, 5.0, 12.0),
        (Method::Elongation, 9.0, 23.0),
        (Method::TorqueTested, 17.0, 23.0),
        // 28 there; the later practice of up to 2.0 is the wider one.
        (Method::TorqueEstimated, 23.0, 33.0),
        (Method::PowerDriver, 26.0, 43.0),
    ] {
        let factor = method.factor();
        assert_near(100.0 * half_width(factor.low).unwrap(), low, 1.0);
        assert_near(100.0 * half_width(factor.high).unwrap(), high, 1.0);
    }
}

#[test]
fn practice_better_methods_scatter_less() {
    for pair in Method::ALL.windows(2) {
        assert!(pair[0].factor().high <= pair[1].factor().high);
        assert!(pair[0].factor().low <= pair[1].factor().low);
    }
}

#[test]
fn law_a_good_wrench_is_noise() {
    // sqrt(25^2 + 4^2) = 25.318
    assert_near(combined(0.25, 0.04).unwrap(), 0.253_18, 5e-6);
    assert_near(combined(0.0, 0.04).unwrap(), 0.04, 0.0);
}

// Budynas & Nisbett, 9th ed., tables 8-13 and 8-14: 1/2-20 screws all taken to 800 lbf in, preload in kN.
#[test]
fn published_budynas_nisbett_scatter_of_a_torque_wrench() {
    let dry = [
        23.6, 27.6, 28.0, 29.4, 30.3, 30.7, 32.9, 33.8, 33.8, 33.8, 34.7, 35.6, 35.6, 37.4, 37.8,
        37.8, 39.2, 40.0, 40.5, 42.7,
    ];
    let oiled = [30.3, 32.5, 32.5, 32.9, 32.9, 33.8, 34.3, 34.7, 37.4, 40.5];
    // Their friction was not tested on the joint: our row for that holds the dry twenty, and is wider than oil.
    let ours = Method::TorqueEstimated.factor();
    assert!(ours.contains(dry[19] / dry[0]));
    assert!(oiled[9] / oiled[0] < ours.low);
}

// Machinery's Handbook as another work quotes it: 25 per cent by torque wrench.
#[test]
fn published_a_torque_wrench_scatters_by_a_quarter() {
    let factor = Method::TorqueEstimated.factor();
    assert!(half_width(factor.low).unwrap() < 0.25);
    assert!(half_width(factor.high).unwrap() > 0.25);
}

fn pair() -> impl Strategy<Value = FrictionRange> {
    let interval = || {
        (0.04..0.3_f64, 0.0..0.1_f64).prop_map(|(low, width)| Interval {
            low,
            high: low + width,
        })
    };
    (interval(), interval()).prop_map(|(thread, head)| FrictionRange { thread, head })
}

/// Part of the way through both intervals.
fn inside(range: &FrictionRange, part: f64) -> Friction {
    let at = |of: Interval| of.low + part * (of.high - of.low);
    Friction {
        thread: at(range.thread),
        head: at(range.head),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// There and back is the torque itself where the frictions are known, and around it where not.
    #[test]
    fn law_there_and_back(meant in pair(), found in pair(), given in 2.0..40.0_f64, part in 0.0..=1.0_f64) {
        let screw = hex("M8");
        let there = |torque, friction: &FrictionRange, other: &FrictionRange| {
            let stated = Stated { torque, friction: *friction };
            convert(&screw, Class::Stainless70, &stated, other).unwrap().torque
        };
        let known = |range: &FrictionRange| {
            let friction = inside(range, part);
            FrictionRange { thread: Interval::point(friction.thread), head: Interval::point(friction.head) }
        };
        let (exact_meant, exact_found) = (known(&meant), known(&found));
        let once = there(given, &exact_meant, &exact_found);
        let back = there(once.low, &exact_found, &exact_meant);
        prop_assert!((back.low / given - 1.0).abs() < 1e-12);
        let wide = there(given, &meant, &found);
        // Rounding of a quotient at the very ends.
        prop_assert!(wide.low <= once.low * (1.0 + 1e-14) && once.high <= wide.high * (1.0 + 1e-14));
        let home = Interval {
            low: there(wide.low, &found, &meant).low,
            high: there(wide.high, &found, &meant).high,
        };
        prop_assert!(home.low <= given * (1.0 + 1e-14) && given <= home.high * (1.0 + 1e-14));
    }

    /// More torque uses more of the screw, at its least and at its most.
    #[test]
    fn law_use_rises_with_torque(friction in pair(), given in 2.0..40.0_f64, more in 0.01..10.0_f64) {
        let at = |torque| {
            let applied = Applied { torque, error: 0.04 };
            utilisation(&hex("M8"), Class::Stainless70, applied, &friction).unwrap()
        };
        let (less, more) = (at(given), at(given + more));
        prop_assert!(less.low < more.low && less.high < more.high);
    }
}
