//! Where a series of readings changes its level.

use crate::Error;
use crate::error::{finite, positive};

/// Ends of the segments that a series of readings falls into.
///
/// Least `sum over segments of [sum (x - mean)^2] + b (number of changes)`; each end is the index one past
/// the segment's last reading, the last end is the number of readings.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `readings` | x | in order | unit of the reading |
/// | `penalty` | b | price of a change | unit of the reading, squared |
/// | `least` | | fewest readings of a segment | |
///
/// Range: `b > 0`, `least >= 1`, at least `least` readings.
/// Source: `killick-2012`, the pruned search, exact; a start is left only once it cannot win any more
/// for an end that leaves the shortest segment behind it.
///
/// # Errors
/// [`Error::TooFew`], [`Error::NotPositive`], [`Error::Outside`] for a reading that is no number.
pub fn changes(readings: &[f64], penalty: f64, least: usize) -> Result<Vec<usize>, Error> {
    let least = least.max(1);
    if readings.len() < least {
        return Err(Error::TooFew {
            what: "readings of a segment",
            count: readings.len(),
            least,
        });
    }
    positive("the penalty of a change", penalty)?;
    let sums = Sums::new(readings)?;
    let count = readings.len();
    let mut best = vec![f64::INFINITY; count + 1];
    let mut last = vec![0; count + 1];
    best[0] = -penalty;
    // A start, and the end from which it needs no more looking at.
    let mut starts: Vec<(usize, usize)> = Vec::new();
    for end in least..=count {
        if best[end - least].is_finite() {
            starts.push((end - least, usize::MAX));
        }
        starts.retain(|&(_, until)| end < until);
        let mut costs = Vec::with_capacity(starts.len());
        for &(start, _) in &starts {
            let cost = best[start] + sums.cost(start, end);
            costs.push(cost);
            if cost + penalty < best[end] {
                best[end] = cost + penalty;
                last[end] = start;
            }
        }
        for ((_, until), cost) in starts.iter_mut().zip(costs) {
            if cost > best[end] {
                *until = (*until).min(end + least);
            }
        }
    }
    let mut ends = vec![count];
    while let Some(&end) = ends.last()
        && last[end] > 0
    {
        ends.push(last[end]);
    }
    ends.reverse();
    Ok(ends)
}

/// Running sums of readings about their mean, which keeps the digits of their squares.
struct Sums {
    first: Vec<f64>,
    second: Vec<f64>,
}

impl Sums {
    fn new(readings: &[f64]) -> Result<Self, Error> {
        let mean = readings.iter().sum::<f64>() / real(readings.len());
        let (mut first, mut second) = (vec![0.0], vec![0.0]);
        let (mut sum, mut squares) = (0.0, 0.0);
        for &reading in readings {
            let off = finite("a reading", reading)? - mean;
            sum += off;
            squares += off * off;
            first.push(sum);
            second.push(squares);
        }
        Ok(Self { first, second })
    }

    /// Sum of squares about the mean of readings `start` to `end`, the last left out.
    fn cost(&self, start: usize, end: usize) -> f64 {
        let sum = self.first[end] - self.first[start];
        let squares = self.second[end] - self.second[start];
        (squares - sum * sum / real(end - start)).max(0.0)
    }
}

/// Standard deviation of the noise of a series, from how its neighbours differ.
///
/// `s = median |x_(i+1) - x_i| / 0.9539`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `readings` | x | in order | unit of the reading |
/// | `returns` | s | standard deviation of independent normal noise | unit of the reading |
///
/// Range: at least two readings; levels change seldom.
/// Source: definition; 0.9539 is the upper quartile of the normal law times the root of two.
///
/// # Errors
/// [`Error::TooFew`].
pub fn noise(readings: &[f64]) -> Result<f64, Error> {
    if readings.len() < 2 {
        return Err(Error::TooFew {
            what: "readings",
            count: readings.len(),
            least: 2,
        });
    }
    let mut steps: Vec<f64> = readings.windows(2).map(|w| (w[1] - w[0]).abs()).collect();
    Ok(median(&mut steps) / (QUARTILE * std::f64::consts::SQRT_2))
}

/// Upper quartile of the normal law.
const QUARTILE: f64 = 0.674_489_750_196_081_7;

/// Median of some numbers, which are put in order; zero of none.
pub(crate) fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    let count = values.len();
    match count {
        0 => 0.0,
        _ if count % 2 == 1 => values[count / 2],
        _ => 0.5 * (values[count / 2 - 1] + values[count / 2]),
    }
}

/// A count as a number.
#[expect(clippy::cast_precision_loss, reason = "no log has 2^52 readings")]
pub(crate) fn real(count: usize) -> f64 {
    count as f64
}
