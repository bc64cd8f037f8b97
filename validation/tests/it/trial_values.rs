//! Water tests against scipy and numpy.

use serde_json::Value;
use trial::compare::{Group, permutation, pooled, power, welch};
use trial::reduce::{Leg, algebraic, current, fitted};
use trial::runs::{Options, Reached, Receiver, lagged, runs};
use trial::segment::changes;
use trial::smooth::{Motion, motion, polynomial};
use trial::{Contribution, Figure, Log, Origin, Part, Sample};

use crate::record::{
    Parts, all, assert_close, close, compare, compare_live, near, number, recorded,
};

const PARTS: Parts<'_> = &[
    ("smoothers", smoothers),
    ("motions", motions),
    ("levels", levels),
    ("currents", currents),
    ("circles", circles),
    ("starts", starts),
    ("lags", lags),
    ("students", students),
    ("comparisons", comparisons),
    ("powers", powers),
];
const CASES: usize = 45;

#[test]
fn computed_water_tests_recorded() {
    compare(&recorded("trial"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_water_tests_live() {
    // One recipe on two machines: its searches stop within 1e-9 of their unknown, and a centre is near nought.
    compare_live("trial", PARTS, CASES, 1e-6);
}

fn whole(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

fn pair(value: &Value) -> [f64; 2] {
    all(value).try_into().unwrap()
}

fn smoothers(case: &Value) {
    let given = &case["given"];
    let of = |what: &str| whole(&given[what]);
    let read = all(&given["readings_m_s"]);
    let found = polynomial(&read, of("half"), of("degree"), of("derivative")).unwrap();
    near(case, "smoothed_m_s", &found);
}

fn motions(case: &Value) {
    let given = &case["given"];
    let prior = Motion {
        variance: number(&given["variance"]),
        unrest: number(&given["unrest"]),
        start: pair(&given["start"]),
        doubt: pair(&given["doubt"]),
    };
    let found = motion(&all(&given["times_s"]), &all(&given["speeds_m_s"]), &prior).unwrap();
    let each =
        |pick: fn(&trial::smooth::Smoothed) -> f64| found.iter().map(pick).collect::<Vec<_>>();
    near(case, "speed_m_s", &each(|s| s.speed));
    near(case, "acceleration_m_s2", &each(|s| s.acceleration));
    near(case, "deviation_m_s", &each(|s| s.deviation));
}

fn levels(case: &Value) {
    let given = &case["given"];
    let read = all(&given["readings_m_s"]);
    let ends = changes(&read, number(&given["penalty"]), whole(&given["least"])).unwrap();
    let theirs: Vec<usize> = case["expect"]["ends"]
        .as_array()
        .unwrap()
        .iter()
        .map(whole)
        .collect();
    assert_eq!(ends, theirs, "{}", case["name"]);
}

fn currents(case: &Value) {
    let given = &case["given"];
    let degree = whole(&given["degree"]);
    let found = fitted(&all(&given["times_s"]), &all(&given["speeds_m_s"]), degree).unwrap();
    close(case, "speed_m_s", found.speed);
    near(case, "current_m_s", &found.current);
    near(case, "weights", &found.weights);
    close(case, "deviation_m_s", found.deviation);
}

fn circles(case: &Value) {
    let given = &case["given"];
    let legs: Vec<Leg> = all(&given["speeds_m_s"])
        .into_iter()
        .zip(all(&given["courses_rad"]))
        .map(|(speed, course)| Leg { speed, course })
        .collect();
    let plain = algebraic(&legs).unwrap();
    near(case, "plain", &[plain.east, plain.north, plain.speed]);
    let round = current(&legs).unwrap();
    near(case, "round", &[round.east, round.north, round.speed]);
    if case["expect"]["uncertainty_m_s"].is_null() {
        assert!(round.left < 1e-9 && round.uncertainty.is_infinite());
    } else {
        close(case, "left_m_s", round.left);
        close(case, "uncertainty_m_s", round.uncertainty);
    }
}

fn starts(case: &Value) {
    let given = &case["given"];
    let samples = all(&given["times_s"])
        .into_iter()
        .zip(all(&given["speeds_m_s"]))
        .map(|(time, speed)| Sample {
            time,
            speed,
            course: None,
            engine: None,
        });
    let log = Log {
        zero: None,
        stretches: vec![samples.collect()],
    };
    let options = Options {
        receiver: Receiver::PHONE,
        ..Options::default()
    };
    let found = runs(&log, &options).unwrap();
    let [start] = &found.starts[..] else {
        panic!("{}: {} starts", case["name"], found.starts.len());
    };
    let times: Vec<f64> = start
        .levels
        .iter()
        .map(|level| match &level.reached {
            Reached::Time(figure) => figure.value,
            other => panic!("{}: {other:?}", case["name"]),
        })
        .collect();
    near(case, "times_s", &times);
    // An instant near nought: to a part of the longer time.
    let off = (start.instant - number(&case["expect"]["instant_s"])).abs();
    assert!(
        off <= number(&case["within"]["relative"]) * times[1],
        "{}: {off}",
        case["name"]
    );
}

fn lags(case: &Value) {
    let given = &case["given"];
    let launch: Vec<(f64, f64)> = (0..12_000_i32)
        .map(|i| 1e-3 * f64::from(i))
        .map(|t| (t, 27.0 * (t / 6.4).tanh()))
        .collect();
    let slow = lagged(&launch, number(&given["lag_s"])).unwrap();
    let shift = |level: &f64| {
        let at = slow.iter().position(|p| p.1 >= *level).unwrap();
        let ((t0, v0), (t1, v1)) = (slow[at - 1], slow[at]);
        t0 + (level - v0) / (v1 - v0) * (t1 - t0) - 6.4 * (level / 27.0).atanh()
    };
    let shifts: Vec<f64> = all(&given["levels_m_s"]).iter().map(shift).collect();
    near(case, "shifts_s", &shifts);
}

fn students(case: &Value) {
    let given = &case["given"];
    let level = number(&given["level"]);
    let relative = number(&case["within"]["relative"]);
    let theirs = all(&case["expect"]["factors"]);
    for (freedom, factor) in all(&given["freedoms"]).into_iter().zip(theirs) {
        let part = Contribution {
            part: Part::Scatter,
            uncertainty: 1.0,
            freedom,
        };
        let figure = Figure::new(0.0, vec![part], Origin::Log).unwrap();
        let name = format!("{}, freedom {freedom}", case["name"]);
        assert_close(figure.half_width(level).unwrap(), factor, relative, &name);
    }
}

fn comparisons(case: &Value) {
    let given = &case["given"];
    let (before, after) = (all(&given["before_m_s"]), all(&given["after_m_s"]));
    let (a, b) = (Group::of(&before).unwrap(), Group::of(&after).unwrap());
    let unlike = welch(&a, &b, 0.0).unwrap();
    near(
        case,
        "welch",
        &[unlike.ratio(), unlike.freedom, unlike.chance()],
    );
    let interval = unlike.interval(0.95).unwrap();
    near(case, "interval_m_s", &[interval.low, interval.high]);
    let alike = pooled(&a, &b, 0.0).unwrap();
    near(
        case,
        "pooled",
        &[alike.ratio(), alike.freedom, alike.chance()],
    );
    close(case, "permutation", permutation(&before, &after).unwrap());
}

fn powers(case: &Value) {
    let given = &case["given"];
    let (difference, scatter) = (
        number(&given["difference_m_s"]),
        number(&given["scatter_m_s"]),
    );
    let counts = given["counts"].as_array().unwrap();
    let shown: Vec<f64> = counts
        .iter()
        .map(|count| power(difference, scatter, whole(count)).unwrap())
        .collect();
    near(case, "power", &shown);
}
