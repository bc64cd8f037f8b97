//! What to do next on the water, and where else one may go on.

use quantity::Unit;
use workshop::decide::may_float;
use workshop::entry::Key;
use workshop::water::{OutingState, Side, Trials};

use super::super::forms::water as forms;
use super::super::{
    Button, Form, FormName, Next, Run, Section, Target, Weight, frame, plain, strong,
};
use super::{View, unit};

/// The next step.
pub(super) fn next(view: &View<'_>) -> Next {
    let trials = &view.job.trials;
    let undo = frame::undo(view.job);
    let fill = |form: Form| {
        Next::Fill(Form {
            quick: undo.clone(),
            ..form
        })
    };
    if let Some((key, _)) = bare(trials) {
        return fill(forms::log(key, view.refused, true));
    }
    if begins(view) {
        let before = (Side::Before, unit(trials));
        return fill(forms::outing(None, before, view.refused, true));
    }
    if let Some(take) = take(view) {
        return Next::Ask {
            question: vec![plain("Take this as the result of the water test?")],
            buttons: std::iter::once(take).chain(undo).collect(),
            write: None,
        };
    }
    Next::Ask {
        question: words(view),
        buttons: undo,
        write: None,
    }
}

/// An outing that says nothing yet, the latest of them.
pub(super) fn bare(trials: &Trials) -> Option<(&Key, &OutingState)> {
    trials
        .in_order(None)
        .into_iter()
        .rev()
        .find(|(key, state)| {
            trials.logs_of(key).is_empty()
                && state.figures.as_ref().is_none_or(|f| f.value.is_empty())
        })
}

/// Nothing is described, and no plan says what comes before.
fn begins(view: &View<'_>) -> bool {
    view.job.trials.outings.is_empty() && view.job.bench.plan().is_none()
}

/// The result, where there is one that is not taken as it is now.
fn take(view: &View<'_>) -> Option<Button> {
    let taken = view.job.trials.taken.as_ref();
    let evidence = &view.says.evidence;
    if view.says.after.speed.is_none() || taken.is_some_and(|t| t.value.evidence == *evidence) {
        return None;
    }
    Some(Button {
        label: "Take it".to_owned(),
        form: FormName::TakeTrial,
        values: vec![("evidence", evidence.clone())],
        weight: Weight::Main,
        key: Some('t'),
    })
}

fn words(view: &View<'_>) -> Vec<Run> {
    let before = view.job.trials.in_order(Some(Side::Before));
    if view.says.after.speed.is_some() {
        return vec![plain(
            "This result is taken. More runs may narrow it: describe another time on the water.",
        )];
    }
    match may_float(view.job, view.now) {
        Err(refusal) if before.is_empty() => vec![
            strong(refusal.to_string()),
            plain(" Runs from before, if there are any, can be put on record now."),
        ],
        Err(refusal) => vec![strong(refusal.to_string())],
        Ok(()) => vec![plain(
            "Print the test card and run by it. Then describe that time on the water here.",
        )],
    }
}

/// The card to print, and another outing.
pub(super) fn other(view: &View<'_>, unit: Unit) -> Vec<Section> {
    let side = if view.job.trials.in_order(Some(Side::Before)).is_empty() {
        Side::Before
    } else {
        Side::After
    };
    let mut sections = vec![Section::Ways {
        heading: "On paper".to_owned(),
        links: vec![(
            Target::TestCard(view.id.clone()),
            "The test card".to_owned(),
            "what to run, in what order, with lines for pencil".to_owned(),
        )],
    }];
    if !begins(view) {
        sections.push(Section::Form(forms::outing(
            None,
            (side, unit),
            view.refused,
            false,
        )));
    }
    sections
}
