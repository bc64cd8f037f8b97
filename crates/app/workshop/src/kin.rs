//! The jobs of one pump, as each names the one it follows.

use std::collections::BTreeSet;

use crate::entry::JobId;

/// The other jobs of a job's pump.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Kin {
    /// What it follows, the nearest first. The last may be a job that is not on this bench.
    pub earlier: Vec<JobId>,
    /// What follows it, the nearest first.
    pub later: Vec<JobId>,
}

/// Walks from a job through all jobs of the bench, each with the one it follows. A ring of jobs that follow one
/// another is walked once.
pub fn kin(job: &JobId, jobs: &[(JobId, Option<JobId>)]) -> Kin {
    let mut seen = BTreeSet::from([job]);
    let mut earlier = Vec::new();
    let mut at = job;
    while let Some((_, Some(before))) = jobs.iter().find(|(id, _)| id == at) {
        if !seen.insert(before) {
            break;
        }
        earlier.push(before.clone());
        at = before;
    }
    let mut later: Vec<&JobId> = Vec::new();
    let mut next = 0;
    let mut at = Some(job);
    while let Some(id) = at {
        let follow = jobs.iter().filter(|(_, of)| of.as_ref() == Some(id));
        for (follower, _) in follow {
            if seen.insert(follower) {
                later.push(follower);
            }
        }
        at = later.get(next).copied();
        next += 1;
    }
    Kin {
        earlier,
        later: later.into_iter().cloned().collect(),
    }
}
