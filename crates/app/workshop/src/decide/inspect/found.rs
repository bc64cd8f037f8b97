//! Whether something may be put on the as-found record.

use super::super::{LEAF, LONGEST_TEXT, Range, each, filled, in_order, text, within};
use super::{SHIM, slip};
use crate::entry::Key;
use crate::inspect::found::{AsFound, Seen, Sort};
use crate::job::Job;
use crate::refusal::{Refusal, Slip};

/// How far marks may have moved: from what the eye sees to a hand's breadth.
const MOVED: Range = Range {
    least: 0.000_1,
    greatest: 0.1,
};
/// The most threads that show at a cable's end.
const MOST_THREADS: u8 = 60;
/// The most studs that carry shims.
const MOST_STUDS: usize = 16;
/// The most shims on one stud.
const MOST_SHIMS: usize = 12;

pub(super) fn check(job: &Job, key: &Key, found: &AsFound) -> Result<(), Refusal> {
    text("at", &found.at, LONGEST_TEXT)?;
    text("words", &found.words, LONGEST_TEXT)?;
    if found.is_seen() && !matches!(found.sort, Sort::Gap | Sort::Ring) {
        filled("at", &found.at)?;
    }
    let mut others = job.inspected.found.iter();
    let there = others.find(|(other, fact)| {
        *other != key && fact.value.sort == found.sort && fact.value.is_seen()
    });
    match &found.seen {
        Seen::NoSuch | Seen::Apart => match there {
            Some((_, fact)) => slip(Slip::FoundAndNone {
                text: fact.value.to_string(),
            }),
            None => Ok(()),
        },
        Seen::Gap(low, high) => {
            each([("gap", Some(low), &LEAF), ("gap", Some(high), &LEAF)])?;
            if low == high {
                Ok(())
            } else {
                in_order("gap", low, high)
            }
        }
        Seen::Moved(far) => each([("moved", far.as_ref(), &MOVED)]),
        Seen::Shims(stacks) => {
            too_many("shims", stacks.len(), MOST_STUDS)?;
            for stack in stacks {
                text("shims", &stack.stud, LONGEST_TEXT)?;
                too_many("shims", stack.shims.len(), MOST_SHIMS)?;
                for shim in &stack.shims {
                    within("shims", shim, &SHIM)?;
                }
            }
            Ok(())
        }
        Seen::Hose { from, to, clamp } => {
            for (field, words) in [("from", from), ("to", to)] {
                filled(field, words)?;
                text(field, words, LONGEST_TEXT)?;
            }
            text("clamp", clamp, LONGEST_TEXT)
        }
        Seen::Cable(threads) if *threads > MOST_THREADS => Err(Refusal::NotACount {
            field: "threads",
            text: threads.to_string(),
            allowed: "the number of threads showing, 0 to 60",
        }),
        Seen::Words => filled("words", &found.words),
        Seen::InLine | Seen::Cable(_) | Seen::Ring(_) => Ok(()),
    }
}

fn too_many(field: &'static str, count: usize, most: usize) -> Result<(), Refusal> {
    if count > most {
        return slip(Slip::TooMany { field, count, most });
    }
    Ok(())
}
