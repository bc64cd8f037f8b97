//! Least squares with unit priors, and Huber's loss for readings there are many of, by Levenberg and Marquardt.
//!
//! The crates for it want another release of the matrices that all else here is reckoned with.

use nalgebra::{DMatrix, DVector};

use super::evidence::Residual;
use crate::Error;

/// The least that was found.
pub(crate) struct Least {
    /// Where.
    pub(crate) at: DVector<f64>,
    /// The cost there.
    pub(crate) cost: f64,
    /// Half its second derivatives, by Gauss and Newton.
    pub(crate) curvature: DMatrix<f64>,
    /// What is left there.
    pub(crate) residuals: Vec<Residual>,
    /// How often the model was asked.
    pub(crate) rounds: usize,
}

/// Huber's bend, in uncertainties.
const BEND: f64 = 2.0;
/// Step of the differences, in spreads of the priors.
const STEP: f64 = 2e-3;
const ROUNDS: usize = 40;
/// The cost falls no more by a step.
const STILL: f64 = 1e-6;

type Model<'a> = dyn Fn(&DVector<f64>) -> Result<Vec<Residual>, Error> + 'a;

fn loss(one: &Residual) -> f64 {
    let size = one.value.abs();
    if size <= BEND || !one.many() {
        0.5 * size * size
    } else {
        BEND * (size - 0.5 * BEND)
    }
}

/// Weight by which a square stands for the loss.
fn weight(one: &Residual) -> f64 {
    if one.many() {
        (BEND / one.value.abs()).min(1.0)
    } else {
        1.0
    }
}

fn cost(residuals: &[Residual], at: &DVector<f64>) -> f64 {
    residuals.iter().map(loss).sum::<f64>() + 0.5 * at.norm_squared()
}

/// Gradient and curvature at a place.
fn slopes(
    model: &Model<'_>,
    at: &DVector<f64>,
    here: &[Residual],
    rounds: &mut usize,
) -> Result<(DVector<f64>, DMatrix<f64>), Error> {
    let mut jacobian = DMatrix::zeros(here.len(), at.len());
    for column in 0..at.len() {
        let mut beside = at.clone();
        beside[column] += STEP;
        *rounds += 1;
        let (there, step) = if let Ok(there) = model(&beside) {
            (there, STEP)
        } else {
            // At the edge of what makes sense: from the other side.
            beside[column] -= 2.0 * STEP;
            (model(&beside)?, -STEP)
        };
        for (row, (a, b)) in there.iter().zip(here).enumerate() {
            jacobian[(row, column)] = (a.value - b.value) / step;
        }
    }
    let mut weighted = jacobian.clone();
    for (row, one) in here.iter().enumerate() {
        weighted.row_mut(row).scale_mut(weight(one));
    }
    let values = DVector::from_iterator(here.len(), here.iter().map(|one| one.value));
    let gradient = weighted.tr_mul(&values) + at;
    let curvature = weighted.tr_mul(&jacobian) + DMatrix::identity(at.len(), at.len());
    Ok((gradient, curvature))
}

/// A damped step; nought for what its bound holds.
fn step(
    at: &DVector<f64>,
    gradient: &DVector<f64>,
    curvature: &DMatrix<f64>,
    (damping, bounds): (f64, &[[f64; 2]]),
) -> Option<DVector<f64>> {
    let mut damped = curvature.clone();
    let mut wanted = gradient.clone();
    for place in 0..at.len() {
        let [least, most] = bounds[place];
        let held = (at[place] <= least && gradient[place] > 0.0)
            || (at[place] >= most && gradient[place] < 0.0);
        if held {
            damped.row_mut(place).fill(0.0);
            damped.column_mut(place).fill(0.0);
            damped[(place, place)] = 1.0;
            wanted[place] = 0.0;
        } else {
            damped[(place, place)] *= 1.0 + damping;
        }
    }
    damped.cholesky().map(|factor| factor.solve(&wanted))
}

/// Looks for the least from a place on, within bounds: what a step would carry beyond its bound stops
/// there, and stays as long as the slope holds it.
pub(crate) fn least(
    model: &Model<'_>,
    from: DVector<f64>,
    bounds: &[[f64; 2]],
) -> Result<Least, Error> {
    let mut rounds = 1;
    let mut at = from;
    let mut residuals = model(&at)?;
    let mut now = cost(&residuals, &at);
    let mut damping = 1e-2;
    let (mut gradient, mut curvature) = slopes(model, &at, &residuals, &mut rounds)?;
    for _ in 0..ROUNDS {
        let Some(step) = step(&at, &gradient, &curvature, (damping, bounds)) else {
            damping *= 10.0;
            continue;
        };
        let mut beside = &at - &step;
        for (value, [least, most]) in beside.iter_mut().zip(bounds) {
            *value = value.clamp(*least, *most);
        }
        rounds += 1;
        let there = model(&beside)
            .ok()
            .map(|there| (cost(&there, &beside), there));
        let Some((lower, there)) = there.filter(|(lower, _)| *lower < now) else {
            damping *= 5.0;
            if damping > 1e8 {
                break;
            }
            continue;
        };
        let fell = now - lower;
        (at, residuals, now) = (beside, there, lower);
        (gradient, curvature) = slopes(model, &at, &residuals, &mut rounds)?;
        damping = (damping * 0.2).max(1e-9);
        if fell < STILL * now.max(1.0) {
            break;
        }
    }
    Ok(Least {
        at,
        cost: now,
        curvature,
        residuals,
        rounds,
    })
}
