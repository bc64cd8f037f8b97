//! The end of the shaft with its impeller: which way to turn, seen from where one stands.

use std::f64::consts::{PI, TAU};

use chart::{Path, Point, Polar, px};
use joint::shaft::{Rotation, Running};
use maud::{Markup, html};
use workshop::fits::Turning;
use workshop::fits::card::impeller::{sense, standing};

use super::Drawing;

const FACE: Polar = Polar {
    centre: Point { x: 170.0, y: 150.0 },
};
const HUB: f64 = 44.0;
const TEETH: u32 = 14;
const ARROW: f64 = 122.0;
const RUNS: f64 = 62.0;
/// Half of what an arrow spans, `rad`.
const SPAN: f64 = 0.95;

/// Draws the arrows that tighten and loosen an impeller while its shaft is held.
pub fn shaft(turning: Turning) -> Drawing {
    let words = |y: f64, class: &str, text: String| {
        html! {
            text class=(format!("label middle {class}")) x=[px(FACE.centre.x)] y=[px(FACE.centre.y + y)] { (text) }
        }
    };
    let svg = html! {
        svg class="drawing ring strip" viewBox="0 0 340 318" role="img" aria-label="Which way to turn" {
            title { "Which way to turn" }
            desc { (said(turning)) }
            (arrow(ARROW, 0.0, turning.tighten, ("stroke-ink heavy", "fill-ink")))
            (arrow(ARROW, PI, turning.loosen, ("stroke-soft heavy dash-long", "fill-soft")))
            circle class="fill-steel stroke-ink bold" cx=[px(FACE.centre.x)] cy=[px(FACE.centre.y)] r=[px(HUB)] {}
            path class="fill-card stroke-ink fine" d=(splines().d()) {}
            @if let Some(runs) = turning.runs {
                (arrow(RUNS, PI / 2.0, runs, ("stroke-accent fine", "fill-accent")))
                text class="label start text-soft" x=[px(FACE.centre.x + RUNS + 9.0)] y=[px(FACE.centre.y + 4.5)] { "runs" }
            }
            (words(-94.0, "strong text-ink", "TIGHTEN".to_owned()))
            (words(-77.0, "text-ink", sense(turning.tighten).to_owned()))
            (words(84.0, "strong text-ink", "OFF".to_owned()))
            (words(101.0, "text-ink", sense(turning.loosen).to_owned()))
            (words(152.0, "text-soft", format!("seen {}", standing(turning.seen_from))))
        }
    };
    let whose = if turning.by_pump {
        "where the pump’s clock is read from"
    } else {
        "as long as no pump is described"
    };
    Drawing {
        svg,
        caption: format!(
            "The impeller is turned and the shaft held; you stand {}, {whose}. Whole arrow: tighten. \
             Dashed: off. The right-hand rule gives both, from the hand of the thread and the end it \
             goes on from. Turned at the shaft instead, both are the other way round.",
            standing(turning.seen_from)
        ),
    }
}

/// An arrow round the face, its middle at this angle.
fn arrow(radius: f64, middle: f64, turn: Rotation, (stroke, fill): (&str, &str)) -> Markup {
    let way = match turn {
        Rotation::Clockwise => 1.0,
        Rotation::Anticlockwise => -1.0,
    };
    let span = if radius < ARROW { SPAN * 0.55 } else { SPAN };
    let size = if radius < ARROW { 7.0 } else { 11.0 };
    let at = |share: f64| middle + way * span * share;
    let steps = 24_u8;
    let arc = (0..=steps).map(|step| FACE.at(radius, at(f64::from(step) / 12.0 - 1.0)));
    let tip = at(1.0) + way * 1.6 * size / radius;
    let head = Path::new()
        .to(FACE.at(radius, tip))
        .to(FACE.at(radius + size, at(1.0)))
        .to(FACE.at(radius - size, at(1.0)))
        .close();
    html! {
        path class=(stroke) d=(Path::new().through(arc).d()) {}
        path class=(fill) d=(head.d()) {}
    }
}

/// The splines of the hub.
fn splines() -> Path {
    let tooth = |n: u32| {
        let (low, high) = (19.0, 25.0);
        let at = |share: f64| TAU * (f64::from(n) + share) / f64::from(TEETH);
        [(low, 0.0), (low, 0.3), (high, 0.4), (high, 0.9)]
            .map(|(radius, share)| FACE.at(radius, at(share)))
    };
    Path::new().through((0..TEETH).flat_map(tooth)).close()
}

/// The picture in words.
fn said(turning: Turning) -> String {
    let runs = turning.runs.map_or_else(String::new, |runs| {
        let thread = match turning.running {
            Some(Running::Loosens) => ", which would unscrew it",
            _ => "",
        };
        format!(" Going ahead it turns {}{thread}.", sense(runs))
    });
    format!(
        "Seen {}: tighten the impeller {}, take it off {}.{runs}",
        standing(turning.seen_from),
        sense(turning.tighten),
        sense(turning.loosen)
    )
}
