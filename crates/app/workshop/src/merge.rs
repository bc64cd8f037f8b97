//! Acts of several devices on one journal: what an author saw when they acted, and whether an act
//! that comes again is the one on record.

use crate::act::{Act, Stamp};
use crate::decide::decide;
use crate::entry::{Body, Entry, NewEntry};
use crate::fold::{counts, fold};
use crate::refusal::{Apart, Refusal};

/// How many entries may have come between an act's decision and its place in the journal.
const MOST_BETWEEN: usize = 64;

/// Decides on a journal that may have grown since the author of the act looked at it.
///
/// An act is decided on the job as it is. Only undo and restore mean what their author saw: the last
/// act on their page, or one done since on the same device, never one that another device put between.
pub fn decide_on(entries: &[Entry], act: Act, stamp: Stamp) -> Result<Vec<NewEntry>, Refusal> {
    let (job, _) = fold(entries);
    let seen = stamp.seen.filter(|seen| *seen < job.position);
    let (Some(seen), Act::Undo | Act::Redo, None) = (seen, &act, &job.read_only) else {
        return decide(&job, act, stamp);
    };
    let own = |entry: &&Entry| !stamp.device.is_empty() && entry.new.device == stamp.device;
    let known = entries
        .iter()
        .filter(|entry| entry.position <= seen || own(entry));
    let known: Vec<Entry> = known.cloned().collect();
    let new = decide(&fold(&known).0, act, stamp)?;
    let gone = |new: &NewEntry| match &new.body {
        Body::Withdrawn { entry } => !counts(entries, entry),
        _ => false,
    };
    if new.iter().any(gone) {
        return Err(Refusal::Apart(Apart::DoneElsewhere));
    }
    Ok(new)
}

/// Whether an act that comes with the id of an entry on record is the act that made it.
///
/// It is decided once more on the journal as it can have been then: others may have written between
/// the decision and the entry's own place, and its author may have looked at less than it was decided
/// on. The nearest is tried first, and what the author saw last.
pub fn again(entries: &[Entry], there: &Entry, act: &Act, stamp: &Stamp) -> bool {
    let before = there.position.saturating_sub(1);
    let seen = there.new.seen.min(before);
    let near = (seen..=before).rev().take(MOST_BETWEEN);
    near.chain([seen]).any(|position| {
        let then: Vec<Entry> = entries
            .iter()
            .filter(|entry| entry.position <= position)
            .cloned()
            .collect();
        let stamp = Stamp {
            seen: stamp.seen.map(|_| seen),
            ..stamp.clone()
        };
        let decided = decide_on(&then, act.clone(), stamp);
        matches!(decided.as_deref(), Ok([same]) if same.body == there.new.body)
    })
}
