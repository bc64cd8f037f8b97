//! A quantity known to lie between two values.

use crate::Error;
use crate::error::within;

/// Least and greatest value a quantity may have.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `low` | least value | unit of the quantity |
/// | `high` | greatest value | unit of the quantity |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// Least value.
    pub low: f64,
    /// Greatest value.
    pub high: f64,
}

impl Interval {
    /// The interval that holds all of some values; empty, with its ends crossed, for none.
    pub(crate) fn around(values: impl IntoIterator<Item = f64>) -> Self {
        let none = Self {
            low: f64::INFINITY,
            high: f64::NEG_INFINITY,
        };
        values.into_iter().fold(none, |all, value| Self {
            low: all.low.min(value),
            high: all.high.max(value),
        })
    }

    /// Passes an interval inside `low` to `high` with its ends in order, refuses the rest.
    pub(crate) fn check(self, what: &'static str, low: f64, high: f64) -> Result<Self, Error> {
        within(what, self.low, low, high)?;
        within(what, self.high, self.low, high)?;
        Ok(self)
    }
}
