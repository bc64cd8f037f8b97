//! The state of a job: what its entries add up to.

use std::collections::BTreeMap;

use clearance::Answer;
use jiff::ZonedDateTime;
use jiff::civil::Date;
use quantity::{Entered, Unit};

use crate::choose::Choices;
use crate::crossing::Crossing;
use crate::diagnose::Search;
use crate::entry::{Body, EntryId, JobId, Key};
use crate::fits::FitState;
use crate::gap::Shown;
use crate::inspect::Inspected;
use crate::joints::JointState;
use crate::photos::Album;
use crate::plan::Bench;
use crate::tools::WrenchState;
use crate::upkeep::Upkeep;
use crate::water::Trials;

/// One blade at one clock position, both counted from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Spot {
    /// 0 is blade A.
    pub blade: u8,
    /// 0 is twelve o'clock; the clock runs as in [`Pump::view`].
    pub position: u8,
}

/// From which end the clock is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// From behind the craft, looking forward.
    LookingForward,
    /// From ahead, looking aft.
    LookingAft,
}

/// Which way the impeller turns, seen in the [`View`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rotation {
    /// With the clock.
    Clockwise,
    /// Against the clock.
    Anticlockwise,
}

/// How the leaf enters the gap; decides the chord error.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lead {
    /// Along the shaft: the flat leaf lies across the curve of the ring.
    AlongShaft,
    /// Round the ring: the leaf bends to the curve.
    RoundRing,
    /// Along the shaft with the blade's tip under the leaf's edge.
    UnderEdge,
}

/// How the pump lies while it is measured; play in the bearing shows in the gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Posture {
    /// Pump in the craft, craft upright.
    CraftUpright,
    /// Pump in the craft, craft on its side.
    CraftOnSide,
    /// Pump on the bench, shaft level.
    BenchShaftLevel,
    /// Pump on the bench, shaft upright.
    BenchShaftUpright,
}

/// What the manual's figure counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// From blade tip to ring, on one side.
    Radial,
    /// Both sides together: ring bore less impeller diameter.
    Diametral,
}

/// The pump as far as measuring needs it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pump {
    /// Number of blades.
    pub blades: u8,
    /// Number of clock positions read: 4, 6, 8 or 12.
    pub positions: u8,
    /// Bore of the wear ring.
    pub bore: Entered,
    /// From which end the clock is read.
    pub view: View,
    /// Which way the impeller turns in that view.
    pub rotation: Rotation,
}

/// The leaves and how they are used, asked once.
#[derive(Clone, Debug, PartialEq)]
pub struct LeafSet {
    /// The unit the leaves are marked in; a bare number takes it.
    pub unit: Unit,
    /// The leaves there are, thinnest first.
    pub thicknesses: Vec<Entered>,
    /// Width of a leaf.
    pub width: Entered,
    /// How the leaf is led in.
    pub lead: Lead,
    /// How the pump lies.
    pub posture: Posture,
    /// Half width of the leaves' thickness error; assumed when not given.
    pub tolerance: Option<Entered>,
    /// How much larger than the leaf the gap is when the leaf just goes; assumed when not given.
    pub feel: Option<Entered>,
}

/// What the craft's manual allows.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// Not tighter than this.
    pub least: Option<Entered>,
    /// Not wider than this.
    pub greatest: Option<Entered>,
    /// Whether the figures are radial or diametral.
    pub measure: Measure,
    /// Where in the manual; empty when not said.
    pub page: String,
    /// The manual lets a new ring touch and rub itself in.
    pub rub_in: bool,
}

/// The order in which the leaves are tried.
#[derive(Clone, Debug, PartialEq)]
pub enum Walk {
    /// One leaf round all spots, then the next.
    LeafByLeaf,
    /// One blade round the clock first, then every blade at the tightest place, then the rest: the
    /// first two tell ring from blade, and often decide.
    RoundFirst,
    /// Two leaves only: one that must go, one that must not.
    TwoLeaves {
        /// The leaf that must go.
        go: Entered,
        /// The leaf that must not.
        no_go: Entered,
    },
}

/// One leaf with its answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// The leaf.
    pub leaf: Entered,
    /// What it did.
    pub answer: Answer,
}

/// A value with the entry that stated it.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact<T> {
    /// Where it was said.
    pub entry: EntryId,
    /// That entry's position.
    pub position: u64,
    /// What was said.
    pub value: T,
}

/// What may be done about the last act.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The entry to withdraw.
    pub entry: EntryId,
    /// What that entry says; for a restored entry, what comes back.
    pub body: Body,
}

/// What the entries add up to. Made by [`crate::fold::fold`] only.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Job {
    /// Craft and reason; absent before the job is opened.
    pub title: Option<String>,
    /// Anything worth reading first.
    pub note: String,
    /// The earlier job of the same pump.
    pub follows: Option<JobId>,
    /// The day it was opened.
    pub opened: Option<Date>,
    /// The pump, once described.
    pub pump: Option<Fact<Pump>>,
    /// The leaves, once described.
    pub leaves: Option<Fact<LeafSet>>,
    /// The manual's limits, once stated.
    pub limits: Option<Fact<Limits>>,
    /// The order of trying; leaf by leaf unless chosen otherwise.
    pub walk: Option<Fact<Walk>>,
    /// Every leaf tried, by spot, in the order of the journal.
    pub tries: BTreeMap<Spot, Vec<Fact<Tried>>>,
    /// What stood at a spot before it was last measured anew.
    pub before: BTreeMap<Spot, Vec<Fact<Tried>>>,
    /// The spot of the latest try, where the walk goes on.
    pub latest: Option<(Spot, Tried)>,
    /// The result the person took, with what they were shown.
    pub accepted: Option<Fact<Shown>>,
    /// The plan of the work and how far it has come.
    pub bench: Bench,
    /// The joints, by key.
    pub joints: BTreeMap<Key, JointState>,
    /// The torque wrenches, by key.
    pub wrenches: BTreeMap<Key, WrenchState>,
    /// The joints that are no circle of screws, by key.
    pub fits: BTreeMap<Key, FitState>,
    /// What was looked at and measured around the gap.
    pub inspected: Inspected,
    /// The photos.
    pub photos: Album,
    /// The water tests.
    pub trials: Trials,
    /// What could be fitted, and what is wanted.
    pub choices: Choices,
    /// What is wrong, and what was looked at to find out.
    pub diagnosis: Search,
    /// When it is opened again, and what was done since.
    pub upkeep: Upkeep,
    /// The last position folded; 0 for an empty journal.
    pub position: u64,
    /// When the last entry happened, as its author says.
    pub touched: Option<ZonedDateTime>,
    /// What "Undo" would withdraw.
    pub undo: Option<Step>,
    /// What "Redo" would restore.
    pub redo: Option<Step>,
    /// What devices said of the same thing without seeing each other.
    pub crossed: Vec<Crossing>,
    /// Set when an entry of a newer program is in the journal: its kind and version.
    pub read_only: Option<(String, u32)>,
}

impl Job {
    /// The unit a person measures in: that of their leaves, millimetres before these are known.
    pub fn unit(&self) -> Unit {
        self.leaves
            .as_ref()
            .map_or(Unit::Millimetre, |leaves| leaves.value.unit)
    }

    /// The order of trying in force.
    pub fn walk(&self) -> Walk {
        self.walk
            .as_ref()
            .map_or(Walk::LeafByLeaf, |walk| walk.value.clone())
    }

    /// The clock of a spot, in this pump's positions.
    pub fn clock(&self, spot: Spot) -> String {
        let pump = self.pump.as_ref();
        clock_name(spot.position, pump.map_or(1, |fact| fact.value.positions))
    }

    /// Every spot the pump has, blade by blade, clock by clock; empty before it is described.
    pub fn spots(&self) -> Vec<Spot> {
        let Some(Fact { value: pump, .. }) = &self.pump else {
            return Vec::new();
        };
        (0..pump.blades)
            .flat_map(|blade| (0..pump.positions).map(move |position| Spot { blade, position }))
            .collect()
    }

    /// The leaves tried at a spot.
    pub fn tries_at(&self, spot: Spot) -> Vec<clearance::Try> {
        self.tries
            .get(&spot)
            .map_or_else(Vec::new, |tries| felt(tries))
    }
}

/// The letter of a blade: A, B, C …
pub fn blade_name(blade: u8) -> String {
    char::from(b'A'.saturating_add(blade)).to_string()
}

impl Tried {
    /// A leaf tried, as the domain takes it.
    pub fn felt(&self) -> clearance::Try {
        clearance::Try {
            thickness: self.leaf.value,
            answer: self.answer,
        }
    }
}

/// Leaves tried as the domain takes them.
pub fn felt(tries: &[Fact<Tried>]) -> Vec<clearance::Try> {
    tries.iter().map(|tried| tried.value.felt()).collect()
}

/// The clock reading of a position out of `positions`: `12`, `1:30`, `3` …
pub fn clock_name(position: u8, positions: u8) -> String {
    let minutes = u32::from(position) * 720 / u32::from(positions.max(1));
    let hour = match minutes / 60 % 12 {
        0 => 12,
        hour => hour,
    };
    match minutes % 60 {
        0 => hour.to_string(),
        minute => format!("{hour}:{minute:02}"),
    }
}
