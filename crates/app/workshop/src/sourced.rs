//! A number with how sure it is and where it comes from.

use clearance::Estimate;

use crate::entry::EntryId;

/// Where a value comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// Measured, in this entry.
    Measured(EntryId),
    /// The craft's manual, as stated in this entry.
    Manual {
        /// The entry that stated it.
        entry: EntryId,
        /// The manual's page; empty when not said.
        page: String,
    },
    /// A published standard, by its key in the bibliography.
    Standard(&'static str),
    /// Computed from the job's entries.
    Computed {
        /// The rule, in a few words.
        formula: &'static str,
        /// How many readings went in.
        inputs: usize,
    },
    /// Common practice without a source.
    Practice,
    /// A default of ours that the person may replace.
    Assumed(&'static str),
}

/// A value, its 90 % interval where it has one, and its origin.
#[derive(Clone, Debug, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// The 90 % interval.
    pub interval: Option<(T, T)>,
    /// Where it comes from.
    pub origin: Origin,
}

impl Sourced<f64> {
    /// The value as an estimate; without an interval its ends are the value.
    pub fn estimate(&self) -> Estimate {
        let (low, high) = self.interval.unwrap_or((self.value, self.value));
        Estimate {
            median: self.value,
            low,
            high,
        }
    }
}
