//! Why something about the parts around the gap is not taken.

use std::fmt;

use crate::draft::inspect::words::{AREAS, FLAWS};
use crate::draft::word;
use crate::inspect::{Area, Flaw, Severity};
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
    /// A flaw that cannot be found at such a part.
    NoSuchFlawHere {
        /// The part.
        area: Area,
        /// The flaw.
        flaw: Flaw,
    },
    /// A sound part that matters.
    SoundMatters,
    /// More or less than usual, and no reason.
    SeverityUnexplained {
        /// What is usual.
        usual: Severity,
    },
    /// A result that is out, said to be mended and not measured.
    MeasureAnew,
    /// No place of a clock.
    NoClock {
        /// As typed.
        text: String,
    },
    /// A field that belongs to another sort of record, or to something that is not there.
    NotOfThisSort {
        /// The field.
        field: &'static str,
        /// It is said not to be there.
        absent: bool,
    },
    /// Marks that are in line and have moved.
    InLineAndMoved,
    /// Shims without their stud.
    NoStud {
        /// As typed.
        text: String,
    },
    /// A stud twice.
    StudTwice {
        /// As typed.
        text: String,
    },
    /// None, where some are on record.
    FoundAndNone {
        /// What is on record.
        text: String,
    },
    /// Nothing of the list.
    NoSuchSupply {
        /// The key asked for.
        key: String,
    },
    /// A day for what is not on order.
    ExpectedNotOrdered,
    /// Not needed, and a step needs it.
    PlanNeedsIt,
    /// A flaw that no file mends.
    NoFileJob {
        /// The part.
        area: Area,
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
            | Self::NotOfThisSort { field, .. }
            | Self::TooMany { field, .. } => Some(field),
            Self::GrooveOfNone => Some("groove"),
            Self::FreeAndRubs => Some("rubs"),
            Self::NoFileJob { .. } | Self::SoundToDo => Some("todo"),
            Self::NoSuchFlawHere { .. } => Some("flaw"),
            Self::SoundMatters => Some("severity"),
            Self::SeverityUnexplained { .. } => Some("severity_why"),
            Self::MeasureAnew => Some("how"),
            Self::NoClock { .. } => Some("clock"),
            Self::InLineAndMoved => Some("moved"),
            Self::NoStud { .. } | Self::StudTwice { .. } => Some("shims"),
            Self::FoundAndNone { .. } => Some("state"),
            Self::NoSuchSupply { .. } => Some("supply"),
            Self::ExpectedNotOrdered => Some("expected"),
            Self::PlanNeedsIt => Some("status"),
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
            | Self::NoClock { text }
            | Self::NoStud { text }
            | Self::StudTwice { text }
            | Self::NoSuchSupply { key: text }
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
            Self::NoFileJob { area, flaw } => f.write_str(&no_file(*area, *flaw)),
            Self::NoSuchFlawHere { area, flaw } => {
                let plain = |word: &str| word.replace('-', " ");
                let can: Vec<String> = area
                    .flaws()
                    .into_iter()
                    .filter(|flaw| !matches!(flaw, Flaw::Nothing | Flaw::Other))
                    .map(|flaw| plain(word(&FLAWS, flaw)))
                    .collect();
                write!(
                    f,
                    "“{}” is not found at “{}”. There it may be: {}. Choose one of these, or \
                     another part, or “something else” in your own words.",
                    plain(word(&FLAWS, *flaw)),
                    plain(word(&AREAS, *area)),
                    can.join(", "),
                )
            }
            Self::NoClock { text } => {
                write!(f, "“{text}” is no place of a clock. Write 12, 4:30 or 9.")
            }
            Self::NotOfThisSort { absent: true, .. } => f.write_str(
                "It is said not to be there, and this says how it was. Empty one of the two.",
            ),
            Self::NotOfThisSort { .. } => f.write_str(
                "This belongs to another kind of record. Empty it, and put it on record there.",
            ),
            Self::InLineAndMoved => f.write_str(
                "Marks in line have not moved. Say that they have moved, or empty how far.",
            ),
            Self::NoStud { text } => write!(
                f,
                "“{text}” does not say which stud, or which shims. Write each stud, a colon, its \
                 shims: A: 0.5, 0.2; B: none."
            ),
            Self::StudTwice { text } => write!(
                f,
                "Stud “{text}” is named twice. Write all its shims behind one name."
            ),
            Self::FoundAndNone { text } => write!(
                f,
                "On record is: {text}. Change that, or undo it, before you say that there is none."
            ),
            Self::NoSuchSupply { key } => write!(
                f,
                "“{key}” is not on the list. Add it by its name and kind first."
            ),
            Self::ExpectedNotOrdered => f.write_str(
                "A day is expected of what is on order only. Say that it is on order, or empty the \
                 day.",
            ),
            Self::PlanNeedsIt => f.write_str(
                "A step of the plan needs it. Take it off that step on the plan’s page first, or \
                 say where it is.",
            ),
            Self::SoundMatters => f.write_str(
                "Nothing was found, so nothing holds the craft up. Say what is wrong, or leave how \
                 much it matters empty.",
            ),
            Self::SeverityUnexplained { usual } => write!(
                f,
                "It usually {}. Say why it is otherwise here, or leave it as usual. Common \
                 practice, no source.",
                match usual {
                    Severity::Float => "stops the craft from floating",
                    Severity::Throttle => "must be dealt with before full throttle",
                    Severity::Watch => "is watched only",
                }
            ),
            Self::MeasureAnew => f.write_str(
                "A result that is out is mended when it is measured anew and in. Measure it, or \
                 accept it as it is with the reason.",
            ),
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

fn no_file(area: Area, flaw: Flaw) -> String {
    let blade = matches!(area, Area::Blades | Area::Vanes);
    let why = match flaw {
        Flaw::RootCrack => "A crack at the root grows until the blade lets go",
        Flaw::MissingPiece => {
            "What is missing cannot be filed back, and leaves the impeller out of balance"
        }
        Flaw::TipRounded => "A file on the tip widens the gap for good",
        Flaw::Bent if blade => "No eye sets a blade’s angle true again",
        Flaw::Bent => "What is bent is not filed straight",
        Flaw::Cracked => "A crack grows under the file",
        _ => {
            return "A file or a brush does not mend this. Repair it at the bench, send it out, or \
                    scrap the part. Common practice, no source."
                .to_owned();
        }
    };
    format!(
        "{why}: this is no work for a file. Send it out to someone who does such repairs, or scrap \
         it. Common practice, no source."
    )
}
