//! What is said about what is wrong, folded.

use super::{Misfit, Objection, fact};
use crate::diagnose::{Diagnosing, Search, evidence};
use crate::entry::Entry;
use crate::job::Job;

/// Takes one entry in.
pub(super) fn take(search: &mut Search, entry: &Entry, said: &Diagnosing) {
    match said {
        Diagnosing::Suspect { outing } => search.suspect = Some(fact(entry, outing.clone())),
        Diagnosing::Symptoms(all) => search.symptoms = Some(fact(entry, all.clone())),
        Diagnosing::Checked { check, found, note } => {
            if let Some(found) = found {
                let told = fact(entry, (*found, note.clone()));
                search.checks.insert(*check, told);
            } else {
                search.checks.remove(check);
            }
        }
        Diagnosing::MadeSafe(safe) => search.safe = Some(fact(entry, *safe)),
        Diagnosing::Taken(told) => search.taken = Some(fact(entry, (**told).clone())),
    }
}

/// An outing that is gone, and a cause taken on other grounds.
pub(super) fn close(job: &Job) -> Vec<Objection> {
    let search = &job.diagnosis;
    let gone = search.suspect.iter().filter(|fact| {
        let outings = &job.trials.outings;
        let named = fact.value.as_ref();
        named.is_some_and(|key| !outings.contains_key(key))
    });
    let gone = gone.map(|fact| Objection {
        entry: fact.entry.clone(),
        position: fact.position,
        why: Misfit::NoSuchOuting,
    });
    let stale = search.taken.iter();
    let stale = stale.filter(|taken| taken.value.evidence != evidence(job));
    let stale = stale.map(|taken| Objection {
        entry: taken.entry.clone(),
        position: taken.position,
        why: Misfit::CauseTakenOnOtherGrounds,
    });
    gone.chain(stale).collect()
}
