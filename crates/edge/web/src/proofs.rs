//! Timetables proved in the background: a page shows the quick one at once and the proved one when
//! it is looked at again.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use jiff::ZonedDateTime;
use tokio::sync::Semaphore;
use tokio::task::spawn_blocking;
use workshop::assemble::timetable::{Timetable, proved};
use workshop::job::Job;

/// How long a proof is looked for. What was found by then is kept, with the gap that is left.
const PATIENCE: Duration = Duration::from_secs(10);
/// How many proofs are kept.
const KEPT: usize = 32;

/// What a timetable rests on: the job, its journal so far, when it begins, and the time a person has.
pub(crate) type Basis = (String, u64, i64, Option<i64>);

/// A proof that is looked for, or was.
#[derive(Clone, Debug)]
enum Proof {
    /// It is looked for.
    Sought,
    /// Nothing better was found, and whether there is anything is not known.
    Open,
    /// At least as good as the quick one.
    Found(Arc<Timetable>),
}

/// The proofs, latest last.
#[derive(Debug)]
pub(crate) struct Proofs {
    kept: Mutex<VecDeque<(Basis, Proof)>>,
    /// One proof at a time: the bench has other work.
    turn: Arc<Semaphore>,
}

impl Default for Proofs {
    fn default() -> Self {
        Self {
            kept: Mutex::default(),
            turn: Arc::new(Semaphore::new(1)),
        }
    }
}

impl Proofs {
    /// The proved timetable, if it was found already; looks for it in the background if nobody has.
    pub(crate) fn of(
        self: &Arc<Self>,
        basis: &Basis,
        quick: &Timetable,
        job: &Job,
        now: &ZonedDateTime,
    ) -> Option<Arc<Timetable>> {
        if quick.best() {
            return None;
        }
        let known = self.known(basis);
        if known.is_none() {
            self.seek(basis.clone(), job.clone(), now.clone());
        }
        match known {
            Some(Proof::Found(table)) => Some(table),
            _ => None,
        }
    }

    fn known(&self, basis: &Basis) -> Option<Proof> {
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let known = kept.iter().find(|(known, _)| known == basis);
        known.map(|(_, proof)| proof.clone())
    }

    fn keep(&self, basis: Basis, proof: Proof) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|(known, _)| *known != basis);
        if kept.len() == KEPT {
            kept.pop_front();
        }
        kept.push_back((basis, proof));
    }

    fn seek(self: &Arc<Self>, basis: Basis, job: Job, now: ZonedDateTime) {
        self.keep(basis.clone(), Proof::Sought);
        let (proofs, turn) = (Arc::clone(self), Arc::clone(&self.turn));
        tokio::spawn(async move {
            let Ok(_turn) = turn.acquire_owned().await else {
                return;
            };
            let have = basis.3;
            let found = spawn_blocking(move || {
                let until = Instant::now() + PATIENCE;
                proved(&job, &now, have, |_| Instant::now() < until)
            });
            let proof = match found.await {
                Ok(Some(Ok(table))) => Proof::Found(Arc::new(table)),
                _ => Proof::Open,
            };
            proofs.keep(basis, proof);
        });
    }
}
