//! A life whose shape is known, and whose scale is learnt without a grid.

use crate::Error;
use crate::error::{not_negative, positive, within};
use crate::posterior::SHAPES;
use crate::records::Record;
use crate::search::{gamma_quantile, root};

/// Failures that a guess by two chances may weigh as much as.
const COUNTS: (f64, f64) = (0.1, 1e4);

/// The scale's law where the shape is known: `η^(−β)` has a gamma law.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `shape` | β | known | `1` |
/// | `count` | a | failures it stands for | `1` |
/// | `sum` | b | sum of `t^β` it stands for | unit of time to the shape |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnownShape {
    /// The shape, known.
    pub shape: f64,
    /// Failures it stands for.
    pub count: f64,
    /// Sum of `t^β` it stands for.
    pub sum: f64,
}

impl KnownShape {
    /// A guess that weighs as much as some failures at one age.
    ///
    /// `a = n`, `b = n t^β`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `shape` | β | known | `1` |
    /// | `count` | n | failures it weighs as much as | `1` |
    /// | `age` | t | their age | unit of time |
    ///
    /// Range: shape 0.05 to 50; count and age above 0.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotPositive`].
    pub fn guess(shape: f64, count: f64, age: f64) -> Result<Self, Error> {
        let shape = within("shape of the life", shape, SHAPES.0, SHAPES.1)?;
        let count = positive("failures the guess weighs", count)?;
        let age = positive("age of the guess", age)?;
        Ok(Self {
            shape,
            count,
            sum: count * age.powf(shape),
        })
    }

    /// A guess by two chances: the scale lies above one value with even odds, above a lesser one nearly for sure.
    ///
    /// `P(a, b η^(−β)) = 0.5` at the one and `0.95` at the other, P the incomplete gamma function
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `shape` | β | known; at one the scale is the mean life | `1` |
    /// | `even` | | scale exceeded in 50 of 100 | unit of time |
    /// | `sure` | | scale exceeded in 95 of 100 | unit of time |
    ///
    /// Range: shape 0.05 to 50; scales above 0, as far apart as a guess of 0.1 to 10 000 failures puts them.
    /// Source: `nist-handbook-reliability`.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotPositive`].
    pub fn of_chances(shape: f64, even: f64, sure: f64) -> Result<Self, Error> {
        let shape = within("shape of the life", shape, SHAPES.0, SHAPES.1)?;
        let even = positive("scale exceeded in 50 of 100", even)?;
        let sure = positive("scale exceeded in 95 of 100", sure)?;
        let apart = |count: f64| gamma_quantile(count, 0.95) / gamma_quantile(count, 0.5);
        let ratio = within(
            "ratio of the scales exceeded in 50 and in 95 of 100, to the shape",
            (even / sure).powf(shape),
            apart(COUNTS.1),
            apart(COUNTS.0),
        )?;
        let near = |log_count: f64| ratio - apart(log_count.exp());
        let count = root(near, COUNTS.0.ln(), COUNTS.1.ln()).exp();
        Ok(Self {
            shape,
            count,
            sum: gamma_quantile(count, 0.5) * even.powf(shape),
        })
    }

    /// With one record more.
    ///
    /// `a + 1` for a failure, `b + t^β` for either
    ///
    /// Range: ages above 0.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::NotPositive`]; [`Error::Outside`] for an interval, which has no such law.
    pub fn with(self, record: Record) -> Result<Self, Error> {
        record.check()?;
        let (more, age) = match record {
            Record::Failed(age) => (1.0, age),
            Record::Good(age) => (0.0, age),
            Record::Between(good, worn) => {
                return Err(Error::Outside {
                    what: "width of the interval",
                    value: worn - good,
                    low: 0.0,
                    high: 0.0,
                });
            }
        };
        Ok(Self {
            count: self.count + more,
            sum: self.sum + age.powf(self.shape),
            ..self
        })
    }

    /// Chance that a part of some age gets through more.
    ///
    /// `[(b + s^β) / (b + (s + u)^β)]^a`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `age` | s | it has run | unit of time |
    /// | `more` | u | it is to run | unit of time |
    /// | `returns` | | chance | `1` |
    ///
    /// Range: both 0 or above. The age is evidence of its own and is not to be among the records.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Negative`].
    pub fn through(&self, age: f64, more: f64) -> Result<f64, Error> {
        let age = not_negative("age", age)?;
        let more = not_negative("time to run", more)?;
        let until = |t: f64| self.sum + t.powf(self.shape);
        Ok((until(age) / until(age + more)).powf(self.count))
    }
}
