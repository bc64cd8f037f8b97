//! What is looked at and measured around the gap, in and out of the store. All data are invented.

use ::store::body::{decode, encode};
use quantity::Unit;
use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::entry::Body;
use workshop::inspect::Inspection;

pub(crate) fn sheet(sheet: Sheet, key: &str, fields: &[(&str, &str)]) -> Inspection {
    for (name, _) in fields {
        assert!(sheet.fields().contains(name), "{name}");
    }
    let text = |field: &str| {
        let found = fields.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    };
    let draft = InspectionDraft::new(sheet, key.to_owned(), text);
    draft.read(Unit::Thou).unwrap()
}

/// One of every kind, with as much in it as there can be.
#[expect(clippy::too_many_lines, reason = "a sheet a kind, read as a list")]
pub(crate) fn every_kind() -> Vec<Inspection> {
    vec![
        sheet(
            Sheet::Rotor,
            "",
            &[
                ("float_aft", "0.05"),
                ("float_forward", "-0.12 mm"),
                ("radial_up", "2 thou"),
                ("radial_down", "0"),
                ("runout_first", "0.02"),
                ("runout_second", "0,03"),
                ("runout_apart", "120"),
                ("runout_beyond", "4 in"),
                ("track", "groove"),
                ("groove", "0.05"),
                ("spline_step", "no"),
                ("spin", "smooth"),
                ("dial", "0.005"),
                ("float_limit", "0.3"),
                ("radial_limit", "0.1"),
                ("runout_limit", "0.05"),
                ("page", "5-9"),
            ],
        ),
        sheet(
            Sheet::Leak,
            "",
            &[
                ("push", "pressure"),
                ("start", "10 psi"),
                ("end", "68"),
                ("hold", "10"),
                ("start_temperature", "20"),
                ("end_temperature", "66 °F"),
                ("turned", "yes"),
                ("step", "1"),
                ("allowed", "0.2 bar"),
                ("page", "5-11"),
            ],
        ),
        sheet(
            Sheet::Alignment,
            "",
            &[
                ("way", "dials"),
                ("carrier", "engine"),
                ("rim_0", "0, -0.2, -0.5, -0.31"),
                ("rim_180", "0 -8 -20 -12 thou"),
                ("face_0", "0, 0.02, 0.05, 0,03"),
                ("across", "3 in"),
                ("sag", "-0.04"),
                ("travel", "10"),
                ("step", "0.01"),
                ("repeat", "0.005"),
                ("offset_limit", "0.3"),
                ("limit_of", "total"),
                ("angle_limit", "0.2"),
                ("page", "9-4"),
                ("mounts", "front port: 160, 190, 1.2; rear: 520, -5 in, 0"),
                ("shims", "0.2; 2 x 0.5"),
            ],
        ),
        sheet(
            Sheet::Finding,
            "blade-a",
            &[
                ("area", "blades"),
                ("which", "A"),
                ("flaw", "other"),
                ("words", "blue from heat"),
                ("place", "near the hub"),
                ("depth", "0.5"),
                ("length", "1/8 in"),
                ("tip", "61"),
                ("severity", "stops-floating"),
                ("severity_why", "it may let go"),
                ("todo", "send-out"),
                ("reason", "hardness to be tested"),
            ],
        ),
        sheet(
            Sheet::Settled,
            "blade-a",
            &[("how", "accepted"), ("reason", "tested, sound")],
        ),
        sheet(
            Sheet::Sizes,
            "",
            &[
                ("bore_12", "143.10"),
                ("bore_3", "143,02"),
                ("impeller", "5.606 in"),
                ("method", "round"),
            ],
        ),
        sheet(
            Sheet::Ring,
            "",
            &[
                ("seat", "plastic-bonded"),
                ("polymer", "nylon"),
                ("wall", "6"),
                ("soaked", "soaked"),
                ("turning", "aluminium"),
                ("bench", "18"),
                ("water", "48 °F"),
            ],
        ),
        sheet(
            Sheet::Cone,
            "",
            &[
                ("half_angle", "8"),
                ("fitted", "0.3"),
                ("shims", "0.1 0.1 0.3 mm"),
                ("stack", "closes"),
            ],
        ),
        sheet(
            Sheet::Reread,
            "",
            &[
                ("clock_12", "13-14"),
                ("clock_3", "0.33 mm drags"),
                ("clock_6", "13 goes free; 15 won't go"),
                ("turns", "rubs"),
                ("rubs", "at 4"),
            ],
        ),
        sheet(
            Sheet::Visit,
            "h-48",
            &[
                ("hours", "48"),
                ("gap", "12-13"),
                ("figure", "mean"),
                ("renewed", "yes"),
            ],
        ),
        sheet(
            Sheet::AsFound,
            "mounts",
            &[
                ("sort", "shims"),
                ("at", "front mounts"),
                ("shims", "A: 0.5, 8 thou; B: none"),
                ("words", "rusty"),
            ],
        ),
        sheet(
            Sheet::Supply,
            "grease",
            &[
                ("name", "Grease for the gate"),
                ("group", "consumable"),
                ("status", "on-order"),
                ("expected", "2026-05-09"),
                ("reason", "the tin is empty"),
            ],
        ),
    ]
}

fn comes_back(said: &Inspection) {
    let body = Body::Inspected(said.clone());
    let stored = encode(&body).unwrap();
    let back = decode(&stored.kind, stored.version, &stored.json).unwrap();
    assert_eq!(back, body, "{}", stored.json);
}

#[test]
fn law_what_was_inspected_comes_back_as_it_went_in() {
    every_kind().iter().for_each(comes_back);
}

#[test]
fn law_every_absence_of_an_inspection_comes_back() {
    let sparse = [
        sheet(Sheet::Rotor, "", &[("spin", "gritty")]),
        sheet(Sheet::Rotor, "", &[("track", "smooth")]),
        sheet(Sheet::Rotor, "", &[("track", "groove")]),
        sheet(
            Sheet::Leak,
            "",
            &[
                ("push", "vacuum"),
                ("start", "60"),
                ("end", "60"),
                ("hold", "5"),
                ("step", "2"),
            ],
        ),
        sheet(
            Sheet::Alignment,
            "",
            &[
                ("way", "slides"),
                ("free_0", "yes"),
                ("free_90", "yes"),
                ("free_180", "no"),
                ("free_270", "yes"),
            ],
        ),
        sheet(
            Sheet::Alignment,
            "",
            &[
                ("way", "bar"),
                ("aft_at", "0"),
                ("aft_0", "0.2 0.2 0.3 0.3"),
                ("step", "0.05"),
            ],
        ),
        sheet(
            Sheet::Alignment,
            "",
            &[
                ("way", "bar"),
                ("aft_at", "-5"),
                ("aft_90", "0.2, 0.2, 0.3, 0.3"),
                ("forward_at", "90"),
                ("forward_0", "8, 9, 10, 9 thou"),
                ("forward_270", "0.2, 0.2, 0.3, 0.3"),
                ("step", "0.05"),
            ],
        ),
        sheet(Sheet::Sizes, "", &[("bore_430", "143")]),
        sheet(
            Sheet::Ring,
            "",
            &[("seat", "cast"), ("turning", "stainless")],
        ),
        sheet(Sheet::Reread, "", &[("clock_9", "<10"), ("turns", "free")]),
        sheet(
            Sheet::Visit,
            "now",
            &[("hours", "90"), ("figure", "least"), ("renewed", "no")],
        ),
    ];
    sparse.iter().for_each(comes_back);
}

#[test]
#[expect(clippy::too_many_lines, reason = "a sheet a sort, read as a list")]
fn law_every_sort_of_the_as_found_record_comes_back() {
    let each = [
        sheet(Sheet::AsFound, "gap", &[("sort", "gap"), ("gap", "13-18")]),
        sheet(
            Sheet::AsFound,
            "gap",
            &[("sort", "gap"), ("gap", "0.33 mm")],
        ),
        sheet(
            Sheet::AsFound,
            "marks",
            &[
                ("sort", "witness-marks"),
                ("at", "hull"),
                ("marks", "in-line"),
            ],
        ),
        sheet(
            Sheet::AsFound,
            "marks",
            &[
                ("sort", "witness-marks"),
                ("at", "hull"),
                ("marks", "moved"),
            ],
        ),
        sheet(
            Sheet::AsFound,
            "marks",
            &[
                ("sort", "witness-marks"),
                ("at", "hull"),
                ("marks", "moved"),
                ("moved", "2"),
            ],
        ),
        sheet(
            Sheet::AsFound,
            "hose",
            &[
                ("sort", "hose"),
                ("at", "1"),
                ("from", "pump"),
                ("to", "exhaust"),
            ],
        ),
        sheet(
            Sheet::AsFound,
            "cable",
            &[("sort", "cable"), ("at", "steering"), ("threads", "7")],
        ),
        sheet(
            Sheet::AsFound,
            "ring",
            &[("sort", "ring"), ("clock", "4:30 o'clock")],
        ),
        sheet(
            Sheet::AsFound,
            "cable",
            &[("sort", "cable"), ("state", "none")],
        ),
        sheet(
            Sheet::AsFound,
            "cable",
            &[("sort", "cable"), ("state", "apart")],
        ),
        sheet(
            Sheet::AsFound,
            "other",
            &[
                ("sort", "other"),
                ("at", "bailer"),
                ("words", "full of sand"),
            ],
        ),
        sheet(
            Sheet::Supply,
            "press",
            &[("status", "not-needed"), ("reason", "by hand")],
        ),
    ];
    each.iter().for_each(comes_back);
}

#[test]
fn law_a_word_that_was_never_written_is_refused() {
    for said in every_kind() {
        let stored = encode(&Body::Inspected(said)).unwrap();
        for (word, other) in [
            ("\"smooth\"", "\"silky\""),
            ("\"pressure\"", "\"steam\""),
            ("\"engine\"", "\"hull\""),
            ("\"dials\"", "\"eye\""),
            ("quarter_turns\":0", "quarter_turns\":4"),
            ("\"blades\"", "\"wings\""),
            ("\"accepted\"", "\"forgotten\""),
            ("\"round\"", "\"square\""),
            ("\"plastic-bonded\"", "\"glued\""),
            ("\"mean\"", "\"median\""),
            ("\"shims\"", "\"washers\""),
            ("\"consumable\"", "\"food\""),
            ("\"on-order\"", "\"lost\""),
            ("\"2026-05-09\"", "\"in May\""),
            ("length_m", "length_mm"),
        ] {
            if stored.json.contains(word) {
                let broken = stored.json.replacen(word, other, 1);
                let read = decode(&stored.kind, stored.version, &broken);
                assert!(read.is_err(), "{broken}");
            }
        }
    }
}

/// Before a finding said how much it matters, it mattered as much as such a flaw usually does.
#[test]
fn law_an_old_finding_matters_as_much_as_usual() {
    let old = include_str!("../fixtures/finding-noted-v1.json");
    for (area, flaw, severity) in [
        ("blades", "root-crack", "before-full-throttle"),
        ("blades", "nick-leading", "watch"),
        ("seal", "grit", "before-full-throttle"),
        // What would be refused today still opens.
        ("bearing", "nick-leading", "watch"),
    ] {
        let json = old
            .replace("\"blades\"", &format!("\"{area}\""))
            .replace("\"other\"", &format!("\"{flaw}\""));
        let stored = encode(&decode("finding-noted", 1, &json).unwrap()).unwrap();
        assert_eq!(stored.version, 2);
        assert!(
            stored
                .json
                .contains(&format!("\"severity\":\"{severity}\"")),
            "{}",
            stored.json
        );
    }
}
