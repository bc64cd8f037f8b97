use service::compare::{Choice, Comparison, Which};
use service::cost::{Cost, rate};
use service::posterior::{Posterior, Prior};
use service::records::Record::{Failed, Good};

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
