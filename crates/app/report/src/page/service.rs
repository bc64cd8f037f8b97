//! The page Service: when it is opened again, what lasts, what it costs.

pub(crate) mod answer;
pub mod calendar;
pub(crate) mod due;
mod gap;
mod lists;
mod next;
mod part;
mod pictures;
mod recheck;
pub(crate) mod say;
mod versus;

use workshop::entry::JobId;
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::upkeep::answer::Answer as Says;
use workshop::upkeep::evidence as rests_on;
use workshop::upkeep::recheck::Point;

use super::forms::service as forms;
use super::{Page, Refused, Section, Target, frame};

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// What lasts, what it costs, what falls due.
    pub says: &'a Says,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// Safety beside what can hurt.
pub const CAUTIONS: [&str; 3] = [
    "Engine off, lanyard off, battery off before a hand is in the pump or the intake. Blade edges cut.",
    "Exhaust gas kills: an engine runs in the open air only, and out of the water no longer than its \
     manual allows.",
    "An estimate, no release: the craft’s manual and licensed practice decide what is done, and when it \
     runs again.",
];

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Service(view.id.clone());
    let mut stages = frame::stages(view.id, view.job, &here);
    // Only here the answer is at hand; on other pages the list says what was told.
    for stage in stages.iter_mut().filter(|stage| stage.here) {
        stage.state = answer::state(view);
    }
    Page {
        title: "Service".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages,
        here: Some(here),
        clocks: Vec::new(),
        answer: answer::answer(view),
        evidence: evidence(view),
        next: next::next(view),
        cautions: CAUTIONS.to_vec(),
    }
}

/// What was told of service, for the list of stages.
pub(crate) fn stage(job: &Job) -> String {
    let upkeep = &job.upkeep;
    let seen = upkeep.recheck.len();
    let amiss = upkeep.recheck.values().any(|told| !told.what.value.0);
    let closed = upkeep.closed.as_ref();
    if closed.is_some_and(|told| told.what.value.evidence == rests_on(job)) {
        "closed".to_owned()
    } else if amiss {
        "recheck: amiss".to_owned()
    } else if seen > 0 {
        format!("recheck: {seen} of {} points", Point::ALL.len())
    } else if upkeep.is_empty() {
        "nothing told yet".to_owned()
    } else {
        "recheck open".to_owned()
    }
}

/// The answer in a sentence.
pub fn headline(job: &Job, says: &Says) -> String {
    answer::told(job, says).1
}

/// What is told when the job is closed, as it is put on record.
pub fn closing(says: &Says) -> String {
    let left = match says.recheck.left_off {
        0 => String::new(),
        n => format!(
            " Left off on purpose: {}.",
            crate::words::count(n, "step", "steps")
        ),
    };
    let next = answer::ahead(says).map_or_else(String::new, |next| format!(" {next}"));
    format!("All nine points of the recheck were as they should be.{left}{next}")
}

fn evidence(view: &View<'_>) -> Vec<Section> {
    let mut evidence = Vec::new();
    evidence.extend(next::step(view).map(Section::Step));
    let open = !recheck::done(view.says);
    if open {
        evidence.push(recheck::list(view));
    }
    evidence.push(due::list(view));
    evidence.extend(gap::facts(view));
    evidence.extend(pictures::lasting(view));
    evidence.extend(pictures::costing(view));
    evidence.extend(versus::sections(view));
    evidence.extend(part::cards(view));
    evidence.extend(pictures::fitted(view));
    if !open {
        evidence.push(recheck::list(view));
    }
    evidence.push(due::along(view));
    evidence.extend(lists::folded());
    evidence.extend(told(view));
    let notes: Vec<String> = frame::objections(view.objections).collect();
    if !notes.is_empty() {
        evidence.push(Section::Notes {
            heading: "What no longer fits".to_owned(),
            notes,
        });
    }
    evidence
}

/// What else may be told.
fn told(view: &View<'_>) -> Vec<Section> {
    let (job, refused) = (view.job, view.refused);
    let mut told = vec![
        forms::meter(refused, false),
        forms::mishap(refused, false),
        forms::usage(job, refused, false),
        forms::sort(None, job, refused, false),
    ];
    let asked = next::asks(view);
    told.retain(|form| asked != Some(form.name));
    told.into_iter().map(Section::Form).collect()
}
