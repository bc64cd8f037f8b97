//! What is done after every run and at the season's edges, folded away.

use workshop::upkeep::tasks::{Task, task};

use super::say;
use crate::page::{List, Section};
use crate::words::upper;

/// Their keys, in the order of a year.
const FOLDED: [&str; 4] = ["launch", "flush", "beach", "lay-up"];
/// Whose word it is.
const WHOSE: &str = "General practice; the craft’s manual wins.";

pub(super) fn folded() -> impl Iterator<Item = Section> {
    FOLDED.into_iter().filter_map(task).map(list)
}

fn list(task: &Task) -> Section {
    let origin = match task.every {
        Some(every) => format!("{}. {WHOSE}", upper(every)),
        None => WHOSE.to_owned(),
    };
    Section::List(List {
        heading: task.name.to_owned(),
        state: "general practice".to_owned(),
        origin,
        cautions: say::cautions(Some(task)),
        lines: task.how.iter().map(|line| (*line).to_owned()).collect(),
    })
}
