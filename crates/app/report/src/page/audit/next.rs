//! One thing at a time: in its place, or why not.

use workshop::assemble::words::capital;
use workshop::audit::{About, Audit, Line, Stand, State};
use workshop::draft::bench::READIES;
use workshop::draft::word;
use workshop::plan::{ItemKind, Ready};

use super::{At, Next, View, answered_here, say};
use crate::page::forms::account as forms;
use crate::page::{Button, Form, FormName, Run, Weight, frame, plain, strong};

/// What the person pointed at, or was refused at; else the first open line that is answered here.
pub(super) fn asked<'a>(view: &View<'_>, account: &'a Audit) -> Option<&'a Line> {
    let typed = |field: &str| {
        let typed = view.refused?.typed.iter().find(|(name, _)| name == field)?;
        Some(typed.1.clone())
    };
    let (item, tool) = match view.at {
        Some(At::Item(key)) => (Some(key.to_string()), None),
        Some(At::Tool(key)) => (None, Some(key.to_string())),
        None => (typed("item"), typed("tool")),
    };
    let pointed = account.lines.iter().find(|line| match &line.about {
        About::Item(_, key, _) => item.as_deref() == Some(key.as_str()),
        About::Tool(_, key) => item.is_none() && tool.as_deref() == Some(key.as_str()),
        _ => false,
    });
    let mut open = account.open().into_iter();
    pointed.or_else(|| open.find(|line| answered_here(line)))
}

pub(super) fn next(view: &View<'_>, account: &Audit, asked: Option<&Line>) -> Next {
    let undo = frame::undo(view.job);
    let Some(line) = asked else {
        return Next::Ask {
            question: vec![plain(rest(view, account))],
            buttons: undo,
            write: None,
        };
    };
    if let (About::Step(_), Some(owed)) = (&line.about, owed(line))
        && let Some(form) = forms::words(view.job, line, view.refused)
    {
        let heading = format!(
            "{}, {}. Write it now?",
            say::name(view.job, line),
            say::reason(line, owed)
        );
        return Next::Fill(Form { heading, ..form });
    }
    let mut buttons = match &line.about {
        About::Item(_, key, kind) => told((FormName::Item, "item"), key.as_str(), *kind, line),
        About::Tool(_, key) => {
            let tools = (FormName::Tools, "tool");
            let mut buttons = told(tools, key.as_str(), ItemKind::Temporary, line);
            buttons.splice(1..1, all_tools(account));
            buttons
        }
        _ => Vec::new(),
    };
    buttons.extend(undo);
    Next::Ask {
        question: question(line, owed(line).is_some()),
        buttons,
        // A letter must not press a button while a text is begun, so words are written on the card.
        write: None,
    }
}

/// The reason of a line whose text is still to be written.
fn owed(line: &Line) -> Option<&workshop::audit::Reason> {
    match &line.stand {
        Stand::Reason(reason) if line.state() == State::Open => Some(reason),
        _ => None,
    }
}

fn question(line: &Line, owed: bool) -> Vec<Run> {
    let of = line.of.unwrap_or(1);
    let (one, many) = match &line.about {
        About::Item(_, _, ItemKind::Temporary) => {
            (", off the craft again?", "all of them off the craft again?")
        }
        About::Tool(..) => (", back on the wall?", "all of them back on the wall?"),
        _ => (", in its place?", "all of them in their place?"),
    };
    let asks = if of == 1 {
        one.to_owned()
    } else {
        format!(", {of} of them: {many}")
    };
    let text = if owed {
        " If not, write the text of the reason above."
    } else {
        ""
    };
    vec![strong(line.name.clone()), plain(asks), plain(text)]
}

/// All of it in its place, or one of the ready-made reasons.
fn told(
    (form, field): (FormName, &'static str),
    key: &str,
    kind: ItemKind,
    line: &Line,
) -> Vec<Button> {
    let of = line.of.unwrap_or(1);
    let label = match (form, kind, of) {
        (FormName::Tools, _, 1) => "Back on the wall".to_owned(),
        (FormName::Tools, _, of) => format!("All {of} back"),
        (_, ItemKind::Temporary, 1) => "Off again".to_owned(),
        (_, ItemKind::Temporary, of) => format!("All {of} off"),
        (_, _, 1) => "In place".to_owned(),
        (_, _, of) => format!("All {of} in place"),
    };
    let mut buttons = vec![Button {
        label,
        form,
        values: vec![(field, key.to_owned()), ("count", of.to_string())],
        weight: Weight::Main,
        key: Some('a'),
    }];
    let there = match &line.stand {
        Stand::Reason(reason) => reason.count.map_or(0, |(count, _)| count),
        _ => 0,
    };
    let reasons = Ready::ALL.into_iter().zip('1'..);
    let reasons = reasons.filter(|(ready, _)| *ready != Ready::OwnWords);
    buttons.extend(reasons.map(|(ready, digit)| Button {
        label: capital(ready.said()),
        form,
        values: vec![
            (field, key.to_owned()),
            ("count", there.to_string()),
            ("ready", word(&READIES, ready).to_owned()),
        ],
        weight: Weight::Plain,
        key: Some(digit),
    }));
    buttons
}

/// Every tool that is open, in one tap.
fn all_tools(account: &Audit) -> Option<Button> {
    let open = account.lines.iter().filter_map(|line| match &line.about {
        About::Tool(_, key) if line.state() == State::Open => Some((key, line.of.unwrap_or(1))),
        _ => None,
    });
    let open: Vec<_> = open.collect();
    let values = open
        .iter()
        .flat_map(|(key, of)| [("tool", key.to_string()), ("count", of.to_string())]);
    (open.len() > 1).then(|| Button {
        label: format!("All {} kinds back", open.len()),
        form: FormName::Tools,
        values: values.collect(),
        weight: Weight::Plain,
        key: Some('w'),
    })
}

/// Nothing is left to ask here.
fn rest(view: &View<'_>, account: &Audit) -> String {
    let open = account.open();
    match open.first() {
        None if account.lines.is_empty() => {
            "Lay a plan, and name in it what must be in its place in the end.".to_owned()
        }
        None if account.closed() => "Nothing is left to ask.".to_owned(),
        None => "Nothing is left to ask. What is left out holds up what it says.".to_owned(),
        Some(line) => format!(
            "Nothing is left to ask here. {}: {}. Point at it to go where it is done.",
            say::name(view.job, line),
            say::state(line, view.now).trim_start_matches("○ ")
        ),
    }
}
