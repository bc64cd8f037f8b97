//! What can be looked at, measured or tried, what that takes, and how far its outcome can be trusted.
//!
//! Sensitivities and false alarms are from memory and common practice, no source.

use crate::fault::{ByFault, FAULTS, Fault};
use crate::symptom::with_unlisted;

/// A check on the bench, the trailer or the engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Check {
    /// Look up the intake for weed, rope, gravel.
    Intake,
    /// Leaves all round between blades and ring.
    Leaves,
    /// Feel and look along the edges of blades and vanes.
    Blades,
    /// The paint mark across the coupling.
    Mark,
    /// Turn the shaft by hand: rough, or with play.
    Turn,
    /// Try whether the ring moves in its housing; look for a mark that has wandered.
    Ring,
    /// Look over the bottom.
    Bottom,
    /// Weigh it, or drain bilge and foam.
    Weigh,
    /// A caliper across the nozzle.
    Nozzle,
    /// Soap and low pressure, or a lamp behind the joint.
    Soap,
    /// Compression and fuel pressure.
    Compression,
    /// The stored fault codes, and what holds the engine.
    Codes,
    /// Dials on the coupling.
    Dials,
    /// Follow the cooling hoses from end to end.
    Hoses,
    /// Where the gate rests with the lever forward.
    Gate,
}

/// Where a person has to be for a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// Beside the craft, or at its engine, which stands still.
    Beside,
    /// With a hand or a tool in the pump, the intake, the nozzle, or on the shaft.
    Inside,
    /// Below the craft.
    Under,
    /// At the engine, which is cranked or under current.
    Engine,
}

impl Reach {
    /// The craft must not be able to start while this is done.
    pub fn must_not_start(self) -> bool {
        matches!(self, Self::Inside | Self::Under)
    }
}

impl Check {
    /// All of them.
    pub const ALL: [Self; 15] = [
        Self::Intake,
        Self::Leaves,
        Self::Blades,
        Self::Mark,
        Self::Turn,
        Self::Ring,
        Self::Bottom,
        Self::Weigh,
        Self::Nozzle,
        Self::Soap,
        Self::Compression,
        Self::Codes,
        Self::Dials,
        Self::Hoses,
        Self::Gate,
    ];

    /// Minutes it takes, with what has to be opened for it. From memory.
    pub fn minutes(self) -> u8 {
        match self {
            Self::Intake => 1,
            Self::Mark | Self::Nozzle | Self::Gate => 5,
            Self::Blades | Self::Turn | Self::Bottom | Self::Codes | Self::Hoses => 10,
            Self::Leaves | Self::Ring => 20,
            Self::Weigh | Self::Soap => 30,
            Self::Compression => 40,
            Self::Dials => 60,
        }
    }

    /// Where it is done.
    pub fn reach(self) -> Reach {
        match self {
            Self::Intake | Self::Bottom => Reach::Under,
            Self::Leaves | Self::Blades | Self::Turn | Self::Ring | Self::Nozzle | Self::Soap => {
                Reach::Inside
            }
            Self::Mark | Self::Dials | Self::Gate => Reach::Inside,
            Self::Weigh | Self::Hoses => Reach::Beside,
            Self::Compression | Self::Codes => Reach::Engine,
        }
    }

    /// It takes no time and no tool, so it comes first whatever it may tell.
    pub fn free(self) -> bool {
        self == Self::Intake
    }

    /// Chance that something is found, by fault.
    pub fn chances(self) -> ByFault {
        let (alarm, found): (f64, &[(Fault, f64)]) = match self {
            Self::Intake => (0.03, &[(Fault::Grate, 0.95)]),
            Self::Leaves => (0.05, &[(Fault::Clearance, 0.95), (Fault::Ring, 0.70)]),
            Self::Blades => (0.10, &[(Fault::Blade, 0.90), (Fault::Ring, 0.15)]),
            Self::Mark => (0.02, &[(Fault::Slip, 0.95)]),
            Self::Turn => (
                0.05,
                &[
                    (Fault::Bearing, 0.90),
                    (Fault::Ring, 0.40),
                    (Fault::Misaligned, 0.25),
                    (Fault::Blade, 0.10),
                ],
            ),
            Self::Ring => (0.05, &[(Fault::Ring, 0.85), (Fault::Clearance, 0.20)]),
            Self::Bottom => (0.10, &[(Fault::Dirty, 0.95)]),
            Self::Weigh => (0.05, &[(Fault::Heavy, 0.90)]),
            Self::Nozzle => (
                0.02,
                &[(Fault::NozzleWide, 0.98), (Fault::NozzleNarrow, 0.98)],
            ),
            Self::Soap => (0.10, &[(Fault::Air, 0.80)]),
            Self::Compression => (0.10, &[(Fault::Engine, 0.85), (Fault::Limp, 0.30)]),
            Self::Codes => (
                0.05,
                &[
                    (Fault::Limp, 0.90),
                    (Fault::Engine, 0.35),
                    (Fault::Hoses, 0.25),
                ],
            ),
            Self::Dials => (0.08, &[(Fault::Misaligned, 0.90), (Fault::Bearing, 0.20)]),
            Self::Hoses => (0.03, &[(Fault::Hoses, 0.95)]),
            Self::Gate => (0.04, &[(Fault::Gate, 0.92)]),
        };
        let mut row = [alarm; FAULTS - 1];
        for (fault, chance) in found {
            row[*fault as usize] = *chance;
        }
        with_unlisted(&row)
    }
}

/// A check that was done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// Which.
    pub check: Check,
    /// Something was found.
    pub something: bool,
}
