//! Whether something may be said of what is wrong.

use super::{LONGEST_NOTE, LONGEST_TEXT, text};
use crate::diagnose::{Diagnosing, Told, evidence};
use crate::job::Job;
use crate::refusal::{Refusal, Splash};

/// Refuses what cannot be so.
pub(super) fn check(job: &Job, said: &Diagnosing) -> Result<(), Refusal> {
    match said {
        Diagnosing::Suspect { outing } => {
            let outings = &job.trials.outings;
            match outing.as_ref().filter(|key| !outings.contains_key(*key)) {
                Some(key) => Err(Refusal::Water(Splash::NoSuchOuting {
                    key: key.to_string(),
                })),
                None => Ok(()),
            }
        }
        Diagnosing::Symptoms(_) | Diagnosing::MadeSafe(_) => Ok(()),
        Diagnosing::Checked { note, .. } => text("note", note, LONGEST_NOTE),
        Diagnosing::Taken(told) => taken(job, told),
    }
}

fn taken(job: &Job, told: &Told) -> Result<(), Refusal> {
    text("words", &told.words, LONGEST_NOTE)?;
    text("program", &told.program, LONGEST_TEXT)?;
    if told.evidence == evidence(job) && (0.0..=1.0).contains(&told.chance) {
        Ok(())
    } else {
        Err(Refusal::ShownIsStale)
    }
}
