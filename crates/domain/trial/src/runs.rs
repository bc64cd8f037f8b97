//! Full-throttle runs and standing starts in a log.
//!
//! The speed is cut into stretches of one level on a smoothed copy ([`crate::segment`], [`crate::smooth`]);
//! everything reported is reckoned from the readings as they are. The method is in `docs/theory/trial.md`.

mod area;
mod levels;
mod plateau;
mod start;
mod straight;

use crate::figure::Figure;
use crate::{Error, Log, Sample};

pub use plateau::run_between;
pub(crate) use plateau::wrapped;
pub use start::{
    FIFTY_MILES, Flare, Level, Reached, Start, THIRTY_MILES, Untimed, lagged, start_between,
};

/// How good a receiver's speed is.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `speed` | standard uncertainty of a mean of ten seconds, which more runs do not lessen | `m/s` |
/// | `reading` | standard deviation of one reading | `m/s` |
/// | `memory` | time after which two errors are independent | `s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Receiver {
    /// Standard uncertainty of a mean of ten seconds.
    pub speed: f64,
    /// Standard deviation of one reading.
    pub reading: f64,
    /// Time after which two errors are independent.
    pub memory: f64,
}

impl Receiver {
    /// A unit of five to ten readings a second under open sky. Source: common practice, no source.
    pub const DEDICATED: Self = Self {
        speed: 0.05,
        reading: 0.05,
        memory: 2.0,
    };
    /// A telephone in a bag. Source: common practice, no source.
    pub const PHONE: Self = Self {
        speed: 0.15,
        reading: 0.15,
        memory: 2.0,
    };
    /// Speed reckoned from places. Source: common practice, no source.
    pub const PLACES: Self = Self {
        speed: 0.3,
        reading: 0.5,
        memory: 2.0,
    };
}

/// What counts as a run and as a start.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `window` | over which the top speed is a mean | `s` |
/// | `shortest` | run that counts | `s` |
/// | `rise` | most the speed may rise or fall over the run | `m/s^2` |
/// | `scatter` | most the readings may scatter about a line | `m/s` |
/// | `turn` | most the course may spread | `rad` |
/// | `share` | of the fastest mean of the log that a run must reach | `1` |
/// | `slowest` | speed at which full throttle is thinkable at all | `m/s` |
/// | `engine_share` | of the engine's own fastest mean | `1` |
/// | `engine_scatter` | most the engine's speed may scatter, of its mean | `1` |
/// | `levels` | speeds that starts are timed to | `m/s` |
/// | `lag` | lag of a receiver whose effect on a start is told | `s` |
/// | `receiver` | how good the receiver is | |
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// Window over which the top speed is a mean.
    pub window: f64,
    /// Shortest run that counts.
    pub shortest: f64,
    /// Most the speed may rise or fall over the run.
    pub rise: f64,
    /// Most the readings may scatter about a line.
    pub scatter: f64,
    /// Most the course may spread.
    pub turn: f64,
    /// Share of the fastest mean of the log that a run must reach.
    pub share: f64,
    /// Speed at which full throttle is thinkable at all.
    pub slowest: f64,
    /// Share of the engine's own fastest mean.
    pub engine_share: f64,
    /// Most the engine's speed may scatter, as a share of its mean.
    pub engine_scatter: f64,
    /// Speeds that starts are timed to.
    pub levels: Vec<f64>,
    /// Lag of a receiver whose effect on a start is told.
    pub lag: f64,
    /// How good the receiver is.
    pub receiver: Receiver,
}

impl Default for Options {
    /// Common practice, no source.
    fn default() -> Self {
        Self {
            window: 10.0,
            shortest: 8.0,
            rise: 0.05,
            scatter: 0.4,
            turn: 10.0_f64.to_radians(),
            share: 0.85,
            slowest: 6.0,
            engine_share: 0.97,
            engine_scatter: 0.015,
            levels: vec![THIRTY_MILES, FIFTY_MILES],
            lag: 0.5,
            receiver: Receiver::PHONE,
        }
    }
}

impl Options {
    /// Refuses options no log can be read by.
    pub(crate) fn check(&self) -> Result<(), Error> {
        use crate::error::{positive, within};
        positive("the window of a top speed", self.window)?;
        // Two independent readings at the least, or nothing can be said of scatter.
        let least = 2.0 * positive("the memory of a receiver", self.receiver.memory)?;
        within("the shortest run", self.shortest, least, f64::MAX)?;
        positive("the most a speed may rise", self.rise)?;
        positive("the most a speed may scatter", self.scatter)?;
        positive("the most a course may spread", self.turn)?;
        within("the share of the fastest", self.share, 0.0, 1.0)?;
        positive("the slowest run", self.slowest)?;
        within("the engine's share", self.engine_share, 0.0, 1.0)?;
        positive("the engine's scatter", self.engine_scatter)?;
        positive("the lag of a receiver", self.lag)?;
        positive("the uncertainty of a receiver", self.receiver.speed)?;
        positive("the noise of a receiver", self.receiver.reading)?;
        for &level in &self.levels {
            within(
                "the speed a start is timed to",
                level,
                start::RAMP.1,
                f64::MAX,
            )?;
        }
        Ok(())
    }
}

/// From one time to another, of one stretch.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `stretch` | of the log, counted from zero | |
/// | `from` | start | `s` |
/// | `to` | end | `s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Stretch of the log, counted from zero.
    pub stretch: usize,
    /// Start.
    pub from: f64,
    /// End.
    pub to: f64,
}

/// Course over ground during a run.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `mean` | of unit vectors | `rad` |
/// | `spread` | that holds all but one reading in twenty | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    /// Mean of unit vectors.
    pub mean: f64,
    /// Spread that holds all but one reading in twenty.
    pub spread: f64,
}

/// Engine during a run.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `mean` | speed of its shaft over the window | `rad/s` |
/// | `scatter` | standard deviation, as a share of the mean | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Engine {
    /// Speed of its shaft over the window.
    pub mean: f64,
    /// Standard deviation, as a share of the mean.
    pub scatter: f64,
}

/// A run and how it was.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `span` | from where to where it is steady | |
/// | `window` | whose mean is the top speed | |
/// | `speed` | mean over the window, with what it may be off by | `m/s` |
/// | `whole` | mean over the whole run | `m/s` |
/// | `rise` | of a straight line through the readings | `m/s^2` |
/// | `scatter` | standard deviation about that line | `m/s` |
/// | `course` | where the log has one | |
/// | `engine` | where the log has one | |
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// From where to where it is steady.
    pub span: Span,
    /// The window whose mean is the top speed.
    pub window: Span,
    /// Mean over the window, with what it may be off by.
    pub speed: Figure,
    /// Mean over the whole run.
    pub whole: f64,
    /// Rise of a straight line through the readings.
    pub rise: f64,
    /// Standard deviation about that line.
    pub scatter: f64,
    /// Course, where the log has one.
    pub course: Option<Course>,
    /// Engine, where the log has one.
    pub engine: Option<Engine>,
    /// What speaks against its being a full-throttle run; empty in a run that was found.
    pub doubts: Vec<WhyNot>,
}

impl Run {
    /// Middle of its window.
    ///
    /// `t = (from + to) / 2`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | t | since the log's own zero | `s` |
    ///
    /// Range: any run.
    /// Source: definition.
    pub fn time(&self) -> f64 {
        0.5 * (self.window.from + self.window.to)
    }
}

/// Why a stretch is not a full-throttle run: what it shows, and the limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WhyNot {
    /// It lasts too short, in `s`.
    Short {
        /// How long it lasts.
        lasts: f64,
        /// How long a run lasts at the least.
        least: f64,
    },
    /// The speed still rises or falls, in `m/s^2`.
    Rising {
        /// How much.
        rise: f64,
        /// The most allowed, either way.
        most: f64,
    },
    /// The readings scatter, in `m/s`.
    Rough {
        /// How much.
        scatter: f64,
        /// The most allowed.
        most: f64,
    },
    /// The craft turns, in `rad`.
    Turning {
        /// Spread of the course.
        spread: f64,
        /// The most allowed.
        most: f64,
    },
    /// It is slower than a full-throttle run can be, in `m/s`.
    Slow {
        /// How fast it is.
        speed: f64,
        /// How fast it must be.
        least: f64,
    },
    /// The engine turns slower than it can, in `rad/s`.
    EngineSlow {
        /// How fast it turns.
        speed: f64,
        /// How fast it must.
        least: f64,
    },
    /// The engine's speed scatters, as a share of its mean.
    EngineRough {
        /// How much.
        scatter: f64,
        /// The most allowed.
        most: f64,
    },
}

/// A stretch that looks like a run and was not taken.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `span` | from where to where | |
/// | `speed` | mean | `m/s` |
/// | `why` | what speaks against it | |
#[derive(Clone, Debug, PartialEq)]
pub struct Passed {
    /// From where to where.
    pub span: Span,
    /// Mean speed.
    pub speed: f64,
    /// What speaks against it, never empty.
    pub why: Vec<WhyNot>,
}

/// Why a log holds no run at all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoRun {
    /// No stretch is as long as a run; the longest, in `s`.
    NoStretch {
        /// How long the longest lasts.
        longest: f64,
        /// How long a run lasts at the least.
        least: f64,
    },
    /// It never goes fast enough, in `m/s`.
    NeverFast {
        /// The fastest mean as long as a run.
        fastest: f64,
        /// How fast a run must be.
        least: f64,
    },
    /// Nothing fast is steady; [`Found::passed`] says why, piece by piece.
    NothingSteady,
}

/// What a log holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Full-throttle runs, in the order of the log.
    pub runs: Vec<Run>,
    /// Standing starts, in the order of the log.
    pub starts: Vec<Start>,
    /// Starts that were seen and cannot be timed.
    pub untimed: Vec<Untimed>,
    /// Stretches that look like a run and are none.
    pub passed: Vec<Passed>,
    /// Why there is no run; none where there is one.
    pub none: Option<NoRun>,
    /// Lone readings that no craft can have made, left out everywhere.
    pub left_out: usize,
}

/// Full-throttle runs and standing starts of a log.
///
/// Range: times rise within a stretch.
/// Source: common practice, no source; the steps are in `docs/theory/trial.md`.
///
/// # Errors
/// Those of the options; [`Error::Order`] for times that do not rise, [`Error::Outside`] for readings that
/// are no numbers. A log without runs is no error: [`Found::none`] says why.
pub fn runs(log: &Log, options: &Options) -> Result<Found, Error> {
    options.check()?;
    let (pieces, left_out) = pieces(log)?;
    let (runs, passed, none) = plateau::find(&pieces, options)?;
    let (mut starts, mut untimed) = (Vec::new(), Vec::new());
    for piece in &pieces {
        let (timed, other) = start::find(piece, options)?;
        starts.extend(timed);
        untimed.extend(other);
    }
    Ok(Found {
        runs,
        starts,
        untimed,
        passed,
        none,
        left_out,
    })
}

/// Readings without a gap.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    pub(crate) stretch: usize,
    pub(crate) samples: Vec<Sample>,
}

/// Most a speed can change in a second, either way. Source: common practice, no source: a light craft with a
/// strong engine starts at twelve.
const JOLT: f64 = 15.0;
/// A step this many times the usual one is a gap. Source: common practice, no source.
const GAP: f64 = 2.5;

/// A log in pieces without gaps, and how many lone readings were left out as impossible.
pub(crate) fn pieces(log: &Log) -> Result<(Vec<Piece>, usize), Error> {
    let mut pieces = Vec::new();
    let mut left_out = 0;
    for (stretch, samples) in log.stretches.iter().enumerate() {
        check(samples)?;
        let kept = without_spikes(samples);
        left_out += samples.len() - kept.len();
        let mut steps: Vec<f64> = samples.windows(2).map(|w| w[1].time - w[0].time).collect();
        let gap = GAP * crate::segment::median(&mut steps);
        let mut rest = &kept[..];
        while !rest.is_empty() {
            let cut = rest.windows(2).position(|w| w[1].time - w[0].time > gap);
            let (piece, after) = rest.split_at(cut.map_or(rest.len(), |at| at + 1));
            pieces.push(Piece {
                stretch,
                samples: piece.to_vec(),
            });
            rest = after;
        }
    }
    Ok((pieces, left_out))
}

fn check(samples: &[Sample]) -> Result<(), Error> {
    for sample in samples {
        crate::error::finite("a time of the log", sample.time)?;
        crate::error::not_negative("a speed of the log", sample.speed)?;
        crate::error::finite("a course of the log", sample.course.unwrap_or(0.0))?;
        crate::error::not_negative("an engine speed", sample.engine.unwrap_or(0.0))?;
    }
    match samples.windows(2).find(|w| w[1].time <= w[0].time) {
        Some(w) => Err(Error::Order {
            what: "times of a log",
            first: w[0].time,
            second: w[1].time,
        }),
        None => Ok(()),
    }
}

/// Readings but those that stand alone, too far off both neighbours to one side.
fn without_spikes(samples: &[Sample]) -> Vec<Sample> {
    let jolt = |a: &Sample, b: &Sample| (b.speed - a.speed) / (b.time - a.time);
    let spike = |i: usize| {
        i > 0 && i + 1 < samples.len() && {
            let (up, down) = (
                jolt(&samples[i - 1], &samples[i]),
                jolt(&samples[i], &samples[i + 1]),
            );
            up.abs() > JOLT && down.abs() > JOLT && up * down < 0.0
        }
    };
    (0..samples.len())
        .filter(|&i| !spike(i))
        .map(|i| samples[i])
        .collect()
}
