//! Why an act or a text is not taken: the value, the limit, the way out.

mod apart;
mod blur;
mod miscount;
mod misfitting;
mod misstep;
mod obstacle;
mod range;
mod seal;
mod skew;
mod slip;
mod snag;
mod splash;
mod unfit;

use std::fmt;

use quantity::{Entered, ParseError};

use crate::job::{Spot, blade_name};
use crate::torque::Stop;

use range::{as_read, other_unit, out_of_range, short};

pub use apart::Apart;
pub use blur::Blur;
pub use miscount::Miscount;
pub use misfitting::Misfitting;
pub use misstep::Misstep;
pub use obstacle::Obstacle;
pub use seal::Seal;
pub use skew::Skew;
pub use slip::Slip;
pub use snag::Snag;
pub use splash::Splash;
pub use unfit::Unfit;

/// What must be described before something else makes sense.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// The job itself.
    Job,
    /// Blades, positions, bore.
    Pump,
    /// The leaves.
    Leaves,
    /// At least one reading that can be used.
    Readings,
}

/// A refusal changes nothing; what was typed stays with the person.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// A text that is no quantity.
    Unreadable {
        /// The field it stands in.
        field: &'static str,
        /// What is wrong and where.
        error: ParseError,
    },
    /// A quantity outside its range.
    OutOfRange {
        /// The field it stands in.
        field: &'static str,
        /// As typed and as read.
        entered: Entered,
        /// The least allowed, SI.
        least: f64,
        /// The greatest allowed, SI.
        greatest: f64,
    },
    /// A leaf far thinner or far thicker than any there is.
    UnlikeTheLeaves {
        /// The leaf as typed and as read.
        leaf: Entered,
        /// The thinnest of the set.
        thinnest: Entered,
        /// The thickest of the set.
        thickest: Entered,
    },
    /// A count that is none, or outside its range.
    NotACount {
        /// The field it stands in.
        field: &'static str,
        /// As typed.
        text: String,
        /// What may stand there.
        allowed: &'static str,
    },
    /// A word that is none of the choices.
    NotAChoice {
        /// The field it stands in.
        field: &'static str,
        /// As typed.
        text: String,
        /// The words that may stand there.
        choices: Vec<&'static str>,
    },
    /// A text that is too long or holds control characters.
    BadText {
        /// The field it stands in.
        field: &'static str,
        /// Its length in characters.
        length: usize,
        /// The most allowed.
        most: usize,
    },
    /// A field that must be filled.
    Empty {
        /// The field.
        field: &'static str,
    },
    /// The same leaf twice, or a set out of order after sorting: nothing to walk.
    LeafTwice {
        /// The leaf as typed.
        text: String,
    },
    /// The first of two figures must be smaller than the second.
    OutOfOrder {
        /// The field of the smaller one.
        field: &'static str,
        /// The smaller one as typed.
        low: String,
        /// The greater one as typed.
        high: String,
    },
    /// A reading that cannot be understood.
    BadReading {
        /// As typed.
        text: String,
        /// The part that was not understood.
        part: String,
    },
    /// A spot this pump does not have.
    NoSuchSpot {
        /// The spot asked for.
        spot: Spot,
        /// Blades of the pump.
        blades: u8,
        /// Clock positions of the pump.
        positions: u8,
    },
    /// A spot name that is none.
    BadSpot {
        /// As typed.
        text: String,
    },
    /// An id with other characters than it may have.
    BadId {
        /// As sent, shortened.
        text: String,
    },
    /// Something must be described first.
    Missing(Need),
    /// The job exists already.
    AlreadyOpen,
    /// Another job has this id.
    OtherTitle {
        /// The job's title here.
        here: String,
        /// The title brought.
        there: String,
    },
    /// The job is there already, and follows another job than the one brought, or none.
    FollowsOther {
        /// The job it follows here.
        here: Option<String>,
        /// The job it follows as it is brought.
        there: String,
    },
    /// A thread that is none, or has no head in the tables.
    BadThread {
        /// What the joint's own rules say.
        error: joint::Error,
    },
    /// There is no such joint.
    NoSuchJoint {
        /// The key asked for.
        key: String,
    },
    /// More screws than there can be.
    TooMany {
        /// The field it stands in.
        field: &'static str,
        /// How many were counted.
        number: u8,
        /// How many there can be.
        most: u8,
        /// Of what.
        of: &'static str,
    },
    /// A torque and a turn for the same joint.
    TwoWays {
        /// The field it stands in.
        field: &'static str,
    },
    /// Stand-ins are not torqued.
    TemporaryTorqued,
    /// A pass goes round when every screw is in.
    NotAllIn {
        /// How many are in.
        in_place: u8,
        /// How many there are.
        of: u8,
    },
    /// Something is wrong with the figure itself.
    FigureStops {
        /// What.
        stop: Stop,
    },
    /// There is nothing to torque to.
    NoFigure,
    /// There is no such entry to withdraw.
    NoSuchEntry {
        /// The id asked for.
        entry: String,
    },
    /// Nothing to undo or redo.
    NothingToUndo,
    /// Nothing to restore.
    NothingToRedo,
    /// A newer program wrote in this job.
    ReadOnly {
        /// The kind that is not known here.
        kind: String,
        /// Its version.
        version: u32,
    },
    /// The readings changed since the result was shown.
    ShownIsStale,
    /// Something about the plan and its steps.
    Work(Obstacle),
    /// About the parts around the gap.
    Inspected(Slip),
    /// About the tools, or what was found at a joint.
    Tooled(Snag),
    /// About a joint that is no circle of screws.
    Unfit(Unfit),
    /// About a photo.
    Photo(Blur),
    /// About a water test.
    Water(Splash),
    /// About what to fit.
    Choice(Misfitting),
    /// Something about what is wrong.
    Search(Misstep),
    /// Something about service.
    Upkeep(Miscount),
    /// Something about an act that comes from another view of the job, or late.
    Apart(Apart),
}

impl Refusal {
    /// The field it belongs to, where it belongs to one.
    pub fn field(&self) -> Option<&'static str> {
        match self {
            Self::Unreadable { field, .. }
            | Self::OutOfRange { field, .. }
            | Self::NotACount { field, .. }
            | Self::NotAChoice { field, .. }
            | Self::BadText { field, .. }
            | Self::Empty { field }
            | Self::TooMany { field, .. }
            | Self::TwoWays { field }
            | Self::OutOfOrder { field, .. } => Some(field),
            Self::BadThread { .. } => Some("thread"),
            Self::LeafTwice { .. } => Some("thicknesses"),
            Self::BadReading { .. } | Self::UnlikeTheLeaves { .. } => Some("reading"),
            Self::NoSuchSpot { .. } | Self::BadSpot { .. } => Some("spot"),
            Self::Inspected(slip) => slip.field(),
            Self::Tooled(snag) => Some(snag.field()),
            Self::Unfit(unfit) => unfit.field(),
            Self::Photo(blur) => Some(blur.field()),
            Self::Water(splash) => Some(splash.field()),
            Self::Choice(misfitting) => Some(misfitting.field()),
            Self::Search(misstep) => Some(misstep.field()),
            Self::Upkeep(miscount) => miscount.field(),
            Self::Work(Obstacle::TooManyItems { .. }) => Some("count"),
            Self::Work(Obstacle::NoneMissing { .. }) => Some("reason"),
            _ => None,
        }
    }

    /// The same about a field of another name, where the reading that was refused stands in one.
    pub(crate) fn at(self, field: &'static str) -> Self {
        match self {
            Self::Unreadable { error, .. } => Self::Unreadable { field, error },
            Self::BadReading { part, .. } => Self::Inspected(Slip::BadReading { field, part }),
            other => other,
        }
    }
}

impl fmt::Display for Need {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Job => "Open the job first.",
            Self::Pump => "Describe the pump first: blades, clock positions, bore.",
            Self::Leaves => "Describe the leaves first: thicknesses, width, how they are led in.",
            Self::Readings => "Try a leaf first: there is no reading yet.",
        })
    }
}

impl fmt::Display for Refusal {
    #[expect(
        clippy::too_many_lines,
        reason = "one sentence per variant, read as a list"
    )]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable { error, .. } => write!(f, "{error}"),
            Self::OutOfRange {
                entered,
                least,
                greatest,
                ..
            } => out_of_range(f, entered, *least, *greatest),
            Self::UnlikeTheLeaves {
                leaf,
                thinnest,
                thickest,
            } => write!(
                f,
                "{}; your leaves are {} to {}\u{a0}{}. Check the unit and the decimal point{}.",
                as_read(leaf),
                short(thinnest.value, leaf.unit),
                short(thickest.value, leaf.unit),
                leaf.unit.symbol(),
                other_unit(leaf, thinnest.value / 4.0, thickest.value * 4.0),
            ),
            Self::NotACount { text, allowed, .. } => {
                write!(f, "“{text}” will not do here: write {allowed}.")
            }
            Self::NotAChoice { text, choices, .. } => {
                write!(
                    f,
                    "“{text}” is none of the choices: {}.",
                    choices.join(", ")
                )
            }
            Self::BadText { length, most, .. } => write!(
                f,
                "This text has {length} characters; it may have {most}, and no control characters. Shorten it.",
            ),
            Self::Empty { .. } => f.write_str("This is empty and must be filled in."),
            Self::LeafTwice { text } => {
                write!(f, "The leaf “{text}” is in the list twice. Take one out.")
            }
            Self::OutOfOrder { low, high, .. } => {
                write!(
                    f,
                    "“{low}” must be smaller than “{high}”. Swap them or mend one."
                )
            }
            Self::BadReading { text, part } => write!(
                f,
                "“{part}” in “{text}” is not understood. Write 13-14 (13 goes, 14 won’t), \
                 13 drags, <10 (10 won’t go) or >20 (20 goes).",
            ),
            Self::NoSuchSpot { spot, blades, .. } if spot.blade >= *blades => write!(
                f,
                "There is no blade {}: this pump has {blades} blades, A to {}.",
                blade_name(spot.blade),
                blade_name(blades.saturating_sub(1)),
            ),
            Self::NoSuchSpot { positions, .. } => write!(
                f,
                "There is no such place: this pump is read at {positions} clock positions."
            ),
            Self::BadSpot { text } => write!(
                f,
                "“{text}” names no spot. Write the blade’s letter and the clock, such as A 1:30.",
            ),
            Self::BadId { text } => write!(
                f,
                "“{text}” is no id: 1 to 64 lower-case letters, digits and hyphens.",
            ),
            Self::Missing(need) => write!(f, "{need}"),
            Self::AlreadyOpen => f.write_str("This job is open already. Choose another id."),
            Self::OtherTitle { here, there } => write!(
                f,
                "The job with this id is called “{here}” here, not “{there}”. Give the file \
                 another id.",
            ),
            Self::FollowsOther { here, there } => {
                let here = here
                    .as_ref()
                    .map_or_else(|| "no job".to_owned(), |here| format!("“{here}”"));
                write!(
                    f,
                    "The job with this id follows {here} here, not “{there}”, and that is said only when a job begins. Take the \
                     line out, or give the file another id.",
                )
            }
            Self::BadThread { error } => write!(f, "{error}"),
            Self::NoSuchJoint { key } => {
                write!(
                    f,
                    "There is no joint “{key}” in this job. Describe it first."
                )
            }
            Self::TooMany {
                number, most, of, ..
            } => {
                write!(
                    f,
                    "{number} is too many: {most} {of}. Count again, or mend the joint."
                )
            }
            Self::TwoWays { .. } => f.write_str(
                "A joint is tightened to a torque or by a turn, not both. Empty one of the two.",
            ),
            Self::TemporaryTorqued => f.write_str(
                "Stand-in screws are not torqued. Put the right ones in and count them first.",
            ),
            Self::NotAllIn { in_place, of } => write!(
                f,
                "{in_place} of {of} are in. Put all in by hand until each seats, then begin the passes."
            ),
            Self::FigureStops { stop } => write!(f, "Do not torque yet. {stop}"),
            Self::NoFigure => f.write_str(
                "There is no figure to torque to. State the manual’s torque, or a turn after \
                 contact, under the joint.",
            ),
            Self::NoSuchEntry { entry } => {
                write!(f, "There is no entry “{entry}” here to withdraw.")
            }
            Self::NothingToUndo => f.write_str("There is nothing to undo."),
            Self::NothingToRedo => f.write_str("There is nothing to restore."),
            Self::Work(obstacle) => write!(f, "{obstacle}"),
            Self::Inspected(slip) => write!(f, "{slip}"),
            Self::Tooled(snag) => write!(f, "{snag}"),
            Self::Unfit(unfit) => write!(f, "{unfit}"),
            Self::Photo(blur) => write!(f, "{blur}"),
            Self::Water(splash) => write!(f, "{splash}"),
            Self::Choice(misfitting) => write!(f, "{misfitting}"),
            Self::Search(misstep) => write!(f, "{misstep}"),
            Self::Upkeep(miscount) => write!(f, "{miscount}"),
            Self::Apart(apart) => write!(f, "{apart}"),
            Self::ReadOnly { kind, version } => write!(
                f,
                "A newer program wrote “{kind}” (version {version}) in this job. It can be read \
                 here but not changed; open it with the newer program.",
            ),
            Self::ShownIsStale => f.write_str(
                "The readings changed since this result was shown. Look at the new result, then \
                 take it.",
            ),
        }
    }
}

impl std::error::Error for Refusal {}
