use clearance::Verdict;
use clearance::leak::{Air, Instruments, Judged, Loss, Shown, Test, flow, judge, loss, tight};
use proptest::prelude::*;

use crate::assert_near;

/// 20 degrees Celsius.
const WARM: f64 = 293.15;
/// The standard atmosphere, Pa.
const ATMOSPHERE: f64 = 101_325.0;

/// A test of 70 kPa held for 10 minutes, the housing 5 K cooler at its end.
fn cooled(end: f64) -> Test {
    Test {
        start: Shown {
            gauge: 70e3,
            temperature: WARM,
        },
        end: Shown {
            gauge: end,
            temperature: WARM - 5.0,
        },
        hold: 600.0,
        air: Air {
            pressure: ATMOSPHERE,
            uncertainty: 500.0,
            drift: 20.0,
        },
        instruments: Instruments {
            gauge: 100.0,
            thermometer: 0.2,
        },
    }
}

#[test]
fn law_five_kelvin_look_like_a_leak() {
    // In the standard atmosphere of 101 325 Pa: 171 325 Pa times 5 / 293.15, by hand.
    let shown = tight(cooled(0.0).start, WARM - 5.0, ATMOSPHERE).unwrap();
    assert_near(70e3 - shown, 2_922.14, 5e-3);
    let Loss { loss, rate, .. } = loss(&cooled(70e3 - 2_922.14)).unwrap();
    assert_near(loss, 0.0, 5e-3);
    assert_near(rate, 0.0, 1e-5);
}

#[test]
fn law_uncertainty_is_that_of_small_changes() {
    // Each reading moved by its uncertainty, one at a time.
    let base = cooled(65e3);
    let moved = |change: fn(&mut Test)| {
        let mut test = base;
        change(&mut test);
        loss(&test).unwrap().loss - loss(&base).unwrap().loss
    };
    let parts = [
        moved(|t| t.start.gauge += 100.0),
        moved(|t| t.end.gauge += 100.0),
        moved(|t| t.start.temperature += 0.2),
        moved(|t| t.end.temperature += 0.2),
        moved(|t| t.air.pressure += 500.0),
        20.0,
    ];
    let squares: f64 = parts.iter().map(|part| part * part).sum();
    let found = loss(&base).unwrap().uncertainty;
    // The law in the temperature is not straight: 0.2 / 293 of one part.
    assert_near(found, squares.sqrt(), 1e-3 * found);
}

#[test]
fn law_a_vacuum_leaks_the_other_way() {
    let mut test = cooled(0.0);
    test.start.gauge = -50e3;
    test.end = Shown {
        gauge: -48e3,
        temperature: WARM,
    };
    assert_near(loss(&test).unwrap().loss, 2e3, 1e-9);
}

fn lost(loss: f64) -> Loss {
    Loss {
        tight: 67e3,
        loss,
        uncertainty: 200.0,
        rate: loss / 600.0,
    }
}

#[test]
fn law_three_verdicts_and_a_contradiction() {
    let said = |loss| {
        let Judged {
            verdict, backwards, ..
        } = judge(&lost(loss), 1e3, 0.95).unwrap();
        (verdict, backwards)
    };
    // 1.645 standard uncertainties on either side of the limit, and below zero.
    assert_eq!(said(600.0), (Verdict::In, false));
    assert_eq!(said(700.0), (Verdict::Undecided, false));
    assert_eq!(said(1300.0), (Verdict::Undecided, false));
    assert_eq!(said(1400.0), (Verdict::Out, false));
    assert_eq!(said(-300.0), (Verdict::In, false));
    assert_eq!(said(-400.0), (Verdict::Undecided, true));
}

#[test]
fn law_flow_of_boyle() {
    // One litre that loses a hundredth of the pressure around in 100 s has lost 10 ml of air.
    let gone = Loss {
        tight: 0.0,
        loss: 1e3,
        uncertainty: 1.0,
        rate: 10.0,
    };
    assert_near(flow(&gone, 1e-3, 100e3).unwrap(), 1e-7, 1e-20);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_lower_readings_are_larger_leaks(
        gauge in 10e3..100e3_f64,
        end in 0.0..100e3_f64,
        less in 1.0..5e3_f64,
        warmer in -20.0..20.0_f64,
    ) {
        let mut test = cooled(end);
        test.start.gauge = gauge;
        test.end.temperature = WARM + warmer;
        let (first, second) = (loss(&test).unwrap(), {
            test.end.gauge -= less;
            loss(&test).unwrap()
        });
        prop_assert!(second.loss > first.loss && second.rate > first.rate);
        let p = |lost: &Loss| judge(lost, 1e3, 0.95).unwrap().within;
        prop_assert!(p(&second) <= p(&first));
    }

    #[test]
    fn law_a_tight_housing_loses_nothing(gauge in -80e3..100e3_f64, warmer in -30.0..30.0_f64, air in 80e3..105e3_f64) {
        prop_assume!(gauge.abs() > 1.0 && gauge + air > 1e3);
        let mut test = cooled(0.0);
        test.start.gauge = gauge;
        test.air.pressure = air;
        test.end.temperature = WARM + warmer;
        test.end.gauge = tight(test.start, test.end.temperature, air).unwrap();
        prop_assert!(loss(&test).unwrap().loss.abs() < 1e-9);
    }
}
