//! From a job file to the entries that bring a job to what the file says.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;
use sha2::{Digest as _, Sha256};
use workshop::act::{Act, Stamp};
use workshop::decide::{MOST_TRIES, decide};
use workshop::entry::{Body, Entry, EntryId, JobId, NewEntry};
use workshop::fold::fold;
use workshop::job::Spot;
use workshop::refusal::Refusal;

use crate::JobFile;
use crate::error::Error;

/// More leaves at one spot are a slip of whatever wrote the file.
const MOST_AT_A_SPOT: usize = 1000;

/// Who brings a file in, where, and when.
#[derive(Clone, Debug)]
pub struct By {
    /// The time.
    pub now: ZonedDateTime,
    /// Which device.
    pub device: String,
    /// Who; empty when nobody said.
    pub who: String,
}

impl JobFile {
    /// The entries to append to `there`, decided one by one; none when the job has all of it.
    pub fn entries(&self, id: &JobId, there: &[Entry], by: &By) -> Result<Vec<NewEntry>, Error> {
        let (mut job, _) = fold(there);
        let base = job.position;
        let acts = self
            .draft
            .acts(&job)
            .map_err(|refusal| self.blame(refusal, None, &job))?;
        if let Some((about, refusal)) = too_many(&acts) {
            return Err(self.blame(refusal, Some(about), &job));
        }
        let mut entries = there.to_vec();
        let mut new = Vec::new();
        for act in acts.into_iter().flat_map(pieces) {
            let (Act::Record(about) | Act::Recount(about, _)) = &act else {
                continue;
            };
            let about = about.clone();
            let id = entry_id(id, base, new.len(), &act)?;
            let stamp = Stamp {
                id,
                now: by.now.clone(),
                device: by.device.clone(),
                who: by.who.clone(),
                seen: None,
            };
            let decided = decide(&job, act, stamp)
                .map_err(|refusal| self.blame(refusal, Some(&about), &job))?;
            // What a reading is checked against does not change with the readings before it.
            let refold = !matches!(about, Body::LeavesTried { .. });
            entries.extend(stored(&decided, base + count(new.len())));
            new.extend(decided);
            if refold {
                job = fold(&entries).0;
            }
        }
        Ok(new)
    }
}

/// The entries as they will stand in the journal.
pub fn stored(new: &[NewEntry], base: u64) -> Vec<Entry> {
    let entry = |(index, new): (usize, &NewEntry)| Entry {
        position: base + count(index) + 1,
        recorded_at: new.happened_at.timestamp(),
        new: new.clone(),
    };
    new.iter().enumerate().map(entry).collect()
}

fn count(number: usize) -> u64 {
    u64::try_from(number).unwrap_or(u64::MAX)
}

/// One entry takes so many leaves and no more; a job may well have more at one spot.
fn pieces(act: Act) -> Vec<Act> {
    match act {
        Act::Record(Body::LeavesTried {
            spot,
            tries,
            afresh,
        }) => tries
            .chunks(MOST_TRIES)
            .enumerate()
            .map(|(index, tries)| {
                Act::Record(Body::LeavesTried {
                    spot,
                    tries: tries.to_vec(),
                    afresh: afresh && index == 0,
                })
            })
            .collect(),
        act => vec![act],
    }
}

/// The first act that brings a spot above [`MOST_AT_A_SPOT`], and why it is refused.
fn too_many(acts: &[Act]) -> Option<(&Body, Refusal)> {
    let mut tried: BTreeMap<Spot, usize> = BTreeMap::new();
    acts.iter().find_map(|act| {
        let Act::Record(body @ Body::LeavesTried { spot, tries, .. }) = act else {
            return None;
        };
        let count = tried.entry(*spot).or_default();
        *count += tries.len();
        (*count > MOST_AT_A_SPOT).then(|| {
            let refusal = Refusal::NotACount {
                field: "reading",
                text: format!("{count} leaves"),
                allowed: "at most 1000 leaves at one spot",
            };
            (body, refusal)
        })
    })
}

/// Made from content, so that importing twice, or from two windows at once, records once. The
/// position is in it, so that what was withdrawn since can be brought in again.
fn entry_id(job: &JobId, base: u64, index: usize, act: &Act) -> Result<EntryId, Refusal> {
    let digest = Sha256::digest(format!("{job} {base} {index} {act:?}"));
    EntryId::new(&format!("file-{digest:x}")[..37])
}
