use service::records::Record::{self, Between, Failed, Good};
use service::records::{at_least, fit, log_likelihood};

use crate::{close, near};

fn seen(failed: &[f64], good: &[f64]) -> Vec<Record> {
    let failed = failed.iter().map(|age| Failed(*age));
    failed.chain(good.iter().map(|age| Good(*age))).collect()
}

/// NIST/SEMATECH e-Handbook 8.4.1.3: 606.5280 and 1.7207; digits beyond and the interval by the lifelines and
/// reliability packages.
#[test]
fn published_handbook_of_statistical_methods() {
    let failed = [
        54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0,
    ];
    let fit = fit(&seen(&failed, &[500.0; 10])).unwrap();
    near(fit.scale, 606.5280, 1e-3);
    near(fit.shape, 1.7207, 1e-4);
    close(fit.scale, 606.5276, 1e-7);
    close(fit.shape, 1.720_797, 3e-7);
    near(fit.log_likelihood, -75.134_618, 5.1e-7);
    let ninety_five = 1.959_963_985;
    let ends = |middle: f64, error: f64| {
        let reach = (ninety_five * error).exp();
        (middle / reach, middle * reach)
    };
    let (low, high) = ends(fit.scale, fit.scale_error);
    close(low, 405.089, 1e-5);
    close(high, 908.135, 1e-5);
    let (low, high) = ends(fit.shape, fit.shape_error);
    close(low, 0.971_266, 1e-5);
    close(high, 3.048_746, 1e-5);
}

/// Journal of Quality Technology, 1997, doi 10.1080/00224065.1997.11979730: 2.7540 and 67.9188.
#[test]
fn published_journal_of_quality_technology() {
    let failed = [
        45.0, 46.0, 34.0, 45.0, 32.0, 24.0, 58.0, 79.0, 56.0, 63.0, 34.0, 50.0,
    ];
    let good = [23.0, 24.0, 57.0, 78.0, 76.0, 85.0, 51.0, 59.0];
    let fit = fit(&seen(&failed, &good)).unwrap();
    near(fit.shape, 2.7540, 5e-5);
    near(fit.scale, 67.9188, 5e-5);
    near(fit.log_likelihood, -59.182_007, 5.1e-7);
}

/// `abernethy-2006`, C.5: 2.257 and 4900.1.
#[test]
fn published_weibull_handbook() {
    let failed = [1500.0, 2250.0, 4000.0, 4300.0, 7000.0];
    let fit = fit(&seen(&failed, &[1750.0, 5000.0])).unwrap();
    near(fit.shape, 2.257, 5e-4);
    near(fit.scale, 4900.1, 0.05);
    near(fit.log_likelihood, -45.852_276, 5.1e-7);
}

/// By lifelines. The printed 2.024 and 94.998 of `abernethy-2006`, fig. 2-5, are a regression of ranks, which this
/// crate does not do.
#[test]
fn computed_likelihood_is_no_rank_regression() {
    let fit = fit(&seen(&[30.0, 49.0, 82.0, 90.0, 96.0], &[10.0, 45.0, 100.0])).unwrap();
    close(fit.shape, 3.017_019, 3e-7);
    close(fit.scale, 87.956_29, 1e-7);
}

/// Remissions of Freireich et al. 1963, weeks; Weibull by lifelines and scipy.optimize.brentq.
#[test]
fn computed_remissions() {
    let failed = [6.0, 6.0, 6.0, 7.0, 10.0, 13.0, 16.0, 22.0, 23.0];
    let good = [
        6.0, 9.0, 10.0, 11.0, 17.0, 19.0, 20.0, 25.0, 32.0, 32.0, 34.0, 35.0,
    ];
    let treated = fit(&seen(&failed, &good)).unwrap();
    close(treated.scale, 33.765_15, 3e-7);
    close(treated.shape, 1.353_735, 5e-7);
    near(treated.log_likelihood, -41.658_678, 5.1e-7);
    let failed = [
        1.0, 1.0, 2.0, 2.0, 3.0, 4.0, 4.0, 5.0, 5.0, 8.0, 8.0, 8.0, 8.0, 11.0, 11.0, 12.0, 12.0,
        15.0, 17.0, 22.0, 23.0,
    ];
    let untreated = fit(&seen(&failed, &[])).unwrap();
    close(untreated.scale, 9.482_141, 3e-7);
    close(untreated.shape, 1.370_500, 5e-7);
    near(untreated.log_likelihood, -64.920_108, 5.1e-7);
}

/// By lifelines' interval fit; made-up hours. Middles of the intervals would give 75.673 and 2.1235.
#[test]
fn computed_intervals_of_inspections() {
    let records = [
        Between(0.0, 40.0),
        Between(20.0, 60.0),
        Between(40.0, 60.0),
        Between(40.0, 80.0),
        Between(60.0, 100.0),
        Between(0.0, 60.0),
        Between(60.0, 80.0),
        Good(60.0),
        Good(80.0),
        Good(100.0),
    ];
    let found = fit(&records).unwrap();
    close(found.scale, 76.8462, 1e-6);
    close(found.shape, 2.31482, 3e-6);
    near(found.log_likelihood, -11.463_349, 5.1e-7);
    let middles: Vec<Record> = records
        .into_iter()
        .map(|one| match one {
            Between(good, worn) => Failed(0.5 * (good + worn)),
            other => other,
        })
        .collect();
    let biased = fit(&middles).unwrap();
    close(biased.scale, 75.673, 1e-5);
    close(biased.shape, 2.1235, 3e-5);
}

/// By scipy; made-up hours.
#[test]
fn computed_bound_where_all_are_good() {
    near(
        at_least(&[60.0, 80.0, 50.0], 2.2, 0.95).unwrap(),
        64.835,
        5.1e-4,
    );
}

/// An interval holds its end and not its start: intervals that meet share no age, and their chances add up.
#[test]
fn law_intervals_are_half_open() {
    let chance = |record| log_likelihood(&[record], 2.3, 70.0).unwrap().exp();
    let parts = chance(Between(0.0, 40.0)) + chance(Between(40.0, 90.0)) + chance(Good(90.0));
    close(parts, 1.0, 1e-14);
}
