use clearance::{Cell, Feel, Model, posterior, sagitta};

use crate::{THOU, assert_near};

fn cell(low: f64, high: f64) -> Cell {
    Cell {
        low: low * THOU,
        high: high * THOU,
    }
}

#[test]
fn law_one_spot_is_even_over_its_cell() {
    // Perfect leaves and hand: the gap is uniform on the cell, 95 % of it between 13.05 and 14.95.
    let feel = Feel::from_allowance(0.0);
    let model = Model {
        feel,
        leaf_tolerance: 0.0,
        ..Model::default()
    };
    let drawn = posterior(&[cell(13.0, 15.0)], &model, 1).unwrap();
    for share in [0.025, 0.05, 0.25, 0.5, 0.75, 0.95, 0.975] {
        let ours = drawn.probability(|gaps| gaps[0] < (13.0 + 2.0 * share) * THOU);
        // Four standard errors of 10 000 draws, fewer by stratification.
        assert_near(ours, share, 4.0 * (share * (1.0_f64 - share) / 1e4).sqrt());
    }
    assert_near(
        drawn.probability(|gaps| gaps[0] >= 13.0 * THOU && gaps[0] < 15.0 * THOU),
        1.0,
        0.0,
    );
}

#[test]
fn law_chord_widens_and_raises() {
    let with = |chord| {
        posterior(
            &[cell(13.0, 15.0)],
            &Model {
                chord,
                ..Model::default()
            },
            1,
        )
        .unwrap()
        .spot(0)
    };
    let (flat, curved) = (with(0.0), with(sagitta(0.07, 6e-3).unwrap()));
    // Half the sagitta of 64 micrometres, to a few standard errors of a median of 10 000.
    assert_near(curved.median - flat.median, 32.2e-6, 1.5e-6);
    assert!(curved.high - curved.low > flat.high - flat.low);
}

#[test]
fn law_pooled_spots_sharpen_each_other() {
    let alone = posterior(&[cell(13.0, 15.0)], &Model::default(), 1)
        .unwrap()
        .spot(0);
    let mut cells = vec![cell(13.0, 15.0); 1];
    cells.extend(vec![cell(13.6, 14.0); 15]);
    let pooled = posterior(&cells, &Model::default(), 1).unwrap().spot(0);
    assert!(pooled.high - pooled.low < 0.7 * (alone.high - alone.low));
}

#[test]
fn law_spread_of_nothing_is_no_trap() {
    // All spots alike: the least of 32 stays below the mean by more than the feel could make it.
    let drawn = posterior(&[cell(13.0, 15.0); 32], &Model::default(), 1).unwrap();
    assert!(drawn.mean().median - drawn.least().median > 2e-6);
    assert!(drawn.greatest().median - drawn.mean().median > 2e-6);
}

#[test]
fn law_odd_spot_is_found() {
    let mut cells = vec![cell(13.0, 15.0); 8];
    cells[5] = cell(8.0, 9.0);
    let drawn = posterior(&cells, &Model::default(), 1).unwrap();
    assert_eq!(drawn.least(), drawn.spot(5));
    assert_eq!(drawn.least_of(&[5, 6]), drawn.spot(5));
    assert_eq!(drawn.greatest_of(&[5]), drawn.spot(5));
    assert!(drawn.greatest_of(&[5, 6]).low > drawn.spot(5).high);
    assert_eq!(drawn.spots(), 8);
}

#[test]
fn law_gaps_are_never_below_zero() {
    let rubbing = vec![
        Cell {
            low: 0.0,
            high: 20e-6
        };
        32
    ];
    let drawn = posterior(&rubbing, &Model::default(), 1).unwrap();
    assert_near(
        drawn.probability(|gaps| gaps.iter().all(|&g| g >= 0.0)),
        1.0,
        0.0,
    );
    assert!(drawn.spot(0).low > 0.0);
}

#[test]
fn law_spot_without_tries_follows_the_others() {
    let mut cells = vec![cell(13.0, 14.0); 7];
    cells.push(Cell {
        low: 0.0,
        high: f64::INFINITY,
    });
    let drawn = posterior(&cells, &Model::default(), 1).unwrap();
    let (tried, untried) = (drawn.spot(0), drawn.spot(7));
    assert_near(untried.median, tried.median, 2e-6);
    assert!(untried.high - untried.low > tried.high - tried.low);
}

/// The median of the least of seven alike and one other.
fn least_beside(low: f64, high: f64) -> f64 {
    let mut cells = vec![cell(13.0, 15.0); 7];
    cells.push(cell(low, high));
    let drawn = posterior(&cells, &Model::default(), 1).unwrap();
    drawn.least().median
}

#[test]
fn law_a_spot_that_grows_leaves_the_others_alone() {
    // An odd spot must not spread the others out; one of eight counts for a little.
    let alike = least_beside(13.0, 15.0);
    for grown in [17.0, 19.0, 25.0] {
        assert!(
            least_beside(grown, grown + 2.0) > alike - 0.15 * THOU,
            "{grown}"
        );
    }
}

/// A ring of alike spots with a swollen one: the swollen one keeps its cell, the others theirs.
#[test]
fn law_a_swollen_spot_is_not_drawn_to_its_neighbours() {
    let mut cells = vec![cell(14.4, 15.4); 23];
    cells.push(cell(12.4, 12.8));
    let drawn = posterior(&cells, &Model::default(), 1).unwrap();
    let swollen = drawn.spot(23);
    // The cell is even before the feel blurs it: its middle is the estimate.
    assert_near(swollen.median, 12.6 * THOU, 0.05 * THOU);
    assert_eq!(drawn.least(), swollen);
    // And the greatest of the others does not climb to the top of its cell because of it.
    let alike = posterior(&vec![cell(14.4, 15.4); 23], &Model::default(), 1).unwrap();
    assert_near(
        drawn.greatest().median,
        alike.greatest().median,
        0.05 * THOU,
    );
}

#[test]
fn regress_same_seed_same_bytes() {
    let cells: Vec<Cell> = (0..8)
        .map(|i| cell(13.0 + f64::from(i % 3), 16.0 + f64::from(i % 2)))
        .collect();
    let drawn = || posterior(&cells, &Model::default(), 7).unwrap();
    assert_eq!(drawn(), drawn());
    assert_ne!(drawn(), posterior(&cells, &Model::default(), 8).unwrap());
}
