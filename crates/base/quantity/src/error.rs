//! Why a text was not accepted, in words a person can act on.

use std::fmt;

use crate::exact::Exact;
use crate::{Kind, Unit};

/// A text that was not accepted, with the place and the reason.
///
/// [`Display`](fmt::Display) words it as one sentence with the way out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParseError {
    /// The text exactly as it was typed.
    pub text: String,
    /// Where the trouble starts: 1 for the first character.
    pub column: usize,
    /// What the trouble is.
    pub reason: Reason,
}

/// What was wrong with a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Nothing but space.
    Empty,
    /// More characters than anyone needs for one quantity.
    TooLong {
        /// Characters typed.
        length: usize,
        /// Characters accepted.
        limit: usize,
    },
    /// Something else stands where a number, or the rest of one, should be.
    NotANumber,
    /// Something stands behind a number that has no unit.
    MoreThanANumber,
    /// More than one decimal mark, so one of them may be meant to group thousands.
    AmbiguousSeparators,
    /// More digits than are read exactly.
    TooManyDigits,
    /// A fraction over nothing.
    ZeroDenominator,
    /// A unit that is not known here.
    UnknownUnit {
        /// The unit as typed.
        unit: String,
        /// What was to be entered.
        wanted: Kind,
    },
    /// A known unit, of something else.
    WrongKind {
        /// The unit as typed.
        unit: String,
        /// What that unit measures.
        found: Kind,
        /// What was to be entered.
        wanted: Kind,
    },
}

impl std::error::Error for ParseError {}

impl fmt::Display for ParseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let column = self.column;
        let text = printable(&self.text);
        match &self.reason {
            Reason::Empty => write!(
                f,
                "nothing is written, from column {column} on: write a number, and its unit if it \
                 is not the one shown"
            ),
            Reason::TooLong { length, limit } => write!(
                f,
                "{length} characters are too many, at most {limit} are read and column {column} \
                 is beyond: write one number and its unit"
            ),
            Reason::NotANumber => write!(
                f,
                "“{text}” is not a number at column {column}: write it in plain digits, such as \
                 0.33, 5/16 or 5-5/16, with the unit after it"
            ),
            Reason::MoreThanANumber => write!(
                f,
                "“{text}” has something behind its number at column {column}: write the number alone"
            ),
            Reason::AmbiguousSeparators => write!(
                f,
                "“{text}” has a second decimal mark at column {column}: keep one comma or point, \
                 and do not group thousands"
            ),
            Reason::TooManyDigits => write!(
                f,
                "“{text}” has more than {} digits, from column {column} on: write fewer",
                Exact::DIGITS
            ),
            Reason::ZeroDenominator => write!(
                f,
                "“{text}” divides by zero at column {column}: write the fraction again"
            ),
            Reason::UnknownUnit { unit, wanted } => write!(
                f,
                "“{}” at column {column} of “{text}” is not a unit known here: write {wanted} in \
                 {}",
                printable(unit),
                symbols(*wanted)
            ),
            Reason::WrongKind {
                unit,
                found,
                wanted,
            } => write!(
                f,
                "“{}” at column {column} of “{text}” is the unit of {found}: write {wanted} in {}",
                printable(unit),
                symbols(*wanted)
            ),
        }
    }
}

/// The text with line breaks and other control characters made visible.
fn printable(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .collect()
}

/// "m, mm or in".
fn symbols(kind: Kind) -> String {
    let all: Vec<_> = Unit::ALL
        .iter()
        .filter(|u| u.kind() == kind)
        .map(|u| u.worded())
        .collect();
    match all.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => all.concat(),
    }
}
