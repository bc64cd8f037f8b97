//! What replacing costs over the age it is done at, and between which ages that hardly matters.

mod places;

use maud::{Markup, html};

use self::places::{Name, Sheet};
use crate::axes::{TICKS, axes};
use crate::plane::real;
use crate::trend::Foreseen;
use crate::words::{BOLD, fitted, room};
use crate::{Frame, Path, Point, num, px};

/// Costs over the age of replacement; each axis in one display unit.
#[derive(Clone, Debug, PartialEq)]
pub struct BasinChart {
    /// What the chart shows, in words.
    pub title: String,
    /// Title of the axis along, with its unit: `replaced at, engine hours`.
    pub along: String,
    /// Title of the axis up, with its unit: `cost, $ an hour`.
    pub up: String,
    /// Decimals of the costs in the description.
    pub decimals: u32,
    /// Decimals of the ages at the ends of the bars and in the description.
    pub age_decimals: u32,
    /// The parts; the first three are drawn.
    pub basins: Vec<Basin>,
}

/// What replacing one part costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Basin {
    /// The name of the part.
    pub name: String,
    /// The cost by age, from left to right, with its band.
    pub points: Vec<Foreseen>,
    /// The age that costs least; none where that is to run to failure.
    pub least: Option<f64>,
    /// The ages that cost hardly more than the least, from and to; no end where running to failure is
    /// among them; none where nothing is known of it.
    pub flat: Option<(f64, Option<f64>)>,
}

const WIDTH: f64 = 340.0;
const LEFT: f64 = 52.0;
/// Keeps room for a number behind the longest bar.
const RIGHT: f64 = WIDTH - 44.0;
const TOP: f64 = 34.0;
const BOTTOM: f64 = 206.0;
/// Room for the name and the bar of one part.
const ROW: f64 = 38.0;
/// Room for numbers and title of the axis.
const AXIS: f64 = 44.0;
/// Length of the head of an arrow.
const ARROW: f64 = 7.0;
/// The strokes that tell curves apart, in order.
const STROKES: [&str; 3] = [
    "stroke-ink bold",
    "stroke-ink bold dash-short",
    "stroke-ink bold dash-long",
];

/// Draws the chart: each cost with its own stroke, its band tinted and a dot where it is least; under
/// the field a row for each part, with its stroke, its name, and a heavy bar over the ages that cost hardly
/// more, their numbers at its ends. A bar that ends in an arrow goes on: to the number behind it, or without one to failure.
///
/// A name stands beside its curve too where that is free. Costs far above the least are cut off at the
/// top. A number that is not finite is left out. The description says all of it.
pub fn basin(chart: &BasinChart) -> Markup {
    let sheet = Sheet::new(chart);
    let foot = BOTTOM + real(sheet.drawn()) * ROW + 6.0;
    let field = sheet.frame;
    let frame = Frame {
        bottom: foot,
        ..field
    };
    let height = foot + AXIS;
    let view = format!("0 0 {WIDTH} {height}");
    let ends = |x: f64| [Point { x, y: TOP }, Point { x, y: foot }];
    let base = [field.left, field.right].map(|x| Point { x, y: BOTTOM });
    html! {
        svg class="drawing chart strip" viewBox=(view) width=[px(WIDTH)] height=[px(height)] role="img" aria-label=(chart.title) {
            title { (chart.title) }
            desc { (describe(chart, &sheet)) }
            @for tick in sheet.along.ticks(TICKS) {
                path class="stroke-line hair" d=(Path::new().through(ends(sheet.along.place(tick))).d()) {}
            }
            (axes(frame, (&sheet.along, &chart.along), (&sheet.up, &chart.up)))
            path class="stroke-ink fine" d=(Path::new().through(base).d()) {}
            @for line in &sheet.lines { path class="tint-steel" d=(sheet.band(line).d()) {} }
            @for (place, line) in sheet.lines.iter().enumerate() {
                path class=(STROKES[place]) d=(sheet.cost(line).d()) {}
            }
            @for point in sheet.dots().into_iter().flatten() { (dot(point)) }
            @for Name { words, left, base } in sheet.names() {
                text class="label start strong text-ink halo" x=[px(left)] y=[px(base)] { (words) }
            }
            @for (place, basin) in chart.basins.iter().enumerate().take(STROKES.len()) {
                (row(&sheet, basin, place))
            }
        }
    }
}

fn dot(at: Point) -> Markup {
    html! { circle class="fill-ink stroke-card fine" cx=[px(at.x)] cy=[px(at.y)] r="5" {} }
}

/// The stroke and the name of a part, and under them its bar.
fn row(sheet: &Sheet<'_>, basin: &Basin, place: usize) -> Markup {
    let top = BOTTOM + real(place) * ROW;
    let sample = [6.0, 34.0].map(|x| Point { x, y: top + 11.5 });
    let name = fitted(&basin.name, (WIDTH - 40.0 - 6.0) / BOLD);
    html! {
        path class=(STROKES[place]) d=(Path::new().through(sample).d()) {}
        text class="label start strong text-ink halo" x="40" y=[px(top + 16.0)] { (name) }
        (bar(sheet, basin, top + 28.0))
    }
}

/// The heavy bar with its two ends and their numbers, or with its arrow.
fn bar(sheet: &Sheet<'_>, basin: &Basin, y: f64) -> Markup {
    let Some((low, high)) = places::flat(basin) else {
        return html! {};
    };
    let (first, last) = sheet.along.values;
    let number = |age: f64| num(age, sheet.chart.age_decimals).unwrap_or_default();
    let place = |age: f64| sheet.along.place(age.min(last).max(first)); // the number has the age
    let from = place(low).min(sheet.frame.right - ARROW);
    let far = high.filter(|high| *high > last).map(number);
    let to = match &far {
        Some(words) => sheet.frame.right.min(WIDTH - 8.0 - BOLD * room(words)),
        None => high.map_or(sheet.frame.right, place),
    };
    let at = |x: f64, up: f64| Point { x, y: y - up };
    let stroke = |path: Path, x: f64| path.lift().to(at(x, 5.0)).to(at(x, -5.0));
    let line = stroke(Path::new(), from).lift();
    let line = line.to(at(from, 0.0)).to(at(to, 0.0));
    let line = match high.filter(|high| *high <= last) {
        Some(_) => stroke(line, to),
        None => line
            .lift()
            .to(at(to - ARROW, 6.0))
            .to(at(to, 0.0))
            .to(at(to - ARROW, -6.0)),
    };
    let least = basin.least.filter(|age| (first..=last).contains(age));
    html! {
        path class="stroke-ink heavy" d=(line.d()) {}
        text class="figure end text-ink halo" x=[px(from - 5.0)] y=[px(y + 4.5)] { (number(low)) }
        @if let Some(high) = high { (behind(to + 5.0, y, &number(high))) }
        @if let Some(least) = least { (dot(at(sheet.along.place(least), 0.0))) }
    }
}

/// A number behind the end of its bar, or as far right as there is paper.
fn behind(x: f64, y: f64, number: &str) -> Markup {
    let fits = x + BOLD * room(number) <= WIDTH - 2.0;
    let (class, x) = if fits {
        ("figure start text-ink halo", x)
    } else {
        ("figure end text-ink halo", WIDTH - 2.0)
    };
    html! { text class=(class) x=[px(x)] y=[px(y + 4.5)] { (number) } }
}

/// The whole chart in words, for those who do not see it.
fn describe(chart: &BasinChart, sheet: &Sheet<'_>) -> String {
    let cost = |value| num(value, chart.decimals).unwrap_or_else(|| "not a number".to_owned());
    let age = |value| num(value, chart.age_decimals).unwrap_or_else(|| "not a number".to_owned());
    let mut said = vec![format!("{} over {}.", chart.up, chart.along)];
    for (basin, line) in chart.basins.iter().zip(&sheet.lines) {
        let name = &basin.name;
        said.push(match (basin.least, line.first()) {
            (_, None) => format!("{name}: no costs."),
            (None, Some(_)) => format!("{name}: least where it runs to failure."),
            (Some(least), _) => match places::between(line, least) {
                Some(p) => {
                    let (middle, low, high) = (cost(p.middle), cost(p.low), cost(p.high));
                    format!(
                        "{name}: least {middle} ({low} to {high}) at {}.",
                        age(least)
                    )
                }
                None => format!("{name}: least at {}, which is not drawn.", age(least)),
            },
        });
        said.extend(basin.flat.map(|_| match places::flat(basin) {
            Some((low, Some(high))) => {
                format!("Hardly more from {} to {}.", age(low), age(high))
            }
            Some((low, None)) => format!("Hardly more from {} on, to failure.", age(low)),
            None => "Between which ages it is hardly more is no number.".to_owned(),
        }));
        match basin.points.len() - line.len() {
            0 => {}
            1 => said.push("A point is no number.".to_owned()),
            many => said.push(format!("{many} points are no numbers.")),
        }
    }
    let top = sheet.up.values.1;
    if sheet.lines.iter().flatten().any(|p| p.high > top) {
        said.push(format!("Cut off above {}.", cost(top)));
    }
    match chart.basins.len().saturating_sub(STROKES.len()) {
        0 => {}
        1 => said.push("One more is not drawn.".to_owned()),
        many => said.push(format!("{many} more are not drawn.")),
    }
    said.join(" ")
}
