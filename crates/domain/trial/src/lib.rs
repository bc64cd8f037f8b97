//! Water tests: log readers, runs, trial reduction, comparison.
//!
//! A craft runs up and down a stretch of water with a receiver on board. Out of its log comes one
//! number a person can act on: how fast it is through the water, how sure that is, and whether it is
//! faster than before.
//!
//! 1. [`read()`](read::read) takes the file of a receiver or a recorder apart, [`keep`] bounds what is
//!    kept of it, [`geodesy`] checks its speeds against its positions.
//! 1. [`sample`] is what a log is to everything below: speed, course and engine speed against time.
//! 2. [`runs`] finds full-throttle runs and standing starts, or says why there are none.
//! 3. [`reduce`] makes of opposed runs the speed through the water, and tells the current.
//! 4. [`typed`] takes what a person read off a dash or a stop watch as the same kind of figure.
//! 5. [`compare`] weighs after against before; [`conditions`] the air of one day against another's.
//!
//! All quantities are coherent SI: `m/s`, `rad`, `s`; engine speed is in `rad/s`.

pub mod compare;
pub mod conditions;
mod error;
pub mod figure;
pub mod geodesy;
pub mod keep;
pub mod read;
pub mod reduce;
pub mod runs;
pub mod sample;
pub mod segment;
pub mod smooth;
pub mod typed;

pub use error::Error;
pub use figure::{Contribution, Figure, Interval, Origin, Part};
pub use sample::{Log, Sample};
