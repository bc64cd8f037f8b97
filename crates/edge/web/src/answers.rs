//! Answers already computed, by the digest of what they rest on.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use report::page::problem::Problem;
use tokio::sync::OnceCell;
use tokio::task::{JoinError, spawn_blocking};
use workshop::gap::{Inputs, Judgement};
use workshop::judge::judge;

/// How many answers are kept: enough for several devices on several jobs.
const KEPT: usize = 64;

/// One answer, computed by the first who asks while the others wait for it.
type Answer = Arc<OnceCell<Arc<Judgement>>>;

/// The answers, latest last.
#[derive(Debug, Default)]
pub(crate) struct Answers {
    kept: Mutex<VecDeque<(String, Answer)>>,
}

impl Answers {
    /// The answer for these inputs, computed once and off the async threads.
    pub(crate) async fn of(&self, inputs: Inputs) -> Result<Arc<Judgement>, JoinError> {
        let answer = self.place(inputs.digest());
        let compute = async || spawn_blocking(move || Arc::new(judge(&inputs))).await;
        answer.get_or_try_init(compute).await.cloned()
    }

    /// The place of the answer with this digest, made empty if it is not there.
    fn place(&self, digest: String) -> Answer {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, known)) = kept.iter().find(|(known, _)| *known == digest) {
            return Arc::clone(known);
        }
        if kept.len() == KEPT {
            kept.pop_front();
        }
        let answer = Answer::default();
        kept.push_back((digest, Arc::clone(&answer)));
        answer
    }
}

/// How many answers of another kind are kept.
const FEW: usize = 16;

/// Answers already computed, by what they rest on, latest last.
#[derive(Debug)]
pub(crate) struct Kept<A>(Mutex<VecDeque<(String, Arc<A>)>>);

impl<A> Default for Kept<A> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

impl<A: Send + Sync + 'static> Kept<A> {
    /// The answer that rests on this, computed once and off the async threads. What it is computed from is got ready
    /// only where it is not known yet.
    pub(crate) async fn of<C>(
        &self,
        evidence: &str,
        ready: impl FnOnce() -> C,
    ) -> Result<Arc<A>, Problem>
    where
        C: FnOnce() -> A + Send + 'static,
    {
        if let Some(known) = self.known(evidence) {
            return Ok(known);
        }
        let compute = ready();
        let found = spawn_blocking(move || Arc::new(compute())).await;
        let found = found.map_err(|_| Problem::Failed)?;
        self.keep(evidence, &found);
        Ok(found)
    }

    fn known(&self, evidence: &str) -> Option<Arc<A>> {
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let mut kept = kept.iter();
        kept.find(|(known, _)| known == evidence)
            .map(|(_, answer)| Arc::clone(answer))
    }

    fn keep(&self, evidence: &str, answer: &Arc<A>) {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.len() == FEW {
            kept.pop_front();
        }
        kept.push_back((evidence.to_owned(), Arc::clone(answer)));
    }
}
