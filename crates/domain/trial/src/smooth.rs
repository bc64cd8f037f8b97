//! Smoothed copies of a log, to find things in it; no result is taken from them.
//!
//! A smoother spreads a launch to before it began, so that no start is timed on it.

use nalgebra::{DMatrix, DVector, Matrix2, Vector2};

use crate::Error;
use crate::error::{not_negative, positive};
use crate::segment::real;

/// Readings at equal steps, smoothed by polynomials.
///
/// Each reading becomes the value in the middle of a polynomial fitted by least squares to it and its
/// neighbours, `half` to each side; near the ends the first and the last polynomial are read off the middle.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `readings` | x | at equal steps | unit of the reading |
/// | `half` | m | neighbours to each side | |
/// | `degree` | | of the polynomial | |
/// | `derivative` | | 0 for the value, 1 for its rise in a step | |
/// | `returns` | | as many as readings | unit of the reading |
///
/// Range: `degree < 2 m + 1 <=` number of readings, `derivative <= degree`.
/// Source: `savitzky-golay-1964`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn polynomial(
    readings: &[f64],
    half: usize,
    degree: usize,
    derivative: usize,
) -> Result<Vec<f64>, Error> {
    let width = 2 * half + 1;
    if readings.len() < width {
        return Err(Error::TooFew {
            what: "readings to smooth",
            count: readings.len(),
            least: width,
        });
    }
    let most = real(width - 1);
    crate::error::within("the degree of a smoother", real(degree), 0.0, most)?;
    let order = real(derivative);
    crate::error::within("the derivative of a smoother", order, 0.0, real(degree))?;
    let middle = weights(half, degree, derivative, 0.0)?;
    let dot = |weights: &[f64], from: usize| -> f64 {
        let readings = &readings[from..from + width];
        weights.iter().zip(readings).map(|(w, x)| w * x).sum()
    };
    let count = readings.len();
    let mut smoothed = Vec::with_capacity(count);
    for i in 0..count {
        let from = i.saturating_sub(half).min(count - width);
        if from + half == i {
            smoothed.push(dot(&middle, from));
        } else {
            let place = real(i - from) - real(half);
            smoothed.push(dot(&weights(half, degree, derivative, place)?, from));
        }
    }
    Ok(smoothed)
}

/// What each of the readings counts in the polynomial's value, or derivative, at `place` off the middle.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `half` | neighbours to each side | |
/// | `degree` | of the polynomial | |
/// | `derivative` | which | |
/// | `place` | steps off the middle | `1` |
/// | `returns` | weights in the order of the readings | `1` |
///
/// Range: `degree < 2 half + 1`.
/// Source: `savitzky-golay-1964`.
///
/// # Errors
/// [`Error::Outside`] where no polynomial can be fitted.
pub fn weights(
    half: usize,
    degree: usize,
    derivative: usize,
    place: f64,
) -> Result<Vec<f64>, Error> {
    let width = 2 * half + 1;
    crate::error::within(
        "the degree of a smoother",
        real(degree),
        0.0,
        real(2 * half),
    )?;
    // Places within one, so that powers keep their digits.
    let scale = real(half.max(1));
    let at = |i: usize| (real(i) - real(half)) / scale;
    let design = DMatrix::from_fn(width, degree + 1, |i, k| power(at(i), k));
    let asked = DVector::from_fn(degree + 1, |k, _| {
        if k < derivative {
            return 0.0;
        }
        let falling: f64 = (0..derivative).map(|j| real(k - j)).product();
        falling * power(place / scale, k - derivative) / power(scale, derivative)
    });
    let parts = design.qr();
    let solved = parts
        .r()
        .tr_solve_upper_triangular(&asked)
        .map(|solved| parts.q() * solved);
    solved.map_or(
        Err(Error::Outside {
            what: "the degree of a smoother",
            value: real(degree),
            low: 0.0,
            high: real(2 * half),
        }),
        |found| Ok(found.iter().copied().collect()),
    )
}

fn power(base: f64, exponent: usize) -> f64 {
    (0..exponent).map(|_| base).product()
}

/// What a smoother knows of one instant.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `speed` | smoothed speed | `m/s` |
/// | `acceleration` | its rise | `m/s^2` |
/// | `deviation` | standard deviation of the speed | `m/s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Smoothed {
    /// Smoothed speed.
    pub speed: f64,
    /// Its rise.
    pub acceleration: f64,
    /// Standard deviation of the speed.
    pub deviation: f64,
}

/// What the smoother of unequal steps takes for granted.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `variance` | R | of one reading | unit of the squared speed |
/// | `unrest` | q | how fast the acceleration wanders: its variance grows by this in a second | unit of the squared acceleration over time |
/// | `start` | | speed and acceleration before the first reading | `m/s`, `m/s^2` |
/// | `doubt` | | their variances | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Motion {
    /// Variance of one reading.
    pub variance: f64,
    /// How fast the acceleration wanders.
    pub unrest: f64,
    /// Speed and acceleration before the first reading.
    pub start: [f64; 2],
    /// Their variances.
    pub doubt: [f64; 2],
}

/// Readings at unequal steps, smoothed on both sides of each.
///
/// State `(v, a)`, `F = [[1, d], [0, 1]]`, `Q = q [[d^3/3, d^2/2], [d^2/2, d]]`: a filter forward, a smoother back.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `times` | t | rising | `s` |
/// | `speeds` | v | read | `m/s` |
/// | `motion` | R, q | what is taken for granted | |
///
/// Range: as many times as speeds, at least one; `R > 0`, `q > 0`.
/// Source: `rauch-1965`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Order`], [`Error::NotPositive`].
pub fn motion(times: &[f64], speeds: &[f64], motion: &Motion) -> Result<Vec<Smoothed>, Error> {
    let count = times.len().min(speeds.len());
    if count == 0 || times.len() != speeds.len() {
        return Err(Error::TooFew {
            what: "readings with a time",
            count,
            least: times.len().max(speeds.len()).max(1),
        });
    }
    positive("the variance of a reading", motion.variance)?;
    positive("the unrest of the acceleration", motion.unrest)?;
    not_negative("a variance", motion.doubt[0])?;
    not_negative("a variance", motion.doubt[1])?;
    let mut ahead = (
        Vector2::from(motion.start),
        Matrix2::from_diagonal(&Vector2::from(motion.doubt)),
    );
    let mut guessed = Vec::with_capacity(count);
    let mut filtered = Vec::with_capacity(count);
    for i in 0..count {
        if i > 0 {
            ahead = predicted(&filtered[i - 1], step(times, i)?, motion.unrest);
        }
        guessed.push(ahead);
        let (mean, spread) = ahead;
        let gain = spread.column(0) / (spread[(0, 0)] + motion.variance);
        let mean = mean + gain * (speeds[i] - mean[0]);
        let spread = spread - gain * spread.row(0);
        filtered.push((mean, spread));
    }
    let mut smooth = filtered.clone();
    for i in (0..count - 1).rev() {
        let (mean, spread) = filtered[i];
        let (guess, doubt) = guessed[i + 1];
        let forward = transition(step(times, i + 1)?);
        let Some(inverse) = doubt.try_inverse() else {
            return Err(Error::NotPositive {
                what: "the variance between two readings",
                value: doubt.determinant(),
            });
        };
        let gain = spread * forward.transpose() * inverse;
        let (later, later_spread) = smooth[i + 1];
        smooth[i] = (
            mean + gain * (later - guess),
            spread + gain * (later_spread - doubt) * gain.transpose(),
        );
    }
    Ok(smooth.iter().map(told).collect())
}

type State = (Vector2<f64>, Matrix2<f64>);

fn told((mean, spread): &State) -> Smoothed {
    Smoothed {
        speed: mean[0],
        acceleration: mean[1],
        deviation: spread[(0, 0)].max(0.0).sqrt(),
    }
}

fn step(times: &[f64], i: usize) -> Result<f64, Error> {
    let (first, second) = (times[i - 1], times[i]);
    if second > first {
        Ok(second - first)
    } else {
        Err(Error::Order {
            what: "times of a log",
            first,
            second,
        })
    }
}

fn transition(d: f64) -> Matrix2<f64> {
    Matrix2::new(1.0, d, 0.0, 1.0)
}

fn predicted((mean, spread): &State, d: f64, unrest: f64) -> State {
    let forward = transition(d);
    let added = Matrix2::new(d * d * d / 3.0, d * d / 2.0, d * d / 2.0, d) * unrest;
    (
        forward * mean,
        forward * spread * forward.transpose() + added,
    )
}
