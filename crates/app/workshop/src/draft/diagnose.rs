//! What is wrong, as typed.

use std::collections::BTreeMap;

use diagnosis::check::Check;
use diagnosis::fault::Fault;
use diagnosis::symptom::Symptom;

use super::{Choice, choose, word};
use crate::act::Act;
use crate::diagnose::Diagnosing;
use crate::entry::{Body, Key};
use crate::job::Job;
use crate::refusal::{Misstep, Refusal};

/// The words for [`Symptom`].
pub const SYMPTOMS: [Choice<Symptom>; 16] = [
    ("since-refit", Symptom::Refit),
    ("sudden", Symptom::Sudden),
    ("flare", Symptom::Flare),
    ("roar", Symptom::Roar),
    ("milky-jet", Symptom::Milky),
    ("vibration", Symptom::Vibration),
    ("growl", Symptom::Growl),
    ("weak-outlet", Symptom::Telltale),
    ("hot", Symptom::Hot),
    ("held", Symptom::Held),
    ("misfire", Symptom::Misfire),
    ("smell", Symptom::Smell),
    ("sits-low", Symptom::Low),
    ("pulls", Symptom::Pull),
    ("chop", Symptom::Chop),
    ("clears", Symptom::Clears),
];
/// The words for [`Check`].
pub const CHECKS: [Choice<Check>; 15] = [
    ("intake", Check::Intake),
    ("leaves", Check::Leaves),
    ("blades", Check::Blades),
    ("mark", Check::Mark),
    ("turn", Check::Turn),
    ("ring", Check::Ring),
    ("bottom", Check::Bottom),
    ("weigh", Check::Weigh),
    ("nozzle", Check::Nozzle),
    ("soap", Check::Soap),
    ("compression", Check::Compression),
    ("codes", Check::Codes),
    ("dials", Check::Dials),
    ("hoses", Check::Hoses),
    ("gate", Check::Gate),
];
/// The words for [`Fault`].
pub const FAULTS: [Choice<Fault>; 18] = [
    ("nothing", Fault::Nothing),
    ("clearance", Fault::Clearance),
    ("air", Fault::Air),
    ("grate", Fault::Grate),
    ("blade", Fault::Blade),
    ("nozzle-wide", Fault::NozzleWide),
    ("nozzle-narrow", Fault::NozzleNarrow),
    ("engine", Fault::Engine),
    ("limp", Fault::Limp),
    ("dirty", Fault::Dirty),
    ("heavy", Fault::Heavy),
    ("slip", Fault::Slip),
    ("ring", Fault::Ring),
    ("bearing", Fault::Bearing),
    ("misaligned", Fault::Misaligned),
    ("hoses", Fault::Hoses),
    ("gate", Fault::Gate),
    ("unlisted", Fault::Unlisted),
];
/// The words for what a check found.
pub const FOUND: [Choice<bool>; 2] = [("something", true), ("nothing", false)];

/// A check as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CheckDraft {
    /// A word of [`CHECKS`].
    pub check: String,
    /// A word of [`FOUND`].
    pub found: String,
    /// What, in own words.
    pub note: String,
}

impl CheckDraft {
    /// What was typed, read.
    pub fn read(&self) -> Result<(Check, bool, String), Refusal> {
        Ok((
            choose("check", &self.check, &CHECKS)?,
            choose("found", &self.found, &FOUND)?,
            self.note.trim().to_owned(),
        ))
    }
}

/// What was said about what is wrong, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SearchDraft {
    /// The outing that falls short, by its key; empty where nobody named one.
    pub outing: String,
    /// Words of [`SYMPTOMS`] that are so.
    pub yes: Vec<String>,
    /// Words of [`SYMPTOMS`] that are not so.
    pub no: Vec<String>,
    /// The checks done.
    pub checks: Vec<CheckDraft>,
}

impl SearchDraft {
    /// What is and what is not so.
    pub fn symptoms(&self) -> Result<BTreeMap<Symptom, bool>, Refusal> {
        let mut all = BTreeMap::new();
        for (field, words, so) in [("yes", &self.yes, true), ("no", &self.no, false)] {
            for text in words {
                let symptom = choose(field, text, &SYMPTOMS)?;
                if all.insert(symptom, so).is_some_and(|other| other != so) {
                    return Err(Refusal::Search(Misstep::YesAndNo {
                        symptom: text.trim().to_owned(),
                    }));
                }
            }
        }
        Ok(all)
    }
}

/// What was said about what is wrong.
pub(super) fn drafts(job: &Job) -> SearchDraft {
    let search = &job.diagnosis;
    let told = search.symptoms.iter().flat_map(|fact| &fact.value);
    let of = |so: bool| -> Vec<String> {
        let mine = told.clone().filter(|(_, told)| **told == so);
        mine.map(|(symptom, _)| word(&SYMPTOMS, *symptom).to_owned())
            .collect()
    };
    // An outing that is gone cannot be named.
    let named = search.suspect.as_ref().and_then(|fact| fact.value.as_ref());
    let named = named.filter(|key| job.trials.outings.contains_key(*key));
    let checks = search.checks.iter().map(|(check, fact)| CheckDraft {
        check: word(&CHECKS, *check).to_owned(),
        found: word(&FOUND, fact.value.0).to_owned(),
        note: fact.value.1.clone(),
    });
    SearchDraft {
        outing: named.map_or_else(String::new, ToString::to_string),
        yes: of(true),
        no: of(false),
        checks: checks.collect(),
    }
}

/// The acts that bring `job` to this, where it says otherwise or nothing.
///
/// That a craft can't start is no part of it: that is said by whoever stands beside it.
pub(super) fn acts(draft: &SearchDraft, job: &Job) -> Result<Vec<Act>, Refusal> {
    let search = &job.diagnosis;
    let mut acts = Vec::new();
    let mut tell = |said| acts.push(Act::Recount(Body::Diagnosed(said), None));
    if !draft.outing.trim().is_empty() {
        let outing = Some(Key::new(draft.outing.trim())?);
        if search.suspect.as_ref().map(|fact| &fact.value) != Some(&outing) {
            tell(Diagnosing::Suspect { outing });
        }
    }
    let symptoms = draft.symptoms()?;
    // A file without symptoms takes none away.
    if !symptoms.is_empty() && search.symptoms.as_ref().map(|fact| &fact.value) != Some(&symptoms) {
        tell(Diagnosing::Symptoms(symptoms));
    }
    for check in &draft.checks {
        let (check, found, note) = check.read()?;
        let had = search.checks.get(&check).map(|fact| &fact.value);
        if had != Some(&(found, note.clone())) {
            let found = Some(found);
            tell(Diagnosing::Checked { check, found, note });
        }
    }
    Ok(acts)
}
