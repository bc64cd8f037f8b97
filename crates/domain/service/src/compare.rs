//! Which of two choices is cheaper by the hour, how sure that is, and which record would settle it most.

use crate::Error;
use crate::cost::{Cost, rate, run_to_failure};
use crate::error::positive;
use crate::horizon::{Kept, within};
use crate::life::Life;
use crate::posterior::Posterior;

/// A part to choose, and how it would be kept.
#[derive(Clone, Copy, Debug)]
pub struct Choice<'a> {
    /// What is thought of its life.
    pub lives: &'a Posterior,
    /// What its ends cost.
    pub cost: Cost,
    /// The age it would be replaced at; none to run it to failure.
    pub at: Option<f64>,
}

/// Over which time a choice is priced.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Over {
    /// The long run, for a craft that is never sold.
    Always,
    /// So much running time until the craft is sold or laid up, the fitting of the first part included.
    Hours(f64),
}

/// The two choices.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The first.
    First,
    /// The second.
    Second,
}

/// What seeing one more season of a choice is worth beforehand.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `good` | q | chance that its part gets through | `1` |
/// | `if_good` | | chance that the first is cheaper, once it did | `1` |
/// | `if_failed` | | chance that the first is cheaper, once it did not | `1` |
/// | `change` | V | expected change of that chance, up or down | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Season {
    /// Chance that its part gets through.
    pub good: f64,
    /// Chance that the first is cheaper, once it did.
    pub if_good: f64,
    /// Chance that the first is cheaper, once it did not.
    pub if_failed: f64,
    /// Expected change of that chance, up or down.
    pub change: f64,
}

/// Two choices whose costs were worked out, life by life.
#[derive(Clone, Debug)]
pub struct Comparison {
    first: Vec<Priced>,
    second: Vec<Priced>,
}

/// A life with its weight and what it costs.
#[derive(Clone, Copy, Debug)]
struct Priced {
    weight: f64,
    rate: f64,
    life: Life,
}

impl Choice<'_> {
    /// Its lives, the cheapest first.
    fn priced(&self, over: Over) -> Result<Vec<Priced>, Error> {
        let mut all = Vec::new();
        for point in self.lives.points() {
            let life = point.life;
            let rate = match (over, self.at) {
                (Over::Always, Some(at)) => rate(&life, &self.cost, at)?,
                (Over::Always, None) => run_to_failure(&life, &self.cost),
                (Over::Hours(hours), at) => {
                    let kept = Kept { age: 0.0, hours };
                    (self.cost.planned + within(&life, &self.cost, at, kept)?) / hours
                }
            };
            all.push(Priced {
                weight: point.weight,
                rate,
                life,
            });
        }
        all.sort_by(|a, b| a.rate.total_cmp(&b.rate));
        Ok(all)
    }
}

/// Chance that the first is cheaper than the second, both sorted; of what is alike, half.
fn cheaper(first: &[Priced], second: &[Priced], weights: [&dyn Fn(&Priced) -> f64; 2]) -> f64 {
    let [of_first, of_second] = weights;
    let all: f64 = second.iter().map(of_second).sum();
    let (mut below, mut upto) = (0.0, 0.0);
    let (mut i, mut j) = (0, 0);
    let (mut chance, mut whole) = (0.0, 0.0);
    for one in first {
        while i < second.len() && second[i].rate < one.rate {
            below += of_second(&second[i]);
            i += 1;
        }
        while j < second.len() && second[j].rate <= one.rate {
            upto += of_second(&second[j]);
            j += 1;
        }
        let weight = of_first(one);
        whole += weight;
        chance += weight * (all - 0.5 * (below + upto));
    }
    chance / (whole * all)
}

impl Comparison {
    /// Works out what both cost in the long run, life by life.
    ///
    /// Range: ages of replacement above 0; the lives of the two are independent.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn new(first: &Choice, second: &Choice) -> Result<Self, Error> {
        Self::over(first, second, Over::Always)
    }

    /// Works out what both cost over a time, life by life.
    ///
    /// Over so many hours it is `[c_p + V(H)] / H`, the part fitted first and what follows it, for every hour run.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `first` | | choice | |
    /// | `second` | | choice | |
    /// | `over` | H | time | unit of time |
    ///
    /// Range: ages of replacement and time above 0; the lives of the two are independent.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn over(first: &Choice, second: &Choice, over: Over) -> Result<Self, Error> {
        if let Over::Hours(hours) = over {
            positive("time to run", hours)?;
        }
        Ok(Self {
            first: first.priced(over)?,
            second: second.priced(over)?,
        })
    }

    /// Chance that the first costs less for every hour run.
    ///
    /// `P = sum_i sum_j w_i v_j [C_i < D_j]`, over every pair of lives; no dice are thrown
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | P | chance | `1` |
    ///
    /// Range: any.
    /// Source: `gelman-2013`.
    pub fn first_is_cheaper(&self) -> f64 {
        self.given([&|one| one.weight, &|one| one.weight])
    }

    fn given(&self, weights: [&dyn Fn(&Priced) -> f64; 2]) -> f64 {
        cheaper(&self.first, &self.second, weights)
    }

    /// Mean cost of a choice for every hour run.
    ///
    /// `sum w C`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `which` | | of the two | |
    /// | `returns` | | mean over its lives | unit of money over time |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn mean_rate(&self, which: Which) -> f64 {
        let lives = match which {
            Which::First => &self.first,
            Which::Second => &self.second,
        };
        lives.iter().map(|one| one.weight * one.rate).sum()
    }

    /// What seeing one more season of a new part of a choice is worth.
    ///
    /// `V = q |P_good − P| + (1 − q) |P_failed − P|`, `q = sum w R(s)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `which` | | of the two is run | |
    /// | `season` | s | running time of the season | unit of time |
    ///
    /// Range: season above 0. What the season would cost is not counted.
    /// Source: `lindley-1956`, for weighing an experiment by what it is expected to change.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn season(&self, which: Which, season: f64) -> Result<Season, Error> {
        let season = positive("running time of the season", season)?;
        let plain = |one: &Priced| one.weight;
        let through = |one: &Priced| one.weight * one.life.left(season);
        let failed = |one: &Priced| one.weight * -(-one.life.spent(season)).exp_m1();
        let (lives, if_good, if_failed) = match which {
            Which::First => (
                &self.first,
                self.given([&through, &plain]),
                self.given([&failed, &plain]),
            ),
            Which::Second => (
                &self.second,
                self.given([&plain, &through]),
                self.given([&plain, &failed]),
            ),
        };
        let good: f64 = lives.iter().map(through).sum();
        let now = self.first_is_cheaper();
        Ok(Season {
            good,
            if_good,
            if_failed,
            change: good * (if_good - now).abs() + (1.0 - good) * (if_failed - now).abs(),
        })
    }

    /// The choice whose season would move the answer most, with what either is worth.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `season` | running time of the season | unit of time |
    /// | `returns` | the choice to run; first and second | |
    ///
    /// Range: season above 0.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn settles(&self, season: f64) -> Result<(Which, [Season; 2]), Error> {
        let first = self.season(Which::First, season)?;
        let second = self.season(Which::Second, season)?;
        let which = if first.change >= second.change {
            Which::First
        } else {
            Which::Second
        };
        Ok((which, [first, second]))
    }
}
