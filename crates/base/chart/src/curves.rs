//! Curves over one axis, each with its band and its own stroke.

use maud::{Markup, html};

use crate::axes::{TICKS, axes};
use crate::scale::span;
use crate::trend::Foreseen;
use crate::{Frame, Path, Point, Scale, num, px};

/// Curves; each axis in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct CurveChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Title of the axis along, with its unit: `speed, mph`.
    pub along: String,
    /// Title of the axis up, with its unit: `thrust, N`.
    pub up: String,
    /// Decimals of the numbers in the description.
    pub decimals: u32,
    /// The curves, at most three.
    pub curves: Vec<Curve>,
}

/// One curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Its name, written beside it.
    pub name: String,
    /// Its points from left to right, with the band.
    pub points: Vec<Foreseen>,
}

const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 260.0;
/// The strokes that tell curves apart, in order.
const STROKES: [&str; 3] = [
    "stroke-ink bold",
    "stroke-ink bold dash-short",
    "stroke-ink bold dash-long",
];
/// Where along a curve its name stands.
const NAMED_AT: [f64; 3] = [0.12, 0.42, 0.62];

/// Draws the chart: each curve with its own stroke and its name beside it, its band tinted.
///
/// A point that is not finite is left out and the description says so.
pub fn curves(chart: &CurveChart) -> Markup {
    let frame = Frame {
        left: 52.0,
        top: 34.0,
        right: WIDTH - 16.0,
        bottom: HEIGHT - 44.0,
    };
    let points = || chart.curves.iter().flat_map(finite);
    let scale = |values: Option<(f64, f64)>, places| Scale {
        values: values.unwrap_or((0.0, 1.0)),
        places,
    };
    let along = span(points().map(|p| p.at));
    let up = span(points().flat_map(|p| [p.low, p.high]).chain([0.0]));
    let along = scale(along, (frame.left, frame.right)).nice(TICKS);
    let up = scale(up, (frame.bottom, frame.top)).nice(TICKS);
    let at = |x: f64, y: f64| Point {
        x: along.place(x),
        y: up.place(y),
    };
    let view = format!("0 0 {WIDTH} {HEIGHT}");
    html! {
        svg class="drawing chart strip" viewBox=(view) width=[px(WIDTH)] height=[px(HEIGHT)] role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart)) }
            (axes(frame, (&along, &chart.along), (&up, &chart.up)))
            @for curve in &chart.curves {
                @let line: Vec<&Foreseen> = finite(curve).collect();
                @let low = line.iter().map(|p| at(p.at, p.low));
                @let high = line.iter().map(|p| at(p.at, p.high));
                path class="tint-steel" d=(Path::new().through(low).through(high.rev()).close().d()) {}
            }
            @for (place, curve) in chart.curves.iter().enumerate().take(STROKES.len()) {
                @let line: Vec<&Foreseen> = finite(curve).collect();
                path class=(STROKES[place]) d=(Path::new().through(line.iter().map(|p| at(p.at, p.middle))).d()) {}
                @if let Some(named) = named(&line, place) {
                    @let point = at(named.at, named.high);
                    text class="label start strong text-ink halo" x=[px(point.x + 4.0)] y=[px(point.y - 6.0)] { (curve.name) }
                }
            }
        }
    }
}

fn finite(curve: &Curve) -> impl Iterator<Item = &Foreseen> {
    curve.points.iter().filter(|p| {
        [p.at, p.low, p.middle, p.high]
            .iter()
            .all(|v| v.is_finite())
    })
}

/// The point a name stands at.
fn named<'a>(line: &[&'a Foreseen], place: usize) -> Option<&'a Foreseen> {
    let (first, last) = (line.first()?, line.last()?);
    let wanted = first.at + NAMED_AT[place] * (last.at - first.at);
    line.iter().find(|p| p.at >= wanted).copied()
}

/// The whole chart in words, for those who do not see it.
fn describe(chart: &CurveChart) -> String {
    let number = |value| num(value, chart.decimals).unwrap_or_else(|| "not a number".to_owned());
    let mut said = vec![format!("{} over {}.", chart.up, chart.along)];
    for curve in &chart.curves {
        let line: Vec<&Foreseen> = finite(curve).collect();
        let left_out = curve.points.len() - line.len();
        let told = [line.first(), line.get(line.len() / 2), line.last()];
        let told = told.into_iter().flatten().map(|p| {
            let (middle, low, high) = (number(p.middle), number(p.low), number(p.high));
            format!(
                "{middle} ({low} to {high}) at {}",
                num(p.at, 0).unwrap_or_default()
            )
        });
        said.push(format!(
            "{}: {}.",
            curve.name,
            told.collect::<Vec<_>>().join(", ")
        ));
        match left_out {
            0 => {}
            1 => said.push("A point is no number.".to_owned()),
            many => said.push(format!("{many} points are no numbers.")),
        }
    }
    said.join(" ")
}
