//! Tests of the public face.
#![expect(
    clippy::unwrap_used,
    reason = "a test whose input is refused has failed"
)]

mod align;
mod budget;
mod causes;
mod causes_laws;
mod causes_rank;
mod causes_speed;
mod causes_study;
mod chord;
mod cone;
mod conformity;
mod form;
mod laws;
mod leak;
mod lobes;
mod population;
mod posterior;
mod pumps;
mod reading;
mod refused;
mod refused_around;
mod risk;
mod rotor;
mod sleeve;
mod thermal;
mod trend;
mod walk;

use clearance::{Answer, Try};

/// A thousandth of an inch.
const THOU: f64 = 25.4e-6;

fn tried(thou: f64, answer: Answer) -> Try {
    Try {
        thickness: thou * THOU,
        answer,
    }
}

#[track_caller]
fn assert_near(ours: f64, theirs: f64, within: f64) {
    assert!(
        (ours - theirs).abs() <= within,
        "{ours} against {theirs}, allowed {within:e}"
    );
}
