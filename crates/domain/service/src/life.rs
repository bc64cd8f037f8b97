//! How long a part lasts that wears out and may be ruined by a strike.

use statrs::function::gamma::{gamma, gamma_lr};

use crate::Error;
use crate::error::{not_negative, positive, within};
use crate::search::{integral, root};

/// Least and greatest shape accepted; beyond, every part of a kind would fail at one age, or at none.
const SHAPES: (f64, f64) = (0.05, 50.0);
/// Sum of the hazard at which nothing is left: `e^−40` is lost beside one.
const SPENT: f64 = 40.0;

/// The life of a part: wear and strikes as risks that compete.
///
/// `R(t) = exp(−(t/η)^β − λ p t)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `shape` | β | above one it wears out, at one it fails by chance | `1` |
/// | `scale` | η | age by which 63 of 100 are worn out | unit of time |
/// | `ruin` | λ p | strikes that ruin it | unit of one over time |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Life {
    shape: f64,
    scale: f64,
    ruin: f64,
}

/// How parts have ended by an age.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `good` | share still good | `1` |
/// | `struck` | share a strike has ruined | `1` |
/// | `worn` | share worn out | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends {
    /// Share still good.
    pub good: f64,
    /// Share a strike has ruined.
    pub struck: f64,
    /// Share worn out.
    pub worn: f64,
}

impl Life {
    /// A part that only wears.
    ///
    /// `R(t) = exp(−(t/η)^β)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `shape` | β | above one it wears out | `1` |
    /// | `scale` | η | age by which 63 of 100 are worn out | unit of time |
    ///
    /// Range: shape 0.05 to 50; scale above 0.
    /// Source: `weibull-1951`.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotPositive`].
    pub fn new(shape: f64, scale: f64) -> Result<Self, Error> {
        Ok(Self {
            shape: within("shape of the life", shape, SHAPES.0, SHAPES.1)?,
            scale: positive("scale of the life", scale)?,
            ruin: 0.0,
        })
    }

    /// The same part where strikes may ruin it, whatever its age.
    ///
    /// `R(t) = exp(−(t/η)^β) exp(−λ p t)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `rate` | λ | strikes | unit of one over time |
    /// | `chance` | p | that one ruins the part | `1` |
    ///
    /// Range: rate 0 or above; chance 0 to 1.
    /// Source: `barlow-proschan-1965`, for risks that compete.
    ///
    /// # Errors
    /// [`Error::Negative`], [`Error::Outside`].
    pub fn struck(self, rate: f64, chance: f64) -> Result<Self, Error> {
        let rate = not_negative("rate of strikes", rate)?;
        let chance = within("chance that a strike ruins the part", chance, 0.0, 1.0)?;
        Ok(Self {
            ruin: rate * chance,
            ..self
        })
    }

    /// Rate of strikes that ruin the part.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | λ p | strikes that ruin it | unit of one over time |
    ///
    /// Range: any life.
    /// Source: definition.
    pub fn ruin(&self) -> f64 {
        self.ruin
    }

    /// A life of another wear, struck as this one is.
    pub(crate) fn worn_as(&self, shape: f64, scale: f64) -> Result<Self, Error> {
        let ruin = self.ruin;
        Ok(Self {
            ruin,
            ..Self::new(shape, scale)?
        })
    }

    /// The shape β.
    pub(crate) fn shape(&self) -> f64 {
        self.shape
    }

    /// One over a time that no life lasts much longer than.
    pub(crate) fn pace(&self) -> f64 {
        1.0 / self.scale + self.ruin
    }

    /// One over the width within which survival bends; a steep life is the smoother on either side of it.
    pub(crate) fn bend(&self) -> f64 {
        self.shape.max(1.0).powf(0.75) / self.scale + self.ruin
    }

    /// Sum of the hazard up to an age that was checked.
    pub(crate) fn spent(&self, age: f64) -> f64 {
        (age / self.scale).powf(self.shape) + self.ruin * age
    }

    /// Share left at an age that was checked.
    pub(crate) fn left(&self, age: f64) -> f64 {
        (-self.spent(age)).exp()
    }

    /// Hazard at an age above zero that was checked.
    pub(crate) fn force(&self, age: f64) -> f64 {
        self.shape / self.scale * (age / self.scale).powf(self.shape - 1.0) + self.ruin
    }

    /// The age at which nothing is left.
    pub(crate) fn end(&self) -> f64 {
        self.reach(SPENT)
    }

    /// An age at which nothing is left, strikes not looked at: quick, and no less than [`Self::end`].
    pub(crate) fn bound(&self) -> f64 {
        self.scale * SPENT.powf(1.0 / self.shape)
    }

    /// The age at which the hazard has summed up to that much.
    fn reach(&self, sum: f64) -> f64 {
        let worn = self.scale * sum.powf(1.0 / self.shape);
        if self.ruin > 0.0 {
            root(|age| self.spent(age) - sum, 0.0, worn)
        } else {
            worn
        }
    }

    /// `∫ R` from 0 to an age that was checked.
    pub(crate) fn run(&self, age: f64) -> f64 {
        if self.ruin > 0.0 {
            integral(|t| self.left(t), age.min(self.end()))
        } else {
            let order = 1.0 / self.shape;
            let spent = (age / self.scale).powf(self.shape).min(SPENT);
            self.scale * gamma(1.0 + order) * gamma_lr(order, spent)
        }
    }

    /// `∫ t R` from 0 to an age that was checked.
    pub(crate) fn moment(&self, age: f64) -> f64 {
        integral(|t| t * self.left(t), age.min(self.end()))
    }

    /// Chance that a new part gets to an age.
    ///
    /// `R(t) = exp(−(t/η)^β − λ p t)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `age` | t | running time since it was fitted | unit of time |
    /// | `returns` | R | chance | `1` |
    ///
    /// Range: age 0 or above.
    /// Source: `weibull-1951`.
    ///
    /// # Errors
    /// [`Error::Negative`].
    pub fn survival(&self, age: f64) -> Result<f64, Error> {
        Ok(self.left(not_negative("age", age)?))
    }

    /// Chance that a part of some age gets through more.
    ///
    /// `R(a + s) / R(a)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `age` | a | it has run | unit of time |
    /// | `more` | s | it is to run, such as a season | unit of time |
    /// | `returns` | | chance | `1` |
    ///
    /// Range: both 0 or above.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::Negative`].
    pub fn through(&self, age: f64, more: f64) -> Result<f64, Error> {
        let age = not_negative("age", age)?;
        let more = not_negative("time to run", more)?;
        Ok((self.spent(age) - self.spent(age + more)).exp())
    }

    /// Rate at which parts of an age fail.
    ///
    /// `h(t) = (β/η) (t/η)^(β−1) + λ p`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `age` | t | it has run | unit of time |
    /// | `returns` | h | failures | unit of one over time |
    ///
    /// Range: age above 0; at 0 it may be without bound.
    /// Source: `weibull-1951`.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn hazard(&self, age: f64) -> Result<f64, Error> {
        Ok(self.force(positive("age", age)?))
    }

    /// Mean life.
    ///
    /// `∫ R dt`, which is `η Γ(1 + 1/β)` without strikes
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `returns` | mean | unit of time |
    ///
    /// Range: any life.
    /// Source: `weibull-1951`; with strikes by the rule of `takahasi-mori-1974`.
    pub fn mean(&self) -> f64 {
        self.run(f64::MAX)
    }

    /// The age by which a share has failed.
    ///
    /// `F(t) = q`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `share` | q | failed | `1` |
    /// | `returns` | t | age | unit of time |
    ///
    /// Range: share 0 to 0.999999.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn quantile(&self, share: f64) -> Result<f64, Error> {
        let share = within("share that failed", share, 0.0, 0.999_999)?;
        Ok(self.reach(-(-share).ln_1p()))
    }

    /// How parts have ended by an age.
    ///
    /// `F_strike(T) = λ p ∫ R`, `F_wear(T) = 1 − R(T) − F_strike(T)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `age` | T | running time since they were fitted | unit of time |
    ///
    /// Range: age 0 or above.
    /// Source: `barlow-proschan-1965`.
    ///
    /// # Errors
    /// [`Error::Negative`].
    pub fn ends(&self, age: f64) -> Result<Ends, Error> {
        let good = self.survival(age)?;
        let struck = self.ruin * self.run(age);
        Ok(Ends {
            good,
            struck,
            worn: 1.0 - good - struck,
        })
    }
}
