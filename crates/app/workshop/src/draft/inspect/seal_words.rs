//! The words for compounds, seals and metals, in forms and in the file alike.

use joint::compound::{Compound, Edges};
use joint::galvanic::{Measure, Water};

use crate::draft::Choice;
use crate::seals::{Coat, Stainless};

/// The words for [`Compound`].
pub const COMPOUNDS: [Choice<Compound>; 14] = [
    ("grease", Compound::Grease),
    ("anti-seize", Compound::AntiSeize),
    ("copper-anti-seize", Compound::CopperAntiSeize),
    ("threadlocker-low", Compound::ThreadlockerLow),
    ("threadlocker-medium", Compound::ThreadlockerMedium),
    ("threadlocker-high", Compound::ThreadlockerHigh),
    ("ptfe-paste", Compound::PtfePaste),
    ("flange-sealant", Compound::FlangeSealant),
    ("acetoxy-silicone", Compound::AcetoxySilicone),
    ("neutral-silicone", Compound::NeutralSilicone),
    ("polyurethane", Compound::Polyurethane),
    ("hybrid-polymer", Compound::HybridPolymer),
    ("epoxy", Compound::Epoxy),
    ("paint", Compound::Paint),
];
/// The words for [`Water`].
pub const WATERS: [Choice<Water>; 3] = [
    ("fresh", Water::Fresh),
    ("brackish", Water::Brackish),
    ("salt", Water::Salt),
];
/// The words for [`Edges`].
pub const EDGES: [Choice<Edges>; 2] = [("both", Edges::Both), ("one", Edges::One)];
/// The words for [`Stainless`].
pub const STAINLESS: [Choice<Stainless>; 2] = [("a2", Stainless::A2), ("a4", Stainless::A4)];
/// The words for [`Coat`].
pub const COATS: [Choice<Coat>; 3] = [
    ("whole", Coat::Whole),
    ("scratched", Coat::Scratched),
    ("none", Coat::None),
];
/// The words for [`Measure`].
pub const MEASURES: [Choice<Measure>; 3] = [
    ("taken", Measure::Taken),
    ("open", Measure::Open),
    ("shut", Measure::Shut),
];
