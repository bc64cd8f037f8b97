//! What an outing shows of the quantities that faults change.

use diagnosis::signature::Observable;
use propulsion::observe::LAUNCH;
use trial::figure::Figure;

use crate::entry::Key;
use crate::job::Job;
use crate::water::OutingState;
use crate::water::outing::{LogSays, OutingSays, Top, mean, says};

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

/// An engine speed read once, and one read as it flares, `rad/s`. Assumed, no source.
const ENGINE: f64 = 5.0;
const FLARING: f64 = 8.0;

/// All that an outing shows.
pub(super) fn measured(job: &Job, (key, state): (&Key, &OutingState)) -> Vec<Measured> {
    let says = says(job, key, state);
    let mut all = Vec::new();
    let mut tell = |observable, figure: Option<Figure>, least: f64| {
        all.extend(figure.map(|figure| Measured {
            observable,
            value: figure.value,
            uncertainty: figure.uncertainty().max(least),
        }));
    };
    tell(Observable::TopSpeed, top(&says), 0.0);
    let engines: Vec<&Figure> = says.engine.iter().collect();
    tell(Observable::TopEngine, mean(&engines), ENGINE);
    for times in &says.starts {
        let each: Vec<&Figure> = times.each.iter().collect();
        tell(Observable::Start(times.to), mean(&each), 0.0);
    }
    let logs = says.logs.iter();
    let launches: Vec<f64> = logs.flat_map(|log| launches(job, log)).collect();
    if !launches.is_empty() {
        let count = crate::choose::answer::real(launches.len());
        all.push(Measured {
            observable: Observable::LaunchEngine,
            value: launches.iter().sum::<f64>() / count,
            uncertainty: FLARING / count.sqrt(),
        });
    }
    all
}

fn top(says: &OutingSays) -> Option<Figure> {
    match &says.top {
        Top::None => None,
        Top::OneWay(figure) | Top::Headings(figure, _) => Some(figure.clone()),
        Top::Reduced(all) => mean(&all.iter().map(|one| &one.speed).collect::<Vec<_>>()),
    }
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
