//! Checks that were done, and those that could be.

use diagnosis::fault::Fault;
use diagnosis::next::Offer;

use super::check::words;
use super::{View, answer, next, say};
use crate::page::{Section, Table, plain, row, soft, strong};
use crate::words::upper;

/// What was looked at, and what it showed.
pub(super) fn done(view: &View<'_>) -> Option<Section> {
    let rows = view.says.known.found.iter().map(|found| {
        let told = view.job.diagnosis.checks.get(&found.check);
        let what = if found.something {
            "something found"
        } else {
            "nothing found"
        };
        let note = told.map_or("", |fact| fact.value.1.as_str());
        let note = if note.is_empty() {
            String::new()
        } else {
            format!(": {note}")
        };
        let origin = match told {
            Some(_) => "",
            None => "by what Teardown or Measure say",
        };
        row(
            upper(words(found.check).name),
            vec![strong(what), plain(note)],
            origin,
        )
    });
    let mut rows: Vec<_> = rows.collect();
    // Said of another time: it ran since.
    let old = view.job.diagnosis.checks.keys();
    let counts = |check| view.says.known.found.iter().any(|one| one.check == check);
    rows.extend(old.filter(|check| !counts(**check)).map(|check| {
        row(
            upper(words(*check).name),
            vec![soft("looked at on another occasion: it ran since")],
            "counts no more",
        )
    }));
    (!rows.is_empty()).then(|| Section::Facts {
        heading: "Checks done".to_owned(),
        rows,
    })
}

/// The checks that come after the next one.
pub(super) fn table(view: &View<'_>) -> Option<Section> {
    let offers = view.says.offers.iter().skip(1);
    let rows: Vec<Vec<String>> = offers
        .map(|offer| {
            let waits = answer::waits(view.job, offer.check);
            vec![
                upper(words(offer.check).name),
                offer.check.minutes().to_string(),
                say::hundredths(next::settles(view, offer)),
                points(view, offer).to_owned(),
                if waits { WAITS } else { "nothing" }.to_owned(),
            ]
        })
        .collect();
    let waits = rows.iter().any(|row| row[4] == WAITS);
    let columns = if waits { 5 } else { 4 };
    let head = [
        "Check",
        "Minutes",
        "Settles, in 100",
        "Found, it points to",
        "First",
    ];
    (!rows.is_empty()).then(|| {
        Section::Table(Table {
            heading: "Other checks".to_owned(),
            head: head[..columns]
                .iter()
                .map(|head| (*head).to_owned())
                .collect(),
            rows: rows
                .into_iter()
                .map(|row| row.into_iter().take(columns).collect())
                .collect(),
            caption:
                "In the order of what they tell for their time. Settles: how much of what is open, \
                      on average, out of 100."
                    .to_owned(),
        })
    })
}

/// What stands before a check of a craft that can start. Beside it no cell is empty: paper has a box there.
const WAITS: &str = "it can’t start";
/// A cause that gains less is none that a check points to.
const LEAST: f64 = 0.01;

/// The cause that gains most when something is found.
fn points(view: &View<'_>, offer: &Offer) -> &'static str {
    let gains = |fault: Fault| {
        let at = fault as usize;
        offer.after[1][at] - view.says.weighed.chances[at]
    };
    let most = Fault::ALL
        .into_iter()
        .max_by(|a, b| gains(*a).total_cmp(&gains(*b)));
    let most = most.filter(|fault| gains(*fault) >= LEAST);
    most.map_or("nothing that is likely", say::fault)
}
