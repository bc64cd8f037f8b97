//! Two ends instead of a point.

use crate::Error;

/// All values from one to the other, both included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
}

impl Interval {
    /// Both ends in one value.
    pub const fn point(value: f64) -> Self {
        Self {
            low: value,
            high: value,
        }
    }

    /// Whether a value lies in it, the ends included.
    pub fn contains(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// Whether the two share a value.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.low <= other.high && other.low <= self.high
    }

    /// Passes an interval with its ends in order and within the limits, refuses the rest.
    pub(crate) fn within(self, what: &'static str, limits: Self) -> Result<Self, Error> {
        if self.low.is_nan() || self.high.is_nan() || self.low > self.high {
            return Err(Error::Order {
                what,
                low: self.low,
                high: self.high,
            });
        }
        for value in [self.low, self.high] {
            if !limits.contains(value) {
                return Err(Error::Outside {
                    what,
                    value,
                    low: limits.low,
                    high: limits.high,
                });
            }
        }
        Ok(self)
    }
}
