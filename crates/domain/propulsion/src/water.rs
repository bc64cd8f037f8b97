//! Fresh water, sea water and what lies between.

use crate::Error;
use crate::error::within;

/// What the formulas need of the water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// Density, `kg/m³`.
    pub density: f64,
    /// Kinematic viscosity, `m²/s`.
    pub viscosity: f64,
    /// Vapour pressure, `Pa`.
    pub vapour_pressure: f64,
}

/// Where water freezes, and where the tables of the tank men end.
const COLD: f64 = 273.15; // not a conversion: the end of the range
const WARM: f64 = 323.15;

/// Grams of salt in a gram of standard sea water are 0.03516504; the tables end here.
const SALTIEST: f64 = 0.0352;

/// Density, viscosity and vapour pressure of water at the pressure of the air.
///
/// Fresh water: `1/density = v(T)` and `viscosity = mu(T)/density`, the fits of liquid water at 0.1 `MPa`, and
/// `ln(p/p_c) = (T_c/T) sum a_i theta^n_i`, `theta = 1 - T/T_c`.
/// Salt adds `A(t) S + B(t) S^1.5 + C S^2` to the density (`S` practical), multiplies the viscosity by
/// `1 + a(t) s + b(t) s^2` and the vapour pressure by `exp(-0.000544 S)`.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `temperature` | of the water | `K` |
/// | `salinity` | mass of salt in a mass of water with it; standard sea water 0.03516504 | `1` |
/// | `returns.density` | at a pressure of one atmosphere | `kg/m^3` |
/// | `returns.viscosity` | kinematic | `m^2/s` |
/// | `returns.vapour_pressure` | over the salt water | `Pa` |
///
/// Range: 0 to 50 degrees Celsius, no salt to 0.0352. Against the equations of state of 1995 and 2010 the density
/// of fresh water is within 1e-6, of salt water within 8e-5; the viscosity of fresh water within 4e-5; the vapour
/// pressure of fresh water within 8e-5, of salt water within 4e-4. The viscosity of sea water is within 1.5e-4 of
/// the table in `ittc-water`, whose vapour pressures of sea water lie 0.19 % too low: they lower it as an ideal
/// solution would. Above 40 degrees Celsius the density of salt water lies outside its source, and is held by
/// the comparison.
/// Source: `iapws-sr6`, `iapws-sr1`, `unesco-1981`, `weiss-1980` for the vapour, `sharqawy-2010` for the viscosity
/// with salt.
///
/// # Errors
/// A temperature or a salinity outside the range.
pub fn water(temperature: f64, salinity: f64) -> Result<Water, Error> {
    let temperature = within("water temperature", temperature, COLD, WARM)?;
    let s = within("salinity", salinity, 0.0, SALTIEST)?;
    let t = temperature - COLD;
    let density = fresh_density(temperature) + salt_density(t, s);
    // Coefficients per degree Celsius.
    let a = 1.541 + t * (1.998e-2 - 9.52e-5 * t);
    let b = 7.974 + t * (-7.561e-2 + 4.724e-4 * t);
    let viscosity = fresh_viscosity(temperature) * (1.0 + s * (a + b * s)) / density;
    let vapour_pressure = fresh_vapour_pressure(temperature) * (-0.000_544 * practical(s)).exp();
    Ok(Water {
        density,
        viscosity,
        vapour_pressure,
    })
}

/// Density of fresh water at 0.1 `MPa`, eq. 2 of `iapws-sr6`.
fn fresh_density(temperature: f64) -> f64 {
    const A: [(f64, i32); 5] = [
        (6.744_584_46e3, 4),
        (-2.225_216_04e5, 5),
        (1.002_312_47e8, 7),
        (-1.635_521_18e9, 8),
        (8.322_996_58e9, 9),
    ];
    const B: [(f64, i32); 6] = [
        (5.785_452_92e-3, 1),
        (-1.531_956_65e-2, 2),
        (3.113_378_59e-2, 3),
        (-4.235_462_41e-2, 4),
        (3.387_135_07e-2, 5),
        (-1.199_467_61e-2, 6),
    ];
    let alpha = 10.0 / (593.0 - temperature);
    let beta = 10.0 / (temperature - 232.0);
    let of = |x: f64, terms: &[(f64, i32)]| terms.iter().map(|(c, n)| c * x.powi(*n)).sum::<f64>();
    // The gas constant by the reducing temperature over the pressure.
    let scale = 461.518_05 * 10.0 / 1e5;
    1.0 / (scale * (1.937_631_57e-2 + of(alpha, &A) + of(beta, &B)))
}

/// Dynamic viscosity of fresh water at 0.1 `MPa`, eq. 7 of `iapws-sr6`.
fn fresh_viscosity(temperature: f64) -> f64 {
    let t = temperature / 300.0;
    let sum = 280.68 * t.powf(-1.9)
        + 511.45 * t.powf(-7.7)
        + 61.131 * t.powf(-19.6)
        + 0.459_03 * t.powi(-40);
    1e-6 * sum
}

/// Vapour pressure of fresh water, eq. 1 of `iapws-sr1`.
fn fresh_vapour_pressure(temperature: f64) -> f64 {
    const CRITICAL_TEMPERATURE: f64 = 647.096;
    const CRITICAL_PRESSURE: f64 = 22.064e6;
    let theta = 1.0 - temperature / CRITICAL_TEMPERATURE;
    let root = theta.sqrt();
    let sum = -7.859_517_83 * theta
        + 1.844_082_59 * theta * root
        + theta.powi(3)
            * (-11.786_649_7 + 22.680_741_1 * root - 15.961_871_9 * theta
                + 1.801_225_02 * theta.powi(4) * root);
    CRITICAL_PRESSURE * (CRITICAL_TEMPERATURE / temperature * sum).exp()
}

/// Practical salinity counts standard sea water as 35.
fn practical(salinity: f64) -> f64 {
    salinity * 35.0 / 0.035_165_04
}

/// What salt adds to the density at one atmosphere, eq. 14 of `unesco-1981`; `t` in degrees Celsius.
fn salt_density(t: f64, salinity: f64) -> f64 {
    let s = practical(salinity);
    let a = 8.244_93e-1 + t * (-4.089_9e-3 + t * (7.643_8e-5 + t * (-8.246_7e-7 + 5.387_5e-9 * t)));
    let b = -5.724_66e-3 + t * (1.022_7e-4 - 1.654_6e-6 * t);
    s * (a + b * s.sqrt() + 4.831_4e-4 * s)
}
