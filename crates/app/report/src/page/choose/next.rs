//! What to do next in choosing, and what else may be said.

use workshop::choose::answer::{Advice, Learnt};

use super::{View, option};
use crate::page::forms::choose as forms;
use crate::page::{Form, Next, Section, Target, Weight, frame, plain};

pub(super) fn next(view: &View<'_>) -> Next {
    let undo = frame::undo(view.job);
    let fill = |form: Form| {
        Next::Fill(Form {
            quick: undo.clone(),
            ..form
        })
    };
    match &view.says.advice {
        Advice::NoCraft => fill(forms::craft(view.job, view.refused, true)),
        Advice::NoOptions => fill(forms::option(None, view.job, view.refused, true)),
        Advice::Fit { option: key, .. } => {
            let taken = view.job.choices.taken.as_ref();
            let taken = taken.is_some_and(|taken| {
                taken.value.option == *key && taken.value.evidence == view.says.evidence
            });
            let says = view.says.options.iter().find(|option| option.key == *key);
            let take = says.filter(|_| !taken).map(|says| {
                let mut button = option::take(view, says);
                button.weight = Weight::Main;
                button.key = Some('t');
                button
            });
            let question = if taken {
                "This option is on record as fitted. Prove it under Water test."
            } else {
                "When it is fitted, put it on record; what was told goes with it."
            };
            Next::Ask {
                question: vec![plain(question)],
                buttons: take.into_iter().chain(undo).collect(),
                write: None,
            }
        }
        _ => Next::Go {
            words: vec![plain(match view.says.learnt {
                Learnt::Nothing => {
                    "A run of this craft narrows every band: one double run at full throttle with \
                     the engine’s speed, and a logged start."
                }
                _ => {
                    "More runs, or what would help most to choose, are put on record under Water test."
                }
            })],
            links: vec![(Target::Water(view.id.clone()), "Water test".to_owned())],
        },
    }
}

/// What else may be said: another option, the wish, steady readings.
pub(super) fn forms(view: &View<'_>) -> Vec<Section> {
    if matches!(view.says.advice, Advice::NoCraft) {
        return Vec::new();
    }
    let mut sections = Vec::new();
    if !matches!(view.says.advice, Advice::NoOptions) {
        sections.push(Section::Form(forms::option(
            None,
            view.job,
            view.refused,
            false,
        )));
    }
    sections.push(Section::Form(forms::wish(view.job, view.refused, false)));
    sections.push(Section::Form(forms::steadies(
        view.job,
        view.refused,
        false,
    )));
    sections
}
