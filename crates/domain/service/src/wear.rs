//! Clearance that grows to a limit: a gamma process, which never shrinks.
//!
//! A straight line with scatter through readings is the matter of the clearance crate; this is what a
//! growth known to be uneven says of the time left. Growth that was read as nought or less is scatter of
//! the reading, not of the process, and is refused.

use statrs::function::gamma::{digamma, gamma_ur, ln_gamma};

use crate::Error;
use crate::error::{not_negative, positive, within};
use crate::search::root;

/// Least and greatest mean number of steps in all the time seen, among which a fit is looked for.
const STEPS: (f64, f64) = (1e-3, 1e8);

/// Growth of wear: over a time `t` it has a gamma law of shape `α t` and rate `ρ`.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `shape` | α | growth of the shape | unit of one over time |
/// | `rate` | ρ | of the law | unit of one over length |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// Growth of the shape.
    pub shape: f64,
    /// Rate of the law.
    pub rate: f64,
}

impl Growth {
    /// A growth that is known.
    ///
    /// `X(t) ~ Gamma(α t, ρ)`, mean growth `α / ρ`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `shape` | α | growth of the shape | unit of one over time |
    /// | `rate` | ρ | of the law | unit of one over length |
    ///
    /// Range: both above 0.
    /// Source: `noortwijk-2009`.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn new(shape: f64, rate: f64) -> Result<Self, Error> {
        Ok(Self {
            shape: positive("growth of the shape", shape)?,
            rate: positive("rate of the law of wear", rate)?,
        })
    }

    /// The growth that what was seen makes likeliest.
    ///
    /// `α / ρ = sum x / sum t`, and the slope in α of the likelihood is nought:
    /// `sum t (ln ρ − ψ(α t) + ln x) = 0`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `seen` | t, x | time between two readings, and the growth in it | unit of time and of length |
    ///
    /// Range: two or more, all above 0, not all in the same proportion.
    /// Source: `noortwijk-2009`.
    ///
    /// # Errors
    /// [`Error::NoRecord`], [`Error::NotPositive`]; [`Error::NoTop`] where the growth is as even as a line.
    pub fn fit(seen: &[(f64, f64)]) -> Result<Self, Error> {
        if seen.is_empty() {
            return Err(Error::NoRecord);
        }
        for &(time, wear) in seen {
            positive("time between readings", time)?;
            positive("growth between readings", wear)?;
        }
        let time: f64 = seen.iter().map(|one| one.0).sum();
        let wear: f64 = seen.iter().map(|one| one.1).sum();
        // In shares of all the time and all the wear, the shape and the rate are one number.
        let falling = |log_steps: f64| {
            let steps = log_steps.exp();
            let each = seen.iter().map(|(t, x)| {
                let (t, x) = (t / time, x / wear);
                t * (log_steps - digamma(steps * t) + x.ln())
            });
            -each.sum::<f64>()
        };
        let (low, high) = (STEPS.0.ln(), STEPS.1.ln());
        if falling(low) >= 0.0 || falling(high) <= 0.0 {
            return Err(Error::NoTop);
        }
        let steps = root(falling, low, high).exp();
        Self::new(steps / time, steps / wear)
    }

    /// Logarithm of the likelihood of what was seen.
    ///
    /// `sum α t ln ρ − ln Γ(α t) + (α t − 1) ln x − ρ x`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `seen` | t, x | time between two readings, and the growth in it | unit of time and of length |
    /// | `returns` | | natural logarithm | `1` |
    ///
    /// Range: all above 0.
    /// Source: `noortwijk-2009`.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn log_likelihood(&self, seen: &[(f64, f64)]) -> Result<f64, Error> {
        let mut sum = 0.0;
        for &(time, wear) in seen {
            let shape = self.shape * positive("time between readings", time)?;
            let wear = positive("growth between readings", wear)?;
            sum += shape * self.rate.ln() - ln_gamma(shape) + (shape - 1.0) * wear.ln()
                - self.rate * wear;
        }
        Ok(sum)
    }

    /// Chance that wear stays within what is left of it.
    ///
    /// `P(X(t) < D) = P(α t, ρ D)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `margin` | D | limit less the clearance now | unit of length |
    /// | `time` | t | to run | unit of time |
    /// | `returns` | | chance | `1` |
    ///
    /// Range: margin above 0, time 0 or above.
    /// Source: `noortwijk-2009`.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Negative`].
    pub fn stays(&self, margin: f64, time: f64) -> Result<f64, Error> {
        let margin = positive("margin to the limit", margin)?;
        let time = not_negative("time to run", time)?;
        Ok(self.within(margin, time))
    }

    fn within(self, margin: f64, time: f64) -> f64 {
        if time > 0.0 {
            1.0 - gamma_ur(self.shape * time, self.rate * margin)
        } else {
            1.0
        }
    }

    /// The time after which wear is over the limit with a stated chance.
    ///
    /// `P(α t, ρ D) = 1 − q`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `margin` | D | limit less the clearance now | unit of length |
    /// | `risk` | q | chance to be over the limit | `1` |
    /// | `returns` | t | to run until then | unit of time |
    ///
    /// Range: margin above 0; risk 0.0001 to 0.9999.
    /// Source: `noortwijk-2009`.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Outside`].
    pub fn until(&self, margin: f64, risk: f64) -> Result<f64, Error> {
        let margin = positive("margin to the limit", margin)?;
        let risk = within("chance to be over the limit", risk, 0.0001, 0.9999)?;
        let over = |time: f64| 1.0 - risk - self.within(margin, time);
        let mut high = (self.rate * margin + 1.0) / self.shape;
        while over(high) < 0.0 {
            high *= 2.0;
        }
        Ok(root(over, 0.0, high))
    }
}
