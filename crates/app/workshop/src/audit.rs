//! The last look: is every step, fastener, part and tool accounted for, or is there a reason in
//! writing.
//!
//! The account is a set difference: what the job says there is, less what is done, less what is left
//! out with a reason. Nothing in it is asserted by a person, and nothing that the job names can drop
//! out of it: a line goes from open to accounted for, and back, and stays a line.

mod lines;

use jiff::Timestamp;

use crate::assemble::{Block, Loose, Standing, assess};
use crate::entry::{EntryId, Key};
use crate::job::Job;
use crate::plan::{Excuse, Gate, ItemKind, Opens, Ready};

/// What a line is about.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum About {
    /// A step of the plan.
    Step(Key),
    /// The fasteners of a step.
    Fasteners(Key),
    /// A gate before a step.
    Gate(Key),
    /// A wait between two steps, by the place of its rule.
    Wait(usize),
    /// A circle of screws.
    Joint(Key),
    /// A joint that is no circle of screws.
    Fit(Key),
    /// The gap read once more, against the result that was taken.
    Reread,
    /// A result of the teardown that is out, or was: `gap-out`, `rotor-out`, `leak-out`.
    Result(&'static str),
    /// A finding.
    Finding(Key),
    /// A thing to account for, by its place in the plan.
    Item(usize, Key, ItemKind),
    /// A tool, by its place in the plan.
    Tool(usize, Key),
}

/// What keeps a line open.
#[derive(Clone, Debug, PartialEq)]
pub enum Lack {
    /// Nobody has told of it.
    Untold,
    /// Only so many, and no reason for the rest.
    Short {
        /// How many.
        count: u16,
        /// Of how many.
        of: u16,
    },
    /// It was told of before the work on it, or with it, began anew.
    Since,
    /// A step that is not done.
    Todo,
    /// Fasteners that are missing or only stand in.
    Loose(Loose),
    /// Screws that are not all in, torqued and marked.
    Screws {
        /// How many are in.
        in_place: u8,
        /// How many of these are torqued.
        torqued: u8,
        /// How many of these are marked.
        marked: u8,
        /// How many there are.
        of: u8,
        /// They only stand in.
        temporary: bool,
    },
    /// Torqued, and no wrench named.
    NoWrench,
    /// Its figure, or its direction, does not hold.
    Stopped,
    /// So many ticks or readings of it are missing.
    Ticks(usize),
    /// The gap was not read again since the result was taken.
    NotRead,
    /// The gap was read again, and not at every clock, or it is not decided.
    HalfRead,
    /// The gap moved by more than the leaves allow, or something rubs.
    Moved,
    /// A finding, or a result that is out, that nobody has dealt with.
    Undealt,
    /// What must cure is not done, or was not begun.
    Before,
    /// It cures until then.
    Until(Timestamp),
    /// A gate that is closed.
    Closed(Gate),
}

/// A reason in writing, and where it was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reason {
    /// The reason.
    pub excuse: Excuse,
    /// How many of it are in their place all the same, and of how many, where they are counted.
    pub count: Option<(u16, u16)>,
    /// Where it was said.
    pub entry: EntryId,
}

/// How a line stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Stand {
    /// Accounted for.
    Whole,
    /// Left out, with a reason.
    Reason(Reason),
    /// Open.
    Open(Lack),
}

/// How a line counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Accounted for.
    Accounted,
    /// By a reason in writing.
    ByReason,
    /// Open.
    Open,
}

/// One thing the job names.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is about.
    pub about: About,
    /// Its name, in the person's words; empty for what has none.
    pub name: String,
    /// How many of it there are, where that is more than one or counted.
    pub of: Option<u16>,
    /// How it stands.
    pub stand: Stand,
    /// The readiness it holds up; none where it holds up nothing.
    pub holds: Option<Opens>,
}

/// The account.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Audit {
    /// Everything the job names.
    pub lines: Vec<Line>,
}

impl Line {
    /// How it counts. A ready-made reason whose words are still to be written keeps it open.
    pub fn state(&self) -> State {
        match &self.stand {
            Stand::Whole => State::Accounted,
            Stand::Reason(reason) if reason.excuse.owed() => State::Open,
            Stand::Reason(_) => State::ByReason,
            Stand::Open(_) => State::Open,
        }
    }

    /// A line with what it holds up: an open one its readiness, one with a reason what the reason
    /// leaves held.
    fn new(about: About, name: &str, (stand, opens): (Stand, Opens)) -> Self {
        let holds = match &stand {
            Stand::Whole => None,
            Stand::Open(_) => Some(opens),
            Stand::Reason(reason) => {
                let owed = reason.excuse.owed().then_some(Opens::Closed);
                let held = held(reason.excuse.ready, opens);
                [held, owed].into_iter().flatten().min()
            }
        };
        Self {
            about,
            name: name.to_owned(),
            of: None,
            stand,
            holds,
        }
    }
}

/// The readiness that a thing left out for this reason still holds up. What the craft does not have
/// is not missing, and own words are answered for by whoever wrote them; a thing left off for the
/// trial must be back before the job is closed; the rest is missing, reason or not. Common practice,
/// no source.
pub fn held(ready: Ready, opens: Opens) -> Option<Opens> {
    match ready {
        Ready::NotOnCraft | Ready::OwnWords => None,
        Ready::Trial => Some(Opens::Closed),
        Ready::OnOrder | Ready::WaitsForStep | Ready::Broken => Some(opens),
    }
}

impl Audit {
    /// How many lines count so.
    pub fn count(&self, state: State) -> usize {
        self.lines
            .iter()
            .filter(|line| line.state() == state)
            .count()
    }

    /// The open lines: what holds up the most first, in the order of the account.
    pub fn open(&self) -> Vec<&Line> {
        let open = self.lines.iter();
        let mut open: Vec<&Line> = open.filter(|line| line.state() == State::Open).collect();
        open.sort_by_key(|line| line.holds);
        open
    }

    /// The lines left out for a reason, whether or not its words are written.
    pub fn reasons(&self) -> impl Iterator<Item = (&Line, &Reason)> {
        self.lines.iter().filter_map(|line| match &line.stand {
            Stand::Reason(reason) => Some((line, reason)),
            _ => None,
        })
    }

    /// Whether nothing is open.
    pub fn whole(&self) -> bool {
        self.count(State::Open) == 0
    }

    /// Whether nothing is open and nothing holds anything up: there is nothing to come back to.
    pub fn closed(&self) -> bool {
        self.lines
            .iter()
            .all(|line| line.state() != State::Open && line.holds.is_none())
    }
}

/// The account of a job at a time. Without a plan it holds what the job names besides.
pub fn audit(job: &Job, now: Timestamp) -> Audit {
    assess(job, now).map_or_else(|| of(job, &[], now), |all| all.account)
}

pub(crate) fn of(job: &Job, standings: &[Standing], now: Timestamp) -> Audit {
    let mut lines = Vec::new();
    if let Some(plan) = job.bench.plan() {
        // What is told of nowhere else comes first.
        lines.extend(lines::items(job, plan));
        lines.extend(lines::tools(job, plan));
        lines.extend(lines::steps(job, plan, standings));
        lines.extend(lines::gates(job, plan));
        lines.extend(lines::waits(job, plan, now));
    }
    lines.extend(lines::joints(job));
    lines.extend(lines::fits(job));
    lines.extend(lines::reread(job));
    lines.extend(lines::results(job));
    lines.extend(lines::findings(job));
    Audit { lines }
}

/// What holds up a readiness beyond the steps, their fasteners and their cures. Joints, findings and
/// the gap know no step, so they hold up closing; the steps they belong to hold up the water.
pub(crate) fn blocks(audit: &Audit, opens: Opens) -> Vec<Block> {
    let held = audit
        .lines
        .iter()
        .filter(|line| line.holds.is_some_and(|holds| holds <= opens));
    let mut blocks = Vec::new();
    let mut others = 0;
    for line in held {
        match &line.about {
            About::Item(place, ..) => blocks.push(Block::Item(*place)),
            About::Tool(place, _) => blocks.push(Block::Tool(*place)),
            About::Joint(_) | About::Fit(_) | About::Reread => others += 1,
            // Findings and results hold up what their severity says, and steps themselves.
            About::Finding(_)
            | About::Result(_)
            | About::Step(_)
            | About::Fasteners(_)
            | About::Gate(_)
            | About::Wait(_) => {}
        }
    }
    if others > 0 {
        blocks.push(Block::Others(others));
    }
    blocks
}
