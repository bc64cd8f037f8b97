//! The trend of wear: a straight line through the gaps of several visits, and when it meets a limit.
//!
//! A series begins anew whenever ring or impeller is changed, and its running time with it. Only
//! visits that compare belong in one series: the same spots, the same way of measuring, cold.

mod likelihood;

use crate::budget::student_quantile;
use crate::error::{finite, not_negative, positive, probability, within};
use crate::population::Spread;
use crate::{Error, Interval, real};
use likelihood::{Likelihood, Through};

/// The gap at one visit.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `run` | running time since ring or impeller was changed | `s` |
/// | `low` | the gap is not below | `m` |
/// | `high` | the gap is not above; equal to `low` for a plain reading | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Visit {
    /// Running time since ring or impeller was changed.
    pub run: f64,
    /// The gap is not below.
    pub low: f64,
    /// The gap is not above.
    pub high: f64,
}

impl Visit {
    fn middle(&self) -> f64 {
        0.5 * (self.low + self.high)
    }
}

/// How a line was fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Least squares on the middles: the intervals are narrow beside the scatter.
    Middles,
    /// Likelihood of the intervals.
    Intervals,
}

/// A straight line through visits.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `run` | mean running time of the visits | `s` |
/// | `level` | gap the line has there | `m` |
/// | `slope` | growth of the gap | `m/s` |
/// | `scatter` | standard deviation of a reading about the line | `m` |
/// | `freedom` | degrees of freedom of the scatter, infinite when it was stated | `1` |
/// | `last` | running time of the last visit | `s` |
/// | `method` | how it was fitted | |
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Mean running time of the visits.
    pub run: f64,
    /// Gap the line has there.
    pub level: f64,
    /// Growth of the gap.
    pub slope: f64,
    /// Standard deviation of a reading about the line.
    pub scatter: f64,
    /// Degrees of freedom of the scatter.
    pub freedom: f64,
    /// Running time of the last visit.
    pub last: f64,
    /// How it was fitted.
    pub method: Method,
    /// What other lines are held against.
    known: Known,
}

#[derive(Clone, Debug, PartialEq)]
enum Known {
    /// Variances of level and slope; about the mean running time they are independent.
    Variances { level: f64, slope: f64 },
    /// The likelihood, and its height at the top.
    Likelihood(Likelihood, f64),
}

/// Least number of visits a trend is drawn through.
const VISITS: usize = 3;
/// Width of the intervals, in scatters, up to which their middles do.
const NARROW: f64 = 2.0;
/// Doublings before the search for an end is given up.
const DOUBLINGS: usize = 200;

/// Straight line through visits.
///
/// `y = a + b x + e`; by least squares on the middles, or, when the intervals are wider than two
/// scatters or the scatter is stated, by the greatest
/// `l = sum ln(Phi((H - a - b x) / s) - Phi((L - a - b x) / s))`
///
/// Many lines may fit wide intervals equally well. The one told is then near that of the middles,
/// and all the others are in the intervals of [`Line::foreseen`] and [`Line::crossing`].
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `visits` | x, L, H | running times and gaps | |
/// | `spread` | s | scatter of a reading about the line, free or stated | `m` |
///
/// Range: three visits or more at two running times or more, zero or above.
/// Source: `jcgm-100`, example H.3, for least squares; `turnbull-1976` for the likelihood of
/// intervals, `burridge-1981` for its having one top.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Negative`], [`Error::Outside`], [`Error::Cell`],
/// [`Error::NoUpperBound`], [`Error::NotPositive`]; [`Error::ScatterCollapses`] when one line fits
/// every interval and the scatter is free; [`Error::NotConverged`].
pub fn line(visits: &[Visit], spread: Spread) -> Result<Line, Error> {
    let fitted = least_squares(visits)?;
    let widths: f64 = visits.iter().map(|v| (v.high - v.low).powi(2)).sum();
    let width = (widths / real(visits.len())).sqrt();
    let likelihood = Likelihood {
        visits: visits.to_vec(),
        run: fitted.run,
        level: fitted.level,
        slope: fitted.slope,
        scatter: fitted.scatter.max(width),
        free: spread == Spread::Free,
    };
    match spread {
        Spread::Fixed(sd) => {
            let scatter = positive("the scatter of a reading", sd)?;
            most_likely(
                &fitted,
                Likelihood {
                    scatter,
                    ..likelihood
                },
            )
        }
        Spread::Free if is_straight(visits) => Err(Error::ScatterCollapses {
            visits: visits.len(),
        }),
        Spread::Free if width <= NARROW * fitted.scatter => Ok(fitted),
        Spread::Free => most_likely(&fitted, likelihood),
    }
}

fn least_squares(visits: &[Visit]) -> Result<Line, Error> {
    check(visits)?;
    let count = real(visits.len());
    let run = visits.iter().map(|v| v.run).sum::<f64>() / count;
    let level = visits.iter().map(Visit::middle).sum::<f64>() / count;
    let squares: f64 = visits.iter().map(|v| (v.run - run).powi(2)).sum();
    let cross: f64 = visits
        .iter()
        .map(|v| (v.run - run) * (v.middle() - level))
        .sum();
    let slope = cross / squares;
    let residual: f64 = visits
        .iter()
        .map(|v| (v.middle() - level - slope * (v.run - run)).powi(2))
        .sum();
    let freedom = count - 2.0;
    let variance = residual / freedom;
    Ok(Line {
        run,
        level,
        slope,
        scatter: variance.sqrt(),
        freedom,
        last: visits.iter().map(|v| v.run).fold(0.0, f64::max),
        method: Method::Middles,
        known: Known::Variances {
            level: variance / count,
            slope: variance / squares,
        },
    })
}

fn most_likely(fitted: &Line, likelihood: Likelihood) -> Result<Line, Error> {
    let top = likelihood.best(Through::Anywhere)?;
    // With a free scatter the top takes it too small, as least squares would with n for n - 2.
    let (enlarged, freedom) = if likelihood.free {
        let count = real(likelihood.visits.len());
        ((count / (count - 2.0)).sqrt(), count - 2.0)
    } else {
        (1.0, f64::INFINITY)
    };
    Ok(Line {
        level: top.level,
        slope: top.slope,
        scatter: top.scatter * enlarged,
        freedom,
        method: Method::Intervals,
        known: Known::Likelihood(likelihood, top.value),
        run: fitted.run,
        last: fitted.last,
    })
}

fn check(visits: &[Visit]) -> Result<(), Error> {
    let too_few = |what, count, least| Err(Error::TooFew { what, count, least });
    if visits.len() < VISITS {
        return too_few("visits that compare", visits.len(), VISITS);
    }
    for &Visit { run, low, high } in visits {
        not_negative("a running time", run)?;
        finite("the low end of a reading", low)?;
        if high == f64::INFINITY {
            return Err(Error::NoUpperBound { largest: low });
        }
        if low.is_nan() || high.is_nan() || low > high {
            return Err(Error::Cell { low, high });
        }
    }
    let runs = Interval::around(visits.iter().map(|v| v.run));
    if runs.low < runs.high {
        Ok(())
    } else {
        too_few("different running times", 1, 2)
    }
}

/// Whether one line goes through every interval, its ends included.
///
/// If any does, one does that goes through an end of each of two.
fn is_straight(visits: &[Visit]) -> bool {
    let ends = |v: &Visit| [(v.run, v.low), (v.run, v.high)];
    let points: Vec<(f64, f64)> = visits.iter().flat_map(ends).collect();
    let gaps = Interval::around(points.iter().map(|p| p.1));
    let rounding = 1e-12 * (gaps.high - gaps.low);
    let through = |p: (f64, f64), q: (f64, f64)| {
        let slope = (q.1 - p.1) / (q.0 - p.0);
        visits.iter().all(|v| {
            let y = p.1 + slope * (v.run - p.0);
            v.low - rounding <= y && y <= v.high + rounding
        })
    };
    points
        .iter()
        .any(|p| points.iter().any(|q| p.0 < q.0 && through(*p, *q)))
}

/// What is asked to reach, or to be foreseen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Meant {
    /// The gap itself, as the line has it.
    Gap,
    /// The next single reading of it.
    Reading,
}

/// When a limit is met, in running time since the change of ring or impeller.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `run` | where the line meets the limit; never to be shown alone | `s` |
/// | `low` | lower end of the interval | `s` |
/// | `high` | upper end of the interval | `s` |
/// | `soonest` | one-sided lower bound of the same level: what to plan by | `s` |
/// | `stretched` | the answer lies beyond 1.5 times the last visit | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Met {
    /// Where the line meets the limit.
    pub run: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end of the interval.
    pub high: f64,
    /// One-sided lower bound of the same level.
    pub soonest: f64,
    /// Whether the answer lies beyond 1.5 times the last visit.
    pub stretched: bool,
}

/// Whether and when a line meets a limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Crossing {
    /// No trend is shown yet: the slope may be zero, and no time can be said.
    NoTrend {
        /// Squared t times the variance of the slope over its square; 1 or more.
        g: f64,
    },
    /// After the last visit.
    Ahead(Met),
    /// At the last visit or before it: the limit is met already, or the trend leads away from it.
    Behind(Met),
}

/// Beyond this part of the last visit's running time an answer is stretched.
const STRETCH: f64 = 1.5;

impl Line {
    /// Interval of the gap, or of the next reading, at a running time.
    ///
    /// `y = a + b x +- t sqrt(V_a + x^2 V_b + k s^2)`, k = 0 for the gap, 1 for a reading; with
    /// intervals all y for which the best line through (x, y) has
    /// `n ln(1 + t^2 / (n - 2)) >= 2 (l_top - l)`, or `t^2` on the left when the scatter is stated
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `run` | x | running time | `s` |
    /// | `level` | | probability of the interval, usually 0.95 | `1` |
    /// | `meant` | k | gap or reading | |
    /// | returns | y | interval of the gap | `m` |
    ///
    /// Range: finite running time, `0.5 < level < 1`.
    /// Source: `jcgm-100`, example H.3; for intervals the likelihood ratio, which agrees with it for
    /// readings without width.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotConverged`].
    pub fn foreseen(&self, run: f64, level: f64, meant: Meant) -> Result<Interval, Error> {
        let t = self.factor(0.5 * (1.0 - sure(level)?));
        let x = finite("the running time", run)? - self.run;
        let y = self.level + self.slope * x;
        match &self.known {
            Known::Variances { level, slope } => {
                let half = t * (level + x * x * slope + self.own(meant)).sqrt();
                Ok(Interval {
                    low: y - half,
                    high: y + half,
                })
            }
            Known::Likelihood(likelihood, top) => {
                let step = likelihood.scatter;
                let at = |to: f64| self.squared_t(likelihood, *top, meant.through(x, to));
                Ok(Interval {
                    low: end(y, -step, t * t, at)?,
                    high: end(y, step, t * t, at)?,
                })
            }
        }
    }

    /// When the line meets a limit: all running times at which it is not ruled out.
    ///
    /// For least squares the interval of Fieller, `x + d` with
    /// `(y + b d - y0)^2 <= t^2 (V_a + d^2 V_b + k s^2)`; bounded only if `g = t^2 V_b / b^2 < 1`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `limit` | y0 | limit of the gap | `m` |
    /// | `level` | | probability of the interval, usually 0.95 | `1` |
    /// | `meant` | k | whether the gap is to meet it, or a reading | |
    ///
    /// Range: finite limit, `0.5 < level < 1`.
    /// Source: `fieller-1954`, `graybill-1994`.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotConverged`].
    pub fn crossing(&self, limit: f64, level: f64, meant: Meant) -> Result<Crossing, Error> {
        let limit = finite("the limit", limit)?;
        let two_sided = self.factor(0.5 * (1.0 - sure(level)?));
        let flat = match &self.known {
            Known::Variances { slope, .. } => self.slope * self.slope / slope,
            Known::Likelihood(likelihood, top) => {
                self.squared_t(likelihood, *top, Through::Level)?
            }
        };
        let g = two_sided * two_sided / flat;
        // No slope at all makes g infinite, or no number.
        if g.is_nan() || g >= 1.0 {
            return Ok(Crossing::NoTrend { g });
        }
        let (low, high) = self.ends(limit, two_sided, meant)?;
        let (soonest, _) = self.ends(limit, self.factor(1.0 - level), meant)?;
        let run = self.run + (limit - self.level) / self.slope;
        let met = Met {
            run,
            low,
            high,
            soonest,
            stretched: run > STRETCH * self.last,
        };
        Ok(if run > self.last {
            Crossing::Ahead(met)
        } else {
            Crossing::Behind(met)
        })
    }

    fn factor(&self, tail: f64) -> f64 {
        student_quantile(tail, self.freedom)
    }

    fn own(&self, meant: Meant) -> f64 {
        match meant {
            Meant::Gap => 0.0,
            Meant::Reading => self.scatter * self.scatter,
        }
    }

    /// Squared t of a line held to something, from how far it lies below the top.
    fn squared_t(&self, likelihood: &Likelihood, top: f64, through: Through) -> Result<f64, Error> {
        let drop = 2.0 * (top - likelihood.best(through)?.value);
        Ok(if likelihood.free {
            self.freedom * (drop / (self.freedom + 2.0)).exp_m1()
        } else {
            drop
        })
    }

    /// First and last running time at which the limit is not ruled out, for a slope that is shown.
    fn ends(&self, limit: f64, t: f64, meant: Meant) -> Result<(f64, f64), Error> {
        let away = limit - self.level;
        match &self.known {
            Known::Variances { level, slope } => {
                let square = self.slope * self.slope - t * t * slope;
                let rest = away * away - t * t * (level + self.own(meant));
                let half = self.slope * away;
                let root = (half * half - square * rest).sqrt();
                Ok((
                    self.run + (half - root) / square,
                    self.run + (half + root) / square,
                ))
            }
            Known::Likelihood(likelihood, top) => {
                let x = away / self.slope;
                let step = likelihood.scatter / self.slope.abs();
                let at = |to: f64| self.squared_t(likelihood, *top, meant.through(to, limit));
                Ok((
                    self.run + end(x, -step, t * t, at)?,
                    self.run + end(x, step, t * t, at)?,
                ))
            }
        }
    }
}

impl Meant {
    /// A line held to a point: running time about the mean, and gap.
    fn through(self, run: f64, gap: f64) -> Through {
        match self {
            Self::Gap => Through::Point(run, gap),
            Self::Reading => Through::Near(run, gap),
        }
    }
}

fn sure(level: f64) -> Result<f64, Error> {
    probability("the level", level)?;
    within("the level", level, 0.5, 1.0)
}

/// Where a function that rises from `from` in steps of one sign passes a height.
fn end(
    from: f64,
    step: f64,
    height: f64,
    f: impl Fn(f64) -> Result<f64, Error>,
) -> Result<f64, Error> {
    let (mut inside, mut reach) = (from, step);
    let mut doublings = 0;
    while f(from + reach)? <= height {
        inside = from + reach;
        reach *= 2.0;
        doublings += 1;
        if doublings > DOUBLINGS {
            return Err(Error::NotConverged {
                what: "the end of the interval",
                steps: doublings,
            });
        }
    }
    let mut outside = from + reach;
    for _ in 0..60 {
        let middle = 0.5 * (inside + outside);
        if f(middle)? <= height {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    Ok(inside)
}
