//! Intervals side by side, against limits.

use maud::{Markup, html};

use crate::plane::real;
use crate::scale::span;
use crate::{Frame, Path, Point, Scale, num, px};

/// Lengths in intervals, by category, against limits; all in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct IntervalChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Axis title with its unit: `gap, thou`.
    pub axis: String,
    /// Decimals of the limits and of the numbers in the description.
    pub decimals: u32,
    /// Not below this.
    pub least: Option<f64>,
    /// Not above this.
    pub greatest: Option<f64>,
    /// Along the x axis, in order.
    pub categories: Vec<Category>,
}

/// One place on the x axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Category {
    /// Its name: `1:30`.
    pub label: String,
    /// What was found there; empty when nothing was.
    pub intervals: Vec<Interval>,
}

/// One interval with its middle.
#[derive(Clone, Debug, PartialEq)]
pub struct Interval {
    /// The letter that marks it: `A`.
    pub label: String,
    /// Lower end.
    pub low: f64,
    /// Middle.
    pub median: f64,
    /// Upper end.
    pub high: f64,
}

impl Interval {
    fn finite(&self) -> bool {
        [self.low, self.median, self.high]
            .iter()
            .all(|end| end.is_finite())
    }
}

/// Room for one interval and its letter.
const SLOT: f64 = 14.0;
/// The narrowest column, so that names on two rows still pass each other.
const NARROW_COLUMN: f64 = 24.0;
/// Half the width of an interval's bar.
const HALF_BAR: f64 = 3.5;
/// The narrowest chart: a phone held upright.
const NARROWEST: f64 = 340.0;
const HEIGHT: f64 = 250.0;
/// Width of a letter of a category's name, on the broad side.
const LETTER: f64 = 8.0;
/// Ticks aimed at on the axis.
const TICKS: u32 = 5;

/// How a limit is drawn and named.
struct Side {
    name: &'static str,
    dash: &'static str,
    /// How far below the line its name and its number stand; the two limits never meet.
    below: (f64, f64),
}

const LEAST: Side = Side {
    name: "least",
    dash: "dash-short",
    below: (13.0, 27.0),
};
const GREATEST: Side = Side {
    name: "greatest",
    dash: "dash-long",
    below: (-18.0, -4.0),
};

/// Draws the chart: a bar from low to high with a stroke at the median and its letter on top, the
/// allowed band washed, each limit dashed and named at its end, "not read" where there is nothing.
///
/// The chart is as wide as its intervals need and says so in `width`; where that is wider than the
/// page, the box around it scrolls. A number that is not finite is left out and the description says so.
pub fn intervals(chart: &IntervalChart) -> Markup {
    let sheet = Sheet::new(chart);
    let (width, height) = (px(sheet.frame.right + sheet.margin), px(HEIGHT));
    let view = format!("0 0 {} {HEIGHT}", sheet.frame.right + sheet.margin);
    html! {
        svg class="drawing chart" viewBox=(view) width=[width] height=[height] role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart)) }
            (sheet.allowed())
            (sheet.axis())
            (sheet.limit(chart.least, &LEAST))
            (sheet.limit(chart.greatest, &GREATEST))
            @for (index, category) in chart.categories.iter().enumerate() {
                (sheet.category(index, category))
            }
        }
    }
}

/// The chart on its paper.
struct Sheet<'a> {
    chart: &'a IntervalChart,
    frame: Frame,
    scale: Scale,
    /// Right margin, wide enough for the names of the limits.
    margin: f64,
}

impl<'a> Sheet<'a> {
    fn new(chart: &'a IntervalChart) -> Self {
        let most = chart.categories.iter().map(|c| c.intervals.len()).max();
        // Half a slot stays free between neighbouring categories.
        let column = (real(most.unwrap_or(0)) + 0.5) * SLOT;
        let needed = real(chart.categories.len()) * column.max(NARROW_COLUMN);
        let margin = if chart.least.or(chart.greatest).is_some() {
            64.0
        } else {
            30.0
        };
        let left = 46.0;
        let frame = Frame {
            left,
            top: 42.0,
            right: (left + needed).max(NARROWEST - margin),
            bottom: HEIGHT - 42.0,
        };
        let scale = Scale {
            // An axis of no length has no ticks: nothing is shown that nobody measured.
            values: range(chart).unwrap_or((0.0, 0.0)),
            places: (frame.bottom, frame.top),
        };
        Self {
            chart,
            frame,
            scale: scale.nice(TICKS),
            margin,
        }
    }

    /// The band between the limits; to the edge of the field where one is missing.
    fn allowed(&self) -> Markup {
        let (least, greatest) = (finite(self.chart.least), finite(self.chart.greatest));
        if least.or(greatest).is_none() {
            return html! {};
        }
        let top = greatest.map_or(self.frame.top, |limit| self.scale.place(limit));
        let bottom = least.map_or(self.frame.bottom, |limit| self.scale.place(limit));
        html! {
            rect class="wash-good" x=[px(self.frame.left)] y=[px(top)]
                width=[px(self.frame.right - self.frame.left)] height=[px((bottom - top).max(0.0))] {}
        }
    }

    /// A line across the field.
    fn across(&self, y: f64) -> Path {
        let end = |x| Point { x, y };
        Path::new()
            .to(end(self.frame.left))
            .to(end(self.frame.right))
    }

    fn axis(&self) -> Markup {
        let decimals = self.scale.decimals(TICKS);
        html! {
            text class="label start strong text-ink" x="6" y="16" { (self.chart.axis) }
            @for tick in self.scale.ticks(TICKS) {
                path class="stroke-line hair" d=(self.across(self.scale.place(tick)).d()) {}
                @if let Some(number) = num(tick, decimals) {
                    text class="label end text-soft" x=[px(self.frame.left - 7.0)] y=[px(self.scale.place(tick) + 4.5)] { (number) }
                }
            }
            path class="stroke-ink fine" d=(self.across(self.frame.bottom).d()) {}
        }
    }

    /// A limit with its name and number at its end.
    fn limit(&self, limit: Option<f64>, side: &Side) -> Markup {
        let Some(limit) = finite(limit) else {
            return html! {};
        };
        let x = self.frame.right + 5.0;
        let y = self.scale.place(limit);
        html! {
            path class={ "stroke-ink bold " (side.dash) } d=(self.across(y).d()) {}
            text class="label start text-ink" x=[px(x)] y=[px(y + side.below.0)] { (side.name) }
            @if let Some(number) = num(limit, self.chart.decimals) {
                text class="label start strong text-ink" x=[px(x)] y=[px(y + side.below.1)] { (number) }
            }
        }
    }

    fn category(&self, index: usize, category: &Category) -> Markup {
        let count = self.chart.categories.len();
        let x = self.frame.column(index, count);
        let longest = self
            .chart
            .categories
            .iter()
            .map(|c| c.label.chars().count());
        // Names too long for their column stand on two rows in turn.
        let wide = longest.max().map_or(0.0, real) * LETTER;
        let one_row = wide < self.frame.column_width(count) || index.is_multiple_of(2);
        let row = if one_row { 17.0 } else { 34.0 };
        let slots = category.intervals.len();
        let half = real(slots) * SLOT / 2.0;
        let inner = Frame {
            left: x - half,
            right: x + half,
            ..self.frame
        };
        let drawn = category.intervals.iter().any(Interval::finite);
        html! {
            text class="label middle text-ink" x=[px(x)] y=[px(self.frame.bottom + row)] { (category.label) }
            @for (slot, interval) in category.intervals.iter().enumerate() {
                (self.interval(inner.column(slot, slots), interval))
            }
            @if !drawn { (self.missing(x)) }
        }
    }
    fn interval(&self, x: f64, interval: &Interval) -> Markup {
        if !interval.finite() {
            return html! {};
        }
        let (low, high) = (
            self.scale.place(interval.low),
            self.scale.place(interval.high),
        );
        let median = self.scale.place(interval.median);
        let stroke = Path::new()
            .to(Point {
                x: x - HALF_BAR - 2.0,
                y: median,
            })
            .to(Point {
                x: x + HALF_BAR + 2.0,
                y: median,
            });
        // The letter goes under the bar when a limit runs where it would stand.
        let limits = [self.chart.least, self.chart.greatest].map(finite);
        let struck = limits
            .into_iter()
            .flatten()
            .any(|limit| (high - 15.0..high - 2.0).contains(&self.scale.place(limit)));
        let letter = if struck { low + 13.0 } else { high - 4.0 };
        html! {
            rect class="fill-steel stroke-ink fine" x=[px(x - HALF_BAR)] y=[px(high)]
                width=[px(2.0 * HALF_BAR)] height=[px((low - high).max(0.0))] {}
            path class="stroke-ink heavy" d=(stroke.d()) {}
            text class="mark middle text-ink" x=[px(x)] y=[px(letter)] { (interval.label) }
        }
    }

    /// An open gap where there is nothing to draw.
    fn missing(&self, x: f64) -> Markup {
        let y = f64::midpoint(self.frame.top, self.frame.bottom);
        let (Some(at_x), Some(at_y)) = (px(x + 4.5), px(y)) else {
            return html! {};
        };
        let gap = Path::new()
            .to(Point {
                x,
                y: self.frame.top,
            })
            .to(Point { x, y: y - 34.0 })
            .lift()
            .to(Point { x, y: y + 34.0 })
            .to(Point {
                x,
                y: self.frame.bottom,
            });
        html! {
            path class="stroke-soft fine dots" d=(gap.d()) {}
            text class="label middle halo text-soft" x=(at_x) y=(at_y) transform=(format!("rotate(-90 {at_x} {at_y})")) { "not read" }
        }
    }
}

fn finite(value: Option<f64>) -> Option<f64> {
    value.filter(|value| value.is_finite())
}

/// The span of all that is drawn, if anything is.
fn range(chart: &IntervalChart) -> Option<(f64, f64)> {
    let drawn = chart.categories.iter().flat_map(|c| &c.intervals);
    let ends = drawn
        .filter(|interval| interval.finite())
        .flat_map(|interval| [interval.low, interval.median, interval.high]);
    let limits = [chart.least, chart.greatest];
    span(ends.chain(limits.into_iter().flatten()))
}

/// The whole chart in words, for those who do not see it.
fn describe(chart: &IntervalChart) -> String {
    let number = |value| num(value, chart.decimals).unwrap_or_else(|| "not a number".to_owned());
    let limit =
        |name: &str, limit: Option<f64>| limit.map(|limit| format!("{name} {}.", number(limit)));
    let found = |interval: &Interval| {
        let letter = &interval.label;
        if interval.finite() {
            let (low, high) = (number(interval.low), number(interval.high));
            format!("{letter} {}, {low} to {high}", number(interval.median))
        } else {
            format!("{letter} left out, not a number")
        }
    };
    let category = |category: &Category| {
        let found: Vec<String> = category.intervals.iter().map(found).collect();
        let found = if found.is_empty() {
            "not read".to_owned()
        } else {
            found.join("; ")
        };
        format!("{}: {found}.", category.label)
    };
    let said = [format!("{}.", chart.axis)]
        .into_iter()
        .chain(chart.categories.iter().map(category))
        .chain(limit("Least", chart.least))
        .chain(limit("Greatest", chart.greatest));
    said.collect::<Vec<_>>().join(" ")
}
