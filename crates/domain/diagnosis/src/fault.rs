//! What can be wrong with a jet craft, and how often it is.

/// A cause of a craft that falls short. The list is closed; [`Fault::Unlisted`] stands for the rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// Nothing: it runs as it should.
    Nothing,
    /// The gap between blades and ring is worn wide.
    Clearance,
    /// Air is drawn in past a seal, a shoe or the plate.
    Air,
    /// The intake grate is blocked.
    Grate,
    /// Blades or vanes are bent or nicked.
    Blade,
    /// The nozzle is wider than thought.
    NozzleWide,
    /// The nozzle is narrower than thought.
    NozzleNarrow,
    /// The engine is down on power.
    Engine,
    /// The engine is held back by its own control, after a fault or the refit.
    Limp,
    /// The bottom is dirty, rough or damaged.
    Dirty,
    /// The hull is heavy: water in foam or bilge.
    Heavy,
    /// The coupling slips.
    Slip,
    /// The wear ring has spun or is loose.
    Ring,
    /// A bearing fails.
    Bearing,
    /// Engine and pump are out of line.
    Misaligned,
    /// Cooling hoses are crossed, kinked or blocked.
    Hoses,
    /// The reverse gate rubs the jet.
    Gate,
    /// Something that is not on this list.
    Unlisted,
}

/// How many there are.
pub const FAULTS: usize = 18;

impl Fault {
    /// All, in the order of every table here.
    pub const ALL: [Self; FAULTS] = [
        Self::Nothing,
        Self::Clearance,
        Self::Air,
        Self::Grate,
        Self::Blade,
        Self::NozzleWide,
        Self::NozzleNarrow,
        Self::Engine,
        Self::Limp,
        Self::Dirty,
        Self::Heavy,
        Self::Slip,
        Self::Ring,
        Self::Bearing,
        Self::Misaligned,
        Self::Hoses,
        Self::Gate,
        Self::Unlisted,
    ];

    /// It comes in sizes.
    pub fn has_severity(self) -> bool {
        !matches!(self, Self::Nothing | Self::Unlisted)
    }
}

/// A number for every fault.
pub type ByFault = [f64; FAULTS];

/// How often a craft that is brought because something may be wrong has each, up to one factor for all: from
/// memory, no statistics of the field were found.
pub const PRIOR: ByFault = [
    0.22, 0.13, 0.11, 0.08, 0.07, 0.02, 0.02, 0.10, 0.04, 0.05, 0.05, 0.03, 0.03, 0.03, 0.02, 0.02,
    0.02, 0.05,
];

/// The severities that are asked, equally likely: 0.2 is what one begins to notice, 1 is bad.
pub const SEVERITIES: [f64; 5] = [0.2, 0.4, 0.6, 0.8, 1.0];

/// Shares that add up to one.
pub(crate) fn normalised(shares: &ByFault) -> ByFault {
    let all: f64 = shares.iter().sum();
    shares.map(|share| share / all)
}
