//! The likelihood of intervals about a straight line, and its tops.

use super::Visit;
use crate::population::{Slope, slope};
use crate::{Cell, Error, real};

/// Steps before a search is given up.
const STEPS: usize = 400;
/// Slope a visit, in scatters, at which a top is reached.
const LEVEL: f64 = 1e-11;
/// Share of the curvature of plain readings that keeps a step finite where the likelihood is flat.
const DAMPING: f64 = 1e-9;

/// Intervals at running times, and where a search for the best line begins.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Likelihood {
    pub(super) visits: Vec<Visit>,
    /// Running time from which lines are measured.
    pub(super) run: f64,
    pub(super) level: f64,
    pub(super) slope: f64,
    pub(super) scatter: f64,
    /// Whether the scatter is sought too, from the one given.
    pub(super) free: bool,
}

/// What a line is held to. Running times are about the mean.
#[derive(Clone, Copy)]
pub(super) enum Through {
    Anywhere,
    /// A slope of zero.
    Level,
    /// A point.
    Point(f64, f64),
    /// One more reading, at a point.
    Near(f64, f64),
}

/// A line, its likelihood, and the slopes and curvatures of that in level a, slope b, s = ln scatter.
#[derive(Clone, Copy, Default)]
pub(super) struct Top {
    pub(super) level: f64,
    pub(super) slope: f64,
    pub(super) scatter: f64,
    pub(super) value: f64,
    a: f64,
    b: f64,
    s: f64,
    aa: f64,
    ab: f64,
    bb: f64,
}

impl Top {
    /// Adds one visit's part.
    fn add(&mut self, part: &Slope, x: f64) {
        self.value += part.value;
        self.a += part.m;
        self.b += part.m * x;
        self.s += part.s;
        self.aa += part.mm;
        self.ab += part.mm * x;
        self.bb += part.mm * x * x;
    }

    /// The Newton step a search may take from here.
    fn step(&self, through: Through, damping: (f64, f64)) -> (f64, f64) {
        let (aa, bb) = (self.aa - damping.0, self.bb - damping.1);
        match through {
            Through::Level => (-self.a / aa, 0.0),
            Through::Point(x, _) => {
                let up = self.b - x * self.a;
                let bend = bb - x * (2.0 * self.ab - x * aa);
                (x * up / bend, -up / bend)
            }
            Through::Anywhere | Through::Near(..) => {
                let determinant = aa * bb - self.ab * self.ab;
                (
                    (self.ab * self.b - bb * self.a) / determinant,
                    (self.ab * self.a - aa * self.b) / determinant,
                )
            }
        }
    }
}

impl Likelihood {
    /// The best line of those held to something.
    pub(super) fn best(&self, through: Through) -> Result<Top, Error> {
        let from = self.start(through);
        if !self.free {
            return self.climb(through, from, self.scatter);
        }
        // Over the scatter the best line has one top, where its slope changes sign.
        let at = |scatter: f64| self.climb(through, from, scatter);
        let (mut low, mut high) = (self.scatter, self.scatter);
        let mut steps = 0;
        while at(low)?.s <= 0.0 {
            low *= 0.5;
            steps += 1;
            if steps > STEPS {
                return Err(Error::ScatterCollapses {
                    visits: self.visits.len(),
                });
            }
        }
        while at(high)?.s > 0.0 {
            high *= 2.0;
        }
        while high > low * (1.0 + 1e-14) {
            let middle = low * (high / low).sqrt();
            if at(middle)?.s > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
            steps += 1;
            if steps > STEPS {
                break;
            }
        }
        at(low)
    }

    fn start(&self, through: Through) -> (f64, f64) {
        match through {
            Through::Level => (self.level, 0.0),
            Through::Point(x, y) => {
                // Turned about the point until it passes the middles as the free line does, or nearly.
                let square: f64 = self.at().map(|at| (at - x).powi(2)).sum();
                let cross: f64 = self
                    .at()
                    .map(|at| (at - x) * (self.level + self.slope * at - y))
                    .sum();
                let slope = cross / square;
                (y - slope * x, slope)
            }
            Through::Anywhere | Through::Near(..) => (self.level, self.slope),
        }
    }

    fn at(&self) -> impl Iterator<Item = f64> {
        self.visits.iter().map(|v| v.run - self.run)
    }

    fn height(&self, through: Through, line: (f64, f64), scatter: f64) -> Top {
        let mut top = Top {
            level: line.0,
            slope: line.1,
            scatter,
            ..Top::default()
        };
        for visit in &self.visits {
            let x = visit.run - self.run;
            top.add(&of_visit(visit, line.0 + line.1 * x, scatter), x);
        }
        if let Through::Near(x, y) = through {
            // A reading foreseen teaches nothing of the scatter, so its own logarithm is left out.
            let mut part = of_reading(y, line.0 + line.1 * x, scatter);
            part.value += scatter.ln();
            part.s += 1.0;
            top.add(&part, x);
        }
        top
    }

    /// The best line at one scatter, by Newton steps: the likelihood is a single hill.
    fn climb(&self, through: Through, from: (f64, f64), scatter: f64) -> Result<Top, Error> {
        let count = real(self.visits.len());
        let flat = DAMPING * count / (scatter * scatter);
        let wide = self.at().map(|x| x * x).sum::<f64>() / count;
        let mut here = self.height(through, from, scatter);
        for _ in 0..STEPS {
            let mut step = here.step(through, (flat, flat * wide));
            let rise = step.0 * here.a + step.1 * here.b;
            // The rise a step promises is its slope squared over the curvature.
            if rise <= LEVEL * LEVEL * count {
                return Ok(here);
            }
            let to = |step: (f64, f64)| (here.level + step.0, here.slope + step.1);
            let mut next = self.height(through, to(step), scatter);
            let mut promised = rise;
            while next.value.is_nan() || next.value < here.value {
                promised *= 0.5;
                if promised <= LEVEL * count {
                    // No higher point within rounding.
                    return Ok(here);
                }
                step = (0.5 * step.0, 0.5 * step.1);
                next = self.height(through, to(step), scatter);
            }
            here = next;
        }
        Err(Error::NotConverged {
            what: "the line through the visits",
            steps: STEPS,
        })
    }
}

/// One visit's part of the likelihood.
fn of_visit(visit: &Visit, mean: f64, sd: f64) -> Slope {
    let Visit { low, high, .. } = *visit;
    if low < high {
        slope(&[(Cell { low, high }, 1.0)], mean, sd)
    } else {
        of_reading(low, mean, sd)
    }
}

fn of_reading(reading: f64, mean: f64, sd: f64) -> Slope {
    let z = (reading - mean) / sd;
    Slope {
        value: -sd.ln() - 0.5 * z * z,
        m: z / sd,
        s: z * z - 1.0,
        mm: -1.0 / (sd * sd),
        ms: -2.0 * z / sd,
        ss: -2.0 * z * z,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Interval, Meant, Visit, least_squares, most_likely};
    use super::Likelihood;

    #[test]
    fn law_readings_without_width_agree_with_least_squares() {
        let gaps = [13.2, 13.5, 14.4, 14.6, 15.6, 16.1, 17.2];
        let runs = [0.0, 12.0, 27.0, 41.0, 58.0, 75.0, 90.0];
        let visits: Vec<Visit> = runs
            .into_iter()
            .zip(gaps)
            .map(|(run, gap)| Visit {
                run,
                low: gap,
                high: gap,
            })
            .collect();
        let fitted = least_squares(&visits).unwrap();
        let likelihood = Likelihood {
            visits,
            run: fitted.run,
            // Away from the answer, so that the search has something to do.
            level: fitted.level + 1.0,
            slope: 0.0,
            scatter: 3.0,
            free: true,
        };
        let likely = most_likely(&fitted, likelihood).unwrap();
        // The scatter is found where its slope vanishes, within 1e-10 of it.
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-8, "{a} {b}");
        close(likely.level, fitted.level);
        close(likely.slope, fitted.slope);
        close(likely.scatter, fitted.scatter);
        for meant in [Meant::Gap, Meant::Reading] {
            for run in [-20.0, 40.0, 120.0] {
                let Interval { low, high } = fitted.foreseen(run, 0.95, meant).unwrap();
                let found = likely.foreseen(run, 0.95, meant).unwrap();
                close(found.low, low);
                close(found.high, high);
            }
        }
    }
}
