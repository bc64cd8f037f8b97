//! Joints that are no circle of screws.

use workshop::draft::{FitDraft, KINDS, word};
use workshop::entry::{Body, Key};
use workshop::fits::Checked;
use workshop::job::Job;
use workshop::refusal::{Refusal, Unfit};

use super::Sent;

/// A joint described; a new one gets a key of its name that is free.
pub(super) fn described(sent: &Sent, job: &Job) -> Result<Body, Refusal> {
    let fit = FitDraft::new(sent.get("fit"), |field| sent.get(field)).read()?;
    let known = sent.get("fit");
    let key = if known.is_empty() {
        let kind = word(&KINDS, fit.kind.kind());
        Key::free(&fit.name, kind, |key| job.fits.contains_key(key))?
    } else {
        Key::new(&known)?
    };
    Ok(Body::FitDescribed { key, fit })
}

/// All that is ticked of one: a tick that is taken out is sent no more.
pub(super) fn checked(sent: &Sent, job: &Job) -> Result<Body, Refusal> {
    let key = Key::new(&sent.get("fit"))?;
    let Some(state) = job.fits.get(&key) else {
        let key = key.to_string();
        return Err(Refusal::Unfit(Unfit::NoSuchFit { key }));
    };
    let ticks = sent.0.iter().filter(|(name, _)| name == "checked");
    let ticks: Vec<&str> = ticks.map(|(_, tick)| tick.as_str()).collect();
    let draft = FitDraft::new(key.to_string(), |field| match field {
        "checked" => ticks.join(" "),
        "reading" => sent.get("reading"),
        _ => String::new(),
    });
    let nothing = Checked {
        ticks: Vec::new(),
        reading: None,
        shown: None,
    };
    let checked = draft.checked(&state.fit.value)?.unwrap_or(nothing);
    Ok(Body::FitChecked { key, checked })
}
