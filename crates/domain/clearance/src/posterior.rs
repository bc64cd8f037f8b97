//! Draws of the true radial gap at every spot.

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};

use crate::error::{not_negative, positive};
use crate::grid::{Grid, Laws};
use crate::normal::{Truncated, upper_quantile};
use crate::{Cell, Error, Feel, population, real};

/// Draws made, after `jcgm-101`: enough for two digits of a 90 % interval.
const DRAWS: usize = 10_000;
/// Draws tried for each one kept before the gap of zero or more is given up.
const TRIES: usize = 200;

/// What stands between a leaf and a gap.
///
/// | here | meaning | default | unit |
/// |------|---------|---------|------|
/// | `feel` | how a leaf that goes relates to the gap | [`Feel::default`] | |
/// | `leaf_tolerance` | most the leaf set is off, either way | 5e-6, assumed | `m` |
/// | `chord` | [`sagitta`](crate::sagitta) of a flat leaf led in along the shaft, else 0 | 0 | `m` |
/// | `spread` | scale of the half-normal law of the spread between spots | 50e-6, assumed | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Model {
    /// How a leaf that goes relates to the gap.
    pub feel: Feel,
    /// Most the leaf set is off, either way.
    pub leaf_tolerance: f64,
    /// Most a flat leaf reads low across the curve.
    pub chord: f64,
    /// Scale of the half-normal law of the spread between spots.
    pub spread: f64,
}

impl Default for Model {
    fn default() -> Self {
        Self {
            feel: Feel::default(),
            leaf_tolerance: 5e-6,
            chord: 0.0,
            spread: 50e-6,
        }
    }
}

impl Model {
    pub(crate) fn check(&self) -> Result<(), Error> {
        let low = not_negative("the gap beyond a leaf that goes", self.feel.goes)?;
        let what = "the gap beyond a leaf that goes free";
        let free = not_negative(what, self.feel.free)?;
        if free < low {
            return Err(Error::Outside {
                what,
                value: free,
                low,
                high: f64::INFINITY,
            });
        }
        not_negative("the scatter of the feel", self.feel.scatter)?;
        not_negative("the leaf tolerance", self.leaf_tolerance)?;
        not_negative("the chord of the leaf", self.chord)?;
        positive("the scale of the spread between spots", self.spread)?;
        Ok(())
    }
}

/// What is known of one length: its middle, and the interval that holds it with 90 %.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `median` | as likely below as above | `m` |
/// | `low` | below with 5 % | `m` |
/// | `high` | above with 5 % | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// As likely below as above.
    pub median: f64,
    /// Below with 5 %.
    pub low: f64,
    /// Above with 5 %.
    pub high: f64,
}

/// Draws of the radial gap at every spot, all equally likely given the readings.
///
/// Methods that name a spot count from zero and panic, as indexing does, when there is no such spot.
#[derive(Clone, Debug, PartialEq)]
pub struct Posterior {
    spots: usize,
    /// One row of `spots` gaps a draw.
    gaps: Vec<f64>,
}

/// Draws the radial gap at every spot from what the leaves said.
///
/// `p(g | cells) ~ integral of prod [0.9 N(y_i; m, sd) + 0.1 N(y_i; m, 10 spread)] P(cell_i | y_i)
/// over m, sd, c, b`, `y = g - c - b`, kept where every `g >= 0`
///
/// A tenth of the spots is taken to be odd: swollen, gouged, burred. Such a spot neither widens the
/// others nor is drawn towards them.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `cells` | z | cell of the indicated gap at each spot | `m` |
/// | `model` | | feel, leaves, chord, spread | `m` |
/// | `seed` | | the same seed gives the same bytes | |
///
/// Range: `0 <= low < high`, at least one `high` finite; a spot without tries may stay open.
/// Source: `jcgm-101` for the draws, `gelman-2006` for the half-normal law of the spread,
/// `box-tiao-1968` for the mixture with a wide law.
///
/// # Errors
/// [`Error::NoUpperBound`] when every leaf went everywhere; [`Error::Empty`], [`Error::Cell`];
/// [`Error::Negative`], [`Error::NotPositive`], [`Error::Outside`] for the model; [`Error::NoRoom`] and
/// [`Error::NotConverged`] when readings and model cannot both be right.
pub fn posterior(cells: &[Cell], model: &Model, seed: u64) -> Result<Posterior, Error> {
    model.check()?;
    let counted = check(cells)?;
    let kind: Vec<usize> = cells
        .iter()
        .map(|cell| {
            counted
                .iter()
                .position(|(known, _)| known == cell)
                .unwrap_or_default()
        })
        .collect();
    let grid = Grid::new(&counted, model)?;
    let distinct: Vec<Cell> = counted.iter().map(|&(cell, _)| cell).collect();
    let mut draw = Draw {
        model,
        cells: &distinct,
        kind: &kind,
        grid: &grid,
        spots: Vec::with_capacity(distinct.len()),
        random: Pcg64Mcg::seed_from_u64(seed),
    };
    let mut gaps = Vec::with_capacity(DRAWS * cells.len());
    let mut tries = 0;
    for i in 0..DRAWS {
        // The first try of each draw takes its own share of the weight; a draw begun again may
        // come from anywhere. The mixture is exactly the law of the kept draws.
        let mut at = (real(i) + draw.uniform()) / real(DRAWS);
        while !draw.append(at, &mut gaps) {
            tries += 1;
            if tries > TRIES * DRAWS {
                return Err(Error::NoRoom { tries });
            }
            at = draw.uniform();
        }
    }
    Ok(Posterior {
        spots: cells.len(),
        gaps,
    })
}

/// Refuses cells that are no cells of a gap, and readings without any upper end.
fn check(cells: &[Cell]) -> Result<Vec<(Cell, f64)>, Error> {
    let counted = population::check(cells)?;
    if let Some(&(Cell { low, high }, _)) = counted.iter().find(|(c, _)| c.low < 0.0) {
        return Err(Error::Cell { low, high });
    }
    if cells.iter().all(|c| c.high.is_infinite()) {
        let largest = cells.iter().map(|c| c.low).fold(0.0, f64::max);
        return Err(Error::NoUpperBound { largest });
    }
    Ok(counted)
}

struct Draw<'a> {
    model: &'a Model,
    cells: &'a [Cell],
    kind: &'a [usize],
    grid: &'a Grid,
    /// The laws of each distinct cell at the node drawn.
    spots: Vec<Spot>,
    random: Pcg64Mcg,
}

/// One law of a spot, cut off to its cell.
#[derive(Clone, Copy)]
struct Law {
    /// Spread of the indicated gap.
    total: f64,
    /// Share of the indicated gap's departure that is the gap's own.
    share: f64,
    /// Spread of the gap once the indicated one is known.
    blur: f64,
    cut: Truncated,
}

impl Law {
    fn new(laws: &Laws, sd: f64, cell: &Cell) -> Self {
        let total = sd.hypot(laws.scatter);
        let standard = |end: f64| (end - laws.mean) / total;
        Self {
            total,
            share: (sd / total).powi(2),
            blur: (sd / total) * laws.scatter,
            cut: Truncated::new(standard(cell.low), standard(cell.high)),
        }
    }
}

/// Both laws a spot may follow, and the probability of the odd one given its cell.
#[derive(Clone, Copy)]
struct Spot {
    odd: f64,
    ordinary: Law,
    wide: Law,
}

impl Spot {
    fn new(laws: &Laws, cell: &Cell) -> Self {
        let (ordinary, odd) = laws.ln_parts(cell);
        Self {
            odd: 1.0 / (1.0 + (ordinary - odd).exp()),
            ordinary: Law::new(laws, laws.sd, cell),
            wide: Law::new(laws, laws.wide, cell),
        }
    }
}

impl Draw<'_> {
    /// A number from the open interval 0 to 1.
    #[expect(clippy::cast_precision_loss, reason = "52 bits fit")]
    fn uniform(&mut self) -> f64 {
        ((self.random.next_u64() >> 12) as f64 + 0.5) * f64::powi(0.5, 52)
    }

    /// Appends one draw of all gaps, or nothing and `false` when a gap came out below zero.
    fn append(&mut self, at: f64, gaps: &mut Vec<f64>) -> bool {
        let start = gaps.len();
        let node = self.grid.at(at);
        let mean = node.mean + (self.uniform() - 0.5) * node.mean_step;
        let sd = node.sd + (self.uniform() - 0.5) * self.grid.sd_step;
        let laws = Laws::new(self.model, mean, sd);
        let shared = self.model.chord * self.uniform()
            + self.model.leaf_tolerance * (2.0 * self.uniform() - 1.0);
        self.spots.clear();
        self.spots
            .extend(self.cells.iter().map(|cell| Spot::new(&laws, cell)));
        for &kind in self.kind {
            let spot = self.spots[kind];
            let law = if self.uniform() < spot.odd {
                spot.wide
            } else {
                spot.ordinary
            };
            let indicated = law.total * law.cut.quantile(self.uniform());
            let felt = mean + law.share * indicated + law.blur * upper_quantile(self.uniform());
            let gap = felt + shared;
            if gap < 0.0 {
                gaps.truncate(start);
                return false;
            }
            gaps.push(gap);
        }
        true
    }
}

impl Posterior {
    /// How many spots were measured.
    pub fn spots(&self) -> usize {
        self.spots
    }

    /// Radial gap at one spot, in `m`.
    pub fn spot(&self, spot: usize) -> Estimate {
        self.estimate(|gaps| gaps[spot])
    }

    /// Least radial gap of all spots, in `m`.
    pub fn least(&self) -> Estimate {
        self.estimate(least)
    }

    /// Mean radial gap of all spots, in `m`.
    pub fn mean(&self) -> Estimate {
        let spots = real(self.spots);
        self.estimate(|gaps| gaps.iter().sum::<f64>() / spots)
    }

    /// Greatest radial gap of all spots, in `m`.
    pub fn greatest(&self) -> Estimate {
        self.estimate(|gaps| gaps.iter().copied().fold(f64::NEG_INFINITY, f64::max))
    }

    /// Least radial gap of some spots, in `m`.
    pub fn least_of(&self, spots: &[usize]) -> Estimate {
        self.estimate(|gaps| spots.iter().map(|&i| gaps[i]).fold(f64::INFINITY, f64::min))
    }

    /// Greatest radial gap of some spots, in `m`.
    pub fn greatest_of(&self, spots: &[usize]) -> Estimate {
        self.estimate(|gaps| {
            spots
                .iter()
                .map(|&i| gaps[i])
                .fold(f64::NEG_INFINITY, f64::max)
        })
    }

    /// Sum of the gaps at two opposite spots: the diametral gap across them, in `m`.
    pub fn sum_of(&self, one: usize, opposite: usize) -> Estimate {
        self.estimate(|gaps| gaps[one] + gaps[opposite])
    }

    /// Probability of a statement about the radial gaps of all spots.
    ///
    /// `p = n / N`, the share of the draws for which it holds
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `holds` | | the statement, of one draw's gaps in `m` | |
    /// | returns | p | probability, within `0.01` at `N = 10 000` | `1` |
    ///
    /// Range: any statement.
    /// Source: `jcgm-101`, 7.
    pub fn probability(&self, holds: impl Fn(&[f64]) -> bool) -> f64 {
        real(self.draws().filter(|gaps| holds(gaps)).count()) / real(DRAWS)
    }

    fn draws(&self) -> impl Iterator<Item = &[f64]> {
        self.gaps.chunks_exact(self.spots)
    }

    fn estimate(&self, of: impl Fn(&[f64]) -> f64) -> Estimate {
        let mut values: Vec<f64> = self.draws().map(of).collect();
        values.sort_unstable_by(f64::total_cmp);
        // Middle of the two draws on either side of so many percent.
        let at = |percent: usize| {
            let above = percent * DRAWS / 100;
            f64::midpoint(values[above - 1], values[above])
        };
        Estimate {
            median: at(50),
            low: at(5),
            high: at(95),
        }
    }
}

fn least(gaps: &[f64]) -> f64 {
    gaps.iter().copied().fold(f64::INFINITY, f64::min)
}
