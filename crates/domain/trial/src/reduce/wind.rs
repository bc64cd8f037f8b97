//! Wind, and the limits beyond which a trial is only an indication.

use crate::Error;
use crate::error::{finite, not_negative, positive, within};

/// The craft in the air.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `density` | `rho_a` | of the air | `kg/m^3` |
/// | `area` | `C_D A` | drag area, riders included | `m^2` |
/// | `speed` | V | of the craft | `m/s` |
/// | `slope` | `dR/dV - dT/dV` | how much more drag than thrust a faster craft has; in `N` per `m/s` | `kg/s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Density of the air.
    pub density: f64,
    /// Drag area, riders included.
    pub area: f64,
    /// Speed of the craft.
    pub speed: f64,
    /// How much more drag than thrust a faster craft has.
    pub slope: f64,
}

impl Air {
    fn check(&self) -> Result<(), Error> {
        positive("the density of the air", self.density)?;
        positive("the drag area", self.area)?;
        positive("the speed", self.speed)?;
        positive("the slope of drag less thrust", self.slope)?;
        Ok(())
    }
}

/// What a head wind does to the speed, to first order of the craft's slope.
///
/// `dV = -rho_a C_D A [(V + W)|V + W| - V^2] / (2 slope)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `air` | | the craft in the air | |
/// | `wind` | W | against the craft; below zero from behind | `m/s` |
/// | `returns` | dV | change of speed | `m/s` |
///
/// Range: a change small beside the speed.
/// Source: definition, of drag; derived in `docs/theory/trial.md`.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn wind_change(air: &Air, wind: f64) -> Result<f64, Error> {
    air.check()?;
    let over = air.speed + finite("the wind", wind)?;
    let more = over * over.abs() - air.speed * air.speed;
    Ok(-0.5 * air.density * air.area * more / air.slope)
}

/// What a double run still loses to the wind.
///
/// `dV = -rho_a C_D A W^2 / (2 slope)`, the mean of what the wind does from ahead and from behind
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `air` | | the craft in the air | |
/// | `wind` | W | along the track | `m/s` |
/// | `returns` | dV | change of the mean of both runs | `m/s` |
///
/// Range: a wind slower than the craft.
/// Source: definition, of drag; derived in `docs/theory/trial.md`.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn wind_left(air: &Air, wind: f64) -> Result<f64, Error> {
    air.check()?;
    let wind = within("the wind along the track", wind, -air.speed, air.speed)?;
    Ok(-0.5 * air.density * air.area * wind * wind / air.slope)
}

/// Whether the water and the wind let a trial count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weather {
    /// It counts.
    Fair,
    /// Waves too high: only an indication.
    Waves,
    /// Wind too strong: only an indication.
    Wind,
    /// Both.
    WavesAndWind,
}

/// Highest waves, in `m`, and strongest wind, in `m/s`, of a trial that counts. Source: common practice, no source.
const LIMITS: (f64, f64) = (0.1, 6.0);

/// Whether the water and the wind let a trial count; chop cannot be corrected for.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `waves` | height from trough to crest | `m` |
/// | `wind` | speed, from wherever | `m/s` |
///
/// Range: neither below zero.
/// Source: common practice, no source.
///
/// # Errors
/// [`Error::Outside`].
pub fn weather(waves: f64, wind: f64) -> Result<Weather, Error> {
    let high = not_negative("the height of the waves", waves)? > LIMITS.0;
    let strong = not_negative("the wind", wind)? > LIMITS.1;
    Ok(match (high, strong) {
        (false, false) => Weather::Fair,
        (true, false) => Weather::Waves,
        (false, true) => Weather::Wind,
        (true, true) => Weather::WavesAndWind,
    })
}
