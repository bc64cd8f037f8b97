//! The gap once more, after the last torque, against the manual and against the first reading.

use clearance::{Bracket, Try, Verdict, bracket};

use super::Reread;
use crate::gap::{Doubt, Inputs, Standing};
use crate::job::{Job, Spot, Tried};
use crate::judge::stands;
use crate::refusal::Need;

/// The clocks that are read once more.
pub const CLOCKS: [&str; 4] = ["12", "3", "6", "9"];

/// How a clock reads against the first time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// Within a leaf step.
    Same,
    /// Tighter by more than a leaf step.
    Tighter,
    /// Wider by more than a leaf step.
    Wider,
    /// The first time this clock was not read, or says nothing.
    NoFirst,
    /// It is not read now, or says nothing.
    Unread,
}

fn tries(tried: &[Tried]) -> Vec<Try> {
    tried.iter().map(Tried::felt).collect()
}

/// In: read all round, within the manual's limits where it has any, and it turns free. Takes some
/// milliseconds.
pub fn verdict(job: &Job, reread: &Reread) -> Result<Verdict, Need> {
    let spots = (0..)
        .zip(&reread.clocks)
        .map(|(position, tried)| (Spot { blade: 0, position }, tries(tried)));
    let inputs = Inputs {
        positions: 4,
        spots: spots.collect(),
        ..Inputs::of(job)?
    };
    if !reread.rubs.is_empty() {
        return Ok(Verdict::Out);
    }
    Ok(match stands(&inputs) {
        Standing::In | Standing::Undecided(Doubt::NoLimits | Doubt::NothingAsked) => Verdict::In,
        Standing::Out(_) => Verdict::Out,
        Standing::Undecided(_) => Verdict::Undecided,
    })
}

/// Each clock against the first reading of blade A there.
pub fn changes(job: &Job, reread: &Reread) -> [Change; 4] {
    let positions = job.pump.as_ref().map_or(0, |pump| pump.value.positions);
    let first = |clock: u8| {
        let quarters = clock * positions;
        let spot = Spot {
            blade: 0,
            position: quarters / 4,
        };
        // A pump read at six clocks has no 3 and no 9.
        let there = quarters.is_multiple_of(4).then(|| job.tries_at(spot))?;
        closed(&there)
    };
    [0, 1, 2, 3].map(|clock| {
        let now = closed(&tries(&reread.clocks[usize::from(clock)]));
        match (first(clock), now) {
            (_, None) => Change::Unread,
            (None, Some(_)) => Change::NoFirst,
            (Some(first), Some(now)) => change(&first, &now),
        }
    })
}

/// The leaves between which a gap lies, if they say something.
fn closed(tries: &[Try]) -> Option<Bracket> {
    if tries.is_empty() {
        return None;
    }
    bracket(tries).ok()
}

/// Neighbouring leaves may be one gap: only a whole leaf between the two readings is a change.
fn change(first: &Bracket, now: &Bracket) -> Change {
    let beyond = |goes: Option<f64>, wont: Option<f64>| {
        goes.zip(wont).is_some_and(|(goes, wont)| goes > wont)
    };
    if beyond(now.goes, first.wont) {
        Change::Wider
    } else if beyond(first.goes, now.wont) {
        Change::Tighter
    } else {
        Change::Same
    }
}
