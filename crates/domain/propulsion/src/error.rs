//! What cannot be reckoned, and why.

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// A quantity lies outside what the formula holds for.
    Outside {
        /// The quantity's name, as a person would say it.
        what: &'static str,
        /// Its value, in SI.
        value: f64,
        /// The least allowed.
        low: f64,
        /// The greatest allowed.
        high: f64,
    },
    /// A balance has no solution between the ends that were searched.
    NoBalance {
        /// What was to be in balance.
        what: &'static str,
        /// Where the search began, in SI.
        low: f64,
        /// Where it ended.
        high: f64,
    },
}

/// Refuses a value outside `low..=high`; what is not a number is outside.
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
