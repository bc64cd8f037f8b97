use clearance::population::Spread;
use clearance::trend::{Crossing, Line, Meant, Met, Method, Visit, line};
use clearance::{Error, Interval};
use proptest::prelude::*;
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};
use statrs::distribution::{ContinuousCDF, Normal};

use crate::assert_near;

fn readings(x: &[f64], y: &[f64]) -> Vec<Visit> {
    assert_eq!(x.len(), y.len());
    let pairs = x.iter().zip(y);
    pairs
        .map(|(&run, &gap)| Visit {
            run,
            low: gap,
            high: gap,
        })
        .collect()
}

fn evenly(from: f64, step: f64, count: u32) -> Vec<f64> {
    (0..count).map(|i| from + step * f64::from(i)).collect()
}

fn fitted(x: &[f64], y: &[f64]) -> Line {
    line(&readings(x, y), Spread::Free).unwrap()
}

/// The interval of a crossing, wherever it lies.
#[track_caller]
fn met(line: &Line, limit: f64, level: f64, meant: Meant) -> Met {
    match line.crossing(limit, level, meant).unwrap() {
        Crossing::Ahead(met) | Crossing::Behind(met) => met,
        Crossing::NoTrend { g } => panic!("no trend, g = {g}"),
    }
}

#[track_caller]
fn assert_met(met: Met, at: [f64; 3], within: f64) {
    assert_near(met.run, at[0], within);
    assert_near(met.low, at[1], within);
    assert_near(met.high, at[2], within);
}

fn thermostat() -> Line {
    fitted(
        &evenly(96.0, 2.0, 8),
        &[95.71, 98.16, 99.52, 102.09, 103.79, 106.18, 108.14, 110.21],
    )
}

fn chamber() -> Line {
    fitted(
        &evenly(0.0, 10.0, 11),
        &[
            206.36, 225.52, 252.18, 289.33, 318.11, 349.49, 383.03, 410.70, 444.40, 469.14, 501.16,
        ],
    )
}

fn crystal() -> Line {
    fitted(
        &evenly(2.0, 2.0, 14),
        &[
            0.08, 1.12, 4.43, 4.98, 4.92, 7.18, 5.57, 8.40, 8.81, 10.81, 11.16, 10.12, 13.12, 15.04,
        ],
    )
}

#[test]
fn published_graybill_inverse_prediction() {
    // Graybill and Iyer, Regression Analysis, chapter 6, as quoted in the tests of an R package.
    assert_met(
        met(&thermostat(), 104.0, 0.95, Meant::Reading),
        [103.995, 103.4, 104.6],
        0.05,
    );
    assert_met(
        met(&thermostat(), 100.0, 0.90, Meant::Reading),
        [100.1, 99.63, 100.59],
        0.02,
    );
    assert_met(
        met(&chamber(), 400.0, 0.99, Meant::Gap),
        [66.5, 65.07, 68.03],
        0.03,
    );
    assert_met(
        met(&crystal(), 5.0, 0.90, Meant::Gap),
        [9.93, 8.65, 11.05],
        5e-3,
    );
}

#[test]
fn computed_scipy_inverse_prediction() {
    // numpy 2.4.6 and scipy 1.17.1, six decimals.
    assert_met(
        met(&thermostat(), 104.0, 0.95, Meant::Reading),
        [103.994_916, 103.404_051, 104.589_459],
        6e-7,
    );
    assert_met(
        met(&thermostat(), 100.0, 0.90, Meant::Reading),
        [100.112_318, 99.629_403, 100.588_503],
        6e-7,
    );
    assert_met(
        met(&chamber(), 400.0, 0.99, Meant::Gap),
        [66.520_043, 65.070_894, 68.025_832],
        6e-7,
    );
    let crystal = crystal();
    assert_met(
        met(&crystal, 5.0, 0.90, Meant::Gap),
        [9.929_058, 8.650_259, 11.047_897],
        6e-7,
    );
    assert_near(crystal.slope, 0.503_428_6, 6e-8);
    assert_near(
        crystal.level - crystal.slope * crystal.run,
        0.001_428_6,
        6e-8,
    );
    assert_near(crystal.scatter, 1.061_766_9, 6e-8);
    let x: Vec<f64> = (0..32_u32).map(|i| f64::from(i / 4)).collect();
    let arsenic = fitted(
        &x,
        &[
            0.17, 0.25, 0.01, 0.12, 1.25, 0.86, 1.25, 1.10, 2.01, 2.03, 2.14, 1.74, 3.18, 2.99,
            3.23, 3.37, 3.91, 3.90, 3.61, 4.27, 4.88, 5.33, 4.96, 4.98, 6.09, 6.17, 6.07, 5.97,
            6.67, 7.02, 7.14, 7.30,
        ],
    );
    assert_met(
        met(&arsenic, 3.0, 0.95, Meant::Reading),
        [2.931_449, 2.536_740, 3.325_140],
        6e-7,
    );
}

/// Invented: hours since a ring was changed, and clearance in thou.
fn wear() -> Line {
    fitted(
        &[0.0, 12.0, 27.0, 41.0, 58.0, 75.0, 90.0],
        &[13.2, 13.5, 14.4, 14.6, 15.6, 16.1, 17.2],
    )
}

#[test]
fn computed_statsmodels_wear() {
    // statsmodels 0.15.0, get_prediction, six decimals; crossings numpy 2.4.6, three.
    let wear = wear();
    assert_near(wear.slope, 0.043_204_5, 6e-8);
    assert_near(wear.scatter, 0.206_328_3, 6e-8);
    for (hours, low, high) in [
        (100.0, 16.714_853, 18.071_485),
        (120.0, 17.498_894, 19.015_625),
    ] {
        let Interval { low: l, high: h } = wear.foreseen(hours, 0.95, Meant::Reading).unwrap();
        assert_near(l, low, 6e-7);
        assert_near(h, high, 6e-7);
    }
    let gap = met(&wear, 20.0, 0.95, Meant::Gap);
    assert_met(gap, [160.337, 144.302, 181.905], 6e-4);
    assert_near(gap.soonest, 147.412, 6e-4);
    assert!(gap.stretched);
    let reading = met(&wear, 20.0, 0.95, Meant::Reading);
    assert_met(reading, [160.337, 140.570, 185.637], 6e-4);
}

#[test]
fn computed_numpy_no_trend_yet() {
    // numpy 2.4.6: three visits that allow no slope at all.
    let short = fitted(&[0.0, 10.0, 20.0], &[13.0, 14.5, 13.9]);
    let Crossing::NoTrend { g } = short.crossing(20.0, 0.95, Meant::Gap).unwrap() else {
        panic!("a trend was told");
    };
    assert_near(g, 292.998, 6e-4);
}

#[test]
fn published_jcgm_100_calibration_line() {
    // Example H.3: intercept -0.1712(29), slope 0.00218(67), at 30 degrees -0.1494(41).
    let x = [
        21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511,
    ];
    let y = [
        -0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160,
    ];
    let line = fitted(&x, &y);
    let at = |t: f64| {
        let Interval { low, high } = line.foreseen(t, 0.95, Meant::Gap).unwrap();
        // t of 95 % for nine degrees of freedom, as tables print it.
        (0.5 * (low + high), 0.5 * (high - low) / 2.262_157)
    };
    assert_near(at(20.0).0, -0.1712, 5e-5);
    assert_near(at(20.0).1, 0.0029, 5e-5);
    assert_near(line.slope, 0.00218, 5e-6);
    assert_near(at(30.0).0, -0.1494, 5e-5);
    assert_near(at(30.0).1, 0.0041, 5e-5);
    assert_near(line.scatter, 0.003_497_56, 6e-9);
}

#[test]
fn published_nist_norris() {
    // NIST Statistical Reference Datasets, Norris; certified to fifteen digits.
    let x = [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5,
        666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1,
        887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];
    let y = [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1,
        668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3,
        888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];
    let line = fitted(&x, &y);
    let relative = |ours: f64, certified: f64| assert_near(ours / certified, 1.0, 1e-10);
    relative(line.slope, 1.002_116_818_020_45);
    relative(line.level - line.slope * line.run, -0.262_323_073_774_029);
    relative(line.scatter, 0.884_796_396_144_373);
    // The certified deviation of the slope, from where the trend would vanish: g = t^2 V / b^2.
    let at = |level| line.foreseen(0.0, level, Meant::Gap).unwrap();
    let half = 0.5 * (at(0.95).high - at(0.95).low);
    // t of 95 % for 34 degrees of freedom: 2.032245 (scipy 1.17.1).
    assert_near(half / 2.032_244_509_318, 0.232_818_234_301_152, 1e-9);
}

/// Invented visits read with leaves in steps of a thou.
fn leaves() -> Vec<Visit> {
    [
        (0.0, 13.0),
        (12.0, 13.0),
        (27.0, 14.0),
        (41.0, 14.0),
        (58.0, 15.0),
        (75.0, 16.0),
        (90.0, 17.0),
    ]
    .map(|(run, low)| Visit {
        run,
        low,
        high: low + 1.0,
    })
    .to_vec()
}

#[test]
fn law_wide_intervals_ask_for_a_scatter() {
    assert_eq!(
        line(&leaves(), Spread::Free),
        Err(Error::ScatterCollapses { visits: 7 })
    );
    let told = line(&leaves(), Spread::Fixed(0.2)).unwrap();
    assert_eq!(told.method, Method::Intervals);
    let Crossing::Ahead(met) = told.crossing(20.0, 0.95, Meant::Gap).unwrap() else {
        panic!("the trend is plain");
    };
    assert!(met.low < met.soonest && met.soonest < met.run && met.run < met.high);
}

#[test]
fn law_stated_scatter_without_width_is_the_normal_theory() {
    // Intervals of no width and a stated scatter: z, not t, and no more to estimate.
    let visits = readings(&[0.0, 1.0, 2.0, 4.0, 8.0], &[1.0, 2.0, 2.5, 5.5, 9.0]);
    let known = line(&visits, Spread::Fixed(0.5)).unwrap();
    let z = 1.959_963_984_540_054;
    for x in [-3.0, 0.0, 5.0, 20.0] {
        let variance = 0.25 * (1.0 / 5.0 + (x - 3.0_f64).powi(2) / 40.0);
        for (meant, own) in [(Meant::Gap, 0.0), (Meant::Reading, 0.25)] {
            let Interval { low, high } = known.foreseen(x, 0.95, meant).unwrap();
            assert_near(0.5 * (high - low), z * (variance + own).sqrt(), 1e-7);
        }
    }
}

#[test]
fn law_behind_is_told_apart_from_ahead() {
    let wear = wear();
    assert!(matches!(
        wear.crossing(15.0, 0.95, Meant::Gap),
        Ok(Crossing::Behind(_))
    ));
    assert!(matches!(
        wear.crossing(20.0, 0.95, Meant::Gap),
        Ok(Crossing::Ahead(_))
    ));
}

/// Series drawn about a true line, read with leaves in steps of `step` (or plainly, at zero): shares
/// whose interval holds the true time of the limit, and whose soonest time comes too late.
fn drawn(series: u64, step: f64, spread: Spread) -> (f64, f64) {
    const SCATTER: f64 = 0.2;
    let normal = Normal::standard();
    let (mut held, mut late) = (0_u32, 0_u32);
    for seed in 0..series {
        let mut random = Pcg64Mcg::seed_from_u64(seed);
        #[expect(clippy::cast_precision_loss, reason = "53 bits are kept")]
        let mut even = || ((random.next_u64() >> 11) as f64 + 0.5) / 2.0_f64.powi(53);
        let (start, offset) = (13.0 + even(), even() * step);
        let truth = (20.0 - start) / 0.045;
        let visits: Vec<Visit> = [0.0, 12.0, 27.0, 41.0, 58.0, 75.0, 90.0]
            .into_iter()
            .map(|run| {
                let gap = start + 0.045 * run + SCATTER * normal.inverse_cdf(even());
                let low = if step > 0.0 {
                    ((gap - offset) / step).floor() * step + offset
                } else {
                    gap
                };
                let high = low + step;
                Visit { run, low, high }
            })
            .collect();
        let met = met(&line(&visits, spread).unwrap(), 20.0, 0.95, Meant::Gap);
        held += u32::from(met.low <= truth && truth <= met.high);
        late += u32::from(truth < met.soonest);
    }
    #[expect(clippy::cast_precision_loss, reason = "a few thousand")]
    let count = series as f64;
    (f64::from(held) / count, f64::from(late) / count)
}

#[test]
fn law_intervals_keep_their_promise() {
    // Plain readings: exact, so only luck is allowed for, four standard errors of a share.
    let luck = |p: f64, series: f64| 4.0 * (p * (1.0 - p) / series).sqrt();
    let (held, late) = drawn(4000, 0.0, Spread::Free);
    assert_near(held, 0.95, luck(0.95, 4000.0));
    assert_near(late, 0.05, luck(0.05, 4000.0));
    // Leaves a thou and two apart: the likelihood ratio promises no less.
    for step in [1.0, 2.0] {
        let (held, late) = drawn(400, step, Spread::Fixed(0.2));
        assert!(held >= 0.95 - luck(0.95, 400.0), "{step}: held {held}");
        assert!(late <= 0.05 + luck(0.05, 400.0), "{step}: late {late}");
    }
}

/// Visits along a line with scatter and intervals of some width.
fn visits() -> impl Strategy<Value = Vec<Visit>> {
    let one = (1.0..20.0_f64, -1.0..1.0_f64, 0.0..2.0_f64);
    (prop::collection::vec(one, 4..9), 0.1..2.0_f64).prop_map(|(steps, slope)| {
        let mut run = 0.0;
        steps
            .into_iter()
            .map(|(step, off, width)| {
                run += step;
                let gap = 13.0 + slope * run + off;
                Visit {
                    run,
                    low: gap - 0.5 * width,
                    high: gap + 0.5 * width,
                }
            })
            .collect()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_forward_and_back_agree(visits in visits(), stated in any::<bool>(), limit in 20.0..60.0_f64) {
        // The limit is on the edge of what is foreseen at either end of the crossing.
        let spread = if stated { Spread::Fixed(0.7) } else { Spread::Free };
        let found = match line(&visits, spread) {
            Ok(found) => found,
            Err(Error::ScatterCollapses { .. }) => return Ok(()),
            Err(other) => return Err(TestCaseError::fail(other.to_string())),
        };
        for meant in [Meant::Gap, Meant::Reading] {
            match found.crossing(limit, 0.95, meant).unwrap() {
                Crossing::NoTrend { g } => prop_assert!(g >= 1.0),
                Crossing::Ahead(met) | Crossing::Behind(met) => {
                    prop_assert!(met.low < met.run && met.run < met.high);
                    prop_assert!(met.low < met.soonest && met.soonest < met.run);
                    for at in [met.low, met.high] {
                        let Interval { low, high } = found.foreseen(at, 0.95, meant).unwrap();
                        let edge = (low - limit).abs().min((high - limit).abs());
                        prop_assert!(edge < 1e-6 * (high - low), "{met:?} {low} {high}");
                    }
                }
            }
        }
    }

    #[test]
    fn law_units_do_not_matter(visits in visits(), scale in 1e-6..1e3_f64, time in 1e-3..3600.0_f64) {
        let other: Vec<Visit> = visits
            .iter()
            .map(|v| Visit { run: v.run * time, low: v.low * scale, high: v.high * scale })
            .collect();
        let a = line(&visits, Spread::Fixed(0.7)).unwrap();
        let b = line(&other, Spread::Fixed(0.7 * scale)).unwrap();
        let at = visits[0].run + 30.0;
        let one = a.foreseen(at, 0.9, Meant::Gap).unwrap();
        let two = b.foreseen(at * time, 0.9, Meant::Gap).unwrap();
        prop_assert!((one.low * scale - two.low).abs() < 1e-6 * scale);
        prop_assert!((one.high * scale - two.high).abs() < 1e-6 * scale);
    }
}
