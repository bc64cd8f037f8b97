//! The torque wrench: what it can measure, how well, and what an adapter does to it.

use std::f64::consts::PI;

use crate::error::{not_negative, positive, within};
use crate::{Applied, Error, Interval};

/// Below this share of its greatest torque a wrench is not used.
const FIFTH: f64 = 0.2;

/// Up to this greatest torque a wrench counts as small.
const SMALL: f64 = 10.0;

/// How far off a small wrench and a large one may be, as a share.
const OFF: (f64, f64) = (0.06, 0.04);

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

impl Adapter {
    /// What to set the wrench to for a torque at the screw.
    ///
    /// `Tw = T L / (L + A cos theta)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `torque` | T | wanted at the screw | `N m` |
    /// | | L, A, theta | the adapter | |
    /// | returns | Tw | setting | `N m` |
    ///
    /// Range: `T > 0`, `L > 0`, `A >= 0`, `0 <= theta <= pi`, `L + A cos theta > 0`.
    /// Source: `definition`, of a lever in balance.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Negative`], [`Error::Outside`] outside the range.
    pub fn setting(&self, torque: f64) -> Result<f64, Error> {
        Ok(positive("the torque", torque)? / self.gain()?)
    }

    /// What a setting gives at the screw, the inverse of [`Adapter::setting`].
    ///
    /// `T = Tw (L + A cos theta) / L`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `setting` | Tw | what the wrench is set to | `N m` |
    /// | | L, A, theta | the adapter | |
    /// | returns | T | torque at the screw | `N m` |
    ///
    /// Range: `Tw > 0`, `L > 0`, `A >= 0`, `0 <= theta <= pi`, `L + A cos theta > 0`.
    /// Source: `definition`, of a lever in balance.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Negative`], [`Error::Outside`] outside the range.
    pub fn delivered(&self, setting: f64) -> Result<f64, Error> {
        Ok(positive("the torque", setting)? * self.gain()?)
    }

    /// Torque at the screw over the setting.
    fn gain(&self) -> Result<f64, Error> {
        let half_turn = Interval { low: 0.0, high: PI };
        let lever = positive("the lever of the wrench", self.lever)?;
        let offset = not_negative("the offset of the adapter", self.offset)?;
        let angle = within("the angle of the adapter", self.angle, half_turn)?;
        let whole = positive(
            "the lever that the adapter leaves",
            lever + offset * angle.cos(),
        )?;
        Ok(whole / lever)
    }
}

/// How far off a sound wrench may be on its marks, as a share of what it is set to.
///
/// `e = 0.06` up to `T_max = 10`, `0.04` above
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `most` | `T_max` | greatest marked torque | `N m` |
/// | returns | e | how far off, either way | `1` |
///
/// Range: any scale.
/// Source: `iso-6789`, type II class A.
pub fn class_error(most: f64) -> f64 {
    let (small, large) = OFF;
    if most > SMALL { large } else { small }
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
    /// | returns | T, e | what was applied, with its error | |
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
        Ok(Applied {
            torque,
            error: class_error(self.most) + 0.5 * self.step / torque,
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
    /// [`Error::WrenchRange`] with the setting, and those of [`Adapter::setting`].
    pub fn through(&self, torque: f64, adapter: &Adapter) -> Result<Applied, Error> {
        let set = self.applied(adapter.setting(torque)?)?;
        Ok(Applied { torque, ..set })
    }
}
