//! What the author of an act was looking at.

use ::store::{Error, Store};
use workshop::act::{Act, Stamp};
use workshop::entry::{Body, EntryId, JobId};
use workshop::fold::fold;

use crate::bench::{Bench, job, later, leaves, opened, pump, stamp, tried};
use crate::both::both;
use crate::store::one;

both!(
    law_an_act_keeps_what_its_author_saw,
    law_an_act_of_an_older_view_comes_again,
    law_an_undo_means_what_its_author_saw,
    law_positions_are_told_of_many_jobs,
);

/// The stamp of a device that looked at a position.
fn looking(id: &str, device: &str, seen: u64) -> Stamp {
    Stamp {
        device: device.into(),
        seen: Some(seen),
        ..stamp(id)
    }
}

/// A job of four entries, by a device of its own.
async fn begun(store: &Store, name: &str) -> JobId {
    let id = job(name);
    for (n, act) in [opened(name), pump(), leaves(), tried(0, 0)]
        .into_iter()
        .enumerate()
    {
        let stamp = stamp(&format!("{name}-{n}"));
        store.act(&id, act, stamp, later(0)).await.unwrap();
    }
    id
}

async fn law_an_act_keeps_what_its_author_saw(bench: Bench) {
    let store = &bench.store;
    let id = begun(store, "view").await;
    let taken = store.act(&id, tried(1, 1), looking("view-a", "tablet", 2), later(1));
    assert_eq!(taken.await.unwrap(), one(5, false));
    let taken = store.act(&id, tried(1, 2), looking("view-b", "tablet", 5), later(1));
    assert_eq!(taken.await.unwrap(), one(6, false));
    let refused = store.act(&id, tried(1, 3), looking("view-c", "tablet", 7), later(1));
    assert_eq!(
        refused.await.unwrap_err().to_string(),
        "This was sent from a page that shows entry 7; the job has 6. Load the page again and repeat \
         the act."
    );
    let seen: Vec<u64> = store.entries(&id).await.unwrap()[3..]
        .iter()
        .map(|entry| entry.new.seen)
        .collect();
    assert_eq!(seen, [3, 2, 5]);
}

/// Two devices act in turn, each on what it saw long before; every act is known when it comes again.
async fn law_an_act_of_an_older_view_comes_again(bench: Bench) {
    let store = &bench.store;
    let id = begun(store, "older").await;
    let acts: Vec<(Act, Stamp)> = (0..12_u8)
        .map(|n| {
            let device = if n % 2 == 0 { "tablet" } else { "phone" };
            let seen = 4 + u64::from(n / 3);
            let act = match n {
                4 | 9 => Act::Undo,
                6 => Act::Redo,
                n => tried(n % 3, n % 4),
            };
            (act, looking(&format!("older-{n}x"), device, seen))
        })
        .collect();
    let mut positions = Vec::new();
    for (act, stamp) in &acts {
        let taken = store.act(&id, act.clone(), stamp.clone(), later(1)).await;
        let taken = taken.unwrap_or_else(|why| panic!("{}: {why}", stamp.id));
        assert!(!taken.again);
        positions.push(taken.positions[0]);
    }
    for ((act, stamp), position) in acts.iter().zip(&positions).rev() {
        let again = store.act(&id, act.clone(), stamp.clone(), later(9)).await;
        assert_eq!(again.unwrap(), one(*position, true), "{}", stamp.id);
    }
    // The same id for another act is none of them.
    let other = store.act(&id, tried(2, 3), looking("older-4x", "tablet", 5), later(9));
    assert!(matches!(other.await, Err(Error::IdTaken { .. })));
    assert_eq!(store.entries(&id).await.unwrap().len(), 16);
}

async fn law_an_undo_means_what_its_author_saw(bench: Bench) {
    let store = &bench.store;
    let id = begun(store, "spared").await;
    let own = store.act(&id, tried(1, 0), looking("spared-a", "tablet", 4), later(1));
    own.await.unwrap();
    let other = store.act(&id, tried(1, 1), looking("spared-b", "phone", 4), later(1));
    other.await.unwrap();
    // Pressed on the page of position 4, after an act that page does not show yet.
    let undo = store.act(&id, Act::Undo, looking("spared-c", "tablet", 4), later(2));
    assert_eq!(undo.await.unwrap(), one(7, false));
    let entries = store.entries(&id).await.unwrap();
    let withdrawn = Body::Withdrawn {
        entry: EntryId::new("spared-a").unwrap(),
    };
    assert_eq!(entries[6].new.body, withdrawn);
    // A third device still sees it, and wants the same.
    let late = store.act(&id, Act::Undo, looking("spared-d", "laptop", 5), later(3));
    assert_eq!(
        late.await.unwrap_err().to_string(),
        "Another device did this already. Nothing was changed; look at the job as it is now."
    );
    // Whoever sees all of it undoes the last act that counts.
    let undo = store.act(&id, Act::Undo, looking("spared-e", "laptop", 7), later(4));
    undo.await.unwrap();
    let folded = fold(&store.entries(&id).await.unwrap()).0;
    assert_eq!(folded.tries.len(), 1);
}

async fn law_positions_are_told_of_many_jobs(bench: Bench) {
    let store = &bench.store;
    let (one, two) = (begun(store, "many-1").await, begun(store, "many-2").await);
    let mut grown = store.grown();
    let taken = store.act(&two, tried(0, 1), stamp("many-2x"), later(1));
    taken.await.unwrap();
    assert!(grown.has_changed().unwrap());
    grown.mark_unchanged();
    let asked = [two.clone(), job("nowhere"), one.clone()];
    let mut found = store.positions(&asked).await.unwrap();
    found.sort();
    assert_eq!(found, [(one, 4), (two, 5)]);
    assert!(!grown.has_changed().unwrap(), "looking changes nothing");
    assert_eq!(store.positions(&[]).await.unwrap(), []);
}
