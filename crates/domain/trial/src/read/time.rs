//! Instants and dates as logs write them, in nanoseconds.

use jiff::civil::Date;
use jiff::fmt::temporal::DateTimeParser;
use jiff::tz::Offset;

static PARSER: DateTimeParser = DateTimeParser::new();

pub(crate) const SECOND: i64 = 1_000_000_000;
pub(crate) const DAY: i64 = 24 * HOUR;
const MINUTE: i64 = 60 * SECOND;
const HOUR: i64 = 60 * MINUTE;

/// An instant since 1970 from ISO 8601 or RFC 3339, and whether a zone stood there; without one it
/// is taken for UTC.
pub(crate) fn instant(text: &[u8]) -> Option<(i64, bool)> {
    let text = text.trim_ascii();
    if let Ok(stamp) = PARSER.parse_timestamp(text) {
        return Some((i64::try_from(stamp.as_nanosecond()).ok()?, true));
    }
    // Only with a time of day: a date alone is no instant.
    let civil = PARSER.parse_datetime(text).ok()?;
    if !text.contains(&b':') && text.len() < 15 {
        return None;
    }
    let stamp = Offset::UTC.to_timestamp(civil).ok()?;
    Some((i64::try_from(stamp.as_nanosecond()).ok()?, false))
}

/// Midnight UTC of a date in nanoseconds since 1970.
pub(crate) fn midnight(year: i16, month: i8, day: i8) -> Option<i64> {
    let date = Date::new(year, month, day).ok()?;
    let stamp = Offset::UTC.to_timestamp(date.at(0, 0, 0, 0)).ok()?;
    i64::try_from(stamp.as_nanosecond()).ok()
}

/// Midnight UTC of a date written year first.
pub(crate) fn date(text: &[u8]) -> Option<i64> {
    let text = std::str::from_utf8(text).ok()?.trim();
    let mut parts = text.split(['-', '/', '.']);
    let year = parts.next().filter(|year| year.len() == 4)?.parse().ok()?;
    let (month, day) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
    if parts.next().is_some() {
        return None;
    }
    midnight(year, month, day)
}

/// The time of a day written `hhmmss` with or without a fraction.
pub(crate) fn run_together(text: &[u8]) -> Option<i64> {
    let (whole, fraction) = match text.iter().position(|&c| c == b'.') {
        Some(point) => (&text[..point], &text[point + 1..]),
        None => (text, &[][..]),
    };
    if whole.len() != 6 {
        return None;
    }
    let two = |at: usize| digits(&whole[at..at + 2]);
    of_day(two(0)?, two(2)?, two(4)?, fraction)
}

/// The time of a day written `hh:mm:ss` or `hh:mm`, with or without a fraction of the last second.
pub(crate) fn with_colons(text: &[u8]) -> Option<i64> {
    let mut parts = text.trim_ascii().split(|&c| c == b':');
    let (hour, minute) = (digits(parts.next()?)?, digits(parts.next()?)?);
    let last = parts.next().unwrap_or(b"0");
    if parts.next().is_some() {
        return None;
    }
    let mut pieces = last.splitn(2, |&c| c == b'.' || c == b',');
    let second = digits(pieces.next()?)?;
    of_day(hour, minute, second, pieces.next().unwrap_or_default())
}

/// The sixtieth second is a leap second's, and is the next minute's first here.
fn of_day(hour: i64, minute: i64, second: i64, fraction: &[u8]) -> Option<i64> {
    if hour > 23 || minute > 59 || second > 60 {
        return None;
    }
    let mut part = 0;
    let mut place = SECOND;
    for &digit in fraction {
        if !digit.is_ascii_digit() {
            return None;
        }
        place /= 10;
        part += i64::from(digit - b'0') * place;
    }
    Some(hour * HOUR + minute * MINUTE + second * SECOND + part)
}

/// One to nine digits and nothing else.
pub(crate) fn digits(text: &[u8]) -> Option<i64> {
    let some = (1..=9).contains(&text.len()) && text.iter().all(u8::is_ascii_digit);
    some.then(|| text.iter().fold(0, |n, &d| 10 * n + i64::from(d - b'0')))
}

/// Seconds as nanoseconds, to the nearest; none beyond the calendar.
pub(crate) fn nanoseconds(seconds: f64) -> Option<i64> {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "within the range just tested"
    )]
    (seconds.abs() < 9e9).then(|| (seconds * 1e9).round() as i64)
}

/// A plain decimal number: no words for infinity, nothing behind it.
pub(crate) fn number(text: &[u8]) -> Option<f64> {
    let text = text.trim_ascii();
    let plain = text
        .iter()
        .all(|c| c.is_ascii_digit() || matches!(c, b'.' | b'-' | b'+' | b'e' | b'E'));
    if !plain {
        return None;
    }
    let value: f64 = std::str::from_utf8(text).ok()?.parse().ok()?;
    value.is_finite().then_some(value)
}
