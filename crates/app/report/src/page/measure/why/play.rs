//! Whether the bearing's play explains that the impeller is off centre.

use std::f64::consts::{PI, TAU};

use clearance::causes::Effect;
use workshop::inspect::rotor::{Travel, answer};
use workshop::job::Posture;

use super::{View, unit};
use crate::words;

/// An upright rotor hangs towards 6, so that the gap is widest at 12; half an hour either way is
/// within what a hand holds level.
const LEVEL: f64 = PI / 12.0;

/// What stands behind an offset: with the play measured, how much of it the play can be.
pub(super) fn off_centre(view: &View<'_>, effect: &Effect) -> String {
    let usual = "bearing play, or ring, stator or housing not seated";
    let rotor = view.job.inspected.rotor.as_ref();
    let checks = rotor.map(|rotor| answer(&rotor.value).checks);
    let play = checks.and_then(|checks| {
        let radial = checks
            .into_iter()
            .find(|check| check.travel == Travel::Radial);
        radial.map(|check| check.found.value)
    });
    let (Effect::Wave { size, towards }, Some(play)) = (effect, play) else {
        return format!(
            "{usual}; the gap does not say which: measure the play on the Teardown page"
        );
    };
    let half = words::length(play / 2.0, unit(view));
    let off_top = (towards.angle + PI).rem_euclid(TAU) - PI;
    let hangs = view.job.leaves.as_ref().is_some_and(|leaves| {
        matches!(
            leaves.value.posture,
            Posture::CraftUpright | Posture::BenchShaftLevel
        )
    });
    if play / 2.0 < size.low {
        format!(
            "the bearing’s play lets it stand off by {half} at most, which is less: look at the seats \
             of ring, stator and housing"
        )
    } else if hangs && off_top.abs() > towards.within + LEVEL {
        format!(
            "the bearing’s play lets it hang {half} down, and this points elsewhere: look at the seats \
             of ring, stator and housing"
        )
    } else {
        format!("the bearing’s play lets it stand off by {half}, which is enough for all of it")
    }
}
