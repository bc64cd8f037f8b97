//! The lines of the account, one for each thing the job names.

use clearance::Verdict;
use jiff::Timestamp;

use super::{About, Lack, Line, Reason, Stand};
use crate::assemble::{self, Standing, gate_open};
use crate::entry::Key;
use crate::inspect::parts::{self, answer, is_open};
use crate::inspect::reread::{Change, changes};
use crate::inspect::{How, Settled, Todo};
use crate::job::{Fact, Job};
use crate::joints::{JointState, Tightening};
use crate::plan::{Account, Ask, Excuse, Opens, Plan, Progress, Step, Told, seconds};
use crate::torque;

/// Every step, and its fasteners where they are counted.
pub(super) fn steps(job: &Job, plan: &Plan, standings: &[Standing]) -> Vec<Line> {
    let mut lines = Vec::new();
    for (step, standing) in plan.steps.iter().zip(standings) {
        let left_off = left_off(job, step);
        let stand = match (&standing.state, &left_off) {
            (assemble::State::Done { .. }, _) => Stand::Whole,
            (_, Some(reason)) => Stand::Reason(reason.clone()),
            (_, None) => Stand::Open(Lack::Todo),
        };
        let mut line = Line::new(
            About::Step(step.key.clone()),
            &step.name,
            (stand, step.opens),
        );
        // A step left off stays undone whatever the reason.
        if left_off.is_some() && line.holds.is_none_or(|holds| holds > step.opens) {
            line.holds = Some(step.opens);
        }
        lines.push(line);
        if step.fasteners.is_none() {
            continue;
        }
        let stand = match (standing.loose, left_off) {
            (None, _) => Stand::Whole,
            (Some(_), Some(reason)) => Stand::Reason(reason),
            (Some(loose), None) => Stand::Open(Lack::Loose(loose)),
        };
        let about = About::Fasteners(step.key.clone());
        let mut line = Line::new(about, &step.name, (stand, step.opens));
        line.of = step.fasteners;
        lines.push(line);
    }
    lines
}

fn left_off(job: &Job, step: &Step) -> Option<Reason> {
    let told = job.bench.progress.get(&step.key)?.deferred.as_ref()?;
    Some(Reason {
        excuse: told.value.reason.clone(),
        count: None,
        entry: told.entry.clone(),
    })
}

/// Every thing to account for.
pub(super) fn items(job: &Job, plan: &Plan) -> Vec<Line> {
    let line = |(place, item): (usize, &crate::plan::Item)| {
        let about = About::Item(place, item.key.clone(), item.kind);
        let worked = item.step.iter().filter_map(|step| worked(job, step)).max();
        let told = job.bench.items.get(&item.key);
        let stand = told_of(told, item.count, worked);
        let mut line = Line::new(about, &item.name, (stand, item.opens(plan)));
        line.of = Some(item.count);
        line
    };
    plan.items.iter().enumerate().map(line).collect()
}

/// Every tool: one that is not back may be in the pump, so it holds up floating.
pub(super) fn tools(job: &Job, plan: &Plan) -> Vec<Line> {
    let line = |(place, tool): (usize, &crate::plan::Tool)| {
        let used = plan
            .steps
            .iter()
            .filter(|step| step.tools.contains(&tool.key));
        let worked = used.filter_map(|step| worked(job, &step.key)).max();
        let told = job.bench.tools.get(&tool.key);
        let stand = told_of(told, tool.count, worked);
        let about = About::Tool(place, tool.key.clone());
        let mut line = Line::new(about, &tool.name, (stand, Opens::Float));
        line.of = Some(tool.count);
        line
    };
    plan.tools.iter().enumerate().map(line).collect()
}

/// The position at which a step was last begun, or sent back.
fn worked(job: &Job, step: &Key) -> Option<u64> {
    let Progress {
        begun, done, again, ..
    } = job.bench.progress.get(step)?;
    let seen = done.as_ref().filter(|done| done.value);
    let begun = begun.as_ref().map(|told| told.position);
    // Where nobody pressed Begin, the step was worked when it was said to be done.
    let begun = begun.or(seen.map(|told| told.position));
    begun.max(again.as_ref().map(|told| told.position))
}

/// All in their place and told of since; or some, with a reason for the rest.
fn told_of(told: Option<&Told<Account>>, of: u16, worked: Option<u64>) -> Stand {
    let Some(told) = told else {
        return Stand::Open(Lack::Untold);
    };
    let Account { count, missing } = &told.value;
    match missing {
        _ if *count == of => {
            if worked.is_some_and(|worked| worked > told.position) {
                Stand::Open(Lack::Since)
            } else {
                Stand::Whole
            }
        }
        // The plan was changed since, and has fewer now.
        _ if *count > of => Stand::Open(Lack::Short { count: *count, of }),
        Some(excuse) => Stand::Reason(Reason {
            excuse: excuse.clone(),
            count: Some((*count, of)),
            entry: told.entry.clone(),
        }),
        None => Stand::Open(Lack::Short { count: *count, of }),
    }
}

/// Every gate: open now, passed with a reason, left off with its step, or closed.
pub(super) fn gates(job: &Job, plan: &Plan) -> Vec<Line> {
    let line = |step: &Step| {
        let gate = step.gate?;
        let passed = job.bench.progress.get(&step.key);
        let passed = passed.and_then(|progress| progress.overridden.as_ref());
        let stand = if gate_open(job, gate) {
            Stand::Whole
        } else if let Some(told) = passed {
            Stand::Reason(Reason {
                excuse: Excuse::own(told.value.clone()),
                count: None,
                entry: told.entry.clone(),
            })
        } else if let Some(reason) = left_off(job, step) {
            Stand::Reason(reason)
        } else {
            Stand::Open(Lack::Closed(gate))
        };
        let about = About::Gate(step.key.clone());
        Some(Line::new(about, &step.name, (stand, step.opens)))
    };
    plan.steps.iter().filter_map(line).collect()
}

/// Every wait between two steps: its clock has run, runs, or was never set going.
pub(super) fn waits(job: &Job, plan: &Plan, now: Timestamp) -> Vec<Line> {
    let line = |(place, rule): (usize, &crate::plan::Rule)| {
        let Ask::After {
            first,
            lag: Some(lag),
            ..
        } = &rule.ask
        else {
            return None;
        };
        let step = &plan.steps[plan.place(first)?];
        let done = job.bench.progress.get(first);
        let done = done.and_then(|progress| progress.done.as_ref());
        let stand = match done {
            Some(done) => {
                let over = done.at.timestamp().as_second().saturating_add(seconds(lag));
                if over <= now.as_second() {
                    Stand::Whole
                } else {
                    let over = Timestamp::from_second(over).unwrap_or(Timestamp::MAX);
                    Stand::Open(Lack::Until(over))
                }
            }
            None => left_off(job, step).map_or(Stand::Open(Lack::Before), Stand::Reason),
        };
        Some(Line::new(
            About::Wait(place),
            &step.name,
            (stand, step.opens),
        ))
    };
    plan.rules.iter().enumerate().filter_map(line).collect()
}

/// Every circle of screws: in, torqued, marked, no stand-ins, by a figure that holds, with a wrench
/// that is named.
pub(super) fn joints(job: &Job) -> Vec<Line> {
    let joints = job.joints_in_order().into_iter();
    let line = |(key, state): (&Key, &JointState)| {
        let joint = &state.joint.value;
        let (in_place, torqued, marked) = state.counts();
        let told = state.fastened.as_ref();
        let temporary = told.is_some_and(|told| told.value.temporary);
        let turned = matches!(joint.tightening, Tightening::Turn { .. });
        let stand = if !state.done() {
            Stand::Open(Lack::Screws {
                in_place,
                torqued,
                marked,
                of: joint.count,
                temporary,
            })
        } else if torque::card(job, state).is_some_and(|card| card.stop.is_some()) {
            Stand::Open(Lack::Stopped)
        } else if state.fittings.tool.is_none() && !turned {
            Stand::Open(Lack::NoWrench)
        } else {
            Stand::Whole
        };
        let mut line = Line::new(
            About::Joint(key.clone()),
            &joint.name,
            (stand, Opens::Closed),
        );
        line.of = Some(u16::from(joint.count));
        line
    };
    joints.map(line).collect()
}

/// Every joint that is no circle of screws: all ticked, and what is read within its limit.
pub(super) fn fits(job: &Job) -> Vec<Line> {
    let fits = job.fits_in_order().into_iter();
    let line = |(key, state): (&Key, &crate::fits::FitState)| {
        let missing = state.open().len() + usize::from(!state.reading_holds());
        let stand = match missing {
            _ if job.fit_done(state) => Stand::Whole,
            0 => Stand::Open(Lack::Stopped),
            n => Stand::Open(Lack::Ticks(n)),
        };
        let name = &state.fit.value.name;
        Line::new(About::Fit(key.clone()), name, (stand, Opens::Closed))
    };
    fits.map(line).collect()
}

/// The gap once more, against the result: at every clock that can be compared, the leaves must
/// leave room for one and the same gap.
pub(super) fn reread(job: &Job) -> Option<Line> {
    let taken = job.accepted.as_ref();
    let again = job.inspected.reread.as_ref();
    if taken.is_none() && again.is_none() {
        return None;
    }
    let since = again.filter(|again| taken.is_none_or(|taken| taken.position < again.position));
    let stand = match since {
        Some(_) if let Some(told) = answer(job, "reread-out") => taken_as_is(told),
        None => Stand::Open(Lack::NotRead),
        Some(again) => {
            let changes = changes(job, &again.value);
            let any = |change| changes.contains(&change);
            let moved = any(Change::Tighter) || any(Change::Wider);
            let told = again.value.shown;
            if moved || told == Some(Verdict::Out) {
                Stand::Open(Lack::Moved)
            } else if any(Change::Unread) || !any(Change::Same) || told != Some(Verdict::In) {
                Stand::Open(Lack::HalfRead)
            } else {
                Stand::Whole
            }
        }
    };
    Some(Line::new(About::Reread, "", (stand, Opens::Closed)))
}

/// Every other result that is decided: within its limit, taken as it is with a reason, or open.
pub(super) fn results(job: &Job) -> Vec<Line> {
    let teardown = parts::teardown(job);
    let undecided = |own| {
        let mut all = teardown.undecided.iter();
        all.any(|unfit| unfit.own() == Some(own))
    };
    let line = |own: &'static str| {
        let out = teardown.unfit.iter().any(|unfit| unfit.own() == Some(own));
        let stand = match answer(job, own) {
            Some(told) => taken_as_is(told),
            None if out => Stand::Open(Lack::Undealt),
            None if parts::decided(job, own) && !undecided(own) => Stand::Whole,
            None => return None,
        };
        Some(Line::new(About::Result(own), "", (stand, Opens::Closed)))
    };
    let others = parts::OWN.into_iter().filter(|own| *own != "reread-out");
    others.filter_map(line).collect()
}

fn taken_as_is(told: &Fact<Settled>) -> Stand {
    Stand::Reason(Reason {
        excuse: Excuse::own(told.value.reason.clone()),
        count: None,
        entry: told.entry.clone(),
    })
}

/// Every finding: dealt with, taken as it is with a reason, or open.
pub(super) fn findings(job: &Job) -> Vec<Line> {
    let findings = job.inspected.findings_in_order().into_iter();
    let line = |(key, state): (&Key, &crate::inspect::FindingState)| {
        let finding = &state.finding;
        let accepted = state.settled.as_ref();
        let accepted = accepted.filter(|settled| settled.value.how == How::Accepted);
        let reason = match (accepted, finding.value.todo) {
            (Some(settled), _) => Some((settled.value.reason.clone(), &settled.entry)),
            (None, Todo::Fit) if state.settled.is_none() && !finding.value.reason.is_empty() => {
                Some((finding.value.reason.clone(), &finding.entry))
            }
            _ => None,
        };
        let stand = match reason {
            _ if is_open(state) => Stand::Open(Lack::Undealt),
            Some((words, entry)) => Stand::Reason(Reason {
                excuse: Excuse::own(words),
                count: None,
                entry: entry.clone(),
            }),
            None => Stand::Whole,
        };
        let about = About::Finding(key.clone());
        Line::new(about, "", (stand, Opens::Closed))
    };
    findings.map(line).collect()
}
