//! What each fault would change of what is seen on the water, and how well the model knows it.

use nalgebra::{Cholesky, DMatrix, DVector, Dyn};

use crate::Error;
use crate::error::{as_long, within};
use crate::fault::{Fault, SEVERITIES};

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
    /// Engine speed as the craft passes this speed at full throttle, `rad/s`.
    Passing(f64),
    /// Mean radial gap, `m`.
    Gap,
}

/// How a quantity is seen to scatter from day to day, for one that is as large as that: shares of speeds, and of times by
/// their logarithm. Tuned, like what follows, on the first half of `docs/studies/faults.md`; no other source.
const SPEED: f64 = 0.0086;
const ENGINE: f64 = 0.0064;
const TIME: f64 = 0.05;
const LAUNCH: f64 = 0.010;
const PASSING: f64 = 0.0085;
/// A gap's own, `m`: assumed, no source.
const GAP: f64 = 3e-5;
/// A share of the effect on the quantity itself.
const SHARE: f64 = 0.15;
/// A share of the fault's whole effect: its direction is no better known.
const DIRECTION: f64 = 0.06;

impl Observable {
    /// By how much it scatters from day to day: a standard deviation.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `size` | how large it is; of no use for times, which are told by their logarithm, and for the gap | `1` |
    /// | `returns` | in the quantity's own unit | `1` |
    ///
    /// Range: any.
    /// Source: common practice, no source.
    pub fn base(self, size: f64) -> f64 {
        match self {
            Self::TopSpeed => SPEED * size,
            Self::TopEngine => ENGINE * size,
            Self::Start(_) => TIME,
            Self::LaunchEngine => LAUNCH * size,
            Self::Passing(_) => PASSING * size,
            Self::Gap => GAP,
        }
    }

    /// What an engine one standard deviation stronger and a craft one heavier than that day change of it.
    fn day(self, size: f64) -> [f64; 2] {
        let along =
            |to: f64, [thirty, fifty]: [f64; 2]| thirty + towards_fifty(to) * (fifty - thirty);
        match self {
            Self::TopSpeed => [0.005 * size, -0.0008 * size],
            Self::TopEngine | Self::Passing(_) => [0.004 * size, 0.0],
            Self::Start(to) => [along(to, [-0.006, -0.019]), along(to, [0.023, 0.030])],
            Self::LaunchEngine => [0.003 * size, 0.0],
            Self::Gap => [0.0; 2],
        }
    }

    /// What is left of it that goes with nothing else.
    fn alone(self) -> f64 {
        match self {
            Self::Start(_) => 0.014,
            Self::Gap => GAP,
            _ => 0.0,
        }
    }
}

/// 30 and 50 miles an hour.
pub(crate) const THIRTY: f64 = 13.4112;
pub(crate) const FIFTY: f64 = 22.352;

/// How far a speed lies from 30 towards 50 mph, the two that times were looked at to: none beyond.
pub(crate) fn towards_fifty(to: f64) -> f64 {
    ((to - THIRTY) / (FIFTY - THIRTY)).clamp(0.0, 1.0)
}

/// Covariance of the difference between two days on the water, whatever is wrong.
///
/// `D_qr = 2 (e_q e_r + m_q m_r) + a_q² + u_q²`, the last two where `q = r`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `quantities` | which each is of, with how large it is | unit of the quantity |
/// | `unknown` | `u`: what more is not known of each, a standard deviation | unit of the quantity |
/// | `returns` | `D`; `e` is what a stronger engine changes, `m` what more load does, `a` what goes with nothing else | unit of the product |
///
/// Range: as many unknowns as quantities.
/// Source: common practice, no source; tuned as said above.
pub fn days(quantities: &[(Observable, f64)], unknown: &[f64]) -> DMatrix<f64> {
    let count = quantities.len();
    let each = quantities.iter().map(|(of, size)| of.day(*size));
    let each: Vec<[f64; 2]> = each.collect();
    DMatrix::from_fn(count, count, |row, column| {
        let [[e, m], [f, n]] = [each[row], each[column]];
        let alone = if row == column {
            quantities[row].0.alone().hypot(unknown[row]).powi(2)
        } else {
            0.0
        };
        2.0 * (e * f + m * n) + alone
    })
}

/// Standard deviations of the model's own errors of a fault's effects.
///
/// `s_q² = (0.15 e_q)² + (0.06 b_q N)²`, `N² = sum_q (e_q/b_q)²` over what the water shows
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `quantities` | which each effect is of, with how large it is; `b` by how much that scatters from day to day | unit of the quantity |
/// | `effects` | `e`, each in its quantity's own unit | `1` |
/// | `returns` | `s_q`, each in its quantity's own unit | `1` |
///
/// Range: any.
/// Source: common practice, no source.
pub fn off(quantities: &[(Observable, f64)], effects: &[f64]) -> Vec<f64> {
    let each = || quantities.iter().zip(effects);
    let water = each().filter(|((of, _), _)| *of != Observable::Gap);
    let whole = water.map(|((of, size), effect)| (effect / of.base(*size)).powi(2));
    let whole = whole.sum::<f64>().sqrt();
    each()
        .map(|((of, size), effect)| {
            let direction = match of {
                Observable::Gap => 0.0,
                _ => DIRECTION * of.base(*size) * whole,
            };
            (SHARE * effect).hypot(direction)
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
    /// Its share among the signatures of the same fault.
    pub share: f64,
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
    /// | `returns` | the signature; its share is that of one of five sizes |  |
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
        let share = if fault.has_severity() {
            1.0 / crate::real(SEVERITIES.len())
        } else {
            1.0
        };
        Ok(Self::of_law((fault, severity), share, (mean, covariance)))
    }

    /// By its law.
    pub(crate) fn of_law(
        (fault, severity): (Fault, f64),
        share: f64,
        (mean, covariance): (DVector<f64>, DMatrix<f64>),
    ) -> Self {
        Self {
            fault,
            severity,
            share,
            mean,
            covariance,
        }
    }

    /// The same with so much more that nobody knows of the quantities.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `covariance` | of every pair of quantities | unit of the product |
    /// | `returns` | the signature, its covariance the sum |  |
    ///
    /// Range: as many quantities as the signature tells of.
    /// Source: definition.
    ///
    /// # Errors
    /// Another number of quantities.
    pub fn blurred(mut self, covariance: &DMatrix<f64>) -> Result<Self, Error> {
        as_long("quantities blurred", covariance.nrows(), self.quantities())?;
        self.covariance += covariance;
        Ok(self)
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
