//! How near to yield: tension and twist together.

use std::f64::consts::PI;

use crate::bearing::FRICTION;
use crate::error::within;
use crate::torque::{Applied, preload, torque};
use crate::{Class, Error, Friction, FrictionRange, Interval, Screw, Thread};

/// Share of yield that a tightened screw is allowed.
const SHARE: f64 = 0.9;

/// The most a screw is to be tightened: 90 % of yield.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `preload` | force in the screw | `N` |
/// | `torque` | torque that brings it there | `N m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ceiling {
    /// Force in the screw.
    pub preload: f64,
    /// Torque that brings it there.
    pub torque: f64,
}

/// Load that strains the thread by 0.2 % in plain tension.
///
/// `F = As Rp0.2`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | As | stress area | |
/// | `class` | Rp0.2 | proof stress | |
/// | returns | F | load at yield without twist | `N` |
///
/// Range: any thread.
/// Source: `iso-898-1`, `iso-3506-1`.
///
/// # Errors
/// Those of the thread.
pub fn tensile_yield(thread: &Thread, class: Class) -> Result<f64, Error> {
    Ok(thread.geometry()?.stress_area * class.strength(thread)?.proof)
}

/// The thread's section as tension and twist see it.
///
/// Twist is borne plastically all through, by `pi d0^3 / 12`; the edition of 1986 had it elastic,
/// `pi d0^3 / 16`. Source: `vdi-2230`, edition 2003.
struct Section {
    area: f64,
    twisting: f64,
    /// Half the pitch diameter.
    arm: f64,
    /// Of the lead angle.
    lead: f64,
    prevailing: f64,
}

impl Section {
    fn of(screw: &Screw) -> Result<Self, Error> {
        let geometry = screw.checked()?;
        let d2 = geometry.pitch_diameter;
        let d0 = 0.5 * (d2 + geometry.core_diameter);
        Ok(Self {
            area: geometry.stress_area,
            twisting: PI * d0.powi(3) / 12.0,
            arm: 0.5 * d2,
            lead: screw.thread.pitch / (PI * d2),
            prevailing: screw.prevailing,
        })
    }

    /// Torque in the thread per preload, in the guideline's linear form.
    fn lever(&self, friction: f64) -> Result<f64, Error> {
        let friction = within("the friction in the thread", friction, FRICTION)?;
        Ok(self.arm * (self.lead + 2.0 / 3.0_f64.sqrt() * friction))
    }

    /// Stress of tension and twist together.
    fn stress(&self, preload: f64, friction: f64) -> Result<f64, Error> {
        let twist = (preload * self.lever(friction)? + self.prevailing) / self.twisting;
        Ok((preload / self.area).hypot(3.0_f64.sqrt() * twist))
    }

    /// Preload at which the stress is reached: [`stress`](Self::stress) solved for it.
    fn preload(&self, stress: f64, friction: f64) -> Result<f64, Error> {
        let limit = stress * self.twisting / 3.0_f64.sqrt();
        if self.prevailing >= limit {
            return Err(Error::Outside {
                what: "the prevailing torque",
                value: self.prevailing,
                low: 0.0,
                high: limit,
            });
        }
        // a F^2 + 2 b F = c, its stable root.
        let lever = self.lever(friction)?;
        let weight = 3.0 / self.twisting.powi(2);
        let a = 1.0 / self.area.powi(2) + weight * lever * lever;
        let b = weight * lever * self.prevailing;
        let c = stress * stress - weight * self.prevailing.powi(2);
        Ok(c / (b + (b * b + a * c).sqrt()))
    }
}

/// Preload and torque at 90 % of yield.
///
/// `(F/As)^2 + 3 ((F d2/2 (P/(pi d2) + 2/sqrt(3) mu) + Tp) / (pi d0^3/12))^2 = (0.9 Rp0.2)^2`,
/// `d0 = (d2 + d3)/2`; without prevailing torque the guideline's
/// `F = 0.9 As Rp0.2 / sqrt(1 + 3 (3/2 d2/d0 (P/(pi d2) + 2/sqrt(3) mu))^2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | As, d2, d3, P, Tp | thread, prevailing torque; the head for the torque | |
/// | `class` | Rp0.2 | proof stress | |
/// | `friction` | mu, `mu_b` | in the thread, under the head | |
/// | returns | F, T | preload, and its torque by [`torque()`] | |
///
/// Range: `0 <= mu, mu_b <= 1`; a prevailing torque that does not twist the screw off by itself.
/// Source: `vdi-2230`, edition 2003: torsion with the section plastic all through.
///
/// # Errors
/// [`Error::Outside`], and those of the screw.
pub fn ceiling(screw: &Screw, class: Class, friction: Friction) -> Result<Ceiling, Error> {
    let proof = class.strength(&screw.thread)?.proof;
    let preload = Section::of(screw)?.preload(SHARE * proof, friction.thread)?;
    Ok(Ceiling {
        preload,
        torque: torque(screw, preload, friction)?,
    })
}

/// Share of yield that a torque uses, tension and twist together, at its least and at its most.
///
/// `u = sqrt((F/As)^2 + 3 ((F d2/2 (P/(pi d2) + 2/sqrt(3) mu) + Tp) / (pi d0^3/12))^2) / Rp0.2`,
/// F the preload of the torque
///
/// More friction in the thread takes preload away and adds twist, so the least may lie inside the
/// interval of friction; the most is at one of its ends.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | As, d2, d3, P, Dkm, Tp | thread, head, prevailing torque | |
/// | `class` | Rp0.2 | proof stress | |
/// | `applied` | T | torque and error of the wrench | |
/// | `friction` | mu, `mu_b` | both as intervals | |
/// | returns | u | 1 is yield, 0.9 the [`ceiling`] | |
///
/// Range: as [`preload_range`](crate::preload_range).
/// Source: `vdi-2230`, edition 2003.
///
/// # Errors
/// [`Error::Outside`], [`Error::Order`], [`Error::Prevailing`], and those of the screw.
pub fn utilisation(
    screw: &Screw,
    class: Class,
    applied: Applied,
    friction: &FrictionRange,
) -> Result<Interval, Error> {
    friction.check()?;
    let proof = class.strength(&screw.thread)?.proof;
    let section = Section::of(screw)?;
    let torque = applied.range()?;
    let share = |torque, thread, head| -> Result<f64, Error> {
        let force = preload(screw, torque, Friction { thread, head })?;
        Ok(section.stress(force, thread)? / proof)
    };
    let Interval { low, high } = friction.thread;
    let rough = friction.head.high;
    let least = valley(friction.thread, |thread| share(torque.low, thread, rough))?;
    let most = share(torque.high, low, friction.head.low)?.max(share(
        torque.high,
        high,
        friction.head.low,
    )?);
    Ok(Interval {
        low: least,
        high: most,
    })
}

/// Steps that narrow an interval to a few parts in 1e9.
const STEPS: usize = 40;

/// Least value of a function with one valley at most, by golden section.
///
/// With x = 1 / (lever of the thread + lever of the head), preload and twist of a torque are linear
/// in x, so the square of their stress is a parabola in x and has one valley over the friction.
fn valley(over: Interval, value: impl Fn(f64) -> Result<f64, Error>) -> Result<f64, Error> {
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let Interval { mut low, mut high } = over;
    let mut least = value(low)?.min(value(high)?);
    for _ in 0..STEPS {
        let part = golden * (high - low);
        let (left, right) = (value(high - part)?, value(low + part)?);
        least = least.min(left).min(right);
        if left < right {
            high = low + part;
        } else {
            low = high - part;
        }
    }
    Ok(least)
}
