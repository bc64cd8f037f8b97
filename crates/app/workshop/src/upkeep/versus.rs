//! Sorts of one kind held against each other: which is cheaper by the hour, how sure that is, what would settle it and
//! what would turn it round.

use service::basin::Course;
use service::compare::{Choice, Comparison, Over, Which};
use service::cost::{Bill, Cost};
use service::horizon::{Kept, within};
use service::posterior::Posterior;

use super::answer::{Flip, Versus};
use super::due::Now;
use super::hours::one_hour;
use super::parts::{FEW, Reckoned, by_hour, middle};

/// Lives either sort is thinned to: every pair of them is held against each other.
const LIVES: u32 = 200; // not a conversion: a count
/// Wages, costs of a failure and hours kept that are looked at, from the least to the most.
const LOOKED: u32 = 24;

/// What a sort is known by here.
struct Side<'a> {
    part: &'a Reckoned,
    lives: &'a Posterior,
    bill: &'a Bill,
    cost: &'a Cost,
    at: Option<f64>,
    until: Option<f64>,
}

impl<'a> Side<'a> {
    fn of(part: &'a Reckoned) -> Option<Self> {
        let (bill, cost) = part.bill.as_ref()?;
        Some(Self {
            part,
            lives: part.lives.as_ref()?,
            bill,
            cost,
            at: part.says.costs.as_ref()?.best,
            until: part.says.costs.as_ref()?.until,
        })
    }
}

/// Every pair of sorts of one kind.
pub(super) fn versus(now: &Now<'_>, parts: &[Reckoned]) -> Vec<Versus> {
    let sides: Vec<Side<'_>> = parts.iter().filter_map(Side::of).collect();
    let mut all = Vec::new();
    for (n, one) in sides.iter().enumerate() {
        let (kind, rest) = (one.part.says.kind, &sides[n + 1..]);
        let alike = rest
            .iter()
            .filter(|other| kind.is_some() && other.part.says.kind == kind);
        all.extend(alike.filter_map(|other| against(now, one, other)));
    }
    all
}

fn against(now: &Now<'_>, one: &Side<'_>, other: &Side<'_>) -> Option<Versus> {
    let usage = now.job.upkeep.usage();
    let (first, second) = (thin(one, LIVES)?, thin(other, LIVES)?);
    let sides = [choice(&first, one), choice(&second, other)];
    let always = Comparison::new(&sides[0], &sides[1]).ok()?;
    let chance = always.first_is_cheaper();
    let turned = chance < 0.5; // not a conversion: a share
    let of_cheaper = |chance: f64| if turned { 1.0 - chance } else { chance };
    let (cheaper, dearer) = if turned { (other, one) } else { (one, other) };
    let keep = usage.keep.as_ref().map(|keep| keep.value);
    let kept = keep.and_then(|keep| {
        let (first, second) = (thin(one, FEW)?, thin(other, FEW)?);
        let until = |lives, side: &Side<'_>| Choice {
            lives,
            cost: *side.cost,
            at: side.until,
        };
        let sides = [until(&first, one), until(&second, other)];
        let kept = Comparison::over(&sides[0], &sides[1], Over::Hours(keep)).ok()?;
        Some(of_cheaper(kept.first_is_cheaper()))
    });
    let season = usage.season.as_ref();
    let settles = season.and_then(|season| {
        let (which, seasons) = always.settles(season.value).ok()?;
        let (side, season) = match which {
            Which::First => (one, seasons[0]),
            Which::Second => (other, seasons[1]),
        };
        let key = side.part.says.key.clone();
        Some((
            key,
            of_cheaper(season.if_good),
            of_cheaper(season.if_failed),
        ))
    });
    Some(Versus {
        cheaper: cheaper.part.says.key.clone(),
        dearer: dearer.part.says.key.clone(),
        chance: of_cheaper(chance),
        kept,
        settles,
        flips: flips(cheaper, dearer),
    })
}

fn thin(side: &Side<'_>, most: u32) -> Option<Posterior> {
    side.lives.thinned(most).ok()
}

fn choice<'a>(lives: &'a Posterior, side: &Side<'_>) -> Choice<'a> {
    Choice {
        lives,
        cost: *side.cost,
        at: side.at,
    }
}

/// The figures that would turn the answer round, each alone.
fn flips(cheaper: &Side<'_>, dearer: &Side<'_>) -> Vec<Flip> {
    let Some((a, b)) = middle(cheaper.lives).zip(middle(dearer.lives)) else {
        return Vec::new();
    };
    let sides = [
        (&a, Course::new(&a), cheaper),
        (&b, Course::new(&b), dearer),
    ];
    // How much the cheaper one is dearer, with both bills changed alike.
    let rates = |change: &dyn Fn(Bill) -> Bill| {
        let mut rates = sides.iter().filter_map(|(_, course, side)| {
            let cost = change(*side.bill).cost().ok()?;
            Some(course.least(&cost))
        });
        Some(rates.next()? - rates.next()?)
    };
    let (wage, failure) = (cheaper.bill.wage, cheaper.bill.failure);
    let most = cheaper.bill.part.max(dearer.bill.part);
    let wages = turned(wage, WAGE * most / one_hour(), |wage| {
        rates(&|bill| Bill { wage, ..bill })
    });
    let failures = turned(failure, FAILURE * (most + failure), |failure| {
        rates(&|bill| Bill { failure, ..bill })
    });
    let longest = sides
        .iter()
        .map(|(life, ..)| life.mean())
        .fold(0.0, f64::max);
    let keeps = turned(KEPT * longest, KEPT * longest, |hours| {
        let kept = Kept { age: 0.0, hours };
        let mut money = sides.iter().filter_map(|(life, _, side)| {
            let of = |at| within(life, side.cost, at, kept).ok();
            let least = of(side.at)?.min(of(None)?);
            Some(side.cost.planned() + least)
        });
        Some(money.next()? - money.next()?)
    });
    let wages = wages.map(|wage| Flip::Wage(by_hour(wage)));
    let failures = failures.map(Flip::Failure);
    let keeps = keeps.map(Flip::Keep);
    wages.into_iter().chain(failures).chain(keeps).collect()
}

/// The greatest wage looked at, in parts an hour; of a failure, in parts; of hours kept, in longest lives.
const WAGE: f64 = 1.0;
const FAILURE: f64 = 5.0;
const KEPT: f64 = 3.0;

/// The figure nearest to what it is at which the cheaper one is cheaper no more.
fn turned(is: f64, most: f64, dearer: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    if dearer(is)? > 0.0 {
        return None;
    }
    let step = most / f64::from(LOOKED);
    let grid = (0..=LOOKED).map(|n| step * f64::from(n));
    let mut tried: Vec<f64> = grid.collect();
    tried.sort_by(|a, b| (a - is).abs().total_cmp(&(b - is).abs()));
    let far = tried
        .into_iter()
        .find(|at| dearer(*at).is_some_and(|more| more > 0.0))?;
    let (mut near, mut far) = (is, far);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (near + far);
        if dearer(middle)? > 0.0 {
            far = middle;
        } else {
            near = middle;
        }
    }
    Some(far)
}

/// A figure to a hundredth of a step.
const HALVINGS: usize = 9;
