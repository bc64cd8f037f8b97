//! Checks of this crate against published values and laws.
#![expect(
    clippy::unwrap_used,
    reason = "a check that cannot compute its value has failed"
)]

mod laws;
mod others;
mod published;
mod refused;

fn near(a: f64, b: f64, within: f64) {
    assert!((a - b).abs() <= within, "{a} is not {b} within {within}");
}
