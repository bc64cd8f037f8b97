//! Which check tells most for the work it takes.

use crate::check::Check;
use crate::fault::{ByFault, Fault};

/// What a check is worth beforehand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gain {
    /// Chance that something is found.
    pub something: f64,
    /// Expected fall of the entropy, in bits.
    pub bits: f64,
}

/// A check on offer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Offer {
    /// Which.
    pub check: Check,
    /// What it is worth.
    pub gain: Gain,
    /// How the faults stand if nothing is found, and if something is.
    pub after: [ByFault; 2],
}

impl Offer {
    /// What it tells for the work it takes.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | bits for every minute of work | `1` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn per_minute(&self) -> f64 {
        self.gain.bits / f64::from(self.check.minutes())
    }

    /// The likeliest fault after an outcome, with its chance.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `something` | the outcome: something is found |  |
    /// | `returns` | the fault, and its chance | `1` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn leader(&self, something: bool) -> (Fault, f64) {
        let after = &self.after[usize::from(something)];
        let all = Fault::ALL.into_iter().zip(after.iter().copied());
        all.max_by(|a, b| a.1.total_cmp(&b.1))
            .unwrap_or((Fault::Unlisted, 1.0))
    }
}

/// Entropy of shares.
///
/// `H = −sum p log2 p`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `shares` | `p`, adding up to one | `1` |
/// | `returns` | `H`, in bits | `1` |
///
/// Range: any shares.
/// Source: definition.
pub fn entropy(shares: &[f64]) -> f64 {
    let each = shares.iter().filter(|share| **share > 0.0);
    -each.map(|share| share * share.log2()).sum::<f64>()
}

/// What an outcome leaves of the shares; as they were where it cannot be.
fn after(shares: &[f64], likelihood: impl Fn(usize) -> f64) -> (f64, Vec<f64>) {
    let joint: Vec<f64> = (0..shares.len())
        .map(|at| shares[at] * likelihood(at))
        .collect();
    let all: f64 = joint.iter().sum();
    if all > 0.0 {
        (all, joint.iter().map(|share| share / all).collect())
    } else {
        (0.0, shares.to_vec())
    }
}

/// Expected information of a check with two outcomes.
///
/// `EIG = H(p) − sum_o P(o) H(p | o)`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `shares` | `p`, adding up to one | `1` |
/// | `chances` | `P(something | f)` | `1` |
/// | `returns` | `P(something)` and `EIG` |  |
///
/// Range: lists of the same length.
/// Source: `lindley-1956`.
pub fn gain(shares: &[f64], chances: &[f64]) -> Gain {
    let (something, found) = after(shares, |at| chances[at]);
    let (nothing, clear) = after(shares, |at| 1.0 - chances[at]);
    let left = something * entropy(&found) + nothing * entropy(&clear);
    Gain {
        something,
        bits: (entropy(shares) - left).max(0.0),
    }
}

/// All checks not done yet: the free one first, then by bits a minute.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `shares` | how the faults stand now | `1` |
/// | `done` | checks that are done |  |
/// | `returns` | the rest, best first |  |
///
/// Range: any.
/// Source: `breese-1996`, for gain over cost.
pub fn offers(shares: &ByFault, done: &[Check]) -> Vec<Offer> {
    let left = Check::ALL.into_iter().filter(|check| !done.contains(check));
    let mut offers: Vec<Offer> = left
        .map(|check| {
            let chances = check.chances();
            let outcome = |likelihood: &dyn Fn(usize) -> f64| {
                let (_, after) = after(shares, likelihood);
                std::array::from_fn(|at| after[at])
            };
            Offer {
                check,
                gain: gain(shares, &chances),
                after: [outcome(&|at| 1.0 - chances[at]), outcome(&|at| chances[at])],
            }
        })
        .collect();
    offers.sort_by(|a, b| {
        let key = |one: &Offer| (one.check.free(), one.per_minute());
        let (a, b) = (key(a), key(b));
        b.0.cmp(&a.0).then(b.1.total_cmp(&a.1))
    });
    offers
}
