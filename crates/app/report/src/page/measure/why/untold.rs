//! What the readings, or the leaves, cannot tell.

use clearance::causes::{Cause, Untold};
use quantity::Unit;
use workshop::assemble::words::capital;
use workshop::gap::Judgement;
use workshop::inspect::size::diameters;
use workshop::why::{Why, blade_of, clock_of};

use super::{View, unit};
use crate::words;

pub(super) fn cannot(view: &View<'_>, why: &Why, untold: &Untold) -> Option<String> {
    let unit = unit(view);
    let shown = |cause: &Cause| why.causes.iter().any(|one| one.cause == *cause);
    Some(match untold {
        Untold::RingOrImpeller => ring_or_impeller(view),
        Untold::Chord(most) => format!(
            "A flat leaf across the curve reads low everywhere by up to {}; no pattern shows that. \
             Lead the leaf in along the ring, or take a narrower one.",
            words::length(*most, unit)
        ),
        Untold::OneBlade(blade) => format!(
            "Only blade {} is read: nothing is known of the other blades. Bring each of them to the \
             tightest place.",
            blade_of(*blade)
        ),
        Untold::OnePosition(position) => format!(
            "Only {} is read: nothing is known of the ring’s form. Carry one blade round the clock.",
            clock_of(view.job, *position)
        ),
        Untold::Unturned { .. } => {
            "The impeller was not turned enough: a blade and the ring under \
                                    it are one. Read a second blade at a place that is read."
                .to_owned()
        }
        Untold::Partial(Cause::Oval) => {
            "At these clock positions an oval shows along two axes only. Read eight positions."
                .to_owned()
        }
        Untold::Alike(one, other) if shown(one) || shown(other) => format!(
            "{} and {} look the same at the spots read.",
            capital(kind(view, *one).as_str()),
            kind(view, *other)
        ),
        Untold::Invisible(cause) if !matches!(cause, Cause::Stray(_)) => {
            format!(
                "{} would not show at the spots read.",
                capital(&kind(view, *cause))
            )
        }
        _ => return None,
    })
}

/// A cause without its size.
fn kind(view: &View<'_>, cause: Cause) -> String {
    match cause {
        Cause::OffCentre => "impeller and ring off centre".to_owned(),
        Cause::Oval => "an oval ring".to_owned(),
        Cause::Local(position) => {
            format!("a swelling or gouge at {}", clock_of(view.job, position))
        }
        Cause::Blade(blade) => format!("a short or long blade {}", blade_of(blade)),
        Cause::Runout => "an impeller off its own centre".to_owned(),
        Cause::Uneven => "blades of different lengths".to_owned(),
        Cause::Stray(spot) => format!(
            "a slip at {} {}",
            blade_of(spot.blade),
            clock_of(view.job, spot.position)
        ),
    }
}

/// What the leaf set itself leaves open.
pub(super) fn leaves(view: &View<'_>, judgement: &Judgement) -> Vec<String> {
    let Some(set) = &judgement.leaves else {
        return Vec::new();
    };
    let unit = unit(view);
    let mut notes = Vec::new();
    if !set.shows_in {
        notes.push(
            "No reading with these leaves would show that the limits are kept: they are too coarse, \
             or too far from the limits."
                .to_owned(),
        );
    }
    let bands = set
        .undecided
        .iter()
        .filter(|band| band.high.is_finite() && band.low > 0.0);
    let bands: Vec<String> = bands
        .map(|band| words::interval(band.low, band.high, unit))
        .collect();
    if !bands.is_empty() {
        notes.push(format!(
            "One spot alone, felt with these leaves, stays undecided from {}. A leaf between those \
             there decides more.",
            words::list(&bands, 4)
        ));
    }
    notes
}

/// Which of the two is worn, as far as a diameter says.
fn ring_or_impeller(view: &View<'_>) -> String {
    let unit = unit(view);
    let sizes = view.job.inspected.sizes.as_ref();
    let found = sizes.and_then(|sizes| diameters(&sizes.value));
    let described = view.job.pump.as_ref().map(|pump| &pump.value.bore);
    match found.zip(described) {
        None => {
            "A gap wide all round may be a worn ring or a worn impeller: one diameter decides, of \
                 the bore or over the blades."
                .to_owned()
        }
        Some((found, described)) => {
            let by = 0.5 * (found.mean - described.value);
            format!(
                "The bore measures {} on the mean and was described as {}: the ring is {} {} on one \
                 side; what is left of the gap is the impeller’s.",
                quantity::format(found.mean, Unit::Millimetre, 3),
                described.worded(),
                words::length(by.abs(), unit),
                if by < 0.0 { "tighter" } else { "wider" }
            )
        }
    }
}
