//! The normal law of the indicated gaps round the ring, fitted to cells.

use crate::error::positive;
use crate::normal::ln_cell_probability;
use crate::{Cell, Error};

/// How the spread between spots is treated by [`fit`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spread {
    /// Estimated with the mean.
    Free,
    /// Held at a standard deviation known beforehand, in metres.
    Fixed(f64),
}

/// The most probable normal law of the indicated gaps.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `mean` | mean of the law | `m` |
/// | `sd` | standard deviation of the law | `m` |
/// | `ln_likelihood` | logarithm of the probability of all cells | `1` |
/// | `mean_error` | standard error of the mean | `m` |
/// | `ln_sd_error` | standard error of `ln sd`, 0 when it was fixed | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Mean of the law.
    pub mean: f64,
    /// Standard deviation of the law.
    pub sd: f64,
    /// Logarithm of the probability of all cells.
    pub ln_likelihood: f64,
    /// Standard error of the mean.
    pub mean_error: f64,
    /// Standard error of `ln sd`.
    pub ln_sd_error: f64,
}

/// Newton steps before a climb is given up.
const STEPS: usize = 200;
/// Slope a reading, in standardised units, at which the top is reached.
const LEVEL: f64 = 1e-13;
/// Newton step, in standardised units, after which the next would be lost in rounding.
const CLOSE: f64 = 1e-9;
/// Halvings of a step that climbs no higher before rounding is blamed.
const HALVINGS: usize = 50;

/// Fits a normal law to cells by maximum likelihood.
///
/// `l(m, s) = sum ln(Phi((H - m) / s) - Phi((L - m) / s))`, climbed by Newton steps in m and ln s
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `cells` | L, H | ends of each cell; they may be infinite | `m` |
/// | `spread` | s | free, or fixed | `m` |
///
/// Range: at least one finite end on either side; with a free spread no gap may fit all cells.
/// Source: `turnbull-1976` for the likelihood of cells.
///
/// # Errors
/// [`Error::SpreadCollapses`] when one gap fits every cell and the spread is free;
/// [`Error::NoUpperBound`], [`Error::Empty`], [`Error::Cell`], [`Error::NotConverged`].
pub fn fit(cells: &[Cell], spread: Spread) -> Result<Fit, Error> {
    let cells = &check(cells)?;
    let (low, high) = hull(cells)?;
    let mean = 0.5 * (low + high);
    let reach = high - low;
    match spread {
        Spread::Fixed(sd) => Climb {
            cells,
            free: false,
            reach,
        }
        .run(mean, positive("the spread", sd)?),
        Spread::Free => {
            let (low, high) = shared(cells);
            if low <= high {
                return Err(Error::SpreadCollapses { low, high });
            }
            Climb {
                cells,
                free: true,
                reach,
            }
            .run(mean, 0.5 * reach)
        }
    }
}

/// Greatest lower and least upper end: in order, they enclose the gaps that fit every cell.
fn shared(cells: &[(Cell, f64)]) -> (f64, f64) {
    let low = cells
        .iter()
        .map(|(c, _)| c.low)
        .fold(f64::NEG_INFINITY, f64::max);
    let high = cells
        .iter()
        .map(|(c, _)| c.high)
        .fold(f64::INFINITY, f64::min);
    (low, high)
}

impl Fit {
    /// Profile interval for the mean: where the likelihood, best over the spread, drops by `drop`.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `cells` | the cells that were fitted | `m` |
    /// | `drop` | fall of the log likelihood: 1.92073 for 95 % | `1` |
    /// | returns | lower and upper end | `m` |
    ///
    /// Range: a fit of the same cells with a free spread, `drop > 0`.
    /// Source: `turnbull-1976` for the likelihood whose profile this is.
    ///
    /// # Errors
    /// As [`fit`].
    pub fn mean_interval(&self, cells: &[Cell], drop: f64) -> Result<(f64, f64), Error> {
        let counted = check(cells)?;
        let floor = self.ln_likelihood - positive("the drop", drop)?;
        Ok((
            self.profile_end(&counted, floor, -1.0)?,
            self.profile_end(&counted, floor, 1.0)?,
        ))
    }

    fn profile_end(&self, cells: &[(Cell, f64)], floor: f64, side: f64) -> Result<f64, Error> {
        let mut inside = 0.0;
        let mut outside = side * self.mean_error;
        let height = |shift: f64| best_over_spread(cells, self.mean + shift, self.sd);
        let mut steps = 0;
        while height(outside)? > floor {
            inside = outside;
            outside *= 2.0;
            steps += 1;
            if steps > STEPS {
                return Err(Error::NotConverged {
                    what: "the interval of the mean",
                    steps,
                });
            }
        }
        for _ in 0..60 {
            let middle = 0.5 * (inside + outside);
            if height(middle)? > floor {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        Ok(self.mean + 0.5 * (inside + outside))
    }
}

/// Greatest log likelihood over the spread at a given mean, by Newton on `ln s`.
fn best_over_spread(cells: &[(Cell, f64)], mean: f64, start: f64) -> Result<f64, Error> {
    let mut sd = start;
    let mut here = slope(cells, mean, sd);
    for _ in 0..STEPS {
        let step = if here.ss < 0.0 {
            -here.s / here.ss
        } else {
            here.s.signum() * 0.5
        };
        let mut step = step.clamp(-1.0, 1.0);
        let mut next = slope(cells, mean, sd * step.exp());
        while next.value < here.value && step.abs() > 1e-12 {
            step *= 0.5;
            next = slope(cells, mean, sd * step.exp());
        }
        sd *= step.exp();
        here = next;
        if step.abs() < 1e-10 {
            return Ok(here.value);
        }
    }
    Err(Error::NotConverged {
        what: "the spread between spots",
        steps: STEPS,
    })
}

/// The log likelihood, its slope and its curvature in the mean `m` and `s = ln sd`.
pub(crate) struct Slope {
    pub(crate) value: f64,
    pub(crate) m: f64,
    pub(crate) s: f64,
    pub(crate) mm: f64,
    pub(crate) ms: f64,
    pub(crate) ss: f64,
}

pub(crate) fn slope(cells: &[(Cell, f64)], mean: f64, sd: f64) -> Slope {
    let mut sum = Slope {
        value: 0.0,
        m: 0.0,
        s: 0.0,
        mm: 0.0,
        ms: 0.0,
        ss: 0.0,
    };
    for &(cell, count) in cells {
        let (a, b) = ((cell.low - mean) / sd, (cell.high - mean) / sd);
        let value = ln_cell_probability(a, b);
        // Moments of the density at the two ends over the cell's probability: end^k phi(end) / P.
        let end = |x: f64, k: i32| {
            if x.is_finite() {
                x.powi(k) * (-0.5 * x * x - HALF_LN_TWO_PI - value).exp()
            } else {
                0.0
            }
        };
        let d = |k: i32| end(a, k) - end(b, k);
        let (d0, d1, d2, d3) = (d(0), d(1), d(2), d(3));
        sum.value += count * value;
        sum.m += count * d0 / sd;
        sum.s += count * d1;
        sum.mm += count * (d1 - d0 * d0) / (sd * sd);
        sum.ms += count * (d2 - d0 * d1 - d0) / sd;
        sum.ss += count * (d3 - d1 * d1 - d1);
    }
    sum
}

const HALF_LN_TWO_PI: f64 = 0.918_938_533_204_672_8;

/// One climb to the top of the likelihood.
struct Climb<'a> {
    cells: &'a [(Cell, f64)],
    free: bool,
    /// Width over which the mean is sought.
    reach: f64,
}

impl Climb<'_> {
    fn run(&self, mut mean: f64, mut sd: f64) -> Result<Fit, Error> {
        let count: f64 = self.cells.iter().map(|(_, count)| count).sum();
        let mut here = slope(self.cells, mean, sd);
        for _ in 0..STEPS {
            let steepness = (here.m * sd).abs() + if self.free { here.s.abs() } else { 0.0 };
            if steepness <= LEVEL * count {
                return Ok(self.at_top(mean, sd));
            }
            let (mut dm, mut ds) = self.step(&here, sd);
            let mut next = slope(self.cells, mean + dm, sd * ds.exp());
            let mut halvings = 0;
            while next.value.is_nan() || next.value < here.value {
                if halvings > HALVINGS {
                    // No higher point within rounding: this is the top.
                    return Ok(self.at_top(mean, sd));
                }
                dm *= 0.5;
                ds *= 0.5;
                halvings += 1;
                next = slope(self.cells, mean + dm, sd * ds.exp());
            }
            let gain = next.value - here.value;
            mean += dm;
            sd *= ds.exp();
            here = next;
            if gain <= 0.0 || (dm.abs() <= CLOSE * sd && ds.abs() <= CLOSE) {
                return Ok(self.at_top(mean, sd));
            }
        }
        Err(Error::NotConverged {
            what: "the fit of the mean gap",
            steps: STEPS,
        })
    }

    /// Newton step, or a step along the slope where the likelihood is not a hill.
    fn step(&self, at: &Slope, sd: f64) -> (f64, f64) {
        let determinant = at.mm * at.ss - at.ms * at.ms;
        let (dm, ds) = if self.free && at.mm < 0.0 && determinant > 0.0 {
            (
                (at.ms * at.s - at.ss * at.m) / determinant,
                (at.ms * at.m - at.mm * at.s) / determinant,
            )
        } else {
            let dm = if at.mm < 0.0 {
                -at.m / at.mm
            } else {
                at.m.signum() * sd
            };
            (
                dm,
                if self.free {
                    at.s.clamp(-0.5, 0.5)
                } else {
                    0.0
                },
            )
        };
        // A longer step leaves the region where the curvature means anything.
        let long = (dm.abs() / (self.reach + 4.0 * sd)).max(ds.abs()).max(1.0);
        (dm / long, ds / long)
    }

    fn at_top(&self, mean: f64, sd: f64) -> Fit {
        let top = slope(self.cells, mean, sd);
        let (mean_error, ln_sd_error) = if self.free {
            let determinant = top.mm * top.ss - top.ms * top.ms;
            (
                (-top.ss / determinant).sqrt(),
                (-top.mm / determinant).sqrt(),
            )
        } else {
            ((-1.0 / top.mm).sqrt(), 0.0)
        };
        Fit {
            mean,
            sd,
            ln_likelihood: top.value,
            mean_error,
            ln_sd_error,
        }
    }
}

/// Refuses what is not an interval and counts equal cells once.
pub(crate) fn check(cells: &[Cell]) -> Result<Vec<(Cell, f64)>, Error> {
    let mut counted: Vec<(Cell, f64)> = Vec::new();
    for &cell in cells {
        let Cell { low, high } = cell;
        if low.is_nan() || high.is_nan() || low >= high {
            return Err(Error::Cell { low, high });
        }
        match counted.iter_mut().find(|(known, _)| *known == cell) {
            Some((_, count)) => *count += 1.0,
            None => counted.push((cell, 1.0)),
        }
    }
    if counted.is_empty() {
        Err(Error::Empty { what: "reading" })
    } else {
        Ok(counted)
    }
}

/// Least and greatest finite end of the cells: the mean is sought between them first.
pub(crate) fn hull(cells: &[(Cell, f64)]) -> Result<(f64, f64), Error> {
    let ends = || {
        cells
            .iter()
            .flat_map(|(c, _)| [c.low, c.high])
            .filter(|x| x.is_finite())
    };
    let low = ends().fold(f64::INFINITY, f64::min);
    let high = ends().fold(f64::NEG_INFINITY, f64::max);
    if cells.iter().all(|(c, _)| c.high.is_infinite()) {
        Err(Error::NoUpperBound { largest: high })
    } else if cells.iter().all(|(c, _)| c.low.is_infinite()) {
        Err(Error::Empty {
            what: "lower end to any reading",
        })
    } else {
        Ok((low, high))
    }
}
