//! What this crate refuses, with the value and the limit.

use std::fmt;

use crate::{Away, Step};

/// The longest time accepted either side of the origin, in seconds: more than 30 000 years, and
/// small enough that no sum over a plan leaves an `i64`.
pub(crate) const LIMIT: i64 = 1 << 40;

/// Why a plan or what happened in it was refused. Steps and rules are counted from zero; times are
/// in seconds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Error {
    /// The durations of a step are negative, out of order or beyond reason.
    Duration {
        /// The step.
        step: usize,
        /// Its durations as given.
        given: Step,
        /// The longest accepted.
        limit: i64,
    },
    /// A lag is negative or beyond reason.
    Lag {
        /// The rule.
        rule: usize,
        /// The lag given.
        value: i64,
        /// The longest accepted.
        limit: i64,
    },
    /// A time is too far from the origin.
    Time {
        /// The time given.
        value: i64,
        /// The farthest accepted, before or after.
        limit: i64,
    },
    /// A step was named that is not in the plan.
    NoSuchStep {
        /// The step named.
        step: usize,
        /// How many steps there are.
        steps: usize,
    },
    /// A rule ties a step to itself.
    SameStep {
        /// The rule.
        rule: usize,
        /// The step.
        step: usize,
    },
    /// Steps that wait for one another in a ring, so that none can ever start.
    Ring {
        /// The steps, each before the next and the last before the first.
        steps: Vec<usize>,
        /// The rules that say so, in the same order.
        rules: Vec<usize>,
    },
    /// A resource was named that is not among those given.
    NoSuchResource {
        /// The resource named.
        resource: usize,
        /// How many resources there are.
        resources: usize,
    },
    /// A resource is said to be back no later than it goes away.
    AwayBackwards {
        /// The resource.
        resource: usize,
        /// When it is said to be away.
        away: Away,
    },
    /// What happened was told for another number of steps.
    Count {
        /// How many were told of.
        given: usize,
        /// How many steps there are.
        steps: usize,
    },
    /// A step is said to have happened later than now.
    NotYet {
        /// The step.
        step: usize,
        /// When it is said to have happened.
        time: i64,
        /// What now is.
        now: i64,
    },
    /// A step is said to have ended before it began.
    EndsFirst {
        /// The step.
        step: usize,
        /// When it is said to have begun.
        began: i64,
        /// When it is said to have ended.
        ended: i64,
    },
    /// A step that was begun, or put off, cannot be looked at as the next to start.
    NotOpen {
        /// The step.
        step: usize,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Duration { step, given, limit } => {
                let Step {
                    least,
                    likely,
                    most,
                } = given;
                write!(
                    f,
                    "step {step} takes at least {least} s, likely {likely} s, at most {most} s; these must rise from 0 s or more and stay below {limit} s"
                )
            }
            Self::Lag { rule, value, limit } => write!(
                f,
                "the lag of rule {rule} is {value} s; it must lie from 0 s to {limit} s"
            ),
            Self::Time { value, limit } => write!(
                f,
                "a time of {value} s is more than {limit} s from the origin; check the date"
            ),
            Self::NoSuchStep { step, steps } => write!(
                f,
                "step {step} (counted from zero) was named, but there are {steps} steps"
            ),
            Self::SameStep { rule, step } => {
                write!(f, "rule {rule} ties step {step} to itself; name two steps")
            }
            Self::Ring { steps, rules } => write!(
                f,
                "steps {steps:?} wait for one another in a ring by rules {rules:?}; take one of these rules out"
            ),
            Self::NoSuchResource {
                resource,
                resources,
            } => write!(
                f,
                "resource {resource} (counted from zero) was named, but there are {resources} resources"
            ),
            Self::AwayBackwards { resource, away } => write!(
                f,
                "resource {resource} is said to be away from {} s until {} s; it must be back later than it goes",
                away.from, away.until
            ),
            Self::Count { given, steps } => write!(
                f,
                "what happened was told for {given} steps, but there are {steps}; tell it for each"
            ),
            Self::NotYet { step, time, now } => write!(
                f,
                "step {step} is said to have happened at {time} s, but now is {now} s; check the clock"
            ),
            Self::EndsFirst { step, began, ended } => write!(
                f,
                "step {step} is said to have begun at {began} s and ended at {ended} s; swap them or correct one"
            ),
            Self::NotOpen { step } => write!(
                f,
                "step {step} has begun or is put off; only a step not yet started can be looked ahead of"
            ),
        }
    }
}

impl std::error::Error for Error {}

/// Passes a time near enough to the origin, refuses the rest.
pub(crate) fn time(value: i64) -> Result<i64, Error> {
    if (-LIMIT..=LIMIT).contains(&value) {
        Ok(value)
    } else {
        Err(Error::Time {
            value,
            limit: LIMIT,
        })
    }
}
