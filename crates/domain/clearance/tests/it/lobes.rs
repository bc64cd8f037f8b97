use std::f64::consts::TAU;

use clearance::lobes::{Instrument, Lobes, carried, clock, diameters, lobes, sees};
use proptest::prelude::*;

use crate::assert_near;
use crate::form::RING;

#[test]
fn computed_numpy_ring_lobes() {
    // numpy 2.4.6, fft.rfft of the departures over their number; printed to 1e-5 micrometres and
    // 1e-4 degrees.
    let found = lobes(&RING).unwrap();
    assert_eq!(found.len(), 5);
    for (lobes, (amplitude, degrees)) in found.iter().zip([
        (16.367_91, 11.011_6_f64),
        (11.609_38, 135.874_0),
        (1.269_30, -23.198_6),
        (1.452_97, -83.413_2),
        (0.990_10, -39.245_8),
    ]) {
        assert_near(lobes.amplitude, amplitude, 6e-6);
        assert_near(lobes.phase, degrees.to_radians(), 1e-6);
    }
    assert_near(found[1].crest(), 67.937_f64.to_radians(), 1e-5);
}

#[test]
fn computed_numpy_ring_diameters() {
    // numpy 2.4.6, in mm.
    let radii: Vec<f64> = RING.iter().map(|off| 70.0 + off / 1000.0).collect();
    let found = diameters(&radii).unwrap();
    let expected = [139.988, 140.008, 140.029, 140.022, 139.996, 139.985];
    assert_eq!(found.len(), expected.len());
    for (ours, theirs) in found.into_iter().zip(expected) {
        assert_near(ours, theirs, 1e-12);
    }
}

/// A bore of 70 mm radius with one kind of lobes of 0.05 mm.
fn lobed(order: u32, points: usize) -> Vec<f64> {
    clock(points)
        .into_iter()
        .map(|t| 70.0 + 0.05 * (f64::from(order) * t).cos())
        .collect()
}

#[test]
fn law_two_points_are_blind_to_odd_lobes() {
    for order in 1..8_u32 {
        let found = diameters(&lobed(order, 36)).unwrap();
        let range = found.iter().copied().fold(f64::MIN, f64::max)
            - found.iter().copied().fold(f64::MAX, f64::min);
        let seen = sees(Instrument::TwoPoint, order as usize);
        assert_eq!(range > 1e-9, seen, "{order} lobes range over {range}");
        assert!(sees(Instrument::Radius, order as usize));
    }
}

#[test]
fn law_what_is_not_carried_looks_like_another() {
    // Three points cannot tell oval from off centre; four lose one of the two ovals.
    assert_eq!([3, 4, 5, 6, 8, 12].map(carried), [1, 1, 2, 2, 3, 5]);
    let oval = lobes(&lobed(2, 3)).unwrap();
    assert_near(oval[0].amplitude, 0.05, 1e-12);
    let sine: Vec<f64> = clock(4).iter().map(|t| (2.0 * t).sin()).collect();
    assert!(sine.iter().all(|radius| radius.abs() < 1e-12));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_lobes_are_found_where_they_were_put(
        points in 3_usize..37,
        pick in 0.0..1.0_f64,
        amplitude in 1e-6..1e-3_f64,
        phase in -3.0..3.0_f64,
    ) {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss, reason = "a small count")]
        let order = 1 + (pick * carried(points) as f64) as usize;
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let radii: Vec<f64> = clock(points)
            .iter()
            .map(|t| 0.07 + amplitude * (order as f64 * t - phase).cos())
            .collect();
        for Lobes { order: found, amplitude: size, phase: at } in lobes(&radii).unwrap() {
            if found == order {
                prop_assert!((size - amplitude).abs() < 1e-14);
                let off = (at - phase + 0.5 * TAU).rem_euclid(TAU) - 0.5 * TAU;
                prop_assert!(off.abs() * amplitude < 1e-14);
            } else {
                prop_assert!(size < 1e-14);
            }
        }
    }
}
