use proptest::prelude::*;
use trial::Error;
use trial::reduce::{
    Air, Leg, Weather, algebraic, current, equal_headings, weather, wind_change, wind_left,
};

use crate::assert_near;

fn leg(speed: f64, course: f64) -> Leg {
    Leg {
        speed,
        course: course.to_radians(),
    }
}

#[test]
fn published_three_legs() {
    // three-headings, example of 1998: printed 130, 200, 287.8, 11.7, 20.6, from 314.8; digits recomputed
    // with numpy 2.4.6.
    let legs = [leg(140.0, 192.0), leg(112.0, 283.0), leg(120.0, 20.0)];
    let found = current(&legs).unwrap();
    assert_near(found.speed, 129.9985, 5e-5);
    for (leg, heading) in legs.iter().zip([199.6706, 287.7921, 11.7130]) {
        assert_near(found.heading(leg).to_degrees(), heading, 5e-5);
    }
    assert_near(found.current(), 20.6334, 5e-5);
    assert_near(found.toward().to_degrees(), 134.7584, 5e-5);
    assert!(found.left < 1e-9 && found.uncertainty.is_infinite());
}

#[test]
fn published_four_legs_by_threes() {
    // three-headings, documentation of a program: mean of the four solutions of three legs and its scatter.
    let legs = [
        leg(178.0, 178.0),
        leg(185.0, 82.0),
        leg(188.0, 355.0),
        leg(184.0, 265.0),
    ];
    let speeds: Vec<f64> = (0..4)
        .map(|out| {
            let mut three = legs.to_vec();
            three.remove(out);
            current(&three).unwrap().speed
        })
        .collect();
    let mean = speeds.iter().sum::<f64>() / 4.0;
    let squares: f64 = speeds.iter().map(|v| (v - mean).powi(2)).sum();
    assert_near(mean, 183.726_695_571, 1e-8);
    assert_near((squares / 3.0).sqrt(), 0.827_096_347, 1e-8);
    // All four by least squares, numpy 2.4.6 and scipy 1.17.1.
    let plain = algebraic(&legs).unwrap();
    assert_near(plain.speed, 183.723_301_0, 1e-6);
    assert_near(plain.east, -0.047_79, 1e-5);
    assert_near(plain.north, 5.006_70, 1e-5);
    let found = current(&legs).unwrap();
    assert_near(found.speed, 183.721_914_2, 1e-6);
}

#[test]
fn computed_a_third_of_a_turn_apart() {
    // V 26, current 0.8 toward 60 degrees, headings 0, 120, 240, by hand.
    let legs = [
        leg(26.409_089_34, 1.503_28),
        leg(26.409_089_34, 118.496_72),
        leg(25.2, 240.0),
    ];
    let (speed, along) = equal_headings(legs.map(|leg| leg.speed)).unwrap();
    // Speeds printed to 1e-8.
    assert_near(speed, 26.0, 1e-7);
    assert_near(along, 0.8, 1e-7);
    // Courses printed to 1e-5 of a degree, 5e-6 m/s.
    let found = current(&legs).unwrap();
    assert_near(found.speed, 26.0, 1e-5);
    assert_near(found.east, 0.8 * 60.0_f64.to_radians().sin(), 1e-5);
    assert_near(found.north, 0.4, 1e-5);
}

#[test]
fn law_narrow_arcs_and_changing_speeds_are_refused() {
    let narrow = [leg(26.0, 10.0), leg(26.2, 40.0), leg(25.8, 80.0)];
    assert!(matches!(current(&narrow), Err(Error::Outside { .. })));
    assert!(matches!(current(&narrow[..2]), Err(Error::TooFew { .. })));
    let changing: Vec<Leg> = (0..8)
        .map(|i| leg(if i % 2 == 0 { 26.0 } else { 14.0 }, 45.0 * f64::from(i)))
        .collect();
    assert!(matches!(
        current(&changing),
        Err(Error::Contradicted { .. })
    ));
    let same = [leg(26.0, 10.0); 3];
    assert!(current(&same).is_err());
    assert!(equal_headings([1.0, 30.0, 30.0]).is_ok());
    assert!(equal_headings([1.0, 1.0, 30.0]).is_err());
}

#[test]
fn computed_wind() {
    // The linear figures of the reference's check craft, numpy 2.4.6: slope 238.958 N per m/s, 28.05103943 m/s.
    let air = Air {
        density: 1.20,
        area: 0.45,
        speed: 28.051_039_43,
        slope: 238.958,
    };
    assert_near(wind_change(&air, 5.0).unwrap(), -0.345_20, 1e-5);
    assert_near(wind_change(&air, -5.0).unwrap(), 0.288_70, 1e-5);
    assert_near(wind_left(&air, 5.0).unwrap(), -0.028_25, 1e-5);
    let mean = 0.5 * (wind_change(&air, 5.0).unwrap() + wind_change(&air, -5.0).unwrap());
    assert_near(mean, wind_left(&air, 5.0).unwrap(), 1e-15);
    assert!(wind_change(&Air { slope: -1.0, ..air }, 5.0).is_err());
    assert_eq!(weather(0.05, 5.0).unwrap(), Weather::Fair);
    assert_eq!(weather(0.2, 5.0).unwrap(), Weather::Waves);
    assert_eq!(weather(0.1, 6.5).unwrap(), Weather::Wind);
    assert_eq!(weather(0.3, 7.0).unwrap(), Weather::WavesAndWind);
    assert!(weather(-0.1, 0.0).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_any_current_is_found_and_turns_with_the_map(
        speed in 5.0..40.0_f64, drift in 0.0..3.0_f64, toward in 0.0..6.2_f64, first in 0.0..6.2_f64,
        steps in prop::collection::vec(0.6..2.0_f64, 3..8), turned in -3.0..3.0_f64,
    ) {
        let mut heading = first;
        let mut legs = Vec::new();
        for step in &steps {
            heading += step;
            let east = speed * heading.sin() + drift * toward.sin();
            let north = speed * heading.cos() + drift * toward.cos();
            legs.push(Leg { speed: east.hypot(north), course: east.atan2(north) });
        }
        let arc: f64 = steps[1..].iter().sum();
        prop_assume!(arc > 2.2);
        let found = current(&legs).unwrap();
        prop_assert!((found.speed - speed).abs() < 1e-8 * speed, "{found:?}");
        prop_assert!((found.east - drift * toward.sin()).abs() < 1e-7);
        let map: Vec<Leg> = legs.iter().map(|l| Leg { course: l.course + turned, ..*l }).collect();
        let there = current(&map).unwrap();
        prop_assert!((there.speed - found.speed).abs() < 1e-8 * speed);
        prop_assert!((there.current() - found.current()).abs() < 1e-7);
    }

    #[test]
    fn law_the_formula_and_the_circle_agree(speed in 10.0..40.0_f64, drift in 0.0..3.0_f64, toward in 0.0..6.2_f64) {
        let legs = [0.0_f64, 120.0, 240.0].map(|heading| {
            let heading = heading.to_radians();
            let east = speed * heading.sin() + drift * toward.sin();
            let north = speed * heading.cos() + drift * toward.cos();
            Leg { speed: east.hypot(north), course: east.atan2(north) }
        });
        let (v, u) = equal_headings(legs.map(|l| l.speed)).unwrap();
        prop_assert!((v - speed).abs() < 1e-9 * speed);
        prop_assert!((u - drift).abs() < 1e-6);
        prop_assert!((current(&legs).unwrap().speed - v).abs() < 1e-9 * speed);
    }
}
