//! `diagnose --json`: what is likely wrong and what to check next, for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. What is not known is
//! null.

use diagnosis::next::Offer;
use diagnosis::signature::Observable;
use diagnosis::weigh::Item;
use quantity::Unit;
use report::page::diagnose::{View, page};
use report::page::flat;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::diagnose::answer::{Against, Answer, Carried, Compared, TELLS, Turn};
use workshop::draft::diagnose::{CHECKS, FAULTS, FOUND, SYMPTOMS};
use workshop::draft::word;
use workshop::entry::Key;

use crate::document::{lines, schema_of};

const VERSION: u32 = 2;

/// What is likely wrong, what speaks for it, and what to check next.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Document {
    /// Which document this is.
    #[serde(rename = "document")]
    name: Name,
    /// The version of its shape.
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// The program that wrote it.
    program: &'static str,
    /// The job's id.
    job: String,
    /// The answer in one sentence.
    answer: String,
    /// What stands behind it.
    detail: String,
    /// The outing that falls short; null where there is none.
    suspect: Option<String>,
    /// What it is held against: another `run`, the `description` of the craft; or why against nothing: `not-run`,
    /// `no-craft`, `unreckoned`.
    against: &'static str,
    /// The run it is held against.
    against_run: Option<String>,
    /// What should have been, and was.
    quantities: Quantities,
    /// Chance from which on the likeliest cause is told.
    told_from: f64,
    /// Every cause, the likeliest first.
    causes: Vec<Stands>,
    /// Chance that what was measured lies so far off under the cause that explains it best; null where nothing can
    /// be held against anything.
    fit: Option<f64>,
    /// Where no single cause explains it: pairs that do, the likeliest first.
    pairs: Vec<Pair>,
    /// What each piece of evidence carries for the first cause against the second, the weightiest first.
    evidence: Vec<Piece>,
    /// Checks not done yet, the best first.
    next: Vec<Next>,
    /// Outcomes of a check that would put another cause first, the likeliest first.
    changes: Vec<Change>,
    /// Signs seen that mean: stop, whatever the cause.
    dangers: Vec<&'static str>,
    /// Somebody said that the craft can't start, and it has not run since.
    cannot_start: bool,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright diagnose")]
    Diagnose,
}

/// The quantities that were measured; null where one was not.
#[derive(Default, Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Quantities {
    /// Speed at full throttle.
    top_speed_m_s: Option<Values>,
    /// Engine speed there.
    top_engine_rpm: Option<Values>,
    /// Engine speed off the line, at 3 m/s.
    launch_engine_rpm: Option<Values>,
    /// Engine speeds as the craft passes speeds at full throttle.
    passing: Vec<Passing>,
    /// Times from rest.
    starts: Vec<Start>,
    /// Mean radial gap.
    gap_m: Option<Values>,
}

/// Engine speed as the craft passes a speed.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Passing {
    /// The speed.
    at_m_s: f64,
    /// The engine's.
    engine_rpm: Values,
}

/// Time from rest to a speed.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Start {
    /// The speed.
    to_m_s: f64,
    /// The time.
    time_s: Values,
}

/// A quantity in its unit.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Values {
    /// What was measured.
    seen: f64,
    /// Its standard uncertainty.
    uncertainty: f64,
    /// What it was on the run it is held against.
    before: Option<f64>,
    /// What it should have been.
    expected: f64,
    /// Standard deviation of that.
    spread: Option<f64>,
    /// The engine's limiter holds it there when all is well, so that it tells little.
    limited: bool,
}

/// How a cause stands.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Stands {
    /// Which.
    cause: &'static str,
    /// Its chance.
    chance: f64,
    /// Mean severity if it is this one, from 0 up to 1; null where it has no sizes or nothing tells of them.
    severity: Option<f64>,
}

/// Two causes at once.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Pair {
    /// One of them.
    first: &'static str,
    /// The other.
    second: &'static str,
    /// Its share among all pairs.
    share: f64,
}

/// A piece of evidence.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Piece {
    /// What sort of thing it is.
    kind: Kind,
    /// Which: a sign, a check, or `top-speed`, `top-engine`, `launch-engine`, `passing-engine`, `start`, `gap`.
    what: &'static str,
    /// The speed a start goes to, or that is passed.
    to_m_s: Option<f64>,
    /// The sign was seen, something was found; null of a quantity.
    yes: Option<bool>,
    /// Natural logarithm of by how much it puts the first cause ahead of the second; below 0 it speaks for
    /// the second.
    weight: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum Kind {
    Quantity,
    Sign,
    Check,
}

/// A check not done yet.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Next {
    /// Which.
    check: &'static str,
    /// Chance that something is found.
    something: f64,
    /// Expected information about the cause.
    bits: f64,
    /// How long it takes.
    minutes: f64,
    /// The craft must not be able to start while it is done.
    must_not_start: bool,
}

/// An outcome that would put another cause first.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Change {
    /// The check.
    check: &'static str,
    /// Its outcome: `something` or `nothing`.
    found: &'static str,
    /// Chance of that outcome.
    chance: f64,
    /// The cause that would then be first.
    cause: &'static str,
    /// Its chance then.
    cause_chance: f64,
}

/// The document as text.
pub(crate) fn write(view: &View<'_>) -> String {
    let page = page(view);
    let says = view.says;
    let (against, run) = match &says.against {
        Against::Run(key) => ("run", Some(key)),
        Against::Description => ("description", None),
        Against::NotRun => ("not-run", None),
        Against::NoCraft(_) => ("no-craft", None),
        Against::Unreckoned => ("unreckoned", None),
    };
    let weighed = &says.weighed;
    let causes = weighed.causes.iter().map(|one| Stands {
        cause: word(&FAULTS, one.fault),
        chance: one.chance,
        severity: one.severity,
    });
    let pairs = weighed.pairs.iter().map(|(first, second, share)| Pair {
        first: word(&FAULTS, *first),
        second: word(&FAULTS, *second),
        share: *share,
    });
    let dangers = says.dangers.iter();
    lines(&Document {
        name: Name::Diagnose,
        version: VERSION,
        program: workshop::PROGRAM,
        job: view.id.to_string(),
        answer: page.answer.headline.clone(),
        detail: flat(&page.answer.detail),
        suspect: says.suspect.as_ref().map(Key::to_string),
        against,
        against_run: run.map(Key::to_string),
        quantities: quantities(says),
        told_from: TELLS,
        causes: causes.collect(),
        fit: (!says.known.seen.is_empty()).then_some(weighed.fit),
        pairs: pairs.collect(),
        evidence: says.carried.iter().map(|one| piece(says, one)).collect(),
        next: says.offers.iter().map(next).collect(),
        changes: says.turns.iter().map(change).collect(),
        dangers: dangers.map(|sign| word(&SYMPTOMS, *sign)).collect(),
        cannot_start: says.cannot_start,
        open_items: view.objections.len(),
    })
}

/// Its schema as text.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn quantities(says: &Answer) -> Quantities {
    let mut all = Quantities::default();
    for one in &says.compared {
        match one.seen.observable {
            Observable::TopSpeed => all.top_speed_m_s = Some(values(one, |v| v)),
            Observable::TopEngine => all.top_engine_rpm = Some(values(one, rpm)),
            Observable::LaunchEngine => all.launch_engine_rpm = Some(values(one, rpm)),
            Observable::Passing(at) => all.passing.push(Passing {
                at_m_s: at,
                engine_rpm: values(one, rpm),
            }),
            Observable::Start(to) => all.starts.push(Start {
                to_m_s: to,
                time_s: values(one, |v| v),
            }),
            Observable::Gap => all.gap_m = Some(values(one, |v| v)),
        }
    }
    // Of the bench, so that no run says what it was or how sure that is.
    if let Some((seen, expected)) = &says.gap {
        all.gap_m = Some(Values {
            seen: seen.value,
            uncertainty: seen.uncertainty,
            before: None,
            expected: *expected,
            spread: None,
            limited: false,
        });
    }
    all
}

fn rpm(speed: f64) -> f64 {
    Unit::Rpm.from_si(speed)
}

fn values(one: &Compared, unit: impl Fn(f64) -> f64) -> Values {
    Values {
        seen: unit(one.seen.value),
        uncertainty: unit(one.seen.uncertainty),
        before: one.before.map(&unit),
        expected: unit(one.expected),
        spread: Some(unit(one.spread)),
        limited: one.limited,
    }
}

fn piece(says: &Answer, carried: &Carried) -> Piece {
    let weight = carried.weight;
    match carried.item {
        Item::Seen(place) => {
            // The gap stands behind what was compared.
            let compared = says.compared.get(place);
            let (what, to) = match compared.map_or(Observable::Gap, |one| one.seen.observable) {
                Observable::TopSpeed => ("top-speed", None),
                Observable::TopEngine => ("top-engine", None),
                Observable::LaunchEngine => ("launch-engine", None),
                Observable::Passing(at) => ("passing-engine", Some(at)),
                Observable::Start(to) => ("start", Some(to)),
                Observable::Gap => ("gap", None),
            };
            Piece {
                kind: Kind::Quantity,
                what,
                to_m_s: to,
                yes: None,
                weight,
            }
        }
        Item::Answer(symptom) => {
            // Of the same question the last counts.
            let mut told = says.known.answers.iter().rev();
            Piece {
                kind: Kind::Sign,
                what: word(&SYMPTOMS, symptom),
                to_m_s: None,
                yes: told.find(|one| one.symptom == symptom).map(|one| one.yes),
                weight,
            }
        }
        Item::Check(check) => {
            let mut done = says.known.found.iter().rev();
            let found = done.find(|one| one.check == check);
            Piece {
                kind: Kind::Check,
                what: word(&CHECKS, check),
                to_m_s: None,
                yes: found.map(|one| one.something),
                weight,
            }
        }
    }
}

fn next(offer: &Offer) -> Next {
    Next {
        check: word(&CHECKS, offer.check),
        something: offer.gain.something,
        bits: offer.gain.bits,
        minutes: f64::from(offer.check.minutes()),
        must_not_start: offer.check.reach().must_not_start(),
    }
}

fn change(turn: &Turn) -> Change {
    let (cause, chance) = turn.then;
    Change {
        check: word(&CHECKS, turn.check),
        found: word(&FOUND, turn.something),
        chance: turn.chance,
        cause: word(&FAULTS, cause),
        cause_chance: chance,
    }
}
