//! Joints that are no circle of screws, on the build sheet.

use workshop::fits::{FitState, card};

use super::{View, when};
use crate::page::record::{by, find};
use crate::page::torque::fit::{state_words, told};
use crate::page::{Section, Table, forms};

/// Each with what was ticked by whom, what was told then, and what can hurt whoever opens it next.
pub(super) fn fits(view: &View<'_>) -> Vec<Section> {
    let fits = view.job.fits_in_order();
    if fits.is_empty() {
        return Vec::new();
    }
    let head = ["Joint", "How far", "Told then", "Who, when"];
    let rows = fits.iter().map(|(_, state)| one(view, state)).collect();
    let cautions = fits.iter().map(|(_, state)| {
        let caution = card(view.job, state).caution();
        format!("{}: {caution}", state.fit.value.name)
    });
    vec![
        Section::Table(Table {
            heading: "Other joints".to_owned(),
            head: head.map(str::to_owned).to_vec(),
            rows,
            caption: "Figures from the craft’s manual as stated; which way to turn by the \
                      right-hand rule; an anode’s seat at most 1 Ω, and some play in a spline, where \
                      the manual says nothing: common practice, no source."
                .to_owned(),
        }),
        Section::Notes {
            heading: "Cautions at these joints".to_owned(),
            notes: cautions.collect(),
        },
    ]
}

fn one(view: &View<'_>, state: &FitState) -> Vec<String> {
    let fit = &state.fit.value;
    let kind = forms::fit::kind_words(fit.kind.kind()).0;
    let page = match fit.page.as_str() {
        "" => String::new(),
        page => format!(", p. {page}"),
    };
    let ticks = state.ticks().iter();
    let ticks: Vec<&str> = ticks
        .map(|tick| forms::fit::label(&fit.kind, *tick))
        .collect();
    let ticks = match ticks.as_slice() {
        [] => String::new(),
        ticks => format!(": {}", ticks.join("; ")),
    };
    let reading = state.reading();
    let reading = reading.map_or_else(String::new, |reading| {
        format!(". Read {}", reading.worded())
    });
    let checked = state.checked.as_ref();
    let now = workshop::fits::shown(view.job, fit);
    let entry = checked.and_then(|fact| find(view.entries, &fact.entry));
    vec![
        format!("{} ({kind}{page})", fit.name),
        format!("{}{ticks}{reading}", state_words(state)),
        match checked.and_then(|fact| fact.value.shown) {
            Some(then) if then == now => format!("{}; now the same", told(&then)),
            Some(then) => format!("{}; now {}", told(&then), told(&now)),
            None => format!("not yet; now {}", told(&now)),
        },
        entry.map_or_else(
            || "–".to_owned(),
            |entry| format!("{}, {}", by(entry), when(view, entry)),
        ),
    ]
}
