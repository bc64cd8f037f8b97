//! Water tests: outings, their logs, what was read off, and the result that was taken.
//!
//! The file of a log stays where it is. The job keeps its name, its digest, what was rejected of it
//! and the columns that runs are reckoned from; where the craft was is not among them.

pub mod answer;
mod headings;
pub mod intake;
pub mod outing;
mod read_off;

use std::collections::BTreeMap;
use std::sync::Arc;

use quantity::{Entered, Unit, parse};
use trial::{Log, Sample};

use crate::entry::{EntryId, Key};
use crate::gap::short_digest;
use crate::job::{Fact, Job};

/// Whether the craft was run before the rebuild or after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Before the pump was opened.
    Before,
    /// After it was closed.
    After,
}

/// The water it ran on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Water {
    /// A lake or a river.
    Fresh,
    /// The sea.
    Salt,
}

/// What measured the speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Receiver {
    /// A receiver of its own, several fixes a second.
    Own,
    /// A telephone or a watch.
    Phone,
    /// The craft's own display or plotter.
    Craft,
}

/// One time on the water.
#[derive(Clone, Debug, PartialEq)]
pub struct Outing {
    /// What it is called.
    pub name: String,
    /// Before or after.
    pub side: Side,
    /// The unit speeds are shown and typed in.
    pub unit: Unit,
    /// What measured the speed; the coarsest where nobody said.
    pub receiver: Option<Receiver>,
    /// The water.
    pub water: Option<Water>,
    /// Its temperature.
    pub water_temperature: Option<Entered>,
    /// Speed of the wind.
    pub wind: Option<Entered>,
    /// Height of the waves.
    pub waves: Option<Entered>,
    /// Temperature of the air.
    pub air_temperature: Option<Entered>,
    /// Pressure at the place, not reduced to sea level.
    pub pressure: Option<Entered>,
    /// Relative humidity, in percent.
    pub humidity: Option<u8>,
    /// The engine is charged, so that air corrections do not apply.
    pub charged: bool,
    /// Riders and fuel, trim, anything that was not the same.
    pub note: String,
}

impl Outing {
    /// An outing of which nothing but its name is said.
    pub fn named(name: &str, side: Side, unit: Unit) -> Self {
        Self {
            name: name.to_owned(),
            side,
            unit,
            receiver: None,
            water: None,
            water_temperature: None,
            wind: None,
            waves: None,
            air_temperature: None,
            pressure: None,
            humidity: None,
            charged: false,
            note: String::new(),
        }
    }
}

/// What a log file was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// GPX.
    Gpx,
    /// NMEA 0183.
    Nmea,
    /// Columns of text.
    Csv,
    /// NMEA 2000 as lines of text.
    N2k,
}

/// One kind of thing that was not taken from a log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rejected {
    /// Why.
    pub why: String,
    /// How often.
    pub count: u64,
    /// The line it was met first at; 0 for what is told of the log as a whole.
    pub line: u64,
    /// What stands there, shortened.
    pub text: String,
}

/// An unbroken stretch of a log, one number a sample in each column.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Columns {
    /// Milliseconds since the log's zero.
    pub time_ms: Vec<i64>,
    /// Millimetres a second.
    pub speed_mm_s: Vec<u32>,
    /// Hundredths of a degree from true north; empty where no sample has one.
    pub course_cdeg: Vec<Option<u16>>,
    /// Revolutions a minute; empty where no sample has one.
    pub engine_rpm: Vec<Option<u16>>,
}

/// What the job keeps of a log.
#[derive(Clone, Debug, PartialEq)]
pub struct Logged {
    /// The file's name.
    pub name: String,
    /// Its length in bytes.
    pub bytes: u64,
    /// What it was.
    pub format: Format,
    /// Where its speed comes from: an element, a sentence, a column, or [`POSITIONS`].
    pub speed_from: String,
    /// Samples read.
    pub read: u64,
    /// Slow parts were thinned out, so that the rest fits.
    pub thinned: bool,
    /// Speed of the receiver over speed by positions, where both are there.
    pub unit_ratio: Option<f64>,
    /// What was rejected.
    pub rejected: Vec<Rejected>,
    /// How the columns of a table were understood, with its headings; none for another log.
    pub layout: Option<String>,
    /// Milliseconds from 1970-01-01T00:00:00Z to the zero; none where the log has no date.
    pub zero_ms: Option<i64>,
    /// The samples.
    pub stretches: Vec<Columns>,
}

/// Speed that was reckoned from one position to the next.
pub const POSITIONS: &str = "positions";

/// Columns are kept as whole thousandths.
pub(crate) const THOUSAND: f64 = 1000.0; // not a conversion: the scale of what is kept

impl Logged {
    /// The log as runs are found in it.
    pub fn log(&self) -> Log {
        let rpm = parse("1", Unit::Rpm).map_or(f64::NAN, |one| one.value);
        let sample = |columns: &Columns, at: usize| Sample {
            time: outing::seconds(columns.time_ms[at]),
            speed: f64::from(columns.speed_mm_s[at]) / THOUSAND,
            course: columns
                .course_cdeg
                .get(at)
                .copied()
                .flatten()
                .map(|course| (f64::from(course) / 100.0).to_radians()),
            engine: columns
                .engine_rpm
                .get(at)
                .copied()
                .flatten()
                .map(|n| f64::from(n) * rpm),
        };
        let stretch = |columns: &Columns| {
            (0..columns.time_ms.len())
                .map(|at| sample(columns, at))
                .collect()
        };
        Log {
            zero: self.zero_ms.map(outing::seconds),
            stretches: self.stretches.iter().map(stretch).collect(),
        }
    }

    /// How many lines, points or fixes were rejected.
    pub fn lines_rejected(&self) -> u64 {
        let pointed = self.rejected.iter().filter(|rejected| rejected.line > 0);
        pointed.fold(0, |all, rejected| all.saturating_add(rejected.count))
    }

    /// How many samples are kept.
    pub fn samples(&self) -> usize {
        self.stretches.iter().map(|some| some.time_ms.len()).sum()
    }
}

/// A run as a person sets it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Window {
    /// From, in milliseconds since the log's zero.
    pub from_ms: i64,
    /// Until.
    pub until_ms: i64,
}

/// What a figure says.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// Speed at full throttle.
    TopSpeed(Way),
    /// Engine speed at full throttle.
    EngineSpeed,
    /// From rest to a speed.
    Start {
        /// That speed.
        to: Entered,
    },
}

/// Which way a figure was read on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// Out.
    There,
    /// And back.
    Back,
    /// Nobody said.
    NotSaid,
}

/// How a figure was read off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Read {
    /// The craft's own display.
    Display,
    /// A receiver or a telephone.
    Receiver,
    /// A stop watch by hand.
    StopWatch,
    /// Frames of a video.
    Video,
}

/// Something read off, without a log.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it says.
    pub what: What,
    /// The value.
    pub value: Entered,
    /// How it was read off.
    pub read: Read,
}

/// Of what a person took a trial to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// Digest of what it rests on.
    pub evidence: String,
    /// The answer as it was told.
    pub words: String,
    /// Speed after, with the ends of its interval, `m/s`.
    pub after: Option<[f64; 3]>,
    /// Change of speed, with the ends of its interval, `m/s`.
    pub change: Option<[f64; 3]>,
    /// The program that told it.
    pub program: String,
}

/// Something about a water test.
#[derive(Clone, Debug, PartialEq)]
pub enum Trialling {
    /// An outing is described.
    Outing {
        /// Names it within the job.
        key: Key,
        /// What was said.
        outing: Outing,
    },
    /// A log was read.
    Log {
        /// The outing it belongs to.
        outing: Key,
        /// SHA-256 of the file, 64 small hexadecimal digits.
        digest: Key,
        /// What is kept of it.
        log: Arc<Logged>,
    },
    /// A log is no part of the record.
    LogPutAway {
        /// Which.
        digest: Key,
    },
    /// The runs of a log are set by hand; none goes back to those that were found.
    Runs {
        /// Which log.
        digest: Key,
        /// All runs, not only what is new.
        windows: Option<Vec<Window>>,
    },
    /// What was read off on an outing: all of it, not only what is new.
    Figures {
        /// Which outing.
        outing: Key,
        /// The figures, in the order they were read.
        figures: Vec<Figure>,
    },
    /// The person takes what the trial shows as its result.
    Taken(Shown),
}

/// An outing as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct OutingState {
    /// Where it was described first.
    pub since: u64,
    /// What is said of it.
    pub outing: Fact<Outing>,
    /// What was read off.
    pub figures: Option<Fact<Vec<Figure>>>,
}

/// A log as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct LogState {
    /// Where it was read first.
    pub since: u64,
    /// The outing it belongs to.
    pub outing: Key,
    /// What is kept of it.
    pub log: Fact<Arc<Logged>>,
    /// Its runs as set by hand.
    pub windows: Option<Fact<Vec<Window>>>,
}

/// The water tests of a job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trials {
    /// The outings, by key.
    pub outings: BTreeMap<Key, OutingState>,
    /// The logs, by digest.
    pub logs: BTreeMap<Key, LogState>,
    /// The result that was taken.
    pub taken: Option<Fact<Shown>>,
}

impl Trials {
    /// The outings of a side, or all, in the order they were described.
    pub fn in_order(&self, side: Option<Side>) -> Vec<(&Key, &OutingState)> {
        let outings = self.outings.iter();
        let of_side = |state: &OutingState| side.is_none_or(|side| state.outing.value.side == side);
        let mut outings: Vec<_> = outings.filter(|(_, state)| of_side(state)).collect();
        outings.sort_by_key(|(_, state)| state.since);
        outings
    }

    /// The logs of an outing, in the order they were read.
    pub fn logs_of(&self, outing: &Key) -> Vec<(&Key, &LogState)> {
        let mut logs: Vec<_> = self
            .logs
            .iter()
            .filter(|(_, state)| state.outing == *outing)
            .collect();
        logs.sort_by_key(|(_, state)| state.since);
        logs
    }

    /// Whether there is nothing.
    pub fn is_empty(&self) -> bool {
        self.outings.is_empty() && self.logs.is_empty()
    }
}

/// Names all that an answer about the trials rests on: the entries that said it.
pub fn evidence(job: &Job) -> String {
    let mut words = vec!["1".to_owned()];
    let mut add = |word: &str, entry: &EntryId| words.push(format!("{word} {entry}"));
    for state in job.trials.outings.values() {
        add("outing", &state.outing.entry);
        if let Some(figures) = &state.figures {
            add("figures", &figures.entry);
        }
    }
    for state in job.trials.logs.values() {
        add("log", &state.log.entry);
        if let Some(windows) = &state.windows {
            add("runs", &windows.entry);
        }
    }
    short_digest(&words.join(" "))
}
