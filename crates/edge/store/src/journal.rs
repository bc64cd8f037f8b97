//! Journals already read. Rows are appended and never changed, so only what came since is read.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use workshop::entry::{Entry, JobId};

use crate::{Error, Store};

/// How many journals are kept: enough for the jobs that a shop has under way.
const KEPT: usize = 32;

/// One of them, shared by all who look at it.
type Read = (JobId, Arc<Vec<Entry>>);

/// The journals, the one that grew last at the end.
#[derive(Clone, Debug, Default)]
pub(crate) struct Journals(Arc<Mutex<VecDeque<Read>>>);

impl Journals {
    fn known(&self, job: &JobId) -> Option<Arc<Vec<Entry>>> {
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let known = kept.iter().find(|(known, _)| known == job);
        known.map(|(_, entries)| Arc::clone(entries))
    }

    /// Keeps the journal. Of two that are read at once either may stay: what it lacks is read again.
    fn keep(&self, job: &JobId, entries: &Arc<Vec<Entry>>) {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|(known, _)| known != job);
        if kept.len() == KEPT {
            kept.pop_front();
        }
        kept.push_back((job.clone(), Arc::clone(entries)));
    }
}

impl Store {
    /// The job's entries as [`Store::entries`] gives them, but for what was read before, which is not read again.
    pub async fn journal(&self, job: &JobId) -> Result<Arc<Vec<Entry>>, Error> {
        let mut entries = self.journals.known(job).unwrap_or_default();
        if let Some(last) = entries.last() {
            // The last one is read once more: a restored database may lie under the same address by now.
            let read = self.entries_from(job, last.position).await?;
            if read.first() == Some(last) {
                if read.len() > 1 {
                    Arc::make_mut(&mut entries).extend(read.into_iter().skip(1));
                    self.journals.keep(job, &entries);
                }
                return Ok(entries);
            }
        }
        let entries = Arc::new(self.entries(job).await?);
        if !entries.is_empty() {
            self.journals.keep(job, &entries);
        }
        Ok(entries)
    }
}
