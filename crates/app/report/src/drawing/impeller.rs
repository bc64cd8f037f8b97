//! The impeller inside the ring: hub, shaft, lettered blades.

use std::f64::consts::TAU;

use chart::{Path, Point, px};
use maud::{Markup, html};
use workshop::job::{Rotation, blade_name};

use super::Ring;
use super::ring::{CLOCK, TIP, angle};

const HUB: f64 = 25.0;
const SHAFT: f64 = 7.0;
/// How far a blade's root leads its tip, `rad`.
const SWEEP: f64 = 0.75;
/// Thickness of a blade.
const THICK: f64 = 14.0;

pub(super) fn draw(ring: &Ring) -> Markup {
    let (blade, position) = ring.at.unwrap_or((0, 0));
    let turn = angle(position, ring.positions) - angle(blade, ring.blades);
    let centre = CLOCK.centre;
    let (tail, head) = match ring.rotation {
        Rotation::Clockwise => (-1.9, 1.9),
        Rotation::Anticlockwise => (1.9, -1.9),
    };
    html! {
        circle class="stroke-line hair" cx=[px(centre.x)] cy=[px(centre.y)] r=[px(TIP)] {}
        @for other in 0..ring.blades {
            (one(ring, other, turn + angle(other, ring.blades)))
        }
        circle class="fill-card stroke-ink bold" cx=[px(centre.x)] cy=[px(centre.y)] r=[px(HUB)] {}
        circle class="fill-steel stroke-ink fine" cx=[px(centre.x)] cy=[px(centre.y)] r=[px(SHAFT)] {}
        (arrow(16.0, tail, head))
    }
}

/// One blade with its tip at this angle, swept back against the turning, and its letter.
fn one(ring: &Ring, blade: u8, tip: f64) -> Markup {
    let ahead = match ring.rotation {
        Rotation::Clockwise => SWEEP,
        Rotation::Anticlockwise => -SWEEP,
    };
    let thick = THICK.min(TAU * HUB / f64::from(ring.blades.max(1)));
    // The root lies under the hub.
    let (root, steps) = (HUB - 4.0, 12_u8);
    let place = |step: u8, side: f64| {
        let out = f64::from(step) / f64::from(steps);
        let radius = root + out * (TIP - root);
        let slant = -ahead / (TIP - root) * radius;
        let half = (thick - 3.0 * out) / 2.0 * slant.hypot(1.0) / radius;
        CLOCK.at(radius, tip + ahead * (1.0 - out) + side * half)
    };
    let outline = Path::new()
        .through((0..=steps).map(|step| place(step, -1.0)))
        .through((0..=steps).rev().map(|step| place(step, 1.0)))
        .close();
    let asked = ring.at.is_some_and(|(asked, _)| asked == blade);
    let Point { x, y } = place(8, 0.0);
    html! {
        path class={ "stroke-ink fine " (if asked { "fill-accent" } else { "fill-soft" }) } d=(outline.d()) {}
        text class="mark middle text-card" x=[px(x)] y=[px(y + 4.3)] { (blade_name(blade)) }
    }
}

/// An arrow along a circle from one angle to another, both `rad` with the clock from twelve.
pub(super) fn arrow(radius: f64, tail: f64, head: f64) -> Markup {
    let steps = 16_u8;
    let forward = (head - tail).signum();
    let back = head - forward * 9.0 / radius;
    let shaft = (0..=steps).map(|step| {
        CLOCK.at(
            radius,
            tail + (back - tail) * f64::from(step) / f64::from(steps),
        )
    });
    let barb = Path::new().through([
        CLOCK.at(radius, head),
        CLOCK.at(radius + 4.5, back),
        CLOCK.at(radius - 4.5, back),
    ]);
    html! {
        path class="stroke-ink bold" d=(Path::new().through(shaft).d()) {}
        path class="fill-ink" d=(barb.close().d()) {}
    }
}
