//! One sentence of NMEA 0183: its sum, its fields, what they say.

use crate::geodesy::Place;
use crate::read::reject::Why;
use crate::read::time::{DAY, digits, midnight, number, run_together};

/// Fields looked at; the longest sentence read here has fifteen.
const FIELDS: usize = 24;

/// What is taken apart.
const READ: [&[u8; 3]; 5] = [b"RMC", b"VTG", b"GGA", b"ZDA", b"RPM"];

/// A sentence whose sum is right, or that has none and may go without.
pub(crate) struct Sentence<'a> {
    /// Who speaks.
    pub(crate) talker: [u8; 2],
    /// What it is about.
    pub(crate) kind: [u8; 3],
    fields: [&'a [u8]; FIELDS],
    pub(crate) summed: bool,
}

/// What stands in a line.
#[expect(clippy::large_enum_variant, reason = "lives on the stack for one line")]
pub(crate) enum Found<'a> {
    Sentence(Sentence<'a>),
    /// A sentence of another kind altogether, or nothing to read.
    Other,
    Fault(Why),
}

/// Finds the sentence in a line, whatever a logger put before it.
pub(crate) fn find(line: &[u8]) -> Found<'_> {
    let mut fault = None;
    for start in memchr::memchr_iter(b'$', line).take(4) {
        match sentence(&line[start + 1..]) {
            Ok(Some(sentence)) => return Found::Sentence(sentence),
            Ok(None) => return Found::Other,
            Err(why) => fault = fault.or(Some(why)),
        }
    }
    match fault {
        Some(why) => Found::Fault(why),
        None if line.contains(&b'!') || line.trim_ascii().is_empty() => Found::Other,
        None if line.starts_with(b"#") => Found::Other,
        None => Found::Fault(Why::NotUnderstood),
    }
}

/// The sum of the characters between `$` and `*`: all of them, one after another, by exclusive or.
pub(crate) fn sum(body: &[u8]) -> u8 {
    body.iter().fold(0, |sum, c| sum ^ c)
}

/// From behind the `$`; none for a maker's own sentence.
fn sentence(text: &[u8]) -> Result<Option<Sentence<'_>>, Why> {
    let star = memchr::memchr(b'*', text);
    let body = match star {
        Some(star) => {
            let stated = text.get(star + 1..star + 3).and_then(hexadecimal);
            if stated != Some(sum(&text[..star])) {
                return Err(Why::Checksum);
            }
            &text[..star]
        }
        None => text.trim_ascii_end(),
    };
    let name = memchr::memchr(b',', body).unwrap_or(body.len());
    let name = &body[..name];
    match *name {
        [b'P', ..] => Ok(None),
        [a, b, c, d, e] if name.iter().all(u8::is_ascii_alphanumeric) => Ok(Some(Sentence {
            talker: [a, b],
            kind: [c, d, e],
            // The others are only counted.
            fields: split(if READ.contains(&&[c, d, e]) {
                body
            } else {
                b""
            }),
            summed: star.is_some(),
        })),
        _ => Err(Why::NotUnderstood),
    }
}

fn split(body: &[u8]) -> [&[u8]; FIELDS] {
    let mut fields = [&body[..0]; FIELDS];
    let mut rest = Some(body);
    for field in &mut fields {
        let Some(some) = rest else { break };
        let end = memchr::memchr(b',', some);
        *field = &some[..end.unwrap_or(some.len())];
        rest = end.map(|end| &some[end + 1..]);
    }
    fields
}

fn hexadecimal(two: &[u8]) -> Option<u8> {
    u8::from_str_radix(std::str::from_utf8(two).ok()?, 16).ok()
}

impl<'a> Sentence<'a> {
    pub(crate) fn field(&self, at: usize) -> &'a [u8] {
        self.fields.get(at).copied().unwrap_or_default()
    }

    /// An empty field is nothing; one that is no number, or below zero, is a fault.
    pub(crate) fn amount(&self, at: usize) -> Result<Option<f64>, Why> {
        let field = self.field(at).trim_ascii();
        if field.is_empty() {
            return Ok(None);
        }
        let value = number(field).filter(|v| *v >= 0.0);
        value.map(Some).ok_or(Why::BadNumber)
    }

    /// The time of the day in nanoseconds.
    pub(crate) fn time(&self, at: usize) -> Result<Option<i64>, Why> {
        let field = self.field(at);
        if field.is_empty() {
            return Ok(None);
        }
        run_together(field).map(Some).ok_or(Why::BadTime)
    }

    /// Four fields: `ddmm.mm,N,dddmm.mm,W`.
    pub(crate) fn place(&self, at: usize) -> Result<Option<Place>, Why> {
        if self.field(at).is_empty() || self.field(at + 2).is_empty() {
            return Ok(None);
        }
        let latitude = degrees(self.field(at), self.field(at + 1), [b'N', b'S']);
        let longitude = degrees(self.field(at + 2), self.field(at + 3), [b'E', b'W']);
        let place = latitude
            .zip(longitude)
            .and_then(|(latitude, longitude)| Place::from_degrees(latitude, longitude));
        place.map(Some).ok_or(Why::BadPlace)
    }

    /// Midnight of a date `ddmmyy`; years from 80 on are of the last century.
    pub(crate) fn date(&self, at: usize) -> Option<i64> {
        let field = self.field(at);
        if field.len() != 6 {
            return None;
        }
        let two = |at: usize| digits(&field[at..at + 2]).and_then(|n| i8::try_from(n).ok());
        let year = i16::from(two(4)?);
        let year = if year < 80 { 2000 + year } else { 1900 + year };
        midnight(year, two(2)?, two(0)?)
    }

    /// Midnight of a date in three fields, `dd,mm,yyyy`.
    pub(crate) fn long_date(&self, at: usize) -> Option<i64> {
        let part = |at| digits(self.field(at));
        midnight(
            i16::try_from(part(at + 2)?).ok()?,
            i8::try_from(part(at + 1)?).ok()?,
            i8::try_from(part(at)?).ok()?,
        )
    }
}

/// `ddmm.mmmm` and a letter, as degrees.
fn degrees(text: &[u8], letter: &[u8], signs: [u8; 2]) -> Option<f64> {
    let point = text.iter().position(|&c| c == b'.').unwrap_or(text.len());
    let (whole, minutes) = text.split_at(point.checked_sub(2)?);
    if whole.is_empty() || minutes.first().is_some_and(|c| !c.is_ascii_digit()) {
        return None;
    }
    let minutes = number(minutes).filter(|m| (0.0..60.0).contains(m))?;
    let whole = f64::from(u32::try_from(digits(whole)?).ok()?);
    let size = whole + minutes / 60.0; // not a conversion: how the sentence splits a degree
    match letter {
        [c] if *c == signs[0] => Some(size),
        [c] if *c == signs[1] => Some(-size),
        _ => None,
    }
}

/// What time of the log a time of a day is, given the last date and how the day went on.
#[derive(Default)]
pub(crate) struct Clock {
    /// Midnight of the last date that was read, and of the day that is running.
    pub(crate) date: Option<i64>,
    day: i64,
    last: Option<i64>,
}

impl Clock {
    /// A date read together with a time of that day.
    pub(crate) fn set(&mut self, midnight: i64) {
        self.date = Some(midnight);
        self.day = midnight;
        self.last = None;
    }

    /// The instant of a time of the day. Falling by more than half a day, it is of the next one.
    pub(crate) fn instant(&mut self, time: i64) -> i64 {
        if let Some(last) = self.last {
            if last - time > DAY / 2 {
                self.day += DAY;
            } else if time - last > DAY / 2 && self.date.is_some() {
                // A sentence of the evening that arrives after midnight.
                self.day -= DAY;
            }
        }
        self.last = Some(time);
        self.day + time
    }
}
