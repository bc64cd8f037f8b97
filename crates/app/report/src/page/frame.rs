//! What pages share: the frame of one that belongs to no job; of every page of a job its heading, its stages, undo, and
//! what no longer fits.

use workshop::entry::JobId;
use workshop::fold::{Misfit, Objection};
use workshop::job::Job;
use workshop::plan::Step;
use workshop::walk::progress;

use super::{
    Answer, Button, FormName, Heading, Next, Page, Stage, Target, Weight, choose, crossed,
    diagnose, service, teardown, water,
};

/// A page that belongs to no job.
pub(crate) fn bare(title: &str, answer: Answer, next: Next) -> Page {
    Page {
        title: title.to_owned(),
        heading: None,
        here: None,
        clocks: Vec::new(),
        stages: Vec::new(),
        answer,
        evidence: Vec::new(),
        next,
        cautions: Vec::new(),
    }
}

pub(crate) fn heading(id: &JobId, job: &Job) -> Heading {
    let touched = job.touched.as_ref();
    Heading {
        job: id.clone(),
        title: job.title.clone().unwrap_or_default(),
        note: job.note.clone(),
        position: job.position,
        saved: touched.map_or_else(String::new, |at| at.strftime("%H:%M").to_string()),
        crossed: crossed::crossed(id, job),
    }
}

/// The stages of a job, each with where it stands.
pub(crate) fn stages(id: &JobId, job: &Job, here: &Target) -> Vec<Stage> {
    let read = progress(job);
    let measure = if job.leaves.is_none() || job.pump.is_none() {
        "not described yet".to_owned()
    } else {
        format!("{} of {} spots done", read.done, read.all)
    };
    let done = job.joints.values().filter(|state| state.done()).count() + job.fits_done();
    let torque = match job.joints.len() + job.fits.len() {
        0 => "no joint yet".to_owned(),
        all => format!("{done} of {all} joints done"),
    };
    let record = if job.accepted.is_some() {
        "result taken"
    } else {
        "to print"
    };
    let stage = |name, state, target| Stage {
        name,
        state,
        here: target == *here,
        target,
    };
    let steps = job.bench.plan().map(|plan| {
        let done = |step: &&Step| job.bench.of(&step.key).done.is_some();
        (plan.steps.iter().filter(done).count(), plan.steps.len())
    });
    let assemble = steps.map_or("no plan yet".to_owned(), |(done, all)| {
        format!("{done} of {all} steps done")
    });
    vec![
        stage(
            "Teardown",
            teardown::stage(job),
            Target::Teardown(id.clone()),
        ),
        stage("Measure", measure, Target::Measure(id.clone())),
        stage("Choose", choose::stage(job), Target::Choose(id.clone())),
        stage("Torque and seal", torque, Target::Torque(id.clone())),
        stage("Assemble", assemble, Target::Assemble(id.clone())),
        stage("Water test", water::stage(job), Target::Water(id.clone())),
        stage(
            "What is wrong",
            diagnose::stage(job),
            Target::Diagnose(id.clone()),
        ),
        stage("Service", service::stage(job), Target::Service(id.clone())),
        stage(
            "Measuring record",
            record.to_owned(),
            Target::Record(id.clone()),
        ),
        stage(
            "Build sheet",
            "to print".to_owned(),
            Target::Sheet(id.clone()),
        ),
    ]
}

/// Undo, and redo where something was undone last.
pub(crate) fn undo(job: &Job) -> Vec<Button> {
    let button = |label: &str, form, key| Button {
        label: label.to_owned(),
        form,
        values: Vec::new(),
        weight: Weight::Quiet,
        key: Some(key),
    };
    let undo = job
        .undo
        .as_ref()
        .map(|_| button("Undo", FormName::Undo, 'u'));
    let redo = job
        .redo
        .as_ref()
        .map(|_| button("Redo", FormName::Redo, 'r'));
    undo.into_iter().chain(redo).collect()
}

/// Entries of the journal that no longer fit, each in a sentence.
#[expect(clippy::too_many_lines, reason = "a sentence an arm, read as a table")]
pub(crate) fn objections(objections: &[Objection]) -> impl Iterator<Item = String> {
    objections.iter().map(|objection| {
        let what = match objection.why {
            Misfit::OpenedTwice => "opens the job a second time",
            Misfit::BeforeOpening => "was said before the job was opened",
            Misfit::NoSuchSpot => {
                "is a reading at a spot this pump does not have, as it is described now"
            }
            Misfit::NothingToWithdraw => "withdraws an entry that is not there",
            Misfit::AcceptedForOtherReadings => {
                "took a result for readings or limits that have changed since; take the new one"
            }
            Misfit::NoSuchJoint => "counts screws of a joint that is not described",
            Misfit::TooManyScrews => {
                "counts more screws than the joint has, as it is described now; count again"
            }
            Misfit::NothingToFit => "is about a joint that is not described",
            Misfit::NoSuchWrench => "chooses a torque wrench that is not described",
            Misfit::NoSuchFit => "ticks a joint that is not described",
            Misfit::TicksOfAnother => {
                "ticks or measures what the joint, as it is described now, does not have; look it \
                 over and tick again"
            }
            Misfit::TightenedInError => {
                "tightened an impeller whose figure or directions do not hold now: state them, or \
                 look at it again"
            }
            Misfit::NoSuchFinding => "deals with a finding that was never noted",
            Misfit::SealsNoJoint => {
                "is about the seal or the metals of a joint that is not described"
            }
            Misfit::NoSuchCompound => "is about a compound that is not described any more",
            Misfit::SenselessPlan => "lays a plan that makes no sense; lay it anew",
            Misfit::NoSuchStep => "is about a step that the plan does not have any more",
            Misfit::NoSuchPart => "is about a part that the plan does not have any more",
            Misfit::BegunTwice => "begins a step that was running already",
            Misfit::DoneTwice => "ends a step that was done already",
            Misfit::DeferredTooLate => "leaves off a step that had begun",
            Misfit::EndsFirst => {
                "ends a step before it began, by the clock; check the clocks and do both again"
            }
            Misfit::TooManyFasteners => {
                "counts more fasteners than the step has, as it is planned now; count again"
            }
            Misfit::NoSuchItem => "is about a thing or a tool that the plan does not have any more",
            Misfit::TooManyItems => {
                "tells of more of a thing or a tool than the plan has now; count again"
            }
            Misfit::GateClosed => {
                "went through a gate that is closed now: do what opens it, or answer for it"
            }
            Misfit::NoSuchPhoto => "is about a photo that is not here",
            Misfit::PhotoOfNothing => {
                "is a photo of something that is not here any more; open the photo and say what it is of"
            }
            Misfit::NoSuchOuting => {
                "is about an outing that is not described any more; describe it again"
            }
            Misfit::NoSuchLog => "is about a log that is not here; read it again",
            Misfit::TrialTakenOfOtherRuns => {
                "took a result for runs that have changed since; take the new one"
            }
            Misfit::NoSuchOption => "is about an option that is not here any more; name it again",
            Misfit::OptionTakenOnOtherGrounds => {
                "took an option on grounds that have changed since; look at Choose again and take it anew"
            }
            Misfit::CauseTakenOnOtherGrounds => {
                "takes a cause on other grounds than there are now; look at it again"
            }
            Misfit::NoSuchSort => {
                "is about a sort of part or a piece that is not here any more; describe it again"
            }
            Misfit::NoSuchTask => "is about a task that is not here any more; make its rule again",
            Misfit::ClosedOnOtherGrounds => {
                "closed the job on a recheck that has changed since; look at Service and close it again"
            }
            Misfit::Newer => {
                "was written by a newer program, so this job can be read here but not changed"
            }
        };
        format!("Entry {} {what}.", objection.position)
    })
}
