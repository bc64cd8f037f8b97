//! What this crate refuses, with the value and the limit.

use std::fmt;

/// Why a computation was refused. Units are those of the crate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Error {
    /// A quantity that must be above zero, and finite, is not.
    NotPositive {
        /// Which quantity.
        what: &'static str,
        /// The value given.
        value: f64,
    },
    /// A quantity lies outside its range.
    Outside {
        /// Which quantity.
        what: &'static str,
        /// The value given.
        value: f64,
        /// The least accepted.
        low: f64,
        /// The greatest accepted.
        high: f64,
    },
    /// There are too few of something.
    TooFew {
        /// What there are too few of.
        what: &'static str,
        /// How many there are.
        count: usize,
        /// How many are needed.
        least: usize,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::NotPositive { what, value } => {
                write!(f, "{what} is {value}, it must be above zero")
            }
            Self::Outside {
                what,
                value,
                low,
                high,
            } => write!(f, "{what} is {value}, outside {low} to {high}"),
            Self::TooFew { what, count, least } => {
                write!(f, "{count} {what}, at least {least} are needed")
            }
        }
    }
}

impl std::error::Error for Error {}

/// The value itself, where it is finite and within `low` to `high`.
pub(crate) fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<f64, Error> {
    if value.is_finite() && (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(Error::Outside {
            what,
            value,
            low,
            high,
        })
    }
}

/// The value itself, where it is finite and above zero.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<f64, Error> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(Error::NotPositive { what, value })
    }
}
