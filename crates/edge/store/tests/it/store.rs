//! What any store must do, whichever database is under it.

use std::collections::BTreeSet;

use ::store::{Error, Store, Taken};
use workshop::act::Act;
use workshop::entry::{Body, Entry, EntryId, NewEntry};
use workshop::fold::fold;
use workshop::refusal::{Need, Refusal};

use crate::bench::{Bench, every_kind, job, later, leaves, now, opened, pump, stamp, tried};
use crate::both::both;

both!(law_the_store_behaves);

async fn law_the_store_behaves(bench: Bench) {
    suite(&bench.store).await;
}

/// Not to be had: in a file one write waits for another, and on a server one append of a job does. Two
/// that wait for each other would have to do so twenty times in turn.
#[test]
fn law_a_crowd_is_told_to_try_again() {
    assert_eq!(
        Error::Crowded { attempts: 20 }.to_string(),
        "Others wrote in this job at each of 20 attempts. Nothing was changed; try again."
    );
}

/// Every behaviour, one after another in one store, each in jobs of its own.
pub(crate) async fn suite(store: &Store) {
    nothing_is_there_at_first(store).await;
    what_was_written_is_read(store).await;
    a_refused_act_changes_nothing(store).await;
    an_act_sent_again_is_answered_as_before(store).await;
    an_act_sent_again_is_decided_on_what_was_seen_then(store).await;
    an_id_that_says_something_else_is_refused(store).await;
    several_entries_are_taken_together(store).await;
    what_cannot_be_read_back_is_not_written(store).await;
    a_newer_kind_is_kept_and_makes_the_job_read_only(store).await;
    eight_at_once_leave_no_gap(store).await;
    the_same_act_from_eight_at_once_lands_once(store).await;
    the_same_undo_twice_among_others_is_answered_twice(store).await;
    jobs_are_listed_newest_first(store).await;
}

pub(crate) fn one(position: u64, again: bool) -> Taken {
    Taken {
        positions: vec![position],
        again,
    }
}

fn positions(entries: &[Entry]) -> Vec<u64> {
    entries.iter().map(|entry| entry.position).collect()
}

fn new(id: &str, body: Body) -> NewEntry {
    NewEntry {
        id: EntryId::new(id).unwrap(),
        seen: 0,
        happened_at: now(),
        device: String::new(),
        who: String::new(),
        program: "a test".into(),
        body,
    }
}

pub(crate) fn note(id: &str, text: &str) -> NewEntry {
    let (title, note) = ("Title".into(), text.into());
    let follows = None;
    new(
        id,
        Body::JobOpened {
            title,
            note,
            follows,
        },
    )
}

async fn nothing_is_there_at_first(store: &Store) {
    assert_eq!(store.jobs().await.unwrap(), []);
    assert_eq!(store.entries(&job("nowhere")).await.unwrap(), []);
}

async fn what_was_written_is_read(store: &Store) {
    let id = job("every-kind");
    every_kind(store, &id).await;
    let entries = store.entries(&id).await.unwrap();
    let all = u64::try_from(entries.len()).unwrap();
    assert_eq!(positions(&entries), (1..=all).collect::<Vec<u64>>());
    let Act::Record(body) = leaves() else {
        unreachable!()
    };
    assert_eq!(entries[2].new.body, body);
    assert_eq!(entries[2].new.seen, 2);
    assert_eq!(
        entries[2].new.happened_at.to_string(),
        "2026-11-24T14:02:00.25+01:00[Europe/Berlin]"
    );
    assert_eq!(entries[2].new.device, "tablet at the bench");
    assert_eq!(entries[2].new.who, "A. Example");
    assert_eq!(entries[2].new.program, workshop::PROGRAM);
    assert_eq!(entries[2].recorded_at, later(2));
    let (folded, objections) = fold(&entries);
    assert_eq!(objections, []);
    assert!(folded.accepted.is_some());
    assert_eq!(folded.tries.len(), 12);
    assert_eq!(folded.walk, None, "it was undone");
}

async fn a_refused_act_changes_nothing(store: &Store) {
    let id = job("refused");
    let refused = store.act(&id, pump(), stamp("refused-0"), later(0)).await;
    assert!(matches!(
        refused,
        Err(Error::Refused(Refusal::Missing(Need::Job)))
    ));
    assert_eq!(store.entries(&id).await.unwrap(), []);
    assert!(store.jobs().await.unwrap().iter().all(|job| job.id != id));
}

async fn an_act_sent_again_is_answered_as_before(store: &Store) {
    let id = job("again");
    for (n, act) in [opened("Again"), pump(), leaves(), tried(0, 0), Act::Undo]
        .into_iter()
        .enumerate()
    {
        let position = u64::try_from(n).unwrap() + 1;
        let at = later(i64::try_from(n).unwrap());
        let sent = || store.act(&id, act.clone(), stamp(&format!("again-{n}")), at);
        assert_eq!(sent().await.unwrap(), one(position, false));
        assert_eq!(sent().await.unwrap(), one(position, true));
    }
    // The opening and the undo once more, when much has happened since.
    let again = store.act(&id, opened("Again"), stamp("again-0"), later(60));
    assert_eq!(again.await.unwrap(), one(1, true));
    assert_eq!(store.entries(&id).await.unwrap().len(), 5);
    assert_eq!(
        store.entries(&id).await.unwrap()[0].recorded_at,
        later(0),
        "the earlier time stays"
    );
}

/// Another device wrote between the decision and the append; both acts were right when made.
async fn an_act_sent_again_is_decided_on_what_was_seen_then(store: &Store) {
    let id = job("seen");
    for (n, act) in [opened("Seen"), pump(), leaves(), tried(0, 0)]
        .into_iter()
        .enumerate()
    {
        let stamp = stamp(&format!("seen-{n}"));
        store.act(&id, act, stamp, later(0)).await.unwrap();
    }
    let entries = store.entries(&id).await.unwrap();
    let undo = workshop::decide::decide(&fold(&entries).0, Act::Undo, stamp("seen-undo")).unwrap();
    let other = tried(1, 1);
    store
        .act(&id, other, stamp("seen-other"), later(1))
        .await
        .unwrap();
    let taken = store.append(&id, &undo, later(2)).await.unwrap();
    assert_eq!(taken, one(6, false));
    let again = store.act(&id, Act::Undo, stamp("seen-undo"), later(3));
    assert_eq!(again.await.unwrap(), one(6, true));
    let folded = fold(&store.entries(&id).await.unwrap()).0;
    assert_eq!(folded.tries.len(), 1, "the other device's try stays");
}

async fn an_id_that_says_something_else_is_refused(store: &Store) {
    let (here, there) = (job("taken-here"), job("taken-there"));
    let act = |title: &str| opened(title);
    store
        .act(&here, act("One"), stamp("taken"), later(0))
        .await
        .unwrap();
    let before = store.entries(&here).await.unwrap();
    let other = store.act(&here, act("Two"), stamp("taken"), later(1)).await;
    assert_eq!(
        other.unwrap_err().to_string(),
        "“taken” is on record already and says something else. Nothing was changed; load the page \
         again and repeat the act."
    );
    let elsewhere = store
        .act(&there, act("One"), stamp("taken"), later(1))
        .await;
    assert!(matches!(elsewhere, Err(Error::IdTaken { .. })));
    assert_eq!(store.entries(&here).await.unwrap(), before);
    assert_eq!(store.entries(&there).await.unwrap(), []);
}

async fn several_entries_are_taken_together(store: &Store) {
    let id = job("together");
    let three = [
        note("together-1", "a"),
        note("together-2", "b"),
        note("together-3", "c"),
    ];
    let taken = store.append(&id, &three[..2], later(0)).await.unwrap();
    assert_eq!((taken.positions, taken.again), (vec![1, 2], false));
    let more = store.append(&id, &three, later(1)).await.unwrap();
    assert_eq!((more.positions, more.again), (vec![1, 2, 3], false));
    let again = store.append(&id, &three, later(2)).await.unwrap();
    assert_eq!((again.positions, again.again), (vec![1, 2, 3], true));
    // The second of these is refused, so the first is not taken either.
    let mixed = [note("together-4", "d"), note("together-1", "other")];
    let refused = store.append(&id, &mixed, later(3)).await;
    assert!(matches!(refused, Err(Error::IdTaken { id }) if id.as_str() == "together-1"));
    assert_eq!(store.entries(&id).await.unwrap().len(), 3);
}

async fn what_cannot_be_read_back_is_not_written(store: &Store) {
    let id = job("unwritable");
    let Act::Record(Body::PumpDescribed(mut pump)) = pump() else {
        unreachable!()
    };
    for value in [f64::NAN, f64::INFINITY] {
        pump.bore.value = value;
        let entry = new("unwritable-1", Body::PumpDescribed(pump.clone()));
        let refused = store.append(&id, &[entry], later(0)).await.unwrap_err();
        assert_eq!(
            refused.to_string(),
            "“unwritable-1” was not recorded, because it could not be read back. Check its \
             numbers and its time, and that no name holds a zero character."
        );
    }
    // An unknown kind under a known name would be read as that kind.
    let disguised = Body::Unknown {
        kind: "withdrawn".into(),
        version: 1,
        json: "{\"entry\":\"a\"}".into(),
    };
    let refused = store
        .append(&id, &[new("unwritable-2", disguised)], later(0))
        .await;
    assert!(matches!(refused, Err(Error::Unwritable { .. })));
    // A server has no such text; where it is JSON, it is written as an escape and comes back.
    let mut zero = note("unwritable-3", "x");
    zero.who = "A\0B".into();
    let refused = store.append(&id, &[zero], later(0)).await;
    assert!(matches!(refused, Err(Error::Unwritable { .. })));
    let zero = note("zero", "a\0b");
    let there = job("zero");
    store
        .append(&there, std::slice::from_ref(&zero), later(0))
        .await
        .unwrap();
    assert_eq!(store.entries(&there).await.unwrap()[0].new, zero);
    assert_eq!(store.entries(&id).await.unwrap(), []);
}

async fn a_newer_kind_is_kept_and_makes_the_job_read_only(store: &Store) {
    let id = job("newer");
    store
        .act(&id, opened("Newer"), stamp("newer-0"), later(0))
        .await
        .unwrap();
    let json = "{ \"b\": 1.0e0,\n\"a\": \"µ\" }";
    let body = Body::Unknown {
        kind: "future-kind".into(),
        version: 3,
        json: json.into(),
    };
    let entry = new("newer-1", body);
    store
        .append(&id, std::slice::from_ref(&entry), later(1))
        .await
        .unwrap();
    assert_eq!(store.entries(&id).await.unwrap()[1].new, entry);
    let refused = store.act(&id, pump(), stamp("newer-2"), later(2)).await;
    assert_eq!(
        refused.unwrap_err().to_string(),
        "A newer program wrote “future-kind” (version 3) in this job. It can be read here but not \
         changed; open it with the newer program."
    );
    // What was answered before is answered still.
    let again = store.act(&id, opened("Newer"), stamp("newer-0"), later(3));
    assert_eq!(again.await.unwrap(), one(1, true));
}

async fn eight_at_once_leave_no_gap(store: &Store) {
    let id = job("eight");
    let tasks: Vec<_> = (0..8)
        .map(|task| {
            let (store, id) = (store.clone(), id.clone());
            tokio::spawn(async move {
                for n in 0..50 {
                    let entry = note(&format!("eight-{task}-{n}"), "x");
                    let taken = store.append(&id, &[entry], later(n)).await.unwrap();
                    assert!(!taken.again);
                }
            })
        })
        .collect();
    for task in tasks {
        task.await.unwrap();
    }
    let entries = store.entries(&id).await.unwrap();
    assert_eq!(positions(&entries), (1..=400).collect::<Vec<u64>>());
    let ids: BTreeSet<&EntryId> = entries.iter().map(|entry| &entry.new.id).collect();
    assert_eq!(ids.len(), 400);
}

async fn the_same_act_from_eight_at_once_lands_once(store: &Store) {
    let id = job("same");
    let tasks: Vec<_> = (0..8)
        .map(|_| {
            let (store, id) = (store.clone(), id.clone());
            tokio::spawn(async move {
                let sent = store.act(&id, opened("Same"), stamp("same-0"), later(0));
                sent.await.unwrap()
            })
        })
        .collect();
    let mut first = 0;
    for task in tasks {
        let taken = task.await.unwrap();
        assert_eq!(taken.positions, [1]);
        first += usize::from(!taken.again);
    }
    assert_eq!(first, 1);
    assert_eq!(store.entries(&id).await.unwrap().len(), 1);
}

/// What "Undo" means changes with every act of another device; sent twice, it is still one act.
async fn the_same_undo_twice_among_others_is_answered_twice(store: &Store) {
    let id = job("twice");
    for (n, act) in [opened("Twice"), pump(), leaves(), tried(0, 0)]
        .into_iter()
        .enumerate()
    {
        let stamp = stamp(&format!("twice-{n}"));
        store.act(&id, act, stamp, later(0)).await.unwrap();
    }
    for round in 0..20 {
        let send = |act: Act, name: String| {
            let (store, id) = (store.clone(), id.clone());
            tokio::spawn(async move { store.act(&id, act, stamp(&name), later(0)).await })
        };
        let (mut undone, mut others) = (Vec::new(), Vec::new());
        for n in 0..4 {
            undone.push(send(Act::Undo, format!("twice-undo-{round}")));
            others.push(send(tried(1, 1), format!("twice-{round}-{n}")));
        }
        let mut positions = BTreeSet::new();
        for task in undone {
            positions.extend(task.await.unwrap().unwrap().positions);
        }
        assert_eq!(positions.len(), 1, "one entry, whoever is answered");
        // Or the rounds run ahead of what they are to undo.
        for task in others {
            task.await.unwrap().unwrap();
        }
    }
}

async fn jobs_are_listed_newest_first(store: &Store) {
    for (name, seconds) in [("list-old", 1000), ("list-new", 3000), ("list-mid", 2000)] {
        let act = opened(name);
        store
            .act(&job(name), act, stamp(name), later(seconds))
            .await
            .unwrap();
    }
    // A fraction of a second counts, although it makes the text longer.
    let act = pump();
    let soon = later(2000) + jiff::SignedDuration::from_millis(5);
    store
        .act(&job("list-old"), act, stamp("list-pump"), soon)
        .await
        .unwrap();
    let jobs = store.jobs().await.unwrap();
    let named: Vec<(&str, &str, u64)> = jobs
        .iter()
        .take(3)
        .map(|job| (job.id.as_str(), job.title.as_str(), job.entries))
        .collect();
    assert_eq!(
        named,
        [
            ("list-new", "list-new", 1),
            ("list-old", "list-old", 2),
            ("list-mid", "list-mid", 1)
        ]
    );
    assert_eq!(jobs[1].recorded_at, soon);
}
