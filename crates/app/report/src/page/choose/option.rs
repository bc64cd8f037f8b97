//! One option: what it does, why, what to mind.

use quantity::Unit;
use workshop::choose::answer::{Advice, Does, Launch, OptionSays, Untold};

use super::{View, name, say, unit};
use crate::page::forms::choose as forms;
use crate::page::water::say as water;
use crate::page::{Button, Card, FactRow, Form, FormName, Tone, Weight, plain, row, soft, strong};

/// A chance worth a warning, and one that speaks against it.
const WARN: f64 = 0.2;
const AGAINST: f64 = 0.5;

/// How often the engine is out of its range.
enum Warns {
    Not,
    Sometimes,
    Often,
}

pub(super) fn card(view: &View<'_>, place: usize, says: &OptionSays) -> Card {
    let letter = letter(place);
    let (tone, state, rows, mut notes) = match &says.does {
        Ok(does) => told(view, says, does),
        Err(untold) => (
            Tone::Open,
            "cannot say".to_owned(),
            Vec::new(),
            vec![why(untold)],
        ),
    };
    let fitting = view.job.choices.options.get(&says.key);
    let note = fitting.map(|state| state.fitting.value.note.clone());
    notes.extend(note.filter(|note| !note.is_empty()));
    Card {
        heading: format!("{letter} · {}", name(view.job, says)),
        tone,
        state,
        rows,
        notes,
        forms: added(view, says),
    }
}

/// The letter it has in the pictures.
pub(super) fn letter(place: usize) -> String {
    let place = u8::try_from(place).unwrap_or(25).min(25);
    char::from(b'A' + place).to_string()
}

fn told(
    view: &View<'_>,
    says: &OptionSays,
    does: &Does,
) -> (Tone, String, Vec<FactRow>, Vec<String>) {
    let mut rows = changes(view, does, "80 % band, against what is fitted");
    rows.extend(does.launch.as_ref().map(off_the_line));
    if let Some(turns) = &does.turns {
        rows.push(row(
            "It will turn",
            vec![plain(say::level(turns, Unit::Rpm))],
            "",
        ));
    }
    let reasons = does.reasons.iter().map(|reason| {
        let words = say::cause(reason.cause, reason.gives > 0.0);
        format!("{words} ({})", say::power(reason.gives))
    });
    let reasons: Vec<String> = reasons.collect();
    if !reasons.is_empty() {
        rows.push(row(
            "Mainly because",
            vec![plain(reasons.join("; "))],
            "power that pushes the craft, gained or lost",
        ));
    }
    let (warns, notes) = warnings(does);
    let advised = match &view.says.advice {
        Advice::Fit { option, .. } => *option == says.key,
        _ => false,
    };
    let tone = match warns {
        Warns::Often => Tone::Stop,
        Warns::Sometimes => Tone::Open,
        Warns::Not => Tone::Plain,
    };
    let chance = say::chance(does.best);
    let state = if advised {
        format!("fit this one: the best with a chance of {chance}")
    } else {
        format!("the best with a chance of {chance}")
    };
    (tone, state, rows, notes)
}

/// What changes: engine, top speed, time from rest.
pub(super) fn changes(view: &View<'_>, does: &Does, origin: &str) -> Vec<FactRow> {
    let unit = unit(view.job);
    let start = format!("Rest to {}", water::chosen(view.says.to, unit));
    let time = match &does.time {
        Some(time) => strong(say::change(time, Unit::Second)),
        None => soft("cannot say without a logged start"),
    };
    vec![
        row(
            "Engine, full throttle",
            vec![strong(say::change(&does.engine, Unit::Rpm))],
            origin,
        ),
        row(
            "Top speed",
            vec![strong(say::change(&does.speed, unit))],
            "",
        ),
        row(start, vec![time], ""),
    ]
}

/// How the engine leaves the line.
fn off_the_line(launch: &Launch) -> FactRow {
    let flares = format!(
        "flares up to its limiter with a chance of {}, as it is {}",
        say::chance(launch.flares),
        say::chance(launch.flared)
    );
    row(
        "Engine off the line",
        vec![
            plain(say::change(&launch.engine, Unit::Rpm)),
            soft(format!("; {flares}")),
        ],
        "at 3 m/s, without the lag of what turns",
    )
}

/// What to mind of it.
pub(super) fn warned(does: &Does) -> Vec<String> {
    warnings(does).1
}

/// Whether it must not be fitted without thought, and what to say of it.
fn warnings(does: &Does) -> (Warns, Vec<String>) {
    let mut notes = Vec::new();
    if let Some(over) = does.over.filter(|over| *over > WARN) {
        notes.push(format!(
            "Over-revs: in {} the engine turns faster than the manual wants, or sits on its limiter.",
            say::chance(over)
        ));
    }
    if let Some(lugs) = does.lugs.filter(|lugs| *lugs > WARN) {
        notes.push(format!(
            "Lugs: in {} the engine is held below what the manual wants.",
            say::chance(lugs)
        ));
    }
    let worst = does.over.into_iter().chain(does.lugs).fold(0.0, f64::max);
    let warns = match worst {
        worst if worst > AGAINST => Warns::Often,
        worst if worst > WARN => Warns::Sometimes,
        _ => Warns::Not,
    };
    (warns, notes)
}

pub(super) fn why(untold: &Untold) -> String {
    match untold {
        Untold::OtherMaker => {
            "Stamped angles are the maker’s own: radius and way of measuring differ, so stamps of \
             two makers, or a stamp and a protractor, are not held against each other. Measure both \
             impellers the same way, at a stated radius."
                .to_owned()
        }
        Untold::Refused(error) => format!("It can’t be reckoned with: {}", say::error(error)),
        Untold::TooFew(many) => format!(
            "Only {many} beliefs find a craft that gets going with it: engine and pump may \
             not meet, or it may not get over its hump."
        ),
    }
}

fn added(view: &View<'_>, says: &OptionSays) -> Vec<Form> {
    let state = view.job.choices.options.get(&says.key);
    let mut added: Vec<Form> = state
        .map(|state| forms::option(Some((&says.key, state)), view.job, view.refused, false))
        .into_iter()
        .collect();
    if let Some(form) = added.first_mut() {
        form.quick = vec![Button {
            label: "Put it away".to_owned(),
            form: FormName::OptionOff,
            values: vec![("option", says.key.to_string())],
            weight: Weight::Quiet,
            key: None,
        }];
        if says.does.is_ok() {
            form.quick.insert(0, take(view, says));
        }
    }
    added
}

/// Puts on record that this one is fitted, with what was told.
pub(super) fn take(view: &View<'_>, says: &OptionSays) -> Button {
    Button {
        label: "This one is fitted".to_owned(),
        form: FormName::TakeOption,
        values: vec![
            ("option", says.key.to_string()),
            ("evidence", view.says.evidence.clone()),
        ],
        weight: Weight::Plain,
        key: None,
    }
}
