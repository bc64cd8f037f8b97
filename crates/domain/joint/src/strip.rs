//! When the thread gives way before the screw: stripping.

use std::f64::consts::PI;

use crate::error::positive;
use crate::thread::same;
use crate::{Class, Error, Interval, Thread};

/// Limits of size of a thread that stripping turns on, at their worst.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `major` | d min | crest of the screw's thread at its least | `m` |
/// | `screw_pitch` | d2 min | pitch diameter of the screw at its least | `m` |
/// | `hole_pitch` | D2 max | pitch diameter of the hole at its greatest | `m` |
/// | `minor` | D1 max | crest of the hole's thread at its greatest | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Crest of the screw's thread at its least.
    pub major: f64,
    /// Pitch diameter of the screw at its least.
    pub screw_pitch: f64,
    /// Pitch diameter of the hole at its greatest.
    pub hole_pitch: f64,
    /// Crest of the hole's thread at its greatest.
    pub minor: f64,
}

/// Coarse threads by nominal diameter with their limits, screw 6g and hole 6H.
const LIMITS: [(f64, [f64; 4]); 4] = [
    (5e-3, [4.826e-3, 4.361e-3, 4.605e-3, 4.334e-3]),
    (6e-3, [5.794e-3, 5.212e-3, 5.500e-3, 5.153e-3]),
    (8e-3, [7.760e-3, 7.042e-3, 7.348e-3, 6.912e-3]),
    (10e-3, [9.732e-3, 8.862e-3, 9.206e-3, 8.676e-3]),
];

/// Shear strength of cast aluminium as pump housings are made of it, `Pa`: from A356.0-T6 cast in
/// sand to 356.0-T6 cast in a mould. A corroded hole, or one stripped before, is worse.
///
/// Source: `matweb-a356`, `mamlouk-2011`.
pub const CASTING: Interval = Interval {
    low: 143e6,
    high: 221e6,
};

/// The hole's thread bends open before it shears: of its area so much counts at least.
///
/// Source: `alexander-1977`, from memory.
const BENDS: f64 = 0.897;

impl Limits {
    /// The limits of a coarse thread, screw 6g and hole 6H.
    ///
    /// Source: `iso-965-1`, as secondary tables print it.
    ///
    /// # Errors
    /// [`Error::NoLimits`] for a thread that is not in the table.
    pub fn of(thread: &Thread) -> Result<Self, Error> {
        let coarse = Thread::all().find(|known| same(known.diameter, thread.diameter));
        let row = LIMITS
            .iter()
            .find(|(diameter, _)| same(*diameter, thread.diameter));
        match row.filter(|_| coarse == Some(*thread)) {
            Some((_, [major, screw_pitch, hole_pitch, minor])) => Ok(Self {
                major: *major,
                screw_pitch: *screw_pitch,
                hole_pitch: *hole_pitch,
                minor: *minor,
            }),
            None => Err(Error::NoLimits { thread: *thread }),
        }
    }

    /// Area of the hole's thread that a screw would shear off.
    ///
    /// `An = pi Le/P d_min (P/2 + (d_min - D2_max)/sqrt(3))`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `pitch` | P | pitch of the thread | `m` |
    /// | `engagement` | Le | how deep the thread is held | `m` |
    /// | returns | An | shear area | `m^2` |
    ///
    /// Range: `P > 0`, `Le > 0`.
    /// Source: `fed-std-h28`.
    ///
    /// # Errors
    /// [`Error::NotPositive`] outside the range.
    pub fn hole_area(&self, pitch: f64, engagement: f64) -> Result<f64, Error> {
        shear_area(self.major, self.major - self.hole_pitch, pitch, engagement)
    }

    /// Area of the screw's thread that would be sheared off it.
    ///
    /// `Ax = pi Le/P D1_max (P/2 + (d2_min - D1_max)/sqrt(3))`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `pitch` | P | pitch of the thread | `m` |
    /// | `engagement` | Le | how deep the thread is held | `m` |
    /// | returns | Ax | shear area | `m^2` |
    ///
    /// Range: `P > 0`, `Le > 0`.
    /// Source: `fed-std-h28`.
    ///
    /// # Errors
    /// [`Error::NotPositive`] outside the range.
    pub fn screw_area(&self, pitch: f64, engagement: f64) -> Result<f64, Error> {
        shear_area(self.minor, self.screw_pitch - self.minor, pitch, engagement)
    }
}

/// `pi Le/P d (P/2 + depth/sqrt(3))`
fn shear_area(diameter: f64, depth: f64, pitch: f64, engagement: f64) -> Result<f64, Error> {
    let pitch = positive("the pitch", pitch)?;
    let engagement = positive("the held length of the thread", engagement)?;
    Ok(PI * engagement / pitch * diameter * (0.5 * pitch + depth / 3.0_f64.sqrt()))
}

/// The pull at which the hole's thread strips.
///
/// `F = C3 tau An`, `C3` from 0.897 to 1
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | | the thread | |
/// | `engagement` | Le | how deep it is held, without the run-out | `m` |
/// | `shear` | tau | shear strength of what the hole is in | `Pa` |
/// | returns | F | least and greatest pull | `N` |
///
/// Range: threads of [`Limits::of`], `Le > 0`, `tau > 0`.
/// Source: `fed-std-h28`, `alexander-1977`.
///
/// # Errors
/// [`Error::NoLimits`], [`Error::NotPositive`], [`Error::Order`] outside the range.
pub fn strips_at(thread: &Thread, engagement: f64, shear: Interval) -> Result<Interval, Error> {
    positive("the shear strength", shear.low)?;
    let shear = shear.within(
        "the shear strength",
        Interval {
            low: 0.0,
            high: f64::MAX,
        },
    )?;
    let area = Limits::of(thread)?.hole_area(thread.pitch, engagement)?;
    Ok(Interval {
        low: BENDS * shear.low * area,
        high: shear.high * area,
    })
}

/// How deep the thread must be held for the screw to break before the hole strips.
///
/// `Le = Rm As / (C3 tau An/Le)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | | the thread | |
/// | `class` | | class of the screw, with its Rm | |
/// | `shear` | tau | shear strength of what the hole is in | `Pa` |
/// | returns | Le | least and greatest length that would do | `m` |
///
/// Range: threads of [`Limits::of`], `tau > 0`.
/// Source: `fed-std-h28`, `alexander-1977`.
///
/// # Errors
/// [`Error::NoLimits`], [`Error::NotPositive`], [`Error::Order`] outside the range.
pub fn needed(thread: &Thread, class: Class, shear: Interval) -> Result<Interval, Error> {
    let breaks = class.strength(thread)?.tensile * thread.geometry()?.stress_area;
    // Both ends grow with the length, so one metre gives the rate.
    let rate = strips_at(thread, 1.0, shear)?;
    Ok(Interval {
        low: breaks / rate.high,
        high: breaks / rate.low,
    })
}
