//! Stretches of one level, and which of them are full-throttle runs.

use std::f64::consts::{PI, TAU};

use super::area::Area;
use super::levels::{SIDE, levels, usual_step};
use super::straight::legs;
use super::{Course, Engine, NoRun, Options, Passed, Piece, Run, Span, WhyNot, pieces};
use crate::figure::{Contribution, Figure, Origin, Part};
use crate::segment::real;
use crate::{Error, Log, Sample};

/// What a piece loses at either end when it is not steady as it stands, in seconds.
const TRIM: f64 = 0.5;
/// Times nearer than this are the same: rounding, far below any step.
const HAIR: f64 = 1e-6;
/// Share of the speed of a run from which a person may have meant a stretch for one.
const NEAR: f64 = 0.8;
/// Times the limits for a piece that at least looks like a run.
const LOOKS: f64 = 3.0;

type Sorted = (Vec<Run>, Vec<Passed>, Option<NoRun>);

/// The runs of a log, what was passed over, and why there are none.
pub(super) fn find(pieces: &[Piece], options: &Options) -> Result<Sorted, Error> {
    let lasts = |p: &Piece| p.samples[p.samples.len() - 1].time - p.samples[0].time;
    let longest = pieces.iter().map(lasts).fold(0.0, f64::max);
    let best = Best::of(pieces, options);
    let Some(fastest) = best.speed else {
        let least = options.shortest;
        return Ok((vec![], vec![], Some(NoRun::NoStretch { longest, least })));
    };
    if fastest < options.slowest {
        let least = options.slowest;
        return Ok((vec![], vec![], Some(NoRun::NeverFast { fastest, least })));
    }
    let (mut runs, mut passed) = (Vec::new(), Vec::new());
    for piece in pieces {
        let parts = levels(piece, options, floor(options, &best))?;
        for part in parts.into_iter().flat_map(|part| legs(part, options)) {
            match judged(piece.stretch, part, options, &best)? {
                Judged::Run(run) => runs.push(*run),
                Judged::Passed(other) => passed.push(other),
                Judged::Neither => {}
            }
        }
    }
    let none = runs.is_empty().then_some(NoRun::NothingSteady);
    Ok((runs, passed, none))
}

/// A run of a window that a person states.
///
/// Its top speed is the highest mean of [`Options::window`] inside, or the mean of the whole where it is
/// shorter. What speaks against a full-throttle run is told in [`Run::doubts`].
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `from` | start | `s` |
/// | `to` | end | `s` |
///
/// Range: inside one unbroken stretch, at least twice the receiver's memory.
/// Source: definition.
///
/// # Errors
/// [`Error::Order`], [`Error::Broken`] across a break or beyond the log, [`Error::Outside`] for a window too
/// short to tell scatter, [`Error::TooFew`].
pub fn run_between(log: &Log, from: f64, to: f64, options: &Options) -> Result<Run, Error> {
    options.check()?;
    let (pieces, _) = pieces(log)?;
    let best = Best::of(&pieces, options);
    let (piece, inside) = stated(&pieces, from, to)?;
    let least = 2.0 * options.receiver.memory;
    let lasts = inside[inside.len() - 1].time - inside[0].time;
    crate::error::within("the length of a run", lasts, least, f64::MAX)?;
    let mut run = measured(piece.stretch, inside, options)?;
    run.doubts = against(&run, options, &best);
    Ok(run)
}

/// The piece that holds a stated window, and the readings inside.
pub(super) fn stated(pieces: &[Piece], from: f64, to: f64) -> Result<(&Piece, &[Sample]), Error> {
    if !(from.is_finite() && to.is_finite() && to > from) {
        return Err(Error::Order {
            what: "start and end of a window",
            first: from,
            second: to,
        });
    }
    let holds = |p: &&Piece| p.samples[0].time <= from && to <= p.samples[p.samples.len() - 1].time;
    // Clocks that stepped back leave stretches that overlap in time; the first is meant.
    let piece = pieces
        .iter()
        .find(holds)
        .ok_or(Error::Broken { from, to })?;
    let first = piece.samples.partition_point(|s| s.time < from);
    let after = piece.samples.partition_point(|s| s.time <= to);
    let inside = &piece.samples[first..after.max(first)];
    if inside.len() < 3 {
        return Err(Error::TooFew {
            what: "readings in the window",
            count: inside.len(),
            least: 3,
        });
    }
    Ok((piece, inside))
}

/// Highest means of a log as long as a run.
struct Best {
    speed: Option<f64>,
    engine: Option<f64>,
}

impl Best {
    fn of(pieces: &[Piece], options: &Options) -> Self {
        let most = |area: Area| area.best(options.shortest).map(|(_, mean)| mean);
        let speed = pieces.iter().filter_map(|p| most(area(&p.samples)));
        let engine = pieces.iter().filter_map(|p| most(engine_area(&p.samples)));
        Self {
            speed: speed.max_by(f64::total_cmp),
            engine: engine.max_by(f64::total_cmp),
        }
    }
}

pub(super) fn area(samples: &[Sample]) -> Area {
    Area::new(samples.iter().map(|s| (s.time, s.speed)))
}

fn engine_area(samples: &[Sample]) -> Area {
    let has = |s: &Sample| s.engine.map(|engine| (s.time, engine));
    Area::new(samples.iter().filter_map(has))
}

enum Judged {
    Run(Box<Run>),
    Passed(Passed),
    Neither,
}

fn judged(
    stretch: usize,
    samples: &[Sample],
    options: &Options,
    best: &Best,
) -> Result<Judged, Error> {
    let lasts = |part: &[Sample]| match part {
        [first, .., last] => last.time - first.time,
        _ => 0.0,
    };
    let floor = floor(options, best);
    let mean = mean(samples);
    // Half the length and a little less than the speed: the person may have meant it for a run.
    if lasts(samples) < 0.5 * options.shortest || mean < NEAR * floor {
        return Ok(Judged::Neither);
    }
    let span = span(stretch, samples);
    let speed = mean;
    if lasts(samples) < options.shortest - HAIR {
        let (lasts, least) = (lasts(samples), options.shortest);
        let why = vec![WhyNot::Short { lasts, least }];
        return Ok(Judged::Passed(Passed { span, speed, why }));
    }
    let mut part = without_ends(samples, options);
    let whole = measured(stretch, part, options)?;
    let why = against(&whole, options, best);
    let mut run = whole;
    while !why.is_empty() && lasts(part) - TRIM >= options.shortest - HAIR {
        part = trimmed(part);
        if part.len() < 3 || lasts(part) < options.shortest - HAIR {
            break;
        }
        run = measured(stretch, part, options)?;
        let now = against(&run, options, best);
        if now.is_empty() {
            return Ok(Judged::Run(Box::new(run)));
        }
    }
    if why.is_empty() {
        return Ok(Judged::Run(Box::new(run)));
    }
    Ok(if looks_like_one(&why) {
        Judged::Passed(Passed { span, speed, why })
    } else {
        Judged::Neither
    })
}

/// A piece without its ends, over which the smoother spreads the change beside them, where it stays long enough.
fn without_ends<'a>(samples: &'a [Sample], options: &Options) -> &'a [Sample] {
    let side = SIDE.max(2.0 * usual_step(samples)) - HAIR;
    let (first, last) = (
        samples[0].time + side,
        samples[samples.len() - 1].time - side,
    );
    let from = samples.partition_point(|s| s.time < first);
    let to = samples.partition_point(|s| s.time <= last);
    match samples.get(from..to) {
        Some([a, .., b]) if b.time - a.time >= options.shortest - HAIR => &samples[from..to],
        _ => samples,
    }
}

/// A piece far from steady is a launch, a turn or a stop, and nobody's run.
fn looks_like_one(why: &[WhyNot]) -> bool {
    why.iter().all(|why| match *why {
        WhyNot::Rising { rise, most } => rise.abs() <= LOOKS * most,
        WhyNot::Rough { scatter, most } => scatter <= LOOKS * most,
        _ => true,
    })
}

/// A piece without the end whose readings stand farther off its mean.
fn trimmed(samples: &[Sample]) -> &[Sample] {
    let middle = mean(samples);
    let first = samples[0].time;
    let last = samples[samples.len() - 1].time;
    let head = samples
        .partition_point(|s| s.time < first + TRIM - HAIR)
        .max(1);
    let tail = samples.partition_point(|s| s.time <= last - TRIM + HAIR);
    let tail = tail.min(samples.len() - 1);
    let off = |part: &[Sample]| {
        let sum: f64 = part.iter().map(|s| s.speed - middle).sum();
        (sum / real(part.len())).abs()
    };
    if off(&samples[..head]) >= off(&samples[tail..]) {
        &samples[head..]
    } else {
        &samples[..tail]
    }
}

fn floor(options: &Options, best: &Best) -> f64 {
    let share = best.speed.map_or(0.0, |speed| options.share * speed);
    share.max(options.slowest)
}

/// What speaks against a full-throttle run.
fn against(run: &Run, options: &Options, best: &Best) -> Vec<WhyNot> {
    let mut why = Vec::new();
    let lasts = run.span.to - run.span.from;
    if lasts < options.shortest - HAIR {
        let least = options.shortest;
        why.push(WhyNot::Short { lasts, least });
    }
    if run.rise.abs() >= options.rise {
        let (rise, most) = (run.rise, options.rise);
        why.push(WhyNot::Rising { rise, most });
    }
    if run.scatter >= options.scatter {
        let (scatter, most) = (run.scatter, options.scatter);
        why.push(WhyNot::Rough { scatter, most });
    }
    if let Some(Course { spread, .. }) = run.course
        && spread >= options.turn
    {
        let most = options.turn;
        why.push(WhyNot::Turning { spread, most });
    }
    let least = floor(options, best);
    if run.whole < least {
        let speed = run.whole;
        why.push(WhyNot::Slow { speed, least });
    }
    if let (Some(engine), Some(best)) = (run.engine, best.engine) {
        let (speed, least) = (engine.mean, options.engine_share * best);
        if speed < least {
            why.push(WhyNot::EngineSlow { speed, least });
        }
        let (scatter, most) = (engine.scatter, options.engine_scatter);
        if scatter >= most {
            why.push(WhyNot::EngineRough { scatter, most });
        }
    }
    why
}

fn span(stretch: usize, samples: &[Sample]) -> Span {
    Span {
        stretch,
        from: samples[0].time,
        to: samples[samples.len() - 1].time,
    }
}

/// Mean over time.
fn mean(samples: &[Sample]) -> f64 {
    match samples {
        [] => 0.0,
        [only] => only.speed,
        [first, .., last] => area(samples).mean(first.time, last.time),
    }
}

/// Readings as a run, whatever speaks against it.
fn measured(stretch: usize, samples: &[Sample], options: &Options) -> Result<Run, Error> {
    let span = span(stretch, samples);
    let area = area(samples);
    let length = options.window.min(span.to - span.from);
    let (from, speed) = area
        .best(length)
        .unwrap_or((span.from, area.mean(span.from, span.to)));
    let window = Span {
        from,
        to: (from + length).min(span.to),
        ..span
    };
    let (rise, scatter) = line(samples);
    let whole = area.mean(span.from, span.to);
    let independent = independent(samples, window, options);
    let part = |part, uncertainty| Contribution::known(part, uncertainty);
    let parts = vec![
        Contribution {
            part: Part::Scatter,
            uncertainty: scatter / independent.sqrt(),
            freedom: (independent - 1.0).max(1.0),
        },
        // The fastest of several windows leans high, by about what it stands above the whole; it may also be the
        // one that was right, so that nothing is taken off.
        part(Part::Choice, (speed - whole).abs()),
        part(Part::Receiver, options.receiver.speed),
    ];
    Ok(Run {
        span,
        window,
        speed: Figure::new(speed, parts, Origin::Log)?,
        whole,
        rise,
        scatter,
        course: course(samples),
        engine: engine(samples, window),
        doubts: vec![],
    })
}

/// How many readings of a window err independently: no more than there are, nor than the receiver's memory lets.
fn independent(samples: &[Sample], window: Span, options: &Options) -> f64 {
    let inside = (window.from - HAIR)..=(window.to + HAIR);
    let count = samples.iter().filter(|s| inside.contains(&s.time)).count();
    let lasts = window.to - window.from;
    (lasts / options.receiver.memory).min(real(count)).max(1.0)
}

/// Rise of a straight line through the readings, and their standard deviation about it.
fn line(samples: &[Sample]) -> (f64, f64) {
    let count = real(samples.len());
    let time = samples.iter().map(|s| s.time).sum::<f64>() / count;
    let speed = samples.iter().map(|s| s.speed).sum::<f64>() / count;
    let (mut tt, mut tv, mut vv) = (0.0, 0.0, 0.0);
    for s in samples {
        let (t, v) = (s.time - time, s.speed - speed);
        tt += t * t;
        tv += t * v;
        vv += v * v;
    }
    let rise = tv / tt;
    let left = (vv - rise * tv).max(0.0) / (count - 2.0).max(1.0);
    (rise, left.sqrt())
}

/// An angle within half a turn of nought.
pub(crate) fn wrapped(angle: f64) -> f64 {
    (angle + PI).rem_euclid(TAU) - PI
}

/// Mean course by unit vectors, and the spread of all but one reading in twenty.
fn course(samples: &[Sample]) -> Option<Course> {
    let courses: Vec<f64> = samples.iter().filter_map(|s| s.course).collect();
    if courses.is_empty() {
        return None;
    }
    let east: f64 = courses.iter().map(|c| c.sin()).sum();
    let north: f64 = courses.iter().map(|c| c.cos()).sum();
    let mean = east.atan2(north).rem_euclid(TAU);
    let mut off: Vec<f64> = courses.iter().map(|c| wrapped(c - mean)).collect();
    off.sort_by(f64::total_cmp);
    let cut = courses.len() / 40;
    let spread = off[off.len() - 1 - cut] - off[cut];
    Some(Course { mean, spread })
}

fn engine(samples: &[Sample], window: Span) -> Option<Engine> {
    let inside = |s: &&Sample| (window.from..=window.to).contains(&s.time);
    let speeds: Vec<f64> = samples
        .iter()
        .filter(inside)
        .filter_map(|s| s.engine)
        .collect();
    if speeds.len() < 2 {
        return None;
    }
    let count = real(speeds.len());
    let mean = speeds.iter().sum::<f64>() / count;
    if mean <= 0.0 {
        return None;
    }
    let squares: f64 = speeds.iter().map(|s| (s - mean) * (s - mean)).sum();
    let scatter = (squares / (count - 1.0)).sqrt() / mean;
    Some(Engine { mean, scatter })
}
