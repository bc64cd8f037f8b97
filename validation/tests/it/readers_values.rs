//! Logs against gpxpy and pynmea2, lines on the ellipsoid against geographiclib.

use serde_json::Value;
use trial::geodesy::{Earth, PLANE_LIMIT, Place};
use trial::read::{Options, Reading, Why, read};

use crate::record::{Parts, all, assert_close, compare, compare_live, number, recorded};

const PARTS: Parts<'_> = &[
    ("tracks", tracks),
    ("sentences", sentences),
    ("lines", lines),
];
const CASES: usize = 8;

#[test]
fn computed_logs_recorded() {
    compare(&recorded("readers"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_logs_live() {
    // Seeded and decimal, but for the sines of another machine's library.
    compare_live("readers", PARTS, CASES, 1e-9);
}

fn reading(case: &Value) -> Reading {
    let text = case["given"]["text"].as_str().unwrap();
    let reading = read(text.as_bytes(), &Options::default()).unwrap();
    let zero = number(&case["expect"]["zero_s"]);
    assert_close(reading.log.zero.unwrap(), zero, 0.0, "zero of time");
    reading
}

fn same(ours: &[f64], theirs: &Value, case: &Value) {
    let theirs = all(theirs);
    assert_eq!(ours.len(), theirs.len(), "{}", case["name"]);
    let relative = number(&case["within"]["relative"]);
    for (ours, theirs) in ours.iter().zip(theirs) {
        assert_close(*ours, theirs, relative, case["name"].as_str().unwrap());
    }
}

fn tracks(case: &Value) {
    let reading = reading(case);
    let times = case["expect"]["time_s"].as_array().unwrap();
    let speeds = case["expect"]["speed_m_s"].as_array().unwrap();
    assert_eq!(reading.log.stretches.len(), times.len());
    for (stretch, (times, speeds)) in reading.log.stretches.iter().zip(times.iter().zip(speeds)) {
        let ours: Vec<f64> = stretch.iter().map(|s| s.time).collect();
        same(&ours, times, case);
        let ours: Vec<f64> = stretch.iter().map(|s| s.speed).collect();
        same(&ours, speeds, case);
    }
    assert_eq!(reading.rejected, []);
}

fn sentences(case: &Value) {
    let reading = reading(case);
    let samples = reading.log.stretches.concat();
    let ours = |value: fn(&trial::Sample) -> f64| samples.iter().map(value).collect::<Vec<f64>>();
    same(&ours(|s| s.time), &case["expect"]["time_s"], case);
    same(&ours(|s| s.speed), &case["expect"]["speed_m_s"], case);
    same(
        &ours(|s| s.course.unwrap()),
        &case["expect"]["course_rad"],
        case,
    );
    let wrong: u64 = reading.rejected.iter().map(|r| r.count).sum();
    assert_eq!(Some(wrong), case["expect"]["wrong"].as_u64());
    assert!(reading.rejected.iter().all(|r| r.why == Why::Checksum));
}

fn lines(case: &Value) {
    let earth = Earth::default();
    let limit = |name: &str| number(&case["within"][name]);
    let rows = case["given"]["lat_lon_lat_lon_deg"].as_array().unwrap();
    let expected = case["expect"]["distance_m_azimuths_rad"]
        .as_array()
        .unwrap();
    assert_eq!(rows.len(), expected.len());
    for (row, expected) in rows.iter().zip(expected) {
        let (row, expected) = (all(row), all(expected));
        let from = Place::from_degrees(row[0], row[1]).unwrap();
        let to = Place::from_degrees(row[2], row[3]).unwrap();
        let leg = earth.geodesic(from, to);
        let distance = expected[0];
        assert!(
            (leg.distance - distance).abs() <= limit("distance_m"),
            "{row:?}"
        );
        for (ours, theirs) in [(leg.course, expected[1]), (leg.arriving, expected[2])] {
            let off = trial::geodesy::turn(ours, theirs).abs();
            // Across the line, and never asked for more than the last digits of an angle.
            let across = off * distance.min(6.4e6);
            assert!(across <= limit("across_m"), "{row:?}: {across:e}");
        }
        if distance < PLANE_LIMIT {
            let [east, north] = earth.plane(from, to);
            assert!(
                (east.hypot(north) - distance).abs() <= limit("plane_m"),
                "{row:?}"
            );
        }
    }
}
