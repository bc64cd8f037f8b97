//! Water against the table of the towing tanks and the equations of state.

use propulsion::Error;
use propulsion::water::water;

const ZERO: f64 = 273.15;
const SEA: f64 = 0.035_165_04;

fn near(ours: f64, theirs: f64, relative: f64, what: &str) {
    let off = ours / theirs - 1.0;
    assert!(
        off.abs() <= relative,
        "{what}: {ours} for {theirs}, {off:.1e}"
    );
}

/// ITTC 7.5-02-01-03 Rev 03 (2024): degrees Celsius; density, kinematic viscosity in 1e-6 and vapour pressure
/// of fresh water, then of sea water.
const ROWS: [[f64; 7]; 9] = [
    [1.0, 999.9018, 1.7312, 657.09, 1028.0941, 1.7926, 643.63],
    [5.0, 999.9666, 1.5182, 872.58, 1027.7225, 1.5762, 854.71],
    [10.0, 999.7025, 1.3063, 1228.2, 1027.0000, 1.3604, 1203.0],
    [15.0, 999.1026, 1.1386, 1705.8, 1026.0210, 1.1892, 1670.9],
    [20.0, 998.2072, 1.0034, 2339.3, 1024.8103, 1.0508, 2291.4],
    [25.0, 997.0476, 0.89266, 3169.9, 1023.3873, 0.93713, 3105.0],
    [30.0, 995.6495, 0.80071, 4247.0, 1021.7694, 0.84253, 4160.0],
    [35.0, 994.0333, 0.72344, 5629.0, 1019.9727, 0.76285, 5513.8],
    [40.0, 992.2164, 0.65785, 7384.9, 1018.0142, 0.69503, 7233.7],
];

#[test]
fn published_ittc_table_of_fresh_and_sea_water() {
    for [t, fresh, fresh_nu, fresh_p, sea, sea_nu, sea_p] in ROWS {
        let ours = water(t + ZERO, 0.0).unwrap();
        // The pressure of the air tells in the seventh digit.
        near(ours.density, fresh, 1e-6, "fresh density");
        near(ours.viscosity, fresh_nu * 1e-6, 1e-4, "fresh viscosity");
        near(ours.vapour_pressure, fresh_p, 1e-4, "fresh vapour pressure");
        let ours = water(t + ZERO, SEA).unwrap();
        // The table stands 4.5e-5 above the equation of state of 2010.
        near(ours.density, sea, 6e-5, "sea density");
        near(ours.viscosity, sea_nu * 1e-6, 1.5e-4, "sea viscosity");
        // The table lowers it as an ideal solution would, 0.19 % too far: see the computed values beside this.
        near(ours.vapour_pressure, sea_p, 2e-3, "sea vapour pressure");
    }
}

/// iapws 1.5.5, `IAPWS95(T, P=0.101325)` and `IAPWS95(T, x=0)`: density, dynamic viscosity, vapour pressure.
#[test]
fn computed_fresh_water_by_iapws95() {
    for (t, density, dynamic, pressure) in [
        (5.0, 999.9666, 1.518_173e-3, 872.5751),
        (15.0, 999.1026, 1.137_568e-3, 1705.7929),
        (25.0, 997.0476, 8.900_225e-4, 3169.9293),
    ] {
        let ours = water(t + ZERO, 0.0).unwrap();
        near(ours.density, density, 1e-6, "density");
        near(ours.viscosity * ours.density, dynamic, 1e-4, "viscosity");
        near(ours.vapour_pressure, pressure, 1e-4, "vapour pressure");
    }
}

/// gsw 3.6.23, `rho_t_exact(S, t, 0)`.
#[test]
fn computed_salt_water_by_teos10() {
    for (s, rows) in [
        (0.01, [1007.8667, 1006.7484, 1004.5200]),
        (0.02, [1015.7304, 1014.3732, 1011.9794]),
        (SEA, [1027.6756, 1025.9760, 1023.3436]),
    ] {
        for (t, density) in [5.0, 15.0, 25.0].into_iter().zip(rows) {
            let ours = water(t + ZERO, s).unwrap();
            near(ours.density, density, 1e-4, "density");
        }
    }
}

/// iapws 1.5.5 for fresh water, and what the salt takes from the water's potential by gsw 3.6.23,
/// `chem_potential_water_t_exact`.
#[test]
fn computed_vapour_of_sea_water_by_teos10() {
    for (t, pressure) in [
        (0.5, 622.061),
        (7.5, 1017.740),
        (15.0, 1673.987),
        (22.5, 2676.149),
        (32.5, 4804.212),
        (42.5, 8270.026),
        (49.5, 11823.451),
    ] {
        let ours = water(t + ZERO, SEA).unwrap();
        near(ours.vapour_pressure, pressure, 5e-4, "vapour pressure");
    }
}

#[test]
fn law_a_little_salt_changes_little_and_more_salt_more() {
    for t in [0.0, 7.0, 22.5, 50.0] {
        let fresh = water(t + ZERO, 0.0).unwrap();
        let touch = water(t + ZERO, 1e-9).unwrap();
        near(touch.density, fresh.density, 1e-8, "density");
        near(touch.viscosity, fresh.viscosity, 1e-8, "viscosity");
        let mut last = fresh;
        for step in 1..=35 {
            let now = water(t + ZERO, 1e-3 * f64::from(step)).unwrap();
            assert!(now.density > last.density && now.viscosity > last.viscosity);
            assert!(now.vapour_pressure < last.vapour_pressure);
            last = now;
        }
    }
}

#[test]
fn law_outside_the_range_is_refused_with_value_and_limits() {
    for (temperature, salinity, what) in [
        (273.149, 0.0, "water temperature"),
        (323.151, 0.0, "water temperature"),
        (f64::NAN, 0.0, "water temperature"),
        (288.15, -1e-9, "salinity"),
        (288.15, 35.0, "salinity"),
        (288.15, f64::NAN, "salinity"),
    ] {
        let Err(Error::Outside {
            what: named,
            low,
            high,
            ..
        }) = water(temperature, salinity)
        else {
            panic!("{temperature} K and {salinity} must be refused");
        };
        assert_eq!(named, what);
        assert!(low < high);
    }
    assert!(water(273.15, 0.0).is_ok() && water(323.15, 0.0352).is_ok());
}
