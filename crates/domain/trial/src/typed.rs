//! Figures a person read off a dash, a stop watch or a film, as figures like any other.

use crate::Error;
use crate::error::{not_negative, positive};
use crate::figure::{Contribution, Figure, Origin, Part};

/// How a figure was read.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `Readout.step` | between two numbers the readout can show | unit of the value |
/// | `Readout.accuracy` | standard uncertainty of what it shows | unit of the value |
/// | `Watch.hand` | half the width that a person's start and stop may be off by | `s` |
/// | `Film.rate` | frames a second | `1/s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Read {
    /// Off a readout.
    Readout {
        /// Between two numbers it can show.
        step: f64,
        /// Standard uncertainty of what it shows.
        accuracy: f64,
    },
    /// With a stop watch.
    Watch {
        /// By which starting and stopping together may be off, either way.
        hand: f64,
    },
    /// By counting frames of a film.
    Film {
        /// Frames a second.
        rate: f64,
    },
}

impl Read {
    /// A stop watch in a person's hand. Source: common practice, no source.
    pub const WATCH: Self = Self::Watch { hand: 0.2 };
}

/// A figure that was typed in, with what its reading may be off by.
///
/// Readout `u^2 = step^2 / 12 + accuracy^2`; watch `u = hand / sqrt 3`; film `u = 1 / (sqrt 6 rate)`, since
/// each of its two ends lies anywhere within a frame
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `value` | | as read | unit of the value |
/// | `read` | | how | |
///
/// Range: `value > 0`, `step >= 0`, `rate > 0`, something above zero.
/// Source: `jcgm-100`, 4.3.7 (a width in which every value is as probable).
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn typed(value: f64, read: Read) -> Result<Figure, Error> {
    positive("a figure typed in", value)?;
    let known = Contribution::known;
    let parts = match read {
        Read::Readout { step, accuracy } => {
            let step = positive("the step of a readout", step)?;
            let accuracy = not_negative("the accuracy of a readout", accuracy)?;
            vec![
                known(Part::Step, step / 12.0_f64.sqrt()),
                known(Part::Receiver, accuracy),
            ]
        }
        Read::Watch { hand } => {
            let hand = positive("the hand on a stop watch", hand)?;
            vec![known(Part::Hand, hand / 3.0_f64.sqrt())]
        }
        Read::Film { rate } => {
            let rate = positive("the frames a second", rate)?;
            vec![known(Part::Step, 1.0 / (6.0_f64.sqrt() * rate))]
        }
    };
    Figure::new(value, parts, Origin::Typed)
}
