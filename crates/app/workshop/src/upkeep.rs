//! When the pump is opened again: how the craft is used, what parts cost and how long they last, what falls due, what
//! was done, and the recheck after the first hour.

pub mod answer;
mod due;
mod gap;
mod hours;
mod parts;
pub mod recheck;
pub mod tasks;
mod versus;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use jiff::civil::Date;
use quantity::{Entered, Plain};

use crate::entry::{EntryId, Key};
use crate::gap::short_digest;
use crate::job::{Fact, Job};
use recheck::Point;

/// What the water carries, as far as it wears a pump.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Carries {
    /// Nothing that is seen or felt.
    Clean,
    /// Silt.
    Silt,
    /// Sand: shallows, beaches, bars.
    Sand,
}

/// A day of any year.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct MonthDay {
    /// 1 to 12.
    pub month: i8,
    /// 1 to 31, as the month allows in a leap year.
    pub day: i8,
}

impl MonthDay {
    /// Reads one as it is written, `05-01`; nothing else is one.
    pub fn parse(text: &str) -> Option<Self> {
        // Of a leap year, so that the last of February is a day.
        let date: Date = format!("2024-{text}").parse().ok()?;
        let read = Self {
            month: date.month(),
            day: date.day(),
        };
        (read.to_string() == text).then_some(read)
    }
}

impl fmt::Display for MonthDay {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}-{:02}", self.month, self.day)
    }
}

/// How the craft is used and what its hours are worth. What nobody said is not counted, and the page says so.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Usage {
    /// What prices are in, as the person writes it.
    pub currency: String,
    /// The water it runs in.
    pub water: Option<Carries>,
    /// Hours of clean water that an hour in silt wears as much as.
    pub silt: Option<Plain>,
    /// The same of sand.
    pub sand: Option<Plain>,
    /// Engine hours in a week of the season.
    pub week: Option<Entered>,
    /// Engine hours in a season.
    pub season: Option<Entered>,
    /// The season, from the first day to the last; the whole year where nobody said.
    pub open: Option<(MonthDay, MonthDay)>,
    /// Engine hours the craft is still to be kept; as long as anybody can see where nobody said.
    pub keep: Option<Entered>,
    /// What an hour of labour is paid; nothing for one's own.
    pub wage: Option<Plain>,
    /// What a failure costs on top of a replacement: tow, other parts, a lost day.
    pub failure: Option<Plain>,
    /// What an hour at full performance is worth.
    pub worth: Option<Plain>,
    /// Engine hours between hard strikes, as a guess.
    pub between: Option<Entered>,
    /// The least chance to get through a season that is accepted, in percent.
    pub floor: Option<Plain>,
}

/// What kind of part wears.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// A wear ring.
    Ring,
    /// An impeller.
    Impeller,
    /// A shaft seal.
    Seal,
    /// A bearing.
    Bearing,
    /// Anything else.
    Other,
}

/// How much a guess of a life is to be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trust {
    /// Heard somewhere.
    Rough,
    /// From a few of one's own.
    Fair,
    /// From many.
    Well,
}

/// A sort of part that could be fitted: what it costs and how long it is thought to last.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Part {
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: Option<PartKind>,
    /// The option under Choose that it goes with.
    pub option: Option<Key>,
    /// Its price.
    pub price: Option<Plain>,
    /// What is used up in fitting it.
    pub supplies: Option<Plain>,
    /// Hours of labour to change it.
    pub labour: Option<Entered>,
    /// Engine hours by which one in ten is worn out.
    pub tenth: Option<Entered>,
    /// Engine hours by which half are worn out.
    pub half: Option<Entered>,
    /// How much that is to be trusted.
    pub trust: Option<Trust>,
    /// Of a hundred hard strikes, how many ruin it.
    pub ruin: Option<Plain>,
    /// Performance lost while it is worn, in percent.
    pub lost: Option<Plain>,
    /// The engine hours at which so much is lost.
    pub lost_at: Option<Entered>,
    /// Anything else.
    pub note: String,
}

/// How a piece came to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Found worn out when it was looked at: it wore out at some time since it was last seen good.
    Worn,
    /// Failed under way, at that time.
    Failed,
    /// Ruined by a strike, at that time.
    Struck,
    /// Taken out while still good.
    Good,
}

/// One piece of a sort, fitted once: this craft's, or one that was told of.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The sort of part.
    pub part: Key,
    /// Fitted to another craft: its hours are its own, from 0.
    pub elsewhere: bool,
    /// The water it ran in; the craft's where nobody said.
    pub water: Option<Carries>,
    /// Engine hours when it was fitted.
    pub fitted: Entered,
    /// Engine hours when it was last seen good.
    pub good: Option<Entered>,
    /// How it ended, and the engine hours then; still in use where nobody said.
    pub end: Option<(End, Entered)>,
    /// Anything else.
    pub note: String,
}

/// What can happen to a craft that is looked into at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mishap {
    /// Something hard went through the pump, or the hull struck.
    Strike,
    /// Sand or gravel was drawn in.
    Sand,
    /// The engine ran hot.
    Hot,
    /// It lost thrust.
    Thrust,
    /// Water stood in the lubricant of the housing.
    Milky,
}

/// A mishap.
#[derive(Clone, Debug, PartialEq)]
pub struct Happened {
    /// What.
    pub what: Mishap,
    /// The day; that of the telling where nobody said.
    pub on: Option<Date>,
    /// Engine hours then.
    pub hours: Option<Entered>,
    /// In the person's words.
    pub note: String,
}

/// An edge of the season.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// Before it begins.
    Launch,
    /// When it is over.
    LayUp,
}

/// When a task falls due. The first that comes counts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rule {
    /// What the task is called.
    pub name: String,
    /// So many engine hours after it was last done.
    pub hours: Option<Entered>,
    /// So many months after it was last done.
    pub months: Option<u8>,
    /// At once after any of these.
    pub after: BTreeSet<Mishap>,
    /// At an edge of the season.
    pub edge: Option<Edge>,
    /// Where in the manual; empty when not said.
    pub page: String,
}

/// A task that was done.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// Which: a key of [`tasks::TASKS`], or of a rule.
    pub task: Key,
    /// The day; that of the telling where nobody said.
    pub on: Option<Date>,
    /// Engine hours then.
    pub hours: Option<Entered>,
    /// What was found.
    pub note: String,
}

/// The hour meter, read.
#[derive(Clone, Debug, PartialEq)]
pub struct Meter {
    /// The day; that of the telling where nobody said.
    pub on: Option<Date>,
    /// Engine hours.
    pub hours: Entered,
}

/// What was told when a job was closed.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// Digest of what it rests on.
    pub evidence: String,
    /// The answer as it was told.
    pub words: String,
    /// The program that told it.
    pub program: String,
}

/// One thing said about service.
#[derive(Clone, Debug, PartialEq)]
pub enum Servicing {
    /// How the craft is used: all of it, not only what is new.
    Usage(Box<Usage>),
    /// A sort of part.
    Part {
        /// Names it within the job.
        key: Key,
        /// What was said; none puts it away.
        part: Option<Box<Part>>,
    },
    /// A piece.
    Piece {
        /// Names it within the job.
        key: Key,
        /// All that is known of it; none puts it away.
        piece: Option<Box<Piece>>,
    },
    /// The hour meter.
    Meter(Meter),
    /// A mishap.
    Happened(Happened),
    /// When a task falls due, other than general practice says, or a task of one's own.
    Rule {
        /// A key of [`tasks::TASKS`], or of the person's own.
        task: Key,
        /// None goes back to general practice, or puts one's own away.
        rule: Option<Box<Rule>>,
    },
    /// A task was done.
    Done(Done),
    /// A point of the recheck was looked at.
    Rechecked {
        /// Which.
        point: Point,
        /// Whether it was as it should be; none takes it back.
        well: Option<bool>,
        /// What was found.
        note: String,
    },
    /// The person closes the job.
    Closed(Box<Told>),
}

/// Something with the day it was of.
#[derive(Clone, Debug, PartialEq)]
pub struct Dated<T> {
    /// The day.
    pub on: Date,
    /// What.
    pub what: Fact<T>,
}

/// A sort of part, or a piece, as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct State<T> {
    /// Where it was named first.
    pub since: u64,
    /// What is said of it.
    pub said: Fact<T>,
}

/// All that was said about service.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Upkeep {
    /// How the craft is used.
    pub usage: Option<Fact<Usage>>,
    /// The sorts of part, by key.
    pub parts: BTreeMap<Key, State<Part>>,
    /// The pieces, by key.
    pub pieces: BTreeMap<Key, State<Piece>>,
    /// Readings of the hour meter, in the order told.
    pub meter: Vec<Dated<Meter>>,
    /// Mishaps, in the order told.
    pub mishaps: Vec<Dated<Happened>>,
    /// Rules stated, by task.
    pub rules: BTreeMap<Key, Fact<Rule>>,
    /// Tasks done, in the order told.
    pub done: Vec<Dated<Done>>,
    /// The recheck: whether each point was as it should be, and what was found.
    pub recheck: BTreeMap<Point, Dated<(bool, String)>>,
    /// What was told when the job was closed.
    pub closed: Option<Dated<Told>>,
}

impl Upkeep {
    /// Whether nothing was said.
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// What was said of use, or nothing.
    pub fn usage(&self) -> Usage {
        self.usage
            .as_ref()
            .map_or_else(Usage::default, |fact| fact.value.clone())
    }

    /// The sorts of part in the order they were named.
    pub fn parts_in_order(&self) -> Vec<(&Key, &Part)> {
        in_order(&self.parts)
    }

    /// The pieces in the order they were named.
    pub fn pieces_in_order(&self) -> Vec<(&Key, &Piece)> {
        in_order(&self.pieces)
    }
}

fn in_order<T>(all: &BTreeMap<Key, State<T>>) -> Vec<(&Key, &T)> {
    let mut states: Vec<_> = all.iter().collect();
    states.sort_by_key(|(_, state)| state.since);
    states
        .into_iter()
        .map(|(key, state)| (key, &state.said.value))
        .collect()
}

/// Names all that the recheck rests on: the entries that said it.
pub fn evidence(job: &Job) -> String {
    let mut words = vec!["1".to_owned()];
    let mut add = |word: &str, entry: &EntryId| words.push(format!("{word} {entry}"));
    for point in job.upkeep.recheck.values() {
        add("point", &point.what.entry);
    }
    short_digest(&words.join(" "))
}
