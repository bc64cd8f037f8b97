//! The words of the inspection, in forms and in the file alike.

use clearance::align::coupling::Carrier;
use clearance::thermal::{Metal, Polymer};

use crate::draft::Choice;
use crate::inspect::align::Way;
use crate::inspect::found::Sort;
use crate::inspect::{Area, Figure, Flaw, How, Method, Push, RingSeat, Severity, Spin, Todo};
use crate::supplies::{Group, Whereabouts};

/// The words for yes and no.
pub const YES: [Choice<bool>; 2] = [("yes", true), ("no", false)];
/// The words for a seal's track; a groove that was measured has a depth besides.
pub const TRACKS: [Choice<bool>; 2] = [("smooth", false), ("groove", true)];
/// The words for [`Spin`].
pub const SPINS: [Choice<Spin>; 4] = [
    ("smooth", Spin::Smooth),
    ("rough", Spin::Rough),
    ("gritty", Spin::Gritty),
    ("binds", Spin::Binds),
];
/// The words for [`Push`].
pub const PUSHES: [Choice<Push>; 2] = [("pressure", Push::Pressure), ("vacuum", Push::Vacuum)];
/// The words for the way the driveline is read.
pub const WAYS: [Choice<Way>; 3] = [
    ("slides", Way::Slides),
    ("bar", Way::Bar),
    ("dials", Way::Dials),
];
/// The words for which shaft carries the dials.
pub const CARRIERS: [Choice<Carrier>; 2] = [("pump", Carrier::Pump), ("engine", Carrier::Engine)];
/// The words for what a limit of the offset is: the whole swing of a dial, or the offset itself.
pub const LIMITS_OF: [Choice<bool>; 2] = [("offset", false), ("total", true)];
/// The words for [`Area`].
pub const AREAS: [Choice<Area>; 17] = [
    ("blades", Area::Blades),
    ("vanes", Area::Vanes),
    ("nozzle", Area::Nozzle),
    ("ring", Area::Ring),
    ("flange", Area::Flange),
    ("seal", Area::Seal),
    ("bearing", Area::Bearing),
    ("hull", Area::Hull),
    ("bolts", Area::Bolts),
    ("shoe", Area::Shoe),
    ("grate", Area::Grate),
    ("ride-plate", Area::RidePlate),
    ("driveline", Area::Driveline),
    ("mounts", Area::Mounts),
    ("lines", Area::Lines),
    ("controls", Area::Controls),
    ("anode", Area::Anode),
];
/// The words for [`Flaw`].
pub const FLAWS: [Choice<Flaw>; 29] = [
    ("nothing", Flaw::Nothing),
    ("nick-leading", Flaw::NickLeading),
    ("nick-trailing", Flaw::NickTrailing),
    ("bent", Flaw::Bent),
    ("root-crack", Flaw::RootCrack),
    ("missing-piece", Flaw::MissingPiece),
    ("tip-rounded", Flaw::TipRounded),
    ("chipped", Flaw::Chipped),
    ("step", Flaw::Step),
    ("scored", Flaw::Scored),
    ("swollen", Flaw::Swollen),
    ("corroded", Flaw::Corroded),
    ("grit", Flaw::Grit),
    ("cracked", Flaw::Cracked),
    ("snapped", Flaw::Snapped),
    ("spun-insert", Flaw::SpunInsert),
    ("pulled-thread", Flaw::PulledThread),
    ("debonded", Flaw::Debonded),
    ("torn-boot", Flaw::TornBoot),
    ("torn-lip", Flaw::TornLip),
    ("perished", Flaw::Perished),
    ("split", Flaw::Split),
    ("blocked", Flaw::Blocked),
    ("seized", Flaw::Seized),
    ("stretched", Flaw::Stretched),
    ("worn-splines", Flaw::WornSplines),
    ("loose", Flaw::Loose),
    ("spent", Flaw::Spent),
    ("other", Flaw::Other),
];
/// The words for [`Severity`].
pub const SEVERITIES: [Choice<Severity>; 3] = [
    ("stops-floating", Severity::Float),
    ("before-full-throttle", Severity::Throttle),
    ("watch", Severity::Watch),
];
/// The words for [`Todo`].
pub const TODOS: [Choice<Todo>; 5] = [
    ("dress", Todo::Dress),
    ("repair", Todo::Repair),
    ("send-out", Todo::SendOut),
    ("scrap", Todo::Scrap),
    ("fit", Todo::Fit),
];
/// The words for [`How`].
pub const HOWS: [Choice<How>; 3] = [
    ("replaced", How::Replaced),
    ("repaired", How::Repaired),
    ("accepted", How::Accepted),
];
/// The words for [`Method`].
pub const METHODS: [Choice<Method>; 3] = [
    ("two-tips", Method::TwoTips),
    ("round", Method::Round),
    ("other", Method::Other),
];
/// The words for [`RingSeat`].
pub const RING_SEATS: [Choice<RingSeat>; 5] = [
    ("metal-pressed", RingSeat::MetalPressed),
    ("plastic-pressed", RingSeat::PlasticPressed),
    ("plastic-bonded", RingSeat::PlasticBonded),
    ("plastic-loose", RingSeat::PlasticLoose),
    ("cast", RingSeat::Cast),
];
/// The words for [`Polymer`].
pub const POLYMERS: [Choice<Polymer>; 4] = [
    ("nylon", Polymer::Nylon),
    ("acetal", Polymer::Acetal),
    ("polyethylene", Polymer::Polyethylene),
    ("polyurethane", Polymer::Polyurethane),
];
/// The words for whether a ring has lain in water.
pub const SOAKED: [Choice<bool>; 2] = [("dry", false), ("soaked", true)];
/// The words for [`Metal`].
pub const METALS: [Choice<Metal>; 2] = [
    ("stainless", Metal::Stainless),
    ("aluminium", Metal::Aluminium),
];
/// The words for what a thicker stack of shims does.
pub const STACKS: [Choice<bool>; 2] = [("opens", true), ("closes", false)];
/// The words for [`Figure`].
pub const FIGURES: [Choice<Figure>; 2] = [("least", Figure::Least), ("mean", Figure::Mean)];
/// The words for [`Sort`].
pub const SORTS: [Choice<Sort>; 7] = [
    ("gap", Sort::Gap),
    ("witness-marks", Sort::Witness),
    ("shims", Sort::Shims),
    ("hose", Sort::Hose),
    ("cable", Sort::Cable),
    ("ring", Sort::Ring),
    ("other", Sort::Other),
];
/// The words for whether it was seen, is not on this craft (false), or was apart (true).
pub const FOUND_STATES: [Choice<Option<bool>>; 3] =
    [("seen", None), ("none", Some(false)), ("apart", Some(true))];
/// The words for whether witness marks are in line.
pub const MARKS: [Choice<bool>; 2] = [("in-line", true), ("moved", false)];
/// The words for [`Group`].
pub const GROUPS: [Choice<Group>; 3] = [
    ("part", Group::Part),
    ("consumable", Group::Consumable),
    ("tool", Group::Tool),
];
/// The words for [`Whereabouts`].
pub const WHEREABOUTS: [Choice<Whereabouts>; 4] = [
    ("at-hand", Whereabouts::AtHand),
    ("on-order", Whereabouts::OnOrder),
    ("missing", Whereabouts::Missing),
    ("not-needed", Whereabouts::NotNeeded),
];
