//! The server is restarted while several benches write: what was answered stays, what was not is sent
//! again and lands once.

use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use ::store::Store;
use workshop::entry::JobId;

use crate::bench::{job, later};
use crate::postgres::{PASSWORD, Server, Stop};
use crate::store::note;

const WRITERS: usize = 6;
/// Answers from one restart to the next.
const ANSWERS: u64 = 40;

#[derive(Default)]
struct Tally {
    acknowledged: BTreeSet<(JobId, String)>,
    /// Answers that were errors.
    refused: u64,
    /// On record already when sent again after an error.
    unanswered: u64,
    lost: usize,
    doubled: usize,
    longest: Duration,
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
async fn law_a_server_restarted_twice_loses_and_doubles_nothing() {
    let tally = restart(&[Stop::Crash, Stop::Clean]).await;
    assert_eq!((tally.lost, tally.doubled), (0, 0));
    assert!(tally.refused > 0, "nobody met a restart");
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "study: cargo xtask study restart"]
async fn restart_study() {
    let count = std::env::var("PUMPWRIGHT_RESTARTS").map_or(20, |text| text.parse().unwrap());
    println!(
        "| restart | restarts | acts acknowledged | answered by an error | on record without an answer | \
         lost | doubled | longest wait for an answer, s |\n|---|---|---|---|---|---|---|---|"
    );
    for (name, how) in [("as a crash", Stop::Crash), ("clean", Stop::Clean)] {
        let tally = restart(&vec![how; count / 2]).await;
        println!(
            "| {name} | {} | {} | {} | {} | {} | {} | {:.1} |",
            count / 2,
            tally.acknowledged.len(),
            tally.refused,
            tally.unanswered,
            tally.lost,
            tally.doubled,
            tally.longest.as_secs_f64()
        );
        assert_eq!((tally.lost, tally.doubled), (0, 0));
    }
}

/// Six writers of two benches; half of them share a job.
async fn restart(stops: &[Stop]) -> Tally {
    let server = Server::start();
    let url = server.database();
    let stores = [
        Store::open(&url).await.unwrap(),
        Store::open(&url).await.unwrap(),
    ];
    let (answers, done) = (
        Arc::new(AtomicU64::new(0)),
        Arc::new(AtomicBool::new(false)),
    );
    let writers: Vec<_> = (0..WRITERS)
        .map(|writer| {
            let store = stores[writer % 2].clone();
            let (answers, done) = (answers.clone(), done.clone());
            tokio::spawn(async move { write(&store, writer, (&answers, &done)).await })
        })
        .collect();
    for stop in stops {
        wait_for(&answers, answers.load(Ordering::Relaxed) + ANSWERS).await;
        server.stop(*stop);
        server.go_on();
    }
    wait_for(&answers, answers.load(Ordering::Relaxed) + ANSWERS).await;
    done.store(true, Ordering::Relaxed);
    let mut tally = Tally::default();
    for writer in writers {
        let one = writer.await.unwrap();
        tally.acknowledged.extend(one.acknowledged);
        tally.refused += one.refused;
        tally.unanswered += one.unanswered;
        tally.longest = tally.longest.max(one.longest);
    }
    compare(&stores[0], &mut tally).await;
    tally
}

async fn wait_for(answers: &AtomicU64, wanted: u64) {
    let began = Instant::now();
    while answers.load(Ordering::Relaxed) < wanted {
        assert!(
            began.elapsed() < Duration::from_mins(1),
            "nobody is answered"
        );
        tokio::time::sleep(Duration::from_millis(5)).await;
    }
}

/// Writes one entry after the other; one that was not answered is sent again until it is.
async fn write(store: &Store, writer: usize, (answers, done): (&AtomicU64, &AtomicBool)) -> Tally {
    let mut tally = Tally::default();
    let id = match writer % 4 {
        0 | 1 => job("common"),
        _ => job(&format!("own-{writer}")),
    };
    for n in 0.. {
        if done.load(Ordering::Relaxed) {
            break;
        }
        let name = format!("{writer}-{n}");
        let (began, mut tries) = (Instant::now(), 0);
        loop {
            match store.append(&id, &[note(&name, "x")], later(0)).await {
                Ok(taken) => {
                    assert!(tries > 0 || !taken.again);
                    tally.unanswered += u64::from(taken.again);
                    break;
                }
                Err(error) => {
                    let said = format!("{error} {error:?}");
                    assert!(!said.contains(PASSWORD), "{said}");
                    assert!(said.contains("try again"), "{said}");
                    (tries, tally.refused) = (tries + 1, tally.refused + 1);
                    tokio::time::sleep(Duration::from_millis(20)).await;
                }
            }
        }
        tally.longest = tally.longest.max(began.elapsed());
        tally.acknowledged.insert((id.clone(), name));
        answers.fetch_add(1, Ordering::Relaxed);
    }
    tally
}

async fn compare(store: &Store, tally: &mut Tally) {
    let mut there = BTreeSet::new();
    for line in store.jobs().await.unwrap() {
        for (position, entry) in (1..).zip(store.entries(&line.id).await.unwrap()) {
            assert_eq!(entry.position, position, "a gap in the positions");
            let fresh = there.insert((line.id.clone(), entry.new.id.to_string()));
            tally.doubled += usize::from(!fresh);
        }
    }
    tally.lost = tally.acknowledged.difference(&there).count();
    // Every act was sent until it was answered, so there is nothing else.
    assert_eq!(there.difference(&tally.acknowledged).count(), 0);
}
