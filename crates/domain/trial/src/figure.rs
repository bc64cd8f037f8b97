//! A number with what it may be off by, part by part.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

use crate::Error;
use crate::error::{not_negative, within};

/// Where a part of an uncertainty comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// Runs, or readings within one, do not repeat.
    Scatter,
    /// Of several windows the fastest was taken, which leans high.
    Choice,
    /// The receiver; one unit on one day errs alike in every run.
    Receiver,
    /// What is left of the current.
    Current,
    /// Fuel, riders, water in the hull.
    Load,
    /// Pressure, warmth and moisture of the air the engine breathes.
    Air,
    /// How often the log has a reading.
    Rate,
    /// The step of a readout.
    Step,
    /// The hand on a stop watch.
    Hand,
}

/// One part of an uncertainty.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `part` | where it comes from | |
/// | `uncertainty` | standard uncertainty of the result from it alone | unit of the result |
/// | `freedom` | degrees of freedom, infinite where it is taken as known | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contribution {
    /// Where it comes from.
    pub part: Part,
    /// Standard uncertainty of the result from it alone.
    pub uncertainty: f64,
    /// Degrees of freedom, infinite where it is taken as known.
    pub freedom: f64,
}

impl Contribution {
    /// A part taken as known.
    pub const fn known(part: Part, uncertainty: f64) -> Self {
        Self {
            part,
            uncertainty,
            freedom: f64::INFINITY,
        }
    }
}

/// How a figure came about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// Reckoned from a log.
    Log,
    /// Read by a person and typed in.
    Typed,
}

/// A number with what it may be off by, part by part.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `value` | best estimate | unit of the result |
/// | `parts` | what it may be off by, and why | |
/// | `origin` | whether it was measured or typed in | |
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// Best estimate.
    pub value: f64,
    /// What it may be off by, and why.
    pub parts: Vec<Contribution>,
    /// Whether it was measured or typed in.
    pub origin: Origin,
}

impl Figure {
    /// A number with its parts, none of which may be negative.
    pub fn new(value: f64, parts: Vec<Contribution>, origin: Origin) -> Result<Self, Error> {
        crate::error::finite("a figure", value)?;
        for part in &parts {
            not_negative("a standard uncertainty", part.uncertainty)?;
            if part.freedom.is_nan() || part.freedom < 1.0 {
                return Err(Error::Outside {
                    what: "the degrees of freedom",
                    value: part.freedom,
                    low: 1.0,
                    high: f64::INFINITY,
                });
            }
        }
        Ok(Self {
            value,
            parts,
            origin,
        })
    }

    /// Combined standard uncertainty.
    ///
    /// `u = sqrt(sum u_i^2)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | u | combined standard uncertainty | unit of the result |
    ///
    /// Range: independent parts.
    /// Source: `jcgm-100`, equation 10.
    pub fn uncertainty(&self) -> f64 {
        self.parts
            .iter()
            .map(|part| part.uncertainty * part.uncertainty)
            .sum::<f64>()
            .sqrt()
    }

    /// Effective degrees of freedom, infinite where every part is taken as known.
    ///
    /// `nu = u^4 / sum(u_i^4 / nu_i)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | nu | effective degrees of freedom | `1` |
    ///
    /// Range: independent parts.
    /// Source: `jcgm-100`, equation G.2b.
    pub fn freedom(&self) -> f64 {
        let fourths: f64 = self
            .parts
            .iter()
            .map(|part| part.uncertainty.powi(4) / part.freedom)
            .sum();
        if fourths > 0.0 {
            self.uncertainty().powi(4) / fourths
        } else {
            f64::INFINITY
        }
    }

    /// Half the width of the interval that holds the true value with `level`.
    ///
    /// `U = t_((1 + p) / 2)(nu) u`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `level` | p | probability, usually 0.95 | `1` |
    /// | `returns` | U | half the width | unit of the result |
    ///
    /// Range: `0 < p < 1`.
    /// Source: `jcgm-100`, G.3; the freedom is not cut down to a whole number.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn half_width(&self, level: f64) -> Result<f64, Error> {
        Ok(two_sided(level, self.freedom())? * self.uncertainty())
    }

    /// The interval that holds the true value with `level`.
    ///
    /// `x - U` to `x + U`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `level` | p | probability, usually 0.95 | `1` |
    ///
    /// Range: `0 < p < 1`.
    /// Source: `jcgm-100`, 6.2.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn interval(&self, level: f64) -> Result<Interval, Error> {
        let half = self.half_width(level)?;
        Ok(Interval {
            low: self.value - half,
            high: self.value + half,
        })
    }
}

/// From one value to another.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `low` | lower end | unit of the value |
/// | `high` | upper end | unit of the value |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// Student's law without its errors, which cannot come about for a freedom above zero.
pub(crate) fn below(t: f64, freedom: f64) -> f64 {
    StudentsT::new(0.0, 1.0, freedom).map_or_else(|_| Normal::standard().cdf(t), |law| law.cdf(t))
}

/// Freedom from which the expansion about the normal law is nearer than the library's tails.
const NEARLY_NORMAL: f64 = 1e4;

/// How many standard errors to either side hold `level`.
pub(crate) fn two_sided(level: f64, freedom: f64) -> Result<f64, Error> {
    let least = f64::EPSILON;
    let level = within("the probability of an interval", level, least, 1.0 - least)?;
    let tail = 0.5 * (1.0 - level);
    let mut high = -Normal::standard().inverse_cdf(tail);
    if freedom > NEARLY_NORMAL {
        // abramowitz-1964, 26.7.5.
        let (z, q, n) = (high, high * high, 1.0 / freedom);
        return Ok(z * (1.0 + n * ((q + 1.0) / 4.0 + n * ((5.0 * q + 16.0) * q + 3.0) / 96.0)));
    }
    // The law's tails are wider than the normal's: climb, then halve.
    let mut low = 0.0;
    while below(-high, freedom) > tail {
        low = high;
        high *= 2.0;
    }
    while high - low > 4.0 * f64::EPSILON * high {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if below(-middle, freedom) > tail {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(0.5 * (low + high))
}
