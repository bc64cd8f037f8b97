//! Lip seals in section, above the shaft: which way each looks.

use chart::{Path, Point, px};
use joint::fit::Looks;
use maud::{Markup, html};
use workshop::fits::Lip;

use super::Drawing;

const BORE: f64 = 46.0;
const SHAFT: f64 = 128.0;
const STEP: f64 = 84.0;
const FIRST: f64 = 86.0;

/// Draws the seals in order from the water, which is on the left.
pub fn lips(lips: &[Lip]) -> Drawing {
    let svg = html! {
        svg class="drawing ring strip" viewBox="0 0 340 196" role="img" aria-label="Which way the lips look" {
            title { "Which way the lips look" }
            desc { (said(lips)) }
            path class="fill-steel stroke-ink fine" d=(block(20.0, 24.0, 320.0, BORE).d()) {}
            path class="fill-steel stroke-ink fine" d=(block(20.0, SHAFT, 320.0, 152.0).d()) {}
            text class="label start strong text-ink" x="24" y="91" { "water" }
            text class="label end strong text-ink" x="318" y="91" { "bearing" }
            text class="label middle text-soft" x="170" y="145" { "shaft" }
            @for (number, lip) in (1_u8..).zip(lips) { (one(number, *lip)) }
        }
    };
    Drawing {
        svg,
        caption:
            "In section, upper half, not to scale; the water is on the left. Each lip opens to \
                  the side it looks at, with its spring as a ring."
                .to_owned(),
    }
}

fn block(left: f64, top: f64, right: f64, bottom: f64) -> Path {
    let corners = [(left, top), (right, top), (right, bottom), (left, bottom)];
    let corners = corners.map(|(x, y)| Point { x, y });
    Path::new().through(corners).close()
}

/// A seal: its back stands in the bore, its lip leans to where it looks.
fn one(number: u8, lip: Lip) -> Markup {
    let middle = FIRST + STEP * f64::from(number - 1) + 10.0;
    let (way, word) = match lip.looks() {
        Looks::AtWater => (-1.0, "← water"),
        Looks::AtBearing => (1.0, "bearing →"),
        // Which side has the pressure is the manual's to say.
        _ => (0.0, "pressure"),
    };
    let at = |x: f64, y: f64| Point {
        x: middle + way * x,
        y,
    };
    let body = if way == 0.0 {
        block(middle - 5.0, BORE, middle + 5.0, SHAFT)
    } else {
        Path::new()
            .through([
                at(20.0, BORE),
                at(-18.0, BORE),
                at(-18.0, 88.0),
                at(14.0, SHAFT),
                at(24.0, SHAFT - 6.0),
                at(-8.0, 84.0),
                at(-8.0, BORE + 9.0),
                at(20.0, BORE + 9.0),
            ])
            .close()
    };
    html! {
        path class="fill-ink" d=(body.d()) {}
        @if way != 0.0 {
            circle class="fill-card stroke-ink bold" cx=[px(at(23.0, 0.0).x)] cy=[px(SHAFT - 16.0)] r="5" {}
        }
        text class="label middle strong text-ink" x=[px(middle)] y="172" { (number) }
        text class="label middle text-ink" x=[px(middle)] y="189" { (word) }
    }
}

/// The picture in words.
fn said(lips: &[Lip]) -> String {
    let each = (1_u8..).zip(lips).map(|(number, lip)| {
        let looks = match lip.looks() {
            Looks::AtWater => "at the water",
            Looks::AtBearing => "at the bearing",
            _ => "at the pressure",
        };
        format!("Lip {number} looks {looks}.")
    });
    let each: Vec<String> = each.collect();
    format!("In order from the water. {}", each.join(" "))
}
