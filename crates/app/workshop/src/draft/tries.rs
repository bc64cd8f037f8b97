//! Readings, as typed.

use std::collections::BTreeMap;

use quantity::Unit;

use super::JobDraft;
use crate::act::Act;
use crate::entry::Body;
use crate::job::{Job, Spot, Tried};
use crate::reading;
use crate::refusal::{Need, Refusal};

impl JobDraft {
    /// The tries the job does not have yet, spot by spot in the order written.
    pub(super) fn new_tries(&self, job: &Job, unit: Unit) -> Result<Vec<Act>, Refusal> {
        let positions = match (&self.pump, &job.pump) {
            (Some(draft), _) => draft.read()?.positions,
            (None, Some(pump)) => pump.value.positions,
            (None, None) if self.readings.is_empty() => return Ok(Vec::new()),
            (None, None) => return Err(Refusal::Missing(Need::Pump)),
        };
        let mut had: BTreeMap<Spot, Vec<Tried>> = BTreeMap::new();
        for (spot, tries) in &job.tries {
            had.insert(
                *spot,
                tries.iter().map(|tried| tried.value.clone()).collect(),
            );
        }
        let mut acts = Vec::new();
        for (spot, text) in &self.readings {
            let spot = reading::read_spot(spot, positions)?;
            let here = had.entry(spot).or_default();
            let mut tries = Vec::new();
            for tried in reading::read(text, unit)? {
                let same = |old: &Tried| {
                    old.answer == tried.answer
                        && old.leaf.value.total_cmp(&tried.leaf.value).is_eq()
                };
                match here.iter().position(same) {
                    Some(at) => drop(here.remove(at)),
                    None => tries.push(tried),
                }
            }
            if !tries.is_empty() {
                acts.push(Act::Record(Body::LeavesTried {
                    spot,
                    tries,
                    afresh: false,
                }));
            }
        }
        Ok(acts)
    }
}
