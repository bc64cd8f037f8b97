use trial::smooth::{Motion, motion, polynomial, weights};

use crate::{assert_all_near, assert_near};

#[test]
fn published_savitzky_golay_weights() {
    // savitzky-golay-1964, tables; to rounding of their least squares.
    let middle = |half, derivative| weights(half, 2, derivative, 0.0).unwrap();
    let over = |by: f64, all: &[f64]| all.iter().map(|w| w / by).collect::<Vec<_>>();
    assert_all_near(
        &middle(2, 0),
        &over(35.0, &[-3., 12., 17., 12., -3.]),
        1e-14,
    );
    assert_all_near(
        &middle(3, 0),
        &over(21.0, &[-2., 3., 6., 7., 6., 3., -2.]),
        1e-14,
    );
    let nine = [-21., 14., 39., 54., 59., 54., 39., 14., -21.];
    assert_all_near(&middle(4, 0), &over(231.0, &nine), 1e-14);
    // The derivative in the order of the readings: a rising line rises.
    assert_all_near(&middle(2, 1), &over(10.0, &[-2., -1., 0., 1., 2.]), 1e-14);
}

#[test]
fn computed_scipy_savgol_filter() {
    // scipy 1.17.1, savgol_filter(y, 5, 2), mode interp; printed to 1e-8.
    let y = [
        0.1, 0.0, 0.2, 1.4, 3.1, 5.2, 7.9, 10.2, 12.4, 14.1, 15.6, 16.9, 18.0,
    ];
    let smooth = [
        0.137_142_86,
        -0.108_571_43,
        0.302_857_14,
        1.365_714_29,
        3.074_285_71,
        5.302_857_14,
        7.788_571_43,
        10.26,
        12.34,
        14.125_714_29,
        15.6,
        16.9,
        18.0,
    ];
    let rise = [
        -0.574_285_71,
        0.082_857_14,
        0.74,
        1.33,
        1.92,
        2.24,
        2.36,
        2.23,
        1.93,
        1.66,
        1.4,
        1.2,
        1.0,
    ];
    assert_all_near(&polynomial(&y, 2, 2, 0).unwrap(), &smooth, 1e-8);
    assert_all_near(&polynomial(&y, 2, 2, 1).unwrap(), &rise, 1e-8);
}

#[test]
fn computed_numpy_constant_acceleration() {
    // numpy 2.4.6; the reference agrees with one batch of least squares to 5e-15; printed to 1e-6.
    let times = [0., 1., 2., 3., 5., 6., 7., 8.];
    let read = [0.1, 0.0, 0.3, 2.2, 9.8, 13.1, 15.6, 17.2];
    let prior = Motion {
        variance: 0.04,
        unrest: 1.0,
        start: [0.0, 0.0],
        doubt: [1.0, 4.0],
    };
    let found = motion(&times, &read, &prior).unwrap();
    let speed = [
        0.081_257, -0.039_820, 0.351_082, 2.258_017, 9.747_654, 13.100_867, 15.559_757, 17.237_936,
    ];
    let rise = [
        -0.165_004, -0.012_598, 1.024_871, 2.806_627, 3.786_565, 2.913_859, 1.994_309, 1.520_113,
    ];
    let spread = [
        0.190_925, 0.175_201, 0.172_088, 0.184_068, 0.184_070, 0.172_098, 0.176_401, 0.195_531,
    ];
    for (i, s) in found.iter().enumerate() {
        assert_near(s.speed, speed[i], 1e-6);
        assert_near(s.acceleration, rise[i], 1e-6);
        assert_near(s.deviation, spread[i], 1e-6);
    }
}

#[test]
fn law_a_parabola_is_kept() {
    let y: Vec<f64> = (0..30_i32).map(|i| f64::from(3 + 2 * i - i * i)).collect();
    assert_all_near(&polynomial(&y, 4, 2, 0).unwrap(), &y, 1e-9);
}

#[test]
fn law_what_cannot_be_smoothed_is_refused() {
    assert!(polynomial(&[1.0; 4], 2, 2, 0).is_err());
    assert!(polynomial(&[1.0; 9], 2, 5, 0).is_err());
    assert!(polynomial(&[1.0; 9], 2, 2, 3).is_err());
    let prior = Motion {
        variance: 0.04,
        unrest: 1.0,
        start: [0.0; 2],
        doubt: [1.0; 2],
    };
    assert!(motion(&[0.0, 0.0], &[1.0, 1.0], &prior).is_err());
    assert!(motion(&[], &[], &prior).is_err());
}
