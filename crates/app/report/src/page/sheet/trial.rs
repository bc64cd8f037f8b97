//! The water test on the build sheet: what was told when it was taken, and what would be told now.

use workshop::water::answer::answer;

use super::{View, by, find, when};
use crate::page::{Section, plain, row, water};

/// Nothing while nothing was run.
pub(super) fn trial(view: &View<'_>) -> Option<Section> {
    if view.job.trials.is_empty() {
        return None;
    }
    let now = water::headline(view.job, &answer(view.job));
    let taken = view.job.trials.taken.as_ref();
    let entry = taken.and_then(|fact| find(view.entries, &fact.entry));
    let rows = match (taken, entry) {
        (Some(fact), Some(entry)) => {
            let same = fact.value.words == now;
            vec![
                row(
                    "Told then",
                    vec![plain(fact.value.words.clone())],
                    fact.value.program.clone(),
                ),
                row(
                    "Would be told now",
                    vec![plain(if same { "the same".to_owned() } else { now })],
                    workshop::PROGRAM,
                ),
                row("Taken", vec![plain(when(view, entry))], by(entry)),
            ]
        }
        _ => vec![row("Not taken; now", vec![plain(now)], workshop::PROGRAM)],
    };
    Some(Section::Facts {
        heading: "Water test".to_owned(),
        rows,
    })
}
