//! What is said of the plan and its steps, folded.

use super::{Misfit, Objection, fact, objection};
use crate::assemble::gate_open;
use crate::decide::check_plan;
use crate::entry::{Entry, Key};
use crate::job::Job;
use crate::plan::{Bench, Deferral, Estimate, Fastened, Progress, Stated, Told, Work};
use crate::supplies::{Said, Whereabouts};

/// Takes one entry into the bench, or says what does not fit.
pub(super) fn take(bench: &mut Bench, entry: &Entry, work: &Work) -> Option<Misfit> {
    match work {
        Work::PlanLaid(plan) if check_plan(plan).is_err() => return Some(Misfit::SenselessPlan),
        Work::PlanLaid(plan) => bench.plan = Some(fact(entry, plan.clone())),
        Work::PartStated { part, stated } => {
            bench
                .parts
                .insert(part.clone(), told(entry, stated.clone()));
        }
        Work::CrewStated(crew) => bench.crew = Some(told(entry, crew.clone())),
        Work::ItemTold { item, account } => {
            bench
                .items
                .insert(item.clone(), told(entry, account.clone()));
        }
        Work::ToolsCounted(counted) => {
            let counted = counted.iter();
            let counted =
                counted.map(|(tool, account)| (tool.clone(), told(entry, account.clone())));
            bench.tools.extend(counted);
        }
        _ => {}
    }
    let step = work.step()?;
    of_step(bench.progress.entry(step.clone()).or_default(), entry, work)
}

fn of_step(progress: &mut Progress, entry: &Entry, work: &Work) -> Option<Misfit> {
    match work {
        Work::StepBegun { .. } if running(progress) => return Some(Misfit::BegunTwice),
        Work::StepBegun { .. } => {
            // Begun again, a step starts over; that its gate may be passed stays true.
            *progress = Progress {
                begun: Some(told(entry, ())),
                overridden: progress.overridden.take(),
                estimate: progress.estimate.take().filter(|_| progress.done.is_none()),
                ..Progress::default()
            };
        }
        Work::StepDone { .. } if progress.done.is_some() => return Some(Misfit::DoneTwice),
        Work::StepDone { witnessed, .. } => {
            progress.deferred = None;
            progress.done = Some(told(entry, *witnessed));
        }
        Work::StepDeferred { .. } if running(progress) || progress.done.is_some() => {
            return Some(Misfit::DeferredTooLate);
        }
        Work::StepDeferred {
            reason,
            release,
            until,
            ..
        } => {
            let deferral = Deferral {
                reason: reason.clone(),
                release: release.clone(),
                until: until.clone(),
            };
            progress.deferred = Some(told(entry, deferral));
        }
        Work::FastenersIn {
            count, temporary, ..
        } => {
            let fastened = Fastened {
                count: *count,
                temporary: *temporary,
            };
            progress.fasteners = Some(told(entry, fastened));
        }
        Work::GateOverridden { reason, .. } => {
            progress.overridden = Some(told(entry, reason.clone()));
        }
        Work::StepAgain { reason, .. } => {
            *progress = Progress {
                again: Some(told(entry, reason.clone())),
                overridden: progress.overridden.take(),
                ..Progress::default()
            };
        }
        Work::StepEstimated { takes, most, .. } => {
            let (takes, most) = (takes.clone(), most.clone());
            progress.estimate = Some(told(entry, Estimate { takes, most }));
        }
        Work::PlanLaid(_)
        | Work::PartStated { .. }
        | Work::ItemTold { .. }
        | Work::ToolsCounted(_)
        | Work::CrewStated(_) => {}
    }
    None
}

/// What can only be judged when everything is known.
pub(super) fn close(job: &Job) -> Vec<Objection> {
    let bench = &job.bench;
    let mut objections = Vec::new();
    let mut object = |(entry, position): (&crate::entry::EntryId, u64), why| {
        objections.push(Objection {
            entry: entry.clone(),
            position,
            why,
        });
    };
    for (key, progress) in &bench.progress {
        let step = bench
            .plan()
            .and_then(|plan| Some(&plan.steps[plan.place(key)?]));
        let Some(step) = step else {
            if let Some(latest) = latest(progress) {
                object(latest, Misfit::NoSuchStep);
            }
            continue;
        };
        if let (Some(begun), Some(done)) = (&progress.begun, &progress.done)
            && done.at.timestamp() < begun.at.timestamp()
        {
            object((&done.entry, done.position), Misfit::EndsFirst);
        }
        if let Some(told) = &progress.fasteners
            && step.fasteners.is_none_or(|of| told.value.count > of)
        {
            object((&told.entry, told.position), Misfit::TooManyFasteners);
        }
        let seen = progress.done.as_ref().is_none_or(|done| done.value);
        let open =
            progress.overridden.is_some() || step.gate.is_none_or(|gate| gate_open(job, gate));
        if let Some(passed) = passed(progress).filter(|_| seen && !open) {
            object(passed, Misfit::GateClosed);
        }
    }
    for (key, told) in &bench.parts {
        let listed = job.inspected.supplies.contains_key(key);
        if !listed && bench.plan().is_none_or(|plan| plan.part(key).is_none()) {
            object((&told.entry, told.position), Misfit::NoSuchPart);
        }
    }
    objections.extend(accounts(bench));
    objections
}

/// Things and tools told of that the plan does not have any more, or not so many of.
fn accounts(bench: &Bench) -> Vec<Objection> {
    let plan = bench.plan();
    let items = bench.items.iter().map(|(key, told)| {
        let item = plan.and_then(|plan| Some(&plan.items[plan.item(key)?]));
        (told, item.map(|item| item.count))
    });
    let tools = bench.tools.iter().map(|(key, told)| {
        let tool = plan.and_then(|plan| Some(&plan.tools[plan.tool(key)?]));
        (told, tool.map(|tool| tool.count))
    });
    let mut objections: Vec<Objection> = Vec::new();
    for (told, of) in items.chain(tools) {
        let why = match of {
            None => Misfit::NoSuchItem,
            Some(of) if told.value.count > of => Misfit::TooManyItems,
            Some(_) => continue,
        };
        let objection = Objection {
            entry: told.entry.clone(),
            position: told.position,
            why,
        };
        // Several tools are counted in one entry.
        if !objections.contains(&objection) {
            objections.push(objection);
        }
    }
    objections
}

type At<'a> = (&'a crate::entry::EntryId, u64);

/// The entry by which a step went through its gate.
fn passed(progress: &Progress) -> Option<At<'_>> {
    let begun = progress
        .begun
        .as_ref()
        .map(|told| (&told.entry, told.position));
    begun.or_else(|| {
        progress
            .done
            .as_ref()
            .map(|told| (&told.entry, told.position))
    })
}

/// The last entry about a step.
fn latest(progress: &Progress) -> Option<At<'_>> {
    let Progress {
        begun,
        done,
        deferred,
        fasteners,
        overridden,
        estimate,
        again,
    } = progress;
    let all = [
        begun.as_ref().map(|told| (&told.entry, told.position)),
        done.as_ref().map(|told| (&told.entry, told.position)),
        deferred.as_ref().map(|told| (&told.entry, told.position)),
        fasteners.as_ref().map(|told| (&told.entry, told.position)),
        overridden.as_ref().map(|told| (&told.entry, told.position)),
        estimate.as_ref().map(|told| (&told.entry, told.position)),
        again.as_ref().map(|told| (&told.entry, told.position)),
    ];
    all.into_iter()
        .flatten()
        .max_by_key(|(_, position)| *position)
}

fn running(progress: &Progress) -> bool {
    progress.begun.is_some() && progress.done.is_none()
}

/// A part of the list and a part of the plan with the same name are the same thing.
pub(super) fn supply(bench: &mut Bench, entry: &Entry, key: &Key, said: &Said) {
    let status = said.whereabouts.and_then(Whereabouts::status);
    if let Some(status) = status {
        let expected = said.expected;
        let stated = Stated { status, expected };
        bench.parts.insert(key.clone(), told(entry, stated));
    }
}

fn told<T>(entry: &Entry, value: T) -> Told<T> {
    Told {
        entry: entry.new.id.clone(),
        position: entry.position,
        at: entry.new.happened_at.clone(),
        value,
    }
}

pub(super) fn objected(entry: &Entry, why: Option<Misfit>) -> Option<Objection> {
    why.map(|why| objection(entry, why))
}
