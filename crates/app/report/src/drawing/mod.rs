//! Trade drawings: the real thing, drawn from the numbers, with what is exaggerated said beside it.

mod bead;
mod driveline;
mod flange;
mod impeller;
mod lips;
mod plate;
mod ring;
mod shaft;

use maud::Markup;
use workshop::job::{Rotation, View};

pub use bead::{Bead, bead};
pub use driveline::{Driveline, Foot, Lie, driveline};
pub use flange::{Flange, flange};
pub use lips::lips;
pub use ring::ring;
pub use shaft::shaft;

/// The style sheet of every drawing and chart. It uses the page's custom properties `--paper`,
/// `--card`, `--ink`, `--soft`, `--line`, `--accent`, `--good`, `--warn`, `--stop`, `--steel`,
/// `--hatch`; the class names are listed in [`chart`].
pub const STYLE: &str = include_str!("drawing.css");

/// A drawing with the words that belong under it.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// The picture.
    pub svg: Markup,
    /// From where it is seen, what is exaggerated, what the lines mean.
    pub caption: String,
}

/// The wear ring in section with the impeller inside, as far as it was measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// Number of blades.
    pub blades: u8,
    /// Number of clock positions.
    pub positions: u8,
    /// Bore of the ring in the display unit; how much the gap is exaggerated follows from it.
    pub bore: f64,
    /// From which end the clock is read.
    pub view: View,
    /// Which way the impeller turns in that view.
    pub rotation: Rotation,
    /// Per clock position the least gap over the blades read there, in the display unit.
    pub gaps: Vec<Option<Gap>>,
    /// Per clock position how it stands.
    pub standing: Vec<Mark>,
    /// Least and greatest radial gap allowed, in the display unit.
    pub limits: (Option<f64>, Option<f64>),
    /// The display unit: `thou` or `mm`.
    pub unit: &'static str,
    /// Decimals of the numbers on the ring.
    pub decimals: u32,
    /// The spot asked next: blade and position, from zero. That blade is drawn pointing there;
    /// without one, blade A points to the first position. Letters run with the clock.
    pub at: Option<(u8, u8)>,
    /// The shaft stands upright: no side of the ring is up.
    pub across: bool,
}

/// A gap with its interval, in the display unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Lower end of the interval.
    pub low: f64,
    /// Median.
    pub middle: f64,
    /// Upper end of the interval.
    pub high: f64,
}

/// How one clock position stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Nothing read there yet.
    Unread,
    /// Read, and no limit to hold it against.
    Read,
    /// Its whole interval is allowed.
    In,
    /// Its interval straddles a limit.
    Near,
    /// Its whole interval is beyond a limit.
    Out,
    /// Its readings contradict each other.
    Contradiction,
}
