//! Shares, the greatest first, as bars that begin at one line.

use maud::{Markup, html};

use crate::plane::real;
use crate::{Path, Point, Scale, px};

/// Shares of one whole, one a row.
#[derive(Clone, Debug, PartialEq)]
pub struct RankChart {
    /// What the chart shows, in words.
    pub title: String,
    /// What a half is called: `50`.
    pub half: String,
    /// The rows, in order.
    pub rows: Vec<Rank>,
}

/// One share.
#[derive(Clone, Debug, PartialEq)]
pub struct Rank {
    /// Whose it is.
    pub label: String,
    /// What else is known of it; may be empty.
    pub note: String,
    /// The share, from 0 to 1.
    pub share: f64,
    /// The same as it is written: `34`.
    pub text: String,
    /// It stands out.
    pub first: bool,
}

/// A phone held upright.
const WIDTH: f64 = 340.0;
const LEFT: f64 = 4.0;
/// Room for the number behind the longest bar.
const NUMBER: f64 = 44.0;
const TOP: f64 = 4.0;
const ROW: f64 = 38.0;
const THICK: f64 = 13.0;
/// The shortest bar that can be seen.
const SHORTEST: f64 = 1.5;

/// Draws the shares: a name with its note, under it a bar from the line at the left, the number behind it; a
/// hairline marks a half.
/// The bar of a row that stands out is filled, the others are outlined. What is no share is left out, and the
/// description says so.
pub fn ranks(chart: &RankChart) -> Markup {
    let scale = Scale {
        values: (0.0, 1.0),
        places: (LEFT, WIDTH - NUMBER),
    };
    let bottom = TOP + real(chart.rows.len()) * ROW;
    let view = format!("0 0 {WIDTH} {}", bottom + 17.0);
    let line = |x: f64| {
        let (top, bottom) = (Point { x, y: TOP }, Point { x, y: bottom });
        Path::new().to(top).to(bottom)
    };
    html! {
        svg class="drawing ranks" viewBox=(view) role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart)) }
            path class="stroke-line hair" d=(line(scale.place(0.5)).d()) {}
            text class="label middle text-soft" x=[px(scale.place(0.5))] y=[px(bottom + 13.0)] { (chart.half) }
            path class="stroke-ink fine" d=(line(LEFT).d()) {}
            @for (index, row) in chart.rows.iter().enumerate() {
                (rank(&scale, row, TOP + real(index) * ROW))
            }
        }
    }
}

fn known(row: &Rank) -> bool {
    (0.0..=1.0).contains(&row.share)
}

fn rank(scale: &Scale, row: &Rank, top: f64) -> Markup {
    let y = top + 20.0;
    let to = scale.place(row.share).max(LEFT + SHORTEST);
    let class = if row.first {
        "fill-ink"
    } else {
        "shade-2 stroke-ink fine"
    };
    html! {
        text class="label start text-ink halo" x=[px(LEFT + 6.0)] y=[px(top + 14.0)] {
            @if row.first { tspan class="strong" { (row.label) } } @else { (row.label) }
            @if !row.note.is_empty() { tspan class="text-soft" { " · " (row.note) } }
        }
        @if known(row) {
            rect class=(class) x=[px(LEFT)] y=[px(y)] width=[px(to - LEFT)] height=[px(THICK)] {}
            text class="figure start text-ink halo" x=[px(to + 6.0)] y=[px(y + THICK - 1.5)] { (row.text) }
        }
    }
}

/// The chart in words.
fn describe(chart: &RankChart) -> String {
    let row = |row: &Rank| {
        let text = if known(row) { &row.text } else { "not known" };
        format!("{}: {text}", row.label)
    };
    let rows: Vec<String> = chart.rows.iter().map(row).collect();
    format!("{}.", rows.join("; "))
}
