//! Distances against `GeographicLib`'s own cases and a published survey line.

use std::f64::consts::{PI, TAU};

use proptest::prelude::*;
use trial::geodesy::{Earth, Ellipsoid, PLANE_LIMIT, Place, WGS84, mean_course, turn};

fn place(latitude: f64, longitude: f64) -> Place {
    Place::from_degrees(latitude, longitude).unwrap()
}

fn near(ours: f64, theirs: f64, within: f64) {
    assert!((ours - theirs).abs() <= within, "{ours} against {theirs}");
}

/// The first three lines of the test set that comes with `GeographicLib`: metres, degrees.
#[test]
fn published_cases_of_geographiclib() {
    for (from, to, distance, course, arriving) in [
        (
            (35.60777, -139.44815),
            (-11.17491, -69.95921),
            8_935_244.560_481_83,
            111.098_748_429_560_33,
            129.289_270_889_708_76,
        ),
        (
            (55.52454, 106.05087),
            (77.03196, 197.18234),
            4_105_086.171_392_441,
            22.020_059_880_982_8,
            109.112_041_110_671_52,
        ),
        (
            (-21.97856, 142.59065),
            (41.84138, 98.56635),
            8_394_328.894_657_671,
            -32.444_568_764_331_89,
            -41.843_599_514_404_66,
        ),
    ] {
        let leg = Earth::default().geodesic(place(from.0, from.1), place(to.0, to.1));
        near(leg.distance, distance, 1e-8);
        near(leg.course.to_degrees(), course, 1e-13 * 360.0);
        near(leg.arriving.to_degrees(), arriving, 1e-13 * 360.0);
    }
}

fn sexagesimal(degrees: f64, minutes: f64, seconds: f64) -> f64 {
    degrees + minutes / 60.0 + seconds / 3600.0
}

/// Flinders Peak to Buninyong on GRS80, the worked line of the Australian geodetic manual, printed to
/// a millimetre and a hundredth of a second of arc.
#[test]
fn published_line_from_flinders_peak() {
    let grs80 = Ellipsoid {
        radius: 6_378_137.0,
        flattening: 1.0 / 298.257_222_101,
    };
    let peak = place(
        -sexagesimal(37.0, 57.0, 3.7203),
        sexagesimal(144.0, 25.0, 29.5244),
    );
    let buninyong = place(
        -sexagesimal(37.0, 39.0, 10.1561),
        sexagesimal(143.0, 55.0, 35.3839),
    );
    let leg = Earth::new(grs80).geodesic(peak, buninyong);
    near(leg.distance, 54_972.271, 5e-4);
    let arc = 0.005 / 3600.0;
    let course = leg.course.to_degrees().rem_euclid(360.0);
    near(course, sexagesimal(306.0, 52.0, 5.37), arc);
    let back = (leg.arriving.to_degrees() + 180.0).rem_euclid(360.0);
    near(back, sexagesimal(127.0, 10.0, 25.07), arc);
}

/// Against geographiclib 2.1 for Python; the plane to what it claims.
#[test]
fn computed_the_plane_holds_below_its_limit() {
    for (from, to, distance) in [
        ((45.0, -93.0), (45.005, -93.0), 555.659_131),
        ((45.0, -93.0), (45.0, -92.99), 788.468_350),
        ((45.0, -93.0), (45.0003, -92.9996), 45.893_475),
        ((60.0, 10.0), (60.002, 10.004), 315.382_375),
    ] {
        let (from, to) = (place(from.0, from.1), place(to.0, to.1));
        let [east, north] = Earth::default().plane(from, to);
        near(east.hypot(north), distance, 2e-6);
        near(Earth::default().geodesic(from, to).distance, distance, 1e-6);
    }
}

#[test]
fn law_courses_turn_the_short_way() {
    near(
        turn(350_f64.to_radians(), 10_f64.to_radians()),
        20_f64.to_radians(),
        1e-12,
    );
    near(
        turn(10_f64.to_radians(), 350_f64.to_radians()),
        -20_f64.to_radians(),
        1e-12,
    );
    near(turn(0.0, PI), -PI, 0.0);
    let mean = mean_course(&[350_f64.to_radians(), 20_f64.to_radians()]).unwrap();
    near(mean, 5_f64.to_radians(), 1e-12);
    assert_eq!(mean_course(&[0.0, PI]), None);
    assert_eq!(mean_course(&[]), None);
}

proptest! {
    #[test]
    fn law_the_plane_is_within_a_tenth_of_a_millimetre(
        latitude in -70.0..70.0_f64, longitude in -180.0..180.0_f64,
        away in 0.0..PLANE_LIMIT, course in 0.0..TAU,
    ) {
        let from = place(latitude, longitude);
        let to = Place {
            latitude: from.latitude + 0.99 * away * course.cos() / WGS84.radius,
            longitude: from.longitude + 0.99 * away * course.sin() / (WGS84.radius * from.latitude.cos()),
        };
        let earth = Earth::default();
        let [east, north] = earth.plane(from, to);
        prop_assert!((east.hypot(north) - earth.geodesic(from, to).distance).abs() < 1e-4);
    }

    #[test]
    fn law_there_and_back_are_one_distance(a in -89.0..89.0_f64, b in -180.0..180.0_f64, c in -89.0..89.0_f64, d in -180.0..180.0_f64) {
        let (from, to) = (place(a, b), place(c, d));
        let earth = Earth::default();
        let there = earth.geodesic(from, to).distance;
        let back = earth.geodesic(to, from).distance;
        prop_assert!((there - back).abs() <= 1e-8);
        let [east, north] = earth.step(from, to);
        prop_assert!((east.hypot(north) - there).abs() <= 1e-4);
    }

    #[test]
    fn law_a_turn_leads_from_one_course_to_the_other(a in 0.0..TAU, b in 0.0..TAU) {
        let turned = turn(a, b);
        prop_assert!((-PI..PI).contains(&turned));
        prop_assert!(((a + turned - b) / TAU - ((a + turned - b) / TAU).round()).abs() < 1e-12);
    }
}
