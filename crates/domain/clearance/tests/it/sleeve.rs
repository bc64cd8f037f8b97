use clearance::sleeve::{
    Cylinder, Elastic, Pressed, Pressures, Sleeved, closure_ratio, growth, press, press_force,
};
use proptest::prelude::*;

use crate::assert_near;

/// Stainless steel and aluminium of the examples, from memory.
const STEEL: Elastic = Elastic {
    modulus: 193e9,
    poisson: 0.30,
};
const ALUMINIUM: Elastic = Elastic {
    modulus: 69e9,
    poisson: 0.33,
};

/// A stainless sleeve of 70 mm bore radius in an aluminium housing.
fn sleeved(wall: f64, housing: f64) -> Sleeved {
    Sleeved {
        bore: 0.070,
        seat: 0.070 + wall,
        skin: 0.070 + wall + housing,
        sleeve: STEEL,
        housing: ALUMINIUM,
    }
}

#[track_caller]
fn assert_relative(ours: f64, theirs: f64, within: f64) {
    assert_near(ours, theirs, within * theirs.abs());
}

#[test]
fn published_kaw_thick_cylinder() {
    // A. Kaw, numerical methods: shooting method, thick cylinder. u(5 in) and u(8 in) as printed to
    // seven decimals; pressure, modulus and Poisson's ratio inferred from them, not printed there.
    let cylinder = Cylinder {
        inner: 5.0,
        outer: 8.0,
        material: Elastic {
            modulus: 30e6,
            poisson: 0.3,
        },
    };
    let under = Pressures {
        inside: 9000.0,
        outside: 0.0,
    };
    let moves = |radius| cylinder.wall(under, radius).unwrap().moves;
    assert_near(moves(5.0), 0.003_873_1, 5e-8);
    assert_near(moves(8.0), 0.003_076_9, 5e-8);
}

#[test]
fn published_boresi_closed_cylinder() {
    // Boresi and Schmidt, Advanced Mechanics of Materials, example 11.2, from memory: 170 MPa, 10 MPa
    // and 0.3003 mm. Its ends are closed, so the pull along the axis is taken off the displacement.
    let material = Elastic {
        modulus: 72e9,
        poisson: 0.33,
    };
    let cylinder = Cylinder {
        inner: 0.1,
        outer: 0.4,
        material,
    };
    let under = Pressures {
        inside: 150e6,
        outside: 0.0,
    };
    let wall = cylinder.wall(under, 0.1).unwrap();
    assert_near(wall.hoop, 170e6, 1.0);
    assert_near(wall.radial, -150e6, 1.0);
    let axial = 150e6 * 0.1 * 0.1 / (0.4 * 0.4 - 0.1 * 0.1);
    assert_near(axial, 10e6, 1.0);
    let moves = wall.moves - material.poisson * axial / material.modulus * 0.1;
    assert_near(moves, 0.300_3e-3, 5e-8);
}

#[test]
fn computed_numpy_sleeve() {
    // numpy 2.4.6, confirmed by a 4 x 4 solve of both cylinders; seven digits.
    let Pressed {
        pressure,
        bore,
        sleeve_seat,
        housing_seat,
        skin,
        hoop_bore,
        hoop_sleeve,
        hoop_housing,
        hoop_skin,
    } = press(&sleeved(2e-3, 10e-3), 30e-6).unwrap();
    for (ours, theirs) in [
        (pressure, 1.392_289e6),
        (bore, -18.435_16e-6),
        (sleeve_seat, -18.286_66e-6),
        (housing_seat, 11.713_34e-6),
        (skin, 11.139_57e-6),
        (hoop_bore, -50.828_37e6),
        (hoop_sleeve, -49.436_08e6),
        (hoop_housing, 10.765_83e6),
        (hoop_skin, 9.373_544e6),
    ] {
        assert_relative(ours, theirs, 1e-6);
    }
    let thick = press(&sleeved(5e-3, 10e-3), 30e-6).unwrap();
    assert_relative(thick.pressure, 2.052_945e6, 1e-6);
    assert_relative(thick.bore, -11.554_01e-6, 1e-6);
}

#[test]
fn computed_numpy_closure() {
    // numpy 2.4.6, four decimals: sleeve walls down, housing walls across, in mm.
    let housings = [4.0, 8.0, 12.0, 20.0];
    for (wall, row) in [
        (1.0, [0.5768, 0.7236, 0.7905, 0.8532]),
        (1.5, [0.4753, 0.6350, 0.7149, 0.7944]),
        (2.0, [0.4037, 0.5654, 0.6522, 0.7430]),
        (3.0, [0.3096, 0.4629, 0.5542, 0.6573]),
        (5.0, [0.2098, 0.3381, 0.4244, 0.5326]),
    ] {
        for (housing, kappa) in housings.into_iter().zip(row) {
            let parts = sleeved(wall * 1e-3, housing * 1e-3);
            assert_near(closure_ratio(&parts).unwrap(), kappa, 5.1e-5);
        }
    }
    let base = sleeved(2e-3, 10e-3);
    assert_relative(closure_ratio(&base).unwrap(), 0.614_505_4, 1e-6);
    for (thickness, closes, pressure) in [
        (10e-6, 6.145e-6, 0.464_1e6),
        (25e-6, 15.363e-6, 1.160_2e6),
        (50e-6, 30.725e-6, 2.320_5e6),
        (100e-6, 61.451e-6, 4.641_0e6),
        (200e-6, 122.901e-6, 9.281_9e6),
    ] {
        let grown = growth(&base, thickness).unwrap();
        assert_near(grown.closes, closes, 5.1e-10);
        assert_near(grown.pressure, pressure, 51.0);
    }
}

#[test]
fn computed_numpy_polymer_ring_thickens() {
    // numpy 2.4.6, seven digits: a nylon ring, modulus 2 GPa.
    let parts = Sleeved {
        bore: 0.070,
        seat: 0.076,
        skin: 0.086,
        sleeve: Elastic {
            modulus: 2e9,
            poisson: 0.40,
        },
        housing: ALUMINIUM,
    };
    let pressed = press(&parts, 100e-6).unwrap();
    assert_relative(pressed.pressure, 0.218_706_7e6, 1e-6);
    assert_relative(pressed.bore, -100.944_6e-6, 1e-6);
    assert!(closure_ratio(&parts).unwrap() > 1.0);
}

#[test]
fn computed_numpy_textbook_fits() {
    // Inputs from textbook problems of press fits; numpy 2.4.6, seven digits.
    let hub = Sleeved {
        bore: 0.025,
        seat: 0.050,
        skin: 0.125,
        sleeve: Elastic {
            modulus: 210e9,
            poisson: 0.3,
        },
        housing: Elastic {
            modulus: 70e9,
            poisson: 0.25,
        },
    };
    let pressed = press(&hub, 32.376_85e-6).unwrap();
    assert_relative(pressed.pressure, 21.724_14e6, 1e-6);
    assert_relative(pressed.hoop_housing, 30e6, 1e-6);
    let force = press_force(hub.seat, 0.1, pressed.pressure, 0.15).unwrap();
    assert_relative(force, 102.372_6e3, 1e-6);

    let brass = Sleeved {
        bore: 0.025_4,
        seat: 0.050_8,
        skin: 0.063_5,
        sleeve: Elastic {
            modulus: 103.4e9,
            poisson: 0.32,
        },
        housing: Elastic {
            modulus: 206.7e9,
            poisson: 0.29,
        },
    };
    let pressed = press(&brass, 25.5e-6).unwrap();
    for (ours, theirs) in [
        (pressed.pressure, 13.765_27e6),
        (pressed.bore, -9.017_093e-6),
        (pressed.skin, 15.035_76e-6),
        (pressed.hoop_housing, 62.708_44e6),
        (pressed.hoop_bore, -36.707_38e6),
    ] {
        assert_relative(ours, theirs, 1e-6);
    }
}

#[test]
fn computed_numpy_sleeve_over_shaft() {
    // Inputs from a textbook problem: the sleeve's bore grows by 0.2 mm on its diameter.
    let steel = Elastic {
        modulus: 200e9,
        poisson: 0.28,
    };
    let parts = Sleeved {
        bore: 0.050,
        seat: 0.100,
        skin: 0.175,
        sleeve: steel,
        housing: steel,
    };
    let unit = press(&parts, 1e-4).unwrap();
    let pressed = press(&parts, 1e-4 * 1e-4 / unit.housing_seat).unwrap();
    for (ours, theirs) in [
        (pressed.pressure, 88.900_86e6),
        (pressed.hoop_housing, 175.107_8e6),
        (pressed.hoop_skin, 86.206_90e6),
        (pressed.hoop_bore, -237.069_0e6),
        (pressed.hoop_sleeve, -148.168_1e6),
    ] {
        assert_relative(ours, theirs, 1e-6);
    }
}

fn elastic() -> impl Strategy<Value = Elastic> {
    (1e9..300e9_f64, 0.0..0.49_f64).prop_map(|(modulus, poisson)| Elastic { modulus, poisson })
}

fn parts() -> impl Strategy<Value = Sleeved> {
    (
        0.02..0.1_f64,
        1e-3..0.02_f64,
        2e-3..0.05_f64,
        elastic(),
        elastic(),
    )
        .prop_map(|(bore, wall, over, sleeve, housing)| Sleeved {
            bore,
            seat: bore + wall,
            skin: bore + wall + over,
            sleeve,
            housing,
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_parts_touch(parts in parts(), interference in 1e-6..1e-3_f64) {
        let pressed = press(&parts, interference).unwrap();
        let apart = pressed.housing_seat - pressed.sleeve_seat;
        prop_assert!((apart - interference).abs() <= 1e-12 * interference);
        // The pressure is the radial stress on both sides, and balances the hoop through each wall.
        let cylinder = Cylinder { inner: parts.seat, outer: parts.skin, material: parts.housing };
        let under = Pressures { inside: pressed.pressure, outside: 0.0 };
        let inner = cylinder.wall(under, parts.seat).unwrap();
        prop_assert!((inner.radial + pressed.pressure).abs() <= 1e-9 * pressed.pressure);
        prop_assert!(cylinder.wall(under, parts.skin).unwrap().radial.abs() <= 1e-9 * pressed.pressure);
    }

    #[test]
    fn law_a_stouter_housing_closes_the_bore_more(parts in parts(), more in 1e-3..0.02_f64) {
        let stout = Sleeved { skin: parts.skin + more, ..parts };
        prop_assert!(closure_ratio(&stout).unwrap() > closure_ratio(&parts).unwrap());
    }
}
