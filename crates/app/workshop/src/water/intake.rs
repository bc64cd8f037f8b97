//! From a log file to what the job keeps of it.

use std::io::{self, BufRead, Read};

use quantity::Unit;
use trial::read::{Column, Kind, Mapping, Options, Reading, Refused, SpeedFrom, read};
use trial::{Log, Sample};

use super::outing::milliseconds;
use super::{Columns, Format, Logged, POSITIONS, Rejected, THOUSAND};
use crate::draft::layout;
use crate::job::Job;

/// The file of a log, beside its content.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileSays {
    /// Its name.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
}

/// What was read of a log, and how its table was understood, where it was one.
#[derive(Clone, Debug)]
pub struct Taken {
    /// The log.
    pub reading: Reading,
    /// How its columns were understood, with their headings.
    pub layout: Option<String>,
}

/// The headings and the line of a table that was read before.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// Its headings.
    pub names: Vec<String>,
    /// What its columns are.
    pub mapping: Mapping,
}

/// Between the headings of a table, and before the line that says what they are.
const NEXT: char = '\n';
/// What is put between what was and what came after a clock that stepped back, in milliseconds.
const BREAK: i64 = 1000;
/// As much of a table is looked at before it is asked about.
const LOOKED_AT: usize = 4 << 20;

impl Known {
    /// As it is kept with a log.
    pub fn written(&self) -> String {
        let mut parts = self.names.clone();
        parts.push(layout::written(&self.mapping));
        parts.join(&NEXT.to_string())
    }

    /// Reads what was kept. It says all there was to say: what it does not name was not there.
    fn read(text: &str) -> Option<Self> {
        let mut parts: Vec<&str> = text.split(NEXT).collect();
        let mapping = layout::read(parts.pop()?, &Mapping::nothing(',')).ok()?;
        Some(Self {
            names: parts.into_iter().map(str::to_owned).collect(),
            mapping,
        })
    }
}

/// What was read, as the job keeps it.
pub fn logged(taken: &Taken, file: FileSays) -> Logged {
    let Reading {
        log,
        kind,
        speed_from,
        fixes,
        rejected,
        unit_check,
        thinned,
        ..
    } = &taken.reading;
    let rejected = rejected.iter().map(|rejected| Rejected {
        why: rejected.why.to_string(),
        count: rejected.count,
        line: rejected.line,
        text: rejected.example.clone(),
    });
    Logged {
        name: file.name,
        bytes: file.bytes,
        format: match kind {
            Kind::Gpx => Format::Gpx,
            Kind::Nmea => Format::Nmea,
            Kind::Table => Format::Csv,
            Kind::Network => Format::N2k,
        },
        speed_from: match speed_from {
            SpeedFrom::Receiver(place) => place.clone(),
            SpeedFrom::Positions => POSITIONS.to_owned(),
        },
        read: *fixes,
        thinned: thinned.is_some(),
        unit_ratio: *unit_check,
        rejected: rejected.chain(told(&taken.reading)).collect(),
        layout: taken.layout.clone(),
        zero_ms: log.zero.map(milliseconds),
        stretches: columns(log),
    }
}

/// The samples as whole numbers: a millisecond, a millimetre a second, a hundredth of a degree, one a
/// minute are finer than any receiver. Where the clock stepped back, time is counted on: a time of the
/// log means one sample.
fn columns(log: &Log) -> Vec<Columns> {
    let (mut ended, mut on) = (i64::MIN, 0);
    let stretch = |samples: &Vec<Sample>| {
        let mut columns = Columns::default();
        let begins = samples.first().map_or(0, |first| milliseconds(first.time));
        if begins + on <= ended {
            on = ended + BREAK - begins;
        }
        let course = samples.iter().any(|sample| sample.course.is_some());
        let engine = samples.iter().any(|sample| sample.engine.is_some());
        for sample in samples {
            let time = milliseconds(sample.time) + on;
            // Two samples within a millisecond are one.
            if columns.time_ms.last().is_some_and(|last| *last >= time) {
                continue;
            }
            columns.time_ms.push(time);
            columns.speed_mm_s.push(whole(sample.speed * THOUSAND));
            if course {
                let degrees = sample.course.map(f64::to_degrees);
                let degrees = degrees.map(|course| whole(course.rem_euclid(360.0) * 100.0));
                let degrees = degrees.and_then(|course| u16::try_from(course % 36_000).ok());
                columns.course_cdeg.push(degrees);
            }
            if engine {
                let rpm = sample.engine.map(|engine| whole(Unit::Rpm.from_si(engine)));
                columns
                    .engine_rpm
                    .push(rpm.and_then(|rpm| u16::try_from(rpm).ok()));
            }
        }
        ended = columns.time_ms.last().copied().unwrap_or(ended);
        columns
    };
    log.stretches.iter().map(stretch).collect()
}

/// What else is worth telling of a log, in the place of what was rejected: it points at no line.
fn told(reading: &Reading) -> impl Iterator<Item = Rejected> {
    let weeks = u64::from(reading.weeks_behind);
    let all = [
        (
            reading.clock_back,
            "the clock stepped back: a break, and time is counted on from there",
        ),
        (reading.zoneless, "a time without a zone, taken for UTC"),
        (
            weeks,
            "weeks by which its dates seem to lag, as an old receiver’s do; times within the log are right",
        ),
    ];
    let all = all.into_iter().filter(|(count, _)| *count > 0);
    all.map(|(count, why)| Rejected {
        why: why.to_owned(),
        count,
        line: 0,
        text: String::new(),
    })
}

/// Rounded to a whole number; readers let nothing below zero or beyond a craft through.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the range of the type by the cast, and far inside it"
)]
fn whole(value: f64) -> u32 {
    value.round() as u32
}

/// The tables this job has read, latest first.
pub fn known(job: &Job) -> Vec<String> {
    let mut logs: Vec<_> = job.trials.logs.values().collect();
    logs.sort_by_key(|state| std::cmp::Reverse(state.since));
    let layouts = logs
        .iter()
        .filter_map(|state| state.log.value.layout.clone());
    layouts.collect()
}

/// Reads a log; a table whose headings were read before is read as it was then. `said` is what the
/// person says of the columns now.
///
/// # Errors
/// As [`read`].
pub fn take_in(
    input: impl BufRead,
    options: &Options,
    said: &str,
    known: &[String],
) -> Result<Taken, Refused> {
    let mut input = Remembering::new(input);
    let (columns, guess, missing) = match read(&mut input, options) {
        Ok(reading) => {
            return Ok(Taken {
                reading,
                layout: None,
            });
        }
        Err(Refused::Ask {
            columns,
            guess,
            missing,
        }) if options.mapping.is_none() => (columns, guess, missing),
        Err(refused) => return Err(refused),
    };
    // A heading of two lines is one name all the same.
    let name = |column: &Column| column.name.replace(NEXT, " ");
    let names: Vec<String> = columns.iter().map(name).collect();
    let before = known
        .iter()
        .filter_map(|text| Known::read(text))
        .find(|known| known.names == names);
    let mapping = match before {
        _ if !said.trim().is_empty() => layout::read(said, &guess).ok(),
        Some(known) => Some(known.mapping),
        None => None,
    };
    let ask = || Refused::Ask {
        columns: columns.clone(),
        guess: guess.clone(),
        missing: missing.clone(),
    };
    let mapping = mapping.ok_or_else(ask)?;
    let again = input.again().ok_or_else(ask)?;
    let options = Options {
        mapping: Some(mapping.clone()),
        ..options.clone()
    };
    let reading = read(again, &options)?;
    let layout = Known { names, mapping }.written();
    Ok(Taken {
        reading,
        layout: Some(layout),
    })
}

/// A file that remembers how it began, so that it can be read from there once more.
struct Remembering<R> {
    rest: R,
    begin: Vec<u8>,
    /// More was read than is remembered.
    lost: bool,
}

impl<R: BufRead> Remembering<R> {
    fn new(rest: R) -> Self {
        Self {
            rest,
            begin: Vec::new(),
            lost: false,
        }
    }

    /// The same from its beginning, where all of what was read is remembered.
    fn again(self) -> Option<impl BufRead> {
        (!self.lost).then(|| io::Cursor::new(self.begin).chain(self.rest))
    }

    fn remember(&mut self, count: usize) -> io::Result<()> {
        if self.lost {
            return Ok(());
        }
        let some = self.rest.fill_buf()?;
        self.begin.extend_from_slice(&some[..count.min(some.len())]);
        if self.begin.len() > LOOKED_AT {
            self.begin = Vec::new();
            self.lost = true;
        }
        Ok(())
    }
}

impl<R: BufRead> Read for Remembering<R> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let some = self.fill_buf()?;
        let count = some.len().min(into.len());
        into[..count].copy_from_slice(&some[..count]);
        self.consume(count);
        Ok(count)
    }
}

impl<R: BufRead> BufRead for Remembering<R> {
    fn fill_buf(&mut self) -> io::Result<&[u8]> {
        self.rest.fill_buf()
    }

    fn consume(&mut self, count: usize) {
        // What is consumed lies in the buffer, so that nothing is read here.
        if self.remember(count).is_err() {
            self.lost = true;
        }
        self.rest.consume(count);
    }
}
