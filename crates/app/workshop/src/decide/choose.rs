//! Whether something may be said of what to fit.

mod craft;
mod fitting;

use quantity::{Entered, Kind, Unit};

use self::fitting::Pump;
use super::span::{Span, in_span};
use super::{LONGEST_NOTE, LONGEST_TEXT, filled, text};
use crate::choose::{Choosing, CraftFacts, Steady, Told, Wish, evidence};
use crate::entry::Key;
use crate::job::Job;
use crate::refusal::{Misfitting, Refusal, Splash};

/// The most options of a job.
pub const MOST_OPTIONS: usize = 48;
/// The most steady readings of a job.
pub const MOST_STEADIES: usize = 24;
/// The most points of a torque curve.
pub const MOST_POINTS: usize = 60;

const WISHED: Span = ("2", "35", Unit::MetrePerSecond);
const ENGINE: Span = ("500", "12000", Unit::Rpm);
const SPEED: Span = ("1", "50", Unit::MetrePerSecond);
const PULL: Span = ("20", "20000", Unit::Newton);
/// Of the rated speed: nearer to it the throttle may well be open, and nobody can tell.
const PART_THROTTLE: f64 = 0.97; // not a conversion: a share

/// What the last digits of a number in other units may be off by.
const SLACK: f64 = 1e-6;

/// Refuses what cannot be so, and what nobody needs to say.
pub(super) fn check(job: &Job, said: &Choosing) -> Result<(), Refusal> {
    sane(job, said)?;
    match said {
        Choosing::Craft(facts) => {
            fitting::check(&facts.fitted, &Pump::of(Some(facts)).or_bore(job))
        }
        Choosing::Option {
            fitting: option, ..
        } => {
            let facts = job.choices.craft.as_ref().map(|fact| &fact.value);
            fitting::check(option, &Pump::of(facts).or_bore(job))?;
            fitting::unlike(option, facts.map(|facts| &facts.fitted))
        }
        _ => Ok(()),
    }
}

/// What a file tells may have come before the craft got what is fitted now.
pub(super) fn sane(job: &Job, said: &Choosing) -> Result<(), Refusal> {
    match said {
        Choosing::Craft(facts) => craft::check(job, facts),
        Choosing::Option {
            key,
            fitting: option,
        } => {
            let choices = &job.choices;
            if !choices.options.contains_key(key) && choices.options.len() >= MOST_OPTIONS {
                return Err(too_many("key", "options", MOST_OPTIONS));
            }
            filled("name", &option.name)?;
            let facts = choices.craft.as_ref().map(|fact| &fact.value);
            fitting::check(option, &Pump::of(facts))?;
            fitting::changes(option)
        }
        Choosing::OptionPutAway { key } => known(job, key),
        Choosing::Wish(wish) => wished(wish),
        Choosing::Steadies(all) => {
            if all.len() > MOST_STEADIES {
                return Err(too_many("engine", "steady readings", MOST_STEADIES));
            }
            let facts = job.choices.craft.as_ref().map(|fact| &fact.value);
            all.iter().try_for_each(|one| steady(facts, one))
        }
        Choosing::Taken(told) => taken(job, told),
    }
}

pub(super) fn known(job: &Job, key: &Key) -> Result<(), Refusal> {
    if job.choices.options.contains_key(key) {
        return Ok(());
    }
    Err(Refusal::Choice(Misfitting::NoSuchOption {
        key: key.to_string(),
    }))
}

fn wished(wish: &Wish) -> Result<(), Refusal> {
    let Some(to) = &wish.to else { return Ok(()) };
    a_speed("to", to)?;
    in_span("to", Some(to), WISHED)
}

/// A reading at full throttle says what a run of the water test says, and belongs there.
fn steady(facts: Option<&CraftFacts>, one: &Steady) -> Result<(), Refusal> {
    in_span("engine", Some(&one.engine), ENGINE)?;
    facts.map_or(Ok(()), |facts| part_throttle(facts, &one.engine))?;
    match (&one.speed, &one.pull) {
        (Some(speed), None) => {
            a_speed("speed", speed)?;
            in_span("speed", Some(speed), SPEED)
        }
        (None, Some(pull)) => in_span("pull", Some(pull), PULL),
        (speed, _) => Err(Refusal::Choice(Misfitting::SpeedOrPull {
            engine: one.engine.text.clone(),
            both: speed.is_some(),
        })),
    }
}

/// Nothing is known of the throttle itself, so it is told by the engine's speed.
fn part_throttle(facts: &CraftFacts, engine: &Entered) -> Result<(), Refusal> {
    let rpm = |entered: &Entered| Unit::Rpm.from_si(entered.value);
    let (full, most) = match (&facts.rated, &facts.limiter) {
        (Some(rated), _) => (rated, (PART_THROTTLE * rpm(rated) + SLACK).floor()),
        (None, Some(limiter)) => (limiter, (rpm(limiter) - SLACK).ceil() - 1.0),
        (None, None) => return Ok(()),
    };
    if rpm(engine) <= most + SLACK {
        return Ok(());
    }
    Err(Refusal::Choice(Misfitting::FullThrottle {
        text: engine.text.clone(),
        engine: engine.worded(),
        most: format!("{most}\u{a0}rpm"),
        full: full.worded(),
    }))
}

fn taken(job: &Job, told: &Told) -> Result<(), Refusal> {
    text("words", &told.words, LONGEST_NOTE)?;
    text("program", &told.program, LONGEST_TEXT)?;
    let bands = [Some(told.engine), Some(told.speed), told.time];
    let ordered = |[low, middle, high]: [f64; 3]| {
        [low, middle, high].iter().all(|end| end.is_finite()) && low <= middle && middle <= high
    };
    if !bands.into_iter().flatten().all(ordered) {
        return Err(Refusal::Choice(Misfitting::NoBand));
    }
    known(job, &told.option)?;
    if told.evidence == evidence(job) {
        Ok(())
    } else {
        Err(Refusal::ShownIsStale)
    }
}

fn a_speed(field: &'static str, entered: &Entered) -> Result<(), Refusal> {
    if entered.unit.kind() == Kind::Speed {
        Ok(())
    } else {
        Err(Refusal::Water(Splash::NotASpeed { field }))
    }
}

fn too_many(field: &'static str, what: &'static str, most: usize) -> Refusal {
    Refusal::Choice(Misfitting::TooMany { field, what, most })
}
