//! Differences by putting the results in other groups, or by drawing them anew.

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};

use crate::Error;
use crate::figure::Interval;
use crate::segment::real;

/// Most ways that are gone through one by one.
const MOST: u32 = 2_000_000;
/// Fewest results of a side that can be drawn from anew.
const FEWEST: usize = 8;
/// Draws of a bootstrap.
const DRAWS: usize = 20_000;

/// Probability, either way, of such a difference if it did not matter which results are before and which after.
///
/// Share of all ways to split the results into groups of these sizes whose means differ by as much.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `before` | results | unit of the value |
/// | `after` | results | unit of the value |
/// | `returns` | probability, never below one in the number of ways | `1` |
///
/// Range: at least one result of each, at most two million ways.
/// Source: `fisher-1935`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`] for more ways, where [`welch`](super::welch) is as good.
pub fn permutation(before: &[f64], after: &[f64]) -> Result<f64, Error> {
    check(before, after, 1)?;
    let all: Vec<f64> = before.iter().chain(after).copied().collect();
    let (count, chosen) = (all.len(), after.len());
    let mut ways = 1.0;
    for i in 0..chosen {
        ways *= real(count - i) / real(i + 1);
    }
    crate::error::within("the number of ways to split", ways, 1.0, f64::from(MOST))?;
    // The difference of means rises with the sum of the group after; both ends count.
    let total: f64 = all.iter().sum();
    let middle = total * real(chosen) / real(count);
    let found = (after.iter().sum::<f64>() - middle).abs();
    // Sums in another order differ in their last digits.
    let least = found - 1e-9 * all.iter().map(|x| x.abs()).sum::<f64>();
    let mut picked: Vec<usize> = (0..chosen).collect();
    let (mut as_far, mut seen) = (0_u32, 0_u32);
    loop {
        let sum: f64 = picked.iter().map(|&i| all[i]).sum();
        seen += 1;
        as_far += u32::from((sum - middle).abs() >= least);
        // The next choice in order: the last place that can still move does.
        let Some(at) = (0..chosen).rfind(|&at| picked[at] < count - chosen + at) else {
            return Ok(f64::from(as_far) / f64::from(seen));
        };
        picked[at] += 1;
        for later in at + 1..chosen {
            picked[later] = picked[later - 1] + 1;
        }
    }
}

/// What drawing the results anew makes of their difference.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `mean` | of the differences | unit of the value |
/// | `deviation` | of the differences | unit of the value |
/// | `median` | of the differences | unit of the value |
/// | `interval` | that holds 95 in a hundred of them | unit of the value |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resampled {
    /// Mean of the differences.
    pub mean: f64,
    /// Their standard deviation.
    pub deviation: f64,
    /// Their median.
    pub median: f64,
    /// The interval that holds 95 in a hundred of them.
    pub interval: Interval,
}

/// Every difference that drawing the results anew can give, each as probable: what a bootstrap of few
/// results comes to.
///
/// It is narrower than the truth, since it divides by `n` and not by `n - 1`; it is here to show that.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `before` | results | unit of the value |
/// | `after` | results | unit of the value |
///
/// Range: at least two results of each, at most two million ways.
/// Source: `efron-1979`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn every_resample(before: &[f64], after: &[f64]) -> Result<Resampled, Error> {
    check(before, after, 2)?;
    let ways = |results: &[f64]| {
        (0..results.len())
            .map(|_| real(results.len()))
            .product::<f64>()
    };
    let all = ways(before) * ways(after);
    crate::error::within("the number of ways to draw", all, 1.0, f64::from(MOST))?;
    let (before, after) = (every_mean(before), every_mean(after));
    let differences = after
        .iter()
        .flat_map(|a| before.iter().map(move |b| a - b))
        .collect();
    Ok(told(differences))
}

/// Mean of every draw with replacement.
fn every_mean(results: &[f64]) -> Vec<f64> {
    let share = 1.0 / real(results.len());
    let mut sums = vec![0.0];
    for _ in results {
        sums = sums
            .iter()
            .flat_map(|sum| results.iter().map(move |x| sum + share * x))
            .collect();
    }
    sums
}

/// Differences by drawing the results anew.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `before` | results | unit of the value |
/// | `after` | results | unit of the value |
/// | `seed` | of the draws: the same seed, the same answer | |
///
/// Range: at least eight results of each; with fewer it looks surer than it is.
/// Source: `efron-1979`; that eight are the least is common practice.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn bootstrap(before: &[f64], after: &[f64], seed: u64) -> Result<Resampled, Error> {
    check(before, after, FEWEST)?;
    let mut draws = Pcg64Mcg::seed_from_u64(seed);
    let mut drawn = |results: &[f64]| {
        let one = |draws: &mut Pcg64Mcg| results[below(draws, results.len())];
        let sum: f64 = (0..results.len()).map(|_| one(&mut draws)).sum();
        sum / real(results.len())
    };
    let differences = (0..DRAWS).map(|_| drawn(after) - drawn(before)).collect();
    Ok(told(differences))
}

/// A number below `count`, each as probable.
fn below(draws: &mut Pcg64Mcg, count: usize) -> usize {
    // The high half of a product of 64 bits by a small count is uneven by a part in 2^60.
    let wide = u128::from(draws.next_u64()) * (count as u128);
    usize::try_from(wide >> 64).unwrap_or(0)
}

fn check(before: &[f64], after: &[f64], least: usize) -> Result<(), Error> {
    let count = before.len().min(after.len());
    if count < least {
        return Err(Error::TooFew {
            what: "double runs or starts",
            count,
            least,
        });
    }
    for &result in before.iter().chain(after) {
        crate::error::finite("a result", result)?;
    }
    Ok(())
}

fn told(mut differences: Vec<f64>) -> Resampled {
    differences.sort_by(f64::total_cmp);
    let count = real(differences.len());
    let mean = differences.iter().sum::<f64>() / count;
    let squares: f64 = differences.iter().map(|d| (d - mean) * (d - mean)).sum();
    Resampled {
        mean,
        deviation: (squares / count).sqrt(),
        median: quantile(&differences, 0.5),
        interval: Interval {
            low: quantile(&differences, 0.025),
            high: quantile(&differences, 0.975),
        },
    }
}

/// Quantile of sorted numbers, straight between neighbours.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place among the numbers, from nought to their count"
)]
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * real(sorted.len() - 1);
    let at = (place.floor() as usize).min(sorted.len() - 1);
    let next = (at + 1).min(sorted.len() - 1);
    sorted[at] + (place - real(at)) * (sorted[next] - sorted[at])
}
