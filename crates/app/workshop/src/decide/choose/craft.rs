//! Whether a craft may be so.

use quantity::{Entered, Unit};

use super::super::span::{Span, all_in_span};
use super::fitting::{self, Pump};
use super::{LONGEST_TEXT, MOST_POINTS, SLACK, part_throttle, text, too_many};
use crate::choose::CraftFacts;
use crate::decide::in_order;
use crate::job::Job;
use crate::refusal::{Misfitting, Refusal, Splash};

const MASS: Span = ("80", "1500", Unit::Kilogram);
const RIDERS: Span = ("0", "600", Unit::Kilogram);
const LENGTH: Span = ("1.5", "8", Unit::Metre);
const BEAM: Span = ("0.5", "2.6", Unit::Metre);
const DEADRISE: Span = ("0", "35", Unit::Degree);
const BALANCE: Span = ("0.3", "4", Unit::Metre);
const POWER: Span = ("5", "400", Unit::Kilowatt);
const RATED: Span = ("2000", "11000", Unit::Rpm);
/// As far as a limiter can be from any rated speed.
const LIMITER: Span = ("2000", "14300", Unit::Rpm);
const WANTED: Span = LIMITER;
const AT: Span = ("300", "14300", Unit::Rpm);
const TORQUE: Span = ("1", "1000", Unit::NewtonMetre);
const IMPELLER: Span = ("80", "400", Unit::Millimetre);

/// A limiter further above the rated speed is a slip.
const OVER: f64 = 1.3; // not a conversion: a share
/// Fewer points are no curve.
const FEWEST: usize = 3;
/// A curve must come so near to the limiter.
const SHORT_OF: f64 = 1.025; // not a conversion: a fortieth more
/// Points nearer to each other are the same one twice, in `rad/s`: 10 rpm.
const APART: f64 = 1.047;

/// Refuses what cannot be so.
pub(super) fn check(job: &Job, facts: &CraftFacts) -> Result<(), Refusal> {
    text("page", &facts.page, LONGEST_TEXT)?;
    all_in_span([
        ("mass", facts.mass.as_ref(), MASS),
        ("riders", facts.riders.as_ref(), RIDERS),
        ("length", facts.length.as_ref(), LENGTH),
        ("beam", facts.beam.as_ref(), BEAM),
        ("deadrise", facts.deadrise.as_ref(), DEADRISE),
        ("balance", facts.balance.as_ref(), BALANCE),
        ("power", facts.power.as_ref(), POWER),
        ("rated", facts.rated.as_ref(), RATED),
        ("limiter", facts.limiter.as_ref(), LIMITER),
        ("impeller", facts.impeller.as_ref(), IMPELLER),
    ])?;
    if let Some((from, to)) = &facts.wanted {
        let ends = [
            ("wanted_from", Some(from), WANTED),
            ("wanted_to", Some(to), WANTED),
        ];
        all_in_span(ends)?;
        in_order("wanted_from", from, to)?;
    }
    limiter(facts)?;
    if !facts.curve.is_empty() {
        curve(facts)?;
    }
    outing(job, facts)?;
    fitting::check(&facts.fitted, &Pump::of(Some(facts)))?;
    all_else(job, facts)
}

/// What was said before must go with it as well: a job never says two things at once.
fn all_else(job: &Job, facts: &CraftFacts) -> Result<(), Refusal> {
    let against = |field, what: String, refused: Result<(), Refusal>| match refused {
        Err(Refusal::Choice(why)) => {
            let why = Box::new(why);
            Err(Refusal::Choice(Misfitting::Against { field, what, why }))
        }
        other => other,
    };
    let field = if facts.impeller.is_some() {
        "impeller"
    } else {
        "hub"
    };
    for (_, state) in job.choices.in_order() {
        let option = &state.fitting.value;
        let what = format!("the option “{}”", option.name);
        let refused = fitting::check(option, &Pump::of(Some(facts)));
        against(field, what, refused)?;
    }
    let field = if facts.rated.is_some() {
        "rated"
    } else {
        "limiter"
    };
    let steadies = job.choices.steadies.iter();
    for one in steadies.flat_map(|fact| &fact.value) {
        let what = format!("the steady reading at {}", one.engine.worded());
        against(field, what, part_throttle(facts, &one.engine))?;
    }
    Ok(())
}

fn limiter(facts: &CraftFacts) -> Result<(), Refusal> {
    let (Some(rated), Some(limiter)) = (&facts.rated, &facts.limiter) else {
        return Ok(());
    };
    let (under, over) = (
        limiter.value < rated.value,
        limiter.value > OVER * rated.value + SLACK,
    );
    if !under && !over {
        return Ok(());
    }
    let (limiter, rated) = (limiter.worded(), rated.worded());
    Err(Refusal::Choice(if under {
        Misfitting::LimiterUnderRated { limiter, rated }
    } else {
        Misfitting::LimiterFarOver { limiter, rated }
    }))
}

fn curve(facts: &CraftFacts) -> Result<(), Refusal> {
    let curve = &facts.curve;
    if curve.len() < FEWEST {
        return Err(Refusal::Choice(Misfitting::ShortCurve {
            points: curve.len(),
        }));
    }
    if curve.len() > MOST_POINTS {
        return Err(too_many("curve", "points of a torque curve", MOST_POINTS));
    }
    for (speed, torque) in curve {
        all_in_span([("curve", Some(speed), AT), ("curve", Some(torque), TORQUE)])?;
    }
    let near = |pair: &&[(Entered, Entered)]| pair[1].0.value < pair[0].0.value + APART;
    if let Some(pair) = curve.windows(2).find(near) {
        return Err(Refusal::Choice(Misfitting::CurveOrder {
            first: pair[0].0.worded(),
            then: pair[1].0.worded(),
        }));
    }
    // Where the limiter is not known the engine is held back at its rated speed.
    let Some(limiter) = facts.limiter.as_ref().or(facts.rated.as_ref()) else {
        return Ok(());
    };
    let (first, last) = (&curve[0].0, &curve[curve.len() - 1].0);
    if first.value < limiter.value && SHORT_OF * last.value + SLACK >= limiter.value {
        return Ok(());
    }
    let least = (Unit::Rpm.from_si(limiter.value / SHORT_OF) - SLACK).ceil();
    Err(Refusal::Choice(Misfitting::CurveEnds {
        first: first.worded(),
        last: last.worded(),
        limiter: limiter.worded(),
        least: format!("{least}\u{a0}rpm"),
    }))
}

fn outing(job: &Job, facts: &CraftFacts) -> Result<(), Refusal> {
    match &facts.outing {
        Some(key) if !job.trials.outings.contains_key(key) => {
            Err(Refusal::Water(Splash::NoSuchOuting {
                key: key.to_string(),
            }))
        }
        _ => Ok(()),
    }
}
