//! Joints that are no circle of screws.

use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::{CHECKS, ENDS, KINDS, TURNS, word};
use workshop::entry::Key;
use workshop::fits::{FitKind, FitState, Part, card};
use workshop::job::Job;

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Fit {
    /// Names the joint in its job.
    key: String,
    /// What it is called.
    name: String,
    /// Its kind.
    kind: &'static str,
    /// What is ticked.
    ticked: Vec<&'static str>,
    /// What is still to be ticked.
    open: Vec<&'static str>,
    /// All ticked, what is measured within its limit, and nothing that stops it.
    done: bool,
    /// Why it must not be tightened yet.
    stop: Option<String>,
    /// The torque of the craft's manual; for an impeller there is never another.
    torque_n_m: Option<f64>,
    /// Which way an impeller turns while its shaft is held.
    turning: Option<Turning>,
    /// Play left along the shaft.
    play_m: Option<f64>,
    /// Resistance from the anode to bare casting.
    resistance_ohm: Option<f64>,
    /// What does not look right in what was described.
    mind: Vec<String>,
    /// What can hurt.
    cautions: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Turning {
    /// Where one stands: `aft` looks forward, `ahead` looks aft.
    seen_from: &'static str,
    /// To tighten.
    tighten: &'static str,
    /// To take off.
    loosen: &'static str,
}

pub(super) fn of(job: &Job) -> Vec<Fit> {
    let fits = job.fits_in_order().into_iter();
    fits.map(|(key, state)| one(job, key, state)).collect()
}

fn one(job: &Job, key: &Key, state: &FitState) -> Fit {
    let card = card(job, state);
    let fit = &state.fit.value;
    let words = |checks: &[_]| checks.iter().map(|check| word(&CHECKS, *check)).collect();
    let reading = state.reading().map(|reading| reading.value);
    Fit {
        key: key.to_string(),
        name: fit.name.clone(),
        kind: word(&KINDS, fit.kind.kind()),
        ticked: words(state.ticks()),
        open: words(&state.open()),
        done: job.fit_done(state),
        stop: card.stop.as_ref().map(ToString::to_string),
        torque_n_m: fit.torque().map(|torque| torque.value),
        turning: card.turning.map(|turning| Turning {
            seen_from: word(&ENDS, turning.seen_from),
            tighten: word(&TURNS, turning.tighten),
            loosen: word(&TURNS, turning.loosen),
        }),
        play_m: reading.filter(|_| matches!(fit.kind, FitKind::Spline { .. })),
        resistance_ohm: reading.filter(|_| matches!(fit.kind, FitKind::Anode { .. })),
        cautions: card
            .of(Part::Caution)
            .map(|line| line.words.clone())
            .collect(),
        mind: card.mind,
    }
}
