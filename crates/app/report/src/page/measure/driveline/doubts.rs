//! What keeps the driveline open, and what would decide it.

use clearance::Verdict;
use quantity::Unit;
use workshop::inspect::align::{Alignment, Answer, Doubt, Limited, Read};

use super::{both, of};
use crate::words as said;

/// What keeps it open, and what would decide it.
pub(super) fn doubts(said: &Alignment, answer: &Answer, unit: Unit) -> Vec<String> {
    let mut notes: Vec<String> = answer
        .doubt
        .map(|doubt| one(doubt, unit))
        .into_iter()
        .collect();
    if answer.verdict == Verdict::Out && matches!(said.read, Read::Slides(_)) {
        notes.push(
            "Bound at one place of the shaft only, look at the bar and the coupling for a bend first; \
             bound at all, read gaps or dials to get the shims."
                .to_owned(),
        );
    }
    let states = |what| answer.held.iter().any(|held| held.what == what);
    match (states(Limited::Offset), states(Limited::Angle)) {
        (true, false) => {
            notes.push("The angle is held against nothing: no limit is stated.".to_owned());
        }
        (false, true) => {
            notes.push("The offset is held against nothing: no limit is stated.".to_owned());
        }
        _ => {}
    }
    if !answer.moves.is_empty() {
        notes.push(
            "The engine is taken for stiff and its roll is left as found; rubber mounts give, so \
             what counts is the reading after the bolts are tight."
                .to_owned(),
        );
    }
    notes
}

fn one(doubt: Doubt, unit: Unit) -> String {
    match doubt {
        Doubt::Open(place, quarter, closure) => format!(
            "The readings {} do not close{}: 12 and 6 together differ from 3 and 9 by {}, and the \
             instrument explains {} at most. The dial moved, the shaft floated or a reading slipped: \
             read all four again. Sag of a bracket does not show here.",
            of(place),
            match quarter {
                0 => String::new(),
                n => format!(" with the shaft turned {}°", 90 * u16::from(n)),
            },
            both(closure.error.abs(), unit),
            said::length(closure.explained, unit)
        ),
        Doubt::Misfit(place, misfit, explained) => format!(
            "One place of the shaft does not fit the others {}: off by {}, and the instrument \
             explains {} at most. Read that place again.",
            of(place),
            both(misfit, unit),
            said::length(explained, unit)
        ),
        Doubt::NoSag => "How far the dial’s bracket sags was not looked at, so how high the engine stands is not \
             known. Set the bracket on a straight pipe, zero at 12, turn it to 6, and write what it \
             shows.".to_owned(),

        Doubt::NoLimit => "The manual’s limits are not stated, so nothing is called in line. Its greatest offset \
             and angle would decide it.".to_owned(),

        Doubt::NoPage => "It slides in at all four, which is common practice for in line, no source. The page of \
             the manual that takes it for its test would decide it.".to_owned(),

        Doubt::NoAngle => "One place along the bar tells no angle. Gaps at a second place, as far off as the bar \
             allows, would decide it and give the shims.".to_owned(),

        Doubt::Close => "It lies too near a limit for this instrument. A finer one, or the shaft turned to all \
             four places, would decide it.".to_owned(),

    }
}
