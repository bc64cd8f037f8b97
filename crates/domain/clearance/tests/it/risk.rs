use clearance::risk::{Inspection, Prior, Risks, acceptance, risks};
use clearance::{Band, Combined};
use proptest::prelude::*;

use crate::assert_near;

/// The ball bearing of JCGM 106, 9.5.4, in micrometres: gamma law of shape 4 and scale 1/4.
const BEARINGS: Prior = Prior::Gamma { mean: 1.0, sd: 0.5 };

fn bearing(accept: f64) -> Risks {
    let how = Inspection {
        limit: 2.0,
        accept,
        uncertainty: 0.25,
    };
    risks(BEARINGS, how).unwrap()
}

#[test]
fn published_jcgm_106_ball_bearing() {
    // Printed as 4.2 %, 0.8 %, and 1.67 micrometres for the 0.1 % aimed at.
    let found = bearing(2.0);
    assert_near(found.nonconforming, 0.042, 5e-4);
    assert_near(found.consumer, 0.008, 5e-4);
    assert_near(acceptance(BEARINGS, 2.0, 0.25, 1e-3).unwrap(), 1.67, 5e-3);
}

#[test]
fn computed_scipy_ball_bearing() {
    // scipy 1.17.1, stats.gamma and integrate.quad, eight digits.
    let found = bearing(2.0);
    assert_near(found.nonconforming, 0.042_380_11, 6e-9);
    assert_near(found.consumer, 0.008_019_11, 6e-9);
    assert_near(found.producer, 0.017_444_57, 6e-9);
    let accept = acceptance(BEARINGS, 2.0, 0.25, 1e-3).unwrap();
    assert_near(accept, 1.671_828_77, 6e-9);
    assert_near(bearing(accept).producer, 0.075_493_88, 1e-8);
}

#[test]
fn computed_scipy_few_degrees_of_freedom() {
    // scipy 1.17.1, stats.t: cdf(2.5, 5), six digits; ppf(0.95, 16) and ppf(0.995, 16).
    let estimate = |freedom| Combined {
        uncertainty: 0.02,
        freedom,
    };
    let band = Band {
        least: None,
        greatest: Some(0.60),
    };
    let within = |freedom| estimate(freedom).probability_within(0.55, &band).unwrap();
    assert_near(within(5.0), 0.972_755, 6e-7);
    assert_near(within(f64::INFINITY), 0.993_790, 6e-7);
    let guard = |p| estimate(16.0).guard(&band, p).unwrap().greatest.unwrap();
    assert_near((0.60 - guard(0.995)) / 0.02, 2.920_782, 6e-7);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_risks_trade_against_each_other(
        mean in 0.5..3.0_f64,
        sd in 0.1..0.5_f64,
        normal in any::<bool>(),
        (limit, accept, more, uncertainty) in (0.5..4.0_f64, 0.0..4.0_f64, 0.01..1.0_f64, 0.01..1.0_f64),
    ) {
        let prior = if normal { Prior::Normal { mean, sd } } else { Prior::Gamma { mean, sd } };
        let at = |accept| risks(prior, Inspection { limit, accept, uncertainty }).unwrap();
        let (strict, lenient) = (at(accept), at(accept + more));
        // The sums stop at 1e-12 of the whole.
        prop_assert!(strict.consumer <= lenient.consumer + 1e-11);
        prop_assert!(strict.producer >= lenient.producer - 1e-11);
        prop_assert!(lenient.consumer <= lenient.nonconforming + 1e-11);
        prop_assert!(strict.producer <= 1.0 - strict.nonconforming + 1e-11);
    }

    #[test]
    fn law_a_guarded_estimate_just_conforms(y in 0.1..0.9_f64, u in 0.01..0.3_f64, freedom in 1_u32..60, required in 0.55..0.99_f64) {
        let known = Combined { uncertainty: u, freedom: f64::from(freedom) };
        let guard = known.guard(&Band { least: None, greatest: Some(y) }, required).unwrap();
        let just = known.probability_within(guard.greatest.unwrap(), &Band { least: None, greatest: Some(y) }).unwrap();
        prop_assert!((just - required).abs() < 1e-9, "{just} {required}");
    }
}
