//! What is wrong: which run falls short, what was heard and checked, and which cause fits it all.

pub mod answer;
mod bench;
pub mod expected;
mod faults;
pub mod scale;
pub mod seen;

use std::collections::BTreeMap;

use diagnosis::check::Check;
use diagnosis::fault::Fault;
use diagnosis::symptom::Symptom;

use crate::entry::{EntryId, Key};
use crate::gap::short_digest;
use crate::job::{Fact, Job};
use crate::water::{OutingState, Side};

/// A cause that a person takes, told in these words.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// Which.
    pub fault: Fault,
    /// Its chance as it was told.
    pub chance: f64,
    /// Digest of what it rests on.
    pub evidence: String,
    /// The answer as it was told.
    pub words: String,
    /// The program that told it.
    pub program: String,
}

/// Something about what is wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Diagnosing {
    /// The outing that falls short; none goes back to the latest.
    Suspect {
        /// Its key.
        outing: Option<Key>,
    },
    /// What was heard, felt and seen: all of it, not only what is new.
    Symptoms(BTreeMap<Symptom, bool>),
    /// A check was done.
    Checked {
        /// Which.
        check: Check,
        /// Something was found; none takes it back.
        found: Option<bool>,
        /// What, in the person's words.
        note: String,
    },
    /// The craft can't start: lanyard out, battery off. Or it may again.
    MadeSafe(bool),
    /// The person takes a cause as found.
    Taken(Box<Told>),
}

/// Where the search stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Search {
    /// The outing named to fall short.
    pub suspect: Option<Fact<Option<Key>>>,
    /// What was heard, felt and seen.
    pub symptoms: Option<Fact<BTreeMap<Symptom, bool>>>,
    /// The checks done: whether something was found, and what.
    pub checks: BTreeMap<Check, Fact<(bool, String)>>,
    /// Whether it was said that the craft can't start.
    pub safe: Option<Fact<bool>>,
    /// The cause that was taken.
    pub taken: Option<Fact<Told>>,
}

impl Search {
    /// Whether nothing was said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// The outing that falls short: the one named, else the latest.
pub fn suspect(job: &Job) -> Option<(&Key, &OutingState)> {
    let named = job.diagnosis.suspect.as_ref();
    let named = named.and_then(|fact| fact.value.as_ref());
    let named = named.and_then(|key| job.trials.outings.get_key_value(key));
    named.or_else(|| job.trials.in_order(None).pop())
}

/// From which position on, and up to which, what is said is of the craft as it ran on the suspect outing: what came
/// before the first outing is of that one.
fn spell(job: &Job) -> (u64, u64) {
    let Some((suspect, state)) = suspect(job) else {
        return (0, u64::MAX);
    };
    let all = job.trials.in_order(None);
    let at = all.iter().position(|(key, _)| *key == suspect).unwrap_or(0);
    let next = all.get(at + 1).map(|(_, state)| state.since);
    let from = if at == 0 { 0 } else { state.since };
    (from, next.unwrap_or(u64::MAX))
}

/// Whether a sign or a check told here is of the suspect outing: told in its spell, or once it was named.
fn of_the_suspect(job: &Job, position: u64) -> bool {
    let (from, until) = spell(job);
    let named = job.diagnosis.suspect.as_ref();
    let named = named.filter(|fact| fact.value.is_some());
    position > from && position < until || named.is_some_and(|fact| position > fact.position)
}

/// Whether something found on the bench here is of the craft as it ran on the suspect outing. What was found before the
/// first run after a rebuild was of another craft.
fn found_since(job: &Job, position: u64) -> bool {
    let (from, until) = spell(job);
    let after = suspect(job).filter(|(_, state)| state.outing.value.side == Side::After);
    let from = after.map_or(from, |(_, state)| state.since);
    position > from && position < until
}

/// Whether the craft can't start, as far as anybody said since it last ran.
pub fn cannot_start(job: &Job) -> bool {
    let ran = job.trials.in_order(None).pop();
    let ran = ran.map_or(0, |(_, state)| state.since);
    let said = job.diagnosis.safe.as_ref();
    said.is_some_and(|fact| fact.value && fact.position > ran)
}

/// Names what runs and craft say rests on: all that takes long to reckon.
pub fn basis(job: &Job) -> String {
    let mut words = vec!["1".to_owned(), crate::choose::evidence(job)];
    let suspect = job.diagnosis.suspect.as_ref().map(|fact| &fact.entry);
    let taken = job.choices.taken.as_ref().map(|fact| &fact.entry);
    for (word, entry) in [("suspect", suspect), ("option", taken)] {
        words.extend(entry.map(|entry| format!("{word} {entry}")));
    }
    short_digest(&words.join(" "))
}

/// Names all that an answer about what is wrong rests on: the entries that said it.
pub fn evidence(job: &Job) -> String {
    let mut words = vec![basis(job)];
    let mut add = |word: &str, entry: &EntryId| words.push(format!("{word} {entry}"));
    let search = &job.diagnosis;
    if let Some(fact) = &search.symptoms {
        add("symptoms", &fact.entry);
    }
    for fact in search.checks.values() {
        add("check", &fact.entry);
    }
    for state in job.inspected.findings.values() {
        add("finding", &state.finding.entry);
    }
    if let Some(fact) = &job.inspected.leak {
        add("leak", &fact.entry);
    }
    if let Some(fact) = &job.inspected.rotor {
        add("rotor", &fact.entry);
    }
    if let Some(fact) = &job.inspected.alignment {
        add("line", &fact.entry);
    }
    short_digest(&words.join(" "))
}
