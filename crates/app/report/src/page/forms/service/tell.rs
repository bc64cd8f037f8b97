//! What is told as it happens: hours, mishaps, tasks done, points of the recheck, and the manual's rules.

use workshop::draft::upkeep::{POINTS, RuleDraft, WELL};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::job::Job;
use workshop::upkeep::Rule;
use workshop::upkeep::recheck::Point;
use workshop::upkeep::tasks::TASKS;

use super::super::{Blank, about, choice, choice_of, field, line, many, number};
use super::off;
use crate::page::service::say;
use crate::page::{Field, FieldKind, Form, FormName, Refused};

const MISHAPS: [(&str, &str); 5] = [
    ("strike", "a hard strike: pump or hull hit something"),
    ("sand", "sand or gravel was drawn in"),
    ("hot", "the engine ran hot"),
    ("thrust", "it lost thrust"),
    ("milky", "the housing’s lubricant was milky"),
];
const EDGES: [(&str, &str); 3] = [
    ("", "neither"),
    ("launch", "before the season begins"),
    ("lay-up", "when the season is over"),
];
const FOUND: [(&str, &str); 3] = [
    ("well", "as it should be"),
    ("amiss", "amiss"),
    ("back", "not looked at after all"),
];

/// Sent along by a form that names any of several.
const LIST: &str = "list";

/// It was sent by such a form.
fn from_list(refused: &Refused) -> bool {
    let named = refused.typed.iter().find(|(name, _)| name == "from");
    named.is_some_and(|(_, from)| from == LIST)
}

fn on() -> Field {
    line("on", "Day", "").hint("2026-05-09. Empty: today.")
}

fn hours() -> Field {
    number("hours", "Engine hours then", "")
        .unit("h")
        .hint("Off the hour meter. May stay empty.")
}

/// The hour meter.
pub(crate) fn meter(refused: Option<&Refused>, open: bool) -> Form {
    let blank = Blank {
        name: FormName::Meter,
        heading: "Read the hour meter",
        intro: "Two readings some weeks apart tell how fast the hours go on.",
        submit: "Keep it",
        fields: vec![number("hours", "Engine hours", "").unit("h"), on()],
    };
    about(blank, ("meter", String::new()), refused, open)
}

/// Something happened.
pub(crate) fn mishap(refused: Option<&Refused>, open: bool) -> Form {
    let owned = |(value, label): &(&str, &str)| ((*value).to_owned(), (*label).to_owned());
    let blank = Blank {
        name: FormName::Mishap,
        heading: "Something happened",
        intro: "What calls for a look before it runs again.",
        submit: "Keep it",
        fields: vec![
            choice_of("what", "What", "", MISHAPS.iter().map(owned).collect()),
            on(),
            hours(),
            line("note", "In your own words", ""),
        ],
    };
    about(blank, ("mishap", String::new()), refused, open)
}

/// When a task falls due, by the manual: one of general practice, or one of one's own.
pub(crate) fn rule(refused: Option<&Refused>) -> Form {
    let own = (String::new(), "a task of your own".to_owned());
    let tasks = TASKS.iter();
    let tasks = tasks.map(|task| (task.key.to_owned(), task.name.to_owned()));
    let mut fields = vec![choice_of(
        "task",
        "Task",
        "",
        std::iter::once(own).chain(tasks).collect(),
    )];
    fields.extend(figures(&RuleDraft::default()));
    let blank = Blank {
        name: FormName::TaskRule,
        heading: "What the manual says",
        intro: "Its figures come instead of general practice’s for that task. The first that comes \
                counts.",
        submit: "Keep it",
        fields,
    };
    about(blank, ("from", LIST.to_owned()), refused, false)
}

/// A rule that was stated.
pub(crate) fn ruled((task, rule): (&Key, &Rule), job: &Job, refused: Option<&Refused>) -> Form {
    let general = TASKS.iter().any(|one| one.key == task.as_str());
    let blank = Blank {
        name: FormName::TaskRule,
        heading: "",
        intro: "",
        submit: "Keep it",
        fields: figures(&RuleDraft::of(rule)),
    };
    let mut form = about(blank, ("rule", task.to_string()), refused, false);
    form.heading = format!("Change when it falls due: {}", say::named(job, task));
    let label = if general {
        "Back to general practice"
    } else {
        "Put it away"
    };
    form.quick = vec![off(
        FormName::TaskRuleOff,
        label,
        ("task", task.to_string()),
    )];
    form
}

fn figures(draft: &RuleDraft) -> Vec<Field> {
    let owned = |(value, label): &(&str, &str)| ((*value).to_owned(), (*label).to_owned());
    vec![
        line("name", "What it is called", &draft.name)
            .hint("Only for a task of your own, or to call it as the manual does."),
        number("hours", "Every", &draft.hours).unit("h"),
        number("months", "or every", &draft.months).unit("months"),
        choice("edge", "At the season’s edge", &draft.edge, &EDGES),
        many(
            "after",
            "At once after",
            &draft.after.join(" "),
            MISHAPS.iter().map(owned).collect(),
        ),
        line("page", "Page of the manual", &draft.page).hint("3-2"),
    ]
}

/// A task was done: the one that comes next, with its own day.
pub(crate) fn done(task: &Key, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::TaskDone,
        heading: "Done on another day, or with a note",
        intro: "",
        submit: "Keep it",
        fields: vec![on(), hours(), line("note", "What was found", "")],
    };
    let mine = refused.filter(|refused| !from_list(refused));
    about(blank, ("task", task.to_string()), mine, false)
}

/// Any task that was done.
pub(crate) fn listed(job: &Job, refused: Option<&Refused>) -> Form {
    let own = job.upkeep.rules.keys();
    let own = own.filter(|key| TASKS.iter().all(|task| task.key != key.as_str()));
    let own = own.map(|key| (key.to_string(), say::named(job, key)));
    let tasks = TASKS.iter();
    let tasks = tasks.map(|task| (task.key.to_owned(), task.name.to_owned()));
    let blank = Blank {
        name: FormName::TaskDone,
        heading: "Say that a task was done",
        intro: "It counts anew from that day and those hours.",
        submit: "Keep it",
        fields: vec![
            choice_of("task", "Task", "", tasks.chain(own).collect()),
            on(),
            hours(),
            line("note", "What was found", ""),
        ],
    };
    about(blank, ("from", LIST.to_owned()), refused, false)
}

/// A point of the recheck: the one that comes next, or any.
pub(crate) fn point((job, next): (&Job, Option<Point>), refused: Option<&Refused>) -> Form {
    let had = next.and_then(|point| job.upkeep.recheck.get(&point));
    let (found, note) = had.map_or(("", ""), |told| {
        let (well, note) = &told.what.value;
        (word(&WELL, *well), note.as_str())
    });
    let note = line("note", "What was found", note).hint("In your own words; may stay empty.");
    if let Some(next) = next {
        let blank = Blank {
            name: FormName::Recheck,
            heading: "Say it with a note",
            intro: "",
            submit: "Keep it",
            fields: vec![
                field("found", "It was", found, FieldKind::Pick(pick(&FOUND[..2]))),
                note,
            ],
        };
        let key = word(&POINTS, next).to_owned();
        let mine = refused.filter(|refused| !from_list(refused));
        return about(blank, ("point", key), mine, false);
    }
    let points = Point::ALL.into_iter();
    let points = points.map(|point| (word(&POINTS, point).to_owned(), point.name().to_owned()));
    let blank = Blank {
        name: FormName::Recheck,
        heading: "Say a point anew",
        intro: "",
        submit: "Keep it",
        fields: vec![
            choice_of("point", "Point", "", points.collect()),
            choice("found", "It was", "", &FOUND),
            note,
        ],
    };
    about(blank, ("from", LIST.to_owned()), refused, false)
}

fn pick(of: &[(&str, &str)]) -> Vec<(String, String)> {
    let owned = |(value, label): &(&str, &str)| ((*value).to_owned(), (*label).to_owned());
    of.iter().map(owned).collect()
}
