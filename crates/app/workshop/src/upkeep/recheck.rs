//! The recheck after the first hour on the water, which closes a job.
//!
//! Its points are common practice, no source; what the craft's manual asks for goes first.

/// A point of the recheck.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Point {
    /// Bolts of the grate.
    Grate,
    /// Bolts of the ride plate.
    Plate,
    /// The paint marks.
    Marks,
    /// The cone.
    Cone,
    /// Ends of the hoses.
    Hoses,
    /// The bilge.
    Bilge,
    /// How the shaft feels.
    Shaft,
    /// The gap, by leaf.
    Gap,
    /// The lubricant of the housing.
    Lubricant,
}

impl Point {
    /// All, in the order of a walk from the stern forward.
    pub const ALL: [Self; 9] = [
        Self::Cone,
        Self::Marks,
        Self::Plate,
        Self::Grate,
        Self::Gap,
        Self::Shaft,
        Self::Lubricant,
        Self::Hoses,
        Self::Bilge,
    ];

    /// What is looked at.
    pub fn name(self) -> &'static str {
        match self {
            Self::Grate => "Bolts of the grate",
            Self::Plate => "Bolts of the ride plate",
            Self::Marks => "Paint marks",
            Self::Cone => "Cone",
            Self::Hoses => "Hose ends",
            Self::Bilge => "Bilge",
            Self::Shaft => "Shaft by hand",
            Self::Gap => "Gap by leaf",
            Self::Lubricant => "Lubricant of the housing",
        }
    }

    /// How.
    pub fn how(self) -> &'static str {
        match self {
            Self::Grate => {
                "The wrench at the joint’s torque: none turns. One that does is taken out, cleaned and \
                 sealed anew, not just nipped up."
            }
            Self::Plate => {
                "The wrench at the joint’s torque: none turns. Sealant that has settled under the plate lets \
                 its bolts go slack first."
            }
            Self::Marks => {
                "Every mark of pump, nozzle, steering and coupling in one line across nut and part."
            }
            Self::Cone => "Dry to the finger round its joint, no weep, no oil.",
            Self::Hoses => {
                "Each end of the cooling and bailer hoses: clamp tight, no drip, the label still says \
                 where it goes."
            }
            Self::Bilge => "A cupful more than before it was launched is a leak to find now.",
            Self::Shaft => {
                "Turned by hand through two turns: no rub, no grit, no tight place. Battery and lanyard \
                 off; blade edges cut."
            }
            Self::Gap => {
                "The leaf that just went at the tightest spot still goes. A ring that moved or swelled \
                 shows here first."
            }
            Self::Lubricant => {
                "A drop on white paper: clear, not milky, no glitter. Milky means water, and water means \
                 the seal."
            }
        }
    }

    /// What to do where it was not as it should be.
    pub fn amiss(self) -> &'static str {
        match self {
            Self::Grate | Self::Plate => {
                "Out, threads cleaned and dried, sealed or locked as the joint’s card says, torqued and \
                 marked anew; recheck after another hour."
            }
            Self::Marks => {
                "Find out which turned, nut or part; open that joint’s card, and do it again from clean \
                 threads."
            }
            Self::Cone | Self::Lubricant => {
                "Not on the water again: drain, test the housing for leaks, and renew the seal."
            }
            Self::Hoses => {
                "Cut back or renew the end, clamp it, and run it on the hose to see it dry."
            }
            Self::Bilge => {
                "Run it on the hose with the hull dry, and look for the leak before it is launched again."
            }
            Self::Shaft => {
                "Look at the gap, the bearing and the line of the driveline under Measure."
            }
            Self::Gap => "Measure the ring anew under Measure: spun, swollen or out of round.",
        }
    }
}
