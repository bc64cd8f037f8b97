//! The number on the ring at one clock position, with its state as a shape.

use chart::{Path, Point, px};
use maud::{Markup, html};

use super::Mark;
use super::ring::{CLOCK, OUTER, WORN};

/// Where the numbers stand, in the middle of the metal.
const RADIUS: f64 = f64::midpoint(WORN, OUTER);
const HALF_HEIGHT: f64 = 15.5;
/// How much of a plate's corner is cut to make the octagon of "out".
const CORNER: f64 = 7.0;

pub(super) struct Plate {
    pub(super) angle: f64,
    pub(super) number: Option<String>,
    pub(super) mark: Mark,
    pub(super) asked: bool,
}

pub(super) fn draw(plate: &Plate) -> Markup {
    let at = CLOCK.at(RADIUS, plate.angle);
    let (ground, words) = match plate.mark {
        Mark::Unread | Mark::Read | Mark::In => ("fill-card", "text-ink"),
        Mark::Near => ("fill-warn", "text-dark"),
        Mark::Out => ("fill-stop", "text-card"),
        Mark::Contradiction => ("fill-ink", "text-card"),
    };
    let border = match (plate.asked, plate.mark) {
        (true, _) => "stroke-accent heavy",
        (false, Mark::Out) => "stroke-stop fine",
        (false, Mark::Near | Mark::Contradiction) => "stroke-ink fine",
        (false, _) => "stroke-line hair",
    };
    // A state that needs no sign, or a sign without a number, stands on a half-size plate.
    let alone = plate.number.is_none() || plate.mark == Mark::Read;
    let half = Point {
        x: plate.number.as_deref().map_or(11.0, half_width),
        y: if alone { 10.0 } else { HALF_HEIGHT },
    };
    let corner = if plate.mark == Mark::Out { CORNER } else { 2.0 };
    let (number_y, sign_y) = if alone { (4.8, 0.0) } else { (-1.0, 8.0) };
    html! {
        path class=(format!("{ground} {border}")) d=(outline(at, half, corner).d()) {}
        @if let Some(number) = &plate.number {
            text class=(format!("figure middle {words}")) x=[px(at.x)] y=[px(at.y + number_y)] { (number) }
        }
        @if !(alone && plate.number.is_some()) {
            (sign(plate.mark, Point { x: at.x, y: at.y + sign_y }, words))
        }
    }
}

/// Half the width of a plate, wide enough for the broadest common system font.
fn half_width(number: &str) -> f64 {
    let width: f64 = number
        .chars()
        .map(|c| if c.is_ascii_digit() { 8.7 } else { 4.8 })
        .sum();
    width / 2.0 + 3.0
}

/// A rectangle with cut corners.
fn outline(at: Point, half: Point, corner: f64) -> Path {
    let (x, y) = (half.x - corner, half.y - corner);
    [
        (-x, -half.y),
        (x, -half.y),
        (half.x, -y),
        (half.x, y),
        (x, half.y),
        (-x, half.y),
        (-half.x, y),
        (-half.x, -y),
    ]
    .into_iter()
    .fold(Path::new(), |path, (dx, dy)| {
        path.to(Point {
            x: at.x + dx,
            y: at.y + dy,
        })
    })
    .close()
}

fn sign(mark: Mark, at: Point, words: &str) -> Markup {
    let stroke = |points: &[(f64, f64)]| {
        Path::new().through(points.iter().map(|(dx, dy)| Point {
            x: at.x + dx,
            y: at.y + dy,
        }))
    };
    let letter = |letter: &str| {
        html! { text class=(format!("mark middle {words}")) x=[px(at.x)] y=[px(at.y + 4.6)] { (letter) } }
    };
    match mark {
        Mark::Unread => letter("–"),
        Mark::Read => html! {},
        Mark::In => html! {
            path class="stroke-good bold" d=(stroke(&[(-4.5, 0.0), (-1.5, 3.5), (4.5, -4.0)]).d()) {}
        },
        Mark::Near => letter("?"),
        Mark::Out => html! {
            path class="stroke-card bold" d=(stroke(&[(-3.8, -3.8), (3.8, 3.8)]).d()) {}
            path class="stroke-card bold" d=(stroke(&[(3.8, -3.8), (-3.8, 3.8)]).d()) {}
        },
        Mark::Contradiction => letter("!"),
    }
}
