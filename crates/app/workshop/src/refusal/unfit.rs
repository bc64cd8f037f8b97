//! Why something about a joint that is no circle of screws is not taken.

use std::fmt;

use crate::fits::FitStop;

/// What makes no sense, or would do harm.
#[derive(Clone, Debug, PartialEq)]
pub enum Unfit {
    /// Ticks of a joint that is not there.
    NoSuchFit {
        /// The key asked for.
        key: String,
    },
    /// A field that joints of this kind do not have.
    NotOfKind {
        /// The field.
        field: &'static str,
        /// The kind's word.
        kind: &'static str,
        /// The fields it has.
        fields: &'static [&'static str],
    },
    /// Something to tick that this joint does not have.
    NoSuchCheck {
        /// As typed.
        text: String,
        /// What it has.
        checks: Vec<&'static str>,
    },
    /// A reading where nothing is read.
    NothingToRead {
        /// As typed.
        text: String,
    },
    /// An amount without its unit.
    AmountWithoutUnit {
        /// As typed.
        text: String,
    },
    /// Which way a bush faces.
    BushHasNoFront,
    /// An impeller tightened that must not be yet.
    Stops {
        /// Why.
        stop: FitStop,
    },
}

impl Unfit {
    /// The field it stands in, where it stands in one.
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Self::NotOfKind { field, .. } => Some(field),
            Self::NoSuchCheck { .. } | Self::Stops { .. } => Some("checked"),
            Self::NothingToRead { .. } => Some("reading"),
            Self::AmountWithoutUnit { .. } => Some("amount"),
            Self::BushHasNoFront => Some("front"),
            Self::NoSuchFit { .. } => None,
        }
    }

    /// What was refused, as typed.
    pub fn refused(&self) -> Option<&str> {
        match self {
            Self::NoSuchFit { key: text }
            | Self::NoSuchCheck { text, .. }
            | Self::NothingToRead { text }
            | Self::AmountWithoutUnit { text } => Some(text),
            _ => None,
        }
    }
}

impl fmt::Display for Unfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchFit { key } => {
                write!(
                    f,
                    "There is no joint “{key}” in this job. Describe it first."
                )
            }
            Self::NotOfKind {
                field,
                kind,
                fields,
            } => write!(
                f,
                "A joint of the kind “{kind}” has no “{field}”. It has: {}. Empty this, or choose \
                 another kind.",
                fields.join(", ")
            ),
            Self::NoSuchCheck { text, checks } => write!(
                f,
                "“{text}” is nothing to tick at this joint. It has: {}.",
                checks.join(", ")
            ),
            Self::NothingToRead { text } => write!(
                f,
                "Nothing is measured at this joint, so “{text}” belongs to another. Empty it."
            ),
            Self::AmountWithoutUnit { text } => write!(
                f,
                "“{text}” of what? Write the amount with its unit, such as 30 g or 60 mL."
            ),
            Self::BushHasNoFront => f.write_str(
                "A bush has no front. Empty this, or say that it is a bearing; where a bush is to \
                 be turned, say so under its place.",
            ),
            Self::Stops { stop } => write!(f, "Do not tighten yet. {stop}"),
        }
    }
}
