//! Stripping: areas, needed lengths, pulls.

use joint::strip::{CASTING, Limits, needed, strips_at};
use joint::{Class, Error, Interval, Thread};
use proptest::prelude::*;

use crate::assert_near;

/// Shear strengths of three castings and a wrought alloy, `Pa`.
const A356: f64 = 143e6;
const SAND: f64 = 179e6;
const WROUGHT: f64 = 207e6;

fn thread(designation: &str) -> Thread {
    designation.parse().unwrap()
}

/// Without the bending of the hole, as the tables below reckon.
fn plain(thread: &Thread, class: Class, shear: f64) -> f64 {
    needed(thread, class, Interval::point(shear)).unwrap().low
}

#[test]
fn computed_numpy_shear_areas_a_millimetre() {
    for (size, hole, screw) in [
        ("M5", 9.999, 7.073),
        ("M6", 12.191, 8.646),
        ("M8", 16.829, 12.161),
        ("M10", 21.477, 15.580),
    ] {
        let thread = thread(size);
        let limits = Limits::of(&thread).unwrap();
        let area = |area: Result<f64, Error>| area.unwrap() * 1e6;
        assert_near(
            area(limits.hole_area(thread.pitch, 1e-3)),
            hole,
            1e-3 * hole,
        );
        assert_near(
            area(limits.screw_area(thread.pitch, 1e-3)),
            screw,
            1e-3 * screw,
        );
    }
}

// Handbook of Bolts and Bolted Joints: M10, 10.9 taken at 1200 MPa on 58 mm², aluminium of 130 MPa in
// shear, gives 21.6 mm. It takes the greatest major diameter; with the least it is 24.93 mm.
#[test]
fn published_a_bolt_in_aluminium() {
    let limits = Limits::of(&thread("M10")).unwrap();
    let greatest = Limits {
        major: 9.968e-3,
        ..limits
    };
    let length = |limits: &Limits| 1200.0 * 58.0 / 130e6 / limits.hole_area(1.5e-3, 1.0).unwrap();
    assert_near(length(&greatest), 21.6e-3, 0.06e-3);
    assert_near(length(&limits), 24.93e-3, 0.01e-3);
}

#[test]
fn computed_numpy_needed_lengths() {
    for (size, class, shear, length) in [
        ("M6", Class::Stainless50, A356, 5.8),
        ("M5", Class::Stainless70, A356, 6.9),
        ("M6", Class::Stainless70, A356, 8.1),
        ("M8", Class::Stainless70, A356, 10.7),
        ("M10", Class::Stainless70, A356, 13.2),
        ("M6", Class::Stainless80, A356, 9.2),
        ("M6", Class::Stainless50, SAND, 4.6),
        ("M6", Class::Stainless70, SAND, 6.5),
        ("M6", Class::Stainless80, SAND, 7.4),
        ("M6", Class::Stainless70, WROUGHT, 5.6),
    ] {
        let ours = plain(&thread(size), class, shear) * 1e3;
        // Printed to a tenth of a millimetre.
        assert_near(ours, length, 0.06);
    }
}

#[test]
fn computed_numpy_a_bending_hole_strips_earlier() {
    let m6 = thread("M6");
    let pull = |length| strips_at(&m6, length, Interval::point(A356)).unwrap().low;
    assert_near(pull(6e-3), 9.38e3, 10.0);
    assert_near(pull(9e-3), 14.07e3, 10.0);
    let most = needed(&m6, Class::Stainless70, Interval::point(A356)).unwrap();
    assert_near(most.high, 9.0e-3, 0.05e-3);
}

#[test]
fn law_a_thread_without_limits_is_refused_by_name() {
    let fine = thread("M8x1");
    assert_eq!(
        needed(&fine, Class::Stainless70, CASTING),
        Err(Error::NoLimits { thread: fine })
    );
    assert!(strips_at(&thread("M6"), 0.0, CASTING).is_err());
    assert!(strips_at(&thread("M6"), -1e-3, CASTING).is_err());
    assert!(strips_at(&thread("M6"), f64::NAN, CASTING).is_err());
    let turned = Interval {
        low: 200e6,
        high: 100e6,
    };
    assert!(strips_at(&thread("M6"), 9e-3, turned).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Held over the needed length, the hole bears what breaks the screw; and more length, more pull.
    #[test]
    fn law_the_needed_length_is_where_screw_and_hole_give_together(
        size in prop::sample::select(vec!["M5", "M6", "M8", "M10"]),
        class in prop::sample::select(Class::ALL.to_vec()),
        shear in 80e6..300e6_f64,
    ) {
        let thread = thread(size);
        let shear = Interval { low: shear, high: 1.3 * shear };
        let length = needed(&thread, class, shear).unwrap();
        let breaks = class.strength(&thread).unwrap().tensile
            * thread.geometry().unwrap().stress_area;
        let at_most = strips_at(&thread, length.high, shear).unwrap();
        let at_least = strips_at(&thread, length.low, shear).unwrap();
        prop_assert!((at_most.low / breaks - 1.0).abs() < 1e-12);
        prop_assert!((at_least.high / breaks - 1.0).abs() < 1e-12);
        prop_assert!(length.low < length.high && at_least.low < at_most.low);
    }
}
