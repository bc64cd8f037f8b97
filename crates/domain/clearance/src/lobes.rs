//! The lobes of a bore: which of them a measurement can carry.
//!
//! A bore gauge or a micrometer spans a diameter. An odd lobe adds on one side what it takes away on
//! the other, so a three-lobed bore (pinched in a three-jaw chuck, pulled by three screws) reads the
//! same diameter all round and is not round. Only radii, from a feeler under one blade or a dial on a
//! spindle, show it.

use std::f64::consts::TAU;

use crate::error::{finite, positive};
use crate::{Error, real};

/// What a bore was measured with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Instrument {
    /// Radii from one axis: a feeler under one blade, a dial on a spindle.
    Radius,
    /// Diameters between two points: a bore gauge, a micrometer.
    TwoPoint,
}

/// One lobed part of a bore's form.
///
/// `A cos(k t - phase)`
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `order` | k, lobes in a turn: 1 is the centre's offset, 2 is oval | `1` |
/// | `amplitude` | A, of the radius | `m` |
/// | `phase` | k times the clock angle of a crest | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lobes {
    /// Lobes in a turn.
    pub order: usize,
    /// Amplitude of the radius.
    pub amplitude: f64,
    /// Order times the clock angle of a crest.
    pub phase: f64,
}

impl Lobes {
    /// Clock angle of the first crest at or after zero.
    ///
    /// `t = phase / k`, in one turn's k-th part
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | t | clock angle of a crest | `rad` |
    ///
    /// Range: order of one or more.
    /// Source: definition.
    pub fn crest(&self) -> f64 {
        self.phase.rem_euclid(TAU) / real(self.order)
    }
}

/// Whether an instrument sees a lobed part at all.
///
/// Two opposite radii change by `A (1 + cos(k PI)) cos(k t - phase)`: nothing for an odd k.
///
/// Source: definition.
pub fn sees(instrument: Instrument, order: usize) -> bool {
    match instrument {
        Instrument::Radius => order > 0,
        Instrument::TwoPoint => order > 0 && order.is_multiple_of(2),
    }
}

/// Highest number of lobes that equally spaced radii carry, both in size and in place.
///
/// `k < n / 2`: at n / 2 the sine is zero at every point, beyond it a lobe looks like a lower one
///
/// Source: `nyquist-1928`; definition of the sine at equally spaced points.
pub fn carried(points: usize) -> usize {
    points.saturating_sub(1) / 2
}

/// The lobed parts of equally spaced radii, from order 1 to the highest they carry.
///
/// `a_k = 2/n sum r_i cos(k t_i)`, `b_k = 2/n sum r_i sin(k t_i)`, `t_i = 2 PI i / n`
///
/// A lobe beyond those carried is not left out: it is folded onto one of them.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `radii` | r | radii, or their departures from any circle about the same axis | `m` |
///
/// Range: three radii or more, all finite.
/// Source: definition, of the discrete Fourier sums.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn lobes(radii: &[f64]) -> Result<Vec<Lobes>, Error> {
    check(radii)?;
    let count = real(radii.len());
    let sum = |order: usize, wave: fn(f64) -> f64| {
        let terms = radii.iter().enumerate().map(|(i, radius)| {
            // Whole turns are taken off first, so that the angle keeps its digits.
            let part = real(order * i % radii.len()) / count;
            radius * wave(TAU * part)
        });
        2.0 / count * terms.sum::<f64>()
    };
    let one = |order| {
        let (a, b) = (sum(order, f64::cos), sum(order, f64::sin));
        Lobes {
            order,
            amplitude: a.hypot(b),
            phase: b.atan2(a),
        }
    };
    Ok((1..=carried(radii.len())).map(one).collect())
}

/// The diameters an even number of equally spaced radii give, as a bore gauge would read them.
///
/// `d_i = r_i + r_(i + n/2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `radii` | r | equally spaced radii | `m` |
/// | returns | d | diameters, half as many | `m` |
///
/// Range: an even number of radii above zero, four or more.
/// Source: definition.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`], [`Error::NotPositive`].
pub fn diameters(radii: &[f64]) -> Result<Vec<f64>, Error> {
    check(radii)?;
    let half = radii.len() / 2;
    if half < 2 || radii.len() != 2 * half {
        return Err(Error::TooFew {
            what: "radii with another straight across",
            count: 0,
            least: 4,
        });
    }
    for radius in radii {
        positive("a radius", *radius)?;
    }
    Ok((0..half).map(|i| radii[i] + radii[i + half]).collect())
}

fn check(radii: &[f64]) -> Result<(), Error> {
    if radii.len() < 3 {
        return Err(Error::TooFew {
            what: "radii",
            count: radii.len(),
            least: 3,
        });
    }
    for radius in radii {
        finite("a radius", *radius)?;
    }
    Ok(())
}

/// Clock angles of equally spaced points.
///
/// `t_i = 2 PI i / n`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `points` | n | how many | `1` |
/// | returns | t | clock angles | `rad` |
///
/// Range: any.
/// Source: definition.
pub fn clock(points: usize) -> Vec<f64> {
    (0..points).map(|i| TAU * real(i) / real(points)).collect()
}
