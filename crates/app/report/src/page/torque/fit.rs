//! Joints that are no circle of screws, on the page: a card each, what comes next, the form a kind.

use joint::shaft::{End, Rotation};
use quantity::{Unit, format};
use workshop::entry::Key;
use workshop::fits::card::impeller::{sense, standing};
use workshop::fits::{Check, FitCard, FitKind, FitShown, FitState, Kind, Part, card};
use workshop::job::Job;
use workshop::photos::Subject;
use workshop::sourced::Origin;

use super::View;
use crate::drawing::{lips, shaft};
use crate::page::{
    Answer, Button, Card, FactRow, FormName, Next, Section, Tone, Weight, forms, frame, photos,
    plain, row, soft, strong,
};
use crate::words;

/// What the page answers once every circle of screws is done, where something else is not.
pub(super) fn answer(job: &Job) -> Option<Answer> {
    let (_, state) = job.next_fit()?;
    let done = job.fits_done();
    let screws = job.joints.len();
    let card = card(job, state);
    let name = &state.fit.value.name;
    let (tone, headline, detail) = match &card.stop {
        Some(stop) => (
            Tone::Stop,
            format!("Do not tighten {name} yet."),
            vec![plain(stop.to_string())],
        ),
        None => (
            Tone::Open,
            format!(
                "{} of {} done.",
                screws + done,
                words::count(screws + job.fits.len(), "joint", "joints")
            ),
            instruction(state, &card),
        ),
    };
    Some(Answer {
        tone,
        headline,
        detail,
        origin: "Each line of a card says where it comes from".to_owned(),
    })
}

/// What to do at it, in a breath.
fn instruction(state: &FitState, card: &FitCard) -> Vec<crate::page::Run> {
    let mut runs = vec![
        plain("Next is "),
        strong(state.fit.value.name.clone()),
        plain(format!(": {}.", state_words(state))),
    ];
    if let Some(turning) = &card.turning {
        let torque = state.fit.value.torque();
        let torque = torque.map_or_else(String::new, |torque| format!(" to {}", torque.worded()));
        runs.push(plain(" Tighten "));
        runs.push(strong(format!("{}{torque}", sense(turning.tighten))));
        runs.push(plain(format!(", seen {}.", standing(turning.seen_from))));
    }
    runs
}

/// The first that is not done: a button for each tick that is open, in the order it is done.
pub(super) fn next(view: &View<'_>) -> Option<Next> {
    let (key, state) = view.job.next_fit()?;
    let fit = &state.fit.value;
    let stop = card(view.job, state).stop;
    let open = state.open().into_iter();
    let open: Vec<Check> = open
        .filter(|check| stop.is_none() || *check != Check::Tightened)
        .collect();
    // The rest waits on the card: a phone's foot holds two.
    let ticks = open
        .iter()
        .enumerate()
        .take(2)
        .map(|(place, check)| Button {
            label: forms::fit::label(&fit.kind, *check).to_owned(),
            form: FormName::FitCheck,
            values: forms::fit::with_tick(key, state, *check),
            weight: if place == 0 {
                Weight::Main
            } else {
                Weight::Plain
            },
            key: (place == 0).then_some('a'),
        });
    let unread = fit.limit().is_some() && !state.reading_holds();
    let question = match (open.is_empty(), &stop) {
        (true, Some(stop)) => format!(". {stop}"),
        (true, None) if unread => ". Measure it, and write what you read.".to_owned(),
        _ => ". Tick each as it is done, in this order.".to_owned(),
    };
    Some(Next::Ask {
        question: vec![strong(fit.name.clone()), plain(question)],
        buttons: ticks.chain(frame::undo(view.job)).collect(),
        write: unread.then(|| forms::fit::reading(key, state, view.refused)),
    })
}

/// The cards, the picture of the one that comes next, and a form for each kind.
pub(super) fn evidence(view: &View<'_>) -> Vec<Section> {
    let job = view.job;
    let mut sections = Vec::new();
    for (key, state) in job.fits_in_order() {
        sections.extend(picture(job, state));
        sections.push(Section::Card(one(view, key, state)));
        let subject = Subject::Fit(key.clone());
        sections.push(photos::strip((view.id, job), &subject, view.refused));
    }
    sections.push(Section::Notes {
        heading: "Joints that are no circle of screws".to_owned(),
        notes: vec![
            "Choose the kind; only what changes its card is asked. The card then says what to \
             clean, what goes on, what to do in order, what proves it, and what can hurt."
                .to_owned(),
        ],
    });
    for kind in Kind::ALL {
        let form = forms::fit::new(kind, view.refused);
        sections.push(Section::Form(form));
    }
    sections
}

/// A picture of what is got wrong most, for as long as it is not done.
fn picture(job: &Job, state: &FitState) -> Option<Section> {
    if job.fit_done(state) {
        return None;
    }
    let fit = &state.fit.value;
    let drawing = match &fit.kind {
        FitKind::Impeller(_) => shaft(card(job, state).turning?),
        FitKind::Lips(all) => lips(all),
        _ => return None,
    };
    Some(Section::Picture {
        heading: fit.name.clone(),
        svg: drawing.svg,
        caption: drawing.caption,
    })
}

fn one(view: &View<'_>, key: &Key, state: &FitState) -> Card {
    let job = view.job;
    let card = card(job, state);
    let done = job.fit_done(state);
    let fit = &state.fit.value;
    let forms = vec![
        forms::fit::check(key, state, view.refused),
        forms::fit::known(key, fit, view.refused),
    ];
    let mut notes: Vec<String> = card.stop.iter().map(ToString::to_string).collect();
    if let (Some(reading), false) = (state.reading(), state.reading_holds()) {
        notes.push(format!(
            "{} is outside what it must keep to. Find out why before it is closed.",
            reading.worded()
        ));
    }
    notes.extend(card.mind.iter().cloned());
    if !done {
        notes.push(format!("Caution: {}", card.caution()));
    }
    Card {
        heading: fit.name.clone(),
        tone: match (done, &card.stop) {
            (true, _) => Tone::Good,
            (false, Some(_)) => Tone::Stop,
            (false, None) => Tone::Plain,
        },
        state: state_words(state),
        rows: rows(&card, state, done),
        notes,
        forms,
    }
}

fn rows(card: &FitCard, state: &FitState, done: bool) -> Vec<FactRow> {
    let lines = card.lines.iter();
    // While it is open its caution stands above its values.
    let lines = lines.filter(|line| done || line.part != Part::Caution);
    let mut named = None;
    let mut rows: Vec<FactRow> = lines
        .map(|line| {
            let again = named.replace(line.part) == Some(line.part);
            let name = if again { "" } else { part(line.part) };
            row(
                name.to_owned(),
                vec![plain(line.words.clone())],
                origin(&line.origin),
            )
        })
        .collect();
    if let Some(reading) = state.reading() {
        rows.push(row(
            "Read".to_owned(),
            vec![strong(reading.worded()), soft(within(state))],
            "measured by you".to_owned(),
        ));
    }
    rows
}

fn within(state: &FitState) -> String {
    let holds = if state.reading_holds() { "in" } else { "out" };
    format!(" ({holds})")
}

fn part(part: Part) -> &'static str {
    match part {
        Part::Clean => "Clean",
        Part::PutOn => "Put on, how much",
        Part::Do => "Do, in order",
        Part::Prove => "Prove",
        Part::Caution => "Caution",
    }
}

/// Where a line comes from, in words.
fn origin(origin: &Origin) -> String {
    match origin {
        Origin::Measured(_) => "as you described it".to_owned(),
        Origin::Manual { page, .. } => words::manual(page),
        Origin::Standard(key) => source(key).to_owned(),
        Origin::Computed { formula, .. } => format!("computed: {formula}"),
        Origin::Practice => "common practice, no source".to_owned(),
        Origin::Assumed(why) => (*why).to_owned(),
    }
}

/// What stands behind a key of the bibliography.
fn source(key: &str) -> &str {
    match key {
        "bearing-pressing" => "two makers of bearings on mounting them",
        "lip-direction" => "a maker of seals on which way the lip faces",
        "lip-purge" => "Plant Engineering, 1999, on which way lips face",
        "oring-glands" => "tables of O-ring glands for static seals",
        other => other,
    }
}

/// `3 of 5 ticked; not measured yet`
pub(crate) fn state_words(state: &FitState) -> String {
    let all = state.fit.value.kind.checks().len();
    let open = state.open().len();
    let mut words = if open == 0 {
        format!("all {all} ticked")
    } else {
        format!("{} of {all} ticked", all - open)
    };
    if state.fit.value.limit().is_some() {
        words.push_str(match state.reading() {
            None => "; not measured yet",
            Some(_) if state.reading_holds() => "; measured, in",
            Some(_) => "; measured, out",
        });
    }
    words
}

/// What keeps it open, on the build sheet.
pub(crate) fn open_words(job: &Job, state: &FitState) -> Option<String> {
    if job.fit_done(state) {
        return None;
    }
    let name = &state.fit.value.name;
    let tightened = state.ticks().contains(&Check::Tightened);
    Some(match card(job, state).stop {
        Some(stop) if tightened => format!("{name}: tightened, and that does not hold now. {stop}"),
        Some(stop) => format!("{name}: {stop}"),
        None => format!("{name}: {}.", state_words(state)),
    })
}

/// What was told when it was ticked: `105.0 N·m; tighten clockwise, seen from behind, …`.
pub(crate) fn told(shown: &FitShown) -> String {
    let mm = |metres| format(metres, Unit::Millimetre, 2);
    let turn =
        |(turn, end): (Rotation, End)| format!("tighten {}, seen {}", sense(turn), standing(end));
    let least = shown.play_least.map(|least| {
        if least > 0.0 {
            format!("play at least {}", mm(least))
        } else {
            "some play".to_owned()
        }
    });
    let told: Vec<String> = [
        shown
            .torque
            .map(|torque| format(torque, Unit::NewtonMetre, 1)),
        shown.tighten.map(turn),
        least,
        shown
            .play_greatest
            .map(|most| format!("at most {}", mm(most))),
        shown
            .resistance
            .map(|most| format!("at most {}", format(most, Unit::Ohm, 1))),
    ]
    .into_iter()
    .flatten()
    .collect();
    if told.is_empty() {
        "its card".to_owned()
    } else {
        told.join("; ")
    }
}
