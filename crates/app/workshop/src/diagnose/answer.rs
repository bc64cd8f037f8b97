//! Which causes fit, what speaks for the first of them, and what to check next.

use diagnosis::check::Check;
use diagnosis::fault::{Fault, PRIOR};
use diagnosis::next::{Offer, offers};
use diagnosis::signature::Observable;
use diagnosis::symptom::{Answered, Symptom};
use diagnosis::weigh::{Evidence, Item, Weighed, beforehand, weigh, weights};

use super::expected::{Reckoned, reckon};
use super::{Told, bench, cannot_start, of_the_suspect, suspect};
use crate::entry::Key;
use crate::job::Job;

pub use super::expected::{Against, Compared};
pub use super::seen::Measured;

/// Below this chance of the likeliest cause nothing is told but what to do next.
pub const TELLS: f64 = 0.5;

/// Beyond so many standard uncertainties a difference is no chance.
const SURE: f64 = 2.0;

/// A piece of evidence with what it carried.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carried {
    /// Which.
    pub item: Item,
    /// Natural logarithm of by how much it puts the first cause ahead of the second; below 0 it speaks
    /// for the second.
    pub weight: f64,
}

/// An outcome of a check that would put another cause first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// The check.
    pub check: Check,
    /// Something is found.
    pub something: bool,
    /// Chance of that outcome.
    pub chance: f64,
    /// The cause that would then be first, with its chance.
    pub then: (Fault, f64),
}

/// The answer.
#[derive(Clone, Debug)]
pub struct Answer {
    /// The outing that falls short.
    pub suspect: Option<Key>,
    /// What it is held against.
    pub against: Against,
    /// What should have been, and was.
    pub compared: Vec<Compared>,
    /// The gap as it was measured after that outing, and as it should be, `m`.
    pub gap: Option<(Measured, f64)>,
    /// Every cause with its chance.
    pub weighed: Weighed,
    /// Everything that speaks for or against something.
    pub known: Evidence,
    /// What each piece carries for the first cause against the second, the weightiest first.
    pub carried: Vec<Carried>,
    /// Checks not done yet, the best first.
    pub offers: Vec<Offer>,
    /// What would change the answer, the likeliest first.
    pub turns: Vec<Turn>,
    /// Signs seen that mean: stop, whatever the cause.
    pub dangers: Vec<Symptom>,
    /// Somebody said that the craft can't start.
    pub cannot_start: bool,
    /// Names what it rests on.
    pub evidence: String,
}

impl Answer {
    /// The likeliest cause and the next, with their chances.
    pub fn leaders(&self) -> [(Fault, f64); 2] {
        [0, 1].map(|place| {
            let cause = &self.weighed.causes[place];
            (cause.fault, cause.chance)
        })
    }

    /// It did better than it should have: some speed or time by more than chance, and none was worse.
    pub fn better(&self) -> bool {
        let gains = self.compared.iter().filter_map(|one| {
            let gain = match one.seen.observable {
                Observable::TopSpeed => one.seen.value - one.expected,
                Observable::Start(_) => one.expected - one.seen.value,
                _ => return None,
            };
            Some(gain / one.seen.uncertainty.hypot(one.spread))
        });
        let gains: Vec<f64> = gains.collect();
        gains.iter().any(|gain| *gain > SURE) && gains.iter().all(|gain| *gain > -SURE)
    }

    /// What is put on record when a person takes a cause, told in these words.
    pub fn told(&self, fault: Fault, words: String) -> Told {
        Told {
            fault,
            chance: self.weighed.chances[fault as usize],
            evidence: self.evidence.clone(),
            words,
            program: crate::PROGRAM.to_owned(),
        }
    }
}

/// The part of a job that the table is drawn up from.
pub fn inputs(job: &Job) -> Job {
    Job {
        diagnosis: job.diagnosis.clone(),
        ..crate::choose::answer::inputs(job)
    }
}

/// What is wrong, by all that is known.
pub fn answer(job: &Job) -> Answer {
    answer_by(job, &reckon(job))
}

/// The same by a table drawn up before, on the same [`basis`](super::basis): at once.
pub fn answer_by(job: &Job, reckoned: &Reckoned) -> Answer {
    let known = Evidence {
        seen: reckoned.seen.clone(),
        answers: answers(job),
        found: bench::found(job),
    };
    let weighed = weigh(&PRIOR, &reckoned.table, &known);
    let weighed = weighed.unwrap_or_else(|_| beforehand(&PRIOR));
    let leaders = (weighed.causes[0].fault, weighed.causes[1].fault);
    let carried = weights(&reckoned.table, &known, leaders).unwrap_or_default();
    let carried = carried.into_iter();
    let mut carried: Vec<Carried> = carried
        .map(|(item, weight)| Carried { item, weight })
        .filter(|one| one.weight.is_finite())
        .collect();
    carried.sort_by(|a, b| b.weight.abs().total_cmp(&a.weight.abs()));
    let done: Vec<Check> = known.found.iter().map(|one| one.check).collect();
    let offers = offers(&weighed.chances, &done);
    let dangers = known.answers.iter();
    let dangers = dangers.filter(|one| one.yes && one.symptom.danger());
    Answer {
        suspect: suspect(job).map(|(key, _)| key.clone()),
        against: reckoned.against.clone(),
        compared: reckoned.compared.clone(),
        gap: reckoned.gap,
        carried,
        turns: turns(&offers, leaders.0),
        offers,
        dangers: dangers.map(|one| one.symptom).collect(),
        cannot_start: cannot_start(job),
        weighed,
        known,
        evidence: super::evidence(job),
    }
}

/// What was heard and seen of the craft as it ran.
fn answers(job: &Job) -> Vec<Answered> {
    let told = job.diagnosis.symptoms.iter();
    let told = told.filter(|fact| of_the_suspect(job, fact.position));
    told.flat_map(|fact| &fact.value)
        .map(|(symptom, yes)| Answered {
            symptom: *symptom,
            yes: *yes,
        })
        .collect()
}

/// Outcomes that would put another cause first, the likeliest first.
fn turns(offers: &[Offer], first: Fault) -> Vec<Turn> {
    let each = offers.iter().flat_map(|offer| {
        [false, true].map(|something| Turn {
            check: offer.check,
            something,
            chance: if something {
                offer.gain.something
            } else {
                1.0 - offer.gain.something
            },
            then: offer.leader(something),
        })
    });
    let mut turns: Vec<Turn> = each.filter(|turn| turn.then.0 != first).collect();
    turns.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    turns
}
