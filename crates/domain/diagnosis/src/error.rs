//! What this crate refuses, with the value and the limit.

/// Why a computation was refused.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Error {
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
    /// Two lists that belong together differ in length.
    Lengths {
        /// What they are of.
        what: &'static str,
        /// How long the one is.
        count: usize,
        /// How long it has to be.
        wanted: usize,
    },
    /// What was measured carries no spread, so that every likelihood is nought or without bounds.
    Degenerate,
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

pub(crate) fn as_long(what: &'static str, count: usize, wanted: usize) -> Result<(), Error> {
    if count == wanted {
        Ok(())
    } else {
        Err(Error::Lengths {
            what,
            count,
            wanted,
        })
    }
}
