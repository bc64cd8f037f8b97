//! The forms of the as-found record.

use workshop::draft::InspectionDraft;
use workshop::draft::inspect::words::SORTS;
use workshop::draft::word;
use workshop::inspect::found::Sort;
use workshop::job::Job;

use super::{Blank, about, choice, line, number};
use crate::page::{Field, Form, FormName, Refused};

/// What a record is of, as it heads a card.
pub(crate) fn sort(sort: Sort) -> &'static str {
    match sort {
        Sort::Gap => "Gap, roughly",
        Sort::Witness => "Witness marks",
        Sort::Shims => "Shims by stud",
        Sort::Hose => "Hose",
        Sort::Cable => "Cable",
        Sort::Ring => "Ring’s mark or split",
        Sort::Other => "As found",
    }
}

/// Put something on the record, or say anew what is.
pub(crate) fn found(
    job: &Job,
    (of, draft): (Sort, &InspectionDraft),
    refused: Option<&Refused>,
    open: bool,
) -> Form {
    let blank = Blank {
        name: FormName::AsFound,
        heading: if draft.key.is_empty() {
            heading(of)
        } else {
            "Change what was found"
        },
        intro: intro(of),
        submit: "Keep it as found",
        fields: fields(job, of, draft),
    };
    let word = word(&SORTS, of);
    let mine = |refused: &&Refused| {
        let typed = refused.typed.iter();
        typed
            .clone()
            .any(|(name, sent)| name == "sort" && sent == word)
    };
    let refused = refused.filter(mine);
    let mut form = about(blank, ("found", draft.key.clone()), refused, open);
    form.values.push(("sort", word.to_owned()));
    form
}

fn intro(of: Sort) -> &'static str {
    match of {
        Sort::Gap => {
            "With a leaf or two, or as it was told to you. It is to compare with later, \
            not to judge by."
        }
        Sort::Witness => {
            "Paint or scratch a line across before a screw turns. A line that was \
            there and has parted says that the joint has moved."
        }
        Sort::Shims => "Each stud has its own. Tie them together with its name as they come off.",
        Sort::Hose => "Tape a label on it before its clamp comes off. One hose at a time.",
        Sort::Cable => "Count the threads that show beyond the lock nut. One cable at a time.",
        Sort::Ring => {
            "Scratch a line across ring and housing first. The clock is read as the \
            pump’s is."
        }
        Sort::Other => "What you would want to know again when it goes together.",
    }
}

fn fields(job: &Job, of: Sort, draft: &InspectionDraft) -> Vec<Field> {
    let text = |key: &'static str| draft.get(key);
    let unit = job.unit().symbol();
    let at = |label, hint| line("at", label, text("at")).hint(hint);
    let mut fields: Vec<Field> = match of {
        Sort::Gap => vec![
            number("gap", "Gap, least to greatest", text("gap"))
                .unit(unit)
                .hint("13-18, or one number"),
            at("Where", "may stay empty"),
        ],
        Sort::Witness => vec![
            at("Flange or joint", "pump to hull plate"),
            choice(
                "marks",
                "The marks across it",
                text("marks"),
                &[
                    ("in-line", "are in line"),
                    ("moved", "have moved against each other"),
                ],
            ),
            number("moved", "by", text("moved"))
                .unit("mm")
                .hint("if measured"),
        ],
        Sort::Shims => vec![
            at("Of which mount or joint", "front mounts"),
            line("shims", "Stud: its shims; and so on", text("shims"))
                .unit("mm")
                .hint("A: 0.5, 0.2; B: 0.5; C: none"),
        ],
        Sort::Hose => vec![
            at("Its label", "tape with a number: 1"),
            line("from", "From", text("from")).hint("pump cooling outlet"),
            line("to", "To", text("to")).hint("exhaust, lower spigot"),
            line("clamp", "Clamp", text("clamp")).hint("worm drive, screw up; may stay empty"),
        ],
        Sort::Cable => vec![
            at("Which cable", "steering cable"),
            number("threads", "Threads showing beyond the nut", text("threads")).hint("7"),
        ],
        Sort::Ring => vec![
            line("clock", "Its mark or split stands at", text("clock")).hint("12 or 4:30"),
            at("Which ring", "wear ring; may stay empty"),
        ],
        Sort::Other => vec![at("What", "bailer, ride plate, anything")],
    };
    let words = line("words", "In your own words", text("words"));
    fields.push(if of == Sort::Other {
        words.hint("must be filled in")
    } else {
        words.hint("may stay empty")
    });
    fields
}

fn heading(of: Sort) -> &'static str {
    match of {
        Sort::Gap => "As found: the gap, roughly",
        Sort::Witness => "As found: witness marks across a flange",
        Sort::Shims => "As found: shims by stud",
        Sort::Hose => "As found: which hose goes where",
        Sort::Cable => "As found: threads showing at a cable",
        Sort::Ring => "As found: where a ring’s mark or split stands",
        Sort::Other => "As found: something else",
    }
}
