use service::posterior::{KnownShape, Posterior, Prior};
use service::records::Record::{Between, Failed, Good};

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
