//! Who works, and when: how many pairs of hands, at which hours of the week.

use jiff::civil::{Time, Weekday};

/// Who works on the craft, and when they are there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Crew {
    /// Pairs of hands.
    pub hands: u16,
    /// When they are there; empty when nobody said, and then they are taken to be there all the
    /// time.
    pub shifts: Vec<Shift>,
}

/// Hours of some days of every week. Where they end no later than they begin, they end the day
/// after.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shift {
    /// The days they begin on, Monday first, each once.
    pub days: Vec<Weekday>,
    /// When they begin.
    pub from: Time,
    /// When they end.
    pub until: Time,
}
