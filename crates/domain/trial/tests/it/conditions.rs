use trial::conditions::{
    Cause, Deviation, Intake, Weather, air_density, corrected_difference, dry_pressure, iso_factor,
    sae_factor, to_reference, vapour_pressure,
};
use trial::{Contribution, Error, Figure, Origin, Part};

use crate::assert_near;

fn weather(hectopascal: f64, celsius: f64, percent: f64) -> Weather {
    Weather {
        pressure: 100.0 * hectopascal,
        temperature: 273.15 + celsius,
        humidity: 0.01 * percent,
    }
}

#[test]
fn computed_numpy_factors() {
    // numpy 2.4.6; printed to 1e-5, vapour pressure to 1e-4 hPa.
    for (air, vapour, sae, iso, density) in [
        (
            weather(990.0, 25.0, 0.0),
            31.6006,
            1.00000,
            1.00000,
            1.15676,
        ),
        (
            weather(1013.25, 15.0, 0.0),
            17.0167,
            0.95341,
            0.95281,
            1.22501,
        ),
        (
            weather(1005.0, 32.0, 70.0),
            47.4505,
            1.03616,
            1.03688,
            1.13301,
        ),
        (
            weather(1020.0, 12.0, 50.0),
            13.9998,
            0.94777,
            0.94713,
            1.24291,
        ),
        (
            weather(850.0, 28.0, 30.0),
            37.7115,
            1.21989,
            1.22759,
            0.97834,
        ),
    ] {
        assert_near(
            0.01 * vapour_pressure(air.temperature).unwrap(),
            vapour,
            5e-5,
        );
        assert_near(sae_factor(&air, Intake::Own).unwrap().factor, sae, 2e-5);
        assert_near(iso_factor(&air, Intake::Own).unwrap().factor, iso, 2e-5);
        assert_near(air_density(&air).unwrap(), density, 2e-5);
    }
}

#[test]
fn published_vapour_pressure() {
    // Steam tables (IAPWS, as in any handbook): 1.2282 kPa at 10, 2.3393 at 20, 4.2470 at 30 degrees. The formula
    // is a fit: it lies 0.3 % below them, which moves a factor of power by less than 2e-4 in the dampest air.
    for (celsius, kilopascal) in [(10.0, 1.2282), (20.0, 2.3393), (30.0, 4.2470)] {
        let ours = 1e-3 * vapour_pressure(273.15 + celsius).unwrap();
        assert_near(ours / kilopascal, 1.0, 0.0035);
    }
}

#[test]
fn law_range_and_pressed_air() {
    assert!(
        sae_factor(&weather(1005.0, 32.0, 70.0), Intake::Own)
            .unwrap()
            .in_range
    );
    assert!(
        !iso_factor(&weather(850.0, 28.0, 30.0), Intake::Own)
            .unwrap()
            .in_range
    );
    let air = weather(1005.0, 32.0, 70.0);
    assert!(matches!(
        sae_factor(&air, Intake::Pressed),
        Err(Error::NoCorrection { .. })
    ));
    assert!(matches!(
        iso_factor(&air, Intake::Pressed),
        Err(Error::NoCorrection { .. })
    ));
    assert!(dry_pressure(&weather(1013.0, 20.0, 150.0)).is_err());
    assert!(dry_pressure(&weather(10.13, 20.0, 50.0)).is_err());
    assert!(vapour_pressure(20.0).is_err());
}

#[test]
fn law_thinner_air_asks_for_more() {
    let mut last = 0.0;
    for i in 0..20 {
        let factor = sae_factor(
            &weather(1030.0 - 10.0 * f64::from(i), 20.0, 50.0),
            Intake::Own,
        );
        let factor = factor.unwrap().factor;
        assert!(factor > last);
        last = factor;
    }
    let damp = air_density(&weather(1013.0, 30.0, 90.0)).unwrap();
    assert!(damp < air_density(&weather(1013.0, 30.0, 10.0)).unwrap());
}

fn figure(value: f64) -> Figure {
    Figure::new(
        value,
        vec![Contribution::known(Part::Scatter, 0.1)],
        Origin::Log,
    )
    .unwrap()
}

/// Power as a share above the reference, with the sensitivity of the reference's check craft.
fn power(relative: f64) -> Deviation {
    Deviation {
        cause: Cause::Power,
        relative,
        uncertainty: 0.01,
        sensitivity: 11.84,
        doubt: 0.2,
    }
}

#[test]
fn law_corrections_add_and_carry_their_doubt() {
    // A hot day: power down by 1/1.03616, so the speed is corrected up; by hand.
    let down = 1.0 / 1.03616 - 1.0;
    let found = to_reference(&figure(26.0), &[power(down)]).unwrap();
    assert_near(found.total, -11.84 * down, 1e-12);
    assert_near(found.corrected.value, 26.0 - 11.84 * down, 1e-12);
    let u = (0.1_f64.powi(2) + 0.1184_f64.powi(2) + (11.84 * down * 0.2).powi(2)).sqrt();
    assert_near(found.corrected.uncertainty(), u, 1e-12);
    assert_eq!(found.corrections[0].0, Cause::Power);
    assert_eq!(
        to_reference(&figure(26.0), &[]).unwrap().corrected,
        figure(26.0)
    );
}

#[test]
fn law_a_correction_larger_than_the_effect_is_refused() {
    let at = |value, relative| to_reference(&figure(value), &[power(relative)]).unwrap();
    let before = at(26.0, -0.03);
    // Effect 0.3 at the reference, moved by 0.36: nothing is shown.
    let refused = corrected_difference(&before, &at(26.66, 0.0));
    assert!(
        matches!(refused, Err(Error::Contradicted { .. })),
        "{refused:?}"
    );
    assert_near(
        corrected_difference(&before, &at(27.4, 0.0)).unwrap(),
        1.4 - 11.84 * 0.03,
        1e-12,
    );
}
