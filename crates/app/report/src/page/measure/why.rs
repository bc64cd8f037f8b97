//! Why the gap is as it is, what would cure it, and what would tell more.

mod again;
mod cure;
mod play;
mod untold;

use std::f64::consts::TAU;

use clearance::Estimate;
use clearance::causes::{Cause, Effect};
use workshop::assemble::words::capital;
use workshop::gap::Judgement;
use workshop::job::{blade_name, clock_name};
use workshop::why::{Explaining, Round, Why, blade_of, clock_of};

use super::{View, unit};
use crate::page::{FactRow, Section, plain, row, strong};
use crate::words;

pub(super) fn sections(view: &View<'_>, judgement: &Judgement) -> Vec<Section> {
    let mut sections = Vec::new();
    let Some(why) = &judgement.why else {
        sections.extend(notes(
            "What these leaves cannot tell",
            untold::leaves(view, judgement),
        ));
        sections.extend(again::read_twice(view));
        return sections;
    };
    let mut rows = causes(view, why);
    rows.extend(judgement.round.map(|round| out_of_round(view, round)));
    sections.push(Section::Facts {
        heading: "Why".to_owned(),
        rows,
    });
    let cures = cure::cures(view, why);
    if !cures.is_empty() {
        sections.push(Section::Facts {
            heading: "What would cure it".to_owned(),
            rows: cures,
        });
    }
    sections.extend(again::next(view, judgement, why));
    sections.extend(again::read_twice(view));
    let open: Vec<String> = why
        .untold
        .iter()
        .filter_map(|it| untold::cannot(view, why, it))
        .collect();
    let open = open.into_iter().chain(small(view, why)).collect();
    sections.extend(notes("What these readings cannot tell", open));
    sections
}

/// Causes of about one step between the leaves: the study of the clearance says what their sizes are
/// worth.
fn small(view: &View<'_>, why: &Why) -> Option<String> {
    let leaves = &view.job.leaves.as_ref()?.value.thicknesses;
    let steps = leaves.windows(2).map(|pair| pair[1].value - pair[0].value);
    let step = steps.min_by(f64::total_cmp)?;
    let is_small = |one: &&Explaining| match &one.effect {
        // From the widest to the tightest place.
        Effect::Wave { size, .. } => 2.0 * size.median < 1.5 * step,
        Effect::Amount(amount) => amount.median.abs() < 1.5 * step,
        Effect::Each(_) => false,
    };
    let first = why.causes.iter().filter(|one| one.first);
    let small: Vec<&Explaining> = first.filter(is_small).collect();
    (!small.is_empty()).then(|| {
        format!(
            "How large so little is: {}. About one step between your leaves is named only when the \
             readings make it look large; it may well be less, and the interval holds it in some 8 \
             of 10 pumps, not 9.",
            words::list(&together(view, &small), 4)
        )
    })
}

fn notes(heading: &str, notes: Vec<String>) -> Option<Section> {
    (!notes.is_empty()).then(|| Section::Notes {
        heading: heading.to_owned(),
        notes,
    })
}

/// The best explanation in one sentence, or that there is none yet.
pub(super) fn sentence(view: &View<'_>, why: &Why) -> Option<String> {
    let first: Vec<&Explaining> = why.causes.iter().filter(|one| one.first).collect();
    if first.is_empty() {
        return None;
    }
    let what = words::list(&together(view, &first), 4);
    let sure = words::percent(why.probability);
    Some(if why.told {
        format!(" What the pattern shows ({sure}): {what}.")
    } else {
        format!(" Most likely, and not told apart yet ({sure}): {what}.")
    })
}

/// The names of causes, with places of the ring that are worn alike in one: `… at 4:30 and 6`.
fn together(view: &View<'_>, causes: &[&Explaining]) -> Vec<String> {
    let local = |one: &Explaining| match one.cause {
        Cause::Local(position) => Some((wider(&one.effect), position)),
        _ => None,
    };
    let mut named = Vec::new();
    for wide in [true, false] {
        let places = causes.iter().filter_map(|one| local(one));
        let mut places: Vec<usize> = places.filter(|(w, _)| *w == wide).map(|(_, p)| p).collect();
        places.sort_unstable();
        let clocks: Vec<String> = places.iter().map(|p| clock_of(view.job, *p)).collect();
        if !clocks.is_empty() {
            let how = if wide {
                "worn or gouged"
            } else {
                "swollen inward"
            };
            named.push(format!("the ring {how} at {}", words::list(&clocks, 6)));
        }
    }
    let others = causes.iter().filter(|one| local(one).is_none());
    named.extend(others.map(|one| name(view, one)));
    named
}

fn causes(view: &View<'_>, why: &Why) -> Vec<FactRow> {
    if why.causes.is_empty() {
        return vec![row(
            "Nothing stands out".to_owned(),
            vec![strong(words::percent(why.probability))],
            "ring and blades are as even as they are rough".to_owned(),
        )];
    }
    let row = |one: &Explaining| {
        row(
            capital(&name(view, one)),
            vec![
                strong(words::percent(one.probability)),
                plain(format!(" · {}", amount(view, one))),
            ],
            match one.cause {
                Cause::OffCentre => play::off_centre(view, &one.effect),
                _ => meaning(one).to_owned(),
            },
        )
    };
    why.causes.iter().map(row).collect()
}

fn name(view: &View<'_>, one: &Explaining) -> String {
    let clock = |position: usize| clock_of(view.job, position);
    match one.cause {
        Cause::OffCentre => "impeller and ring off centre".to_owned(),
        Cause::Oval => "the ring oval".to_owned(),
        Cause::Local(p) if wider(&one.effect) => format!("the ring worn or gouged at {}", clock(p)),
        Cause::Local(p) => format!("the ring swollen inward at {}", clock(p)),
        Cause::Blade(k) if wider(&one.effect) => format!("blade {} short", blade_of(k)),
        Cause::Blade(k) => format!("blade {} long", blade_of(k)),
        Cause::Runout => "the impeller off its own centre".to_owned(),
        Cause::Uneven => "blades of different lengths".to_owned(),
        Cause::Stray(spot) => format!(
            "one reading that stands alone, {} {}",
            blade_of(spot.blade),
            clock(spot.position)
        ),
    }
}

fn out_of_round(view: &View<'_>, round: Round) -> FactRow {
    row(
        "The ring’s form".to_owned(),
        vec![plain(if round.zone > round.grain {
            format!(
                "out of round by about {} on the radius",
                words::length(round.zone, unit(view))
            )
        } else {
            format!(
                "round as far as the leaves tell, within {}",
                words::length(round.grain, unit(view))
            )
        })],
        format!(
            "blade {} at {} positions, the narrowest zone that holds them; a roundness by the standard \
             takes many more",
            blade_name(round.blade),
            round.positions
        ),
    )
}

/// What a cause speaks of.
fn meaning(one: &Explaining) -> &'static str {
    match one.cause {
        Cause::OffCentre => "bearing play, or ring, stator or housing not seated",
        Cause::Oval => "distorted by its bolts or its seat, or worn so",
        Cause::Local(_) if wider(&one.effect) => "every blade meets it there, so it is the ring’s",
        Cause::Local(_) => {
            "corroded behind, or something under it; every blade meets it there, so it is the ring’s"
        }
        Cause::Blade(_) => "it carries that wherever it goes, so it is the blade’s",
        Cause::Runout => "bent, or not seated on its shaft",
        Cause::Uneven => "worn or worked unevenly",
        Cause::Stray(_) => "the leaf rode on a ridge, or a slip: feel it again",
    }
}

fn wider(effect: &Effect) -> bool {
    matches!(effect, Effect::Amount(amount) if amount.median > 0.0)
}

fn amount(view: &View<'_>, one: &Explaining) -> String {
    let unit = unit(view);
    match &one.effect {
        Effect::Wave { size, towards } => {
            let place = match one.cause {
                Cause::Oval => {
                    let across = (towards.angle + TAU / 2.0).rem_euclid(TAU);
                    format!("widest at {} and {}", hour(towards.angle), hour(across))
                }
                Cause::Runout => format!("shortest near blade {}", nearest(view, towards.angle)),
                _ => format!("gap widest towards {}", hour(towards.angle)),
            };
            format!(
                "{} ({}), {place}, to within {:.0}°",
                words::length(size.median, unit),
                words::interval(size.low, size.high, unit),
                towards.within.to_degrees()
            )
        }
        Effect::Amount(amount) => magnitude(view, amount),
        Effect::Each(each) => blade_by_blade(view, each),
    }
}

fn blade_by_blade(view: &View<'_>, each: &[Estimate]) -> String {
    let each = each.iter().enumerate();
    let each = each.map(|(k, by)| format!("{} {}", blade_of(k), signed(view, by)));
    each.collect::<Vec<_>>().join(", ")
}

/// Without its sign, which stands in the name.
fn magnitude(view: &View<'_>, amount: &Estimate) -> String {
    let unit = unit(view);
    let (low, high) = if amount.median < 0.0 {
        (-amount.high, -amount.low)
    } else {
        (amount.low, amount.high)
    };
    format!(
        "{} ({})",
        words::length(amount.median.abs(), unit),
        words::interval(low, high, unit)
    )
}

fn signed(view: &View<'_>, by: &Estimate) -> String {
    let sign = if by.median < 0.0 { "−" } else { "+" };
    format!("{sign}{}", words::length(by.median.abs(), unit(view)))
}

/// The clock of an angle, to the nearest half hour.
fn hour(angle: f64) -> String {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number from 0 to 24"
    )]
    let half = (angle.rem_euclid(TAU) / TAU * 24.0).round() as u8 % 24;
    clock_name(half, 24)
}

fn nearest(view: &View<'_>, angle: f64) -> String {
    let blades = view.job.pump.as_ref().map_or(1, |fact| fact.value.blades);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a whole number from 0 to the number of blades"
    )]
    let blade = (angle.rem_euclid(TAU) / TAU * f64::from(blades)).round() as u8 % blades.max(1);
    blade_name(blade)
}
