//! What a circle of screws comes to, pass after pass: how many it takes, and star against round.
//!
//! The repeat at full torque evens the preloads out; the order keeps the parts from tilting
//! while they close. A wear ring or stator that enters a spigot askew jams there.

use std::f64::consts::TAU;

use crate::error::{positive, within};
use crate::pattern::{check, remaining};
use crate::{Error, Interval};

/// Nobody goes round more often than this.
const MOST: usize = 20;

/// The screws 1 to `count` one after the other round the circle.
///
/// # Errors
/// [`Error::Empty`] without a screw.
pub fn round(count: usize) -> Result<Vec<usize>, Error> {
    if count == 0 {
        return Err(Error::Empty { what: "screw" });
    }
    Ok((1..=count).collect())
}

/// What the loosest screw lacks, by the model of [`remaining`], after each pass.
///
/// `u = 1 - min F`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `order` | | the screws from 1 in the order of each pass | |
/// | `passes` | p | preload aimed at in each pass, over the final one | `1` |
/// | `loss` | a | share of a gain that each neighbour loses | `1` |
/// | returns | u | per pass: what the loosest lacks, over the final preload | `1` |
///
/// Range: every screw once, `0 <= p <= 1`, `0 <= a <= 0.5`.
/// Source: `common practice, no source`.
///
/// # Errors
/// [`Error::Empty`], [`Error::Sequence`], [`Error::Outside`].
pub fn lacking(order: &[usize], passes: &[f64], loss: f64) -> Result<Vec<f64>, Error> {
    for &pass in passes {
        within("the share of a pass", pass, SHARE)?;
    }
    let lacks = |loads: Vec<f64>| 1.0 - loads.into_iter().fold(1.0, f64::min);
    let after = remaining(order, passes, loss)?;
    Ok(after.into_iter().map(lacks).collect())
}

/// A share.
const SHARE: Interval = Interval {
    low: 0.0,
    high: 1.0,
};

/// How many passes bring every screw near the final preload, by the model of [`remaining`].
///
/// The given passes first, then whole torque until no screw lacks more than `wanted`.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `order` | | the screws from 1 in the order of each pass | |
/// | `first` | p | preload aimed at in the first passes, over the final one | `1` |
/// | `loss` | a | share of a gain that each neighbour loses | `1` |
/// | `wanted` | u | what the loosest may lack, over the final preload | `1` |
/// | returns | | passes in all, the first among them | |
///
/// Range: every screw once, `0 <= p <= 1`, `0 <= a <= 0.5`, `0 < u <= 1`, at most 20 passes.
/// Source: `common practice, no source`.
///
/// # Errors
/// [`Error::Passes`] where 20 do not suffice, [`Error::Empty`], [`Error::Sequence`],
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn passes_needed(
    order: &[usize],
    first: &[f64],
    loss: f64,
    wanted: f64,
) -> Result<usize, Error> {
    let wanted = positive("what the loosest screw may lack", wanted)?;
    let wanted = within("what the loosest screw may lack", wanted, SHARE)?;
    let mut passes = first.to_vec();
    passes.resize(first.len().max(MOST), 1.0);
    let lacks = lacking(order, &passes, loss)?;
    let start = first.len().saturating_sub(1);
    let enough = lacks.iter().skip(start).position(|lacks| *lacks <= wanted);
    enough.map(|at| start + at + 1).ok_or(Error::Passes {
        passes: passes.len(),
        left: lacks.last().copied().unwrap_or(1.0),
        wanted,
    })
}

/// How hard the parts are tilted at the worst moment of a first pass.
///
/// `m = max over k of |sum of exp(2 pi i j / n), j = the first k screws|`
///
/// One screw alone tilts by 1. Nothing but the order counts: every screw of the pass pulls alike.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `order` | j | the screws from 1 in their order | |
/// | returns | m | tilting moment over preload and radius of the circle | `1` |
///
/// Range: every screw once.
/// Source: `definition`, of a moment.
///
/// # Errors
/// [`Error::Empty`] or [`Error::Sequence`] for an order that is none.
pub fn tilting(order: &[usize]) -> Result<f64, Error> {
    check(order)?;
    let mut most = 0.0_f64;
    let mut turns = vec![false; order.len()];
    for &number in order {
        turns[number - 1] = true;
        most = most.max(resultant(&turns));
    }
    Ok(most)
}

/// Length of the sum of unit vectors to the screws that are tight.
#[expect(
    clippy::cast_precision_loss,
    reason = "no circle has screws beyond what an f64 counts exactly"
)]
fn resultant(tight: &[bool]) -> f64 {
    let step = TAU / tight.len() as f64;
    let tight = tight.iter().enumerate().filter(|(_, tight)| **tight);
    let (x, y) = tight.fold((0.0, 0.0), |(x, y), (at, _)| {
        let (sin, cos) = (step * at as f64).sin_cos();
        (x + cos, y + sin)
    });
    f64::hypot(x, y)
}
