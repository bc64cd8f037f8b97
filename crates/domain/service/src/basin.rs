//! What replacing at every age costs, over all that is not known of a life: the least, and how flat it lies.

use crate::Error;
use crate::band::Band;
use crate::cost::Cost;
use crate::error::positive;
use crate::life::Life;
use crate::posterior::Posterior;

/// Ages of the curve.
const AGES: usize = 72;
/// The first age, as a share of that by which one in twenty has failed.
const FIRST: f64 = 0.1; // not a conversion: a share
/// What is left of parts at the last age.
const LAST: f64 = 0.002; // not a conversion: a share
/// Of the cost of running to failure: what saves less than this is no saving.
const WORTH: f64 = 0.005; // not a conversion: a share
/// The first age of a course, as a share of that where it is spent.
const NEARLY_NONE: f64 = 0.003; // not a conversion: a share
/// One age in so many is kept where hardly a part is left.
const BEYOND: usize = 3;
/// Nodes and weights of the Gauss rule of four points from -1 to 1.
const GAUSS: [(f64, f64); 4] = [
    (-0.861_136_311_594_052_6, 0.347_854_845_137_453_8),
    (-0.339_981_043_584_856_3, 0.652_145_154_862_546_1),
    (0.339_981_043_584_856_3, 0.652_145_154_862_546_1),
    (0.861_136_311_594_052_6, 0.347_854_845_137_453_8),
];

/// Cost of replacing at an age, over the lives.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `at` | age of replacement | unit of time |
/// | `rate` | what it costs, over all lives | unit of money over time |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Age {
    /// Age of replacement.
    pub at: f64,
    /// What it costs, over all lives.
    pub rate: Band,
}

/// The cost over the ages of replacement.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `ages` | from nearly none to where hardly a part is left, ascending | |
/// | `best` | least mean; none where running to failure is as cheap | |
/// | `to_failure` | cost of replacing only at failure | |
#[derive(Clone, Debug, PartialEq)]
pub struct Basin {
    /// The curve.
    pub ages: Vec<Age>,
    /// The least of it; none where running to failure is as cheap.
    pub best: Option<Age>,
    /// Replacing only at failure; its age is that by which hardly a part is left.
    pub to_failure: Age,
}

/// What replacing at every age costs.
///
/// `C(T) = sum w C(T; β, η)`, `∫ R` and `∫ t R` summed from age to age by Gauss's rule of four points
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `lives` | w | of the part, by weight | |
/// | `cost` | | of its ends | |
/// | `band` | | share of the lives within low and high | `1` |
///
/// Range: band 0.1 to 0.98. A best age saves half a hundredth of running to failure at least.
/// Source: `barlow-hunter-1960` for each life.
///
/// # Errors
/// [`Error::Outside`].
pub fn basin(lives: &Posterior, cost: &Cost, band: f64) -> Result<Basin, Error> {
    let first = FIRST * lives.gone(0.05)?; // not a conversion: one in twenty
    let last = lives.gone(1.0 - LAST)?;
    let mut at = spread(first, last);
    // Beyond the curve every life is carried on until it is spent, for running to failure.
    let ends = lives.points().iter().map(|point| point.life.bound());
    let end = ends.fold(last, f64::max);
    let on = spread(last, end).into_iter().skip(1).step_by(BEYOND);
    at.extend(on.chain([end]).filter(|_| end > last));
    let courses: Vec<(f64, Course)> = lives
        .points()
        .iter()
        .map(|point| (point.weight, Course::over(&point.life, &at)))
        .collect();
    let age = |n: usize| {
        let each = courses.iter().map(|(w, of)| (*w, of.rate(cost, n)));
        Band::of(each.collect(), band).map(|rate| Age { at: at[n], rate })
    };
    let ages = (0..AGES).map(age).collect::<Result<Vec<Age>, Error>>()?;
    let to_failure = Age {
        at: last,
        ..age(at.len() - 1)?
    };
    let least = ages.iter().enumerate();
    let least = least.min_by(|a, b| a.1.rate.mean.total_cmp(&b.1.rate.mean));
    let best = least
        .map(|(n, _)| between(&ages, n))
        .filter(|best| best.rate.mean < (1.0 - WORTH) * to_failure.rate.mean);
    Ok(Basin {
        ages,
        best,
        to_failure,
    })
}

impl Basin {
    /// The ages that cost hardly more than the cheapest.
    ///
    /// `C(T) <= (1 + e) C*`, between the ages of the curve along straight lines
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `more` | e | than the cheapest, as a share | `1` |
    /// | `returns` | T | least and greatest age; no greatest where running to failure is among them | unit of time |
    ///
    /// Range: share above 0.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn flat(&self, more: f64) -> Result<(f64, Option<f64>), Error> {
        let more = positive("share over the least cost", more)?;
        let best = self.best.unwrap_or(self.to_failure);
        let limit = best.rate.mean * (1.0 + more);
        let cross = |a: &Age, b: &Age| {
            a.at + (b.at - a.at) * (limit - a.rate.mean) / (b.rate.mean - a.rate.mean)
        };
        let mut pairs = self.ages.windows(2).filter(|pair| pair[1].at <= best.at);
        let low = pairs.rfind(|pair| pair[0].rate.mean > limit && pair[1].rate.mean <= limit);
        let low = low.map_or(self.ages[0].at, |pair| cross(&pair[0], &pair[1]));
        if self.to_failure.rate.mean <= limit {
            return Ok((low, None));
        }
        let mut pairs = self.ages.windows(2).filter(|pair| pair[0].at >= best.at);
        let high = pairs.find(|pair| pair[0].rate.mean <= limit && pair[1].rate.mean > limit);
        Ok((low, high.map(|pair| cross(&pair[0], &pair[1]))))
    }
}

/// One life along ages: what is left, `∫ R` and `∫ t R` up to each.
///
/// Costs of many bills are read off it without another integral.
#[derive(Clone, Debug, PartialEq)]
pub struct Course {
    left: Vec<f64>,
    run: Vec<f64>,
    moment: Vec<f64>,
}

impl Course {
    /// Carries a life along, from nearly none to where it is spent.
    ///
    /// Range: any life. Sums by Gauss's rule of four points from age to age.
    /// Source: definition.
    pub fn new(life: &Life) -> Self {
        let end = life.end();
        Self::over(life, &spread(NEARLY_NONE * end, end))
    }

    fn over(life: &Life, at: &[f64]) -> Self {
        let mut course = Self {
            left: Vec::with_capacity(at.len()),
            run: Vec::with_capacity(at.len()),
            moment: Vec::with_capacity(at.len()),
        };
        let (mut run, mut moment, mut from) = (0.0, 0.0, 0.0);
        for &until in at {
            let (half, middle) = (0.5 * (until - from), 0.5 * (until + from));
            for (node, weight) in GAUSS {
                let age = middle + half * node;
                let left = half * weight * life.left(age);
                run += left;
                moment += age * left;
            }
            course.left.push(life.left(until));
            course.run.push(run);
            course.moment.push(moment);
            from = until;
        }
        course
    }

    fn rate(&self, cost: &Cost, n: usize) -> f64 {
        cost.rate_of(self.left[n], self.run[n], self.moment[n])
    }

    /// What the cheapest policy costs, running to failure among them.
    ///
    /// `min C(T)` over the ages
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `cost` | | of its ends | |
    /// | `returns` | | cost | unit of money over time |
    ///
    /// Range: to one in 500: the ages lie some 8 % apart, and the least is flat.
    /// Source: `barlow-hunter-1960`.
    pub fn least(&self, cost: &Cost) -> f64 {
        let rates = (0..self.left.len()).map(|n| self.rate(cost, n));
        rates.fold(f64::INFINITY, f64::min)
    }
}

/// Ages from one to another, each the same share beyond the last.
fn spread(first: f64, last: f64) -> Vec<f64> {
    let step = (last / first).powf(1.0 / crate::real(AGES - 1));
    (0..AGES)
        .map(|n| first * step.powf(crate::real(n)))
        .collect()
}

/// The least between neighbours, by the parabola through three in the logarithm of the age.
fn between(ages: &[Age], n: usize) -> Age {
    if n == 0 || n + 1 == ages.len() {
        return ages[n];
    }
    let (before, here, after) = (ages[n - 1], ages[n], ages[n + 1]);
    let bend = before.rate.mean - 2.0 * here.rate.mean + after.rate.mean;
    if bend <= 0.0 {
        return here;
    }
    let shift = 0.5 * (before.rate.mean - after.rate.mean) / bend;
    let step = (after.at / here.at).ln();
    let lower = 0.25 * (before.rate.mean - after.rate.mean) * shift;
    Age {
        at: here.at * (shift * step).exp(),
        rate: Band {
            mean: here.rate.mean - lower,
            ..here.rate
        },
    }
}
