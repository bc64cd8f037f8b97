//! What mending a cause would take, and what it would make of the gap.

use std::ops::Range;

use nalgebra::DVector;
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::SeedableRng;

use super::law::{Normal, estimate};
use super::survey::row;
use super::{Cause, Drawn, Spot};
use crate::{Band, Error, Estimate, real};

/// The arithmetic of a remedy. What is built up makes the gap smaller; below zero it is taken off.
#[derive(Clone, Debug, PartialEq)]
pub enum Remedy {
    /// Move the ring, the shaft standing still: minus the wave's cosine and sine.
    MoveRing {
        /// Towards 12.
        to_twelve: Estimate,
        /// Towards 3.
        to_three: Estimate,
    },
    /// Make the ring round: its largest less its smallest radius.
    Round(Estimate),
    /// Build the ring up at a position.
    Ring(usize, Estimate),
    /// Build a blade up.
    Blade(usize, Estimate),
    /// Move the impeller on its shaft: the wave's cosine and sine.
    MoveImpeller {
        /// Towards blade 0.
        to_first: Estimate,
        /// Towards a quarter turn on from blade 0, the way blades are counted.
        to_quarter: Estimate,
    },
    /// Build each blade up to the mean of all.
    Blades(Vec<Estimate>),
    /// Feel the spot again before anything is made of it.
    FeelAgain(Spot),
}

/// Remedies and the gap they would leave together, at all blades and positions of the stations read.
#[derive(Clone, Debug, PartialEq)]
pub struct Cured {
    /// What to do, and how much, one a cause.
    pub remedies: Vec<Remedy>,
    /// Least gap as it is.
    pub least_before: Estimate,
    /// Greatest gap as it is.
    pub greatest_before: Estimate,
    /// Least gap with the causes gone.
    pub least: Estimate,
    /// Greatest gap with the causes gone.
    pub greatest: Estimate,
}

/// The mean gap of a candidate, and how it stands to its limits.
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Mean true radial gap over all spots of the stations read.
    pub mean: Estimate,
    /// Probability that the mean alone is below the least limit: all of it is tight.
    pub too_tight: f64,
    /// Probability that the mean alone is above the greatest limit: all of it is wide.
    pub too_wide: f64,
    /// What the gap must grow by everywhere to stand midway between the limits, or at the only one.
    pub change: Estimate,
}

/// Draws of true gaps at all spots of the stations read.
struct Rings {
    /// Rows of the spots.
    rows: Vec<Vec<f64>>,
    /// Parameters, in `m`, the shared shift put into the means.
    draws: Vec<Vec<f64>>,
    /// Roughness each was drawn at, in `m`.
    roughness: Vec<f64>,
}

impl Rings {
    fn new(drawn: &Drawn<'_>) -> Self {
        let (survey, ranking) = (drawn.survey, drawn.ranking);
        let frame = survey.frame();
        let read = |station| survey.readings().iter().any(|r| r.spot.station == station);
        let spots = frame.spots().filter(|spot| read(spot.station));
        let mut dice = Normal(Pcg64Mcg::seed_from_u64(!drawn.seed));
        let model = survey.model();
        let mut in_metres = |draw: &DVector<f64>| {
            let shift =
                model.chord * dice.uniform() + model.leaf_tolerance * (2.0 * dice.uniform() - 1.0);
            let mut values: Vec<f64> = draw.iter().map(|x| ranking.unit * x).collect();
            for mean in &mut values[..frame.stations()] {
                *mean += ranking.middle + shift;
            }
            values
        };
        let rows: Vec<Vec<f64>> = spots
            .map(|spot| row(frame, &drawn.candidate.causes, spot))
            .collect();
        let draws = &drawn.draws;
        Self {
            rows,
            roughness: draws.iter().map(|(i, _)| survey.roughness()[*i]).collect(),
            draws: draws.iter().map(|(_, draw)| in_metres(draw)).collect(),
        }
    }

    /// Roughness of every spot of every draw, in `m`.
    fn rough(&self, seed: u64) -> Vec<f64> {
        let mut dice = Normal(Pcg64Mcg::seed_from_u64(seed.rotate_left(32)));
        let spots = self.rows.len();
        let one = |&roughness| std::iter::repeat_n(roughness, spots);
        let all = self.roughness.iter().flat_map(one);
        all.map(|roughness: f64| roughness * dice.next()).collect()
    }

    /// Least and greatest gap of the ring, without the columns of some causes.
    fn ends(&self, rough: &[f64], without: &[Range<usize>]) -> (Estimate, Estimate) {
        let kept = |i: &usize| !without.iter().any(|columns| columns.contains(i));
        let kept: Vec<usize> = (0..self.rows.first().map_or(0, Vec::len))
            .filter(kept)
            .collect();
        let (mut least, mut greatest) = (Vec::new(), Vec::new());
        let rough = rough.chunks(self.rows.len().max(1));
        for (draw, rough) in self.draws.iter().zip(rough) {
            let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
            for (row, rough) in self.rows.iter().zip(rough) {
                let gap = kept.iter().map(|&i| row[i] * draw[i]).sum::<f64>() + rough;
                low = low.min(gap);
                high = high.max(gap);
            }
            // A blade that touches leaves a gap of nothing, never less.
            least.push(low.max(0.0));
            greatest.push(high.max(0.0));
        }
        (estimate(least), estimate(greatest))
    }

    fn values(&self, of: impl Fn(&[f64]) -> f64) -> Estimate {
        estimate(self.draws.iter().map(|draw| of(draw)).collect())
    }

    /// Mean gap of a draw over all spots.
    fn mean(&self, draw: &[f64]) -> f64 {
        let gap = |row: &Vec<f64>| row.iter().zip(draw).map(|(x, b)| x * b).sum::<f64>();
        self.rows.iter().map(gap).sum::<f64>() / real(self.rows.len())
    }
}

/// The arithmetic of mending one cause, whose columns these are.
fn remedy(rings: &Rings, cause: Cause, columns: &Range<usize>) -> Remedy {
    let from = columns.start;
    let value = |i: usize, sign: f64| rings.values(|draw| sign * draw[from + i]);
    match cause {
        Cause::OffCentre => Remedy::MoveRing {
            to_twelve: value(0, -1.0),
            to_three: value(1, -1.0),
        },
        Cause::Oval => Remedy::Round(rings.values(|d| 2.0 * d[from].hypot(d[from + 1]))),
        Cause::Local(position) => Remedy::Ring(position, value(0, 1.0)),
        Cause::Blade(blade) => Remedy::Blade(blade, value(0, 1.0)),
        Cause::Runout => Remedy::MoveImpeller {
            to_first: value(0, 1.0),
            to_quarter: value(1, 1.0),
        },
        Cause::Uneven => {
            let last = rings.values(|d| -d[columns.clone()].iter().sum::<f64>());
            let rest = (0..columns.len()).map(|i| value(i, 1.0));
            Remedy::Blades(rest.chain([last]).collect())
        }
        Cause::Stray(spot) => Remedy::FeelAgain(spot),
    }
}

/// What mending each of some sets of a candidate's causes would take, and the least and greatest gap
/// it would leave. Causes are named by their places in the candidate.
///
/// The candidate is taken as true. Spots not read follow the causes; the roughness of the ring, the
/// chord and the leaf set are drawn, so the intervals hold them.
///
/// # Errors
/// [`Error::NoSuchPlace`] when the candidate has no cause of that number.
pub fn cure(drawn: &Drawn<'_>, sets: &[Vec<usize>]) -> Result<Vec<Cured>, Error> {
    let causes = &drawn.candidate.causes;
    let of = causes.len();
    for &at in sets.iter().flatten() {
        if at >= of {
            let what = "cause of the candidate";
            return Err(Error::NoSuchPlace { what, at, of });
        }
    }
    let rings = Rings::new(drawn);
    let frame = drawn.survey.frame();
    let columns = |at: usize| {
        let widths = causes[..at].iter().map(|c| c.width(frame));
        let from = frame.stations() + widths.sum::<usize>();
        from..from + causes[at].width(frame)
    };
    // The same whatever is mended.
    let rough = rings.rough(drawn.seed);
    let (least_before, greatest_before) = rings.ends(&rough, &[]);
    let one = |set: &Vec<usize>| {
        let gone: Vec<Range<usize>> = set.iter().map(|at| columns(*at)).collect();
        let both = set.iter().zip(&gone);
        let remedies = both.map(|(at, columns)| remedy(&rings, causes[*at], columns));
        let (least, greatest) = rings.ends(&rough, &gone);
        Cured {
            remedies: remedies.collect(),
            least_before,
            greatest_before,
            least,
            greatest,
        }
    };
    Ok(sets.iter().map(one).collect())
}

/// The mean gap of a candidate against limits of the radial gap: is all of it tight, or wide?
///
/// The mean is told apart from every pattern, but not from the chord and the leaf set, which shift
/// it; both are drawn.
///
/// # Errors
/// [`Error::NoLimit`], [`Error::LimitsCross`], [`Error::Negative`].
pub fn level(drawn: &Drawn<'_>, limits: &Band) -> Result<Level, Error> {
    limits.check()?;
    let rings = Rings::new(drawn);
    let share = |holds: &dyn Fn(f64) -> bool| {
        let holding = rings.draws.iter().filter(|d| holds(rings.mean(d)));
        real(holding.count()) / real(rings.draws.len())
    };
    let target = match (limits.least, limits.greatest) {
        (Some(least), Some(greatest)) => f64::midpoint(least, greatest),
        (least, greatest) => least.or(greatest).unwrap_or_default(),
    };
    Ok(Level {
        mean: rings.values(|d| rings.mean(d)),
        too_tight: share(&|mean| limits.least.is_some_and(|least| mean < least)),
        too_wide: share(&|mean| limits.greatest.is_some_and(|greatest| mean > greatest)),
        change: rings.values(|d| target - rings.mean(d)),
    })
}
