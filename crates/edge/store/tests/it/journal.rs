//! A journal read before is the journal.

use ::store::Store;
use workshop::entry::JobId;

use crate::bench::{Bench, job, later, leaves, opened, pump, stamp, tried};
use crate::both::both;

both!(
    law_what_another_program_appends_is_in_the_journal,
    law_more_jobs_than_are_kept_are_all_read,
    law_a_journal_that_is_another_by_now_is_read_anew,
);

async fn same(store: &Store, id: &JobId) {
    let kept = store.journal(id).await.unwrap();
    assert_eq!(*kept, store.entries(id).await.unwrap());
}

/// Opens the job and describes its pump; `mark` makes the ids another bench's.
async fn begin(store: &Store, id: &JobId, mark: &str) {
    for (name, act) in [
        ("job", opened(mark)),
        ("pump", pump()),
        ("leaves", leaves()),
    ] {
        let stamp = stamp(&format!("{mark}-{name}"));
        store.act(id, act, stamp, later(0)).await.unwrap();
    }
}

async fn law_what_another_program_appends_is_in_the_journal(bench: Bench) {
    let other = Store::open(&bench.url).await.unwrap();
    let id = job("two");
    assert!(bench.store.journal(&id).await.unwrap().is_empty());
    begin(&bench.store, &id, "here").await;
    for n in 0..6 {
        let store = if n % 2 == 0 { &other } else { &bench.store };
        let act = tried(n % 3, n % 4);
        store
            .act(&id, act, stamp(&format!("try-{n}")), later(1))
            .await
            .unwrap();
        same(&bench.store, &id).await;
        same(&other, &id).await;
    }
    assert_eq!(other.journal(&id).await.unwrap().len(), 9);
}

async fn law_more_jobs_than_are_kept_are_all_read(bench: Bench) {
    for n in 0..40 {
        let id = job(&format!("job-{n}"));
        begin(&bench.store, &id, &format!("mark-{n}")).await;
    }
    for n in 0..40 {
        same(&bench.store, &job(&format!("job-{n}"))).await;
    }
}

/// A backup put in the place of a store that is open, as far as a file can be: the rows are changed under it.
async fn law_a_journal_that_is_another_by_now_is_read_anew(bench: Bench) {
    let id = job("swapped");
    begin(&bench.store, &id, "before").await;
    same(&bench.store, &id).await;
    let mut aside = bench.aside().await;
    sqlx::query("DELETE FROM entry")
        .execute(&mut aside)
        .await
        .unwrap();
    assert!(bench.store.journal(&id).await.unwrap().is_empty());
    begin(&bench.store, &id, "after").await;
    same(&bench.store, &id).await;
    let other = "UPDATE entry SET id = 'other-' || id";
    sqlx::query(other).execute(&mut aside).await.unwrap();
    same(&bench.store, &id).await;
}
