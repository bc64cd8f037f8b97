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

/// By how much the twist left in the thread raises the stress above that of tension alone.
///
/// The section is taken as plastic all through in torsion, hence 1.5; the edition of 1986 took it
/// as elastic, which needs 2. Source: `vdi-2230`, edition 2003, 5.5.2.
fn twist(screw: &Screw, friction: f64) -> Result<f64, Error> {
    let geometry = screw.checked()?;
    let friction = within("the friction in the thread", friction, FRICTION)?;
    let d2 = geometry.pitch_diameter;
    let d0 = 0.5 * (d2 + geometry.core_diameter);
    let tangent = screw.thread.pitch / (PI * d2) + 2.0 / 3.0_f64.sqrt() * friction;
    Ok((1.0 + 3.0 * (1.5 * d2 / d0 * tangent).powi(2)).sqrt())
}

/// Preload and torque at 90 % of yield.
///
/// `F = 0.9 As Rp0.2 / sqrt(1 + 3 (3/2 d2/d0 (P/(pi d2) + 2/sqrt(3) mu))^2)`, `d0 = (d2 + d3)/2`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | As, d2, d3, P | thread; the head for the torque | |
/// | `class` | Rp0.2 | proof stress | |
/// | `friction` | mu, `mu_b` | in the thread, under the head | |
/// | returns | F, T | preload, and its torque by [`torque()`] | |
///
/// Range: `0 <= mu, mu_b <= 1`. The twist of a prevailing torque is not in it.
/// Source: `vdi-2230`, edition 2003: torsion with the section plastic all through.
///
/// # Errors
/// [`Error::Outside`], and those of the screw.
pub fn ceiling(screw: &Screw, class: Class, friction: Friction) -> Result<Ceiling, Error> {
    let preload = SHARE * tensile_yield(&screw.thread, class)? / twist(screw, friction.thread)?;
    Ok(Ceiling {
        preload,
        torque: torque(screw, preload, friction)?,
    })
}

/// Share of yield that a torque uses, tension and twist together, at its least and at its most.
///
/// `u = F(T, mu) / (As Rp0.2) sqrt(1 + 3 (3/2 d2/d0 (P/(pi d2) + 2/sqrt(3) mu))^2)`
///
/// More friction in the thread takes preload away and adds twist, so the least may lie inside the
/// interval of friction; the most is at one of its ends.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | As, d2, d3, P, Dkm | thread and head | |
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
    let yields = tensile_yield(&screw.thread, class)?;
    let torque = applied.range()?;
    let share = |torque, thread, head| -> Result<f64, Error> {
        let force = preload(screw, torque, Friction { thread, head })?;
        Ok(force * twist(screw, thread)? / yields)
    };
    let Interval { low, high } = friction.thread;
    let turning = turning_point(screw, friction.head.high)?.clamp(low, high);
    let mut least = f64::INFINITY;
    for thread in [low, turning, high] {
        least = least.min(share(torque.low, thread, friction.head.high)?);
    }
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

/// Thread friction at which a torque stresses the screw least.
///
/// With t the tangent in [`twist`], stress goes as `sqrt(1 + 3 k^2 t^2) / (d2/2 t + mu_b Dkm/2)`,
/// which is least at `t = d2 / (3 k^2 mu_b Dkm)`. The tangent is the linear one, the preload the
/// exact one; at a minimum that little difference is of second order.
fn turning_point(screw: &Screw, head: f64) -> Result<f64, Error> {
    let geometry = screw.checked()?;
    let d2 = geometry.pitch_diameter;
    let k = 1.5 * d2 / (0.5 * (d2 + geometry.core_diameter));
    let tangent = d2 / (3.0 * k * k * head * screw.bearing.mean_diameter()?);
    Ok((tangent - screw.thread.pitch / (PI * d2)) * 0.5 * 3.0_f64.sqrt())
}
