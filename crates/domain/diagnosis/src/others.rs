//! What faults change of other craft: what is seen where nothing more is known of this one.
//!
//! Six hundred invented craft of other physics than ours, every fault in eleven sizes, eight quantities; their
//! changes are told by mixtures of eight normal laws a fault. Two models know more than one of what both leave out:
//! a craft's own ([`Signature::new`]) says which way *it* goes, these how far that can be off. No field record lies
//! under either. `validation/python/effects.py` makes the file; its craft are those of the first half of
//! `docs/studies/faults.md`, the second half never.

use nalgebra::{DMatrix, DVector, SMatrix, SVector};

use crate::fault::Fault;
use crate::signature::{Observable, Signature, THIRTY, towards_fifty};

/// How many quantities are told: logarithms of top speed, engine there, times to 30 and 50 mph, engine at 3 m/s and as
/// 20, 30 and 40 mph are passed, over what they are when all is well.
const TOLD: usize = 8;

/// The speeds at which the engine is told, `m/s`, from the fifth quantity on: off the line, 20, 30 and 40 mph.
pub const PASSED: [f64; 4] = [3.0, 8.9408, THIRTY, 17.8816];

/// One normal law of a fault's mixture.
struct Law {
    fault: Fault,
    share: f64,
    /// Mean and standard deviation of the sizes behind it.
    severity: [f64; 2],
    mean: SVector<f64, TOLD>,
    covariance: SMatrix<f64, TOLD, TOLD>,
}

fn laws() -> impl Iterator<Item = Law> {
    include_str!("others.txt").lines().filter_map(law)
}

/// `Clearance 0.125 0.62 0.21`, eight means, and the rows of the covariance's lower factor; none of a remark.
fn law(line: &str) -> Option<Law> {
    let mut words = line.split_whitespace();
    let name = words.next()?;
    let fault = Fault::ALL
        .into_iter()
        .find(|fault| format!("{fault:?}") == name)?;
    let mut number = || words.next()?.parse::<f64>().ok();
    let share = number()?;
    let severity = [number()?, number()?];
    let mut mean = SVector::<f64, TOLD>::zeros();
    for one in mean.iter_mut() {
        *one = number()?;
    }
    let mut factor = SMatrix::<f64, TOLD, TOLD>::zeros();
    for row in 0..TOLD {
        for column in 0..=row {
            factor[(row, column)] = number()?;
        }
    }
    Some(Law {
        fault,
        share,
        severity,
        mean,
        covariance: factor * factor.transpose(),
    })
}

/// How the logarithm of a quantity goes with those that are told.
fn goes_with(of: Observable) -> SVector<f64, TOLD> {
    let mut with = SVector::zeros();
    match of {
        Observable::TopSpeed => with[0] = 1.0,
        Observable::TopEngine => with[1] = 1.0,
        Observable::Start(to) => {
            let share = towards_fifty(to);
            (with[2], with[3]) = (1.0 - share, share);
        }
        Observable::LaunchEngine => with[4] = 1.0,
        Observable::Passing(at) => {
            let speed = at.clamp(PASSED[0], PASSED[3]);
            let next = PASSED.partition_point(|passed| *passed < speed).max(1);
            let share = (speed - PASSED[next - 1]) / (PASSED[next] - PASSED[next - 1]);
            (with[3 + next], with[4 + next]) = (1.0 - share, share);
        }
        Observable::Gap => {}
    }
    with
}

/// A change of a logarithm as one of the quantity: the change, and how it rises with that of the logarithm.
fn as_seen((of, size): (Observable, f64), change: f64) -> [f64; 2] {
    match of {
        // Times are told by their logarithm.
        Observable::Start(_) => [change, 1.0],
        _ => [size * change.exp_m1(), size * change.exp()],
    }
}

/// Signatures of every fault as other craft show it.
///
/// `m = q (exp(h mu) − 1)`, `S = H C H'`, rows of `H` being `q exp(h mu) h`: `mu`, `C` the laws of the logarithms told, `h`
/// how those of the quantities `q` asked for go with them; times and passing speeds between those told along the speed,
/// beyond them as the last
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `quantities` | which, with how large each is when all is well; times by their logarithm | unit of the quantity |
/// | `gap` | by how much a fault of some size opens the gap | `m` |
/// | `returns` | signatures; the shares of a fault's add up to one |  |
///
/// Range: as far as invented craft tell of real ones.
/// Source: common practice, no source.
pub fn others(quantities: &[(Observable, f64)], gap: impl Fn(Fault, f64) -> f64) -> Vec<Signature> {
    let with: Vec<SVector<f64, TOLD>> = quantities.iter().map(|(of, _)| goes_with(*of)).collect();
    let of = |law: Law| {
        let [severity, spread] = law.severity;
        let gap = |severity: f64| gap(law.fault, severity.clamp(0.2, 1.0));
        let opens = 0.5 * (gap(severity + spread) - gap(severity - spread));
        let seen = quantities.iter().zip(&with);
        let seen = seen.map(|(quantity, with)| match quantity.0 {
            Observable::Gap => [gap(severity), 0.0],
            _ => as_seen(*quantity, with.dot(&law.mean)),
        });
        let seen: Vec<[f64; 2]> = seen.collect();
        let mean = DVector::from_fn(seen.len(), |at, _| seen[at][0]);
        let covariance = DMatrix::from_fn(seen.len(), seen.len(), |row, column| {
            let both = [row, column].map(|at| quantities[at].0 == Observable::Gap);
            if both == [true; 2] {
                opens * opens
            } else {
                seen[row][1] * seen[column][1] * with[row].dot(&(law.covariance * with[column]))
            }
        });
        Signature::of_law((law.fault, severity), law.share, (mean, covariance))
    };
    laws().map(of).collect()
}
