//! The uncertainty budget of one spot, line by line.

use statrs::distribution::{ContinuousCDF, StudentsT};

use crate::error::{not_negative, positive, probability};
use crate::normal::upper_quantile;
use crate::{Cell, Error, Model};

/// One line of a budget.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `sensitivity` | change of the result for a change of the input | unit of the result over that of the input |
/// | `uncertainty` | standard uncertainty of the input | unit of the input |
/// | `freedom` | degrees of freedom, infinite when the law is known | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contribution {
    /// Change of the result for a change of the input.
    pub sensitivity: f64,
    /// Standard uncertainty of the input.
    pub uncertainty: f64,
    /// Degrees of freedom of that uncertainty.
    pub freedom: f64,
}

/// A combined standard uncertainty.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `uncertainty` | combined standard uncertainty | unit of the result |
/// | `freedom` | effective degrees of freedom | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Combined {
    /// Combined standard uncertainty.
    pub uncertainty: f64,
    /// Effective degrees of freedom.
    pub freedom: f64,
}

/// Combines independent contributions.
///
/// `u = sqrt(sum (c_i u_i)^2)`, `nu = u^4 / sum((c_i u_i)^4 / nu_i)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `contributions` | c, u, nu | sensitivity, uncertainty, freedom of each | |
/// | returns | u, nu | combined uncertainty, effective freedom | |
///
/// Range: `u_i >= 0`, `nu_i >= 1`, at least one `u_i` above zero.
/// Source: `jcgm-100`, equations 10 and G.2b (Welch-Satterthwaite).
///
/// # Errors
/// [`Error::Empty`], [`Error::Negative`], [`Error::NotPositive`], [`Error::Outside`].
pub fn combine(contributions: &[Contribution]) -> Result<Combined, Error> {
    if contributions.is_empty() {
        return Err(Error::Empty {
            what: "contribution",
        });
    }
    let (mut squares, mut fourths) = (0.0, 0.0);
    for c in contributions {
        let part = c.sensitivity * not_negative("a standard uncertainty", c.uncertainty)?;
        if c.freedom.is_nan() || c.freedom < 1.0 {
            return Err(Error::Outside {
                what: "the degrees of freedom",
                value: c.freedom,
                low: 1.0,
                high: f64::INFINITY,
            });
        }
        squares += part * part;
        fourths += part.powi(4) / c.freedom;
    }
    positive("the combined uncertainty", squares)?;
    Ok(Combined {
        uncertainty: squares.sqrt(),
        freedom: squares * squares / fourths,
    })
}

impl Combined {
    /// Expanded uncertainty: half width of the interval that holds the result with `level`.
    ///
    /// `U = t_p(nu) u`, nu cut down to a whole number
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `level` | p | probability of the interval, usually 0.95 | `1` |
    /// | returns | U | expanded uncertainty | unit of the result |
    ///
    /// Range: `0 < p < 1`.
    /// Source: `jcgm-100`, G.3 and G.4.2.
    ///
    /// # Errors
    /// [`Error::Outside`] for the level.
    pub fn expanded(&self, level: f64) -> Result<f64, Error> {
        let tail = 0.5 * (1.0 - probability("the level", level)?);
        // Rounding must not cut a whole number down to the one below.
        let freedom = (self.freedom * (1.0 + 1e-9)).floor();
        Ok(student_quantile(tail, freedom) * self.uncertainty)
    }
}

/// Freedom from which the expansion about the normal law keeps ten digits of a 95 % factor.
const NEARLY_NORMAL: f64 = 100.0;

/// Value of Student's law exceeded with probability `tail`.
///
/// Near the normal law the incomplete beta function is inverted badly, or never; the expansion
/// takes over there. Source: `abramowitz-1964`, 26.7.5.
pub(crate) fn student_quantile(tail: f64, freedom: f64) -> f64 {
    if freedom < NEARLY_NORMAL
        && let Ok(law) = StudentsT::new(0.0, 1.0, freedom)
    {
        return law.inverse_cdf(1.0 - tail);
    }
    let z = upper_quantile(tail);
    let q = z * z;
    let g1 = z * (q + 1.0) / 4.0;
    let g2 = z * ((5.0 * q + 16.0) * q + 3.0) / 96.0;
    let g3 = z * (((3.0 * q + 19.0) * q + 17.0) * q - 15.0) / 384.0;
    let g4 = z * ((((79.0 * q + 776.0) * q + 1482.0) * q - 1920.0) * q - 945.0) / 92_160.0;
    let n = 1.0 / freedom;
    z + n * (g1 + n * (g2 + n * (g3 + n * g4)))
}

/// Standard uncertainty of a value known only to lie within `half_width` of its estimate.
///
/// `u = a / sqrt 3`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `half_width` | a | half the width of the interval | unit of the value |
/// | returns | u | standard uncertainty | unit of the value |
///
/// Range: `a >= 0`.
/// Source: `jcgm-100`, 4.3.7.
pub fn rectangular(half_width: f64) -> f64 {
    half_width / 3.0_f64.sqrt()
}

/// The budget of one spot taken by itself: where its uncertainty comes from.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `estimate` | middle of the cell, corrected for half the chord | `m` |
/// | `step` | standard uncertainty from the step between leaves | `m` |
/// | `leaf` | from the thickness of the leaves | `m` |
/// | `feel` | from the hand | `m` |
/// | `chord` | from a flat leaf in a round bore | `m` |
/// | `combined` | all together | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    /// Middle of the cell, corrected for half the chord.
    pub estimate: f64,
    /// From the step between leaves.
    pub step: f64,
    /// From the thickness of the leaves.
    pub leaf: f64,
    /// From the hand.
    pub feel: f64,
    /// From a flat leaf in a round bore.
    pub chord: f64,
    /// All together.
    pub combined: Combined,
}

/// Where the uncertainty of one spot comes from.
///
/// `u^2 = (H - L)^2 / 12 + a^2 / 3 + scatter^2 + s^2 / 12`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `cell` | L, H | cell of the indicated gap | `m` |
/// | `model` | a, scatter, s | leaf tolerance, feel, chord | `m` |
/// | returns | u | the lines and their sum | `m` |
///
/// Range: a cell with a finite upper end.
/// Source: `jcgm-100`, 4.3.7 and 5.1.2.
///
/// # Errors
/// [`Error::NoUpperBound`], [`Error::Cell`], and those of the model.
pub fn budget(cell: &Cell, model: &Model) -> Result<Budget, Error> {
    model.check()?;
    let Cell { low, high } = cell.closed()?;
    let step = rectangular(0.5 * (high - low));
    let leaf = rectangular(model.leaf_tolerance);
    let feel = model.feel.scatter;
    let chord = rectangular(0.5 * model.chord);
    let line = |uncertainty| Contribution {
        sensitivity: 1.0,
        uncertainty,
        freedom: f64::INFINITY,
    };
    Ok(Budget {
        estimate: 0.5 * (low + high + model.chord),
        step,
        leaf,
        feel,
        chord,
        combined: combine(&[line(step), line(leaf), line(feel), line(chord)])?,
    })
}
