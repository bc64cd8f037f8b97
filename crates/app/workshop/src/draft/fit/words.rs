//! The words of joints that are no circle of screws, in forms and in the file alike.

use joint::shaft::{Drive, End, Hand, Rotation};

use crate::draft::Choice;
use crate::fits::{Carries, Check, Faced, Kind, Lip, Pressed, Rubber, Until};

/// The words for [`Kind`].
pub const KINDS: [Choice<Kind>; 11] = [
    ("impeller", Kind::Impeller),
    ("press-fit", Kind::Press),
    ("lip-seals", Kind::Lips),
    ("o-ring", Kind::ORing),
    ("fill", Kind::Fill),
    ("spline", Kind::Spline),
    ("shims", Kind::Shims),
    ("hose", Kind::Hose),
    ("cable", Kind::Cable),
    ("plug", Kind::Plug),
    ("anode", Kind::Anode),
];
/// The words for [`Check`].
pub const CHECKS: [Choice<Check>; 25] = [
    ("clean", Check::Clean),
    ("bare", Check::Bare),
    ("facing", Check::Facing),
    ("greased", Check::Greased),
    ("bumpers-in", Check::BumpersIn),
    ("compound", Check::Compound),
    ("holder-seated", Check::HolderSeated),
    ("old-out", Check::OldOut),
    ("filled", Check::Filled),
    ("reached", Check::Reached),
    ("new-seal", Check::NewSeal),
    ("not-twisted", Check::NotTwisted),
    ("not-pinched", Check::NotPinched),
    ("by-stud", Check::ByStud),
    ("home", Check::Home),
    ("clamped", Check::Clamped),
    ("threads-set", Check::ThreadsSet),
    ("tightened", Check::Tightened),
    ("locked", Check::Locked),
    ("pulled", Check::Pulled),
    ("unpainted", Check::Unpainted),
    ("in-line", Check::InLine),
    ("full-travel", Check::FullTravel),
    ("turns-free", Check::TurnsFree),
    ("dry", Check::Dry),
];
/// The words for [`Pressed`].
pub const PRESSED: [Choice<Pressed>; 3] = [
    ("bearing", Pressed::Bearing),
    ("sealed-bearing", Pressed::SealedBearing),
    ("bush", Pressed::Bush),
];
/// The words for [`Faced`].
pub const FRONTS: [Choice<Faced>; 2] = [
    ("sealed-side", Faced::SealedSide),
    ("wide-shoulder", Faced::WideShoulder),
];
/// The words for [`Lip`].
pub const LIPS: [Choice<Lip>; 3] = [
    ("keeps-water-out", Lip::KeepsWaterOut),
    ("keeps-grease-in", Lip::KeepsGreaseIn),
    ("holds-pressure", Lip::HoldsPressure),
];
/// The words for [`Rubber`].
pub const RUBBERS: [Choice<Rubber>; 4] = [
    ("nitrile", Rubber::Nitrile),
    ("epdm", Rubber::Epdm),
    ("natural", Rubber::Natural),
    ("other", Rubber::Other),
];
/// The words for what is filled: whether it is oil.
pub const FILLS: [Choice<bool>; 2] = [("grease", false), ("oil", true)];
/// The words for [`Until`].
pub const UNTILS: [Choice<Until>; 3] = [
    ("shows", Until::Shows),
    ("level", Until::Level),
    ("amount", Until::Amount),
];
/// The words for [`Carries`].
pub const CARRIES: [Choice<Carries>; 3] = [
    ("cooling-water", Carries::Cooling),
    ("bilge-water", Carries::Bilge),
    ("exhaust", Carries::Exhaust),
];
/// The words for [`Hand`].
pub const HANDS: [Choice<Hand>; 2] = [("right", Hand::Right), ("left", Hand::Left)];
/// The words for [`End`].
pub const ENDS: [Choice<End>; 2] = [("aft", End::Aft), ("ahead", End::Ahead)];
/// The words for [`Drive`].
pub const DRIVES: [Choice<Drive>; 2] = [
    ("shaft-drives-impeller", Drive::ShaftDrivesImpeller),
    ("impeller-drags-shaft", Drive::ImpellerDragsShaft),
];
/// The words for the [`Rotation`] that tightens.
pub const TURNS: [Choice<Rotation>; 2] = [
    ("clockwise", Rotation::Clockwise),
    ("anticlockwise", Rotation::Anticlockwise),
];
