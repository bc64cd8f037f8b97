//! Which cause fits what was seen, and which check tells most next.
//!
//! A craft falls short of what it did, or of what it should do. Every cause would change what is seen in
//! its own way; this crate weighs all of them by all that is known, and never by one sign alone.
//!
//! 1. [`fault`] is the closed list of causes, nothing wrong and not on the list among them, with priors.
//! 2. [`signature`] is what a fault of some size changes of speeds and times, belief by belief, and how
//!    far the model of it may be off. Whoever calls brings the numbers; this crate knows no craft, but
//!    [`others`](mod@others) tells what faults have changed of many.
//! 3. [`symptom`] and [`check`] are what a person hears and finds, with how often each cause shows it.
//! 4. [`weigh`](mod@weigh) makes of all that the chance of every cause, and says what each piece carried.
//! 5. [`next`] tells what a check is worth beforehand, by the minute.
//! 6. [`score`] judges told chances once the truth is known.
//!
//! Quantities are coherent SI. The derivation is in `docs/theory/diagnosis.md`.

pub mod check;
mod error;
pub mod fault;
pub mod next;
pub mod others;
pub mod score;
pub mod signature;
pub mod symptom;
pub mod weigh;

pub use error::Error;

/// A count as a number to compute with.
#[expect(clippy::cast_precision_loss, reason = "counts stay far below 2^52")]
pub(crate) fn real(count: usize) -> f64 {
    count as f64
}
