//! What this crate refuses, with the value and the limit.

use std::fmt;

use crate::meets::Rule;
use crate::{Interval, Thread};

/// Why a computation was refused. Lengths are in metres, torques in newton metres.
#[derive(Clone, Debug, PartialEq)]
pub enum Error {
    /// A quantity that must be above zero, and finite, is not.
    NotPositive {
        /// Which quantity.
        what: &'static str,
        /// The value given.
        value: f64,
    },
    /// A quantity that must be zero or more, and finite, is not.
    Negative {
        /// Which quantity.
        what: &'static str,
        /// The value given.
        value: f64,
    },
    /// A quantity lies outside its range.
    Outside {
        /// Which quantity.
        what: &'static str,
        /// The value given.
        value: f64,
        /// The least accepted.
        low: f64,
        /// The greatest accepted.
        high: f64,
    },
    /// The ends of an interval are not numbers or not in order.
    Order {
        /// Which quantity.
        what: &'static str,
        /// The lower end given.
        low: f64,
        /// The upper end given.
        high: f64,
    },
    /// A text that names no thread of the table.
    Designation {
        /// The text given.
        text: String,
        /// The threads of its size, when the size alone is known.
        known: Vec<Thread>,
    },
    /// A size of which the table has no head and hole.
    NoHead {
        /// The nominal diameter given.
        diameter: f64,
    },
    /// A thread whose limits of size are not known.
    NoLimits {
        /// The thread.
        thread: Thread,
    },
    /// A screw that meets the end of the thread before its head meets the part.
    Bottoms {
        /// How far the screw goes in.
        reach: f64,
        /// How deep the thread goes.
        threaded: f64,
    },
    /// A pitch so coarse that no core is left.
    Pitch {
        /// The pitch given.
        pitch: f64,
        /// The pitch it must stay below.
        limit: f64,
    },
    /// A torque that does not even turn the screw against its prevailing torque.
    Prevailing {
        /// The torque given.
        torque: f64,
        /// The prevailing torque it must exceed.
        prevailing: f64,
    },
    /// A unit that measures no torque.
    Unit {
        /// The unit given.
        unit: quantity::Unit,
    },
    /// A setting the wrench does not measure.
    WrenchRange {
        /// The setting asked for.
        torque: f64,
        /// What it measures.
        range: Interval,
    },
    /// Screws that do not come near enough one another in any number of passes worth going.
    Passes {
        /// How many passes were gone.
        passes: usize,
        /// What the loosest screw then lacks, as a share.
        left: f64,
        /// What it might have lacked.
        wanted: f64,
    },
    /// There is nothing to tighten.
    Empty {
        /// What is missing.
        what: &'static str,
    },
    /// An order that does not name every screw once.
    Sequence {
        /// The number that is repeated or that no screw has.
        number: usize,
        /// How many screws there are.
        count: usize,
    },
    /// A compound past its shelf life, in seconds.
    Stale {
        /// Its age.
        age: f64,
        /// How long it surely keeps.
        limit: f64,
    },
    /// No bead both seals and stays clear.
    NoBead {
        /// The least diameter that seals.
        least: f64,
        /// The greatest that stays clear.
        most: f64,
    },
    /// A part that would have to be hotter than it bears, in kelvin.
    TooHot {
        /// The temperature it would need.
        needed: f64,
        /// The most it bears.
        bears: f64,
    },
    /// Two things that must not meet.
    Clash {
        /// The rule they break.
        rule: Rule,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotPositive { what, value } => {
                write!(f, "{what} is {value}; it must be above zero and finite")
            }
            Self::Negative { what, value } => {
                write!(f, "{what} is {value}; it must be zero or more and finite")
            }
            Self::Outside {
                what,
                value,
                low,
                high,
            } => write!(f, "{what} is {value}; it must lie from {low} to {high}"),
            Self::Order { what, low, high } => write!(
                f,
                "{what} from {low} to {high} is not an interval; its lower end must not exceed its upper end"
            ),
            Self::Designation { text, known } => designation(f, text, known),
            Self::NoHead { diameter } => write!(
                f,
                "no head and hole are known for a screw of {diameter} m; give the diameters of its bearing ring"
            ),
            Self::NoLimits { thread } => write!(
                f,
                "the limits of size of {thread} are not known here; they are for M5, M6, M8 and M10, coarse"
            ),
            Self::Bottoms { reach, threaded } => write!(
                f,
                "the screw goes in {reach} m, the thread only {threaded} m: it would jam and clamp nothing; take a shorter screw or the washer that belongs there"
            ),
            Self::Pitch { pitch, limit } => write!(
                f,
                "a pitch of {pitch} m leaves no core; it must stay below {limit} m"
            ),
            Self::Prevailing { torque, prevailing } => write!(
                f,
                "a torque of {torque} N m does not exceed the prevailing torque of {prevailing} N m; check both"
            ),
            Self::Unit { unit } => unit_of_torque(f, *unit),
            Self::WrenchRange { torque, range } => wrench_range(f, *torque, range),
            Self::Passes {
                passes,
                left,
                wanted,
            } => write!(
                f,
                "after {passes} passes the loosest screw still lacks {left} of the preload, {wanted} was asked for; let it lack more, or check what a neighbour loses"
            ),
            Self::Empty { what } => write!(f, "there is no {what}; give at least one"),
            Self::Sequence { number, count } => write!(
                f,
                "screw {number} stands wrongly in the order of {count} screws; name each of 1 to {count} once"
            ),
            Self::Stale { age, limit } => write!(
                f,
                "the compound is {age} s old and surely keeps {limit} s; take a fresh one, or give the shelf life of its own data sheet"
            ),
            Self::NoBead { least, most } => write!(
                f,
                "a bead of {least} m seals and one of {most} m already reaches a passage; dress the faces, or coat them thinly instead"
            ),
            Self::TooHot { needed, bears } => write!(
                f,
                "the outer part would need {needed} K and bears {bears} K; cool the inner part too, or press it in"
            ),
            Self::Clash { rule } => clash(f, rule),
        }
    }
}

fn unit_of_torque(f: &mut fmt::Formatter<'_>, unit: quantity::Unit) -> fmt::Result {
    let (unit, other) = (unit.symbol(), quantity::Unit::NewtonMetre.symbol());
    write!(f, "{unit} measures no torque; give a unit such as {other}")
}

fn clash(f: &mut fmt::Formatter<'_>, rule: &Rule) -> fmt::Result {
    let ([one, other], harm) = (rule.pair, rule.harm);
    write!(f, "{one} must not meet {other}")?;
    if let Some(with) = rule.with {
        write!(f, " where there is {with}")?;
    }
    write!(f, ": {harm}; clean one off, or take another compound")
}

fn designation(f: &mut fmt::Formatter<'_>, text: &str, known: &[Thread]) -> fmt::Result {
    write!(f, "{text:?} names no thread known here; ")?;
    if known.is_empty() {
        return write!(f, "write it like M6 or M8x1, sizes from M4 to M24");
    }
    let known: Vec<String> = known.iter().map(Thread::to_string).collect();
    write!(f, "of this size there are {}", known.join(", "))
}

fn wrench_range(f: &mut fmt::Formatter<'_>, torque: f64, range: &Interval) -> fmt::Result {
    let Interval { low, high } = range;
    let other = if torque < *low { "smaller" } else { "larger" };
    write!(
        f,
        "a setting of {torque} N m lies outside what this wrench measures, {low} to {high} N m; take a {other} wrench"
    )
}

impl std::error::Error for Error {}

/// Passes a finite value above zero, refuses the rest.
pub(crate) fn positive(what: &'static str, value: f64) -> Result<f64, Error> {
    if value > 0.0 && value.is_finite() {
        Ok(value)
    } else {
        Err(Error::NotPositive { what, value })
    }
}

/// Passes a finite value of zero or more, refuses the rest.
pub(crate) fn not_negative(what: &'static str, value: f64) -> Result<f64, Error> {
    if value >= 0.0 && value.is_finite() {
        Ok(value)
    } else {
        Err(Error::Negative { what, value })
    }
}

/// Passes a value within the limits, refuses the rest.
pub(crate) fn within(what: &'static str, value: f64, limits: Interval) -> Result<f64, Error> {
    if limits.contains(value) {
        Ok(value)
    } else {
        Err(Error::Outside {
            what,
            value,
            low: limits.low,
            high: limits.high,
        })
    }
}
