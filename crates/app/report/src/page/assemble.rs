//! The Assemble page: what next, what may not wait, what is left off, how ready the craft is.

mod bars;
mod evidence;
mod next;
pub(crate) mod say;

use jiff::ZonedDateTime;
use workshop::assemble::{Assembly, Block, Level, assess, words};
use workshop::entry::{JobId, Key};
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::plan::{Opens, Plan};

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
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// Safety beside the work.
pub const CAUTION: &str = "Battery and safety lanyard off while a hand is in the pump. Never run the \
    engine out of the water without its cooling hose. The craft’s manual and the data sheets come \
    first.";

/// What a plan, its answers and the view make together.
#[derive(Clone, Copy)]
struct Sight<'a> {
    view: &'a View<'a>,
    plan: &'a Plan,
    assembly: &'a Assembly,
    /// The step that is asked about.
    asked: Option<usize>,
}

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Assemble(view.id.clone());
    let assembly = assess(view.job, view.now.timestamp());
    let sight = view.job.bench.plan().zip(assembly.as_ref());
    let sight = sight.map(|(plan, assembly)| Sight {
        view,
        plan,
        assembly,
        asked: pointed(view, plan).or_else(|| assembly.next()),
    });
    let (answer, evidence, next) = match &sight {
        Some(sight) => (answer(sight), evidence::evidence(sight), next::next(sight)),
        None => (no_plan(), Vec::new(), next::no_plan(view)),
    };
    Page {
        title: "Assemble".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: sight.map_or_else(Vec::new, |sight| told(sight.plan, sight.assembly, view.now)),
        answer,
        evidence,
        next,
        cautions: vec![CAUTION],
    }
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
    let assembly = assess(job, now.timestamp());
    let both = job.bench.plan().zip(assembly.as_ref());
    both.map_or_else(Vec::new, |(plan, assembly)| told(plan, assembly, now))
}

pub(crate) fn told(plan: &Plan, assembly: &Assembly, now: &ZonedDateTime) -> Vec<Clock> {
    let clock = |clock: &workshop::assemble::Clock| Clock {
        words: format!(
            "{}: “{}” {} by {}",
            plan.steps[clock.first].name,
            plan.steps[clock.step].name,
            if clock.ended { "done" } else { "begun" },
            words::when(clock.by, now),
        ),
        by: clock.by.to_string(),
        over: clock.by < assembly.now,
    };
    assembly.clocks.iter().map(clock).collect()
}

fn no_plan() -> Answer {
    Answer {
        tone: Tone::Plain,
        headline: "No plan yet.".to_owned(),
        detail: vec![plain(
            "A plan names the steps, how long each takes, and what holds between them. It then says \
             what is next, what may not wait, and when the craft may float.",
        )],
        origin: String::new(),
    }
}

fn answer(sight: &Sight<'_>) -> Answer {
    let Sight { plan, assembly, .. } = *sight;
    let done = assembly.done();
    let all = count(plan.steps.len(), "step", "steps");
    let told = format!("{done} of {all} {}", if done == 1 { "is" } else { "are" });
    let (tone, headline) = match assembly.contradictions.first() {
        Some(found) => (
            Tone::Stop,
            format!("The plan does not fit: {} short.", words::span(found.short)),
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
    Answer {
        tone,
        headline,
        detail,
        origin: format!(
            "Plan: {}, as you laid it · times counted by the rules of the plan",
            plan.name
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
    let mut untold: Vec<String> = Vec::new();
    for block in &level.blocks {
        match block {
            Block::Open(step) => open.push(format!("“{}”", plan.steps[*step].name)),
            Block::Item(item) => untold.push(format!("“{}”", plan.items[*item].name)),
            Block::Tool(tool) => untold.push(format!("“{}”", plan.tools[*tool].name)),
            held => more.push(words::blocks(plan, held, now)),
        }
    }
    if !open.is_empty() {
        more.push(format!("still to do: {}", crate::words::list(&open, 4)));
    }
    if !untold.is_empty() {
        let untold = crate::words::list(&untold, 3);
        more.push(format!("not accounted for: {untold}"));
    }
    let sentence = more.join("; ");
    let mut letters = sentence.chars();
    let first = letters.next().map(char::to_uppercase);
    first.map_or_else(String::new, |first| {
        format!("{}{}.", first.collect::<String>(), letters.as_str())
    })
}
