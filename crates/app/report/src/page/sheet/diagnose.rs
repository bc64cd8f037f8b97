//! What was wrong, on the build sheet: the cause taken, what was told, the checks done.

use workshop::diagnose::evidence;

use super::{View, by, find, when};
use crate::page::diagnose::{check, say, sign};
use crate::page::{FactRow, Section, plain, row};
use crate::words::upper;

/// Nothing while nothing was told.
pub(super) fn diagnose(view: &View<'_>) -> Option<Section> {
    let rows: Vec<FactRow> = taken(view)
        .into_iter()
        .chain(told(view))
        .chain(checks(view))
        .collect();
    (!rows.is_empty()).then(|| Section::Facts {
        heading: "What was wrong".to_owned(),
        rows,
    })
}

fn taken(view: &View<'_>) -> Vec<FactRow> {
    let Some(taken) = &view.job.diagnosis.taken else {
        return Vec::new();
    };
    let grounds = if taken.value.evidence == evidence(view.job) {
        "the same"
    } else {
        "other ones: look at What is wrong again"
    };
    let mut rows = vec![
        row(
            "Cause taken",
            vec![plain(upper(say::fault(taken.value.fault)))],
            "",
        ),
        row(
            "Told then",
            vec![plain(taken.value.words.clone())],
            taken.value.program.clone(),
        ),
        row("Grounds now", vec![plain(grounds)], ""),
    ];
    if let Some(entry) = find(view.entries, &taken.entry) {
        rows.push(row("Taken", vec![plain(when(view, entry))], by(entry)));
    }
    rows
}

fn told(view: &View<'_>) -> Option<FactRow> {
    let fact = view.job.diagnosis.symptoms.as_ref()?;
    let each = fact.value.iter();
    let each: Vec<&str> = each
        .map(|(symptom, yes)| sign::told(*symptom, *yes))
        .collect();
    let who = find(view.entries, &fact.entry).map_or_else(String::new, by);
    (!each.is_empty()).then(|| row("Heard and seen", vec![plain(each.join("; "))], who))
}

fn checks<'a>(view: &View<'a>) -> impl Iterator<Item = FactRow> + use<'a> {
    let entries = view.entries;
    view.job.diagnosis.checks.iter().map(move |(one, fact)| {
        let (something, note) = &fact.value;
        let what = if *something {
            "something found"
        } else {
            "nothing found"
        };
        let note = match note.as_str() {
            "" => String::new(),
            note => format!(": {note}"),
        };
        row(
            upper(check::words(*one).name),
            vec![plain(format!("{what}{note}"))],
            find(entries, &fact.entry).map_or_else(String::new, by),
        )
    })
}
