//! What to do next: one question at a time.

use clearance::Answer;
use workshop::draft::word;
use workshop::gap::{Doubt, Standing};
use workshop::job::{Spot, blade_name};
use workshop::reading::{answer_word, write_spot};
use workshop::refusal::Need;
use workshop::walk::{Progress, Question};

use super::{View, unit};
use crate::page::{Button, Form, FormName, Next, Target, Weight, forms, frame, plain, strong};

pub(super) fn next(view: &View<'_>, progress: &Progress) -> Next {
    match view.judgement {
        Err(Need::Leaves) => return Next::Fill(forms::leaves(view.job, view.refused, true)),
        Err(_) => return Next::Fill(forms::pump(view.job, view.refused, true)),
        Ok(_) => {}
    }
    let pointed = view
        .at
        .filter(|at| progress.next.as_ref().is_none_or(|next| next.spot != *at));
    match (pointed, &progress.next) {
        (Some(at), _) => at_spot(view, at),
        (None, Some(question)) => ask(view, question),
        (None, None) => done(view),
    }
}

/// The walk's question.
fn ask(view: &View<'_>, question: &Question) -> Next {
    let spot = spot_key(view, question.spot);
    let again = if question.again {
        " These readings contradict each other."
    } else {
        ""
    };
    Next::Ask {
        question: vec![
            plain(format!(
                "Blade {} at {}. Does the ",
                blade_name(question.spot.blade),
                view.job.clock(question.spot)
            )),
            strong(question.leaf.worded()),
            plain(format!(" leaf go?{again}")),
        ],
        buttons: [
            (Answer::GoesFree, Weight::Main, 'g'),
            (Answer::Drags, Weight::Plain, 'd'),
            (Answer::WontGo, Weight::Plain, 'w'),
        ]
        .map(|(answer, weight, key)| answer_button(&spot, question, answer, (weight, key)))
        .into_iter()
        .chain(frame::undo(view.job))
        .collect(),
        write: Some(write(view, &spot)),
    }
}

fn answer_button(
    spot: &str,
    question: &Question,
    answer: Answer,
    (weight, key): (Weight, char),
) -> Button {
    let label = match answer {
        Answer::GoesFree => "Goes free",
        Answer::Drags => "Drags",
        Answer::Goes => "Goes",
        Answer::WontGo => "Won’t go",
    };
    let leaf = question.leaf.text.trim().to_owned();
    Button {
        label: label.to_owned(),
        form: FormName::Try,
        values: vec![
            ("spot", spot.to_owned()),
            ("leaf", leaf),
            (
                "unit",
                word(&workshop::draft::LEAF_UNITS, question.leaf.bare).to_owned(),
            ),
            ("answer", answer_word(answer).to_owned()),
        ],
        weight,
        key: Some(key),
    }
}

/// The spot a person pointed at in the grid.
fn at_spot(view: &View<'_>, at: Spot) -> Next {
    let spot = spot_key(view, at);
    Next::Ask {
        question: vec![
            plain(format!(
                "Blade {} at {}. ",
                blade_name(at.blade),
                view.job.clock(at)
            )),
            plain("Write what goes and what won’t; it replaces what stands there."),
        ],
        buttons: frame::undo(view.job),
        write: Some(write(view, &spot)),
    }
}

fn done(view: &View<'_>) -> Next {
    let record = (
        Target::Record(view.id.clone()),
        "Print the measuring record".to_owned(),
    );
    let Ok(judgement) = view.judgement else {
        return Next::Go {
            words: Vec::new(),
            links: vec![record],
        };
    };
    let taken = view
        .job
        .accepted
        .as_ref()
        .filter(|taken| taken.value.evidence == judgement.evidence);
    if taken.is_some() {
        return Next::Ask {
            question: vec![plain(
                "This result is taken. Print the measuring record, or open a spot \
                                  of the grid to measure it anew.",
            )],
            buttons: frame::undo(view.job),
            write: None,
        };
    }
    if judgement.gap.is_none() {
        return Next::Ask {
            question: vec![plain(
                "Every leaf there is has been tried. Add a thicker leaf to the set, \
                                  or two together written as one.",
            )],
            buttons: frame::undo(view.job),
            write: None,
        };
    }
    let question = match judgement.standing {
        Standing::Undecided(Doubt::NoLimits) => {
            "Every spot is read. Take it as it is, without a limit?"
        }
        Standing::Undecided(_) => {
            "Every spot is read and the limit stays open. Take it as undecided?"
        }
        _ => "Every spot is read. Take this result?",
    };
    let take = Button {
        label: "Take it".to_owned(),
        form: FormName::Accept,
        values: vec![("evidence", judgement.evidence.clone())],
        weight: Weight::Main,
        key: Some('t'),
    };
    Next::Ask {
        question: vec![plain(question)],
        buttons: std::iter::once(take).chain(frame::undo(view.job)).collect(),
        write: None,
    }
}

fn write(view: &View<'_>, spot: &str) -> Form {
    forms::reading(unit(view), spot, view.refused)
}

fn spot_key(view: &View<'_>, spot: Spot) -> String {
    let positions = view
        .job
        .pump
        .as_ref()
        .map_or(1, |pump| pump.value.positions);
    write_spot(spot, positions)
}
