use std::f64::consts::PI;

use clearance::rotor::{Judged, Posture, Pushed, Runout, centred, judge, play, runs, runs_at_most};
use clearance::{Estimated, Verdict};
use proptest::prelude::*;

use crate::assert_near;

fn runout(station: f64, total: f64, degrees: f64) -> Runout {
    Runout {
        station,
        total,
        high: degrees.to_radians(),
    }
}

#[test]
fn practice_half_the_play_each_way() {
    // Common practice, no source: a rotor hanging in 0.10 mm of play reads 0.05 mm too little below
    // and as much too much above, and true at the sides.
    let play = 0.10e-3;
    let middle = |gap, angle| centred(gap, angle, play, Posture::Down).unwrap();
    assert_near(middle(0.25e-3, PI), 0.30e-3, 1e-15);
    assert_near(middle(0.35e-3, 0.0), 0.30e-3, 1e-15);
    assert_near(middle(0.30e-3, 0.5 * PI), 0.30e-3, 1e-15);
}

#[test]
fn law_play_is_the_travel() {
    let pushed = Pushed {
        one: 1.32e-3,
        other: 1.20e-3,
        uncertainty: 3e-6,
    };
    let found = play(&pushed).unwrap();
    assert_near(found.value, 0.12e-3, 1e-15);
    assert_near(found.uncertainty, 3e-6 * 2.0_f64.sqrt(), 1e-18);
}

#[test]
fn law_parallel_and_tilted_shafts() {
    // The same runout at the same angle everywhere: no tilt.
    let same = runs(
        runout(0.0, 0.04e-3, 30.0),
        runout(0.1, 0.04e-3, 30.0),
        0.25,
        2e-6,
    )
    .unwrap();
    assert_near(same.eccentricity, 0.02e-3, 1e-15);
    assert_near(same.angle, 30.0_f64.to_radians(), 1e-12);
    assert_near(same.tilt, 0.0, 1e-15);
    // From nothing at the seal to 0.04 mm at 0.1 m: 0.2 mrad, and 0.05 mm of eccentricity at 0.25 m.
    let bent = runs(
        runout(0.0, 0.0, 0.0),
        runout(0.1, 0.04e-3, 90.0),
        0.25,
        2e-6,
    )
    .unwrap();
    assert_near(bent.tilt, 0.2e-3, 1e-15);
    assert_near(bent.eccentricity, 0.05e-3, 1e-15);
    assert_near(bent.angle, 0.5 * PI, 1e-12);
    assert_near(bent.uncertainty, 1e-6 * 2.5_f64.hypot(1.5), 1e-18);
}

#[test]
fn law_without_a_limit_there_is_no_verdict() {
    let found = Estimated {
        value: 0.08e-3,
        uncertainty: 5e-6,
    };
    assert_eq!(judge(&found, None, 0.95), Ok(Judged::Record));
    for (limit, said) in [
        (0.10e-3, Verdict::In),
        (0.085e-3, Verdict::Undecided),
        (0.05e-3, Verdict::Out),
    ] {
        let Judged::Held { verdict, .. } = judge(&found, Some(limit), 0.95).unwrap() else {
            panic!("a limit was given");
        };
        assert_eq!(verdict, said, "{limit}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_angles_only_narrow(
        (one, two) in (0.0..2e-4_f64, 0.0..2e-4_f64),
        (a, b) in (0.0..360.0_f64, 0.0..360.0_f64),
        at in -0.5..0.5_f64,
    ) {
        let (first, second) = (runout(0.05, one, a), runout(0.17, two, b));
        let known = runs(first, second, at, 0.0).unwrap();
        let all = runs_at_most(first, second, at).unwrap();
        prop_assert!(all.low - 1e-15 <= known.eccentricity && known.eccentricity <= all.high + 1e-15);
    }

    #[test]
    fn law_at_a_station_the_station_itself(one in 1e-6..2e-4_f64, two in 0.0..2e-4_f64, a in -170.0..170.0_f64) {
        let (first, second) = (runout(0.05, one, a), runout(0.17, two, 10.0));
        let found = runs(first, second, 0.05, 1e-6).unwrap();
        prop_assert!((found.eccentricity - 0.5 * one).abs() < 1e-15);
        prop_assert!((found.angle - a.to_radians()).abs() < 1e-9);
        // The stations may be told in either order.
        let back = runs(second, first, 0.4, 1e-6).unwrap();
        let there = runs(first, second, 0.4, 1e-6).unwrap();
        prop_assert!((back.eccentricity - there.eccentricity).abs() < 1e-12);
        prop_assert!((back.tilt - there.tilt).abs() < 1e-12);
    }

    #[test]
    fn law_opposite_gaps_keep_their_sum(top in 1e-4..1e-3_f64, bottom in 1e-4..1e-3_f64, play in 0.0..2e-4_f64, angle in 0.0..3.1_f64) {
        for posture in [Posture::Down, Posture::Middle, Posture::Up] {
            let sum = centred(top, angle, play, posture).unwrap() + centred(bottom, angle + PI, play, posture).unwrap();
            prop_assert!((sum - top - bottom).abs() < 1e-15);
        }
    }
}
