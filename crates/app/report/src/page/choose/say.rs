//! What options do, in words.

use propulsion::Error;
use propulsion::predict::Band;
use propulsion::unknown::Unknown;
use quantity::{Unit, number};
use workshop::choose::answer::{Cause, Decides, Telling};
use workshop::choose::craft::Needed;

use crate::page::water::say::{bare, signed, speed};

/// `−190 rpm (−240 to −150)`
pub(crate) fn change(band: &Band, unit: Unit) -> String {
    format!(
        "{}\u{a0}{} ({} to {})",
        signed(band.middle, unit),
        unit.symbol(),
        signed(band.low, unit),
        signed(band.high, unit)
    )
}

/// `7410 rpm (7360 to 7460)`
pub(crate) fn level(band: &Band, unit: Unit) -> String {
    format!(
        "{} ({} to {})",
        speed(band.middle, unit),
        bare(band.low, unit),
        bare(band.high, unit)
    )
}

/// `7 in 10`
pub(crate) fn chance(share: f64) -> String {
    match number_of_ten(share) {
        0 => "less than 1 in 10".to_owned(),
        10 => "more than 9 in 10".to_owned(),
        tenths => format!("{tenths} in 10"),
    }
}

fn number_of_ten(share: f64) -> u8 {
    let text = quantity::number(10.0 * share, Unit::Metre, 0);
    text.parse().unwrap_or(0)
}

/// `74 %`
pub(crate) fn percent(share: f64) -> String {
    format!("{}\u{a0}%", quantity::number(100.0 * share, Unit::Metre, 0))
}

/// What a cause is called, where it gives and where it takes.
pub(crate) fn cause(cause: Cause, gives: bool) -> &'static str {
    match (cause, gives) {
        (Cause::Engine, true) => "the engine gives more at the speed it is let turn",
        (Cause::Engine, false) => "the engine gives less at the speed it is held to",
        (Cause::Incidence, true) => "water meets the leading edge with less shock",
        (Cause::Incidence, false) => "water meets the leading edge with more shock",
        (Cause::Swirl, true) => "less swirl is left behind the vanes",
        (Cause::Swirl, false) => "more swirl is left behind the vanes",
        (Cause::Friction, true) => "less friction in the pump",
        (Cause::Friction, false) => "more friction in the pump",
        (Cause::Gap, true) => "less leaks past the tips",
        (Cause::Gap, false) => "more leaks past the tips",
        (Cause::Breakdown, true) => "the suction breaks down less",
        (Cause::Breakdown, false) => "the suction breaks down more",
        (Cause::Jet, true) => "the jet leaves less energy behind",
        (Cause::Jet, false) => "the jet leaves more energy behind",
        (Cause::Intake, true) => "the intake loses less",
        (Cause::Intake, false) => "the intake loses more",
        (Cause::Nozzle, true) => "the nozzle loses less",
        (Cause::Nozzle, false) => "the nozzle loses more",
    }
}

/// `+1.2 kW`
pub(crate) fn power(watts: f64) -> String {
    let text = number(watts.abs(), Unit::Kilowatt, 1);
    let sign = if watts < 0.0 { "−" } else { "+" };
    format!("{sign}{text}\u{a0}kW")
}

/// What one more measurement would be, and why.
pub(crate) fn telling(of: Telling) -> &'static str {
    match of {
        Telling::Engine => {
            "the engine’s speed at full throttle, read with a tachometer on both ways of a double run"
        }
        Telling::Torque => "the engine’s torque on a brake, as points of a curve",
        Telling::PartThrottle => {
            "two steady readings at part throttle: engine speed and speed, both ways"
        }
        Telling::Start => "a start from rest, logged with the engine’s speed",
        Telling::Mass => "a scale: craft, riders and fuel as it was run",
        Telling::Angles => "the blades’ angles, measured with a protractor at the tip",
        Telling::Gap => "a double run before and after the gap is renewed",
    }
}

/// A sentence on what would settle it.
pub(crate) fn decides(decides: &Decides) -> String {
    let percent = number(100.0 * decides.worth, Unit::Metre, 1);
    format!(
        "What would help most to choose: {} (worth {percent}\u{a0}% of what you wish for, on average).",
        telling(decides.of)
    )
}

/// What is missing of the craft.
pub(crate) fn needed(needed: Needed) -> &'static str {
    match needed {
        Needed::Power => "the engine’s rated power",
        Needed::Rated => "the engine speed it is rated at",
        Needed::Impeller => "the diameter of the impeller",
        Needed::Angles => "both angles of the impeller that was fitted",
        Needed::Nozzle => "the bore of the nozzle that was fitted",
    }
}

/// What an unknown is called.
pub(crate) fn unknown(of: Unknown) -> &'static str {
    match of {
        Unknown::Engine => "Engine’s torque over the rating",
        Unknown::Rise => "Engine’s torque above its rated speed, rise",
        Unknown::Deviation => "Flow leaves flatter than the rule by",
        Unknown::Incidence => "Shock lost at the leading edge",
        Unknown::Stator => "Swirl lost past the vanes",
        Unknown::Friction => "Friction in the pump",
        Unknown::Intake => "Loss of the intake",
        Unknown::Wake => "Wake ahead of the intake",
        Unknown::Throat => "Loss of the throat at low speed",
        Unknown::Hull => "Hull’s drag over the method’s",
        Unknown::Air => "Air drag, area",
        Unknown::Hump => "Hump’s drag over weight",
        Unknown::Breakdown => "Suction speed of breakdown",
        Unknown::Bite => "Breakdown with a steeper leading edge",
        Unknown::Froth => "Air drawn in at rest",
        Unknown::Efficiency => "Pump over what its losses leave",
        Unknown::Mass => "Mass over what was told",
        Unknown::GapHead => "Head lost to the gap",
        Unknown::GapEfficiency => "Efficiency lost to the gap",
    }
}

/// The unit a refused quantity is told in, with its decimals.
const TOLD_IN: [(&str, Unit, u32); 14] = [
    ("impeller diameter", Unit::Millimetre, 0),
    ("nozzle bore", Unit::Millimetre, 1),
    ("blade angle", Unit::Degree, 1),
    ("leading edge angle at the tip", Unit::Degree, 1),
    ("trailing edge angle at the tip", Unit::Degree, 1),
    ("radius of the blade angle", Unit::Millimetre, 1),
    ("rated power", Unit::Kilowatt, 0),
    ("rated engine speed", Unit::Rpm, 0),
    ("speed of the limiter", Unit::Rpm, 0),
    ("engine speed at full throttle", Unit::Rpm, 0),
    ("engine speed at part throttle", Unit::Rpm, 0),
    ("engine speed of a pull", Unit::Rpm, 0),
    ("speed at full throttle", Unit::MetrePerSecond, 1),
    ("mass", Unit::Kilogram, 0),
];

/// Why something can't be reckoned with, and the way out.
pub(crate) fn error(error: &Error) -> String {
    match error {
        Error::Outside {
            what,
            value,
            low,
            high,
        } => {
            let told = TOLD_IN.iter().find(|(name, ..)| name == what);
            let number = |value: f64| match told {
                Some((_, unit, decimals)) => quantity::format(value, *unit, *decimals),
                None => format!("{value:.3}").replace('-', "−"),
            };
            format!(
                "the {what} comes out as {}, and the reckoning holds from {} to {}. Look over what \
                 was stated.",
                number(*value),
                number(*low),
                number(*high)
            )
        }
        Error::NoBalance { what, .. } => {
            format!("no balance was found of {what}. Look over power, angles, nozzle and mass.")
        }
        _ => "what was stated goes beyond the reckoning.".to_owned(),
    }
}
