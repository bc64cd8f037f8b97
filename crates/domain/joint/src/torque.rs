//! From preload to torque and back, by the wedge of the thread.

use crate::error::{not_negative, within};
use crate::{Error, Friction, FrictionRange, Interval, Screw};

/// Half the angle between the flanks of a metric thread is 30 degrees; this is its cosine.
fn flank() -> f64 {
    0.5 * 3.0_f64.sqrt()
}

/// Where a tightening torque goes.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `pitch` | stretches the screw | `N m` |
/// | `thread` | rubbed away in the thread | `N m` |
/// | `head` | rubbed away under the head | `N m` |
/// | `prevailing` | turns the screw at all | `N m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parts {
    /// Stretches the screw.
    pub pitch: f64,
    /// Rubbed away in the thread.
    pub thread: f64,
    /// Rubbed away under the head.
    pub head: f64,
    /// Turns the screw at all.
    pub prevailing: f64,
}

/// What has been applied with a wrench.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `torque` | T | what the wrench was set to | `N m` |
/// | `error` | e | how far off it may be, as a share of it | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Applied {
    /// What the wrench was set to.
    pub torque: f64,
    /// How far off it may be, as a share of it.
    pub error: f64,
}

/// A wrench off by as much as it shows is none.
const ERROR: Interval = Interval {
    low: 0.0,
    high: 1.0,
};

/// Levers of thread and head: torque per preload.
struct Levers {
    pitch: f64,
    thread: f64,
    head: f64,
}

impl Levers {
    fn sum(&self) -> f64 {
        self.pitch + self.thread + self.head
    }
}

/// Arm of the wedge in the thread when it climbs.
fn thread_arm(pitch_diameter: f64, lead: f64, friction: f64) -> f64 {
    0.5 * pitch_diameter * (lead + (friction / flank()).atan()).tan()
}

fn levers(screw: &Screw, friction: Friction) -> Result<Levers, Error> {
    let geometry = screw.checked()?;
    friction.check()?;
    let pitch = 0.5 * geometry.pitch_diameter * geometry.lead.tan();
    let climb = thread_arm(geometry.pitch_diameter, geometry.lead, friction.thread);
    Ok(Levers {
        pitch,
        thread: climb - pitch,
        head: 0.5 * friction.head * screw.bearing.mean_diameter()?,
    })
}

/// Where the torque for a preload goes.
///
/// `T = F P/(2 pi) + F (d2/2 tan(phi + rho') - P/(2 pi)) + F mu_b Dkm/2 + Tp`, `rho' = atan(mu / cos 30°)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | P, d2, phi, Dkm, Tp | thread, head, prevailing torque | |
/// | `preload` | F | force in the screw | `N` |
/// | `friction` | mu, `mu_b` | in the thread, under the head | |
/// | returns | | the four terms, in this order | |
///
/// Range: `F >= 0`, `0 <= mu, mu_b <= 1`.
/// Source: `vdi-2230`, `budynas-nisbett`, 8-2 (power screws) with the ISO flank.
///
/// # Errors
/// [`Error::Negative`], [`Error::Outside`], and those of the screw.
pub fn parts(screw: &Screw, preload: f64, friction: Friction) -> Result<Parts, Error> {
    let levers = levers(screw, friction)?;
    let preload = not_negative("the preload", preload)?;
    Ok(Parts {
        pitch: preload * levers.pitch,
        thread: preload * levers.thread,
        head: preload * levers.head,
        prevailing: screw.prevailing,
    })
}

/// Torque that tightens a screw to a preload.
///
/// `T = F (d2/2 tan(phi + rho') + mu_b Dkm/2) + Tp`, `rho' = atan(mu / cos 30°)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | d2, phi, Dkm, Tp | thread, head, prevailing torque | |
/// | `preload` | F | force in the screw | `N` |
/// | `friction` | mu, `mu_b` | in the thread, under the head | |
/// | returns | T | tightening torque | `N m` |
///
/// Range: `F >= 0`, `0 <= mu, mu_b <= 1`.
/// Source: `vdi-2230`, `budynas-nisbett`, 8-2 (power screws) with the ISO flank.
///
/// # Errors
/// [`Error::Negative`], [`Error::Outside`], and those of the screw.
pub fn torque(screw: &Screw, preload: f64, friction: Friction) -> Result<f64, Error> {
    let preload = not_negative("the preload", preload)?;
    Ok(preload * levers(screw, friction)?.sum() + screw.prevailing)
}

/// Preload that a torque leaves in the screw, the inverse of [`torque()`].
///
/// `F = (T - Tp) / (d2/2 tan(phi + rho') + mu_b Dkm/2)`, `rho' = atan(mu / cos 30°)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | d2, phi, Dkm, Tp | thread, head, prevailing torque | |
/// | `torque` | T | tightening torque | `N m` |
/// | `friction` | mu, `mu_b` | in the thread, under the head | |
/// | returns | F | preload | `N` |
///
/// Range: `T >= Tp`, `0 <= mu, mu_b <= 1`.
/// Source: `vdi-2230`, `budynas-nisbett`, 8-2 (power screws) with the ISO flank.
///
/// # Errors
/// [`Error::Prevailing`], [`Error::Negative`], [`Error::Outside`], and those of the screw.
pub fn preload(screw: &Screw, torque: f64, friction: Friction) -> Result<f64, Error> {
    let levers = levers(screw, friction)?;
    Ok(net(screw, torque)? / levers.sum())
}

/// What is left of a torque for the thread and the head.
pub(crate) fn net(screw: &Screw, torque: f64) -> Result<f64, Error> {
    let torque = not_negative("the torque", torque)?;
    let prevailing = screw.prevailing;
    if torque < prevailing {
        return Err(Error::Prevailing { torque, prevailing });
    }
    Ok(torque - prevailing)
}

/// Torque that begins to loosen a screw which nothing but friction holds.
///
/// `T_L = F (d2/2 tan(rho' - phi) + mu_b Dkm/2) + Tp`, `rho' = atan(mu / cos 30°)`
///
/// It is less than the torque that tightened the screw, and no sign that the screw was loose.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | d2, phi, Dkm, Tp | thread, head, prevailing torque | |
/// | `preload` | F | force in the screw | `N` |
/// | `friction` | mu, `mu_b` | in the thread, under the head | |
/// | returns | `T_L` | loosening torque; below zero the screw turns back by itself | `N m` |
///
/// Range: `F >= 0`, `0 <= mu, mu_b <= 1`.
/// Source: `budynas-nisbett`, 8-2 (lowering a load) with the ISO flank.
///
/// # Errors
/// [`Error::Negative`], [`Error::Outside`], and those of the screw.
pub fn loosening(screw: &Screw, preload: f64, friction: Friction) -> Result<f64, Error> {
    let geometry = screw.checked()?;
    let levers = levers(screw, friction)?;
    let preload = not_negative("the preload", preload)?;
    let lower = -thread_arm(geometry.pitch_diameter, geometry.lead, -friction.thread);
    Ok(preload * (lower + levers.head) + screw.prevailing)
}

/// The factor of the short form `T = K F d`, without prevailing torque.
///
/// `K = (d2/2 tan(phi + rho') + mu_b Dkm/2) / d`, `rho' = atan(mu / cos 30°)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | d, d2, phi, Dkm | thread and head | |
/// | `friction` | mu, `mu_b` | in the thread, under the head | |
/// | returns | K | torque factor | `1` |
///
/// Range: `0 <= mu, mu_b <= 1`.
/// Source: `budynas-nisbett`, 8-8, with the collar at the mean diameter of `vdi-2230`.
///
/// # Errors
/// [`Error::Outside`], and those of the screw.
pub fn torque_factor(screw: &Screw, friction: Friction) -> Result<f64, Error> {
    Ok(levers(screw, friction)?.sum() / screw.thread.diameter)
}

/// Every preload that a torque may have left, the wrench and the friction at their worst.
///
/// `F = preload(T (1 - e), mu high)` to `preload(T (1 + e), mu low)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | | thread, head, prevailing torque | |
/// | `applied` | T, e | torque and error of the wrench | |
/// | `friction` | mu, `mu_b` | both as intervals | |
/// | returns | F | preload, from and to | |
///
/// Range: `0 <= e < 1`, `T (1 - e) >= Tp`.
/// Source: `definition`, of the extremes of a quantity that rises with T and falls with mu.
///
/// # Errors
/// [`Error::Outside`], [`Error::Order`], [`Error::Prevailing`], and those of the screw.
pub fn preload_range(
    screw: &Screw,
    applied: Applied,
    friction: &FrictionRange,
) -> Result<Interval, Error> {
    friction.check()?;
    let torque = applied.range()?;
    Ok(Interval {
        low: preload(screw, torque.low, friction.high())?,
        high: preload(screw, torque.high, friction.low())?,
    })
}

impl Applied {
    /// What the wrench may really have given.
    pub(crate) fn range(&self) -> Result<Interval, Error> {
        let error = within("the error of the wrench", self.error, ERROR)?;
        let torque = not_negative("the torque", self.torque)?;
        Ok(Interval {
            low: torque * (1.0 - error),
            high: torque * (1.0 + error),
        })
    }
}
