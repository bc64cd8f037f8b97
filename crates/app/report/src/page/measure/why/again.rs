//! What to read next for the cause, what to read again, and whether what was read twice holds.

use clearance::{Bracket, bracket};
use workshop::gap::Judgement;
use workshop::job::{Fact, Spot, Tried, blade_name, felt};
use workshop::walk::progress;
use workshop::why::Why;

use super::{View, unit};
use crate::page::{Section, Target};
use crate::words;

/// The reading that would tell most, and once all is read the two that show whether it holds.
pub(super) fn next(view: &View<'_>, judgement: &Judgement, why: &Why) -> Option<Section> {
    let link = |spot: Spot, words: String, more: String| {
        (Target::Spot(view.id.clone(), spot), words, more)
    };
    let name = |spot: Spot| {
        format!(
            "Blade {} at {}",
            blade_name(spot.blade),
            view.job.clock(spot)
        )
    };
    let mut links = Vec::new();
    if let Some(next) = why.next.filter(|_| !why.told) {
        let leaf = words::short(next.leaf, unit(view));
        links.push(link(
            next.spot,
            format!(
                "{}, with the {leaf}\u{a0}{} leaf",
                name(next.spot),
                unit(view).symbol()
            ),
            format!("it goes with {}", words::percent(next.goes)),
        ));
    }
    let read = progress(view.job).next.is_none();
    if let Some(gap) = judgement.gap.as_ref().filter(|_| read) {
        let ends = [(gap.tightest, "the tightest"), (gap.widest, "the widest")];
        let once = ends
            .into_iter()
            .filter(|(spot, _)| !view.job.before.contains_key(spot));
        links.extend(once.map(|(spot, which)| {
            let more = format!("{which}, once more after a whole turn: does it hold?");
            link(spot, name(spot), more)
        }));
    }
    (!links.is_empty()).then(|| Section::Links {
        heading: "What would tell more".to_owned(),
        links,
    })
}

/// Spots measured anew that read otherwise than before.
pub(super) fn read_twice(view: &View<'_>) -> Option<Section> {
    let unit = unit(view);
    let reads = |tries: &[Fact<Tried>]| bracket(&felt(tries)).ok();
    let written = |of: Bracket| match (of.goes, of.wont) {
        (Some(goes), Some(wont)) => {
            format!("{}–{}", words::short(goes, unit), words::short(wont, unit))
        }
        (Some(goes), None) => format!("over {}", words::short(goes, unit)),
        (None, Some(wont)) => format!("under {}", words::short(wont, unit)),
        (None, None) => "nothing".to_owned(),
    };
    let apart = |one: Bracket, other: Bracket| {
        let above = |low: Option<f64>, high: Option<f64>| {
            low.zip(high).is_some_and(|(low, high)| low >= high)
        };
        above(one.goes, other.wont) || above(other.goes, one.wont)
    };
    let (mut alike, mut notes) = (0, Vec::new());
    for (spot, old) in &view.job.before {
        let now = view.job.tries.get(spot).and_then(|now| reads(now));
        let Some((old, now)) = reads(old).zip(now) else {
            continue;
        };
        if apart(old, now) {
            notes.push(format!(
                "Blade {} at {} read {} before and reads {} now, {}: if nothing was changed between, the \
                 rotor moves in its seat or one of them was a slip.",
                blade_name(spot.blade),
                view.job.clock(*spot),
                written(old),
                written(now),
                unit.symbol()
            ));
        } else {
            alike += 1;
        }
    }
    if alike > 0 {
        let spots = words::count(alike, "spot", "spots");
        notes.push(format!("{spots} read twice, and alike."));
    }
    (!notes.is_empty()).then(|| Section::Notes {
        heading: "Read twice".to_owned(),
        notes,
    })
}
