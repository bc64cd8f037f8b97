//! Tests of the public face.
#![expect(
    clippy::unwrap_used,
    reason = "a test whose input is refused has failed"
)]

mod strength;

use joint::{Head, Screw};

/// A plain hexagon screw on a medium hole.
fn hex(designation: &str) -> Screw {
    Screw::new(designation.parse().unwrap(), Head::Hex).unwrap()
}

#[track_caller]
fn assert_near(ours: f64, theirs: f64, within: f64) {
    assert!(
        (ours - theirs).abs() <= within,
        "{ours} against {theirs}, allowed {within:e}"
    );
}
