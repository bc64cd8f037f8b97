use service::Error;
use service::compare::{Choice, Comparison, Over, Which};
use service::cost::{Cost, rate};
use service::posterior::{Point, Posterior, Prior};
use service::records::Record::{self, Failed, Good};

use crate::posterior::PRIOR;
use crate::{close, near};

const METAL: Prior = Prior {
    shape: 3.0,
    shape_spread: 0.25,
    scale: 400.0,
    scale_spread: 0.6,
};

fn choice(lives: &Posterior, planned: f64, at: Option<f64>) -> Choice<'_> {
    let cost = Cost::new(planned, planned + 150.0).unwrap();
    Choice { lives, cost, at }
}

/// What is the same costs the same, and turning the question round turns the answer round.
#[test]
fn law_turned_round() {
    let plastic = Posterior::new(&PRIOR, &[Failed(95.0), Good(60.0)]).unwrap();
    let metal = Posterior::new(&METAL, &[]).unwrap();
    let a = choice(&plastic, 53.0, Some(70.0));
    let b = choice(&metal, 268.0, Some(400.0));
    let same = Comparison::new(&a, &a).unwrap();
    near(same.first_is_cheaper(), 0.5, 1e-9);
    let there = Comparison::new(&a, &b).unwrap().first_is_cheaper();
    let back = Comparison::new(&b, &a).unwrap().first_is_cheaper();
    close(there + back, 1.0, 1e-9);
    assert!((0.05..0.95).contains(&there), "{there} would check nothing");
}

/// The chance is that of all pairs of lives, counted one by one.
#[test]
fn law_every_pair_is_counted() {
    let plastic = Posterior::new(&PRIOR, &[]).unwrap();
    let metal = Posterior::new(&METAL, &[Good(200.0)]).unwrap();
    let a = choice(&plastic, 53.0, Some(70.0));
    let b = choice(&metal, 268.0, Some(400.0));
    let few = |one: &Choice| -> Vec<(f64, f64)> {
        let points = one.lives.points().iter();
        points
            .map(|p| (p.weight, rate(&p.life, &one.cost, one.at.unwrap()).unwrap()))
            .collect()
    };
    let (first, second) = (few(&a), few(&b));
    let mut chance = 0.0;
    for (weight, rate) in first.iter().filter(|one| one.0 > 1e-7) {
        let above = second.iter().filter(|one| one.1 > *rate);
        chance += weight * above.map(|one| one.0).sum::<f64>();
    }
    let told = Comparison::new(&a, &b).unwrap().first_is_cheaper();
    near(told, chance, 2e-3);
}

/// What is expected to be thought after a season is what is thought before, and a season that was seen is as good as
/// its record.
#[test]
fn law_a_season_is_its_record() {
    let plastic = Posterior::new(&PRIOR, &[Failed(95.0), Good(60.0)]).unwrap();
    let metal = Posterior::new(&METAL, &[]).unwrap();
    let a = choice(&plastic, 53.0, Some(70.0));
    let b = choice(&metal, 268.0, Some(400.0));
    let now = Comparison::new(&a, &b).unwrap();
    let before = now.first_is_cheaper();
    for which in [Which::First, Which::Second] {
        let season = now.season(which, 150.0).unwrap();
        let after = season.good * season.if_good + (1.0 - season.good) * season.if_failed;
        close(after, before, 1e-9);
    }
    let seen = Posterior::new(&METAL, &[Good(150.0)]).unwrap();
    let later = Comparison::new(&a, &choice(&seen, 268.0, Some(400.0))).unwrap();
    let season = now.season(Which::Second, 150.0).unwrap();
    near(later.first_is_cheaper(), season.if_good, 5e-4);
    assert!(
        season.if_good < before,
        "a good season of the second speaks for it"
    );
}

/// Where one life is known and the other is not, only the unknown one is worth running.
#[test]
fn law_the_unknown_part_tells_more() {
    let known = Prior {
        shape_spread: 0.01,
        scale_spread: 0.01,
        ..PRIOR
    };
    let plastic = Posterior::new(&known, &[]).unwrap();
    let metal = Posterior::new(&METAL, &[]).unwrap();
    let a = choice(&plastic, 53.0, Some(70.0));
    let b = choice(&metal, 268.0, Some(400.0));
    let (which, [first, second]) = Comparison::new(&a, &b).unwrap().settles(150.0).unwrap();
    assert_eq!(which, Which::Second);
    assert!(second.change > 5.0 * first.change);
}

fn struck(prior: &Prior, records: &[Record]) -> Posterior {
    let lives = Posterior::new(prior, records).unwrap();
    lives.struck(1.0 / 80.0, 0.15).unwrap()
}

/// Four hundred lives say what the whole grid says: the chance to 0.002, the mean cost to one in a thousand.
#[test]
fn law_few_lives_stand_for_many() {
    let plastic = struck(&PRIOR, &[Failed(95.0), Good(60.0)]);
    let metal = struck(&METAL, &[]);
    let (few_plastic, few_metal) = (plastic.thinned(400).unwrap(), metal.thinned(400).unwrap());
    assert!(plastic.points().len() > 10_000 && few_plastic.points().len() <= 400);
    for over in [Over::Always, Over::Hours(150.0), Over::Hours(400.0)] {
        let all = Comparison::over(
            &choice(&plastic, 53.0, Some(70.0)),
            &choice(&metal, 268.0, None),
            over,
        );
        let few = Comparison::over(
            &choice(&few_plastic, 53.0, Some(70.0)),
            &choice(&few_metal, 268.0, None),
            over,
        );
        let (all, few) = (all.unwrap(), few.unwrap());
        let chance = all.first_is_cheaper();
        near(few.first_is_cheaper(), chance, 2e-3);
        assert!(
            (0.05..0.95).contains(&chance),
            "{chance} would check nothing"
        );
        for which in [Which::First, Which::Second] {
            close(few.mean_rate(which), all.mean_rate(which), 1e-3);
            let (few, all) = (
                few.season(which, 50.0).unwrap(),
                all.season(which, 50.0).unwrap(),
            );
            near(few.good, all.good, 1e-3);
            near(few.if_good, all.if_good, 2e-3);
            near(few.if_failed, all.if_failed, 5e-3);
        }
    }
}

/// Whatever is drawn through meshes, weights, middles and spreads stay.
#[test]
fn law_thinning_keeps_middle_and_spread() {
    for records in [
        vec![],
        vec![Failed(95.0), Good(60.0)],
        vec![Failed(40.0); 30],
    ] {
        let all = struck(&PRIOR, &records);
        for most in [100, 900, 26_000] {
            let few = all.thinned(most).unwrap();
            close(few.mean(|_| 1.0), 1.0, 1e-12);
            for value in [|one: &Point| one.shape.ln(), |one: &Point| one.scale.ln()] {
                let middle = all.mean(value);
                near(few.mean(value), middle, 1e-10);
                let square = |one: &Point| (value(one) - middle).powi(2);
                close(few.mean(square), all.mean(square), 1e-9);
            }
            // Struck as they were.
            close(
                few.survival(30.0).unwrap(),
                all.survival(30.0).unwrap(),
                2e-3,
            );
        }
        for most in [0, 99, 26_001] {
            assert!(matches!(all.thinned(most), Err(Error::Outside { .. })));
        }
    }
}

/// Over a horizon a part that outlasts it costs its fitting and no more; over a long one what it costs for ever.
#[test]
fn law_a_horizon_lies_between_fitting_and_for_ever() {
    let plastic = struck(&PRIOR, &[Failed(95.0), Good(60.0)])
        .thinned(100)
        .unwrap();
    let metal = struck(&METAL, &[]).thinned(100).unwrap();
    let a = choice(&plastic, 53.0, Some(70.0));
    let b = choice(&metal, 268.0, Some(400.0));
    let soon = Comparison::over(&a, &b, Over::Hours(0.01)).unwrap();
    close(soon.mean_rate(Which::First), 53.0 / 0.01, 1e-3);
    close(soon.mean_rate(Which::Second), 268.0 / 0.01, 1e-3);
    near(soon.first_is_cheaper(), 1.0, 1e-9);
    let (late, always) = (
        Comparison::over(&a, &b, Over::Hours(1e5)).unwrap(),
        Comparison::new(&a, &b).unwrap(),
    );
    for which in [Which::First, Which::Second] {
        // One part more or less in 400 of the longer lived.
        close(late.mean_rate(which), always.mean_rate(which), 4e-3);
    }
    near(late.first_is_cheaper(), always.first_is_cheaper(), 5e-3);
    for hours in [0.0, -1.0, f64::INFINITY] {
        let none = Comparison::over(&a, &b, Over::Hours(hours));
        assert!(matches!(none, Err(Error::NotPositive { .. })));
    }
}
