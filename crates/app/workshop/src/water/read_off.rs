//! Figures read off, as the same kind of figure as a measured one.

use quantity::Unit;
use trial::figure::Figure;
use trial::reduce::Pass;
use trial::runs::Receiver as Budget;
use trial::typed::{self, typed};

use super::outing::real;
use super::{OutingState, Read, Way, What};

/// Figures typed one after the other, `s` apart. Assumed.
const BETWEEN: f64 = 120.0;
/// A display of the craft may be off by this much, `m/s`. Assumed.
pub(super) const DISPLAY: f64 = 0.5;
/// A display of the engine's speed may be off by this much, `rad/s`: 50 rpm. Assumed.
pub(super) const TACHOMETER: f64 = 5.2;
/// Frames a second of a video. Common practice, no source.
const FRAMES: f64 = 30.0;

/// Top speeds read off there and back, as passes one after the other.
pub(super) fn told(state: &OutingState) -> Vec<Pass> {
    let mut passes = Vec::new();
    for figure in figures(state) {
        let course = match figure.what {
            What::TopSpeed(Way::There) => 0.0,
            What::TopSpeed(Way::Back) => std::f64::consts::PI,
            _ => continue,
        };
        if let Some(speed) = read_off(figure, DISPLAY) {
            passes.push(Pass {
                time: BETWEEN * real(passes.len()),
                course,
                speed,
            });
        }
    }
    passes
}

pub(super) fn figures(state: &OutingState) -> impl Iterator<Item = &super::Figure> {
    state.figures.iter().flat_map(|fact| &fact.value)
}

/// A figure read off, with what it may be off by.
pub(super) fn read_off(figure: &super::Figure, display: f64) -> Option<Figure> {
    let step = step(&figure.value.text, figure.value.unit);
    let read = match figure.read {
        Read::Display => typed::Read::Readout {
            step,
            accuracy: display,
        },
        Read::Receiver => typed::Read::Readout {
            step,
            accuracy: Budget::PHONE.speed.min(display),
        },
        Read::StopWatch => typed::Read::WATCH,
        Read::Video => typed::Read::Film { rate: FRAMES },
    };
    // A speed is not timed: then its step says how well it was read.
    let timed = matches!(figure.what, What::Start { .. });
    let read = match read {
        typed::Read::Watch { .. } | typed::Read::Film { .. } if !timed => typed::Read::Readout {
            step,
            accuracy: display,
        },
        typed::Read::Readout { .. } if timed => typed::Read::WATCH,
        read => read,
    };
    typed(figure.value.value, read).ok()
}

/// One of the last digit written, in SI: `52.3 mph` has a step of 0.1 mph.
fn step(text: &str, unit: Unit) -> f64 {
    let number: String = text
        .trim()
        .chars()
        .take_while(|c| c.is_ascii_digit() || matches!(c, '.' | ','))
        .collect();
    let decimals = number
        .split_once(['.', ','])
        .map_or(0, |(_, part)| part.len());
    let one = match decimals {
        0 => "1".to_owned(),
        n => format!("0.{}1", "0".repeat(n - 1)),
    };
    quantity::parse(&one, unit).map_or(0.0, |entered| entered.value)
}
