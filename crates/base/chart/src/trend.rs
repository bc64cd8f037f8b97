//! Readings over time, the line through them with its band, and the limit they grow towards.

use maud::{Markup, html};

use crate::axes::{TICKS, axes};
use crate::scale::span;
use crate::{Frame, Path, Point, Scale, num, px};

/// Readings over time; each axis in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct TrendChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Title of the axis along, with its unit: `engine hours`.
    pub along: String,
    /// Title of the axis up, with its unit: `mean gap, thou`.
    pub up: String,
    /// Decimals of the numbers in the description.
    pub decimals: u32,
    /// The readings, earliest first.
    pub readings: Vec<Reading>,
    /// The line with its band, from left to right; empty where none is drawn.
    pub line: Vec<Foreseen>,
    /// Not above this.
    pub greatest: Option<f64>,
}

/// One reading: an interval at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// When.
    pub at: f64,
    /// Lower end.
    pub low: f64,
    /// Upper end; equal to the lower one for a plain reading.
    pub high: f64,
}

/// The line at a time, with its band.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foreseen {
    /// When.
    pub at: f64,
    /// Lower edge of the band.
    pub low: f64,
    /// The line.
    pub middle: f64,
    /// Upper edge of the band.
    pub high: f64,
}

/// A phone held upright.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 250.0;
/// Half the width of the stroke at the end of a reading.
const HALF_END: f64 = 5.0;

/// Draws the chart: each reading an upright stroke with ends, the line whole as far as it was read
/// and broken beyond, its band tinted between dotted edges, the limit dashed and named.
///
/// A number that is not finite is left out and the description says so.
pub fn trend(chart: &TrendChart) -> Markup {
    let sheet = Sheet::new(chart);
    let view = format!("0 0 {WIDTH} {HEIGHT}");
    html! {
        svg class="drawing chart" viewBox=(view) width=[px(WIDTH)] height=[px(HEIGHT)] role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart)) }
            (sheet.axes())
            (sheet.band())
            (sheet.limit())
            (sheet.line())
            @for reading in &chart.readings { (sheet.reading(reading)) }
        }
    }
}

/// The chart on its paper.
struct Sheet<'a> {
    chart: &'a TrendChart,
    frame: Frame,
    along: Scale,
    up: Scale,
}

impl<'a> Sheet<'a> {
    fn new(chart: &'a TrendChart) -> Self {
        let frame = Frame {
            left: 46.0,
            top: 34.0,
            right: WIDTH - 16.0,
            bottom: HEIGHT - 44.0,
        };
        let times = chart.readings.iter().map(|reading| reading.at);
        let times = times.chain(chart.line.iter().map(|point| point.at));
        let gaps = chart.readings.iter().flat_map(|r| [r.low, r.high]);
        let gaps = gaps.chain(chart.line.iter().flat_map(|p| [p.low, p.high]));
        let scale = |values: Option<(f64, f64)>, places| Scale {
            values: values.unwrap_or((0.0, 0.0)),
            places,
        };
        Self {
            chart,
            frame,
            along: scale(span(times), (frame.left, frame.right)).nice(TICKS),
            up: scale(span(gaps.chain(chart.greatest)), (frame.bottom, frame.top)).nice(TICKS),
        }
    }

    fn at(&self, time: f64, gap: f64) -> Point {
        Point {
            x: self.along.place(time),
            y: self.up.place(gap),
        }
    }

    fn axes(&self) -> Markup {
        let Frame { top, bottom, .. } = self.frame;
        let down = |x: f64| {
            let end = |y| Point { x, y };
            Path::new().to(end(top)).to(end(bottom))
        };
        html! {
            @for tick in self.along.ticks(TICKS) {
                path class="stroke-line hair" d=(down(self.along.place(tick)).d()) {}
            }
            (axes(self.frame, (&self.along, &self.chart.along), (&self.up, &self.chart.up)))
        }
    }

    fn drawn(&self) -> Vec<&Foreseen> {
        let finite = |p: &&Foreseen| {
            [p.at, p.low, p.middle, p.high]
                .iter()
                .all(|v| v.is_finite())
        };
        self.chart.line.iter().filter(finite).collect()
    }

    fn band(&self) -> Markup {
        let line = self.drawn();
        let low = line.iter().map(|p| self.at(p.at, p.low));
        let high = line.iter().map(|p| self.at(p.at, p.high));
        let area = Path::new()
            .through(low.clone())
            .through(high.clone().rev())
            .close();
        html! {
            path class="tint-steel" d=(area.d()) {}
            path class="stroke-ink fine dots" d=(Path::new().through(low).lift().through(high).d()) {}
        }
    }

    /// Whole as far as the last reading, broken beyond it.
    fn line(&self) -> Markup {
        let last = self.chart.readings.iter().map(|reading| reading.at);
        let last = last.fold(f64::NEG_INFINITY, f64::max);
        let line = self.drawn();
        let (read, ahead): (Vec<&Foreseen>, Vec<&Foreseen>) =
            line.into_iter().partition(|p| p.at <= last);
        let from = read.last().copied();
        let place = |p: &Foreseen| self.at(p.at, p.middle);
        let whole = Path::new().through(read.iter().map(|p| place(p)));
        let broken = Path::new().through(from.into_iter().chain(ahead).map(place));
        html! {
            path class="stroke-ink bold" d=(whole.d()) {}
            path class="stroke-ink bold dash-short" d=(broken.d()) {}
        }
    }

    /// The limit, named above its line.
    fn limit(&self) -> Markup {
        let Some(limit) = self.chart.greatest.filter(|limit| limit.is_finite()) else {
            return html! {};
        };
        let y = self.up.place(limit);
        let end = |x| Point { x, y };
        let line = Path::new()
            .to(end(self.frame.left))
            .to(end(self.frame.right));
        let number = num(limit, self.chart.decimals).unwrap_or_default();
        html! {
            path class="stroke-ink bold dash-long" d=(line.d()) {}
            text class="label start strong text-ink halo" x=[px(self.frame.left + 6.0)] y=[px(y - 5.0)] { "greatest " (number) }
        }
    }

    /// An upright stroke with its ends; a plain reading is a cross.
    fn reading(&self, reading: &Reading) -> Markup {
        if ![reading.at, reading.low, reading.high]
            .iter()
            .all(|v| v.is_finite())
        {
            return html! {};
        }
        let (low, high) = (
            self.at(reading.at, reading.low),
            self.at(reading.at, reading.high),
        );
        let (low_y, high_y) = if low.y - high.y < 2.0 * HALF_END {
            let middle = f64::midpoint(low.y, high.y);
            (middle + HALF_END, middle - HALF_END)
        } else {
            (low.y, high.y)
        };
        let plain = reading.low.total_cmp(&reading.high).is_eq();
        let ends = if plain {
            vec![f64::midpoint(low_y, high_y)]
        } else {
            vec![low_y, high_y]
        };
        let upright = Path::new().to(Point { x: low.x, y: low_y }).to(Point {
            x: low.x,
            y: high_y,
        });
        let path = ends.into_iter().fold(upright, |path, y| {
            let end = |x| Point { x, y };
            path.lift()
                .to(end(low.x - HALF_END))
                .to(end(low.x + HALF_END))
        });
        html! { path class="stroke-ink heavy" d=(path.d()) {} }
    }
}

/// The whole chart in words, for those who do not see it.
fn describe(chart: &TrendChart) -> String {
    let number = |value| num(value, chart.decimals).unwrap_or_else(|| "not a number".to_owned());
    let time = |value| num(value, 0).unwrap_or_else(|| "not a number".to_owned());
    let reading = |r: &Reading| {
        let (low, high) = (number(r.low), number(r.high));
        format!("At {}: {low} to {high}.", time(r.at))
    };
    let ends = [chart.line.first(), chart.line.last()];
    let ends = ends.into_iter().flatten().map(|p| {
        let (middle, low, high) = (number(p.middle), number(p.low), number(p.high));
        format!("The line at {}: {middle}, {low} to {high}.", time(p.at))
    });
    let limit = chart
        .greatest
        .map(|limit| format!("Greatest {}.", number(limit)));
    let axes = format!("{} over {}.", chart.up, chart.along);
    let said = [axes]
        .into_iter()
        .chain(chart.readings.iter().map(reading))
        .chain(ends)
        .chain(limit);
    said.collect::<Vec<_>>().join(" ")
}
