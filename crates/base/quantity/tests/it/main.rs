//! What a person may write, what comes of it, and how it is shown again.

mod laws;
mod reading;
mod refusing;
mod values;
mod wording;

use quantity::{Kind, Unit, parse};

/// The SI value of a text that must be accepted.
fn si(text: &str, bare: Unit) -> f64 {
    parse(text, bare)
        .unwrap_or_else(|error| panic!("{error}"))
        .value
}

/// The SI unit of the kind, for a text that names its own unit.
fn base(kind: Kind) -> Unit {
    *Unit::ALL
        .iter()
        .find(|unit| unit.kind() == kind)
        .expect("every kind has units")
}
