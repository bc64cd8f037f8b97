//! `choose --json`: what options do to the craft, for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. What is not known is
//! null.

use propulsion::predict::Band;
use quantity::Unit;
use report::page::choose::{View, page};
use report::page::flat;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::choose::answer::{Advice, Cause, Learnt, OptionSays};
use workshop::draft::choose::WANTS;
use workshop::draft::word;

use crate::document::{lines, schema_of};

const VERSION: u32 = 1;

/// What options do to the craft, and which to fit.
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
    /// What came of it: `no-craft`, `unlearnt`, `no-options`, `none-told`, `no-launch`, `fit`, `stay` or `close`.
    advice: &'static str,
    /// The option to fit, where there is one.
    option: Option<String>,
    /// What the craft was learnt from: `runs`, `nothing`, `poorly`.
    learnt: &'static str,
    /// Starts can be told.
    launches: bool,
    /// What is wished for.
    want: &'static str,
    /// The speed starts are timed to.
    to_m_s: f64,
    /// The share of cases every band holds.
    level: f64,
    /// What the craft does now; null without a run of it.
    now: Option<Now>,
    /// The options, best first.
    options: Vec<One>,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright choose")]
    Choose,
}

/// What the craft does now.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Now {
    /// Top speed.
    top_speed_m_s: Ends,
    /// Engine speed at full throttle.
    engine_rpm: Ends,
    /// Time to the speed of the wish.
    start_s: Option<Ends>,
}

/// A value with its band.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Ends {
    /// One in ten is below.
    low: f64,
    /// As often above as below.
    middle: f64,
    /// One in ten is above.
    high: f64,
}

/// An option.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct One {
    /// Its key.
    key: String,
    /// What it does; null where that can't be said.
    does: Option<Does>,
}

/// What an option does, against what is fitted now.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Does {
    /// Change of the engine's speed at full throttle.
    engine_rpm: Ends,
    /// Change of the top speed.
    top_speed_m_s: Ends,
    /// Change of the time to the speed of the wish.
    start_s: Option<Ends>,
    /// Change of the engine's speed off the line, at 3 m/s.
    launch_rpm: Option<Ends>,
    /// Chance that the engine flares up to its limiter there.
    flares: Option<f64>,
    /// Chance that it over-revs.
    over: Option<f64>,
    /// Chance that it lugs.
    lugs: Option<f64>,
    /// Chance that it is the best of all.
    best: f64,
    /// What it does most, first.
    reasons: Vec<Reason>,
}

/// Where power is gained or lost.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Reason {
    /// Where: `engine`, `incidence`, `swirl`, `friction`, `gap`, `breakdown`, `jet`, `intake`, `nozzle`.
    cause: &'static str,
    /// Power that pushes the craft, gained; below 0 lost.
    gives_w: f64,
}

/// The document as text.
pub(crate) fn write(view: &View<'_>) -> String {
    let page = page(view);
    let says = view.says;
    let (advice, option) = match &says.advice {
        Advice::NoCraft => ("no-craft", None),
        Advice::Unlearnt => ("unlearnt", None),
        Advice::NoOptions => ("no-options", None),
        Advice::NoneTold => ("none-told", None),
        Advice::NoLaunch => ("no-launch", None),
        Advice::Fit { option, .. } => ("fit", Some(option.to_string())),
        Advice::Stay { .. } => ("stay", None),
        Advice::Close { first, .. } => ("close", first.0.as_ref().map(ToString::to_string)),
    };
    let now = says.now.as_ref().map(|now| Now {
        top_speed_m_s: ends(&now.speed, |v| v),
        engine_rpm: ends(&now.engine, |v| Unit::Rpm.from_si(v)),
        start_s: now.time.as_ref().map(|band| ends(band, |v| v)),
    });
    lines(&Document {
        name: Name::Choose,
        version: VERSION,
        program: workshop::PROGRAM,
        job: view.id.to_string(),
        answer: page.answer.headline.clone(),
        detail: flat(&page.answer.detail),
        advice,
        option,
        learnt: match says.learnt {
            Learnt::Well(_) => "runs",
            Learnt::Nothing => "nothing",
            Learnt::Poorly(_) | Learnt::PartThrottle(_) | Learnt::Refused(_) => "poorly",
        },
        launches: says.launches,
        want: word(&WANTS, says.want),
        to_m_s: says.to,
        level: 0.8,
        now,
        options: says.options.iter().map(one).collect(),
        open_items: view.objections.len(),
    })
}

/// Its schema as text.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn ends(band: &Band, unit: impl Fn(f64) -> f64) -> Ends {
    Ends {
        low: unit(band.low),
        middle: unit(band.middle),
        high: unit(band.high),
    }
}

fn one(option: &OptionSays) -> One {
    let does = option.does.as_ref().ok().map(|does| Does {
        engine_rpm: ends(&does.engine, |v| Unit::Rpm.from_si(v)),
        top_speed_m_s: ends(&does.speed, |v| v),
        start_s: does.time.as_ref().map(|band| ends(band, |v| v)),
        launch_rpm: does
            .launch
            .as_ref()
            .map(|launch| ends(&launch.engine, |v| Unit::Rpm.from_si(v))),
        flares: does.launch.as_ref().map(|launch| launch.flares),
        over: does.over,
        lugs: does.lugs,
        best: does.best,
        reasons: does
            .reasons
            .iter()
            .map(|reason| Reason {
                cause: cause(reason.cause),
                gives_w: reason.gives,
            })
            .collect(),
    });
    One {
        key: option.key.to_string(),
        does,
    }
}

fn cause(cause: Cause) -> &'static str {
    match cause {
        Cause::Engine => "engine",
        Cause::Incidence => "incidence",
        Cause::Swirl => "swirl",
        Cause::Friction => "friction",
        Cause::Gap => "gap",
        Cause::Breakdown => "breakdown",
        Cause::Jet => "jet",
        Cause::Intake => "intake",
        Cause::Nozzle => "nozzle",
    }
}
