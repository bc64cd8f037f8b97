//! What an outing shows of the quantities that faults change.

use diagnosis::others::PASSED;
use diagnosis::signature::Observable;
use propulsion::observe::LAUNCH;
use trial::figure::Figure;

use crate::job::Job;
use crate::water::outing::{LogSays, OutingSays, mean};

/// A quantity as it was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Which.
    pub observable: Observable,
    /// Its value.
    pub value: f64,
    /// Its standard uncertainty.
    pub uncertainty: f64,
}

/// A standard uncertainty of an engine speed read as it flares, `rad/s`. Assumed, no source.
const FLARING: f64 = 8.0;

/// Of one read as the craft passes a speed, `rad/s`. Assumed, no source.
const PASSING: f64 = 5.0;

/// All that an outing shows.
pub(super) fn measured(job: &Job, says: &OutingSays) -> Vec<Measured> {
    let of = |observable, [value, uncertainty]: [f64; 2]| Measured {
        observable,
        value,
        uncertainty,
    };
    let figure = |observable, figure: Figure| of(observable, [figure.value, figure.uncertainty()]);
    let speed = says.top_speed();
    let speed = speed.map(|speed| figure(Observable::TopSpeed, speed));
    let engine = says.top_engine();
    let engine = engine.map(|engine| of(Observable::TopEngine, engine));
    let starts = says.starts.iter().filter_map(|times| {
        let each: Vec<&Figure> = times.each.iter().collect();
        Some(figure(Observable::Start(times.to), mean(&each)?))
    });
    let mut all: Vec<Measured> = speed.into_iter().chain(engine).chain(starts).collect();
    let logs = says.logs.iter();
    let passing: Vec<_> = logs.flat_map(|log| passing(job, log)).collect();
    for (at, speed) in PASSED.into_iter().enumerate() {
        let engines: Vec<f64> = passing.iter().filter_map(|start| start[at]).collect();
        let count = crate::choose::answer::real(engines.len());
        let mean = engines.iter().sum::<f64>() / count;
        let (observable, each) = if speed > LAUNCH {
            (Observable::Passing(speed), PASSING)
        } else {
            (Observable::LaunchEngine, FLARING)
        };
        if !engines.is_empty() {
            all.push(of(observable, [mean, each / count.sqrt()]));
        }
    }
    all
}

/// Engine speed as each start of a log passes those speeds.
fn passing(job: &Job, log: &LogSays) -> Vec<[Option<f64>; PASSED.len()]> {
    let Some(state) = job.trials.logs.get(&log.digest) else {
        return Vec::new();
    };
    let samples = state.log.value.log();
    let passing = |start: &trial::runs::Start| {
        let stretch = samples.stretches.get(start.span.stretch)?;
        // Beyond the start another may lie that gets further.
        let within = start.instant..=start.span.to;
        let of_it = stretch
            .iter()
            .filter(|sample| within.contains(&sample.time));
        Some(PASSED.map(|speed| {
            let mut beyond = of_it.clone().skip_while(|sample| sample.speed < speed);
            beyond.next()?.engine
        }))
    };
    log.starts.iter().filter_map(passing).collect()
}
