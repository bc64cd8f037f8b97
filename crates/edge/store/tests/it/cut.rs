//! The network between a bench and its server goes silent: nothing is refused, nothing comes.

use std::io::{Read as _, Write as _};
use std::net::{TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

use ::store::Store;

use crate::bench::{job, later, opened, stamp};
use crate::postgres::Server;
use crate::store::note;

/// Hands on what comes, until it is cut; what was connected before a cut stays silent for ever.
struct Wire {
    port: u16,
    cuts: Arc<AtomicU64>,
}

impl Wire {
    fn to(server: String) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let port = listener.local_addr().unwrap().port();
        let cuts = Arc::new(AtomicU64::new(0));
        let counted = cuts.clone();
        std::thread::spawn(move || {
            let mut held = Vec::new();
            for near in listener.incoming() {
                let near = near.unwrap();
                if counted.load(Ordering::Relaxed) % 2 == 1 {
                    // Taken and never answered, as a router may do.
                    held.push(near);
                    continue;
                }
                let far = TcpStream::connect(&server).unwrap();
                for (from, to) in [(&near, &far), (&far, &near)] {
                    let (from, to) = (from.try_clone().unwrap(), to.try_clone().unwrap());
                    let counted = counted.clone();
                    std::thread::spawn(move || hand_on(from, to, &counted));
                }
            }
        });
        Self { port, cuts }
    }

    /// Cuts it, or mends it.
    fn turn(&self) {
        self.cuts.fetch_add(1, Ordering::Relaxed);
    }
}

fn hand_on(mut from: TcpStream, mut to: TcpStream, cuts: &AtomicU64) {
    let mut bytes = [0; 4096];
    let then = cuts.load(Ordering::Relaxed);
    while let Ok(count) = from.read(&mut bytes) {
        if cuts.load(Ordering::Relaxed) != then {
            std::thread::sleep(Duration::from_mins(10));
        }
        if count == 0 || to.write_all(&bytes[..count]).is_err() {
            break;
        }
    }
    let _ = to.shutdown(std::net::Shutdown::Both);
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
async fn law_a_silent_network_is_told_and_gone_on_after() {
    let url = Server::shared().database();
    let (before, after) = url.rsplit_once('@').unwrap();
    let (server, database) = after.split_once('/').unwrap();
    let wire = Wire::to(server.to_owned());
    let store = format!("{before}@127.0.0.1:{}/{database}", wire.port);
    let (store, id) = (Store::open(&store).await.unwrap(), job("cut"));
    let first = store.act(&id, opened("Cut"), stamp("cut"), later(0));
    first.await.unwrap();
    // More at once than there are connections, so that some are under way as it is cut.
    let writers: Vec<_> = (0..6)
        .map(|writer| {
            let (store, id) = (store.clone(), id.clone());
            tokio::spawn(async move {
                for n in 0.. {
                    let name = format!("{writer}-{n}");
                    let began = Instant::now();
                    if let Err(refused) = store.append(&id, &[note(&name, "x")], later(1)).await {
                        return (name, refused, began.elapsed());
                    }
                }
                unreachable!()
            })
        })
        .collect();
    tokio::time::sleep(Duration::from_millis(500)).await;
    wire.turn();
    let mut unanswered = Vec::new();
    for writer in writers {
        let (name, refused, waited) = writer.await.unwrap();
        assert_eq!(
            refused.to_string(),
            "The store did not answer in time. Where a server keeps it, check that it runs and that the \
             network is whole; then try again: what is on record is not recorded twice."
        );
        assert!(waited < Duration::from_secs(25), "{waited:?}");
        unanswered.push(name);
    }
    wire.turn();
    let began = Instant::now();
    for name in &unanswered {
        let sent = store.append(&id, &[note(name, "x")], later(1)).await;
        sent.unwrap();
    }
    assert!(began.elapsed() < Duration::from_secs(10));
    let entries = store.entries(&id).await.unwrap();
    assert!((1..).zip(&entries).all(|(n, entry)| entry.position == n));
    for name in unanswered {
        let there = entries.iter().filter(|entry| entry.new.id.as_str() == name);
        assert_eq!(there.count(), 1, "{name}");
    }
}
