//! What a person says of a step or a part, beyond a tap.

use workshop::assemble::Standing;
use workshop::draft::bench::STATUSES;
use workshop::draft::word;
use workshop::plan::{Part, Stated, Step};

use super::{Blank, about, account, choice, line, number};
use crate::page::{Form, FormName, Refused};

/// Leave a step off.
pub(crate) fn defer(step: &Step, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Defer,
        heading: "Leave it off …",
        intro: "It stays in sight until it is done. Work on the bench may go on without it; the water \
                waits: the craft is not ready while it is off. One tap gives a reason; its text may \
                come later, on the Account page.",
        submit: "Leave it off",
        fields: vec![
            line("reason", "Why, in own words", "").hint("the hull repair still cures"),
            line("release", "Until", "").hint("the resin is hard"),
        ],
    };
    let form = about(blank, ("step", step.key.to_string()), refused, false);
    Form {
        quick: account::quick(step.key.as_str()),
        ..form
    }
}

/// Go ahead before the gate opens.
pub(crate) fn go_ahead(step: &Step, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::GoAhead,
        heading: "Go ahead although the gate is closed …",
        intro: "The reason is kept and printed.",
        submit: "Go ahead",
        fields: vec![line("reason", "Why", "")],
    };
    about(blank, ("step", step.key.to_string()), refused, false)
}

/// Count the fasteners of a step that has some.
pub(crate) fn fasteners(
    step: &Step,
    standing: &Standing,
    refused: Option<&Refused>,
) -> Option<Form> {
    step.fasteners?;
    let had = standing.loose;
    let count = had.map_or_else(String::new, |had| had.count.to_string());
    let stand_in = had.filter(|had| had.temporary > 0);
    let temporary = stand_in.map_or_else(String::new, |had| had.temporary.to_string());
    let mut fields = vec![number("count", "In", &count)];
    if step.temporary {
        fields.push(number("temporary", "Of these only standing in", &temporary));
    }
    let blank = Blank {
        name: FormName::Fasteners,
        heading: "Count the fasteners",
        intro: "For a step that is half done: how many are in.",
        submit: "Keep the count",
        fields,
    };
    Some(about(blank, ("step", step.key.to_string()), refused, false))
}

/// Say where a part is.
pub(crate) fn part(part: &Part, stated: Option<&Stated>, refused: Option<&Refused>) -> Form {
    let status = stated.map_or("", |stated| word(&STATUSES, stated.status));
    let day = stated.and_then(|stated| stated.expected);
    let day = day.map_or_else(String::new, |day| day.to_string());
    let blank = Blank {
        name: FormName::Part,
        heading: "Where is it?",
        intro: "",
        submit: "Keep",
        fields: vec![
            choice(
                "status",
                "It is",
                status,
                &[
                    ("at-hand", "at hand"),
                    ("on-order", "on order"),
                    ("missing", "missing"),
                ],
            ),
            line("expected", "Expected on", &day).hint("2026-05-09, if it is on order"),
        ],
    };
    about(blank, ("part", part.key.to_string()), refused, false)
}
