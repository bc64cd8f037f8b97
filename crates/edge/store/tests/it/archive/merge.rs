//! Two copies of one job, edited apart, made one again.

use std::collections::BTreeSet;
use std::io::Cursor;

use ::store::Store;
use ::store::archive::{Archive, Told};
use proptest::prelude::*;
use workshop::entry::{Body, EntryId, NewEntry};
use workshop::fold::fold;

use super::{packed, pictures, rows, shoot, take};
use crate::bench::{Bench, job, later, leaves, now, opened, pump, stamp, tried};
use crate::both::both;

both!(
    law_what_came_says_how_far_its_author_had_seen_of_here,
    law_a_copy_that_went_on_alone_is_followed,
    law_three_copies_come_to_say_the_same,
    law_merging_among_writers_leaves_no_gap,
    law_two_at_once_begin_one_job,
);

const JOB: &str = "copies";

fn told(position: u64, kind: &str) -> Told {
    Told {
        position,
        kind: kind.into(),
    }
}

/// A bench with the job opened, its pump and its leaves.
async fn begun(bench: Bench) -> Bench {
    for (n, act) in [opened("Copies"), pump(), leaves()].into_iter().enumerate() {
        let stamp = stamp(&format!("begun-{n}"));
        bench
            .store
            .act(&job(JOB), act, stamp, later(0))
            .await
            .unwrap();
    }
    bench
}

async fn copied(from: &Bench) -> Bench {
    let bench = from.beside().await;
    take(&bench.store, &packed(&from.store, &job(JOB)).await)
        .await
        .unwrap();
    bench
}

async fn try_leaf(bench: &Bench, id: &str, spot: u8) {
    let act = tried(0, spot);
    bench
        .store
        .act(&job(JOB), act, stamp(id), later(spot.into()))
        .await
        .unwrap();
}

async fn seen(bench: &Bench) -> Vec<(String, u64)> {
    let entries = bench.store.entries(&job(JOB)).await.unwrap();
    let seen = entries
        .iter()
        .map(|entry| (entry.new.id.to_string(), entry.new.seen));
    seen.collect()
}

/// Here stand c0 c1 c2 h0 h1, there c0 c1 c2 t0 t1: whoever wrote t1 had seen t0, and nothing of h0.
async fn law_what_came_says_how_far_its_author_had_seen_of_here(bench: Bench) {
    let here = begun(bench).await;
    let there = copied(&here).await;
    try_leaf(&here, "h0", 0).await;
    try_leaf(&here, "h1", 1).await;
    try_leaf(&there, "t0", 2).await;
    let photo = shoot(&there.store, &job(JOB), "apart").await;
    try_leaf(&there, "t1", 3).await;

    let merged = take(&here.store, &packed(&there.store, &job(JOB)).await)
        .await
        .unwrap();
    assert!(!merged.begun);
    assert_eq!(merged.already, 3);
    assert_eq!(merged.photos, 1);
    assert_eq!(
        merged.new,
        [
            told(6, "leaves-tried"),
            told(7, "photo-taken"),
            told(8, "leaves-tried")
        ]
    );
    assert_eq!(
        merged.apart,
        [told(4, "leaves-tried"), told(5, "leaves-tried")]
    );
    let expected = [
        ("begun-0", 0),
        ("begun-1", 1),
        ("begun-2", 2),
        ("h0", 3),
        ("h1", 4),
        ("t0", 3),
        ("shot-apart", 3),
        ("t1", 3),
    ];
    let expected = expected.map(|(id, seen)| (id.to_owned(), seen));
    assert_eq!(seen(&here).await, expected);
    assert!(here.store.photos().await.unwrap().contains(&photo));
    // Each keeps when it was first taken, when it happened and who did it.
    let (ours, theirs) = (rows(&here, &job(JOB)).await, rows(&there, &job(JOB)).await);
    assert_eq!(ours[5][3..], theirs[3][3..]);
}

/// A copy that only went on is followed as if everything had been written here.
async fn law_a_copy_that_went_on_alone_is_followed(bench: Bench) {
    let here = begun(bench).await;
    let there = copied(&here).await;
    for n in 0..4 {
        try_leaf(&there, &format!("t{n}"), n).await;
    }
    let bytes = packed(&there.store, &job(JOB)).await;
    let merged = take(&here.store, &bytes).await.unwrap();
    assert_eq!((merged.new.len(), merged.apart), (4, vec![]));
    assert_eq!(rows(&here, &job(JOB)).await, rows(&there, &job(JOB)).await);
    // And a copy that stayed behind brings nothing.
    try_leaf(&here, "h0", 0).await;
    let merged = take(&here.store, &bytes).await.unwrap();
    assert_eq!(
        (merged.new, merged.apart, merged.already),
        (vec![], vec![], 7)
    );
}

/// What a generated person does at one of the copies.
#[derive(Clone, Debug)]
enum Deed {
    Try(u8),
    TakeBack(u8),
    Newer,
    Photo(u8),
    /// Takes in what the other copy has now.
    Sync,
}

fn deed() -> impl Strategy<Value = Deed> {
    prop_oneof![
        4 => (0_u8..4).prop_map(Deed::Try),
        2 => any::<u8>().prop_map(Deed::TakeBack),
        1 => Just(Deed::Newer),
        1 => (0_u8..3).prop_map(Deed::Photo),
        1 => Just(Deed::Sync),
    ]
}

/// Appended and not decided: the journal takes what two hands write, and fold must bear all of it.
async fn does(bench: &Bench, id: String, deed: &Deed, other: &Bench) {
    let entries = bench.store.entries(&job(JOB)).await.unwrap();
    let body = match deed {
        Deed::Try(spot) => match tried(0, *spot) {
            workshop::act::Act::Record(body) => body,
            _ => unreachable!(),
        },
        Deed::TakeBack(which) => Body::Withdrawn {
            entry: entries[usize::from(*which) % entries.len()].new.id.clone(),
        },
        Deed::Newer => Body::Unknown {
            kind: "future-kind".into(),
            version: 1,
            json: "{\"x\": 1}".into(),
        },
        Deed::Photo(which) => {
            // The same picture may be taken in at both.
            let words = format!("p{which}");
            let photo = super::jpeg(&words);
            let photo = bench
                .store
                .keep_photo(&photo, &super::jpeg("s"))
                .await
                .unwrap();
            Body::Photographed(workshop::photos::Photography::PutAway { photo })
        }
        Deed::Sync => {
            take(&bench.store, &packed(&other.store, &job(JOB)).await)
                .await
                .unwrap();
            return;
        }
    };
    let entry = NewEntry {
        id: EntryId::new(&id).unwrap(),
        seen: entries.len() as u64,
        happened_at: now(),
        device: id.clone(),
        who: String::new(),
        program: "a test".into(),
        body,
    };
    let at = later(i64::try_from(entries.len()).unwrap());
    bench.store.append(&job(JOB), &[entry], at).await.unwrap();
}

/// Everything of an entry but its place and what was seen before it.
async fn said(bench: &Bench) -> BTreeSet<Vec<String>> {
    let rows = rows(bench, &job(JOB)).await;
    let places: Vec<String> = (1..=rows.len()).map(|n| n.to_string()).collect();
    let found: Vec<String> = rows.iter().map(|row| row[0].clone()).collect();
    assert_eq!(found, places, "no gap");
    for row in &rows {
        assert!(
            row[2].parse::<usize>().unwrap() < row[0].parse().unwrap(),
            "{row:?}"
        );
    }
    let said = rows.iter().map(|row| [&row[1..2], &row[3..]].concat());
    said.collect()
}

async fn merges(bench: Bench, deeds: Vec<(bool, Deed)>) -> Result<(), TestCaseError> {
    let a = begun(bench).await;
    let b = copied(&a).await;
    for (n, (at_a, deed)) in deeds.iter().enumerate() {
        let (here, there) = if *at_a { (&a, &b) } else { (&b, &a) };
        does(here, format!("e{n}"), deed, there).await;
    }
    let (from_a, from_b) = (
        packed(&a.store, &job(JOB)).await,
        packed(&b.store, &job(JOB)).await,
    );
    let before = rows(&a, &job(JOB)).await;
    let both: BTreeSet<_> = said(&a).await.union(&said(&b).await).cloned().collect();

    let merged = take(&a.store, &from_b).await.unwrap();
    take(&b.store, &from_a).await.unwrap();
    let here = rows(&a, &job(JOB)).await;
    prop_assert_eq!(
        &here[..before.len()],
        &before[..],
        "what was here stays as it was"
    );
    prop_assert_eq!(merged.new.len(), here.len() - before.len());
    prop_assert_eq!(said(&a).await, both.clone());
    prop_assert_eq!(said(&b).await, both);
    prop_assert_eq!(pictures(&a.store).await, pictures(&b.store).await);

    for (bench, bytes) in [(&a, &from_b), (&a, &from_a), (&b, &from_a), (&b, &from_b)] {
        let before = rows(bench, &job(JOB)).await;
        let again = take(&bench.store, bytes).await.unwrap();
        prop_assert_eq!((again.new.len(), again.photos), (0, 0));
        prop_assert_eq!(rows(bench, &job(JOB)).await, before);
    }
    for bench in [&a, &b] {
        let entries = bench.store.entries(&job(JOB)).await.unwrap();
        let _ = fold(&entries);
        // What is merged is a journal like any other: it can be archived and taken in as it is.
        let copy = copied(bench).await;
        prop_assert_eq!(rows(&copy, &job(JOB)).await, rows(bench, &job(JOB)).await);
    }
    Ok(())
}

fn at_two(
    bench: impl Future<Output = Bench>,
    deeds: Vec<(bool, Deed)>,
) -> Result<(), TestCaseError> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build();
    let both = async { merges(bench.await, deeds).await };
    runtime.unwrap().block_on(both)
}

fn deeds() -> impl Strategy<Value = Vec<(bool, Deed)>> {
    prop::collection::vec((any::<bool>(), deed()), 0..14)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn law_merged_both_ways_both_copies_say_the_same(deeds in deeds()) {
        at_two(Bench::new(), deeds)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(6))]

    #[test]
    #[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
    fn law_merged_both_ways_both_copies_on_a_server_say_the_same(deeds in deeds()) {
        at_two(Bench::on_a_server(), deeds)?;
    }
}

/// Three tablets that each hand their archive on once more than needed.
async fn law_three_copies_come_to_say_the_same(bench: Bench) {
    let a = begun(bench).await;
    let (b, c) = (copied(&a).await, copied(&a).await);
    for (n, bench) in [&a, &b, &c].into_iter().enumerate() {
        for spot in 0..3 {
            try_leaf(bench, &format!("x{n}-{spot}"), spot).await;
        }
    }
    for (from, to) in [(&a, &b), (&b, &c), (&c, &a), (&a, &b)] {
        take(&to.store, &packed(&from.store, &job(JOB)).await)
            .await
            .unwrap();
    }
    let said_a = said(&a).await;
    assert_eq!(said_a.len(), 12);
    assert_eq!(said(&b).await, said_a);
    assert_eq!(said(&c).await, said_a);
}

/// While hands go on writing, the same archive comes in twice: once each, without a gap.
async fn law_merging_among_writers_leaves_no_gap(bench: Bench) {
    let here = begun(bench).await;
    let there = copied(&here).await;
    for n in 0..40 {
        try_leaf(&there, &format!("t{n}"), n % 4).await;
    }
    let bytes = packed(&there.store, &job(JOB)).await;
    let mut tasks = Vec::new();
    for task in 0..3 {
        let store = here.store.clone();
        tasks.push(tokio::spawn(async move {
            for n in 0..20 {
                let act = tried(1, 1);
                let stamp = stamp(&format!("h{task}-{n}"));
                store.act(&job(JOB), act, stamp, later(n)).await.unwrap();
            }
            0
        }));
    }
    for _ in 0..2 {
        let (store, bytes): (Store, _) = (here.store.clone(), bytes.clone());
        tasks.push(tokio::spawn(async move {
            let mut archive = Archive::open(Cursor::new(bytes)).unwrap();
            store.take_in(&mut archive).await.unwrap().new.len()
        }));
    }
    let mut came = 0;
    for task in tasks {
        came += task.await.unwrap();
    }
    assert_eq!(came, 40, "each came in once");
    assert_eq!(said(&here).await.len(), 3 + 60 + 40);
}

/// The same archive from two at once where the job is not yet: one journal, as it was.
async fn law_two_at_once_begin_one_job(bench: Bench) {
    let there = begun(bench).await;
    let bytes = packed(&there.store, &job(JOB)).await;
    let here = there.beside().await;
    let take = || {
        let (store, bytes) = (here.store.clone(), bytes.clone());
        tokio::spawn(async move { take(&store, &bytes).await.unwrap() })
    };
    let (one, two) = (take(), take());
    let (one, two) = (one.await.unwrap(), two.await.unwrap());
    assert!(one.begun != two.begun);
    assert_eq!(one.new.len() + two.new.len(), 3);
    assert_eq!(rows(&here, &job(JOB)).await, rows(&there, &job(JOB)).await);
}
