//! A torque for one state of lubrication, in another.

use crate::torque::{net, torque_factor};
use crate::{Class, Error, Friction, FrictionRange, Interval, Screw, ceiling};

/// A torque as a manual states it: with the condition it holds for.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `torque` | T1 | tightening torque | `N m` |
/// | `friction` | mu, `mu_b` | of the condition it names | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stated {
    /// Tightening torque.
    pub torque: f64,
    /// Friction of the condition it names.
    pub friction: FrictionRange,
}

/// A torque carried over to another state of lubrication.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conversion {
    /// Every torque that may give the preload which was meant.
    pub torque: Interval,
    /// Torque at which the screw may reach 90 % of yield, were the friction at its worst.
    pub ceiling: f64,
}

/// Torque that gives, in another state of lubrication, the preload which was meant.
///
/// `T2 = Tp + (T1 - Tp) K2/K1`, from `K2 low / K1 high` to `K2 high / K1 low`
///
/// The converted torque never stands in for the stated one: it is as wide as
/// what is known of both frictions, and it may lie above the ceiling.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | K, Tp | thread, head, prevailing torque | |
/// | `class` | | what the ceiling is taken of | |
/// | `stated` | T1, K1 | torque, and the friction it was meant for | |
/// | `found` | K2 | friction there is | |
/// | returns | T2 | torque in the new state, and its ceiling | |
///
/// Range: `T1 >= Tp`, frictions from 0 to 1.
/// Source: `budynas-nisbett`, 8-8: preload is torque over K d.
///
/// # Errors
/// [`Error::Prevailing`], [`Error::Outside`], [`Error::Order`], and those of the screw.
pub fn convert(
    screw: &Screw,
    class: Class,
    stated: &Stated,
    found: &FrictionRange,
) -> Result<Conversion, Error> {
    let intended = &stated.friction;
    intended.check()?;
    found.check()?;
    let net = net(screw, stated.torque)?;
    let factor = |friction| torque_factor(screw, friction);
    let ratio = |new: Friction, old: Friction| -> Result<f64, Error> {
        Ok(screw.prevailing + net * factor(new)? / factor(old)?)
    };
    Ok(Conversion {
        torque: Interval {
            low: ratio(found.low(), intended.high())?,
            high: ratio(found.high(), intended.low())?,
        },
        ceiling: lowest_ceiling(screw, class, found)?,
    })
}

/// Torque up to which no friction of the range brings the screw above 90 % of yield.
///
/// The stress of a torque is most at the slipperiest head and at one end of the thread's interval.
pub(crate) fn lowest_ceiling(
    screw: &Screw,
    class: Class,
    friction: &FrictionRange,
) -> Result<f64, Error> {
    let at = |thread| {
        let head = friction.head.low;
        ceiling(screw, class, Friction { thread, head }).map(|ceiling| ceiling.torque)
    };
    Ok(at(friction.thread.low)?.min(at(friction.thread.high)?))
}
