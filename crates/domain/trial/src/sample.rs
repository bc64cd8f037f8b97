//! What a log is, whatever file it came from.

/// One instant of a log.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `time` | since the log's own zero | `s` |
/// | `speed` | over ground | `m/s` |
/// | `course` | over ground, from true north, clockwise | `rad` |
/// | `engine` | speed of its shaft | `rad/s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Since the log's own zero.
    pub time: f64,
    /// Over ground.
    pub speed: f64,
    /// Over ground, from true north clockwise; none where the log has none.
    pub course: Option<f64>,
    /// Speed of the engine's shaft; none where the log has none.
    pub engine: Option<f64>,
}

/// Speed, course and engine speed against time.
///
/// Time rises within a stretch. Between two stretches the log broke off: the fix was lost, the clock
/// stepped back, or a part was left out, and nothing may be reckoned across.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    /// Seconds from 1970-01-01T00:00:00Z to the zero of the samples' time; none where the log has no date.
    pub zero: Option<f64>,
    /// Unbroken stretches, in the order of the file; none is empty.
    pub stretches: Vec<Vec<Sample>>,
}
