//! Before against after: how much faster, how sure, and how many runs it takes to see it.
//!
//! The unit of comparison is a double run or a standing start, never a reading: readings of one run err alike.

mod power;
mod resample;

pub use power::{power, runs_needed};
pub use resample::{Resampled, bootstrap, every_resample, permutation};

use crate::Error;
use crate::error::{finite, not_negative, positive};
use crate::figure::{Figure, Interval, below, two_sided};
use crate::segment::real;

/// Results of one state of the craft, in short.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `count` | n | double runs or starts | |
/// | `mean` | m | of them | unit of the value |
/// | `deviation` | s | standard deviation, with `n - 1` | unit of the value |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Group {
    /// Double runs or starts.
    pub count: usize,
    /// Mean of them.
    pub mean: f64,
    /// Standard deviation, with one less than their number.
    pub deviation: f64,
}

impl Group {
    /// The results in short.
    ///
    /// Range: two results or more, not all alike.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::TooFew`], [`Error::Outside`], [`Error::NotPositive`] where all are alike: a readout's step hides
    /// their scatter.
    pub fn of(results: &[f64]) -> Result<Self, Error> {
        let count = results.len();
        if count < 2 {
            return Err(Error::TooFew {
                what: "double runs or starts",
                count,
                least: 2,
            });
        }
        for &result in results {
            finite("a result", result)?;
        }
        let mean = results.iter().sum::<f64>() / real(count);
        let squares: f64 = results.iter().map(|x| (x - mean) * (x - mean)).sum();
        let deviation = (squares / real(count - 1)).sqrt();
        Ok(Self {
            count,
            mean,
            deviation: positive("the scatter of the results", deviation)?,
        })
    }

    fn check(&self) -> Result<(), Error> {
        if self.count < 2 {
            return Err(Error::TooFew {
                what: "double runs or starts",
                count: self.count,
                least: 2,
            });
        }
        finite("the mean of the results", self.mean)?;
        positive("the scatter of the results", self.deviation).map(|_| ())
    }

    /// Square of the standard error of the mean.
    fn error(&self) -> f64 {
        self.deviation * self.deviation / real(self.count)
    }
}

/// After less before.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `difference` | D | mean after less mean before | unit of the value |
/// | `error` | se | standard error of it from the scatter of the results | unit of the value |
/// | `freedom` | nu | degrees of freedom of that | `1` |
/// | `day` | `u_day` | what two days may differ by on their own account | unit of the value |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Mean after less mean before.
    pub difference: f64,
    /// Standard error of it from the scatter of the results.
    pub error: f64,
    /// Degrees of freedom of that.
    pub freedom: f64,
    /// What two days may differ by on their own account, as a standard uncertainty.
    pub day: f64,
}

/// After less before, where their scatters may differ.
///
/// `se^2 = s1^2/n1 + s2^2/n2`, `nu = se^4 / [(s1^2/n1)^2/(n1-1) + (s2^2/n2)^2/(n2-1)]`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `before` | n1, s1 | | |
/// | `after` | n2, s2 | | |
/// | `day` | `u_day` | standard uncertainty of the difference of two days; 0 on one | unit of the value |
///
/// Range: two results or more of each, not all alike; `day >= 0`.
/// Source: `welch-1947`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::NotPositive`], [`Error::Outside`].
pub fn welch(before: &Group, after: &Group, day: f64) -> Result<Difference, Error> {
    before.check()?;
    after.check()?;
    let (a, b) = (before.error(), after.error());
    let square = a + b;
    let fourths = a * a / real(before.count - 1) + b * b / real(after.count - 1);
    Ok(Difference {
        difference: after.mean - before.mean,
        error: square.sqrt(),
        freedom: square * square / fourths,
        day: not_negative("what two days may differ by", day)?,
    })
}

/// After less before, where both scatter alike.
///
/// `s^2 = [(n1-1) s1^2 + (n2-1) s2^2] / (n1 + n2 - 2)`, `se = s sqrt(1/n1 + 1/n2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `before` | n1, s1 | | |
/// | `after` | n2, s2 | | |
/// | `day` | `u_day` | standard uncertainty of the difference of two days; 0 on one | unit of the value |
///
/// Range: two results or more of each, not all alike; `day >= 0`.
/// Source: `nist-handbook`, 1.3.5.3.
///
/// # Errors
/// [`Error::TooFew`], [`Error::NotPositive`], [`Error::Outside`].
pub fn pooled(before: &Group, after: &Group, day: f64) -> Result<Difference, Error> {
    let (deviation, freedom) = pooled_deviation(before, after)?;
    let share = 1.0 / real(before.count) + 1.0 / real(after.count);
    Ok(Difference {
        difference: after.mean - before.mean,
        error: deviation * share.sqrt(),
        freedom,
        day: not_negative("what two days may differ by", day)?,
    })
}

fn pooled_deviation(before: &Group, after: &Group) -> Result<(f64, f64), Error> {
    before.check()?;
    after.check()?;
    let part = |group: &Group| real(group.count - 1) * group.deviation * group.deviation;
    let freedom = real(before.count + after.count - 2);
    Ok((((part(before) + part(after)) / freedom).sqrt(), freedom))
}

impl Difference {
    /// Student's ratio of the difference to its error from scatter.
    ///
    /// `t = D / se`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | t | | `1` |
    ///
    /// Range: any.
    /// Source: `welch-1947`.
    pub fn ratio(&self) -> f64 {
        self.difference / self.error
    }

    /// Probability of such a difference, either way, from scatter alone.
    ///
    /// `p = 2 P(T_nu < -|t|)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | p | | `1` |
    ///
    /// Range: any.
    /// Source: `welch-1947`.
    pub fn chance(&self) -> f64 {
        2.0 * below(-self.ratio().abs(), self.freedom)
    }

    /// Half the width of the interval of the difference.
    ///
    /// `U = t_p(nu') sqrt(se^2 + u_day^2)`, `nu' = nu (se^2 + u_day^2)^2 / se^4`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `level` | p | probability, usually 0.95 | `1` |
    /// | `returns` | U | half the width | unit of the value |
    ///
    /// Range: `0 < p < 1`.
    /// Source: `jcgm-100`, G.2b with the day's part taken as known.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn half_width(&self, level: f64) -> Result<f64, Error> {
        let all = self.error.hypot(self.day);
        let freedom = self.freedom * (all / self.error).powi(4);
        Ok(two_sided(level, freedom)? * all)
    }

    /// The interval of the difference.
    ///
    /// `D - U` to `D + U`
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
            low: self.difference - half,
            high: self.difference + half,
        })
    }
}

/// How large a difference is beside the scatter of one result.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `plain` | difference over the pooled deviation | `1` |
/// | `corrected` | for few results | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// Difference over the pooled deviation.
    pub plain: f64,
    /// Corrected for few results.
    pub corrected: f64,
}

/// How large a difference is beside the scatter of one result.
///
/// `d = D / s`, `g = d [1 - 3 / (4 (n1 + n2 - 2) - 1)]`
///
/// Range: two results or more of each, not all alike.
/// Source: `hedges-1981`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::NotPositive`], [`Error::Outside`].
pub fn size(before: &Group, after: &Group) -> Result<Size, Error> {
    let (deviation, freedom) = pooled_deviation(before, after)?;
    let plain = (after.mean - before.mean) / deviation;
    Ok(Size {
        plain,
        corrected: plain * (1.0 - 3.0 / (4.0 * freedom - 1.0)),
    })
}

/// Whether a measurement and a prediction agree.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `apart` | measured less predicted | unit of the value |
/// | `uncertainty` | of that | unit of the value |
/// | `ratio` | of the two | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Agreement {
    /// Measured less predicted.
    pub apart: f64,
    /// Standard uncertainty of that.
    pub uncertainty: f64,
    /// One over the other.
    pub ratio: f64,
}

impl Agreement {
    /// Whether they agree within what both can tell: the ratio is within two.
    pub fn agrees(&self) -> bool {
        self.ratio.abs() < 2.0
    }
}

/// A measurement against a prediction.
///
/// `z = (x - y) / sqrt(u_x^2 + u_y^2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `measured` | x | with what it may be off by | |
/// | `predicted` | y | of the model | unit of the value |
/// | `uncertainty` | `u_y` | of the model, what it was tuned to included | unit of the value |
///
/// Range: `u_y > 0`.
/// Source: `jcgm-100`, equation 10; that two standard uncertainties are the limit is common practice.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn agreement(measured: &Figure, predicted: f64, uncertainty: f64) -> Result<Agreement, Error> {
    let apart = measured.value - finite("a prediction", predicted)?;
    let model = positive("the uncertainty of a prediction", uncertainty)?;
    let uncertainty = measured.uncertainty().hypot(model);
    Ok(Agreement {
        apart,
        uncertainty,
        ratio: apart / uncertainty,
    })
}
