//! Water tests in the record, and what no longer fits of them. All of it is invented.

use std::sync::Arc;

use jiff::Timestamp;
use quantity::{Unit, parse};
use report::page::measure::View;
use report::page::{record, teardown, torque};
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::draft::water::OutingDraft;
use workshop::entry::{Body, Entry, EntryId, JobId, Key, NewEntry};
use workshop::fold::fold;
use workshop::refusal::Need;
use workshop::water::{
    Columns, Figure, Format, Logged, Read, Rejected, Shown, Trialling, Way, What, Window, evidence,
};

use crate::text::text;

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn stamp(entries: &[Entry]) -> Stamp {
    Stamp {
        id: EntryId::new(&format!("e-{}", entries.len() + 1)).unwrap(),
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: "tablet".into(),
        who: "A. Example".into(),
        seen: None,
    }
}

fn push(entries: &mut Vec<Entry>, new: NewEntry) {
    entries.push(Entry {
        position: u64::try_from(entries.len()).unwrap() + 1,
        recorded_at: Timestamp::UNIX_EPOCH,
        new,
    });
}

fn act(entries: &mut Vec<Entry>, act: Act) {
    for new in decide(&fold(entries).0, act, stamp(entries)).unwrap() {
        push(entries, new);
    }
}

/// As another device could have, whatever is said here.
fn force(entries: &mut Vec<Entry>, said: Trialling) {
    let Stamp { id, now, .. } = stamp(entries);
    let new = NewEntry {
        id,
        seen: 0,
        happened_at: now,
        device: String::new(),
        who: String::new(),
        program: "a test".into(),
        body: Body::Trialled(said),
    };
    push(entries, new);
}

fn outing(name: &str, side: &str) -> Trialling {
    let draft = OutingDraft {
        name: name.into(),
        side: side.into(),
        unit: "mph".into(),
        ..OutingDraft::default()
    };
    let outing = draft.read().unwrap();
    Trialling::Outing {
        key: key(side),
        outing,
    }
}

fn log(outing: &str, digit: &str, read: u64, rejected: &[u64]) -> Trialling {
    let rejected = rejected.iter().map(|count| Rejected {
        why: "not a number".into(),
        count: *count,
        line: 3,
        text: "--".into(),
    });
    let log = Logged {
        name: format!("run{digit}.gpx"),
        bytes: 4096,
        format: Format::Gpx,
        speed_from: "receiver".into(),
        read,
        thinned: read > 5000,
        layout: None,
        unit_ratio: None,
        rejected: rejected.collect(),
        zero_ms: None,
        stretches: vec![Columns {
            time_ms: vec![0, 60_000],
            speed_mm_s: vec![21_000; 2],
            ..Columns::default()
        }],
    };
    Trialling::Log {
        outing: key(outing),
        digest: key(&digit.repeat(64)),
        log: Arc::new(log),
    }
}

fn runs(digit: &str, windows: Option<&[(i64, i64)]>) -> Trialling {
    let window = |(from_ms, until_ms): &(i64, i64)| Window {
        from_ms: *from_ms,
        until_ms: *until_ms,
    };
    Trialling::Runs {
        digest: key(&digit.repeat(64)),
        windows: windows.map(|all| all.iter().map(window).collect()),
    }
}

fn put_away(digit: &str) -> Trialling {
    let digest = key(&digit.repeat(64));
    Trialling::LogPutAway { digest }
}

/// Everything that can be said, some of it undone.
fn entries() -> Vec<Entry> {
    let mut entries = Vec::new();
    let opened = Body::JobOpened {
        title: "Rescue sled 1".into(),
        note: String::new(),
        follows: None,
    };
    act(&mut entries, Act::Record(opened));
    let figure = Figure {
        what: What::TopSpeed(Way::There),
        value: parse("48", Unit::MilePerHour).unwrap(),
        read: Read::Display,
    };
    for said in [
        outing("Before, home lake", "before"),
        log("before", "1", 5120, &[12, 2]),
        log("before", "2", 1, &[1]),
        log("before", "3", 900, &[]),
        runs("1", Some(&[(0, 9000), (9000, 20_000)])),
        runs("1", None),
        put_away("2"),
        Trialling::Figures {
            outing: key("before"),
            figures: vec![figure],
        },
        outing("After, the sea", "after"),
    ] {
        act(&mut entries, Act::Record(Body::Trialled(said)));
    }
    let taken = Shown {
        evidence: evidence(&fold(&entries).0),
        words: "As fast as before.".into(),
        after: None,
        change: None,
        program: "a test".into(),
    };
    let taken = Body::Trialled(Trialling::Taken(taken));
    act(&mut entries, Act::Record(taken));
    act(&mut entries, Act::Undo);
    act(&mut entries, Act::Undo);
    act(&mut entries, Act::Redo);
    entries
}

#[test]
fn regress_the_record_tells_of_water_tests() {
    let entries = entries();
    let (job, objections) = fold(&entries);
    let page = record::page(
        &View {
            id: &JobId::new("rescue-sled").unwrap(),
            job: &job,
            objections: &objections,
            judgement: Err(Need::Pump),
            at: None,
            refused: None,
        },
        &entries,
    );
    insta::assert_snapshot!("record_water", text(&page));
}

#[test]
fn law_what_no_longer_fits_is_told_with_its_way_out() {
    let mut entries = entries();
    let said = Trialling::Figures {
        outing: key("gone"),
        figures: Vec::new(),
    };
    let stale = Shown {
        evidence: "of something else".into(),
        words: String::new(),
        after: None,
        change: None,
        program: String::new(),
    };
    for said in [said, put_away("9"), Trialling::Taken(stale)] {
        force(&mut entries, said);
    }
    let (job, objections) = fold(&entries);
    let page = teardown::page(&torque::View {
        id: &JobId::new("rescue-sled").unwrap(),
        job: &job,
        objections: &objections,
        now: &stamp(&entries).now,
        refused: None,
    });
    let text = text(&page);
    for sentence in [
        "Entry 15 is about an outing that is not described any more; describe it again.",
        "Entry 16 is about a log that is not here; read it again.",
        "Entry 17 took a result for runs that have changed since; take the new one.",
    ] {
        assert!(text.contains(sentence), "{sentence}\n{text}");
    }
}
