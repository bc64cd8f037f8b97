//! The speed through the water from three headings or more.

use trial::figure::{Contribution, Figure, Origin, Part};
use trial::reduce::{Allowances, Circle, Leg, Pass, current};

use super::outing::{mean, real};

/// Speed and current, where the headings span enough and were run alike.
pub(super) fn headings(passes: &[Pass]) -> Option<(Figure, Circle)> {
    let leg = |pass: &Pass| Leg {
        speed: pass.speed.value,
        course: pass.course,
    };
    let legs: Vec<Leg> = passes.iter().map(leg).collect();
    let circle = current(&legs).ok()?;
    let allowed = Allowances::default();
    let speeds: Vec<&Figure> = passes.iter().map(|pass| &pass.speed).collect();
    let receiver = mean(&speeds)?.parts.into_iter();
    let mut parts: Vec<Contribution> = receiver
        .filter(|part| matches!(part.part, Part::Receiver | Part::Choice | Part::Step))
        .collect();
    // Three headings fit any circle: then the floor says what a run may be off by.
    parts.push(if circle.uncertainty.is_finite() {
        Contribution {
            part: Part::Scatter,
            uncertainty: circle.uncertainty,
            freedom: real(legs.len() - 3),
        }
    } else {
        Contribution::known(Part::Scatter, allowed.floor)
    });
    parts.push(Contribution::known(Part::Load, allowed.load));
    parts.push(Contribution::known(Part::Air, allowed.air));
    let speed = Figure::new(circle.speed, parts, Origin::Log).ok()?;
    Some((speed, circle))
}
