use std::f64::consts::PI;

use joint::turn::{
    Clamp, Verdict, approach, clamped_stiffness, elastic_preload, screw_stiffness, sensible_angle,
    stiffness, verdict,
};
use joint::{Bearing, Class, Head, Screw, Seat, tensile_yield};

use crate::{assert_near, hex};

const EIGHTH: f64 = PI / 4.0;

/// Size, grip in mm, seat; kb, km, k in kN/mm, N per degree, F at 45 degrees in kN, degrees to half
/// of yield.
type Row = (&'static str, f64, Seat, [f64; 6]);

const TABLE: [Row; 6] = [
    (
        "M6",
        10.0,
        Seat::MetalLip,
        [188.7, 682.6, 147.8, 411.0, 18.5, 11.0],
    ),
    (
        "M6",
        25.0,
        Seat::MetalLip,
        [103.7, 544.1, 87.1, 242.0, 10.9, 18.7],
    ),
    (
        "M5",
        8.0,
        Seat::MetalLip,
        [163.1, 477.6, 121.6, 270.0, 12.2, 11.8],
    ),
    (
        "M5",
        3.0,
        Seat::MetalLip,
        [244.5, 702.0, 181.3, 403.0, 18.1, 7.9],
    ),
    (
        "M6",
        3.0,
        Seat::PlasticLip,
        [305.5, 24.9, 23.0, 64.0, 2.87, 71.0],
    ),
    (
        "M5",
        3.0,
        Seat::PlasticLip,
        [244.5, 14.8, 14.0, 31.0, 1.40, 103.0],
    ),
];

#[test]
fn computed_python_stiffness_and_preload() {
    // Python 3.11.7, A2-70; two to four digits: 1 %.
    for (size, grip, seat, [kb, km, k, per_degree, preload, degrees]) in TABLE {
        let screw = hex(size);
        let clamp = Clamp::of(grip * 1e-3, seat);
        let near = |ours: f64, theirs: f64| assert_near(ours / theirs, 1.0, 0.01);
        near(screw_stiffness(&screw, &clamp).unwrap() / 1e6, kb);
        let part = clamped_stiffness(&screw.bearing, clamp.grip, clamp.clamped).unwrap();
        near(part / 1e6, km);
        near(stiffness(&screw, &clamp).unwrap() / 1e6, k);
        let degree = elastic_preload(&screw, &clamp, PI / 180.0).unwrap();
        // Printed in whole newtons.
        assert_near(degree, per_degree, 0.01 * per_degree + 0.5);
        near(
            elastic_preload(&screw, &clamp, EIGHTH).unwrap() / 1e3,
            preload,
        );
        let sensible = sensible_angle(&screw, Class::Stainless70, &clamp).unwrap();
        near(sensible.to_degrees(), degrees);
    }
}

#[test]
fn computed_python_approach_of_an_eighth() {
    // Python 3.11.7, exact.
    assert_near(approach(1e-3, EIGHTH).unwrap(), 125e-6, 1e-18);
    assert_near(approach(0.8e-3, EIGHTH).unwrap(), 100e-6, 1e-18);
}

#[test]
fn computed_python_two_cones() {
    // Python 3.11.7, aluminium, face of 1.5 d on a hole of d; N/um, printed to 0.01 and 0.1. Two
    // cones of half the grip in series, against the closed form of budynas-nisbett for both.
    for (d, grip, printed, unit) in [(6e-3, 10e-3, 516.84, 0.01), (8e-3, 20e-3, 571.2, 0.1)] {
        let bearing = Bearing {
            outer: 1.5 * d,
            hole: d,
        };
        let both = 0.5 * clamped_stiffness(&bearing, 0.5 * grip, 71e9).unwrap();
        assert_near(both / 1e6, printed, 0.51 * unit);
        // Its coefficients are rounded to four digits.
        let (over, under) = (0.5774 * grip + 0.5 * d, 0.5774 * grip + 2.5 * d);
        let closed = 0.5774 * PI * 71e9 * d / (2.0 * (5.0 * over / under).ln());
        assert_near(both / closed, 1.0, 1e-4);
        // Wileman's fit to finite elements: within 4 %.
        let fit = 71e9 * d * 0.79670 * (0.63816 * d / grip).exp();
        assert_near(both / fit, 1.0, 0.04);
    }
}

#[test]
fn practice_an_eighth_of_a_turn_by_seat() {
    let judge = |size, grip, seat| {
        verdict(
            &hex(size),
            Class::Stainless70,
            &Clamp::of(grip, seat),
            EIGHTH,
        )
        .unwrap()
    };
    assert_eq!(judge("M5", 3e-3, Seat::MetalLip), Verdict::TooMuch);
    assert_eq!(judge("M6", 10e-3, Seat::MetalLip), Verdict::TooMuch);
    assert_eq!(judge("M6", 25e-3, Seat::MetalLip), Verdict::TooMuch);
    assert_eq!(judge("M6", 3e-3, Seat::PlasticLip), Verdict::Sensible);
    assert_eq!(judge("M5", 3e-3, Seat::PlasticLip), Verdict::Sensible);
    assert_eq!(judge("M6", 3e-3, Seat::Rubber), Verdict::Sensible);
}

#[test]
fn law_the_sensible_angle_is_half_of_yield() {
    let (screw, clamp) = (hex("M6"), Clamp::of(3e-3, Seat::PlasticLip));
    let class = Class::StainlessUnmarked;
    let angle = sensible_angle(&screw, class, &clamp).unwrap();
    let load = elastic_preload(&screw, &clamp, angle).unwrap();
    assert_near(
        load / tensile_yield(&screw.thread, class).unwrap(),
        0.5,
        1e-12,
    );
    assert_eq!(
        verdict(&screw, class, &clamp, 0.999 * angle),
        Ok(Verdict::Sensible)
    );
    assert_eq!(
        verdict(&screw, class, &clamp, 1.001 * angle),
        Ok(Verdict::TooMuch)
    );
    // A soft unmarked screw takes less than an eighth even on nylon.
    assert!(angle < EIGHTH);
}

#[test]
fn law_a_stiff_part_leaves_the_screw_alone() {
    let screw = hex("M6");
    let clamp = Clamp {
        clamped: 1e18,
        ..Clamp::of(10e-3, Seat::MetalLip)
    };
    let alone = screw_stiffness(&screw, &clamp).unwrap();
    // The part gives 1e-7 of what the screw does.
    assert_near(stiffness(&screw, &clamp).unwrap() / alone, 1.0, 1e-6);
}

#[test]
fn law_a_socket_head_gives_less() {
    // A tenth of a diameter of shank less: VDI 2230, 0.4 d against 0.5 d.
    let (hex, clamp) = (hex("M6"), Clamp::of(10e-3, Seat::MetalLip));
    let socket = Screw {
        head: Head::Socket,
        ..hex
    };
    let give = |screw: &Screw| 1.0 / screw_stiffness(screw, &clamp).unwrap();
    let tenth = 0.6e-3 / (193e9 * 0.25 * PI * 36e-6);
    assert_near((give(&hex) - give(&socket)) / tenth, 1.0, 1e-9);
}
