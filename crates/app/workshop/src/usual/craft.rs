//! The few plain questions that choose what belongs into the plan.

/// What of the craft chooses steps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Craft {
    /// What happens with the wear ring.
    pub ring: Ring,
    /// How the driveline is checked.
    pub driveline: Driveline,
    /// What the pump sits on.
    pub shoe: Shoe,
    /// What its bearings run in.
    pub bearing: Bearing,
    /// What else it has.
    pub has: Vec<Has>,
    /// How many bolts, where a person counted them.
    pub counts: Counts,
}

/// What happens with the wear ring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ring {
    /// A new one is pressed in.
    Pressed,
    /// A new one is bonded in.
    Bonded,
    /// It stays.
    Stays,
}

/// How the driveline is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Driveline {
    /// With the gauge bar of the craft.
    GaugeBar,
    /// With a dial on rim and face.
    Dial,
    /// Not at all: the coupling is solid and bolted.
    Bolted,
}

/// What the pump sits on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shoe {
    /// A shoe that is bonded in anew.
    Bonded,
    /// One with the hull, or bonded and staying.
    Stays,
}

/// What the bearings run in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bearing {
    /// Grease.
    Greased,
    /// Oil.
    OilFilled,
}

/// What a craft has or has not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Has {
    /// A reverse gate.
    Reverse,
    /// A nozzle that is trimmed.
    Trim,
    /// A second bailer line.
    SecondBailer,
    /// A conical ring, set by shims.
    ConicalRing,
    /// A ride plate that cools the engine's closed circuit.
    CoolingPlate,
    /// Throttle, steering or reverse by wire.
    ByWire,
    /// A nozzle that is painted.
    PaintedNozzle,
    /// A hull to be filled at the intake or the ride plate.
    HullRepair,
}

impl Has {
    /// All, in the order they are asked.
    pub const ALL: [Self; 8] = [
        Self::Reverse,
        Self::Trim,
        Self::SecondBailer,
        Self::ConicalRing,
        Self::CoolingPlate,
        Self::ByWire,
        Self::PaintedNozzle,
        Self::HullRepair,
    ];
}

/// How many bolts to count; nothing where nobody counted them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Counts {
    /// Of the housing joint.
    pub housing: Option<u16>,
    /// Of the tail cone.
    pub cone: Option<u16>,
    /// Of the nozzle.
    pub nozzle: Option<u16>,
    /// Of the pump to its shoe.
    pub pump: Option<u16>,
    /// Of the grate.
    pub grate: Option<u16>,
    /// Of the ride plate.
    pub plate: Option<u16>,
}

impl Craft {
    /// Whether it has this.
    pub fn has(&self, what: Has) -> bool {
        self.has.contains(&what)
    }
}

impl Default for Craft {
    /// What is asked first: the form shows it, and a person changes it.
    fn default() -> Self {
        Self {
            ring: Ring::Pressed,
            driveline: Driveline::GaugeBar,
            shoe: Shoe::Stays,
            bearing: Bearing::Greased,
            has: vec![Has::Reverse, Has::SecondBailer],
            counts: Counts::default(),
        }
    }
}
