//! Real logs, where they are; read here by a few lines of its own.

use std::path::PathBuf;

use trial::reduce::{Leg, algebraic, current};
use trial::runs::{NoRun, Options, Reached, run_between, runs};
use trial::{Error, Log, Sample};

use crate::assert_near;
use crate::drawn::log;

/// A file of the folder of logs, or nothing, with the reason printed.
#[expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a test reads the logs that lie on this machine, and says where there are none"
)]
fn text(name: &str) -> Option<String> {
    let beside = || PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../../shared/data/logs");
    let folder = std::env::var_os("PUMPWRIGHT_LOGS").map_or_else(beside, PathBuf::from);
    let path = folder.join(name);
    let text = std::fs::read_to_string(&path);
    if text.is_err() {
        println!("skipped: {} is not on this machine", path.display());
    }
    text.ok()
}

/// What stands between two marks, after a place.
fn between<'a>(text: &'a str, open: &str, close: &str) -> Option<&'a str> {
    let (_, rest) = text.split_once(open)?;
    Some(rest.split_once(close)?.0)
}

/// Seconds of the day of a time like 2026-01-02T03:04:05.6Z.
fn clock(text: &str) -> f64 {
    let (_, time) = text.split_once('T').unwrap();
    let parts: Vec<f64> = time
        .trim_end_matches('Z')
        .split(':')
        .map(|part| part.parse().unwrap())
        .collect();
    parts[0] * 3600.0 + parts[1] * 60.0 + parts[2]
}

fn sample(time: f64, speed: f64, course: Option<f64>) -> Sample {
    Sample {
        time,
        speed,
        course,
        engine: None,
    }
}

/// Speed against time of a track of points.
fn track(name: &str) -> Option<Log> {
    let text = text(name)?;
    let mut samples: Vec<Sample> = Vec::new();
    for point in text.split("<trkpt").skip(1) {
        let time = clock(between(point, "<time>", "</time>").unwrap());
        let speed = between(point, "speed>", "</").unwrap().parse().unwrap();
        samples.push(sample(time, speed, None));
    }
    let zero = samples[0].time;
    for s in &mut samples {
        s.time -= zero;
    }
    Some(log(samples))
}

/// Speed and course over ground by one sender of a raw log of a boat's network.
fn sender(name: &str, source: &str) -> Option<Vec<Sample>> {
    let text = text(name)?;
    let mut samples: Vec<Sample> = Vec::new();
    for line in text.lines() {
        let fields: Vec<&str> = line.split(',').collect();
        if fields.len() < 14 || fields[2] != "129026" || fields[3] != source {
            continue;
        }
        let byte = |i: usize| u16::from_str_radix(fields[6 + i], 16).unwrap();
        let (course, speed) = (byte(2) + 256 * byte(3), byte(4) + 256 * byte(5));
        if course < 0xFFFD && speed < 0xFFFD {
            samples.push(sample(
                clock(fields[0]),
                f64::from(speed) * 0.01,
                Some(f64::from(course) * 1e-4),
            ));
        }
    }
    Some(samples)
}

fn legs(samples: &[Sample]) -> Vec<Leg> {
    samples
        .iter()
        .filter(|s| s.speed > 0.0)
        .map(|s| Leg {
            speed: s.speed,
            course: s.course.unwrap(),
        })
        .collect()
}

#[test]
fn computed_figure_of_eight() {
    // scipy 1.17.1, least_squares, each sender by itself; the reference allows 0.002.
    let rows = [
        (
            "52",
            3.8722,
            [0.1352, 0.0136, 3.8520],
            [0.1364, 0.0097, 3.8498],
            0.1502,
        ),
        (
            "25",
            3.9767,
            [0.0852, 0.0001, 3.9775],
            [0.0723, -0.0293, 3.9742],
            0.3071,
        ),
    ];
    for (source, mean, plain, round, left) in rows {
        let Some(samples) = sender("n2k_figure8_sog_stw.raw", source) else {
            return;
        };
        let legs = legs(&samples);
        let count = f64::from(u32::try_from(legs.len()).unwrap());
        assert_near(
            legs.iter().map(|l| l.speed).sum::<f64>() / count,
            mean,
            0.002,
        );
        let found = algebraic(&legs).unwrap();
        assert_near(found.east, plain[0], 0.002);
        assert_near(found.north, plain[1], 0.002);
        assert_near(found.speed, plain[2], 0.002);
        let found = current(&legs).unwrap();
        assert_near(found.east, round[0], 0.002);
        assert_near(found.north, round[1], 0.002);
        assert_near(found.speed, round[2], 0.002);
        assert_near(found.left, left, 0.002);
    }
}

#[test]
fn computed_changing_speeds_are_refused() {
    let Some(samples) = sender("n2k_speed_changes_sog_stw.raw", "25") else {
        return;
    };
    assert!(samples.len() > 1000);
    let refused = current(&legs(&samples));
    assert!(matches!(
        refused,
        Err(Error::Contradicted { .. } | Error::Outside { .. })
    ));
}

#[test]
fn computed_best_ten_seconds() {
    // numpy 2.4.6, trapezoid over speed, starts on a grid of 1 ms: 13.5695217 m/s from 195.565 s. Starts on whole
    // seconds only, as the readings are, give 13.563 from 196 s.
    let Some(log) = track("fast_watercraft_gpxdata_speed.gpx") else {
        return;
    };
    assert_eq!(log.stretches[0].len(), 1500);
    let options = Options::default();
    let run = run_between(&log, 190.0, 212.0, &options).unwrap();
    assert_near(run.speed.value, 13.569_521_7, 1e-6);
    assert_near(run.window.from, 195.565, 1e-3);
    // Sailed in gusts: whatever is found is slower than that, and what is passed over says why.
    let found = runs(&log, &options).unwrap();
    for run in &found.runs {
        // A run shorter than ten seconds is its own window.
        let ten = run.window.to - run.window.from > 9.999;
        assert!(run.speed.value <= if ten { 13.569_522 } else { 13.90 });
        assert!(run.span.to - run.span.from >= options.shortest - 1e-6);
    }
    for passed in &found.passed {
        assert!(!passed.why.is_empty());
    }
    assert!(found.passed.len() + found.runs.len() > 3);
}

#[test]
fn computed_a_slow_boat_has_no_full_throttle_run() {
    let Some(samples) = sender("n2k_figure8_sog_stw.raw", "52") else {
        return;
    };
    let found = runs(&log(samples), &Options::default()).unwrap();
    assert!(found.runs.is_empty());
    assert!(matches!(found.none, Some(NoRun::NeverFast { fastest, .. }) if fastest < 5.0));
}

#[test]
fn computed_at_rest_nothing_starts() {
    let Some(text) = text("rest_jitter_1hz.csv") else {
        return;
    };
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    let column = head.iter().position(|name| name.contains("sog")).unwrap();
    let knot = 1852.0 / 3600.0;
    let samples: Vec<Sample> = (0..)
        .zip(lines)
        .map(|(i, line)| {
            let speed: f64 = line.split(',').nth(column).unwrap().parse().unwrap();
            sample(f64::from(i), speed * knot, None)
        })
        .collect();
    assert_eq!(samples.len(), 1201);
    let found = runs(&log(samples), &Options::default()).unwrap();
    assert!(found.runs.is_empty() && found.starts.is_empty());
    assert!(matches!(found.none, Some(NoRun::NeverFast { .. })));
}

#[test]
fn law_starts_of_a_sailed_log_are_none_or_sane() {
    let Some(log) = track("fast_watercraft_gpxdata_speed.gpx") else {
        return;
    };
    let options = Options {
        levels: vec![8.0],
        ..Options::default()
    };
    for start in runs(&log, &options).unwrap().starts {
        assert!(start.step <= 1.05);
        assert!(!matches!(start.levels[0].reached, Reached::Never));
    }
}
