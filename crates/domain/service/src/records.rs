//! What was seen of parts, its likelihood, and what it says alone.

use crate::Error;
use crate::error::{not_negative, positive, within};
use crate::search::root;

/// Shapes among which the likelihood's top is looked for.
const SHAPES: (f64, f64) = (0.05, 50.0);
/// Step in the logarithms by which the curvature at the top is told.
const STEP: f64 = 1e-3;

/// What was seen of one part; ages are running time since it was fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Record {
    /// It failed at this age.
    Failed(f64),
    /// Still good at this age: replaced unfailed, or still in.
    Good(f64),
    /// Good at the first age, 0 where it was never looked at, and found worn at the second.
    Between(f64, f64),
}

/// The shape and scale the records alone make likeliest.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `shape` | β | of the life | `1` |
/// | `scale` | η | of the life | unit of time |
/// | `log_likelihood` | l | at the top | `1` |
/// | `shape_error` | | standard error of ln β | `1` |
/// | `scale_error` | | standard error of ln η | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// Shape of the life.
    pub shape: f64,
    /// Scale of the life.
    pub scale: f64,
    /// Logarithm of the likelihood at the top.
    pub log_likelihood: f64,
    /// Standard error of the logarithm of the shape.
    pub shape_error: f64,
    /// Standard error of the logarithm of the scale.
    pub scale_error: f64,
}

impl Record {
    pub(crate) fn check(&self) -> Result<(), Error> {
        match *self {
            Self::Failed(age) => positive("age at failure", age).map(|_| ()),
            Self::Good(age) => positive("age it is still good at", age).map(|_| ()),
            Self::Between(good, worn) => {
                not_negative("age it was last good at", good)?;
                positive("age it was found worn at", worn)?;
                if worn > good {
                    Ok(())
                } else {
                    Err(Error::Backwards { good, worn })
                }
            }
        }
    }

    fn failed(&self) -> bool {
        !matches!(self, Self::Good(_))
    }

    fn last(&self) -> f64 {
        match *self {
            Self::Failed(age) | Self::Good(age) | Self::Between(_, age) => age,
        }
    }

    fn over(self, unit: f64) -> Self {
        match self {
            Self::Failed(age) => Self::Failed(age / unit),
            Self::Good(age) => Self::Good(age / unit),
            Self::Between(good, worn) => Self::Between(good / unit, worn / unit),
        }
    }

    /// `ln` of its chance, or density, at `ln t`-scaled hazard `e^(β ln t − α)`.
    fn log_chance(&self, shape: f64, level: f64) -> f64 {
        let spent = |age: f64| (shape * age.ln() - level).exp();
        match *self {
            Self::Failed(age) => shape.ln() + (shape - 1.0) * age.ln() - level - spent(age),
            Self::Good(age) => -spent(age),
            Self::Between(good, worn) => {
                let (first, last) = (spent(good), spent(worn));
                if first.is_infinite() {
                    return f64::NEG_INFINITY;
                }
                -first + (-(first - last).exp_m1()).ln()
            }
        }
    }

    /// Its slope in the level α, and in the shape β.
    fn slope(&self, shape: f64, level: f64) -> (f64, f64) {
        let spent = |age: f64| (shape * age.ln() - level).exp();
        match *self {
            Self::Failed(age) => {
                let slack = 1.0 - spent(age);
                (-slack, 1.0 / shape + age.ln() * slack)
            }
            Self::Good(age) => (spent(age), -spent(age) * age.ln()),
            Self::Between(good, worn) => {
                let (first, last) = (spent(good), spent(worn));
                let odds = 1.0 / (last - first).exp_m1();
                // Shares of the two ends in the slope; the product tends to nought as its exponential grows.
                let late = if odds > 0.0 { last * odds } else { 0.0 };
                let early = if first > 0.0 {
                    first * (1.0 + odds)
                } else {
                    0.0
                };
                let early_log = if first > 0.0 { early * good.ln() } else { 0.0 };
                (early - late, late * worn.ln() - early_log)
            }
        }
    }
}

/// Logarithm of the likelihood of records.
///
/// `l = sum_F ln f(t) + sum_C ln R(t) + sum_I ln[R(L) − R(U)]`, an interval being `(L, U]`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `records` | t, L, U | failed, still good, found worn | |
/// | `shape` | β | of the life | `1` |
/// | `scale` | η | of the life | unit of time |
/// | `returns` | l | natural logarithm | `1` |
///
/// Range: ages above 0, a last good age 0 or above; shape and scale above 0.
/// Source: `turnbull-1976`, for intervals; `weibull-1951`, for the life.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`], [`Error::Backwards`].
pub fn log_likelihood(records: &[Record], shape: f64, scale: f64) -> Result<f64, Error> {
    let shape = positive("shape of the life", shape)?;
    let scale = positive("scale of the life", scale)?;
    records.iter().try_for_each(Record::check)?;
    Ok(sum(records, shape, scale.ln()))
}

/// The sum over records that were checked.
pub(crate) fn sum(records: &[Record], shape: f64, log_scale: f64) -> f64 {
    let level = shape * log_scale;
    let each = records.iter();
    each.map(|record| record.log_chance(shape, level)).sum()
}

/// The shape and scale that records alone make likeliest.
///
/// In `α = β ln η` and β the likelihood has one top: for every β the slope in α is brought to nought, and
/// along that ridge the slope in β.
///
/// Range: records that were seen to fail at two ages or more, as intervals that hold no common age.
/// Source: `nist-handbook-reliability`; `burridge-1981`, for its having one top.
///
/// # Errors
/// Of the records as [`log_likelihood`]; [`Error::NoRecord`], [`Error::NoneFailed`], [`Error::NoTop`] where one
/// age fits all failures, or where the top lies outside shapes of 0.05 to 50.
pub fn fit(records: &[Record]) -> Result<Fit, Error> {
    records.iter().try_for_each(Record::check)?;
    if records.is_empty() {
        return Err(Error::NoRecord);
    }
    if !records.iter().any(Record::failed) {
        return Err(Error::NoneFailed);
    }
    // In shares of the greatest age no power runs out of range.
    let unit = records.iter().map(Record::last).fold(0.0, f64::max);
    let scaled: Vec<Record> = records.iter().map(|one| one.over(unit)).collect();
    let ridge = |shape: f64| level(&scaled, shape);
    let falling = |log_shape: f64| {
        let shape = log_shape.exp();
        -slopes(&scaled, shape, ridge(shape)).1
    };
    let (low, high) = (SHAPES.0.ln(), SHAPES.1.ln());
    if falling(low) >= 0.0 || falling(high) <= 0.0 {
        return Err(Error::NoTop);
    }
    let log_shape = root(falling, low, high);
    let shape = log_shape.exp();
    let log_scale = ridge(shape) / shape + unit.ln();
    let (shape_error, scale_error) = errors(records, log_shape, log_scale)?;
    Ok(Fit {
        shape,
        scale: log_scale.exp(),
        log_likelihood: sum(records, shape, log_scale),
        shape_error,
        scale_error,
    })
}

fn slopes(records: &[Record], shape: f64, level: f64) -> (f64, f64) {
    let each = records.iter().map(|record| record.slope(shape, level));
    each.fold((0.0, 0.0), |all, one| (all.0 + one.0, all.1 + one.1))
}

/// The level α at which its slope is nought; ages are at most one.
fn level(records: &[Record], shape: f64) -> f64 {
    let rising = |level: f64| -slopes(records, shape, level).0;
    let (mut low, mut high) = (-1.0, 1.0);
    while rising(low) > 0.0 && low > -1e6 {
        low *= 2.0;
    }
    while rising(high) < 0.0 && high < 1e6 {
        high *= 2.0;
    }
    root(rising, low, high)
}

/// Standard errors of ln β and ln η from the curvature at the top.
fn errors(records: &[Record], log_shape: f64, log_scale: f64) -> Result<(f64, f64), Error> {
    let at = |i: f64, j: f64| sum(records, (log_shape + i * STEP).exp(), log_scale + j * STEP);
    let top = at(0.0, 0.0);
    let square = STEP * STEP;
    let shape = (2.0 * top - at(1.0, 0.0) - at(-1.0, 0.0)) / square;
    let scale = (2.0 * top - at(0.0, 1.0) - at(0.0, -1.0)) / square;
    let both = (at(1.0, -1.0) + at(-1.0, 1.0) - at(1.0, 1.0) - at(-1.0, -1.0)) / (4.0 * square);
    let det = shape * scale - both * both;
    if det > 0.0 && shape > 0.0 {
        Ok(((scale / det).sqrt(), (shape / det).sqrt()))
    } else {
        Err(Error::NoTop)
    }
}

/// What parts that are all still good say of the scale, the shape being known.
///
/// `η_L = (sum t^β / −ln(1 − γ))^(1/β)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `good` | t | ages they are still good at | unit of time |
/// | `shape` | β | of the life | `1` |
/// | `confidence` | γ | that the scale is not below | `1` |
/// | `returns` | `η_L` | least scale | unit of time |
///
/// Range: one age or more, above 0; shape 0.05 to 50; confidence 0.01 to 0.9999.
/// Source: `abernethy-2006`.
///
/// # Errors
/// [`Error::NoRecord`], [`Error::NotPositive`], [`Error::Outside`].
pub fn at_least(good: &[f64], shape: f64, confidence: f64) -> Result<f64, Error> {
    let shape = within("shape of the life", shape, SHAPES.0, SHAPES.1)?;
    let confidence = within("confidence", confidence, 0.01, 0.9999)?;
    if good.is_empty() {
        return Err(Error::NoRecord);
    }
    let mut greatest: f64 = 0.0;
    for &age in good {
        greatest = greatest.max(positive("age it is still good at", age)?);
    }
    let sum: f64 = good.iter().map(|age| (age / greatest).powf(shape)).sum();
    Ok(greatest * (sum / -(-confidence).ln_1p()).powf(1.0 / shape))
}
