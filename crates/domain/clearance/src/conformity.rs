//! Is the gap within its limits, and how sure.

use statrs::distribution::{ContinuousCDF, StudentsT};

use crate::budget::student_quantile;
use crate::error::{finite, not_negative, positive, probability, within};
use crate::normal::{ln_normal_cdf, upper_quantile};
use crate::{Cell, Combined, Error, Posterior};

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
    let (band, opposite) = match limits {
        Limits::Radial { least, greatest } => (
            Band {
                least: *least,
                greatest: *greatest,
            },
            None,
        ),
        Limits::Diametral {
            least,
            greatest,
            opposite,
        } => {
            check_pairs(opposite, posterior.spots())?;
            (
                Band {
                    least: *least,
                    greatest: *greatest,
                },
                Some(opposite),
            )
        }
    };
    band.check()?;
    let ends = |gaps: &[f64]| match opposite {
        None => ends(gaps.iter().copied()),
        Some(pairs) => ends(pairs.iter().map(|&(i, j)| gaps[i] + gaps[j])),
    };
    Ok(Conformity {
        too_tight: posterior.probability(|gaps| band.exceeds(ends(gaps).0)),
        too_wide: posterior.probability(|gaps| band.exceeded_by(ends(gaps).1)),
        within: posterior.probability(|gaps| {
            let (smallest, largest) = ends(gaps);
            !band.exceeds(smallest) && !band.exceeded_by(largest)
        }),
    })
}

/// Smallest and largest of some values.
fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
        (low.min(v), high.max(v))
    })
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
    pub(crate) fn check(&self) -> Result<(), Error> {
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
            _ => Ok(()),
        }
    }

    fn exceeds(&self, value: f64) -> bool {
        self.least.is_some_and(|least| value < least)
    }

    fn exceeded_by(&self, value: f64) -> bool {
        self.greatest.is_some_and(|greatest| value > greatest)
    }

    /// The band an estimate must keep to show that the true value keeps this one.
    ///
    /// `A_L = T_L + z_p u`, `A_U = T_U - z_p u`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | `T_L`, `T_U` | limits | `m` |
    /// | `uncertainty` | u | standard uncertainty of the estimate | `m` |
    /// | `required` | p | probability of conformity asked at either limit | `1` |
    /// | returns | `A_L`, `A_U` | acceptance limits; crossed when no estimate can show it | `m` |
    ///
    /// Range: `u > 0`, `0 < p < 1`.
    /// Source: `jcgm-106`, clause 8.
    ///
    /// # Errors
    /// [`Error::Outside`] for the probability, [`Error::NotPositive`] for the uncertainty.
    pub fn guarded(&self, uncertainty: f64, required: f64) -> Result<Self, Error> {
        let u = positive("the standard uncertainty", uncertainty)?;
        let guard = u * upper_quantile(1.0 - probability("the required probability", required)?);
        Ok(Self {
            least: self.least.map(|least| least + guard),
            greatest: self.greatest.map(|greatest| greatest - guard),
        })
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
    /// | `band` | `T_L`, `T_U` | limits | `m` |
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
}

impl Combined {
    /// Probability that the true value lies in a band, for an uncertainty of few degrees of freedom.
    ///
    /// `p = F((T_U - y) / u) - F((T_L - y) / u)`, F of Student's law with nu degrees of freedom
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | u, nu | combined uncertainty and effective freedom | |
    /// | `value` | y | best estimate | `m` |
    /// | `band` | `T_L`, `T_U` | limits | `m` |
    /// | returns | p | probability of conformity | `1` |
    ///
    /// Range: `u > 0`, `nu >= 1`; infinite nu gives the normal law.
    /// Source: `jcgm-106`, clause 7, with the law of `jcgm-100`, annex G.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Outside`].
    pub fn probability_within(&self, value: f64, band: &Band) -> Result<f64, Error> {
        let uncertainty = positive("the standard uncertainty", self.uncertainty)?;
        let value = finite("the estimate", value)?;
        if self.freedom == f64::INFINITY {
            return Estimated { value, uncertainty }.probability_within(band);
        }
        let freedom = within_freedom(self.freedom)?;
        let law = StudentsT::new(value, uncertainty, freedom).map_err(|_| Error::NotPositive {
            what: "the standard uncertainty",
            value: uncertainty,
        })?;
        let cdf = |limit: f64| law.cdf(limit);
        Ok(band.greatest.map_or(1.0, cdf) - band.least.map_or(0.0, cdf))
    }

    /// The band an estimate must keep, as [`Band::guarded`], for few degrees of freedom.
    ///
    /// `A_L = T_L + t_p(nu) u`, `A_U = T_U - t_p(nu) u`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | u, nu | combined uncertainty and effective freedom | |
    /// | `band` | `T_L`, `T_U` | limits | `m` |
    /// | `required` | p | probability of conformity asked at either limit | `1` |
    /// | returns | `A_L`, `A_U` | acceptance limits; crossed when no estimate can show it | `m` |
    ///
    /// Range: `u > 0`, `nu >= 1`, `0 < p < 1`.
    /// Source: `jcgm-106`, clause 8, with the law of `jcgm-100`, annex G.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Outside`].
    pub fn guard(&self, band: &Band, required: f64) -> Result<Band, Error> {
        let u = positive("the standard uncertainty", self.uncertainty)?;
        let tail = 1.0 - probability("the required probability", required)?;
        let guard = u * student_quantile(tail, within_freedom(self.freedom)?);
        Ok(Band {
            least: band.least.map(|least| least + guard),
            greatest: band.greatest.map(|greatest| greatest - guard),
        })
    }
}

fn within_freedom(freedom: f64) -> Result<f64, Error> {
    within("the degrees of freedom", freedom, 1.0, f64::INFINITY)
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
    let Cell { low, high } = cell.closed()?;
    Ok(((greatest - low) / (high - low)).clamp(0.0, 1.0))
}
