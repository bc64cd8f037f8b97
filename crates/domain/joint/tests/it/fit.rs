//! Bearings, shrink fits, O-rings and what has a front.

use joint::Error;
use joint::fit::{
    BEARS_BEARING, BEARS_CASTING, BEARS_SEALED, BearingFit, FILL, Front, Looks, ORing, Push,
    SQUEEZE, Shrink,
};
use proptest::prelude::*;

use crate::assert_near;

/// A ring that is not stretched, in inches as the table has it.
fn ring(cord: f64, depth: f64, width: f64) -> ORing {
    ORing {
        cord,
        inner: 1.0,
        seat: 1.0,
        depth,
        width,
    }
}

// Glands for static seals as a handbook table prints them: cord and its tolerance, depth, width,
// squeeze in per cent. Some are rounded and some cut, hence a whole per cent.
#[test]
fn published_glands_for_static_seals() {
    for (cord, spare, depth, width, per_cent) in [
        (0.070, 0.003, (0.050, 0.052), (0.093, 0.098), (22.0, 32.0)),
        (0.103, 0.003, (0.081, 0.083), (0.140, 0.145), (17.0, 24.0)),
        (0.139, 0.004, (0.111, 0.113), (0.187, 0.192), (16.0, 23.0)),
        (0.210, 0.005, (0.170, 0.173), (0.281, 0.286), (15.0, 21.0)),
        (0.275, 0.006, (0.226, 0.229), (0.375, 0.380), (15.0, 20.0)),
    ] {
        let least = ring(cord - spare, depth.1, width.1).sits().unwrap();
        let most = ring(cord + spare, depth.0, width.0).sits().unwrap();
        assert_near(100.0 * least.squeeze, per_cent.0, 1.0);
        assert_near(100.0 * most.squeeze, per_cent.1, 1.0);
        let nominal = ring(cord, 0.5 * (depth.0 + depth.1), 0.5 * (width.0 + width.1));
        let sits = nominal.sits().unwrap();
        assert!(sits.is_sound(), "{sits:?}");
        assert!(SQUEEZE.contains(sits.squeeze) && FILL.contains(sits.fill));
    }
}

#[test]
fn practice_a_ring_too_small_too_deep_or_too_full_is_not_sound() {
    let sound = ring(0.139, 0.112, 0.19);
    for unsound in [
        ORing {
            inner: 0.9,
            ..sound
        },
        ORing {
            depth: 0.135,
            ..sound
        },
        ORing {
            width: 0.14,
            ..sound
        },
        ORing {
            seat: 0.98,
            ..sound
        },
    ] {
        assert!(!unsound.sits().unwrap().is_sound(), "{unsound:?}");
    }
}

// A maker of seals: the lip points at what it stops. Plant Engineering (1999): for oil it faces
// inward, for grease outward, so that the grease can leave.
#[test]
fn published_a_lip_looks_at_what_it_stops() {
    assert_eq!(Front::LipHolding.looks(), Looks::AtBearing);
    assert_eq!(Front::LipExcluding.looks(), Looks::AtWater);
    assert_eq!(Front::LipUnderPressure.looks(), Looks::AtPressure);
}

#[test]
fn practice_which_way_a_bearing_faces() {
    assert_eq!(Front::SealedSide.looks(), Looks::AtWater);
    assert_eq!(Front::WideShoulder.looks(), Looks::WithThrust);
}

// A maker of bearings: onto a shaft press the inner ring, into a housing the outer one. Another:
// both at once where both are tight.
#[test]
fn published_the_ring_that_is_fitted_is_pushed() {
    for (shaft, housing, push) in [
        (12e-6, -8e-6, Push::Inner),
        (-4e-6, 10e-6, Push::Outer),
        (12e-6, 10e-6, Push::Both),
        (-4e-6, 0.0, Push::ByHand),
    ] {
        assert_eq!(BearingFit { shaft, housing }.push(), Ok(push));
    }
    // Millimetres given as metres.
    for slipped in [0.012, f64::NAN] {
        let fit = BearingFit {
            shaft: slipped,
            housing: 0.0,
        };
        assert!(matches!(fit.push(), Err(Error::Outside { .. })));
    }
}

/// A steel bearing of 25 mm on a stainless shaft, 15 µm tight, with 10 µm to slip.
fn shaft() -> Shrink {
    Shrink {
        diameter: 25e-3,
        interference: 15e-6,
        clearance: 10e-6,
        outer: 12e-6,
        inner: 11e-6,
        room: 293.15,
        inner_at: 293.15,
        bears: BEARS_BEARING,
    }
}

// By hand: 25 µm on 25 mm are a thousandth, over 12e-6 a kelvin 83.3 K; a shaft 40 K colder gives
// 11/12 of it.
#[test]
fn computed_hand_a_bearing_on_a_shaft() {
    assert_near(shaft().heat_to().unwrap(), 293.15 + 1e3 / 12.0, 1e-9);
    let frozen = Shrink {
        inner_at: 253.15,
        ..shaft()
    };
    let spared = shaft().heat_to().unwrap() - frozen.heat_to().unwrap();
    assert_near(spared, 40.0 * 11.0 / 12.0, 1e-9);
}

// Bearings: 250 °F for eight hours; rubber seals not above 110 °C.
#[test]
fn published_what_a_bearing_bears() {
    assert_near(BEARS_BEARING, (250.0 + 459.67) / 1.8, 0.2);
    assert_near(BEARS_SEALED, 110.0 + 273.15, 1e-9);
    let tight = Shrink {
        interference: 25e-6,
        bears: BEARS_SEALED,
        ..shaft()
    };
    let refusal = tight.heat_to().unwrap_err();
    assert!(matches!(refusal, Error::TooHot { .. }));
    assert!(
        refusal
            .to_string()
            .ends_with("bears 383.15 K; cool the inner part too, or press it in")
    );
    let frozen = Shrink {
        inner_at: 253.15,
        ..tight
    };
    assert!(frozen.heat_to().is_ok());
}

#[test]
fn law_what_is_no_size_is_refused() {
    let sound = shaft();
    for broken in [
        Shrink {
            interference: -1e-6,
            ..sound
        },
        Shrink {
            clearance: -1e-6,
            ..sound
        },
        Shrink {
            diameter: 0.0,
            ..sound
        },
        Shrink {
            outer: f64::NAN,
            ..sound
        },
        Shrink {
            inner: -1e-6,
            ..sound
        },
        Shrink {
            inner_at: -20.0,
            ..sound
        },
        Shrink {
            bears: f64::NAN,
            ..sound
        },
    ] {
        assert!(broken.heat_to().is_err(), "{broken:?}");
    }
    for broken in [
        ring(0.0, 0.1, 0.2),
        ring(0.1, 0.0, 0.2),
        ring(0.1, 0.1, f64::INFINITY),
        ORing {
            inner: 0.0,
            ..ring(0.1, 0.1, 0.2)
        },
        ORing {
            seat: -1.0,
            ..ring(0.1, 0.1, 0.2)
        },
    ] {
        assert!(broken.sits().is_err(), "{broken:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// At that temperature the bore stands off the inner part by the clearance asked for.
    #[test]
    fn law_the_bore_clears_by_what_is_asked(
        interference in 0.0..5e-5_f64, clearance in 0.0..5e-5_f64, diameter in 0.05..0.2_f64,
        outer in 1e-5..3e-5_f64, inner in 0.0..3e-5_f64, inner_at in 250.0..293.0_f64,
    ) {
        let parts = Shrink {
            diameter, interference, clearance, outer, inner, room: 293.15, inner_at, bears: BEARS_CASTING + 100.0,
        };
        let at = parts.heat_to().unwrap();
        let bore = diameter * (1.0 + outer * (at - parts.room));
        let core = diameter * (1.0 + inner * (inner_at - parts.room)) + interference;
        prop_assert!((bore - core - clearance).abs() < 1e-15);
    }

    /// The cord keeps its volume: its section times its length is the same, stretched or not.
    #[test]
    fn law_rubber_keeps_its_volume(inner in 0.01..0.1_f64, stretch in 0.0..0.1_f64) {
        let ring = ORing { cord: 3e-3, inner, seat: inner * (1.0 + stretch), depth: 2.4e-3, width: 4e-3 };
        let free = ORing { seat: inner, ..ring };
        let (tight, free) = (ring.sits().unwrap(), free.sits().unwrap());
        prop_assert!((tight.fill * (1.0 + tight.stretch) / free.fill - 1.0).abs() < 1e-12);
        prop_assert!((tight.stretch - stretch).abs() < 1e-12);
        prop_assert!(tight.squeeze <= free.squeeze);
    }
}
