//! How far the preload scatters, by the way of tightening.

use crate::Error;
use crate::Interval;
use crate::error::{not_negative, within};

/// How a screw is tightened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Method {
    /// To yield, or by an angle beyond snug.
    YieldOrAngle,
    /// By its elongation, or hydraulically.
    Elongation,
    /// With a torque wrench, the torque found by test on the very joint.
    TorqueTested,
    /// With a torque wrench, the friction only estimated.
    TorqueEstimated,
    /// With a power driver.
    PowerDriver,
    /// With an impact driver, or by hand without measure.
    Unmeasured,
}

impl Method {
    /// Every method, the surest first.
    pub const ALL: [Self; 6] = [
        Self::YieldOrAngle,
        Self::Elongation,
        Self::TorqueTested,
        Self::TorqueEstimated,
        Self::PowerDriver,
        Self::Unmeasured,
    ];

    /// The tightening factor: the greatest preload over the least.
    ///
    /// Source: `vdi-2230`, edition 1986, as other works quote it; the last row is shared between
    /// sources and memory.
    pub const fn factor(self) -> Interval {
        let (low, high) = match self {
            Self::YieldOrAngle => (1.1, 1.27),
            Self::Elongation => (1.2, 1.6),
            Self::TorqueTested => (1.4, 1.6),
            Self::TorqueEstimated => (1.6, 2.0),
            Self::PowerDriver => (1.7, 2.5),
            Self::Unmeasured => (2.5, 4.0),
        };
        Interval { low, high }
    }
}

/// Half width of the scatter, as a share of its middle, from the tightening factor.
///
/// `e = (a - 1) / (a + 1)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `factor` | a | greatest preload over least | `1` |
/// | returns | e | half width over middle | `1` |
///
/// Range: `a >= 1`.
/// Source: `definition`, of a = (1 + e) / (1 - e).
///
/// # Errors
/// [`Error::Outside`] below 1.
pub fn half_width(factor: f64) -> Result<f64, Error> {
    let limits = Interval {
        low: 1.0,
        high: f64::MAX,
    };
    let factor = within("the tightening factor", factor, limits)?;
    Ok((factor - 1.0) / (factor + 1.0))
}

/// Two scatters that have nothing to do with one another, together.
///
/// `e = sqrt(e1^2 + e2^2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `friction` | e1 | share from the friction | `1` |
/// | `wrench` | e2 | share from the wrench | `1` |
/// | returns | e | share from both | `1` |
///
/// Range: `e1, e2 >= 0`.
/// Source: `jcgm-100`, 5.1.2.
///
/// # Errors
/// [`Error::Negative`] below zero.
pub fn combined(friction: f64, wrench: f64) -> Result<f64, Error> {
    let friction = not_negative("the scatter from the friction", friction)?;
    Ok(friction.hypot(not_negative("the scatter from the wrench", wrench)?))
}
