//! What to do next, what may not wait, what is left off, and how ready the craft is.
//!
//! All of it is drawn from the job and the time given. Times are instants counted in whole seconds,
//! so midnight, daylight saving and a clock that was set back change nothing.

mod hours;
mod model;
mod resources;
pub mod timetable;
pub mod words;

use clearance::Verdict;
use jiff::Timestamp;

use crate::audit::Audit;
use crate::inspect::parts::{Held, held as findings};
use crate::job::Job;
use crate::plan::{Gate, Opens, Step};
use model::Model;
pub(crate) use model::ring;
pub use resources::{Lack, Short, Shortage};

/// Why a time is what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Because {
    /// A rule of the plan, by its place.
    Rule(usize),
    /// The delivery of a part, by its place.
    Delivery(usize),
}

/// Why a step may not begin.
#[derive(Clone, Debug, PartialEq)]
pub enum Wait {
    /// Its gate is closed.
    Gate(Gate),
    /// A step before it is not done.
    Step {
        /// That step.
        step: usize,
    },
    /// A lag is not over.
    Until {
        /// Why.
        because: Because,
        /// When it is.
        at: Timestamp,
    },
    /// The step it begins together with waits itself.
    Partner {
        /// That step.
        step: usize,
    },
    /// Begun now, a clock would run out before its work can be done.
    TooEarly {
        /// When it may begin.
        at: Timestamp,
    },
    /// A part is not at hand.
    Part {
        /// The part.
        part: usize,
        /// The step that needs it, where that is a later one that the clock would not wait for.
        later: Option<usize>,
    },
    /// The gate of a later step, which the clock would not wait for, is closed.
    GateAhead {
        /// That step.
        step: usize,
    },
    /// What must come in time after it does not fit.
    NoTime(Vec<Contradiction>),
    /// What must come in time after it cannot be done with the hands, tools and hours there are.
    NoHands(Shortage),
    /// The craft is not as ready as this step asks: it may not go on the water.
    NotReady(Block),
}

/// How a step stands.
#[derive(Clone, Debug, PartialEq)]
pub enum State {
    /// Done.
    Done {
        /// When, or when that was said.
        at: Timestamp,
        /// Whether someone saw it.
        witnessed: bool,
    },
    /// Begun and not done.
    Running {
        /// Since when.
        since: Timestamp,
        /// It takes longer than it may.
        over: bool,
    },
    /// It may begin.
    Ready,
    /// It may not begin, for all of these reasons.
    Waits(Vec<Wait>),
    /// It is left off on purpose.
    Deferred,
}

/// A step, with when it can begin.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// How it stands.
    pub state: State,
    /// When it can begin at the earliest, and when it began if it has.
    pub earliest: Timestamp,
    /// When it must begin, if anything bounds that.
    pub latest: Option<Timestamp>,
    /// When it ends if it begins at the earliest.
    pub ends: Timestamp,
    /// It should have begun or ended by now.
    pub late: bool,
    /// How many of its fasteners are missing or only stand in.
    pub loose: Option<Loose>,
}

/// Fasteners that are not as they must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Loose {
    /// How many are in.
    pub count: u16,
    /// Of how many.
    pub of: u16,
    /// How many of those that are in only stand in.
    pub temporary: u16,
}

/// A working time that is running.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clock {
    /// The rule, by its place.
    pub rule: usize,
    /// The step that set it running.
    pub first: usize,
    /// The step that must come in time.
    pub step: usize,
    /// It must have ended by then, not only begun.
    pub ended: bool,
    /// By when.
    pub by: Timestamp,
}

/// Where a part of a contradiction comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Source {
    /// A rule or a delivery.
    Because(Because),
    /// The time a step takes.
    Duration(usize),
    /// What happened with a step.
    Happened(usize),
    /// Nothing begins before now.
    Now,
}

/// One part of a contradiction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// Where it comes from.
    pub source: Source,
    /// Seconds it asks for; below zero, seconds it grants.
    pub adds: i64,
    /// The time that alone would mend it, in seconds, where a person may be asked for that.
    pub change: Option<i64>,
}

/// What cannot all be true.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// In walking order.
    pub parts: Vec<Part>,
    /// The seconds that are missing.
    pub short: i64,
}

/// A rule that what happened has broken for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Broken {
    /// The rule, by its place.
    pub rule: usize,
    /// By how many seconds, so far.
    pub by: i64,
}

/// What holds up a readiness.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// A step is not done.
    Open(usize),
    /// A step is left off.
    Deferred(usize),
    /// Fasteners are missing or only stand in.
    Loose(usize, Loose),
    /// Something has not cured.
    Until(usize, Timestamp),
    /// A finding is open.
    Finding(Held),
    /// A thing is not accounted for, or left out.
    Item(usize),
    /// A tool is not back.
    Tool(usize),
    /// So many joints and readings are open in the account.
    Others(usize),
}

impl Block {
    /// The step it is about, where it is about one.
    pub fn step(&self) -> Option<usize> {
        match self {
            Self::Open(step)
            | Self::Deferred(step)
            | Self::Loose(step, _)
            | Self::Until(step, _) => Some(*step),
            // Things and tools are lines of the account, which is a document of its own.
            Self::Finding(_) | Self::Item(_) | Self::Tool(_) | Self::Others(_) => None,
        }
    }
}

/// One step of readiness.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Which.
    pub opens: Opens,
    /// What holds it up; nothing when it is reached.
    pub blocks: Vec<Block>,
}

/// The answers of the Assemble stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Assembly {
    /// The time counted with: now, or the latest of the journal where that is later.
    pub now: Timestamp,
    /// The seconds by which the clock is behind the journal.
    pub behind: i64,
    /// Every step, in the order of the plan.
    pub steps: Vec<Standing>,
    /// What contradicts itself, hardest first. The windows leave its limits aside.
    pub contradictions: Vec<Contradiction>,
    /// Rules broken for good.
    pub broken: Vec<Broken>,
    /// The working times that are running, the one that runs out first in front.
    pub clocks: Vec<Clock>,
    /// May float, may go full throttle, closed.
    pub levels: [Level; 3],
    /// The account, of which the levels are drawn too.
    pub account: Audit,
}

impl Assembly {
    /// How many steps are done.
    pub fn done(&self) -> usize {
        let done = |step: &&Standing| matches!(step.state, State::Done { .. });
        self.steps.iter().filter(done).count()
    }

    /// What to do next: finish what runs, the most pressing first; then what may begin, the one
    /// that must begin first.
    pub fn next(&self) -> Option<usize> {
        let clock = |step: &usize| {
            let mut clocks = self.clocks.iter().enumerate();
            clocks
                .find(|(_, clock)| clock.step == *step)
                .map_or(usize::MAX, |(place, _)| place)
        };
        let places = 0..self.steps.len();
        let running = places
            .clone()
            .filter(|step| matches!(self.steps[*step].state, State::Running { .. }))
            .min_by_key(clock);
        let ready = places.filter(|step| self.steps[*step].state == State::Ready);
        running.or_else(|| {
            ready.min_by_key(|step| {
                let latest = self.steps[*step].latest.unwrap_or(Timestamp::MAX);
                (clock(step), latest)
            })
        })
    }

    /// The readiness reached, if any is.
    pub fn reached(&self) -> Option<Opens> {
        let reached = self
            .levels
            .iter()
            .take_while(|level| level.blocks.is_empty());
        reached.last().map(|level| level.opens)
    }
}

/// The working times that run, the one that runs out first in front, and the time they are counted
/// with; none while there is no plan.
pub fn clocks(job: &Job, now: Timestamp) -> Option<(Vec<Clock>, Timestamp)> {
    let model = Model::of(job, job.bench.plan()?, now)?;
    Some((model.clocks(), instant(model.now())))
}

/// The answers for a job at a time; none while it has no plan.
pub fn assess(job: &Job, now: Timestamp) -> Option<Assembly> {
    let plan = job.bench.plan()?;
    let model = Model::of(job, plan, now)?;
    let settled = model.settle()?;
    let states = model.states(&settled)?;
    let clocks = model.clocks();
    let steps: Vec<Standing> = states
        .into_iter()
        .enumerate()
        .map(|(place, state)| standing(&model, &settled, &clocks, (place, state)))
        .collect();
    let account = crate::audit::of(job, &steps, instant(model.now()));
    let found = findings(job);
    let levels = Opens::ALL.map(|opens| level(&model, &steps, (&found, &account), opens));
    let steps = plan.steps.iter().zip(steps);
    let steps = steps.map(|(step, standing)| held(step, standing, &levels));
    let steps = steps.collect();
    Some(Assembly {
        now: instant(model.now()),
        behind: model.now() - now.as_second(),
        steps,
        contradictions: settled.contradictions.clone(),
        broken: model.broken(),
        clocks,
        levels,
        account,
    })
}

/// Whether a gate is open. It looks at what was told when something was done, not at what would be
/// told now.
pub fn gate_open(job: &Job, gate: Gate) -> bool {
    let had = &job.inspected;
    match gate {
        // In tolerance and taken, by the readings that count now.
        Gate::GapIn => {
            let evidence = crate::gap::evidence(job);
            job.accepted.as_ref().is_some_and(|taken| {
                taken.value.verdict == Verdict::In && evidence.as_ref() == Ok(&taken.value.evidence)
            })
        }
        Gate::LeakTight => had.leak.as_ref().is_some_and(|test| {
            let shown = test.value.shown.as_ref();
            shown.is_some_and(|shown| shown.verdict == Verdict::In)
        }),
        Gate::Aligned => had.alignment.as_ref().is_some_and(|read| {
            let shown = read.value.shown.as_ref();
            shown.is_some_and(|shown| shown.verdict == Verdict::In)
        }),
        // Read after the result that counts was taken: another ring asks for another reading.
        Gate::GapReread => had.reread.as_ref().is_some_and(|again| {
            let taken = job.accepted.as_ref().map(|taken| taken.position);
            again.value.shown == Some(Verdict::In) && taken.is_none_or(|at| at < again.position)
        }),
    }
}

fn standing(
    model: &Model<'_>,
    settled: &model::Settled,
    clocks: &[Clock],
    (place, state): (usize, State),
) -> Standing {
    let window = settled.windows[place];
    let step = &model.plan.steps[place];
    let open = !matches!(state, State::Done { .. } | State::Deferred);
    let passed = clocks
        .iter()
        .any(|clock| clock.step == place && clock.by < instant(model.now()));
    let overdue = window.latest.is_some_and(|latest| latest < model.now());
    let begun = matches!(state, State::Running { .. });
    let told = model.job.bench.of(&step.key).fasteners;
    let fastened = told.map(|told| told.value).unwrap_or_default();
    let loose = step.fasteners.map(|of| Loose {
        count: fastened.count,
        of,
        temporary: fastened.temporary,
    });
    Standing {
        late: open && (passed || (overdue && !begun)),
        earliest: instant(window.earliest),
        latest: window.latest.map(instant).filter(|_| open && !begun),
        ends: instant(window.ends),
        loose: loose.filter(|loose| loose.count < loose.of || loose.temporary > 0),
        state,
    }
}

/// A step on the water waits for the readiness before its own: nothing it needs may be left off,
/// loose or curing, whether or not a rule says so.
fn held(step: &Step, standing: Standing, levels: &[Level; 3]) -> Standing {
    let before = levels.iter().rev().find(|level| level.opens < step.opens);
    match (&standing.state, before) {
        (State::Ready, Some(level)) if !level.blocks.is_empty() => Standing {
            state: State::Waits(level.blocks.iter().cloned().map(Wait::NotReady).collect()),
            ..standing
        },
        _ => standing,
    }
}

/// What holds up a readiness: steps it needs, their fasteners, what cures before later steps, open
/// findings, and what the account misses.
fn level(
    model: &Model<'_>,
    steps: &[Standing],
    (found, account): (&[Held], &Audit),
    opens: Opens,
) -> Level {
    let plan = model.plan;
    let mut blocks = Vec::new();
    for (place, step) in plan.steps.iter().enumerate() {
        if step.opens > opens {
            continue;
        }
        match (&steps[place].state, steps[place].loose) {
            (State::Deferred, _) => blocks.push(Block::Deferred(place)),
            (State::Done { .. }, Some(loose)) => blocks.push(Block::Loose(place, loose)),
            (State::Done { .. }, None) => {}
            _ => blocks.push(Block::Open(place)),
        }
    }
    for (first, then, at) in model.cures() {
        if plan.steps[first].opens <= opens && plan.steps[then].opens > opens {
            blocks.push(Block::Until(first, instant(at)));
        }
    }
    let open = found.iter().filter(|held| held.severity.opens() <= opens);
    blocks.extend(open.cloned().map(Block::Finding));
    blocks.extend(crate::audit::blocks(account, opens));
    Level { opens, blocks }
}

/// An instant by its seconds; plans reach decades, not millennia.
fn instant(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap_or(Timestamp::MAX)
}
