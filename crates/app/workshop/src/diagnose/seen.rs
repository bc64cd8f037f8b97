//! What an outing shows of the quantities that faults change.

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
    let launches: Vec<f64> = logs.flat_map(|log| launches(job, log)).collect();
    if !launches.is_empty() {
        let count = crate::choose::answer::real(launches.len());
        let mean = launches.iter().sum::<f64>() / count;
        all.push(of(Observable::LaunchEngine, [mean, FLARING / count.sqrt()]));
    }
    all
}

/// Engine speed as each start of a log passes the speed at which a launch is told.
fn launches(job: &Job, log: &LogSays) -> Vec<f64> {
    let Some(state) = job.trials.logs.get(&log.digest) else {
        return Vec::new();
    };
    let samples = state.log.value.log();
    let passing = |start: &trial::runs::Start| {
        let stretch = samples.stretches.get(start.span.stretch)?;
        let moving = stretch
            .iter()
            .skip_while(|sample| sample.time < start.instant || sample.speed < LAUNCH);
        moving.take(1).find_map(|sample| sample.engine)
    };
    log.starts.iter().filter_map(passing).collect()
}
