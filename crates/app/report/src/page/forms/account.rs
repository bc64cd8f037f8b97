//! What a person tells of a thing to account for, and the words of a reason.

use workshop::assemble::words::capital;
use workshop::audit::{About, Line, Stand};
use workshop::draft::bench::READIES;
use workshop::draft::word;
use workshop::job::Job;
use workshop::plan::{Account, Excuse, Item, ItemKind, Ready, Tool};

use super::{Blank, about, choice_of, line, number};
use crate::page::{Button, Field, Form, FormName, Refused, Weight};

/// How many of a thing are in their place, and why the rest is not.
pub(crate) fn item(item: &Item, told: Option<&Account>, refused: Option<&Refused>) -> Form {
    let label = match item.kind {
        ItemKind::Temporary => "Off again",
        _ => "In place",
    };
    let blank = Blank {
        name: FormName::Item,
        heading: "Count it …",
        intro: "For a thing that is there in part, or left out with more to say.",
        submit: "Keep the count",
        fields: fields((label, item.count), told),
    };
    about(blank, ("item", item.key.to_string()), refused, false)
}

/// How many of a tool are back, and why the rest is not.
pub(crate) fn tool(tool: &Tool, told: Option<&Account>, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Tools,
        heading: "Count it …",
        intro: "A tool that is not back may be in the pump.",
        submit: "Keep the count",
        fields: fields(("Back on the wall", tool.count), told),
    };
    about(blank, ("tool", tool.key.to_string()), refused, false)
}

fn fields((label, of): (&str, u16), told: Option<&Account>) -> Vec<Field> {
    let missing = told.and_then(|told| told.missing.as_ref());
    let ready = missing.map_or("", |excuse| word(&READIES, excuse.ready));
    let words = missing.map_or("", |excuse| excuse.words.as_str());
    let count = told.map_or_else(String::new, |told| told.count.to_string());
    vec![
        number("count", label, &count).hint(&format!("of {of}")),
        choice_of("ready", "Why the rest is not", ready, readies()),
        line("reason", "More about it", words).hint("may come later"),
    ]
}

fn readies() -> Vec<(String, String)> {
    let mut readies = vec![(
        String::new(),
        "nothing is missing, or nobody knows".to_owned(),
    )];
    readies.extend(
        READIES
            .iter()
            .map(|(word, ready)| ((*word).to_owned(), ready.said().to_owned())),
    );
    readies
}

/// The words of a reason: a person's own, or those still to be written.
pub(crate) fn words(job: &Job, asked: &Line, refused: Option<&Refused>) -> Option<Form> {
    let reason = match &asked.stand {
        Stand::Reason(reason) => Some(reason),
        _ => None,
    };
    let excuse = reason
        .map(|reason| &reason.excuse)
        .filter(|excuse| excuse.owed());
    let ready = excuse.map_or(String::new(), |excuse| {
        word(&READIES, excuse.ready).to_owned()
    });
    let count = reason.and_then(|reason| reason.count);
    let count = count.map_or(0, |(count, _)| count).to_string();
    let (name, key, mut values) = match &asked.about {
        About::Item(_, key, _) => {
            let values = vec![("count", count), ("ready", ready)];
            (FormName::Item, ("item", key.to_string()), values)
        }
        About::Tool(_, key) => {
            let values = vec![("count", count), ("ready", ready)];
            (FormName::Tools, ("tool", key.to_string()), values)
        }
        About::Step(key) => {
            let told = job.bench.of(key).deferred?.value;
            let until = told
                .until
                .map_or_else(String::new, |until| until.to_string());
            let values = vec![
                ("ready", ready),
                ("release", told.release),
                ("until", until),
            ];
            (FormName::Defer, ("step", key.to_string()), values)
        }
        _ => return None,
    };
    let open = excuse.is_some();
    let blank = Blank {
        name,
        heading: "Why not, in own words …",
        intro: "It is kept and printed with your name.",
        submit: "Write it",
        fields: vec![line("reason", "The reason", "").hint("ordered on Monday, due Friday")],
    };
    let mut form = about(blank, key, refused, open);
    form.values.append(&mut values);
    Some(form)
}

/// The ready-made reasons of a step that is left off, one tap each.
pub(super) fn quick(step: &str) -> Vec<Button> {
    let reasons = Ready::ALL
        .into_iter()
        .filter(|ready| *ready != Ready::OwnWords);
    let button = |ready: Ready| Button {
        label: capital(ready.said()),
        form: FormName::Defer,
        values: vec![
            ("step", step.to_owned()),
            ("ready", word(&READIES, ready).to_owned()),
        ],
        weight: Weight::Plain,
        key: None,
    };
    reasons.map(button).collect()
}

/// A reason as a person reads it, with what is still to come.
pub(crate) fn said(excuse: &Excuse) -> String {
    let owed = if excuse.owed() {
        ", text still to be written"
    } else {
        ""
    };
    format!("{}{owed}", excuse.said().trim_end_matches('.'))
}
