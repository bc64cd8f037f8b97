//! What an outing showed of the craft, as the model learns from it.

use propulsion::calibrate::{Evidence, Plateau, Pull, Reading, Start, Steady, Timed};

use super::Choices;
use crate::entry::Key;
use crate::job::Job;
use crate::water::outing::{LogSays, OutingSays};
use crate::water::{OutingState, Side};

/// The outing a craft is learnt from: the one named, or else the latest before the rebuild, or else the
/// latest.
pub fn outing(job: &Job) -> Option<(&Key, &OutingState)> {
    let craft = job.choices.craft.as_ref();
    if let Some(named) = craft.and_then(|fact| fact.value.outing.as_ref()) {
        return job.trials.outings.get_key_value(named);
    }
    let before = job.trials.in_order(Some(Side::Before)).pop();
    before.or_else(|| job.trials.in_order(None).pop())
}

/// The longest a start is followed, `s`.
const LONGEST: f64 = 25.0;
/// Readings of a start that are enough, and of all starts together; but never fewer of one than the last says. Readings
/// within half a second share their error, so that more of them would tell no more.
const ENOUGH: usize = 250;
const ENOUGH_OF_ALL: usize = 1000;
const FEWEST: usize = 60;

/// What an outing and the steady readings say.
pub fn evidence(job: &Job, says: Option<&OutingSays>) -> Evidence {
    let mut evidence = Evidence::default();
    if let Some(says) = says {
        let count: usize = says.logs.iter().map(|log| log.starts.len()).sum();
        let enough = (ENOUGH_OF_ALL / count.max(1)).clamp(FEWEST, ENOUGH);
        let logs = says.logs.iter();
        evidence.starts = logs.flat_map(|log| starts(job, log, enough)).collect();
        evidence.plateaus.extend(plateau(says));
        if evidence.starts.is_empty() {
            let timed = |times: &crate::water::outing::Times| {
                let to = times.to;
                let timed = times.each.iter();
                timed
                    .map(|figure| Timed {
                        speed: to,
                        time: [figure.value, figure.uncertainty()],
                    })
                    .collect::<Vec<_>>()
            };
            evidence.timed = says.starts.iter().flat_map(timed).collect();
        }
    }
    steady(&job.choices, &mut evidence);
    evidence
}

fn steady(choices: &Choices, evidence: &mut Evidence) {
    for steady in choices.steadies.iter().flat_map(|fact| &fact.value) {
        let engine = steady.engine.value;
        match (&steady.speed, &steady.pull) {
            (Some(speed), _) => evidence.steadies.push(Steady {
                speed: speed.value,
                engine,
            }),
            (None, Some(pull)) => evidence.pulls.push(Pull {
                engine,
                force: pull.value,
            }),
            (None, None) => {}
        }
    }
}

/// The mean speed through the water, and the mean engine speed.
fn plateau(says: &OutingSays) -> Option<Plateau> {
    let speed = says.top_speed();
    let plateau = Plateau {
        speed: speed.map(|figure| [figure.value, figure.uncertainty()]),
        engine: says.top_engine(),
    };
    (plateau.speed.is_some() || plateau.engine.is_some()).then_some(plateau)
}

/// The readings of every start of a log, from when it began to move.
fn starts(job: &Job, log: &LogSays, enough: usize) -> Vec<Start> {
    let Some(state) = job.trials.logs.get(&log.digest) else {
        return Vec::new();
    };
    let samples = state.log.value.log();
    let reading = |start: &trial::runs::Start| {
        let stretch = samples.stretches.get(start.span.stretch)?;
        let end = log
            .runs
            .iter()
            .find(|run| run.span.stretch == start.span.stretch && run.span.to > start.instant);
        let end = end.map_or(start.span.to, |run| run.span.to);
        let end = end.min(start.instant + LONGEST);
        let inside: Vec<Reading> = stretch
            .iter()
            .filter(|sample| (start.instant..=end).contains(&sample.time))
            .map(|sample| Reading {
                time: sample.time - start.instant,
                speed: sample.speed,
                engine: sample.engine,
            })
            .collect();
        let each = inside.len().div_ceil(enough).max(1);
        let readings: Vec<Reading> = inside.into_iter().step_by(each).collect();
        (readings.len() >= 8).then_some(Start { readings })
    };
    log.starts.iter().filter_map(reading).collect()
}
