//! Findings: what was looked at, what is wrong with it, how much that matters, what became of it.

use quantity::Entered;

use crate::job::Fact;
use crate::plan::Opens;

/// What can be looked at, in the order of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Area {
    /// The impeller's blades.
    Blades,
    /// The vanes of the stator.
    Vanes,
    /// The nozzle.
    Nozzle,
    /// The surface of the wear ring.
    Ring,
    /// The flange, and the step from part to part.
    Flange,
    /// The shaft seal.
    Seal,
    /// The bearing.
    Bearing,
    /// The hull where the pump is bolted on, and its inserts.
    Hull,
    /// Bolts and studs.
    Bolts,
    /// The pump shoe and its bond.
    Shoe,
    /// The intake grate.
    Grate,
    /// The ride plate.
    RidePlate,
    /// The driveline and its coupling.
    Driveline,
    /// Mounts and their shims.
    Mounts,
    /// Cooling and bailer lines.
    Lines,
    /// Steering, reverse and trim controls.
    Controls,
    /// The sacrificial anode.
    Anode,
}

impl Area {
    /// All, in the order they are asked for.
    pub const ALL: [Self; 17] = [
        Self::Blades,
        Self::Vanes,
        Self::Nozzle,
        Self::Ring,
        Self::Flange,
        Self::Seal,
        Self::Bearing,
        Self::Hull,
        Self::Bolts,
        Self::Shoe,
        Self::Grate,
        Self::RidePlate,
        Self::Driveline,
        Self::Mounts,
        Self::Lines,
        Self::Controls,
        Self::Anode,
    ];

    /// It can be seen before anything is turned.
    pub fn outside(self) -> bool {
        matches!(
            self,
            Self::Nozzle
                | Self::Hull
                | Self::Bolts
                | Self::Shoe
                | Self::Grate
                | Self::RidePlate
                | Self::Mounts
                | Self::Lines
                | Self::Controls
                | Self::Anode
        )
    }

    /// There are several, named in the person's own words.
    pub fn named(self) -> bool {
        matches!(
            self,
            Self::Hull
                | Self::Bolts
                | Self::Driveline
                | Self::Mounts
                | Self::Lines
                | Self::Controls
                | Self::Anode
        )
    }

    /// The flaws that can be found there.
    pub fn flaws(self) -> Vec<Flaw> {
        let all = Flaw::ALL.into_iter();
        all.filter(|flaw| flaw.makes_sense_at(self)).collect()
    }
}

/// What is wrong with a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flaw {
    /// Nothing: it was looked over and is sound.
    Nothing,
    /// A nick in the leading edge.
    NickLeading,
    /// A nick in the trailing edge.
    NickTrailing,
    /// Bent.
    Bent,
    /// A crack at the root.
    RootCrack,
    /// A piece is missing.
    MissingPiece,
    /// The tip is rounded.
    TipRounded,
    /// Chipped.
    Chipped,
    /// A step from part to part.
    Step,
    /// Scored.
    Scored,
    /// Swollen.
    Swollen,
    /// Corroded.
    Corroded,
    /// Dirt or grit in it.
    Grit,
    /// Cracked, other than at a blade's root.
    Cracked,
    /// Snapped off.
    Snapped,
    /// An insert that turns with its bolt.
    SpunInsert,
    /// A thread that has pulled out.
    PulledThread,
    /// The bond has let go.
    Debonded,
    /// A boot or bellows is torn.
    TornBoot,
    /// A lip is torn.
    TornLip,
    /// Rubber gone hard, soft or cracked.
    Perished,
    /// Split.
    Split,
    /// Blocked.
    Blocked,
    /// It does not move.
    Seized,
    /// It has grown longer.
    Stretched,
    /// Splines with a step or without edges.
    WornSplines,
    /// Loose in its seat.
    Loose,
    /// Eaten away as it is meant to be.
    Spent,
    /// Something else, in the person's words.
    Other,
}

impl Flaw {
    /// All, in the order they are offered.
    pub const ALL: [Self; 29] = [
        Self::Nothing,
        Self::NickLeading,
        Self::NickTrailing,
        Self::Bent,
        Self::RootCrack,
        Self::MissingPiece,
        Self::TipRounded,
        Self::Chipped,
        Self::Step,
        Self::Scored,
        Self::Swollen,
        Self::Corroded,
        Self::Grit,
        Self::Cracked,
        Self::Snapped,
        Self::SpunInsert,
        Self::PulledThread,
        Self::Debonded,
        Self::TornBoot,
        Self::TornLip,
        Self::Perished,
        Self::Split,
        Self::Blocked,
        Self::Seized,
        Self::Stretched,
        Self::WornSplines,
        Self::Loose,
        Self::Spent,
        Self::Other,
    ];

    /// Whether it can be found at a part of this kind. Common practice, no source.
    pub fn makes_sense_at(self, area: Area) -> bool {
        use Area::{
            Anode, Bearing, Blades, Bolts, Controls, Driveline, Flange, Grate, Hull, Lines, Mounts,
            Nozzle, RidePlate, Ring, Seal, Shoe, Vanes,
        };
        let at: &[Area] = match self {
            Self::Nothing | Self::Other => return true,
            Self::NickLeading | Self::NickTrailing => &[Blades, Vanes],
            Self::RootCrack | Self::MissingPiece => &[Blades, Vanes, Nozzle, Grate],
            Self::TipRounded => &[Blades],
            Self::Bent => &[
                Blades, Vanes, Nozzle, Flange, Bolts, Grate, RidePlate, Driveline, Mounts, Controls,
            ],
            Self::Chipped => &[Blades, Vanes, Nozzle, Ring, Flange, Shoe, RidePlate],
            Self::Step => &[Ring, Flange, Shoe, Nozzle, RidePlate],
            Self::Scored => &[
                Blades, Vanes, Nozzle, Ring, Flange, Seal, Bearing, Driveline,
            ],
            Self::Swollen => &[Ring, Seal, Lines, Mounts],
            Self::Grit => &[Ring, Seal, Bearing, Driveline, Lines, Controls, Grate],
            Self::Corroded => {
                return !matches!(area, Anode);
            }
            Self::Cracked => &[
                Vanes, Nozzle, Ring, Flange, Hull, Shoe, Grate, RidePlate, Driveline, Mounts,
                Controls,
            ],
            Self::Snapped => &[Bolts, Grate, Controls, Driveline],
            Self::SpunInsert => &[Hull],
            Self::PulledThread => &[Hull, Bolts, Flange, Nozzle, Mounts],
            Self::Debonded => &[Ring, Shoe, Hull, Mounts],
            Self::TornBoot => &[Driveline, Controls],
            Self::TornLip => &[Seal],
            Self::Perished => &[Ring, Seal, Driveline, Mounts, Lines, Controls],
            Self::Split => &[Lines, Ring, Hull, Mounts],
            Self::Blocked => &[Lines, Grate],
            Self::Seized => &[Controls, Bolts, Bearing],
            Self::Stretched => &[Controls, Bolts],
            Self::WornSplines => &[Driveline],
            Self::Loose => &[
                Ring, Bearing, Bolts, Hull, Shoe, Grate, RidePlate, Driveline, Mounts, Lines,
                Controls, Anode,
            ],
            Self::Spent => &[Anode],
        };
        at.contains(&area)
    }

    /// A file or a brush at the bench mends it. Common practice, no source.
    pub fn file_job(self) -> bool {
        matches!(
            self,
            Self::NickLeading
                | Self::NickTrailing
                | Self::Chipped
                | Self::Step
                | Self::Scored
                | Self::Swollen
                | Self::Corroded
                | Self::Grit
                | Self::Blocked
                | Self::Other
        )
    }

    /// How much it usually matters there. Common practice, no source.
    pub fn usual_severity(self, area: Area) -> Severity {
        use Severity::{Float, Throttle, Watch};
        // Through the hull: water comes in while nobody looks.
        let hull = matches!(area, Area::Hull | Area::Shoe);
        match self {
            Self::Nothing
            | Self::NickLeading
            | Self::NickTrailing
            | Self::TipRounded
            | Self::Chipped
            | Self::Scored
            | Self::Spent => Watch,
            Self::Snapped | Self::SpunInsert | Self::PulledThread | Self::TornBoot => Float,
            Self::Debonded | Self::Cracked | Self::Split if hull || area == Area::Lines => Float,
            Self::Corroded | Self::Loose if hull => Float,
            // A craft that cannot be steered must not leave the shore.
            Self::Seized | Self::Cracked | Self::Loose if area == Area::Controls => Float,
            Self::Corroded if matches!(area, Area::Blades | Area::Vanes | Area::Nozzle) => Watch,
            _ => Throttle,
        }
    }
}

/// How much a finding matters while it is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The craft must not float.
    Float,
    /// It must not go full throttle.
    Throttle,
    /// It is watched, and dealt with before the job is closed.
    Watch,
}

impl Severity {
    /// All, the worst first.
    pub const ALL: [Self; 3] = [Self::Float, Self::Throttle, Self::Watch];

    /// The readiness it holds up, and with it those after.
    pub fn opens(self) -> Opens {
        match self {
            Self::Float => Opens::Float,
            Self::Throttle => Opens::FullThrottle,
            Self::Watch => Opens::Closed,
        }
    }
}

/// What is to be done about a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Todo {
    /// Dress it at the bench.
    Dress,
    /// Repair it at the bench: extract, bond, put an insert in.
    Repair,
    /// Send the part out.
    SendOut,
    /// Scrap the part.
    Scrap,
    /// Fit it as it is.
    Fit,
}

/// One part looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Of what.
    pub area: Area,
    /// Blades by letter, vanes by number, others in own words; empty for what there is one of.
    pub which: String,
    /// What is wrong.
    pub flaw: Flaw,
    /// The same in own words; asked for where it is something else.
    pub words: String,
    /// Where on the part, in own words.
    pub place: String,
    /// How deep.
    pub depth: Option<Entered>,
    /// How long.
    pub length: Option<Entered>,
    /// Length of the blade's tip.
    pub tip: Option<Entered>,
    /// How much it matters.
    pub severity: Severity,
    /// Why it matters more or less than usual; asked for where it does.
    pub severity_why: String,
    /// What to do.
    pub todo: Todo,
    /// Why; asked for where a flaw is fitted as it is.
    pub reason: String,
}

/// How a finding was dealt with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Another part is in its place.
    Replaced,
    /// The part is repaired or dressed.
    Repaired,
    /// It is taken as it is.
    Accepted,
}

/// A finding is dealt with.
#[derive(Clone, Debug, PartialEq)]
pub struct Settled {
    /// How.
    pub how: How,
    /// Why, or with what; asked for where it is taken as it is.
    pub reason: String,
}

/// A finding of the job, with what became of it.
#[derive(Clone, Debug, PartialEq)]
pub struct FindingState {
    /// The position of its first noting; findings stand in this order.
    pub since: u64,
    /// What was noted last.
    pub finding: Fact<Finding>,
    /// What became of it since.
    pub settled: Option<Fact<Settled>>,
}
