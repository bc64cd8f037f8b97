//! Tests of the public face.
#![expect(
    clippy::unwrap_used,
    reason = "a test whose input is refused has failed"
)]

mod bead;
mod compound;
mod conversion;
mod fit;
mod friction;
mod galvanic;
mod laws;
mod meets;
mod passes;
mod pattern;
mod refused;
mod shaft;
mod slip;
mod strength;
mod strip;
mod thread;
mod tool;
mod torque;
mod turn;
mod yielding;

use joint::{Friction, Head, Screw};

/// A plain hexagon screw on a medium hole.
fn hex(designation: &str) -> Screw {
    Screw::new(designation.parse().unwrap(), Head::Hex).unwrap()
}

/// The same friction in the thread and under the head.
fn both(friction: f64) -> Friction {
    Friction {
        thread: friction,
        head: friction,
    }
}

/// A printed number, and one unit of its last place.
fn printed(text: &str) -> (f64, f64) {
    let places = text.split_once('.').map_or(0, |(_, places)| places.len());
    let unit = 10.0_f64.powi(-i32::try_from(places).unwrap());
    (text.parse().unwrap(), unit)
}

#[track_caller]
fn assert_near(ours: f64, theirs: f64, within: f64) {
    assert!(
        (ours - theirs).abs() <= within,
        "{ours} against {theirs}, allowed {within:e}"
    );
}
