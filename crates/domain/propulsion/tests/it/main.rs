//! Everything this crate answers for.
#![expect(
    clippy::unwrap_used,
    reason = "a test whose input is refused has failed"
)]

mod calibrated;
mod described;
mod fault_laws;
mod field;
mod hull;
mod laws;
mod planing;
mod refused;
mod swaps_study;
mod truth;
mod truth_laws;
mod water;
mod worked;

/// Within a share of the other value.
#[track_caller]
fn assert_close(ours: f64, theirs: f64, relative: f64) {
    let off = (ours - theirs).abs();
    assert!(
        off <= relative * theirs.abs(),
        "{ours} is not {theirs} within {relative}"
    );
}

/// To an absolute tolerance.
#[track_caller]
fn assert_near(ours: f64, theirs: f64, within: f64) {
    assert!(
        (ours - theirs).abs() <= within,
        "{ours} is not {theirs} within {within}"
    );
}
