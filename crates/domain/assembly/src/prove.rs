//! Whether a schedule is the best there is, and a better one if not.

use crate::bound;
use crate::engine::{Engine, Outcome};
use crate::improve::{Search, improved};
use crate::problem::Problem;
use crate::profile::NEVER;
use crate::schedule::Task;
use crate::{Limit, Network, NoSchedule, Resources, Schedule};

/// Nodes between two looks at whether to go on.
const BATCH: usize = 256;

/// How far a search has come.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `finish` | of the best schedule so far, if there is one | `s` |
/// | `bound` | no plan is over sooner | `s` |
/// | `tried` | ways tried so far | |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SoFar {
    /// Of the best schedule so far, if there is one.
    pub finish: Option<i64>,
    /// No plan is over sooner.
    pub bound: i64,
    /// Ways tried so far.
    pub tried: usize,
}

/// What a search for a proof has found.
pub(crate) enum Proof {
    /// The best starts.
    Best(Vec<i64>),
    /// There are none at all.
    None,
    /// It was told to stop.
    Stopped(Option<Vec<i64>>),
}

impl Network<'_> {
    /// The best schedule, or the best found until it is told to stop.
    ///
    /// `go_on` is asked now and then; the answer no ends the search, and the gap that is left is in
    /// the schedule. A schedule from before, of this plan and about this situation, is where to begin.
    ///
    /// # Errors
    /// As [`schedule`](Network::schedule), and that there is no schedule at all.
    pub fn prove(
        &self,
        resources: &Resources,
        hint: Option<&Schedule>,
        mut go_on: impl FnMut(SoFar) -> bool,
    ) -> Result<Schedule, NoSchedule> {
        let task = self.task(resources)?;
        let problem = &task.problem;
        let found = improved(problem);
        let before = hint.and_then(|hint| task.planned(hint));
        let known = found.iter().map(|found| found.starts.clone()).chain(before);
        let known = known.min_by_key(|starts| problem.finish(starts));
        let least = match (found, problem.earliest()) {
            (Some(found), _) => found.least,
            (None, None) => return Err(NoSchedule::Impossible),
            (None, Some(earliest)) => {
                let most = known
                    .as_ref()
                    .map_or(NEVER, |starts| problem.finish(starts));
                let refuted = bound::refuted(problem, &earliest, NEVER / 2).is_some();
                if known.is_none() && refuted {
                    return Err(NoSchedule::Impossible);
                }
                bound::least(problem, &earliest, most)
            }
        };
        match prove(problem, known, least.finish, &mut go_on) {
            Proof::None => Err(NoSchedule::Impossible),
            Proof::Stopped(None) => Err(NoSchedule::NotFound),
            Proof::Best(starts) if problem.finish(&starts) > least.finish => {
                let bound = (problem.finish(&starts), Limit::Tried);
                Ok(self.told(&task, &starts, bound))
            }
            Proof::Best(starts) | Proof::Stopped(Some(starts)) => {
                Ok(self.told(&task, &starts, task.limit(least)))
            }
        }
    }

    /// Starts as a schedule, with its bound.
    pub(crate) fn told(
        &self,
        task: &Task,
        starts: &[i64],
        (bound, limit): (i64, Limit),
    ) -> Schedule {
        Schedule {
            starts: self.starts(&task.problem, starts),
            finish: task.problem.finish(starts),
            bound,
            limit,
            left_out: task.left_out.clone(),
        }
    }
}

/// The best starts of a problem, from some known ones on. This is the one place where an engine is
/// chosen.
pub(crate) fn prove(
    problem: &Problem,
    known: Option<Vec<i64>>,
    bound: i64,
    go_on: &mut impl FnMut(SoFar) -> bool,
) -> Proof {
    let Some(earliest) = problem.earliest() else {
        return Proof::None;
    };
    let hint = |known: &Option<Vec<i64>>| known.clone().unwrap_or_else(|| earliest.clone());
    let below = |known: &Option<Vec<i64>>| {
        known
            .as_ref()
            .map_or(NEVER, |starts| problem.finish(starts))
    };
    let mut best = known;
    let mut engine = Engine::new(problem, &hint(&best), below(&best));
    let mut search = Search::new(problem, best.clone());
    let mut tried = 0;
    loop {
        if let Some(starts) = best.take_if(|starts| problem.finish(starts) <= bound) {
            return Proof::Best(starts);
        }
        match engine.run(BATCH) {
            Outcome::Exhausted => return best.map_or(Proof::None, Proof::Best),
            Outcome::Found(starts) => {
                best = Some(starts);
                engine = Engine::new(problem, &hint(&best), below(&best));
            }
            Outcome::Paused => {
                // What is too much to try through may still be improved by other orders.
                if let Some(better) = search.as_mut().and_then(|s| s.more(best.as_deref())) {
                    best = Some(better);
                    engine = Engine::new(problem, &hint(&best), below(&best));
                }
            }
        }
        tried += BATCH;
        let finish = best.as_ref().map(|starts| problem.finish(starts));
        let so_far = SoFar {
            finish,
            bound,
            tried,
        };
        if !go_on(so_far) {
            return Proof::Stopped(best);
        }
    }
}
