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
    /// How many are in.
    pub in_place: usize,
    /// How many of these are torqued, the first in the order.
    pub torqued: usize,
    /// How many of these carry a paint mark.
    pub marked: usize,
}

const FACE: Polar = Polar {
    centre: Point { x: 170.0, y: 150.0 },
};
const OUTER: f64 = 128.0;
const CIRCLE: f64 = 98.0;
const BORE: f64 = 66.0;
const HEAD: f64 = 19.0;

/// Draws the flange with its screws numbered in the order of tightening.
pub fn flange(flange: &Flange) -> Drawing {
    let count = flange.order.len();
    let svg = html! {
        svg class="drawing ring" viewBox="0 0 340 300" role="img" aria-label="Order of tightening" {
            title { "Order of tightening" }
            desc { (said(flange)) }
            circle class="fill-steel stroke-ink bold" cx=[px(FACE.centre.x)] cy=[px(FACE.centre.y)] r=[px(OUTER)] {}
            circle class="fill-card stroke-ink fine" cx=[px(FACE.centre.x)] cy=[px(FACE.centre.y)] r=[px(BORE)] {}
            @for (turn, screw) in flange.order.iter().enumerate() {
                (one(flange, turn, place(*screw, count)))
            }
            text class="label middle strong text-ink" x=[px(FACE.centre.x)] y=[px(FACE.centre.y - 4.0)] {
                (flange.torqued) " of " (count)
            }
            text class="label middle text-soft" x=[px(FACE.centre.x)] y=[px(FACE.centre.y + 14.0)] { "torqued" }
        }
    };
    Drawing {
        svg,
        caption: "Seen on the heads, screw 1 at the top. The number is the turn in the order. \
                  Dashed: not in. Ring: in, not torqued. Dark: torqued. Bar across: paint mark."
            .to_owned(),
    }
}

/// Where a screw sits, with the clock from the top.
fn place(screw: usize, count: usize) -> Point {
    let share = fraction(screw.saturating_sub(1), count);
    FACE.at(CIRCLE, TAU * share)
}

#[expect(
    clippy::cast_precision_loss,
    reason = "screws of a flange are counted in dozens"
)]
fn fraction(part: usize, whole: usize) -> f64 {
    part as f64 / whole.max(1) as f64
}

fn one(flange: &Flange, turn: usize, at: Point) -> Markup {
    let (head, number) = if turn < flange.torqued {
        ("fill-ink stroke-ink bold", "text-card")
    } else if turn < flange.in_place {
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
        @if turn < flange.marked { path class="stroke-accent heavy" d=(mark.d()) {} }
        circle class=(head) cx=[px(at.x)] cy=[px(at.y)] r=[px(HEAD)] {}
        text class=(format!("figure middle {number}")) x=[px(at.x)] y=[px(at.y + 4.5)] { (turn + 1) }
    }
}

/// The picture in words.
fn said(flange: &Flange) -> String {
    let order: Vec<String> = flange.order.iter().map(usize::to_string).collect();
    format!(
        "{}: screws round the flange in the order {}. {} of {} in, {} torqued, {} marked.",
        flange.name,
        order.join(", "),
        flange.in_place,
        flange.order.len(),
        flange.torqued,
        flange.marked
    )
}
