//! Whether something may be said about service.

use std::collections::BTreeSet;

use jiff::ZonedDateTime;
use jiff::civil::Date;
use quantity::{Entered, Plain, Unit};

use super::choose::known as known_option;
use super::span::{Span, all_in_span, in_span};
use super::{LONGEST_NOTE, LONGEST_TEXT, filled, in_order, text};
use crate::entry::Key;
use crate::job::Job;
use crate::refusal::{Miscount, Obstacle, Refusal};
use crate::upkeep::recheck::Point;
use crate::upkeep::tasks::task as general;
use crate::upkeep::{Done, Meter, MonthDay, Part, Piece, Rule, Servicing, Told, Usage, evidence};

/// The most sorts of part in a job.
pub const MOST_PARTS: usize = 12;
/// The most pieces in a job.
pub const MOST_PIECES: usize = 60;
/// The most rules stated in a job.
pub const MOST_RULES: usize = 40;

const WEEK: Span = ("0.1", "168", Unit::Hour);
const SEASON: Span = ("1", "3000", Unit::Hour);
const KEEP: Span = ("1", "20000", Unit::Hour);
const STRIKES: Span = ("1", "100000", Unit::Hour);
const LABOUR: Span = ("0", "200", Unit::Hour);
const LIFE: Span = ("1", "20000", Unit::Hour);
const METER: Span = ("0", "50000", Unit::Hour);
const EVERY: Span = ("0.5", "5000", Unit::Hour);
/// Any price: from one of the least coin to a craft's.
const PRICE: (f64, f64) = (0.01, 1e6); // not a conversion: a price
const MONEY: (f64, f64) = (0.0, 1e6);
const EXPOSURE: (f64, f64) = (1.0, 50.0);
const PERCENT: (f64, f64) = (0.0, 100.0);
/// A certain outcome is nothing to plan by.
const FLOOR: (f64, f64) = (1.0, 99.0);
/// Half worn out, as a multiple of one in ten worn out: nearer, and all would fail at one age.
const APART: (f64, f64) = (1.1, 30.0);
const MONTHS: (u8, u8) = (1, 120);

/// Refuses what cannot be so, or cannot be so now.
pub(super) fn check(job: &Job, said: &Servicing, now: &ZonedDateTime) -> Result<(), Refusal> {
    match said {
        Servicing::Closed(told) => closed(job, told),
        said => sane(job, said, now),
    }
}

/// Refuses what cannot be so.
fn sane(job: &Job, said: &Servicing, now: &ZonedDateTime) -> Result<(), Refusal> {
    let upkeep = &job.upkeep;
    match said {
        Servicing::Usage(said) => usage(said),
        Servicing::Part {
            key,
            part: Some(said),
        } => {
            room(&upkeep.parts, key, "sorts of part", MOST_PARTS)?;
            part(job, said)
        }
        Servicing::Part { key, part: None } => {
            there(upkeep.parts.contains_key(key), || Miscount::NoSuchPart {
                key: key.to_string(),
            })
        }
        Servicing::Piece {
            key,
            piece: Some(said),
        } => {
            room(&upkeep.pieces, key, "pieces", MOST_PIECES)?;
            piece(job, said)
        }
        Servicing::Piece { key, piece: None } => {
            there(upkeep.pieces.contains_key(key), || Miscount::NoSuchPiece {
                key: key.to_string(),
            })
        }
        Servicing::Meter(read) => {
            past(read.on, now)?;
            meter(job, read, now)
        }
        Servicing::Happened(mishap) => {
            past(mishap.on, now)?;
            in_span("hours", mishap.hours.as_ref(), METER)?;
            text("note", &mishap.note, LONGEST_NOTE)
        }
        Servicing::Rule {
            task,
            rule: Some(said),
        } => {
            room(&upkeep.rules, task, "rules", MOST_RULES)?;
            rule(task, said)
        }
        Servicing::Rule { task, rule: None } => {
            there(upkeep.rules.contains_key(task), || Miscount::NoSuchTask {
                key: task.to_string(),
            })
        }
        Servicing::Done(said) => done(job, said, now),
        Servicing::Rechecked { note, .. } => text("note", note, LONGEST_NOTE),
        Servicing::Closed(told) => told_well(told),
    }
}

fn miscount(what: Miscount) -> Refusal {
    Refusal::Upkeep(what)
}

fn there(is: bool, otherwise: impl Fn() -> Miscount) -> Result<(), Refusal> {
    if is {
        Ok(())
    } else {
        Err(miscount(otherwise()))
    }
}

fn room<T>(
    all: &std::collections::BTreeMap<Key, T>,
    key: &Key,
    what: &'static str,
    most: usize,
) -> Result<(), Refusal> {
    there(all.contains_key(key) || all.len() < most, || {
        Miscount::TooMany { what, most }
    })
}

fn past(on: Option<Date>, now: &ZonedDateTime) -> Result<(), Refusal> {
    match on.filter(|on| *on > now.date()) {
        Some(on) => Err(Refusal::Work(Obstacle::Future { at: on.to_string() })),
        None => Ok(()),
    }
}

fn plain(field: &'static str, plain: Option<&Plain>, span: (f64, f64)) -> Result<(), Refusal> {
    let (least, greatest) = span;
    match plain.filter(|plain| !(least..=greatest).contains(&plain.value)) {
        Some(plain) => Err(miscount(Miscount::Outside {
            field,
            plain: plain.clone(),
            least,
            greatest,
        })),
        None => Ok(()),
    }
}

fn usage(said: &Usage) -> Result<(), Refusal> {
    text("currency", &said.currency, LONGEST_TEXT)?;
    all_in_span([
        ("week", said.week.as_ref(), WEEK),
        ("season", said.season.as_ref(), SEASON),
        ("keep", said.keep.as_ref(), KEEP),
        ("between", said.between.as_ref(), STRIKES),
    ])?;
    for (field, figure, span) in [
        ("silt", &said.silt, EXPOSURE),
        ("sand", &said.sand, EXPOSURE),
        ("wage", &said.wage, MONEY),
        ("failure", &said.failure, MONEY),
        ("worth", &said.worth, MONEY),
        ("floor", &said.floor, FLOOR),
    ] {
        plain(field, figure.as_ref(), span)?;
    }
    match said.open {
        Some((first, last)) => [("from", first), ("until", last)]
            .into_iter()
            .try_for_each(|(field, day)| month_day(field, day)),
        None => Ok(()),
    }
}

/// In a leap year, so that the twenty-ninth of February is one.
fn month_day(field: &'static str, day: MonthDay) -> Result<(), Refusal> {
    let leap = 2024;
    there(Date::new(leap, day.month, day.day).is_ok(), || {
        Miscount::NoMonthDay {
            field,
            text: format!("{:02}-{:02}", day.month, day.day),
        }
    })
}

fn part(job: &Job, said: &Part) -> Result<(), Refusal> {
    filled("name", &said.name)?;
    text("name", &said.name, LONGEST_TEXT)?;
    text("note", &said.note, LONGEST_NOTE)?;
    if let Some(option) = &said.option {
        known_option(job, option)?;
    }
    all_in_span([
        ("labour", said.labour.as_ref(), LABOUR),
        ("tenth", said.tenth.as_ref(), LIFE),
        ("half", said.half.as_ref(), LIFE),
        ("lost_at", said.lost_at.as_ref(), LIFE),
    ])?;
    for (field, figure, span) in [
        ("price", &said.price, PRICE),
        ("supplies", &said.supplies, MONEY),
        ("ruin", &said.ruin, PERCENT),
        ("lost", &said.lost, PERCENT),
    ] {
        plain(field, figure.as_ref(), span)?;
    }
    both(
        ("tenth", said.tenth.is_some()),
        ("half", said.half.is_some()),
        "A guess of how long it lasts",
    )?;
    both(
        ("lost", said.lost.is_some()),
        ("lost_at", said.lost_at.is_some()),
        "What is lost while it is worn",
    )?;
    if let (Some(tenth), Some(half)) = (&said.tenth, &said.half) {
        in_order("tenth", tenth, half)?;
        let apart = half.value / tenth.value;
        there((APART.0..=APART.1).contains(&apart), || Miscount::Spread {
            tenth: tenth.worded(),
            half: half.worded(),
        })?;
    }
    Ok(())
}

fn both(
    one: (&'static str, bool),
    other: (&'static str, bool),
    beside: &'static str,
) -> Result<(), Refusal> {
    let field = match (one.1, other.1) {
        (true, false) => other.0,
        (false, true) => one.0,
        _ => return Ok(()),
    };
    Err(miscount(Miscount::Half { field, beside }))
}

fn piece(job: &Job, said: &Piece) -> Result<(), Refusal> {
    there(job.upkeep.parts.contains_key(&said.part), || {
        Miscount::NoSuchPart {
            key: said.part.to_string(),
        }
    })?;
    text("note", &said.note, LONGEST_NOTE)?;
    let ended = said.end.as_ref().map(|(_, hours)| hours);
    all_in_span([
        ("fitted", Some(&said.fitted), METER),
        ("good", said.good.as_ref(), METER),
        ("ended", ended, METER),
    ])?;
    if said.elsewhere && said.fitted.value > 0.0 {
        let fitted = said.fitted.text.clone();
        return Err(miscount(Miscount::OwnHours { fitted }));
    }
    if let Some(good) = &said.good {
        after("good", &said.fitted, good, false)?;
    }
    if let Some(ended) = ended {
        after("ended", &said.fitted, ended, true)?;
    }
    match (&said.good, ended) {
        (Some(good), Some(ended)) => after("ended", good, ended, false),
        _ => Ok(()),
    }
}

fn after(
    field: &'static str,
    first: &Entered,
    then: &Entered,
    strictly: bool,
) -> Result<(), Refusal> {
    let so = then.value > first.value || !strictly && then.value >= first.value;
    there(so, || Miscount::Backwards {
        field,
        first: first.worded(),
        then: then.worded(),
    })
}

/// Two readings of a day go in the order they were told.
fn meter(job: &Job, read: &Meter, now: &ZonedDateTime) -> Result<(), Refusal> {
    in_span("hours", Some(&read.hours), METER)?;
    let on = read.on.unwrap_or_else(|| now.date());
    let against = job.upkeep.meter.iter().find(|there| {
        let hours = there.what.value.hours.value;
        there.on <= on && hours > read.hours.value || there.on > on && hours < read.hours.value
    });
    match against {
        Some(against) => Err(miscount(Miscount::MeterBack {
            hours: read.hours.worded(),
            there: against.what.value.hours.worded(),
            on: against.on.to_string(),
        })),
        None => Ok(()),
    }
}

fn rule(task: &Key, said: &Rule) -> Result<(), Refusal> {
    text("name", &said.name, LONGEST_TEXT)?;
    text("page", &said.page, LONGEST_TEXT)?;
    in_span("hours", said.hours.as_ref(), EVERY)?;
    if let Some(months) = said.months.filter(|n| !(MONTHS.0..=MONTHS.1).contains(n)) {
        return Err(Refusal::NotACount {
            field: "months",
            text: months.to_string(),
            allowed: "a number of months from 1 to 120",
        });
    }
    there(
        general(task.as_str()).is_some() || !said.name.trim().is_empty(),
        || Miscount::OwnTask {
            key: task.to_string(),
        },
    )?;
    let due = said.hours.is_some() || said.months.is_some() || said.edge.is_some();
    there(due || !said.after.is_empty(), || Miscount::Never)
}

fn done(job: &Job, said: &Done, now: &ZonedDateTime) -> Result<(), Refusal> {
    past(said.on, now)?;
    in_span("hours", said.hours.as_ref(), METER)?;
    text("note", &said.note, LONGEST_NOTE)?;
    let known = general(said.task.as_str()).is_some() || job.upkeep.rules.contains_key(&said.task);
    there(known, || Miscount::NoSuchTask {
        key: said.task.to_string(),
    })
}

fn told_well(told: &Told) -> Result<(), Refusal> {
    text("words", &told.words, LONGEST_NOTE)?;
    text("program", &told.program, LONGEST_TEXT)
}

/// Every point looked at, and every one as it should be.
fn closed(job: &Job, told: &Told) -> Result<(), Refusal> {
    told_well(told)?;
    let seen = &job.upkeep.recheck;
    let looked: BTreeSet<Point> = seen.keys().copied().collect();
    let left = Point::ALL
        .iter()
        .filter(|point| !looked.contains(point))
        .count();
    let amiss = seen.values().filter(|point| !point.what.value.0).count();
    there(left == 0 && amiss == 0, || Miscount::Open { left, amiss })?;
    if told.evidence == evidence(job) {
        Ok(())
    } else {
        Err(Refusal::ShownIsStale)
    }
}
