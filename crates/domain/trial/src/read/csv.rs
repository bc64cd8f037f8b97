//! Tables: one row a sample, comma, semicolon or tab between the columns.
//!
//! A table seldom says all. What its heading and its first rows tell is a guess; what they do not
//! tell, above all the unit of a speed, is asked and never assumed. The person's answer is a
//! [`Mapping`] of plain fields that fits every later log of the same recorder.

mod cell;
mod heading;

use ::csv::{ByteRecord, ReaderBuilder};
use quantity::Unit;

use super::finish::{About, unit_size};
use super::gather::{Fix, Gather};
use super::input::Input;
use super::reject::{Rejects, Why};
use super::time::{DAY, SECOND, date, instant, nanoseconds, with_colons};
use super::{Kind, Options, Reading, Refused};
use crate::geodesy::Place;
pub(crate) use heading::guess;

/// How the time of a row is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TimeForm {
    /// Seconds from a zero of its own.
    Seconds,
    /// Thousandths of a second from a zero of its own.
    Milliseconds,
    /// Seconds since 1970.
    SecondsSince1970,
    /// Thousandths of a second since 1970.
    MillisecondsSince1970,
    /// Date and time, as `2026-06-15T15:12:33.2Z`.
    DateAndTime,
    /// Time of the day, as `15:12:33.2`.
    TimeOfDay,
}

/// Which column is what: columns counted from zero.
#[derive(Clone, Debug, PartialEq)]
pub struct Mapping {
    /// Between columns: a comma, a semicolon or a tab.
    pub separator: char,
    /// Whether the decimal mark is a comma.
    pub decimal_comma: bool,
    /// Rows above the first sample, without comments and empty lines.
    pub heading: usize,
    /// Time.
    pub time: Option<usize>,
    /// How it is written.
    pub time_form: Option<TimeForm>,
    /// Date, year first, where it has a column of its own.
    pub date: Option<usize>,
    /// Speed over ground.
    pub speed: Option<usize>,
    /// Its unit.
    pub speed_unit: Option<Unit>,
    /// Course over ground, from true north.
    pub course: Option<usize>,
    /// Its unit.
    pub course_unit: Unit,
    /// Engine speed.
    pub engine: Option<usize>,
    /// Its unit.
    pub engine_unit: Unit,
    /// Latitude in degrees.
    pub latitude: Option<usize>,
    /// Longitude in degrees.
    pub longitude: Option<usize>,
    /// Horizontal dilution of precision.
    pub dilution: Option<usize>,
    /// Satellites used.
    pub satellites: Option<usize>,
}

/// A column as it is shown to a person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// What its heading says; empty without a heading.
    pub name: String,
    /// What stands in the first rows.
    pub examples: Vec<String>,
}

/// What a table does not tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// Which column is the time.
    Time,
    /// What the numbers of the time count.
    TimeForm,
    /// Which column is the speed, or latitude and longitude.
    Speed,
    /// The unit of the speed.
    SpeedUnit,
    /// Whether a comma is the decimal mark or groups thousands.
    DecimalMark,
}

impl std::fmt::Display for Missing {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Time => "say which column is the time",
            Self::TimeForm => "say whether the time counts seconds or thousandths",
            Self::Speed => "say which column is the speed over ground, or latitude and longitude",
            Self::SpeedUnit => "say which unit the speed is in",
            Self::DecimalMark => "say whether a comma is the decimal mark or groups thousands",
        })
    }
}

impl Mapping {
    /// Nothing said of any column.
    pub fn nothing(separator: char) -> Self {
        Self {
            separator,
            decimal_comma: false,
            heading: 0,
            time: None,
            time_form: None,
            date: None,
            speed: None,
            speed_unit: None,
            course: None,
            course_unit: Unit::Degree,
            engine: None,
            engine_unit: Unit::Rpm,
            latitude: None,
            longitude: None,
            dilution: None,
            satellites: None,
        }
    }

    /// What has still to be said before a table can be read.
    pub fn missing(&self) -> Vec<Missing> {
        let places = self.latitude.is_some() && self.longitude.is_some();
        let open = [
            (Missing::Time, self.time.is_none()),
            (
                Missing::TimeForm,
                self.time.is_some() && self.time_form.is_none(),
            ),
            (Missing::Speed, self.speed.is_none() && !places),
            (
                Missing::SpeedUnit,
                self.speed.is_some() && self.speed_unit.is_none(),
            ),
        ];
        let open = open.into_iter().filter(|(_, open)| *open);
        open.map(|(missing, _)| missing).collect()
    }

    /// The last column that is read.
    fn last(&self) -> usize {
        let all = [
            self.time,
            self.date,
            self.speed,
            self.course,
            self.engine,
            self.latitude,
            self.longitude,
            self.dilution,
            self.satellites,
        ];
        all.into_iter().flatten().max().unwrap_or(0)
    }
}

/// What a table is read with.
struct Table<'m> {
    mapping: &'m Mapping,
    form: TimeForm,
    speed: f64,
    course: f64,
    engine: f64,
    gather: Gather,
    rejects: Rejects,
    rows: u64,
    zoneless: u64,
    dated: bool,
    /// For times of a day: the last one, and the days that have passed.
    last: Option<i64>,
    days: i64,
}

pub(crate) fn read(input: Input<'_>, head: &[u8], options: &Options) -> Result<Reading, Refused> {
    let mapping = match &options.mapping {
        Some(mapping) => mapping.clone(),
        None => guess(head)?.0,
    };
    let missing = mapping.missing();
    let (Some(form), true) = (mapping.time_form, missing.is_empty()) else {
        let columns = heading::columns(head, &mapping);
        return Err(Refused::Ask {
            columns,
            guess: Box::new(mapping),
            missing,
        });
    };
    let columns = heading::columns(head, &mapping).len();
    if mapping.last() >= columns {
        return Err(Refused::NoColumn {
            column: mapping.last() + 1,
            columns,
        });
    }
    let unit = options.speed_unit.or(mapping.speed_unit);
    let unit = unit.unwrap_or(Unit::MetrePerSecond);
    let mut table = Table {
        mapping: &mapping,
        form,
        speed: unit_size(unit),
        course: unit_size(mapping.course_unit),
        engine: unit_size(mapping.engine_unit),
        gather: Gather::default(),
        rejects: Rejects::default(),
        rows: 0,
        zoneless: 0,
        dated: matches!(
            form,
            TimeForm::SecondsSince1970 | TimeForm::MillisecondsSince1970 | TimeForm::DateAndTime
        ) || mapping.date.is_some(),
        last: None,
        days: 0,
    };
    table.rows(input, memchr::memchr(b'"', head).is_some())?;
    let place = match mapping.speed {
        Some(at) => match heading::columns(head, &mapping).get(at) {
            Some(column) if !column.name.is_empty() => {
                format!("column {}, {}", at + 1, column.name)
            }
            _ => format!("column {}", at + 1),
        },
        None => String::new(),
    };
    let about = About {
        kind: Kind::Table,
        place,
        unit,
        dated: table.dated,
        zoneless: table.zoneless,
        counts: vec![("rows".to_owned(), table.rows)],
        others: Vec::new(),
        rejects: table.rejects,
    };
    table.gather.finish().reading(about, options)
}

/// The byte between columns.
pub(crate) fn separator(mapping: &Mapping) -> u8 {
    u8::try_from(mapping.separator).unwrap_or(b',')
}

impl Table<'_> {
    fn rows(&mut self, input: Input<'_>, quotes: bool) -> Result<(), Refused> {
        let mut reader = ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .quoting(quotes)
            .comment(Some(b'#'))
            .delimiter(separator(self.mapping))
            .from_reader(input);
        let mut record = ByteRecord::new();
        let mut heading = self.mapping.heading;
        loop {
            reader.get_mut().piece();
            let more = reader.read_byte_record(&mut record);
            let more = more.map_err(|cause| Refused::Unreadable {
                cause: cause.to_string(),
            })?;
            if !more {
                break;
            }
            let line = record.position().map_or(0, ::csv::Position::line);
            if reader.get_mut().spent() {
                // A quote that never closes; what follows begins at the next line.
                self.rejects.add(Why::LongLine, line, record.as_slice());
                reader.get_mut().skip_line()?;
                continue;
            }
            if record.iter().all(|cell| cell.trim_ascii().is_empty()) || heading::comment(&record) {
                continue;
            }
            if heading > 0 {
                heading -= 1;
                continue;
            }
            self.rows += 1;
            if let Err((why, text)) = self.row(&record, line) {
                self.rejects.add(why, line, &text);
            }
        }
        Ok(())
    }

    fn row(&mut self, record: &ByteRecord, line: u64) -> Result<(), (Why, Vec<u8>)> {
        let mapping = self.mapping;
        let whole = || {
            let cells: Vec<&[u8]> = record.iter().take(20).collect();
            cells.join(&separator(mapping))
        };
        let number = |column: Option<usize>| -> Result<Option<f64>, (Why, Vec<u8>)> {
            let cell = column.and_then(|at| record.get(at)).unwrap_or_default();
            let cell = cell.trim_ascii();
            if cell.is_empty() || cell.eq_ignore_ascii_case(b"nan") || cell == b"-" {
                return Ok(None);
            }
            let value = cell::number(cell, mapping.decimal_comma);
            value.map(Some).ok_or_else(|| (Why::BadNumber, whole()))
        };
        let time = self.time(record).map_err(|why| (why, whole()))?;
        let speed = number(mapping.speed)?;
        if speed.is_some_and(|v| v < 0.0) {
            return Err((Why::BadNumber, whole()));
        }
        let place = match (number(mapping.latitude)?, number(mapping.longitude)?) {
            (Some(latitude), Some(longitude)) => Some(
                Place::from_degrees(latitude, longitude).ok_or_else(|| (Why::BadPlace, whole()))?,
            ),
            _ => None,
        };
        let fix = Fix {
            time: Some(time),
            place,
            speed: speed.map(|v| v * self.speed),
            course: number(mapping.course)?.map(|c| c * self.course),
            engine: number(mapping.engine)?.map(|n| n * self.engine),
            dilution: number(mapping.dilution)?,
            satellites: number(mapping.satellites)?,
            line,
        };
        if fix.speed.is_none() && fix.place.is_none() {
            return Err((Why::NoSpeed, whole()));
        }
        let text = speed.map_or_else(Vec::new, |_| whole());
        self.gather.fix(fix, &text);
        Ok(())
    }

    fn time(&mut self, record: &ByteRecord) -> Result<i64, Why> {
        let mapping = self.mapping;
        let cell = mapping.time.and_then(|at| record.get(at));
        let cell = cell.unwrap_or_default().trim_ascii();
        if cell.is_empty() {
            return Err(Why::NoTime);
        }
        let count = |size: f64| {
            let value = cell::number(cell, mapping.decimal_comma);
            value.and_then(|value| nanoseconds(value / size))
        };
        let time = match self.form {
            TimeForm::Seconds | TimeForm::SecondsSince1970 => count(1.0),
            TimeForm::Milliseconds | TimeForm::MillisecondsSince1970 => count(1e3),
            TimeForm::DateAndTime => instant(cell).map(|(time, zoned)| {
                self.zoneless += u64::from(!zoned);
                time
            }),
            TimeForm::TimeOfDay => with_colons(cell).and_then(|time| self.of_day(time, record)),
        };
        time.ok_or(Why::BadTime)
    }

    /// A time of a day with its date, or with the days that went by since the first row.
    fn of_day(&mut self, time: i64, record: &ByteRecord) -> Option<i64> {
        if let Some(column) = self.mapping.date {
            self.zoneless += 1;
            return Some(date(record.get(column)?)? + time);
        }
        if self.last.is_some_and(|last| last - time > DAY / 2) {
            self.days += 1;
        }
        self.last = Some(time);
        Some(self.days.checked_mul(DAY)? + time)
    }
}

/// Whether a count of this size can only be one since 1970: seconds, or thousandths of them.
fn since_1970(value: f64) -> Option<TimeForm> {
    // From 1990 to the end of the calendar of nanoseconds.
    let (from, to) = (6.3e8, 9.0e9);
    #[expect(clippy::cast_precision_loss, reason = "a power of ten")]
    let thousand = (SECOND / 1_000_000) as f64;
    match value {
        v if (from..to).contains(&v) => Some(TimeForm::SecondsSince1970),
        v if (from..to).contains(&(v / thousand)) => Some(TimeForm::MillisecondsSince1970),
        _ => None,
    }
}
