//! A bead of sealant on its face: before the faces close, and after.

use chart::{Path, Point, px};
use maud::{Markup, html};
use quantity::{Unit, format};

use super::Drawing;

/// A bead on a face, all in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Bead {
    /// Name of the joint.
    pub name: String,
    /// Diameter of the bead laid.
    pub laid: f64,
    /// Least width the film must have.
    pub sealed: f64,
    /// Width it may have.
    pub room: f64,
    /// Least and greatest gap.
    pub gap: (f64, f64),
    /// Width of the film where the gap is widest and where it is narrowest.
    pub film: (f64, f64),
    /// Radius of what comes out on each side.
    pub ridge: f64,
    /// Diameter of the passage beside it, if one is there.
    pub passage: Option<f64>,
}

const WIDTH: f64 = 400.0;
const MIDDLE: f64 = WIDTH / 2.0;
/// The room as drawn; everything else is to the same scale.
const ROOM: f64 = 240.0;
/// Thickness of a part as drawn.
const SLAB: f64 = 26.0;
/// A gap thinner than this is drawn so thick.
const THINNEST: f64 = 3.0;

/// Draws the section across the face, to one scale in every direction.
pub fn bead(bead: &Bead) -> Drawing {
    let scale = ROOM / bead.room;
    let laid = bead.laid * scale;
    let gap = (bead.gap.0 * scale).max(THINNEST);
    let before = 34.0 + laid.max(2.0 * bead.ridge * scale);
    let after = before + 2.0 * SLAB + 40.0 + gap;
    let (low, high) = (bead.film.0 * scale, bead.film.1 * scale);
    let film = |width: f64| (MIDDLE - 0.5 * width.min(ROOM), width.min(ROOM));
    let said = said(bead);
    let svg = html! {
        svg class="drawing strip" viewBox={ "0 0 400 " (px(after + SLAB + 76.0).unwrap_or_default()) } role="img" aria-label="The bead across its face" {
            title { "The bead across its face" }
            desc { (said) }
            text class="label start strong text-ink" x="8" y="18" { "Laid: " (fine(bead.laid)) }
            (slab(bead, before, scale))
            circle class="fill-ink stroke-ink fine" cx=[px(MIDDLE)] cy=[px(before - 0.5 * laid)] r=[px(0.5 * laid)] {}
            text class="label start strong text-ink" x="8" y=[px(after - gap - SLAB - 10.0)] { "Closed" }
            (slab(bead, after, scale))
            (block(bead, after - gap, scale))
            @for (class, (x, width)) in [("tint-ink", film(high)), ("fill-ink", film(low))] {
                rect class=(class) x=[px(x)] y=[px(after - gap)] width=[px(width)] height=[px(gap)] {}
            }
            @if bead.ridge > 0.0 {
                @for side in [-1.0, 1.0] { (ridge(bead.ridge * scale, side, after - 0.5 * gap)) }
            }
            (across(high.min(ROOM), after + SLAB + 10.0, &format!("film {} to {}", quantity::number(bead.film.0, Unit::Millimetre, 1), wide(bead.film.1))))
            (across(ROOM, after + SLAB + 44.0, &format!("room {}", wide(bead.room))))
        }
    };
    Drawing {
        svg,
        caption: format!(
            "{said} A section across the face, to one scale in every direction, but that a gap too thin \
             to see is drawn thicker. Dark: filled everywhere. Pale: filled where the gap is narrowest."
        ),
    }
}

/// A bead or a gap in words.
fn fine(metres: f64) -> String {
    format(metres, Unit::Millimetre, 2)
}

/// A width in words.
fn wide(metres: f64) -> String {
    format(metres, Unit::Millimetre, 1)
}

/// The lower part, with its passage where it has one.
fn slab(bead: &Bead, top: f64, scale: f64) -> Markup {
    let (left, right) = (MIDDLE - 0.5 * ROOM - 24.0, MIDDLE + 0.5 * ROOM);
    let end = if bead.passage.is_some() {
        right
    } else {
        right + 24.0
    };
    // The far wall of the passage, where it still fits the picture.
    let wall = bead.passage.map(|passage| right + passage * scale);
    let wall = wall.filter(|wall| *wall < WIDTH - 16.0);
    html! {
        rect class="fill-steel stroke-ink hair" x=[px(left)] y=[px(top)] width=[px(end - left)] height=[px(SLAB)] {}
        @if let Some(wall) = wall {
            rect class="fill-steel stroke-ink hair" x=[px(wall)] y=[px(top)] width=[px(WIDTH - 8.0 - wall)] height=[px(SLAB)] {}
        }
        @if bead.passage.is_some() {
            text class="label start text-soft" x=[px(right + 4.0)] y=[px(top + SLAB - 8.0)] { "water" }
        }
    }
}

/// The upper part.
fn block(bead: &Bead, bottom: f64, scale: f64) -> Markup {
    let left = MIDDLE - 0.5 * ROOM - 24.0;
    let passage = bead.passage.map_or(24.0, |passage| passage * scale);
    let right = (MIDDLE + 0.5 * ROOM + passage).min(WIDTH - 8.0);
    html! {
        rect class="fill-steel stroke-ink hair" x=[px(left)] y=[px(bottom - SLAB)] width=[px(right - left)] height=[px(SLAB)] {}
    }
}

/// What comes out on one side, half round.
fn ridge(radius: f64, side: f64, y: f64) -> Markup {
    let edge = MIDDLE + side * 0.5 * ROOM;
    let steps = (0..=12).map(|step| {
        let angle = std::f64::consts::PI * f64::from(step) / 12.0;
        Point {
            x: edge + side * radius * angle.sin(),
            y: y - radius * angle.cos(),
        }
    });
    let outline = Path::new().through(steps).close();
    html! { path class="tint-ink stroke-ink fine" d=(outline.d()) {} }
}

/// A width with its words below.
fn across(width: f64, y: f64, words: &str) -> Markup {
    let line = |x1: f64, x2: f64, half: f64| {
        Path::new()
            .to(Point { x: x1, y: y - half })
            .to(Point { x: x2, y: y + half })
    };
    let (left, right) = (MIDDLE - 0.5 * width, MIDDLE + 0.5 * width);
    html! {
        path class="stroke-ink fine" d=(line(left, right, 0.0).d()) {}
        path class="stroke-ink fine" d=(line(left, left, 5.0).d()) {}
        path class="stroke-ink fine" d=(line(right, right, 5.0).d()) {}
        text class="label middle text-ink" x=[px(MIDDLE)] y=[px(y + 19.0)] { (words) }
    }
}

/// The picture in words.
fn said(bead: &Bead) -> String {
    let out = if bead.ridge > 0.0 {
        format!(
            "; where the gap is narrowest a ridge of {} comes out on each side",
            fine(bead.ridge)
        )
    } else {
        String::new()
    };
    format!(
        "{}: a bead of {} closes to a film {} wide where the gap is {}, and {} where it is {}. It \
         must seal {} and has {} of room{out}.",
        bead.name,
        fine(bead.laid),
        wide(bead.film.0),
        fine(bead.gap.1),
        wide(bead.film.1),
        fine(bead.gap.0),
        wide(bead.sealed),
        wide(bead.room)
    )
}
