//! The engine hours: read, thought to be today, and on which day they reach a figure.

use jiff::ToSpan;
use jiff::civil::Date;
use quantity::Unit;

use super::{MonthDay, Upkeep};
use crate::job::Job;

/// Days a learnt pace must lie on at least.
const APART: i32 = 14;
/// Days of the season a day is looked for ahead; what lies beyond is no plan.
const AHEAD: i32 = 3660;
/// A week, in days.
const WEEK: f64 = 7.0;

/// How the hours go on from the last reading of the meter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// As many a week as somebody said.
    Stated,
    /// Learnt from two readings far enough apart.
    Learnt,
}

/// The engine hours, as read and as they are thought to be today.
#[derive(Clone, Debug, PartialEq)]
pub struct Hours {
    /// The last reading, in seconds.
    pub read: f64,
    /// Its day.
    pub on: Date,
    /// The hours today, in seconds: as read, where no pace is known.
    pub today: f64,
    /// Seconds run for each day of the season, and how that is known.
    pub pace: Option<(f64, Pace)>,
    /// The first reading, in seconds, and its day.
    pub first: (f64, Date),
    /// The hours when this job was opened, in seconds, and that day; the first reading where there was none yet.
    pub rebuilt: (f64, Date),
}

/// The season of a craft.
#[derive(Clone, Copy, Debug)]
pub(super) struct Season(Option<(MonthDay, MonthDay)>);

impl Season {
    pub(super) fn of(upkeep: &Upkeep) -> Self {
        Self(upkeep.usage.as_ref().and_then(|fact| fact.value.open))
    }

    /// Whether it runs on a day; a season may go over the turn of the year.
    fn has(self, day: Date) -> bool {
        let Some((from, until)) = self.0 else {
            return true;
        };
        let on = MonthDay {
            month: day.month(),
            day: day.day(),
        };
        if from <= until {
            (from..=until).contains(&on)
        } else {
            on >= from || on <= until
        }
    }

    /// Days of it after one day, up to another.
    fn days(self, after: Date, until: Date) -> u32 {
        let mut count = 0;
        let mut day = after;
        while day < until {
            let Ok(next) = day.tomorrow() else { break };
            day = next;
            count += u32::from(self.has(day));
        }
        count
    }

    /// The day on which so many days of it are over, from a day on.
    fn after(self, day: Date, days: f64) -> Option<Date> {
        let (mut day, mut left) = (day, days.floor());
        for _ in 0..AHEAD {
            if left < 1.0 {
                return Some(day);
            }
            day = day.tomorrow().ok()?;
            if self.has(day) {
                left -= 1.0;
            }
        }
        None
    }

    /// The day of an edge that comes on or after a day, and the last before it.
    pub(super) fn edges(self, launch: bool, day: Date) -> Option<(Option<Date>, Date)> {
        let (from, until) = self.0?;
        let edge = if launch { from } else { until };
        let of = |year: i16| {
            // The twenty-ninth of February is the last of it in any other year.
            let first = Date::new(year, edge.month, 1).ok()?;
            Date::new(year, edge.month, edge.day.min(first.days_in_month())).ok()
        };
        let this = of(day.year())?;
        if this >= day {
            Some((of(day.year() - 1), this))
        } else {
            Some((Some(this), of(day.year() + 1)?))
        }
    }
}

/// Every figure of the meter that was told, with its day.
fn readings(upkeep: &Upkeep) -> Vec<(Date, f64)> {
    let meter = upkeep.meter.iter();
    let meter = meter.map(|read| (read.on, read.what.value.hours.value));
    let done = upkeep.done.iter().filter_map(|done| {
        let hours = done.what.value.hours.as_ref()?;
        Some((done.on, hours.value))
    });
    let mishaps = upkeep.mishaps.iter().filter_map(|what| {
        let hours = what.what.value.hours.as_ref()?;
        Some((what.on, hours.value))
    });
    let mut all: Vec<(Date, f64)> = meter.chain(done).chain(mishaps).collect();
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    all
}

/// The hours on a day, once the meter was read.
pub(super) fn hours(job: &Job, today: Date) -> Option<Hours> {
    let upkeep = &job.upkeep;
    let all = readings(upkeep);
    let all: Vec<_> = all.into_iter().filter(|(on, _)| *on <= today).collect();
    let (&(first_on, first), &(on, read)) = (all.first()?, all.last()?);
    let season = Season::of(upkeep);
    let stated = upkeep.usage.as_ref();
    let stated = stated.and_then(|fact| fact.value.week.as_ref());
    let stated = stated.map(|week| (week.value / WEEK, Pace::Stated));
    let learnt = || {
        let far = first_on
            .checked_add(APART.days())
            .is_ok_and(|far| far <= on);
        let days = f64::from(season.days(first_on, on));
        (far && days > 0.0 && read > first).then(|| ((read - first) / days, Pace::Learnt))
    };
    let pace = stated.or_else(learnt);
    let since = f64::from(season.days(on, today));
    let first = (first, first_on);
    let opened = job.opened.filter(|day| (first_on..=today).contains(day));
    let mut hours = Hours {
        read,
        on,
        today: read + pace.map_or(0.0, |(pace, _)| pace * since),
        pace,
        first,
        rebuilt: first,
    };
    if let Some(opened) = opened {
        hours.rebuilt = (hours.at(upkeep, opened), opened);
    }
    Some(hours)
}

impl Hours {
    /// The day on which the meter reaches a figure; none where no pace is known, or it is too far off.
    pub(super) fn day(&self, season: Season, hours: f64) -> Option<Date> {
        let (pace, _) = self.pace?;
        season.after(self.on, ((hours - self.read) / pace).max(0.0))
    }

    /// What the meter is thought to have read on a day.
    pub(super) fn at(&self, upkeep: &Upkeep, day: Date) -> f64 {
        let all = readings(upkeep);
        let before = all.iter().rev().find(|(on, _)| *on <= day);
        let (on, read) = before.copied().unwrap_or((self.first.1, self.first.0));
        let pace = self.pace.map_or(0.0, |(pace, _)| pace);
        let reckoned = read + pace * f64::from(Season::of(upkeep).days(on, day));
        let next = all.iter().find(|(on, _)| *on > day);
        next.map_or(reckoned, |(_, next)| reckoned.min(*next))
    }
}

/// One hour, in the unit answers count time in.
pub(super) fn one_hour() -> f64 {
    1.0 / Unit::Hour.from_si(1.0)
}
