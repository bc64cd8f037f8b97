//! What is particular to a store in a file.

use ::store::{Error, Store};
use sqlx::{AnyConnection, Connection};

use crate::bench::{Bench, every_kind, job, later, leaves, opened, pump, stamp, url};

/// A connection beside the store, for doing what the store never does.
async fn aside(url: &str) -> AnyConnection {
    sqlx::any::install_default_drivers();
    AnyConnection::connect(url).await.unwrap()
}

#[tokio::test]
async fn law_what_was_written_is_there_after_closing() {
    let bench = Bench::new().await;
    every_kind(&bench.store, &job("kept")).await;
    let before = bench.store.entries(&job("kept")).await.unwrap();
    bench.store.close().await;
    let store = Store::open(&url(&bench.folder)).await.unwrap();
    assert_eq!(store.entries(&job("kept")).await.unwrap(), before);
}

#[tokio::test(flavor = "multi_thread")]
async fn law_a_new_file_may_be_opened_by_eight_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let tasks: Vec<_> = (0..8)
        .map(|_| {
            let url = url(&folder);
            tokio::spawn(async move { Store::open(&url).await.map(|_| ()) })
        })
        .collect();
    for task in tasks {
        task.await.unwrap().unwrap();
    }
}

#[tokio::test]
async fn law_a_newer_database_is_refused() {
    let bench = Bench::new().await;
    bench.store.close().await;
    let mut aside = aside(&url(&bench.folder)).await;
    sqlx::query(
        "INSERT INTO _sqlx_migrations (version, description, success, checksum, execution_time) \
         VALUES (7, 'of tomorrow', TRUE, x'00', 0)",
    )
    .execute(&mut aside)
    .await
    .unwrap();
    aside.close().await.unwrap();
    let refused = Store::open(&url(&bench.folder)).await.unwrap_err();
    assert_eq!(
        refused.to_string(),
        "A newer program wrote this store: it has tables of version 7, and this program knows up \
         to 2. Open it with the newer program."
    );
}

#[tokio::test]
async fn law_other_tables_are_refused() {
    let bench = Bench::new().await;
    bench.store.close().await;
    let mut aside = aside(&url(&bench.folder)).await;
    sqlx::query("UPDATE _sqlx_migrations SET checksum = x'00'")
        .execute(&mut aside)
        .await
        .unwrap();
    aside.close().await.unwrap();
    let refused = Store::open(&url(&bench.folder)).await.unwrap_err();
    assert!(matches!(refused, Error::Migration(_)), "{refused:?}");
    assert_eq!(
        refused.to_string(),
        "This file has other tables than a store has. Choose another file, or restore the store \
         from a backup."
    );
}

#[tokio::test]
async fn law_what_is_no_database_is_refused_and_stays() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("store.sqlite");
    let letter = "Dear Sir or Madam, ".repeat(100);
    std::fs::write(&file, &letter).unwrap();
    let refused = Store::open(&url(&folder)).await.unwrap_err();
    assert_eq!(
        refused.to_string(),
        "The store cannot be read or written. Check that the file is there, that it may be \
         written, and that the disk has room; then try again."
    );
    assert_eq!(std::fs::read_to_string(&file).unwrap(), letter);
}

#[tokio::test]
async fn law_a_damaged_value_is_named() {
    let cases = [
        ("body", "UPDATE entry SET body = '{' WHERE position = 2"),
        (
            "body",
            "UPDATE entry SET body = replace(body, '\"in\"', '\"ell\"') WHERE position = 2",
        ),
        (
            "body",
            "UPDATE entry SET body = replace(body, '\"view\"', '\"extra\":1,\"view\"') WHERE position = 2",
        ),
        (
            "body",
            "UPDATE entry SET body_version = 0 WHERE position = 2",
        ),
        (
            "body_version",
            "UPDATE entry SET body_version = -1 WHERE position = 2",
        ),
        ("seen", "UPDATE entry SET seen = -1 WHERE position = 2"),
        (
            "happened_at",
            "UPDATE entry SET happened_at = 'noon' WHERE position = 2",
        ),
        (
            "recorded_at",
            "UPDATE entry SET recorded_at = 'noon' WHERE position = 2",
        ),
        ("id", "UPDATE entry SET id = 'A B' WHERE position = 2"),
    ];
    for (wanted, damage) in cases {
        let bench = Bench::new().await;
        let id = job("spring");
        for (n, act) in [opened("Spring"), pump(), leaves()].into_iter().enumerate() {
            let stamp = stamp(&format!("spring-{n}"));
            bench.store.act(&id, act, stamp, later(0)).await.unwrap();
        }
        let mut aside = aside(&url(&bench.folder)).await;
        let done = sqlx::query(damage).execute(&mut aside).await.unwrap();
        assert_eq!(done.rows_affected(), 1, "{damage}");
        let refused = bench.store.entries(&id).await.unwrap_err();
        assert_eq!(
            refused.to_string(),
            format!(
                "Entry 2 of the job “spring” is damaged: “{wanted}” in the table “entry” cannot \
                 be read. Restore the store from a backup."
            ),
            "{damage}"
        );
    }
}

#[tokio::test]
async fn law_a_damaged_title_does_not_hide_the_other_jobs() {
    let bench = Bench::new().await;
    for name in ["one", "two"] {
        let act = opened(&format!("Title {name}"));
        let sent = bench
            .store
            .act(&job(name), act, stamp(name), later(0))
            .await;
        sent.unwrap();
    }
    let mut aside = aside(&url(&bench.folder)).await;
    sqlx::query("UPDATE entry SET body = '{' WHERE job = 'one'")
        .execute(&mut aside)
        .await
        .unwrap();
    let jobs = bench.store.jobs().await.unwrap();
    let titles: Vec<&str> = jobs.iter().map(|job| job.title.as_str()).collect();
    assert_eq!(titles, ["Title two", "one"]);
}

#[tokio::test]
async fn law_a_time_outlives_a_change_of_the_zones_rules() {
    let bench = Bench::new().await;
    let act = opened("Zone");
    let zone = job("zone");
    bench
        .store
        .act(&zone, act, stamp("zone"), later(0))
        .await
        .unwrap();
    let mut aside = aside(&url(&bench.folder)).await;
    // As if summer time had been kept all year when this was written.
    sqlx::query("UPDATE entry SET happened_at = '2026-11-24T14:02:00+02:00[Europe/Berlin]'")
        .execute(&mut aside)
        .await
        .unwrap();
    let entries = bench.store.entries(&zone).await.unwrap();
    let moment = entries[0].new.happened_at.timestamp();
    assert_eq!(moment.to_string(), "2026-11-24T12:02:00Z");
}
