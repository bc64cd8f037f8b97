//! The gap over the visits: how fast it grows, and when it meets the manual's limit.

use clearance::Error;
use clearance::population::Spread;
use clearance::trend::{Crossing, Line, Meant, Visit as Pair, line};

use super::{Figure, Visit};
use crate::gap::REQUIRED;
use crate::job::{Job, Measure};

/// Standard deviation with which a gap repeats from visit to visit, where the visits are too few or
/// too coarse to tell, `m`. Assumed, no source.
pub const REPEATS: f64 = 0.000_01;

/// The gap at one visit of the series.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Hours of the engine, in seconds.
    pub hours: f64,
    /// Not below.
    pub low: f64,
    /// Not above.
    pub high: f64,
}

/// What the visits say.
#[derive(Clone, Debug, PartialEq)]
pub struct Wear {
    /// Which gap is followed: that of the last visit.
    pub figure: Figure,
    /// Engine time at which ring or impeller were new; none when that was never told.
    pub renewed: Option<f64>,
    /// The visits that compare, by engine hours.
    pub points: Vec<Point>,
    /// Visits since then that noted the other gap.
    pub left_out: usize,
    /// This visit has no gap yet: no result is taken.
    pub waits: bool,
    /// The line, from three visits on.
    pub trend: Option<Trend>,
    /// The greatest gap of this kind that the manual allows.
    pub limit: Option<f64>,
}

/// A line through the visits.
#[derive(Clone, Debug, PartialEq)]
pub struct Trend {
    /// The line; its running time begins with the series.
    pub line: Line,
    /// The scatter was assumed.
    pub assumed: bool,
    /// Whether and when it meets the limit, where there is one.
    pub crossing: Option<Crossing>,
}

impl Wear {
    /// Engine time at which the series begins.
    pub fn begins(&self) -> f64 {
        self.renewed.unwrap_or(0.0)
    }
}

/// The wear, once a visit was told.
pub fn wear(job: &Job) -> Option<Wear> {
    let visits: Vec<&Visit> = job
        .inspected
        .visits_in_order()
        .into_iter()
        .map(|(_, fact)| &fact.value)
        .collect();
    let figure = visits.last()?.figure;
    let first = visits.iter().rposition(|visit| visit.renewed);
    let series = &visits[first.unwrap_or(0)..];
    let points: Vec<Point> = series
        .iter()
        .filter(|visit| visit.figure == figure)
        .filter_map(|visit| point(job, visit))
        .collect();
    let mut wear = Wear {
        figure,
        renewed: first.map(|first| visits[first].hours.value),
        left_out: series.iter().filter(|visit| visit.figure != figure).count(),
        waits: job.accepted.is_none() && series.iter().any(|visit| visit.gap.is_none()),
        points,
        trend: None,
        limit: limit(job, figure),
    };
    wear.trend = trend(&wear);
    Some(wear)
}

/// This visit's gap is the result that was taken.
fn point(job: &Job, visit: &Visit) -> Option<Point> {
    let noted = visit.gap.as_ref();
    let noted = noted.map(|(low, high)| (low.value, high.value));
    let taken = job.accepted.as_ref().map(|taken| {
        let gap = match visit.figure {
            Figure::Least => taken.value.least,
            Figure::Mean => taken.value.mean,
        };
        (gap.low, gap.high)
    });
    let (low, high) = noted.or(taken)?;
    Some(Point {
        hours: visit.hours.value,
        low,
        high,
    })
}

/// Two opposite gaps add up to twice their mean, whatever the centre; of the least nothing like it
/// is true.
fn limit(job: &Job, figure: Figure) -> Option<f64> {
    let limits = &job.limits.as_ref()?.value;
    let greatest = limits.greatest.as_ref()?.value;
    match (limits.measure, figure) {
        (Measure::Radial, _) => Some(greatest),
        (Measure::Diametral, Figure::Mean) => Some(0.5 * greatest),
        (Measure::Diametral, Figure::Least) => None,
    }
}

fn trend(wear: &Wear) -> Option<Trend> {
    let begins = wear.begins();
    let pair = |point: &Point| Pair {
        run: point.hours - begins,
        low: point.low,
        high: point.high,
    };
    let pairs: Vec<Pair> = wear.points.iter().map(pair).collect();
    let (line, assumed) = match line(&pairs, Spread::Free) {
        Ok(line) => (line, false),
        Err(Error::ScatterCollapses { .. }) => (line(&pairs, Spread::Fixed(REPEATS)).ok()?, true),
        Err(_) => return None,
    };
    let limit = wear.limit;
    let crossing = limit.and_then(|limit| line.crossing(limit, REQUIRED, Meant::Gap).ok());
    Some(Trend {
        line,
        assumed,
        crossing,
    })
}
