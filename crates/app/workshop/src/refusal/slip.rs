//! Why something about the parts around the gap is not taken.

use std::fmt;

use crate::inspect::Flaw;
use crate::refusal::{Seal, Skew};

/// What makes no sense, or is no work for the bench.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Slip {
    /// A reading that cannot be understood.
    BadReading {
        /// The field it stands in.
        field: &'static str,
        /// The part that was not understood.
        part: String,
    },
    /// A sheet on which nothing is filled in.
    Blank {
        /// The first of its fields.
        field: &'static str,
    },
    /// The depth of a groove that is not felt.
    GrooveOfNone,
    /// A rotor that turns free and rubs.
    FreeAndRubs,
    /// A flaw that no file mends.
    NoFileJob {
        /// The flaw.
        flaw: Flaw,
    },
    /// A sound part that is dressed, sent out or scrapped.
    SoundToDo,
    /// A blade the impeller does not have.
    NoSuchBlade {
        /// As typed.
        text: String,
        /// How many blades there are, where that is known.
        blades: Option<u8>,
    },
    /// A vane that is no number.
    NoSuchVane {
        /// As typed.
        text: String,
    },
    /// One of several, of what there is only one of.
    OnlyOne {
        /// As typed.
        text: String,
    },
    /// A finding that is not there.
    NoSuchFinding {
        /// The key asked for.
        key: String,
    },
    /// A micrometer over two tips, where no tip stands across from another.
    NoTipAcross {
        /// How many blades there are.
        blades: u8,
    },
    /// A second visit with the gap of this job.
    ThisVisitTwice,
    /// More of something than can be reckoned with.
    TooMany {
        /// The field it stands in.
        field: &'static str,
        /// How many.
        count: usize,
        /// The most.
        most: usize,
    },
    /// About compounds, seals and metals.
    Seal(Seal),
    /// About the driveline.
    Skew(Skew),
}

impl Slip {
    /// The field it stands in, where it stands in one.
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Self::BadReading { field, .. }
            | Self::Blank { field }
            | Self::TooMany { field, .. } => Some(field),
            Self::GrooveOfNone => Some("groove"),
            Self::FreeAndRubs => Some("rubs"),
            Self::NoFileJob { .. } | Self::SoundToDo => Some("todo"),
            Self::NoSuchBlade { .. } | Self::NoSuchVane { .. } | Self::OnlyOne { .. } => {
                Some("which")
            }
            Self::NoTipAcross { .. } => Some("method"),
            Self::ThisVisitTwice => Some("gap"),
            Self::NoSuchFinding { .. } => None,
            Self::Seal(seal) => seal.field(),
            Self::Skew(skew) => Some(skew.field()),
        }
    }

    /// What was refused, as typed.
    pub fn refused(&self) -> Option<&str> {
        match self {
            Self::BadReading { part: text, .. }
            | Self::NoSuchBlade { text, .. }
            | Self::NoSuchVane { text }
            | Self::OnlyOne { text }
            | Self::NoSuchFinding { key: text } => Some(text),
            Self::Seal(seal) => seal.refused(),
            Self::Skew(skew) => skew.refused(),
            _ => None,
        }
    }
}

impl fmt::Display for Slip {
    #[expect(
        clippy::too_many_lines,
        reason = "one sentence per variant, read as a list"
    )]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BadReading { part, .. } => write!(
                f,
                "“{part}” is not understood. Write 13-14 (13 goes, 14 won’t), 13 drags, <10 (10 \
                 won’t go) or >20 (20 goes).",
            ),
            Self::Blank { .. } => {
                f.write_str("Nothing is filled in. Fill in one thing at least; the rest may wait.")
            }
            Self::GrooveOfNone => f.write_str(
                "A depth, and no groove is felt. Say that one is felt, or empty the depth.",
            ),
            Self::FreeAndRubs => f.write_str(
                "It cannot turn free and rub. Say that it rubs, or empty where it does.",
            ),
            Self::NoFileJob { flaw } => {
                let why = match flaw {
                    Flaw::RootCrack => "A crack at the root grows until the blade lets go",
                    Flaw::MissingPiece => {
                        "What is missing cannot be filed back, and leaves the \
                                           impeller out of balance"
                    }
                    Flaw::TipRounded => "A file on the tip widens the gap for good",
                    _ => "No eye sets a blade’s angle true again",
                };
                write!(
                    f,
                    "{why}: this is no work for a file. Send it out to someone who does such \
                     repairs, or scrap it. Common practice, no source."
                )
            }
            Self::SoundToDo => f.write_str(
                "Nothing was found, so nothing is to do. Say what is wrong, or fit it as it is.",
            ),
            Self::NoSuchBlade {
                text,
                blades: Some(blades),
            } => write!(
                f,
                "“{text}” names no blade: this impeller has {blades}, lettered from A. Write A, or \
                 A B for several."
            ),
            Self::NoSuchBlade { text, blades: None } => write!(
                f,
                "“{text}” names no blade. Write its letter, A to H, or A B for several."
            ),
            Self::NoSuchVane { text } => write!(
                f,
                "“{text}” names no vane. Number them with the clock from 12, 1 to 40, and write 3, \
                 or 3 4 for several."
            ),
            Self::OnlyOne { text } => write!(
                f,
                "There is one of these only, so “{text}” says too much here. Empty this, and write \
                 where on it under the place."
            ),
            Self::NoSuchFinding { key } => {
                write!(f, "There is no finding “{key}” in this job. Note it first.")
            }
            Self::NoTipAcross { blades } => write!(
                f,
                "With {blades} blades no tip stands across from another, so a micrometer reads too \
                 small. Take a ring or a tape round the tips, or say that it was another way."
            ),
            Self::ThisVisitTwice => f.write_str(
                "One visit has the gap of this job already. Write the gap that was noted at this \
                 one.",
            ),
            Self::Seal(seal) => write!(f, "{seal}"),
            Self::Skew(skew) => write!(f, "{skew}"),
            Self::TooMany { count, most, .. } => write!(
                f,
                "{count} are too many: at most {most} are looked at together. Leave some out."
            ),
        }
    }
}
