//! Tells open pages that their job has grown: a stream of positions, and nothing of the content.

use std::collections::HashMap;
use std::convert::Infallible;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use axum::extract::{Path, State};
use axum::http::header::RETRY_AFTER;
use axum::http::{HeaderMap, StatusCode};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use store::Store;
use tokio::sync::{Semaphore, watch};
use tokio_stream::wrappers::WatchStream;
use tokio_stream::{Stream, StreamExt};
use workshop::entry::JobId;

use crate::Bench;
use crate::handlers::{named, problem};

/// The most pages that listen at once: a shop full of devices with a few pages each.
const MOST_LISTENERS: usize = 256;
/// How often the store is asked what other programs wrote, while anybody listens.
const ASKED: Duration = Duration::from_millis(1500);
/// A line now and then, so that a connection that is gone is noticed.
const ALIVE: Duration = Duration::from_secs(15);

/// Who listens to which job.
#[derive(Clone, Debug)]
pub(crate) struct Live {
    room: Arc<Mutex<Room>>,
    seats: Arc<Semaphore>,
}

/// The jobs that anybody listens to, each with its last position. A listener holds no more than that
/// one number, so a slow one skips to the latest.
#[derive(Debug, Default)]
struct Room {
    jobs: HashMap<JobId, watch::Sender<u64>>,
    /// Somebody asks the store already.
    asking: bool,
    /// The bench closes.
    closed: bool,
}

impl Default for Live {
    fn default() -> Self {
        Self {
            room: Arc::default(),
            seats: Arc::new(Semaphore::new(MOST_LISTENERS)),
        }
    }
}

impl Live {
    fn room(&self) -> MutexGuard<'_, Room> {
        self.room.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Ends every stream, so that a bench that closes waits for none.
    pub(crate) fn close(&self) {
        let mut room = self.room();
        room.closed = true;
        room.jobs.clear();
    }

    /// Listens to a job whose last position is known; none while the bench closes.
    fn listen(&self, job: &JobId, position: u64, store: &Store) -> Option<watch::Receiver<u64>> {
        let mut room = self.room();
        if room.closed {
            return None;
        }
        let sender = room.jobs.entry(job.clone());
        let sender = sender.or_insert_with(|| watch::Sender::new(position));
        sender.send_if_modified(|known| raise(known, position));
        let listener = sender.subscribe();
        if !std::mem::replace(&mut room.asking, true) {
            tokio::spawn(self.clone().ask(store.clone()));
        }
        Some(listener)
    }

    /// Asks the store for the positions of all jobs that are listened to: after each append of this
    /// process, and now and then for those of others. Ends when nobody listens.
    async fn ask(self, store: Store) {
        let mut grown = store.grown();
        loop {
            let _ = tokio::time::timeout(ASKED, grown.changed()).await;
            let Some(jobs) = self.listened() else { return };
            match store.positions(&jobs).await {
                Ok(positions) => self.tell(&positions),
                // The pages go on; what cannot be read now is asked for again.
                Err(error) => drop(problem(&error)),
            }
        }
    }

    /// The jobs that anybody still listens to; none ends the asking.
    fn listened(&self) -> Option<Vec<JobId>> {
        let mut room = self.room();
        room.jobs.retain(|_, sender| sender.receiver_count() > 0);
        room.asking = !room.jobs.is_empty();
        room.asking.then(|| room.jobs.keys().cloned().collect())
    }

    fn tell(&self, positions: &[(JobId, u64)]) {
        let room = self.room();
        for (job, position) in positions {
            if let Some(sender) = room.jobs.get(job) {
                sender.send_if_modified(|known| raise(known, *position));
            }
        }
    }
}

/// A journal only grows; an answer that was overtaken changes nothing.
fn raise(known: &mut u64, position: u64) -> bool {
    let newer = position > *known;
    *known = position.max(*known);
    newer
}

/// The positions of a job as it grows: the last one at once, unless the listener has it already.
pub(crate) async fn stream(
    State(bench): State<Bench>,
    Path(job): Path<String>,
    headers: HeaderMap,
) -> Response {
    let Ok(job) = named(&job) else {
        return none();
    };
    let Ok(seat) = Arc::clone(&bench.live.seats).try_acquire_owned() else {
        return full();
    };
    let position = match bench.store.positions(std::slice::from_ref(&job)).await {
        Ok(found) => match found.first() {
            Some((_, position)) => *position,
            None => return none(),
        },
        Err(error) => {
            drop(problem(&error));
            return StatusCode::INTERNAL_SERVER_ERROR.into_response();
        }
    };
    let Some(mut listener) = bench.live.listen(&job, position, &bench.store) else {
        return closing();
    };
    if last_heard(&headers) != Some(*listener.borrow()) {
        listener.mark_changed();
    }
    let alive = KeepAlive::new().interval(ALIVE);
    Sse::new(events(listener, seat))
        .keep_alive(alive)
        .into_response()
}

/// Each position as an event with itself as the id. The seat is given back when the stream ends.
fn events(
    listener: watch::Receiver<u64>,
    seat: impl Send,
) -> impl Stream<Item = Result<Event, Infallible>> + Send {
    WatchStream::from_changes(listener).map(move |position| {
        let _held = &seat;
        let position = position.to_string();
        Ok(Event::default().id(&position).data(position))
    })
}

/// The last event that the listener had before its connection broke.
fn last_heard(headers: &HeaderMap) -> Option<u64> {
    headers.get("last-event-id")?.to_str().ok()?.parse().ok()
}

fn none() -> Response {
    (StatusCode::NOT_FOUND, "There is no such job.\n").into_response()
}

fn full() -> Response {
    let words = format!(
        "{MOST_LISTENERS} pages listen to this bench already. Close some; this one works on, and \
         shows what others do when it is loaded again.\n"
    );
    (
        StatusCode::SERVICE_UNAVAILABLE,
        [(RETRY_AFTER, "60")],
        words,
    )
        .into_response()
}

fn closing() -> Response {
    (StatusCode::SERVICE_UNAVAILABLE, "The bench closes.\n").into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job() -> JobId {
        JobId::new("sled").unwrap()
    }

    async fn store() -> (tempfile::TempDir, Store) {
        let folder = tempfile::tempdir().unwrap();
        let url = format!("sqlite:{}", folder.path().join("store").display());
        (folder, Store::open(&url).await.unwrap())
    }

    #[tokio::test]
    async fn law_a_slow_listener_gets_the_latest_and_no_more() {
        let (_folder, store) = store().await;
        let live = Live::default();
        let listener = live.listen(&job(), 1, &store).unwrap();
        let mut stream = WatchStream::from_changes(listener);
        for position in 2..=10_000 {
            live.tell(&[(job(), position)]);
        }
        // An answer that was overtaken on the way.
        live.tell(&[(job(), 7)]);
        assert_eq!(stream.next().await, Some(10_000));
        live.close();
        assert_eq!(stream.next().await, None, "nothing else was kept for it");
    }

    #[tokio::test]
    async fn law_a_bench_that_closes_listens_no_more() {
        let (_folder, store) = store().await;
        let live = Live::default();
        let listener = live.listen(&job(), 1, &store).unwrap();
        live.close();
        assert_eq!(WatchStream::from_changes(listener).next().await, None);
        assert!(live.listen(&job(), 1, &store).is_none());
    }

    #[tokio::test]
    async fn law_the_store_is_asked_only_while_somebody_listens() {
        let (_folder, store) = store().await;
        let live = Live::default();
        let listener = live.listen(&job(), 1, &store).unwrap();
        assert!(live.room().asking);
        assert_eq!(live.listened(), Some(vec![job()]));
        drop(listener);
        assert_eq!(live.listened(), None);
        assert!(!live.room().asking && live.room().jobs.is_empty());
    }
}
