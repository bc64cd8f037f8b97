//! What a leak test of the closed housing shows.

use clearance::leak::{self, Air, Instruments, Judged, Loss, Shown, Test};
use clearance::rectangular;

use super::{LeakShown, LeakTest, Push};
use crate::gap::REQUIRED;

/// The air around, `Pa`: the standard atmosphere, since few have a barometer. Assumed.
pub const AIR: f64 = 101_325.0;
/// Standard uncertainty of the air around, `Pa`: weather, and a bench up to some 300 m above the
/// sea. Assumed, no source.
pub const WEATHER: f64 = 2000.0;
/// Standard uncertainty of its change during a hold, `Pa`. Assumed, no source.
pub const DRIFT: f64 = 20.0;
/// Half width of the thermometer's error, `K`. Assumed, no source.
pub const THERMOMETER: f64 = 0.5;
/// Half width of a temperature that was not noted, about one that did not change, `K`. Assumed, no
/// source.
pub const UNNOTED: f64 = 2.0;
/// The temperature put in where none was noted, `K`; only its change matters.
const ROOM: f64 = 293.15;

/// What is said of a leak test.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What leaked, the temperature allowed for.
    pub loss: Loss,
    /// What may be said of it; where the manual names no fall, whether there is any.
    pub judged: Judged,
    /// The temperatures were noted.
    pub noted: bool,
}

/// Judges a test; none for one that [`decide`](crate::decide::decide) would have refused.
pub fn answer(test: &LeakTest) -> Option<Answer> {
    let sign = match test.push {
        Push::Pressure => 1.0,
        Push::Vacuum => -1.0,
    };
    let (from, to, thermometer) = match &test.temperatures {
        Some((from, to)) => (from.value, to.value, THERMOMETER),
        None => (ROOM, ROOM, UNNOTED),
    };
    let reading = |gauge: f64, temperature| Shown {
        gauge: sign * gauge,
        temperature,
    };
    let loss = leak::loss(&Test {
        start: reading(test.start.value, from),
        end: reading(test.end.value, to),
        hold: test.hold.value,
        air: Air {
            pressure: AIR,
            uncertainty: WEATHER,
            drift: DRIFT,
        },
        instruments: Instruments {
            gauge: rectangular(0.5 * test.step.value),
            thermometer: rectangular(thermometer),
        },
    })
    .ok()?;
    let allowed = test.allowed.as_ref().map_or(0.0, |allowed| allowed.value);
    Some(Answer {
        judged: leak::judge(&loss, allowed, REQUIRED).ok()?,
        loss,
        noted: test.temperatures.is_some(),
    })
}

/// What is put on record of a test.
pub(crate) fn shown(test: &LeakTest) -> Option<LeakShown> {
    let answer = answer(test)?;
    Some(LeakShown {
        verdict: answer.judged.verdict,
        loss: answer.loss.loss,
        uncertainty: answer.loss.uncertainty,
    })
}
