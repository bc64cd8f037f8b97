use clearance::population::{Spread, fit};
use clearance::{Cell, Error};

use crate::assert_near;

fn twelve() -> Vec<Cell> {
    [
        (12.0, 13.0),
        (13.0, 14.0),
        (13.0, 15.0),
        (14.0, 15.0),
        (15.0, 16.0),
        (13.0, 14.0),
        (12.0, 13.0),
        (14.0, 16.0),
        (15.0, 16.0),
        (13.0, 15.0),
        (14.0, 15.0),
        (16.0, 17.0),
    ]
    .map(|(low, high)| Cell { low, high })
    .to_vec()
}

#[test]
fn computed_scipy_interval_likelihood() {
    // scipy 1.17.1, CensoredData and norm.fit, in thou; half a unit of the last digit printed,
    // two units for the spread, which its simplex leaves less settled.
    let fit = fit(&twelve(), Spread::Free).unwrap();
    assert_near(fit.mean, 14.2900, 1e-4);
    assert_near(fit.sd, 1.1446, 2e-4);
    assert_near(-fit.ln_likelihood, 16.98623, 5e-6);
    assert_near(fit.mean_error, 0.34842, 1e-5);
    assert_near(fit.ln_sd_error, 0.21874, 1e-5);
}

#[test]
fn computed_scipy_profile_of_the_mean() {
    let cells = twelve();
    let (low, high) = fit(&cells, Spread::Free)
        .unwrap()
        .mean_interval(&cells, 1.92073)
        .unwrap();
    assert_near(low, 13.5526, 1e-4);
    assert_near(high, 15.0282, 1e-4);
}

#[test]
fn computed_scipy_censored_ends() {
    let mut cells = twelve();
    cells.push(Cell {
        low: f64::NEG_INFINITY,
        high: 12.0,
    });
    cells.push(Cell {
        low: 17.0,
        high: f64::INFINITY,
    });
    let fit = fit(&cells, Spread::Free).unwrap();
    assert_near(fit.mean, 14.3180, 1e-3);
    assert_near(fit.sd, 1.6597, 1e-3);
}

#[test]
fn law_spread_of_nothing_is_named() {
    let cells = [
        Cell {
            low: 13.0,
            high: 15.0,
        },
        Cell {
            low: 14.0,
            high: 16.0,
        },
    ];
    assert_eq!(
        fit(&cells, Spread::Free),
        Err(Error::SpreadCollapses {
            low: 14.0,
            high: 15.0
        })
    );
    // With the spread held there is a best mean: the middle, by symmetry.
    assert_near(fit(&cells, Spread::Fixed(0.5)).unwrap().mean, 14.5, 1e-9);
}

#[test]
fn law_narrow_cells_are_numbers() {
    // Cells of a millionth: the fit is the mean and the standard deviation (n) of the numbers.
    let values = [1.0, 2.0, 4.0, 7.0];
    let cells = values.map(|v| Cell {
        low: v - 5e-7,
        high: v + 5e-7,
    });
    let fit = fit(&cells, Spread::Free).unwrap();
    // The cell adds w^2 / 12 = 1e-13 to the variance; its probability keeps ten digits.
    assert_near(fit.mean, 3.5, 1e-8);
    assert_near(fit.sd, 5.25_f64.sqrt(), 1e-8);
    assert_near(fit.mean_error, (5.25_f64 / 4.0).sqrt(), 1e-6);
    assert_near(fit.ln_sd_error, 1.0 / 8.0_f64.sqrt(), 1e-6);
}
