use clearance::Answer::{Drags, Goes, GoesFree, WontGo};
use clearance::{Bracket, Cell, Contradiction, Feel, Try, bracket, cell};

use crate::{THOU, assert_near, tried};

#[track_caller]
fn assert_cell(tries: &[Try], low: f64, high: f64) {
    let found = cell(tries, &Feel::default()).unwrap();
    assert_near(found.low, low, 1e-15);
    if high.is_finite() {
        assert_near(found.high, high, 1e-15);
    } else {
        assert!(found.high.is_infinite());
    }
}

#[test]
fn practice_goes_and_wont() {
    let tries = [tried(13.0, Goes), tried(15.0, WontGo)];
    assert_cell(&tries, 13.0 * THOU + 10e-6, 15.0 * THOU + 10e-6);
    let Bracket { goes, wont } = bracket(&tries).unwrap();
    assert_eq!((goes, wont), (Some(13.0 * THOU), Some(15.0 * THOU)));
}

#[test]
fn practice_open_ends() {
    assert_cell(&[tried(15.0, WontGo)], 0.0, 15.0 * THOU + 10e-6);
    assert_cell(&[tried(15.0, GoesFree)], 15.0 * THOU + 20e-6, f64::INFINITY);
    assert_cell(&[], 0.0, f64::INFINITY);
}

#[test]
fn practice_feel_sharpens() {
    assert_cell(
        &[tried(13.0, Drags), tried(15.0, WontGo)],
        13.0 * THOU + 10e-6,
        13.0 * THOU + 20e-6,
    );
    assert_cell(
        &[tried(13.0, GoesFree), tried(15.0, WontGo)],
        13.0 * THOU + 20e-6,
        15.0 * THOU + 10e-6,
    );
}

#[test]
fn practice_feel_that_disagrees_is_left_aside() {
    let hard = (15.0 * THOU + 10e-6, 16.0 * THOU + 10e-6);
    // Dragging at 13 would mean a gap below the 15 that goes.
    assert_cell(
        &[tried(13.0, Drags), tried(15.0, Goes), tried(16.0, WontGo)],
        hard.0,
        hard.1,
    );
    // Free at 15.5 would mean a gap above the 15.6 that won't.
    let tries = [tried(15.5, GoesFree), tried(15.6, WontGo)];
    assert_cell(&tries, 15.5 * THOU + 10e-6, 15.6 * THOU + 10e-6);
    // Free at 15 and dragging at 14.9: each agrees with the leaves, not with one another.
    let tries = [
        tried(14.9, Drags),
        tried(14.8, Goes),
        tried(15.0, GoesFree),
        tried(17.0, WontGo),
    ];
    assert_cell(&tries, 15.0 * THOU + 10e-6, 17.0 * THOU + 10e-6);
}

#[test]
fn practice_latest_try_of_a_leaf_counts() {
    let tries = [tried(13.0, WontGo), tried(15.0, WontGo), tried(13.0, Goes)];
    assert_cell(&tries, 13.0 * THOU + 10e-6, 15.0 * THOU + 10e-6);
}

#[test]
fn practice_contradiction_names_both_leaves() {
    let tries = [
        tried(15.0, WontGo),
        tried(18.0, Goes),
        tried(20.0, WontGo),
        tried(10.0, Goes),
    ];
    let named = Contradiction {
        goes: 18.0 * THOU,
        wont: 15.0 * THOU,
    };
    assert_eq!(bracket(&tries), Err(named));
    assert_eq!(cell(&tries, &Feel::default()), Err(named));
}

#[test]
fn law_repeats_narrow_nothing() {
    let once = [tried(13.0, Goes), tried(15.0, WontGo)];
    let ten: Vec<Try> = once.iter().copied().cycle().take(20).collect();
    assert_eq!(cell(&ten, &Feel::default()), cell(&once, &Feel::default()));
}

#[test]
fn law_no_allowance_gives_the_bracket() {
    let tries = [tried(13.0, GoesFree), tried(15.0, WontGo)];
    let bare = cell(&tries, &Feel::from_allowance(0.0)).unwrap();
    assert_eq!(
        bare,
        Cell {
            low: 13.0 * THOU,
            high: 15.0 * THOU
        }
    );
}
