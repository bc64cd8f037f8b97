//! The steps that are left as bars over time, with the hours of the person's zone.

use chart::{Bar, BarPlan, bars};
use jiff::civil::Time;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use quantity::Unit;
use workshop::assemble::State;
use workshop::plan::{Ask, seconds};

use super::Sight;
use crate::page::Section;

/// Marks on the axis, so that their words pass each other on a phone.
const TICKS: i64 = 4;

/// None when nothing is left to do.
pub(super) fn picture(sight: &Sight<'_>) -> Option<Section> {
    let rows: Vec<Bar> = (0..sight.plan.steps.len())
        .filter_map(|place| bar(sight, place))
        .collect();
    let now = hours(sight.assembly.now);
    let ends = rows
        .iter()
        .map(|row| row.cures.unwrap_or(row.work.1).max(row.work.1));
    let last = ends.reduce(f64::max)?;
    let first = rows.iter().map(|row| row.work.0).fold(now, f64::min);
    let plan = BarPlan {
        title: "The steps that are left, over time".to_owned(),
        range: (first, last),
        ticks: ticks(sight.view.now, (first, last)),
        now,
        rows,
    };
    Some(Section::Picture {
        heading: "Over time".to_owned(),
        svg: bars(&plan),
        caption: "Each step as early as the rules let it, by as many hands as that takes. Dots: how \
                  far it may slip. Light: what cures after it. The upright line is now; what is left \
                  off is not drawn."
            .to_owned(),
    })
}

fn bar(sight: &Sight<'_>, place: usize) -> Option<Bar> {
    let (step, standing) = (&sight.plan.steps[place], &sight.assembly.steps[place]);
    if matches!(standing.state, State::Deferred) {
        return None;
    }
    let done = matches!(standing.state, State::Done { .. });
    let (from, to) = (hours(standing.earliest), hours(standing.ends));
    let lags = sight.plan.rules.iter().filter_map(|rule| match &rule.ask {
        Ask::After { first, lag, .. } if *first == step.key => lag.as_ref().map(seconds),
        _ => None,
    });
    let cures = lags.max().map(|lag| to + span(lag));
    let now = hours(sight.assembly.now);
    // What is done is drawn while it still cures.
    (!done || cures.is_some_and(|end| end > now)).then(|| Bar {
        label: step.name.clone(),
        work: (from, to),
        slips: standing.latest.map(|latest| hours(latest) + to - from),
        cures,
        running: matches!(standing.state, State::Running { .. }),
    })
}

fn hours(at: Timestamp) -> f64 {
    span(at.as_second())
}

fn span(seconds: i64) -> f64 {
    #[expect(
        clippy::cast_precision_loss,
        reason = "an instant in seconds is far below where f64 stops being exact"
    )]
    let seconds = seconds as f64;
    Unit::Hour.from_si(seconds)
}

/// Whole hours of the day in the person's zone, as many as fit.
fn ticks(now: &ZonedDateTime, (first, last): (f64, f64)) -> Vec<(f64, String)> {
    let steps = [1, 2, 3, 6, 12, 24, 48, 96, 168, 336, 720];
    let fits = |step: &&i64| {
        let marks = (last - first) / f64::from(i32::try_from(**step).unwrap_or(i32::MAX));
        marks < f64::from(i32::try_from(TICKS).unwrap_or(i32::MAX))
    };
    let step = *steps.iter().find(fits).unwrap_or(&720);
    let words = if step < 24 { "%a %H:%M" } else { "%a %-d %b" };
    let Ok(midnight) = now.with().time(Time::midnight()).build() else {
        return Vec::new();
    };
    let mark = |count: i64| {
        let at = midnight
            .checked_add(SignedDuration::from_hours(count * step))
            .ok()?;
        let time = hours(at.timestamp());
        (first < time && time < last).then(|| (time, at.strftime(words).to_string()))
    };
    (-48..48).filter_map(mark).collect()
}
