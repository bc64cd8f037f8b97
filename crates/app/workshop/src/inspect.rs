//! What is looked at and measured around the gap: the rotor, the housing, the parts, the sizes, the
//! gap once more, and the visits before.

pub mod align;
pub mod finding;
pub mod found;
pub mod leak;
pub mod parts;
pub mod reread;
pub mod rotor;
pub mod size;
pub mod wear;

use std::collections::BTreeMap;

use clearance::Verdict;
use clearance::thermal::{Metal, Polymer};
use quantity::Entered;

use crate::entry::Key;
use crate::job::{Fact, Tried};
use crate::seals::{Sealing, Seals};
use crate::supplies::Said;

pub use finding::{Area, Finding, FindingState, Flaw, How, Settled, Severity, Todo};
pub use found::AsFound;

/// What a person found or measured.
#[derive(Clone, Debug, PartialEq)]
pub enum Inspection {
    /// Play, runout and feel of the rotor.
    Rotor(Box<Rotor>),
    /// The closed housing under pressure or vacuum.
    Leak(LeakTest),
    /// Whether the engine is in line with the pump.
    Alignment(Box<align::Alignment>),
    /// A part looked at.
    Found {
        /// Names it within the job.
        key: Key,
        /// What was found.
        finding: Finding,
    },
    /// Something as it was found, before anything turned.
    AsFound {
        /// Names it within the job.
        key: Key,
        /// What was seen.
        found: AsFound,
    },
    /// Where a part, a consumable or a tool is, or one more of them.
    Supply {
        /// Names it within the job.
        key: Key,
        /// What was said.
        supply: Said,
    },
    /// A finding is dealt with.
    Settled {
        /// The finding.
        finding: Key,
        /// How.
        settled: Settled,
    },
    /// Diameters of ring and impeller.
    Sizes(Sizes),
    /// What the ring is and how it is held.
    Ring(Ring),
    /// A conical ring and the shims at hand.
    Cone(Cone),
    /// The gap once more, after the last torque.
    Reread(Reread),
    /// The gap at some engine hours.
    Visit {
        /// Names it within the job.
        key: Key,
        /// What was found then.
        visit: Visit,
    },
    /// Something about compounds, seals and metals.
    Sealing(Sealing),
}

/// The rotor on the dial and in the hand. What was not looked at is absent.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rotor {
    /// Dial on the shaft's end, pushed aft and then forward.
    pub float: Option<(Entered, Entered)>,
    /// Dial on the shaft at the impeller, pushed up and then down.
    pub radial: Option<(Entered, Entered)>,
    /// Total indicator readings at two stations of the shaft.
    pub runout: Option<Runout>,
    /// The seal's track on the shaft.
    pub track: Option<Track>,
    /// A worn step in the splines can be felt.
    pub spline_step: Option<bool>,
    /// How the rotor feels when spun by hand.
    pub spin: Option<Spin>,
    /// The dial is true within this; assumed when not given.
    pub dial: Option<Entered>,
    /// The manual's greatest end float.
    pub float_limit: Option<Entered>,
    /// The manual's greatest radial play.
    pub radial_limit: Option<Entered>,
    /// The manual's greatest total indicator reading.
    pub runout_limit: Option<Entered>,
    /// Where in the manual; empty when not said.
    pub page: String,
}

/// Runout of the shaft at two stations.
#[derive(Clone, Debug, PartialEq)]
pub struct Runout {
    /// Total indicator reading at the first.
    pub first: Entered,
    /// Total indicator reading at the second, nearer to the impeller.
    pub second: Entered,
    /// From the first to the second.
    pub apart: Entered,
    /// From the second on to the impeller.
    pub beyond: Entered,
}

/// The seal's track on the shaft.
#[derive(Clone, Debug, PartialEq)]
pub enum Track {
    /// No groove is felt.
    Smooth,
    /// A fingernail feels one.
    Felt,
    /// A groove so deep.
    Groove(Entered),
}

/// How the rotor feels when it is spun by hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spin {
    /// Smooth.
    Smooth,
    /// Rough.
    Rough,
    /// Gritty.
    Gritty,
    /// It binds somewhere.
    Binds,
}

/// Which way a housing is tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Push {
    /// Pumped up.
    Pressure,
    /// Pumped down.
    Vacuum,
}

/// A leak test of the closed housing. Both gauge readings are above zero either way.
#[derive(Clone, Debug, PartialEq)]
pub struct LeakTest {
    /// Which way.
    pub push: Push,
    /// Gauge when settled after shutting off.
    pub start: Entered,
    /// Gauge at the end.
    pub end: Entered,
    /// Time between.
    pub hold: Entered,
    /// Temperature at the start and at the end, where both were noted.
    pub temperatures: Option<(Entered, Entered)>,
    /// The shaft was turned during the hold.
    pub turned: bool,
    /// Smallest step of the gauge.
    pub step: Entered,
    /// The fall the manual allows in a hold as long.
    pub allowed: Option<Entered>,
    /// Where in the manual; empty when not said.
    pub page: String,
    /// What was told then; put in by [`decide`](crate::decide::decide).
    pub shown: Option<LeakShown>,
}

/// What a person was told of a leak test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakShown {
    /// In: tight. Out: it leaks. Undecided: cannot say.
    pub verdict: Verdict,
    /// Pressure or vacuum lost by leaking.
    pub loss: f64,
    /// Standard uncertainty of the loss.
    pub uncertainty: f64,
}

/// Diameters of ring and impeller, of two-point instruments.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sizes {
    /// Bore of the ring from 12 to 6, 1:30 to 7:30, 3 to 9 and 4:30 to 10:30.
    pub bores: [Option<Entered>; 4],
    /// Diameter of the impeller, and how it was taken.
    pub impeller: Option<(Entered, Method)>,
}

/// How the diameter of an impeller was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// A micrometer over two opposite tips.
    TwoTips,
    /// A ring or a tape round the tips.
    Round,
    /// Another way.
    Other,
}

/// What the wear ring is and how it is held, with the water it is ridden in.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// How it is held.
    pub seat: RingSeat,
    /// Of which plastic, where it is of plastic and that is known.
    pub polymer: Option<Polymer>,
    /// Thickness of its wall.
    pub wall: Option<Entered>,
    /// It has lain in water for weeks; otherwise it is dry.
    pub soaked: bool,
    /// What turns in it.
    pub impeller: Metal,
    /// Temperature on the bench.
    pub bench: Option<Entered>,
    /// Temperature of the water ridden in.
    pub water: Option<Entered>,
}

/// What a wear ring is and how it is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RingSeat {
    /// A sleeve of metal, pressed in.
    MetalPressed,
    /// Of plastic in one piece, pressed in.
    PlasticPressed,
    /// Of plastic, bonded.
    PlasticBonded,
    /// Of plastic, loose in its seat.
    PlasticLoose,
    /// Cast with the housing.
    Cast,
}

/// A conical ring, whose gap is set by shims.
#[derive(Clone, Debug, PartialEq)]
pub struct Cone {
    /// Between the cone's surface and its axis.
    pub half_angle: Entered,
    /// Thickness of the shims that were in when the gap was read.
    pub fitted: Entered,
    /// Every shim at hand, those that are in too.
    pub shims: Vec<Entered>,
    /// A thicker stack opens the gap.
    pub opens: bool,
}

/// The gap once more at blade A: 12, 3, 6 and 9 o'clock.
#[derive(Clone, Debug, PartialEq)]
pub struct Reread {
    /// Leaves tried at each clock.
    pub clocks: [Vec<Tried>; 4],
    /// Where the rotor rubs when it is turned by hand; empty when it turns free.
    pub rubs: String,
    /// What was told then; put in by [`decide`](crate::decide::decide).
    pub shown: Option<Verdict>,
}

/// Which gap of a visit was noted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// The least of all spots.
    Least,
    /// The mean of all spots.
    Mean,
}

/// The gap at some engine hours.
#[derive(Clone, Debug, PartialEq)]
pub struct Visit {
    /// Hours of the engine.
    pub hours: Entered,
    /// The gap as noted, its ends equal where it was one number; none for this visit, whose gap is
    /// the one measured here.
    pub gap: Option<(Entered, Entered)>,
    /// Which gap it is.
    pub figure: Figure,
    /// A new ring or impeller was fitted, and the gap is that of the new one.
    pub renewed: bool,
}

/// All that was looked at and measured around the gap.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Inspected {
    /// The rotor.
    pub rotor: Option<Fact<Rotor>>,
    /// The leak test.
    pub leak: Option<Fact<LeakTest>>,
    /// Whether the engine is in line, as read last.
    pub alignment: Option<Fact<align::Alignment>>,
    /// The same as it was found.
    pub alignment_found: Option<Fact<align::Alignment>>,
    /// The findings, by key.
    pub findings: BTreeMap<Key, FindingState>,
    /// The as-found record, by key.
    pub found: BTreeMap<Key, Fact<AsFound>>,
    /// What was said of parts, consumables and tools, by key.
    pub supplies: BTreeMap<Key, Fact<Said>>,
    /// What was said of a result that is out, which is a finding by itself.
    pub answered: BTreeMap<Key, Fact<Settled>>,
    /// Diameters.
    pub sizes: Option<Fact<Sizes>>,
    /// The ring.
    pub ring: Option<Fact<Ring>>,
    /// The cone.
    pub cone: Option<Fact<Cone>>,
    /// The gap once more.
    pub reread: Option<Fact<Reread>>,
    /// The visits, by key.
    pub visits: BTreeMap<Key, Fact<Visit>>,
    /// Compounds, seals and metals.
    pub seals: Seals,
}

impl Inspected {
    /// The findings in the order they were first noted.
    pub fn findings_in_order(&self) -> Vec<(&Key, &FindingState)> {
        let mut findings: Vec<_> = self.findings.iter().collect();
        findings.sort_by_key(|(_, state)| state.since);
        findings
    }

    /// The visits by engine hours.
    pub fn visits_in_order(&self) -> Vec<(&Key, &Fact<Visit>)> {
        let mut visits: Vec<_> = self.visits.iter().collect();
        let hours = |fact: &Fact<Visit>| fact.value.hours.value;
        visits.sort_by(|a, b| hours(a.1).total_cmp(&hours(b.1)));
        visits
    }
}
