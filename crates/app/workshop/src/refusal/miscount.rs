//! Why something about service is not taken.

use std::fmt;

use quantity::Plain;

/// What cannot be so.
#[derive(Clone, Debug, PartialEq)]
pub enum Miscount {
    /// A plain number outside its range.
    Outside {
        /// The field it stands in.
        field: &'static str,
        /// As typed and as read.
        plain: Plain,
        /// The least allowed.
        least: f64,
        /// The greatest allowed.
        greatest: f64,
    },
    /// A sort of part that the job does not have.
    NoSuchPart {
        /// The key asked for.
        key: String,
    },
    /// A piece that the job does not have.
    NoSuchPiece {
        /// The key asked for.
        key: String,
    },
    /// A task that nobody knows.
    NoSuchTask {
        /// The key asked for.
        key: String,
    },
    /// Seen or ended before it was fitted, or seen good after its end.
    Backwards {
        /// The field of the later one.
        field: &'static str,
        /// What was to come first, as typed.
        first: String,
        /// What was to come after it, as typed.
        then: String,
    },
    /// Two ages that no part wears between.
    Spread {
        /// One in ten, as typed.
        tenth: String,
        /// Half, as typed.
        half: String,
    },
    /// A piece from elsewhere that begins its own hours at another figure than 0.
    OwnHours {
        /// As typed.
        fitted: String,
    },
    /// A figure without the one it belongs to.
    Half {
        /// The field that is empty.
        field: &'static str,
        /// The one that is not, in words.
        beside: &'static str,
    },
    /// A meter that would run backwards.
    MeterBack {
        /// As typed.
        hours: String,
        /// The reading it does not go with.
        there: String,
        /// Of this day.
        on: String,
    },
    /// No day of a year.
    NoMonthDay {
        /// The field it stands in.
        field: &'static str,
        /// As typed.
        text: String,
    },
    /// A rule that never falls due.
    Never,
    /// A rule that says nothing but general practice's own key, without a name.
    OwnTask {
        /// The key.
        key: String,
    },
    /// A job to close whose recheck is not done, or not well.
    Open {
        /// Points nobody looked at.
        left: usize,
        /// Points that were not as they should be.
        amiss: usize,
    },
    /// More of something than a job keeps.
    TooMany {
        /// Of what.
        what: &'static str,
        /// The most there can be.
        most: usize,
    },
}

impl Miscount {
    /// The field it stands in, where it is one of a form.
    pub(super) fn field(&self) -> Option<&'static str> {
        match self {
            Self::Outside { field, .. }
            | Self::Backwards { field, .. }
            | Self::Half { field, .. }
            | Self::NoMonthDay { field, .. } => Some(field),
            Self::NoSuchPart { .. } => Some("part"),
            Self::NoSuchTask { .. } => Some("task"),
            Self::OwnHours { .. } => Some("fitted"),
            Self::Spread { .. } => Some("tenth"),
            Self::MeterBack { .. } | Self::Never => Some("hours"),
            Self::OwnTask { .. } => Some("name"),
            Self::NoSuchPiece { .. } | Self::Open { .. } | Self::TooMany { .. } => None,
        }
    }

    /// What was refused, as typed, where that is one value.
    pub fn refused(&self) -> Option<&str> {
        match self {
            Self::Outside { plain, .. } => Some(plain.text.trim()),
            Self::NoSuchPart { key } | Self::NoSuchTask { key } => Some(key),
            Self::OwnHours { fitted } => Some(fitted),
            Self::NoMonthDay { text, .. } => Some(text),
            _ => None,
        }
    }
}

impl fmt::Display for Miscount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outside {
                plain,
                least,
                greatest,
                ..
            } => write!(
                f,
                "“{}” is outside {least} to {greatest}. Check the decimal point.",
                plain.text.trim()
            ),
            Self::NoSuchPart { key } => write!(
                f,
                "There is no sort of part “{key}” here. Describe it first, or choose another."
            ),
            Self::NoSuchPiece { key } => write!(f, "There is no piece “{key}” here."),
            Self::NoSuchTask { key } => write!(
                f,
                "There is no task “{key}” here. Choose one of the list, or make a rule of your own first."
            ),
            Self::Backwards { first, then, .. } => write!(
                f,
                "“{then}” is not after “{first}”. Look at the engine hours again: fitted, last seen good, \
                 ended, in that order."
            ),
            Self::Spread { tenth, half } => write!(
                f,
                "One in ten by {tenth} and half by {half}: no part lasts so. Half is usually one and a half \
                 to five times one in ten."
            ),
            Self::OwnHours { fitted } => write!(
                f,
                "A piece of another craft counts its own hours, from 0, not from “{fitted}”. Write 0, and \
                 the hours it ran as its end."
            ),
            Self::Half { beside, .. } => {
                write!(f, "{beside} stands alone. Fill in both, or neither.")
            }
            Self::MeterBack { hours, there, on } => write!(
                f,
                "“{hours}” does not go with {there} on {on}: an hour meter never runs backwards. Look at \
                 figure and day again; for a meter that was changed, add up old and new."
            ),
            Self::NoMonthDay { text, .. } => write!(
                f,
                "“{text}” is no day of a year. Write month and day, such as 05-01 for the first of May."
            ),
            Self::Never => f.write_str(
                "Nothing says when this falls due. State hours, months, a mishap or an edge of the season.",
            ),
            Self::OwnTask { key } => write!(f, "A task of your own, “{key}”, needs a name."),
            Self::Open { left, amiss } => {
                f.write_str("The job cannot be closed: ")?;
                match (left, amiss) {
                    (0, amiss) => write!(f, "{amiss} not as it should be")?,
                    (left, 0) => write!(f, "{left} not looked at yet")?,
                    (left, amiss) => {
                        write!(f, "{left} not looked at yet, {amiss} not as it should be")?;
                    }
                }
                f.write_str(". Put right what is amiss, look at it again, then close it.")
            }
            Self::TooMany { what, most } => write!(
                f,
                "A job keeps at most {most} {what}. Put away what is not needed, or begin a new job."
            ),
        }
    }
}
