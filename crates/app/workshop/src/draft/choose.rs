//! What to fit, as typed.

use propulsion::engine::Breathing;
use quantity::{Entered, Unit};

use super::water::{SPEED_UNITS, may};
use super::{Choice, JobDraft, choose, count, length, optional, typed, word};
use crate::act::Act;
use crate::choose::{Angles, Choosing, CraftFacts, Fitting, Steady, Want, Wish, speed_unit};
use crate::entry::{Body, Key};
use crate::job::Job;
use crate::refusal::{Misfitting, Refusal};

/// The words for [`Breathing`].
pub const BREATHING: [Choice<Breathing>; 3] = [
    ("own", Breathing::Free),
    ("blower", Breathing::Blower),
    ("turbo", Breathing::Plateau),
];
/// The words for [`Angles`].
pub const ANGLES: [Choice<Angles>; 2] =
    [("measured", Angles::Measured), ("stamped", Angles::Stamped)];
/// The words for [`Want`].
pub const WANTS: [Choice<Want>; 3] = [
    ("pull", Want::Pull),
    ("speed", Want::Speed),
    ("both", Want::Both),
];
/// The words for a trailing edge that is cupped, or is not.
pub const CUPS: [Choice<bool>; 2] = [("yes", true), ("no", false)];

/// [`Fitting`] as typed. Each but the name of an option may be empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FittingDraft {
    /// What it is called.
    pub name: String,
    /// The leading edge; bare in degrees.
    pub leading: String,
    /// The trailing edge; bare in degrees.
    pub trailing: String,
    /// The radius of the angles; bare in millimetres.
    pub radius: String,
    /// A word of [`ANGLES`].
    pub angles: String,
    /// Who made it.
    pub maker: String,
    /// Blades.
    pub blades: String,
    /// The hub; bare in millimetres.
    pub hub: String,
    /// A word of [`CUPS`].
    pub cup: String,
    /// The gap; bare in the unit of the job's leaves.
    pub gap: String,
    /// The nozzle; bare in millimetres.
    pub nozzle: String,
    /// Anything else.
    pub note: String,
}

/// [`CraftFacts`] as typed. Each may be empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CraftDraft {
    /// Mass of the craft; bare in kilograms.
    pub mass: String,
    /// Mass of those on board; bare in kilograms.
    pub riders: String,
    /// Length on the water; bare in metres.
    pub length: String,
    /// Beam between the chines; bare in metres.
    pub beam: String,
    /// Deadrise aft; bare in degrees.
    pub deadrise: String,
    /// Centre of gravity ahead of the transom; bare in metres.
    pub balance: String,
    /// Rated power; bare in kilowatts.
    pub power: String,
    /// The engine speed it is rated at; bare in turns per minute.
    pub rated: String,
    /// The engine speed it is held back at; bare in turns per minute.
    pub limiter: String,
    /// A word of [`BREATHING`].
    pub breathing: String,
    /// Engine speed and torque of each point, as `4000 rpm 150 N·m; 6000 rpm 180 N·m`; bare alike.
    pub curve: String,
    /// The least engine speed the manual wants; bare in turns per minute.
    pub wanted_from: String,
    /// The greatest; bare in turns per minute.
    pub wanted_to: String,
    /// Diameter of the impeller; bare in millimetres.
    pub impeller: String,
    /// What was fitted when it was run.
    pub fitted: FittingDraft,
    /// The outing it was run on.
    pub outing: String,
    /// The manual's page.
    pub page: String,
}

/// [`Wish`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WishDraft {
    /// A word of [`WANTS`].
    pub want: String,
    /// The speed a start is timed to; bare in the unit of speed. May be empty.
    pub to: String,
}

/// [`Steady`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SteadyDraft {
    /// Engine speed; bare in turns per minute.
    pub engine: String,
    /// Speed of the craft; bare in the unit of speed. Empty where it was tied up.
    pub speed: String,
    /// Pull on the rope; bare in newtons. Empty where it ran.
    pub pull: String,
}

/// All that was said about what to fit, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ChoicesDraft {
    /// The craft.
    pub craft: Option<CraftDraft>,
    /// The options by key, in the order they were named.
    pub options: Vec<(String, FittingDraft)>,
    /// What is wanted.
    pub wish: Option<WishDraft>,
    /// The steady readings.
    pub steadies: Vec<SteadyDraft>,
}

fn said(entered: Option<&Entered>, bare: Unit) -> String {
    entered.map_or_else(String::new, |entered| typed(entered, bare))
}

fn maybe<T: PartialEq + Copy>(choices: &[Choice<T>], value: Option<T>) -> String {
    value.map_or("", |value| word(choices, value)).to_owned()
}

impl FittingDraft {
    /// The draft that reads as `fitting` where a bare gap is in `unit`.
    pub fn of(fitting: &Fitting, unit: Unit) -> Self {
        let mm = |entered: &Option<Entered>| said(entered.as_ref(), Unit::Millimetre);
        let angle = |entered: &Option<Entered>| said(entered.as_ref(), Unit::Degree);
        Self {
            name: fitting.name.clone(),
            leading: angle(&fitting.leading),
            trailing: angle(&fitting.trailing),
            radius: mm(&fitting.radius),
            angles: maybe(&ANGLES, fitting.angles),
            maker: fitting.maker.clone(),
            blades: fitting.blades.map_or_else(String::new, |n| n.to_string()),
            hub: mm(&fitting.hub),
            cup: maybe(&CUPS, fitting.cup),
            gap: said(fitting.gap.as_ref(), unit),
            nozzle: mm(&fitting.nozzle),
            note: fitting.note.clone(),
        }
    }

    /// Reads it, a bare gap in `unit`.
    pub fn read(&self, unit: Unit) -> Result<Fitting, Refusal> {
        let blades = match self.blades.trim() {
            "" => None,
            text => Some(count("blades", text, "a number of blades from 2 to 8")?),
        };
        let mm = |field, text: &str| optional(field, text, Unit::Millimetre);
        Ok(Fitting {
            name: self.name.trim().to_owned(),
            leading: optional("leading", &self.leading, Unit::Degree)?,
            trailing: optional("trailing", &self.trailing, Unit::Degree)?,
            radius: mm("radius", &self.radius)?,
            angles: may("angles", &self.angles, &ANGLES)?,
            maker: self.maker.trim().to_owned(),
            blades,
            hub: mm("hub", &self.hub)?,
            cup: may("cup", &self.cup, &CUPS)?,
            gap: optional("gap", &self.gap, unit)?,
            nozzle: mm("nozzle", &self.nozzle)?,
            note: self.note.trim().to_owned(),
        })
    }
}

impl CraftDraft {
    /// The draft that reads as `facts` where a bare gap is in `unit`.
    pub fn of(facts: &CraftFacts, unit: Unit) -> Self {
        let of = |entered: &Option<Entered>, bare| said(entered.as_ref(), bare);
        let rpm = |entered: Option<&Entered>| said(entered, Unit::Rpm);
        let wanted = facts.wanted.as_ref();
        Self {
            mass: of(&facts.mass, Unit::Kilogram),
            riders: of(&facts.riders, Unit::Kilogram),
            length: of(&facts.length, Unit::Metre),
            beam: of(&facts.beam, Unit::Metre),
            deadrise: of(&facts.deadrise, Unit::Degree),
            balance: of(&facts.balance, Unit::Metre),
            power: of(&facts.power, Unit::Kilowatt),
            rated: rpm(facts.rated.as_ref()),
            limiter: rpm(facts.limiter.as_ref()),
            breathing: maybe(&BREATHING, facts.breathing),
            curve: write_curve(&facts.curve),
            wanted_from: rpm(wanted.map(|(from, _)| from)),
            wanted_to: rpm(wanted.map(|(_, to)| to)),
            impeller: of(&facts.impeller, Unit::Millimetre),
            fitted: FittingDraft::of(&facts.fitted, unit),
            outing: facts
                .outing
                .as_ref()
                .map_or_else(String::new, Key::to_string),
            page: facts.page.clone(),
        }
    }

    /// Reads it, a bare gap in `unit`.
    pub fn read(&self, unit: Unit) -> Result<CraftFacts, Refusal> {
        let rpm = |field, text: &str| optional(field, text, Unit::Rpm);
        let metres = |field, text: &str| optional(field, text, Unit::Metre);
        let outing = match self.outing.trim() {
            "" => None,
            key => Some(Key::new(key)?),
        };
        Ok(CraftFacts {
            mass: optional("mass", &self.mass, Unit::Kilogram)?,
            riders: optional("riders", &self.riders, Unit::Kilogram)?,
            length: metres("length", &self.length)?,
            beam: metres("beam", &self.beam)?,
            deadrise: optional("deadrise", &self.deadrise, Unit::Degree)?,
            balance: metres("balance", &self.balance)?,
            power: optional("power", &self.power, Unit::Kilowatt)?,
            rated: rpm("rated", &self.rated)?,
            limiter: rpm("limiter", &self.limiter)?,
            breathing: may("breathing", &self.breathing, &BREATHING)?,
            curve: read_curve(&self.curve)?,
            wanted: self.wanted()?,
            impeller: optional("impeller", &self.impeller, Unit::Millimetre)?,
            fitted: self.fitted.read(unit)?,
            outing,
            page: self.page.trim().to_owned(),
        })
    }

    /// Both ends or none.
    fn wanted(&self) -> Result<Option<(Entered, Entered)>, Refusal> {
        if self.wanted_from.trim().is_empty() && self.wanted_to.trim().is_empty() {
            return Ok(None);
        }
        let from = length("wanted_from", &self.wanted_from, Unit::Rpm)?;
        let to = length("wanted_to", &self.wanted_to, Unit::Rpm)?;
        Ok(Some((from, to)))
    }
}

fn write_curve(curve: &[(Entered, Entered)]) -> String {
    let point = |(speed, torque): &(Entered, Entered)| {
        let (speed, torque) = (typed(speed, Unit::Rpm), typed(torque, Unit::NewtonMetre));
        format!("{speed} {torque}")
    };
    curve.iter().map(point).collect::<Vec<_>>().join("; ")
}

/// Points parted by semicolons or lines; the last word that begins with a digit begins the torque.
fn read_curve(text: &str) -> Result<Vec<(Entered, Entered)>, Refusal> {
    let points = text.split([';', '\n']).map(str::trim);
    let point = |text: &str| {
        let begins = |c: char| c.is_numeric() || matches!(c, '.' | ',');
        let space = text
            .char_indices()
            .rev()
            .find(|(at, c)| c.is_whitespace() && text[at + c.len_utf8()..].starts_with(begins));
        let Some((space, _)) = space else {
            let text = text.to_owned();
            return Err(Refusal::Choice(Misfitting::BadPoint { text }));
        };
        let (speed, torque) = text.split_at(space);
        Ok((
            length("curve", speed, Unit::Rpm)?,
            length("curve", torque, Unit::NewtonMetre)?,
        ))
    };
    points.filter(|text| !text.is_empty()).map(point).collect()
}

impl WishDraft {
    /// The draft that reads as `wish`, bare speeds in `unit`.
    pub fn of(wish: &Wish, unit: Unit) -> Self {
        Self {
            want: word(&WANTS, wish.want).to_owned(),
            to: said(wish.to.as_ref(), unit),
        }
    }

    /// Reads it, bare speeds in `unit`.
    pub fn read(&self, unit: Unit) -> Result<Wish, Refusal> {
        Ok(Wish {
            want: choose("want", &self.want, &WANTS)?,
            to: optional("to", &self.to, unit)?,
        })
    }
}

/// Steady readings, one a line: `5000 rpm 28 mph`, or `4000 rpm pull 900 N` where the craft was tied up.
pub fn steadies(text: &str, unit: Unit) -> Result<Vec<Steady>, Refusal> {
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines
        .map(|line| SteadyDraft::of_line(line).read(unit))
        .collect()
}

impl SteadyDraft {
    /// The line that reads as this.
    pub fn line(&self) -> String {
        let engine = with_unit(&self.engine, Unit::Rpm);
        if self.pull.is_empty() {
            format!("{engine} {}", self.speed)
        } else {
            format!("{engine} pull {}", self.pull)
        }
    }

    /// What stands before `rpm` is the engine's speed; behind `pull` a pull, anything else a speed.
    fn of_line(line: &str) -> Self {
        let (engine, rest) = match line.find("rpm") {
            Some(at) => line.split_at(at + "rpm".len()),
            None => line.split_once(' ').unwrap_or((line, "")),
        };
        let rest = rest.trim();
        let pull = rest.strip_prefix("pull").map(str::trim);
        Self {
            engine: engine.trim().to_owned(),
            speed: pull.map_or(rest, |_| "").to_owned(),
            pull: pull.unwrap_or_default().to_owned(),
        }
    }

    /// The draft that reads as `steady`, bare speeds in `unit`.
    pub fn of(steady: &Steady, unit: Unit) -> Self {
        Self {
            engine: typed(&steady.engine, Unit::Rpm),
            speed: said(steady.speed.as_ref(), unit),
            pull: said(steady.pull.as_ref(), Unit::Newton),
        }
    }

    /// Reads it, bare speeds in `unit`.
    pub fn read(&self, unit: Unit) -> Result<Steady, Refusal> {
        Ok(Steady {
            engine: length("engine", &self.engine, Unit::Rpm)?,
            speed: optional("speed", &self.speed, unit)?,
            pull: optional("pull", &self.pull, Unit::Newton)?,
        })
    }
}

impl JobDraft {
    /// The unit a bare speed takes outside of an outing: that of the draft's first outing, else as
    /// the job has it.
    pub fn speed_unit(&self, job: &Job) -> Unit {
        let first = self.trials.first();
        let unit = first.and_then(|trial| choose("unit", &trial.outing.unit, &SPEED_UNITS).ok());
        unit.unwrap_or_else(|| speed_unit(job))
    }
}

/// What was said about what to fit.
pub(super) fn drafts(job: &Job) -> ChoicesDraft {
    let (unit, speed) = (job.unit(), speed_unit(job));
    let choices = &job.choices;
    let craft = |facts: &CraftFacts| {
        let mut draft = CraftDraft::of(facts, unit);
        // An outing that is gone cannot be named.
        let there = |key: &Key| job.trials.outings.contains_key(key);
        if !facts.outing.as_ref().is_some_and(there) {
            draft.outing.clear();
        }
        draft
    };
    let options = choices.in_order().into_iter().map(|(key, state)| {
        let draft = FittingDraft::of(&state.fitting.value, unit);
        (key.to_string(), draft)
    });
    let steadies = choices.steadies.iter().flat_map(|fact| &fact.value);
    ChoicesDraft {
        craft: choices.craft.as_ref().map(|fact| craft(&fact.value)),
        options: options.collect(),
        wish: (choices.wish.as_ref()).map(|fact| WishDraft::of(&fact.value, speed)),
        steadies: steadies.map(|one| SteadyDraft::of(one, speed)).collect(),
    }
}

/// The acts that bring `job` to this, where it says otherwise or nothing; bare gaps and speeds in `units`.
pub(super) fn acts(
    draft: &ChoicesDraft,
    job: &Job,
    units: (Unit, Unit),
) -> Result<Vec<Act>, Refusal> {
    let (unit, speed) = units;
    let choices = &job.choices;
    let mut acts = Vec::new();
    let mut tell = |said| acts.push(Act::Recount(Body::Chose(said), None));
    if let Some(draft) = &draft.craft {
        let facts = draft.read(unit)?;
        let of = |facts: &CraftFacts| CraftDraft::of(facts, unit);
        let had = choices.craft.as_ref();
        if had.is_none_or(|had| of(&had.value) != of(&facts)) {
            tell(Choosing::Craft(Box::new(facts)));
        }
    }
    for (key, draft) in &draft.options {
        let key = Key::new(key)?;
        let fitting = Box::new(draft.read(unit)?);
        let of = |fitting: &Fitting| FittingDraft::of(fitting, unit);
        let had = choices.options.get(&key);
        if had.is_none_or(|had| of(&had.fitting.value) != of(&fitting)) {
            tell(Choosing::Option { key, fitting });
        }
    }
    if let Some(draft) = &draft.wish {
        let wish = draft.read(speed)?;
        let of = |wish: &Wish| WishDraft::of(wish, speed);
        let had = choices.wish.as_ref();
        if had.is_none_or(|had| of(&had.value) != of(&wish)) {
            tell(Choosing::Wish(wish));
        }
    }
    let steadies = draft.steadies.iter().map(|one| one.read(speed));
    let steadies: Vec<Steady> = steadies.collect::<Result<_, _>>()?;
    let of = |all: &[Steady]| -> Vec<SteadyDraft> {
        all.iter().map(|one| SteadyDraft::of(one, speed)).collect()
    };
    let had = choices.steadies.as_ref();
    // A file without readings takes none away.
    if !steadies.is_empty() && of(&steadies) != of(had.map_or(&[], |fact| &fact.value)) {
        tell(Choosing::Steadies(steadies));
    }
    Ok(acts)
}

/// What was typed, with its unit where it has none.
fn with_unit(text: &str, unit: Unit) -> String {
    if text.chars().any(char::is_alphabetic) {
        text.to_owned()
    } else {
        format!("{text} {}", unit.symbol())
    }
}
