//! A table of one quantity, shaded: where it is small and where it is large shows at a glance.

use maud::{Markup, html};

use crate::plane::real;
use crate::{num, px};

/// One quantity by row and column, such as the gap by blade and clock position, in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// What it shows, in words.
    pub title: String,
    /// The quantity with its unit: `gap, thou`.
    pub quantity: String,
    /// Decimals of the numbers.
    pub decimals: u32,
    /// Names along the strip, in order.
    pub columns: Vec<String>,
    /// One row each, with a cell for every column.
    pub rows: Vec<StripRow>,
}

/// One row of a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct StripRow {
    /// Its name: `A`.
    pub label: String,
    /// What is known, column by column.
    pub cells: Vec<Option<StripCell>>,
}

/// One cell of a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct StripCell {
    /// The number.
    pub value: f64,
    /// How it stands, as a sign: `✕`; empty when there is nothing to say.
    pub sign: &'static str,
}

/// Shades, from the smallest value to the largest. The smallest is the heaviest: metal is near.
const SHADES: [&str; 5] = ["shade-5", "shade-4", "shade-3", "shade-2", "shade-1"];
const CELL: (f64, f64) = (42.0, 34.0);
/// Width of a step of the key.
const KEY: f64 = 60.0;
const LEFT: f64 = 24.0;
const TOP: f64 = 44.0;

/// Draws the strip: a cell a value with its number and sign, five shades between the least and the
/// greatest value, and the key to the shades under it. What is not known is left open with a dash.
pub fn strip(strip: &Strip) -> Markup {
    let values = || {
        let cells = strip.rows.iter().flat_map(|row| &row.cells).flatten();
        cells
            .map(|cell| cell.value)
            .filter(|value| value.is_finite())
    };
    let low = values().fold(f64::INFINITY, f64::min);
    let high = values().fold(f64::NEG_INFINITY, f64::max);
    let step = (high - low) / real(SHADES.len());
    let width = (LEFT + real(strip.columns.len()) * CELL.0 + 2.0).max(340.0);
    let under = TOP + real(strip.rows.len()) * CELL.1;
    let height = under + 40.0;
    let number = |value| num(value, strip.decimals).unwrap_or_default();
    html! {
        svg class="drawing chart strip" viewBox=(format!("0 0 {width} {height}")) width=[px(width)] height=[px(height)] role="img" aria-label=(strip.title) {
            title { (strip.title) }
            desc { (describe(strip)) }
            text class="label start strong text-ink" x="6" y="16" { (strip.quantity) }
            @for (column, name) in strip.columns.iter().enumerate() {
                text class="label middle text-ink" x=[px(LEFT + (real(column) + 0.5) * CELL.0)] y=[px(TOP - 8.0)] { (name) }
            }
            @for (row, line) in strip.rows.iter().enumerate() {
                @let y = TOP + real(row) * CELL.1;
                text class="label middle strong text-ink" x=[px(LEFT / 2.0)] y=[px(y + CELL.1 / 2.0 + 4.5)] { (line.label) }
                @for (column, cell) in line.cells.iter().enumerate() {
                    @let x = LEFT + real(column) * CELL.0;
                    @let known = cell.as_ref().filter(|cell| cell.value.is_finite());
                    @let words = known.map(|cell| words(cell, strip.decimals));
                    @let shade = known.map_or("", |cell| shade(cell.value, low, step));
                    (one((x, y), shade, words.as_deref()))
                }
            }
            @if low <= high {
                @for (place, shade) in SHADES.iter().enumerate() {
                    @let x = LEFT + real(place) * KEY;
                    rect class={ (shade) " stroke-line hair" } x=[px(x)] y=[px(under + 8.0)] width=[px(KEY)] height=[px(9.0)] {}
                    text class="label start text-soft" x=[px(x)] y=[px(under + 32.0)] { (number(low + real(place) * step)) }
                }
            }
        }
    }
}

/// A cell at its place: its shade, its words, and whether anything is known there.
fn one((x, y): (f64, f64), shade: &str, words: Option<&str>) -> Markup {
    let ink = if words.is_some() {
        "text-ink"
    } else {
        "text-soft"
    };
    html! {
        rect class={ (shade) " stroke-line hair" } x=[px(x)] y=[px(y)] width=[px(CELL.0)] height=[px(CELL.1)] {}
        text class={ "figure middle " (ink) } x=[px(x + CELL.0 / 2.0)] y=[px(y + CELL.1 / 2.0 + 4.5)] {
            (words.unwrap_or("–"))
        }
    }
}

/// `13.2 ✕`
fn words(cell: &StripCell, decimals: u32) -> String {
    let number = num(cell.value, decimals).unwrap_or_default();
    match cell.sign {
        "" => number,
        sign => format!("{number}\u{2009}{sign}"),
    }
}

/// The shade of a value; where all are the same, the lightest.
fn shade(value: f64, low: f64, step: f64) -> &'static str {
    let above = SHADES.iter().enumerate().rev();
    let mut reached = above.filter(|(place, _)| value >= low + real(*place) * step);
    reached.next().map_or(SHADES[0], |(_, shade)| shade)
}

/// The strip in words, row by row.
fn describe(strip: &Strip) -> String {
    let cell = |(name, cell): (&String, &Option<StripCell>)| match cell {
        Some(cell) if cell.value.is_finite() => {
            let number = num(cell.value, strip.decimals).unwrap_or_default();
            format!("{name} {number}")
        }
        _ => format!("{name} not known"),
    };
    let row = |row: &StripRow| {
        let cells: Vec<String> = strip.columns.iter().zip(&row.cells).map(cell).collect();
        format!("{}: {}.", row.label, cells.join(", "))
    };
    let rows: Vec<String> = strip.rows.iter().map(row).collect();
    format!("{}. {}", strip.quantity, rows.join(" "))
}
