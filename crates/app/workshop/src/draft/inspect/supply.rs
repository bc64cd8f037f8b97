//! What is said of parts, consumables and tools, as typed.

use super::words::{GROUPS, WHEREABOUTS};
use super::{InspectionDraft, Sheet};
use crate::draft::{day, word};
use crate::entry::Key;
use crate::inspect::Inspection;
use crate::job::Job;
use crate::refusal::Refusal;
use crate::supplies::{Said, Whereabouts};

impl InspectionDraft {
    pub(super) fn supply(&self) -> Result<Inspection, Refusal> {
        Ok(Inspection::Supply {
            key: Key::new(&self.key)?,
            supply: Said {
                name: self.text("name"),
                group: self.may_choose("group", &GROUPS)?,
                whereabouts: self.may_choose("status", &WHEREABOUTS)?,
                expected: day(&self.text("expected"))?,
                reason: self.text("reason"),
            },
        })
    }

    pub(super) fn of_supply(key: &Key, said: &Said) -> Self {
        let mut sheet = super::fill::Filling::new(Sheet::Supply, key.to_string());
        sheet.text("name", said.name.as_str());
        sheet.text("group", said.group.map_or("", |group| word(&GROUPS, group)));
        let at = said.whereabouts.map_or("", |at| word(&WHEREABOUTS, at));
        sheet.text("status", at);
        let day = said
            .expected
            .map_or_else(String::new, |day| day.to_string());
        sheet.text("expected", day);
        sheet.text("reason", said.reason.as_str());
        sheet.0
    }
}

/// What a file must say of the list: where a part of the plan is stands with the plan.
pub(super) fn said(job: &Job) -> Vec<Inspection> {
    let planned = |key: &Key| {
        let plan = job.bench.plan();
        plan.is_some_and(|plan| plan.part(key).is_some())
    };
    let mut said = Vec::new();
    for (key, fact) in &job.inspected.supplies {
        let mut supply = fact.value.clone();
        if planned(key) && supply.whereabouts != Some(Whereabouts::NotNeeded) {
            (supply.whereabouts, supply.expected) = (None, None);
        }
        if !supply.name.is_empty() || supply.whereabouts.is_some() {
            let key = key.clone();
            said.push(Inspection::Supply { key, supply });
        }
    }
    said
}
