//! The disk is full, and then it is not.
//!
//! A store on a small file system of its own, in memory, is written until it refuses. Then there is room again, and the
//! same store goes on. Of a server, the rows lie there and its log elsewhere. Making a file system takes the rights of
//! the system's administrator.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

use ::store::Store;
use rand_pcg::Pcg32;
use rand_pcg::rand_core::{Rng, SeedableRng};
use sqlx::{AnyConnection, AssertSqlSafe, Connection as _};
use tempfile::TempDir;

use crate::bench::{job, later, leaves, opened, pump, stamp, tried, url};
use crate::postgres::Server;

const SEED: u64 = 20_261_129;

/// A small file system, gone with its folder.
struct Disk(TempDir);

impl Disk {
    /// Of this size, and of this user.
    fn new(size: &str, user: u32) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let disk = Self(folder);
        let options = format!("size={size},uid={user},mode=0700");
        let made = Command::new("mount")
            .args(["-t", "tmpfs", "-o", &options, "tmpfs"])
            .arg(disk.0.path())
            .status();
        assert!(
            made.is_ok_and(|made| made.success()),
            "no small file system could be mounted: run this study as the administrator"
        );
        disk
    }

    fn path(&self) -> &Path {
        self.0.path()
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        // A server may still hold it for a moment.
        let _ = Command::new("umount")
            .arg("--lazy")
            .arg(self.path())
            .status();
    }
}

#[derive(Default)]
struct Tally {
    times: usize,
    acknowledged: usize,
    refused: usize,
    lost: usize,
    doubled: usize,
    /// The refused act, sent again when there was room, is on record once.
    landed: usize,
    /// A photo or a backup that found no room left nothing behind.
    clean: usize,
}

/// A new database whose rows lie on the disk; its address.
async fn on_a_server(server: &Server, disk: &Disk, n: u64) -> String {
    sqlx::any::install_default_drivers();
    let mut aside = AnyConnection::connect(&server.address("postgres"))
        .await
        .unwrap();
    let place = disk.path().display();
    for statement in [
        format!("CREATE TABLESPACE small{n} LOCATION '{place}'"),
        format!("CREATE DATABASE full{n} TABLESPACE small{n}"),
    ] {
        let statement = AssertSqlSafe(statement);
        sqlx::query(statement).execute(&mut aside).await.unwrap();
    }
    server.address(&format!("full{n}"))
}

/// Writes until it is refused, then a little more, then with room again.
async fn once(n: u64, (disk, url): (&Disk, &str), room: usize, tally: &mut Tally) {
    let store = Store::open(url).await.unwrap();
    let ballast = disk.path().join("ballast");
    let size = free(disk).saturating_sub(room);
    fs::write(&ballast, vec![0; size]).unwrap();
    let id = job(&format!("full-{n}"));
    let mut done = BTreeSet::new();
    for (name, act) in [
        ("job", opened("Full")),
        ("pump", pump()),
        ("leaves", leaves()),
    ] {
        let name = format!("{id}-{name}");
        store.act(&id, act, stamp(&name), later(0)).await.unwrap();
        done.insert(name);
    }
    let mut refused = BTreeSet::new();
    for n in 0.. {
        let name = format!("{id}-{n}");
        match store.act(&id, tried(0, 0), stamp(&name), later(1)).await {
            Ok(_) => assert!(done.insert(name)),
            Err(error) => {
                assert!(error.to_string().contains("room"), "{error}");
                refused.insert(name);
            }
        }
        if refused.len() == 5 {
            break;
        }
    }
    // What is there is read, though nothing can be written.
    assert_eq!(store.entries(&id).await.unwrap().len(), done.len());
    let photos = store.photos().await.unwrap().len();
    let backup = disk.path().join("backup");
    let none = store
        .keep_photo(&vec![7; 3_000_000], b"small")
        .await
        .is_err()
        && store.backup(&backup).await.is_err()
        && !backup.exists()
        && store.photos().await.unwrap().len() == photos;
    tally.clean += usize::from(none);

    fs::remove_file(&ballast).unwrap();
    for name in &refused {
        let sent = store.act(&id, tried(0, 0), stamp(name), later(2)).await;
        assert!(!sent.unwrap().again);
        let again = store.act(&id, tried(0, 0), stamp(name), later(2)).await;
        tally.landed += usize::from(again.unwrap().again);
        done.insert(name.clone());
    }
    store.close().await;
    let store = Store::open(url).await.unwrap();
    let entries = store.entries(&id).await.unwrap();
    for (position, entry) in (1..).zip(&entries) {
        assert_eq!(entry.position, position, "a gap in the positions");
    }
    let there: BTreeSet<String> = entries
        .iter()
        .map(|entry| entry.new.id.to_string())
        .collect();
    tally.times += 1;
    tally.acknowledged += done.len();
    tally.refused += refused.len();
    tally.lost += done.difference(&there).count();
    tally.doubled += entries.len() - there.len();
    store.whole().await.unwrap();
    store.close().await;
}

/// The bytes that are free on it.
fn free(disk: &Disk) -> usize {
    let told = Command::new("df")
        .args(["--output=avail", "--block-size=1"])
        .arg(disk.path())
        .output()
        .unwrap();
    let told = String::from_utf8(told.stdout).unwrap();
    told.lines().nth(1).unwrap().trim().parse().unwrap()
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "study: cargo xtask study full"]
async fn full_study() {
    let times = std::env::var("PUMPWRIGHT_TIMES").map_or(3, |text| text.parse().unwrap());
    println!(
        "| store | times full | entries acknowledged | lost | doubled | acts refused | sent again with room, on record \
         once | photo and backup without room leave nothing |\n|---|---|---|---|---|---|---|---|"
    );
    let mut random = Pcg32::seed_from_u64(SEED);
    let mut room = || 100_000 + (random.next_u32() % 900_000) as usize;
    let mut tally = Tally::default();
    for n in 0..times {
        let disk = Disk::new("2m", 0);
        once(n, (&disk, &url(&disk.0)), room(), &mut tally).await;
    }
    println!("{}", row("SQLite", &tally));

    let server = Server::start();
    let mut tally = Tally::default();
    // A server writes into every database until it ends.
    let mut disks = Vec::new();
    for n in 0..times.div_ceil(5) {
        let disk = Disk::new("16m", server.user());
        let url = on_a_server(&server, &disk, n).await;
        once(n, (&disk, &url), room(), &mut tally).await;
        disks.push(disk);
    }
    drop(server);
    println!("{}", row("PostgreSQL", &tally));
}

fn row(store: &str, tally: &Tally) -> String {
    assert_eq!((tally.lost, tally.doubled), (0, 0));
    assert_eq!((tally.landed, tally.clean), (tally.refused, tally.times));
    format!(
        "| {store} | {} | {} | {} | {} | {} | {} | {} |",
        tally.times,
        tally.acknowledged,
        tally.lost,
        tally.doubled,
        tally.refused,
        tally.landed,
        tally.clean
    )
}
