use proptest::prelude::*;
use service::Error;
use service::known::KnownShape;
use service::life::Life;
use service::posterior::{Posterior, Prior};
use service::records::Record::{self, Between, Failed, Good};

use crate::{close, near};

pub(crate) const PRIOR: Prior = Prior {
    shape: 2.2,
    shape_spread: 0.25,
    scale: 120.0,
    scale_spread: 0.5,
};

/// By scipy; made-up hours.
#[test]
fn computed_known_shape() {
    let guess = KnownShape::guess(2.2, 3.0, 120.0).unwrap();
    close(guess.sum, 112_543.390_86, 1e-10);
    near(guess.through(0.0, 50.0).unwrap(), 0.867_364, 5.1e-7);
    near(guess.through(0.0, 100.0).unwrap(), 0.546_406, 5.1e-7);
    near(guess.through(0.0, 150.0).unwrap(), 0.271_362, 5.1e-7);
    let seen = [Failed(95.0), Failed(140.0), Good(60.0)];
    let now = seen.into_iter().try_fold(guess, KnownShape::with).unwrap();
    near(now.count, 5.0, 0.0);
    close(now.sum, 195_806.452_47, 1e-10);
    near(now.through(0.0, 50.0).unwrap(), 0.871_374, 5.1e-7);
    near(now.through(0.0, 100.0).unwrap(), 0.546_900, 5.1e-7);
    near(now.through(0.0, 150.0).unwrap(), 0.256_237, 5.1e-7);
    near(now.through(60.0, 50.0).unwrap(), 0.588_530, 5.1e-7);
}

/// By numpy's Gauss-Legendre rule of 400 nodes over eight standard deviations either way; made-up hours. Cutting the
/// prior off at four moves the fifth digit.
#[test]
fn computed_both_unknown() {
    let before = Posterior::new(&PRIOR, &[]).unwrap();
    near(before.survival(50.0).unwrap(), 0.800_517_311, 2e-9);
    near(before.survival(100.0).unwrap(), 0.485_684_217, 2e-9);
    let seen = [Failed(95.0), Failed(140.0), Good(60.0)];
    let now = Posterior::new(&PRIOR, &seen).unwrap();
    near(now.mean(|one| one.scale), 135.820_552, 1e-6);
    near(now.mean(|one| one.shape), 2.437_281_7, 1e-7);
    near(now.survival(50.0).unwrap(), 0.882_705_933, 2e-9);
    near(now.survival(100.0).unwrap(), 0.569_343_724, 2e-9);
    // The part at 60 is among the records already; one of that age that is not has survived as evidence of its own.
    near(now.through(60.0, 50.0).unwrap(), 0.585_396_158, 2e-9);
    let another = now.survival(110.0).unwrap() / now.survival(60.0).unwrap();
    near(another, 0.601_541, 2e-5);
}

/// A wide prior reaches lives under which an interval cannot be; they weigh nothing and spoil nothing.
#[test]
fn law_a_wide_prior_bears_an_interval() {
    let wide = Prior {
        shape: 10.0,
        shape_spread: 1.0,
        scale_spread: 3.0,
        ..PRIOR
    };
    let now = Posterior::new(&wide, &[Between(60.0, 90.0), Good(40.0)]).unwrap();
    close(now.mean(|_| 1.0), 1.0, 1e-9);
    let scale = now.quantile(|one| one.scale, 0.5).unwrap();
    assert!((60.0..120.0).contains(&scale), "{scale}");
}

/// The handbook's way of 50 and 95 in 100: a mean life above 600 hours with even odds, above 250 nearly for sure. Its
/// own code, as a later copy quotes it, prints 2.863055 and 1522.506.
#[test]
fn published_guess_by_two_chances() {
    let guess = KnownShape::of_chances(1.0, 600.0, 250.0).unwrap();
    near(guess.count, 2.863_055, 5.1e-7);
    near(guess.sum, 1522.506, 5.1e-4);
    // More digits by scipy.stats.gamma and scipy.optimize.brentq.
    close(guess.count, 2.863_055_306_2, 1e-10);
    close(guess.sum, 1_522.505_622_06, 1e-10);
}

#[test]
fn law_opinions_refused() {
    for (half, tenth) in [(50.0, 50.0), (50.0, 60.0), (100.0, 99.0), (1e6, 1.0)] {
        match Prior::of_ages(half, tenth, 0.25, 0.5) {
            Err(Error::Opinion {
                half: h, tenth: t, ..
            }) => {
                near(h, half, 0.0);
                near(t, tenth, 0.0);
            }
            other => panic!("{other:?}"),
        }
    }
    assert!(matches!(
        Prior::of_ages(0.0, 1.0, 0.25, 0.5),
        Err(Error::NotPositive { .. })
    ));
    assert!(matches!(
        Prior::of_ages(80.0, 40.0, 0.0, 0.5),
        Err(Error::Outside { .. })
    ));
    assert!(matches!(
        Prior::of_ages(80.0, 40.0, 0.25, 9.0),
        Err(Error::Outside { .. })
    ));
    assert!(matches!(
        KnownShape::of_chances(1.0, 600.0, 600.0),
        Err(Error::Outside { .. })
    ));
    assert!(matches!(
        KnownShape::of_chances(1.0, 600.0, 0.0),
        Err(Error::NotPositive { .. })
    ));
}

proptest! {
    /// The life in the middle of what was said has lost what was said by when it was said.
    #[test]
    fn law_an_opinion_is_kept(half in 1.0..5000.0_f64, share in 0.01..0.9_f64) {
        let prior = Prior::of_ages(half, half * share, 0.25, 0.5).unwrap();
        let life = Life::new(prior.shape, prior.scale).unwrap();
        close(life.survival(half).unwrap(), 0.5, 1e-12);
        close(life.survival(half * share).unwrap(), 0.9, 1e-12);
    }
}

/// What a part ran since it was last seen is worth as much as a record of it: no look is counted twice.
#[test]
fn law_a_part_thought_good_is_a_record_of_its_age() {
    let prior = Prior::of_ages(102.0, 43.0, 0.25, 0.45).unwrap();
    let lives = |good: &[f64]| {
        let worn = [Between(35.0, 60.0), Failed(95.0)];
        let good = good.iter().map(|age| Good(*age));
        let records: Vec<Record> = worn.into_iter().chain(good).collect();
        Posterior::new(&prior, &records).unwrap()
    };
    for (seen, age) in [(0.0, 56.0), (51.0, 56.0), (56.0, 56.0), (20.0, 140.0)] {
        let looked = if seen > 0.0 { vec![seen] } else { Vec::new() };
        let told = lives(&looked).onward(seen, age, 50.0).unwrap();
        let recorded = lives(&[age]).through(age, 50.0).unwrap();
        close(told, recorded, 1e-6);
    }
}
