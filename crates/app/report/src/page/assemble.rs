//! The Assemble page: what next, what may not wait, what is left off, how ready the craft is.

mod bars;
mod evidence;
pub(crate) mod lists;
mod next;
pub(crate) mod say;
mod time;

use jiff::{Timestamp, ZonedDateTime};
use workshop::assemble::timetable::{NoTimetable, Timetable, timetable};
use workshop::assemble::{self, Assembly, Block, Level, Standing, State, assess, words};
use workshop::entry::{JobId, Key};
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::plan::{Opens, Plan};

use super::forms::usual::not_laid;
use super::{Answer, Clock, Next, Page, Refused, Target, Tone, frame, plain, strong};
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
    /// The time, in the person's zone.
    pub now: &'a ZonedDateTime,
    /// The step the person pointed at.
    pub at: Option<&'a Key>,
    /// How many seconds the person has, if they said.
    pub have: Option<i64>,
    /// The timetable for this job and time, where the edge has one already.
    pub table: Option<Result<&'a Timetable, &'a NoTimetable>>,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

pub use say::crew as crew_words;

/// Safety beside the work.
pub const CAUTION: &str = "Battery and safety lanyard off while a hand is in the pump. Never run the \
    engine out of the water without its cooling hose. The craft’s manual and the data sheets come \
    first.";

/// What a plan, its answers and the view make together.
struct Sight<'a> {
    view: &'a View<'a>,
    plan: &'a Plan,
    assembly: &'a Assembly,
    /// When each step is worked.
    table: Result<Timetable, NoTimetable>,
    /// The step that is asked about.
    asked: Option<usize>,
}

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Assemble(view.id.clone());
    let assembly = assess(view.job, view.now.timestamp());
    let sight = view.job.bench.plan().zip(assembly.as_ref());
    let sight = sight.map(|(plan, assembly)| {
        let table = table(view);
        Sight {
            view,
            plan,
            assembly,
            asked: pointed(view, plan)
                .or_else(|| planned_next(assembly, &table))
                .or_else(|| assembly.next()),
            table,
        }
    });
    let (answer, evidence, next) = match &sight {
        Some(sight) => {
            let mut evidence = evidence::evidence(sight);
            evidence.splice(0..0, not_laid(view.refused));
            (answer(sight), evidence, next::next(sight))
        }
        None => (no_plan(), vec![next::other_ways(view)], next::no_plan(view)),
    };
    Page {
        title: "Assemble".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: sight.map_or_else(Vec::new, |sight| {
            let running = &sight.assembly.clocks;
            told(sight.plan, running, sight.assembly.now, view.now)
        }),
        answer,
        evidence,
        next,
        cautions: vec![CAUTION],
    }
}

/// The timetable that is there already, or the one that is quickly found.
pub fn table(view: &View<'_>) -> Result<Timetable, NoTimetable> {
    match view.table {
        Some(table) => table.cloned().map_err(Clone::clone),
        None => timetable(view.job, view.now, view.have).unwrap_or(Err(NoTimetable::Contradictory)),
    }
}

/// The step that may begin and is planned first, while none runs and no clock does.
fn planned_next(assembly: &Assembly, table: &Result<Timetable, NoTimetable>) -> Option<usize> {
    let runs = |step: &Standing| matches!(step.state, State::Running { .. });
    if !assembly.clocks.is_empty() || assembly.steps.iter().any(runs) {
        return None;
    }
    let slots = &table.as_ref().ok()?.slots;
    let ready = (0..slots.len()).filter(|place| assembly.steps[*place].state == State::Ready);
    let timed = ready.filter_map(|place| Some((slots[place]?.from, place)));
    timed.min().map(|(_, place)| place)
}

/// The step a person pointed at, or the one whose form was refused.
fn pointed(view: &View<'_>, plan: &Plan) -> Option<usize> {
    let refused = view.refused.and_then(|refused| {
        let typed = refused.typed.iter().find(|(name, _)| name == "step")?;
        Key::new(&typed.1).ok()
    });
    plan.place(view.at.or(refused.as_ref())?)
}

/// The working times that run, for every page of a job.
pub fn clocks(job: &Job, now: &ZonedDateTime) -> Vec<Clock> {
    let running = assemble::clocks(job, now.timestamp());
    let both = job.bench.plan().zip(running);
    both.map_or_else(Vec::new, |(plan, (clocks, at))| {
        told(plan, &clocks, at, now)
    })
}

/// Working times that run, counted with a time, in words.
pub(crate) fn told(
    plan: &Plan,
    clocks: &[assemble::Clock],
    at: Timestamp,
    now: &ZonedDateTime,
) -> Vec<Clock> {
    let clock = |clock: &assemble::Clock| Clock {
        words: format!(
            "{}: “{}” {} by {}",
            plan.steps[clock.first].name,
            plan.steps[clock.step].name,
            if clock.ended { "done" } else { "begun" },
            words::when(clock.by, now),
        ),
        by: clock.by.to_string(),
        over: clock.by < at,
    };
    clocks.iter().map(clock).collect()
}

fn no_plan() -> Answer {
    Answer {
        tone: Tone::Plain,
        headline: "No plan yet.".to_owned(),
        detail: vec![plain(
            "A plan names the steps, how long each takes, and what holds between them. It then says \
             what is next, what may not wait, and when the craft may float. The usual one is laid \
             from a few answers, and may be changed step by step.",
        )],
        origin: String::new(),
    }
}

fn answer(sight: &Sight<'_>) -> Answer {
    let (plan, assembly) = (sight.plan, sight.assembly);
    let done = assembly.done();
    let all = count(plan.steps.len(), "step", "steps");
    let told = format!("{done} of {all} {}", if done == 1 { "is" } else { "are" });
    let (tone, headline) = match assembly.contradictions.first() {
        Some(found) => (
            Tone::Stop,
            format!("The plan does not fit: {} short.", words::span(found.short)),
        ),
        None if matches!(sight.table, Err(NoTimetable::Impossible(_))) => (
            Tone::Stop,
            "The plan cannot be done with the hands, tools and hours there are.".to_owned(),
        ),
        None => match assembly.reached() {
            None => (Tone::Open, format!("May not float yet: {told} done.")),
            Some(Opens::Float) => (
                Tone::Open,
                format!("May float, not go full throttle yet: {told} done."),
            ),
            Some(Opens::FullThrottle) => (
                Tone::Open,
                format!("May go full throttle, not closed yet: {told} done."),
            ),
            Some(Opens::Closed) => (Tone::Good, format!("Closed: all {all} are done.")),
        },
    };
    let late = assembly.steps.iter().position(|step| step.late);
    let mut detail = Vec::new();
    if let Some(late) = late {
        detail.push(strong(format!("“{}” is late. ", plan.steps[late].name)));
    }
    detail.push(plain(match blocking(assembly) {
        Some(level) => blocked(plan, level, sight.view.now),
        None => "Nothing is left to come back to.".to_owned(),
    }));
    detail.extend(time::detail(sight));
    Answer {
        tone,
        headline,
        detail,
        origin: format!(
            "Plan: {} · times computed from its rules, hands and hours",
            super::plan::origin(plan)
        ),
    }
}

/// The first readiness that is not reached.
fn blocking(assembly: &Assembly) -> Option<&Level> {
    assembly
        .levels
        .iter()
        .find(|level| !level.blocks.is_empty())
}

/// What holds up a readiness: steps by name while they are few.
pub(crate) fn blocked(plan: &Plan, level: &Level, now: &ZonedDateTime) -> String {
    let mut open: Vec<String> = Vec::new();
    let mut more: Vec<String> = Vec::new();
    let mut findings: Vec<String> = Vec::new();
    let mut untold: Vec<String> = Vec::new();
    for block in &level.blocks {
        match block {
            Block::Finding(held) => findings.push(format!("“{}”", held.what)),
            Block::Open(step) => open.push(format!("“{}”", plan.steps[*step].name)),
            Block::Item(item) => untold.push(format!("“{}”", plan.items[*item].name)),
            Block::Tool(tool) => untold.push(format!("“{}”", plan.tools[*tool].name)),
            held => more.push(words::blocks(plan, held, now)),
        }
    }
    if !findings.is_empty() {
        let all = if findings.len() == 1 {
            "finding"
        } else {
            "findings"
        };
        let named = crate::words::list(&findings, 3);
        more.push(format!("open {all}: {named}"));
    }
    if !open.is_empty() {
        more.push(format!("still to do: {}", crate::words::list(&open, 4)));
    }
    if !untold.is_empty() {
        let untold = crate::words::list(&untold, 3);
        more.push(format!("not accounted for: {untold}"));
    }
    match more.join("; ").as_str() {
        "" => String::new(),
        sentence => format!("{}.", words::capital(sentence)),
    }
}
