//! From opposed runs to the speed through the water.
//!
//! A run up and a run down the same water carry the current with opposite signs. What cancels it, and what
//! is left of it, is derived in `docs/theory/trial.md`.

mod current;
mod mean;
mod wind;

pub use current::{Circle, Leg, algebraic, current, equal_headings};
pub use mean::{Fitted, fitted, mean_of_means, mean_weights};
pub use wind::{Air, Weather, weather, wind_change, wind_left};

use crate::Error;
use crate::error::{not_negative, positive};
use crate::figure::{Contribution, Figure, Origin, Part};
use crate::runs::{Run, wrapped};
use crate::segment::real;

/// One run as it is reduced, measured or typed in.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `time` | of its middle | `s` |
/// | `course` | over ground | `rad` |
/// | `speed` | over ground | `m/s` |
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// Time of its middle.
    pub time: f64,
    /// Course over ground.
    pub course: f64,
    /// Speed over ground.
    pub speed: Figure,
}

impl Pass {
    /// A run that was found, where its log has a course.
    pub fn of(run: &Run) -> Option<Self> {
        run.course.map(|course| Self {
            time: run.time(),
            course: course.mean,
            speed: run.speed.clone(),
        })
    }
}

/// What makes two runs a double run.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `apart` | most that the courses may differ from opposite | `rad` |
/// | `within` | most time between their middles | `s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pairing {
    /// Most that the courses may differ from opposite.
    pub apart: f64,
    /// Most time between their middles.
    pub within: f64,
}

impl Default for Pairing {
    /// Common practice, no source.
    fn default() -> Self {
        Self {
            apart: 15.0_f64.to_radians(),
            within: 600.0,
        }
    }
}

/// Runs put together: which of them alternate, and which stand alone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Series {
    /// Numbers of the runs of each series, two at the least, in the order of time.
    pub alternate: Vec<Vec<usize>>,
    /// Runs without a neighbour the other way.
    pub alone: Vec<usize>,
}

/// Puts runs together into series of alternate direction.
///
/// Range: any runs with a time and a course.
/// Source: common practice, no source; that the runs of a series alternate over one ground is `iso-15016`.
///
/// # Errors
/// [`Error::Outside`] for times or courses that are no numbers, [`Error::NotPositive`] for the pairing.
pub fn series(passes: &[Pass], pairing: &Pairing) -> Result<Series, Error> {
    positive("the most that courses may differ", pairing.apart)?;
    positive("the most time between two runs", pairing.within)?;
    for pass in passes {
        crate::error::finite("the time of a run", pass.time)?;
        crate::error::finite("the course of a run", pass.course)?;
    }
    let mut order: Vec<usize> = (0..passes.len()).collect();
    order.sort_by(|&a, &b| passes[a].time.total_cmp(&passes[b].time));
    let opposed = |a: usize, b: usize| {
        let turned = wrapped(passes[b].course - passes[a].course - std::f64::consts::PI);
        turned.abs() <= pairing.apart && passes[b].time - passes[a].time <= pairing.within
    };
    let chains = order.chunk_by(|&a, &b| opposed(a, b));
    let (alternate, alone): (Vec<Vec<usize>>, Vec<Vec<usize>>) = chains
        .map(<[usize]>::to_vec)
        .partition(|chain| chain.len() > 1);
    Ok(Series {
        alternate,
        alone: alone.concat(),
    })
}

/// A scatter of runs known from earlier days.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `deviation` | standard deviation of one run | `m/s` |
/// | `freedom` | its degrees of freedom | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pooled {
    /// Standard deviation of one run.
    pub deviation: f64,
    /// Its degrees of freedom.
    pub freedom: f64,
}

/// What a series cannot show of itself.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `pooled` | scatter known from earlier days | |
/// | `floor` | scatter of one run where too few tell it | `m/s` |
/// | `current` | standard uncertainty, in one run, of what is left of the current | `m/s` |
/// | `load` | standard uncertainty from fuel and riders | `m/s` |
/// | `air` | standard uncertainty from the air of the day | `m/s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Allowances {
    /// Scatter known from earlier days.
    pub pooled: Option<Pooled>,
    /// Scatter of one run where too few tell it.
    pub floor: f64,
    /// Standard uncertainty, in one run, of what is left of the current.
    pub current: f64,
    /// Standard uncertainty from fuel and riders.
    pub load: f64,
    /// Standard uncertainty from the air of the day.
    pub air: f64,
}

impl Default for Allowances {
    /// Common practice, no source.
    fn default() -> Self {
        Self {
            pooled: None,
            floor: 0.15,
            current: 0.10,
            load: 0.08,
            air: 0.06,
        }
    }
}

/// How the current was taken out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Mean of means: runs at equal times.
    MeanOfMeans,
    /// Least squares with a current that is a polynomial of time, of this degree.
    LeastSquares(usize),
}

/// Whether the answer is free of current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Current {
    /// Two runs cannot tell whether it changed between them.
    Untold,
    /// It changed by less than the answer is uncertain.
    Free {
        /// The most it changed between neighbours.
        change: f64,
        /// What the answer is uncertain by.
        limit: f64,
    },
    /// It changed by more than the answer is uncertain: the answer is not free of it.
    Left {
        /// The most it changed between neighbours.
        change: f64,
        /// What the answer is uncertain by.
        limit: f64,
    },
}

/// The answer on water that stands still.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `along` | steady current along the first course, by least squares | `m/s` |
/// | `uncertainty` | its standard uncertainty | `m/s` |
/// | `stands` | whether the runs are consistent with none | |
/// | `speed` | plain mean, right where there is none | `m/s` |
#[derive(Clone, Debug, PartialEq)]
pub struct Still {
    /// Steady current along the first course.
    pub along: f64,
    /// Its standard uncertainty.
    pub uncertainty: f64,
    /// Whether it is less than twice its uncertainty.
    pub stands: bool,
    /// Plain mean of the runs.
    pub speed: Figure,
}

/// Where the scatter of a run is taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ScatterFrom {
    /// These runs.
    Runs,
    /// Earlier days, with these.
    Pooled,
    /// The floor: there are too few runs.
    Floor,
    /// The readings within the runs, which scatter more than the runs do.
    Within,
}

/// A series reduced.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `speed` | through the water | `m/s` |
/// | `method` | how the current was taken out | |
/// | `weights` | of the runs | `1` |
/// | `plain` | mean of the runs, for comparison | `m/s` |
/// | `along` | current along the first course, from each pair of neighbours | `m/s` |
/// | `current` | whether the answer is free of it | |
/// | `still` | the answer where the water stands still | |
/// | `scatter` | standard deviation of one run as used | `m/s` |
/// | `scatter_from` | where that is from | |
#[derive(Clone, Debug, PartialEq)]
pub struct Reduced {
    /// Speed through the water.
    pub speed: Figure,
    /// How the current was taken out.
    pub method: Method,
    /// Weights of the runs.
    pub weights: Vec<f64>,
    /// Mean of the runs, for comparison.
    pub plain: f64,
    /// Current along the first course, from each pair of neighbours.
    pub along: Vec<f64>,
    /// Whether the answer is free of current.
    pub current: Current,
    /// The answer where the water stands still.
    pub still: Still,
    /// Standard deviation of one run as used.
    pub scatter: f64,
    /// Where that is from.
    pub scatter_from: ScatterFrom,
}

/// Spacings that differ from their mean by less than this share are equal. Source: common practice, no source.
const EQUAL: f64 = 0.1;
/// Fewest degrees of freedom by which runs tell their own scatter. Source: common practice, no source.
const TELLING: f64 = 2.0;
/// Probability of the interval that a change of current is held against.
const LEVEL: f64 = 0.95;

/// Speed through the water of runs that alternate, with what it may be off by.
///
/// Mean of means where they are equally spaced in time, else least squares. The scatter of a run is what a
/// steady current leaves over; with under four runs the pooled one or the floor, and never less than what the
/// readings within the runs show.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `passes` | in the order of time, alternating | |
/// | `allowances` | what they cannot show | |
///
/// Range: two runs or more, each opposed to the one before (see [`series`]).
/// Source: `iso-15016` for the mean of means; `jcgm-100` for the uncertainty.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Order`] for times that do not rise, [`Error::Contradicted`] for neighbours that
/// run the same way, [`Error::Outside`] and [`Error::NotPositive`] for the allowances.
pub fn reduce(passes: &[Pass], allowances: &Allowances) -> Result<Reduced, Error> {
    check(passes, allowances)?;
    let times: Vec<f64> = passes.iter().map(|p| p.time).collect();
    let speeds: Vec<f64> = passes.iter().map(|p| p.speed.value).collect();
    let count = passes.len();
    let (method, weights) = if equally_spaced(&times) {
        (Method::MeanOfMeans, mean_weights(count)?)
    } else {
        let degree = (count - 2).min(2);
        (
            Method::LeastSquares(degree),
            fitted(&times, &speeds, degree)?.weights,
        )
    };
    let value = weights.iter().zip(&speeds).map(|(w, v)| w * v).sum();
    let steady = fitted(&times, &speeds, 0)?;
    let scatter = scatter(passes, &steady, allowances);
    let speed = Figure::new(
        value,
        parts(passes, &weights, &scatter, allowances),
        origin(passes),
    )?;
    let plain = speeds.iter().sum::<f64>() / real(count);
    let along: Vec<f64> = (1..count)
        .map(|i| mean::sign(i - 1) * 0.5 * (speeds[i - 1] - speeds[i]))
        .collect();
    Ok(Reduced {
        current: told(&along, speed.half_width(LEVEL)?),
        still: still(passes, &steady, &scatter, allowances)?,
        speed,
        method,
        weights,
        plain,
        along,
        scatter: scatter.deviation,
        scatter_from: scatter.from,
    })
}

fn check(passes: &[Pass], allowances: &Allowances) -> Result<(), Error> {
    if passes.len() < 2 {
        return Err(Error::TooFew {
            what: "runs of alternate direction",
            count: passes.len(),
            least: 2,
        });
    }
    for pair in passes.windows(2) {
        let turned = wrapped(pair[1].course - pair[0].course).abs();
        let most = std::f64::consts::FRAC_PI_2;
        if turned.is_nan() || turned <= most {
            return Err(Error::Contradicted {
                what: "that runs alternate in direction",
                value: std::f64::consts::PI - turned,
                most,
            });
        }
    }
    positive("the floor of the scatter", allowances.floor)?;
    not_negative("the current left over", allowances.current)?;
    not_negative("the part of the load", allowances.load)?;
    not_negative("the part of the air", allowances.air)?;
    if let Some(pooled) = allowances.pooled {
        positive("the pooled scatter", pooled.deviation)?;
        crate::error::within("the pooled freedom", pooled.freedom, 1.0, f64::MAX)?;
    }
    Ok(())
}

fn equally_spaced(times: &[f64]) -> bool {
    let count = times.len();
    let mean = (times[count - 1] - times[0]) / real(count - 1);
    let equal = |w: &[f64]| (w[1] - w[0] - mean).abs() <= EQUAL * mean;
    mean > 0.0 && times.windows(2).all(equal)
}

struct Scatter {
    deviation: f64,
    freedom: f64,
    from: ScatterFrom,
}

/// Standard deviation of one run.
fn scatter(passes: &[Pass], steady: &Fitted, allowances: &Allowances) -> Scatter {
    let own = steady.freedom;
    let squares = own * steady.deviation * steady.deviation;
    let runs = match allowances.pooled {
        Some(pooled) => Scatter {
            deviation: ((squares + pooled.freedom * pooled.deviation.powi(2))
                / (own + pooled.freedom))
                .sqrt(),
            freedom: own + pooled.freedom,
            from: ScatterFrom::Pooled,
        },
        None if own >= TELLING || (own > 0.0 && steady.deviation > allowances.floor) => Scatter {
            deviation: steady.deviation,
            freedom: own,
            from: ScatterFrom::Runs,
        },
        None => Scatter {
            deviation: allowances.floor,
            freedom: f64::INFINITY,
            from: ScatterFrom::Floor,
        },
    };
    let mut within = 0.0;
    let mut freedom = 0.0;
    for part in passes.iter().flat_map(|p| &p.speed.parts) {
        if !shared(part.part) {
            within += part.uncertainty * part.uncertainty;
            freedom += part.freedom;
        }
    }
    let within = (within / real(passes.len())).sqrt();
    if within > runs.deviation {
        Scatter {
            deviation: within,
            freedom: freedom.max(1.0),
            from: ScatterFrom::Within,
        }
    } else {
        runs
    }
}

/// Typed where any of the runs is.
fn origin(passes: &[Pass]) -> Origin {
    if passes.iter().all(|p| p.speed.origin == Origin::Log) {
        Origin::Log
    } else {
        Origin::Typed
    }
}

/// Whether a part errs alike in every run of a day.
fn shared(part: Part) -> bool {
    matches!(part, Part::Choice | Part::Receiver | Part::Load | Part::Air)
}

fn parts(
    passes: &[Pass],
    weights: &[f64],
    scatter: &Scatter,
    allowances: &Allowances,
) -> Vec<Contribution> {
    let squares: f64 = weights.iter().map(|w| w * w).sum();
    let receiver = passes
        .iter()
        .flat_map(|p| &p.speed.parts)
        .filter(|part| part.part == Part::Receiver)
        .map(|part| part.uncertainty)
        .fold(0.0, f64::max);
    // Every run leans the same way.
    let choice = passes
        .iter()
        .zip(weights)
        .flat_map(|(p, w)| p.speed.parts.iter().map(move |part| (part, w.abs())))
        .filter(|(part, _)| part.part == Part::Choice)
        .map(|(part, w)| part.uncertainty * w)
        .sum();
    vec![
        Contribution {
            part: Part::Scatter,
            uncertainty: scatter.deviation * squares.sqrt(),
            freedom: scatter.freedom,
        },
        Contribution::known(Part::Choice, choice),
        Contribution::known(Part::Receiver, receiver),
        Contribution::known(Part::Current, allowances.current * squares.sqrt()),
        Contribution::known(Part::Load, allowances.load),
        Contribution::known(Part::Air, allowances.air),
    ]
}

fn told(along: &[f64], limit: f64) -> Current {
    if along.len() < 2 {
        return Current::Untold;
    }
    let changes = along.windows(2).map(|w| (w[1] - w[0]).abs());
    let change = changes.fold(0.0, f64::max);
    if change <= limit {
        Current::Free { change, limit }
    } else {
        Current::Left { change, limit }
    }
}

fn still(
    passes: &[Pass],
    steady: &Fitted,
    scatter: &Scatter,
    allowances: &Allowances,
) -> Result<Still, Error> {
    let count = passes.len();
    let share = 1.0 / real(count);
    let mean = passes.iter().map(|p| share * p.speed.value).sum();
    let none = Allowances {
        current: 0.0,
        ..*allowances
    };
    let mut parts = parts(passes, &vec![share; count], scatter, &none);
    parts.retain(|part| part.part != Part::Current);
    let along = steady.current[0];
    let (there, back) = (real(count.div_ceil(2)), real(count / 2));
    let uncertainty = 0.5 * scatter.deviation * (1.0 / there + 1.0 / back).sqrt();
    Ok(Still {
        along,
        uncertainty,
        stands: along.abs() < 2.0 * uncertainty,
        speed: Figure::new(mean, parts, origin(passes))?,
    })
}
