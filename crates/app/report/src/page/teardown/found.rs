//! The as-found record: it leads the page until it is whole, or something has been taken apart.

use workshop::assemble::words::capital;
use workshop::draft::InspectionDraft;
use workshop::draft::inspect::words::SORTS;
use workshop::draft::word;
use workshop::entry::{EntryId, JobId, Key};
use workshop::inspect::Inspection;
use workshop::inspect::found::{self, AsFound, Record, Seen, Sort, record};
use workshop::job::{Fact, Job};
use workshop::photos::Subject;

use crate::page::forms::found as forms;
use crate::page::{
    Answer, Button, Card, FactRow, Field, FieldKind, Form, FormName, Next, Refused, Section, Tone,
    Weight, frame, photos, plain, row, soft, strong,
};
use crate::words as said;

/// What leads the page while the record can still be made; none once something is open.
pub(super) fn answer(job: &Job) -> Option<Answer> {
    let record = record(job);
    if record.opened || (record.missing.is_empty() && looked(job)) {
        return None;
    }
    let all = Sort::ASKED.len();
    let (tone, headline, detail) = if record.missing.is_empty() {
        (
            Tone::Good,
            "The as-found record is complete: it may be taken apart.".to_owned(),
            "What was found is shown again where it is needed: on the cards of Torque and seal, \
             beside the steps of Assemble, on the build sheet."
                .to_owned(),
        )
    } else {
        (
            Tone::Open,
            format!(
                "Nothing is taken apart yet, and {} of {all} things as found are on record.",
                record.had.len()
            ),
            format!(
                "Missing before anything turns: {}. What this craft does not have takes one tap.",
                missing(&record)
            ),
        )
    };
    Some(Answer {
        tone,
        headline,
        detail: vec![plain(detail)],
        origin: "As you noted it · what to record: common practice, no source".to_owned(),
    })
}

/// Something outside was looked at already: the record is behind.
fn looked(job: &Job) -> bool {
    !job.inspected.findings.is_empty()
}

/// What is missing, in a line.
pub(crate) fn missing(record: &Record) -> String {
    let names: Vec<String> = record
        .missing
        .iter()
        .map(|s| short(*s).to_owned())
        .collect();
    said::list(&names, names.len())
}

fn short(sort: Sort) -> &'static str {
    match sort {
        Sort::Gap => "the gap",
        Sort::Witness => "witness marks",
        Sort::Shims => "shims by stud",
        Sort::Hose => "which hose goes where",
        Sort::Cable => "threads showing at the cables",
        Sort::Ring => "how the ring stands",
        Sort::Other => "something else",
    }
}

/// One thing at a time, while nothing is taken apart.
pub(super) fn next(job: &Job, refused: Option<&Refused>) -> Option<Next> {
    let record = record(job);
    let sort = *record.missing.first().filter(|_| !record.opened)?;
    let (before, what, after) = question(sort);
    let button = |label: &str, values: &[(&'static str, &str)], weight, key| Button {
        label: label.to_owned(),
        form: FormName::AsFound,
        values: [("found", ""), ("sort", word(&SORTS, sort))]
            .iter()
            .chain(values)
            .map(|(name, value)| (*name, (*value).to_owned()))
            .collect(),
        weight,
        key: Some(key),
    };
    let mut buttons = Vec::new();
    if sort == Sort::Witness {
        let all = [("at", "all flanges"), ("marks", "in-line")];
        buttons.push(button("All in line", &all, Weight::Main, 'a'));
    }
    let none = if buttons.is_empty() {
        Weight::Main
    } else {
        Weight::Plain
    };
    if !matches!(sort, Sort::Gap) {
        buttons.push(button(
            "None on this craft",
            &[("state", "none")],
            none,
            'o',
        ));
    }
    let apart = [("state", "apart")];
    buttons.push(button("Was apart before", &apart, Weight::Plain, 'p'));
    buttons.extend(frame::undo(job));
    Some(Next::Ask {
        question: vec![plain(before), strong(what), plain(after)],
        buttons,
        write: write(job, sort, refused),
    })
}

fn question(sort: Sort) -> (&'static str, &'static str, &'static str) {
    match sort {
        Sort::Gap => (
            "Before anything turns: ",
            "the gap",
            ", roughly. Which leaves go, 13-18?",
        ),
        Sort::Witness => (
            "Look at the ",
            "witness marks",
            " across each flange, or draw them now. In line? What has moved goes into the sheet above.",
        ),
        Sort::Shims => (
            "Shims at the ",
            "mounts",
            ": stud by stud, into the sheet above.",
        ),
        Sort::Hose => (
            "Label each ",
            "hose",
            " and say where it goes, in the sheet above.",
        ),
        Sort::Cable => (
            "The ",
            "steering cable",
            ": how many threads show beyond the nut? Others go into the sheet above.",
        ),
        Sort::Ring => (
            "The ",
            "wear ring",
            ": where does its mark or split stand, by the clock?",
        ),
        Sort::Other => ("", "", ""),
    }
}

/// What can be written in one field, beside the buttons. It begins with a digit: a letter typed
/// into the empty field presses a button.
fn write(job: &Job, sort: Sort, refused: Option<&Refused>) -> Option<Form> {
    let (key, label, hint, at) = match sort {
        Sort::Gap => ("gap", "Gap as found", "13-18", ""),
        Sort::Cable => ("threads", "Threads showing", "7", "steering cable"),
        Sort::Ring => ("clock", "Stands at", "12 or 4:30", "wear ring"),
        _ => return None,
    };
    let sort = word(&SORTS, sort);
    let mine = refused.filter(|refused| {
        let sent = |name: &str, value: &str| {
            let mut typed = refused.typed.iter();
            typed.any(|(n, v)| n == name && v == value)
        };
        refused.form == FormName::AsFound && sent("sort", sort) && sent("found", "")
    });
    let typed = mine.and_then(|refused| refused.typed.iter().find(|(name, _)| name == key));
    Some(Form {
        name: FormName::AsFound,
        heading: String::new(),
        intro: String::new(),
        quick: Vec::new(),
        fields: vec![Field {
            key,
            label: label.to_owned(),
            value: typed.map_or_else(String::new, |(_, text)| text.clone()),
            unit: match key {
                "gap" => job.unit().symbol(),
                _ => "",
            },
            hint: hint.to_owned(),
            kind: FieldKind::Line,
            refusal: mine.map(|refused| refused.why.clone()),
        }],
        values: vec![
            ("found", String::new()),
            ("sort", sort.to_owned()),
            ("at", at.to_owned()),
        ],
        submit: "Keep".to_owned(),
        refusal: None,
        open: true,
    })
}

/// A card each of what is on record, and a form for what is not.
pub(super) fn sections((id, job): (&JobId, &Job), refused: Option<&Refused>) -> Vec<Section> {
    let record = record(job);
    let mut sections = Vec::new();
    for (key, fact) in found::all(job) {
        sections.push(Section::Card(card(job, key, fact, refused)));
        let subject = Subject::AsFound(key.clone());
        sections.push(photos::strip((id, job), &subject, refused));
    }
    if record.opened && !record.missing.is_empty() {
        sections.push(Section::Notes {
            heading: "As found, not on record".to_owned(),
            notes: vec![format!(
                "{}. Something has been taken apart since. What a mark, a picture or a witness still \
                 tells can be put on record; of the rest say that it was apart before.",
                capital(&missing(&record))
            )],
        });
    }
    let first = record.missing.first().filter(|_| !record.opened);
    let blank = super::sheets::blank(workshop::draft::inspect::Sheet::AsFound);
    for sort in Sort::ASKED.into_iter().chain([Sort::Other]) {
        let open = first == Some(&sort) && matches!(sort, Sort::Shims | Sort::Hose | Sort::Witness);
        let form = forms::found(job, (sort, &blank), new(refused), open);
        sections.push(Section::Form(form));
    }
    sections
}

/// A refusal of something new, which is no refusal of what is on record.
fn new(refused: Option<&Refused>) -> Option<&Refused> {
    refused.filter(|refused| {
        let mut typed = refused.typed.iter();
        typed.any(|(name, value)| name == "found" && value.is_empty())
    })
}

fn card(job: &Job, key: &Key, fact: &Fact<AsFound>, refused: Option<&Refused>) -> Card {
    let found = &fact.value;
    let noted = Inspection::AsFound {
        key: key.clone(),
        found: found.clone(),
    };
    let draft = InspectionDraft::of(&noted, job.unit());
    Card {
        heading: heading(found),
        tone: Tone::Plain,
        state: match &found.seen {
            // Its rows say the rest.
            Seen::Shims(stacks) => said::count(stacks.len(), "stud", "studs"),
            _ => found.to_string(),
        },
        rows: rows(found),
        notes: Vec::new(),
        forms: vec![forms::found(job, (found.sort, &draft), refused, false)],
    }
}

fn heading(found: &AsFound) -> String {
    match found.at.as_str() {
        "" => forms::sort(found.sort).to_owned(),
        at => format!("{}: {at}", forms::sort(found.sort)),
    }
}

/// Stud by stud, since each is needed alone.
fn rows(found: &AsFound) -> Vec<FactRow> {
    let Seen::Shims(stacks) = &found.seen else {
        return Vec::new();
    };
    let one = |stack: &found::Stack| {
        let each: Vec<String> = stack.shims.iter().map(quantity::Entered::worded).collect();
        let each = if each.is_empty() {
            soft("no shim".to_owned())
        } else {
            soft(format!(" ({})", each.join(" + ")))
        };
        let total = (!stack.shims.is_empty()).then(|| strong(found::total(stack.total())));
        row(
            format!("Stud {}", stack.stud),
            total.into_iter().chain([each]).collect(),
            "noted by you; the sum is computed",
        )
    };
    stacks.iter().map(one).collect()
}

/// What was found and is needed again at a step of this name, as rows.
pub(crate) fn beside(job: &Job, name: &str) -> Vec<FactRow> {
    as_rows(found::beside(job, name))
}

/// Shims that belong to a joint of this name; which way a ring stood is no matter of its screws.
pub(crate) fn shims(job: &Job, name: &str) -> Vec<FactRow> {
    let mut found = found::beside(job, name);
    found.retain(|fact| fact.value.sort == Sort::Shims);
    as_rows(found)
}

fn as_rows(found: Vec<&Fact<AsFound>>) -> Vec<FactRow> {
    found
        .into_iter()
        .map(|fact| {
            let found = &fact.value;
            let at = match found.at.as_str() {
                "" => String::new(),
                at => format!("{at}: "),
            };
            row(
                "As found",
                vec![plain(format!("{at}{found}"))],
                "noted by you before it came apart",
            )
        })
        .collect()
}

/// The record as lines of the build sheet.
pub(crate) fn lines(job: &Job) -> Vec<(String, String, &EntryId)> {
    let all = found::all(job).into_iter();
    all.map(|(_, fact)| {
        (
            format!("As found: {}", heading(&fact.value)),
            fact.value.to_string(),
            &fact.entry,
        )
    })
    .collect()
}

/// What keeps the record open, for the build sheet; nothing where nobody began one.
pub(super) fn open(job: &Job) -> Option<String> {
    let record = record(job);
    (!record.had.is_empty() && !record.missing.is_empty())
        .then(|| format!("As found, not on record: {}.", missing(&record)))
}
