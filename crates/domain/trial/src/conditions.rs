//! The air of a day, what it does to an engine's power, and what a day does to speed.

use crate::Error;
use crate::error::{finite, not_negative, positive, within};
use crate::figure::{Contribution, Figure, Part};

/// Nought on the Celsius scale, in kelvin.
const CELSIUS: f64 = 273.15; // not a conversion: the published formulas count from the freezing point
/// Temperatures the formula of vapour holds for, in kelvin.
const WARMTH: (f64, f64) = (228.15, 333.15);
/// Pressures of air that people run craft in, in pascal.
const PRESSURE: (f64, f64) = (50_000.0, 110_000.0);
/// Gas constants of dry air and of water vapour, J/(kg K).
const GAS: (f64, f64) = (287.05, 461.495);

/// The air at the water, at the time.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `pressure` | p | at the station, **not** reduced to sea level | `Pa` |
/// | `temperature` | T | of the air | `K` |
/// | `humidity` | f | relative | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weather {
    /// Pressure at the station, not reduced to sea level.
    pub pressure: f64,
    /// Temperature of the air.
    pub temperature: f64,
    /// Relative humidity.
    pub humidity: f64,
}

impl Weather {
    fn check(&self) -> Result<(), Error> {
        within(
            "the pressure of the air",
            self.pressure,
            PRESSURE.0,
            PRESSURE.1,
        )?;
        within(
            "the temperature of the air",
            self.temperature,
            WARMTH.0,
            WARMTH.1,
        )?;
        within("the relative humidity", self.humidity, 0.0, 1.0)?;
        Ok(())
    }
}

/// Pressure of water vapour over water.
///
/// `e = 611.2 exp[17.62 t / (243.12 + t)]`, t the temperature above 273.15 K
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `temperature` | T | of the air | `K` |
/// | `returns` | e | vapour pressure at saturation | `Pa` |
///
/// Range: 228.15 to 333.15 K.
/// Source: `wmo-8`, annex 4.B (from memory).
///
/// # Errors
/// [`Error::Outside`].
pub fn vapour_pressure(temperature: f64) -> Result<f64, Error> {
    let kelvin = within(
        "the temperature of the air",
        temperature,
        WARMTH.0,
        WARMTH.1,
    )?;
    let t = kelvin - CELSIUS;
    Ok(611.2 * (17.62 * t / (243.12 + t)).exp())
}

/// Pressure of the air without its vapour.
///
/// `p_d = p - f e(T)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `weather` | p, T, f | the air | |
/// | `returns` | `p_d` | dry pressure | `Pa` |
///
/// Range: 500 to 1100 hPa, 228.15 to 333.15 K, humidity 0 to 1.
/// Source: definition, of partial pressures.
///
/// # Errors
/// [`Error::Outside`].
pub fn dry_pressure(weather: &Weather) -> Result<f64, Error> {
    weather.check()?;
    let vapour = weather.humidity * vapour_pressure(weather.temperature)?;
    positive("the dry pressure", weather.pressure - vapour)
}

/// Density of moist air.
///
/// `rho = p_d / (R_d T) + f e / (R_v T)`, `R_d` 287.05, `R_v` 461.495 J/(kg K)
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `weather` | p, T, f | the air | |
/// | `returns` | rho | density | `kg/m^3` |
///
/// Range: 500 to 1100 hPa, 228.15 to 333.15 K, humidity 0 to 1.
/// Source: definition, of ideal gases; the gas constants are from memory.
///
/// # Errors
/// [`Error::Outside`].
pub fn air_density(weather: &Weather) -> Result<f64, Error> {
    let dry = dry_pressure(weather)?;
    let vapour = weather.pressure - dry;
    Ok((dry / GAS.0 + vapour / GAS.1) / weather.temperature)
}

/// How an engine takes its air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Intake {
    /// By its own suction.
    Own,
    /// Pressed, by a compressor of whatever kind: the control holds the pressure.
    Pressed,
}

/// A correction factor and whether it may be relied upon.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `factor` | of the power measured | `1` |
/// | `in_range` | whether the standard accepts so large a correction | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factor {
    /// Of the power measured.
    pub factor: f64,
    /// Whether the standard accepts so large a correction.
    pub in_range: bool,
}

/// Corrections the standards accept. Source: `iso-1585` (from memory); taken for the other one as well.
const ACCEPTED: (f64, f64) = (0.93, 1.07);

/// Power at the reference air over power measured.
///
/// `CF = 1.180 (99 kPa / p_d) sqrt[(t + 273) / 298] - 0.180`, t in degrees Celsius
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `weather` | `p_d`, t | the air | |
/// | `intake` | | only an engine that sucks its own air | |
///
/// Range: a factor of 0.93 to 1.07, else it is told that it is out of range.
/// Source: `sae-j1349-1990` (as quoted elsewhere; mechanical efficiency of 85 % taken for granted).
///
/// # Errors
/// [`Error::NoCorrection`] for an engine whose air is pressed, [`Error::Outside`].
pub fn sae_factor(weather: &Weather, intake: Intake) -> Result<Factor, Error> {
    sucked(intake)?;
    let dry = dry_pressure(weather)?;
    Ok(factor(
        1.180 * (99_000.0 / dry) * warmth(weather).sqrt() - 0.180,
    ))
}

/// Power at the reference air over power measured.
///
/// `a = (99 kPa / p_d)^1.2 [(t + 273) / 298]^0.6`, t in degrees Celsius
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `weather` | `p_d`, t | the air | |
/// | `intake` | | only an engine that sucks its own air | |
///
/// Range: spark ignition; a factor of 0.93 to 1.07, else it is told that it is out of range.
/// Source: `iso-1585` (from memory).
///
/// # Errors
/// [`Error::NoCorrection`] for an engine whose air is pressed, [`Error::Outside`].
pub fn iso_factor(weather: &Weather, intake: Intake) -> Result<Factor, Error> {
    sucked(intake)?;
    let dry = dry_pressure(weather)?;
    Ok(factor(
        (99_000.0 / dry).powf(1.2) * warmth(weather).powf(0.6),
    ))
}

fn sucked(intake: Intake) -> Result<(), Error> {
    match intake {
        Intake::Own => Ok(()),
        Intake::Pressed => Err(Error::NoCorrection {
            what: "an engine whose air is pressed: its control holds the pressure",
        }),
    }
}

/// The standards' own ratio: degrees Celsius and 273, over 298.
fn warmth(weather: &Weather) -> f64 {
    (weather.temperature - CELSIUS + 273.0) / 298.0
}

fn factor(factor: f64) -> Factor {
    Factor {
        factor,
        in_range: (ACCEPTED.0..=ACCEPTED.1).contains(&factor),
    }
}

/// What differs from the reference on the day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Power, by the air.
    Power,
    /// Mass of riders, fuel and water in the hull.
    Mass,
    /// Drag of the hull.
    Drag,
    /// Density of the water.
    Water,
}

/// One thing that differs from the reference, and what it does.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `cause` | | what differs | |
/// | `relative` | x | by which share it stands above the reference | `1` |
/// | `uncertainty` | `u_x` | standard uncertainty of that share | `1` |
/// | `sensitivity` | s | change of the result for a share of one | unit of the result |
/// | `doubt` | `u_s` | standard uncertainty of the sensitivity, as a share of it | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deviation {
    /// What differs.
    pub cause: Cause,
    /// By which share it stands above the reference.
    pub relative: f64,
    /// Standard uncertainty of that share.
    pub uncertainty: f64,
    /// Change of the result for a share of one, from a model of the craft.
    pub sensitivity: f64,
    /// Standard uncertainty of the sensitivity, as a share of it.
    pub doubt: f64,
}

/// A result as measured and as it would have been at the reference.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `raw` | as measured | unit of the result |
/// | `corrected` | at the reference | unit of the result |
/// | `corrections` | what was added for each cause | unit of the result |
/// | `total` | their sum | unit of the result |
#[derive(Clone, Debug, PartialEq)]
pub struct Corrected {
    /// As measured.
    pub raw: Figure,
    /// At the reference.
    pub corrected: Figure,
    /// What was added for each cause, in the order given.
    pub corrections: Vec<(Cause, f64)>,
    /// Their sum.
    pub total: f64,
}

/// Takes out of a result what differed from the reference on the day.
///
/// `y' = y - sum s_i x_i`, `u^2 = u_y^2 + sum (s_i u_xi)^2 + (s_i x_i u_si)^2`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `raw` | y | as measured | |
/// | `deviations` | x, s | what differed, with sensitivities from a model | |
///
/// Range: changes so small that they add up.
/// Source: `jcgm-100`, equation 10.
///
/// # Errors
/// [`Error::Outside`].
pub fn to_reference(raw: &Figure, deviations: &[Deviation]) -> Result<Corrected, Error> {
    let mut parts = raw.parts.clone();
    let mut corrections = Vec::new();
    for d in deviations {
        let share = finite("a deviation from the reference", d.relative)?;
        let sensitivity = finite("a sensitivity", d.sensitivity)?;
        let known = sensitivity * not_negative("an uncertainty", d.uncertainty)?;
        let model = sensitivity * share * not_negative("a doubt", d.doubt)?;
        let part = match d.cause {
            Cause::Power => Part::Air,
            Cause::Mass | Cause::Drag | Cause::Water => Part::Load,
        };
        parts.push(Contribution::known(part, known.hypot(model)));
        corrections.push((d.cause, -sensitivity * share));
    }
    let total: f64 = corrections.iter().map(|c| c.1).sum();
    Ok(Corrected {
        raw: raw.clone(),
        corrected: Figure::new(raw.value + total, parts, raw.origin)?,
        corrections,
        total,
    })
}

/// The difference between two corrected results, refused where the corrections claim more than the difference.
///
/// `D = y'_2 - y'_1`, only where `|c_2 - c_1| <= |D|`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `before` | y'1, c1 | | |
/// | `after` | y'2, c2 | | |
/// | `returns` | D | after less before, at the reference | unit of the result |
///
/// Range: any.
/// Source: common practice, no source.
///
/// # Errors
/// [`Error::Contradicted`].
pub fn corrected_difference(before: &Corrected, after: &Corrected) -> Result<f64, Error> {
    let difference = after.corrected.value - before.corrected.value;
    let moved = (after.total - before.total).abs();
    if moved > difference.abs() {
        return Err(Error::Contradicted {
            what: "that a correction is smaller than the effect it is to show",
            value: moved,
            most: difference.abs(),
        });
    }
    Ok(difference)
}
