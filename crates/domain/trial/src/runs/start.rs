//! Standing starts, timed finer than the log has readings.

use nalgebra::{Matrix3, Vector3};

use super::plateau::stated;
use super::{Options, Piece, Span, pieces};
use crate::figure::{Contribution, Figure, Interval, Origin, Part};
use crate::segment::{median, real};
use crate::{Error, Log, Sample};

/// Thirty miles an hour, exactly.
pub const THIRTY_MILES: f64 = 13.4112;
/// Fifty miles an hour, exactly.
pub const FIFTY_MILES: f64 = 22.352;

/// At rest: slower than this for at least so many seconds. Source: common practice, no source; a receiver that
/// lies still shows up to half of it.
const REST: (f64, f64) = (1.0, 3.0);
/// Speeds between which the start is a straight line.
pub(super) const RAMP: (f64, f64) = (1.0, 6.5);
/// Seconds from rest in which a start reaches its first speed.
const PROMPT: f64 = 8.0;
/// Longest step a start is timed across, with what a clock of one reading a second may be off.
const STEP: f64 = 1.05;
/// Standard uncertainty of a time from the rate alone, of one step. Source: common practice, no source: a
/// telephone of one reading a second is right to two tenths.
const RATE: f64 = 0.1;
/// Readings a second from which a crossing is read off a parabola.
const DENSE: f64 = 5.0;
/// Seconds to either side that the parabola takes in, and steps at the least.
const SIDE: f64 = 0.5;
/// See [`SIDE`].
const FEWEST: f64 = 3.0;
/// Seconds from the start in which the engine may flare.
const FLARE: f64 = 1.0;
/// A craft lies still where its speed shows no more than so many times the noise of a reading.
const AT_REST: f64 = 3.0;
/// Fewest readings on the ramp that make a line at any rate.
const LINE: usize = 3;
/// Times the noise of a reading that the ramp may scatter about its line. Source: common practice, no source.
const BENT: f64 = 3.0;
/// Step up to which two do. Source: common practice, no source.
const SPARSE: f64 = 0.5;
/// Seconds from the start, to twice of them, in which the engine is taken as settled.
const LATE: f64 = 4.0;
/// The engine has settled within this share of what it settles to.
const SETTLED: f64 = 0.02;

/// How long a start took to a speed.
#[derive(Clone, Debug, PartialEq)]
pub enum Reached {
    /// In so many seconds.
    Time(Figure),
    /// Too few readings on the way, or none that lie on a line: within this interval, in `s`, and no more can be said.
    Between(Interval),
    /// The speed was not reached.
    Never,
}

/// One speed a start is timed to.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `speed` | timed to | `m/s` |
/// | `reached` | when, from the start | `s` |
/// | `lagged` | how much longer it takes by a receiver with [`Options::lag`] more lag | `s` |
#[derive(Clone, Debug, PartialEq)]
pub struct Level {
    /// Speed timed to.
    pub speed: f64,
    /// When, from the start.
    pub reached: Reached,
    /// How much longer it takes by a receiver that lags more; none where that cannot be reckoned.
    pub lagged: Option<f64>,
}

/// What the engine did at a start.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `settled` | median speed of its shaft, four to eight seconds after the start | `rad/s` |
/// | `highest` | in the first second | `rad/s` |
/// | `settles` | time from the start after which it keeps within two in a hundred | `s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flare {
    /// Median speed of its shaft four to eight seconds after the start.
    pub settled: f64,
    /// Highest in the first second.
    pub highest: f64,
    /// Time from the start after which it keeps within two in a hundred; none where it never does.
    pub settles: Option<f64>,
}

/// A standing start.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `span` | from the start of the rest to the last reading used | |
/// | `instant` | when the craft began to move | `s` |
/// | `ramp` | readings the instant rests on | |
/// | `step` | longest between two readings on the way | `s` |
/// | `levels` | how long to which speed | |
/// | `engine` | where the log has one | |
#[derive(Clone, Debug, PartialEq)]
pub struct Start {
    /// From the start of the rest to the last reading used.
    pub span: Span,
    /// When the craft began to move.
    pub instant: f64,
    /// Readings the instant rests on.
    pub ramp: usize,
    /// Longest step between two readings on the way.
    pub step: f64,
    /// How long to which speed.
    pub levels: Vec<Level>,
    /// What the engine did, where the log has it.
    pub engine: Option<Flare>,
}

/// A start that was seen and cannot be timed: the readings are too far apart.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `span` | from the rest to the next one | |
/// | `step` | longest between two readings on the way | `s` |
/// | `longest` | that a start is timed across | `s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Untimed {
    /// From the rest to the next one.
    pub span: Span,
    /// Longest between two readings on the way.
    pub step: f64,
    /// Longest that a start is timed across.
    pub longest: f64,
}

/// The start inside a window that a person states.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `from` | at rest | `s` |
/// | `to` | after the highest speed to be timed | `s` |
///
/// Range: inside one unbroken stretch, at rest at its beginning, no step above a second.
/// Source: definition.
///
/// # Errors
/// [`Error::Order`], [`Error::Broken`], [`Error::TooFew`]; [`Error::Outside`] where the craft is not at rest at
/// first, or the steps are too long.
pub fn start_between(log: &Log, from: f64, to: f64, options: &Options) -> Result<Start, Error> {
    options.check()?;
    let (pieces, _) = pieces(log)?;
    let (piece, inside) = stated(&pieces, from, to)?;
    let inside = &fresh(inside)[..];
    let resting = inside.iter().take_while(|s| s.speed < REST.0).count();
    let rest = if resting > 0 {
        inside[resting - 1].time - inside[0].time
    } else {
        0.0
    };
    crate::error::within("the rest before a start", rest, REST.1, f64::MAX)?;
    let step = longest_step(&inside[resting - 1..], options);
    crate::error::within("the step between readings of a start", step, 0.0, STEP)?;
    timed(piece.stretch, inside, resting, options)
}

/// Readings without those that only repeat the one before, as a log does that asks faster than its receiver
/// answers: on the way up no two fresh ones are alike.
fn fresh(samples: &[Sample]) -> Vec<Sample> {
    let mut kept: Vec<Sample> = Vec::with_capacity(samples.len());
    for sample in samples {
        let held = |last: &Sample| last.speed.total_cmp(&sample.speed).is_eq();
        if sample.speed < REST.0 || !kept.last().is_some_and(held) {
            kept.push(*sample);
        }
    }
    kept
}

/// Standing starts of a piece.
pub(super) fn find(piece: &Piece, options: &Options) -> Result<(Vec<Start>, Vec<Untimed>), Error> {
    let samples = &fresh(&piece.samples)[..];
    let Some(first) = options.levels.iter().copied().min_by(f64::total_cmp) else {
        return Ok((vec![], vec![]));
    };
    let rests = rests(samples);
    let (mut starts, mut untimed) = (Vec::new(), Vec::new());
    for (i, rest) in rests.iter().enumerate() {
        let next = rests.get(i + 1).map_or(samples.len(), |next| next.start);
        let leave = &samples[rest.end - 1];
        let part = &samples[rest.start..next];
        let prompt = samples[rest.end..next]
            .iter()
            .any(|s| s.speed >= first && s.time <= leave.time + PROMPT);
        if !prompt {
            continue;
        }
        let step = longest_step(&part[rest.len() - 1..], options);
        if step <= STEP {
            starts.push(timed(piece.stretch, part, rest.len(), options)?);
        } else {
            untimed.push(Untimed {
                span: Span {
                    stretch: piece.stretch,
                    from: part[0].time,
                    to: part[part.len() - 1].time,
                },
                step,
                longest: STEP,
            });
        }
    }
    Ok((starts, untimed))
}

/// Where a craft rests long enough.
fn rests(samples: &[Sample]) -> Vec<std::ops::Range<usize>> {
    let mut rests = Vec::new();
    let mut at = 0;
    for same in samples.chunk_by(|a, b| (a.speed < REST.0) == (b.speed < REST.0)) {
        let lasts = same[same.len() - 1].time - same[0].time;
        if same[0].speed < REST.0 && lasts >= REST.1 {
            rests.push(at..at + same.len());
        }
        at += same.len();
    }
    rests
}

/// Longest step from the last reading at rest to the highest speed timed, as far as it is reached.
fn longest_step(samples: &[Sample], options: &Options) -> f64 {
    let highest = options.levels.iter().copied().fold(0.0, f64::max);
    let end = samples.iter().position(|s| s.speed >= highest);
    let used = &samples[..end.map_or(samples.len(), |end| end + 1)];
    used.windows(2)
        .map(|w| w[1].time - w[0].time)
        .fold(0.0, f64::max)
}

/// A start whose first `resting` readings are at rest.
fn timed(
    stretch: usize,
    samples: &[Sample],
    resting: usize,
    options: &Options,
) -> Result<Start, Error> {
    let points: Vec<(f64, f64)> = samples.iter().map(|s| (s.time, s.speed)).collect();
    let begun = begun(&points, resting, options);
    let lag = lagged(&points, options.lag)?;
    let lag_resting = lag.iter().take_while(|p| p.1 < REST.0).count().max(1);
    let slow = self::begun(&lag, lag_resting, options);
    let mut levels = Vec::new();
    for &speed in &options.levels {
        let reached = reached(&points, &begun, speed)?;
        let lagged = match (&reached, self::reached(&lag, &slow, speed)?) {
            (Reached::Time(here), Reached::Time(there)) => Some(there.value - here.value),
            _ => None,
        };
        levels.push(Level {
            speed,
            reached,
            lagged,
        });
    }
    Ok(Start {
        span: Span {
            stretch,
            from: samples[0].time,
            to: samples[samples.len() - 1].time,
        },
        instant: begun.instant,
        ramp: begun.ramp,
        step: longest_step(&samples[resting - 1..], options),
        levels,
        engine: flare(samples, begun.instant),
    })
}

/// When a craft began to move, and how well that is known.
struct Begun {
    instant: f64,
    /// From the reading of the speeds.
    uncertainty: f64,
    /// Readings on the ramp.
    ramp: usize,
    /// Whether they lie on a line.
    straight: bool,
    /// Last reading at rest and first one that is not.
    bounds: Interval,
    /// Standard deviation of a reading.
    reading: f64,
}

/// The instant at which a straight line through the readings of the ramp comes from nought.
fn begun(points: &[(f64, f64)], resting: usize, options: &Options) -> Begun {
    let after = points.get(resting).map_or(points[resting - 1].0, |p| p.0);
    let reading = options.receiver.reading;
    // The last reading below the limit may belong to the start already.
    let still = |p: &(f64, f64)| p.1 <= AT_REST * reading;
    let last_still = points[..resting].iter().rposition(still);
    let before = points[last_still.unwrap_or(0)].0;
    let bounds = Interval {
        low: before,
        high: after,
    };
    let first = options.levels.iter().copied().fold(f64::INFINITY, f64::min);
    let ramp: Vec<(f64, f64)> = points[resting - 1..]
        .iter()
        .take_while(|p| p.1 < first)
        .filter(|p| p.1 > RAMP.0 && p.1 <= RAMP.1)
        .copied()
        .collect();
    let unknown = Begun {
        instant: 0.5 * (before + after),
        uncertainty: 0.5 * (after - before),
        ramp: ramp.len(),
        straight: false,
        bounds,
        reading,
    };
    if ramp.len() < 2 {
        return unknown;
    }
    let count = real(ramp.len());
    let time = ramp.iter().map(|p| p.0).sum::<f64>() / count;
    let speed = ramp.iter().map(|p| p.1).sum::<f64>() / count;
    let tt: f64 = ramp.iter().map(|p| (p.0 - time) * (p.0 - time)).sum();
    let tv: f64 = ramp.iter().map(|p| (p.0 - time) * (p.1 - speed)).sum();
    let rise = tv / tt;
    if rise <= 0.0 {
        return unknown;
    }
    let off = |p: &(f64, f64)| p.1 - speed - rise * (p.0 - time);
    let left: f64 = ramp.iter().map(|p| off(p) * off(p)).sum();
    let found = (left / (count - 2.0).max(1.0)).sqrt();
    // A ramp that bends by more than noise explains is no line to follow back.
    if found > BENT * reading {
        return unknown;
    }
    let reading = reading.max(found);
    let back = speed / rise;
    Begun {
        instant: time - back,
        uncertainty: reading / rise * (1.0 / count + back * back / tt).sqrt(),
        reading,
        straight: true,
        ..unknown
    }
}

/// When a speed is reached, from the start.
fn reached(points: &[(f64, f64)], begun: &Begun, level: f64) -> Result<Reached, Error> {
    let Some(at) = points
        .iter()
        .position(|p| p.1 >= level)
        .filter(|&at| at > 0)
    else {
        return Ok(Reached::Never);
    };
    let (before, after) = (points[at - 1].0, points[at].0);
    // Two readings make a line whose doubt is known, unless so far apart that the ramp bends between them.
    let line = begun.ramp >= LINE || (begun.ramp == 2 && after - before <= SPARSE);
    if !(line && begun.straight) {
        return Ok(Reached::Between(Interval {
            low: (before - begun.bounds.high).max(0.0),
            high: after - begun.bounds.low,
        }));
    }
    let (crossing, slope, shared) = crossing(points, at, level);
    let read = begun.reading / slope * shared;
    let parts = vec![
        Contribution::known(Part::Scatter, begun.uncertainty.hypot(read)),
        Contribution::known(Part::Rate, RATE * (after - before)),
    ];
    let figure = Figure::new(crossing - begun.instant, parts, Origin::Log)?;
    Ok(Reached::Time(figure))
}

/// When the readings cross a level before reading `at`, how steeply, and what share of a reading's error it has.
///
/// A straight line between the two readings; where they are dense, a parabola through those half a second to
/// either side, three at the least, unless it does not cross there.
fn crossing(points: &[(f64, f64)], at: usize, level: f64) -> (f64, f64, f64) {
    let ((t0, v0), (t1, v1)) = (points[at - 1], points[at]);
    let slope = (v1 - v0) / (t1 - t0);
    let straight = t0 + (level - v0) / slope;
    let plain = (straight, slope, 1.0);
    if (t1 - t0) * DENSE > 1.0 + 1e-6 {
        return plain;
    }
    let side = SIDE.max(FEWEST * (t1 - t0));
    let near = |p: &&(f64, f64)| (p.0 - straight).abs() <= side;
    let near: Vec<(f64, f64)> = points.iter().filter(near).copied().collect();
    if near.len() < LINE + 1 {
        return plain;
    }
    let (mut square, mut sums) = (Matrix3::zeros(), Vector3::zeros());
    for (t, v) in &near {
        let x = t - straight;
        let row = Vector3::new(1.0, x, x * x);
        square += row * row.transpose();
        sums += row * (v - level);
    }
    let Some(found) = square.cholesky().map(|parts| parts.solve(&sums)) else {
        return plain;
    };
    let (c, b, a) = (found[0], found[1], found[2]);
    let inside = b * b - 4.0 * a * c;
    if b <= 0.0 || inside <= 0.0 {
        return plain;
    }
    // The root near nought, in the form that loses no digits.
    let root = -2.0 * c / (b + inside.sqrt());
    if root.abs() > side {
        return plain;
    }
    // Nine quarters over the count: the variance of a parabola in its middle.
    let shared = (2.25 / real(near.len())).sqrt().min(1.0);
    (straight + root, inside.sqrt(), shared)
}

/// The readings as a receiver with more lag would show them.
///
/// `tau dy/dt = v - y` along the straight lines between the readings, from the first reading at rest
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `points[i].0` | t | times | `s` |
/// | `points[i].1` | v | speeds | `m/s` |
/// | `lag` | tau | time constant | `s` |
/// | `returns[i].0` | t | the same times | `s` |
/// | `returns[i].1` | y | lagged speeds | `m/s` |
///
/// Range: `tau > 0`, rising times.
/// Source: definition, of a lag of first order.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Order`].
pub fn lagged(points: &[(f64, f64)], lag: f64) -> Result<Vec<(f64, f64)>, Error> {
    crate::error::positive("the lag of a receiver", lag)?;
    let mut out: Vec<(f64, f64)> = points.iter().take(1).copied().collect();
    let mut y = out.first().map_or(0.0, |p| p.1);
    for pair in points.windows(2) {
        let ((t0, v0), (t1, v1)) = (pair[0], pair[1]);
        if t1 <= t0 {
            return Err(Error::Order {
                what: "times of a log",
                first: t0,
                second: t1,
            });
        }
        let d = t1 - t0;
        let rise = (v1 - v0) / d;
        // The answer to a ramp stands `rise tau` below it; what differs from that at first dies away.
        y = v1 - rise * lag + (y - v0 + rise * lag) * (-d / lag).exp();
        out.push((t1, y));
    }
    Ok(out)
}

/// What the engine did from the start on.
fn flare(samples: &[Sample], instant: f64) -> Option<Flare> {
    let engine: Vec<(f64, f64)> = samples
        .iter()
        .filter(|s| s.time >= instant)
        .filter_map(|s| s.engine.map(|engine| (s.time - instant, engine)))
        .collect();
    let highest = engine.iter().filter(|p| p.0 <= FLARE).map(|p| p.1);
    let highest = highest.max_by(f64::total_cmp)?;
    let steady = engine.iter().filter(|p| (LATE..=2.0 * LATE).contains(&p.0));
    let mut steady: Vec<f64> = steady.map(|p| p.1).collect();
    if steady.len() < LINE {
        return None;
    }
    let settled = median(&mut steady);
    let off = |p: &&(f64, f64)| p.0 <= 2.0 * LATE && (p.1 - settled).abs() > SETTLED * settled;
    let last_off = engine.iter().rposition(|p| off(&p));
    let settles = match last_off {
        None => Some(0.0),
        Some(at) => engine
            .get(at + 1)
            .filter(|p| p.0 <= 2.0 * LATE)
            .map(|p| p.0),
    };
    Some(Flare {
        settled,
        highest,
        settles,
    })
}
