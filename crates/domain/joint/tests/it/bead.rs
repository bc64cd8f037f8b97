//! Beads: spread, diameter, what comes out, what a cartridge gives.

use joint::bead::{Face, diameter, left_open, length, ridge, runs, spread};
use joint::{Error, Interval};
use proptest::prelude::*;

use crate::assert_near;

const MM: f64 = 1e-3;

#[test]
fn computed_python_spread_and_bead() {
    for (bead, gap, width) in [
        (2.0, 0.10, 31.4),
        (1.5, 0.05, 35.3),
        (3.0, 0.1, 70.7),
        (2.0, 0.2, 15.7),
    ] {
        assert_near(spread(bead * MM, gap * MM).unwrap() / MM, width, 0.051);
    }
    for (width, gap, bead) in [
        (8.0, 0.05, 0.71),
        (10.0, 0.05, 0.80),
        (10.0, 0.10, 1.13),
        (6.0, 0.05, 0.62),
        (12.0, 0.10, 1.24),
    ] {
        assert_near(diameter(width * MM, gap * MM).unwrap() / MM, bead, 0.0051);
    }
}

#[test]
fn computed_python_most_of_a_thick_bead_comes_out() {
    let (bead, face, gap) = (2.0 * MM, 8.0 * MM, 0.05 * MM);
    let stays = face / spread(bead, gap).unwrap();
    assert_near(stays, 0.127, 5e-4);
    let ridge = ridge(bead, face, gap).unwrap();
    assert_near(ridge / MM, 0.93, 5e-3);
    // Half of a circle of that radius is the 1.37 mm² a side.
    assert_near(
        0.5 * std::f64::consts::PI * ridge * ridge / MM / MM,
        1.37,
        5e-3,
    );
    assert_near(left_open(ridge, 4.0 * MM).unwrap(), 0.28, 1e-2);
    assert_near(
        runs(0.10 * MM, 5.0 * MM, 0.05 * MM).unwrap() / MM,
        2.5,
        1e-9,
    );
}

#[test]
fn computed_python_what_a_tube_gives() {
    for (bead, tube) in [(1.0, 101.9), (1.5, 45.3), (2.0, 25.5), (3.0, 11.3)] {
        assert_near(length(80e-6, bead * MM).unwrap(), tube, 0.051);
    }
    assert_near(length(1e-6, MM).unwrap(), 1.27, 5e-3);
    for (bead, a_metre) in [(1.0, 0.785), (1.5, 1.77), (3.0, 7.07)] {
        assert_near(1.0 / length(1e-6, bead * MM).unwrap(), a_metre, 6e-3);
    }
}

// Data sheet of a marine polyurethane: 295 ml give 120 feet of a 1/8 inch bead, stated to ten feet.
#[test]
fn published_yield_of_a_cartridge() {
    let feet = length(295e-6, 25.4 * MM / 8.0).unwrap() / 0.3048;
    assert_near(feet, 120.0, 5.0);
}

#[test]
fn practice_a_face_beside_a_passage() {
    let face = Face {
        sealed: 3.0 * MM,
        room: 8.0 * MM,
        gap: Interval {
            low: 0.05 * MM,
            high: 0.10 * MM,
        },
    };
    let bead = face.bead().unwrap();
    assert_near(bead.low, diameter(3.0 * MM, 0.10 * MM).unwrap(), 1e-12);
    assert_near(bead.high / MM, 0.71, 5e-3);
    let warped = Face {
        gap: Interval {
            low: 0.01 * MM,
            high: 0.10 * MM,
        },
        ..face
    };
    let refusal = warped.bead().unwrap_err();
    assert!(matches!(refusal, Error::NoBead { .. }), "{refusal}");
    assert!(
        refusal
            .to_string()
            .ends_with("dress the faces, or coat them thinly instead")
    );
}

#[test]
fn law_what_is_no_size_is_refused() {
    assert!(spread(0.0, MM).is_err());
    assert!(spread(MM, 0.0).is_err());
    assert!(diameter(f64::NAN, MM).is_err());
    assert!(ridge(MM, -MM, MM).is_err());
    assert!(left_open(-MM, MM).is_err());
    assert!(runs(MM, MM, 0.0).is_err());
    assert!(length(0.0, MM).is_err());
    let turned = Face {
        sealed: 8.0 * MM,
        room: 3.0 * MM,
        gap: Interval::point(0.05 * MM),
    };
    assert!(matches!(turned.bead(), Err(Error::Order { .. })));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_spread_and_bead_are_inverse(bead in 1e-4..1e-2_f64, gap in 1e-6..1e-3_f64) {
        let back = diameter(spread(bead, gap).unwrap(), gap).unwrap();
        prop_assert!((back / bead - 1.0).abs() < 1e-12);
    }

    /// Nothing is lost: what stays and the two ridges are the bead.
    #[test]
    fn law_the_volume_is_kept(bead in 5e-4..5e-3_f64, width in 1e-3..2e-2_f64, gap in 1e-5..5e-4_f64) {
        let area = 1.0 / length(1.0, bead).unwrap();
        let ridge = ridge(bead, width, gap).unwrap();
        let out = std::f64::consts::PI * ridge * ridge;
        let stays = gap * width.min(spread(bead, gap).unwrap());
        prop_assert!(((out + stays) / area - 1.0).abs() < 1e-9);
    }

    /// Over the whole gap, no bead of the answer seals too little or reaches too far.
    #[test]
    fn law_every_bead_of_the_answer_seals_and_stays_clear(
        sealed in 1e-3..5e-3_f64, more in 1.0..10.0_f64, gap in 1e-5..1e-4_f64, wider in 1.0..10.0_f64,
        at in 0.0..=1.0_f64,
    ) {
        let face = Face { sealed, room: more * sealed, gap: Interval { low: gap, high: wider * gap } };
        match face.bead() {
            Ok(bead) => {
                let bead = bead.low + at * (bead.high - bead.low);
                prop_assert!(spread(bead, face.gap.high).unwrap() >= sealed * (1.0 - 1e-12));
                prop_assert!(spread(bead, face.gap.low).unwrap() <= face.room * (1.0 + 1e-12));
            }
            Err(_) => prop_assert!(wider > more),
        }
    }
}
