//! Mean of means, and least squares where the runs are not equally spaced.

use nalgebra::{DMatrix, DVector};

use crate::Error;
use crate::segment::real;

/// Most runs of one series; beyond it nobody's water and tank stay the same.
const MOST: usize = 40;

/// One for the first run and every second after it, minus one for those between.
pub(super) fn sign(i: usize) -> f64 {
    if i.is_multiple_of(2) { 1.0 } else { -1.0 }
}

/// What each of `count` runs counts in their mean of means.
///
/// `w_k = C(n - 1, k) / 2^(n - 1)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `count` | n | runs | |
/// | `returns` | w | weights, which sum to one | `1` |
///
/// Range: 2 to 40 runs.
/// Source: `iso-15016` for the mean of means; the weights are derived in `docs/theory/trial.md`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn mean_weights(count: usize) -> Result<Vec<f64>, Error> {
    if count < 2 {
        return Err(Error::TooFew {
            what: "runs of alternate direction",
            count,
            least: 2,
        });
    }
    crate::error::within("the number of runs", real(count), 2.0, real(MOST))?;
    let mut weights = vec![1.0];
    for _ in 1..count {
        let mut next = vec![0.0; weights.len() + 1];
        for (k, w) in weights.iter().enumerate() {
            next[k] += 0.5 * w;
            next[k + 1] += 0.5 * w;
        }
        weights = next;
    }
    Ok(weights)
}

/// Mean of means of runs of alternate direction, equally spaced in time.
///
/// `V = sum w_k V_k`; exact where the current along the track is a polynomial of the run's number of degree
/// `n - 2` or less
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `speeds` | V | over ground, in the order of time | `m/s` |
/// | `returns` | V | through the water | `m/s` |
///
/// Range: 2 to 40 runs.
/// Source: `iso-15016`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn mean_of_means(speeds: &[f64]) -> Result<f64, Error> {
    let weights = mean_weights(speeds.len())?;
    for &speed in speeds {
        crate::error::not_negative("the speed of a run", speed)?;
    }
    Ok(weights.iter().zip(speeds).map(|(w, v)| w * v).sum())
}

/// Speed and current by least squares.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `speed` | through the water | `m/s` |
/// | `current` | at the middle of the series, its rise, its bend, about the middle time; in `m/s` over powers of half the series' length | `m/s` |
/// | `weights` | of the runs in the speed | `1` |
/// | `deviation` | standard deviation of what is left over; zero where nothing can be | `m/s` |
/// | `freedom` | runs beyond the unknowns | `1` |
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// Speed through the water.
    pub speed: f64,
    /// Current along the first course: at the middle of the series, and by powers of time, which runs from
    /// minus one at the first run to one at the last.
    pub current: Vec<f64>,
    /// Weights of the runs in the speed.
    pub weights: Vec<f64>,
    /// Standard deviation of what is left over; zero where nothing can be.
    pub deviation: f64,
    /// Runs beyond the unknowns.
    pub freedom: f64,
}

/// Speed through the water where the current is a polynomial of time.
///
/// `V_i = V + (-1)^i (c0 + c1 t_i + c2 t_i^2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `times` | t | of the runs, rising | `s` |
/// | `speeds` | V | over ground, alternating in direction | `m/s` |
/// | `degree` | | of the polynomial | |
///
/// Range: at least `degree + 2` runs.
/// Source: `iso-15016` for a current fitted in time; least squares by definition.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Order`], [`Error::Outside`].
pub fn fitted(times: &[f64], speeds: &[f64], degree: usize) -> Result<Fitted, Error> {
    let count = speeds.len().min(times.len());
    if count < degree + 2 || times.len() != speeds.len() {
        return Err(Error::TooFew {
            what: "runs for such a current",
            count,
            least: (degree + 2).max(times.len().max(speeds.len())),
        });
    }
    for &speed in speeds {
        crate::error::not_negative("the speed of a run", speed)?;
    }
    if let Some(w) = times
        .windows(2)
        .find(|w| !(w[1] > w[0] && w[1].is_finite()))
    {
        return Err(Error::Order {
            what: "times of the runs",
            first: w[0],
            second: w[1],
        });
    }
    let (middle, half) = (
        0.5 * (times[0] + times[count - 1]),
        0.5 * (times[count - 1] - times[0]),
    );
    let design = DMatrix::from_fn(count, degree + 2, |i, k| {
        let t = (times[i] - middle) / half;
        let power: f64 = (1..k).map(|_| t).product();
        if k == 0 { 1.0 } else { sign(i) * power }
    });
    let found = design.clone().qr();
    let (q, r) = (found.q(), found.r());
    let first = DVector::from_fn(degree + 2, |k, _| f64::from(u8::from(k == 0)));
    let read = DVector::from_column_slice(speeds);
    let solved = r.solve_upper_triangular(&(q.transpose() * &read));
    let weights = r.tr_solve_upper_triangular(&first).map(|y| &q * y);
    let (Some(solved), Some(weights)) = (solved, weights) else {
        return Err(Error::TooFew {
            what: "runs at different times",
            count,
            least: degree + 2,
        });
    };
    let left = (&read - &design * &solved).norm_squared();
    let freedom = real(count - degree - 2);
    Ok(Fitted {
        speed: solved[0],
        current: solved.iter().skip(1).copied().collect(),
        weights: weights.iter().copied().collect(),
        deviation: if freedom > 0.0 {
            (left / freedom).sqrt()
        } else {
            0.0
        },
        freedom,
    })
}
