//! Every shape that ever landed must be read for ever. See `tests/fixtures/README.md`.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use ::store::Store;
use ::store::body::{Encoded, KINDS, decode, encode};
use quantity::{Unit, parse, plain};
use serde_json::Value;
use sqlx::{AnyConnection, Connection};
use workshop::act::Act;
use workshop::decide::decide;
use workshop::draft::JointDraft;
use workshop::entry::{Body, Entry, EntryId, Key, NewEntry};
use workshop::fold::{Misfit, fold};
use workshop::refusal::Refusal;

use crate::bench::{Bench, every_kind, job, joint, later, leaves, now, opened, stamp, url};

/// Set to write the fixtures that are missing. One that is there is never written again.
const WRITE: &str = "PUMPWRIGHT_WRITE_FIXTURES";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures")
}

/// The committed bodies: kind, version, JSON.
pub(crate) fn bodies() -> Vec<Encoded> {
    let mut bodies = Vec::new();
    for file in fs::read_dir(folder()).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|extension| extension != "json") {
            continue;
        }
        let name = path.file_stem().unwrap().to_str().unwrap();
        let (kind, version) = name.rsplit_once("-v").unwrap();
        bodies.push(Encoded {
            kind: kind.to_owned(),
            version: version.parse().unwrap(),
            json: fs::read_to_string(&path).unwrap().trim_end().to_owned(),
        });
    }
    bodies.sort_by(|a, b| (&a.kind, a.version).cmp(&(&b.kind, b.version)));
    bodies
}

#[tokio::test]
async fn law_every_shape_that_can_be_written_is_archived() {
    if std::env::var_os(WRITE).is_some() {
        write_missing().await;
    }
    let archived: BTreeSet<(String, u32)> = bodies()
        .into_iter()
        .map(|body| (body.kind, body.version))
        .collect();
    for (kind, newest) in KINDS {
        for version in 1..=newest {
            assert!(
                archived.contains(&(kind.to_owned(), version)),
                "{kind}-v{version}.json is missing; set {WRITE}=1 and run the tests to write it"
            );
        }
    }
}

async fn write_missing() {
    let bench = Bench::new().await;
    every_kind(&bench.store, &job("archive")).await;
    for entry in bench.store.entries(&job("archive")).await.unwrap() {
        let Encoded {
            kind,
            version,
            json,
        } = encode(&entry.new.body).unwrap();
        let path = folder().join(format!("{kind}-v{version}.json"));
        if !path.exists() {
            fs::write(path, json + "\n").unwrap();
        }
    }
    bench.store.close().await;
}

#[test]
fn regress_archived_bodies_are_read_and_written_unchanged() {
    for archived in bodies() {
        let Encoded {
            kind,
            version,
            json,
        } = &archived;
        let body = decode(kind, *version, json).unwrap();
        let newest = KINDS.iter().find(|(known, _)| known == kind);
        match newest {
            // A newer kind comes out as it went in, byte for byte.
            None => assert!(matches!(body, Body::Unknown { .. }), "{kind}"),
            Some(_) => assert!(!matches!(body, Body::Unknown { .. }), "{kind}"),
        }
        if newest.is_none_or(|(_, newest)| newest == version) {
            assert_eq!(encode(&body).unwrap(), archived);
        }
    }
}

#[test]
fn law_a_newer_version_of_a_known_kind_is_kept() {
    for archived in bodies() {
        let json = format!(" {}\n", archived.json);
        let body = decode(&archived.kind, 999, &json).unwrap();
        let kept = encode(&body).unwrap();
        assert_eq!((kept.version, kept.json), (999, json));
    }
}

#[test]
fn law_old_leaves_become_leaves_of_today() {
    let archived = bodies();
    let of = |version: u32| {
        let found = archived
            .iter()
            .find(|body| body.kind == "leaves-described" && body.version == version)
            .unwrap();
        match decode(&found.kind, found.version, &found.json).unwrap() {
            Body::LeavesDescribed(leaves) => leaves,
            other => panic!("{other:?}"),
        }
    };
    let (old, mut new) = (of(1), of(2));
    assert!(new.tolerance.is_some() && new.feel.is_some());
    (new.tolerance, new.feel) = (None, None);
    assert_eq!(old, new);
}

#[test]
fn law_a_missing_or_further_key_is_refused() {
    for Encoded {
        kind,
        version,
        json,
    } in bodies()
    {
        if KINDS.iter().all(|(known, _)| *known != kind) {
            continue;
        }
        let Value::Object(whole) = serde_json::from_str(&json).unwrap() else {
            panic!("{kind} is no object")
        };
        let mut more = whole.clone();
        more.insert("further".into(), Value::from(1));
        let more = Value::Object(more).to_string();
        assert!(decode(&kind, version, &more).is_err(), "{kind}: further");
        // A choice and a limit may be absent, which is `null`.
        for key in whole.keys().filter(|key| !whole[*key].is_null()) {
            let mut less = whole.clone();
            less.remove(key);
            let less = decode(&kind, version, &Value::Object(less).to_string());
            let original = decode(&kind, version, &json).unwrap();
            assert!(less.is_err() || less.unwrap() != original, "{kind}: {key}");
        }
    }
}

/// Calls `check` with every quantity in the JSON.
fn quantities(value: &Value, check: &mut dyn FnMut(&Value)) {
    match value {
        Value::Object(object) if object.contains_key("bare") => check(value),
        Value::Object(object) => object.values().for_each(|value| quantities(value, check)),
        Value::Array(array) => array.iter().for_each(|value| quantities(value, check)),
        _ => {}
    }
}

#[test]
fn law_archived_texts_re_parse_to_their_stored_si() {
    let mut checked = 0;
    for archived in bodies() {
        let body: Value = serde_json::from_str(&archived.json).unwrap();
        quantities(&body, &mut |quantity| {
            let text = |key: &str| quantity[key].as_str().unwrap();
            let bare = Unit::from_symbol(text("bare")).unwrap();
            let read = parse(text("text"), bare).unwrap();
            let values = [
                "length_m",
                "torque_n_m",
                "angle_rad",
                "duration_s",
                "pressure_pa",
                "temperature_k",
                "speed_m_s",
                "shaft_speed_rad_s",
                "mass_kg",
                "force_n",
                "power_w",
            ];
            let stored = values
                .iter()
                .find_map(|key| quantity[key].as_f64())
                .unwrap();
            assert_eq!(read.value.to_bits(), stored.to_bits(), "{quantity}");
            assert_eq!(read.unit.symbol(), text("unit"), "{quantity}");
            checked += 1;
        });
    }
    assert!(checked >= 20, "only {checked} quantities are archived");
}

/// Calls `check` with every number in the JSON that has a text and no unit.
fn figures(value: &Value, check: &mut dyn FnMut(&Value)) {
    match value {
        Value::Object(object)
            if object.len() == 2
                && object.contains_key("text")
                && object.contains_key("number") =>
        {
            check(value);
        }
        Value::Object(object) => object.values().for_each(|value| figures(value, check)),
        Value::Array(array) => array.iter().for_each(|value| figures(value, check)),
        _ => {}
    }
}

#[test]
fn law_archived_texts_re_parse_to_their_stored_numbers() {
    let mut checked = 0;
    for archived in bodies() {
        let body: Value = serde_json::from_str(&archived.json).unwrap();
        figures(&body, &mut |figure| {
            let read = plain(figure["text"].as_str().unwrap()).unwrap();
            let stored = figure["number"].as_f64().unwrap();
            assert_eq!(read.value.to_bits(), stored.to_bits(), "{figure}");
            checked += 1;
        });
    }
    assert!(checked >= 10, "only {checked} numbers are archived");
}

#[test]
fn law_every_archived_body_folds() {
    let entries: Vec<Entry> = (1..)
        .zip(bodies())
        .map(|(position, archived)| Entry {
            position,
            recorded_at: later(0),
            new: NewEntry {
                id: EntryId::new(&format!("archived-{position}")).unwrap(),
                seen: position - 1,
                happened_at: now(),
                device: String::new(),
                who: String::new(),
                program: "an old program".into(),
                body: decode(&archived.kind, archived.version, &archived.json).unwrap(),
            },
        })
        .collect();
    let (folded, objections) = fold(&entries);
    assert!(folded.pump.is_some() && folded.leaves.is_some() && folded.limits.is_some());
    assert!(objections.iter().any(|open| open.why == Misfit::Newer));
    let refused = decide(&folded, Act::Undo, stamp("x")).unwrap_err();
    assert!(matches!(refused, Refusal::ReadOnly { .. }));
}

/// The tables of schema 1, with a job of every kind, one with old leaves, one of a newer program.
#[tokio::test]
async fn law_a_store_of_schema_1_opens_and_folds() {
    let archived = folder().join("schema_0001.sqlite");
    if std::env::var_os(WRITE).is_some() && !archived.exists() {
        write_schema_1(&archived).await;
    }
    let bench = tempfile::tempdir().unwrap();
    fs::copy(&archived, bench.path().join("store.sqlite")).unwrap();
    let store = Store::open(&url(&bench)).await.unwrap();
    let jobs = store.jobs().await.unwrap();
    let titles: Vec<&str> = jobs.iter().map(|job| job.title.as_str()).collect();
    assert_eq!(
        titles,
        ["Spring rebuild", "Of a newer program", "Old leaves"]
    );

    let spring = store.entries(&job("spring")).await.unwrap();
    let (folded, _) = fold(&spring);
    assert_eq!(folded.position, 19);
    assert_eq!(folded.tries.len(), 12);
    assert!(folded.accepted.is_some() && folded.limits.is_some());

    let (folded, objections) = fold(&store.entries(&job("old-leaves")).await.unwrap());
    assert_eq!(objections, []);
    assert_eq!(folded.leaves.unwrap().value.tolerance, None);

    let (folded, _) = fold(&store.entries(&job("newer")).await.unwrap());
    assert_eq!(folded.read_only, Some(("future-kind".into(), 1)));
    let refused = store
        .act(&job("newer"), leaves(), stamp("x"), later(0))
        .await;
    assert!(refused.is_err());
    // And it takes new entries.
    let act = opened("New");
    let taken = store.act(&job("new"), act, stamp("new"), later(0)).await;
    assert_eq!(taken.unwrap().positions, [1]);
}

async fn write_schema_1(path: &Path) {
    let bench = Bench::new().await;
    let store = &bench.store;
    every_kind(store, &job("spring")).await;
    for (seconds, name, title) in [
        (1, "old-leaves", "Old leaves"),
        (2, "newer", "Of a newer program"),
    ] {
        let sent = store
            .act(&job(name), opened(title), stamp(name), later(seconds))
            .await;
        sent.unwrap();
    }
    let newer = bodies().into_iter().find(|body| body.kind == "future-kind");
    let newer = newer.unwrap();
    let entry = NewEntry {
        id: EntryId::new("newer-1").unwrap(),
        seen: 1,
        happened_at: now(),
        device: String::new(),
        who: String::new(),
        program: "a newer program".into(),
        body: decode(&newer.kind, newer.version, &newer.json).unwrap(),
    };
    store
        .append(&job("newer"), &[entry], later(3))
        .await
        .unwrap();
    let old = job("old-leaves");
    let sent = store.act(&old, leaves(), stamp("old-leaves-1"), later(2));
    sent.await.unwrap();
    bench.store.close().await;
    // No program of today writes version 1.
    let mut aside = AnyConnection::connect(&url(&bench.folder)).await.unwrap();
    let old = bodies()
        .into_iter()
        .find(|body| body.version == 1 && body.kind == "leaves-described");
    sqlx::query("UPDATE entry SET body_version = 1, body = $1 WHERE id = 'old-leaves-1'")
        .bind(old.unwrap().json)
        .execute(&mut aside)
        .await
        .unwrap();
    sqlx::query("PRAGMA wal_checkpoint(TRUNCATE)")
        .execute(&mut aside)
        .await
        .unwrap();
    aside.close().await.unwrap();
    fs::copy(bench.folder.path().join("store.sqlite"), path).unwrap();
}

#[test]
fn law_every_word_and_every_absence_comes_back() {
    let with = |kind: &str, from: &str, to: &str| {
        let found = bodies().into_iter().rev().find(|body| body.kind == kind);
        let mut changed = found.unwrap();
        assert!(changed.json.contains(from), "{kind}: {from}");
        changed.json = changed.json.replacen(from, to, 1);
        changed
    };
    let word = |from: &str, to: &str| (format!("\"{from}\""), format!("\"{to}\""));
    let mut changed = Vec::new();
    for (kind, from, words) in [
        ("pump-described", "looking-forward", vec!["looking-aft"]),
        ("pump-described", "anticlockwise", vec!["clockwise"]),
        (
            "leaves-described",
            "along-shaft",
            vec!["round-ring", "under-edge"],
        ),
        (
            "leaves-described",
            "bench-shaft-level",
            vec!["craft-upright", "craft-on-side", "bench-shaft-upright"],
        ),
        ("limits-stated", "radial", vec!["diametral"]),
        (
            "leaves-tried",
            "goes",
            vec!["goes-free", "drags", "wont-go"],
        ),
        ("gap-accepted", "undecided", vec!["in", "out"]),
        (
            "plan-laid",
            "gap-in",
            vec!["leak-tight", "aligned", "gap-reread"],
        ),
    ] {
        for to in words {
            let (from, to) = word(from, to);
            changed.push(with(kind, &from, &to));
        }
    }
    changed.push(with("gap-accepted", "0.8572", "null"));
    changed.push(with("limits-stated", "false", "true"));
    for order in ["leaf-by-leaf", "round-first"] {
        changed.push(Encoded {
            kind: "walk-chosen".into(),
            version: 2,
            json: format!("{{\"order\":\"{order}\"}}"),
        });
    }
    changed.push(Encoded {
        kind: "limits-stated".into(),
        version: 1,
        json: "{\"least\":null,\"greatest\":null,\"measure\":\"radial\",\"page\":\"\",\"rub_in\":false}".into(),
    });
    let mut seen = Vec::new();
    for stored in changed {
        let body = decode(&stored.kind, stored.version, &stored.json).unwrap();
        assert_eq!(encode(&body).unwrap(), stored);
        assert!(!seen.contains(&body), "two words for one thing: {stored:?}");
        seen.push(body);
    }
    let further = "{\"order\":\"leaf-by-leaf\",\"go\":1}";
    assert!(decode("walk-chosen", 1, further).is_err());
}

/// The last bit of a number must survive: no rounding on the way to text and back.
#[test]
fn law_numbers_come_back_to_the_last_bit() {
    let Encoded {
        kind,
        version,
        json,
    } = bodies()
        .into_iter()
        .find(|body| body.kind == "gap-accepted")
        .unwrap();
    let Body::GapAccepted(mut shown) = decode(&kind, version, &json).unwrap() else {
        panic!("another kind")
    };
    for value in [
        5e-324,
        0.1 + 0.2,
        1.0 / 3.0,
        3.302e-4_f64.next_up(),
        f64::MAX,
        -0.0,
    ] {
        shown.mean.median = value;
        let body = Body::GapAccepted(shown.clone());
        let json = encode(&body).unwrap().json;
        match decode(&kind, version, &json).unwrap() {
            Body::GapAccepted(read) => {
                assert_eq!(read.mean.median.to_bits(), value.to_bits());
            }
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn law_every_way_of_tightening_comes_back_as_it_went_in() {
    let turn = JointDraft {
        torque: String::new(),
        second: String::new(),
        stated_for: String::new(),
        turn: "1/8".into(),
        seat: "plastic".into(),
        grip: "3".into(),
        ..joint()
    };
    let nothing = JointDraft {
        turn: String::new(),
        ..turn.clone()
    };
    for draft in [joint(), turn, nothing] {
        let body = Body::JointDescribed {
            key: Key::new("housing").unwrap(),
            joint: draft.read().unwrap(),
        };
        let Encoded {
            kind,
            version,
            json,
        } = encode(&body).unwrap();
        assert_eq!(decode(&kind, version, &json).unwrap(), body, "{json}");
    }
    let torque = encode(&Body::JointDescribed {
        key: Key::new("housing").unwrap(),
        joint: joint().read().unwrap(),
    });
    let json = torque.unwrap().json;
    for broken in [
        json.replace("torque_n_m", "length_m"),
        json.replace("\"threadlocker\"", "\"honey\""),
        json.replace("\"unit\":\"N·m\"", "\"unit\":\"mm\""),
        json.replace("\"page\"", "\"pages\""),
    ] {
        assert!(decode("joint-described", 1, &broken).is_err(), "{broken}");
    }
}
