//! What is said about service, folded.

use super::{Misfit, Objection, fact};
use crate::entry::{Entry, EntryId, Key};
use crate::job::{Fact, Job};
use crate::upkeep::tasks::task;
use crate::upkeep::{Dated, Servicing, State, Upkeep, evidence};

use std::collections::BTreeMap;

use jiff::civil::Date;

/// Takes one entry in, or says what does not fit.
pub(super) fn take(upkeep: &mut Upkeep, entry: &Entry, said: &Servicing) -> Option<Misfit> {
    match said {
        Servicing::Usage(usage) => upkeep.usage = Some(fact(entry, (**usage).clone())),
        Servicing::Part { key, part } => {
            return keep(&mut upkeep.parts, entry, key, part.as_deref());
        }
        Servicing::Piece { key, piece } => {
            return keep(&mut upkeep.pieces, entry, key, piece.as_deref());
        }
        Servicing::Meter(read) => upkeep.meter.push(dated(entry, read.on, read.clone())),
        Servicing::Happened(mishap) => {
            upkeep.mishaps.push(dated(entry, mishap.on, mishap.clone()));
        }
        Servicing::Rule { task, rule } => {
            if let Some(rule) = rule {
                upkeep
                    .rules
                    .insert(task.clone(), fact(entry, (**rule).clone()));
            } else if upkeep.rules.remove(task).is_none() {
                return Some(Misfit::NoSuchTask);
            }
        }
        Servicing::Done(done) => upkeep.done.push(dated(entry, done.on, done.clone())),
        Servicing::Rechecked { point, well, note } => {
            if let Some(well) = well {
                let told = dated(entry, None, (*well, note.clone()));
                upkeep.recheck.insert(*point, told);
            } else {
                upkeep.recheck.remove(point);
            }
        }
        Servicing::Closed(told) => upkeep.closed = Some(dated(entry, None, (**told).clone())),
    }
    None
}

fn keep<T: Clone>(
    all: &mut BTreeMap<Key, State<T>>,
    entry: &Entry,
    key: &Key,
    said: Option<&T>,
) -> Option<Misfit> {
    let Some(said) = said else {
        return all.remove(key).is_none().then_some(Misfit::NoSuchSort);
    };
    let since = all.get(key).map_or(entry.position, |state| state.since);
    let said = fact(entry, said.clone());
    all.insert(key.clone(), State { since, said });
    None
}

/// With its day: that of the telling where none was said.
fn dated<T>(entry: &Entry, on: Option<Date>, what: T) -> Dated<T> {
    Dated {
        on: on.unwrap_or_else(|| entry.new.happened_at.date()),
        what: fact(entry, what),
    }
}

/// Pieces of a sort that is gone, tasks done that are not known, and a job closed on other grounds.
pub(super) fn close(job: &Job) -> Vec<Objection> {
    let upkeep = &job.upkeep;
    let pieces = upkeep.pieces.values().map(|state| &state.said);
    let pieces = pieces.filter(|said| !upkeep.parts.contains_key(&said.value.part));
    let pieces = pieces.map(|said| object(said, Misfit::NoSuchSort));
    let known = |key: &Key| task(key.as_str()).is_some() || upkeep.rules.contains_key(key);
    let done = upkeep.done.iter().map(|done| &done.what);
    let done = done.filter(|done| !known(&done.value.task));
    let done = done.map(|done| object(done, Misfit::NoSuchTask));
    let closed = upkeep.closed.iter().map(|closed| &closed.what);
    let closed = closed.filter(|told| told.value.evidence != evidence(job));
    let closed = closed.map(|told| object(told, Misfit::ClosedOnOtherGrounds));
    pieces.chain(done).chain(closed).collect()
}

fn object<T>(fact: &Fact<T>, why: Misfit) -> Objection {
    let entry: &EntryId = &fact.entry;
    Objection {
        entry: entry.clone(),
        position: fact.position,
        why,
    }
}
