//! Strikes whose rate is learnt: a Poisson process with a gamma law of its rate.

use crate::Error;
use crate::error::{not_negative, positive, within};
use crate::search::gamma_quantile;

/// What is thought of the rate of strikes: `λ ~ Gamma(a, b)`.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `count` | a | strikes it stands for | `1` |
/// | `time` | b | running time it stands for | unit of time |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strikes {
    count: f64,
    time: f64,
}

impl Strikes {
    /// A guess that weighs as much as one strike seen.
    ///
    /// `a = 1`, `b = t`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `hours` | t | running time to one strike, on the whole | unit of time |
    ///
    /// Range: time above 0.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn guess(hours: f64) -> Result<Self, Error> {
        Ok(Self {
            count: 1.0,
            time: positive("running time to one strike", hours)?,
        })
    }

    /// With what was seen in more running time.
    ///
    /// `a + n`, `b + t`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `strikes` | n | seen, whether they ruined anything or not | `1` |
    /// | `hours` | t | running time they were seen in | unit of time |
    ///
    /// Range: time 0 or above where there was none, above 0 where there was one.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Negative`], [`Error::NotPositive`].
    pub fn seen(self, strikes: u32, hours: f64) -> Result<Self, Error> {
        let hours = if strikes > 0 {
            positive("running time with strikes", hours)?
        } else {
            not_negative("running time without strikes", hours)?
        };
        Ok(Self {
            count: self.count + f64::from(strikes),
            time: self.time + hours,
        })
    }

    /// Mean rate.
    ///
    /// `a / b`
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `returns` | strikes | unit of one over time |
    ///
    /// Range: any.
    /// Source: `gelman-2013`.
    pub fn mean(&self) -> f64 {
        self.count / self.time
    }

    /// The rate that the true one stays below with some chance.
    ///
    /// `P(a, b λ) = q`, P the incomplete gamma function
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `share` | q | chance | `1` |
    /// | `returns` | λ | strikes | unit of one over time |
    ///
    /// Range: chance 0.001 to 0.999.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn quantile(&self, share: f64) -> Result<f64, Error> {
        let share = within("chance to stay below", share, 0.001, 0.999)?;
        Ok(gamma_quantile(self.count, share) / self.time)
    }

    /// Chance that no strike ruins the part, the rate being what it may.
    ///
    /// `[b / (b + p s)]^a`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `chance` | p | that a strike ruins the part | `1` |
    /// | `hours` | s | to run | unit of time |
    /// | `returns` | | chance | `1` |
    ///
    /// Range: chance 0 to 1; time 0 or above. No less than where the mean rate were the true one.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::Negative`].
    pub fn survival(&self, chance: f64, hours: f64) -> Result<f64, Error> {
        let chance = within("chance that a strike ruins the part", chance, 0.0, 1.0)?;
        let hours = not_negative("time to run", hours)?;
        Ok((-self.count * (chance * hours / self.time).ln_1p()).exp())
    }
}
