//! What two devices said of the same thing without seeing each other: told until it is settled.

use workshop::crossing::Crossing;
use workshop::entry::{Body, Entry, JobId};
use workshop::job::Job;
use workshop::plan::Work;
use workshop::reading::write;

use super::Target;
use super::record::{by, line};
use crate::words;

/// A notice on every page of the job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Crossed {
    /// What was said, by whom, and what comes of it.
    pub words: String,
    /// Where it is said anew.
    pub target: Target,
}

/// The notices of a job.
pub(crate) fn crossed(id: &JobId, job: &Job) -> Vec<Crossed> {
    job.crossed.iter().map(|one| told(id, job, one)).collect()
}

fn told(id: &JobId, job: &Job, crossing: &Crossing) -> Crossed {
    let said: Vec<String> = crossing
        .said
        .iter()
        .map(|entry| said(job, entry, &crossing.said))
        .collect();
    let last = crossing.said.last().map(|entry| &entry.new.body);
    Crossed {
        words: format!(
            "Said without seeing each other. {}. {} Look, then say it once more, or undo one; this \
             notice goes then.",
            said.join(". "),
            last.map_or("", outcome)
        ),
        target: last.map_or_else(|| Target::Record(id.clone()), |body| place(id, body)),
    }
}

/// `Tablet: reading at A 12, 13 goes; 14 won’t go, at 14:02 (entry 31)`
fn said(job: &Job, entry: &Entry, all: &[Entry]) -> String {
    let mut what = line(job, &entry.new.body, all);
    if let Body::LeavesTried { tries, .. } = &entry.new.body {
        what = format!("{what}, {}", write(tries, job.unit()));
    }
    let at = entry.new.happened_at.strftime("%H:%M");
    let who = words::upper(&by(entry));
    format!("{who}: {what}, at {at} (entry {})", entry.position)
}

/// What the fold makes of the later one.
fn outcome(body: &Body) -> &'static str {
    match body {
        Body::LeavesTried { afresh: false, .. } => "All of it counts.",
        Body::Work(
            Work::StepBegun { .. }
            | Work::StepDone { .. }
            | Work::StepDeferred { .. }
            | Work::StepAgain { .. },
        ) => "The step stands as the later one leaves it.",
        _ => "The later one counts.",
    }
}

/// The page where it is said.
fn place(id: &JobId, body: &Body) -> Target {
    let id = id.clone();
    match body {
        Body::LeavesTried { spot, .. } => Target::Spot(id, *spot),
        Body::Work(work) => match work.step() {
            Some(step) => Target::Step(id, step.clone()),
            None => Target::Assemble(id),
        },
        Body::JointDescribed { .. }
        | Body::JointFastened { .. }
        | Body::Tooled(_)
        | Body::FitDescribed { .. }
        | Body::FitChecked { .. } => Target::Torque(id),
        Body::Inspected(_) => Target::Teardown(id),
        Body::Photographed(_) => Target::Record(id),
        Body::Trialled(_) => Target::Water(id),
        Body::Chose(_) => Target::Choose(id),
        Body::Diagnosed(_) => Target::Diagnose(id),
        Body::Serviced(_) => Target::Service(id),
        _ => Target::Measure(id),
    }
}
