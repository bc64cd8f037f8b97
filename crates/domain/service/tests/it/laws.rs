//! What holds whatever the numbers.

use proptest::prelude::*;
use service::cost::{Cost, best, rate, run_to_failure};
use service::known::KnownShape;
use service::life::Life;
use service::posterior::{Posterior, Prior};
use service::records::Record::{Between, Failed, Good};
use service::records::{fit, log_likelihood};

use crate::close;
use crate::posterior::PRIOR;

proptest! {
    #[test]
    fn law_cost_tends_to_that_of_failure(shape in 0.6..5.0_f64, ratio in 1.0..20.0_f64, ruin in 0.0..0.02_f64) {
        let life = Life::new(shape, 100.0).unwrap().struck(ruin, 1.0).unwrap();
        let cost = Cost::new(1.0, ratio).unwrap();
        let last = rate(&life, &cost, life.quantile(0.999_999).unwrap()).unwrap();
        close(last, run_to_failure(&life, &cost), 2e-4);
    }

    #[test]
    fn law_the_best_age_is_the_cheapest(shape in 1.2..5.0_f64, ratio in 1.5..20.0_f64, ruin in 0.0..0.02_f64, at in 0.01..5.0_f64) {
        let life = Life::new(shape, 100.0).unwrap().struck(ruin, 1.0).unwrap();
        let cost = Cost::new(1.0, ratio).unwrap();
        let best = best(&life, &cost);
        prop_assert!(rate(&life, &cost, at * 100.0).unwrap() >= best.rate * (1.0 - 1e-12));
        prop_assert!(best.to_failure >= best.rate * (1.0 - 1e-12));
    }

    #[test]
    fn law_hours_and_money_have_no_unit(shape in 1.5..5.0_f64, ratio in 2.0..20.0_f64, time in 0.01..4000.0_f64, money in 0.01..1000.0_f64) {
        let plain = best(
            &Life::new(shape, 100.0).unwrap().struck(0.001, 1.0).unwrap(),
            &Cost::new(3.0, 3.0 * ratio).unwrap(),
        );
        let other = best(
            &Life::new(shape, 100.0 * time).unwrap().struck(0.001 / time, 1.0).unwrap(),
            &Cost::new(3.0 * money, 3.0 * ratio * money).unwrap(),
        );
        close(other.at.unwrap(), plain.at.unwrap() * time, 1e-7);
        close(other.rate, plain.rate * money / time, 1e-11);
    }

    #[test]
    fn law_records_have_no_unit(a in 10.0..90.0_f64, b in 100.0..200.0_f64, time in 0.001..4000.0_f64) {
        let plain = fit(&[Failed(a), Failed(b), Good(a)]).unwrap();
        let other = fit(&[Failed(a * time), Failed(b * time), Good(a * time)]).unwrap();
        close(other.shape, plain.shape, 1e-9);
        close(other.scale, plain.scale * time, 1e-9);
    }

    #[test]
    fn law_risks_that_compete_multiply(shape in 0.5..5.0_f64, rate in 0.0..0.1_f64, chance in 0.0..1.0_f64, age in 0.0..300.0_f64) {
        let wear = Life::new(shape, 100.0).unwrap();
        let both = wear.struck(rate, chance).unwrap().survival(age).unwrap();
        close(both, wear.survival(age).unwrap() * (-rate * chance * age).exp(), 1e-12);
    }

    #[test]
    fn law_survival_falls_and_ends_add_up(shape in 0.5..5.0_f64, ruin in 0.0..0.1_f64, age in 0.0..300.0_f64, more in 0.01..100.0_f64) {
        let life = Life::new(shape, 100.0).unwrap().struck(ruin, 1.0).unwrap();
        let (first, last) = (life.survival(age).unwrap(), life.survival(age + more).unwrap());
        prop_assert!(last <= first);
        close(life.through(age, more).unwrap() * first, last, 1e-12);
        let ends = life.ends(age).unwrap();
        prop_assert!(ends.worn >= -1e-13 && ends.struck >= 0.0);
    }

    /// The closed form of the integral against the rule that strikes need.
    #[test]
    fn law_a_vanishing_risk_changes_nothing(shape in 0.5..20.0_f64, age in 1.0..400.0_f64) {
        let wear = Life::new(shape, 100.0).unwrap();
        let struck = wear.struck(1e-13, 1.0).unwrap();
        close(struck.mean(), wear.mean(), 1e-9);
        let cost = Cost::new(1.0, 3.0).unwrap();
        close(rate(&struck, &cost, age).unwrap(), rate(&wear, &cost, age).unwrap(), 1e-9);
    }

    #[test]
    fn law_a_failure_never_raises_survival(shape in 0.8..5.0_f64, count in 0.1..10.0_f64, at in 1.0..300.0_f64, age in 1.0..300.0_f64) {
        let guess = KnownShape::guess(shape, count, 120.0).unwrap();
        let good = guess.with(Good(at)).unwrap().through(0.0, age).unwrap();
        let failed = guess.with(Failed(at)).unwrap().through(0.0, age).unwrap();
        prop_assert!(failed <= good);
        prop_assert!(good >= guess.through(0.0, age).unwrap());
    }
}

proptest! {
    // Each case draws a grid or two.
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Sums in another order differ by rounding, which a root and a grid carry on.
    #[test]
    fn law_order_of_records_does_not_matter(a in 10.0..90.0_f64, b in 100.0..200.0_f64, c in 20.0..150.0_f64, turn in 1_usize..5) {
        let records = [Failed(a), Failed(b), Good(c), Between(a, b), Between(0.0, c)];
        let mut turned = records;
        turned.rotate_left(turn);
        turned.swap(0, 3);
        close(log_likelihood(&turned, 2.0, 100.0).unwrap(), log_likelihood(&records, 2.0, 100.0).unwrap(), 1e-13);
        let (one, other) = (fit(&records).unwrap(), fit(&turned).unwrap());
        close(other.shape, one.shape, 1e-9);
        close(other.scale, one.scale, 1e-9);
        let (one, other) = (Posterior::new(&PRIOR, &records).unwrap(), Posterior::new(&PRIOR, &turned).unwrap());
        close(other.survival(100.0).unwrap(), one.survival(100.0).unwrap(), 1e-9);
    }

    /// Of the grid, where the shape is all but known, as of the closed form below.
    #[test]
    fn law_a_failure_never_raises_survival_of_the_grid(shape in 0.8..5.0_f64, at in 10.0..300.0_f64, age in 1.0..300.0_f64) {
        let prior = Prior { shape, shape_spread: 0.001, ..PRIOR };
        let good = Posterior::new(&prior, &[Failed(95.0), Good(at)]).unwrap();
        let failed = Posterior::new(&prior, &[Failed(95.0), Failed(at)]).unwrap();
        prop_assert!(failed.survival(age).unwrap() <= good.survival(age).unwrap() * (1.0 + 1e-12));
    }
}

/// The chance of a part in the records is the ratio of two posteriors: `E[R(a+s)] / E[R(a)]` before it was added.
#[test]
fn law_a_good_part_counts_once() {
    let seen = [Failed(95.0), Failed(140.0)];
    let without = Posterior::new(&PRIOR, &seen).unwrap();
    let with = Posterior::new(&PRIOR, &[seen[0], seen[1], Good(60.0)]).unwrap();
    let ratio = without.survival(110.0).unwrap() / without.survival(60.0).unwrap();
    close(with.through(60.0, 50.0).unwrap(), ratio, 1e-9);
}

/// With no record the median is the prior's, and with parts that are all good it only rises.
#[test]
fn law_the_prior_stands_until_moved() {
    let before = Posterior::new(&PRIOR, &[]).unwrap();
    close(before.quantile(|one| one.scale, 0.5).unwrap(), 120.0, 1e-6);
    close(before.quantile(|one| one.shape, 0.5).unwrap(), 2.2, 1e-6);
    // Between points of the grid a quantile is good to the square of its step, 0.0375, times the slope there.
    let upper = before.quantile(|one| one.scale, 0.975).unwrap();
    close(upper, 120.0 * (0.5 * 1.959_964_f64).exp(), 2e-3);
    let good = Posterior::new(&PRIOR, &[Good(150.0), Good(90.0)]).unwrap();
    assert!(good.quantile(|one| one.scale, 0.5).unwrap() > 120.0);
}

/// Many records: the posterior lies on the likelihood's top, however coarse the first grid was beside it.
#[test]
fn law_many_records_outweigh_the_prior() {
    let mut records = Vec::new();
    for k in 0..2000 {
        let share = (f64::from(k) + 0.5) / 2000.0;
        records.push(Failed(80.0 * (-(-share).ln_1p()).powf(1.0 / 3.0)));
    }
    let now = Posterior::new(&PRIOR, &records).unwrap();
    let top = fit(&records).unwrap();
    close(now.mean(|one| one.scale), top.scale, 1e-3);
    close(now.mean(|one| one.shape), top.shape, 2e-3);
    let spread = now.quantile(|one| one.scale.ln(), 0.841_345).unwrap()
        - now.quantile(|one| one.scale.ln(), 0.158_655).unwrap();
    close(0.5 * spread, top.scale_error, 0.02);
}
