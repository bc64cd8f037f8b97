//! What a person says of a step or a part, beyond a tap.

use workshop::assemble::Standing;
use workshop::draft::bench::{CrewDraft, STATUSES};
use workshop::draft::word;
use workshop::plan::{Crew, Part, Plan, Stated, Step};

use super::{Blank, about, account, choice, choice_of, line, many, number};
use crate::page::{Form, FormName, Refused};

/// Leave a step off.
pub(crate) fn defer(step: &Step, plan: &Plan, refused: Option<&Refused>) -> Form {
    let others = plan.steps.iter().filter(|other| other.key != step.key);
    let others = others.map(|other| (other.key.to_string(), other.name.clone()));
    let none = (String::new(), "no step: what is written above".to_owned());
    let steps = std::iter::once(none).chain(others).collect();
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
            choice_of("until", "Which step ends it", "", steps),
        ],
    };
    let form = about(blank, ("step", step.key.to_string()), refused, false);
    Form {
        quick: account::quick(step.key.as_str()),
        ..form
    }
}

/// Say how long a step will take after all.
pub(crate) fn estimate(step: &Step, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Estimate,
        heading: "It will take longer, or less …",
        intro: "From its beginning. The plan is counted anew with it.",
        submit: "Plan with that",
        fields: vec![
            number("takes", "It will take", "")
                .unit("min")
                .hint("40, or 2 h"),
            number("most", "and at most", "")
                .unit("min")
                .hint("may be left empty"),
        ],
    };
    about(blank, ("step", step.key.to_string()), refused, false)
}

/// A step must be done again.
pub(crate) fn again(step: &Step, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Again,
        heading: "It must be done again …",
        intro: "For sealant that skinned and was wiped off, or work that went wrong. It counts as not \
                done, its clocks stop, and the reason is kept.",
        submit: "Do it again",
        fields: vec![line("reason", "Why", "").hint("skinned, wiped off")],
    };
    about(blank, ("step", step.key.to_string()), refused, false)
}

/// Say who works, and when.
pub(crate) fn crew(crew: &Crew, refused: Option<&Refused>) -> Form {
    let draft = CrewDraft::of(crew);
    Blank {
        name: FormName::Crew,
        heading: "Say who works, and when …",
        intro: "Steps are planned into these hours; cures go on through the night.",
        submit: "Plan with that",
        fields: vec![
            number("hands", "Pairs of hands", &draft.hands),
            line("hours", "Days and hours", &draft.hours)
                .hint("mon-fri 18:00-21:00; sat 9:00-17:00, or empty for any hour"),
        ],
    }
    .with(refused, false)
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
/// Say of several parts at once that they are at hand.
pub(crate) fn parts(untold: &[&Part], refused: Option<&Refused>) -> Form {
    let choices = untold
        .iter()
        .map(|part| (part.key.to_string(), part.name.clone()));
    let blank = Blank {
        name: FormName::Parts,
        heading: "Which parts are here?",
        intro: "Tick what lies on the bench. The rest can be said part by part below.",
        submit: "These are at hand",
        fields: vec![many("parts", "At hand", "", choices.collect())],
    };
    blank.with(refused, false)
}

/// Where a part is.
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
