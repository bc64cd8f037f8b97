//! The law of the parameters of one set of causes, given the cells, and its evidence.
//!
//! How much a reading scatters is not known either: the law is a blend of one normal law for each
//! scatter it may have, each weighed by its evidence.

use std::f64::consts::PI;

use nalgebra::{DMatrix, DVector};
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};

use crate::normal::{cell_probability, upper_quantile};
use crate::{Cell, Estimate, ln_cell_probability, real};

/// Sweeps over the readings before what is reached is taken.
const SWEEPS: usize = 40;
/// Change of a site's weight, in units of the scatter, at which the sweeps end.
const SETTLED: f64 = 1e-4;
/// Draws of the parameters from which sizes and directions are read.
pub(super) const DRAWS: usize = 2000;
/// How much wider than a normal law its proposals are: the tails of the exact law must be met.
const WIDER: f64 = 1.15;
const HALF_LN_TWO_PI: f64 = 0.918_938_533_204_672_8;

/// A cell's probability under a normal value, and how it answers to the value's mean.
pub(super) struct Tilted {
    /// Logarithm of the probability.
    pub(super) ln_z: f64,
    /// Its slope in the mean.
    pub(super) slope: f64,
    /// Its curvature in the mean, turned positive.
    pub(super) bend: f64,
}

/// `ln(Phi(b) - Phi(a))` with slope and bend, `a = (L - m) / s`, `b = (H - m) / s`.
pub(super) fn tilted(cell: &Cell, mean: f64, variance: f64) -> Tilted {
    let s = variance.sqrt();
    let (a, b) = ((cell.low - mean) / s, (cell.high - mean) / s);
    let ln_z = ln_cell_probability(a, b);
    // Density at an end over the cell's probability, and that times the end: nothing far out.
    let end = |x: f64| {
        let density = (-0.5 * x * x - HALF_LN_TWO_PI - ln_z).exp();
        (density, if x.is_finite() { x * density } else { 0.0 })
    };
    let ((at_a, a_a), (at_b, b_b)) = (end(a), end(b));
    let slope = (at_a - at_b) / s;
    Tilted {
        ln_z,
        slope,
        // Never below nothing but by rounding: the logarithm of a cell is concave.
        bend: (slope * slope + (b_b - a_a) / variance).max(0.0),
    }
}

/// What a law answers: cells in units of the survey's scatter, a row a reading, and the covariance of
/// the parameters before the readings.
pub(super) struct Asked<'a> {
    /// One column a reading.
    pub(super) rows: DMatrix<f64>,
    pub(super) cells: &'a [Cell],
    pub(super) prior: DMatrix<f64>,
}

/// Normal stand-in for one reading: `exp(shift x - weight x^2 / 2)`.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Site {
    weight: f64,
    shift: f64,
}

/// A normal law of the parameters at one scatter, in units of the survey's about the middle.
#[derive(Clone, Debug, PartialEq)]
struct Law {
    mean: DVector<f64>,
    covariance: DMatrix<f64>,
    /// Variance of a reading about its causes.
    noise: f64,
    sites: Vec<Site>,
    /// Logarithm of the probability of the cells, up to a constant of the survey.
    ln_evidence: f64,
    /// Logarithm of each cell's probability given all the others.
    left_out: Vec<f64>,
}

/// What is known of the parameters: a normal law for each scatter the readings may have.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Blend {
    laws: Vec<Law>,
    /// Probability of each scatter given the cells.
    shares: Vec<f64>,
    /// The likeliest of them.
    likeliest: usize,
    /// Logarithm of the probability of the cells, up to a constant of the survey.
    pub(super) ln_evidence: f64,
}

/// What a law says of one value before a reading's own word.
#[derive(Clone, Copy)]
pub(super) struct Outlook {
    pub(super) mean: f64,
    pub(super) variance: f64,
}

impl Asked<'_> {
    /// The inverse of the covariance before the readings.
    fn weight(&self) -> DMatrix<f64> {
        let size = self.prior.nrows();
        let factor = self.prior.clone().cholesky();
        factor.map_or_else(|| DMatrix::zeros(size, size), |c| c.inverse())
    }

    /// Logarithm of the density of the parameters given the cells, up to a constant.
    fn ln_density(&self, at: &DVector<f64>, noise: f64, before: &DMatrix<f64>) -> f64 {
        let precise = noise.sqrt().recip();
        let means = self.rows.tr_mul(at);
        let (mut ln, mut chance) = (-0.5 * at.dot(&(before * at)), 1.0);
        for (mean, cell) in means.iter().zip(self.cells) {
            chance *= cell_probability((cell.low - mean) * precise, (cell.high - mean) * precise);
            // One logarithm does for many cells.
            if chance < 1e-100 {
                ln += chance.ln();
                chance = 1.0;
            }
        }
        ln + chance.ln()
    }
}

/// As many draws as were proposed, each proposal taken as often as its weight asks.
fn resampled<T: Clone>(proposed: &[T], ln_weights: &[f64]) -> Vec<T> {
    let top = ln_weights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights = ln_weights.iter().map(|ln| (ln - top).exp());
    let each = weights.clone().sum::<f64>() / real(proposed.len());
    let mut taken = Vec::with_capacity(proposed.len());
    let mut upto = 0.0;
    for (draw, weight) in proposed.iter().zip(weights) {
        upto += weight / each;
        while real(taken.len()) + 0.5 < upto {
            taken.push(draw.clone());
        }
    }
    taken
}

impl Blend {
    /// The laws at scatters that are equally likely before the readings, as variances.
    pub(super) fn new(asked: &Asked, noises: &[f64]) -> Self {
        let mut laws: Vec<Law> = Vec::with_capacity(noises.len());
        for &noise in noises {
            // The law before is near: most of its sweeps need not be done again.
            let sites = laws.last().map_or_else(
                || vec![Site::default(); asked.cells.len()],
                |law| law.sites.clone(),
            );
            laws.push(Law::new(asked, noise, sites));
        }
        let best = (0..laws.len())
            .max_by(|&i, &j| laws[i].ln_evidence.total_cmp(&laws[j].ln_evidence))
            .unwrap_or_default();
        let top = laws[best].ln_evidence;
        let shares: Vec<f64> = laws.iter().map(|l| (l.ln_evidence - top).exp()).collect();
        let total: f64 = shares.iter().sum();
        Self {
            shares: shares.iter().map(|share| share / total).collect(),
            likeliest: best,
            ln_evidence: top + (total / real(laws.len())).ln(),
            laws,
        }
    }

    /// Draws of the parameters, and which scatter each was drawn at: the same seed, the same bytes.
    ///
    /// The normal laws, a few parts in a hundred too narrow, only propose, wider than they are; a
    /// proposal is taken as often as the cells themselves ask for it.
    pub(super) fn draws(&self, asked: &Asked, seed: u64) -> Vec<(usize, DVector<f64>)> {
        let mut dice = Normal(Pcg64Mcg::seed_from_u64(seed));
        let before = asked.weight();
        let (mut proposed, mut ln_weights) = (Vec::new(), Vec::new());
        let mut upto = 0.0;
        for (i, (law, share)) in self.laws.iter().zip(&self.shares).enumerate() {
            let root = root(&law.covariance);
            let height = -ln_size(&root);
            upto += share * real(DRAWS);
            while real(proposed.len()) + 0.5 < upto {
                let step = DVector::from_fn(law.mean.len(), |_, _| dice.next());
                let draw = &law.mean + &root * (WIDER * &step);
                let ln_target = asked.ln_density(&draw, law.noise, &before);
                // Each scatter proposes by its evidence.
                let ln_proposal = law.ln_evidence + height - 0.5 * step.norm_squared();
                ln_weights.push(ln_target - ln_proposal);
                proposed.push((i, draw));
            }
        }
        resampled(&proposed, &ln_weights)
    }

    /// What is said of a reading at a row, without the word of one that is named, at the likeliest
    /// scatter.
    pub(super) fn before(&self, x: &DVector<f64>, reading: Option<usize>) -> Outlook {
        let law = &self.laws[self.likeliest];
        let Outlook { mean, variance } = law.before(x, reading);
        Outlook {
            mean,
            variance: law.noise + variance,
        }
    }

    /// Logarithm of each cell's probability given all the others, at the likeliest scatter.
    pub(super) fn left_out(&self) -> &[f64] {
        &self.laws[self.likeliest].left_out
    }
}

impl Law {
    /// Expectation propagation: each reading is in turn replaced by the normal factor that leaves
    /// mean and variance as the cell itself would. It begins at sites that may be far off.
    fn new(asked: &Asked, noise: f64, sites: Vec<Site>) -> Self {
        let mut law = Self {
            mean: DVector::zeros(asked.prior.nrows()),
            covariance: asked.prior.clone(),
            noise,
            sites,
            ln_evidence: 0.0,
            left_out: vec![0.0; asked.cells.len()],
        };
        law.settle(asked);
        for _ in 0..SWEEPS {
            if law.sweep(asked) < SETTLED {
                break;
            }
        }
        law.settle(asked);
        law.weigh(asked);
        law
    }

    /// One turn of all readings; returns the largest change.
    fn sweep(&mut self, asked: &Asked) -> f64 {
        let mut change: f64 = 0.0;
        let mut spread = DVector::zeros(self.mean.len());
        for (i, cell) in asked.cells.iter().enumerate() {
            let x = asked.rows.column(i);
            spread.gemv(1.0, &self.covariance, &x, 0.0);
            let now = Outlook {
                mean: x.dot(&self.mean),
                variance: x.dot(&spread),
            };
            let old = self.sites[i];
            let before = without(now, old);
            let t = tilted(cell, before.mean, self.noise + before.variance);
            let rest = 1.0 - before.variance * t.bend;
            let site = Site {
                weight: t.bend / rest,
                shift: (t.slope + before.mean * t.bend) / rest,
            };
            let (more, push) = (site.weight - old.weight, site.shift - old.shift);
            let grown = 1.0 + more * now.variance;
            self.mean
                .axpy((push - more * now.mean) / grown, &spread, 1.0);
            self.covariance.ger(-more / grown, &spread, &spread, 1.0);
            self.sites[i] = site;
            change = change.max((more * now.variance).abs());
        }
        change
    }

    /// Mean and covariance afresh from the sites, rid of the rounding of many small steps.
    fn settle(&mut self, asked: &Asked) {
        let mut precision = asked.weight();
        let mut pull = DVector::zeros(self.mean.len());
        for (x, site) in asked.rows.column_iter().zip(&self.sites) {
            precision.ger(site.weight, &x, &x, 1.0);
            pull.axpy(site.shift, &x, 1.0);
        }
        if let Some(factor) = precision.cholesky() {
            self.covariance = factor.inverse();
            self.mean = &self.covariance * pull;
        }
    }

    /// The evidence, and what the others say of each reading.
    fn weigh(&mut self, asked: &Asked) {
        let mut sum = 0.0;
        for (i, cell) in asked.cells.iter().enumerate() {
            let x = asked.rows.column(i);
            let site = self.sites[i];
            let before = self.before(&x.clone_owned(), Some(i));
            let ln_z = tilted(cell, before.mean, self.noise + before.variance).ln_z;
            let precise = before.variance.recip();
            let pull = site.shift + before.mean * precise;
            sum += ln_z + 0.5 * (site.weight * before.variance).ln_1p()
                - 0.5 * pull * pull / (precise + site.weight)
                + 0.5 * before.mean * before.mean * precise;
            self.left_out[i] = ln_z;
        }
        let (shrunk, wide) = (
            ln_size(&root(&self.covariance)),
            ln_size(&root(&asked.prior)),
        );
        let mut pull = DVector::zeros(self.mean.len());
        for (x, site) in asked.rows.column_iter().zip(&self.sites) {
            pull.axpy(site.shift, &x, 1.0);
        }
        self.ln_evidence = sum + shrunk - wide + 0.5 * pull.dot(&self.mean);
    }

    /// What is said of the value at a row, without the word of one reading if it is named.
    fn before(&self, x: &DVector<f64>, reading: Option<usize>) -> Outlook {
        let now = Outlook {
            mean: x.dot(&self.mean),
            variance: x.dot(&(&self.covariance * x)),
        };
        reading.map_or(now, |i| without(now, self.sites[i]))
    }
}

/// Lower triangle whose square is a covariance.
fn root(covariance: &DMatrix<f64>) -> DMatrix<f64> {
    let size = covariance.nrows();
    let factor = covariance.clone().cholesky();
    factor.map_or_else(|| DMatrix::zeros(size, size), |c| c.l())
}

/// Logarithm of the determinant of a triangle.
fn ln_size(triangle: &DMatrix<f64>) -> f64 {
    triangle.diagonal().iter().map(|d| d.ln()).sum()
}

/// Takes one site's word back out of a normal law.
fn without(now: Outlook, site: Site) -> Outlook {
    let precise = now.variance.recip() - site.weight;
    let variance = precise.recip();
    Outlook {
        mean: variance * (now.mean / now.variance - site.shift),
        variance,
    }
}

/// Standard normal draws.
pub(super) struct Normal(pub(super) Pcg64Mcg);

impl Normal {
    /// A number from the open interval 0 to 1.
    #[expect(clippy::cast_precision_loss, reason = "52 bits fit")]
    pub(super) fn uniform(&mut self) -> f64 {
        ((self.0.next_u64() >> 12) as f64 + 0.5) * f64::powi(0.5, 52)
    }

    pub(super) fn next(&mut self) -> f64 {
        upper_quantile(self.uniform())
    }
}

/// Middle and 90 % interval of some draws.
pub(super) fn estimate(mut values: Vec<f64>) -> Estimate {
    values.sort_unstable_by(f64::total_cmp);
    let at = |percent: usize| {
        let above = percent * values.len() / 100;
        f64::midpoint(values[above - 1], values[above])
    };
    Estimate {
        median: at(50),
        low: at(5),
        high: at(95),
    }
}

/// An angle, and how far to either side of it the true one lies with 90 %.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `angle` | best estimate, clockwise from 12; of an oval from 0 to half a turn | `rad` |
/// | `within` | half the 90 % interval; the whole range when nothing is known | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    /// Best estimate.
    pub angle: f64,
    /// Half the 90 % interval.
    pub within: f64,
}

/// How large a cause is.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// A wave: its amplitude, and where the gap is largest. Blade angles count from blade 0 as clock
    /// angles do from 12.
    Wave {
        /// Amplitude: distance off centre, or half the difference of an oval's radii.
        size: Estimate,
        /// Where the gap is largest.
        towards: Direction,
    },
    /// What the gap is larger by, there or at that blade; below zero where it is smaller.
    Amount(Estimate),
    /// What the gap is larger by at each blade than their mean.
    Each(Vec<Estimate>),
}

/// A wave from draws of its cosine and sine; `turns` is how often it goes round.
pub(super) fn wave(pairs: &[(f64, f64)], turns: f64) -> Effect {
    let (x, y) = pairs
        .iter()
        .fold((0.0, 0.0), |(x, y), (a, b)| (x + a, y + b));
    let middle = y.atan2(x);
    let mut off: Vec<f64> = pairs
        .iter()
        .map(|(a, b)| {
            let turn = b.atan2(*a) - middle;
            turn.sin().atan2(turn.cos()).abs()
        })
        .collect();
    off.sort_unstable_by(f64::total_cmp);
    Effect::Wave {
        size: estimate(pairs.iter().map(|(a, b)| a.hypot(*b)).collect()),
        towards: Direction {
            angle: middle.rem_euclid(2.0 * PI) / turns,
            within: off[off.len() * 9 / 10] / turns,
        },
    }
}
