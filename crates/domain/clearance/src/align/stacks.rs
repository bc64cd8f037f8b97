//! The shims at hand, shared out over the mounts.

use crate::Error;
use crate::error::{finite, positive, within};

/// The most shims that are looked at together.
pub const MOST_SHIMS: usize = 12;
/// The most mounts.
pub const MOST_MOUNTS: usize = 8;
/// What one shim more must gain to be worth it, `m`.
const WORTH: f64 = 1e-6;

/// The stack under one mount.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// Which of the shims, counted from zero.
    pub shims: Vec<usize>,
    /// How thick they are together, `m`.
    pub thickness: f64,
    /// Less what was wanted, `m`.
    pub off: f64,
}

/// Shares the shims out so that the stacks come nearest to what is wanted, every shim used once at most.
///
/// least of `sum (t_i - w_i)^2 + k d^2`, k shims in use, d one micrometre
///
/// Exact: the best for some mounts with some of the shims is kept for every set of shims, and the next mount
/// is tried with every part of what is left.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `wanted` | w | thickness under each mount | `m` |
/// | `shims` | | thickness of each shim at hand, those that are in too | `m` |
///
/// Range: 1 to 8 mounts, up to 12 shims; a thickness below zero is met by no shim.
/// Source: definition.
///
/// # Errors
/// [`Error::Empty`], [`Error::Outside`], [`Error::NotPositive`].
pub fn stacks(wanted: &[f64], shims: &[f64]) -> Result<Vec<Stack>, Error> {
    if wanted.is_empty() {
        return Err(Error::Empty { what: "mount" });
    }
    let most = |count: usize| crate::real(count);
    within("mounts", most(wanted.len()), 1.0, most(MOST_MOUNTS))?;
    within("shims", most(shims.len()), 0.0, most(MOST_SHIMS))?;
    for value in wanted {
        finite("a stack wanted", *value)?;
    }
    for shim in shims {
        positive("a shim", *shim)?;
    }
    let sets = 1_usize << shims.len();
    let of = |set: usize| (0..shims.len()).filter(move |shim| set >> shim & 1 == 1);
    let sums: Vec<f64> = (0..sets)
        .map(|set| of(set).map(|shim| shims[shim]).sum())
        .collect();
    let cost = |set: usize, wanted: f64| {
        (sums[set] - wanted).powi(2) + f64::from(set.count_ones()) * WORTH * WORTH
    };
    // For every set of shims that may be used: the best so far, and what the last mount took.
    let mut best = vec![0.0; sets];
    let mut taken: Vec<Vec<usize>> = Vec::new();
    for wanted in wanted {
        let mut next = vec![f64::INFINITY; sets];
        let mut took = vec![0; sets];
        for free in 0..sets {
            let mut part = free;
            loop {
                let total = best[free ^ part] + cost(part, *wanted);
                if total < next[free] {
                    next[free] = total;
                    took[free] = part;
                }
                if part == 0 {
                    break;
                }
                part = (part - 1) & free;
            }
        }
        best = next;
        taken.push(took);
    }
    let mut free = sets - 1;
    let mut found: Vec<Stack> = taken
        .iter()
        .zip(wanted)
        .rev()
        .map(|(took, wanted)| {
            let set = took[free];
            free ^= set;
            Stack {
                shims: of(set).collect(),
                thickness: sums[set],
                off: sums[set] - wanted,
            }
        })
        .collect();
    found.reverse();
    Ok(found)
}
