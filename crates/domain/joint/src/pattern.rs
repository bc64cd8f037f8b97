//! In which order screws are tightened, in how many passes, and what each leaves in the others.
//!
//! The repeat at whole torque evens the preloads out; the order keeps the parts from tilting while
//! they close. A wear ring or stator that enters a spigot askew jams there.

use std::f64::consts::TAU;

use crate::error::{not_negative, positive, within};
use crate::{Error, Interval};

/// Passes for faces of metal on metal, as shares of the torque: half, whole, and whole again.
///
/// Source: `common practice, no source`.
pub const METAL_FACES: [f64; 3] = [0.5, 1.0, 1.0];

/// Passes for a joint with a gasket, as shares of the torque.
///
/// Source: `asme-pcc-1`, from memory: 20 to 30 %, 50 to 70 %, whole, and whole round the circle.
pub const GASKET: [f64; 4] = [0.3, 0.7, 1.0, 1.0];

/// Share of what one screw gains that each of its neighbours loses, where nothing better is known.
/// Losses of up to 35 % between two neighbours have been measured.
pub const NEIGHBOUR_LOSS: f64 = 0.15;

/// Nobody goes round more often than this.
const MOST: usize = 20;

/// A share.
const SHARE: Interval = Interval {
    low: 0.0,
    high: 1.0,
};

/// Star order of the screws 1 to `count`: each as far from the last as can be.
///
/// An odd circle is crossed in steps of just under half; an even one is two circles of half the
/// count, each screw followed by the one opposite.
///
/// # Errors
/// [`Error::Empty`] without a screw.
pub fn star(count: usize) -> Result<Vec<usize>, Error> {
    if count == 0 {
        return Err(Error::Empty { what: "screw" });
    }
    Ok(crossing(count))
}

fn crossing(count: usize) -> Vec<usize> {
    if count <= 2 {
        return (1..=count).collect();
    }
    let half = count / 2;
    if count % 2 == 1 {
        return (0..count).map(|i| i * half % count + 1).collect();
    }
    let near = crossing(half).into_iter();
    near.flat_map(|screw| [screw, screw + half]).collect()
}

/// The screws 1 to `count` one after the other round the circle.
///
/// # Errors
/// [`Error::Empty`] without a screw.
pub fn ring(count: usize) -> Result<Vec<usize>, Error> {
    if count == 0 {
        return Err(Error::Empty { what: "screw" });
    }
    Ok((1..=count).collect())
}

/// Preload of every screw after each pass, where tightening one unloads its neighbours.
///
/// `F_j = p`, and for both neighbours `F = max(0, F - a (p - F_j before))`
///
/// A model to compare orders and passes with, not to predict a preload: all screws alike in a
/// circle, each seen only by its two neighbours.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `order` | j | the screws from 1 in the order of each pass | |
/// | `passes` | p | preload aimed at in each pass, over the final one | `1` |
/// | `loss` | a | share of a gain that each neighbour loses | `1` |
/// | returns | F | per pass, per screw from 1: preload over the final one | `1` |
///
/// Range: every screw once, `p >= 0`, `0 <= a <= 0.5`.
/// Source: `common practice, no source`.
///
/// # Errors
/// [`Error::Empty`], [`Error::Sequence`], [`Error::Negative`], [`Error::Outside`].
pub fn remaining(order: &[usize], passes: &[f64], loss: f64) -> Result<Vec<Vec<f64>>, Error> {
    check(order)?;
    let limits = Interval {
        low: 0.0,
        high: 0.5,
    };
    let loss = within("the loss of a neighbour", loss, limits)?;
    let count = order.len();
    let mut loads = vec![0.0_f64; count];
    let mut after = Vec::with_capacity(passes.len());
    for &pass in passes {
        let aim = not_negative("the share of a pass", pass)?;
        for screw in order.iter().map(|number| number - 1) {
            let gain = aim - loads[screw];
            if gain <= 0.0 {
                continue;
            }
            loads[screw] = aim;
            for neighbour in neighbours(screw, count) {
                loads[neighbour] = (loads[neighbour] - loss * gain).max(0.0);
            }
        }
        after.push(loads.clone());
    }
    Ok(after)
}

/// The screws beside one, each once; two screws have only one another.
fn neighbours(screw: usize, count: usize) -> impl Iterator<Item = usize> {
    let (left, right) = ((screw + count - 1) % count, (screw + 1) % count);
    let right = (right != left).then_some(right);
    let left = (left != screw).then_some(left);
    left.into_iter().chain(right)
}

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
    for &pass in first {
        within("the share of a pass", pass, SHARE)?;
    }
    let mut passes = first.to_vec();
    passes.resize(first.len().max(MOST), 1.0);
    let after = remaining(order, &passes, loss)?;
    let lacks: Vec<f64> = after.iter().map(|loads| lacking(loads)).collect();
    let start = first.len().saturating_sub(1);
    let enough = lacks.iter().skip(start).position(|lacks| *lacks <= wanted);
    enough.map(|at| start + at + 1).ok_or(Error::Passes {
        passes: passes.len(),
        left: lacks.last().copied().unwrap_or(1.0),
        wanted,
    })
}

/// What the loosest screw lacks after a pass of [`remaining`].
///
/// `1 - min F`, nothing where every screw has more
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `loads` | F | preload of each screw over the final one | `1` |
/// | returns | | what the loosest lacks, over the final preload | `1` |
///
/// Range: any loads.
/// Source: definition.
pub fn lacking(loads: &[f64]) -> f64 {
    1.0 - loads.iter().copied().fold(1.0, f64::min)
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
    let mut tight = vec![false; order.len()];
    for &number in order {
        tight[number - 1] = true;
        most = most.max(resultant(&tight));
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

fn check(order: &[usize]) -> Result<(), Error> {
    let count = order.len();
    if count == 0 {
        return Err(Error::Empty { what: "screw" });
    }
    let mut seen = vec![false; count];
    for &number in order {
        let place = number.checked_sub(1).and_then(|at| seen.get_mut(at));
        match place {
            Some(seen) if !*seen => *seen = true,
            _ => return Err(Error::Sequence { number, count }),
        }
    }
    Ok(())
}
