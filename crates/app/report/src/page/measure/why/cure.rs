//! What would cure it, with the arithmetic and the gap it would leave.

use clearance::Estimate;
use clearance::causes::{Cured, Level, Remedy};
use workshop::job::{Limits, Measure};
use workshop::why::{Cure, Mend, Why, blade_of, clock_of};

use super::{View, blade_by_blade, magnitude, unit};
use crate::page::{FactRow, Run, plain, row};
use crate::words;

/// From here on a level beyond a limit is spoken of.
const LIKELY: f64 = 0.5;

/// One row a remedy of the best explanation, and one for the level of it all.
pub(super) fn cures(view: &View<'_>, why: &Why) -> Vec<FactRow> {
    let mut rows: Vec<FactRow> = why.cures.iter().map(|cured| cure(view, cured)).collect();
    rows.extend(why.level.as_ref().and_then(|level| all_of_it(view, level)));
    rows
}

fn cure(view: &View<'_>, cure: &Cure) -> FactRow {
    let takes: Vec<String> = match cure.mend {
        Some(_) => cure
            .cured
            .remedies
            .iter()
            .map(|one| remedy(view, one))
            .collect(),
        None => Vec::new(),
    };
    row(
        match cure.mend {
            Some(Mend::Feel) => "Feel it again",
            Some(Mend::Centre) => "Bring ring and shaft to one centre",
            Some(Mend::Ring) => "A sound ring, seated true",
            Some(Mend::Impeller) => "The impeller mended by a shop, or a sound one",
            None => "All of these together",
        }
        .to_owned(),
        vec![plain(leaves_gap(view, &cure.cured))],
        takes.join("; "),
    )
}

/// The arithmetic of a remedy.
fn remedy(view: &View<'_>, remedy: &Remedy) -> String {
    let unit = unit(view);
    match remedy {
        Remedy::MoveRing {
            to_twelve,
            to_three,
        } => format!(
            "the ring moved {} and {}, the shaft standing still",
            towards(view, to_twelve, ("12", "6")),
            towards(view, to_three, ("3", "9"))
        ),
        Remedy::Round(by) => format!("its radii differ by {}", words::length(by.median, unit)),
        Remedy::Ring(position, by) if by.median < 0.0 => {
            format!(
                "it stands in by {} at {}",
                magnitude(view, by),
                clock_of(view.job, *position)
            )
        }
        Remedy::Ring(position, by) => {
            format!(
                "it is hollow by {} at {}",
                magnitude(view, by),
                clock_of(view.job, *position)
            )
        }
        Remedy::Blade(blade, by) if by.median < 0.0 => {
            format!(
                "blade {} is long by {}",
                blade_of(*blade),
                magnitude(view, by)
            )
        }
        Remedy::Blade(blade, by) => {
            format!(
                "blade {} is short by {}",
                blade_of(*blade),
                magnitude(view, by)
            )
        }
        Remedy::MoveImpeller {
            to_first,
            to_quarter,
        } => format!(
            "it stands off its centre by {}",
            words::length(to_first.median.hypot(to_quarter.median), unit)
        ),
        Remedy::Blades(each) => {
            format!("shorter than their mean by {}", blade_by_blade(view, each))
        }
        Remedy::FeelAgain(spot) => format!(
            "{} {}, before anything is made of it",
            blade_of(spot.blade),
            clock_of(view.job, spot.position)
        ),
    }
}

/// `1.2 thou towards 12`
fn towards(view: &View<'_>, by: &Estimate, (ahead, back): (&str, &str)) -> String {
    let clock = if by.median < 0.0 { back } else { ahead };
    format!(
        "{} towards {clock}",
        words::length(by.median.abs(), unit(view))
    )
}

/// What gap the remedy leaves, and how that stands to the limits.
fn leaves_gap(view: &View<'_>, cured: &Cured) -> String {
    let unit = unit(view);
    let gap = format!(
        "then about {} to {}",
        words::bare(cured.least.median, unit),
        words::length(cured.greatest.median, unit)
    );
    match radial(view).and_then(|limits| stands(limits, cured)) {
        Some(stands) => format!("{gap}: {stands}"),
        None => gap,
    }
}

fn stands(limits: &Limits, cured: &Cured) -> Option<&'static str> {
    let least = limits.least.as_ref().filter(|_| !limits.rub_in);
    let (least, greatest) = (
        least.map(|l| l.value),
        limits.greatest.as_ref().map(|l| l.value),
    );
    least.or(greatest)?;
    let inside = least.is_none_or(|l| cured.least.low >= l)
        && greatest.is_none_or(|l| cured.greatest.high <= l);
    let tight = least.is_some_and(|l| cured.least.high < l);
    let wide = greatest.is_some_and(|l| cured.greatest.low > l);
    Some(match (inside, tight, wide) {
        (true, ..) => "within the limits",
        (_, true, true) => "still too tight and too wide",
        (_, true, _) => "still too tight",
        (_, _, true) => "still too wide",
        _ => "too close to the limits to say",
    })
}

fn radial<'a>(view: &View<'a>) -> Option<&'a Limits> {
    let limits = view.job.limits.as_ref().map(|fact| &fact.value);
    limits.filter(|limits| limits.measure == Measure::Radial)
}

/// All of the ring too tight or too wide, whatever the pattern.
fn all_of_it(view: &View<'_>, level: &Level) -> Option<FactRow> {
    let (side, probability) = if level.too_wide >= level.too_tight {
        ("wide", level.too_wide)
    } else {
        ("tight", level.too_tight)
    };
    if probability < LIKELY {
        return None;
    }
    let by = level.change.median;
    let unit = unit(view);
    let ring = if by < 0.0 { "smaller" } else { "larger" };
    Some(row(
        format!("All of it is too {side}"),
        vec![
            plain(format!("{} on one side", words::length(by.abs(), unit))),
            Run::Soft(format!(
                ": a ring {} {ring} in bore, or an impeller as much {} across",
                words::length(2.0 * by.abs(), unit),
                if by < 0.0 { "larger" } else { "smaller" }
            )),
        ],
        format!(
            "the mean alone is beyond the limit with {}; to the middle of what the manual allows",
            words::percent(probability)
        ),
    ))
}
