//! The whole store as one file, taken while others write. All data are invented.

use ::store::{Error, Store, Whole};
use workshop::act::Act;
use workshop::entry::Body;

use crate::bench::{Bench, every_kind, job, later, opened, stamp};
use crate::both::both;
use crate::upkeep;

both!(
    law_a_backup_holds_every_kind,
    law_a_backup_while_others_write_is_of_one_moment,
);

async fn law_a_backup_holds_every_kind(bench: Bench) {
    every_kind(&bench.store, &job("kept")).await;
    bench
        .store
        .keep_photo(b"a picture", b"small")
        .await
        .unwrap();
    let file = bench.folder.path().join("backup");
    bench.store.backup(&file).await.unwrap();
    let back = Store::open(&format!("sqlite:{}", file.display()))
        .await
        .unwrap();
    let there = bench.store.entries(&job("kept")).await.unwrap();
    assert_eq!(back.entries(&job("kept")).await.unwrap(), there);
    let whole = Whole {
        jobs: 1,
        entries: there.len(),
        photos: 1,
    };
    assert_eq!(back.whole().await.unwrap(), whole);
    assert_eq!(bench.store.whole().await.unwrap(), whole);
    let again = bench.store.backup(&file).await.unwrap_err();
    assert!(matches!(again, Error::FileThere { .. }), "{again}");
}

/// Each backup is the journal as it was at one moment: its entries are the first of those written, without a gap.
async fn law_a_backup_while_others_write_is_of_one_moment(bench: Bench) {
    let id = job("busy");
    bench
        .store
        .act(&id, opened("Busy"), stamp("open"), later(0))
        .await
        .unwrap();
    let (store, name) = (bench.store.clone(), id.clone());
    let writer = tokio::spawn(async move {
        for n in 0..120 {
            let said = upkeep::every_kind().swap_remove(7);
            let act = Act::Record(Body::Serviced(said));
            store
                .act(&name, act, stamp(&format!("m-{n}")), later(n))
                .await
                .unwrap();
        }
    });
    let mut taken = Vec::new();
    for n in 0..6 {
        let file = bench.folder.path().join(format!("backup-{n}"));
        bench.store.backup(&file).await.unwrap();
        taken.push(file);
    }
    writer.await.unwrap();
    let all = bench.store.entries(&id).await.unwrap();
    assert_eq!(all.len(), 121);
    let mut last = 0;
    for file in taken {
        let back = Store::open(&format!("sqlite:{}", file.display()))
            .await
            .unwrap();
        let entries = back.entries(&id).await.unwrap();
        assert_eq!(entries, all[..entries.len()]);
        assert!(entries.len() >= last);
        last = entries.len();
        assert_eq!(back.whole().await.unwrap().entries, last);
    }
}
