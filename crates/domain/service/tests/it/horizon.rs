use proptest::prelude::*;
use service::Error;
use service::cost::{Bill, Cost, Fade, best, rate, run_to_failure};
use service::horizon::{Kept, best_within, within};
use service::life::Life;

use crate::{close, near};

fn new(hours: f64) -> Kept {
    Kept { age: 0.0, hours }
}

fn life(shape: f64, ruin: f64) -> Life {
    Life::new(shape, 100.0).unwrap().struck(ruin, 1.0).unwrap()
}

fn cost(failed: f64, worth: f64) -> Cost {
    let fade = Fade {
        share: 0.1,
        after: 100.0,
        worth,
    };
    let bill = Bill {
        part: 1.0,
        consumables: 0.0,
        labour: 0.0,
        wage: 0.0,
        failure: failed - 1.0,
        fade: Some(fade),
    };
    bill.cost().unwrap()
}

/// Chance failures come as a Poisson process whatever is replaced: `λ H` of them; and of planned replacements, at
/// most one within two ages, `e^(−λ T) (1 + λ (H − T))`.
#[test]
fn law_chance_failures_have_a_closed_form() {
    let life = Life::new(1.0, 80.0).unwrap();
    let cost = Cost::new(50.0, 200.0).unwrap();
    let lambda: f64 = 1.0 / 80.0;
    for hours in [1.0, 60.0, 95.0, 119.0, 500.0, 20_000.0] {
        let failures = within(&life, &cost, None, new(hours)).unwrap();
        // What the grid leaves, here and below.
        close(failures, 200.0 * lambda * hours, 2e-5);
        if hours < 120.0 {
            let planned = if hours > 60.0 {
                50.0 * (-lambda * 60.0).exp() * (1.0 + lambda * (hours - 60.0))
            } else {
                0.0
            };
            let found = within(&life, &cost, Some(60.0), new(hours)).unwrap();
            close(found, failures + planned, 2e-5);
        }
    }
}

/// A part that surely lasts: its replacements are counted, and none is made at the end.
#[test]
fn law_sure_lives_are_counted() {
    let life = Life::new(50.0, 1000.0).unwrap();
    let cost = cost(5.0, 20.0);
    let growth = 0.02;
    for (hours, count) in [
        (59.0, 0.0),
        (60.0, 0.0),
        (61.0, 1.0),
        (180.0, 2.0),
        (199.0, 3.0),
    ] {
        let last = hours - 60.0 * count;
        let worn = 0.5 * growth * (count * 3600.0 + last * last);
        let found = within(&life, &cost, Some(60.0), new(hours)).unwrap();
        close(found, count + worn, 1e-5);
    }
    // A part of 40 hours is due after 20; one of 70 at once.
    let due = Kept {
        age: 40.0,
        hours: 25.0,
    };
    let worn = 0.5 * growth * (3600.0 - 1600.0 + 25.0);
    close(
        within(&life, &cost, Some(60.0), due).unwrap(),
        1.0 + worn,
        1e-5,
    );
    let late = Kept {
        age: 70.0,
        hours: 25.0,
    };
    let worn = 0.5 * growth * 625.0;
    close(
        within(&life, &cost, Some(60.0), late).unwrap(),
        1.0 + worn,
        1e-5,
    );
}

/// Beside its life a short horizon sees one failure at most.
#[test]
fn law_a_short_horizon_is_one_chance() {
    let cost = Cost::new(53.0, 203.0).unwrap();
    for (shape, ruin) in [(1.5, 0.0), (2.2, 0.0), (3.0, 0.001)] {
        let life = life(shape, ruin);
        for age in [0.0, 60.0] {
            let kept = Kept { age, hours: 0.05 };
            let chance = 1.0 - life.through(age, 0.05).unwrap();
            // Of the second failure it is the chance of the first again, and of rounding in this difference.
            close(
                within(&life, &cost, None, kept).unwrap(),
                203.0 * chance,
                2e-3,
            );
        }
    }
}

#[test]
fn law_owners_refused() {
    let (life, cost) = (life(2.2, 0.0), Cost::new(1.0, 5.0).unwrap());
    let hours = within(&life, &cost, None, new(-1.0));
    assert!(matches!(hours, Err(Error::Negative { value: -1.0, .. })));
    let old = Kept {
        age: f64::NAN,
        hours: 10.0,
    };
    assert!(matches!(
        within(&life, &cost, None, old),
        Err(Error::Negative { .. })
    ));
    assert!(matches!(
        best_within(&life, &cost, old),
        Err(Error::Negative { .. })
    ));
    let at = within(&life, &cost, Some(0.0), new(10.0));
    assert!(matches!(at, Err(Error::NotPositive { value: 0.0, .. })));
}

/// Whoever sells before the part would pay for itself replaces nothing early; whoever never sells does as in the
/// long run.
#[test]
fn law_the_end_decides() {
    let (life, cost) = (life(2.2, 0.0), Cost::new(53.0, 203.0).unwrap());
    assert_eq!(best_within(&life, &cost, new(40.0)).unwrap().at, None);
    near(best_within(&life, &cost, new(0.0)).unwrap().cost, 0.0, 0.0);
    let long = best(&life, &cost);
    let found = best_within(&life, &cost, new(4000.0)).unwrap();
    close(found.at.unwrap(), long.at.unwrap(), 0.02);
    // An age that ends with the horizon saves part of one replacement of the 57 or so.
    close(found.cost / 4000.0, long.rate, 0.02);
    let chance = Life::new(1.0, 100.0).unwrap();
    assert_eq!(best_within(&chance, &cost, new(4000.0)).unwrap().at, None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn law_longer_never_costs_less(shape in 1.0..6.0_f64, ruin in 0.0..0.02_f64, worth in 0.0..5.0_f64, at in 20.0..300.0_f64, age in 0.0..150.0_f64, hours in 0.0..500.0_f64, more in 0.0..100.0_f64) {
        let (life, cost) = (life(shape, ruin), cost(5.0, worth));
        for policy in [Some(at), None] {
            let less = within(&life, &cost, policy, Kept { age, hours }).unwrap();
            let all = within(&life, &cost, policy, Kept { age, hours: hours + more }).unwrap();
            // To what the grid leaves.
            prop_assert!(all >= less * (1.0 - 1e-4), "{all} after {less}");
        }
    }

    /// Between one long horizon and another lies the cost of the long run.
    #[test]
    fn law_cost_grows_by_the_rate(shape in 1.0..4.0_f64, ruin in 0.0..0.02_f64, worth in 0.0..5.0_f64, at in 40.0..200.0_f64, age in 0.0..150.0_f64, hours in 3000.0..20_000.0_f64) {
        let (life, cost) = (life(shape, ruin), cost(5.0, worth));
        for (policy, rate) in [(Some(at), rate(&life, &cost, at).unwrap()), (None, run_to_failure(&life, &cost))] {
            let first = within(&life, &cost, policy, Kept { age, hours }).unwrap();
            let last = within(&life, &cost, policy, Kept { age, hours: 2.0 * hours }).unwrap();
            // One age of replacement may fall on either side of the end: one cost of fifteen or more cycles.
            let slack = 1e-4 * last + life.survival(at).unwrap().powf(0.9 * hours / at);
            prop_assert!((last - first - rate * hours).abs() <= slack, "{first}, {last}, {rate}, {slack}");
        }
    }

    #[test]
    fn law_hours_and_money_of_an_owner_have_no_unit(shape in 1.0..5.0_f64, at in 20.0..300.0_f64, age in 0.0..150.0_f64, hours in 1.0..500.0_f64, time in 0.01..4000.0_f64, money in 0.01..1000.0_f64) {
        let plain = within(&life(shape, 0.002), &Cost::new(1.0, 5.0).unwrap(), Some(at), Kept { age, hours }).unwrap();
        let other = Life::new(shape, 100.0 * time).unwrap().struck(0.002 / time, 1.0).unwrap();
        let kept = Kept { age: age * time, hours: hours * time };
        let scaled = within(&other, &Cost::new(money, 5.0 * money).unwrap(), Some(at * time), kept).unwrap();
        // Rounding may put one cell more or less into the grid.
        close(scaled, plain * money, 1e-4);
    }

    #[test]
    fn law_no_age_is_cheaper_than_the_best(shape in 1.2..6.0_f64, ruin in 0.0..0.01_f64, ratio in 1.5..15.0_f64, age in 0.0..150.0_f64, hours in 1.0..600.0_f64, at in 5.0..700.0_f64) {
        let (life, cost) = (life(shape, ruin), Cost::new(1.0, ratio).unwrap());
        let kept = Kept { age, hours };
        let best = best_within(&life, &cost, kept).unwrap();
        let other = within(&life, &cost, Some(at), kept).unwrap();
        // What saves one in 10 000 counts as nothing; the grid leaves as much again, the search the rest.
        prop_assert!(other >= best.cost * (1.0 - 4e-4), "{other} at {at} under {best:?}");
        close(best.cost, within(&life, &cost, best.at, kept).unwrap(), 1e-12);
        prop_assert!(best.cost <= best.to_failure);
    }
}
