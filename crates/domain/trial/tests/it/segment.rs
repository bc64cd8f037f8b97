use proptest::prelude::*;
use trial::segment::{changes, noise};

use crate::assert_near;
use crate::drawn::Noise;

const READINGS: [f64; 24] = [
    0.2, 0.1, 0.3, 0.2, 0.1, 0.2, 24.1, 24.4, 24.2, 24.3, 24.5, 24.2, 24.3, 12.0, 12.3, 12.1, 12.2,
    11.9, 25.0, 24.8, 25.1, 24.9, 25.2, 25.0,
];

/// Sum of squares about the mean, by the definition.
fn cost(readings: &[f64]) -> f64 {
    let mean = readings.iter().sum::<f64>() / f64::from(u32::try_from(readings.len()).unwrap());
    readings.iter().map(|x| (x - mean) * (x - mean)).sum()
}

fn costs(readings: &[f64], ends: &[usize]) -> Vec<f64> {
    let starts = std::iter::once(&0).chain(ends);
    starts
        .zip(ends)
        .map(|(&a, &b)| cost(&readings[a..b]))
        .collect()
}

#[test]
fn computed_ruptures_pelt() {
    // ruptures 1.1.10, Pelt l2, min_size 2, jump 1; costs printed to 1e-7.
    for penalty in [1.0, 10.0, 100.0] {
        assert_eq!(changes(&READINGS, penalty, 2).unwrap(), [6, 13, 18, 24]);
    }
    assert_eq!(changes(&READINGS, 2000.0, 2).unwrap(), [24]);
    let parts = costs(&READINGS, &[6, 13, 18, 24]);
    for (ours, theirs) in parts.iter().zip([0.028_333_3, 0.108_571_4, 0.1, 0.1]) {
        assert_near(*ours, theirs, 1e-7);
    }
    assert_near(cost(&READINGS), 2543.72, 0.005);
}

/// Least cost over all segmentations, by going through them all.
fn least(readings: &[f64], penalty: f64, shortest: usize) -> f64 {
    let count = readings.len();
    let mut best = vec![f64::INFINITY; count + 1];
    best[0] = -penalty;
    for end in 1..=count {
        for start in 0..end {
            if end - start >= shortest {
                let here = best[start] + cost(&readings[start..end]) + penalty;
                best[end] = best[end].min(here);
            }
        }
    }
    best[count]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_no_segmentation_is_cheaper(
        readings in prop::collection::vec(-5.0..5.0_f64, 6..40), penalty in 0.05..40.0_f64, shortest in 1_usize..6,
    ) {
        let ends = changes(&readings, penalty, shortest).unwrap();
        let ours: f64 = costs(&readings, &ends).iter().sum::<f64>()
            + penalty * f64::from(u32::try_from(ends.len() - 1).unwrap());
        prop_assert!((ours - least(&readings, penalty, shortest)).abs() < 1e-8);
        let starts = std::iter::once(&0).chain(&ends);
        prop_assert!(starts.zip(&ends).all(|(a, b)| b - a >= shortest));
        prop_assert_eq!(*ends.last().unwrap(), readings.len());
    }
}

#[test]
fn law_sixty_thousand_readings_are_cut_where_they_change() {
    let mut drawn = Noise::new(4);
    let readings: Vec<f64> = (0..60_000_i32)
        .map(|i| f64::from((i / 300) % 7) * 4.0 + 0.2 * drawn.normal())
        .collect();
    let ends = changes(&readings, 5.0, 2).unwrap();
    let every: Vec<usize> = (1..=200).map(|i| 300 * i).collect();
    assert_eq!(ends, every);
}

#[test]
fn law_noise_is_told_in_spite_of_changes() {
    let mut drawn = Noise::new(7);
    let readings: Vec<f64> = (0..20_000_i32)
        .map(|i| f64::from(i / 2000) * 3.0 + 0.25 * drawn.normal())
        .collect();
    // A median of 20 000 differences, neighbours correlated: standard error about 1.2 %; three of them.
    assert_near(noise(&readings).unwrap(), 0.25, 0.01);
}

#[test]
fn law_what_cannot_be_cut_is_refused() {
    assert!(changes(&[1.0], 1.0, 2).is_err());
    assert!(changes(&[1.0, 2.0], 0.0, 1).is_err());
    assert!(changes(&[1.0, f64::NAN], 1.0, 1).is_err());
    assert!(noise(&[1.0]).is_err());
}
