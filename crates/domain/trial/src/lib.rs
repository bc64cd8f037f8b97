//! Water tests: log readers, runs, trial reduction, comparison.
//!
//! A craft runs up and down a stretch of water with a receiver on board. Out of its log comes one
//! number a person can act on: how fast it is through the water, how sure that is, and whether it is
//! faster than before.
//!
//! 1. [`sample`] is what a log is to everything below: speed, course and engine speed against time.
//!
//! All quantities are coherent SI: `m/s`, `rad`, `s`; engine speed is in `rad/s`.

mod error;
pub mod sample;

pub use error::Error;
pub use sample::{Log, Sample};
