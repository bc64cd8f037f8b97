//! From a file to a server and back, row by row.

use ::store::{Error, Store};
use sqlx::{AnyConnection, Connection as _, Row as _};
use tempfile::TempDir;

use crate::bench::{Bench, every_kind, job, later, opened, stamp};
use crate::both::both;

both!(
    law_a_store_is_filled_once,
    law_a_store_of_schema_1_moves_here_whole,
    law_a_store_of_schema_2_moves_here_whole,
);

/// Each row as one text, sorted; bytes as hexadecimal digits.
async fn rows(url: &str) -> Vec<String> {
    sqlx::any::install_default_drivers();
    let mut aside = AnyConnection::connect(url).await.unwrap();
    let hex = if url.starts_with("sqlite") {
        "SELECT hash, thumb_hash, lower(hex(thumb)), lower(hex(picture)) FROM photo"
    } else {
        "SELECT hash, thumb_hash, encode(thumb, 'hex'), encode(picture, 'hex') FROM photo"
    };
    let mut all = Vec::new();
    for select in [
        "SELECT id FROM job",
        "SELECT id, job, CAST(position AS TEXT), CAST(seen AS TEXT), recorded_at, happened_at, device, \
         who, program, kind, CAST(body_version AS TEXT), body FROM entry",
        hex,
    ] {
        for row in sqlx::query(select).fetch_all(&mut aside).await.unwrap() {
            let values: Vec<String> = (0..row.len()).map(|n| row.get(n)).collect();
            all.push(values.join("\u{1f}"));
        }
    }
    all.sort();
    all
}

fn in_folder(folder: &TempDir, name: &str) -> String {
    format!("sqlite:{}", folder.path().join(name).display())
}

async fn fill(url: &str, from: &str) -> Result<(), Error> {
    let (to, from) = (Store::open(url).await?, Store::open(from).await?);
    let filled = to.fill_from(&from).await;
    to.close().await;
    from.close().await;
    filled
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
async fn law_there_and_back_is_the_same_byte_for_byte() {
    let (bench, server) = (Bench::new().await, Bench::on_a_server().await);
    every_kind(&bench.store, &job("kept")).await;
    let picture: Vec<u8> = (0..=255).cycle().take(200_000).collect();
    bench.store.keep_photo(&picture, b"\0small").await.unwrap();
    let odd = crate::store::note("odd", "a\0b µ “ü” \u{10ffff} '\\ $1");
    bench
        .store
        .append(&job("odd"), &[odd], later(1))
        .await
        .unwrap();
    let first = rows(&bench.url).await;
    assert!(first.len() > 50);

    // As the program does it: a backup, a server filled from it, its backup, a file filled from that.
    let folder = &bench.folder;
    let file = |name: &str| folder.path().join(name);
    bench.store.backup(&file("one")).await.unwrap();
    fill(&server.url, &in_folder(folder, "one")).await.unwrap();
    assert_eq!(rows(&server.url).await, first);
    server.store.backup(&file("two")).await.unwrap();
    fill(&in_folder(folder, "back"), &in_folder(folder, "two"))
        .await
        .unwrap();
    assert_eq!(rows(&in_folder(folder, "two")).await, first);
    assert_eq!(rows(&in_folder(folder, "back")).await, first);
    let whole = bench.store.whole().await.unwrap();
    assert_eq!(server.store.whole().await.unwrap(), whole);
    // And what came back is written on.
    let back = Store::open(&in_folder(folder, "back")).await.unwrap();
    let act = opened("New");
    let sent = back.act(&job("new"), act, stamp("new"), later(2)).await;
    assert_eq!(sent.unwrap().positions, [1]);
}

async fn law_a_store_is_filled_once(bench: Bench) {
    let other = Bench::new().await;
    every_kind(&other.store, &job("kept")).await;
    bench.store.fill_from(&other.store).await.unwrap();
    let there = rows(&bench.url).await;
    let again = bench.store.fill_from(&other.store).await.unwrap_err();
    assert_eq!(
        again.to_string(),
        "This store holds something already, and only an empty one is filled. Name another, or have an \
         empty database made."
    );
    assert_eq!(rows(&bench.url).await, there);
}

async fn law_a_store_of_schema_1_moves_here_whole(bench: Bench) {
    moves(&bench, "schema_0001.sqlite").await;
}

async fn law_a_store_of_schema_2_moves_here_whole(bench: Bench) {
    moves(&bench, "schema_0002.sqlite").await;
}

async fn moves(bench: &Bench, name: &str) {
    let fixtures = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures");
    std::fs::copy(fixtures.join(name), bench.folder.path().join(name)).unwrap();
    let from = in_folder(&bench.folder, name);
    let from = Store::open(&from).await.unwrap();
    bench.store.fill_from(&from).await.unwrap();
    let jobs = from.jobs().await.unwrap();
    assert_eq!(bench.store.jobs().await.unwrap(), jobs);
    for line in jobs {
        let entries = from.entries(&line.id).await.unwrap();
        assert_eq!(bench.store.entries(&line.id).await.unwrap(), entries);
    }
    let whole = from.whole().await.unwrap();
    assert_eq!(bench.store.whole().await.unwrap(), whole);
}
