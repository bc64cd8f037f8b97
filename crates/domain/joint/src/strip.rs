//! When the thread gives way before the screw: stripping.

use std::f64::consts::PI;

use crate::error::{not_negative, positive, within};
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

/// By how many pitches the thread that a wire insert sits in is wider than the screw's.
const WIDER: Interval = Interval {
    low: 1.08,
    high: 1.30,
};

/// Anything finite that is no less than nothing.
const ANY: Interval = Interval {
    low: 0.0,
    high: f64::MAX,
};

/// What the thread of the hole is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Holder {
    /// The aluminium of a pump housing.
    Casting,
    /// An insert moulded into laminate, of brass or stainless steel.
    MouldedInsert,
    /// Plastic.
    Plastic,
}

impl Holder {
    /// Shear strength to reckon with.
    ///
    /// `tau`: [`CASTING`]. A moulded insert is pulled or spun out before any thread strips, and
    /// plastic creeps: for both no honest figure is known.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | tau | least and greatest | `Pa` |
    ///
    /// Range: a sound casting.
    /// Source: `matweb-a356`, `mamlouk-2011`.
    ///
    /// # Errors
    /// [`Error::NoShear`] where no honest figure is known.
    pub fn shear(self) -> Result<Interval, Error> {
        match self {
            Self::Casting => Ok(CASTING),
            Self::MouldedInsert | Self::Plastic => Err(Error::NoShear { holder: self }),
        }
    }
}

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
    sheared(&Limits::of(thread)?, thread.pitch, engagement, shear)
}

/// The pull at which a hole of these limits strips.
fn sheared(hole: &Limits, pitch: f64, engagement: f64, shear: Interval) -> Result<Interval, Error> {
    positive("the shear strength", shear.low)?;
    let shear = shear.within("the shear strength", ANY)?;
    let area = hole.hole_area(pitch, engagement)?;
    Ok(Interval {
        low: BENDS * shear.low * area,
        high: shear.high * area,
    })
}

/// Passes a pull with both ends above zero and in order.
fn pulled(pull: Interval) -> Result<Interval, Error> {
    positive("the pull", pull.low)?;
    pull.within("the pull", ANY)
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
    length_for(thread, shear, Interval::point(breaks), 1.0)
}

/// How deep the thread must be held for the hole to bear a pull with a margin.
///
/// `Le = n F / (C3 tau An/Le)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | | the thread | |
/// | `shear` | tau | shear strength of what the hole is in | `Pa` |
/// | `pull` | F | least and greatest pull | `N` |
/// | `margin` | n | how many times that pull | `1` |
/// | returns | Le | least and greatest length that would do | `m` |
///
/// Range: threads of [`Limits::of`], `tau > 0`, `F > 0`, `n >= 1`.
/// Source: `fed-std-h28`, `alexander-1977`.
///
/// # Errors
/// [`Error::NoLimits`], [`Error::NotPositive`], [`Error::Order`], [`Error::Outside`] outside the range.
pub fn length_for(
    thread: &Thread,
    shear: Interval,
    pull: Interval,
    margin: f64,
) -> Result<Interval, Error> {
    let pull = pulled(pull)?;
    let enough = Interval {
        low: 1.0,
        high: f64::MAX,
    };
    let margin = within("the margin against stripping", margin, enough)?;
    // Both ends grow with the length, so one metre gives the rate.
    let rate = strips_at(thread, 1.0, shear)?;
    Ok(Interval {
        low: margin * pull.low / rate.high,
        high: margin * pull.high / rate.low,
    })
}

/// How many times over the thread bears a preload.
///
/// `n = F_strip / F`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `strips` | `F_strip` | pull at which the thread gives way | `N` |
/// | `preload` | F | least and greatest preload | `N` |
/// | returns | n | margin at its least and greatest; below 1 it strips | `1` |
///
/// Range: `F_strip > 0`, `F > 0`.
/// Source: `definition`, of a margin.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Order`], [`Error::Outside`] outside the range.
pub fn margin(strips: Interval, preload: Interval) -> Result<Interval, Error> {
    let (strips, preload) = (pulled(strips)?, pulled(preload)?);
    Ok(Interval {
        low: strips.low / preload.high,
        high: strips.high / preload.low,
    })
}

/// The least pull at which the thread is shorn off the screw.
///
/// `F = C2 Rm/2 Ax`, `C2` = 0.897
///
/// Counts where the hole is as hard as the screw: a soft screw in a hard hole may need to be held
/// deeper than the least that [`needed`] says.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | | the thread | |
/// | `engagement` | Le | how deep it is held, without the run-out | `m` |
/// | `class` | | class of the screw, with its Rm | |
/// | returns | F | least pull | `N` |
///
/// Range: threads of [`Limits::of`], `Le > 0`.
/// Source: `fed-std-h28`, which takes half of Rm for the shear strength; `alexander-1977`.
///
/// # Errors
/// [`Error::NoLimits`], [`Error::NotPositive`] outside the range.
pub fn screw_strips_at(thread: &Thread, engagement: f64, class: Class) -> Result<f64, Error> {
    let area = Limits::of(thread)?.screw_area(thread.pitch, engagement)?;
    Ok(BENDS * 0.5 * class.strength(thread)?.tensile * area)
}

/// The pull at which a wire insert is torn out of the casting with the thread it sits in.
///
/// `F = C3 tau An`, in a hole wider than the screw's by 1.08 to 1.30 pitches
///
/// The wire itself is far harder than a casting and is not what gives way.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | | thread of the screw | |
/// | `length` | Le | length of the insert once it sits, see [`wire_length`] | `m` |
/// | `shear` | tau | shear strength of the casting | `Pa` |
/// | returns | F | least and greatest pull | `N` |
///
/// Range: threads of [`Limits::of`], `Le > 0`, `tau > 0`.
/// Source: `fed-std-h28`, `alexander-1977`; how much wider is from memory, once 1.08 and once
/// 1.30.
///
/// # Errors
/// [`Error::NoLimits`], [`Error::NotPositive`], [`Error::Order`] outside the range.
pub fn wire_strips_at(thread: &Thread, length: f64, shear: Interval) -> Result<Interval, Error> {
    let limits = Limits::of(thread)?;
    let pull = |pitches: f64| {
        let wider = pitches * thread.pitch;
        let hole = Limits {
            major: limits.major + wider,
            hole_pitch: limits.hole_pitch + wider,
            ..limits
        };
        sheared(&hole, thread.pitch, length, shear)
    };
    Ok(Interval {
        low: pull(WIDER.low)?.low,
        high: pull(WIDER.high)?.high,
    })
}

/// How long a wire insert must sit for the screw to break before the insert is torn out.
///
/// `Le = Rm As / (C3 tau An/Le)`, in the wider hole of [`wire_strips_at`]
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | | thread of the screw | |
/// | `class` | | class of the screw, with its Rm | |
/// | `shear` | tau | shear strength of the casting | `Pa` |
/// | returns | Le | least and greatest length that would do | `m` |
///
/// Range: threads of [`Limits::of`], `tau > 0`.
/// Source: `fed-std-h28`, `alexander-1977`; how much wider is from memory.
///
/// # Errors
/// [`Error::NoLimits`], [`Error::NotPositive`], [`Error::Order`] outside the range.
pub fn wire_needed(thread: &Thread, class: Class, shear: Interval) -> Result<Interval, Error> {
    let breaks = class.strength(thread)?.tensile * thread.geometry()?.stress_area;
    // Both ends grow with the length, so one metre gives the rate.
    let rate = wire_strips_at(thread, 1.0, shear)?;
    Ok(Interval {
        low: breaks / rate.high,
        high: breaks / rate.low,
    })
}

/// Length of a wire insert once it sits in its hole.
///
/// `Le = L - 0.75 P` to `L - 0.5 P`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `nominal` | L | length it is sold by | `m` |
/// | `pitch` | P | pitch of the thread | `m` |
/// | returns | Le | least and greatest length | `m` |
///
/// Range: `P > 0`, `L > 0.75 P`.
/// Source: `asme-b18.29.2`.
///
/// # Errors
/// [`Error::NotPositive`] outside the range.
pub fn wire_length(nominal: f64, pitch: f64) -> Result<Interval, Error> {
    let pitch = positive("the pitch", pitch)?;
    let nominal = positive("the length of the insert", nominal)?;
    let low = positive("the length of the insert that sits", nominal - 0.75 * pitch)?;
    Ok(Interval {
        low,
        high: nominal - 0.5 * pitch,
    })
}

/// A screw in a blind hole, as a depth gauge finds them.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `reach` | | how far the screw goes into the hole with the parts together | `m` |
/// | `threaded` | | depth of good thread in the hole, from its mouth | `m` |
/// | `lost` | | of that, not held at the mouth: countersink, corrosion, first turn | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// How far the screw goes into the hole with the parts together.
    pub reach: f64,
    /// Depth of good thread in the hole, from its mouth.
    pub threaded: f64,
    /// Of that, not held at the mouth: countersink, corrosion, first turn.
    pub lost: f64,
}

/// How deep a thread is held.
///
/// `Le = reach - lost`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `of` | | screw and hole | |
/// | returns | Le | held length | `m` |
///
/// Range: `lost >= 0`, `lost < reach <= threaded`: a longer screw jams in the hole and clamps nothing.
/// Source: `definition`, of an engagement.
///
/// # Errors
/// [`Error::Bottoms`], [`Error::NotPositive`], [`Error::Negative`] outside the range.
pub fn held(of: &Reach) -> Result<f64, Error> {
    let reach = positive("the reach of the screw", of.reach)?;
    let threaded = positive("the depth of the thread", of.threaded)?;
    let lost = not_negative("the thread lost at the mouth", of.lost)?;
    if reach > threaded {
        return Err(Error::Bottoms { reach, threaded });
    }
    positive("the held length of the thread", reach - lost)
}
