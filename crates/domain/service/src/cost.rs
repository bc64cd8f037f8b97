//! What a part costs for every hour run, and the cheapest age to replace it at.

use crate::Error;
use crate::error::{not_negative, positive, within};
use crate::life::Life;
use crate::search::root;

/// What a replacement is made of.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `part` | price of the part | unit of money |
/// | `consumables` | what is used up in fitting it | unit of money |
/// | `labour` | time of fitting it | unit of time |
/// | `wage` | what that time is paid; 0 for one's own | unit of money over time |
/// | `failure` | what a failure costs on top: tow, other parts, a lost day | unit of money |
/// | `fade` | what is lost while it is worn | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bill {
    /// Price of the part.
    pub part: f64,
    /// What is used up in fitting it.
    pub consumables: f64,
    /// Time of fitting it.
    pub labour: f64,
    /// What that time is paid; 0 for one's own.
    pub wage: f64,
    /// What a failure costs on top.
    pub failure: f64,
    /// What is lost while it is worn, where that is counted.
    pub fade: Option<Fade>,
}

/// Performance that fades with age, as a cost: in proportion to the age, not capped.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `share` | share of the performance lost | `1` |
/// | `after` | at this age | unit of time |
/// | `worth` | what running time of full performance is worth | unit of money over time |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fade {
    /// Share of the performance lost.
    pub share: f64,
    /// At this age.
    pub after: f64,
    /// What running time of full performance is worth.
    pub worth: f64,
}

/// What the ends of a part cost.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `planned` | `c_p` | replaced before it fails | unit of money |
/// | `failed` | `c_f` | replaced after it failed | unit of money |
/// | `fading` | g | growth of the cost of running it worn | unit of money over time squared |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    pub(crate) planned: f64,
    pub(crate) failed: f64,
    pub(crate) fading: f64,
}

/// The cheapest policy.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `at` | `T*` | age to replace at; none where replacing early never pays | unit of time |
/// | `rate` | `C*` | what it costs | unit of money over time |
/// | `to_failure` | | what running to failure costs | unit of money over time |
/// | `survival` | `R(T*)` | chance to get there; 0 where none is planned | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Best {
    /// Age to replace at; none where replacing early never pays.
    pub at: Option<f64>,
    /// What it costs.
    pub rate: f64,
    /// What running to failure costs.
    pub to_failure: f64,
    /// Chance to get there; 0 where none is planned.
    pub survival: f64,
}

impl Bill {
    /// What the ends cost.
    ///
    /// `c_p = part + consumables + labour wage`, `c_f = c_p + failure`, `g = worth share / after`
    ///
    /// Range: part above 0; all else 0 or above; share 0 to 1, after above 0.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Negative`], [`Error::Outside`].
    pub fn cost(&self) -> Result<Cost, Error> {
        let part = positive("price of the part", self.part)?;
        let consumables = not_negative("consumables", self.consumables)?;
        let labour = not_negative("labour", self.labour)?;
        let wage = not_negative("wage", self.wage)?;
        let failure = not_negative("cost of a failure", self.failure)?;
        let planned = part + consumables + labour * wage;
        let cost = Cost::new(planned, planned + failure)?;
        let Some(fade) = self.fade else {
            return Ok(cost);
        };
        let share = within("share of the performance lost", fade.share, 0.0, 1.0)?;
        let after = positive("age at which it is lost", fade.after)?;
        let worth = not_negative("worth of running time", fade.worth)?;
        Ok(Cost {
            fading: worth * share / after,
            ..cost
        })
    }
}

impl Cost {
    /// What the ends cost, where it is known.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `planned` | `c_p` | replaced before it fails | unit of money |
    /// | `failed` | `c_f` | replaced after it failed, all told | unit of money |
    ///
    /// Range: planned above 0; failed no less.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Outside`].
    pub fn new(planned: f64, failed: f64) -> Result<Self, Error> {
        let planned = positive("cost of a planned replacement", planned)?;
        let failed = within("cost of a failure, all told", failed, planned, f64::MAX)?;
        Ok(Self {
            planned,
            failed,
            fading: 0.0,
        })
    }

    /// What a planned replacement costs.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | `c_p` | replaced before it fails | unit of money |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn planned(&self) -> f64 {
        self.planned
    }

    /// What a replacement after a failure costs, all told.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | `c_f` | replaced after it failed | unit of money |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn failed(&self) -> f64 {
        self.failed
    }

    /// Mean cost of a cycle that ends at an age at the latest.
    pub(crate) fn cycle(&self, life: &Life, age: f64) -> f64 {
        let moment = if self.fading > 0.0 {
            life.moment(age)
        } else {
            0.0
        };
        self.ends(life.left(age), moment)
    }

    /// The same from what is left at that age and `∫ t R` up to it.
    fn ends(&self, left: f64, moment: f64) -> f64 {
        self.planned * left + self.failed * (1.0 - left) + self.fading * moment
    }

    /// Cost over time from what is left, `∫ R` and `∫ t R`.
    pub(crate) fn rate_of(&self, left: f64, run: f64, moment: f64) -> f64 {
        self.ends(left, moment) / run
    }

    /// Whether letting a part run costs more as it ages: where it does not, replacing early never pays.
    pub(crate) fn grows(&self, life: &Life) -> bool {
        life.shape() > 1.0 && self.failed > self.planned || self.fading > 0.0
    }

    /// What letting it run a moment longer at an age costs, for that moment.
    fn marginal(&self, life: &Life, age: f64) -> f64 {
        (self.failed - self.planned) * life.force(age) + self.fading * age
    }
}

/// What replacing at an age, or at failure if that comes first, costs in the long run.
///
/// `C(T) = [c_p R(T) + c_f (1 − R(T)) + g ∫ t R dt] / ∫ R dt`, both from 0 to T
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `life` | R | of the part | |
/// | `cost` | `c_p`, `c_f`, g | of its ends | |
/// | `at` | T | age of replacement | unit of time |
/// | `returns` | C | cost | unit of money over time |
///
/// Range: age above 0.
/// Source: `barlow-hunter-1960`; the term of fading by the same argument.
///
/// # Errors
/// [`Error::NotPositive`].
pub fn rate(life: &Life, cost: &Cost, at: f64) -> Result<f64, Error> {
    Ok(rate_at(life, cost, positive("age of replacement", at)?))
}

fn rate_at(life: &Life, cost: &Cost, at: f64) -> f64 {
    cost.cycle(life, at) / life.run(at)
}

/// What replacing only at failure costs in the long run.
///
/// `(c_f + g ∫ t R dt) / ∫ R dt`, both from 0 on
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `life` | R | of the part | |
/// | `cost` | `c_f`, g | of its ends | |
/// | `returns` | | cost | unit of money over time |
///
/// Range: any.
/// Source: `barlow-hunter-1960`.
pub fn run_to_failure(life: &Life, cost: &Cost) -> f64 {
    rate_at(life, cost, f64::MAX)
}

/// The cheapest age to replace at.
///
/// `m(T) ∫ R dt = c_p R(T) + c_f (1 − R(T)) + g ∫ t R dt`, `m(T) = (c_f − c_p) h(T) + g T`
///
/// The left side less the right begins below zero and turns once at most, for `m` only rises, or falls
/// and then rises. Where it has not turned before the part is surely spent, replacing early never pays.
///
/// Range: any.
/// Source: `barlow-hunter-1960`.
pub fn best(life: &Life, cost: &Cost) -> Best {
    let to_failure = run_to_failure(life, cost);
    let short = |age: f64| cost.marginal(life, age) * life.run(age) - cost.cycle(life, age);
    let end = life.end();
    if !cost.grows(life) || short(end) <= 0.0 {
        return Best {
            at: None,
            rate: to_failure,
            to_failure,
            survival: 0.0,
        };
    }
    let at = root(short, 0.0, end);
    Best {
        at: Some(at),
        rate: rate_at(life, cost, at),
        to_failure,
        survival: life.left(at),
    }
}

/// The ages of replacement that cost hardly more than the cheapest.
///
/// `C(T) <= (1 + e) C*`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `life` | R | of the part | |
/// | `cost` | | of its ends | |
/// | `over` | e | more than the cheapest, as a share | `1` |
/// | `returns` | T | least and greatest age; no greatest where running to failure is among them | unit of time |
///
/// Range: share above 0.
/// Source: definition.
///
/// # Errors
/// [`Error::NotPositive`].
pub fn flat(life: &Life, cost: &Cost, over: f64) -> Result<(f64, Option<f64>), Error> {
    let over = positive("share over the least cost", over)?;
    let best = best(life, cost);
    let limit = best.rate * (1.0 + over);
    let end = life.end();
    let low = root(
        |age| limit - rate_at(life, cost, age),
        0.0,
        best.at.unwrap_or(end),
    );
    let high = match best.at {
        Some(at) if best.to_failure > limit => {
            Some(root(|age| rate_at(life, cost, age) - limit, at, end))
        }
        _ => None,
    };
    Ok((low, high))
}
