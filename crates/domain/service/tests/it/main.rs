//! Checks of this crate against published values, other libraries and laws.
#![expect(
    clippy::unwrap_used,
    reason = "a check that cannot compute its value has failed"
)]

mod basin;
mod compare;
mod cost;
mod horizon;
mod laws;
mod life;
mod posterior;
mod records;
mod refused;
mod strikes;
mod wear;

fn near(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b} within {within}");
}

/// As many digits as the source prints: half a unit of the last.
fn close(a: f64, b: f64, relative: f64) {
    near(a, b, relative * b.abs());
}
