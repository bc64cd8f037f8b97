//! Compounds, seals and metals, in and out of the store. All data are invented.

use ::store::body::{decode, encode};
use workshop::draft::inspect::Sheet;
use workshop::entry::Body;
use workshop::inspect::Inspection;

use crate::inspect::sheet;

/// One of every kind about this joint, with as much in it as there can be.
pub(crate) fn every_kind(joint: &str) -> Vec<Inspection> {
    vec![
        sheet(
            Sheet::Bench,
            "",
            &[
                ("water", "brackish"),
                ("temperature", "64 °F"),
                ("humidity", "60 %"),
            ],
        ),
        sheet(
            Sheet::Compound,
            "grey",
            &[
                ("name", "Grey sealant, second shelf"),
                ("class", "hybrid-polymer"),
                ("working", "20"),
                ("skin", "1 h"),
                ("cure_depth", "3"),
                ("shelf", "12"),
                ("made", "2026-03-02"),
            ],
        ),
        sheet(
            Sheet::Thread,
            joint,
            &[("with", "threadlocker-high"), ("primed", "yes")],
        ),
        sheet(
            Sheet::Seal,
            joint,
            &[
                ("with", "grey"),
                ("sealed", "4"),
                ("room", "3/8 in"),
                ("gap_low", "0.04"),
                ("gap_high", "3 thou"),
                ("line", "60 cm"),
                ("edges", "one"),
                ("passage", "6"),
            ],
        ),
        sheet(
            Sheet::Contact,
            joint,
            &[
                ("screw", "a4"),
                ("coat", "scratched"),
                ("insulated", "shut"),
                ("sealed", "taken"),
                ("coated", "open"),
                ("anode", "open"),
            ],
        ),
    ]
}

fn comes_back(said: Inspection) {
    let body = Body::Inspected(said);
    let stored = encode(&body).unwrap();
    let back = decode(&stored.kind, stored.version, &stored.json).unwrap();
    assert_eq!(back, body, "{}", stored.json);
}

#[test]
fn law_what_was_said_of_seals_comes_back_as_it_went_in() {
    every_kind("housing").into_iter().for_each(comes_back);
}

#[test]
fn law_every_absence_in_what_is_said_of_seals_comes_back() {
    let sparse = [
        sheet(Sheet::Bench, "", &[("water", "fresh")]),
        sheet(Sheet::Compound, "x", &[("name", "X"), ("class", "grease")]),
        sheet(
            Sheet::Compound,
            "y",
            &[("name", "Y"), ("class", "epoxy"), ("cure_time", "5 d")],
        ),
        sheet(Sheet::Thread, "lid", &[("with", "my-paste")]),
        sheet(
            Sheet::Seal,
            "lid",
            &[
                ("with", "neutral-silicone"),
                ("sealed", "4"),
                ("room", "8"),
                ("edges", "both"),
            ],
        ),
        sheet(Sheet::Contact, "lid", &[]),
    ];
    sparse.into_iter().for_each(comes_back);
}

#[test]
fn law_a_word_of_seals_that_was_never_written_is_refused() {
    let mut broken = 0;
    for said in every_kind("housing") {
        let stored = encode(&Body::Inspected(said)).unwrap();
        for (word, other) in [
            ("\"brackish\"", "\"sweet\""),
            ("\"hybrid-polymer\"", "\"glue\""),
            ("\"one\"", "\"none\""),
            ("\"a4\"", "\"a3\""),
            ("\"scratched\"", "\"worn\""),
            ("\"taken\"", "\"perhaps\""),
            ("2026-03-02", "2026-13-02"),
            ("length_m", "length_mm"),
        ] {
            if stored.json.contains(word) {
                let json = stored.json.replacen(word, other, 1);
                let read = decode(&stored.kind, stored.version, &json);
                assert!(read.is_err(), "{json}");
                broken += 1;
            }
        }
    }
    assert_eq!(broken, 9);
}
