//! A bead of sealant: as thick as fills the gap, and no thicker than stays out of the water passages.

use std::f64::consts::PI;

use crate::error::{not_negative, positive};
use crate::thread::circle;
use crate::{Error, Interval};

/// How wide a round bead becomes when the faces close on it.
///
/// `w = PI d^2 / (4 h)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `diameter` | d | diameter of the bead | `m` |
/// | `gap` | h | gap that is left between the faces | `m` |
/// | returns | w | width of the film | `m` |
///
/// Range: `d > 0`, `h > 0`.
/// Source: `definition`, the volume kept.
///
/// # Errors
/// [`Error::NotPositive`] outside the range.
pub fn spread(diameter: f64, gap: f64) -> Result<f64, Error> {
    Ok(circle(positive("the diameter of the bead", diameter)?) / positive("the gap", gap)?)
}

/// The bead that spreads to a width.
///
/// `d = sqrt(4 w h / PI)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `width` | w | width of the film | `m` |
/// | `gap` | h | gap that is left between the faces | `m` |
/// | returns | d | diameter of the bead | `m` |
///
/// Range: `w > 0`, `h > 0`.
/// Source: `definition`, the volume kept.
///
/// # Errors
/// [`Error::NotPositive`] outside the range.
pub fn diameter(width: f64, gap: f64) -> Result<f64, Error> {
    let area = positive("the width of the film", width)? * positive("the gap", gap)?;
    Ok((4.0 * area / PI).sqrt())
}

/// The face a bead is to seal.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `sealed` | ws | least width the film must have everywhere | `m` |
/// | `room` | wr | width it may have before it reaches an edge or a passage | `m` |
/// | `gap` | h | gap that is left: flatness and roughness of both faces | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Least width the film must have everywhere.
    pub sealed: f64,
    /// Width it may have before it reaches an edge or a passage.
    pub room: f64,
    /// Gap that is left between the closed faces.
    pub gap: Interval,
}

impl Face {
    /// The beads that seal where the gap is widest and stay clear where it is narrowest.
    ///
    /// `sqrt(4 ws h_max / PI) <= d <= sqrt(4 wr h_min / PI)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | ws, wr, h | widths and gap | `m` |
    /// | returns | d | least and greatest diameter of the bead | `m` |
    ///
    /// Range: `0 < ws <= wr`, `0 < h`.
    /// Source: `definition`, the volume kept.
    ///
    /// # Errors
    /// [`Error::NoBead`] when the gap varies more than the widths allow; [`Error::NotPositive`],
    /// [`Error::Order`] outside the range.
    pub fn bead(&self) -> Result<Interval, Error> {
        let whole = Interval {
            low: 0.0,
            high: f64::MAX,
        };
        let gap = self.gap.within("the gap", whole)?;
        let widths = Interval {
            low: self.sealed,
            high: self.room,
        };
        let widths = widths.within("the width of the film", whole)?;
        let bead = Interval {
            low: diameter(widths.low, gap.high)?,
            high: diameter(widths.high, gap.low)?,
        };
        if bead.low > bead.high {
            return Err(Error::NoBead {
                least: bead.low,
                most: bead.high,
            });
        }
        Ok(bead)
    }
}

/// What of a bead is squeezed out of a face on each side, as the radius of a half-round ridge.
///
/// `r = sqrt(2 a / PI)`, `a = (PI d^2 / 4 - w h) / 2`, nothing where the face takes it all
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `diameter` | d | diameter of the bead, in the middle of the face | `m` |
/// | `width` | w | width of the face | `m` |
/// | `gap` | h | gap that is left between the faces | `m` |
/// | returns | r | radius of the ridge on each side | `m` |
///
/// Range: all above zero.
/// Source: `definition`, the volume kept; half round is assumed.
///
/// # Errors
/// [`Error::NotPositive`] outside the range.
pub fn ridge(diameter: f64, width: f64, gap: f64) -> Result<f64, Error> {
    let spread = spread(diameter, gap)?;
    if spread <= positive("the width of the face", width)? {
        return Ok(0.0);
    }
    Ok(((spread - width) * gap / PI).sqrt())
}

/// What a ridge all round leaves of a round passage.
///
/// `x = (1 - 2 r / D)^2`, nothing from `2 r = D` on
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `ridge` | r | radius of the ridge | `m` |
/// | `passage` | D | diameter of the passage | `m` |
/// | returns | x | open share of the passage | `1` |
///
/// Range: `r >= 0`, `D > 0`.
/// Source: `definition`.
///
/// # Errors
/// [`Error::Negative`] or [`Error::NotPositive`] outside the range.
pub fn left_open(ridge: f64, passage: f64) -> Result<f64, Error> {
    let ridge = not_negative("the ridge", ridge)?;
    let share = 1.0 - 2.0 * ridge / positive("the passage", passage)?;
    Ok(if share > 0.0 { share * share } else { 0.0 })
}

/// How far a coat runs beyond its edge on each side when the faces close on it.
///
/// `m = c (t / h - 1) / 2`; below zero it does not fill the gap
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thickness` | t | thickness of the coat | `m` |
/// | `coated` | c | width of the coat | `m` |
/// | `gap` | h | gap that is left between the faces | `m` |
/// | returns | m | how far it runs | `m` |
///
/// Range: all above zero.
/// Source: `definition`, the volume kept.
///
/// # Errors
/// [`Error::NotPositive`] outside the range.
pub fn runs(thickness: f64, coated: f64, gap: f64) -> Result<f64, Error> {
    let thickness = positive("the thickness of the coat", thickness)?;
    let coated = positive("the width of the coat", coated)?;
    Ok(0.5 * coated * (thickness / positive("the gap", gap)? - 1.0))
}

/// How much bead a cartridge gives.
///
/// `L = 4 V / (PI d^2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `volume` | V | what is in the cartridge | `m^3` |
/// | `diameter` | d | diameter of the bead | `m` |
/// | returns | L | length of the bead | `m` |
///
/// Range: both above zero.
/// Source: `definition`.
///
/// # Errors
/// [`Error::NotPositive`] outside the range.
pub fn length(volume: f64, diameter: f64) -> Result<f64, Error> {
    let volume = positive("what is in the cartridge", volume)?;
    Ok(volume / circle(positive("the diameter of the bead", diameter)?))
}
