//! What each fault would change of what is seen on the water, and how well the model knows it.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

use crate::Error;
use crate::error::{as_long, within};
use crate::fault::Fault;

/// A quantity that is seen, in SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Observable {
    /// Speed at full throttle, `m/s`.
    TopSpeed,
    /// Engine speed there, `rad/s`.
    TopEngine,
    /// Natural logarithm of the time from rest to this speed.
    Start(f64),
    /// Engine speed off the line, `rad/s`.
    LaunchEngine,
    /// Mean radial gap, `m`.
    Gap,
}

/// What the model may be off by of a quantity, whatever the fault, in its unit. This and what follows is tuned on the
/// first half of `docs/studies/faults.md`.
const BASE: [f64; 5] = [0.15, 4.5, 0.09, 4.0, 3e-5];
/// A share of the effect on the quantity itself.
const SHARE: f64 = 0.25;
/// A share of the fault's whole effect: its direction is no better known.
const DIRECTION: f64 = 0.3;
/// A blocked grate and a bent blade may take load off the engine or put it on, `rad/s` at severity 1.
const LOOSE: f64 = 14.0;

impl Observable {
    /// What the model may be off by, whatever the fault.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | a standard deviation, in the quantity's own unit | `1` |
    ///
    /// Range: any.
    /// Source: common practice, no source.
    pub fn base(self) -> f64 {
        match self {
            Self::TopSpeed => BASE[0],
            Self::TopEngine => BASE[1],
            Self::Start(_) => BASE[2],
            Self::LaunchEngine => BASE[3],
            Self::Gap => BASE[4],
        }
    }
}

/// Standard deviations of the model's own errors of a fault's effects.
///
/// `s_q² = b_q² + (0.25 e_q)² + (0.3 b_q N)² + (14 s)²`, `N² = sum_q (e_q/b_q)²` over what the water shows, the last
/// term for the engine with a blocked grate or a bent blade alone
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `(fault, severity)` | which, and its severity `s` | `1` |
/// | `quantities` | which each effect is of; `b` their bases |  |
/// | `effects` | `e`, each in its quantity's own unit | `1` |
/// | `returns` | `s_q`, each in its quantity's own unit | `1` |
///
/// Range: any.
/// Source: common practice, no source.
pub fn off(
    (fault, severity): (Fault, f64),
    quantities: &[Observable],
    effects: &[f64],
) -> Vec<f64> {
    let each = || quantities.iter().zip(effects);
    let water = each().filter(|(of, _)| **of != Observable::Gap);
    let whole = water.map(|(of, effect)| (effect / of.base()).powi(2));
    let whole = whole.sum::<f64>().sqrt();
    each()
        .map(|(of, effect)| {
            let own = of.base().hypot(SHARE * effect);
            let engine = matches!(of, Observable::TopEngine | Observable::LaunchEngine);
            let loose = match fault {
                Fault::Grate | Fault::Blade if engine => LOOSE * severity,
                _ => 0.0,
            };
            let direction = match of {
                Observable::Gap => 0.0,
                _ => DIRECTION * of.base() * whole,
            };
            own.hypot(direction).hypot(loose)
        })
        .collect()
}

/// What a fault of one size changes, belief by belief.
#[derive(Clone, Debug, PartialEq)]
pub struct Signature {
    /// Which fault.
    pub fault: Fault,
    /// Its size, above 0 and up to 1.
    pub severity: f64,
    mean: DVector<f64>,
    covariance: DMatrix<f64>,
}

/// A quantity seen, less what it should be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seen {
    /// The difference.
    pub change: f64,
    /// Its standard uncertainty, of the measurement alone.
    pub uncertainty: f64,
}

impl Signature {
    /// Out of the effects of every belief.
    ///
    /// Beliefs enter by their mean and covariance `S`; the model's own error is independent from quantity to
    /// quantity.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `fault` | which |  |
    /// | `severity` | 0 to 1 | `1` |
    /// | `effects` | one list a belief, one number a quantity |  |
    /// | `off` | standard deviation of the model's error, by quantity |  |
    /// | `returns` | the signature |  |
    ///
    /// Range: at least one belief.
    /// Source: definition.
    ///
    /// # Errors
    /// A severity out of its range; no belief, or one that tells of another number of quantities; a number that
    /// is none; a deviation below nought.
    pub fn new(
        (fault, severity): (Fault, f64),
        effects: &[Vec<f64>],
        off: &[f64],
    ) -> Result<Self, Error> {
        within("severity", severity, 0.0, 1.0)?;
        let count = crate::real(effects.len());
        within("beliefs", count, 1.0, f64::MAX)?;
        for effects in effects {
            as_long("quantities of a belief", effects.len(), off.len())?;
            for effect in effects {
                within("effect", *effect, f64::MIN, f64::MAX)?;
            }
        }
        for deviation in off {
            within("deviation of the model", *deviation, 0.0, f64::MAX)?;
        }
        let beliefs = effects
            .iter()
            .map(|one| DVector::from_column_slice(one))
            .collect::<Vec<_>>();
        let mean = beliefs.iter().sum::<DVector<f64>>() / count;
        let mut covariance = DMatrix::from_diagonal(&DVector::from_iterator(
            off.len(),
            off.iter().map(|s| s * s),
        ));
        for belief in &beliefs {
            let apart = belief - &mean;
            covariance += &apart * apart.transpose() / count;
        }
        Ok(Self {
            fault,
            severity,
            mean,
            covariance,
        })
    }

    /// How many quantities it tells of.
    pub fn quantities(&self) -> usize {
        self.mean.len()
    }

    /// The mean effect on a quantity.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `quantity` | its place |  |
    /// | `returns` | the effect, in the quantity's own unit | `1` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn effect(&self, quantity: usize) -> f64 {
        self.mean[quantity]
    }

    /// The same fault with this one on top of it: effects and uncertainties add up.
    pub(crate) fn with(&self, other: &Self) -> Self {
        Self {
            mean: &self.mean + &other.mean,
            covariance: &self.covariance + &other.covariance,
            ..self.clone()
        }
    }

    /// As little known as what is on no list: the same mean, deviations so many times as wide.
    pub(crate) fn widened(&self, fault: Fault, times: f64) -> Self {
        Self {
            fault,
            covariance: &self.covariance * (times * times),
            ..self.clone()
        }
    }

    /// Log density and squared distance of what was seen.
    ///
    /// `ln p = −(d² + ln|S + U| + k ln 2 pi)/2`, `d² = (y − m)' (S + U)^−1 (y − m)`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `seen` | `y` with its uncertainties, `U` their squares; none where it was not seen |  |
    /// | `returns` | `ln p` and `d²`; both 0 where nothing was seen | `1` |
    ///
    /// Range: any.
    /// Source: definition (normal law of `k` quantities).
    ///
    /// # Errors
    /// Another number of quantities; a change that is no number, an uncertainty below nought; a quantity that
    /// neither measurement nor model is uncertain of.
    pub fn density(&self, seen: &[Option<Seen>]) -> Result<[f64; 2], Error> {
        as_long("quantities seen", seen.len(), self.quantities())?;
        let here: Vec<(usize, Seen)> = seen
            .iter()
            .enumerate()
            .filter_map(|(at, seen)| Some((at, (*seen)?)))
            .collect();
        for (_, seen) in &here {
            within("change", seen.change, f64::MIN, f64::MAX)?;
            within("uncertainty", seen.uncertainty, 0.0, f64::MAX)?;
        }
        let apart = here.iter().map(|(at, seen)| seen.change - self.mean[*at]);
        let apart = DVector::from_iterator(here.len(), apart);
        let matrix = DMatrix::from_fn(here.len(), here.len(), |row, column| {
            let (at, seen) = here[row];
            let own = if row == column {
                seen.uncertainty * seen.uncertainty
            } else {
                0.0
            };
            self.covariance[(at, here[column].0)] + own
        });
        let factor = Cholesky::<f64, Dyn>::new(matrix).ok_or(Error::Degenerate)?;
        let distance = apart.dot(&factor.solve(&apart));
        let size: f64 = factor.l_dirty().diagonal().iter().map(|one| one.ln()).sum();
        let density = -0.5 * distance - size - 0.5 * crate::real(here.len()) * LN_TAU;
        Ok([density, distance])
    }
}

/// `ln 2 pi`.
const LN_TAU: f64 = 1.837_877_066_409_345_5;
