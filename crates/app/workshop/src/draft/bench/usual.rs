//! The questions before the usual plan, as answered.

use super::{Choice, choose, word};
use crate::refusal::Refusal;
use crate::usual::{Bearing, Counts, Craft, Driveline, Has, Ring, Shoe};

/// The words for [`Ring`].
pub const USUAL_RINGS: [Choice<Ring>; 3] = [
    ("pressed", Ring::Pressed),
    ("bonded", Ring::Bonded),
    ("stays", Ring::Stays),
];
/// The words for [`Driveline`].
pub const DRIVELINES: [Choice<Driveline>; 3] = [
    ("gauge-bar", Driveline::GaugeBar),
    ("dial", Driveline::Dial),
    ("bolted", Driveline::Bolted),
];
/// The words for [`Shoe`].
pub const SHOES: [Choice<Shoe>; 2] = [("stays", Shoe::Stays), ("bonded", Shoe::Bonded)];
/// The words for [`Bearing`].
pub const BEARINGS: [Choice<Bearing>; 2] =
    [("greased", Bearing::Greased), ("oil", Bearing::OilFilled)];
/// The words for [`Has`].
pub const HAS: [Choice<Has>; 8] = [
    ("reverse", Has::Reverse),
    ("trim", Has::Trim),
    ("second-bailer", Has::SecondBailer),
    ("conical-ring", Has::ConicalRing),
    ("cooling-plate", Has::CoolingPlate),
    ("by-wire", Has::ByWire),
    ("painted-nozzle", Has::PaintedNozzle),
    ("hull-repair", Has::HullRepair),
];

/// [`Craft`] as answered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct UsualDraft {
    /// A word of [`USUAL_RINGS`].
    pub ring: String,
    /// A word of [`DRIVELINES`].
    pub driveline: String,
    /// A word of [`SHOES`].
    pub shoe: String,
    /// A word of [`BEARINGS`].
    pub bearing: String,
    /// Words of [`HAS`].
    pub has: Vec<String>,
    /// Bolts of the housing joint; may be empty, as all of these.
    pub housing: String,
    /// Screws of the tail cone.
    pub cone: String,
    /// Bolts of the nozzle.
    pub nozzle: String,
    /// Bolts of the pump to its shoe.
    pub pump: String,
    /// Bolts of the grate.
    pub grate: String,
    /// Bolts of the ride plate.
    pub plate: String,
}

impl UsualDraft {
    /// The draft that reads as `craft`.
    pub fn of(craft: &Craft) -> Self {
        let count = |count: Option<u16>| count.map_or_else(String::new, |count| count.to_string());
        let counts = &craft.counts;
        Self {
            ring: word(&USUAL_RINGS, craft.ring).to_owned(),
            driveline: word(&DRIVELINES, craft.driveline).to_owned(),
            shoe: word(&SHOES, craft.shoe).to_owned(),
            bearing: word(&BEARINGS, craft.bearing).to_owned(),
            has: (craft.has.iter())
                .map(|has| word(&HAS, *has).to_owned())
                .collect(),
            housing: count(counts.housing),
            cone: count(counts.cone),
            nozzle: count(counts.nozzle),
            pump: count(counts.pump),
            grate: count(counts.grate),
            plate: count(counts.plate),
        }
    }

    /// The craft that was described.
    pub fn read(&self) -> Result<Craft, Refusal> {
        let has = self.has.iter().map(|word| choose("has", word, &HAS));
        Ok(Craft {
            ring: choose("ring", &self.ring, &USUAL_RINGS)?,
            driveline: choose("driveline", &self.driveline, &DRIVELINES)?,
            shoe: choose("shoe", &self.shoe, &SHOES)?,
            bearing: choose("bearing", &self.bearing, &BEARINGS)?,
            has: has.collect::<Result<_, _>>()?,
            counts: Counts {
                housing: counted("housing", &self.housing)?,
                cone: counted("cone", &self.cone)?,
                nozzle: counted("nozzle", &self.nozzle)?,
                pump: counted("pump", &self.pump)?,
                grate: counted("grate", &self.grate)?,
                plate: counted("plate", &self.plate)?,
            },
        })
    }
}

/// As many bolts as one can count on a joint of a pump.
fn counted(field: &'static str, text: &str) -> Result<Option<u16>, Refusal> {
    let text = text.trim();
    let refused = || Refusal::NotACount {
        field,
        text: text.to_owned(),
        allowed: "1 to 99, or nothing where they are not counted",
    };
    if text.is_empty() {
        return Ok(None);
    }
    let count: Option<u16> = text.parse().ok();
    let count = count.filter(|count| (1..=99).contains(count));
    count.map(Some).ok_or_else(refused)
}
