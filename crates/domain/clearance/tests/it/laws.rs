use clearance::{Cell, Estimate, Feel, Limits, Model, Posterior, conformity, posterior};
use proptest::prelude::*;

use crate::THOU;

/// Cells of a ring in good order to a bad one, in whole and half thou.
fn ring() -> impl Strategy<Value = Vec<Cell>> {
    prop::collection::vec((16_u32..60, 1_u32..6), 1..9).prop_map(|spots| {
        let end = |half_thou: u32| 0.5 * f64::from(half_thou) * THOU;
        spots
            .into_iter()
            .map(|(low, width)| Cell {
                low: end(low),
                high: end(low + width),
            })
            .collect()
    })
}

fn draw(cells: &[Cell]) -> Posterior {
    posterior(cells, &Model::default(), 11).unwrap()
}

fn close(a: Estimate, b: Estimate, within: f64) -> bool {
    [(a.low, b.low), (a.median, b.median), (a.high, b.high)]
        .iter()
        .all(|(a, b)| (a - b).abs() <= within)
}

/// Standard error of the quantiles of 10 000 draws is at most 3 % of the 90 % interval; both
/// sides carry one, and the luck of a hundred cases asks for four of them.
fn luck(a: Estimate) -> f64 {
    4.0 * std::f64::consts::SQRT_2 * 0.03 * (a.high - a.low)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_shift(cells in ring(), by in 0.0..5e-4_f64) {
        let moved: Vec<Cell> = cells.iter().map(|c| Cell { low: c.low + by, high: c.high + by }).collect();
        let (here, there) = (draw(&cells), draw(&moved));
        for (a, b) in [(here.least(), there.least()), (here.mean(), there.mean()), (here.greatest(), there.greatest())] {
            let a = Estimate { low: a.low + by, median: a.median + by, high: a.high + by };
            // The same draws, apart from rounding in the search for the grid.
            prop_assert!(close(a, b, 1e-9), "{a:?} {b:?}");
        }
    }

    #[test]
    fn law_scale(cells in ring(), by in 0.2..5.0_f64) {
        let large: Vec<Cell> = cells.iter().map(|c| Cell { low: c.low * by, high: c.high * by }).collect();
        let plain = Model { chord: 30e-6, ..Model::default() };
        let model = Model {
            feel: Feel::from_allowance(10e-6 * by),
            leaf_tolerance: plain.leaf_tolerance * by,
            chord: plain.chord * by,
            spread: plain.spread * by,
        };
        let a = posterior(&cells, &plain, 11).unwrap().least();
        let b = posterior(&large, &model, 11).unwrap().least();
        let a = Estimate { low: a.low * by, median: a.median * by, high: a.high * by };
        prop_assert!(close(a, b, 1e-9 * by), "{a:?} {b:?}");
    }

    #[test]
    fn law_order_of_spots(cells in ring()) {
        let back: Vec<Cell> = cells.iter().rev().copied().collect();
        let (here, there) = (draw(&cells), draw(&back));
        for (a, b) in [
            (here.least(), there.least()),
            (here.greatest(), there.greatest()),
            (here.spot(0), there.spot(cells.len() - 1)),
        ] {
            prop_assert!(close(a, b, luck(a)), "{a:?} {b:?}");
        }
    }

    #[test]
    fn law_thicker_leaf_never_lowers_its_own_spot(cells in ring(), part in 0.1..0.9_f64) {
        // A leaf inside the cell is tried and goes: the cell loses its lower part.
        let mut told = cells.clone();
        told[0].low += part * (told[0].high - told[0].low);
        let (before, after) = (draw(&cells).spot(0), draw(&told).spot(0));
        let luck = luck(before);
        prop_assert!(after.low >= before.low - luck, "{before:?} {after:?}");
        prop_assert!(after.median >= before.median - luck, "{before:?} {after:?}");
        prop_assert!(after.high >= before.high - luck, "{before:?} {after:?}");
    }

    #[test]
    fn law_wider_limits_hold_more(cells in ring(), least in 2e-4..5e-4_f64, tolerance in 0.0..4e-4_f64, more in 0.0..2e-4_f64) {
        let drawn = draw(&cells);
        let held = |least, greatest| {
            conformity(&drawn, &Limits::Radial { least: Some(least), greatest: Some(greatest) }).unwrap()
        };
        let narrow = held(least, least + tolerance);
        let wide = held(least - more, least + tolerance + more);
        prop_assert!(wide.within >= narrow.within);
        prop_assert!(wide.too_tight <= narrow.too_tight && wide.too_wide <= narrow.too_wide);
        for p in [narrow.within, narrow.too_tight, narrow.too_wide] {
            prop_assert!((0.0..=1.0).contains(&p));
        }
        // Some spot too tight, some too wide, or none of either; both may be.
        prop_assert!(narrow.within + narrow.too_tight + narrow.too_wide >= 1.0 - 1e-12);
    }

    #[test]
    fn law_any_reading_settles(
        spots in prop::collection::vec((0.0..3e-3_f64, 1e-6..1e-3_f64, 0_u8..8), 1..33),
        scatter in prop_oneof![Just(0.0), 1e-7..5e-5_f64],
        spread in 1e-6..1e-3_f64,
    ) {
        let mut cells: Vec<Cell> = spots
            .iter()
            .map(|&(low, width, open)| match open {
                0 => Cell { low: 0.0, high: low + width },
                1 => Cell { low, high: f64::INFINITY },
                _ => Cell { low, high: low + width },
            })
            .collect();
        cells[0].high = cells[0].low + spots[0].1;
        let model = Model { feel: Feel { scatter, ..Feel::default() }, spread, ..Model::default() };
        let drawn = posterior(&cells, &model, 3);
        prop_assert!(drawn.is_ok(), "{:?}", drawn.err());
        let drawn = drawn.unwrap();
        for estimate in [drawn.least(), drawn.mean(), drawn.greatest()] {
            prop_assert!(0.0 <= estimate.low && estimate.low <= estimate.median);
            prop_assert!(estimate.median <= estimate.high && estimate.high.is_finite());
        }
    }
}
