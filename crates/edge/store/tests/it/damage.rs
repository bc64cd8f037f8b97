//! What is opened again, what is damaged, and what another program did to a store.

use ::store::{Error, Store};
use sqlx::{AssertSqlSafe, Connection as _};

use crate::bench::{Bench, every_kind, job, later, leaves, opened, pump, stamp};
use crate::both::both;

both!(
    law_an_entry_that_is_gone_is_noticed,
    law_a_store_that_another_holds_is_told,
    law_what_was_written_is_there_after_closing,
    law_a_new_store_may_be_opened_by_eight_at_once,
    law_a_newer_database_is_refused,
    law_other_tables_are_refused,
    law_a_damaged_value_is_named,
    law_a_damaged_title_does_not_hide_the_other_jobs,
    law_a_time_outlives_a_change_of_the_zones_rules,
);

async fn law_what_was_written_is_there_after_closing(bench: Bench) {
    every_kind(&bench.store, &job("kept")).await;
    let before = bench.store.entries(&job("kept")).await.unwrap();
    let bench = bench.again().await;
    assert_eq!(bench.store.entries(&job("kept")).await.unwrap(), before);
}

/// As new: the tables are gone.
async fn law_a_new_store_may_be_opened_by_eight_at_once(bench: Bench) {
    bench.store.clone().close().await;
    let mut aside = bench.aside().await;
    for drop in [
        "DROP TABLE device",
        "DROP TABLE photo",
        "DROP TABLE entry",
        "DROP TABLE job",
        "DROP TABLE _sqlx_migrations",
    ] {
        sqlx::query(drop).execute(&mut aside).await.unwrap();
    }
    let tasks: Vec<_> = (0..8)
        .map(|_| {
            let url = bench.url.clone();
            tokio::spawn(async move { Store::open(&url).await.map(|_| ()) })
        })
        .collect();
    for task in tasks {
        task.await.unwrap().unwrap();
    }
}

async fn law_a_newer_database_is_refused(bench: Bench) {
    bench.store.clone().close().await;
    let mut aside = bench.aside().await;
    sqlx::query(
        "INSERT INTO _sqlx_migrations (version, description, success, checksum, execution_time) \
         VALUES (7, 'of tomorrow', TRUE, $1, 0)",
    )
    .bind(b"0".as_slice())
    .execute(&mut aside)
    .await
    .unwrap();
    aside.close().await.unwrap();
    let refused = Store::open(&bench.url).await.unwrap_err();
    assert_eq!(
        refused.to_string(),
        "A newer program wrote this store: it has tables of version 7, and this program knows up \
         to 3. Open it with the newer program."
    );
}

async fn law_other_tables_are_refused(bench: Bench) {
    bench.store.clone().close().await;
    let mut aside = bench.aside().await;
    sqlx::query("UPDATE _sqlx_migrations SET checksum = $1")
        .bind(b"0".as_slice())
        .execute(&mut aside)
        .await
        .unwrap();
    aside.close().await.unwrap();
    let refused = Store::open(&bench.url).await.unwrap_err();
    assert!(matches!(refused, Error::Migration(_)), "{refused:?}");
    assert_eq!(
        refused.to_string(),
        "There are other tables here than a store has. Choose another file or database, or restore \
         the store from a backup."
    );
}

async fn law_a_damaged_value_is_named(bench: Bench) {
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
    for (number, (wanted, damage)) in cases.into_iter().enumerate() {
        let id = job(&format!("spring-{number}"));
        for (n, act) in [opened("Spring"), pump(), leaves()].into_iter().enumerate() {
            let stamp = stamp(&format!("{id}-{n}"));
            bench.store.act(&id, act, stamp, later(0)).await.unwrap();
        }
        let mut aside = bench.aside().await;
        let damage = format!("{damage} AND job = '{id}'");
        let done = sqlx::query(AssertSqlSafe(damage.clone()))
            .execute(&mut aside)
            .await
            .unwrap();
        assert_eq!(done.rows_affected(), 1, "{damage}");
        let refused = bench.store.entries(&id).await.unwrap_err();
        assert_eq!(
            refused.to_string(),
            format!(
                "Entry 2 of the job “{id}” is damaged: “{wanted}” in the table “entry” cannot \
                 be read. Restore the store from a backup."
            ),
            "{damage}"
        );
    }
}

async fn law_a_damaged_title_does_not_hide_the_other_jobs(bench: Bench) {
    for name in ["one", "two"] {
        let act = opened(&format!("Title {name}"));
        let sent = bench
            .store
            .act(&job(name), act, stamp(name), later(0))
            .await;
        sent.unwrap();
    }
    let mut aside = bench.aside().await;
    sqlx::query("UPDATE entry SET body = '{' WHERE job = 'one'")
        .execute(&mut aside)
        .await
        .unwrap();
    let jobs = bench.store.jobs().await.unwrap();
    let titles: Vec<&str> = jobs.iter().map(|job| job.title.as_str()).collect();
    assert_eq!(titles, ["Title two", "one"]);
}

async fn law_a_time_outlives_a_change_of_the_zones_rules(bench: Bench) {
    let act = opened("Zone");
    let zone = job("zone");
    bench
        .store
        .act(&zone, act, stamp("zone"), later(0))
        .await
        .unwrap();
    let mut aside = bench.aside().await;
    // As if summer time had been kept all year when this was written.
    sqlx::query("UPDATE entry SET happened_at = '2026-11-24T14:02:00+02:00[Europe/Berlin]'")
        .execute(&mut aside)
        .await
        .unwrap();
    let entries = bench.store.entries(&zone).await.unwrap();
    let moment = entries[0].new.happened_at.timestamp();
    assert_eq!(moment.to_string(), "2026-11-24T12:02:00Z");
}

async fn law_a_store_that_another_holds_is_told(bench: Bench) {
    let id = job("held");
    let sent = || {
        bench
            .store
            .act(&id, opened("Held"), stamp("held"), later(0))
    };
    sent().await.unwrap();
    let mut aside = bench.aside().await;
    for hold in ["BEGIN", "UPDATE job SET id = id"] {
        sqlx::query(hold).execute(&mut aside).await.unwrap();
    }
    let pump = || bench.store.act(&id, pump(), stamp("pump"), later(1));
    let refused = pump().await.unwrap_err();
    assert_eq!(
        refused.to_string(),
        "Another program held the store for longer than 5 seconds. Nothing was changed; try again."
    );
    sqlx::query("ROLLBACK").execute(&mut aside).await.unwrap();
    assert_eq!(pump().await.unwrap().positions, [2]);
}

async fn law_an_entry_that_is_gone_is_noticed(bench: Bench) {
    every_kind(&bench.store, &job("gone")).await;
    bench.store.whole().await.unwrap();
    let mut aside = bench.aside().await;
    sqlx::query("DELETE FROM entry WHERE position = 2")
        .execute(&mut aside)
        .await
        .unwrap();
    let found = bench.store.whole().await.unwrap_err();
    assert!(matches!(found, Error::Broken { .. }), "{found:?}");
    assert!(found.to_string().starts_with("The store is damaged"));
}
