//! What is said of joints that are no circle of screws, folded.

use super::{Misfit, Objection, fact};
use crate::entry::{Entry, Key};
use crate::fits::{Check, Checked, Fit, FitState, mount};
use crate::job::Job;

pub(super) fn describe(job: &mut Job, entry: &Entry, key: &Key, fit: &Fit) {
    let fit = fact(entry, fit.clone());
    let new = || FitState {
        since: entry.position,
        fit: fit.clone(),
        checked: None,
    };
    job.fits.entry(key.clone()).or_insert_with(new).fit = fit.clone();
}

/// Takes the ticks, or says what does not fit. No tick and no reading is as if nothing was ever
/// ticked.
pub(super) fn check(job: &mut Job, entry: &Entry, key: &Key, checked: &Checked) -> Option<Misfit> {
    let Some(state) = job.fits.get_mut(key) else {
        return Some(Misfit::NoSuchFit);
    };
    let nothing = checked.ticks.is_empty() && checked.reading.is_none();
    state.checked = (!nothing).then(|| fact(entry, checked.clone()));
    None
}

/// What can only be judged when everything is known.
pub(super) fn close(job: &Job) -> Vec<Objection> {
    let objections = job.fits.values().filter_map(|state| {
        let told = state.checked.as_ref()?;
        let fit = &state.fit.value;
        let all = fit.kind.checks();
        let unit = fit.limit().map(|limit| limit.unit.kind());
        let ticks = &told.value.ticks;
        let strange = ticks.iter().any(|tick| !all.contains(tick))
            || (told.value.reading.as_ref())
                .is_some_and(|reading| Some(reading.unit.kind()) != unit);
        let why = if strange {
            Misfit::TicksOfAnother
        } else if ticks.contains(&Check::Tightened) && mount::stop(job, fit).is_some() {
            Misfit::TightenedInError
        } else {
            return None;
        };
        Some(Objection {
            entry: told.entry.clone(),
            position: told.position,
            why,
        })
    });
    objections.collect()
}
