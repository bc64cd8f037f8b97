//! Who works and when, as typed: `mon-fri 18:00-21:00; sat 9:00-17:00`.

use jiff::civil::{Time, Weekday};

use crate::plan::{Crew, Shift};
use crate::refusal::{Obstacle, Refusal};

/// The days as typed, Monday first.
const DAYS: [(&str, Weekday); 7] = [
    ("mon", Weekday::Monday),
    ("tue", Weekday::Tuesday),
    ("wed", Weekday::Wednesday),
    ("thu", Weekday::Thursday),
    ("fri", Weekday::Friday),
    ("sat", Weekday::Saturday),
    ("sun", Weekday::Sunday),
];

/// [`Crew`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CrewDraft {
    /// Pairs of hands.
    pub hands: String,
    /// Days and hours, parted by semicolons; empty where nobody said.
    pub hours: String,
}

impl CrewDraft {
    /// The draft that reads as `crew`.
    pub fn of(crew: &Crew) -> Self {
        let shifts: Vec<String> = crew.shifts.iter().map(written).collect();
        Self {
            hands: crew.hands.to_string(),
            hours: shifts.join("; "),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Crew, Refusal> {
        let shifts = self.hours.split([';', '\n']);
        let shifts = shifts.map(str::trim).filter(|text| !text.is_empty());
        Ok(Crew {
            hands: super::number("hands", self.hands.trim())?,
            shifts: shifts
                .map(|text| {
                    shift(text).ok_or_else(|| {
                        Refusal::Work(Obstacle::NoHours {
                            text: text.to_owned(),
                        })
                    })
                })
                .collect::<Result<_, _>>()?,
        })
    }
}

/// `mon-fri, sun 18:00-21:00`.
fn shift(text: &str) -> Option<Shift> {
    let text = text.to_lowercase().replace(['–', '—'], "-");
    let clock = text.find(|letter: char| letter.is_ascii_digit())?;
    let (days, hours) = text.split_at(clock);
    let (from, until) = hours.split_once('-')?;
    let mut named = Vec::new();
    for part in days.split([',', ' ']).filter(|part| !part.is_empty()) {
        let (first, last) = part.split_once('-').unwrap_or((part, part));
        let (first, last) = (day(first)?, day(last)?);
        if first > last {
            return None;
        }
        named.extend(first..=last);
    }
    named.sort_unstable();
    let twice = named.windows(2).any(|pair| pair[0] == pair[1]);
    (!twice && !named.is_empty()).then_some(())?;
    Some(Shift {
        days: named.into_iter().map(|place| DAYS[place].1).collect(),
        from: time(from)?,
        until: time(until)?,
    })
}

/// The place of a day in the week, by its first letters.
fn day(text: &str) -> Option<usize> {
    let long = text.trim();
    DAYS.iter().position(|(short, day)| {
        let name = format!("{day:?}").to_lowercase();
        long.len() >= short.len() && name.starts_with(long)
    })
}

/// `9:00`, `09:00` or `9`.
fn time(text: &str) -> Option<Time> {
    let (hour, minute) = text.trim().split_once(':').unwrap_or((text.trim(), "0"));
    // Midnight at the end of a day is written either way.
    let hour = if (hour, minute) == ("24", "00") {
        "0"
    } else {
        hour
    };
    Time::new(hour.parse().ok()?, minute.parse().ok()?, 0, 0).ok()
}

/// A stretch of hours as it is read.
pub fn written(shift: &Shift) -> String {
    let places: Vec<usize> = (0..7)
        .filter(|at| shift.days.contains(&DAYS[*at].1))
        .collect();
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for place in places {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == place => *last = place,
            _ => runs.push((place, place)),
        }
    }
    let runs: Vec<String> = runs
        .into_iter()
        .map(|(first, last)| match last - first {
            0 => DAYS[first].0.to_owned(),
            _ => format!("{}-{}", DAYS[first].0, DAYS[last].0),
        })
        .collect();
    let clock = |time: Time| format!("{:02}:{:02}", time.hour(), time.minute());
    format!(
        "{} {}-{}",
        runs.join(", "),
        clock(shift.from),
        clock(shift.until)
    )
}
