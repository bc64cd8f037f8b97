//! `trial --json`: what the water tests show, for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. What is not known is
//! null.

use quantity::Unit;
use report::page::flat;
use report::page::water::{View, page};
use schemars::JsonSchema;
use serde::Serialize;
use trial::figure::Figure;
use trial::runs::Run;
use workshop::decide::may_float;
use workshop::draft::water::{FORMATS, SIDES};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::water::answer::{Change, LEVEL, SideSays};
use workshop::water::outing::{LogSays, OutingSays, Top};
use workshop::water::{OutingState, Side};

use crate::document::{lines, schema_of};

const VERSION: u32 = 1;

/// What the water tests show: before, after, and what changed.
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
    /// Whether the craft may go on the water; null without a plan.
    may_float: Option<bool>,
    /// The probability of every interval.
    level: f64,
    /// Before the rebuild.
    before: Half,
    /// After it.
    after: Half,
    /// The change of the speed at full throttle.
    change_m_s: Option<Changed>,
    /// The change of the engine's speed at full throttle.
    change_rpm: Option<Changed>,
    /// The change of standing starts.
    starts: Vec<Started>,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright trial")]
    Trial,
}

/// One side of the rebuild: before it, or after.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Half {
    /// The speed at full throttle; null where nothing says it.
    speed_m_s: Option<Measured>,
    /// It was run one way only, so that current and wind are in it; null where nothing says it.
    one_way: Option<bool>,
    /// Engine speed at full throttle.
    engine_rpm: Option<Measured>,
    /// The outings.
    outings: Vec<Outing>,
}

/// A value with how sure it is.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Measured {
    /// The value.
    value: f64,
    /// Its standard uncertainty.
    uncertainty: f64,
    /// Lower end of its interval.
    low: f64,
    /// Upper end.
    high: f64,
}

/// After less before.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Changed {
    /// The change.
    value: f64,
    /// Lower end of its interval.
    low: f64,
    /// Upper end.
    high: f64,
}

/// Standing starts to one speed.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Started {
    /// That speed.
    to_m_s: f64,
    /// The change of the time to it.
    change_s: Changed,
}

/// One time on the water.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Outing {
    /// Names it within the job.
    key: String,
    /// What it is called.
    name: String,
    /// Before or after.
    side: &'static str,
    /// Speed through the water of each series of runs both ways, or of the headings together.
    series_m_s: Vec<Measured>,
    /// Its logs.
    logs: Vec<Log>,
    /// How many figures were read off.
    figures: usize,
    /// Waves or wind were more than a trial bears.
    rough: bool,
}

/// One log.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Log {
    /// SHA-256 of the file.
    digest: String,
    /// Its name.
    name: String,
    /// What it was.
    format: &'static str,
    /// Readings in it.
    read: u64,
    /// Readings kept.
    kept: usize,
    /// Readings, lines or fixes rejected.
    rejected: u64,
    /// The runs are set by hand.
    by_hand: bool,
    /// Its runs.
    runs: Vec<OneRun>,
    /// How many stretches look like a run and are none.
    passed: usize,
    /// How many standing starts it has.
    starts: usize,
}

/// One run.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OneRun {
    /// Since the log began.
    from_s: f64,
    /// Since the log began.
    until_s: f64,
    /// Over ground, from true north.
    course_deg: Option<f64>,
    /// Over ground.
    speed_m_s: f64,
    /// Its standard uncertainty.
    uncertainty_m_s: f64,
    /// Of the engine.
    engine_rpm: Option<f64>,
}

/// The document.
pub(crate) fn write(view: &View<'_>) -> String {
    let drawn = page(view);
    let says = view.says;
    let planned = view.job.bench.plan().is_some();
    let rpm = |value: f64| Unit::Rpm.from_si(value);
    lines(&Document {
        name: Name::Trial,
        version: VERSION,
        program: workshop::PROGRAM,
        job: view.id.to_string(),
        answer: drawn.answer.headline,
        detail: flat(&drawn.answer.detail).trim_end().to_owned(),
        may_float: planned.then(|| may_float(view.job, view.now).is_ok()),
        level: LEVEL,
        before: half(view, &says.before, Side::Before),
        after: half(view, &says.after, Side::After),
        change_m_s: says.speed.as_ref().map(|change| changed(change, |v| v)),
        change_rpm: says.engine.as_ref().map(|change| changed(change, rpm)),
        starts: says
            .starts
            .iter()
            .map(|(to, change)| Started {
                to_m_s: *to,
                change_s: changed(change, |v| v),
            })
            .collect(),
        open_items: view.objections.len(),
    })
}

/// The schema of the document.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn value(figure: &Figure, unit: impl Fn(f64) -> f64) -> Option<Measured> {
    let ends = figure.interval(LEVEL).ok()?;
    Some(Measured {
        value: unit(figure.value),
        uncertainty: unit(figure.uncertainty()),
        low: unit(ends.low),
        high: unit(ends.high),
    })
}

fn changed(change: &Change, unit: impl Fn(f64) -> f64) -> Changed {
    let (value, ends) = &change.change;
    Changed {
        value: unit(*value),
        low: unit(ends.low),
        high: unit(ends.high),
    }
}

fn half(view: &View<'_>, says: &SideSays, side: Side) -> Half {
    let speed = says.speed.as_ref();
    let outings = view.job.trials.in_order(Some(side)).into_iter();
    let outings = outings.filter_map(|(key, state)| {
        let says = view.says.outing(key)?;
        Some(outing(view, (key, state), says))
    });
    Half {
        speed_m_s: speed.and_then(|speed| value(speed, |v| v)),
        one_way: speed.map(|_| says.one_way),
        engine_rpm: says
            .engine
            .as_ref()
            .and_then(|engine| value(engine, |v| Unit::Rpm.from_si(v))),
        outings: outings.collect(),
    }
}

fn outing(view: &View<'_>, (key, state): (&Key, &OutingState), says: &OutingSays) -> Outing {
    let outing = &state.outing.value;
    let series = match &says.top {
        Top::Reduced(all) => all
            .iter()
            .filter_map(|one| value(&one.speed, |v| v))
            .collect(),
        Top::Headings(speed, _) => value(speed, |v| v).into_iter().collect(),
        Top::None | Top::OneWay(_) => Vec::new(),
    };
    Outing {
        key: key.to_string(),
        name: outing.name.clone(),
        side: word(&SIDES, outing.side),
        series_m_s: series,
        logs: says.logs.iter().filter_map(|log| of(view, log)).collect(),
        figures: state.figures.as_ref().map_or(0, |fact| fact.value.len()),
        rough: says.rough,
    }
}

fn of(view: &View<'_>, says: &LogSays) -> Option<Log> {
    let log = &view.job.trials.logs.get(&says.digest)?.log.value;
    let run = |run: &Run| OneRun {
        from_s: run.span.from,
        until_s: run.span.to,
        course_deg: run.course.map(|course| course.mean.to_degrees()),
        speed_m_s: run.speed.value,
        uncertainty_m_s: run.speed.uncertainty(),
        engine_rpm: run.engine.map(|engine| Unit::Rpm.from_si(engine.mean)),
    };
    Some(Log {
        digest: says.digest.to_string(),
        name: log.name.clone(),
        format: word(&FORMATS, log.format),
        read: log.read,
        kept: log.samples(),
        rejected: log.lines_rejected(),
        by_hand: says.by_hand,
        runs: says.runs.iter().map(run).collect(),
        passed: says.passed.len(),
        starts: says.starts.len(),
    })
}
