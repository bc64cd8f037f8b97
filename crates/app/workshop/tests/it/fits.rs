//! Joints that are no circle of screws: cards, directions, ticks, and each refusal in its words.

mod impeller;

use joint::fit::Looks;
use joint::shaft::{End, Rotation as Turn};
use workshop::act::Act;
use workshop::draft::{FitDraft, JobDraft};
use workshop::entry::{Body, Key};
use workshop::fits::{Check, Lip, Part, card};
use workshop::fold::Misfit;

use crate::journal::Journal;

/// One of each kind, with as much in it as there can be. Invented.
#[expect(clippy::too_many_lines, reason = "a joint a kind, read as a list")]
fn every_kind() -> Vec<FitDraft> {
    let of = |key: &str, fields: &[(&str, &str)]| draft(key, fields);
    vec![
        of("impeller", IMPELLER),
        of(
            "bearing",
            &[
                ("kind", "press-fit"),
                ("name", "Front bearing"),
                ("what", "sealed-bearing"),
                ("shaft", "0.010"),
                ("housing", "-0.005"),
                ("diameter", "30"),
                ("front", "sealed-side"),
                ("place", "first on the shaft, before the spacer"),
                ("page", "5-12"),
            ],
        ),
        of(
            "seals",
            &[
                ("kind", "lip-seals"),
                ("name", "Shaft seals"),
                ("lip_1", "keeps-water-out"),
                ("lip_2", "keeps-water-out"),
                ("lip_3", "keeps-grease-in"),
            ],
        ),
        of(
            "ring",
            &[
                ("kind", "o-ring"),
                ("name", "Cone O-ring"),
                ("rubber", "epdm"),
                ("cord", "2.62"),
                ("inner", "60"),
                ("seat", "61"),
                ("depth", "2.1"),
                ("width", "3.3"),
            ],
        ),
        of(
            "grease",
            &[
                ("kind", "fill"),
                ("name", "Bearing space"),
                ("with", "grease"),
                ("product", "water-resistant grease"),
                ("amount", "30 g"),
                ("until", "shows"),
                ("page", "5-13"),
            ],
        ),
        of(
            "spline",
            &[
                ("kind", "spline"),
                ("name", "Drive spline"),
                ("bumpers", "yes"),
                ("least", "0.5"),
                ("greatest", "2"),
                ("page", "5-21"),
            ],
        ),
        of(
            "shims",
            &[
                ("kind", "shims"),
                ("name", "Pump studs"),
                ("studs", "0.5; 0.3; 0.3; 0"),
            ],
        ),
        of(
            "hose",
            &[
                ("kind", "hose"),
                ("name", "Cooling hose"),
                ("carries", "cooling-water"),
                ("below", "yes"),
            ],
        ),
        of(
            "cable",
            &[
                ("kind", "cable"),
                ("name", "Steering cable"),
                ("threads", "7"),
            ],
        ),
        of(
            "plug",
            &[("kind", "plug"), ("name", "Drain plug"), ("torque", "8")],
        ),
        of("anode", ANODE),
    ]
}

const IMPELLER: &[(&str, &str)] = &[
    ("kind", "impeller"),
    ("name", "Impeller on its shaft"),
    ("hand", "right"),
    ("goes_on_from", "aft"),
    ("drive", "impeller-drags-shaft"),
    ("torque", "105"),
    ("second", "77"),
    ("compound", "medium-strength threadlocker"),
    ("page", "5-16"),
];
const ANODE: &[(&str, &str)] = &[("kind", "anode"), ("name", "Anode on the nozzle")];

fn draft(key: &str, fields: &[(&str, &str)]) -> FitDraft {
    for (name, _) in fields {
        assert!(FitDraft::all_fields().contains(name), "{name}");
    }
    FitDraft::new(key.to_owned(), |field| {
        let found = fields.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    })
}

fn with(fields: &[(&'static str, &'static str)], other: &[(&'static str, &str)]) -> FitDraft {
    let mut draft = draft("this", fields);
    for (field, text) in other {
        draft.fields.insert(field, (*text).to_owned());
    }
    draft
}

fn described(draft: &FitDraft) -> Body {
    Body::FitDescribed {
        key: Key::new(&draft.key).unwrap(),
        fit: draft.read().unwrap(),
    }
}

fn checked(draft: &FitDraft, checked: &str, reading: &str) -> Body {
    let fit = draft.read().unwrap();
    let mut ticked = draft.clone();
    ticked.fields.insert("checked", checked.to_owned());
    ticked.fields.insert("reading", reading.to_owned());
    Body::FitChecked {
        key: Key::new(&draft.key).unwrap(),
        checked: ticked.checked(&fit).unwrap().unwrap(),
    }
}

fn all_checks(draft: &FitDraft) -> String {
    let words = workshop::draft::CHECKS;
    let all = draft.read().unwrap().kind.checks();
    let all = all
        .iter()
        .map(|check| workshop::draft::word(&words, *check));
    all.collect::<Vec<_>>().join(" ")
}

fn journal(draft: &FitDraft) -> Journal {
    let mut journal = Journal::described();
    journal.record(described(draft));
    journal
}

fn refused(journal: &mut Journal, body: Body) -> String {
    journal.try_act(Act::Record(body)).unwrap_err().to_string()
}

fn done(journal: &Journal, draft: &FitDraft) -> bool {
    let job = journal.job();
    let key = Key::new(&draft.key).unwrap();
    job.fit_done(&job.fits[&key])
}

#[test]
fn law_every_kind_says_what_can_hurt_and_every_part_of_its_card() {
    for draft in every_kind() {
        let job = journal(&draft).job();
        let card = card(&job, &job.fits[&Key::new(&draft.key).unwrap()]);
        for part in [
            Part::Clean,
            Part::PutOn,
            Part::Do,
            Part::Prove,
            Part::Caution,
        ] {
            assert!(card.of(part).next().is_some(), "{} {part:?}", draft.key);
        }
        assert!(
            card.lines.is_sorted_by_key(|line| line.part),
            "{}",
            draft.key
        );
    }
}

#[test]
fn practice_a_lip_looks_at_what_it_stops() {
    assert_eq!(Lip::KeepsWaterOut.looks(), Looks::AtWater);
    assert_eq!(Lip::KeepsGreaseIn.looks(), Looks::AtBearing);
    assert_eq!(Lip::HoldsPressure.looks(), Looks::AtPressure);
    let said = |lips: &[(&'static str, &'static str)]| {
        let mut fields = vec![("kind", "lip-seals"), ("name", "Seals")];
        fields.extend_from_slice(lips);
        let job = journal(&draft("this", &fields)).job();
        card(&job, &job.fits[&Key::new("this").unwrap()])
    };
    let both = said(&[("lip_1", "keeps-water-out"), ("lip_2", "keeps-grease-in")]);
    assert!(both.mind.is_empty());
    let words: Vec<&str> = both.of(Part::Do).map(|line| line.words.as_str()).collect();
    assert!(words[0].contains("Lip 1 from the water") && words[0].contains("at the water"));
    assert!(words[1].contains("Lip 2 from the water") && words[1].contains("at the bearing"));
    let inward = said(&[("lip_1", "keeps-grease-in")]);
    assert!(inward.mind[0].contains("No lip here looks at the water"));
}

/// On the ring that is tight, by hand from which of the two seats has an interference.
#[test]
fn practice_a_bearing_is_pushed_on_the_ring_that_is_tight() {
    for (shaft, housing, words) in [
        ("0.01", "-0.01", "Push on the inner ring"),
        ("-0.01", "0.01", "Push on the outer ring"),
        ("0.01", "0.01", "Push on both rings at once"),
        ("-0.01", "-0.01", "It slides in by hand"),
        ("", "0.01", "Push on the ring that is being fitted"),
    ] {
        let fields = [
            ("kind", "press-fit"),
            ("name", "Bearing"),
            ("what", "bearing"),
            ("shaft", shaft),
            ("housing", housing),
        ];
        let job = journal(&draft("this", &fields)).job();
        let card = card(&job, &job.fits[&Key::new("this").unwrap()]);
        let push = card.of(Part::Do).any(|line| line.words.starts_with(words));
        assert!(push, "{shaft} {housing}");
    }
}

/// By hand: 30 mm seat, 0.010 mm tight and 0.020 mm wanted, 12e-6 per kelvin: 0.030 / (30 × 12e-6)
/// is 83.3 K over 20 °C. At 0.030 mm tight it is 138.9 K, 159 °C, and rubber seals bear 110 °C.
#[test]
fn practice_a_warmed_bearing_slips_or_would_be_too_hot() {
    let of = |tight: &'static str| {
        let fields = [
            ("kind", "press-fit"),
            ("name", "Bearing"),
            ("what", "sealed-bearing"),
            ("shaft", tight),
            ("housing", "-0.01"),
            ("diameter", "30"),
        ];
        let job = journal(&draft("this", &fields)).job();
        card(&job, &job.fits[&Key::new("this").unwrap()])
    };
    let slips = of("0.010");
    let warm = |line: &workshop::fits::Line| line.words.contains("to 103\u{a0}°C");
    assert!(slips.of(Part::Do).any(warm), "{:?}", slips.lines);
    let hot = of("0.030");
    assert!(hot.mind[0].contains("159\u{a0}°C") && hot.mind[0].contains("110\u{a0}°C"));
}

#[test]
fn practice_epdm_gets_no_mineral_grease_and_an_anode_nothing() {
    let first = |draft: &FitDraft| {
        let job = journal(draft).job();
        let card = card(&job, &job.fits[&Key::new(&draft.key).unwrap()]);
        card.of(Part::PutOn).next().unwrap().words.clone()
    };
    let ring = |rubber| {
        first(&draft(
            "this",
            &[("kind", "o-ring"), ("name", "Ring"), ("rubber", rubber)],
        ))
    };
    assert!(ring("epdm").contains("No mineral grease"));
    assert!(ring("natural").contains("No mineral grease"));
    assert!(ring("nitrile").contains("this rubber bears it"));
    assert!(first(&with(ANODE, &[])).starts_with("Nothing:"));
}

#[test]
fn practice_a_seat_is_proved_with_the_ohmmeter() {
    let plain = with(ANODE, &[]);
    for (ohms, ends) in [
        ("0.4", true),
        ("1", true),
        ("1.1", false),
        ("20 ohm", false),
    ] {
        let mut journal = journal(&plain);
        journal.record(checked(&plain, &all_checks(&plain), ohms));
        assert_eq!(done(&journal, &plain), ends, "{ohms}");
    }
    // The manual's own figure goes before common practice.
    let strict = with(ANODE, &[("greatest", "0.2")]);
    let mut journal = journal(&strict);
    journal.record(checked(&strict, &all_checks(&strict), "0.4"));
    assert!(!done(&journal, &strict));
}

#[test]
fn practice_some_play_is_left_in_a_spline() {
    let plain = draft(
        "this",
        &[("kind", "spline"), ("name", "Spline"), ("bumpers", "no")],
    );
    let stated = draft(
        "this",
        &[
            ("kind", "spline"),
            ("name", "Spline"),
            ("bumpers", "no"),
            ("least", "0.5"),
            ("greatest", "2"),
        ],
    );
    for (draft, play, ends) in [
        (&plain, "0", false),
        (&plain, "0.2", true),
        (&stated, "0.2", false),
        (&stated, "0.5", true),
        (&stated, "2", true),
        (&stated, "2.1", false),
    ] {
        let mut journal = journal(draft);
        journal.record(checked(draft, &all_checks(draft), play));
        assert_eq!(done(&journal, draft), ends, "{play}");
    }
    let mut unread = journal(&plain);
    unread.record(checked(&plain, &all_checks(&plain), ""));
    assert!(!done(&unread, &plain));
}

#[test]
fn law_done_is_every_tick_of_its_kind() {
    for draft in every_kind() {
        let reading = match draft.get("kind") {
            "spline" => "1",
            "anode" => "0.3",
            _ => "",
        };
        let all = all_checks(&draft);
        let mut journal = journal(&draft);
        for ticked in 0..all.split(' ').count() {
            let some: Vec<&str> = all.split(' ').take(ticked).collect();
            if !some.is_empty() {
                journal.record(checked(&draft, &some.join(" "), reading));
            }
            assert!(!done(&journal, &draft), "{} {ticked}", draft.key);
        }
        journal.record(checked(&draft, &all, reading));
        assert!(done(&journal, &draft), "{}", draft.key);
        journal.act(Act::Undo);
        assert!(!done(&journal, &draft), "{}", draft.key);
    }
}

#[test]
fn law_what_was_told_stands_beside_the_ticks() {
    let draft = with(IMPELLER, &[]);
    let mut journal = journal(&draft);
    journal.record(checked(&draft, "clean", ""));
    let job = journal.job();
    let told = job.fits[&Key::new("this").unwrap()]
        .checked
        .clone()
        .unwrap();
    let shown = told.value.shown.unwrap();
    assert_eq!(shown.torque, Some(105.0));
    assert_eq!(shown.tighten, Some((Turn::Clockwise, End::Aft)));
    assert_eq!(told.value.ticks, [Check::Clean]);
}

#[test]
fn law_a_job_of_every_kind_leaves_as_a_draft_and_comes_back() {
    let mut journal = Journal::described();
    for draft in every_kind() {
        journal.record(described(&draft));
        let reading = if draft.key == "anode" { "0.3" } else { "" };
        journal.record(checked(&draft, &all_checks(&draft), reading));
    }
    let there = JobDraft::of(&journal.job());
    assert_eq!(there.fits.len(), every_kind().len());
    assert!(there.acts(&journal.job()).unwrap().is_empty());
    let mut again = Journal::default();
    for act in there.acts(&again.job()).unwrap() {
        again.act(act);
    }
    assert_eq!(JobDraft::of(&again.job()), there);
    // What belongs to one craft stays behind.
    let card = JobDraft::card(&journal.job());
    assert_eq!(card.fits.len(), there.fits.len() - 1);
    for fit in &card.fits {
        for field in ["checked", "reading", "threads", "studs"] {
            assert_eq!(fit.get(field), "", "{}", fit.key);
        }
    }
}

#[test]
fn law_what_makes_no_sense_is_refused_with_the_way_out() {
    for (fields, other, why) in [
        (ANODE, ("kind", "glue"), "“glue” is none of"),
        (ANODE, ("lip_1", "keeps-water-out"), "has no “lip_1”"),
        (ANODE, ("greatest", "0.2 mm"), "mm"),
        (IMPELLER, ("hand", "both"), "“both” is none of"),
        (IMPELLER, ("drive", ""), "must be filled in"),
    ] {
        let why_not = with(fields, &[other]).read().unwrap_err().to_string();
        assert!(why_not.contains(why), "{other:?}: {why_not}");
    }
    let fill: &[(&str, &str)] = &[
        ("kind", "fill"),
        ("name", "Grease"),
        ("with", "grease"),
        ("product", "grease"),
        ("until", "amount"),
    ];
    let press: &[(&str, &str)] = &[("kind", "press-fit"), ("name", "Bush"), ("what", "bush")];
    for (fields, other, why) in [
        (fill, ("amount", "30"), "30 g or 60 mL"),
        (fill, ("amount", ""), "must be filled in"),
        (press, ("front", "sealed-side"), "A bush has no front"),
        (press, ("shaft", "10"), "outside -1 to 1"),
        (IMPELLER, ("torque", ""), "must be filled in"),
        (IMPELLER, ("torque", "10500"), "outside 0.1 to 1000"),
        (ANODE, ("greatest", "1000"), "outside 0.01 to 100"),
        (ANODE, ("name", " "), "must be filled in"),
    ] {
        let body = described(&with(fields, &[other]));
        let why_not = refused(&mut Journal::described(), body);
        assert!(why_not.contains(why), "{other:?}: {why_not}");
    }
}

#[test]
fn law_strange_ticks_and_readings_are_refused() {
    let anode = with(ANODE, &[]);
    let fit = anode.read().unwrap();
    let read = |checked: &str| {
        let draft = with(ANODE, &[("checked", checked)]);
        draft.checked(&fit).unwrap_err().to_string()
    };
    assert_eq!(
        read("bare greased"),
        "“greased” is nothing to tick at this joint. It has: bare, tightened, unpainted."
    );
    let plug = draft(
        "this",
        &[("kind", "plug"), ("name", "Plug"), ("reading", "0.4")],
    );
    let why = plug.checked(&plug.read().unwrap()).unwrap_err().to_string();
    assert!(why.contains("Nothing is measured at this joint"), "{why}");
    let why = refused(&mut Journal::described(), checked(&anode, "bare", ""));
    assert!(why.contains("There is no joint “this”"), "{why}");
    // Ticks of one kind sent to another, as another device could.
    let mut journal = journal(&anode);
    let why = refused(
        &mut journal,
        checked(
            &draft("this", &[("kind", "plug"), ("name", "Plug")]),
            "dry",
            "",
        ),
    );
    assert!(why.contains("“dry” is nothing to tick"), "{why}");
}

#[test]
fn law_ticks_of_another_kind_are_kept_and_objected_to() {
    let anode = with(ANODE, &[]);
    let mut journal = journal(&anode);
    journal.record(checked(&anode, "bare", "0.4"));
    assert!(journal.objections().is_empty());
    journal.record(described(&draft(
        "this",
        &[("kind", "plug"), ("name", "Plug")],
    )));
    let why: Vec<Misfit> = journal.objections().iter().map(|o| o.why).collect();
    assert_eq!(why, [Misfit::TicksOfAnother]);
    let mut strays = Journal::described();
    strays.force(checked(&anode, "bare", ""));
    let why: Vec<Misfit> = strays.objections().iter().map(|o| o.why).collect();
    assert_eq!(why, [Misfit::NoSuchFit]);
}
