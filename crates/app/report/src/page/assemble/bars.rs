//! The steps that are left as bars over time, with the hours of the person's zone.

use chart::{Bar, BarPlan, bars};
use jiff::civil::Time;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};
use quantity::Unit;
use workshop::assemble::State;
use workshop::assemble::timetable::{Slot, Timetable};

use super::Sight;
use crate::page::Section;
use crate::words::count;

/// Marks on the axis, so that their words pass each other on a phone.
const TICKS: i64 = 4;
/// Rows that can still be read at one look.
const MOST_ROWS: usize = 14;

/// None when nothing is left to do.
pub(super) fn picture(sight: &Sight<'_>) -> Option<Section> {
    let table = sight.table.as_ref().ok();
    let mut rows: Vec<(Timestamp, Bar)> = (0..sight.plan.steps.len())
        .filter_map(|place| bar(sight, table, place))
        .collect();
    rows.sort_by_key(|(from, _)| *from);
    let more = rows.len().saturating_sub(MOST_ROWS);
    let rows: Vec<Bar> = rows
        .into_iter()
        .map(|(_, bar)| bar)
        .take(MOST_ROWS)
        .collect();
    let now = hours(sight.assembly.now);
    let ends = rows
        .iter()
        .map(|row| row.cures.unwrap_or(row.work.1).max(row.work.1));
    let last = ends.reduce(f64::max)?;
    let first = rows.iter().map(|row| row.work.0).fold(now, f64::min);
    let gone = table.map_or(&[][..], |table| &table.away);
    let plan = BarPlan {
        title: "The steps that are left, over time".to_owned(),
        range: (first, last),
        ticks: ticks(sight.view.now, (first, last)),
        now,
        away: gone
            .iter()
            .map(|away| (hours(away.from), hours(away.until)))
            .collect(),
        rows,
    };
    Some(Section::Picture {
        heading: "Over time".to_owned(),
        svg: bars(&plan),
        caption: caption(table, more),
    })
}

fn caption(table: Option<&Timetable>, more: usize) -> String {
    let how = match table {
        Some(_) => "Each step when hands and tools are there for it.",
        None => "Each step as early as the rules let it, by as many hands as that takes.",
    };
    let gone = match table {
        Some(table) if !table.away.is_empty() => " Shaded: nobody is there.",
        _ => "",
    };
    let rest = match more {
        0 => String::new(),
        more => format!(" {} more follow.", count(more, "step", "steps")),
    };
    format!(
        "{how} Hatched: what cures after it. A line with an end mark: how far it may slip.{gone} The \
         upright line is now; what is left off is not drawn.{rest}"
    )
}

fn bar(sight: &Sight<'_>, table: Option<&Timetable>, place: usize) -> Option<(Timestamp, Bar)> {
    let (step, standing) = (&sight.plan.steps[place], &sight.assembly.steps[place]);
    if matches!(standing.state, State::Deferred) {
        return None;
    }
    let done = matches!(standing.state, State::Done { .. });
    let slot = match table {
        Some(table) if !done => table.slots[place]?,
        _ => Slot {
            from: standing.earliest,
            until: standing.ends,
        },
    };
    let (from, to) = (hours(slot.from), hours(slot.until));
    let waits = sight.plan.longest_wait(&step.key);
    let cures = waits.map(|wait| to + span(wait));
    let now = hours(sight.assembly.now);
    let bar = Bar {
        label: step.name.clone(),
        work: (from, to),
        slips: standing.latest.map(|latest| hours(latest) + to - from),
        cures,
        running: matches!(standing.state, State::Running { .. }),
    };
    // What is done is drawn while it still cures.
    (!done || cures.is_some_and(|end| end > now)).then_some((slot.from, bar))
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
