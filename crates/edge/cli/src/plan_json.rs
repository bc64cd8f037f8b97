//! `plan --json`: the plan and its answers for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. Times are instants
//! in UTC, spans are seconds, and what is not known is null.

use jiff::Timestamp;
use report::page::assemble::{View, crew_words, page, table};
use report::page::flat;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::assemble::timetable::{Slot, Timetable};
use workshop::assemble::{Assembly, Block, Level, Standing, State, assess, words};
use workshop::draft::bench::{OPENS, STATUSES};
use workshop::draft::word;
use workshop::plan::{Plan, Step};

use crate::document::{lines, schema_of};

const VERSION: u32 = 2;

/// What to do next, what may not wait, what is left off, and how ready the craft is.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Document {
    /// Which document this is.
    #[serde(rename = "document")]
    name: Name,
    /// The version of its shape.
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// The program that wrote it.
    program: &'static str,
    /// The job's id.
    job: String,
    /// The time it holds for.
    now: String,
    /// The answer in one sentence.
    answer: String,
    /// What holds it up.
    detail: String,
    /// Name of the plan; null while there is none.
    plan: Option<String>,
    /// Steps that are done.
    done: usize,
    /// Key of the step to do next; null when none can be done.
    next: Option<String>,
    /// The steps, in the order of the plan.
    steps: Vec<StepLine>,
    /// Pairs of hands the times are planned with, and their hours in words.
    hands: String,
    /// When each step is worked; null where no order of the steps was found, or there is no plan.
    timetable: Option<Times>,
    /// Working times that run, the one that runs out first in front.
    clocks: Vec<Clock>,
    /// What cannot all be true, hardest first.
    contradictions: Vec<Contradiction>,
    /// The three steps of readiness.
    readiness: Vec<Readiness>,
    /// The parts of the plan.
    parts: Vec<Part>,
    /// How many entries of the journal no longer fit the rest.
    open_items: usize,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright plan")]
    Plan,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum StateName {
    Done,
    DoneUnwitnessed,
    Running,
    Ready,
    Waits,
    Deferred,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct StepLine {
    /// Names the step in its plan.
    key: String,
    /// What is done.
    name: String,
    /// How it stands.
    state: StateName,
    /// It should have begun or ended by now.
    late: bool,
    /// When it can begin at the earliest, or when it began.
    earliest: String,
    /// When it must begin; null where nothing bounds that.
    latest: Option<String>,
    /// When it ends if it begins at the earliest.
    ends: String,
    /// When it is planned to begin, with hands, tools and hours; null where it has no time.
    planned_from: Option<String>,
    /// When it is planned to be over.
    planned_until: Option<String>,
    /// Why it must be done again; null unless it must.
    again: Option<String>,
    /// Why it may not begin, each in words.
    waits: Vec<String>,
    /// Why it is left off; null unless it is.
    reason: Option<String>,
    /// What ends that.
    release: Option<String>,
    /// Key of the step that ends it, where it is one.
    until: Option<String>,
    /// How many fasteners it has; null where they are not counted.
    fasteners: Option<u16>,
    /// How many of them are in.
    fasteners_in: Option<u16>,
    /// How many of those only stand in.
    fasteners_temporary: Option<u16>,
    /// The readiness it holds up until it is done.
    opens: &'static str,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Times {
    /// When it begins: now, or the next round time.
    begins: String,
    /// When all of it is over.
    finish: String,
    /// No order of the steps is over sooner.
    bound: String,
    /// Whether this is the soonest there is.
    proved: bool,
    /// When it may float; null where that cannot be said.
    may_float: Option<String>,
    /// When it may go full throttle.
    may_go_full_throttle: Option<String>,
    /// When it is closed.
    closed: Option<String>,
    /// Keys of the steps without a time, because a part is missing and no day is known for it.
    untimed: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Clock {
    /// Key of the step that set it running.
    first: String,
    /// Key of the step that must come in time.
    step: String,
    /// It must have ended by then, not only begun.
    ended: bool,
    /// By when.
    by: String,
    /// Seconds left, below zero when it has run out.
    left_s: i64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Contradiction {
    /// How much is missing.
    #[schemars(range(min = 1))]
    short_s: i64,
    /// Rules of the plan that take part, counted from 1.
    rules: Vec<usize>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Readiness {
    /// Which.
    opens: &'static str,
    /// Whether it is reached.
    reached: bool,
    /// Keys of the steps that hold it up.
    blocked_by: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Part {
    /// Names the part in its plan.
    key: String,
    /// Its name.
    name: String,
    /// Where it is; null when nobody has said.
    status: Option<&'static str>,
    /// The day it is expected.
    expected: Option<String>,
}

/// The document.
pub(crate) fn write(view: &View<'_>) -> String {
    let found = table(view);
    let view = &View {
        table: Some(found.as_ref()),
        ..*view
    };
    let table = found.as_ref().ok();
    let page = page(view);
    let assembly = assess(view.job, view.now.timestamp());
    let both = view.job.bench.plan().zip(assembly.as_ref());
    let key = |plan: &Plan, place: usize| plan.steps[place].key.to_string();
    lines(&Document {
        name: Name::Plan,
        version: VERSION,
        program: workshop::PROGRAM,
        job: view.id.to_string(),
        now: instant(view.now.timestamp()),
        answer: page.answer.headline,
        detail: flat(&page.answer.detail),
        plan: both.map(|(plan, _)| plan.name.clone()),
        done: both.map_or(0, |(_, assembly)| assembly.done()),
        next: both.and_then(|(plan, assembly)| Some(key(plan, assembly.next()?))),
        steps: both.map_or_else(Vec::new, |(plan, assembly)| {
            steps(view, plan, assembly, table)
        }),
        hands: crew_words(&view.job.bench.crew()),
        timetable: both.and_then(|(plan, _)| table.map(|table| times(plan, table))),
        clocks: both.map_or_else(Vec::new, |(plan, assembly)| clocks(plan, assembly)),
        contradictions: assembly.as_ref().map_or_else(Vec::new, contradictions),
        readiness: both.map_or_else(Vec::new, |(plan, assembly)| {
            let levels = assembly.levels.iter();
            levels.map(|level| readiness(plan, level)).collect()
        }),
        parts: view
            .job
            .bench
            .plan()
            .map_or_else(Vec::new, |plan| parts(view, plan)),
        open_items: view.objections.len(),
    })
}

/// The schema of the document.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn instant(at: Timestamp) -> String {
    at.to_string()
}

fn times(plan: &Plan, table: &Timetable) -> Times {
    let [float, throttle, closed] = table.ready.map(|at| at.map(instant));
    let untimed = table.untimed.iter();
    Times {
        begins: instant(table.begins),
        finish: instant(table.finish),
        bound: instant(table.bound),
        proved: table.best(),
        may_float: float,
        may_go_full_throttle: throttle,
        closed,
        untimed: untimed
            .map(|left| plan.steps[left.step].key.to_string())
            .collect(),
    }
}

fn steps(
    view: &View<'_>,
    plan: &Plan,
    assembly: &Assembly,
    table: Option<&Timetable>,
) -> Vec<StepLine> {
    let both = plan.steps.iter().zip(&assembly.steps).enumerate();
    both.map(|(place, (step, standing))| {
        let slot = table.and_then(|table| table.slots[place]);
        line(view, plan, (step, standing), slot)
    })
    .collect()
}

fn line(
    view: &View<'_>,
    plan: &Plan,
    (step, standing): (&Step, &Standing),
    slot: Option<Slot>,
) -> StepLine {
    let progress = view.job.bench.of(&step.key);
    let deferred = progress.deferred.map(|told| told.value);
    let fastened = progress.fasteners.map(|told| told.value);
    let waits = match &standing.state {
        State::Waits(waits) => waits.as_slice(),
        _ => &[],
    };
    StepLine {
        key: step.key.to_string(),
        name: step.name.clone(),
        state: match standing.state {
            State::Done { witnessed, .. } if witnessed => StateName::Done,
            State::Done { .. } => StateName::DoneUnwitnessed,
            State::Running { .. } => StateName::Running,
            State::Ready => StateName::Ready,
            State::Waits(_) => StateName::Waits,
            State::Deferred => StateName::Deferred,
        },
        late: standing.late,
        earliest: instant(standing.earliest),
        latest: standing.latest.map(instant),
        ends: instant(standing.ends),
        planned_from: slot.map(|slot| instant(slot.from)),
        planned_until: slot.map(|slot| instant(slot.until)),
        again: progress.again.map(|told| told.value),
        waits: (waits.iter())
            .map(|wait| words::wait(plan, wait, view.now))
            .collect(),
        reason: deferred.as_ref().map(|told| told.reason.said()),
        release: deferred.as_ref().map(|told| told.release.clone()),
        until: deferred
            .and_then(|told| told.until)
            .map(|key| key.to_string()),
        fasteners: step.fasteners,
        fasteners_in: fastened.map(|told| told.count),
        fasteners_temporary: fastened.map(|told| told.temporary),
        opens: word(&OPENS, step.opens),
    }
}

fn clocks(plan: &Plan, assembly: &Assembly) -> Vec<Clock> {
    let clock = |clock: &workshop::assemble::Clock| Clock {
        first: plan.steps[clock.first].key.to_string(),
        step: plan.steps[clock.step].key.to_string(),
        ended: clock.ended,
        by: instant(clock.by),
        left_s: clock.by.as_second() - assembly.now.as_second(),
    };
    assembly.clocks.iter().map(clock).collect()
}

fn contradictions(assembly: &Assembly) -> Vec<Contradiction> {
    use workshop::assemble::{Because, Source};
    let rules = |found: &workshop::assemble::Contradiction| {
        let rules = found.parts.iter().filter_map(|part| match part.source {
            Source::Because(Because::Rule(rule)) => Some(rule + 1),
            _ => None,
        });
        rules.collect()
    };
    let found = assembly.contradictions.iter();
    found
        .map(|found| Contradiction {
            short_s: found.short,
            rules: rules(found),
        })
        .collect()
}

fn readiness(plan: &Plan, level: &Level) -> Readiness {
    let keys = level.blocks.iter().filter_map(Block::step);
    Readiness {
        opens: word(&OPENS, level.opens),
        reached: level.blocks.is_empty(),
        blocked_by: keys
            .map(|place| plan.steps[place].key.to_string())
            .collect(),
    }
}

fn parts(view: &View<'_>, plan: &Plan) -> Vec<Part> {
    let part = |part: &workshop::plan::Part| {
        let told = view.job.bench.parts.get(&part.key).map(|told| &told.value);
        Part {
            key: part.key.to_string(),
            name: part.name.clone(),
            status: told.map(|told| word(&STATUSES, told.status)),
            expected: told
                .and_then(|told| told.expected)
                .map(|day| day.to_string()),
        }
    };
    plan.parts.iter().map(part).collect()
}
