//! Is the gap within its limits, and how sure.

use statrs::function::erf::erfc_inv;

use crate::error::{not_negative, positive};
use crate::normal::ln_normal_cdf;
use crate::{Cell, Error, Posterior};

/// What the manual or the shop asks of the gap. Radial and diametral figures never mix.
#[derive(Clone, Debug, PartialEq)]
pub enum Limits {
    /// Limits of the radial gap at every spot.
    Radial {
        /// Least radial gap allowed, in `m`.
        least: Option<f64>,
        /// Greatest radial gap allowed, in `m`.
        greatest: Option<f64>,
    },
    /// Limits of the sum of the gaps at opposite spots.
    Diametral {
        /// Least diametral gap allowed, in `m`.
        least: Option<f64>,
        /// Greatest diametral gap allowed, in `m`.
        greatest: Option<f64>,
        /// The pairs of opposite spots, counted from zero.
        opposite: Vec<(usize, usize)>,
    },
}

/// Probabilities that the ring keeps its limits.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `too_tight` | some spot or pair is below the least | `1` |
/// | `too_wide` | some spot or pair is above the greatest | `1` |
/// | `within` | all spots or pairs are within both | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conformity {
    /// Some spot or pair is below the least.
    pub too_tight: f64,
    /// Some spot or pair is above the greatest.
    pub too_wide: f64,
    /// All spots or pairs are within both.
    pub within: f64,
}

/// Probability that every spot, or every opposite pair, keeps the limits.
///
/// `p = share of draws in which least <= g_i <= greatest for all i`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `posterior` | g | draws of the radial gaps | `m` |
/// | `limits` | | what is asked | `m` |
/// | returns | p | probabilities | `1` |
///
/// Range: limits of zero or more, the least not above the greatest, at least one given.
/// Source: `jcgm-106`, clause 7, on draws after `jcgm-101`.
///
/// # Errors
/// [`Error::NoLimit`], [`Error::LimitsCross`], [`Error::Negative`]; for diametral limits also
/// [`Error::NoSuchSpot`] and [`Error::Empty`].
pub fn conformity(posterior: &Posterior, limits: &Limits) -> Result<Conformity, Error> {
    match limits {
        Limits::Radial { least, greatest } => {
            let band = Band {
                least: *least,
                greatest: *greatest,
            }
            .checked()?;
            Ok(share(posterior, band, |gaps, ok| {
                gaps.iter().all(|&g| ok(g))
            }))
        }
        Limits::Diametral {
            least,
            greatest,
            opposite,
        } => {
            let band = Band {
                least: *least,
                greatest: *greatest,
            }
            .checked()?;
            check_pairs(opposite, posterior.spots())?;
            Ok(share(posterior, band, |gaps, ok| {
                opposite.iter().all(|&(i, j)| ok(gaps[i] + gaps[j]))
            }))
        }
    }
}

fn check_pairs(opposite: &[(usize, usize)], spots: usize) -> Result<(), Error> {
    if opposite.is_empty() {
        return Err(Error::Empty {
            what: "pair of opposite spots",
        });
    }
    match opposite
        .iter()
        .flat_map(|&(i, j)| [i, j])
        .find(|&spot| spot >= spots)
    {
        Some(spot) => Err(Error::NoSuchSpot { spot, spots }),
        None => Ok(()),
    }
}

/// The three shares of draws; `all` says whether a check holds everywhere in one draw.
fn share(
    posterior: &Posterior,
    band: Band,
    all: impl Fn(&[f64], &dyn Fn(f64) -> bool) -> bool,
) -> Conformity {
    let probability = |ok: &dyn Fn(f64) -> bool| posterior.probability(|gaps| all(gaps, ok));
    Conformity {
        too_tight: 1.0 - probability(&|g| !band.short(g)),
        too_wide: 1.0 - probability(&|g| !band.over(g)),
        within: probability(&|g| !band.short(g) && !band.over(g)),
    }
}

/// What may be said of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Shown to conform.
    In,
    /// Shown not to conform.
    Out,
    /// Neither is shown; a finer reading would decide.
    Undecided,
}

/// The verdict at a required probability: the uncertainty counts against whoever makes the claim.
///
/// `in: p >= required`, `out: p <= 1 - required`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `probability_within` | p | probability of conformity | `1` |
/// | `required` | | probability asked for either claim, usually 0.95 | `1` |
///
/// Range: `0.5 < required < 1`; a probability that is not a number is undecided.
/// Source: `iso-14253-1` for the three verdicts, `jcgm-106` for the probability.
pub fn verdict(probability_within: f64, required: f64) -> Verdict {
    if probability_within >= required {
        Verdict::In
    } else if probability_within <= 1.0 - required {
        Verdict::Out
    } else {
        Verdict::Undecided
    }
}

/// A tolerance interval, closed or open on either side.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `least` | least value allowed | `m` |
/// | `greatest` | greatest value allowed | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Least value allowed.
    pub least: Option<f64>,
    /// Greatest value allowed.
    pub greatest: Option<f64>,
}

impl Band {
    /// Refuses limits no gap can have.
    fn checked(self) -> Result<Self, Error> {
        if let Some(least) = self.least {
            not_negative("the least limit", least)?;
        }
        if let Some(greatest) = self.greatest {
            not_negative("the greatest limit", greatest)?;
        }
        match (self.least, self.greatest) {
            (None, None) => Err(Error::NoLimit),
            (Some(least), Some(greatest)) if least > greatest => {
                Err(Error::LimitsCross { least, greatest })
            }
            _ => Ok(self),
        }
    }

    /// The value lies below the least.
    fn short(&self, value: f64) -> bool {
        self.least.is_some_and(|least| value < least)
    }

    /// The value lies above the greatest.
    fn over(&self, value: f64) -> bool {
        self.greatest.is_some_and(|greatest| value > greatest)
    }
}

/// A value known with a normal law.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `value` | best estimate | `m` |
/// | `uncertainty` | standard uncertainty | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimated {
    /// Best estimate.
    pub value: f64,
    /// Standard uncertainty.
    pub uncertainty: f64,
}

impl Estimated {
    /// Probability that the true value lies in a band.
    ///
    /// `p = Phi((T_U - y) / u) - Phi((T_L - y) / u)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | y, u | value and standard uncertainty | `m` |
    /// | `band` | T_L, T_U | limits | `m` |
    /// | returns | p | probability of conformity | `1` |
    ///
    /// Range: `u > 0`.
    /// Source: `jcgm-106`, clause 7.
    ///
    /// # Errors
    /// [`Error::NotPositive`] for the uncertainty.
    pub fn probability_within(&self, band: &Band) -> Result<f64, Error> {
        let u = positive("the standard uncertainty", self.uncertainty)?;
        let cdf = |limit: f64| ln_normal_cdf((limit - self.value) / u).exp();
        Ok(band.greatest.map_or(1.0, cdf) - band.least.map_or(0.0, cdf))
    }

    /// The greatest estimate that still shows a value below a limit.
    ///
    /// `A = T - z_p u`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `limit` | T | greatest value allowed | `m` |
    /// | `uncertainty` | u | standard uncertainty of the estimate | `m` |
    /// | `required` | p | probability of conformity asked | `1` |
    /// | returns | A | acceptance limit | `m` |
    ///
    /// Range: `0 < p < 1`.
    /// Source: `jcgm-106`, clause 8.
    ///
    /// # Errors
    /// [`Error::Outside`] for the probability, [`Error::NotPositive`] for the uncertainty.
    pub fn acceptance_limit(limit: f64, uncertainty: f64, required: f64) -> Result<f64, Error> {
        let u = positive("the standard uncertainty", uncertainty)?;
        if !(required > 0.0 && required < 1.0) {
            return Err(Error::Outside {
                what: "the required probability",
                value: required,
                low: 0.0,
                high: 1.0,
            });
        }
        Ok(limit - u * std::f64::consts::SQRT_2 * erfc_inv(2.0 * (1.0 - required)))
    }
}

/// Probability that a gap known only to lie in a cell is not above a limit, before any feel.
///
/// `p = (T - L) / (H - L)`, at least 0 and at most 1
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `cell` | L, H | largest leaf that goes, smallest that won't | `m` |
/// | `greatest` | T | greatest gap allowed | `m` |
/// | returns | p | probability of conformity | `1` |
///
/// Range: a cell with a finite upper end.
/// Source: `jcgm-106`, clause 7, with the rectangular law of `jcgm-100`, 4.3.7.
///
/// # Errors
/// [`Error::Cell`] or [`Error::NoUpperBound`].
pub fn probability_in_interval(cell: &Cell, greatest: f64) -> Result<f64, Error> {
    let Cell { low, high } = *cell;
    if high == f64::INFINITY {
        return Err(Error::NoUpperBound { largest: low });
    }
    if !(low < high) {
        return Err(Error::Cell { low, high });
    }
    Ok(((greatest - low) / (high - low)).clamp(0.0, 1.0))
}
