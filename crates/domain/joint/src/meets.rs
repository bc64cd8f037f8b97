//! What may not meet what, in a joint or near it.

use std::fmt;

use crate::Error;
use crate::compound::Compound;
use crate::strength::{FROM_MEMORY, NO_SOURCE};

/// Something that may stand in a joint or next to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Thing {
    /// A compound, in the joint and not yet set.
    Compound(Compound),
    /// Bare aluminium.
    Aluminium,
    /// Bare zinc, brass, bronze or copper, or plain steel; plugs and sensors with their contacts.
    BareMetal,
    /// The seat of an anode, and its screw.
    AnodeSeat,
    /// Salt or brackish water.
    SaltWater,
    /// Natural rubber.
    NaturalRubber,
    /// EPDM rubber.
    Epdm,
    /// Nitrile rubber.
    Nitrile,
    /// ABS.
    Abs,
    /// Polycarbonate.
    Polycarbonate,
    /// Acrylic.
    Acrylic,
    /// Nylon or acetal.
    Nylon,
    /// A surface still to be painted or glued.
    PaintToCome,
    /// An engine with an oxygen sensor, whose intake or exhaust takes up the vapour.
    OxygenSensor,
}

/// How bad a meeting is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// It may do where the data sheet allows it by name.
    AskTheSheet,
    /// It spoils the joint.
    Never,
}

/// What comes of a meeting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Harm {
    /// It keeps the other from curing or from sticking.
    StopsCure,
    /// The metal is eaten.
    Corrodes,
    /// The anode is cut off.
    Insulates,
    /// Rubber swells and goes soft.
    Swells,
    /// Plastic under stress cracks.
    Cracks,
    /// Paint and glue draw back from it.
    Contaminates,
    /// The sensor is blinded.
    Poisons,
    /// Neither is any longer what its data sheet says.
    Mixes,
}

/// One rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rule {
    /// The two, in the order of [`Thing`].
    pub pair: [Thing; 2],
    /// How bad it is.
    pub severity: Severity,
    /// What comes of it.
    pub harm: Harm,
    /// A third thing, without which the two may meet.
    pub with: Option<Thing>,
    /// A key of the bibliography, or that there is none.
    pub source: &'static str,
}

/// A compound as far as meetings go.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Family {
    Oily,
    Anaerobic,
    Silicone,
    Setting,
}

const fn family(compound: Compound) -> Family {
    match compound {
        Compound::Grease
        | Compound::AntiSeize
        | Compound::CopperAntiSeize
        | Compound::PtfePaste => Family::Oily,
        Compound::ThreadlockerLow
        | Compound::ThreadlockerMedium
        | Compound::ThreadlockerHigh
        | Compound::FlangeSealant => Family::Anaerobic,
        Compound::AcetoxySilicone | Compound::NeutralSilicone => Family::Silicone,
        Compound::Polyurethane | Compound::HybridPolymer | Compound::Epoxy | Compound::Paint => {
            Family::Setting
        }
    }
}

/// What comes of two things that meet, or none where nothing is known against it.
///
/// Not being forbidden here is no leave: the data sheet in hand goes before it.
pub fn meet(one: Thing, other: Thing) -> Option<Rule> {
    let pair = [one.min(other), one.max(other)];
    let (severity, harm, source) = match pair {
        [Thing::Compound(a), Thing::Compound(b)] => between(a, b)?,
        [Thing::Compound(compound), thing] => against(compound, thing)?,
        _ => return None,
    };
    let galvanic = matches!(
        pair,
        [Thing::Compound(Compound::CopperAntiSeize), Thing::Aluminium]
    );
    Some(Rule {
        pair,
        severity,
        harm,
        with: galvanic.then_some(Thing::SaltWater),
        source,
    })
}

type Verdict = (Severity, Harm, &'static str);

/// One compound a thread, one a face.
fn between(a: Compound, b: Compound) -> Option<Verdict> {
    use Family::{Anaerobic, Oily, Setting, Silicone};
    match (family(a), family(b)) {
        // What is dissolved or floated off cannot stick; both threads are degreased first.
        (Oily, Anaerobic | Silicone | Setting) | (Anaerobic | Silicone | Setting, Oily) => {
            Some((Severity::Never, Harm::StopsCure, FROM_MEMORY))
        }
        (Silicone, Setting) | (Setting, Silicone) => {
            Some((Severity::Never, Harm::Contaminates, FROM_MEMORY))
        }
        (Silicone, Anaerobic) | (Anaerobic, Silicone) => {
            Some((Severity::AskTheSheet, Harm::StopsCure, FROM_MEMORY))
        }
        _ if a != b => Some((Severity::AskTheSheet, Harm::Mixes, NO_SOURCE)),
        _ => None,
    }
}

fn against(compound: Compound, thing: Thing) -> Option<Verdict> {
    use Severity::{AskTheSheet, Never};
    let family = family(compound);
    let acid = compound == Compound::AcetoxySilicone;
    let mineral = family == Family::Oily && compound != Compound::PtfePaste;
    match thing {
        Thing::Aluminium if compound == Compound::CopperAntiSeize => {
            Some((Never, Harm::Corrodes, "aca-potentials"))
        }
        Thing::Aluminium | Thing::BareMetal if acid => {
            Some((Never, Harm::Corrodes, "yarchive-silicones"))
        }
        Thing::AnodeSeat => Some((Never, Harm::Insulates, NO_SOURCE)),
        Thing::NaturalRubber | Thing::Epdm if mineral => Some((Never, Harm::Swells, FROM_MEMORY)),
        Thing::Abs | Thing::Polycarbonate | Thing::Acrylic if family == Family::Anaerobic => {
            Some((Never, Harm::Cracks, "adhesives-2013"))
        }
        Thing::PaintToCome if family == Family::Silicone => {
            Some((Never, Harm::Contaminates, FROM_MEMORY))
        }
        Thing::PaintToCome if family == Family::Oily => {
            Some((Never, Harm::Contaminates, NO_SOURCE))
        }
        // Kinds of low vapour are sold for engines; the sheet says so by name.
        Thing::OxygenSensor if family == Family::Silicone => Some((
            if acid { Never } else { AskTheSheet },
            Harm::Poisons,
            FROM_MEMORY,
        )),
        _ => None,
    }
}

/// Every rule that things which stand together break.
pub fn clashes(things: &[Thing]) -> Vec<Rule> {
    let pairs = things.iter().enumerate().flat_map(|(at, one)| {
        things[at + 1..]
            .iter()
            .filter_map(|other| meet(*one, *other))
    });
    pairs
        .filter(|rule| rule.with.is_none_or(|with| things.contains(&with)))
        .collect()
}

/// Passes things that may stand together, refuses the first pair that must not.
///
/// What only the data sheet can allow passes here and stands in [`clashes`].
///
/// # Errors
/// [`Error::Clash`] with the pair.
pub fn check(things: &[Thing]) -> Result<(), Error> {
    let never = |rule: &Rule| rule.severity == Severity::Never;
    match clashes(things).into_iter().find(never) {
        Some(rule) => Err(Error::Clash { rule }),
        None => Ok(()),
    }
}

impl fmt::Display for Thing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Compound(compound) => return compound.fmt(f),
            Self::Aluminium => "bare aluminium",
            Self::BareMetal => "bare zinc, copper alloy, plain steel or a contact",
            Self::AnodeSeat => "the seat of an anode",
            Self::SaltWater => "salt water",
            Self::NaturalRubber => "natural rubber",
            Self::Epdm => "EPDM rubber",
            Self::Nitrile => "nitrile rubber",
            Self::Abs => "ABS",
            Self::Polycarbonate => "polycarbonate",
            Self::Acrylic => "acrylic",
            Self::Nylon => "nylon or acetal",
            Self::PaintToCome => "a surface still to be painted",
            Self::OxygenSensor => "an oxygen sensor",
        })
    }
}

impl fmt::Display for Harm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::StopsCure => "it keeps the other from sticking or curing",
            Self::Corrodes => "the metal is eaten",
            Self::Insulates => "the anode is cut off",
            Self::Swells => "the rubber swells",
            Self::Cracks => "the plastic cracks",
            Self::Contaminates => "paint and glue draw back from it",
            Self::Poisons => "the sensor is blinded",
            Self::Mixes => "mixed, neither is what its data sheet says",
        })
    }
}
