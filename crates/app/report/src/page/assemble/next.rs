//! What to do next: one step at a time, one tap each.

use workshop::assemble::{State, words};
use workshop::plan::{Step, seconds};

use super::{Next, Sight, Target, View};
use crate::page::{Button, FormName, Run, Section, Weight, forms, frame, plain, soft, strong};

pub(super) fn no_plan(view: &View<'_>) -> Next {
    Next::Fill(forms::usual::usual(view.refused, true))
}

/// The other ways to a plan.
pub(super) fn other_ways(view: &View<'_>) -> Section {
    Section::Ways {
        heading: "Or otherwise".to_owned(),
        links: vec![(
            Target::Plan(view.id.clone()),
            "Lay a plan of your own".to_owned(),
            "step by step; or begin the job from the card of the same pump".to_owned(),
        )],
    }
}

pub(super) fn next(sight: &Sight<'_>) -> Next {
    let undo = frame::undo(sight.view.job);
    let Some(place) = sight.asked else {
        return Next::Ask {
            question: vec![plain(nothing(sight))],
            buttons: undo,
            write: None,
        };
    };
    let (step, standing) = (&sight.plan.steps[place], &sight.assembly.steps[place]);
    let (mut question, mut buttons) = ask(sight, step, &standing.state);
    if let Some(of) = step.fasteners.filter(|_| standing.loose.is_some())
        && matches!(standing.state, State::Running { .. } | State::Done { .. })
    {
        let all = [("count", of.to_string()), ("temporary", "0".to_owned())];
        let mut all_in = button(step, &format!("All {of} in"), (FormName::Fasteners, 'a'));
        all_in.values.extend(all);
        buttons.push(all_in);
    }
    let ahead = matches!(standing.state, State::Ready | State::Running { .. });
    if ahead && !step.caution.is_empty() {
        question.push(strong(format!(" Caution: {}", step.caution)));
    }
    if let Some(first) = buttons.first_mut() {
        first.weight = Weight::Main;
    }
    Next::Ask {
        question,
        buttons: buttons.into_iter().chain(undo).collect(),
        write: None,
    }
}

/// Every step is done or waits.
fn nothing(sight: &Sight<'_>) -> String {
    let (view, assembly) = (sight.view, sight.assembly);
    let until = assembly.steps.iter().filter_map(|step| match &step.state {
        State::Waits(_) if step.earliest > assembly.now => Some(step.earliest),
        _ => None,
    });
    match until.min() {
        _ if assembly.done() == assembly.steps.len() => "Every step is done.".to_owned(),
        Some(at) => format!(
            "Nothing to do before {}. Point at a step to say something of it.",
            words::when(at, view.now)
        ),
        None => "Every step that is left waits. Point at one to see why.".to_owned(),
    }
}

fn ask(sight: &Sight<'_>, step: &Step, state: &State) -> (Vec<Run>, Vec<Button>) {
    let now = sight.view.now;
    let name = strong(step.name.clone());
    let takes = words::span(seconds(&step.takes));
    let begin = |label| button(step, label, (FormName::Begin, 'b'));
    let done = || button(step, "Done", (FormName::Done, 'd'));
    let before = || {
        let label = "Done before, not witnessed";
        button(step, label, (FormName::Before, 'n'))
    };
    match state {
        State::Running { since, .. } => (
            vec![
                name,
                plain(format!(
                    ", begun at {}. Is it done?",
                    words::when(*since, now)
                )),
            ],
            vec![done()],
        ),
        State::Ready => (
            vec![name, plain(format!(", {takes}. Begin?"))],
            vec![begin("Begin"), done(), before()],
        ),
        State::Waits(waits) => {
            let why = waits.iter().map(|wait| words::wait(sight.plan, wait, now));
            let why = why.collect::<Vec<_>>().join("; ");
            (vec![name, plain(format!(" waits: {why}."))], vec![before()])
        }
        State::Deferred => (
            vec![name, plain(" is left off. Begin it now?")],
            vec![begin("Begin"), before()],
        ),
        State::Done { at, witnessed } => {
            let how = if *witnessed {
                format!(" was done at {}.", words::when(*at, now))
            } else {
                " was done before, and nobody saw it.".to_owned()
            };
            let again = soft(" Begin it again only when it must be done anew.");
            (vec![name, plain(how), again], vec![begin("Begin again")])
        }
    }
}

fn button(step: &Step, label: &str, (form, key): (FormName, char)) -> Button {
    Button {
        label: label.to_owned(),
        form,
        values: vec![("step", step.key.to_string())],
        weight: Weight::Plain,
        key: Some(key),
    }
}
