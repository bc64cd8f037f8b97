//! The weights of every mean and spread that could stand behind the cells.

use crate::normal::ln_cell_probability;
use crate::{Cell, Error, Model, population, real};

/// Rows over the spread.
const ROWS: usize = 48;
/// Nodes over the mean, to a standard deviation of the indicated gap.
const NODES: f64 = 2.5;
/// Standard deviations beyond the outermost reading within which the mean is sought.
const REACH: f64 = 7.0;
/// A row whose weight has fallen by `exp(-DROP)` from the top is outside the grid.
const DROP: f64 = 16.0;
/// Doublings of the spread before the search gives up.
const DOUBLINGS: usize = 60;

/// Share of the spots that are taken to be unlike the rest: swollen, gouged, burred.
///
/// Source: `common practice, no source`.
pub(crate) const ODD: f64 = 0.1;
/// How much wider than [`Model::spread`] the law of an odd spot is.
const WIDER: f64 = 10.0;

/// One mean and spread, standing for the rectangle round it.
#[derive(Clone, Copy)]
pub(crate) struct Node {
    pub(crate) mean: f64,
    pub(crate) mean_step: f64,
    pub(crate) sd: f64,
}

/// The two laws a spot may follow at one mean and spread, each with its share.
#[derive(Clone, Copy)]
pub(crate) struct Laws {
    /// Mean of both.
    pub(crate) mean: f64,
    /// Spread of the ordinary spots.
    pub(crate) sd: f64,
    /// Spread of the odd ones.
    pub(crate) wide: f64,
    /// Scatter of the feel.
    pub(crate) scatter: f64,
}

impl Laws {
    pub(crate) fn new(model: &Model, mean: f64, sd: f64) -> Self {
        Self {
            mean,
            sd,
            wide: WIDER * model.spread,
            scatter: model.feel.scatter,
        }
    }

    /// Logarithms of the probability of a cell, its share included: ordinary, and odd.
    pub(crate) fn ln_parts(&self, cell: &Cell) -> (f64, f64) {
        let ln_cell = |sd: f64| {
            let total = sd.hypot(self.scatter);
            ln_cell_probability(
                (cell.low - self.mean) / total,
                (cell.high - self.mean) / total,
            )
        };
        (
            (1.0 - ODD).ln() + ln_cell(self.sd),
            ODD.ln() + ln_cell(self.wide),
        )
    }

    fn ln_likelihood(&self, cells: &[(Cell, f64)]) -> f64 {
        let one = |(cell, count): &(Cell, f64)| {
            let (ordinary, odd) = self.ln_parts(cell);
            let (more, less) = (ordinary.max(odd), ordinary.min(odd));
            count * (more + (less - more).exp().ln_1p())
        };
        cells.iter().map(one).sum()
    }
}

/// The posterior law of the mean and the spread between spots, on a grid.
///
/// The spread runs evenly from 0, where its density is finite, so a spread of nothing is an
/// ordinary neighbour and no trap. The mean runs over all that the readings allow: with odd spots
/// about, the weight may have more than one top, and none may be missed.
pub(crate) struct Grid {
    pub(crate) nodes: Vec<Node>,
    pub(crate) sd_step: f64,
    /// Running sum of the weights, ending at 1.
    cumulative: Vec<f64>,
}

impl Grid {
    pub(crate) fn new(cells: &[(Cell, f64)], model: &Model) -> Result<Self, Error> {
        let search = Search {
            cells,
            model,
            hull: population::hull(cells)?,
        };
        let sd_step = search.widest()? / real(ROWS);
        let mut grid = Self {
            nodes: Vec::new(),
            sd_step,
            cumulative: Vec::new(),
        };
        for row in 0..ROWS {
            let sd = (real(row) + 0.5) * sd_step;
            for (node, ln_weight) in search.row(sd) {
                grid.nodes.push(node);
                grid.cumulative.push(ln_weight);
            }
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
    /// Least and greatest finite end of the cells.
    hull: (f64, f64),
}

impl Search<'_> {
    /// Half-normal law of the spread.
    fn ln_prior(&self, sd: f64) -> f64 {
        let x = sd / self.model.spread;
        -0.5 * x * x
    }

    /// The nodes of one row, with the logarithms of their weights.
    fn row(&self, sd: f64) -> impl Iterator<Item = (Node, f64)> {
        let total = sd.hypot(self.model.feel.scatter);
        let (low, high) = (self.hull.0 - REACH * total, self.hull.1 + REACH * total);
        let count = nodes((high - low) / total);
        let mean_step = (high - low) / real(count);
        let prior = self.ln_prior(sd) + mean_step.ln();
        (0..count).map(move |i| {
            let mean = low + (real(i) + 0.5) * mean_step;
            let node = Node {
                mean,
                mean_step,
                sd,
            };
            let laws = Laws::new(self.model, mean, sd);
            (node, laws.ln_likelihood(self.cells) + prior)
        })
    }

    /// Logarithm of the weight at the best mean for a spread.
    fn ridge(&self, sd: f64) -> f64 {
        self.row(sd)
            .map(|(node, ln_weight)| ln_weight - node.mean_step.ln())
            .fold(f64::NEG_INFINITY, f64::max)
    }

    /// The spread at which the ridge has fallen by `DROP`.
    fn widest(&self) -> Result<f64, Error> {
        let mut sd = self.model.spread / 16.0;
        let mut top = self.ridge(sd);
        let mut inside = sd;
        for _ in 0..DOUBLINGS {
            sd *= 2.0;
            let height = self.ridge(sd);
            if height < top - DROP {
                for _ in 0..4 {
                    let middle = (inside * sd).sqrt();
                    if self.ridge(middle) < top - DROP {
                        sd = middle;
                    } else {
                        inside = middle;
                    }
                }
                return Ok(sd);
            }
            top = top.max(height);
            inside = sd;
        }
        Err(Error::NotConverged {
            what: "the spread between spots",
            steps: DOUBLINGS,
        })
    }
}

/// Nodes for a row so many standard deviations long.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a positive count, far below where it would be cut off"
)]
fn nodes(length: f64) -> usize {
    (NODES * length).ceil().clamp(1.0, 4096.0) as usize
}
