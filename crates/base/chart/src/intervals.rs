//! Intervals side by side, against limits.

use maud::{Markup, html};

/// Lengths in intervals, by category, against limits; all in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct IntervalChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Axis title with its unit: `gap, thou`.
    pub axis: String,
    /// Decimals of the numbers on the axis and in the description.
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

/// Draws the chart.
pub fn intervals(chart: &IntervalChart) -> Markup {
    html! {
        svg class="drawing chart" viewBox="0 0 340 220" role="img" aria-label=(chart.title) {
            title { (chart.title) }
        }
    }
}
