//! The two ways of judging wrongly by a reading: taking in a bad part, turning away a good one.

use statrs::distribution::{Continuous, ContinuousCDF, Gamma, Normal};

use crate::Error;
use crate::error::{finite, positive, probability, within};
use crate::normal::{ln_normal_cdf, upper_tail};

/// What is known of a kind of part before one of them is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Prior {
    /// Scattered evenly to both sides.
    Normal {
        /// Mean, in `m`.
        mean: f64,
        /// Standard deviation, in `m`.
        sd: f64,
    },
    /// Never below zero, with a long tail above: wear, runout, a lack of form.
    Gamma {
        /// Mean, in `m`.
        mean: f64,
        /// Standard deviation, in `m`.
        sd: f64,
    },
}

/// How parts are judged against a greatest limit.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `limit` | greatest true value allowed | `m` |
/// | `accept` | greatest reading accepted | `m` |
/// | `uncertainty` | standard uncertainty of a reading | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inspection {
    /// Greatest true value allowed.
    pub limit: f64,
    /// Greatest reading accepted.
    pub accept: f64,
    /// Standard uncertainty of a reading.
    pub uncertainty: f64,
}

/// Shares of all parts of the kind.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `nonconforming` | above the limit, whether measured or not | `1` |
/// | `consumer` | above the limit and accepted | `1` |
/// | `producer` | within the limit and turned away | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Risks {
    /// Above the limit, whether measured or not.
    pub nonconforming: f64,
    /// Above the limit and accepted.
    pub consumer: f64,
    /// Within the limit and turned away.
    pub producer: f64,
}

/// The risks of judging parts by a reading.
///
/// `R_C = integral over x > T of g(x) Phi((A - x) / u)`,
/// `R_P = integral over x <= T of g(x) (1 - Phi((A - x) / u))`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `prior` | g | law of the parts | `m` |
/// | `how` | T, A, u | limit, greatest reading accepted, uncertainty | `m` |
///
/// Range: `u > 0`, spread of the parts above zero; the mean of a gamma law from 1 to 100 times its
/// spread.
/// Source: `jcgm-106`, clause 9.5.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn risks(prior: Prior, how: Inspection) -> Result<Risks, Error> {
    positive("the standard uncertainty of a reading", how.uncertainty)?;
    finite("the limit", how.limit)?;
    finite("the greatest reading accepted", how.accept)?;
    match prior {
        Prior::Normal { mean, sd } => {
            finite("the mean of the parts", mean)?;
            positive("the spread of the parts", sd)?;
            Normal::new(mean, sd).map_or_else(
                |_| Err(unfit(sd)),
                |law| {
                    // The library's own shares of a normal law are off by 1.4e-11.
                    let below = |x: f64| upper_tail((mean - x) / sd);
                    let above = |x: f64| upper_tail((x - mean) / sd);
                    Ok(over(&law, (&below, &above), how))
                },
            )
        }
        Prior::Gamma { mean, sd } => {
            positive("the mean of the parts", mean)?;
            positive("the spread of the parts", sd)?;
            let ratio = mean / sd;
            within("the mean over the spread of the parts", ratio, 1.0, 100.0)?;
            Gamma::new(ratio * ratio, mean / (sd * sd)).map_or_else(
                |_| Err(unfit(sd)),
                |law| Ok(over(&law, (&|x| law.cdf(x), &|x| law.sf(x)), how)),
            )
        }
    }
}

fn unfit(sd: f64) -> Error {
    Error::NotPositive {
        what: "the spread of the parts",
        value: sd,
    }
}

/// Uncertainties beyond which a reading says nothing to 1e-18.
const FAR: f64 = 9.0;
/// Share of the parts left out at either end of their law.
const TAIL: f64 = 1e-13;

/// A share of the parts beside a value.
type Share<'a> = &'a dyn Fn(f64) -> f64;

/// The risks of a law with its shares below and above a value.
fn over(
    law: &(impl Continuous<f64, f64> + ContinuousCDF<f64, f64>),
    (below, above): (Share<'_>, Share<'_>),
    how: Inspection,
) -> Risks {
    let Inspection {
        limit,
        accept,
        uncertainty,
    } = how;
    let (least, most) = (law.inverse_cdf(TAIL), law.inverse_cdf(1.0 - TAIL));
    let (sure, hopeless) = (accept - FAR * uncertainty, accept + FAR * uncertainty);
    // Where every reading is accepted, or none, the law's own shares are exact.
    let (from, to) = (limit.max(sure).max(least), hopeless.min(most));
    // The density itself overflows where the gamma law is narrow; its logarithm does not.
    let density = |x| law.ln_pdf(x).exp();
    let bad = simpson(from, to, |x| {
        density(x) * ln_normal_cdf((accept - x) / uncertainty).exp()
    });
    let surely = (below(sure) - below(limit)).max(0.0);
    let (from, to) = (sure.max(least), limit.min(hopeless).min(most));
    let good = simpson(from, to, |x| {
        density(x) * upper_tail((accept - x) / uncertainty)
    });
    let never = (below(limit) - below(hopeless)).max(0.0);
    Risks {
        nonconforming: above(limit),
        consumer: bad + surely,
        producer: good + never,
    }
}

/// Simpson's rule on 2000 steps of a smooth function; zero for an empty range.
fn simpson(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    const STEPS: u32 = 2000;
    if low >= high {
        return 0.0;
    }
    let step = (high - low) / f64::from(STEPS);
    let inner: f64 = (1..STEPS)
        .map(|i| f64::from(2 + 2 * (i % 2)) * f(low + f64::from(i) * step))
        .sum();
    step / 3.0 * (f(low) + inner + f(high))
}

/// The greatest reading to accept, so that no more than a share of all parts is taken in wrongly.
///
/// `R_C(A) = target`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `prior` | g | law of the parts | `m` |
/// | `limit` | T | greatest true value allowed | `m` |
/// | `uncertainty` | u | standard uncertainty of a reading | `m` |
/// | `target` | | consumer's risk aimed at | `1` |
/// | returns | A | greatest reading to accept; `T - A` is the guard band | `m` |
///
/// Range: as [`risks`]; a target below the share of bad parts, or every reading may be accepted.
/// Source: `jcgm-106`, clause 9.5.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn acceptance(prior: Prior, limit: f64, uncertainty: f64, target: f64) -> Result<f64, Error> {
    let target = probability("the consumer's risk aimed at", target)?;
    let at = |accept| {
        let how = Inspection {
            limit,
            accept,
            uncertainty,
        };
        risks(prior, how)
    };
    let all = at(limit)?.nonconforming;
    if target >= all {
        return Err(Error::Outside {
            what: "the consumer's risk aimed at",
            value: target,
            low: 0.0,
            high: all,
        });
    }
    let (mut low, mut high) = (limit - uncertainty, limit + uncertainty);
    let mut wide = uncertainty;
    while at(low)?.consumer > target {
        low -= wide;
        wide *= 2.0;
    }
    while at(high)?.consumer < target {
        high += wide;
        wide *= 2.0;
    }
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if at(middle)?.consumer > target {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(low)
}
