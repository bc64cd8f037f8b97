//! A prior of shape and scale joined with few records.
//!
//! The prior is a guess until records replace it. With no record at all the posterior is the prior; with
//! records that are all still good it moves as far as they go, and no likelihood runs away.

use crate::Error;
use crate::error::{not_negative, positive, within};
use crate::life::Life;
use crate::records::{Record, sum};
use crate::search::root;

/// Points of the grid along either axis, and of those that only look for where it lies.
const POINTS: usize = 161;
const LOOKING: usize = 61;
/// Standard deviations of the prior a first, coarse grid reaches on either side.
const REACH: f64 = 6.0;
/// Weight beside the heaviest, as a logarithm, below which a point is left out.
const NOTHING: f64 = -30.0;
/// Times the box is drawn closer; each pass cuts off what weighs nothing.
const PASSES: usize = 4;
/// Least and greatest shape, as a life accepts it.
pub(crate) const SHAPES: (f64, f64) = (0.05, 50.0);
/// Least and greatest shape thought of beforehand.
const THOUGHT: (f64, f64) = (0.2, 20.0);

/// What is thought of a life before any record: ln β and ln η normal and independent.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `shape` | β | median | `1` |
/// | `shape_spread` | | standard deviation of ln β | `1` |
/// | `scale` | η | median | unit of time |
/// | `scale_spread` | | standard deviation of ln η | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// Median of the shape.
    pub shape: f64,
    /// Standard deviation of the shape's logarithm.
    pub shape_spread: f64,
    /// Median of the scale.
    pub scale: f64,
    /// Standard deviation of the scale's logarithm.
    pub scale_spread: f64,
}

/// One life of a posterior, and what it weighs.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `weight` | all add up to one | `1` |
/// | `shape` | of the life | `1` |
/// | `scale` | of the life | unit of time |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// All weights add up to one.
    pub weight: f64,
    /// Shape of the life.
    pub shape: f64,
    /// Scale of the life.
    pub scale: f64,
    /// The life.
    pub life: Life,
}

/// Lives by weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Posterior {
    pub(crate) points: Vec<Point>,
}

impl Prior {
    /// What somebody thinks who says by when half of such parts are worn out, and by when one in ten already is.
    ///
    /// `β = ln(ln 2 / −ln 0.9) / ln(H_50 / H_10)`, `η = H_50 / (ln 2)^(1/β)`, both as medians
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `half` | `H_50` | age by which half are worn out | unit of time |
    /// | `tenth` | `H_10` | age by which one in ten is | unit of time |
    /// | `shape_spread` | | standard deviation of ln β: how unsure of the form | `1` |
    /// | `scale_spread` | | standard deviation of ln η: how unsure of the age | `1` |
    ///
    /// Range: ages above 0, the tenth first, for a shape of 0.2 to 20; spreads 0.001 to 1 and 0.001 to 3.
    /// Source: `weibull-1951`, solved for two ages.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Opinion`], [`Error::Outside`].
    pub fn of_ages(
        half: f64,
        tenth: f64,
        shape_spread: f64,
        scale_spread: f64,
    ) -> Result<Self, Error> {
        let half = positive("age by which half are worn out", half)?;
        let tenth = positive("age by which one in ten is worn out", tenth)?;
        let of_half = std::f64::consts::LN_2;
        let of_tenth = -(-0.1_f64).ln_1p();
        let shape = (of_half / of_tenth).ln() / (half / tenth).ln();
        if !(THOUGHT.0..=THOUGHT.1).contains(&shape) {
            return Err(Error::Opinion {
                half,
                tenth,
                shape,
                low: THOUGHT.0,
                high: THOUGHT.1,
            });
        }
        let prior = Self {
            shape,
            shape_spread,
            scale: half / of_half.powf(1.0 / shape),
            scale_spread,
        };
        prior.check()?;
        Ok(prior)
    }

    fn check(&self) -> Result<(), Error> {
        within("shape thought of", self.shape, THOUGHT.0, THOUGHT.1)?;
        within("spread of the shape", self.shape_spread, 0.001, 1.0)?;
        positive("scale thought of", self.scale)?;
        within("spread of the scale", self.scale_spread, 0.001, 3.0)?;
        Ok(())
    }

    /// Logarithm of its density at standard deviations from the medians, with the records.
    fn joint(&self, records: &[Record], x: f64, y: f64) -> f64 {
        let shape = self.shape * (x * self.shape_spread).exp();
        if !(SHAPES.0..=SHAPES.1).contains(&shape) {
            return f64::NEG_INFINITY;
        }
        let log_scale = self.scale.ln() + y * self.scale_spread;
        -0.5 * (x * x + y * y) + sum(records, shape, log_scale)
    }
}

/// A rectangle in standard deviations of the prior.
#[derive(Clone, Copy)]
struct Window {
    x: (f64, f64),
    y: (f64, f64),
    points: usize,
}

impl Window {
    fn cells(&self) -> impl Iterator<Item = (f64, f64)> {
        let (x, y, points) = (self.x, self.y, self.points);
        let step = move |(low, high): (f64, f64), at: usize| {
            low + (high - low) * crate::real(at) / crate::real(points - 1)
        };
        (0..points * points).map(move |at| (step(x, at / points), step(y, at % points)))
    }

    /// Round the cells that weigh anything, and one cell more.
    fn closer(&self, logs: &[f64], top: f64) -> Self {
        let margin = |(low, high): (f64, f64)| (high - low) / crate::real(self.points - 1);
        let none = (f64::INFINITY, f64::NEG_INFINITY);
        let (mut x, mut y) = (none, none);
        for ((i, j), log) in self.cells().zip(logs) {
            if log - top > NOTHING {
                x = (x.0.min(i), x.1.max(i));
                y = (y.0.min(j), y.1.max(j));
            }
        }
        let (dx, dy) = (margin(self.x), margin(self.y));
        Self {
            x: (x.0 - dx, x.1 + dx),
            y: (y.0 - dy, y.1 + dy),
            ..*self
        }
    }
}

impl Posterior {
    /// Joins a prior and records.
    ///
    /// `p(β, η) ~ N(ln β) N(ln η) L(β, η)` on a grid of 161 by 161 that is drawn closer round what
    /// weighs anything, so that it is fine however narrow the records make it
    ///
    /// Range: prior shape 0.2 to 20, its spread 0.001 to 1; prior scale above 0, its spread 0.001 to 3;
    /// any number of records, none too.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotPositive`], [`Error::Negative`], [`Error::Backwards`];
    /// [`Error::Contradiction`] where nothing is left within 6 standard deviations of the prior.
    pub fn new(prior: &Prior, records: &[Record]) -> Result<Self, Error> {
        prior.check()?;
        records.iter().try_for_each(Record::check)?;
        let mut window = Window {
            x: (-REACH, REACH),
            y: (-REACH, REACH),
            points: LOOKING,
        };
        for _ in 1..PASSES {
            let (logs, top) = weigh(prior, records, window)?;
            window = window.closer(&logs, top);
        }
        window.points = POINTS;
        let (logs, top) = weigh(prior, records, window)?;
        let all: f64 = logs.iter().map(|log| (log - top).exp()).sum();
        let mut points = Vec::new();
        for ((x, y), log) in window.cells().zip(&logs) {
            if log - top > NOTHING {
                let shape = prior.shape * (x * prior.shape_spread).exp();
                let scale = prior.scale * (y * prior.scale_spread).exp();
                points.push(Point {
                    weight: (log - top).exp() / all,
                    shape,
                    scale,
                    life: Life::new(shape, scale)?,
                });
            }
        }
        Ok(Self { points })
    }

    /// The same lives where strikes may ruin the part.
    ///
    /// Range: as [`Life::struck`].
    /// Source: definition.
    ///
    /// # Errors
    /// As [`Life::struck`].
    pub fn struck(mut self, rate: f64, chance: f64) -> Result<Self, Error> {
        for point in &mut self.points {
            point.life = point.life.struck(rate, chance)?;
        }
        Ok(self)
    }

    /// Its lives, by weight.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// Mean of whatever a point says.
    ///
    /// `sum w q`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `what` | q | of a point | unit of the quantity |
    /// | `returns` | | mean | unit of the quantity |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn mean(&self, what: impl Fn(&Point) -> f64) -> f64 {
        self.points.iter().map(|one| one.weight * what(one)).sum()
    }

    /// What a quantity stays below with some chance.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `what` | q | of a point | unit of the quantity |
    /// | `share` | | of the weight below | `1` |
    /// | `returns` | | quantile, between points by their middle weights | unit of the quantity |
    ///
    /// Range: share 0.001 to 0.999.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn quantile(&self, what: impl Fn(&Point) -> f64, share: f64) -> Result<f64, Error> {
        let share = within("share of the weight", share, 0.001, 0.999)?;
        let mut each: Vec<(f64, f64)> = self
            .points
            .iter()
            .map(|one| (what(one), one.weight))
            .collect();
        each.sort_by(|a, b| a.0.total_cmp(&b.0));
        // Points of one value are one step, so that a grid's columns do not make stairs.
        each.dedup_by(|later, kept| {
            let same = later.0.total_cmp(&kept.0).is_eq();
            if same {
                kept.1 += later.1;
            }
            same
        });
        let mut below = 0.0;
        let mut last: Option<(f64, f64)> = None;
        for (value, weight) in each {
            let middle = below + 0.5 * weight;
            if middle >= share {
                return Ok(last.map_or(value, |(before, at)| {
                    before + (value - before) * (share - at) / (middle - at)
                }));
            }
            last = Some((value, middle));
            below += weight;
        }
        Ok(last.map_or(f64::NAN, |one| one.0))
    }

    /// Chance that a new part gets to an age, over all that is not known of its life.
    ///
    /// `sum w R(t)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `age` | t | running time since it was fitted | unit of time |
    /// | `returns` | | chance | `1` |
    ///
    /// Range: age 0 or above.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Negative`].
    pub fn survival(&self, age: f64) -> Result<f64, Error> {
        let age = not_negative("age", age)?;
        Ok(self.mean(|one| one.life.left(age)))
    }

    /// The age by which a share of new parts is gone, over all that is not known of their life.
    ///
    /// `sum w R(t) = 1 − q`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `share` | q | gone | `1` |
    /// | `returns` | t | age | unit of time |
    ///
    /// Range: share 0.0001 to 0.9999.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn gone(&self, share: f64) -> Result<f64, Error> {
        let share = within("share gone", share, 0.000_1, 0.999_9)?; // not a conversion: shares
        let ends = self.points.iter().map(|one| one.life.bound());
        let end = ends.fold(0.0, f64::max);
        Ok(root(
            |age| 1.0 - share - self.mean(|one| one.life.left(age)),
            0.0,
            end,
        ))
    }

    /// Chance that a part of some age, which is among the records as still good, gets through more.
    ///
    /// `sum w R(a + s) / R(a)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `age` | a | it has run | unit of time |
    /// | `more` | s | it is to run | unit of time |
    /// | `returns` | | chance | `1` |
    ///
    /// Range: both 0 or above.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Negative`].
    pub fn through(&self, age: f64, more: f64) -> Result<f64, Error> {
        let age = not_negative("age", age)?;
        let more = not_negative("time to run", more)?;
        Ok(self.mean(|one| (one.life.spent(age) - one.life.spent(age + more)).exp()))
    }

    /// Chance that a part gets through more which is thought good at an age, and among the records as good when it was
    /// last seen.
    ///
    /// `sum w R(a + s) / R(g) / sum w R(a) / R(g)`: what it ran since then is evidence too, what it ran before is among
    /// the records already
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `seen` | g | age at which it is among the records as good; 0 where it is not | unit of time |
    /// | `age` | a | it has run | unit of time |
    /// | `more` | s | it is to run | unit of time |
    /// | `returns` | | chance | `1` |
    ///
    /// Range: all 0 or above, seen no later than the age.
    /// Source: `gelman-2013`.
    ///
    /// # Errors
    /// [`Error::Negative`]; [`Error::Outside`] where it was seen later than its age.
    pub fn onward(&self, seen: f64, age: f64, more: f64) -> Result<f64, Error> {
        let age = not_negative("age", age)?;
        let seen = within("age when last seen", seen, 0.0, age)?;
        let more = not_negative("time to run", more)?;
        let since =
            |until: f64| self.mean(|one| (one.life.spent(seen) - one.life.spent(until)).exp());
        Ok(since(age + more) / since(age))
    }
}

/// Logarithms of the joint density over a window, and the greatest.
fn weigh(prior: &Prior, records: &[Record], window: Window) -> Result<(Vec<f64>, f64), Error> {
    let cells = window.cells();
    let logs: Vec<f64> = cells.map(|(x, y)| prior.joint(records, x, y)).collect();
    let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if top.is_finite() {
        Ok((logs, top))
    } else {
        Err(Error::Contradiction)
    }
}
