use proptest::prelude::*;
use trial::reduce::{Allowances, Pairing, Pass, reduce, series};
use trial::runs::{NoRun, Options, WhyNot, run_between, runs};
use trial::{Log, Part, Sample};

use crate::assert_near;
use crate::drawn::{self, Part as Leg, change, log, samples, steady, there_and_back};

#[test]
fn law_there_and_back_is_found() {
    for (step, noise, seed) in [
        (0.1, 0.05, 1),
        (0.2, 0.15, 2),
        (1.0, 0.05, 3),
        (1.0, 0.15, 4),
    ] {
        let log = log(samples(&there_and_back(), step, noise, seed));
        let found = runs(&log, &Options::default()).unwrap();
        assert_eq!(found.runs.len(), 2, "step {step}: {found:#?}");
        assert_eq!(found.none, None);
        for (run, (speed, course, from, to)) in found
            .runs
            .iter()
            .zip([(27.3, 40.0, 11.0, 36.0), (26.1, 220.0, 55.0, 77.0)])
        {
            // The highest mean of ten seconds of noise lies above the truth by a few of its errors.
            let mean = noise / (10.0_f64 / step).sqrt();
            assert_near(run.speed.value, speed, 0.02 + 4.0 * mean);
            assert_near(run.course.unwrap().mean.to_degrees(), course, 1e-6);
            assert!(
                run.span.from > from - 2.1 && run.span.to < to + 2.1,
                "{run:?}"
            );
            // The ends over which the smoother reaches are left out, and a block of readings to each side.
            let ends = 2.0 * (1.0_f64.max(2.0 * step) + step.max(0.5));
            assert!(
                run.span.to - run.span.from >= to - from - ends - 1e-9,
                "{run:?}"
            );
            assert_near(run.window.to - run.window.from, 10.0, 1e-9);
        }
        let passes: Vec<Pass> = found.runs.iter().filter_map(Pass::of).collect();
        let put = series(&passes, &Pairing::default()).unwrap();
        assert_eq!(put.alternate, [vec![0, 1]]);
        let reduced = reduce(&passes, &Allowances::default()).unwrap();
        assert_near(reduced.speed.value, 26.7, 0.1);
        assert_near(reduced.along[0], 0.6, 0.1);
    }
}

/// A turn at full throttle parts two runs; a circle is none; a run that bends within its limit stays one.
#[test]
fn law_a_turn_at_full_throttle_parts_two_runs() {
    let turn = |lasts, from: f64, to: f64| Leg {
        lasts,
        from: 22.0,
        to: 22.0,
        course: (from, to),
    };
    let found = |legs: &[Leg]| {
        let log = log(samples(legs, 0.2, 0.05, 5));
        runs(&log, &Options::default()).unwrap()
    };
    // Through north, where the course jumps.
    for start in [40.0, 350.0] {
        let both = found(&[
            steady(30.0, 22.0, start),
            turn(8.0, start, start + 180.0),
            steady(25.0, 22.0, start + 180.0),
        ]);
        assert_eq!(both.runs.len(), 2, "{both:#?}");
        for (run, (course, from, to)) in both
            .runs
            .iter()
            .zip([(start, 0.0, 30.0), (start + 180.0, 38.0, 63.0)])
        {
            let off = run.course.unwrap().mean.to_degrees() - course;
            assert!(
                ((off + 180.0).rem_euclid(360.0) - 180.0).abs() < 1.0,
                "{run:?}"
            );
            assert!(
                run.span.from > from - 0.6 && run.span.to < to + 0.6,
                "{run:?}"
            );
            assert!(run.span.to - run.span.from > to - from - 3.0, "{run:?}");
        }
    }
    let circle = found(&[turn(60.0, 0.0, 720.0)]);
    assert!(circle.runs.is_empty());
    let why = &circle.passed[0].why;
    assert!(
        why.iter().any(|why| matches!(why, WhyNot::Turning { .. })),
        "{why:?}"
    );
    assert_eq!(found(&[turn(30.0, 70.0, 77.0)]).runs.len(), 1);
}

#[test]
fn law_many_readings_are_not_many_readings() {
    let of = |step| {
        let log = log(samples(&there_and_back(), step, 0.2, 9));
        let found = runs(&log, &Options::default()).unwrap();
        found.runs[0].speed.parts[0]
    };
    let (sparse, dense) = (of(1.0), of(0.1));
    assert_eq!(sparse.part, Part::Scatter);
    // Ten seconds hold five independent readings at any rate: 0.2 / sqrt 5; the deviation of 25 readings is
    // known to 15 %, three of them.
    assert_near(sparse.uncertainty, 0.0894, 0.04);
    assert_near(dense.uncertainty, 0.0894, 0.015);
    assert_near(dense.freedom, 4.0, 1e-9);
}

#[test]
fn law_why_not_is_told() {
    let why = |legs: &[Leg]| {
        let log = log(samples(legs, 0.2, 0.05, 6));
        let found = runs(&log, &Options::default()).unwrap();
        assert!(found.none.is_none() || found.runs.is_empty());
        found
    };
    let launch = change(6.0, 0.0, 27.0, 0.0);
    let turning = Leg {
        lasts: 20.0,
        from: 27.0,
        to: 27.0,
        course: (0.0, 120.0),
    };
    let found = why(&[launch, turning, change(6.0, 27.0, 0.0, 120.0)]);
    assert_eq!(found.none, Some(NoRun::NothingSteady));
    assert!(
        matches!(found.passed[0].why[..], [WhyNot::Turning { .. }]),
        "{found:#?}"
    );

    let short = [
        launch,
        steady(6.0, 27.0, 0.0),
        change(2.0, 27.0, 15.0, 0.0),
        steady(20.0, 15.0, 0.0),
    ];
    let found = why(&short);
    assert!(found.runs.is_empty(), "{found:#?}");
    assert!(
        found
            .passed
            .iter()
            .any(|p| matches!(p.why[..], [WhyNot::Short { .. }])),
        "{found:#?}"
    );

    let found = why(&[
        launch,
        steady(20.0, 27.0, 0.0),
        change(2.0, 27.0, 21.5, 0.0),
        steady(20.0, 21.5, 0.0),
    ]);
    assert_eq!(found.runs.len(), 1);
    assert!(
        found
            .passed
            .iter()
            .any(|p| matches!(p.why[..], [WhyNot::Slow { .. }])),
        "{found:#?}"
    );

    let found = why(&[steady(60.0, 3.0, 0.0)]);
    assert!(matches!(found.none, Some(NoRun::NeverFast { fastest, .. }) if fastest < 3.1));
    let found = why(&[steady(5.0, 27.0, 0.0)]);
    assert!(
        matches!(found.none, Some(NoRun::NoStretch { longest, .. }) if (longest - 5.0).abs() < 1e-9)
    );
}

#[test]
fn law_an_engine_off_its_best_is_no_full_throttle() {
    let mut all = samples(&there_and_back(), 0.2, 0.05, 6);
    for s in &mut all {
        s.engine = Some(if s.time < 40.0 { 820.0 } else { 780.0 });
    }
    let found = runs(&log(all), &Options::default()).unwrap();
    assert_eq!(found.runs.len(), 1);
    assert_near(found.runs[0].engine.unwrap().mean, 820.0, 1e-9);
    assert!(matches!(found.passed[0].why[..], [WhyNot::EngineSlow { speed, .. }] if speed < 781.0));
}

#[test]
fn law_a_stated_window_is_taken_or_refused() {
    let parts = there_and_back();
    let whole = log(samples(&parts, 0.2, 0.05, 6));
    let options = Options::default();
    let run = run_between(&whole, 15.0, 30.0, &options).unwrap();
    assert_near(run.speed.value, 27.3, 0.1);
    assert!(run.doubts.is_empty(), "{run:?}");
    let slow = run_between(&whole, 42.0, 49.0, &options).unwrap();
    assert!(
        slow.doubts
            .iter()
            .any(|w| matches!(w, WhyNot::Turning { .. })),
        "{slow:?}"
    );
    assert!(
        slow.doubts
            .iter()
            .any(|w| matches!(w, WhyNot::Short { .. }))
    );
    assert!(run_between(&whole, 15.0, 15.0, &options).is_err());
    assert!(run_between(&whole, 15.0, 17.0, &options).is_err());
    assert!(run_between(&whole, 15.0, 1e4, &options).is_err());
    let mut broken: Vec<Sample> = whole.stretches[0].clone();
    broken.retain(|s| !(20.0..25.0).contains(&s.time));
    assert!(run_between(&log(broken), 15.0, 30.0, &options).is_err());
    let (a, b) = whole.stretches[0].split_at(100);
    let cut = Log {
        zero: None,
        stretches: vec![a.to_vec(), b.to_vec()],
    };
    assert!(run_between(&cut, 15.0, 30.0, &options).is_err());
    assert!(run_between(&Log::default(), 15.0, 30.0, &options).is_err());
}

#[test]
fn law_a_lone_spike_is_left_out_and_counted() {
    let mut all = samples(&there_and_back(), 0.2, 0.05, 6);
    all[100].speed = 41.0;
    all[150].speed = 3.0;
    let found = runs(&log(all), &Options::default()).unwrap();
    assert_eq!(found.left_out, 2);
    assert_near(found.runs[0].speed.value, 27.3, 0.1);
}

#[test]
fn law_a_log_that_cannot_be_is_refused() {
    let mut back = samples(&there_and_back(), 0.2, 0.05, 6);
    back[50].time = back[49].time;
    assert!(runs(&log(back), &Options::default()).is_err());
    let mut none = samples(&there_and_back(), 0.2, 0.05, 6);
    none[50].speed = f64::NAN;
    assert!(runs(&log(none), &Options::default()).is_err());
    let bad = Options {
        share: 1.5,
        ..Options::default()
    };
    assert!(runs(&Log::default(), &bad).is_err());
    let found = runs(&Log::default(), &Options::default()).unwrap();
    assert!(matches!(found.none, Some(NoRun::NoStretch { .. })));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_runs_lie_inside_and_do_not_mind_where_and_when(
        seed in 0_u64..1000, later in -1e6..1e6_f64, turned in -6.0..6.0_f64, step in 0.1..1.0_f64,
    ) {
        let mut here = samples(&there_and_back(), step, 0.1, seed);
        let mut drawn = drawn::Noise::new(seed);
        // Unequal steps: one reading in twenty is missing.
        here.retain(|_| drawn.share() > 0.05);
        let there: Vec<Sample> = here.iter().map(|s| Sample {
            time: s.time + later, course: s.course.map(|c| c + turned), ..*s
        }).collect();
        let options = Options::default();
        let (a, b) = (runs(&log(here.clone()), &options).unwrap(), runs(&log(there), &options).unwrap());
        prop_assert_eq!(a.runs.len(), b.runs.len());
        for (a, b) in a.runs.iter().zip(&b.runs) {
            prop_assert!((a.speed.value - b.speed.value).abs() < 1e-6);
            prop_assert!((a.span.from + later - b.span.from).abs() < 1e-6);
            prop_assert!(a.span.from >= here[0].time && a.span.to <= here[here.len() - 1].time);
            prop_assert!(a.window.from >= a.span.from - 1e-9 && a.window.to <= a.span.to + 1e-9);
        }
    }
}

#[test]
fn law_a_day_of_readings_is_read() {
    // Sixty thousand readings: half of them slow, then there and back over and over.
    let mut all = samples(
        &[steady(3000.0, 3.0, 0.0), change(3.0, 3.0, 0.0, 0.0)],
        0.1,
        0.1,
        2,
    );
    let trip = samples(&there_and_back(), 0.1, 0.1, 3);
    for _ in 0..35 {
        let from = all[all.len() - 1].time + 0.1;
        all.extend(trip.iter().map(|s| Sample {
            time: s.time + from,
            ..*s
        }));
    }
    assert!(all.len() > 60_000);
    let found = runs(&log(all), &Options::default()).unwrap();
    assert_eq!(found.runs.len(), 70);
    assert_eq!(found.starts.len(), 35);
}

#[test]
fn law_a_slow_day_is_read() {
    // One reading a second for seventeen hours, a single run among them.
    let mut all = samples(&[steady(60_000.0, 3.0, 0.0)], 1.0, 0.1, 2);
    let from = all[all.len() - 1].time + 1.0;
    let trip = samples(&there_and_back(), 1.0, 0.1, 3);
    all.extend(trip.iter().map(|s| Sample {
        time: s.time + from,
        ..*s
    }));
    assert_eq!(runs(&log(all), &Options::default()).unwrap().runs.len(), 2);
}

#[test]
fn law_a_faster_craft_is_a_faster_craft() {
    // Every speed and every limit of speed times 1.7: the same runs, 1.7 times as fast and as uncertain.
    let by = 1.7;
    let here = samples(&there_and_back(), 0.2, 0.1, 6);
    let there = here
        .iter()
        .map(|s| Sample {
            speed: by * s.speed,
            ..*s
        })
        .collect();
    let plain = Options {
        levels: vec![],
        ..Options::default()
    };
    let mut wide = plain.clone();
    for limit in [
        &mut wide.rise,
        &mut wide.scatter,
        &mut wide.slowest,
        &mut wide.receiver.speed,
        &mut wide.receiver.reading,
    ] {
        *limit *= by;
    }
    let (a, b) = (
        runs(&log(here), &plain).unwrap(),
        runs(&log(there), &wide).unwrap(),
    );
    assert_eq!(a.runs.len(), 2);
    for (a, b) in a.runs.iter().zip(&b.runs) {
        assert_near(b.speed.value, by * a.speed.value, 1e-9);
        assert_near(b.speed.uncertainty(), by * a.speed.uncertainty(), 1e-9);
        assert_eq!(a.span, b.span);
    }
}

#[test]
fn law_what_is_told_covers_that_the_best_window_leans_high() {
    // Errors that last two seconds: each is held that long. Twenty-four seconds hold 2.4 windows of ten.
    let mut drawn = drawn::Noise::new(61);
    let options = Options::default();
    let (mut high, mut wide, mut told, mut scatter) = (0.0, 0.0, 0.0, 0.0);
    for _ in 0..400 {
        let mut off = 0.0;
        let mut all = samples(&[steady(24.0, 27.0, 0.0)], 0.2, 0.0, 1);
        for (i, s) in all.iter_mut().enumerate() {
            if i % 10 == 0 {
                off = 0.2 * drawn.normal();
            }
            s.speed += off;
        }
        let run = run_between(&log(all), 0.0, 24.0, &options).unwrap();
        let error = run.speed.value - 27.0;
        let of = |part| {
            run.speed
                .parts
                .iter()
                .find(|p| p.part == part)
                .unwrap()
                .uncertainty
        };
        high += error / 400.0;
        wide += error * error / 400.0;
        scatter += of(Part::Scatter).powi(2) / 400.0;
        told += (of(Part::Scatter).powi(2) + of(Part::Choice).powi(2)) / 400.0;
    }
    // Scatter alone would be too little.
    assert!(
        high > scatter.sqrt() && wide > scatter,
        "{high} {wide} {scatter}"
    );
    assert!(told > wide && told < 2.0 * wide, "{told} {wide}");
}
