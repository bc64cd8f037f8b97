//! The option taken, on the build sheet: what was told when it was.

use workshop::choose::evidence;

use super::{View, by, find, when};
use crate::page::{Section, plain, row};

/// Nothing while none was taken.
pub(super) fn choose(view: &View<'_>) -> Option<Section> {
    let taken = view.job.choices.taken.as_ref()?;
    let entry = find(view.entries, &taken.entry)?;
    let option = view.job.choices.options.get(&taken.value.option);
    let name = option.map_or(taken.value.option.as_str(), |state| {
        state.fitting.value.name.as_str()
    });
    let same = taken.value.evidence == evidence(view.job);
    let grounds = if same {
        "the same"
    } else {
        "other ones: look at Choose again"
    };
    Some(Section::Facts {
        heading: "Chosen".to_owned(),
        rows: vec![
            row("Fitted", vec![plain(name)], ""),
            row(
                "Told then",
                vec![plain(taken.value.words.clone())],
                taken.value.program.clone(),
            ),
            row("Grounds now", vec![plain(grounds)], ""),
            row("Taken", vec![plain(when(view, entry))], by(entry)),
        ],
    })
}
