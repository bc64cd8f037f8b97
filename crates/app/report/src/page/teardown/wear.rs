//! Wear over the visits: the plot, the trend, and when the limit is met.

use chart::{Foreseen, Reading, TrendChart};
use clearance::trend::{Crossing, Meant, Met};
use quantity::{Unit, format, number};
use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::gap::REQUIRED;
use workshop::inspect::wear::{REPEATS, Trend, Wear, wear};
use workshop::inspect::{Figure, Inspection};
use workshop::job::Job;

use crate::page::forms::inspect as sheets;
use crate::page::{Card, FactRow, Refused, Section, Tone, plain, row, soft, strong};
use crate::words as said;

fn hours(value: f64) -> String {
    format(value, Unit::Hour, 0)
}

fn figure(figure: Figure) -> &'static str {
    match figure {
        Figure::Least => "least gap",
        Figure::Mean => "mean gap",
    }
}

/// The plot and its card, or the sheet.
pub(super) fn sections(job: &Job, refused: Option<&Refused>) -> Vec<Section> {
    let Some(wear) = wear(job) else {
        return vec![Section::Form(sheets::visit(
            job,
            &sheets::blank(Sheet::Visit),
            refused,
        ))];
    };
    let mut sections = Vec::new();
    if wear.points.len() > 1 {
        sections.push(picture(job, &wear));
    }
    sections.push(Section::Card(card(job, &wear, refused)));
    sections
}

pub(super) fn card(job: &Job, wear: &Wear, refused: Option<&Refused>) -> Card {
    let unit = job.unit();
    let mut rows = visits(job, wear);
    let (tone, state, mut notes) = in_words(job, wear);
    if let Some(trend) = &wear.trend {
        rows.push(row(
            "Grows by",
            vec![strong(format!(
                "{} in 100\u{a0}h",
                said::length(trend.line.slope * HUNDRED, unit)
            ))],
            if trend.assumed {
                format!(
                    "line through the visits; a gap repeats within {}, assumed, no source",
                    format(REPEATS, Unit::Millimetre, 3)
                )
            } else {
                "line through the visits".to_owned()
            },
        ));
    }
    if wear.left_out > 0 {
        notes.push(format!(
            "{} left out: the other gap was noted.",
            said::count(wear.left_out, "visit is", "visits are")
        ));
    }
    if wear.waits {
        notes.push("This visit counts once its result is taken on the Measure page.".to_owned());
    }
    let known = job
        .inspected
        .visits_in_order()
        .into_iter()
        .map(|(key, fact)| {
            let said = Inspection::Visit {
                key: key.clone(),
                visit: fact.value.clone(),
            };
            let draft = InspectionDraft::of(&said, unit);
            let mut form = sheets::visit(job, &draft, refused);
            form.heading = format!("Change the visit at {}", fact.value.hours.worded());
            form
        });
    let add = sheets::visit(job, &sheets::blank(Sheet::Visit), refused);
    Card {
        heading: "Wear over the visits".to_owned(),
        tone,
        state,
        rows,
        notes,
        forms: std::iter::once(add).chain(known).collect(),
    }
}

/// Every visit as it was told.
fn visits(job: &Job, wear: &Wear) -> Vec<FactRow> {
    let unit = job.unit();
    (job.inspected.visits_in_order().into_iter())
        .map(|(_, fact)| {
            let visit = &fact.value;
            let gap = match &visit.gap {
                Some((low, high)) if low == high => low.worded(),
                Some((low, high)) => said::interval(low.value, high.value, unit),
                None if wear.waits => "this visit".to_owned(),
                None => "this visit: the result taken".to_owned(),
            };
            let new = if visit.renewed {
                ", new ring or impeller"
            } else {
                ""
            };
            row(
                visit.hours.worded(),
                vec![plain(gap), soft(format!(", {}{new}", figure(visit.figure)))],
                "told by you",
            )
        })
        .collect()
}

/// Seconds in a hundred hours.
const HUNDRED: f64 = 360_000.0; // not a conversion: a span to tell a slope by

fn in_words(job: &Job, wear: &Wear) -> (Tone, String, Vec<String>) {
    let Some(trend) = &wear.trend else {
        let note = format!(
            "{} so far; three that compare, since the ring or impeller was new, give a trend.",
            said::count(wear.points.len(), "visit", "visits")
        );
        return (Tone::Plain, "no trend yet".to_owned(), vec![note]);
    };
    let Some(limit) = wear.limit else {
        let note =
            "The manual’s greatest gap of this kind is not stated, so no time to it is told.";
        return (Tone::Plain, "a trend".to_owned(), vec![note.to_owned()]);
    };
    let limit = said::length(limit, job.unit());
    match trend.crossing {
        Some(Crossing::Ahead(met)) => ahead(wear, &met, &limit),
        Some(Crossing::Behind(_)) => (
            Tone::Open,
            "limit met, or not growing".to_owned(),
            vec![format!(
                "The line does not meet {limit} ahead: the limit is met already, or the gap does \
                 not grow."
            )],
        ),
        _ => (
            Tone::Plain,
            "no trend shown yet".to_owned(),
            vec!["The gap may not grow at all, by these visits: no time can be told.".to_owned()],
        ),
    }
}

fn ahead(wear: &Wear, met: &Met, limit: &str) -> (Tone, String, Vec<String>) {
    let at = |run: f64| hours(wear.begins() + run);
    let mut notes = vec![format!(
        "If nothing but ordinary wear comes: the {} meets {limit} at about {} of the engine, {} to \
         {} with 95\u{a0}%. Plan by {}: sooner is unlikely (5\u{a0}%).",
        figure(wear.figure),
        at(met.run),
        number(wear.begins() + met.low, Unit::Hour, 0),
        at(met.high),
        at(met.soonest)
    )];
    if wear.figure == Figure::Mean {
        notes.push("Spots wider than the mean meet it sooner.".to_owned());
    }
    if met.stretched {
        notes.push("That is far beyond the last visit: take it as a guess.".to_owned());
    }
    (
        Tone::Plain,
        format!("not before {}", at(met.soonest)),
        notes,
    )
}

/// As far ahead as the line is drawn, in parts of what was read.
const AHEAD: f64 = 0.5;
/// Points the line is drawn through.
const STEPS: u32 = 24;

fn picture(job: &Job, wear: &Wear) -> Section {
    let unit = job.unit();
    let shown = |gap: f64| unit.from_si(gap);
    let readings: Vec<Reading> = (wear.points.iter())
        .map(|point| Reading {
            at: Unit::Hour.from_si(point.hours),
            low: shown(point.low),
            high: shown(point.high),
        })
        .collect();
    let chart = TrendChart {
        title: format!("{} over the engine hours", figure(wear.figure)),
        along: "engine hours".to_owned(),
        up: format!("{}, {}", figure(wear.figure), unit.symbol()),
        decimals: said::decimals(unit),
        readings,
        line: wear
            .trend
            .as_ref()
            .map_or_else(Vec::new, |trend| line(wear, trend, &shown)),
        greatest: wear.limit.map(shown),
    };
    Section::Picture {
        heading: "Wear over the visits".to_owned(),
        svg: chart::trend(&chart),
        caption: "Each visit from the leaf that went to the one that would not; the line through \
                  them, broken where it looks ahead, and the band that holds it with 95\u{a0}%."
            .to_owned(),
    }
}

/// The line from the first visit to where it meets the limit, or half as far again as was read.
fn line(wear: &Wear, trend: &Trend, shown: &impl Fn(f64) -> f64) -> Vec<Foreseen> {
    let runs = wear.points.iter().map(|point| point.hours - wear.begins());
    let first = runs.clone().fold(f64::INFINITY, f64::min);
    let last = runs.fold(f64::NEG_INFINITY, f64::max);
    let farthest = last + (last - first) * 2.0;
    let met = match trend.crossing {
        Some(Crossing::Ahead(met)) => met.run.min(farthest),
        _ => last,
    };
    let end = met.max(last + (last - first) * AHEAD);
    let step = |n: u32| first + (end - first) * f64::from(n) / f64::from(STEPS);
    // The last visit itself is a point, so that the line breaks there.
    let mut runs: Vec<f64> = (0..=STEPS).map(step).chain([last]).collect();
    runs.sort_by(f64::total_cmp);
    let foreseen = |run: f64| {
        let band = trend.line.foreseen(run, REQUIRED, Meant::Gap).ok()?;
        Some(Foreseen {
            at: Unit::Hour.from_si(wear.begins() + run),
            low: shown(band.low),
            middle: shown(trend.line.level + trend.line.slope * (run - trend.line.run)),
            high: shown(band.high),
        })
    };
    runs.into_iter().filter_map(foreseen).collect()
}
