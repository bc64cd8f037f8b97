//! The classes of compounds as published data sheets have them: a table in code, so that the compiler
//! reads it and no file can be missing.

use super::{Compound, Cure, Removal, Sheet};
use crate::strength::FROM_MEMORY;
use crate::{Condition, Interval};

const MINUTE: f64 = 60.0;
const HOUR: f64 = 60.0 * MINUTE; // not a conversion: data sheets speak of minutes and hours
const DAY: f64 = 24.0 * HOUR;
const MONTH: f64 = 30.4 * DAY;

const fn from(low: f64, high: f64, unit: f64) -> Interval {
    Interval {
        low: low * unit,
        high: high * unit,
    }
}

/// Millimetres in the first day.
const fn deep(low: f64, high: f64) -> Cure {
    Cure::Moisture(from(low, high, 1e-3))
}

/// Full strength in a day on active metal; one to three days on passive metal, from memory.
const AIRLESS: Cure = Cure::Airless {
    active: from(1.0, 1.0, DAY),
    passive: from(1.0, 3.0, DAY),
};

/// What does not set, and is put on cold or warm.
const GREASE: Sheet = Sheet {
    working: None,
    skin: None,
    cure: Cure::Never,
    shelf: from(24.0, 60.0, MONTH),
    applied: Interval {
        low: 263.15,
        high: 323.15,
    },
    removal: Removal::Wipe,
    source: FROM_MEMORY,
};

/// It cannot be set right once it has begun to grip, some minutes after closing.
const THREADLOCKER: Sheet = Sheet {
    working: Some(from(5.0, 15.0, MINUTE)),
    skin: None,
    cure: AIRLESS,
    shelf: from(12.0, 24.0, MONTH),
    applied: Interval {
        low: 278.15,
        high: 313.15,
    },
    removal: Removal::HandTools,
    source: "shannahan-anaerobic",
};

const SILICONE: Sheet = Sheet {
    working: Some(from(5.0, 20.0, MINUTE)),
    skin: Some(from(10.0, 60.0, MINUTE)),
    cure: deep(2.0, 3.2),
    shelf: from(12.0, 18.0, MONTH),
    applied: Interval {
        low: 278.15,
        high: 313.15,
    },
    removal: Removal::Cut,
    source: "neutral-sheet",
};

impl Compound {
    /// Every compound.
    pub const ALL: [Self; 14] = [
        Self::Grease,
        Self::AntiSeize,
        Self::CopperAntiSeize,
        Self::ThreadlockerLow,
        Self::ThreadlockerMedium,
        Self::ThreadlockerHigh,
        Self::PtfePaste,
        Self::FlangeSealant,
        Self::AcetoxySilicone,
        Self::NeutralSilicone,
        Self::Polyurethane,
        Self::HybridPolymer,
        Self::Epoxy,
        Self::Paint,
    ];

    /// What data sheets of its class have, at 23 °C and half saturated air.
    ///
    /// The data sheet in hand goes before it. Figures that its source does not give are from memory.
    pub const fn sheet(self) -> Sheet {
        match self {
            Self::Grease | Self::AntiSeize | Self::CopperAntiSeize | Self::PtfePaste => GREASE,
            Self::ThreadlockerLow | Self::ThreadlockerMedium => THREADLOCKER,
            Self::ThreadlockerHigh => Sheet {
                // 450 to 600 degrees Fahrenheit.
                removal: Removal::Heat(Interval {
                    low: 505.0,
                    high: 589.0,
                }),
                source: "anaerobic-questions",
                ..THREADLOCKER
            },
            Self::FlangeSealant => Sheet {
                removal: Removal::Cut,
                ..THREADLOCKER
            },
            Self::NeutralSilicone => SILICONE,
            Self::AcetoxySilicone => Sheet {
                working: Some(from(5.0, 10.0, MINUTE)),
                skin: Some(from(8.0, 20.0, MINUTE)),
                source: "acetoxy-sheets",
                ..SILICONE
            },
            // Quick and slow kinds: the slow one has 3 mm in five days.
            Self::Polyurethane => Sheet {
                working: Some(from(20.0, 60.0, MINUTE)),
                skin: Some(from(1.0, 12.0, HOUR)),
                cure: deep(1.3, 4.0),
                shelf: from(9.0, 12.0, MONTH),
                source: "polyurethane-sheets",
                ..SILICONE
            },
            Self::HybridPolymer => Sheet {
                working: Some(from(5.0, 30.0, MINUTE)),
                skin: Some(from(10.0, 120.0, MINUTE)),
                cure: deep(2.0, 4.0),
                shelf: from(9.0, 18.0, MONTH),
                source: "sealant-guide-2018",
                ..SILICONE
            },
            Self::Epoxy => Sheet {
                working: Some(from(5.0, 60.0, MINUTE)),
                skin: None,
                cure: Cure::Reaction(from(5.0, 7.0, DAY)),
                removal: Removal::Grind,
                source: "epoxy-makers",
                ..SILICONE
            },
            Self::Paint => Sheet {
                working: Some(from(2.0, 6.0, HOUR)),
                skin: Some(from(1.0, 12.0, HOUR)),
                cure: Cure::Reaction(from(7.0, 14.0, DAY)),
                applied: Interval {
                    low: 283.15,
                    high: 308.15,
                },
                removal: Removal::Grind,
                source: "polyurethane-coating",
                ..SILICONE
            },
        }
    }

    /// What a thread with it counts as, for its friction; none for what belongs on faces.
    pub const fn condition(self) -> Option<Condition> {
        match self {
            Self::Grease => Some(Condition::Grease),
            Self::AntiSeize | Self::CopperAntiSeize => Some(Condition::AntiSeize),
            Self::ThreadlockerLow | Self::ThreadlockerMedium | Self::ThreadlockerHigh => {
                Some(Condition::Threadlocker)
            }
            Self::PtfePaste => Some(Condition::PtfePaste),
            _ => None,
        }
    }
}
