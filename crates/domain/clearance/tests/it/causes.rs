//! The worked example: four blades at eight positions, in whole thou.

use clearance::causes::{
    Bounds, Cause, Column, Fit, Frame, Reading, Spot, Survey, bounds, columns_rank, fit,
    least_squares,
};
use clearance::{Cell, Feel, Model};

use crate::{THOU, assert_near};

/// Lower ends, blade by blade; every upper end is one thou above.
const LOW: [[f64; 8]; 4] = [
    [15.0, 17.0, 15.0, 13.0, 14.0, 10.0, 12.0, 13.0],
    [15.0, 17.0, 15.0, 14.0, 14.0, 10.0, 11.0, 12.0],
    [17.0, 19.0, 17.0, 16.0, 16.0, 12.0, 14.0, 14.0],
    [16.0, 17.0, 15.0, 14.0, 14.0, 10.0, 12.0, 13.0],
];

/// Every blade its own, the ring off centre and oval.
pub(crate) const PLAIN: [Cause; 3] = [Cause::Uneven, Cause::OffCentre, Cause::Oval];
/// The same, and one place swollen.
pub(crate) const LOCAL: [Cause; 4] = [
    Cause::Uneven,
    Cause::OffCentre,
    Cause::Oval,
    Cause::Local(5),
];

/// A survey of the example in thou, felt with a scatter of 0.30 thou.
pub(crate) fn example() -> Survey {
    let frame = Frame::even(4, 8, 1).unwrap();
    let reading = |spot: Spot| {
        let low = LOW[spot.blade][spot.position];
        Reading {
            spot,
            cell: Cell {
                low: low * THOU,
                high: (low + 1.0) * THOU,
            },
        }
    };
    let readings = frame.spots().map(reading).collect();
    let feel = Feel {
        goes: 0.0,
        free: 0.0,
        scatter: 0.30 * THOU,
    };
    Survey::new(
        frame,
        readings,
        Model {
            feel,
            ..Model::default()
        },
        &[0.0],
    )
    .unwrap()
}

const MEAN: Column = Column::Mean(0);

/// The parameters in the order of the tables: c, three blades, A1, B1, A2, B2.
fn columns() -> [Column; 8] {
    let effect = Column::Effect;
    [
        MEAN,
        effect(Cause::Uneven, 0),
        effect(Cause::Uneven, 1),
        effect(Cause::Uneven, 2),
        effect(Cause::OffCentre, 0),
        effect(Cause::OffCentre, 1),
        effect(Cause::Oval, 0),
        effect(Cause::Oval, 1),
    ]
}

const SWOLLEN: Column = Column::Effect(Cause::Local(5), 0);

#[track_caller]
fn assert_values(fit: &Fit, expect: &[f64; 8], within: f64) {
    for (column, expect) in columns().into_iter().zip(expect) {
        assert_near(fit.value(column).unwrap() / THOU, *expect, within);
    }
}

#[track_caller]
fn assert_errors(fit: &Fit, expect: &[f64; 8], within: f64) {
    for (column, expect) in columns().into_iter().zip(expect) {
        assert_near(fit.error(column).unwrap() / THOU, *expect, within);
    }
}

#[test]
fn computed_statsmodels_least_squares() {
    // statsmodels 0.15.0 OLS on the middles, printed to 1e-5; errors to 1e-4.
    let plain = least_squares(&example(), &PLAIN).unwrap();
    assert_values(
        &plain,
        &[
            14.65625, -0.53125, -0.65625, 1.46875, 1.32897, 2.27091, 0.625, 0.1875,
        ],
        1e-5,
    );
    let local = least_squares(&example(), &LOCAL).unwrap();
    assert_values(
        &local,
        &[
            15.089, -0.53125, -0.65625, 1.46875, 0.71696, 1.6589, 0.625, 1.053,
        ],
        1e-5,
    );
    assert_errors(
        &local,
        &[
            0.0745, 0.1117, 0.1117, 0.1117, 0.1054, 0.1054, 0.0912, 0.1178,
        ],
        1e-4,
    );
    assert_near(local.value(SWOLLEN).unwrap() / THOU, -3.46201, 1e-5);
    assert_near(local.error(SWOLLEN).unwrap() / THOU, 0.298, 1e-4);
}

#[test]
fn computed_numpy_swelling_scan() {
    // numpy 2.4.6 lstsq, t of the local column at each position, to 1e-6.
    let t = [
        -1.272_551,
        2.315_898,
        -1.056_480,
        -1.366_219,
        5.371_738,
        -11.618_062,
        4.762_354,
        -1.058_456,
    ];
    for (position, t) in t.into_iter().enumerate() {
        let mut causes = PLAIN.to_vec();
        causes.push(Cause::Local(position));
        let fit = least_squares(&example(), &causes).unwrap();
        let column = Column::Effect(Cause::Local(position), 0);
        assert_near(
            fit.value(column).unwrap() / fit.error(column).unwrap(),
            t,
            6e-4,
        );
    }
}

#[test]
fn computed_scipy_most_likely() {
    // scipy 1.17.1 minimize(BFGS), printed to 1e-4.
    let plain = fit(&example(), &PLAIN).unwrap();
    assert_values(
        &plain,
        &[
            14.6675, -0.5360, -0.6454, 1.4923, 1.3372, 2.2904, 0.6147, 0.1239,
        ],
        2e-4,
    );
    assert_near(plain.ln_likelihood(), -66.33750, 1e-5);
    let local = fit(&example(), &LOCAL).unwrap();
    assert_values(
        &local,
        &[
            15.0784, -0.5337, -0.6630, 1.4671, 0.7355, 1.6624, 0.6310, 1.0380,
        ],
        2e-4,
    );
    assert_errors(
        &local,
        &[
            0.0905, 0.1304, 0.1312, 0.1347, 0.1268, 0.1248, 0.1108, 0.1365,
        ],
        2e-4,
    );
    assert_near(local.value(SWOLLEN).unwrap() / THOU, -3.4235, 2e-4);
    assert_near(local.error(SWOLLEN).unwrap() / THOU, 0.3716, 2e-4);
    assert_near(local.ln_likelihood(), -10.42340, 1e-5);
}

#[test]
fn computed_highs_bounds() {
    // scipy 1.17.1 linprog(highs), printed to 1e-4; the violation to 1e-5.
    let Bounds::Within(spans) = bounds(&example(), &LOCAL).unwrap() else {
        unreachable!("the example with its swelling fits");
    };
    let expect = [
        (14.8358, 15.0429),
        (-0.6893, -0.5),
        (-0.6893, -0.5),
        (1.3107, 1.5),
        (0.9142, 1.0),
        (1.6213, 1.7071),
        (0.6464, 0.7322),
        (0.8180, 0.8536),
        (-3.4142, -2.2929),
    ];
    assert_eq!(spans.len(), expect.len());
    for ((column, span), (low, high)) in spans.into_iter().zip(expect) {
        assert_near(span.low / THOU, low, 6e-5);
        assert_near(span.high / THOU, high, 6e-5);
        assert!(column == SWOLLEN || columns().contains(&column));
    }
    let Bounds::Violated(by) = bounds(&example(), &PLAIN).unwrap() else {
        unreachable!("the example without its swelling does not fit");
    };
    assert_near(by / THOU, 0.62132, 6e-6);
}

#[test]
fn computed_numpy_ranks() {
    // numpy 2.4.6 matrix_rank.
    for (positions, rank) in [(3, 3), (4, 4), (5, 5), (6, 5), (8, 5)] {
        let frame = Frame::even(1, positions, 1).unwrap();
        let spots: Vec<Spot> = frame.spots().collect();
        assert_eq!(
            columns_rank(&frame, &[Cause::OffCentre, Cause::Oval], &spots),
            rank
        );
    }
    let frame = Frame::even(4, 8, 1).unwrap();
    let mut causes: Vec<Cause> = (0..4).map(Cause::Blade).collect();
    causes.extend((0..8).map(Cause::Local));
    let spots: Vec<Spot> = frame.spots().collect();
    assert_eq!(columns_rank(&frame, &causes, &spots), 11);
}
