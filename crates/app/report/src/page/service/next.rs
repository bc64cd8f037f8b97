//! The one thing to do next, with all it takes.

use workshop::draft::upkeep::POINTS;
use workshop::draft::word;
use workshop::upkeep::answer::Due;
use workshop::upkeep::recheck::Point;
use workshop::upkeep::tasks::task;
use workshop::upkeep::{Mishap, evidence};

use super::{View, due, recheck, say};
use crate::page::forms::service as forms;
use crate::page::{Button, FactRow, Form, FormName, Next, Step, Target, Weight, frame, plain, row};
use crate::words::count;

/// Beside every look at the pump.
const HANDS: &str = super::CAUTIONS[0];

/// What comes next.
enum Ahead<'a> {
    /// A task that a mishap calls for.
    Mishap(&'a Due, Mishap),
    /// A point of the recheck.
    Point(Point),
    /// The job can be closed.
    Close,
    /// A task that is overdue, or due first.
    Task(&'a Due),
    /// A part past its age.
    Renew(&'a Due),
    /// Nothing falls due that anybody could say is done: what is missing is asked for, use, meter or part.
    Fill(FormName),
}

fn ahead<'a>(view: &View<'a>) -> Ahead<'a> {
    let says = view.says;
    if let Some((due, what, _)) = due::called(says).next() {
        return Ahead::Mishap(due, what);
    }
    if let Some(point) = recheck::asked(says) {
        return Ahead::Point(point);
    }
    if says.recheck.closed.is_none() {
        return Ahead::Close;
    }
    match due::leading(says) {
        Some(due) if due.overdue && due::renews(due) => Ahead::Renew(due),
        Some(due) if !due::renews(due) => Ahead::Task(due),
        _ => {
            let task = says.due.iter().find(|due| !due::renews(due));
            task.map_or_else(|| Ahead::Fill(missing(view)), Ahead::Task)
        }
    }
}

/// What nobody said yet, the first that would tell more; at last the meter, which goes on.
fn missing(view: &View<'_>) -> FormName {
    let upkeep = &view.job.upkeep;
    if upkeep.usage.is_none() {
        FormName::Usage
    } else if view.says.hours.is_some() && upkeep.parts.is_empty() {
        FormName::Sort
    } else {
        FormName::Meter
    }
}

/// The form that is what comes next.
pub(super) fn asks(view: &View<'_>) -> Option<FormName> {
    match ahead(view) {
        Ahead::Fill(form) => Some(form),
        _ => None,
    }
}

/// What comes next, alone; nothing where that is a form.
pub(super) fn step(view: &View<'_>) -> Option<Step> {
    match ahead(view) {
        Ahead::Mishap(due, what) => {
            let mut step = of_task(view, due);
            if what == Mishap::Thrust {
                step.links = vec![(
                    Target::Diagnose(view.id.clone()),
                    "Which cause: What is wrong".to_owned(),
                )];
            }
            Some(step)
        }
        Ahead::Point(point) => Some(of_point(view, point)),
        Ahead::Close => closing(view),
        Ahead::Task(due) => Some(of_task(view, due)),
        Ahead::Renew(due) => Some(renewal(view, due)),
        Ahead::Fill(_) => None,
    }
}

fn of_task(view: &View<'_>, due: &Due) -> Step {
    let general = task(due.task.as_str());
    let notes = say::cautions(general).into_iter().map(str::to_owned);
    let how = general.map_or(&[][..], |task| task.how);
    let rows = how.iter().enumerate().map(|(place, line)| {
        let (name, origin) = if place == 0 {
            ("How", "general practice; the craft’s manual wins")
        } else {
            ("Then", "")
        };
        row(name, vec![plain(*line)], origin)
    });
    let rows: Vec<FactRow> = rows.collect();
    let when = if due.overdue && due::mishap(due).is_none() {
        format!("overdue {}", due::since(due, view.says.today))
    } else {
        due::first(due, view.says.today)
    };
    Step {
        heading: due.name.clone(),
        state: when,
        notes: notes.collect(),
        rows,
        links: readings(view, due),
        buttons: Vec::new(),
        forms: vec![forms::done(&due.task, view.refused)],
    }
}

/// Where its readings are taken.
fn readings(view: &View<'_>, due: &Due) -> Vec<(Target, String)> {
    match due.task.as_str() {
        "gap" | "strike" => vec![(
            Target::Measure(view.id.clone()),
            "Readings: Measure".to_owned(),
        )],
        "splines" => vec![(
            Target::Teardown(view.id.clone()),
            "What was found: Teardown".to_owned(),
        )],
        _ => Vec::new(),
    }
}

/// A part is renewed on the bench; what is told of it is told on its card.
fn renewal(view: &View<'_>, due: &Due) -> Step {
    let says = view.says.parts.iter().find(|part| {
        let fitted = part.in_use.as_ref();
        fitted.is_some_and(|fitted| due::of_piece(&due.first.by, &fitted.piece))
    });
    let costs = says.and_then(|part| part.costs.as_ref());
    let region = costs.map(|costs| row("When", vec![plain(super::part::region(costs))], ""));
    let rows = [row(
        "Why now",
        vec![plain(due::because(&due.first.by, view))],
        "reckoned from what is known of it",
    )];
    Step {
        heading: due::name(due),
        state: String::new(),
        notes: vec![HANDS.to_owned()],
        rows: rows.into_iter().chain(region).collect(),
        links: vec![(
            Target::Assemble(view.id.clone()),
            "The steps: Assemble".to_owned(),
        )],
        buttons: Vec::new(),
        forms: Vec::new(),
    }
}

fn of_point(view: &View<'_>, point: Point) -> Step {
    let had = view.job.upkeep.recheck.get(&point);
    let place = Point::ALL.iter().position(|one| *one == point);
    let place = place.map_or(1, |place| place + 1);
    let mut rows = vec![row("How", vec![plain(point.how())], COMMON)];
    if let Some(told) = had {
        let note = match told.what.value.1.as_str() {
            "" => "amiss".to_owned(),
            note => format!("amiss: {note}"),
        };
        let on = say::day(told.on, view.says.today);
        rows.insert(0, row("It was", vec![plain(note)], on));
        rows.insert(1, row("Put it right", vec![plain(point.amiss())], COMMON));
    } else {
        rows.push(row("If it is amiss", vec![plain(point.amiss())], ""));
    }
    let (target, words) = match point {
        Point::Gap => (Target::Measure(view.id.clone()), "Readings: Measure"),
        Point::Grate | Point::Plate | Point::Marks => {
            (Target::Torque(view.id.clone()), "The joints’ cards")
        }
        _ => (Target::Sheet(view.id.clone()), "Build sheet"),
    };
    let links = match point {
        Point::Cone | Point::Hoses | Point::Bilge | Point::Shaft | Point::Lubricant => Vec::new(),
        _ => vec![(target, words.to_owned())],
    };
    Step {
        heading: point.name().to_owned(),
        state: format!("{place} of {}", Point::ALL.len()),
        notes: vec![HANDS.to_owned()],
        rows,
        links,
        buttons: Vec::new(),
        forms: vec![forms::point((view.job, Some(point)), view.refused)],
    }
}

const COMMON: &str = "common practice, no source; the craft’s manual goes first";

/// What is left off on purpose is looked at before the job is closed.
fn closing(view: &View<'_>) -> Option<Step> {
    let left = view.says.recheck.left_off;
    (left > 0).then(|| Step {
        heading: format!("Left off on purpose: {}", count(left, "step", "steps")),
        state: String::new(),
        notes: vec![
            "Closing the job does not do them: they stay on the plan and on the Build sheet."
                .to_owned(),
        ],
        rows: Vec::new(),
        links: vec![(
            Target::Assemble(view.id.clone()),
            "Look at them: Assemble".to_owned(),
        )],
        buttons: Vec::new(),
        forms: Vec::new(),
    })
}

/// The question with its answers.
pub(super) fn next(view: &View<'_>) -> Next {
    let undo = frame::undo(view.job);
    let (question, answers) = match ahead(view) {
        Ahead::Mishap(due, _) => (
            format!("{}: was all of it looked at?", due.name),
            vec![done_today(due)],
        ),
        Ahead::Point(point) => (format!("{}: how was it?", point.name()), found(point)),
        Ahead::Close => (
            "All nine are as they should be. Is this job closed?".to_owned(),
            vec![Button {
                label: "Close the job".to_owned(),
                form: FormName::CloseJob,
                values: vec![("evidence", evidence(view.job))],
                weight: Weight::Main,
                key: Some('c'),
            }],
        ),
        Ahead::Task(due) => (format!("{}: was it done?", due.name), vec![done_today(due)]),
        Ahead::Renew(due) => (
            format!(
                "{}: when that is done, say on its card how the old one ended, and tell of the new one.",
                due::name(due)
            ),
            Vec::new(),
        ),
        Ahead::Fill(form) => {
            let (job, refused) = (view.job, view.refused);
            let form = match form {
                FormName::Usage => forms::usage(job, refused, true),
                FormName::Sort => forms::sort(None, job, refused, true),
                _ => forms::meter(refused, true),
            };
            return Next::Fill(Form {
                quick: undo,
                ..form
            });
        }
    };
    Next::Ask {
        question: vec![plain(question)],
        buttons: answers.into_iter().chain(undo).collect(),
        write: None,
    }
}

fn done_today(due: &Due) -> Button {
    Button {
        label: "Done today".to_owned(),
        form: FormName::TaskDone,
        values: vec![("task", due.task.to_string())],
        weight: Weight::Main,
        key: Some('d'),
    }
}

fn found(point: Point) -> Vec<Button> {
    let answer = |label: &str, found: &str, key| Button {
        label: label.to_owned(),
        form: FormName::Recheck,
        values: vec![
            ("point", word(&POINTS, point).to_owned()),
            ("found", found.to_owned()),
        ],
        weight: Weight::Plain,
        key: Some(key),
    };
    vec![
        answer("As it should be", "well", 'w'),
        answer("Amiss", "amiss", 'a'),
    ]
}
