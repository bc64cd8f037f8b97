//! From the leaves tried at one spot to one cell of the indicated gap.

use std::fmt;

use crate::Error;

/// The thinnest leaf accepted; sets start at 0.02 mm to 0.05 mm.
const THINNEST: f64 = 1e-5;
/// The thickest leaf accepted; sets end at 1 mm to 2 mm.
const THICKEST: f64 = 3e-3;

/// What a leaf did at a spot, from loosest to tightest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Answer {
    /// It went in without drag.
    GoesFree,
    /// It went in and dragged.
    Drags,
    /// It went in; nobody said how it felt.
    Goes,
    /// It did not go in.
    WontGo,
}

/// One leaf tried at one spot.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `thickness` | thickness marked on the leaf, or measured | `m` |
/// | `answer` | what it did | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Try {
    /// Thickness of the leaf, or the sum of a stack.
    pub thickness: f64,
    /// What it did.
    pub answer: Answer,
}

impl Try {
    /// A try whose thickness is one a leaf can have.
    ///
    /// Range: thickness from 0.01 mm to 3 mm.
    ///
    /// # Errors
    /// [`Error::Thickness`] outside that range, or when it is not a number.
    pub fn new(thickness: f64, answer: Answer) -> Result<Self, Error> {
        if (THINNEST..=THICKEST).contains(&thickness) {
            Ok(Self { thickness, answer })
        } else {
            Err(Error::Thickness {
                value: thickness,
                least: THINNEST,
                greatest: THICKEST,
            })
        }
    }
}

/// How a leaf that goes, drags or goes free relates to the indicated gap.
///
/// A steel leaf cannot enter a gap thinner than itself, so the gap must exceed it by `goes` before
/// it goes, and by `free` before it goes without drag. `goes` is twice `scatter`, which makes
/// "goes" nearly one-sided evidence. The defaults are assumed from common practice.
///
/// | here | meaning | default | unit |
/// |------|---------|---------|------|
/// | `goes` | gap beyond the leaf at which it just goes | 10e-6 | `m` |
/// | `free` | gap beyond the leaf at which the drag is gone | 20e-6 | `m` |
/// | `scatter` | standard deviation of these thresholds from spot to spot | 5e-6 | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feel {
    /// Gap beyond the leaf at which it just goes.
    pub goes: f64,
    /// Gap beyond the leaf at which the drag is gone.
    pub free: f64,
    /// Standard deviation of the thresholds from spot to spot.
    pub scatter: f64,
}

impl Feel {
    /// The feel of a hand that needs `allowance` beyond the leaf: free at twice, scatter half of it.
    pub fn from_allowance(allowance: f64) -> Self {
        Self {
            goes: allowance,
            free: 2.0 * allowance,
            scatter: 0.5 * allowance,
        }
    }
}

impl Default for Feel {
    fn default() -> Self {
        Self::from_allowance(10e-6)
    }
}

/// The interval of the indicated gap that the tries at one spot leave open.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `low` | lower end, 0 when no leaf goes | `m` |
/// | `high` | upper end, infinite when every leaf goes | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Cell {
    /// Refuses a cell that is not an interval of gaps with two ends.
    pub(crate) fn closed(self) -> Result<Self, Error> {
        let Self { low, high } = self;
        if low.is_nan() || low < 0.0 || high.is_nan() || high <= low {
            Err(Error::Cell { low, high })
        } else if high.is_infinite() {
            Err(Error::NoUpperBound { largest: low })
        } else {
            Ok(self)
        }
    }
}

/// The two leaves that enclose the gap: what goes by hand, before any allowance.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `goes` | thickest leaf that goes | `m` |
/// | `wont` | thinnest leaf that won't | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bracket {
    /// Thickest leaf that goes, if any does.
    pub goes: Option<f64>,
    /// Thinnest leaf that won't go, if any.
    pub wont: Option<f64>,
}

/// A leaf goes where a thinner one won't: one of the two answers is a slip.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `goes` | thickest leaf that goes | `m` |
/// | `wont` | thinnest leaf that won't | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contradiction {
    /// Thickest leaf that goes.
    pub goes: f64,
    /// Thinnest leaf that won't go.
    pub wont: f64,
}

impl fmt::Display for Contradiction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the leaf of {} m goes but the thinner leaf of {} m won't; try both again",
            self.goes, self.wont
        )
    }
}

impl std::error::Error for Contradiction {}

/// The enclosing leaves of a spot. The tries come in the order made: of one leaf the latest counts.
///
/// # Errors
/// [`Contradiction`] when a leaf goes where a thinner one won't.
pub fn bracket(tries: &[Try]) -> Result<Bracket, Contradiction> {
    let hard = |wanted: bool| {
        latest(tries)
            .filter(move |t| (t.answer != Answer::WontGo) == wanted)
            .map(|t| t.thickness)
    };
    let goes = hard(true).reduce(f64::max);
    let wont = hard(false).reduce(f64::min);
    match (goes, wont) {
        (Some(goes), Some(wont)) if goes >= wont => Err(Contradiction { goes, wont }),
        _ => Ok(Bracket { goes, wont }),
    }
}

/// The cell of the indicated gap that the tries of one spot leave open.
///
/// `goes: z > t + goes`, `won't: z <= t + goes`, `drags: t + goes < z <= t + free`,
/// `goes free: z > t + free`
///
/// Whether a leaf went in is hard evidence. How it felt sharpens the cell when it agrees with that
/// and with the other feels; otherwise the feels are left aside.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `tries` | t | leaves tried, in the order made; of one leaf the latest counts | `m` |
/// | `feel` | | allowances of the hand | `m` |
/// | returns | z | indicated gap | `m` |
///
/// Range: `0 <= goes <= free`; no tries leave the cell open from 0 to infinity.
/// Source: common practice; the interval view is that of `jcgm-100`, 4.3.7.
///
/// # Errors
/// [`Contradiction`] when a leaf goes where a thinner one won't.
pub fn cell(tries: &[Try], feel: &Feel) -> Result<Cell, Contradiction> {
    let hard = bracket(tries)?;
    let low = hard.goes.map_or(0.0, |t| t + feel.goes);
    let high = hard.wont.map_or(f64::INFINITY, |t| t + feel.goes);
    let shade = |answer: Answer| {
        latest(tries)
            .filter(move |t| t.answer == answer)
            .map(|t| t.thickness + feel.free)
            .filter(move |&z| low < z && z < high)
    };
    let sharp = Cell {
        low: shade(Answer::GoesFree).fold(low, f64::max),
        high: shade(Answer::Drags).fold(high, f64::min),
    };
    Ok(if sharp.low < sharp.high {
        sharp
    } else {
        Cell { low, high }
    })
}

/// The tries that no later try of the same leaf replaces.
fn latest(tries: &[Try]) -> impl Iterator<Item = &Try> {
    tries.iter().enumerate().filter_map(move |(i, t)| {
        let again = tries[i + 1..]
            .iter()
            .any(|later| same(later.thickness, t.thickness));
        (!again).then_some(t)
    })
}

/// Two thicknesses are one leaf when they are the same number: text is parsed to identical bits.
fn same(a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits()
}
