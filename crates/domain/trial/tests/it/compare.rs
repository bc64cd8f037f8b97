use trial::compare::{
    Group, agreement, bootstrap, every_resample, permutation, pooled, power, runs_needed, size,
    welch,
};
use trial::{Contribution, Figure, Origin, Part};

use crate::assert_near;

const BEFORE: [f64; 4] = [24.6, 24.3, 24.8, 24.5];
const AFTER: [f64; 3] = [26.1, 25.7, 26.0];

fn group(count: usize, mean: f64, deviation: f64) -> Group {
    Group {
        count,
        mean,
        deviation,
    }
}

#[test]
fn published_nist_two_sample() {
    // nist-handbook, 1.3.5.3, AUTO83B: pooled 6.34260, T -12.62059, 326 degrees, t 1.9673;
    // interval as its R output prints it.
    let (a, b) = (group(79, 30.48101, 6.10771), group(249, 20.14458, 6.41470));
    let found = pooled(&a, &b, 0.0).unwrap();
    assert_near(found.ratio(), -12.62059, 2e-5);
    assert_near(found.freedom, 326.0, 0.0);
    assert_near(found.half_width(0.95).unwrap() / found.error, 1.9673, 5e-5);
    // The groups are given to 1e-5.
    let interval = found.interval(0.95).unwrap();
    assert_near(interval.low, -11.947_653, 2e-5);
    assert_near(interval.high, -8.725_216, 2e-5);
    let share = (1.0 / 79.0 + 1.0 / 249.0_f64).sqrt();
    assert_near(found.error / share, 6.34260, 1e-5);
}

#[test]
fn computed_scipy_nist_welch() {
    // scipy 1.17.1, scipy.stats.t with the formula of Welch.
    let (a, b) = (group(79, 30.48101, 6.10771), group(249, 20.14458, 6.41470));
    let found = welch(&a, &b, 0.0).unwrap();
    assert_near(found.ratio(), -12.946_267_6, 1e-7);
    assert_near(found.freedom, 136.874_990, 1e-6);
    assert_near(found.error, 0.798_410_04, 1e-8);
    let interval = found.interval(0.95).unwrap();
    assert_near(interval.low, -11.915_243_8, 1e-6);
    assert_near(interval.high, -8.757_616_2, 1e-6);
}

#[test]
fn published_nag_g07ca() {
    // nag-g07ca, example output, printed to 1e-4.
    let (x, y) = (group(4, 25.0, 0.8185), group(8, 21.0, 4.2083));
    let unlike = welch(&y, &x, 0.0).unwrap();
    assert_near(unlike.ratio(), 2.5922, 5e-5);
    assert_near(unlike.freedom, 7.9925, 5e-5);
    assert_near(unlike.chance(), 0.0320, 5e-5);
    let interval = unlike.interval(0.95).unwrap();
    assert_near(interval.low, 0.4410, 5e-5);
    assert_near(interval.high, 7.5590, 5e-5);
    let alike = pooled(&y, &x, 0.0).unwrap();
    assert_near(alike.ratio(), 1.8403, 5e-5);
    assert_near(alike.chance(), 0.0955, 5e-5);
    let interval = alike.interval(0.95).unwrap();
    assert_near(interval.low, -0.8429, 5e-5);
    assert_near(interval.high, 8.8429, 5e-5);
}

#[test]
fn computed_scipy_seven_runs() {
    // scipy 1.17.1, ttest_ind(equal_var=False).
    let (before, after) = (Group::of(&BEFORE).unwrap(), Group::of(&AFTER).unwrap());
    let found = welch(&before, &after, 0.0).unwrap();
    assert_near(found.difference, 1.383_333_3, 1e-7);
    assert_near(found.error, 0.158_989_87, 1e-8);
    assert_near(found.ratio(), 8.700_764_14, 1e-8);
    assert_near(found.freedom, 4.454_545_45, 1e-8);
    assert_near(found.chance(), 5.838_927e-4, 1e-10);
    let interval = found.interval(0.95).unwrap();
    assert_near(interval.low, 0.959_115_94, 1e-8);
    assert_near(interval.high, 1.807_550_73, 1e-8);
    let found = size(&before, &after).unwrap();
    assert_near(found.plain, 6.645_32, 5e-6);
    assert_near(found.corrected, 5.596_06, 5e-6);
    // One of 35 splits, the least there can be.
    assert_near(permutation(&BEFORE, &AFTER).unwrap(), 1.0 / 35.0, 1e-15);
}

#[test]
fn computed_numpy_every_resample() {
    // numpy 2.4.6, 27 times 256 differences, percentiles by linear interpolation.
    let found = every_resample(&BEFORE, &AFTER).unwrap();
    assert_near(found.mean, 1.383_333_3, 1e-7);
    assert_near(found.deviation, 0.133_246_50, 1e-8);
    assert_near(found.median, 1.383_333_3, 1e-7);
    assert_near(found.interval.low, 1.125, 1e-9);
    assert_near(found.interval.high, 1.633_333_3, 1e-7);
}

#[test]
fn computed_scipy_power() {
    // scipy 1.17.1, nct, two-sided 5 %, scatter 0.3; printed to 1e-3.
    let half = [(2, 0.170), (3, 0.347), (4, 0.507), (6, 0.740), (8, 0.872)];
    let third = [(2, 0.095), (3, 0.159), (4, 0.223), (6, 0.347), (8, 0.461)];
    for (difference, table) in [(0.5, half), (0.3, third)] {
        for (count, theirs) in table {
            assert_near(power(difference, 0.3, count).unwrap(), theirs, 5e-4);
        }
    }
    assert_eq!(runs_needed(0.5, 0.3, 0.8).unwrap(), Some(7));
}

#[test]
fn law_power_of_nothing_is_the_risk_taken() {
    for count in [2, 3, 10, 100] {
        assert_near(power(0.0, 0.3, count).unwrap(), 0.05, 1e-9);
    }
    assert!(power(-0.5, 0.3, 4).unwrap() > power(0.4, 0.3, 4).unwrap());
    assert_eq!(runs_needed(1e-6, 1.0, 0.9).unwrap(), None);
}

#[test]
fn law_the_day_widens_and_scatter_counts_less() {
    let (before, after) = (Group::of(&BEFORE).unwrap(), Group::of(&AFTER).unwrap());
    let none = welch(&before, &after, 0.0).unwrap();
    let day = welch(&before, &after, 0.3).unwrap();
    let half = |d: &trial::compare::Difference| d.half_width(0.95).unwrap();
    assert!(half(&day) > half(&none));
    // Where the day is all there is, the interval is that of the normal law: 1.96 of it.
    let all = welch(&before, &after, 1000.0).unwrap();
    assert_near(half(&all) / 1000.0, 1.959_963_985, 1e-6);
}

#[test]
fn law_bootstrap_repeats_and_finds_the_spread() {
    let before: Vec<f64> = (0..12).map(|i| 24.0 + 0.1 * f64::from(i)).collect();
    let after: Vec<f64> = (0..9).map(|i| 25.5 + 0.15 * f64::from(i * i % 7)).collect();
    let found = bootstrap(&before, &after, 5).unwrap();
    assert_eq!(found, bootstrap(&before, &after, 5).unwrap());
    // Its variance is known: that of the values over their number, each side; the standard error of a
    // deviation from 20 000 draws is 0.5 %, four of them are allowed.
    let over = |x: &[f64]| {
        let g = Group::of(x).unwrap();
        let n = f64::from(u32::try_from(x.len()).unwrap());
        g.deviation * g.deviation * (n - 1.0) / (n * n)
    };
    let known = (over(&before) + over(&after)).sqrt();
    assert_near(found.deviation / known, 1.0, 0.02);
    assert!(bootstrap(&BEFORE, &AFTER, 5).is_err());
}

#[test]
fn law_permutation_does_not_mind_the_order() {
    let p = permutation(&AFTER, &BEFORE).unwrap();
    assert_near(p, permutation(&BEFORE, &AFTER).unwrap(), 1e-15);
    assert_near(permutation(&[1.0, 2.0], &[1.0, 2.0]).unwrap(), 1.0, 0.0);
    assert!(permutation(&[0.0; 20], &[1.0; 20]).is_err());
}

#[test]
fn law_agreement() {
    let parts = vec![Contribution::known(Part::Scatter, 0.3)];
    let measured = Figure::new(26.5, parts, Origin::Log).unwrap();
    let close = agreement(&measured, 27.4, 0.4).unwrap();
    assert_near(close.ratio, -1.8, 1e-12);
    assert!(close.agrees());
    assert!(!agreement(&measured, 27.6, 0.4).unwrap().agrees());
    assert!(agreement(&measured, 27.6, 0.0).is_err());
}

#[test]
fn law_too_little_is_refused() {
    assert!(Group::of(&[24.0]).is_err());
    assert!(Group::of(&[24.0, 24.0]).is_err());
    assert!(Group::of(&[24.0, f64::NAN]).is_err());
    let good = group(3, 24.0, 0.2);
    assert!(welch(&good, &group(1, 24.0, 0.2), 0.0).is_err());
    assert!(welch(&good, &good, -0.1).is_err());
}
