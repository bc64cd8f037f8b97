//! What is said of tools, and found at joints, folded.

use super::{Misfit, fact};
use crate::entry::Entry;
use crate::job::Job;
use crate::tools::{Tooling, WrenchState};

/// Takes one entry in, or says what does not fit. What is said anew takes the place of the old.
pub(super) fn take(job: &mut Job, entry: &Entry, said: &Tooling) -> Option<Misfit> {
    let key = match said {
        Tooling::WrenchDescribed { key, wrench } => {
            let since = job.wrenches.get(key).map(|state| state.since);
            let state = WrenchState {
                since: since.unwrap_or(entry.position),
                wrench: fact(entry, wrench.clone()),
            };
            job.wrenches.insert(key.clone(), state);
            return None;
        }
        Tooling::ToolChosen { joint, .. }
        | Tooling::HoleMeasured { joint, .. }
        | Tooling::RoleSaid { joint, .. } => joint,
    };
    let Some(state) = job.joints.get_mut(key) else {
        return Some(Misfit::NothingToFit);
    };
    let there = &mut state.fittings;
    match said {
        Tooling::ToolChosen { tool, .. } if !job.wrenches.contains_key(&tool.wrench) => {
            return Some(Misfit::NoSuchWrench);
        }
        Tooling::ToolChosen { tool, .. } => there.tool = Some(fact(entry, tool.clone())),
        Tooling::HoleMeasured { hole, .. } => there.hole = Some(fact(entry, hole.clone())),
        Tooling::RoleSaid { role, .. } => there.role = Some(fact(entry, *role)),
        Tooling::WrenchDescribed { .. } => {}
    }
    None
}
