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
    /// Of two things in order the second does not come after the first.
    Order {
        /// What must come in order.
        what: &'static str,
        /// The first.
        first: f64,
        /// The second.
        second: f64,
    },
    /// The log breaks off within what was asked for.
    Broken {
        /// Start of what was asked for, in `s`.
        from: f64,
        /// Its end, in `s`.
        to: f64,
    },
    /// What was measured contradicts what the method takes for granted.
    Contradicted {
        /// What is taken for granted.
        what: &'static str,
        /// What was found.
        value: f64,
        /// The most that may be.
        most: f64,
    },
    /// A correction does not apply.
    NoCorrection {
        /// To what.
        what: &'static str,
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
            Self::Order {
                what,
                first,
                second,
            } => write!(f, "{what}: {second} does not come after {first}"),
            Self::Broken { from, to } => write!(
                f,
                "the log breaks off between {from} s and {to} s; choose a window on one side of the break"
            ),
            Self::Contradicted { what, value, most } => write!(
                f,
                "{what} is taken for granted, and the readings miss that by {value}; {most} is the most allowed"
            ),
            Self::NoCorrection { what } => write!(f, "no correction applies to {what}"),
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

/// The value itself, where it is finite and not below zero.
pub(crate) fn not_negative(what: &'static str, value: f64) -> Result<f64, Error> {
    within(what, value, 0.0, f64::MAX)
}

/// The value itself, where it is finite.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<f64, Error> {
    within(what, value, f64::MIN, f64::MAX)
}
