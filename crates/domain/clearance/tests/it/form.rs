use clearance::form::{
    Circle, Point, Zone, least_squares, maximum_inscribed, minimum_circumscribed, minimum_zone,
    point, zone_about,
};
use clearance::lobes::clock;
use proptest::prelude::*;

use crate::assert_near;

/// Departures of check B, an invented ring of 70 mm radius read at twelve points, in micrometres.
pub(crate) const RING: [f64; 12] = [
    12.0, 18.0, 25.0, 14.0, -6.0, -20.0, -24.0, -10.0, 4.0, 8.0, 2.0, 5.0,
];

pub(crate) fn ring() -> Vec<Point> {
    let at = clock(RING.len()).into_iter().zip(RING);
    at.map(|(angle, off)| point(0.07 + off * 1e-6, angle))
        .collect()
}

#[track_caller]
fn assert_centre(centre: Point, x: f64, y: f64, within: f64) {
    assert_near(centre.x, x, within);
    assert_near(centre.y, y, within);
}

#[test]
fn published_gander_six_points() {
    // Gander, Golub, Strebel, BIT 34 (1994), from memory; every figure also by
    // scipy.optimize.least_squares, six decimals.
    let points = [
        (1.0, 7.0),
        (2.0, 6.0),
        (5.0, 8.0),
        (7.0, 7.0),
        (9.0, 5.0),
        (3.0, 7.0),
    ]
    .map(|(x, y)| Point { x, y });
    let Circle { centre, radius } = least_squares(&points).unwrap();
    assert_centre(centre, 4.739_782, 2.983_533, 1e-6);
    assert_near(radius, 4.714_226, 1e-6);
    let squares: f64 = points
        .iter()
        .map(|p| ((p.x - centre.x).hypot(p.y - centre.y) - radius).powi(2))
        .sum();
    assert_near(squares, 1.227_599, 1e-6);
}

#[test]
fn computed_scipy_ring_least_squares() {
    // scipy 1.17.1, optimize.least_squares, printed to 1e-4 micrometres.
    let circle = least_squares(&ring()).unwrap();
    assert_centre(circle.centre, 16.065_8e-6, 3.127_5e-6, 6e-11);
    assert_near(circle.radius, 70.002_334_3e-3, 6e-11);
    let zone = zone_about(&ring(), circle.centre).unwrap();
    assert_near(zone.width(), 22.676_6e-6, 6e-11);
    assert_near(zone.outer - circle.radius, 12.408_2e-6, 6e-11);
    assert_near(circle.radius - zone.inner, 10.268_4e-6, 6e-11);
}

#[test]
fn computed_scipy_ring_zone_and_touching_circles() {
    // scipy 1.17.1 and numpy 2.4.6: enumeration, Nelder-Mead and linprog agree; printed to 1e-4
    // micrometres.
    let Zone {
        centre,
        inner,
        outer,
    } = minimum_zone(&ring()).unwrap();
    assert_centre(centre, 16.272_8e-6, 2.729_3e-6, 6e-11);
    assert_near(inner, 69.992_272_8e-3, 6e-11);
    assert_near(outer, 70.014_501_2e-3, 6e-11);
    assert_near(outer - inner, 22.228_35e-6, 6e-12);

    let around = minimum_circumscribed(&ring()).unwrap();
    assert_centre(around.centre, 9.742_5e-6, 6.499_5e-6, 6e-11);
    assert_near(around.radius, 70.014_500_2e-3, 6e-11);
    let width = zone_about(&ring(), around.centre).unwrap().width();
    assert_near(width, 29.311_9e-6, 6e-11);

    let inside = maximum_inscribed(&ring()).unwrap();
    assert_centre(inside.centre, 19.498_4e-6, 8.772_2e-6, 6e-11);
    assert_near(inside.radius, 69.992_502_1e-3, 6e-11);
    let width = zone_about(&ring(), inside.centre).unwrap().width();
    assert_near(width, 28.845_1e-6, 6e-11);
}

#[test]
fn law_points_of_a_circle_give_it_back() {
    // Two points at opposite ends of a diameter among them, the case where a triangle is right.
    let points: Vec<Point> = clock(4)
        .into_iter()
        .map(|angle| {
            let on = point(2.0, angle);
            Point {
                x: on.x + 0.3,
                y: on.y - 0.1,
            }
        })
        .collect();
    for circle in [
        least_squares(&points).unwrap(),
        minimum_circumscribed(&points).unwrap(),
        maximum_inscribed(&points).unwrap(),
    ] {
        assert_centre(circle.centre, 0.3, -0.1, 1e-12);
        assert_near(circle.radius, 2.0, 1e-12);
    }
    assert_near(minimum_zone(&points).unwrap().width(), 0.0, 1e-12);
}

/// Twelve radii that differ by up to 0.2 mm, turned and moved.
fn rough() -> impl Strategy<Value = Vec<Point>> {
    prop::collection::vec(-1e-4..1e-4_f64, 12).prop_map(|off| {
        let at = clock(12).into_iter().zip(off);
        at.map(|(angle, off)| point(0.07 + off, angle)).collect()
    })
}

fn moved(points: &[Point], by: Point, turn: f64) -> Vec<Point> {
    let (s, c) = turn.sin_cos();
    points
        .iter()
        .map(|p| Point {
            x: c * p.x - s * p.y + by.x,
            y: s * p.x + c * p.y + by.y,
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_circles_move_with_their_points(points in rough(), x in -1e-2..1e-2_f64, y in -1e-2..1e-2_f64, turn in 0.0..6.2_f64) {
        let there = moved(&points, Point { x, y }, turn);
        for fit in [least_squares, minimum_circumscribed, maximum_inscribed] {
            let (a, b) = (fit(&points).unwrap(), fit(&there).unwrap());
            let to = moved(&[a.centre], Point { x, y }, turn)[0];
            prop_assert!((to.x - b.centre.x).hypot(to.y - b.centre.y) < 1e-11, "{to:?} {b:?}");
            prop_assert!((a.radius - b.radius).abs() < 1e-11);
        }
        let (a, b) = (minimum_zone(&points).unwrap(), minimum_zone(&there).unwrap());
        prop_assert!((a.width() - b.width()).abs() < 1e-11);
    }

    #[test]
    fn law_no_zone_is_narrower_than_the_minimum(points in rough(), x in -1e-4..1e-4_f64, y in -1e-4..1e-4_f64) {
        let least = minimum_zone(&points).unwrap().width();
        for centre in [
            least_squares(&points).unwrap().centre,
            minimum_circumscribed(&points).unwrap().centre,
            maximum_inscribed(&points).unwrap().centre,
            Point { x, y },
        ] {
            prop_assert!(least <= zone_about(&points, centre).unwrap().width() + 1e-15);
        }
    }

    #[test]
    fn law_touching_circles_bound_every_other(points in rough(), x in -1e-4..1e-4_f64, y in -1e-4..1e-4_f64) {
        let zone = zone_about(&points, Point { x, y }).unwrap();
        prop_assert!(minimum_circumscribed(&points).unwrap().radius <= zone.outer + 1e-15);
        prop_assert!(maximum_inscribed(&points).unwrap().radius >= zone.inner - 1e-15);
    }
}
