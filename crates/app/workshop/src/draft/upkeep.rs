//! Service, as typed.

mod file;
mod read;

use super::Choice;
use crate::upkeep::recheck::Point;
use crate::upkeep::{Carries, Edge, End, Mishap, PartKind, Trust};

pub(super) use file::{acts, drafts};

/// The words for [`Carries`].
pub const CARRIED: [Choice<Carries>; 3] = [
    ("clean", Carries::Clean),
    ("silt", Carries::Silt),
    ("sand", Carries::Sand),
];
/// The words for [`PartKind`].
pub const SORTS: [Choice<PartKind>; 5] = [
    ("ring", PartKind::Ring),
    ("impeller", PartKind::Impeller),
    ("seal", PartKind::Seal),
    ("bearing", PartKind::Bearing),
    ("other", PartKind::Other),
];
/// The words for [`Trust`].
pub const TRUSTS: [Choice<Trust>; 3] = [
    ("rough", Trust::Rough),
    ("fair", Trust::Fair),
    ("well", Trust::Well),
];
/// The words for [`End`].
pub const ENDINGS: [Choice<End>; 4] = [
    ("worn", End::Worn),
    ("failed", End::Failed),
    ("struck", End::Struck),
    ("good", End::Good),
];
/// The words for [`Mishap`].
pub const MISHAPS: [Choice<Mishap>; 5] = [
    ("strike", Mishap::Strike),
    ("sand", Mishap::Sand),
    ("hot", Mishap::Hot),
    ("thrust", Mishap::Thrust),
    ("milky", Mishap::Milky),
];
/// The words for [`Edge`].
pub const EDGES: [Choice<Edge>; 2] = [("launch", Edge::Launch), ("lay-up", Edge::LayUp)];
/// The words for [`Point`].
pub const POINTS: [Choice<Point>; 9] = [
    ("cone", Point::Cone),
    ("marks", Point::Marks),
    ("plate", Point::Plate),
    ("grate", Point::Grate),
    ("gap", Point::Gap),
    ("shaft", Point::Shaft),
    ("lubricant", Point::Lubricant),
    ("hoses", Point::Hoses),
    ("bilge", Point::Bilge),
];
/// The words for how a point was found.
pub const WELL: [Choice<bool>; 2] = [("well", true), ("amiss", false)];
/// The words for a piece of another craft.
const ELSEWHERE: [Choice<bool>; 2] = [("yes", true), ("no", false)];

/// [`Usage`](crate::upkeep::Usage) as typed. Each may be empty; hours are bare, prices have no unit.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct UsageDraft {
    /// What prices are in.
    pub currency: String,
    /// A word of [`CARRIED`].
    pub water: String,
    /// Clean hours an hour in silt counts as.
    pub silt: String,
    /// Clean hours an hour in sand counts as.
    pub sand: String,
    /// Hours a week.
    pub week: String,
    /// Hours a season.
    pub season: String,
    /// The season's first day, as `05-01`.
    pub from: String,
    /// The season's last day.
    pub until: String,
    /// Hours it is still to be kept.
    pub keep: String,
    /// An hour of labour.
    pub wage: String,
    /// What a failure costs on top.
    pub failure: String,
    /// What an hour at full performance is worth.
    pub worth: String,
    /// Hours between hard strikes.
    pub between: String,
    /// The least chance accepted, in percent.
    pub floor: String,
}

/// [`Part`](crate::upkeep::Part) as typed. Each but the name may be empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SortDraft {
    /// What it is called.
    pub name: String,
    /// A word of [`SORTS`].
    pub kind: String,
    /// The option it goes with, by its key.
    pub option: String,
    /// Its price.
    pub price: String,
    /// What is used up in fitting it.
    pub supplies: String,
    /// Hours of labour.
    pub labour: String,
    /// Hours by which one in ten is worn out.
    pub tenth: String,
    /// Hours by which half are.
    pub half: String,
    /// A word of [`TRUSTS`].
    pub trust: String,
    /// Of a hundred strikes, how many ruin it.
    pub ruin: String,
    /// Performance lost while it is worn, in percent.
    pub lost: String,
    /// At these hours.
    pub lost_at: String,
    /// Anything else.
    pub note: String,
}

/// [`Piece`](crate::upkeep::Piece) as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PieceDraft {
    /// The sort of part, by its key.
    pub part: String,
    /// `yes` for one of another craft.
    pub elsewhere: String,
    /// A word of [`CARRIED`], or empty.
    pub water: String,
    /// Engine hours when it was fitted; 0 for one of another craft.
    pub fitted: String,
    /// Engine hours when it was last seen good. May be empty.
    pub good: String,
    /// A word of [`ENDINGS`], or empty while it is in use.
    pub end: String,
    /// Engine hours at its end.
    pub ended: String,
    /// Anything else.
    pub note: String,
}

/// [`Meter`](crate::upkeep::Meter) as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MeterDraft {
    /// The day; empty for that of the telling.
    pub on: String,
    /// Engine hours.
    pub hours: String,
}

/// [`Happened`](crate::upkeep::Happened) as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MishapDraft {
    /// A word of [`MISHAPS`].
    pub what: String,
    /// The day; empty for that of the telling.
    pub on: String,
    /// Engine hours. May be empty.
    pub hours: String,
    /// In own words.
    pub note: String,
}

/// [`Rule`](crate::upkeep::Rule) as typed. Each may be empty, but not all.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RuleDraft {
    /// What the task is called; a general task has its name.
    pub name: String,
    /// Hours.
    pub hours: String,
    /// Months.
    pub months: String,
    /// Words of [`MISHAPS`].
    pub after: Vec<String>,
    /// A word of [`EDGES`].
    pub edge: String,
    /// The manual's page.
    pub page: String,
}

/// [`Done`](crate::upkeep::Done) as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DoneDraft {
    /// The task, by its key.
    pub task: String,
    /// The day; empty for that of the telling.
    pub on: String,
    /// Engine hours. May be empty.
    pub hours: String,
    /// What was found.
    pub note: String,
}

/// A point of the recheck, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PointDraft {
    /// A word of [`POINTS`].
    pub point: String,
    /// A word of [`WELL`].
    pub found: String,
    /// What was found.
    pub note: String,
}

/// All that was said about service, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct UpkeepDraft {
    /// How the craft is used.
    pub usage: Option<UsageDraft>,
    /// The sorts of part by key, in the order they were named.
    pub parts: Vec<(String, SortDraft)>,
    /// The pieces by key, in the order they were named.
    pub pieces: Vec<(String, PieceDraft)>,
    /// The hour meter.
    pub meter: Vec<MeterDraft>,
    /// Mishaps.
    pub mishaps: Vec<MishapDraft>,
    /// Rules by task.
    pub rules: Vec<(String, RuleDraft)>,
    /// Tasks done.
    pub done: Vec<DoneDraft>,
    /// The recheck.
    pub recheck: Vec<PointDraft>,
}
