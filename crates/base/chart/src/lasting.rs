//! How long parts last, and where the fitted ones stand.

use maud::{Markup, html};

use crate::axes::TICKS;
use crate::plane::real;
use crate::scale::span;
use crate::words::{BOLD, counted, fitted, room};
use crate::{Path, Point, Scale, num, px};

/// How long parts last, one a row, in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct LastingChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Title of the axis, with its unit: `engine hours since fitted`.
    pub along: String,
    /// Decimals of the ages.
    pub decimals: u32,
    /// The last age drawn, so that one part of long life leaves room for the others; none for as long
    /// as all of it takes.
    pub until: Option<f64>,
    /// The rows, in order.
    pub rows: Vec<Lasting>,
}

/// How long one part lasts.
#[derive(Clone, Debug, PartialEq)]
pub struct Lasting {
    /// Its name.
    pub label: String,
    /// What else is known of it: `half last 210 h`; may be empty.
    pub note: String,
    /// The age at which 9 of 10 are left.
    pub most: f64,
    /// The age at which half are left.
    pub half: f64,
    /// The age at which 1 of 10 is left.
    pub few: f64,
    /// Where the fitted one stands; none where none is fitted or its age is not known.
    pub now: Option<Ahead>,
}

/// The fitted one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ahead {
    /// Its age.
    pub age: f64,
    /// How much older it will be at the end of the season; none where nothing is planned.
    pub season: Option<f64>,
}

impl Ahead {
    /// Its age now, and at the end of the season: what of it is a number.
    fn ages(self) -> Option<(f64, Option<f64>)> {
        let then = self.season.map(|season| self.age + season);
        let ahead = then.filter(|then| then.is_finite() && *then >= self.age);
        self.age.is_finite().then_some((self.age, ahead))
    }
}

const WIDTH: f64 = 340.0;
const LEFT: f64 = 8.0;
const RIGHT: f64 = WIDTH - 14.0;
const TOP: f64 = 4.0;
const ROW: f64 = 70.0;
/// From the top of a row to its bar.
const DOWN: f64 = 22.0;
const THICK: f64 = 15.0;
/// How far a tick stands out of its bar.
const OUT: f64 = 4.0;
/// Axis and key.
const UNDER: f64 = 96.0;
/// The more are left, the darker.
const SHADES: [&str; 4] = ["shade-5", "shade-4", "shade-2", "shade-1"];
/// What a tick is called.
const TICKED: [&str; 3] = ["9 of 10", "half", "1 of 10"];

/// Draws the parts: a name with its note, under it a bar from fitting on that grows lighter where 9 of 10,
/// half and 1 of 10 are left, a tick at each; under the bar a triangle where the fitted one stands, with its
/// age, and a bracket for the season ahead. A key under the axis names all of them.
///
/// What lasts beyond the last age drawn ends in an arrow. A row whose ages are not numbers in order has no
/// bar, and the description says so.
pub fn lasting(chart: &LastingChart) -> Markup {
    let scale = scale(chart);
    let bottom = TOP + real(chart.rows.len()) * ROW;
    let height = bottom + UNDER;
    let view = format!("0 0 {WIDTH} {height}");
    let at = |x: f64, y: f64| Point { x, y };
    let decimals = scale.decimals(TICKS);
    html! {
        svg class="drawing chart strip" viewBox=(view) width=[px(WIDTH)] height=[px(height)] role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart)) }
            @for tick in scale.ticks(TICKS) {
                @let x = scale.place(tick);
                path class="stroke-line hair" d=(Path::new().to(at(x, TOP)).to(at(x, bottom)).d()) {}
                @if let Some(number) = num(tick, decimals) {
                    text class="label middle text-soft" x=[px(kept(x, room(&number)))] y=[px(bottom + 17.0)] { (number) }
                }
            }
            path class="stroke-ink fine" d=(Path::new().to(at(LEFT, bottom)).to(at(RIGHT, bottom)).d()) {}
            text class="label end strong text-ink" x=[px(RIGHT)] y=[px(bottom + 36.0)] { (chart.along) }
            @for (place, row) in chart.rows.iter().enumerate() {
                (one(chart, &scale, (row, TOP + real(place) * ROW)))
            }
            (key(bottom + 50.0))
        }
    }
}

/// From fitting to the last age drawn.
fn scale(chart: &LastingChart) -> Scale {
    let whole = |row: &Lasting| {
        let lives = ages(row).map(|[_, _, few]| few);
        let (now, then) = row.now.and_then(Ahead::ages).unzip();
        [lives, now, then.flatten()]
    };
    let until = chart
        .until
        .filter(|until| until.is_finite() && *until > 0.0);
    let drawn = chart.rows.iter().flat_map(whole).flatten();
    let drawn = drawn.map(|age| until.map_or(age, |until| age.min(until)));
    let values = span(drawn.chain([0.0])).unwrap_or((0.0, 1.0));
    Scale {
        values: (0.0, values.1.max(1e-3)),
        places: (LEFT, RIGHT),
    }
    .nice(TICKS)
}

/// The three ages, where they are numbers in order.
fn ages(row: &Lasting) -> Option<[f64; 3]> {
    let ages = [row.most, row.half, row.few];
    let in_order = 0.0 <= row.most && row.most <= row.half && row.half <= row.few;
    (in_order && row.few.is_finite()).then_some(ages)
}

/// A middle that keeps words of this length on the paper.
fn kept(x: f64, long: f64) -> f64 {
    let half = long / 2.0 + 2.0;
    x.min(WIDTH - half).max(half)
}

fn one(chart: &LastingChart, scale: &Scale, (row, top): (&Lasting, f64)) -> Markup {
    let label = fitted(&row.label, (WIDTH - 16.0) / BOLD);
    let left = WIDTH - 16.0 - BOLD * room(&label) - room(" · ");
    let note = fitted(&row.note, left.max(0.0));
    html! {
        text class="label start text-ink halo" x=[px(LEFT)] y=[px(top + 16.0)] {
            tspan class="strong" { (label) }
            @if !row.note.is_empty() && note != "…" { tspan class="text-soft" { " · " (note) } }
        }
        @if let Some(ages) = ages(row) {
            (bar(scale, ages, top + DOWN))
        } @else {
            text class="label start text-soft halo" x=[px(LEFT)] y=[px(top + DOWN + 12.0)] { "not known" }
        }
        @if let Some(ages) = row.now.and_then(Ahead::ages) {
            (standing(scale, ages, (top + DOWN + THICK, chart.decimals)))
        }
    }
}

/// The bar in its shades, with its ticks; it fades out to the right, for some last longer still.
fn bar(scale: &Scale, ages: [f64; 3], y: f64) -> Markup {
    let (_, last) = scale.values;
    let at = |x: f64, y: f64| Point { x, y };
    let place = |age: f64| scale.place(age.min(last)); // drawn to the edge, told in words
    let edges = [0.0, ages[0], ages[1], ages[2]].map(place);
    let ticks = ages.iter().filter(|age| **age <= last);
    let tick = |path: Path, age: &f64| {
        let x = scale.place(*age);
        path.lift().to(at(x, y - OUT)).to(at(x, y + THICK + OUT))
    };
    let runs_on = ages[2] > last;
    let (middle, tip) = (y + THICK / 2.0, RIGHT + 10.0);
    let arrow = [
        at(tip - 6.0, middle - 6.0),
        at(tip, middle),
        at(tip - 6.0, middle + 6.0),
    ];
    html! {
        @for (shade, ends) in SHADES.iter().zip(edges.windows(2)) {
            @if ends[1] > ends[0] {
                rect class=(shade) x=[px(ends[0])] y=[px(y)] width=[px(ends[1] - ends[0])] height=[px(THICK)] {}
            }
        }
        rect class="stroke-ink fine" x=[px(edges[0])] y=[px(y)] width=[px((edges[3] - edges[0]).max(0.5))] height=[px(THICK)] {}
        path class="stroke-ink bold" d=(ticks.fold(Path::new(), tick).d()) {}
        @if runs_on { path class="stroke-ink bold" d=(Path::new().through(arrow).d()) {} }
    }
}

/// The triangle under the bar, the bracket behind it, and their ages.
fn standing(scale: &Scale, (age, then): (f64, Option<f64>), (y, decimals): (f64, u32)) -> Markup {
    let place = |age: f64| scale.place(age.min(scale.values.1).max(0.0)); // the words have the age
    let x = place(age);
    let number = |age| num(age, decimals).unwrap_or_default();
    let words = match then {
        Some(then) => format!("{} to {}", number(age), number(then)),
        None => number(age),
    };
    let long = BOLD * room(&words);
    let middle = kept(then.map_or(x, |then| f64::midpoint(x, place(then))), long);
    html! {
        @if let Some(then) = then { (bracket((x, place(then)), y + 9.0)) }
        (triangle(x, y + 2.0))
        text class="figure middle text-ink halo" x=[px(middle)] y=[px(y + 27.0)] { (words) }
    }
}

fn triangle(x: f64, y: f64) -> Markup {
    let at = |x: f64, y: f64| Point { x, y };
    let corners = [at(x, y), at(x + 6.0, y + 11.0), at(x - 6.0, y + 11.0)];
    html! { path class="fill-ink stroke-card hair" d=(Path::new().through(corners).close().d()) {} }
}

/// Open upwards, like a stretch measured off under the bar.
fn bracket((from, to): (f64, f64), y: f64) -> Markup {
    let at = |x: f64, y: f64| Point { x, y };
    let path = [at(from, y), at(to, y), at(to, y - 7.0)];
    html! { path class="stroke-ink bold" d=(Path::new().through(path).d()) {} }
}

/// What shades, ticks, triangle and bracket mean.
fn key(top: f64) -> Markup {
    let step = 78.0;
    let at = |x: f64, y: f64| Point { x, y };
    let ends = |place: usize| LEFT + real(place + 1) * step;
    html! {
        @for (place, words) in TICKED.iter().enumerate() {
            @let x = ends(place);
            rect class={ (SHADES[place]) " stroke-line hair" } x=[px(x - step)] y=[px(top)] width=[px(step)] height="9" {}
            path class="stroke-ink bold" d=(Path::new().to(at(x, top - 3.0)).to(at(x, top + 12.0)).d()) {}
            text class="label middle text-soft" x=[px(x)] y=[px(top + 25.0)] { (words) @if place == 2 { " left" } }
        }
        (triangle(LEFT + 6.0, top + 29.0))
        text class="label start text-soft" x=[px(LEFT + 18.0)] y=[px(top + 40.0)] { "fitted now" }
        (bracket((LEFT + 110.0, LEFT + 140.0), top + 38.0))
        text class="label start text-soft" x=[px(LEFT + 148.0)] y=[px(top + 40.0)] { "the season ahead" }
    }
}

/// The whole chart in words, for those who do not see it.
fn describe(chart: &LastingChart) -> String {
    let number = |age| num(age, chart.decimals).unwrap_or_else(|| "not a number".to_owned());
    let mut said = vec![format!("{}.", chart.along)];
    if let Some(until) = chart.until {
        said.push(format!("Drawn up to {}.", number(until)));
    }
    for row in &chart.rows {
        let mut told = vec![match ages(row) {
            Some([most, half, few]) => format!(
                "9 of 10 are left at {}, half at {}, 1 of 10 at {}",
                number(most),
                number(half),
                number(few)
            ),
            None => "how long it lasts is not known".to_owned(),
        }];
        told.extend(row.now.map(|ahead| match ahead.ages() {
            Some((age, Some(then))) => {
                format!(
                    "the fitted one stands at {}, at the end of the season at {}",
                    number(age),
                    number(then)
                )
            }
            Some((age, None)) => format!("the fitted one stands at {}", number(age)),
            None => "the age of the fitted one is no number".to_owned(),
        }));
        said.push(format!("{}: {}.", row.label, told.join("; ")));
    }
    let unknown = chart.rows.iter().filter(|row| ages(row).is_none()).count();
    if unknown > 0 {
        said.push(format!("Left out: {}.", counted(unknown, "bar", "bars")));
    }
    said.join(" ")
}
