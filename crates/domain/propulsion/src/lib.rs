//! What a jet pump does to a craft: water, pump, nozzle, inlet, breakdown, hull, engine, where they meet.
//!
//! All quantities are coherent SI: `m`, `kg`, `s`, `K`, `rad`; shaft and engine speed are in `rad/s`.

pub mod breakdown;
pub mod budget;
pub mod calibrate;
pub mod change;
pub mod craft;
mod cubic;
pub mod drag;
pub mod engine;
mod error;
pub mod hull;
pub mod jet;
pub mod matching;
pub mod observe;
pub mod predict;
pub mod pump;
pub mod run;
mod solve;
pub mod surge;
pub mod unknown;
pub mod water;

pub use error::Error;
