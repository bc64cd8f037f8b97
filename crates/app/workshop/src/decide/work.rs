//! Whether something may be said of the plan and its steps.

use std::collections::BTreeSet;

use jiff::ZonedDateTime;
use quantity::Entered;

use super::{LONGEST_NOTE, LONGEST_TEXT, Range, account, filled, in_order, text, within};
use crate::assemble::{State, assess, gate_open, ring, words};
use crate::entry::Key;
use crate::job::Job;
use crate::plan::{Ask, Crew, Plan, Step, Work};
use crate::refusal::{Obstacle, Refusal};

/// The most steps, rules or parts of a plan.
pub const MOST_STEPS: usize = 200;

const DURATION: Range = Range {
    least: 0.0,
    greatest: 31_622_400.0,
};

/// The most pairs of hands, and of one tool.
const MOST_HANDS: u16 = 20;
/// The most of one thing to account for.
const MOST_ITEMS: u16 = 99;
/// The most shifts of a week.
const MOST_SHIFTS: usize = 14;

/// What is done now.
pub(super) fn check(job: &Job, work: &Work, now: &ZonedDateTime) -> Result<(), Refusal> {
    sane(job, work)?;
    let Some(step) = work.step() else {
        return Ok(());
    };
    let plan = laid(job)?;
    let place = plan.place_of(step)?;
    let named = || plan.steps[place].name.clone();
    let progress = job.bench.of(step);
    let running = progress.begun.is_some() && progress.done.is_none();
    match work {
        Work::StepBegun { .. } | Work::StepDeferred { .. } if running => {
            Err(Obstacle::Running { step: named() })
        }
        Work::StepBegun { .. } => return may_begin(job, plan, place, now),
        Work::StepDone { .. } if progress.done.is_some() => Err(Obstacle::Done { step: named() }),
        Work::StepDone { witnessed, .. } => match progress.begun {
            Some(_) if !witnessed => Err(Obstacle::Running { step: named() }),
            Some(begun) if now.timestamp() < begun.at.timestamp() => Err(Obstacle::EndsFirst {
                step: named(),
                began: words::when(begun.at.timestamp(), now),
                ended: words::when(now.timestamp(), now),
            }),
            None if *witnessed => return may_begin(job, plan, place, now),
            _ => Ok(()),
        },
        Work::StepDeferred { .. } | Work::StepEstimated { .. } if progress.done.is_some() => {
            Err(Obstacle::Done { step: named() })
        }
        Work::StepAgain { .. } if progress.begun.is_none() && progress.done.is_none() => {
            Err(Obstacle::NotBegun { step: named() })
        }
        Work::StepAgain { .. } => return not_followed(job, plan, place),
        Work::GateOverridden { .. }
            if plan.steps[place]
                .gate
                .is_none_or(|gate| gate_open(job, gate))
                || progress.overridden.is_some() =>
        {
            Err(Obstacle::NoGate { step: named() })
        }
        _ => Ok(()),
    }
    .map_err(Refusal::Work)
}

/// What has happened already, or is no act at the bench: only what makes no sense is refused.
pub(super) fn sane(job: &Job, work: &Work) -> Result<(), Refusal> {
    match work {
        Work::PlanLaid(plan) => check_plan(plan),
        Work::StepBegun { step } | Work::StepDone { step, .. } => {
            laid(job)?.place_of(step).map(drop)
        }
        Work::StepDeferred {
            step,
            reason,
            release,
            until,
        } => {
            let plan = laid(job)?;
            plan.place_of(step)?;
            account::excuse(reason)?;
            said("release", release)?;
            match until {
                Some(until) => waits_for(job, plan, step, until),
                None => Ok(()),
            }
        }
        Work::StepEstimated { step, takes, most } => {
            laid(job)?.place_of(step)?;
            within("takes", takes, &DURATION)?;
            most.as_ref().map_or(Ok(()), |most| {
                within("most", most, &DURATION)?;
                no_less(takes, most)
            })
        }
        Work::CrewStated(crew) => check_crew(crew),
        Work::ItemTold { item, account } => account::item(laid(job)?, item, account),
        Work::ToolsCounted(counted) => account::tools(laid(job)?, counted),
        Work::GateOverridden { step, reason } | Work::StepAgain { step, reason } => {
            laid(job)?.place_of(step)?;
            said("reason", reason)
        }
        Work::FastenersIn {
            step,
            count,
            temporary,
        } => {
            let plan = laid(job)?;
            let step = &plan.steps[plan.place_of(step)?];
            counted(step, *count, *temporary).map_err(Refusal::Work)
        }
        Work::PartStated { part, .. } => laid(job)?.part_of(part).map(drop),
    }
}

/// A plan may contradict itself, and is then answered so; it must only make sense.
pub(crate) fn check_plan(plan: &Plan) -> Result<(), Refusal> {
    said("name", &plan.name)?;
    many(plan.steps.len(), "1 to 200 steps")?;
    many(plan.rules.len().max(1), "at most 200 rules")?;
    many(plan.parts.len().max(1), "at most 200 parts")?;
    many(plan.tools.len().max(1), "at most 200 tools")?;
    many(plan.items.len().max(1), "at most 200 things to account for")?;
    unlike(plan.steps.iter().map(|step| &step.key))?;
    unlike(plan.parts.iter().map(|part| &part.key))?;
    unlike(plan.tools.iter().map(|tool| &tool.key))?;
    unlike(plan.items.iter().map(|item| &item.key))?;
    for part in &plan.parts {
        said("name", &part.name)?;
    }
    for tool in &plan.tools {
        said("name", &tool.name)?;
        within_count("tools", tool.count, MOST_HANDS)?;
    }
    for item in &plan.items {
        said("name", &item.name)?;
        within_count("items", item.count, MOST_ITEMS)?;
        if let Some(step) = &item.step {
            plan.place_of(step)?;
        }
    }
    for step in &plan.steps {
        check_step(plan, step)?;
    }
    for rule in &plan.rules {
        text("why", &rule.why, LONGEST_TEXT)?;
        let [first, then] = rule.ask.steps();
        let (one, other) = (plan.place_of(first)?, plan.place_of(then)?);
        let alone = matches!(
            rule.ask,
            crate::plan::Ask::NotBefore { .. } | crate::plan::Ask::FinishedBy { .. }
        );
        if one == other && !alone {
            let step = plan.steps[one].name.clone();
            return Err(Refusal::Work(Obstacle::ToItself { step }));
        }
        if let Some(time) = rule.ask.time() {
            within("time", time, &DURATION)?;
        }
    }
    match ring(plan) {
        Some(steps) => {
            let names = steps.iter().chain(steps.first());
            let steps = names.map(|place| plan.steps[*place].name.clone()).collect();
            Err(Refusal::Work(Obstacle::Ring { steps }))
        }
        None => Ok(()),
    }
}

fn check_step(plan: &Plan, step: &Step) -> Result<(), Refusal> {
    said("name", &step.name)?;
    text("caution", &step.caution, LONGEST_TEXT)?;
    text("group", &step.group, LONGEST_TEXT)?;
    text("how", &step.how, LONGEST_NOTE)?;
    // What only waits for a gauge or a hose takes no hands.
    if step.hands > 0 {
        within_count("hands", step.hands, MOST_HANDS)?;
    }
    let mut tools = step.tools.iter();
    tools.try_for_each(|key| plan.tool_of(key).map(drop))?;
    within("takes", &step.takes, &DURATION)?;
    if let Some(most) = &step.most {
        within("most", most, &DURATION)?;
        no_less(&step.takes, most)?;
    }
    if step.fasteners == Some(0) {
        return Err(Refusal::NotACount {
            field: "fasteners",
            text: "0".to_owned(),
            allowed: "how many fasteners there are, or nothing",
        });
    }
    let mut needs = step.needs.iter();
    needs.try_for_each(|key| plan.part_of(key).map(drop))
}

fn no_less(takes: &Entered, most: &Entered) -> Result<(), Refusal> {
    if takes.value.total_cmp(&most.value).is_eq() {
        Ok(())
    } else {
        in_order("takes", takes, most)
    }
}

fn unlike<'a>(keys: impl Iterator<Item = &'a Key>) -> Result<(), Refusal> {
    let mut known = BTreeSet::new();
    for key in keys {
        if !known.insert(key) {
            return Err(Refusal::Work(Obstacle::Twice {
                key: key.to_string(),
            }));
        }
    }
    Ok(())
}

fn many(number: usize, allowed: &'static str) -> Result<(), Refusal> {
    if (1..=MOST_STEPS).contains(&number) {
        return Ok(());
    }
    Err(Refusal::NotACount {
        field: "steps",
        text: number.to_string(),
        allowed,
    })
}

fn within_count(field: &'static str, count: u16, most: u16) -> Result<(), Refusal> {
    if (1..=most).contains(&count) {
        return Ok(());
    }
    Err(Refusal::NotACount {
        field,
        text: count.to_string(),
        allowed: match field {
            "hands" => "1 to 20 pairs of hands",
            "tools" => "1 to 20 of a tool",
            _ => "1 to 99 of a thing",
        },
    })
}

fn check_crew(crew: &Crew) -> Result<(), Refusal> {
    within_count("hands", crew.hands, MOST_HANDS)?;
    if crew.shifts.len() > MOST_SHIFTS {
        return Err(Refusal::NotACount {
            field: "hours",
            text: crew.shifts.len().to_string(),
            allowed: "at most 14 stretches of hours a week",
        });
    }
    let empty = crew.shifts.iter().any(|shift| shift.days.is_empty());
    if empty {
        return Err(Refusal::Empty { field: "hours" });
    }
    Ok(())
}

/// Whether a step may be left off until another ends: not where that one waits for it in turn, by
/// a rule or because it is left off itself.
fn waits_for(job: &Job, plan: &Plan, step: &Key, until: &Key) -> Result<(), Refusal> {
    let named = |key: &Key| {
        plan.place_of(key)
            .map(|place| plan.steps[place].name.clone())
    };
    plan.place_of(until)?;
    let mut chain = vec![until.clone()];
    let mut at = 0;
    while at < chain.len() {
        let key = chain[at].clone();
        if key == *step {
            return Err(Refusal::Work(Obstacle::WaitsForItself {
                step: named(step)?,
                until: named(until)?,
            }));
        }
        let left_off = job.bench.of(&key).deferred;
        let next = left_off.and_then(|told| told.value.until);
        let before = plan.rules.iter().filter_map(|rule| match &rule.ask {
            Ask::After { first, then, .. } if *then == key => Some(first.clone()),
            _ => None,
        });
        for key in before.chain(next) {
            if !chain.contains(&key) {
                chain.push(key);
            }
        }
        at += 1;
    }
    Ok(())
}

/// A step may be done anew only while nothing that rests on it has begun.
fn not_followed(job: &Job, plan: &Plan, place: usize) -> Result<(), Refusal> {
    let step = &plan.steps[place];
    let begun = |key: &Key| {
        let progress = job.bench.of(key);
        progress.begun.is_some() || progress.done.is_some()
    };
    let follower = plan.rules.iter().find_map(|rule| {
        let [first, then] = rule.ask.steps();
        (*first == step.key && *then != step.key && begun(then)).then_some(then)
    });
    match follower.and_then(|key| plan.place(key)) {
        Some(by) => Err(Refusal::Work(Obstacle::Followed {
            step: step.name.clone(),
            by: plan.steps[by].name.clone(),
        })),
        None => Ok(()),
    }
}

fn said(field: &'static str, words: &str) -> Result<(), Refusal> {
    filled(field, words)?;
    text(field, words, LONGEST_TEXT)
}

fn counted(step: &Step, count: u16, temporary: u16) -> Result<(), Obstacle> {
    let named = || step.name.clone();
    let of = step
        .fasteners
        .ok_or_else(|| Obstacle::NoFasteners { step: named() })?;
    if count > of {
        Err(Obstacle::TooMany { count, of })
    } else if temporary > 0 && !step.temporary {
        Err(Obstacle::NotTemporary { step: named() })
    } else if temporary > count {
        Err(Obstacle::TooManyTemporary { temporary, count })
    } else {
        Ok(())
    }
}

/// A step may begin when the page says so; one left off or done is looked at as if it were open.
fn may_begin(job: &Job, plan: &Plan, place: usize, now: &ZonedDateTime) -> Result<(), Refusal> {
    let step = &plan.steps[place];
    let named = || step.name.clone();
    let mut open = job.clone();
    if job.bench.of(&step.key).done.is_some() {
        not_followed(job, plan, place)?;
    }
    if let Some(progress) = open.bench.progress.get_mut(&step.key) {
        (progress.begun, progress.done, progress.deferred) = (None, None, None);
    }
    let assembly = assess(&open, now.timestamp()).ok_or(Refusal::Work(Obstacle::NoPlan))?;
    match &assembly.steps[place].state {
        State::Waits(waits) => Err(Refusal::Work(Obstacle::Waits {
            step: named(),
            why: waits
                .iter()
                .map(|wait| words::wait(plan, wait, now))
                .collect(),
        })),
        _ => Ok(()),
    }
}

fn laid(job: &Job) -> Result<&Plan, Refusal> {
    job.bench.plan().ok_or(Refusal::Work(Obstacle::NoPlan))
}
