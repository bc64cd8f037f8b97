//! A plan as bars over time.

use maud::{Markup, html};

use crate::plane::real;
use crate::{Path, Point, Scale, px};

/// Steps over time, one a row. Times are in any one unit; the ticks say which.
#[derive(Clone, Debug, PartialEq)]
pub struct BarPlan {
    /// What the plan shows, in words.
    pub title: String,
    /// The first and the last time drawn.
    pub range: (f64, f64),
    /// Where the axis is marked, and with what.
    pub ticks: Vec<(f64, String)>,
    /// A line across all rows: now.
    pub now: f64,
    /// When nobody is there, from and to.
    pub away: Vec<(f64, f64)>,
    /// The steps, in order.
    pub rows: Vec<Bar>,
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Its name.
    pub label: String,
    /// From when to when it is worked on.
    pub work: (f64, f64),
    /// Until when it must be over, where something bounds that.
    pub slips: Option<f64>,
    /// Until when something cures after it.
    pub cures: Option<f64>,
    /// It is being worked on.
    pub running: bool,
}

/// A phone held upright.
const WIDTH: f64 = 340.0;
const LEFT: f64 = 8.0;
const TOP: f64 = 26.0;
const ROW: f64 = 34.0;
const THICK: f64 = 11.0;
/// From one stroke of a hatching to the next.
const STROKES: f64 = 5.0;
/// The shortest bar that can be seen.
const SHORTEST: f64 = 3.0;

/// Draws the plan: a name and under it a bar for the work, a line with an end mark as far as it may
/// slip, a hatched bar for the cure. Where nobody is there the paper is darker and the row's base
/// line broken. What lies outside the range is cut off at its edge.
pub fn bars(plan: &BarPlan) -> Markup {
    let scale = Scale {
        values: plan.range,
        places: (LEFT, WIDTH - LEFT),
    };
    let bottom = TOP + real(plan.rows.len()) * ROW + 4.0;
    let view = format!("0 0 {WIDTH} {}", bottom + 4.0);
    let down = |x: f64| {
        let (top, bottom) = (Point { x, y: TOP - 6.0 }, Point { x, y: bottom });
        Path::new().to(top).to(bottom)
    };
    html! {
        svg class="drawing bars" viewBox=(view) role="img" aria-label=(plan.title) {
            title { (plan.title) }
            @for (from, to) in &plan.away {
                (gone(&scale, (*from, *to), bottom))
            }
            @for (time, label) in &plan.ticks {
                path class="stroke-line hair" d=(down(scale.place(*time)).d()) {}
                text class="label middle text-soft" x=[px(scale.place(*time))] y="14" { (label) }
            }
            path class="stroke-accent bold" d=(down(scale.place(plan.now)).d()) {}
            @for (index, row) in plan.rows.iter().enumerate() {
                (bar(&scale, row, TOP + real(index) * ROW))
            }
        }
    }
}

/// The outline of a cure with strokes across it, so that it is told from work without colour.
fn hatch((from, to): (f64, f64), y: f64) -> Path {
    let (top, bottom) = (y + 0.6, y + THICK - 0.6);
    let tall = bottom - top;
    let corner = |x, y| Point { x, y };
    let mut path = Path::new().to(corner(from, top)).to(corner(to, top));
    path = path.to(corner(to, bottom)).to(corner(from, bottom));
    let mut foot = from - tall + STROKES;
    while foot < to {
        // Up to the right, cut off at either end.
        let low = foot.max(from);
        let high = (foot + tall).min(to);
        let start = corner(low, bottom - (low - foot));
        path = path
            .lift()
            .to(start)
            .to(corner(high, bottom - (high - foot)));
        foot += STROKES;
    }
    path
}

/// A stretch of time when nobody is there.
fn gone(scale: &Scale, (from, to): (f64, f64), bottom: f64) -> Markup {
    let (low, high) = scale.values;
    let place = |time: f64| scale.place(time.clamp(low, high)); // drawn to the edge, told in words
    let (from, to) = (place(from), place(to));
    html! {
        @if to - from > 0.5 {
            rect class="shade-2 away" x=[px(from)] y=[px(TOP - 6.0)] width=[px(to - from)] height=[px(bottom - TOP + 6.0)] {}
        }
    }
}

fn bar(scale: &Scale, row: &Bar, top: f64) -> Markup {
    let (low, high) = scale.values;
    let place = |time: f64| scale.place(time.clamp(low, high)); // drawn to the edge, told in words
    let (from, to) = (place(row.work.0), place(row.work.1));
    let from = from.min(scale.places.1 - SHORTEST);
    let to = to.max(from + SHORTEST);
    let y = top + 17.0;
    let middle = y + THICK / 2.0;
    let class = if row.running {
        "fill-accent"
    } else {
        "fill-ink"
    };
    html! {
        text class="label start text-ink halo" x=[px(LEFT + 4.0)] y=[px(top + 12.0)] { (row.label) }
        @if let Some(cures) = row.cures.map(place).filter(|end| *end > to) {
            path class="stroke-soft fine cure" d=(hatch((to, cures), y).d()) {}
        }
        @if let Some(slips) = row.slips.map(place).filter(|end| *end > to) {
            path class="stroke-ink" d=(Path::new().to(Point { x: to, y: middle }).to(Point { x: slips, y: middle }).d()) {}
            path class="stroke-ink bold" d=(Path::new().to(Point { x: slips, y: y - 2.0 }).to(Point { x: slips, y: y + THICK + 2.0 }).d()) {}
        }
        rect class=(class) x=[px(from)] y=[px(y)] width=[px(to - from)] height=[px(THICK)] {}
    }
}
