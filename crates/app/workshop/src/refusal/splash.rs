//! Why something about a water test is not taken.

use std::fmt;

/// What cannot be so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Splash {
    /// The craft may not go on the water.
    MayNotFloat {
        /// What holds it up, a few of it.
        blocks: Vec<String>,
        /// How much more does.
        more: usize,
    },
    /// An outing that the job does not have.
    NoSuchOuting {
        /// The key asked for.
        key: String,
    },
    /// A log that the job does not have.
    NoSuchLog {
        /// The beginning of its digest.
        short: String,
    },
    /// No digest of a file.
    BadDigest {
        /// As sent, shortened.
        text: String,
    },
    /// This very file is in the record.
    HereAlready {
        /// The file's name there.
        name: String,
        /// The outing it belongs to.
        outing: String,
    },
    /// Columns that do not belong together.
    BadColumns {
        /// The stretch, from 1.
        stretch: usize,
        /// What is wrong with it.
        what: &'static str,
    },
    /// More samples than a job keeps.
    TooLong {
        /// How many there are.
        samples: usize,
        /// The most there can be.
        most: usize,
    },
    /// No unit of speed.
    NotASpeed {
        /// The field it stands in.
        field: &'static str,
    },
    /// A run that is not inside one unbroken stretch of its log.
    OutsideTheLog {
        /// From, in minutes and seconds since the log began.
        from: String,
        /// Until, alike.
        until: String,
    },
    /// A run that ends before it begins.
    Backwards {
        /// From, in minutes and seconds since the log began.
        from: String,
        /// Until, alike.
        until: String,
    },
    /// Two runs that share time.
    Overlap {
        /// When the later one begins, in minutes and seconds since the log began.
        at: String,
    },
    /// More of something than an outing can have.
    TooMany {
        /// Of what.
        what: &'static str,
        /// The most there can be.
        most: usize,
    },
    /// Something said of the columns of a table that is not understood.
    BadLayout {
        /// As typed, shortened.
        text: String,
    },
    /// A log that cannot be used as a whole.
    Log {
        /// What is wrong and the way out.
        words: String,
    },
}

impl Splash {
    /// The field it stands in.
    pub fn field(&self) -> &'static str {
        match self {
            Self::MayNotFloat { .. } => "side",
            Self::NoSuchOuting { .. } => "outing",
            Self::NotASpeed { field } => field,
            Self::OutsideTheLog { .. } | Self::Backwards { .. } | Self::Overlap { .. } => "from",
            Self::TooMany { .. } => "value",
            _ => "log",
        }
    }
}

impl fmt::Display for Splash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::MayNotFloat { blocks, more } => {
                write!(
                    f,
                    "The craft may not go on the water yet: {}",
                    blocks.join("; ")
                )?;
                if *more > 0 {
                    write!(f, "; and {more} more")?;
                }
                f.write_str(". See to that on Assemble first, then run it.")
            }
            Self::NoSuchOuting { key } => {
                write!(f, "There is no outing “{key}” here. Describe it first.")
            }
            Self::NoSuchLog { short } => write!(
                f,
                "The log {short} is not in this job, or was put away. Undo, or read it again.",
            ),
            Self::BadDigest { text } => write!(
                f,
                "“{text}” is no digest of a file: that is 64 digits and letters a to f. Copy it whole.",
            ),
            Self::HereAlready { name, outing } => write!(
                f,
                "This very file is in the job already, as “{name}” of “{outing}”. Put it away \
                 there first, or choose another.",
            ),
            Self::BadColumns { stretch, what } => write!(
                f,
                "Stretch {stretch} of the log does not hold together: {what}. Read the file again.",
            ),
            Self::TooLong { samples, most } => write!(
                f,
                "{samples} samples are more than a job keeps, which is {most}. Cut the log to the runs.",
            ),
            Self::NotASpeed { .. } => {
                f.write_str("This is no unit of speed: write mph, km/h, kn or m/s.")
            }
            Self::OutsideTheLog { from, until } => write!(
                f,
                "{from} to {until} is not inside one unbroken stretch of this log. Look at the \
                 picture of the log, and choose a window without a gap.",
            ),
            Self::Backwards { from, until } => write!(
                f,
                "A run from {from} to {until} ends before it begins. Turn the two round.",
            ),
            Self::Overlap { at } => write!(
                f,
                "Two runs share the time from {at} on. A sample counts once: mend one of them.",
            ),
            Self::TooMany { what, most } => {
                write!(f, "There can be {most} {what} here. Take one away first.")
            }
            Self::BadLayout { text } => write!(
                f,
                "“{text}” says nothing of a column. Write such as: time 1 seconds; speed 2 mph; \
                 engine 4 rpm.",
            ),
            Self::Log { words } => f.write_str(words),
        }
    }
}
