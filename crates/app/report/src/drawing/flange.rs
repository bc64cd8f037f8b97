//! The screws of a joint round its flange: which comes when, and how far each has come.

use std::f64::consts::TAU;

use chart::{Path, Point, Polar, px};
use maud::{Markup, html};

use super::Drawing;

/// The screws of one joint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Flange {
    /// Name of the joint.
    pub name: String,
    /// Screw numbers round the flange, counted from 1, in the order of tightening.
    pub order: Vec<usize>,
    /// How many are in, from the top on round the flange.
    pub in_place: usize,
    /// How many of these are torqued: the last pass goes round the flange.
    pub torqued: usize,
    /// How many of these carry a paint mark.
    pub marked: usize,
    /// How many passes there are after the one by hand.
    pub passes: usize,
    /// The pass under way, from 1, and how many screws have had it.
    pub pass: Option<(usize, usize)>,
    /// The screw that comes next, from 1 at the top.
    pub next: Option<usize>,
    /// What the wrench is set to in it.
    pub target: Option<String>,
}

impl Flange {
    /// Passes that a screw has had, by its turn in the order.
    fn had(&self, turn: usize, screw: usize) -> usize {
        match self.pass {
            _ if screw <= self.torqued => self.passes,
            Some((number, _)) if number == self.passes => self.passes - 1,
            Some((number, screws)) => number - usize::from(turn >= screws),
            None => 0,
        }
    }

    /// The two lines in the middle.
    fn middle(&self) -> [String; 2] {
        match (self.pass, &self.target) {
            (Some((number, _)), Some(target)) => {
                [format!("pass {number} of {}", self.passes), target.clone()]
            }
            _ => [
                format!("{} of {}", self.torqued, self.order.len()),
                "torqued".to_owned(),
            ],
        }
    }
}

const FACE: Polar = Polar {
    centre: Point { x: 170.0, y: 150.0 },
};
const OUTER: f64 = 128.0;
const CIRCLE: f64 = 98.0;
const BORE: f64 = 66.0;
const HEAD: f64 = 19.0;
/// Where the dots stand, and how far apart, in radians.
const RIM: f64 = 137.0;
const STEP: f64 = 0.085;

/// Draws the flange with its screws numbered in the order of tightening.
pub fn flange(flange: &Flange) -> Drawing {
    let count = flange.order.len();
    let [first, second] = flange.middle();
    let svg = html! {
        svg class="drawing ring" viewBox="0 0 340 300" role="img" aria-label="Order of tightening" {
            title { "Order of tightening" }
            desc { (said(flange)) }
            circle class="fill-steel stroke-ink bold" cx=[px(FACE.centre.x)] cy=[px(FACE.centre.y)] r=[px(OUTER)] {}
            circle class="fill-card stroke-ink fine" cx=[px(FACE.centre.x)] cy=[px(FACE.centre.y)] r=[px(BORE)] {}
            @for (turn, screw) in flange.order.iter().enumerate() {
                (one(flange, turn, *screw, place(*screw, count)))
                (dots(flange, flange.had(turn, *screw), angle(*screw, count)))
            }
            text class="label middle strong text-ink" x=[px(FACE.centre.x)] y=[px(FACE.centre.y - 4.0)] {
                (first)
            }
            text class="label middle text-soft" x=[px(FACE.centre.x)] y=[px(FACE.centre.y + 14.0)] { (second) }
        }
    };
    Drawing {
        svg,
        caption: "Seen on the heads, screw 1 at the top. The number is the turn in the order. \
                  Dashed: not in. Ring: in, not torqued. Dark: torqued. Bar across: paint mark. A dot \
                  at the rim for each pass, full when the screw has had it; the wide ring comes next."
            .to_owned(),
    }
}

/// The clock angle of a screw, from the top.
fn angle(screw: usize, count: usize) -> f64 {
    TAU * fraction(screw.saturating_sub(1), count)
}

/// Where a screw sits.
fn place(screw: usize, count: usize) -> Point {
    FACE.at(CIRCLE, angle(screw, count))
}

/// A dot for each pass, outside the rim by the screw.
fn dots(flange: &Flange, had: usize, angle: f64) -> Markup {
    let middle = 0.5 * (fraction(flange.passes, 1) - 1.0);
    html! {
        @if flange.passes > 1 {
            @for pass in 0..flange.passes {
                @let at = FACE.at(RIM, angle + STEP * (fraction(pass, 1) - middle));
                @let class = if pass < had { "fill-ink stroke-ink fine" } else { "fill-card stroke-ink fine" };
                circle class=(class) cx=[px(at.x)] cy=[px(at.y)] r=[px(3.5)] {}
            }
        }
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "screws of a flange are counted in dozens"
)]
fn fraction(part: usize, whole: usize) -> f64 {
    part as f64 / whole.max(1) as f64
}

fn one(flange: &Flange, turn: usize, screw: usize, at: Point) -> Markup {
    let (head, number) = if screw <= flange.torqued {
        ("fill-ink stroke-ink bold", "text-card")
    } else if screw <= flange.in_place {
        ("fill-card stroke-ink bold", "text-ink")
    } else {
        ("fill-card stroke-soft fine dash-short", "text-soft")
    };
    let mark = Path::new()
        .to(Point {
            x: at.x - HEAD - 6.0,
            y: at.y + HEAD,
        })
        .to(Point {
            x: at.x + HEAD + 6.0,
            y: at.y - HEAD,
        });
    html! {
        @if screw <= flange.marked { path class="stroke-accent heavy" d=(mark.d()) {} }
        @if flange.next == Some(screw) {
            circle class="stroke-accent heavy" cx=[px(at.x)] cy=[px(at.y)] r=[px(HEAD + 5.0)] {}
        }
        circle class=(head) cx=[px(at.x)] cy=[px(at.y)] r=[px(HEAD)] {}
        text class=(format!("figure middle {number}")) x=[px(at.x)] y=[px(at.y + 4.5)] { (turn + 1) }
    }
}

/// The picture in words.
fn said(flange: &Flange) -> String {
    let order: Vec<String> = flange.order.iter().map(usize::to_string).collect();
    let pass = flange.pass.map_or_else(String::new, |(number, screws)| {
        format!(" {screws} through pass {number} of {}.", flange.passes)
    });
    format!(
        "{}: screws round the flange in the order {}. {} of {} in, {} torqued, {} marked.{pass}",
        flange.name,
        order.join(", "),
        flange.in_place,
        flange.order.len(),
        flange.torqued,
        flange.marked
    )
}
