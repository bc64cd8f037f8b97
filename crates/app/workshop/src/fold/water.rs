//! What is said of water tests, folded.

use super::{Misfit, Objection, fact};
use crate::entry::{Entry, EntryId};
use crate::job::{Fact, Job};
use crate::water::{LogState, OutingState, Trialling, Trials, evidence};

/// Takes one entry in, or says what does not fit.
pub(super) fn take(trials: &mut Trials, entry: &Entry, said: &Trialling) -> Option<Misfit> {
    match said {
        Trialling::Outing { key, outing } => {
            let had = trials.outings.remove(key);
            let state = OutingState {
                since: had.as_ref().map_or(entry.position, |had| had.since),
                outing: fact(entry, outing.clone()),
                figures: had.and_then(|had| had.figures),
            };
            trials.outings.insert(key.clone(), state);
        }
        Trialling::Log {
            outing,
            digest,
            log,
        } => {
            let had = trials.logs.remove(digest);
            let state = LogState {
                since: had.as_ref().map_or(entry.position, |had| had.since),
                outing: outing.clone(),
                log: fact(entry, log.clone()),
                windows: had.and_then(|had| had.windows),
            };
            trials.logs.insert(digest.clone(), state);
        }
        Trialling::LogPutAway { digest } => {
            if trials.logs.remove(digest).is_none() {
                return Some(Misfit::NoSuchLog);
            }
        }
        Trialling::Runs { digest, windows } => match trials.logs.get_mut(digest) {
            Some(state) => {
                state.windows = windows.as_ref().map(|all| fact(entry, all.clone()));
            }
            None => return Some(Misfit::NoSuchLog),
        },
        Trialling::Figures { outing, figures } => match trials.outings.get_mut(outing) {
            Some(state) => state.figures = Some(fact(entry, figures.clone())),
            None => return Some(Misfit::NoSuchOuting),
        },
        Trialling::Taken(shown) => trials.taken = Some(fact(entry, shown.clone())),
    }
    None
}

/// A log of an outing that is not here any more, and a result taken of other runs.
pub(super) fn close(job: &Job) -> Vec<Objection> {
    fn at<T>(fact: &Fact<T>, why: Misfit) -> Objection {
        let entry: EntryId = fact.entry.clone();
        Objection {
            entry,
            position: fact.position,
            why,
        }
    }
    let strays = job.trials.logs.values();
    let strays = strays.filter(|state| !job.trials.outings.contains_key(&state.outing));
    let mut found: Vec<Objection> = strays
        .map(|state| at(&state.log, Misfit::NoSuchOuting))
        .collect();
    if let Some(taken) = &job.trials.taken
        && taken.value.evidence != evidence(job)
    {
        found.push(at(taken, Misfit::TrialTakenOfOtherRuns));
    }
    found
}
