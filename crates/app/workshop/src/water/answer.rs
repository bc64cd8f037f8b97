//! What the water tests show: before, after, and what changed.

use trial::compare::{Difference, Group, welch};
use trial::figure::{Contribution, Figure, Interval, Origin, Part};

use super::outing::{OutingSays, Times, Top, levels, mean, says};
use super::{Shown, Side, evidence};
use crate::entry::Key;
use crate::job::Job;

/// The probability of every interval.
pub const LEVEL: f64 = 0.95;
/// What two days may differ by in load and air, of a speed, `m/s`: 0.08 and 0.06 together, on each
/// side. Common practice, no source.
const DAY: f64 = 0.141_421_356_237_309_5;

/// A change of something from before to after.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// Before.
    pub before: Figure,
    /// After.
    pub after: Figure,
    /// After less before, with the ends of its interval.
    pub change: (f64, Interval),
    /// The same by double runs or starts alone, where each side has two or more.
    pub repeats: Option<Repeats>,
}

/// A change by repeats alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeats {
    /// How many before, how many after.
    pub counts: (usize, usize),
    /// Welch's difference.
    pub difference: Difference,
    /// The ends of its interval.
    pub interval: Interval,
}

/// How a change stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// More, beyond what both are uncertain by.
    More,
    /// Less, likewise.
    Less,
    /// Within what both are uncertain by.
    Within,
}

impl Change {
    /// How it stands.
    pub fn told(&self) -> Told {
        let Interval { low, high } = self.change.1;
        if low > 0.0 {
            Told::More
        } else if high < 0.0 {
            Told::Less
        } else {
            Told::Within
        }
    }
}

/// What one side shows.
#[derive(Clone, Debug)]
pub struct SideSays {
    /// Its outings.
    pub outings: Vec<OutingSays>,
    /// The speed through the water, of all of them.
    pub speed: Option<Figure>,
    /// The current is in it: no outing ran both ways.
    pub one_way: bool,
    /// Engine speed at full throttle, `rad/s`.
    pub engine: Option<Figure>,
}

/// What the water tests show.
#[derive(Clone, Debug)]
pub struct Answer {
    /// Before.
    pub before: SideSays,
    /// After.
    pub after: SideSays,
    /// The speed at full throttle, `m/s`.
    pub speed: Option<Change>,
    /// Starts, by the speed they are timed to, `m/s` and `s`.
    pub starts: Vec<(f64, Change)>,
    /// Engine speed at full throttle, `rad/s`.
    pub engine: Option<Change>,
    /// What the air alone did to the engine.
    pub air: Option<Air>,
    /// Names what it rests on.
    pub evidence: String,
}

/// What the air alone did to an engine that draws its own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Power after over power before.
    pub power: f64,
    /// Engine speed after over before: a pump takes power by the cube of its speed.
    pub engine: f64,
    /// The standard accepts factors so far from one.
    pub in_range: bool,
}

impl Answer {
    /// One side of it.
    pub fn side(&self, side: Side) -> &SideSays {
        match side {
            Side::Before => &self.before,
            Side::After => &self.after,
        }
    }

    /// What an outing shows.
    pub fn outing(&self, key: &Key) -> Option<&OutingSays> {
        let mut all = self.before.outings.iter().chain(&self.after.outings);
        all.find(|outing| outing.key == *key)
    }
}

impl Shown {
    /// What is put on record when a person takes this answer, told in these words.
    pub fn of(answer: &Answer, words: String) -> Self {
        let three = |value: f64, ends: Interval| [ends.low, value, ends.high];
        let after = answer.after.speed.as_ref();
        let after = after.and_then(|speed| Some(three(speed.value, speed.interval(LEVEL).ok()?)));
        let change = answer.speed.as_ref();
        Self {
            evidence: answer.evidence.clone(),
            words,
            after,
            change: change.map(|change| three(change.change.0, change.change.1)),
            program: crate::PROGRAM.to_owned(),
        }
    }
}

/// What the water tests of a job show.
pub fn answer(job: &Job) -> Answer {
    let before = side(job, Side::Before);
    let after = side(job, Side::After);
    let speed = match (&before.speed, &after.speed) {
        (Some(a), Some(b)) => change((a, &double_runs(&before)), (b, &double_runs(&after)), DAY),
        _ => None,
    };
    let engine = match (&before.engine, &after.engine) {
        (Some(a), Some(b)) => change((a, &[]), (b, &[]), 0.0),
        _ => None,
    };
    let starts = levels(job).into_iter().filter_map(|to| {
        let (a, b) = (times(&before, to), times(&after, to));
        let (first, second) = (mean(&refs(&a))?, mean(&refs(&b))?);
        let values = |all: &[Figure]| all.iter().map(|one| one.value).collect::<Vec<f64>>();
        let (first, second) = (scattered(first, &a), scattered(second, &b));
        let found = change((&first, &values(&a)), (&second, &values(&b)), 0.0)?;
        Some((to, found))
    });
    Answer {
        air: air(&before, &after),
        speed,
        engine,
        starts: starts.collect(),
        before,
        after,
        evidence: evidence(job),
    }
}

fn side(job: &Job, side: Side) -> SideSays {
    let outings = job.trials.in_order(Some(side)).into_iter();
    let outings: Vec<OutingSays> = outings.map(|(key, state)| says(job, key, state)).collect();
    let reduced = outings.iter().map(|outing| match &outing.top {
        Top::Reduced(all) => all.iter().map(|one| &one.speed).collect(),
        Top::Headings(speed, _) => vec![speed],
        Top::None | Top::OneWay(_) => Vec::new(),
    });
    let reduced: Vec<&Figure> = reduced.flatten().collect();
    let one_way = reduced.is_empty();
    let alone = outings.iter().filter_map(|outing| match &outing.top {
        Top::OneWay(figure) => Some(figure),
        Top::None | Top::Reduced(_) | Top::Headings(..) => None,
    });
    let speeds: Vec<&Figure> = if one_way { alone.collect() } else { reduced };
    let engines: Vec<&Figure> = outings.iter().flat_map(|outing| &outing.engine).collect();
    SideSays {
        speed: mean(&speeds),
        one_way,
        engine: mean(&engines),
        outings,
    }
}

/// The air of the latest outing of each side, where both are known.
fn air(before: &SideSays, after: &SideSays) -> Option<Air> {
    let of = |side: &SideSays| side.outings.iter().rev().find_map(|one| one.air?.ok());
    let (a, b) = (of(before)?, of(after)?);
    let power = a.factor / b.factor;
    Some(Air {
        power,
        engine: power.cbrt(),
        in_range: a.in_range && b.in_range,
    })
}

/// The mean of each independent double run: the first two of a series, the next two.
fn double_runs(side: &SideSays) -> Vec<f64> {
    let mut means = Vec::new();
    for outing in &side.outings {
        for members in &outing.series.alternate {
            for pair in members.chunks_exact(2) {
                let speed = |at: usize| outing.passes[at].speed.value;
                means.push(f64::midpoint(speed(pair[0]), speed(pair[1])));
            }
        }
    }
    means
}

fn times(side: &SideSays, to: f64) -> Vec<Figure> {
    let all = side.outings.iter().flat_map(|outing| &outing.starts);
    let mine = all.filter(|times: &&Times| (times.to - to).abs() < 1e-6);
    mine.flat_map(|times| times.each.clone()).collect()
}

fn refs(all: &[Figure]) -> Vec<&Figure> {
    all.iter().collect()
}

/// A mean with the scatter that its repeats show, where there are two or more.
fn scattered(mut mean: Figure, all: &[Figure]) -> Figure {
    let values: Vec<f64> = all.iter().map(|one| one.value).collect();
    if let Ok(group) = Group::of(&values) {
        let count = f64::from(u32::try_from(group.count).unwrap_or(u32::MAX));
        mean.parts.retain(|part| part.part != Part::Scatter);
        mean.parts.push(Contribution {
            part: Part::Scatter,
            uncertainty: group.deviation / count.sqrt(),
            freedom: count - 1.0,
        });
    }
    mean
}

/// After less before. The parts of both add up; none is taken to cancel.
fn change(
    (before, a): (&Figure, &[f64]),
    (after, b): (&Figure, &[f64]),
    day: f64,
) -> Option<Change> {
    let parts = before.parts.iter().chain(&after.parts).copied().collect();
    let all = Figure::new(after.value - before.value, parts, Origin::Log).ok()?;
    let repeats = || {
        let (first, second) = (Group::of(a).ok()?, Group::of(b).ok()?);
        let difference = welch(&first, &second, day).ok()?;
        Some(Repeats {
            counts: (a.len(), b.len()),
            interval: difference.interval(LEVEL).ok()?,
            difference,
        })
    };
    Some(Change {
        change: (all.value, all.interval(LEVEL).ok()?),
        before: before.clone(),
        after: after.clone(),
        repeats: repeats(),
    })
}
