//! Tip clearance from leaf gauge readings: cells, posterior, conformity.
//!
//! A leaf (feeler) gauge never reads a gap; it says that one leaf went in and the next did not.
//! This crate carries that interval all the way to the answer instead of rounding it to a number.
//!
//! 1. [`cell`] reduces the leaves tried at one spot to one interval of the *indicated* gap.
//! 2. [`posterior`] draws the true radial gap of every spot, given all the cells and a [`Model`]
//!    of what stands between a leaf and a gap: feel, leaf thickness, the chord of a flat leaf.
//! 3. [`conformity`] holds the draws against a limit, and [`verdict`] says in, out or undecided.
//! 4. [`causes`] says why: what is the ring's, what a blade's, and what would mend it.
//!
//! The indicated gap `z` of a spot and its true radial gap `g` are tied by
//!
//! `z = g - c - b + e`
//!
//! | symbol | meaning | shared? | law | unit |
//! |--------|---------|---------|-----|------|
//! | g | true radial gap | one a spot | `g - c - b` normal(m, sd), never below zero | `m` |
//! | c | chord of the flat leaf in the round bore | by all spots | uniform on 0 to the [`sagitta`] | `m` |
//! | b | thickness error of the leaf set | by all spots | uniform on minus to plus the tolerance | `m` |
//! | e | scatter of the feel | one a spot | normal(0, scatter) | `m` |
//!
//! `e` belongs to the spot and not to the try: pushing the same leaf into the same spot ten times
//! teaches nothing new, so ten tries narrow nothing.
//!
//! Round the gap, each in a module of its own: [`form`] of a bore and its [`lobes`], [`risk`] of judging by a reading, a
//! [`sleeve`] in its housing, [`thermal`] and water in a polymer ring, the [`trend`] of wear, the
//! [`leak`] test of a closed housing, play of the [`rotor`], and a conical ring with its shims in
//! [`cone`]. Their derivation is in `docs/theory/around-the-gap.md`. In front of the pump stands the
//! engine: [`align`] says whether both are in line, and `docs/theory/alignment.md` why.
//!
//! All lengths are in metres. The derivation is in `docs/theory/clearance.md`.

pub mod align;
mod budget;
pub mod causes;
mod chord;
pub mod cone;
mod conformity;
mod error;
pub mod form;
mod grid;
mod interval;
pub mod leak;
pub mod lobes;
mod normal;
pub mod population;
mod posterior;
mod reading;
pub mod risk;
pub mod rotor;
pub mod sleeve;
pub mod thermal;
pub mod trend;

pub use budget::{Budget, Combined, Contribution, budget, combine, rectangular};
pub use chord::sagitta;
pub use conformity::{
    Band, Conformity, Estimated, Limits, Verdict, conformity, probability_in_interval, verdict,
};
pub use error::Error;
pub use interval::Interval;
pub use normal::{ln_cell_probability, ln_normal_cdf};
pub use posterior::{Estimate, Model, Posterior, posterior};
pub use reading::{Answer, Bracket, Cell, Contradiction, Feel, Try, bracket, cell};

/// A count as a number to compute with.
#[expect(
    clippy::cast_precision_loss,
    reason = "spots and draws stay far below 2^52"
)]
fn real(count: usize) -> f64 {
    count as f64
}
