//! Whether the engine is in line with the pump: what was read, and what is said of it.

mod answer;

pub(crate) use answer::shown;
pub use answer::{Answer, Doubt, Held, Left, Limited, MountMove, Place, answer};

use clearance::Verdict;
use clearance::align::coupling::Carrier;
use quantity::Entered;

/// How the driveline is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// A bar is slid in with the shaft turned to four places.
    Slides,
    /// Gaps round a bar, at one station or at two.
    Bar,
    /// Dials on the rim and on the face of the coupling.
    Dials,
}

/// Readings at 12, 3, 6 and 9 o'clock, looking forward, with the shaft in one place.
#[derive(Clone, Debug, PartialEq)]
pub struct Turned {
    /// Quarter turns of the shaft, clockwise looking forward: 0 to 3.
    pub quarter: u8,
    /// At 12, 3, 6 and 9.
    pub read: [Entered; 4],
}

/// Gaps round a bar at one place along it.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// Forward of the coupling.
    pub at: Entered,
    /// The gaps, for each place of the shaft.
    pub turns: Vec<Turned>,
}

/// Dials on the rim and on the face.
#[derive(Clone, Debug, PartialEq)]
pub struct Dials {
    /// Which shaft they are fixed to.
    pub carrier: Carrier,
    /// On the rim.
    pub rim: Vec<Turned>,
    /// On the face.
    pub face: Vec<Turned>,
    /// The circle the plunger runs on, on the face.
    pub across: Entered,
    /// Shown at 6 on a straight pipe with the dial at zero at 12; none when nobody looked.
    pub sag: Option<Entered>,
    /// All a dial can travel, where it is known.
    pub travel: Option<Entered>,
}

/// What was read.
#[derive(Clone, Debug, PartialEq)]
pub enum Read {
    /// The bar slid in freely, or not, with the shaft at 0, 90, 180 and 270 degrees.
    Slides([bool; 4]),
    /// Gaps round a bar.
    Bar {
        /// The station farther aft.
        aft: Station,
        /// Another, farther forward.
        forward: Option<Station>,
    },
    /// Dials.
    Dials(Dials),
}

impl Read {
    /// Which way it was.
    pub fn way(&self) -> Way {
        match self {
            Self::Slides(_) => Way::Slides,
            Self::Bar { .. } => Way::Bar,
            Self::Dials(_) => Way::Dials,
        }
    }
}

/// A mount of the engine.
#[derive(Clone, Debug, PartialEq)]
pub struct MountAt {
    /// Its name.
    pub name: String,
    /// Forward of the coupling.
    pub forward: Entered,
    /// To port of the engine's axis, below zero to starboard.
    pub port: Entered,
    /// Thickness of the shims under it when this was read.
    pub shims: Entered,
}

/// One reading of the driveline.
#[derive(Clone, Debug, PartialEq)]
pub struct Alignment {
    /// What was read.
    pub read: Read,
    /// Smallest step that is read; absent where the bar only slides.
    pub step: Option<Entered>,
    /// A reading comes back within so much; one step is assumed when not given.
    pub repeat: Option<Entered>,
    /// The manual's greatest offset.
    pub offset_limit: Option<Entered>,
    /// That limit is a total reading, twice the offset.
    pub total: bool,
    /// The manual's greatest angle.
    pub angle_limit: Option<Entered>,
    /// Where in the manual; empty when not said.
    pub page: String,
    /// The engine's mounts.
    pub mounts: Vec<MountAt>,
    /// Every shim at hand, those that are in too.
    pub shims: Vec<Entered>,
    /// What was told then; put in by [`decide`](crate::decide::decide).
    pub shown: Option<Shown>,
}

/// What a person was told of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    /// In: in line. Out: not. Undecided: cannot say.
    pub verdict: Verdict,
    /// Offset of the engine's axis at the coupling, up and to port, where it was read.
    pub offset: Option<[f64; 2]>,
    /// Slope of it, climbing and to port forward.
    pub slope: Option<[f64; 2]>,
}
