//! Answers already computed, by the digest of what they rest on.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use tokio::task::{JoinError, spawn_blocking};
use workshop::gap::{Inputs, Judgement};
use workshop::judge::judge;

/// How many answers are kept: enough for several devices on several jobs.
const KEPT: usize = 64;

/// The answers, latest last.
#[derive(Debug, Default)]
pub(crate) struct Answers {
    kept: Mutex<VecDeque<Arc<Judgement>>>,
}

impl Answers {
    /// The answer for these inputs, computed off the async threads if it is not at hand.
    pub(crate) async fn of(&self, inputs: Inputs) -> Result<Arc<Judgement>, JoinError> {
        let digest = inputs.digest();
        if let Some(known) = self.known(&digest) {
            return Ok(known);
        }
        let judgement = Arc::new(spawn_blocking(move || judge(&inputs)).await?);
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.len() == KEPT {
            kept.pop_front();
        }
        kept.push_back(Arc::clone(&judgement));
        Ok(judgement)
    }

    fn known(&self, digest: &str) -> Option<Arc<Judgement>> {
        let kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.iter()
            .rev()
            .find(|known| known.digest == digest)
            .map(Arc::clone)
    }
}
