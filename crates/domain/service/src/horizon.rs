//! What an owner pays who keeps the craft for so many hours more, and the cheapest age to replace at until then.
//!
//! The long run is for those who never sell. Over few hours the end counts: a part that is left in it has
//! no value here, so the last replacement has to pay for itself before the end.

use crate::Error;
use crate::cost::{Cost, best};
use crate::error::{not_negative, positive};
use crate::life::Life;
use crate::renewal::{FINE, Plan, whole};

/// Ages tried beside those that end at the horizon, and narrowings round the cheapest.
const TRIED: usize = 48;
const NARROWINGS: usize = 14;
/// Share that has to be saved to be told from what the grid leaves.
const SAVES: f64 = 1e-4;
/// Sum of the hazard of parts on the way to the end from which on one fails for sure.
const SURE: f64 = 10.0;

/// How long the craft is kept, and what is in it.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `age` | a | the part that is in has run; 0 for a new one | unit of time |
/// | `hours` | H | to run until the end, when nothing is replaced any more | unit of time |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kept {
    /// The part that is in has run; 0 for a new one.
    pub age: f64,
    /// To run until the end, when nothing is replaced any more.
    pub hours: f64,
}

/// The cheapest fixed age over a horizon.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `at` | age to replace at; none where replacing early never pays | unit of time |
/// | `cost` | expected of it until the end | unit of money |
/// | `to_failure` | expected of replacing at failure only | unit of money |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Within {
    /// Age to replace at; none where replacing early never pays.
    pub at: Option<f64>,
    /// Expected cost until the end.
    pub cost: f64,
    /// Expected cost of replacing at failure only.
    pub to_failure: f64,
}

impl Kept {
    fn checked(self) -> Result<Self, Error> {
        Ok(Self {
            age: not_negative("age of the part that is in", self.age)?,
            hours: not_negative("time to run", self.hours)?,
        })
    }
}

/// What is to be expected until the end, under a policy.
///
/// `V_a(H) = ∫ f_a(t) [c_f + V(H − t)] dt + R_a(T − a) [c_p + V(H − T + a)] + g ∫ (a + t) R_a(t) dt`, both integrals
/// from 0 to the lesser of `T − a` and H, the middle where `T − a < H`; `f_a`, `R_a` of a part of age a, V of a new one
///
/// Solved for V on a grid that meets T, as a straight line in every cell under the exact law of the life; what
/// planned replacements add in steps is taken out and reckoned exactly. Beyond 64 cycles the rest are mean ones.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `life` | R | of the part | |
/// | `cost` | `c_p`, `c_f`, g | of its ends | |
/// | `policy` | T | age it is replaced at, or at failure if first; none only at failure | unit of time |
/// | `kept` | a, H | age of the part that is in, one older than T being replaced at once; time to the end | unit of time |
/// | `returns` | V | expected cost | unit of money |
///
/// Range: age of replacement above 0; age and hours 0 or above. To one in 10 000 up to 64 cycles.
/// Source: `barlow-proschan-1965`; the grid by `brunner-houwen-1986`.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`].
pub fn within(life: &Life, cost: &Cost, policy: Option<f64>, kept: Kept) -> Result<f64, Error> {
    let at = match policy {
        Some(at) => positive("age of replacement", at)?,
        None => f64::INFINITY,
    };
    let Kept { age, hours } = kept.checked()?;
    Ok(Plan { life, cost, at }.over(age, hours, FINE))
}

/// The cheapest fixed age of replacement until the end.
///
/// The cost falls by a step at ages that divide the time, `T = (H + a) / k`, for the last replacement is
/// saved there; those are tried, ages between, and ever closer round the cheapest.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `life` | R | of the part | |
/// | `cost` | | of its ends | |
/// | `kept` | a, H | age of the part that is in, time to the end | unit of time |
///
/// Range: age and hours 0 or above. What saves less than one in 10 000 counts as nothing saved.
/// Source: definition.
///
/// # Errors
/// [`Error::Negative`].
pub fn best_within(life: &Life, cost: &Cost, kept: Kept) -> Result<Within, Error> {
    let Kept { age, hours } = kept.checked()?;
    let at_age = |at: f64| Plan { life, cost, at }.over(age, hours, FINE);
    let to_failure = at_age(f64::INFINITY);
    let never = Within {
        at: None,
        cost: to_failure,
        to_failure,
    };
    if !cost.grows(life) || hours <= 0.0 {
        return Ok(never);
    }
    let mut least = to_failure;
    if let Some(at) = best(life, cost).at {
        least = least.min(at_age(at));
    }
    let ages = candidates(life, least / cost.planned, age, hours);
    let costs: Vec<f64> = ages.iter().map(|at| at_age(*at)).collect();
    let order = |a: &usize, b: &usize| costs[*a].total_cmp(&costs[*b]);
    let Some(place) = (0..ages.len()).min_by(order) else {
        return Ok(never);
    };
    let mut found = (costs[place], ages[place]);
    for (low, high) in [
        (place.saturating_sub(1), place),
        (place, (place + 1).min(ages.len() - 1)),
    ] {
        let other = narrow(at_age, ages[low], ages[high]);
        if other.0 < found.0 {
            found = other;
        }
    }
    if found.0 < to_failure * (1.0 - SAVES) {
        Ok(Within {
            at: Some(found.1),
            cost: found.0,
            to_failure,
        })
    } else {
        Ok(never)
    }
}

/// Ages to try, in order: none so small that its planned replacements alone would cost more than is known to do.
fn candidates(life: &Life, most: f64, age: f64, hours: f64) -> Vec<f64> {
    let all = hours + age;
    let least = all / (most + 2.0);
    let mut ages = Vec::new();
    // Where it is all but sure that a part fails on the way, there is no step.
    let steps = |end: f64, ages: &mut Vec<f64>, meets: &dyn Fn(f64) -> bool| {
        for k in 1..=whole(most + 2.0) {
            let at = end / crate::real(k);
            if meets(at) && crate::real(k) * life.spent(at) < SURE {
                ages.push(at);
            }
        }
    };
    steps(all, &mut ages, &|at| at > age && at < all);
    steps(hours, &mut ages, &|at| at <= age);
    let ratio = (all / least).ln();
    for k in 0..TRIED {
        ages.push(least * (ratio * crate::real(k) / crate::real(TRIED)).exp());
    }
    ages.sort_by(f64::total_cmp);
    ages
}

/// The least between two ages among which there is one, by the golden section; their own values apart.
fn narrow(cost: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> (f64, f64) {
    let part = 0.5 * (5.0_f64.sqrt() - 1.0);
    let inner = |low: f64, high: f64| (high - part * (high - low), low + part * (high - low));
    let (mut left, mut right) = inner(low, high);
    let (mut at_left, mut at_right) = (cost(left), cost(right));
    for _ in 0..NARROWINGS {
        if at_left <= at_right {
            (high, right, at_right) = (right, left, at_left);
            left = inner(low, high).0;
            at_left = cost(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = inner(low, high).1;
            at_right = cost(right);
        }
    }
    if at_left <= at_right {
        (at_left, left)
    } else {
        (at_right, right)
    }
}
