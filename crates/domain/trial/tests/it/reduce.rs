use proptest::prelude::*;
use trial::reduce::{
    Allowances, Current, Method, Pairing, Pass, Pooled, ScatterFrom, fitted, mean_of_means,
    mean_weights, reduce, series,
};
use trial::{Contribution, Figure, Origin, Part};

use crate::{assert_all_near, assert_near};

fn figure(value: f64) -> Figure {
    Figure::new(
        value,
        vec![Contribution::known(Part::Receiver, 0.05)],
        Origin::Log,
    )
    .unwrap()
}

/// Runs of alternate direction, every two minutes.
fn passes(speeds: &[f64]) -> Vec<Pass> {
    let pass = |(i, speed): (u32, &f64)| Pass {
        time: 120.0 * f64::from(i),
        course: f64::from(i) * std::f64::consts::PI,
        speed: figure(*speed),
    };
    (0..).zip(speeds).map(pass).collect()
}

#[test]
fn computed_worked_example_a() {
    // V = 24.0, current 0.60 - 0.30 k + 0.04 k^2, by hand.
    let runs = [24.60, 23.66, 24.16, 23.94];
    assert_near(mean_of_means(&runs[..2]).unwrap(), 24.13, 1e-12);
    assert_near(mean_of_means(&runs[..3]).unwrap(), 24.02, 1e-12);
    assert_near(mean_of_means(&runs).unwrap(), 24.00, 1e-12);
    assert_near(
        reduce(&passes(&runs), &Allowances::default())
            .unwrap()
            .plain,
        24.09,
        1e-12,
    );
}

#[test]
fn computed_worked_example_b() {
    let runs = [27.10, 25.94, 26.98, 26.06];
    assert_near(mean_of_means(&runs).unwrap(), 26.49, 1e-12);
    assert_near(mean_of_means(&runs[..3]).unwrap(), 26.49, 1e-12);
    let reduced = reduce(&passes(&runs), &Allowances::default()).unwrap();
    assert_near(reduced.plain, 26.52, 1e-12);
    assert_near(reduced.speed.value, 26.49, 1e-12);
    assert_eq!(reduced.method, Method::MeanOfMeans);
    // Half-differences by hand: (27.10 - 25.94)/2, -(25.94 - 26.98)/2, (26.98 - 26.06)/2.
    assert_all_near(&reduced.along, &[0.58, 0.52, 0.46], 1e-12);
    assert!(
        matches!(reduced.current, Current::Free { change, .. } if (change - 0.06).abs() < 1e-12)
    );
    assert!(!reduced.still.stands);
}

#[test]
fn computed_weights_and_their_variance() {
    let weights: [&[f64]; 4] = [
        &[1., 1.],
        &[1., 2., 1.],
        &[1., 3., 3., 1.],
        &[1., 4., 6., 4., 1.],
    ];
    for (weights, variance) in weights.iter().zip([0.5, 0.375, 0.3125, 0.273_437_5]) {
        let sum: f64 = weights.iter().sum();
        let ours = mean_weights(weights.len()).unwrap();
        let theirs: Vec<f64> = weights.iter().map(|w| w / sum).collect();
        assert_all_near(&ours, &theirs, 1e-15);
        assert_near(ours.iter().map(|w| w * w).sum(), variance, 1e-15);
    }
}

#[test]
fn computed_worked_budget() {
    // Plain mean of four runs that scatter by 0.20, the current left over with the mean of means:
    // sqrt(0.100^2 + 0.05^2 + (0.10 sqrt 0.3125)^2 + 0.08^2 + 0.06^2), by hand.
    let part = |part, u| Contribution::known(part, u);
    let parts = vec![
        part(Part::Scatter, 0.20 * 0.25_f64.sqrt()),
        part(Part::Receiver, 0.05),
        part(Part::Current, 0.10 * 0.3125_f64.sqrt()),
        part(Part::Load, 0.08),
        part(Part::Air, 0.06),
    ];
    let figure = Figure::new(26.49, parts, Origin::Log).unwrap();
    assert_near(figure.uncertainty(), 0.1601, 5e-5);
    // Coverage two is 95.45 % of the normal law.
    assert_near(figure.half_width(0.954_499_736).unwrap(), 0.32, 5e-3);
}

#[test]
fn law_the_budget_is_that_of_the_weights() {
    let allowances = Allowances {
        pooled: Some(Pooled {
            deviation: 0.2,
            freedom: 1e6,
        }),
        ..Allowances::default()
    };
    let reduced = reduce(&passes(&[27.10, 25.94, 26.98, 26.06]), &allowances).unwrap();
    let of = |part| {
        reduced
            .speed
            .parts
            .iter()
            .find(|p| p.part == part)
            .unwrap()
            .uncertainty
    };
    // The pooled scatter has a million degrees of freedom, that of the runs two.
    assert_near(of(Part::Scatter), 0.2 * 0.3125_f64.sqrt(), 1e-6);
    assert_near(of(Part::Receiver), 0.05, 1e-15);
    assert_near(of(Part::Current), 0.10 * 0.3125_f64.sqrt(), 1e-15);
    assert_eq!(reduced.scatter_from, ScatterFrom::Pooled);
    let plain = reduced
        .still
        .speed
        .parts
        .iter()
        .find(|p| p.part == Part::Scatter)
        .unwrap();
    assert_near(plain.uncertainty, 0.1, 1e-6);
}

#[test]
fn law_two_runs_fall_back_on_the_floor() {
    let reduced = reduce(&passes(&[26.2, 26.0]), &Allowances::default()).unwrap();
    assert_eq!(reduced.scatter_from, ScatterFrom::Floor);
    assert_eq!(reduced.current, Current::Untold);
    assert_near(reduced.scatter, 0.15, 0.0);
    assert!(reduced.still.stands);
    let current = reduce(&passes(&[27.2, 26.0]), &Allowances::default()).unwrap();
    assert!(!current.still.stands);
}

#[test]
fn law_a_current_that_changes_is_told() {
    let reduced = reduce(&passes(&[27.4, 25.0, 26.2, 26.0]), &Allowances::default()).unwrap();
    // Scatter about a steady current is large here, so that the interval is wide and hides nothing else.
    assert!(matches!(reduced.scatter_from, ScatterFrom::Runs));
    let sure = Allowances {
        pooled: Some(Pooled {
            deviation: 0.1,
            freedom: 1e4,
        }),
        ..Allowances::default()
    };
    let told = reduce(&passes(&[27.4, 25.0, 26.2, 26.0]), &sure).unwrap();
    assert!(matches!(told.current, Current::Left { change, limit } if change > limit));
}

#[test]
fn law_pairing() {
    let at = |time, course: f64| Pass {
        time,
        course: course.to_radians(),
        speed: figure(25.0),
    };
    let found = |passes: &[Pass]| series(passes, &Pairing::default()).unwrap();
    // 350 and 165 are opposite but for five degrees across north; 200 is not opposite to 350.
    let put = found(&[
        at(0.0, 350.0),
        at(90.0, 165.0),
        at(200.0, 352.0),
        at(320.0, 200.0),
    ]);
    assert_eq!(put.alternate, [vec![0, 1, 2]]);
    assert_eq!(put.alone, [3]);
    // Ten minutes at the most, and in the order of time whatever the order given.
    let put = found(&[at(700.0, 180.0), at(0.0, 0.0), at(650.0, 2.0)]);
    assert_eq!(put.alternate, [vec![2, 0]]);
    assert_eq!(put.alone, [1]);
    assert_eq!(found(&[]).alternate.len(), 0);
}

#[test]
fn law_what_cannot_be_reduced_is_refused() {
    let none = Allowances::default();
    assert!(reduce(&passes(&[25.0]), &none).is_err());
    let mut same = passes(&[25.0, 24.0]);
    same[1].course = same[0].course + 1.0;
    assert!(reduce(&same, &none).is_err());
    let mut together = passes(&[25.0, 24.0]);
    together[1].time = together[0].time;
    assert!(reduce(&together, &none).is_err());
    assert!(fitted(&[0.0, 60.0, 150.0], &[25.0, 24.0, 25.0], 2).is_err());
    assert!(mean_of_means(&[]).is_err());
}

fn current(coefficients: &[f64], t: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * t + c)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_mean_of_means_takes_out_a_polynomial(
        speed in 10.0..40.0_f64, coefficients in prop::collection::vec(-0.3..0.3_f64, 1..5),
    ) {
        let count = coefficients.len() + 1;
        let runs: Vec<f64> = (0..count).map(|k| {
            let k = f64::from(u32::try_from(k).unwrap());
            let sign = if k % 2.0 == 0.0 { 1.0 } else { -1.0 };
            speed + sign * current(&coefficients, k) * 0.1
        }).collect();
        prop_assert!((mean_of_means(&runs).unwrap() - speed).abs() < 1e-10);
        // One degree more is not taken out: by (n-1)! / 2^(n-1) of its coefficient.
        let more: Vec<f64> = runs.iter().enumerate().map(|(k, v)| {
            let sign = if k % 2 == 0 { 1.0 } else { -1.0 };
            v + sign * 1e-3 * (0..count - 1).map(|_| f64::from(u32::try_from(k).unwrap())).product::<f64>()
        }).collect();
        prop_assert!((mean_of_means(&more).unwrap() - speed).abs() > 1e-4);
    }

    #[test]
    fn law_least_squares_takes_out_its_polynomial_at_any_times(
        speed in 10.0..40.0_f64, c in prop::array::uniform3(-0.5..0.5_f64),
        steps in prop::collection::vec(40.0..400.0_f64, 4..8),
    ) {
        let mut times = vec![1000.0];
        for step in &steps { times.push(times.last().unwrap() + step); }
        let runs: Vec<f64> = times.iter().enumerate().map(|(i, t)| {
            let sign = if i % 2 == 0 { 1.0 } else { -1.0 };
            speed + sign * current(&c, (t - 1000.0) / 600.0)
        }).collect();
        let found = fitted(&times, &runs, 2).unwrap();
        prop_assert!((found.speed - speed).abs() < 1e-8, "{found:?}");
        prop_assert!(found.deviation < 1e-8);
    }

    #[test]
    fn law_both_ways_agree_at_equal_times(runs in prop::collection::vec(20.0..30.0_f64, 4)) {
        let found = fitted(&[0.0, 60.0, 120.0, 180.0], &runs, 2).unwrap();
        prop_assert!((found.speed - mean_of_means(&runs).unwrap()).abs() < 1e-10);
    }

    #[test]
    fn law_later_elsewhere_and_faster(
        runs in prop::collection::vec(20.0..30.0_f64, 2..6), later in -1e5..1e5_f64, turned in -7.0..7.0_f64,
        by in 0.2..3.0_f64,
    ) {
        let here = passes(&runs);
        let there: Vec<Pass> = here.iter().map(|p| Pass {
            time: p.time + later, course: p.course + turned, speed: p.speed.clone(),
        }).collect();
        let plain = Allowances::default();
        let (a, b) = (reduce(&here, &plain).unwrap(), reduce(&there, &plain).unwrap());
        prop_assert!((a.speed.value - b.speed.value).abs() < 1e-9);
        prop_assert!((a.speed.uncertainty() - b.speed.uncertainty()).abs() < 1e-9);
        prop_assert_eq!(series(&here, &Pairing::default()).unwrap(), series(&there, &Pairing::default()).unwrap());
        let scaled: Vec<Pass> = here.iter().map(|p| {
            let mut p = p.clone();
            p.speed.value *= by;
            for part in &mut p.speed.parts { part.uncertainty *= by; }
            p
        }).collect();
        let wider = Allowances {
            pooled: None, floor: plain.floor * by, current: plain.current * by, load: plain.load * by,
            air: plain.air * by,
        };
        let c = reduce(&scaled, &wider).unwrap();
        prop_assert!((c.speed.value - by * a.speed.value).abs() < 1e-9);
        prop_assert!((c.speed.uncertainty() - by * a.speed.uncertainty()).abs() < 1e-9);
    }
}

#[test]
fn law_the_interval_holds_the_truth_as_often_as_it_says() {
    let allowances = Allowances::default();
    let mut drawn = crate::drawn::Noise::new(71);
    for count in [2, 3, 4, 6] {
        let mut held = 0.0;
        for _ in 0..2000 {
            // Of one day: the receiver, the load, the air. Of one run: its own scatter and a rest of the current.
            let day = 0.05 * drawn.normal() + 0.08 * drawn.normal() + 0.06 * drawn.normal();
            let current = 0.5 * drawn.normal();
            let speeds: Vec<f64> = (0..count)
                .map(|i| {
                    let along = current + 0.10 * drawn.normal();
                    let along = if i % 2 == 0 { along } else { -along };
                    25.0 + day + along + 0.15 * drawn.normal()
                })
                .collect();
            let interval = reduce(&passes(&speeds), &allowances)
                .unwrap()
                .speed
                .interval(0.95)
                .unwrap();
            held += f64::from(u8::from(interval.low <= 25.0 && 25.0 <= interval.high));
        }
        // Two thousand intervals: standard error 0.5 %. Never less than said by more than four of them. A rest of
        // the current counts twice where the runs tell their own scatter, which errs to the safe side.
        let share = held / 2000.0;
        assert!(share > 0.93, "{count} runs: {share}");
    }
}
