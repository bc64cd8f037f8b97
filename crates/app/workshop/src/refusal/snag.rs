//! Why something about tools, or found at a joint, is not taken.

use std::fmt;

use quantity::{Entered, Unit};

use crate::torque::Outside;

/// What cannot be so.
#[derive(Clone, Debug, PartialEq)]
pub enum Snag {
    /// There is no such wrench.
    NoSuchWrench {
        /// The key asked for.
        key: String,
    },
    /// A figure of the scale in another unit than the scale's.
    Crossed {
        /// The field it stands in.
        field: &'static str,
        /// As typed.
        entered: Entered,
        /// The unit of the scale.
        scale: Unit,
    },
    /// Marks further apart than a wrench has them.
    Step {
        /// As typed.
        step: Entered,
        /// The greatest torque as typed.
        most: Entered,
    },
    /// A wrench for a joint that is tightened by a turn.
    NoWrenchForTurn,
    /// The wrench does not measure what the joint asks of it.
    Outside(Outside),
    /// A part of an adapter without the rest.
    HalfAnAdapter {
        /// The field that is empty.
        field: &'static str,
    },
    /// An adapter turned back as far as the hand, or further.
    NoLever {
        /// As typed.
        offset: Entered,
    },
    /// A screw that goes in deeper than the thread.
    Bottoms {
        /// As typed.
        reach: Entered,
        /// As typed.
        threaded: Entered,
    },
    /// A typed length longer than the thread of the hole as measured.
    LongerThanHole {
        /// As typed.
        engagement: Entered,
        /// As measured.
        threaded: Entered,
    },
    /// All the thread the screw reaches is lost.
    NothingHeld {
        /// As typed.
        lost: Entered,
        /// As typed.
        reach: Entered,
    },
    /// A wire insert where none can be reckoned with.
    NoInsert,
    /// A wire insert that is all gone once it sits.
    ShortInsert {
        /// As typed.
        insert: Entered,
    },
}

impl Snag {
    /// The field it stands in.
    pub fn field(&self) -> &'static str {
        match self {
            Self::NoSuchWrench { .. } | Self::NoWrenchForTurn | Self::Outside(_) => "wrench",
            Self::Crossed { field, .. } | Self::HalfAnAdapter { field } => field,
            Self::Step { .. } => "step",
            Self::NoLever { .. } => "offset",
            Self::Bottoms { .. } => "reach",
            Self::LongerThanHole { .. } => "engagement",
            Self::NothingHeld { .. } => "lost",
            Self::NoInsert | Self::ShortInsert { .. } => "insert",
        }
    }

    /// What was refused, as typed.
    pub fn refused(&self) -> Option<&str> {
        match self {
            Self::NoSuchWrench { key } => Some(key),
            Self::Crossed { entered, .. } => Some(&entered.text),
            Self::Step { step, .. } => Some(&step.text),
            Self::NoLever { offset } => Some(&offset.text),
            Self::Bottoms { reach, .. } => Some(&reach.text),
            Self::LongerThanHole { engagement, .. } => Some(&engagement.text),
            Self::NothingHeld { lost, .. } => Some(&lost.text),
            Self::ShortInsert { insert } => Some(&insert.text),
            Self::NoWrenchForTurn
            | Self::Outside(_)
            | Self::HalfAnAdapter { .. }
            | Self::NoInsert => None,
        }
    }
}

impl fmt::Display for Snag {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSuchWrench { key } => write!(
                f,
                "There is no wrench “{key}” in this job. Describe it first."
            ),
            Self::Crossed { entered, scale, .. } => write!(
                f,
                "“{}” is in {}, and the scale of this wrench is in {}. Write what stands on the \
                 scale, or choose its other unit.",
                entered.text.trim(),
                entered.unit.symbol(),
                scale.symbol()
            ),
            Self::Step { step, most } => write!(
                f,
                "Marks {} apart on a scale up to {}: a wrench that is set by marks has ten at least. \
                 Check both, or leave the step empty for a wrench that is set at the factory.",
                step.worded(),
                most.worded()
            ),
            Self::NoWrenchForTurn => f.write_str(
                "This joint is tightened by a turn after contact: no wrench is set for it.",
            ),
            Self::Outside(outside) => write!(f, "{outside}"),
            Self::HalfAnAdapter { .. } => f.write_str(
                "An adapter takes three figures: hand to square, square to screw, and the angle \
                 between them. Fill in this one too, or empty all three.",
            ),
            Self::NoLever { offset } => write!(
                f,
                "Turned back by {} the screw lies under the hand, and nothing turns it. Check the \
                 three figures of the adapter.",
                offset.worded()
            ),
            Self::Bottoms { reach, threaded } => write!(
                f,
                "The screw goes in {} and the thread only {}: it would jam and clamp nothing. Take a \
                 shorter screw, or the washer that belongs there, and measure again.",
                reach.worded(),
                threaded.worded()
            ),
            Self::LongerThanHole {
                engagement,
                threaded,
            } => write!(
                f,
                "Held over {} where the hole was measured {} deep: that cannot be. Mend it, or \
                 measure the hole again.",
                engagement.worded(),
                threaded.worded()
            ),
            Self::NothingHeld { lost, reach } => write!(
                f,
                "{} lost at the mouth of {} that the screw goes in: nothing holds it. Take a longer \
                 screw or an insert, and measure again.",
                lost.worded(),
                reach.worded()
            ),
            Self::NoInsert => f.write_str(
                "A wire insert is reckoned with in cast aluminium only. Empty this, or say that the \
                 screws go into cast aluminium.",
            ),
            Self::ShortInsert { insert } => write!(
                f,
                "A wire insert sits up to three quarters of a turn shorter than it is sold, and of \
                 {} nothing would be left. Check the length.",
                insert.worded()
            ),
        }
    }
}
