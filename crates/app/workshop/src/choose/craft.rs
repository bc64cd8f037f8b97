//! The craft as the model takes it: what was said, what was measured, what is assumed.

use propulsion::craft::{Conditions, Craft, Ills};
use propulsion::drag::Drag;
use propulsion::engine::{Breathing, Engine};
use propulsion::hull::{Hull, resistance};
use propulsion::pump::{Blades, Pump};
use propulsion::unknown::Unknowns;
use propulsion::water::water;
use quantity::{Entered, Unit, parse};
use trial::conditions::{Intake, Weather, air_density, iso_factor};

use super::{CraftFacts, Fitting};
use crate::entry::EntryId;
use crate::job::{Fact, Job};
use crate::sourced::Origin;
use crate::water::outing::HUMIDITY;
use crate::water::{self, OutingState};

/// A value of the craft, as it goes into the model.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// The field it is stated in, so that it can be replaced where it stands.
    pub field: &'static str,
    /// The value in SI.
    pub value: f64,
    /// The unit it is shown in.
    pub unit: Unit,
    /// Where it comes from.
    pub origin: Origin,
}

/// What nobody said and cannot be assumed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Needed {
    /// The engine's rated power.
    Power,
    /// The engine speed it is rated at.
    Rated,
    /// Diameter of the impeller.
    Impeller,
    /// Angles of the impeller that was fitted.
    Angles,
    /// Bore of the nozzle that was fitted.
    Nozzle,
}

/// The craft ready to be reckoned with.
#[derive(Clone, Debug)]
pub struct Setup {
    /// The craft as it was fitted on the day, its unknowns as expected.
    pub craft: Craft,
    /// That day.
    pub day: Conditions,
    /// What went in, with its origin, in the order of the form.
    pub known: Vec<Known>,
    /// The engine speed the manual wants, from and to, `rad/s`.
    pub wanted: Option<[f64; 2]>,
}

/// Why there is no craft to reckon with.
#[derive(Clone, Debug, PartialEq)]
pub enum NoCraft {
    /// Nothing was said of it.
    Nothing,
    /// These are missing.
    Needs(Vec<Needed>),
    /// What was said cannot be reckoned with.
    Refused(propulsion::Error),
}

/// The defaults, as a person would write them: assumed, no source, but for a two-seat craft to sit on.
const DEFAULTS: [(&str, &str, Unit); 9] = [
    ("mass", "330 kg", Unit::Kilogram),
    ("riders", "85 kg", Unit::Kilogram),
    ("length", "2.7 m", Unit::Metre),
    ("beam", "1.0 m", Unit::Metre),
    ("deadrise", "22°", Unit::Degree),
    ("balance", "1.05 m", Unit::Metre),
    ("gap", "0.3 mm", Unit::Millimetre),
    ("water_temperature", "20 °C", Unit::Celsius),
    ("air_temperature", "20 °C", Unit::Celsius),
];
/// Hub over tip diameter, limiter over rated speed, solidity of three blades: assumed, no source.
const HUB: f64 = 0.45;
const LIMITER: f64 = 1.03;
const SOLIDITY: f64 = 1.3;
const BLADES: u8 = 3;
/// What a cup adds to the angle of the trailing edge, `rad`, and how sure that is: common practice, no
/// source.
pub(super) const CUP: f64 = 1.0_f64.to_radians();
pub(super) const CUP_SPREAD: f64 = 0.5_f64.to_radians();
const ATMOSPHERE: f64 = 101_325.0;
/// Salinity of the sea, `kg/kg`: the standard's own.
const SEA: f64 = 0.035_165_04;

struct Gather<'a> {
    facts: &'a CraftFacts,
    entry: &'a EntryId,
    known: Vec<Known>,
    needed: Vec<Needed>,
}

impl Gather<'_> {
    fn put(&mut self, field: &'static str, (value, unit): (f64, Unit), origin: Origin) -> f64 {
        self.known.push(Known {
            field,
            value,
            unit,
            origin,
        });
        value
    }

    /// What was said of a field.
    fn say(&mut self, field: &'static str, said: &Entered) -> f64 {
        let origin = self.stated(field);
        self.put(field, (said.value, said.unit), origin)
    }

    /// A rating stands in the manual, where its page was named; anything else was measured or weighed.
    fn stated(&self, field: &str) -> Origin {
        let rating = ["power", "rated", "limiter"].contains(&field);
        if self.facts.page.is_empty() || !rating {
            Origin::Measured(self.entry.clone())
        } else {
            Origin::Manual {
                entry: self.entry.clone(),
                page: self.facts.page.clone(),
            }
        }
    }

    /// What was said, or the default.
    fn or_default(&mut self, field: &'static str, said: Option<&Entered>) -> f64 {
        let default = DEFAULTS.iter().find(|(name, ..)| *name == field);
        match (said, default) {
            (Some(said), _) => self.say(field, said),
            (None, Some((_, text, unit))) => {
                let value = parse(text, *unit).map_or(f64::NAN, |default| default.value);
                self.put(field, (value, *unit), Origin::Assumed(text))
            }
            (None, None) => f64::NAN,
        }
    }

    fn need(&mut self, field: &'static str, said: Option<&Entered>, needed: Needed) -> f64 {
        if let Some(said) = said {
            self.say(field, said)
        } else {
            self.needed.push(needed);
            f64::NAN
        }
    }
}

/// The craft of a job, as it was fitted on the outing it is learnt from.
pub fn setup(job: &Job, outing: Option<&OutingState>) -> Result<Setup, NoCraft> {
    let Some(Fact {
        value: facts,
        entry,
        ..
    }) = &job.choices.craft
    else {
        return Err(NoCraft::Nothing);
    };
    let mut gather = Gather {
        facts,
        entry,
        known: Vec::new(),
        needed: Vec::new(),
    };
    let mass = gather.or_default("mass", facts.mass.as_ref());
    let riders = gather.or_default("riders", facts.riders.as_ref());
    let hull = hull(&mut gather);
    let engine = engine(&mut gather);
    let pump = pump(&mut gather, job);
    let nozzle = facts.fitted.nozzle.as_ref();
    let nozzle = gather.need("nozzle", nozzle, Needed::Nozzle);
    let day = day(&mut gather, outing).map_err(NoCraft::Refused)?;
    if !gather.needed.is_empty() {
        return Err(NoCraft::Needs(gather.needed));
    }
    let build = || -> Result<Craft, propulsion::Error> {
        let mass = mass + riders;
        let hull = hull?;
        let drag = Drag::new(mass, |mass, speed| {
            Ok(resistance(&hull, mass, speed, &day.water)?.force)
        })?;
        let craft = Craft {
            pump,
            nozzle,
            engine: engine?,
            drag,
            mass,
            ills: Ills::NONE,
            unknowns: Unknowns::expected(),
        };
        craft.check()?;
        Ok(craft)
    };
    let wanted = facts.wanted.as_ref();
    Ok(Setup {
        craft: build().map_err(NoCraft::Refused)?,
        day,
        known: gather.known,
        wanted: wanted.map(|(from, to)| [from.value, to.value]),
    })
}

fn engine(gather: &mut Gather<'_>) -> Result<Engine, propulsion::Error> {
    let facts = gather.facts;
    let power = gather.need("power", facts.power.as_ref(), Needed::Power);
    let rated = gather.need("rated", facts.rated.as_ref(), Needed::Rated);
    let limiter = if let Some(limiter) = &facts.limiter {
        gather.say("limiter", limiter)
    } else {
        let origin = Origin::Assumed("3 % above the rated speed");
        gather.put("limiter", (LIMITER * rated, Unit::Rpm), origin)
    };
    if facts.curve.is_empty() {
        let breathing = facts.breathing.unwrap_or(Breathing::Free);
        return Engine::rated(power, rated, limiter, breathing);
    }
    let points = facts.curve.iter();
    let points: Vec<[f64; 2]> = points.map(|(n, torque)| [n.value, torque.value]).collect();
    Engine::curve(&points, limiter)
}

fn hull(gather: &mut Gather<'_>) -> Result<Hull, propulsion::Error> {
    let facts = gather.facts;
    let length = gather.or_default("length", facts.length.as_ref());
    let beam = gather.or_default("beam", facts.beam.as_ref());
    let deadrise = gather.or_default("deadrise", facts.deadrise.as_ref());
    let balance = gather.or_default("balance", facts.balance.as_ref());
    let mut hull = Hull::typical(length, beam, deadrise)?;
    hull.bottom.lcg = balance;
    Ok(hull)
}

fn pump(gather: &mut Gather<'_>, job: &Job) -> Pump {
    let facts = gather.facts;
    let gap = gap(gather, job);
    let diameter = diameter(gather, job, gap);
    let hub = if let Some(hub) = &facts.fitted.hub {
        gather.say("hub", hub)
    } else {
        let origin = Origin::Assumed("0.45 of the impeller’s diameter");
        gather.put("hub", (HUB * diameter, Unit::Millimetre), origin)
    };
    let mut pump = Pump {
        diameter,
        hub: hub / diameter,
        blades: Blades {
            leading: f64::NAN,
            trailing: f64::NAN,
            solidity: SOLIDITY,
        },
        gap,
        gap_known: gap,
        leading_known: f64::NAN,
        ratio: 1.0,
    };
    match (&facts.fitted.leading, &facts.fitted.trailing) {
        (Some(leading), Some(trailing)) => {
            gather.say("leading", leading);
            gather.say("trailing", trailing);
            match blades(&facts.fitted, &pump, None) {
                Ok(blades) => {
                    pump.blades = blades;
                    pump.leading_known = blades.leading;
                }
                Err(_) => gather.needed.push(Needed::Angles),
            }
        }
        _ => gather.needed.push(Needed::Angles),
    }
    pump
}

/// The gap: as stated with the parts, as taken under Measure, or assumed.
fn gap(gather: &mut Gather<'_>, job: &Job) -> f64 {
    let stated = gather.facts.fitted.gap.as_ref();
    match (stated, &job.accepted) {
        (None, Some(taken)) => {
            let origin = Origin::Measured(taken.entry.clone());
            let mean = &taken.value.mean;
            gather.put("gap", (mean.median, job.unit()), origin)
        }
        _ => gather.or_default("gap", stated),
    }
}

/// The impeller: as stated, as measured under Measure, or the ring's bore less the gap.
fn diameter(gather: &mut Gather<'_>, job: &Job, gap: f64) -> f64 {
    let sizes = job.inspected.sizes.as_ref();
    let measured = sizes.and_then(|fact| Some((fact.value.impeller.as_ref()?, &fact.entry)));
    match (&gather.facts.impeller, measured, &job.pump) {
        (Some(stated), ..) => gather.say("impeller", stated),
        (None, Some(((diameter, _), entry)), _) => {
            let origin = Origin::Measured(entry.clone());
            gather.put("impeller", (diameter.value, diameter.unit), origin)
        }
        (None, None, Some(pump)) => {
            let origin = Origin::Computed {
                formula: "bore of the ring less twice the gap",
                inputs: 2,
            };
            let bore = &pump.value.bore;
            gather.put("impeller", (bore.value - 2.0 * gap, bore.unit), origin)
        }
        (None, None, None) => {
            gather.needed.push(Needed::Impeller);
            f64::NAN
        }
    }
}

/// The blades of a fitting at the tip of the pump; where a fitting says nothing, as in `else_`.
pub(super) fn blades(
    fitting: &Fitting,
    pump: &Pump,
    else_: Option<(&Fitting, &Blades)>,
) -> Result<Blades, propulsion::Error> {
    let tip = 0.5 * pump.diameter;
    let radius = fitting.radius.as_ref().map_or(tip, |radius| radius.value);
    let at_tip = |angle: &Entered| Blades::at_tip(angle.value, radius, tip);
    let fallback = |pick: fn(&Blades) -> f64| else_.map_or(f64::NAN, |(_, blades)| pick(blades));
    let leading = match &fitting.leading {
        Some(angle) => at_tip(angle)?,
        None => fallback(|blades| blades.leading),
    };
    let mut trailing = match &fitting.trailing {
        Some(angle) => at_tip(angle)?,
        None => fallback(|blades| blades.trailing),
    };
    let cupped = |fitting: &Fitting| fitting.cup.unwrap_or(false);
    let was = else_.is_some_and(|(fitting, _)| cupped(fitting));
    let is = fitting.cup.unwrap_or(was);
    if fitting.trailing.is_some() && is {
        trailing += CUP;
    } else if fitting.trailing.is_none() && is != was {
        trailing += if is { CUP } else { -CUP };
    }
    let count = |fitting: &Fitting| fitting.blades;
    let before = else_
        .and_then(|(fitting, _)| count(fitting))
        .unwrap_or(BLADES);
    let solidity = match (fitting.blades, else_) {
        (Some(blades), Some((_, had))) => had.solidity * f64::from(blades) / f64::from(before),
        (Some(blades), None) => SOLIDITY * f64::from(blades) / f64::from(BLADES),
        (None, Some((_, had))) => had.solidity,
        (None, None) => SOLIDITY,
    };
    Ok(Blades {
        leading,
        trailing,
        solidity,
    })
}

fn day(
    gather: &mut Gather<'_>,
    outing: Option<&OutingState>,
) -> Result<Conditions, propulsion::Error> {
    let told = outing.map(|state| &state.outing.value);
    let of = |pick: fn(&water::Outing) -> Option<&Entered>| told.and_then(pick);
    let warm = of(|outing| outing.water_temperature.as_ref());
    let warm = gather.or_default("water_temperature", warm);
    let salt = told.is_some_and(|outing| outing.water == Some(water::Water::Salt));
    let air = of(|outing| outing.air_temperature.as_ref());
    let temperature = gather.or_default("air_temperature", air);
    let pressure = of(|outing| outing.pressure.as_ref()).map_or(ATMOSPHERE, |said| said.value);
    let humidity = told.and_then(|outing| outing.humidity).unwrap_or(HUMIDITY);
    let weather = Weather {
        pressure,
        temperature,
        humidity: f64::from(humidity) / 100.0,
    };
    let own = gather
        .facts
        .breathing
        .is_none_or(|breathing| breathing == Breathing::Free);
    let charged = told.is_some_and(|outing| outing.charged) || !own;
    let intake = if charged {
        Intake::Pressed
    } else {
        Intake::Own
    };
    let factor = iso_factor(&weather, intake).map_or(1.0, |factor| factor.factor);
    Ok(Conditions {
        water: water(warm, if salt { SEA } else { 0.0 })?,
        pressure,
        air: air_density(&weather).unwrap_or(1.2),
        power: 1.0 / factor,
        headwind: 0.0,
    })
}
