//! Whether something may be said of parts, consumables and tools.

use super::super::{LONGEST_TEXT, filled, text};
use super::slip;
use crate::entry::Key;
use crate::job::Job;
use crate::refusal::{Refusal, Slip};
use crate::supplies::{Said, Whereabouts, supplies};

pub(super) fn check(job: &Job, key: &Key, said: &Said) -> Result<(), Refusal> {
    text("name", &said.name, LONGEST_TEXT)?;
    text("reason", &said.reason, LONGEST_TEXT)?;
    if said.name.is_empty() && !supplies(job).iter().any(|supply| supply.key == *key) {
        let key = key.to_string();
        return slip(Slip::NoSuchSupply { key });
    }
    sane(job, key, said)
}

/// What a file tells may be of a finding that the file closes.
pub(super) fn sane(job: &Job, key: &Key, said: &Said) -> Result<(), Refusal> {
    text("name", &said.name, LONGEST_TEXT)?;
    text("reason", &said.reason, LONGEST_TEXT)?;
    if !said.name.is_empty() && said.group.is_none() {
        return Err(Refusal::Empty { field: "group" });
    }
    if said.name.is_empty() && said.whereabouts.is_none() {
        return Err(Refusal::Empty { field: "status" });
    }
    if said.expected.is_some() && said.whereabouts != Some(Whereabouts::OnOrder) {
        return slip(Slip::ExpectedNotOrdered);
    }
    if said.whereabouts == Some(Whereabouts::NotNeeded) {
        filled("reason", &said.reason)?;
        let planned = job.bench.plan().filter(|plan| plan.part(key).is_some());
        let needs = planned.map(|plan| plan.steps.iter().any(|step| step.needs.contains(key)));
        if needs == Some(true) {
            return slip(Slip::PlanNeedsIt);
        }
    }
    Ok(())
}
