//! What someone on the water would see of a craft: the one model that choosing and finding faults share.

use crate::Error;
use crate::craft::{Conditions, Craft};
use crate::matching::Held;
use crate::run::{Run, run};

/// Speed at which the engine's speed off the line is told, `m/s`: common practice, no source.
pub const LAUNCH: f64 = 3.0;

/// What is seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Observed {
    /// Top speed, `m/s`.
    pub top_speed: f64,
    /// Engine speed there, `rad/s`.
    pub top_engine: f64,
    /// The limiter holds the engine there.
    pub limited: bool,
    /// Times from rest to each speed asked for, `s`; none where it is not reached.
    pub times: Vec<Option<f64>>,
    /// Engine speed off the line, at 3 m/s, `rad/s`.
    pub launch_engine: f64,
    /// The limiter holds the engine off the line.
    pub launch_limited: bool,
    /// Share of the head that breakdown leaves off the line.
    pub launch_head: f64,
    /// Greatest acceleration, `m/s²`.
    pub peak_acceleration: f64,
}

/// What is seen of a craft on a day.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as fitted, on that day |  |
/// | `day` | as fitted, on that day |  |
/// | `speeds` | speeds that starts are timed to | `m/s` |
/// | `returns` | what is seen |  |
///
/// Range: as [`run`](run()).
/// Source: definition.
///
/// # Errors
/// As [`run`](run()).
pub fn observe(craft: &Craft, day: &Conditions, speeds: &[f64]) -> Result<Observed, Error> {
    Ok(seen(&run(craft, day)?, speeds))
}

/// What is seen of a run.
pub fn seen(run: &Run, speeds: &[f64]) -> Observed {
    Observed {
        top_speed: run.top.speed,
        top_engine: run.top.engine,
        limited: run.top.held == Held::Limiter,
        times: speeds.iter().map(|speed| run.time_to(*speed)).collect(),
        launch_engine: run.engine_at(LAUNCH),
        launch_limited: run.limited_at(LAUNCH),
        launch_head: run.between(LAUNCH, |point| point.head_left),
        peak_acceleration: run.peak_acceleration(),
    }
}
