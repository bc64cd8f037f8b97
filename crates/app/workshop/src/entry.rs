//! One appended line of the job's journal.

use std::fmt;

use jiff::{Timestamp, ZonedDateTime};

use crate::choose::Choosing;
use crate::diagnose::Diagnosing;
use crate::fits::{Checked, Fit};
use crate::gap::Shown;
use crate::inspect::Inspection;
use crate::job::{LeafSet, Limits, Pump, Spot, Tried, Walk};
use crate::joints::{Fastened, Joint};
use crate::photos::Photography;
use crate::plan::Work;
use crate::refusal::Refusal;
use crate::tools::Tooling;
use crate::upkeep::Servicing;
use crate::water::Trialling;

/// Names a job in the store and in its file: lower-case letters, digits and hyphens, 1 to 64.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct JobId(String);

/// Names a joint, a step or a part within its job; as a job's id is written.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key(String);

/// Names an entry. Made by the client before it sends, so that sending twice records once.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId(String);

/// The longest id accepted, in characters.
pub const LONGEST_ID: usize = 64;

fn checked_id(text: &str) -> Result<String, Refusal> {
    let fits = (1..=LONGEST_ID).contains(&text.len())
        && text
            .bytes()
            .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-');
    if fits {
        Ok(text.to_owned())
    } else {
        Err(Refusal::BadId {
            text: text.chars().take(LONGEST_ID).collect(),
        })
    }
}

impl JobId {
    /// Reads a job's id, or refuses it.
    pub fn new(text: &str) -> Result<Self, Refusal> {
        checked_id(text).map(Self)
    }

    /// The id as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl Key {
    /// Reads a key, or refuses it.
    pub fn new(text: &str) -> Result<Self, Refusal> {
        checked_id(text).map(Self)
    }

    /// The key that the words of a name make: `Pump housing, aft` is `pump-housing-aft`.
    pub fn of_name(name: &str) -> Result<Self, Refusal> {
        let letters = name
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { ' ' });
        let words: String = letters.collect::<String>().to_ascii_lowercase();
        let key: Vec<&str> = words.split_whitespace().collect();
        let key: String = key.join("-").chars().take(LONGEST_ID).collect();
        Self::new(key.trim_end_matches('-'))
    }

    /// A key of the name's words that is not taken; `else_word` for a name without a letter.
    pub fn free(
        name: &str,
        else_word: &str,
        taken: impl Fn(&Self) -> bool,
    ) -> Result<Self, Refusal> {
        let key = Self::of_name(name).or_else(|_| Self::new(else_word))?;
        if !taken(&key) {
            return Ok(key);
        }
        let base: String = key.0.chars().take(LONGEST_ID - 4).collect();
        let numbered = (2..=999).filter_map(|n| Self::new(&format!("{base}-{n}")).ok());
        let free = numbered.into_iter().find(|key| !taken(key));
        free.ok_or(Refusal::BadId { text: base })
    }

    /// The key as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl EntryId {
    /// Reads an entry's id, or refuses it.
    pub fn new(text: &str) -> Result<Self, Refusal> {
        checked_id(text).map(Self)
    }

    /// The id as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for JobId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Display for EntryId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// What an entry says.
#[derive(Clone, Debug, PartialEq)]
pub enum Body {
    /// The job begins.
    JobOpened {
        /// Craft and reason, in the person's words.
        title: String,
        /// Anything else worth reading first.
        note: String,
        /// The earlier job of the same pump.
        follows: Option<JobId>,
    },
    /// Blades, clock positions, bore, and which way round they are read.
    PumpDescribed(Pump),
    /// The leaves used, how they are led in, how the craft lies.
    LeavesDescribed(LeafSet),
    /// What the craft's manual allows.
    LimitsStated(Limits),
    /// The order in which the leaves are tried.
    WalkChosen(Walk),
    /// Leaves tried at one spot.
    LeavesTried {
        /// Where.
        spot: Spot,
        /// Each leaf with its answer, in the order tried.
        tries: Vec<Tried>,
        /// Measured anew: what was tried here before no longer counts.
        afresh: bool,
    },
    /// The person takes the verdict as the result of this measurement.
    GapAccepted(Shown),
    /// Something about the plan and its steps.
    Work(Work),
    /// A joint as the person and the manual describe it.
    JointDescribed {
        /// Names it within the job.
        key: Key,
        /// What was said.
        joint: Joint,
    },
    /// How far the screws of a joint have come.
    JointFastened {
        /// Names it within the job.
        key: Key,
        /// The count.
        fastened: Fastened,
    },
    /// Something about the tools, or found at a joint.
    Tooled(Tooling),
    /// A joint that is no circle of screws.
    FitDescribed {
        /// Names it within the job.
        key: Key,
        /// What was said.
        fit: Fit,
    },
    /// What was ticked and read of such a joint.
    FitChecked {
        /// Names it within the job.
        key: Key,
        /// All that is ticked, not only what is new.
        checked: Checked,
    },
    /// Something looked at or measured around the gap.
    Inspected(Inspection),
    /// Something about a photo.
    Photographed(Photography),
    /// Something about a water test.
    Trialled(Trialling),
    /// Something about what to fit.
    Chose(Choosing),
    /// Something about what is wrong.
    Diagnosed(Diagnosing),
    /// Something about service.
    Serviced(Servicing),
    /// An earlier entry no longer counts. Withdrawing a withdrawal restores.
    Withdrawn {
        /// The entry that no longer counts.
        entry: EntryId,
    },
    /// Written by a newer program: kept as it is, and the job becomes read-only.
    Unknown {
        /// The kind as stored.
        kind: String,
        /// The body version as stored.
        version: u32,
        /// The body's JSON as stored.
        json: String,
    },
}

/// An entry before the store gives it its position and time.
#[derive(Clone, Debug, PartialEq)]
pub struct NewEntry {
    /// Made by the client.
    pub id: EntryId,
    /// The last position its author was looking at.
    pub seen: u64,
    /// When it happened, as the person says.
    pub happened_at: ZonedDateTime,
    /// Which device sent it.
    pub device: String,
    /// Who did it; empty when nobody said.
    pub who: String,
    /// The program version that wrote it.
    pub program: String,
    /// What it says.
    pub body: Body,
}

/// A stored entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its place in the job: 1, 2, 3 … without gaps, the order of the fold.
    pub position: u64,
    /// When a store first took it: this one, or that of the copy it came from.
    pub recorded_at: Timestamp,
    /// What was sent.
    pub new: NewEntry,
}
