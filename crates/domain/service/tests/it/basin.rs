//! The cost over all ages, where the life is not surely known.

use service::basin::{Course, basin};
use service::cost::{Cost, best, flat, rate, run_to_failure};
use service::life::Life;
use service::posterior::{Posterior, Prior};

use crate::close;

fn lives(shape: f64, scale: f64, spread: f64) -> Posterior {
    let prior = Prior {
        shape,
        shape_spread: spread,
        scale,
        scale_spread: spread,
    };
    Posterior::new(&prior, &[]).unwrap()
}

/// The cheapest age for `β = 1.5, 2, 3, 4` and `c_f/c_p = 2, 5, 10`: scipy's root of Barlow and Hunter's condition.
#[test]
fn computed_a_life_as_good_as_known_has_its_own_cheapest_age() {
    for (shape, dear, at, least) in [
        (2.0, 5.0, 0.51066, 4.08524),
        (2.5, 5.0, 0.49305, 3.46204),
        (3.0, 2.0, 0.81034, 1.96996),
        (3.0, 10.0, 0.38246, 3.94935),
        (4.0, 3.0, 0.64159, 2.11287),
    ] {
        let known = lives(shape, 1.0, 0.001);
        let found = basin(&known, &Cost::new(1.0, dear).unwrap(), 0.8).unwrap();
        let best = found.best.unwrap();
        // The grid's ages lie some 8 % apart; the parabola through three finds the least between.
        close(best.at, at, 2e-3);
        close(best.rate.mean, least, 2e-4);
    }
}

#[test]
fn law_the_curve_is_the_mean_of_the_lives_costs() {
    let lives = lives(2.2, 120.0, 0.2).struck(1.0 / 80.0, 0.15).unwrap();
    let cost = Cost::new(53.0, 203.0).unwrap();
    let found = basin(&lives, &cost, 0.8).unwrap();
    for age in found.ages.iter().step_by(9) {
        let mean = lives.mean(|point| rate(&point.life, &cost, age.at).unwrap());
        close(age.rate.mean, mean, 1e-6);
        assert!(
            age.rate.low <= age.rate.mean && age.rate.mean <= age.rate.high,
            "{age:?}"
        );
    }
    let mean = lives.mean(|point| run_to_failure(&point.life, &cost));
    // Gauss's rule from age to age against the double exponential one.
    close(found.to_failure.rate.mean, mean, 1e-7);
}

#[test]
fn law_the_flat_ages_are_those_of_the_one_life() {
    let (shape, scale) = (2.2, 120.0);
    let cost = Cost::new(53.0, 203.0).unwrap();
    let found = basin(&lives(shape, scale, 0.001), &cost, 0.8).unwrap();
    let life = Life::new(shape, scale).unwrap();
    let (low, high) = found.flat(0.05).unwrap();
    let (least, most) = flat(&life, &cost, 0.05).unwrap();
    // Straight lines between ages some 8 % apart.
    close(low, least, 0.01);
    close(high.unwrap(), most.unwrap(), 0.01);
    close(found.best.unwrap().at, best(&life, &cost).at.unwrap(), 2e-3);
}

#[test]
fn law_a_part_that_fails_by_chance_is_never_replaced_early() {
    let cost = Cost::new(1.0, 5.0).unwrap();
    let found = basin(&lives(1.0, 100.0, 0.001), &cost, 0.8).unwrap();
    assert_eq!(found.best, None);
    assert_eq!(found.flat(0.05).unwrap().1, None);
    let found = basin(&lives(2.2, 100.0, 0.1), &Cost::new(1.0, 1.0).unwrap(), 0.8).unwrap();
    assert_eq!(found.best, None);
}

#[test]
fn law_a_course_has_the_least_cost_of_its_life() {
    let life = Life::new(2.2, 120.0)
        .unwrap()
        .struck(0.001_875, 1.0)
        .unwrap();
    let course = Course::new(&life);
    for failed in [60.0, 203.0, 900.0] {
        let cost = Cost::new(53.0, failed).unwrap();
        close(course.least(&cost), best(&life, &cost).rate, 2e-3);
    }
    let chance = Life::new(1.0, 80.0).unwrap();
    let cost = Cost::new(53.0, 203.0).unwrap();
    close(Course::new(&chance).least(&cost), 203.0 / 80.0, 1e-6);
}

#[test]
fn law_money_and_hours_only_scale() {
    let cost = |by: f64| Cost::new(53.0 * by, 203.0 * by).unwrap();
    let one = basin(&lives(2.2, 120.0, 0.2), &cost(1.0), 0.8).unwrap();
    let other = basin(&lives(2.2, 360.0, 0.2), &cost(7.0), 0.8).unwrap();
    let (a, b) = (one.best.unwrap(), other.best.unwrap());
    close(b.at, 3.0 * a.at, 1e-9);
    close(b.rate.mean, 7.0 / 3.0 * a.rate.mean, 1e-9);
}
