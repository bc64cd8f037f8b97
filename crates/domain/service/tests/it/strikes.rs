use proptest::prelude::*;
use service::Error;
use service::strikes::Strikes;

use crate::{close, near};

/// By scipy.stats.gamma; made-up hours.
#[test]
fn computed_two_strikes_in_ninety_hours() {
    let guess = Strikes::guess(80.0).unwrap();
    close(guess.mean(), 0.0125, 1e-15);
    // One strike is an exponential law: half of it lies below ln 2 of its mean.
    close(guess.quantile(0.5).unwrap(), 2.0_f64.ln() / 80.0, 1e-12);
    let now = guess.seen(2, 90.0).unwrap();
    close(now.mean(), 3.0 / 170.0, 1e-15);
    close(now.quantile(0.9).unwrap(), 0.031_307_766_693_14, 1e-10);
    close(now.survival(0.15, 50.0).unwrap(), 0.878_520_079_014, 1e-10);
}

#[test]
fn law_strikes_refused() {
    assert!(matches!(
        Strikes::guess(0.0),
        Err(Error::NotPositive { .. })
    ));
    let guess = Strikes::guess(80.0).unwrap();
    assert!(matches!(guess.seen(1, 0.0), Err(Error::NotPositive { .. })));
    assert!(matches!(guess.seen(0, -1.0), Err(Error::Negative { .. })));
    assert!(matches!(guess.quantile(0.0), Err(Error::Outside { .. })));
    assert!(matches!(
        guess.survival(1.5, 1.0),
        Err(Error::Outside { .. })
    ));
    assert!(matches!(
        guess.survival(0.5, f64::NAN),
        Err(Error::Negative { .. })
    ));
    assert_eq!(guess.seen(0, 0.0).unwrap(), guess);
}

proptest! {
    /// A chance is the mean over the law of the rate: here over two hundred of its quantiles.
    #[test]
    fn law_survival_is_a_mean_over_rates(strikes in 0_u32..20, hours in 1.0..500.0_f64, chance in 0.0..1.0_f64, run in 0.0..200.0_f64) {
        let now = Strikes::guess(80.0).unwrap().seen(strikes, hours).unwrap();
        let mean: f64 = (0..200).map(|k| {
            let share = 0.0025 + 0.005 * f64::from(k);
            (-now.quantile(share).unwrap() * chance * run).exp() / 200.0
        }).sum();
        // The rule of middles leaves the square of its step where the law of the rate is steepest.
        near(now.survival(chance, run).unwrap(), mean, 5e-4);
    }

    /// Not knowing the rate is no worse than knowing it to be its mean, and the more was seen the less it matters.
    #[test]
    fn law_an_unknown_rate_bears_longer(strikes in 0_u32..20, hours in 1.0..500.0_f64, chance in 0.0..1.0_f64, run in 0.0..200.0_f64) {
        let now = Strikes::guess(80.0).unwrap().seen(strikes, hours).unwrap();
        let known = |now: &Strikes| (-now.mean() * chance * run).exp();
        prop_assert!(now.survival(chance, run).unwrap() >= known(&now) * (1.0 - 1e-12));
        let sure = Strikes::guess(80.0).unwrap().seen(1_000_000, 8e7).unwrap();
        close(sure.survival(chance, run).unwrap(), known(&sure), 1e-5);
    }

    #[test]
    fn law_strikes_add_up(first in 0_u32..20, second in 0_u32..20, hours in 1.0..500.0_f64, more in 1.0..500.0_f64) {
        let guess = Strikes::guess(80.0).unwrap();
        let one = guess.seen(first, hours).unwrap().seen(second, more).unwrap();
        let both = guess.seen(first + second, hours + more).unwrap();
        close(one.mean(), both.mean(), 1e-14);
    }
}
