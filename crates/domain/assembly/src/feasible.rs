//! Whether there is any plan at all.

use crate::bound::refuted;
use crate::engine::{Engine, Outcome};
use crate::improve::placed;
use crate::problem::Problem;
use crate::profile::NEVER;

/// Nodes that one question may cost before it is left open.
const NODES: usize = 20_000;
const BATCH: usize = 512;

/// Starts that obey everything, nothing if there are none; an error if that is not known.
pub(crate) fn feasible(
    problem: &Problem,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<Vec<i64>>, Undecided> {
    let Some(earliest) = problem.earliest() else {
        return Ok(None);
    };
    if refuted(problem, &earliest, NEVER / 2).is_some() {
        return Ok(None);
    }
    if let Some(starts) = placed(problem) {
        return Ok(Some(starts));
    }
    // What can't be done at all mostly can't be done in a corner of it, which is soon searched.
    let latest = problem.latest(NEVER / 2).unwrap_or_default();
    let mut corners = problem.blocks();
    corners.push(
        (0..latest.len())
            .filter(|&step| latest[step] < NEVER / 4)
            .collect(),
    );
    corners.retain(|corner| corner.len() > 1 && corner.len() < problem.len());
    corners.sort_by_key(Vec::len);
    for corner in corners {
        if let Ok(None) = searched(&problem.only(&corner), go_on) {
            return Ok(None);
        }
    }
    searched(problem, go_on)
}

/// The question was left open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Undecided;

fn searched(
    problem: &Problem,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<Vec<i64>>, Undecided> {
    let hint = problem.latest(NEVER / 2).unwrap_or_default();
    let mut engine = Engine::new(problem, &hint, NEVER / 2);
    for _ in 0..NODES / BATCH {
        match engine.run(BATCH) {
            Outcome::Found(starts) => return Ok(Some(starts)),
            Outcome::Exhausted => return Ok(None),
            Outcome::Paused if go_on() => {}
            Outcome::Paused => break,
        }
    }
    Err(Undecided)
}
