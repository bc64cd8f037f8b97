use std::f64::consts::PI;

use clearance::Interval;
use clearance::sleeve::{Elastic, Sleeved, press};
use clearance::thermal::{
    Faces, Fitted, Holding, Metal, Polymer, Ride, Ring, Strains, Wall, bonded, bore_change,
    gap_change, loosens_at,
};
use proptest::prelude::*;

use crate::assert_near;

const ALUMINIUM: Elastic = Elastic {
    modulus: 69e9,
    poisson: 0.33,
};
/// Expansion of cast aluminium and of stainless steel, 1/K.
const CAST: f64 = 21.5e-6;
const STAINLESS: f64 = 15.9e-6;
/// From 20 to 5 degrees Celsius.
const COLD: f64 = -15.0;

fn ring() -> Ring {
    Ring {
        bore: 0.070,
        outside: 0.076,
        poisson: 0.4,
    }
}

fn dry(strain: f64) -> Strains {
    Strains {
        ring: strain,
        housing: 0.0,
    }
}

#[test]
fn computed_numpy_thin_ring() {
    // numpy 2.4.6: a wall of 6 mm that swells by 2 %.
    for (holding, change) in [
        (Holding::Held, -0.168e-3),
        (Holding::Blocked, -0.280e-3),
        (Holding::Yielded, -0.360e-3),
        (Holding::Free, 1.400e-3),
    ] {
        let found = bore_change(&ring(), dry(0.02), holding).unwrap();
        assert_near(found, change, 1e-12);
    }
}

#[test]
fn computed_numpy_free_metal() {
    // numpy 2.4.6: 70 mm radius, 15 K colder.
    for (expansion, micrometres) in [
        (CAST, -22.575),
        (23.6e-6, -24.78),
        (STAINLESS, -16.695),
        (17.2e-6, -18.06),
        (144e-6, -151.2),
    ] {
        let found = bore_change(&ring(), dry(expansion * COLD), Holding::Free).unwrap();
        assert_near(found, micrometres * 1e-6, 1e-12);
    }
}

fn in_aluminium(modulus: f64, poisson: f64) -> Sleeved {
    Sleeved {
        bore: 0.070,
        seat: 0.076,
        skin: 0.086,
        sleeve: Elastic { modulus, poisson },
        housing: ALUMINIUM,
    }
}

#[test]
fn computed_numpy_elastic_ring() {
    // numpy 2.4.6, seven digits: modulus 1.5 GPa, Poisson's ratio 0.40.
    for (strain, change) in [
        (0.002, -0.014_221_7e-3),
        (0.006, -0.042_665_0e-3),
        (0.010, -0.071_108_3e-3),
        (0.020, -0.142_216_6e-3),
    ] {
        let found = bonded(&in_aluminium(1.5e9, 0.40), dry(strain)).unwrap();
        assert_near(found, change, 5.1e-11);
    }
}

#[test]
fn computed_numpy_bonded_ring_in_the_cold() {
    // numpy 2.4.6, micrometres: bonded, and the gap round a stainless impeller.
    for (expansion, modulus, poisson, gap) in [
        (144e-6, 2.8e9, 0.39, 5.209),
        (106.5e-6, 2.8e9, 0.35, 1.496),
        (234e-6, 0.7e9, 0.46, 20.08),
        (86.4e-6, 1.5e9, 0.45, 1.357),
    ] {
        let strains = Strains {
            ring: expansion * COLD,
            housing: CAST * COLD,
        };
        let bore = bonded(&in_aluminium(modulus, poisson), strains).unwrap();
        assert_near(bore - 0.070 * STAINLESS * COLD, gap * 1e-6, 6e-9);
    }
}

#[test]
fn computed_numpy_sleeve_loosens() {
    // numpy 2.4.6: 0.030 mm on 72 mm, five digits.
    let warmer = loosens_at(30e-6, 0.072, STAINLESS, CAST).unwrap();
    assert_near(warmer, 74.40, 6e-3);
    // 15 K colder the fit gains 6.048 micrometres, and 0.280686 MPa of pressure.
    let parts = Sleeved {
        bore: 0.070,
        seat: 0.072,
        skin: 0.082,
        sleeve: Elastic {
            modulus: 193e9,
            poisson: 0.30,
        },
        housing: ALUMINIUM,
    };
    let gained = 30e-6 * -COLD / warmer;
    assert_near(gained, 6.048e-6, 1e-12);
    assert_near(press(&parts, gained).unwrap().pressure, 0.280_686e6, 0.6);
    let strains = Strains {
        ring: STAINLESS * COLD,
        housing: CAST * COLD,
    };
    assert_near(bonded(&parts, strains).unwrap(), -20.412e-6, 6e-10);
}

fn wall(thickness: f64, faces: Faces) -> Wall {
    Wall {
        thickness,
        faces,
        diffusivity: 1e-13,
    }
}

/// Share of saturation at `D t / L^2`, of a wall of 1 m.
fn share(at: f64) -> f64 {
    let wall = wall(1.0, Faces::Both);
    wall.soaked(at / wall.diffusivity).unwrap()
}

#[test]
fn computed_numpy_uptake() {
    // numpy 2.4.6, the series, seven decimals.
    for (at, taken) in [
        (0.001, 0.071_365_0),
        (0.01, 0.225_675_8),
        (0.05, 0.504_087_8),
        (0.1, 0.697_881_9),
        (0.2, 0.887_402_9),
        (0.3, 0.958_034_2),
    ] {
        assert_near(share(at), taken, 6e-8);
    }
    // scipy 1.17.1, optimize.brentq of the series.
    let wall = wall(1.0, Faces::Both);
    for (taken, at) in [
        (0.5, 0.049_182_68),
        (0.9, 0.212_021_35),
        (0.99, 0.445_322_00),
    ] {
        assert_near(wall.time_to(taken).unwrap() * wall.diffusivity, at, 6e-9);
    }
}

#[test]
fn computed_scipy_days_of_nylon() {
    // scipy 1.17.1: days to half and to 90 %, at 1e-13 m2/s.
    const DAY: f64 = 86_400.0;
    for (thickness, faces, half, most) in [
        (3e-3, Faces::Both, 51.2, 221.0),
        (6e-3, Faces::Both, 205.0, 883.0),
        (6e-3, Faces::One, 820.0, 3534.0),
    ] {
        let days = |share| wall(thickness, faces).time_to(share).unwrap() / DAY;
        assert_near(days(0.5), half, 0.5);
        assert_near(days(0.9), most, 0.5);
    }
}

#[test]
fn law_the_early_uptake_meets_the_series() {
    // At first 4 sqrt(D t / (PI L^2)), exact to 1e-10 where it hands over to the series.
    assert_near(share(0.009_999), share(0.010_001), 3e-5);
    let series = |at: f64| {
        let term = |n: i32| {
            let odd = f64::from(2 * n + 1);
            (-odd * odd * PI * PI * at).exp() / (odd * odd)
        };
        1.0 - 8.0 / (PI * PI) * (0..100).map(term).sum::<f64>()
    };
    for at in [0.002, 0.005, 0.009_999] {
        assert_near(share(at), series(at), 1e-10);
    }
}

fn nylon(holding: Holding) -> Fitted {
    Fitted {
        polymer: Polymer::Nylon,
        bore: 0.070,
        outside: 0.076,
        holding,
        housing: Metal::Aluminium,
        impeller: Metal::Stainless,
    }
}

const DRY: Interval = Interval {
    low: 0.0,
    high: 0.0,
};

#[test]
fn law_held_shrinks_where_free_grows() {
    let soaked = Ride {
        warmer: 0.0,
        soaked: Interval {
            low: 0.5,
            high: 1.0,
        },
    };
    assert!(gap_change(&nylon(Holding::Free), soaked).unwrap().low > 0.0);
    for holding in [Holding::Held, Holding::Blocked, Holding::Yielded] {
        assert!(gap_change(&nylon(holding), soaked).unwrap().high < 0.0);
    }
    let cold = Ride {
        warmer: COLD,
        soaked: DRY,
    };
    assert!(gap_change(&nylon(Holding::Free), cold).unwrap().high < 0.0);
}

#[test]
fn law_no_change_without_a_cause() {
    let still = Ride {
        warmer: 0.0,
        soaked: DRY,
    };
    let found = gap_change(&nylon(Holding::Held), still).unwrap();
    assert_near(found.low, 0.0, 0.0);
    assert_near(found.high, 0.0, 0.0);
}

#[test]
fn law_every_row_names_its_source_and_range() {
    let books = include_str!("../../../../../docs/references.bib");
    let metals = [Metal::Aluminium, Metal::Stainless].map(Metal::expansion);
    let polymers = [
        Polymer::Nylon,
        Polymer::Acetal,
        Polymer::Polyethylene,
        Polymer::Polyurethane,
    ]
    .map(Polymer::properties);
    let rows = polymers.iter().flat_map(|p| {
        [
            Some(p.expansion),
            Some(p.uptake),
            Some(p.swelling),
            Some(p.poisson),
            p.diffusivity,
        ]
    });
    for row in metals.into_iter().chain(rows.flatten()) {
        assert!(row.range.low < row.range.high, "{row:?} is no range");
        let known = row.source == "common practice, no source"
            || books.contains(&format!("{{{},", row.source));
        assert!(known, "{row:?}");
    }
}

fn holdings() -> impl Strategy<Value = Holding> {
    prop_oneof![
        Just(Holding::Free),
        Just(Holding::Held),
        Just(Holding::Blocked),
        Just(Holding::Yielded)
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_one_strain_for_all_is_plain_growth(bore in 0.03..0.1_f64, wall in 1e-3..0.02_f64, strain in -0.02..0.02_f64, holding in holdings()) {
        // Ring and housing of one strain: nothing is held back, whatever the holding.
        let ring = Ring { bore, outside: bore + wall, poisson: 0.4 };
        let strains = Strains { ring: strain, housing: strain };
        let found = bore_change(&ring, strains, holding).unwrap();
        prop_assert!((found - bore * strain).abs() < 1e-15);
    }

    #[test]
    fn law_a_stiff_housing_makes_the_elastic_ring_thin(strain in 0.001..0.02_f64, poisson in 0.1..0.45_f64) {
        // Soft and thin in a housing of no give: the two answers meet, to the wall over the radius.
        let parts = Sleeved {
            bore: 0.0759,
            seat: 0.076,
            skin: 0.2,
            sleeve: Elastic { modulus: 1e6, poisson },
            housing: ALUMINIUM,
        };
        let ring = Ring { bore: 0.0759, outside: 0.076, poisson };
        let thin = bore_change(&ring, dry(strain), Holding::Held).unwrap();
        prop_assert!((bonded(&parts, dry(strain)).unwrap() / thin - 1.0).abs() < 0.1 / 76.0 * 2.0);
    }

    #[test]
    fn law_uptake_rises_and_is_undone(early in 1e-6..1.5_f64, later in 1.001..3.0_f64) {
        let (first, second) = (share(early), share(early * later));
        prop_assert!(0.0 < first && first <= second && second <= 1.0);
        let wall = wall(1.0, Faces::Both);
        if first < 0.999 {
            let back = wall.time_to(first).unwrap() * wall.diffusivity;
            // The two laws leave a seam of 1e-10 between them.
            prop_assert!((back / early - 1.0).abs() < 1e-8, "{back} {early}");
        }
    }

    #[test]
    fn law_a_wider_range_of_water_widens_the_answer(holding in holdings(), warmer in -30.0..30.0_f64, low in 0.0..0.5_f64, high in 0.5..1.0_f64) {
        let at = |low, high| gap_change(&nylon(holding), Ride { warmer, soaked: Interval { low, high } }).unwrap();
        let (narrow, wide) = (at(low, high), at(0.0, 1.0));
        prop_assert!(wide.low <= narrow.low && narrow.high <= wide.high && narrow.low <= narrow.high);
    }
}
