//! When hands are there: the hours of the week, as instants.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, ToSpan as _, ZonedDateTime};

use crate::plan::{Crew, Shift};

/// A day, for hours that repeat.
const DAY: SignedDuration = SignedDuration::from_hours(24);

/// When hands are away between two seconds, in order and apart. `have` seconds from now they are
/// there in any case, and after that as their hours say; where none were said, for as long again every
/// day at the same time.
pub(super) fn away(
    crew: &Crew,
    now: &ZonedDateTime,
    have: Option<i64>,
    (from, until): (i64, i64),
) -> Vec<(i64, i64)> {
    let begin = now.timestamp().as_second();
    let mut there = match (have, crew.shifts.is_empty()) {
        (None, true) => return Vec::new(),
        (None, false) => weekly(&crew.shifts, now, until),
        (Some(have), true) => daily(now, have, until),
        (Some(have), false) => {
            let over = begin + have;
            let later = weekly(&crew.shifts, now, until).into_iter();
            let later = later.filter(|shift| shift.1 > over);
            let later = later.map(|shift| (shift.0.max(over), shift.1));
            std::iter::once((begin, over)).chain(later).collect()
        }
    };
    there.sort_unstable();
    let mut gone = Vec::new();
    let mut left = from;
    for (first, last) in there {
        if first > left {
            gone.push((left, first.min(until)));
        }
        left = left.max(last);
        if left >= until {
            return gone;
        }
    }
    gone.push((left, until));
    gone
}

/// The shifts of every week, from the day before today on, which may reach into it.
fn weekly(shifts: &[Shift], now: &ZonedDateTime, until: i64) -> Vec<(i64, i64)> {
    let zone = now.time_zone();
    let days = std::iter::successors(now.date().yesterday().ok(), |day| day.tomorrow().ok());
    let days =
        days.take_while(|day| second(*day, jiff::civil::Time::midnight(), zone) < Some(until));
    days.flat_map(|day| {
        let of_day = shifts
            .iter()
            .filter(move |shift| shift.days.contains(&day.weekday()));
        of_day.filter_map(move |shift| {
            let over = if shift.until > shift.from {
                day
            } else {
                day.tomorrow().ok()?
            };
            Some((
                second(day, shift.from, zone)?,
                second(over, shift.until, zone)?,
            ))
        })
    })
    .collect()
}

/// As long every day, by the clock on the wall.
fn daily(now: &ZonedDateTime, have: i64, until: i64) -> Vec<(i64, i64)> {
    let have = have.min(DAY.as_secs());
    let days = (0..).map_while(|days: i64| {
        let at = now.checked_add(days.days()).ok()?.timestamp().as_second();
        (at < until).then_some((at, at + have))
    });
    days.collect()
}

fn second(day: Date, time: jiff::civil::Time, zone: &TimeZone) -> Option<i64> {
    let at = day.to_datetime(time).to_zoned_datetime(zone.clone()).ok()?;
    Some(at.timestamp().as_second())
}
