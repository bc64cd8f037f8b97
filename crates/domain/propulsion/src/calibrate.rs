//! What a craft's own runs say of what cannot be read off it.
//!
//! Every unknown starts from its prior. Runs pull it as far as they can; what they cannot pull stays
//! as wide as it was, and is told so. The answer is the most probable set (MAP) with its spread.

mod evidence;
mod least;

pub use evidence::{Evidence, Plateau, Pull, Reading, Start, Steady, Timed};

use nalgebra::{DMatrix, DVector};

use crate::Error;
use crate::craft::{Conditions, Craft};
use crate::unknown::{COUNT, PRIORS, Unknown, Unknowns};
use evidence::{Residual, residuals};
use least::{Least, least};

/// What was learnt of a craft.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The most probable value of every unknown.
    pub best: Unknowns,
    /// Spread of each over that of its prior: near 1 where nothing was learnt.
    pub learnt: [f64; COUNT],
    /// Factor of the spread: rows of the lower triangle, in units of the priors' spreads.
    pub(crate) factor: Vec<[f64; COUNT]>,
    /// How well it fits.
    pub left: Left,
    /// How often the craft was reckoned through.
    pub rounds: usize,
}

/// What the most probable craft leaves unexplained.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Left {
    /// Of the speed while it gathers way, mean over a second at a time, root mean square, `m/s`.
    pub speed: f64,
    /// Of the engine's speed there, likewise, `rad/s`.
    pub engine: f64,
    /// Of the speed at full throttle, the worst, `m/s`.
    pub top_speed: f64,
    /// Of the engine's speed there, the worst, `rad/s`.
    pub top_engine: f64,
}

/// Why a fit is not good enough to predict by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Poor {
    /// The engine's speed at full throttle is off, `rad/s`.
    TopEngine(f64),
    /// The speed at full throttle is off, `m/s`.
    TopSpeed(f64),
    /// What is left while it gathers way has a shape, `m/s`.
    Way(f64),
    /// What is left of the engine's speed there has a shape, `rad/s`.
    WayEngine(f64),
    /// Something would have to be so unlikely, in spreads of its prior.
    Strained(Unknown, f64),
}

/// Not learnt: the spread is still this much of the prior's.
pub const NOT_LEARNT: f64 = 0.8;
/// A hundred revolutions a minute, `rad/s`: a degree of pitch is twice that. Common practice, no source.
const ENGINE_OFF: f64 = 10.472; // not a conversion: a limit in SI
/// The most the top speed may be off, `m/s`: assumed, no source.
const TOP_OFF: f64 = 0.6;
/// The most that may be left while it gathers way, `m/s`, `rad/s`: assumed, no source.
const WAY_OFF: f64 = 1.0;
const WAY_ENGINE_OFF: f64 = 2.0 * ENGINE_OFF;
/// So many spreads off its prior nothing is believed: assumed, no source.
const STRAINED: f64 = 3.0;

impl Fit {
    /// Why it is not good enough to predict by; none where it is.
    pub fn poor(&self) -> Option<Poor> {
        let left = &self.left;
        if left.top_engine > ENGINE_OFF {
            return Some(Poor::TopEngine(left.top_engine));
        }
        if left.top_speed > TOP_OFF {
            return Some(Poor::TopSpeed(left.top_speed));
        }
        if left.speed > WAY_OFF {
            return Some(Poor::Way(left.speed));
        }
        if left.engine > WAY_ENGINE_OFF {
            return Some(Poor::WayEngine(left.engine));
        }
        let off = PRIORS.iter().map(|prior| {
            let value = self.best[prior.of];
            (prior.of, (value - prior.mean) / prior.spread)
        });
        let worst = off.max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
        let worst = worst.filter(|(_, spreads)| spreads.abs() > STRAINED);
        worst.map(|(of, spreads)| Poor::Strained(of, spreads))
    }

    /// Whether runs said anything of an unknown.
    pub fn has_learnt(&self, of: Unknown) -> bool {
        self.learnt[of as usize] <= NOT_LEARNT
    }
}

/// The priors as a fit: nothing learnt.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `returns` | means and spreads of [`PRIORS`], independent |  |
///
/// Range: any craft.
/// Source: common practice, no source.
pub fn nothing_learnt() -> Fit {
    let unit = |row: usize| {
        let mut factor = [0.0; COUNT];
        factor[row] = 1.0;
        factor
    };
    Fit {
        best: Unknowns::expected(),
        learnt: [1.0; COUNT],
        factor: (0..COUNT).map(unit).collect(),
        left: Left::default(),
        rounds: 0,
    }
}

/// The unknowns that lie so many spreads of their priors off the means.
pub(crate) fn unknowns(spreads: &[f64]) -> Unknowns {
    let mut values = [0.0; COUNT];
    for ((value, prior), off) in values.iter_mut().zip(&PRIORS).zip(spreads) {
        *value = prior.mean + prior.spread * off;
    }
    Unknowns(values)
}

/// Learns a craft from its runs: the most probable set and, by Laplace, its spread.
///
/// minimise `Σ rho(r_i) + Σ z_j²`, `z_j = (theta_j − mean_j)/spread_j`, `rho` Huber's at 2 spreads
/// for readings on the way and a square for the rest, by Levenberg and Marquardt; spread `(J'WJ + 1)^−1` at the minimum
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as it was fitted on that day; its unknowns are not looked at |  |
/// | `day` | that day |  |
/// | `evidence` | starts, plateaus, steady readings, pulls |  |
/// | `returns` | what was learnt |  |
///
/// Range: at least one plateau or start.
/// Source: `huber-1964` for the loss.
///
/// # Errors
/// No evidence at full throttle; a craft that cannot be reckoned with its priors.
pub fn calibrate(craft: &Craft, day: &Conditions, evidence: &Evidence) -> Result<Fit, Error> {
    craft.check()?;
    evidence.check(craft)?;
    let starts = evidence.starts.len();
    let model = |at: &DVector<f64>| -> Result<Vec<Residual>, Error> {
        let mut craft = craft.clone();
        craft.unknowns = unknowns(&at.as_slice()[..COUNT]);
        if !craft.unknowns.sensible() {
            return Err(Error::NoBalance {
                what: "sensible values of all unknowns",
                low: 0.0,
                high: 0.0,
            });
        }
        residuals(&craft, day, evidence, &at.as_slice()[COUNT..])
    };
    let mut best: Option<(f64, Fit)> = None;
    for from in first_guesses(starts) {
        let Ok(least) = least(&model, from, &bounds(starts)) else {
            continue;
        };
        let Ok(fit) = fitted(&least) else {
            continue;
        };
        if fit.poor().is_none() {
            return Ok(fit);
        }
        if best.as_ref().is_none_or(|(cost, _)| least.cost < *cost) {
            best = Some((least.cost, fit));
        }
    }
    best.map(|(_, fit)| fit).ok_or(Error::NoBalance {
        what: "craft and its runs",
        low: 0.0,
        high: 0.0,
    })
}

/// What makes sense, in spreads of the priors; a moment of opening within ten.
fn bounds(starts: usize) -> Vec<[f64; 2]> {
    let bounds = PRIORS
        .iter()
        .map(|prior| [prior.least, prior.most].map(|bound| (bound - prior.mean) / prior.spread));
    bounds
        .chain(std::iter::repeat_n([-10.0, 10.0], starts))
        .collect()
}

/// The priors' means first, then light and heavy hulls, early and late breakdown, steep and flat blades: from
/// far away the first steps may lead to a craft that does not get over its hump, or that sits on its limiter,
/// where nothing has a slope.
fn first_guesses(starts: usize) -> Vec<DVector<f64>> {
    let set = |[hull, breakdown, deviation]: [f64; 3]| {
        let mut from = DVector::zeros(COUNT + starts);
        from[Unknown::Hull as usize] = hull;
        from[Unknown::Breakdown as usize] = breakdown;
        from[Unknown::Deviation as usize] = deviation;
        from
    };
    let guesses = [
        [0.0, 0.0, 0.0],
        [-1.2, 0.5, 0.0],
        [1.5, 0.0, 0.0],
        [0.0, 1.0, -2.0],
        [1.5, 1.5, -2.0],
        [-1.5, 2.5, 1.0],
    ];
    guesses.map(set).into()
}

fn fitted(best: &Least) -> Result<Fit, Error> {
    let singular = Error::NoBalance {
        what: "spread of what was learnt",
        low: 0.0,
        high: 0.0,
    };
    let spread: DMatrix<f64> = best
        .curvature
        .clone()
        .cholesky()
        .ok_or(singular.clone())?
        .inverse();
    let all = spread.view((0, 0), (COUNT, COUNT)).into_owned();
    let mut learnt = [0.0; COUNT];
    for (at, ratio) in learnt.iter_mut().enumerate() {
        *ratio = all[(at, at)].sqrt();
    }
    let factor = all.cholesky().ok_or(singular)?.l();
    let row = |at: usize| {
        let mut row = [0.0; COUNT];
        for (column, entry) in row.iter_mut().enumerate() {
            *entry = factor[(at, column)];
        }
        row
    };
    Ok(Fit {
        best: unknowns(&best.at.as_slice()[..COUNT]),
        learnt,
        factor: (0..COUNT).map(row).collect(),
        left: evidence::left(&best.residuals),
        rounds: best.rounds,
    })
}
