use clearance::cone::{Seat, Shim, radial_change, stack};
use clearance::{Error, Interval};
use proptest::prelude::*;

use crate::assert_near;

fn shim(thickness: f64) -> Shim {
    Shim {
        thickness,
        tolerance: 2e-6,
    }
}

/// A ring of ten degrees half angle whose gap is 0.2 mm without shims.
fn seat(opens: bool) -> Seat {
    Seat {
        bare: Interval {
            low: 0.19e-3,
            high: 0.21e-3,
        },
        half_angle: 10.0_f64.to_radians(),
        opens,
    }
}

const ALLOWED: Interval = Interval {
    low: 0.28e-3,
    high: 0.34e-3,
};

#[test]
fn law_the_stack_reaches_the_wanted_gap() {
    // 0.1 mm more gap takes 0.1 / tan 10 = 0.567 mm of shims.
    let shims = [0.1e-3, 0.2e-3, 0.3e-3, 0.37e-3, 0.5e-3].map(shim);
    let found = stack(&seat(true), &shims, 0.3e-3, ALLOWED).unwrap();
    assert_eq!(found.shims, [1, 3]);
    assert_near(found.thickness, 0.57e-3, 1e-15);
    let middle = 0.2e-3 + radial_change(0.57e-3, seat(true).half_angle).unwrap();
    assert_near(0.5 * (found.gap.low + found.gap.high), middle, 1e-15);
    let loose = radial_change(4e-6, seat(true).half_angle).unwrap();
    assert_near(found.gap.high - found.gap.low, 20e-6 + 2.0 * loose, 1e-15);
}

#[test]
fn law_of_equal_stacks_the_one_of_fewest_shims() {
    let shims = [0.2e-3, 0.37e-3, 0.1e-3, 0.1e-3, 0.57e-3].map(shim);
    let found = stack(&seat(true), &shims, 0.3e-3, ALLOWED).unwrap();
    assert_eq!(found.shims, [4]);
}

#[test]
fn law_what_is_missing_is_named() {
    let shims = [0.1e-3, 0.2e-3].map(shim);
    let Err(Error::NoStack { low, high, nearest }) = stack(&seat(true), &shims, 0.3e-3, ALLOWED)
    else {
        panic!("0.3 mm of shims do not open the gap by 0.1 mm");
    };
    assert_near(nearest, 0.3e-3, 1e-15);
    let slope = seat(true).half_angle.tan();
    assert_near(low, 0.08e-3 / slope, 1e-15);
    assert_near(high, 0.14e-3 / slope, 1e-15);
    // Shims that close the gap cannot open it: the stack missing is below zero.
    let closing = stack(&seat(false), &shims, 0.3e-3, ALLOWED);
    assert!(matches!(closing, Err(Error::NoStack { high, .. }) if high < 0.0));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_one_more_shim_at_hand_is_never_worse(
        steps in prop::collection::vec(1_u32..60, 1..8),
        wanted in 0.2e-3..0.5e-3_f64,
    ) {
        let shims: Vec<Shim> = steps.iter().map(|s| shim(f64::from(*s) * 10e-6)).collect();
        let anywhere = Interval { low: 0.0, high: 10e-3 };
        let off = |shims: &[Shim]| {
            let found = stack(&seat(true), shims, wanted, anywhere).unwrap();
            let sum: f64 = found.shims.iter().map(|&i| shims[i].thickness).sum();
            assert!((sum - found.thickness).abs() < 1e-15);
            (0.5 * (found.gap.low + found.gap.high) - wanted).abs()
        };
        // Stacks within a nanometre count as the same.
        prop_assert!(off(&shims) <= off(&shims[1..]) + 2e-9);
    }

    #[test]
    fn law_there_and_back(axial in -1e-2..1e-2_f64, angle in 0.01..1.5_f64) {
        let there = radial_change(axial, angle).unwrap();
        prop_assert!((there + radial_change(-axial, angle).unwrap()).abs() < 1e-15);
        // Square to the surface the gap changes by the sine.
        prop_assert!((there * angle.cos() - axial * angle.sin()).abs() < 1e-15);
    }
}
