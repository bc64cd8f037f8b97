//! The page What is wrong: which causes are likely, and which check tells most.

pub(crate) mod answer;
pub mod check;
pub(crate) mod next;
mod others;
mod pieces;
pub(crate) mod say;
pub(crate) mod sign;

use workshop::diagnose::answer::Answer as Says;
use workshop::entry::JobId;
use workshop::fold::Objection;
use workshop::job::Job;

use super::forms::diagnose as forms;
use super::{Page, Refused, Section, Target, frame};
use crate::words::count;

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// How the causes stand.
    pub says: &'a Says,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// Safety beside what can hurt.
pub const CAUTIONS: [&str; 3] = [
    "A ranking of causes, no finding: the craft’s manual and licensed practice decide what is done, and \
     when it runs again.",
    "Nobody is under a craft, or has a hand or a tool in its pump, while it can start.",
    "Out of the water an engine runs no longer than its manual allows, and not without the cooling water \
     it asks for.",
];

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Diagnose(view.id.clone());
    let mut stages = frame::stages(view.id, view.job, &here);
    // Only here the answer is at hand; on other pages the list says what was told.
    for stage in stages.iter_mut().filter(|stage| stage.here) {
        if !view.job.diagnosis.is_empty() {
            stage.state = answer::state(view.says);
        }
    }
    Page {
        title: "What is wrong".to_owned(),
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

/// What was told about what is wrong, for the list of stages.
pub(crate) fn stage(job: &Job) -> String {
    let search = &job.diagnosis;
    let signs = search.symptoms.iter().map(|fact| fact.value.len()).sum();
    let (signs, checks): (usize, usize) = (signs, search.checks.len());
    match (&search.taken, signs, checks) {
        (Some(_), ..) => "cause taken".to_owned(),
        (None, 0, 0) => "nothing told yet".to_owned(),
        (None, signs, 0) => format!("{} told", count(signs, "sign", "signs")),
        (None, 0, checks) => format!("{} done", count(checks, "check", "checks")),
        (None, signs, checks) => format!(
            "{}, {}",
            count(signs, "sign", "signs"),
            count(checks, "check", "checks")
        ),
    }
}

/// The answer in a sentence, as it is put on record.
pub fn headline(job: &Job, says: &Says) -> String {
    answer::told(job, says).1
}

/// What was heard and seen, and every check, is told here; before anything is told it stands first.
fn evidence(view: &View<'_>) -> Vec<Section> {
    let mut evidence = Vec::new();
    evidence.extend(next::step(view).map(Section::Step));
    evidence.extend(next::elsewhere(view));
    let signs = Section::Form(forms::symptoms(
        view.says,
        view.refused,
        view.job.diagnosis.is_empty(),
    ));
    let fresh = view.job.diagnosis.is_empty();
    if fresh {
        evidence.push(signs.clone());
    }
    evidence.push(pieces::causes(view));
    evidence.extend(pieces::compared(view));
    evidence.extend(pieces::carried(view));
    evidence.extend(pieces::turns(view));
    evidence.extend(others::done(view));
    evidence.extend(others::table(view));
    if !fresh {
        evidence.push(signs);
    }
    evidence.push(Section::Form(forms::checked(
        (view.job, None),
        view.refused,
        false,
    )));
    evidence.extend(forms::suspect(view.job, view.refused).map(Section::Form));
    let notes: Vec<String> = frame::objections(view.objections).collect();
    if !notes.is_empty() {
        evidence.push(Section::Notes {
            heading: "What no longer fits".to_owned(),
            notes,
        });
    }
    evidence
}
