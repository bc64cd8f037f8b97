//! In which order screws are tightened, in how many passes, and what each leaves in the others.

use crate::error::{not_negative, within};
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

pub(crate) fn check(order: &[usize]) -> Result<(), Error> {
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
