//! What people write at a bench, as SI numbers, and back.
//!
//! # One conversion, at the edge
//!
//! Inside the program a number is an `f64` in coherent SI: metres, newtons, pascals, kelvins,
//! radians, seconds. People write `13 thou`, `5-5/16"`, `18 ft-lb`, `48 °F`. This crate is the
//! only door between the two, and the only place in the workspace that knows a conversion factor:
//!
//! - [`parse`] turns text into SI, once, when it is typed;
//! - [`number`] and [`format()`] turn SI into text, once, when it is shown.
//!
//! Nothing in between converts anything. What was typed travels beside the value in [`Entered`],
//! so a reading can always be shown the way it was written.
//!
//! # Exact until the last step
//!
//! Text is read as an exact decimal or fraction, multiplied by an exact factor, and rounded to the
//! nearest `f64` only at the end. Therefore `13 thou`, `0.013 in` and `0.3302 mm` are the very same
//! number, bit for bit, and so are `1/8 turn` and `45°`.
//!
//! Factors are the definitions themselves (inch 0.0254 m, pound 0.45359237 kg, standard gravity
//! 9.80665 m/s², US gallon 231 in³), never a rounded product of them.
//!
//! ```
//! use quantity::{Unit, format, parse};
//!
//! let gap = parse("13 thou", Unit::Millimetre)?;
//! assert_eq!(gap.value, 0.0003302);
//! assert_eq!(gap.value, parse("0.3302", Unit::Millimetre)?.value);
//! assert_eq!(format(gap.value, Unit::Millimetre, 2), "0.33\u{a0}mm");
//! # Ok::<(), quantity::ParseError>(())
//! ```
//!
//! # What it does not decide
//!
//! Whether a length may be negative, or a pressure is above ambient or absolute, is the business
//! of whoever asked for it. A pressure is converted as it stands: gauge stays gauge.

mod error;
mod exact;
mod factor;
mod format;
mod parse;
mod spelling;
mod unit;

pub use error::{ParseError, Reason};
pub use format::{format, number};
pub use parse::{Entered, Plain, parse, plain};
pub use unit::{Kind, Unit};
