//! What one outing shows: its runs, its starts, its speed through the water.

use std::collections::BTreeMap;

use quantity::Entered;
use trial::conditions::{Factor, Intake, Weather, iso_factor};
use trial::figure::{Contribution, Figure, Origin, Part};
use trial::reduce::{
    Allowances, Circle, Pairing, Pass, Reduced, Series, Weather as Wet, reduce, series, weather,
};
use trial::runs::{
    FIFTY_MILES, Found, NoRun, Options, Passed, Reached, Receiver as Budget, Run, Start,
    THIRTY_MILES, Untimed, run_between, runs,
};

use super::headings::headings;
use super::read_off::{DISPLAY, TACHOMETER, figures, read_off, told};
use super::{Logged, Outing, OutingState, POSITIONS, Receiver, THOUSAND, Way, What, Window};
use crate::entry::Key;
use crate::job::Job;

/// What one log shows.
#[derive(Clone, Debug)]
pub struct LogSays {
    /// Which.
    pub digest: Key,
    /// Its runs, in the order of time: as found, or as set by hand.
    pub runs: Vec<Run>,
    /// Windows set by hand that cannot be runs now, with the reason.
    pub not_runs: Vec<(Window, trial::Error)>,
    /// What looks like a run and is none.
    pub passed: Vec<Passed>,
    /// Its standing starts.
    pub starts: Vec<Start>,
    /// Starts that were seen and cannot be timed.
    pub untimed: Vec<Untimed>,
    /// Why it has no run.
    pub none: Option<NoRun>,
    /// Lone readings no craft can have made.
    pub left_out: usize,
    /// The runs are set by hand.
    pub by_hand: bool,
    /// Why it can't be reckoned with at all.
    pub refused: Option<trial::Error>,
}

/// The speed at full throttle.
#[derive(Clone, Debug)]
pub enum Top {
    /// Nothing says it.
    None,
    /// One way only, so that current and wind are in it.
    OneWay(Figure),
    /// Runs both ways, in series.
    Reduced(Vec<Reduced>),
    /// Runs on three headings or more: the current is the centre of their circle.
    Headings(Figure, Circle),
}

/// How long starts took to one speed.
#[derive(Clone, Debug)]
pub struct Times {
    /// That speed, `m/s`.
    pub to: f64,
    /// Each start, `s`.
    pub each: Vec<Figure>,
    /// Starts of which only an interval is known.
    pub coarse: usize,
}

/// What one outing shows.
#[derive(Clone, Debug)]
pub struct OutingSays {
    /// Which.
    pub key: Key,
    /// Its logs.
    pub logs: Vec<LogSays>,
    /// Every pass at full throttle, in the order of time.
    pub passes: Vec<Pass>,
    /// Which of them alternate.
    pub series: Series,
    /// The speed at full throttle.
    pub top: Top,
    /// Standing starts, by speed.
    pub starts: Vec<Times>,
    /// Engine speed at full throttle, each pass or figure, `rad/s`.
    pub engine: Vec<Figure>,
    /// Waves or wind were more than a trial bears.
    pub rough: bool,
    /// What the power must be multiplied by for the reference air; none where the air is not known.
    pub air: Option<Result<Factor, trial::Error>>,
}

/// A standard uncertainty of an engine speed read once, `rad/s`. Assumed, no source.
const READ: f64 = 5.0;

impl OutingSays {
    /// The mean speed at full throttle.
    pub(crate) fn top_speed(&self) -> Option<Figure> {
        match &self.top {
            Top::None => None,
            Top::OneWay(figure) | Top::Headings(figure, _) => Some(figure.clone()),
            Top::Reduced(all) => mean(&all.iter().map(|one| &one.speed).collect::<Vec<_>>()),
        }
    }

    /// The mean engine speed there, with its standard uncertainty.
    pub(crate) fn top_engine(&self) -> Option<[f64; 2]> {
        let mean = mean(&self.engine.iter().collect::<Vec<_>>())?;
        Some([mean.value, mean.uncertainty().max(READ)])
    }
}

/// Two logs without a date share no clock, so their runs are kept apart by more than a pair may be.
const APART: f64 = 1.0e7;

/// How good the receiver of a log is.
pub fn budget(outing: &Outing, log: &Logged) -> Budget {
    if log.speed_from == POSITIONS {
        return Budget::PLACES;
    }
    match outing.receiver {
        Some(Receiver::Own) => Budget::DEDICATED,
        Some(Receiver::Phone | Receiver::Craft) | None => Budget::PHONE,
    }
}

/// Whether waves or wind, where they were told, were more than a trial bears.
fn rough(outing: &Outing) -> bool {
    let told = |entered: &Option<Entered>| entered.as_ref().map_or(0.0, |told| told.value);
    let water = weather(told(&outing.waves), told(&outing.wind));
    water.is_ok_and(|water| water != Wet::Fair)
}

/// Humidity where nobody said. Assumed.
pub const HUMIDITY: u8 = 50;

/// The factor of the air of an outing, where temperature and pressure were stated.
fn air(outing: &Outing) -> Option<Result<Factor, trial::Error>> {
    let weather = Weather {
        pressure: outing.pressure.as_ref()?.value,
        temperature: outing.air_temperature.as_ref()?.value,
        humidity: f64::from(outing.humidity.unwrap_or(HUMIDITY)) / 100.0,
    };
    let intake = if outing.charged {
        Intake::Pressed
    } else {
        Intake::Own
    };
    Some(iso_factor(&weather, intake))
}

/// The speeds starts are timed to: 30 and 50 mph, and any a person timed.
pub fn levels(job: &Job) -> Vec<f64> {
    let mut levels = vec![THIRTY_MILES, FIFTY_MILES];
    let figures = job.trials.outings.values();
    let figures = figures.flat_map(|state| state.figures.iter().flat_map(|fact| &fact.value));
    for figure in figures {
        if let What::Start { to } = &figure.what {
            levels.push(to.value);
        }
    }
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    levels
}

/// What an outing shows.
pub fn says(job: &Job, key: &Key, state: &OutingState) -> OutingSays {
    let outing = &state.outing.value;
    let levels = levels(job);
    let logs: Vec<LogSays> = job
        .trials
        .logs_of(key)
        .into_iter()
        .map(|(digest, log)| {
            let options = Options {
                levels: levels.clone(),
                receiver: budget(outing, &log.log.value),
                ..Options::default()
            };
            let windows = log.windows.as_ref().map(|fact| fact.value.as_slice());
            log_says(digest, &log.log.value, windows, &options)
        })
        .collect();
    // What was read off is there for those without a log; beside one it would count the same runs twice.
    let mut passes = logged(job, &logs);
    if passes.is_empty() {
        passes = told(state);
    }
    passes.sort_by(|a, b| a.time.total_cmp(&b.time));
    let series = series(&passes, &Pairing::default()).unwrap_or(Series {
        alternate: Vec::new(),
        alone: (0..passes.len()).collect(),
    });
    OutingSays {
        key: key.clone(),
        top: top(&passes, &series, &one_way(state, &logs)),
        starts: starts(&levels, state, &logs),
        engine: engine(state, &logs),
        rough: rough(outing),
        air: air(outing),
        logs,
        passes,
        series,
    }
}

impl LogSays {
    /// Its runs as windows.
    pub fn windows(&self) -> Vec<Window> {
        let runs = self.runs.iter().map(|run| Window {
            from_ms: milliseconds(run.span.from),
            until_ms: milliseconds(run.span.to),
        });
        runs.collect()
    }
}

/// Seconds as milliseconds.
#[expect(
    clippy::cast_possible_truncation,
    reason = "seconds of a log stay far below 2^53 ms"
)]
pub fn milliseconds(seconds: f64) -> i64 {
    (seconds * THOUSAND).round() as i64
}

fn log_says(digest: &Key, log: &Logged, windows: Option<&[Window]>, options: &Options) -> LogSays {
    let samples = log.log();
    let (found, refused) = match runs(&samples, options) {
        Ok(found) => (found, None),
        Err(error) => (nothing(), Some(error)),
    };
    let mut says = LogSays {
        digest: digest.clone(),
        runs: found.runs,
        not_runs: Vec::new(),
        passed: found.passed,
        starts: found.starts,
        untimed: found.untimed,
        none: found.none,
        left_out: found.left_out,
        by_hand: windows.is_some(),
        refused,
    };
    if let Some(windows) = windows {
        says.runs.clear();
        says.none = None;
        for window in windows {
            let (from, until) = (seconds(window.from_ms), seconds(window.until_ms));
            match run_between(&samples, from, until, options) {
                Ok(run) => says.runs.push(run),
                Err(error) => says.not_runs.push((*window, error)),
            }
        }
        says.runs
            .sort_by(|a, b| a.span.from.total_cmp(&b.span.from));
    }
    says
}

fn nothing() -> Found {
    Found {
        runs: Vec::new(),
        starts: Vec::new(),
        untimed: Vec::new(),
        passed: Vec::new(),
        none: None,
        left_out: 0,
    }
}

/// Milliseconds as seconds.
#[expect(
    clippy::cast_precision_loss,
    reason = "milliseconds of a log stay far below 2^52"
)]
pub(super) fn seconds(ms: i64) -> f64 {
    ms as f64 / THOUSAND
}

/// A count as a number to compute with.
#[expect(clippy::cast_precision_loss, reason = "a job has a handful of logs")]
pub(super) fn real(count: usize) -> f64 {
    count as f64
}

/// The runs of the logs that have a course, on one clock.
fn logged(job: &Job, logs: &[LogSays]) -> Vec<Pass> {
    let mut passes = Vec::new();
    for (place, says) in logs.iter().enumerate() {
        let zero = job.trials.logs.get(&says.digest);
        let zero = zero.and_then(|state| state.log.value.zero_ms);
        let zero = zero.map_or(-APART * real(place + 1), seconds);
        let runs = says.runs.iter().filter_map(Pass::of);
        passes.extend(runs.map(|pass| Pass {
            time: zero + pass.time,
            ..pass
        }));
    }
    passes
}

/// Speeds of which nobody knows which way they were run.
fn one_way(state: &OutingState, logs: &[LogSays]) -> Vec<Figure> {
    let runs = logs.iter().flat_map(|says| &says.runs);
    if runs.clone().next().is_some() {
        let runs = runs.filter(|run| run.course.is_none());
        return runs.map(|run| run.speed.clone()).collect();
    }
    let typed = figures(state).filter(|figure| figure.what == What::TopSpeed(Way::NotSaid));
    typed
        .filter_map(|figure| read_off(figure, DISPLAY))
        .collect()
}

fn top(passes: &[Pass], series: &Series, one_way: &[Figure]) -> Top {
    let reduced: Vec<Reduced> = series
        .alternate
        .iter()
        .filter_map(|members| {
            let members: Vec<Pass> = members.iter().map(|at| passes[*at].clone()).collect();
            reduce(&members, &Allowances::default()).ok()
        })
        .collect();
    if !reduced.is_empty() {
        return Top::Reduced(reduced);
    }
    if let Some((speed, circle)) = headings(passes) {
        return Top::Headings(speed, circle);
    }
    let all: Vec<&Figure> = passes
        .iter()
        .map(|pass| &pass.speed)
        .chain(one_way)
        .collect();
    mean(&all).map_or(Top::None, Top::OneWay)
}

/// The mean of figures of one day: what errs alike in all of them is not lessened.
pub(crate) fn mean(all: &[&Figure]) -> Option<Figure> {
    let first = all.first()?;
    let count = real(all.len());
    let value = all.iter().map(|figure| figure.value).sum::<f64>() / count;
    let mut parts: BTreeMap<Part, Vec<Contribution>> = BTreeMap::new();
    for part in all.iter().flat_map(|figure| &figure.parts) {
        parts.entry(part.part).or_default().push(*part);
    }
    let together = |(part, each): (Part, Vec<Contribution>)| {
        let freedom = each
            .iter()
            .map(|one| one.freedom)
            .fold(f64::INFINITY, f64::min);
        let uncertainty = if matches!(part, Part::Choice | Part::Receiver | Part::Load | Part::Air)
        {
            each.iter().map(|one| one.uncertainty).fold(0.0, f64::max)
        } else {
            let squares: f64 = each.iter().map(|one| one.uncertainty.powi(2)).sum();
            squares.sqrt() / count
        };
        Contribution {
            part,
            uncertainty,
            freedom,
        }
    };
    let origin = if all.iter().all(|figure| figure.origin == Origin::Typed) {
        Origin::Typed
    } else {
        first.origin
    };
    Figure::new(value, parts.into_iter().map(together).collect(), origin).ok()
}

fn starts(levels: &[f64], state: &OutingState, logs: &[LogSays]) -> Vec<Times> {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
    let mut all = Vec::new();
    for &to in levels {
        let mut times = Times {
            to,
            each: Vec::new(),
            coarse: 0,
        };
        let reached = logs.iter().flat_map(|says| &says.starts);
        let reached = reached.flat_map(|start| &start.levels);
        for level in reached.filter(|level| near(level.speed, to)) {
            match &level.reached {
                Reached::Time(figure) => times.each.push(figure.clone()),
                Reached::Between(_) => times.coarse += 1,
                Reached::Never => {}
            }
        }
        if times.each.is_empty() && times.coarse == 0 {
            let typed = figures(state).filter(
                |figure| matches!(&figure.what, What::Start { to: stated } if near(stated.value, to)),
            );
            times
                .each
                .extend(typed.filter_map(|figure| read_off(figure, DISPLAY)));
        }
        if !times.each.is_empty() || times.coarse > 0 {
            all.push(times);
        }
    }
    all
}

fn engine(state: &OutingState, logs: &[LogSays]) -> Vec<Figure> {
    let typed = figures(state).filter(|figure| figure.what == What::EngineSpeed);
    let typed = typed.filter_map(|figure| read_off(figure, TACHOMETER));
    let runs = logs.iter().flat_map(|says| &says.runs);
    let runs = runs.filter_map(|run| {
        let engine = run.engine?;
        let part = Contribution::known(Part::Scatter, engine.mean * engine.scatter);
        Figure::new(engine.mean, vec![part], Origin::Log).ok()
    });
    let logged: Vec<Figure> = runs.collect();
    if logged.is_empty() {
        typed.collect()
    } else {
        logged
    }
}
