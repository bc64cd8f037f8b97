//! What a table says about itself: separator, decimal mark, heading, units, form of the time.

use ::csv::{ByteRecord, ReaderBuilder};
use quantity::{Kind, Unit};

use super::{Column, Mapping, Missing, TimeForm, cell, separator, since_1970};
use crate::read::Refused;
use crate::read::reject::shown;
use crate::read::time::{date, instant, with_colons};

/// Rows looked at.
const ROWS: usize = 60;
/// Columns of a table.
const COLUMNS: usize = 200;
const EXAMPLES: usize = 3;

/// The columns with their names and first cells.
pub(crate) fn columns(head: &[u8], mapping: &Mapping) -> Vec<Column> {
    let rows = rows(head, separator(mapping));
    let heading = mapping.heading.min(rows.len());
    let data = &rows[heading..];
    let named = rows[..heading]
        .iter()
        .rev()
        .max_by_key(|row| row.len())
        .cloned()
        .unwrap_or_default();
    let count = data
        .iter()
        .map(Vec::len)
        .max()
        .unwrap_or(0)
        .max(named.len());
    (0..count.min(COLUMNS))
        .map(|at| Column {
            name: named.get(at).cloned().unwrap_or_default(),
            examples: data
                .iter()
                .filter_map(|row| row.get(at))
                .filter(|cell| !cell.is_empty())
                .take(EXAMPLES)
                .cloned()
                .collect(),
        })
        .collect()
}

/// Whether a row is a comment: the mark of one, or words before a heading, take one cell.
pub(crate) fn comment(record: &ByteRecord) -> bool {
    let first = record.get(0).unwrap_or_default().trim_ascii_start();
    first.starts_with(b"#") || first.starts_with(b"//") || first.starts_with(b"%")
}

/// The first rows, cut into cells; a last row without an end is left out.
fn rows(head: &[u8], separator: u8) -> Vec<Vec<String>> {
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .comment(Some(b'#'))
        .delimiter(separator)
        .from_reader(head);
    let mut record = ByteRecord::new();
    let mut rows = Vec::new();
    while rows.len() < ROWS && reader.read_byte_record(&mut record).unwrap_or(false) {
        let empty = record.iter().all(|cell| cell.trim_ascii().is_empty());
        if !empty && !comment(&record) {
            rows.push(record.iter().take(COLUMNS).map(shown).collect());
        }
    }
    rows
}

/// The separator that cuts most rows into the same number of cells, more than one.
fn likely_separator(head: &[u8]) -> Option<(u8, Vec<Vec<String>>)> {
    let score = |separator: u8| {
        let rows = rows(head, separator);
        let count = rows.last().map_or(0, Vec::len);
        let alike = rows.iter().filter(|row| row.len() == count).count();
        (
            if count > 1 {
                alike * 10 + count.min(9)
            } else {
                0
            },
            rows,
        )
    };
    // Semicolon and tab first: where they part columns, commas are decimal marks.
    let scored = [b';', b'\t', b','].map(|s| (s, score(s)));
    let best = scored
        .into_iter()
        .rev()
        .max_by_key(|(_, (score, _))| *score)?;
    let (separator, (score, rows)) = best;
    (score > 0).then_some((separator, rows))
}

/// What can be told about a table from its beginning.
pub(crate) fn guess(head: &[u8]) -> Result<(Mapping, Vec<Vec<String>>), Refused> {
    let Some((separator, rows)) = likely_separator(head) else {
        return Err(Refused::NotALog { start: shown(head) });
    };
    let numeric = |cell: &String| {
        let bytes = cell.as_bytes();
        cell::number(bytes, false).is_some()
            || cell::number(bytes, true).is_some()
            || with_colons(bytes).is_some()
            || instant(bytes).is_some()
            || date(bytes).is_some()
    };
    // The first row with mostly numbers begins the samples.
    let begins = |row: &Vec<String>| {
        let filled = row.iter().filter(|cell| !cell.is_empty()).count();
        row.len() > 1 && filled > 1 && 2 * row.iter().filter(|c| numeric(c)).count() >= filled
    };
    let Some(heading) = rows.iter().position(begins) else {
        return Err(Refused::NotALog { start: shown(head) });
    };
    let (comma, unclear) = decimal_comma(&rows[heading..], separator);
    let mut mapping = Mapping {
        decimal_comma: comma,
        heading,
        ..Mapping::nothing(char::from(separator))
    };
    let width = rows[heading].len();
    for at in 0..width {
        let above: Vec<&str> = rows[..heading]
            .iter()
            .filter(|row| row.len() > 1)
            .filter_map(|row| row.get(at).map(String::as_str))
            .collect();
        name(&mut mapping, at, &above.join(" "));
    }
    if mapping.time.is_none() {
        // Without a name, only what cannot be anything else.
        mapping.time = (0..width).find(|&at| written_form(&rows[heading..], at).is_some());
    }
    if let (Some(at), None) = (mapping.time, mapping.time_form) {
        mapping.time_form = written_form(&rows[heading..], at)
            .or_else(|| counted_form(&rows[heading..], at, comma));
    }
    if let Some(form) = mapping
        .time
        .and_then(|at| written_form(&rows[heading..], at))
    {
        mapping.time_form = Some(form);
    }
    if unclear {
        let mut missing = mapping.missing();
        missing.push(Missing::DecimalMark);
        return Err(Refused::Ask {
            columns: columns(head, &mapping),
            guess: Box::new(mapping),
            missing,
        });
    }
    Ok((mapping, rows))
}

/// What a heading says of its column, if nothing before it said the same.
fn name(mapping: &mut Mapping, at: usize, text: &str) {
    let folded = text.to_lowercase();
    let words: Vec<&str> = folded
        .split(|c: char| !(c.is_alphanumeric() || c == '/' || c == '°'))
        .filter(|word| !word.is_empty())
        .collect();
    let has = |any: &[&str]| words.iter().any(|word| any.contains(word));
    let set = |slot: &mut Option<usize>| {
        slot.get_or_insert(at);
    };
    let elsewhere = has(&[
        "water", "stw", "wind", "accuracy", "error", "max", "avg", "average", "vertical",
    ]);
    if has(&["rpm", "engine"]) && !elsewhere {
        if mapping.engine.is_none() {
            mapping.engine_unit = unit_of(&words, Kind::ShaftSpeed).unwrap_or(Unit::Rpm);
        }
        set(&mut mapping.engine);
    } else if has(&["speed", "sog", "velocity", "v"]) && !elsewhere {
        if mapping.speed.is_none() {
            mapping.speed_unit = unit_of(&words, Kind::Speed);
        }
        set(&mut mapping.speed);
    } else if has(&["course", "cog", "track"]) {
        mapping.course_unit = unit_of(&words, Kind::Angle).unwrap_or(Unit::Degree);
        set(&mut mapping.course);
    } else if has(&["lat", "latitude"]) {
        set(&mut mapping.latitude);
    } else if has(&["lon", "lng", "long", "longitude"]) {
        set(&mut mapping.longitude);
    } else if has(&["hdop"]) {
        set(&mut mapping.dilution);
    } else if has(&["nsat", "sats", "satellites", "numsat"]) {
        set(&mut mapping.satellites);
    } else if has(&[
        "time",
        "timestamp",
        "t",
        "datetime",
        "utc",
        "elapsed",
        "seconds",
    ]) {
        if mapping.time.is_none() {
            mapping.time_form = if has(&["ms", "millis", "milliseconds", "msec"]) {
                Some(TimeForm::Milliseconds)
            } else if has(&["s", "sec", "secs", "seconds"]) {
                Some(TimeForm::Seconds)
            } else {
                None
            };
        }
        set(&mut mapping.time);
    } else if has(&["date"]) {
        set(&mut mapping.date);
    }
}

/// The unit among the words of a heading; parts of one may have been cut by its writer, as in `m_s`.
fn unit_of(words: &[&str], kind: Kind) -> Option<Unit> {
    let known = |text: &str| Unit::from_symbol(text).filter(|unit| unit.kind() == kind);
    let pairs = words.windows(2).map(|two| format!("{}/{}", two[0], two[1]));
    let single = words.iter().rev().find_map(|word| match *word {
        "mps" | "ms" if kind == Kind::Speed => Some(Unit::MetrePerSecond),
        "fps" if kind == Kind::Speed => Some(Unit::FootPerSecond),
        word => known(word),
    });
    single.or_else(|| pairs.rev().find_map(|pair| known(&pair)))
}

/// The form of a time that is no plain number.
fn written_form(rows: &[Vec<String>], at: usize) -> Option<TimeForm> {
    let cell = rows
        .iter()
        .filter_map(|row| row.get(at))
        .find(|c| !c.is_empty())?;
    let bytes = cell.as_bytes();
    if with_colons(bytes).is_some() {
        Some(TimeForm::TimeOfDay)
    } else if instant(bytes).is_some() {
        Some(TimeForm::DateAndTime)
    } else {
        None
    }
}

/// What a plain count of time counts, if that can be told: since 1970, or seconds with a fraction.
fn counted_form(rows: &[Vec<String>], at: usize, comma: bool) -> Option<TimeForm> {
    let counts: Vec<f64> = rows
        .iter()
        .filter_map(|row| cell::number(row.get(at)?.as_bytes(), comma))
        .collect();
    let form = counts.first().and_then(|first| since_1970(*first));
    let close = counts.windows(2).any(|two| (two[1] - two[0]).abs() < 0.99);
    let fraction = counts.iter().any(|count| count.fract() != 0.0);
    form.or((fraction && close).then_some(TimeForm::Seconds))
}

/// Whether the decimal mark is a comma, and whether that cannot be told.
fn decimal_comma(rows: &[Vec<String>], separator: u8) -> (bool, bool) {
    let (mut comma, mut point, mut either) = (0, 0, 0);
    for cell in rows.iter().flatten() {
        let digits = |text: &str| !text.is_empty() && text.bytes().all(|c| c.is_ascii_digit());
        match (cell.rfind(','), cell.rfind('.')) {
            (Some(c), Some(p)) if c > p => comma += 1,
            (Some(_), Some(_)) => point += 1,
            (None, Some(_)) if cell::number(cell.as_bytes(), false).is_some() => point += 1,
            (Some(c), None) => {
                let whole = cell[..c].trim_start_matches(['-', '+']);
                let part = &cell[c + 1..];
                if !digits(whole) || !digits(part) {
                    continue;
                }
                let groups = part.len() == 3 && whole.len() <= 3 && !whole.starts_with('0');
                *(if groups { &mut either } else { &mut comma }) += 1;
            }
            _ => {}
        }
    }
    let unclear = comma == 0 && point == 0 && either > 0 && separator != b',';
    (comma > point, unclear)
}
