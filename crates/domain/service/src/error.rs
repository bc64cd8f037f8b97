//! What this crate refuses, with the value and the limit.

/// Why a computation was refused.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Error {
    /// A quantity has to be finite and above zero.
    NotPositive {
        /// Which quantity.
        what: &'static str,
        /// The value given.
        value: f64,
    },
    /// A quantity has to be finite and not below zero.
    Negative {
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
    /// A part was found worn no later than it was last good.
    Backwards {
        /// Last good.
        good: f64,
        /// Found worn.
        worn: f64,
    },
    /// An opinion of two ages fits no life: the tenth has to come first, and not too near nor too far before.
    Opinion {
        /// Age by which half are said to be worn out.
        half: f64,
        /// Age by which one in ten is said to be.
        tenth: f64,
        /// The shape they make; below nought where the half comes first, without bound where both are one.
        shape: f64,
        /// The least shape accepted.
        low: f64,
        /// The greatest accepted.
        high: f64,
    },
    /// There is no record at all.
    NoRecord,
    /// No part has failed: the records alone bound a life from below and tell no more.
    NoneFailed,
    /// Wear does not grow in spread: the likelihood has no top within the shapes searched.
    NoTop,
    /// Prior and records contradict each other so far that nothing is left between them.
    Contradiction,
}

pub(crate) fn positive(what: &'static str, value: f64) -> Result<f64, Error> {
    if value.is_finite() && value > 0.0 {
        Ok(value)
    } else {
        Err(Error::NotPositive { what, value })
    }
}

pub(crate) fn not_negative(what: &'static str, value: f64) -> Result<f64, Error> {
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(Error::Negative { what, value })
    }
}

pub(crate) fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<f64, Error> {
    if (low..=high).contains(&value) {
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
