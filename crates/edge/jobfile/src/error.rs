//! Why a file does not become entries.

use std::fmt;

use workshop::refusal::Refusal;

use crate::complaint::Complaint;

/// Nothing was changed, whatever the error.
#[derive(Debug)]
pub enum Error {
    /// A line of the file is to blame.
    Line(Complaint),
    /// The job does not take it, and no line is to blame.
    Refused(Refusal),
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Line(complaint) => write!(f, "{complaint}"),
            Self::Refused(refusal) => write!(f, "{refusal}"),
        }
    }
}

impl std::error::Error for Error {}

impl From<Complaint> for Error {
    fn from(complaint: Complaint) -> Self {
        Self::Line(complaint)
    }
}

impl From<Refusal> for Error {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}
