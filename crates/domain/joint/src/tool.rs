//! The torque wrench: what it can measure, how well, and what an adapter does to it.

use std::f64::consts::PI;

use quantity::{Kind, Unit};

use crate::error::{not_negative, positive, within};
use crate::slip::Slip;
use crate::{Applied, Error, Interval};

/// Below this share of its greatest torque a wrench is not used.
const FIFTH: f64 = 0.2;

/// Up to this greatest torque a wrench may be off by [`SMALL`], above it by [`LARGE`].
const STEP: f64 = 10.0;
const SMALL: f64 = 0.06;
const LARGE: f64 = 0.04;

/// A torque wrench as its scale tells it.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `least` | `T_min` | lowest marked torque | `N m` |
/// | `most` | `T_max` | greatest marked torque | `N m` |
/// | `step` | s | from mark to mark; zero for one that is set at the factory | `N m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wrench {
    /// Lowest marked torque.
    pub least: f64,
    /// Greatest marked torque.
    pub most: f64,
    /// From mark to mark.
    pub step: f64,
}

/// An adapter that carries the square of the wrench away from the screw, in the plane of the handle.
///
/// A socket extension along the screw is none. The hand must stay at `lever`: a wrench without a
/// pivoted grip knows no such place.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `lever` | L | from the middle of the hand to the square | `m` |
/// | `offset` | A | from the square to the screw | `m` |
/// | `angle` | theta | between the two: 0 straight out, pi turned back | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adapter {
    /// From the middle of the hand to the square.
    pub lever: f64,
    /// From the square to the screw.
    pub offset: f64,
    /// Between the two: 0 straight out, pi turned back.
    pub angle: f64,
}

impl Wrench {
    /// Torques the wrench may be used for.
    ///
    /// From `max(T_min, 0.2 T_max)` to `T_max`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | T | least and greatest | `N m` |
    ///
    /// Range: `0 < T_min <= T_max`, `s >= 0`.
    /// Source: `iso-6789`, whose edition of 2003 checks from a fifth of the greatest torque on and
    /// whose edition of 2017 from the lowest mark.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Negative`], [`Error::Order`] for a scale that is none.
    pub fn range(&self) -> Result<Interval, Error> {
        let low = positive("the lowest torque of the wrench", self.least)?;
        let high = positive("the greatest torque of the wrench", self.most)?;
        not_negative("the step of the scale", self.step)?;
        if low > high {
            let what = "the scale of the wrench";
            return Err(Error::Order { what, low, high });
        }
        Ok(Interval {
            low: low.max(FIFTH * high),
            high,
        })
    }

    /// How far off a sound wrench may be, as a share of what it is set to.
    ///
    /// `e = 0.06` up to `T_max = 10`, `0.04` above, and `s/2T` for a setting between marks
    ///
    /// It says nothing of a wrench that was dropped, left wound up, or not checked for a year.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `setting` | T | what it is set to | `N m` |
    /// | returns | e | what was applied, with its error | |
    ///
    /// Range: `setting` within [`Wrench::range`].
    /// Source: `iso-6789`, type II class A; that half a step is added is common practice.
    ///
    /// # Errors
    /// [`Error::WrenchRange`], and those of [`Wrench::range`].
    pub fn applied(&self, setting: f64) -> Result<Applied, Error> {
        let range = self.range()?;
        let torque = positive("the torque", setting)?;
        if !range.contains(torque) {
            return Err(Error::WrenchRange { torque, range });
        }
        let class = if self.most > STEP { LARGE } else { SMALL };
        Ok(Applied {
            torque,
            error: class + 0.5 * self.step / torque,
        })
    }

    /// What a torque is applied with when the wrench carries an adapter.
    ///
    /// `Tw = T L / (L + A cos theta)`; the share it is off by carries over
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `torque` | T | wanted at the screw | `N m` |
    /// | `adapter` | L, A, theta | the adapter | |
    /// | returns | | what was applied at the screw, with its error | |
    ///
    /// Range: the setting Tw within [`Wrench::range`].
    /// Source: `definition`, of a lever in balance; `iso-6789`.
    ///
    /// # Errors
    /// [`Error::WrenchRange`] with the setting, and those of [`setting`].
    pub fn through(&self, torque: f64, adapter: &Adapter) -> Result<Applied, Error> {
        let set = self.applied(setting(torque, adapter)?)?;
        Ok(Applied { torque, ..set })
    }
}

/// What to set the wrench to for a torque at the screw.
///
/// `Tw = T L / (L + A cos theta)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `torque` | T | wanted at the screw | `N m` |
/// | `adapter` | L, A, theta | the adapter | |
/// | returns | Tw | setting | `N m` |
///
/// Range: `T > 0`, `L > 0`, `A >= 0`, `0 <= theta <= pi`, `L + A cos theta > 0`.
/// Source: `definition`, of a lever in balance.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`], [`Error::Outside`] outside the range.
pub fn setting(torque: f64, adapter: &Adapter) -> Result<f64, Error> {
    Ok(positive("the torque", torque)? / gain(adapter)?)
}

/// What a setting gives at the screw, the inverse of [`setting`].
///
/// `T = Tw (L + A cos theta) / L`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `setting` | Tw | what the wrench is set to | `N m` |
/// | `adapter` | L, A, theta | the adapter | |
/// | returns | T | torque at the screw | `N m` |
///
/// Range: `Tw > 0`, `L > 0`, `A >= 0`, `0 <= theta <= pi`, `L + A cos theta > 0`.
/// Source: `definition`, of a lever in balance.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`], [`Error::Outside`] outside the range.
pub fn delivered(setting: f64, adapter: &Adapter) -> Result<f64, Error> {
    Ok(positive("the torque", setting)? * gain(adapter)?)
}

/// Torque at the screw over the setting.
fn gain(adapter: &Adapter) -> Result<f64, Error> {
    let half_turn = Interval { low: 0.0, high: PI };
    let lever = positive("the lever of the wrench", adapter.lever)?;
    let offset = not_negative("the offset of the adapter", adapter.offset)?;
    let angle = within("the angle of the adapter", adapter.angle, half_turn)?;
    let whole = positive(
        "the lever that the adapter leaves",
        lever + offset * angle.cos(),
    )?;
    Ok(whole / lever)
}

/// What a screw gets when a figure is set on the scale of another unit.
///
/// `T = T meant * (scale unit / meant unit)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `torque` | T meant | the figure, converted from the unit it was meant in | `N m` |
/// | `meant` | | that unit | |
/// | `scale` | | unit of the scale it was set on | |
/// | returns | T | what the screw gets | `N m` |
///
/// Range: `T > 0`, units of torque.
/// Source: `definition`, of the units.
///
/// # Errors
/// [`Error::NotPositive`] or [`Error::Unit`] outside the range.
pub fn crossed(torque: f64, meant: Unit, scale: Unit) -> Result<f64, Error> {
    for unit in [meant, scale] {
        if unit.kind() != Kind::Torque {
            return Err(Error::Unit { unit });
        }
    }
    let printed = scale;
    Ok(positive("the torque", torque)? * Slip::Unit { meant, printed }.factor())
}
