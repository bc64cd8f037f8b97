//! Why something about the driveline is not taken.

use std::fmt;

/// What makes no sense of a driveline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Skew {
    /// Not four readings round the clock.
    NotFour {
        /// The field they stand in.
        field: &'static str,
        /// How many there are.
        count: usize,
    },
    /// Readings of one sweep in two units.
    Crossed {
        /// The field they stand in.
        field: &'static str,
        /// One of them.
        one: String,
        /// One in another unit.
        other: String,
    },
    /// A dial that swung farther than it can.
    Travel {
        /// The field it stands in.
        field: &'static str,
        /// Its least reading.
        low: String,
        /// Its greatest.
        high: String,
        /// All it can travel.
        travel: String,
    },
    /// Stations in the wrong order, or in one place.
    Stations {
        /// The station farther aft.
        aft: String,
        /// The station farther forward.
        forward: String,
    },
    /// A mount that is not understood.
    Mount {
        /// As typed.
        text: String,
    },
    /// Two mounts of one name.
    MountTwice {
        /// The name.
        name: String,
    },
    /// Mounts that are all at one distance.
    MountsTogether {
        /// That distance.
        at: String,
    },
    /// Something typed that belongs to another way of reading.
    Elsewhere {
        /// The field it stands in.
        field: &'static str,
        /// As typed.
        text: String,
    },
}

impl Skew {
    /// The field it stands in.
    pub fn field(&self) -> &'static str {
        match self {
            Self::NotFour { field, .. }
            | Self::Crossed { field, .. }
            | Self::Travel { field, .. }
            | Self::Elsewhere { field, .. } => field,
            Self::Stations { .. } => "forward_at",
            Self::Mount { .. } | Self::MountTwice { .. } | Self::MountsTogether { .. } => "mounts",
        }
    }

    /// What was refused, as typed.
    pub fn refused(&self) -> Option<&str> {
        match self {
            Self::Mount { text }
            | Self::MountTwice { name: text }
            | Self::Elsewhere { text, .. } => Some(text),
            _ => None,
        }
    }
}

impl fmt::Display for Skew {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotFour { count, .. } => write!(
                f,
                "{count} readings, and it takes four: at 12, 3, 6 and 9 o’clock, looking forward. \
                 Write all four with commas between, such as 0, -0.2, -0.5, -0.3."
            ),
            Self::Crossed { one, other, .. } => write!(
                f,
                "{one} and {other} stand in one round of readings. One dial reads in one unit: \
                 write all four in it."
            ),
            Self::Travel {
                low, high, travel, ..
            } => write!(
                f,
                "From {low} to {high} is farther than the dial’s whole travel of {travel}. It ran \
                 against its stop, or turned more than once: set it to mid-travel and read again."
            ),
            Self::Stations { aft, forward } => write!(
                f,
                "The forward station at {forward} must lie 1 mm or more forward of the aft one at \
                 {aft}. Swap them, or leave the second one empty."
            ),
            Self::Mount { text } => write!(
                f,
                "“{text}” is not understood as a mount. Write its name, a colon, and three lengths \
                 with commas between: forward of the coupling, to port of the shaft (minus to \
                 starboard), shims under it now. Such as: front port: 160, 190, 1.2 mm."
            ),
            Self::MountTwice { name } => write!(
                f,
                "Two mounts are called “{name}”. Give each a name of its own."
            ),
            Self::MountsTogether { at } => write!(
                f,
                "All mounts lie {at} forward of the coupling, less than 10 mm apart: such feet \
                 hold no angle. Measure along the shaft from the coupling to each mount’s bolt."
            ),
            Self::Elsewhere { text, .. } => write!(
                f,
                "“{text}” belongs to another way of reading the driveline. Empty it here, or \
                 choose that way."
            ),
        }
    }
}
