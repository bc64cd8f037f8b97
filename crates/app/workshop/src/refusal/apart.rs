//! Refusals of an act that comes from another view of the job, or late.

use std::fmt;

/// Why an act of another view or another time is not taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Apart {
    /// Its author cannot have seen so much of the job.
    Ahead {
        /// The position they say they saw.
        seen: u64,
        /// The last there is.
        position: u64,
    },
    /// A position that is none.
    NotAPosition {
        /// As sent, shortened.
        text: String,
    },
    /// What was to be undone or restored was undone or restored by another device meanwhile.
    DoneElsewhere,
    /// A time that is none.
    NotATime {
        /// As sent, shortened.
        text: String,
    },
    /// Done later than now.
    Early {
        /// When, by the device's clock.
        at: String,
        /// The time here.
        now: String,
        /// How far clocks may differ, in minutes.
        minutes: i64,
    },
    /// Done too long ago.
    Old {
        /// When, by the device's clock.
        at: String,
        /// How long an act may wait, in days.
        days: i64,
    },
}

impl fmt::Display for Apart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ahead { seen, position } => write!(
                f,
                "This was sent from a page that shows entry {seen}; the job has {position}. Load the \
                 page again and repeat the act."
            ),
            Self::NotAPosition { text } => write!(
                f,
                "“{text}” is no entry of a job. Load the page again and repeat the act."
            ),
            Self::DoneElsewhere => f.write_str(
                "Another device did this already. Nothing was changed; look at the job as it is now.",
            ),
            Self::NotATime { text } => write!(
                f,
                "“{text}” is no time with its zone, such as 2026-05-09T12:32:00+02:00[+02:00]. Press \
                 again to keep it as done now."
            ),
            Self::Early { at, now, minutes } => write!(
                f,
                "This device says it was done on {at}; here it is {now}. Clocks may differ by {minutes} \
                 minutes. Set the clock of the device; press again to keep it as done now."
            ),
            Self::Old { at, days } => write!(
                f,
                "This was done on {at}; an act may wait {days} days on a device. Press again to keep it \
                 as done now."
            ),
        }
    }
}
