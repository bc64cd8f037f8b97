//! The weights of every mean and spread that could stand behind the cells.

use crate::population::{self, Spread};
use crate::{Cell, Error, Model, real};

/// Rows over the spread, and nodes over the mean in each row.
const ROWS: usize = 48;
const NODES: usize = 48;
/// A node whose weight has fallen by `exp(-DROP)` from the top is outside the grid.
const DROP: f64 = 16.0;
/// Doublings of the spread or of the mean's reach before the search gives up.
const DOUBLINGS: usize = 60;

/// One mean and spread, standing for the rectangle round it.
#[derive(Clone, Copy)]
pub(crate) struct Node {
    pub(crate) mean: f64,
    pub(crate) mean_step: f64,
    pub(crate) sd: f64,
}

/// The posterior law of the mean and the spread between spots, on a grid.
///
/// The spread runs evenly from 0, where its density is finite, so a spread of nothing is an
/// ordinary neighbour and no trap. The mean runs in each row as far as the cells allow.
pub(crate) struct Grid {
    pub(crate) nodes: Vec<Node>,
    pub(crate) sd_step: f64,
    /// Running sum of the weights, ending at 1.
    cumulative: Vec<f64>,
}

impl Grid {
    pub(crate) fn new(cells: &[(Cell, f64)], model: &Model) -> Result<Self, Error> {
        let search = Search { cells, model };
        let (widest, mut mean) = search.widest()?;
        let sd_step = widest / real(ROWS);
        let mut grid = Self {
            nodes: Vec::new(),
            sd_step,
            cumulative: Vec::new(),
        };
        for row in 0..ROWS {
            let sd = (real(row) + 0.5) * sd_step;
            mean = search.row(sd, mean, &mut grid)?;
        }
        grid.accumulate();
        Ok(grid)
    }

    /// Turns logarithms of weights into their running sum.
    fn accumulate(&mut self) {
        let top = self
            .cumulative
            .iter()
            .copied()
            .fold(f64::NEG_INFINITY, f64::max);
        let mut sum = 0.0;
        for weight in &mut self.cumulative {
            sum += (*weight - top).exp();
            *weight = sum;
        }
        for weight in &mut self.cumulative {
            *weight /= sum;
        }
    }

    /// The node at the fraction `u` of the weight.
    pub(crate) fn at(&self, u: f64) -> Node {
        let i = self.cumulative.partition_point(|&c| c <= u);
        self.nodes[i.min(self.nodes.len() - 1)]
    }
}

struct Search<'a> {
    cells: &'a [(Cell, f64)],
    model: &'a Model,
}

impl Search<'_> {
    /// Spread of the indicated gaps when the true ones are spread by `sd`.
    fn total(&self, sd: f64) -> f64 {
        sd.hypot(self.model.feel.scatter)
    }

    /// Log density at the best mean for a spread, and that mean.
    fn ridge(&self, sd: f64, near: Option<f64>) -> Result<(f64, f64), Error> {
        let fit = population::top(self.cells, Spread::Fixed(self.total(sd)), near)?;
        Ok((fit.ln_likelihood + self.ln_prior(sd), fit.mean))
    }

    /// Half-normal law of the spread.
    fn ln_prior(&self, sd: f64) -> f64 {
        let x = sd / self.model.spread;
        -0.5 * x * x
    }

    /// The spread at which the ridge has fallen by `DROP`, and the mean there.
    fn widest(&self) -> Result<(f64, f64), Error> {
        let mut sd = self.model.spread / 64.0;
        let (mut top, mut mean) = self.ridge(sd, None)?;
        let mut inside = sd;
        for _ in 0..DOUBLINGS {
            sd *= 2.0;
            let (height, at) = self.ridge(sd, Some(mean))?;
            mean = at;
            if height < top - DROP {
                for _ in 0..5 {
                    let middle = (inside * sd).sqrt();
                    let (height, _) = self.ridge(middle, Some(mean))?;
                    if height < top - DROP {
                        sd = middle;
                    } else {
                        inside = middle;
                    }
                }
                return Ok((sd, mean));
            }
            top = top.max(height);
            inside = sd;
        }
        Err(Error::NotConverged {
            what: "the spread between spots",
            steps: DOUBLINGS,
        })
    }

    /// Lays the nodes of one row, with logarithms for weights; returns the best mean of the row.
    fn row(&self, sd: f64, near: f64, grid: &mut Grid) -> Result<f64, Error> {
        let (_, mode) = self.ridge(sd, Some(near))?;
        let total = self.total(sd);
        let low = self.reach(mode, total, -1.0)?;
        let high = self.reach(mode, total, 1.0)?;
        let mean_step = (high - low) / real(NODES);
        let prior = self.ln_prior(sd) + mean_step.ln();
        for i in 0..NODES {
            let mean = low + (real(i) + 0.5) * mean_step;
            grid.nodes.push(Node {
                mean,
                mean_step,
                sd,
            });
            grid.cumulative
                .push(population::ln_likelihood(self.cells, mean, total) + prior);
        }
        Ok(mode)
    }

    /// The mean on one side of the mode at which the likelihood has fallen by `DROP`.
    fn reach(&self, mode: f64, total: f64, side: f64) -> Result<f64, Error> {
        let height = |by: f64| population::ln_likelihood(self.cells, mode + side * by, total);
        let floor = height(0.0) - DROP;
        let (mut inside, mut outside) = (0.0, total);
        let mut doublings = 0;
        while height(outside) > floor {
            inside = outside;
            outside *= 2.0;
            doublings += 1;
            if doublings > DOUBLINGS {
                return Err(Error::NotConverged {
                    what: "the mean gap",
                    steps: DOUBLINGS,
                });
            }
        }
        for _ in 0..5 {
            let middle = 0.5 * (inside + outside);
            if height(middle) > floor {
                inside = middle;
            } else {
                outside = middle;
            }
        }
        Ok(mode + side * outside)
    }
}
