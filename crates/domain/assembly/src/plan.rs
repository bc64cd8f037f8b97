//! Steps, and the rules between them.

use crate::Error;
use crate::error::{LIMIT, time};

/// How long the work of one step takes. A cure is no part of it: it is the lag of a rule.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `least` | nobody is faster | `s` |
/// | `likely` | what to plan with | `s` |
/// | `most` | what to count on when a clock must not run out | `s` |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Step {
    /// Nobody is faster.
    pub least: i64,
    /// What to plan with.
    pub likely: i64,
    /// What to count on when a clock must not run out.
    pub most: i64,
}

impl Step {
    /// A step that always takes as long.
    pub fn lasting(duration: i64) -> Self {
        Self {
            least: duration,
            likely: duration,
            most: duration,
        }
    }

    /// What it takes at a pace.
    pub(crate) fn at(self, pace: Pace) -> i64 {
        match pace {
            Pace::Least => self.least,
            Pace::Likely => self.likely,
            Pace::Most => self.most,
        }
    }
}

/// Which duration of every step counts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Pace {
    /// The least: what contradicts itself even so is beyond hurrying.
    Least,
    /// The likely.
    #[default]
    Likely,
    /// The most.
    Most,
}

/// Whether a person may give a rule up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Firmness {
    /// A cure, a working time, a safety gate: never offered for relaxation.
    Physics,
    /// An order, a deadline, a delivery: may be offered.
    Negotiable,
}

/// What a rule asks. Lags and times are in whole seconds; times count from the origin.
///
/// A step may carry any number of rules, so that one joint can ask for one lag before it gets wet
/// and for another before it is loaded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ask {
    /// `then` starts at the earliest `lag` after `first` ends: plain order, cure, drying.
    After {
        /// The step before.
        first: usize,
        /// The step after.
        then: usize,
        /// The least time between them.
        lag: i64,
    },
    /// `then` starts at the latest `most` after `first` ends: skin time to first contact.
    StartWithin {
        /// The step whose end starts the clock.
        first: usize,
        /// The step that must start.
        then: usize,
        /// The most time between.
        most: i64,
    },
    /// `then` ends at the latest `most` after `first` ends: "bolted down within ten minutes".
    FinishedWithin {
        /// The step whose end starts the clock.
        first: usize,
        /// The step that must be finished.
        then: usize,
        /// The most time between.
        most: i64,
    },
    /// `then` starts at the latest `most` after `first` starts.
    StartWithinStart {
        /// The step whose start starts the clock.
        first: usize,
        /// The step that must start.
        then: usize,
        /// The most time between.
        most: i64,
    },
    /// Both start at once. It binds until one of them has begun.
    Together {
        /// The one.
        first: usize,
        /// The other.
        then: usize,
    },
    /// The step starts at the earliest at a time: a delivery, daylight.
    NotBefore {
        /// The step.
        step: usize,
        /// The earliest start.
        time: i64,
    },
    /// The step ends at the latest at a time: the tool goes back, the ramp is booked.
    FinishedBy {
        /// The step.
        step: usize,
        /// The latest end.
        time: i64,
    },
}

impl Ask {
    /// The lag, limit or time it gives, if it gives one.
    pub(crate) fn value(self) -> Option<i64> {
        match self {
            Self::After { lag: value, .. }
            | Self::StartWithin { most: value, .. }
            | Self::FinishedWithin { most: value, .. }
            | Self::StartWithinStart { most: value, .. }
            | Self::NotBefore { time: value, .. }
            | Self::FinishedBy { time: value, .. } => Some(value),
            Self::Together { .. } => None,
        }
    }

    /// The same with another lag, limit or time.
    pub(crate) fn with(mut self, new: i64) -> Self {
        match &mut self {
            Self::After { lag: value, .. }
            | Self::StartWithin { most: value, .. }
            | Self::FinishedWithin { most: value, .. }
            | Self::StartWithinStart { most: value, .. }
            | Self::NotBefore { time: value, .. }
            | Self::FinishedBy { time: value, .. } => *value = new,
            Self::Together { .. } => {}
        }
        self
    }

    /// The steps it names; the same twice where it names one.
    pub(crate) fn steps(self) -> [usize; 2] {
        match self {
            Self::After { first, then, .. }
            | Self::StartWithin { first, then, .. }
            | Self::FinishedWithin { first, then, .. }
            | Self::StartWithinStart { first, then, .. }
            | Self::Together { first, then } => [first, then],
            Self::NotBefore { step, .. } | Self::FinishedBy { step, .. } => [step, step],
        }
    }
}

/// A rule between steps. Its place among the rules of the plan is how answers name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Rule {
    /// What it asks.
    pub ask: Ask,
    /// Whether a person may give it up.
    pub firmness: Firmness,
}

impl Rule {
    /// A cure, a working time or a safety gate.
    pub fn physics(ask: Ask) -> Self {
        Self {
            ask,
            firmness: Firmness::Physics,
        }
    }

    /// An order, a deadline or a delivery.
    pub fn negotiable(ask: Ask) -> Self {
        Self {
            ask,
            firmness: Firmness::Negotiable,
        }
    }
}

/// Steps and rules that make sense: every number in range, every step there, no ring.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    steps: Vec<Step>,
    rules: Vec<Rule>,
}

impl Plan {
    /// A plan of steps and rules. Both are named by their place in these lists ever after.
    ///
    /// # Errors
    /// A duration, lag or time out of range, a step that isn't there, a rule from a step to itself,
    /// or a ring of [`Ask::After`]. Rules that only contradict each other in time are found by
    /// [`Network::windows`](crate::Network::windows), which explains them.
    pub fn new(steps: Vec<Step>, rules: Vec<Rule>) -> Result<Self, Error> {
        for (step, &given) in steps.iter().enumerate() {
            let rises = [0, given.least, given.likely, given.most, LIMIT].is_sorted();
            if !rises {
                return Err(Error::Duration {
                    step,
                    given,
                    limit: LIMIT,
                });
            }
        }
        for (number, rule) in rules.iter().enumerate() {
            check(number, rule.ask, steps.len())?;
        }
        let plan = Self { steps, rules };
        match ring(&plan) {
            Some((steps, rules)) => Err(Error::Ring { steps, rules }),
            None => Ok(plan),
        }
    }

    /// The same with one lag, limit or time changed.
    pub(crate) fn with_value(&self, rule: usize, value: i64) -> Self {
        let mut plan = self.clone();
        plan.rules[rule].ask = plan.rules[rule].ask.with(value);
        plan
    }

    /// The same with a step that takes so long.
    pub(crate) fn with_duration(&self, step: usize, lasts: i64) -> Self {
        let mut plan = self.clone();
        plan.steps[step] = Step::lasting(lasts);
        plan
    }

    /// Its steps.
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// Its rules.
    pub fn rules(&self) -> &[Rule] {
        &self.rules
    }
}

/// Refuses a rule that names no step, one step twice, or a number out of range.
fn check(rule: usize, ask: Ask, steps: usize) -> Result<(), Error> {
    let [first, then] = ask.steps();
    if let Some(step) = [first, then].into_iter().find(|step| *step >= steps) {
        return Err(Error::NoSuchStep { step, steps });
    }
    let one = matches!(ask, Ask::NotBefore { .. } | Ask::FinishedBy { .. });
    if first == then && !one {
        return Err(Error::SameStep { rule, step: first });
    }
    match ask {
        Ask::After { lag: value, .. }
        | Ask::StartWithin { most: value, .. }
        | Ask::FinishedWithin { most: value, .. }
        | Ask::StartWithinStart { most: value, .. }
            if !(0..=LIMIT).contains(&value) =>
        {
            Err(Error::Lag {
                rule,
                value,
                limit: LIMIT,
            })
        }
        Ask::NotBefore { time: value, .. } | Ask::FinishedBy { time: value, .. } => {
            time(value).map(drop)
        }
        _ => Ok(()),
    }
}

/// A ring of plain precedences, its steps and its rules. Steps without duration make a ring that
/// contradicts nothing in time, and yet none of them can be first.
fn ring(plan: &Plan) -> Option<(Vec<usize>, Vec<usize>)> {
    let mut before = vec![Vec::new(); plan.steps.len()];
    for (number, rule) in plan.rules.iter().enumerate() {
        if let Ask::After { first, then, .. } = rule.ask {
            before[then].push((first, number));
        }
    }
    // Steps drop out once all before them have; whoever is left has one left before it.
    let mut left = vec![true; plan.steps.len()];
    let waits = |step: usize, left: &[bool]| {
        let found = before[step].iter().find(|(first, _)| left[*first]);
        found.copied()
    };
    loop {
        let free = (0..left.len()).find(|&step| left[step] && waits(step, &left).is_none());
        match free {
            Some(step) => left[step] = false,
            None => break,
        }
    }
    let mut step = left.iter().position(|left| *left)?;
    let mut walked: Vec<(usize, usize)> = Vec::new();
    while !walked.iter().any(|(been, _)| *been == step) {
        let (first, rule) = waits(step, &left)?;
        walked.push((step, rule));
        step = first;
    }
    let from = walked.iter().position(|(been, _)| *been == step)?;
    // Walked from each step to the one before it.
    let (mut steps, mut rules): (Vec<_>, Vec<_>) = walked.drain(from..).unzip();
    steps.reverse();
    rules.reverse();
    // The rule walked last leads into the first step; turn the list so that rule k leaves step k.
    rules.rotate_left(1);
    Some((steps, rules))
}
