//! The hull from rest to planing.

use proptest::prelude::*;
use propulsion::Error;
use propulsion::hull::Regime::{Between, Climbing, Planing, Swimming};
use propulsion::hull::planing::{DryChines, Method, Roughness, State, planing};
use propulsion::hull::preplaning::{Form, preplaning};
use propulsion::hull::{Hull, resistance};
use propulsion::water::{Water, water};

const MASS: f64 = 420.0;
const FRESH: Water = Water {
    density: 999.1026,
    viscosity: 1.1386e-6,
    vapour_pressure: 1705.8,
};

fn near(ours: f64, theirs: f64, relative: f64, what: &str) {
    let off = ours / theirs - 1.0;
    assert!(
        off.abs() <= relative,
        "{what}: {ours} for {theirs}, {off:.1e}"
    );
}

fn craft() -> Hull {
    Hull::typical(2.7, 1.0, 22.0_f64.to_radians()).expect("sizes")
}

fn form() -> Form {
    Form {
        length: 2.7,
        beam: 1.0,
        entrance: 25.0_f64.to_radians(),
        transom: 0.9,
        beam_draft: 5.0,
        roughness: Roughness::Allowance(0.0),
    }
}

fn state(speed: f64) -> State {
    State {
        mass: MASS,
        speed,
        water: FRESH,
    }
}

/// By a script of the reference sheet from the coefficients of the report, not by the report itself.
#[test]
fn computed_regression_before_planing() {
    for [froude, speed, reference, ratio, force] in [
        [1.0, 2.7104, 0.04140, 0.04423, 182.0],
        [1.2, 3.2525, 0.10158, 0.10549, 435.0],
        [1.4, 3.7946, 0.12980, 0.13492, 556.0],
        [1.6, 4.3366, 0.12608, 0.13256, 546.0],
        [1.8, 4.8787, 0.12647, 0.13444, 554.0],
        [2.0, 5.4208, 0.12112, 0.13072, 538.0],
    ] {
        let exact: f64 = froude * (9.806_65 * (MASS / FRESH.density).cbrt()).sqrt();
        near(exact, speed, 2e-5, "speed");
        // A whisker inward: rounding may put an end outside.
        let ours = preplaning(&form(), &state(exact * (1.0 + (1.5 - froude) * 1e-14))).unwrap();
        near(ours.volume_froude, froude, 1e-12, "Froude number");
        let half = 0.5e-5;
        assert!((ours.reference - reference).abs() < 1.2 * half, "{ours:?}");
        assert!((ours.ratio - ratio).abs() < 1.2 * half, "{ours:?}");
        assert!((ours.resistance - force).abs() < 0.55, "{ours:?}");
        assert!(ours.beyond.is_empty());
    }
}

#[test]
fn law_the_regression_is_refused_outside_its_speeds_and_tells_odd_shapes() {
    for speed in [2.70, 5.43, 0.0, f64::NAN] {
        let Err(Error::Outside { low, high, .. }) = preplaning(&form(), &state(speed)) else {
            panic!("{speed}");
        };
        assert!(low < high);
    }
    let blunt = Form {
        entrance: 60.0_f64.to_radians(),
        ..form()
    };
    let ours = preplaning(&blunt, &state(4.0)).unwrap();
    assert_eq!(ours.beyond[0].what, "half angle of entrance");
}

#[test]
fn law_no_speed_makes_the_resistance_jump() {
    let hull = craft();
    let force = |speed: f64| resistance(&hull, MASS, speed, &FRESH).unwrap().force;
    let mut regimes = vec![];
    let mut last = force(0.0);
    assert!(last.abs() < f64::EPSILON);
    // A tenth of a millimetre a second apart, over every joint.
    for step in 1..=150_000 {
        let speed = 1e-4 * f64::from(step);
        let now = resistance(&hull, MASS, speed, &FRESH).unwrap();
        assert!(now.force > 0.0);
        assert!(
            (now.force - last).abs() < 0.08,
            "{last} to {now:?} at {speed}"
        );
        if regimes.last() != Some(&now.regime) {
            regimes.push(now.regime);
        }
        last = now.force;
    }
    assert_eq!(regimes, [Swimming, Climbing, Between, Planing]);
    // From planing on it is the method itself.
    let bare = planing(&hull.bottom, &state(20.0), &Method::WHOLE).unwrap();
    near(force(20.0), bare.resistance, 1e-15, "planing");
    near(force(1.0), force(2.0) / 4.0, 1e-12, "swimming");
}

#[test]
fn law_what_does_not_hold_is_told_with_the_resistance() {
    let hull = craft();
    let slow = resistance(&hull, MASS, 15.0, &FRESH).unwrap();
    assert!(slow.held().is_ok());
    let fast = resistance(&hull, MASS, 30.0, &FRESH).unwrap();
    assert_eq!(fast.beyond[0].what, "trim");
    assert!(matches!(
        fast.held(),
        Err(Error::Outside { what: "trim", .. })
    ));
    for (mass, speed, what) in [
        (0.0, 5.0, "mass"),
        (MASS, -1.0, "speed"),
        (3000.0, 5.0, "beam in cube roots of the volume"),
    ] {
        match resistance(&hull, mass, speed, &FRESH) {
            Err(Error::Outside { what: named, .. }) => assert_eq!(named, what),
            other => panic!("{what}: {other:?}"),
        }
    }
    assert!(Hull::typical(2.7, 0.0, 0.3).is_err());
}

/// Two independent readings of one paper, by the reference sheet: 1759 N and 1145 N without air at 30 m/s.
#[test]
fn computed_dry_chines_are_worth_half_of_the_resistance() {
    let wet = Hull {
        dry: DryChines::AsWet,
        ..craft()
    };
    let force = |hull: &Hull| resistance(hull, MASS, 30.0, &FRESH).unwrap().force;
    near(force(&craft()), 1145.2, 5e-3, "a triangle");
    near(force(&wet) / force(&craft()), 1.5, 0.05, "as wet");
    let slow = |hull: &Hull| resistance(hull, MASS, 15.0, &FRESH).unwrap().force;
    near(slow(&wet), slow(&craft()), 1e-2, "with wet chines");
}

proptest! {
    /// Any craft of the kind has a resistance, less than its weight, at any speed it can reach.
    #[test]
    fn law_every_small_craft_has_a_resistance(
        length in 2.0..3.5_f64,
        beam in 0.8..1.3_f64,
        deadrise in 5.0..26.0_f64,
        mass in 250.0..700.0_f64,
        speed in 0.0..35.0_f64,
        warm in 273.15..310.0_f64,
    ) {
        let hull = Hull::typical(length, beam, deadrise.to_radians()).unwrap();
        let water = water(warm, 0.0).unwrap();
        let ours = resistance(&hull, mass, speed, &water).unwrap();
        prop_assert!((0.0..mass * 9.8).contains(&ours.force), "{ours:?}");
    }
}
