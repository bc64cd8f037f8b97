//! What lasts, what it costs, and when it is opened again.

use jiff::civil::Date;

use super::due::{self, Now, order};
pub use super::due::{By, Due, Says, When};
pub use super::gap::GapSays;
pub use super::hours::{Hours, Pace};
use super::parts::{self, Reckoned};
use super::recheck::Point;
use super::{PartKind, gap, hours, versus};
use crate::entry::Key;
use crate::job::Job;

/// Where the recheck stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Recheck {
    /// Points nobody looked at.
    pub left: Vec<Point>,
    /// Points that were not as they should be.
    pub amiss: Vec<Point>,
    /// Points that were.
    pub well: Vec<Point>,
    /// The engine hours it is due at, in seconds, where the meter was read.
    pub due: Option<f64>,
    /// It is past that.
    pub overdue: bool,
    /// The day it was closed, while that holds.
    pub closed: Option<Date>,
    /// Steps of the plan that are left off on purpose.
    pub left_off: usize,
}

/// What is missing before something can be said of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lacks {
    /// A price.
    Price,
    /// A guess of how long it lasts.
    Life,
    /// What a failure costs.
    Failure,
    /// The hours of a season.
    Season,
}

/// A low, middle and high figure of an 80 % band.
pub type Band = [f64; 3];

/// What replacing at an age costs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CostAt {
    /// The age, in seconds of engine time in this water.
    pub age: f64,
    /// Money for an hour run: band of 80 %.
    pub rate: Band,
}

/// What a part costs by the hour.
#[derive(Clone, Debug, PartialEq)]
pub struct Costs {
    /// Over the ages of replacement, ascending.
    pub curve: Vec<CostAt>,
    /// The cheapest age; none where running it until it fails is as cheap as anything.
    pub best: Option<f64>,
    /// Money for an hour there: band of 80 %.
    pub rate: Band,
    /// Money for an hour, run until it fails.
    pub to_failure: f64,
    /// Ages within 5 % of the cheapest; no end where running it until it fails is among them.
    pub flat: (f64, Option<f64>),
    /// What a planned replacement costs, and what one after a failure.
    pub ends: (f64, f64),
    /// Money in all for the hours the craft is still kept, the first part with its fitting among it: band of 80 %.
    pub kept: Option<Band>,
    /// The cheapest age over those hours; none where running it until it fails is, or no hours are said.
    pub until: Option<f64>,
    /// Labour at nothing: one's own time.
    pub own_time: bool,
    /// What is lost while it is worn is counted.
    pub fade: bool,
}

/// How long a part lasts.
#[derive(Clone, Debug, PartialEq)]
pub struct Lasts {
    /// Engine time by which one in ten, half, and nine in ten are gone, strikes among it, in seconds.
    pub gone: [f64; 3],
    /// Chance that a new one gets through the season.
    pub season: Option<f64>,
    /// How much the records moved that chance from the guess alone.
    pub guess: Option<f64>,
    /// Records that count.
    pub records: usize,
    /// Records of other water that nobody said how to count.
    pub left_out: usize,
    /// Of those that end within the season, the share ended by a strike.
    pub struck: Option<f64>,
}

/// The piece that is in this craft now.
#[derive(Clone, Debug, PartialEq)]
pub struct InUse {
    /// Its key.
    pub piece: Key,
    /// Its age today, in seconds.
    pub age: f64,
    /// Engine time when it was fitted, in seconds.
    pub fitted: f64,
    /// Chance that it gets through a whole season more.
    pub season: Option<f64>,
    /// The age up to which that chance is no less than what is wanted: none where no age is, or nothing is wanted.
    pub floor: Option<f64>,
}

/// A sort of part.
#[derive(Clone, Debug, PartialEq)]
pub struct PartSays {
    /// Its key.
    pub key: Key,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: Option<PartKind>,
    /// The option under Choose it goes with.
    pub option: Option<Key>,
    /// What is missing.
    pub lacks: Vec<Lacks>,
    /// How long it lasts.
    pub lasts: Option<Lasts>,
    /// What it costs.
    pub costs: Option<Costs>,
    /// The piece in use.
    pub in_use: Option<InUse>,
}

/// Two sorts of one kind held against each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Versus {
    /// The one that is likely cheaper by the hour.
    pub cheaper: Key,
    /// The other.
    pub dearer: Key,
    /// Chance that it really is.
    pub chance: f64,
    /// The same over the hours the craft is still kept.
    pub kept: Option<f64>,
    /// One season more of which of them would move that chance most: the sort, the chance if its piece gets
    /// through, and if it does not.
    pub settles: Option<(Key, f64, f64)>,
    /// What would turn it round, told plainly; empty where nothing within reason does.
    pub flips: Vec<Flip>,
}

/// One figure that would turn the comparison round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Flip {
    /// An hour of labour at this, instead of what was said.
    Wage(f64),
    /// A failure that costs this, instead of what was said.
    Failure(f64),
    /// So many hours the craft is still kept, in seconds.
    Keep(f64),
}

/// All that the page Service says.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// The day it is asked.
    pub today: Date,
    /// The engine hours.
    pub hours: Option<Hours>,
    /// What falls due, the first first.
    pub due: Vec<Due>,
    /// Tasks whose day cannot be told, by name: neither done nor dated.
    pub undated: Vec<String>,
    /// The recheck.
    pub recheck: Recheck,
    /// The sorts of part, in the order they were named.
    pub parts: Vec<PartSays>,
    /// The gap through the season ahead, where it is followed over visits.
    pub gap: Option<GapSays>,
    /// The sorts of one kind held against each other.
    pub versus: Vec<Versus>,
    /// Hard strikes for an hour run, in this water: the guess and what happened.
    pub strikes: Option<f64>,
}

/// The answer, on a day.
pub fn answer(job: &Job, today: Date) -> Answer {
    let hours = hours::hours(job, today);
    let now = Now {
        job,
        today,
        hours: hours.as_ref(),
    };
    let strikes = parts::strikes(&now);
    let reckoned = parts::parts(&now, strikes);
    let (mut due, undated) = due::due(&now);
    due.extend(reckoned.iter().filter_map(|part| renewal(&now, part)));
    due.sort_by_key(|due| order(&due.first));
    let recheck = recheck(&now);
    let versus = versus::versus(&now, &reckoned);
    Answer {
        today,
        due,
        undated,
        recheck,
        versus,
        gap: gap::gap(&now),
        parts: reckoned.into_iter().map(|part| part.says).collect(),
        strikes: strikes.map(parts::by_hour),
        hours,
    }
}

/// When the piece in use is to be renewed, by its cost and by the chance that is wanted.
fn renewal(now: &Now<'_>, part: &Reckoned) -> Option<Due> {
    let says = &part.says;
    let piece = says.in_use.as_ref()?;
    let costs = says.costs.as_ref();
    let cheapest = costs
        .and_then(|costs| costs.best)
        .map(|age| (By::Cost(piece.piece.clone()), age));
    let surest = piece
        .floor
        .map(|age| (By::Chance(piece.piece.clone()), age));
    let at = |(by, age): (By, f64)| now.at(by, piece.fitted + age);
    let all = cheapest.into_iter().chain(surest).map(at).collect();
    let (first, then) = due::first_of(all)?;
    let mut ended = now.job.upkeep.pieces.values();
    let cycle = ended.by_ref().filter(|state| {
        let piece = &state.said.value;
        piece.part == says.key && !piece.elsewhere && piece.end.is_some()
    });
    Some(Due {
        task: Key::new(&format!("renew-{}", says.key)).ok()?,
        name: says.name.clone(),
        overdue: now.past(&first),
        first,
        then,
        last: None,
        says: Says::Reckoned,
        cycle: cycle.count(),
    })
}

fn recheck(now: &Now<'_>) -> Recheck {
    let upkeep = &now.job.upkeep;
    let found = |wanted: Option<bool>| {
        let of = |point: &&Point| upkeep.recheck.get(point).map(|told| told.what.value.0) == wanted;
        Point::ALL.iter().filter(of).copied().collect::<Vec<_>>()
    };
    let due = now.hours.map(|hours| hours.rebuilt.0 + hours::one_hour());
    let closed = upkeep.closed.as_ref();
    let closed = closed.filter(|told| told.what.value.evidence == super::evidence(now.job));
    let bench = &now.job.bench;
    let left_off = bench
        .progress
        .values()
        .filter(|step| step.deferred.is_some() && step.done.is_none());
    Recheck {
        left: found(None),
        amiss: found(Some(false)),
        well: found(Some(true)),
        overdue: closed.is_none()
            && due
                .zip(now.hours)
                .is_some_and(|(due, hours)| hours.read > due),
        due,
        closed: closed.map(|told| told.on),
        left_off: left_off.count(),
    }
}
