//! A quantity recorded over time, with the parts of it that are spoken of.

use maud::{Markup, html};

use crate::axes::{TICKS, axes};
use crate::scale::span;
use crate::{Frame, Path, Point, Scale, num, px};

/// A recording; each axis in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct TraceChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Title of the axis along, with its unit: `minutes`.
    pub along: String,
    /// Title of the axis up, with its unit: `speed, mph`.
    pub up: String,
    /// Decimals of the numbers in the description.
    pub decimals: u32,
    /// Unbroken stretches of `(time, value)`, earliest first.
    pub stretches: Vec<Vec<(f64, f64)>>,
    /// The parts that are spoken of, earliest first.
    pub parts: Vec<Part>,
}

/// A part of a recording.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// From when.
    pub from: f64,
    /// Until when.
    pub until: f64,
    /// A letter or two that name it.
    pub mark: String,
    /// It counts; what does not has broken edges and no tint.
    pub counts: bool,
    /// What it says, in words.
    pub words: String,
}

/// A phone held upright.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 230.0;
/// Room above the field for the marks.
const MARKS: f64 = 16.0;
/// Marks nearer than this share no line.
const APART: f64 = 15.0;

/// Draws the recording as a line, the parts that count tinted between whole edges, the others between
/// broken ones, each with its mark above.
///
/// Where many values share a column of the picture, the column runs from the least to the greatest, so
/// that no peak is lost. A number that is not finite is left out.
pub fn trace(chart: &TraceChart) -> Markup {
    let sheet = Sheet::new(chart);
    let view = format!("0 0 {WIDTH} {HEIGHT}");
    html! {
        svg class="drawing chart strip" viewBox=(view) width=[px(WIDTH)] height=[px(HEIGHT)] role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart)) }
            (sheet.tints())
            (axes(sheet.frame, (&sheet.along, &chart.along), (&sheet.up, &chart.up)))
            (sheet.edges())
            path class="stroke-ink bold" d=(sheet.line().d()) {}
            (sheet.marks())
        }
    }
}

struct Sheet<'a> {
    chart: &'a TraceChart,
    frame: Frame,
    along: Scale,
    up: Scale,
}

impl<'a> Sheet<'a> {
    fn new(chart: &'a TraceChart) -> Self {
        let frame = Frame {
            left: 40.0,
            top: 34.0 + MARKS,
            right: WIDTH - 14.0,
            bottom: HEIGHT - 42.0,
        };
        let samples = || chart.stretches.iter().flatten();
        let times = span(samples().map(|(time, _)| *time)).unwrap_or((0.0, 0.0));
        let values = samples().map(|(_, value)| *value).chain([0.0]);
        Self {
            chart,
            frame,
            along: Scale {
                values: times,
                places: (frame.left, frame.right),
            },
            up: Scale {
                values: span(values).unwrap_or((0.0, 0.0)),
                places: (frame.bottom, frame.top),
            }
            .nice(TICKS),
        }
    }

    /// Place along, kept on the field: a part may reach beyond what was recorded.
    fn along(&self, time: f64) -> f64 {
        let place = self.along.place(time);
        place.max(self.frame.left).min(self.frame.right)
    }

    fn parts(&self) -> impl Iterator<Item = (&Part, f64, f64)> {
        let parts = self.chart.parts.iter();
        let finite = parts.filter(|part| part.from.is_finite() && part.until.is_finite());
        finite.map(|part| (part, self.along(part.from), self.along(part.until)))
    }

    fn tints(&self) -> Markup {
        let Frame { top, bottom, .. } = self.frame;
        html! {
            @for (_, from, until) in self.parts().filter(|(part, ..)| part.counts) {
                rect class="tint-steel" x=[px(from)] y=[px(top)] width=[px((until - from).max(0.5))] height=[px(bottom - top)] {}
            }
        }
    }

    fn edges(&self) -> Markup {
        let Frame { top, bottom, .. } = self.frame;
        let edge = |x: f64| {
            let end = |y| Point { x, y };
            Path::new().to(end(top)).to(end(bottom))
        };
        html! {
            @for (part, from, until) in self.parts() {
                @let class = if part.counts { "stroke-ink fine" } else { "stroke-soft fine dash-short" };
                path class=(class) d=(edge(from).d()) {}
                path class=(class) d=(edge(until).d()) {}
            }
        }
    }

    /// Marks above the field, on two lines where they stand close.
    fn marks(&self) -> Markup {
        let mut placed: [f64; 2] = [f64::NEG_INFINITY; 2];
        let mut marks = Vec::new();
        for (part, from, until) in self.parts() {
            let x = f64::midpoint(from, until);
            let line = usize::from(x - placed[0] < APART);
            if x - placed[line] < APART {
                continue;
            }
            placed[line] = x;
            let y = self.frame.top - if line == 0 { 5.0 } else { 5.0 + MARKS };
            marks.push((x, y, part));
        }
        html! {
            @for (x, y, part) in marks {
                @let class = if part.counts { "label middle strong text-ink halo" } else { "label middle text-soft halo" };
                text class=(class) x=[px(x)] y=[px(y)] { (part.mark) }
            }
        }
    }

    /// The line: every value where there is room, else least and greatest of each column.
    fn line(&self) -> Path {
        let mut path = Path::new();
        for stretch in &self.chart.stretches {
            path = path.lift();
            let finite = stretch
                .iter()
                .filter(|(t, v)| t.is_finite() && v.is_finite());
            let places = finite.map(|(time, value)| (self.along(*time), self.up.place(*value)));
            let mut column: Vec<(f64, f64)> = Vec::new();
            for (x, y) in places {
                if column.first().is_some_and(|(first, _)| x - first >= 1.0) {
                    path = path.through(thinned(&column));
                    column.clear();
                }
                column.push((x, y));
            }
            path = path.through(thinned(&column));
        }
        path
    }
}

/// First, least, greatest and last of a column, in their order.
fn thinned(column: &[(f64, f64)]) -> impl DoubleEndedIterator<Item = Point> + Clone + use<> {
    let by = |a: &&(f64, f64), b: &&(f64, f64)| a.1.total_cmp(&b.1);
    let kept = [
        column.first(),
        column.iter().min_by(by),
        column.iter().max_by(by),
        column.last(),
    ];
    let mut kept: Vec<(f64, f64)> = kept.into_iter().flatten().copied().collect();
    kept.sort_by(|a, b| a.0.total_cmp(&b.0));
    kept.dedup();
    kept.into_iter().map(|(x, y)| Point { x, y })
}

/// The whole chart in words, for those who do not see it.
fn describe(chart: &TraceChart) -> String {
    let number = |value| num(value, chart.decimals).unwrap_or_else(|| "not a number".to_owned());
    let samples = || chart.stretches.iter().flatten();
    let times = span(samples().map(|(time, _)| *time));
    let most = samples().map(|(_, value)| *value);
    let most = most
        .filter(|value| value.is_finite())
        .fold(f64::NEG_INFINITY, f64::max);
    let axes = match times {
        Some((from, until)) => format!(
            "{} over {} to {} {}, at most {}.",
            chart.up,
            number(from),
            number(until),
            chart.along,
            number(most)
        ),
        None => format!("{} over {}: nothing recorded.", chart.up, chart.along),
    };
    let part = |part: &Part| {
        let (from, until) = (number(part.from), number(part.until));
        format!("{}, {from} to {until}: {}.", part.mark, part.words)
    };
    let said = std::iter::once(axes).chain(chart.parts.iter().map(part));
    said.collect::<Vec<_>>().join(" ")
}
