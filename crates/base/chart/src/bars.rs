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
    /// Until when it may slip, where something bounds that.
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
/// The shortest bar that can be seen.
const SHORTEST: f64 = 3.0;

/// Draws the plan: a name and under it a bar for the work, a thin line as far as it may slip, a
/// light bar for the cure. What lies outside the range is cut off at its edge.
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
            rect class="tint-warn" x=[px(to)] y=[px(y)] width=[px(cures - to)] height=[px(THICK)] {}
        }
        @if let Some(slips) = row.slips.map(place).filter(|end| *end > to) {
            path class="stroke-soft bold dots" d=(Path::new().to(Point { x: to, y: middle }).to(Point { x: slips, y: middle }).d()) {}
        }
        rect class=(class) x=[px(from)] y=[px(y)] width=[px(to - from)] height=[px(THICK)] {}
    }
}
