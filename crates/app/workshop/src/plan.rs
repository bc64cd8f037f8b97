//! The plan of the work: steps, rules between them, parts, and how far each has come.

mod account;
mod crew;
mod item;
mod places;

use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use quantity::Entered;

use crate::entry::{EntryId, Key};
use crate::job::Fact;

pub use account::{Account, Excuse, Ready};
pub use crew::{Crew, Shift};
pub use item::{Item, ItemKind, Tool};

/// What is to be done, in which order, with what.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What it is a plan of, in the person's words.
    pub name: String,
    /// The steps, in the order they are listed.
    pub steps: Vec<Step>,
    /// What holds between them.
    pub rules: Vec<Rule>,
    /// What the steps need.
    pub parts: Vec<Part>,
    /// What the steps hold while they are worked.
    pub tools: Vec<Tool>,
    /// What is accounted for at the end.
    pub items: Vec<Item>,
}

/// One step of the work.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Names it within the plan.
    pub key: Key,
    /// What is done, in the person's words.
    pub name: String,
    /// The part of the job it belongs to; may be empty.
    pub group: String,
    /// How it is done and what proves it; may be empty.
    pub how: String,
    /// How long the work takes at least; what waits to cure is no part of it.
    pub takes: Entered,
    /// How long it may take, if that is more.
    pub most: Option<Entered>,
    /// The parts that must be at hand.
    pub needs: Vec<Key>,
    /// Pairs of hands it takes.
    pub hands: u16,
    /// The tools it holds while it is worked.
    pub tools: Vec<Key>,
    /// What must be accepted before it.
    pub gate: Option<Gate>,
    /// The readiness it holds up until it is done.
    pub opens: Opens,
    /// How many fasteners it has, where they are counted.
    pub fasteners: Option<u16>,
    /// Whether a fastener may stand in for the right one for a while.
    pub temporary: bool,
    /// What can hurt; empty when nothing is said.
    pub caution: String,
    /// It cannot be taken back.
    pub irreversible: bool,
}

/// What must be accepted before a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gate {
    /// The gap is measured, found in tolerance, and the result taken.
    GapIn,
    /// The closed housing was tested and found tight.
    LeakTight,
    /// The driveline must be found in line.
    Aligned,
    /// After the last torque the gap was read once more, keeps its limits, and nothing rubs.
    GapReread,
}

/// How ready the craft is; each includes the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Opens {
    /// It may float.
    Float,
    /// It may go full throttle.
    FullThrottle,
    /// It is closed: nothing is left to come back to.
    Closed,
}

impl Opens {
    /// All, in order.
    pub const ALL: [Self; 3] = [Self::Float, Self::FullThrottle, Self::Closed];
}

/// A rule between steps, with its reason.
#[derive(Clone, Debug, PartialEq)]
pub struct Rule {
    /// What it asks.
    pub ask: Ask,
    /// Why, with the source: "cure, data sheet p. 2".
    pub why: String,
    /// A cure, a working time or a safety gate: nobody may be asked to give it up.
    pub physics: bool,
}

/// What a rule asks.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// `then` starts after `first` ends, and after a lag where one is given.
    After {
        /// The step before.
        first: Key,
        /// The step after.
        then: Key,
        /// The least time between them.
        lag: Option<Entered>,
    },
    /// `then` starts at most so long after `first` ends.
    StartWithin {
        /// The step whose end starts the clock.
        first: Key,
        /// The step that must start.
        then: Key,
        /// The most time between.
        most: Entered,
    },
    /// `then` ends at most so long after `first` ends.
    FinishedWithin {
        /// The step whose end starts the clock.
        first: Key,
        /// The step that must be finished.
        then: Key,
        /// The most time between.
        most: Entered,
    },
    /// `then` starts at most so long after `first` starts.
    StartWithinStart {
        /// The step whose start starts the clock.
        first: Key,
        /// The step that must start.
        then: Key,
        /// The most time between.
        most: Entered,
    },
    /// Both start at once.
    Together {
        /// The one.
        first: Key,
        /// The other.
        then: Key,
    },
    /// The step starts at this time or later.
    NotBefore {
        /// The step.
        step: Key,
        /// When.
        time: ZonedDateTime,
    },
    /// The step ends at this time or earlier.
    FinishedBy {
        /// The step.
        step: Key,
        /// When.
        time: ZonedDateTime,
    },
}

impl Rule {
    /// Whether it names this step.
    pub fn names(&self, step: &Key) -> bool {
        self.ask.steps().contains(&step)
    }
}

impl Ask {
    /// The steps it names; the same twice where it names one.
    pub fn steps(&self) -> [&Key; 2] {
        match self {
            Self::After { first, then, .. }
            | Self::StartWithin { first, then, .. }
            | Self::FinishedWithin { first, then, .. }
            | Self::StartWithinStart { first, then, .. }
            | Self::Together { first, then } => [first, then],
            Self::NotBefore { step, .. } | Self::FinishedBy { step, .. } => [step, step],
        }
    }

    /// The time it gives, where it gives one.
    pub fn time(&self) -> Option<&Entered> {
        match self {
            Self::After { lag, .. } => lag.as_ref(),
            Self::StartWithin { most, .. }
            | Self::FinishedWithin { most, .. }
            | Self::StartWithinStart { most, .. } => Some(most),
            Self::Together { .. } | Self::NotBefore { .. } | Self::FinishedBy { .. } => None,
        }
    }
}

/// A part, a consumable or a tool that steps need.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Names it within the plan.
    pub key: Key,
    /// In the person's words.
    pub name: String,
}

/// Where a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// On the bench.
    AtHand,
    /// Ordered and not here.
    OnOrder,
    /// Neither here nor ordered.
    Missing,
}

/// What was said of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Stated {
    /// Where it is.
    pub status: Status,
    /// When it is expected, where that is known.
    pub expected: Option<Date>,
}

/// What a person says of the work.
#[derive(Clone, Debug, PartialEq)]
pub enum Work {
    /// This is the plan from now on.
    PlanLaid(Plan),
    /// A step begins.
    StepBegun {
        /// The step.
        step: Key,
    },
    /// A step is done.
    StepDone {
        /// The step.
        step: Key,
        /// Someone saw it done now; otherwise it was done before, at an unknown time.
        witnessed: bool,
    },
    /// A step is left off on purpose.
    StepDeferred {
        /// The step.
        step: Key,
        /// Why.
        reason: Excuse,
        /// What ends it.
        release: String,
        /// The step whose end ends it, where it is one of the plan.
        until: Option<Key>,
    },
    /// A step must be done again: the sealant skinned and was wiped off.
    StepAgain {
        /// The step.
        step: Key,
        /// Why.
        reason: String,
    },
    /// How long a step will take after all.
    StepEstimated {
        /// The step.
        step: Key,
        /// How long, from its beginning.
        takes: Entered,
        /// And at most, if that is more.
        most: Option<Entered>,
    },
    /// How many of a step's fasteners are in.
    FastenersIn {
        /// The step.
        step: Key,
        /// How many are in.
        count: u16,
        /// How many of these only stand in.
        temporary: u16,
    },
    /// Where a part is.
    PartStated {
        /// The part.
        part: Key,
        /// What was said.
        stated: Stated,
    },
    /// Where a thing to account for is.
    ItemTold {
        /// The thing.
        item: Key,
        /// What was told.
        account: Account,
    },
    /// Tools counted at the end, several in one tap.
    ToolsCounted(BTreeMap<Key, Account>),
    /// Who works, and when.
    CrewStated(Crew),
    /// A step may go ahead although its gate is closed.
    GateOverridden {
        /// The step.
        step: Key,
        /// Why.
        reason: String,
    },
}

impl Work {
    /// The step it is about, where it is about one.
    pub fn step(&self) -> Option<&Key> {
        match self {
            Self::StepBegun { step }
            | Self::StepDone { step, .. }
            | Self::StepDeferred { step, .. }
            | Self::StepAgain { step, .. }
            | Self::StepEstimated { step, .. }
            | Self::FastenersIn { step, .. }
            | Self::GateOverridden { step, .. } => Some(step),
            Self::PlanLaid(_)
            | Self::PartStated { .. }
            | Self::ItemTold { .. }
            | Self::ToolsCounted(_)
            | Self::CrewStated(_) => None,
        }
    }
}

/// Something that was said, with when.
#[derive(Clone, Debug, PartialEq)]
pub struct Told<T> {
    /// Where it was said.
    pub entry: EntryId,
    /// That entry's position.
    pub position: u64,
    /// When it happened, as the person says.
    pub at: ZonedDateTime,
    /// What was said.
    pub value: T,
}

/// Why a step is left off, and what ends that.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deferral {
    /// Why.
    pub reason: Excuse,
    /// What ends it.
    pub release: String,
    /// The step whose end ends it.
    pub until: Option<Key>,
}

impl Deferral {
    /// Whether this is what was said.
    pub fn is(&self, said: &Work) -> bool {
        matches!(said, Work::StepDeferred { reason, release, until, .. }
            if *reason == self.reason && *release == self.release && *until == self.until)
    }
}

/// How long a step will take after all.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// How long, from its beginning.
    pub takes: Entered,
    /// And at most, if that is more.
    pub most: Option<Entered>,
}

/// How many fasteners are in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Fastened {
    /// How many are in.
    pub count: u16,
    /// How many of these only stand in.
    pub temporary: u16,
}

/// What has happened with one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Progress {
    /// When it began, if it has.
    pub begun: Option<Told<()>>,
    /// When it was done, if it was, and whether someone saw it.
    pub done: Option<Told<bool>>,
    /// Why it is left off, if it is.
    pub deferred: Option<Told<Deferral>>,
    /// How many of its fasteners are in, if they were counted.
    pub fasteners: Option<Told<Fastened>>,
    /// Why it may go ahead before its gate opens, if it may.
    pub overridden: Option<Told<String>>,
    /// How long it will take after all, if that was said.
    pub estimate: Option<Told<Estimate>>,
    /// Why it must be done again, if it must, until it is begun.
    pub again: Option<Told<String>>,
}

/// The plan and all that has happened in it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bench {
    /// The plan, once laid.
    pub plan: Option<Fact<Plan>>,
    /// What has happened, by step.
    pub progress: BTreeMap<Key, Progress>,
    /// Where the parts are, by part.
    pub parts: BTreeMap<Key, Told<Stated>>,
    /// What was told of the things to account for, by item.
    pub items: BTreeMap<Key, Told<Account>>,
    /// How many tools are back, by tool.
    pub tools: BTreeMap<Key, Told<Account>>,
    /// Who works, and when.
    pub crew: Option<Told<Crew>>,
}

impl Bench {
    /// The plan, once laid.
    pub fn plan(&self) -> Option<&Plan> {
        self.plan.as_ref().map(|plan| &plan.value)
    }

    /// What has happened with a step.
    pub fn of(&self, step: &Key) -> Progress {
        self.progress.get(step).cloned().unwrap_or_default()
    }

    /// Who works, and what is assumed until somebody says: as many hands as one step of the plan asks
    /// for, at any hour.
    pub fn crew(&self) -> Crew {
        let told = self.crew.as_ref().map(|told| told.value.clone());
        told.unwrap_or_else(|| {
            let steps = self.plan().map_or(&[][..], |plan| &plan.steps);
            let most = steps.iter().map(|step| step.hands).max();
            Crew {
                hands: most.unwrap_or(1).max(1),
                shifts: Vec::new(),
            }
        })
    }

    /// Whether a part is on the bench. One that nobody has spoken of is not.
    pub fn at_hand(&self, part: &Key) -> bool {
        let told = self.parts.get(part);
        told.is_some_and(|told| told.value.status == Status::AtHand)
    }
}

/// Whole seconds of a duration as typed.
pub fn seconds(duration: &Entered) -> i64 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "a duration is refused above a year, and a step below a second does not exist"
    )]
    let whole = duration.value.round() as i64;
    whole
}
