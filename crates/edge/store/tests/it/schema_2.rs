//! A store with the tables of migration 2, as it was left by a program that had photos and water tests.

use std::fs;
use std::path::Path;

use ::store::{Size, Store};
use sqlx::{AnyConnection, Connection};
use workshop::fold::fold;

use crate::bench::{Bench, every_kind, job, later, opened, stamp, url};

const WRITE: &str = "PUMPWRIGHT_WRITE_FIXTURES";
/// The SHA-256 of `abc`, as FIPS 180-4's examples print it.
const ABC: &str = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

#[tokio::test]
async fn law_a_store_of_schema_2_opens_and_folds() {
    let archived = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/schema_0002.sqlite");
    if std::env::var_os(WRITE).is_some() && !archived.exists() {
        write(&archived).await;
    }
    let bench = tempfile::tempdir().unwrap();
    fs::copy(&archived, bench.path().join("store.sqlite")).unwrap();
    let store = Store::open(&url(&bench)).await.unwrap();
    let (folded, _) = fold(&store.entries(&job("autumn")).await.unwrap());
    assert_eq!(folded.title.as_deref(), Some("Spring rebuild"));
    assert!(folded.pump.is_some() && folded.accepted.is_some() && folded.bench.plan().is_some());
    assert!(!folded.trials.is_empty() && !folded.inspected.findings.is_empty());
    let here = store.photos().await.unwrap();
    let photo = here.into_iter().next().unwrap();
    assert_eq!(photo.as_str(), ABC);
    let full = store.photo(&photo, Size::Full).await.unwrap();
    assert_eq!(full.as_deref(), Some(b"abc".as_slice()));
    // And it takes new entries.
    let new = job("new");
    let taken = store.act(&new, opened("New"), stamp("new"), later(0));
    assert_eq!(taken.await.unwrap().positions, [1]);
}

async fn write(path: &Path) {
    let bench = Bench::new().await;
    every_kind(&bench.store, &job("autumn")).await;
    bench.store.keep_photo(b"abc", b"small").await.unwrap();
    bench.store.close().await;
    let mut aside = AnyConnection::connect(&url(&bench.folder)).await.unwrap();
    sqlx::query("PRAGMA wal_checkpoint(TRUNCATE)")
        .execute(&mut aside)
        .await
        .unwrap();
    aside.close().await.unwrap();
    fs::copy(bench.folder.path().join("store.sqlite"), path).unwrap();
}
