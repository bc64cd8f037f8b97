//! What this crate refuses, with the value and the limit.

use std::fmt;

/// Why a computation was refused. Lengths are in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Error {
    /// A leaf thinner or thicker than any that is sold, or not a number.
    Thickness {
        /// The thickness given.
        value: f64,
        /// The thinnest leaf accepted.
        least: f64,
        /// The thickest leaf accepted.
        greatest: f64,
    },
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
    /// A leaf as wide as the bore or wider has no chord in it.
    Width {
        /// The leaf width given.
        value: f64,
        /// The bore diameter it must stay below.
        diameter: f64,
    },
    /// A cell whose ends are not numbers or not in order.
    Cell {
        /// The lower end given.
        low: f64,
        /// The upper end given.
        high: f64,
    },
    /// There is nothing to compute from.
    Empty {
        /// What is missing.
        what: &'static str,
    },
    /// Every leaf tried went in everywhere, so nothing bounds the gap from above.
    NoUpperBound {
        /// The largest lower end of any cell.
        largest: f64,
    },
    /// One gap fits every cell, so the likelihood rises for ever as the spread shrinks to nothing.
    SpreadCollapses {
        /// The lower end of the range shared by all cells.
        low: f64,
        /// The upper end of the range shared by all cells.
        high: f64,
    },
    /// An iteration did not settle.
    NotConverged {
        /// What was sought.
        what: &'static str,
        /// The steps taken.
        steps: usize,
    },
    /// The cells and the model leave no room for a gap of zero or more.
    NoRoom {
        /// The draws tried before giving up.
        tries: usize,
    },
    /// No limit was given to hold the gap against.
    NoLimit,
    /// The least limit lies above the greatest.
    LimitsCross {
        /// The least limit given.
        least: f64,
        /// The greatest limit given.
        greatest: f64,
    },
    /// A spot was named that was not measured.
    NoSuchSpot {
        /// The spot named, counted from zero.
        spot: usize,
        /// How many spots there are.
        spots: usize,
    },
    /// Fewer of something than the computation can stand on.
    TooFew {
        /// Of what.
        what: &'static str,
        /// How many there are.
        count: usize,
        /// How many it takes.
        least: usize,
    },
    /// The points of a bore do not go all the way round it.
    NotAround {
        /// Widest angle between neighbours, seen from the middle, in radians.
        widest: f64,
    },
    /// One straight line fits every reading, so its scatter cannot be told from zero.
    ScatterCollapses {
        /// How many visits it fits.
        visits: usize,
    },
    /// No stack of the shims at hand brings the gap where it is wanted.
    NoStack {
        /// The thinnest stack that would.
        low: f64,
        /// The thickest stack that would.
        high: f64,
        /// The stack at hand that comes nearest.
        nearest: f64,
    },
    /// A blade, position, station or cause was named that is not there.
    NoSuchPlace {
        /// What was named.
        what: &'static str,
        /// Its number, counted from zero.
        at: usize,
        /// How many there are.
        of: usize,
    },
    /// The same thing was given twice.
    Twice {
        /// What was given.
        what: &'static str,
        /// The place of the second, counted from zero.
        at: usize,
    },
    /// The spots read cannot carry so many parameters.
    NotTold {
        /// How many independent values the readings hold.
        told: usize,
        /// How many are asked for.
        asked: usize,
    },
    /// Open cells let a parameter grow without end.
    Unbounded {
        /// Which parameter, in the order of the columns and counted from zero.
        column: usize,
        /// How many there are.
        asked: usize,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Thickness {
                value,
                least,
                greatest,
            } => write!(
                f,
                "a leaf of {value} m is outside {least} m to {greatest} m; check the thickness and its unit"
            ),
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
            } => {
                write!(f, "{what} is {value}; it must lie from {low} to {high}")
            }
            Self::Width { value, diameter } => write!(
                f,
                "a leaf {value} m wide does not fit a bore of {diameter} m; check the leaf width and the bore radius"
            ),
            Self::Cell { low, high } => write!(
                f,
                "a gap from {low} m to {high} m is not an interval; its lower end must be zero or more and below its upper end"
            ),
            Self::Empty { what } => write!(f, "there is no {what}; give at least one"),
            Self::NoUpperBound { largest } => write!(
                f,
                "every leaf went in, so the gap is only known to be above {largest} m; try thicker leaves until one won't go"
            ),
            Self::SpreadCollapses { low, high } => write!(
                f,
                "one gap between {low} m and {high} m fits every reading, so the spread between spots cannot be told from zero; fix the spread or use thinner steps"
            ),
            Self::NotConverged { what, steps } => write!(
                f,
                "{what} did not settle in {steps} steps; check the readings for a slip"
            ),
            Self::NoRoom { tries } => write!(
                f,
                "none of {tries} draws gave a gap of zero or more at every spot; check the feel and the smallest leaves"
            ),
            Self::NoLimit => write!(
                f,
                "there is no limit to hold the gap against; give a least or a greatest"
            ),
            Self::LimitsCross { least, greatest } => write!(
                f,
                "the least limit {least} m is above the greatest {greatest} m; swap them or check the manual"
            ),
            Self::NoSuchSpot { spot, spots } => write!(
                f,
                "spot {spot} (counted from zero) was named, but there are {spots} spots"
            ),
            _ => self.around(f),
        }
    }
}

impl Error {
    /// The refusals of what surrounds the gap.
    fn around(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::TooFew { what, count, least } => {
                write!(f, "too few {what}: {count}; it takes at least {least}")
            }
            Self::NotAround { widest } => write!(
                f,
                "the points leave {widest} rad of the bore unread; read points until neighbours are less than half a turn apart"
            ),
            Self::ScatterCollapses { visits } => write!(
                f,
                "one straight line fits all {visits} readings, so their scatter cannot be told from zero; state the scatter of a reading, or use thinner steps"
            ),
            Self::NoStack { low, high, nearest } => write!(
                f,
                "no stack of the shims at hand is {low} m to {high} m thick; the nearest is {nearest} m: get a shim that makes up the difference; a thickness below zero asks for another ring or impeller"
            ),
            _ => self.causes(f),
        }
    }

    /// The refusals of the causes.
    fn causes(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::NoSuchPlace { what, at, of } => write!(
                f,
                "{what} {at} (counted from zero) was named, but there are {of}; check the number"
            ),
            Self::Twice { what, at } => write!(
                f,
                "the {what} in place {at} (counted from zero) was given before; give it once"
            ),
            Self::NotTold { told, asked } => write!(
                f,
                "the readings tell {told} values apart, but {asked} are asked for; turn the impeller and read more spots, or ask for fewer causes"
            ),
            Self::Unbounded { column, asked } => write!(
                f,
                "parameter {column} (counted from zero) of {asked} can grow without end, since every leaf went in where it shows; try thicker leaves there until one won't go"
            ),
            _ => Ok(()),
        }
    }
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

/// Passes a finite value, refuses the rest.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<f64, Error> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(Error::Outside {
            what,
            value,
            low: f64::NEG_INFINITY,
            high: f64::INFINITY,
        })
    }
}

/// Passes a value from `low` to `high`, both included, refuses the rest.
pub(crate) fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<f64, Error> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(Error::Outside {
            what,
            value,
            low,
            high,
        })
    }
}

/// Passes a probability that is neither 0 nor 1, refuses the rest.
pub(crate) fn probability(what: &'static str, value: f64) -> Result<f64, Error> {
    if value > 0.0 && value < 1.0 {
        Ok(value)
    } else {
        Err(Error::Outside {
            what,
            value,
            low: 0.0,
            high: 1.0,
        })
    }
}
