//! Joints that are no circle of screws, in and out of the store. All data are invented.

use std::fs;
use std::path::{Path, PathBuf};

use ::store::body::{Encoded, decode, encode};
use workshop::draft::FitDraft;
use workshop::entry::{Body, Key};
use workshop::fits::Kind;

/// Set to write the fixtures that are missing. One that is there is never written again.
const WRITE: &str = "PUMPWRIGHT_WRITE_FIXTURES";

/// One of each kind, full and then sparse.
const FULL: [&[(&str, &str)]; 11] = [
    &[
        ("kind", "impeller"),
        ("hand", "left"),
        ("goes_on_from", "ahead"),
        ("drive", "impeller-drags-shaft"),
        ("torque", "105"),
        ("second", "77"),
        ("compound", "threadlocker"),
        ("page", "5-16"),
        (
            "checked",
            "clean compound holder-seated tightened turns-free",
        ),
    ],
    &[
        ("kind", "press-fit"),
        ("what", "sealed-bearing"),
        ("shaft", "0.010"),
        ("housing", "-0.2 thou"),
        ("diameter", "30"),
        ("front", "wide-shoulder"),
        ("place", "first on the shaft"),
        ("checked", "facing"),
    ],
    &[
        ("kind", "lip-seals"),
        ("lip_1", "keeps-water-out"),
        ("lip_2", "keeps-grease-in"),
        ("lip_3", "holds-pressure"),
        ("checked", "greased"),
    ],
    &[
        ("kind", "o-ring"),
        ("rubber", "epdm"),
        ("cord", "2.62"),
        ("inner", "60"),
        ("seat", "61"),
        ("depth", "2.1"),
        ("width", "1/8 in"),
        ("checked", "not-twisted not-pinched"),
    ],
    &[
        ("kind", "fill"),
        ("with", "oil"),
        ("product", "gear oil"),
        ("amount", "60 mL"),
        ("until", "level"),
        ("checked", "old-out filled reached"),
    ],
    &[
        ("kind", "spline"),
        ("bumpers", "yes"),
        ("least", "0.5"),
        ("greatest", "80 thou"),
        ("checked", "bumpers-in"),
        ("reading", "1.2"),
    ],
    &[
        ("kind", "shims"),
        ("studs", "0.5; 0.3; 12 thou"),
        ("checked", "by-stud in-line"),
    ],
    &[
        ("kind", "hose"),
        ("carries", "exhaust"),
        ("below", "no"),
        ("checked", "home clamped pulled"),
    ],
    &[
        ("kind", "cable"),
        ("threads", "7"),
        ("checked", "threads-set locked full-travel"),
    ],
    &[
        ("kind", "plug"),
        ("torque", "8"),
        ("checked", "new-seal dry"),
    ],
    &[
        ("kind", "anode"),
        ("greatest", "0.5"),
        ("checked", "bare unpainted"),
        ("reading", "0.3"),
    ],
];
const SPARSE: [&[(&str, &str)]; 6] = [
    &[
        ("kind", "impeller"),
        ("hand", "right"),
        ("goes_on_from", "aft"),
        ("drive", "shaft-drives-impeller"),
    ],
    &[("kind", "press-fit"), ("what", "bush")],
    &[("kind", "o-ring")],
    &[("kind", "cable")],
    &[("kind", "plug")],
    &[("kind", "anode"), ("reading", "2")],
];

fn bodies(fields: &[(&str, &str)]) -> Vec<Body> {
    let kind = fields[0].1;
    let draft = FitDraft::new(kind.to_owned(), |field| match field {
        "name" => format!("The {kind}"),
        field => {
            let found = fields.iter().find(|(name, _)| *name == field);
            found.map_or_else(String::new, |(_, text)| (*text).to_owned())
        }
    });
    let key = Key::new(&draft.key).unwrap();
    let fit = draft.read().unwrap();
    let checked = draft.checked(&fit).unwrap();
    let described = Body::FitDescribed {
        key: key.clone(),
        fit,
    };
    let checked = checked.map(|checked| Body::FitChecked { key, checked });
    [described].into_iter().chain(checked).collect()
}

/// One of each kind with its ticks, in an order that makes sense.
pub(crate) fn every_kind() -> Vec<Body> {
    FULL.iter().flat_map(|fields| bodies(fields)).collect()
}

fn comes_back(body: &Body) {
    let stored = encode(body).unwrap();
    let back = decode(&stored.kind, stored.version, &stored.json).unwrap();
    assert_eq!(back, *body, "{}", stored.json);
}

#[test]
fn law_a_fit_comes_back_as_it_went_in() {
    assert_eq!(FULL.len(), Kind::ALL.len());
    every_kind().iter().for_each(comes_back);
    let sparse = SPARSE.iter().flat_map(|fields| bodies(fields));
    sparse.for_each(|body| comes_back(&body));
}

/// Each kind has a shape of its own, so each has its fixture.
#[test]
fn regress_archived_fits_are_read_and_written_unchanged() {
    let folder: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/fits");
    for fields in FULL {
        let path = folder.join(format!("{}-v1.json", fields[0].1));
        let Encoded { kind, json, .. } = encode(&bodies(fields)[0]).unwrap();
        assert_eq!(kind, "fit-described");
        if std::env::var_os(WRITE).is_some() && !path.exists() {
            fs::write(&path, json + "\n").unwrap();
        }
        let archived = fs::read_to_string(&path).unwrap();
        let body = decode("fit-described", 1, archived.trim_end()).unwrap();
        assert_eq!(encode(&body).unwrap().json, archived.trim_end());
    }
}

#[test]
fn law_a_word_that_was_never_written_of_a_fit_is_refused() {
    let broken = |from: &str, to: &str| {
        let mut seen = false;
        for body in every_kind() {
            let stored = encode(&body).unwrap();
            if stored.json.contains(from) {
                seen = true;
                let json = stored.json.replacen(from, to, 1);
                let read = decode(&stored.kind, stored.version, &json);
                assert!(read.is_err(), "{json}");
            }
        }
        assert!(seen, "{from}");
    };
    for (from, to) in [
        ("\"kind\":\"plug\"", "\"kind\":\"cork\""),
        ("\"left\"", "\"both\""),
        ("\"ahead\"", "\"above\""),
        ("\"impeller-drags-shaft\"", "\"belt\""),
        ("\"keeps-water-out\"", "\"keeps-air-out\""),
        ("\"epdm\"", "\"cork\""),
        ("\"level\"", "\"enough\""),
        ("\"exhaust\"", "\"fuel\""),
        ("\"wide-shoulder\"", "\"wide\""),
        ("\"not-pinched\"", "\"pinched\""),
        ("resistance_ohm", "resistance_kohm"),
        ("torque_n_m", "torque_lbf_ft"),
        ("\"place\":", "\"spot\":"),
    ] {
        broken(from, to);
    }
}
