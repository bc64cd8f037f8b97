//! What leaves as a job file comes back as the same job.

use jobfile::{By, parse, stored, write};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use workshop::draft::inspect::{Sheet, drafts};
use workshop::draft::{
    BenchDraft, InspectionDraft, JobDraft, LeavesDraft, LimitsDraft, PumpDraft, WalkDraft,
};
use workshop::entry::{Entry, JobId};
use workshop::fold::fold;
use workshop::job::{Fact, Job};

use crate::bench::bench;
use crate::choose::{choices, run_on};
use crate::diagnose::{searches, suspecting};
use crate::joints::{fits, joints, tools};
use crate::photos::photos;
use crate::upkeep::upkeeps;
use crate::water::trials;

fn by() -> By {
    By {
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: "test".to_owned(),
        who: String::new(),
    }
}

fn id() -> JobId {
    JobId::new("patrol-craft").unwrap()
}

/// The entries that a file brings into an empty store.
fn import(text: &str) -> Vec<Entry> {
    let file = parse("job.toml", text).unwrap_or_else(|complaint| panic!("{complaint}"));
    let new = file.entries(&id(), &[], &by());
    let new = new.unwrap_or_else(|error| panic!("{error}\n{text}"));
    stored(&new, 0)
}

fn export(entries: &[Entry]) -> String {
    write(&id(), &JobDraft::of(&fold(entries).0))
}

/// All of a job but its history: which entry said what, and when.
fn said(job: &Job) -> impl PartialEq + std::fmt::Debug + use<> {
    fn value<T: Clone>(fact: Option<&Fact<T>>) -> Option<T> {
        fact.map(|fact| fact.value.clone())
    }
    let tries = job.tries.iter().map(|(spot, tries)| {
        let tries: Vec<_> = tries.iter().map(|tried| tried.value.clone()).collect();
        (*spot, tries)
    });
    let joints = job.joints_in_order().into_iter().map(|(key, state)| {
        let fastened = state.fastened.as_ref().map(|fact| fact.value.clone());
        let fittings = &state.fittings;
        let said = (
            fittings.role(),
            value(fittings.hole.as_ref()),
            value(fittings.tool.as_ref()),
        );
        (key.clone(), state.joint.value.clone(), fastened, said)
    });
    let wrenches = job.wrenches_in_order().into_iter();
    let wrenches = wrenches.map(|(key, wrench)| (key.clone(), wrench.clone()));
    (
        (
            job.title.clone(),
            job.note.clone(),
            value(job.pump.as_ref()),
            value(job.leaves.as_ref()),
        ),
        (
            value(job.limits.as_ref()),
            job.walk(),
            tries.collect::<Vec<_>>(),
            joints.collect::<Vec<_>>(),
            wrenches.collect::<Vec<_>>(),
            JobDraft::of(job).fits,
        ),
        // What a draft holds of the plan is all of it but its history, and so it is of the teardown.
        (BenchDraft::of(job), drafts(job)),
        (
            JobDraft::of(job).photos,
            JobDraft::of(job).trials,
            JobDraft::of(job).choices,
            JobDraft::of(job).diagnosis,
        ),
    )
}

fn pump() -> impl Strategy<Value = PumpDraft> {
    let bore = select(vec!["155", "155 mm", "6-1/8 in", "15,5 cm", "0.155 m"]);
    let view = select(vec!["looking-forward", "looking-aft"]);
    let rotation = select(vec!["clockwise", "anticlockwise"]);
    (
        2..=8_u8,
        select(vec!["4", "6", "8", "12"]),
        bore,
        view,
        rotation,
    )
        .prop_map(|(blades, positions, bore, view, rotation)| PumpDraft {
            blades: blades.to_string(),
            positions: positions.to_owned(),
            bore: bore.to_owned(),
            view: view.to_owned(),
            rotation: rotation.to_owned(),
        })
}

/// A leaf as people write it where the unit is thou or millimetre.
fn leaf(unit: &'static str, number: u32) -> BoxedStrategy<String> {
    let written = match unit {
        "thou" => vec![
            format!("{number}"),
            format!("{number} thou"),
            format!("0.0{number:02} in"),
            format!("{number},0"),
        ],
        _ => vec![
            format!("0.{number:02}"),
            format!("0,{number:02}mm"),
            format!(".{number:02}"),
        ],
    };
    select(written).boxed()
}

fn leaves(unit: &'static str) -> impl Strategy<Value = LeavesDraft> {
    // Of a size with the readings below, whichever leaves the set has.
    let numbers = subsequence((10..33_u32).collect::<Vec<_>>(), 1..20);
    let list = numbers.prop_flat_map(move |numbers| {
        numbers
            .into_iter()
            .map(|number| leaf(unit, number))
            .collect::<Vec<_>>()
    });
    let lead = select(vec!["along-shaft", "round-ring", "under-edge"]);
    let posture = select(vec![
        "craft-upright",
        "craft-on-side",
        "bench-shaft-upright",
    ]);
    let own = select(vec!["", "0.004", "0.0002 in"]);
    (list, select(vec!["12.7", "1/2 in"]), lead, posture, own).prop_map(
        move |(list, width, lead, posture, own)| LeavesDraft {
            unit: unit.to_owned(),
            thicknesses: list.join("; "),
            width: width.to_owned(),
            lead: lead.to_owned(),
            posture: posture.to_owned(),
            tolerance: own.to_owned(),
            feel: own.to_owned(),
        },
    )
}

fn limits(unit: &'static str) -> impl Strategy<Value = LimitsDraft> {
    let measure = select(vec!["radial", "diametral"]);
    let sides = select(vec![(true, true), (true, false), (false, true)]);
    (
        leaf(unit, 12),
        leaf(unit, 18),
        measure,
        sides,
        "[0-9]{0,2}(-[0-9]{1,2})?",
        any::<bool>(),
    )
        .prop_map(
            |(least, greatest, measure, (low, high), page, rub_in)| LimitsDraft {
                least: if low { least } else { String::new() },
                greatest: if high { greatest } else { String::new() },
                measure: measure.to_owned(),
                page,
                rub_in,
            },
        )
}

fn walk(unit: &'static str) -> impl Strategy<Value = WalkDraft> {
    let two = (leaf(unit, 11), leaf(unit, 19)).prop_map(|(go, no_go)| WalkDraft {
        go,
        no_go,
        order: String::new(),
    });
    let round = WalkDraft {
        order: "round-first".to_owned(),
        ..WalkDraft::default()
    };
    prop_oneof![Just(WalkDraft::default()), Just(round), two]
}

fn readings(unit: &'static str) -> impl Strategy<Value = Vec<(String, String)>> {
    let answer = select(vec![
        "goes free",
        "drags",
        "won't go",
        "won’t go",
        "goes",
        "",
    ]);
    let tried = (
        (8..40_u32).prop_flat_map(move |number| leaf(unit, number)),
        answer,
    )
        .prop_map(|(leaf, answer)| format!("{leaf} {answer}").trim_end().to_owned());
    let reading = prop::collection::vec(tried, 1..40).prop_map(|tries| tries.join("; "));
    // Every set of clock positions has these.
    let spots = vec!["A 12", "A 6", "B 6:00", "B 12"];
    let spots = subsequence(spots, 0..=4).prop_shuffle();
    (spots, prop::collection::vec(reading, 4))
        .prop_map(|(spots, readings)| spots.into_iter().map(str::to_owned).zip(readings).collect())
}

fn typed(sheet: Sheet, key: &str, fields: &[(&str, &str)]) -> InspectionDraft {
    InspectionDraft::new(sheet, key.to_owned(), |field| {
        let found = fields.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    })
}

/// A compound long past its shelf life, which a file may tell of, where it went, and what is on a thread.
fn seals() -> [InspectionDraft; 3] {
    let compound = [
        ("name", "Grey, second shelf"),
        ("class", "hybrid-polymer"),
        ("working", "20"),
        ("skin", "1 h"),
        ("cure_depth", "3"),
        ("shelf", "12"),
        ("made", "2019-03-02"),
    ];
    let thread = [("with", "threadlocker-high"), ("primed", "yes")];
    let seal = [
        ("with", "grey"),
        ("sealed", "4"),
        ("room", "3/8 in"),
        ("edges", "both"),
    ];
    [
        typed(Sheet::Compound, "grey", &compound),
        typed(Sheet::Thread, "housing", &thread),
        typed(Sheet::Seal, "cone", &seal),
    ]
}

/// The sheets of the example, and one of every kind it has not. Two blades are the least there are,
/// and a gap says its unit, because the leaves may be in either.
fn sheets() -> Vec<InspectionDraft> {
    let sheet = |sheet: Sheet, fields: &[(&str, &str)]| typed(sheet, "", fields);
    let mut sheets = parse(
        "job.toml",
        include_str!("../../../cli/example/patrol-craft.toml"),
    )
    .unwrap_or_else(|complaint| panic!("{complaint}"))
    .draft
    .inspections;
    for draft in &mut sheets {
        if let Some(which) = draft.fields.get_mut("which") {
            *which = which.replace("A B C", "A B");
        }
        if matches!(draft.sheet, Sheet::Thread | Sheet::Seal | Sheet::Contact) {
            "housing".clone_into(&mut draft.key);
        }
        if let Some(gap) = draft.fields.get_mut("gap") {
            gap.push_str(" thou");
        }
    }
    sheets.extend([
        sheet(
            Sheet::Sizes,
            &[
                ("bore_12", "155.1"),
                ("impeller", "6.1 in"),
                ("method", "round"),
            ],
        ),
        sheet(
            Sheet::Ring,
            &[
                ("seat", "plastic-pressed"),
                ("wall", "5"),
                ("turning", "stainless"),
                ("bench", "18"),
                ("water", "50 °F"),
            ],
        ),
        sheet(
            Sheet::Cone,
            &[
                ("half_angle", "8"),
                ("fitted", "0"),
                ("shims", "0.1 0.1 0.3 mm"),
                ("stack", "closes"),
            ],
        ),
        sheet(
            Sheet::Reread,
            &[
                ("clock_12", "13-14 thou"),
                ("clock_9", "0.35 mm drags"),
                ("turns", "rubs"),
                ("rubs", "at 4 \"hard\""),
            ],
        ),
    ]);
    sheets.extend(seals());
    sheets
}

/// Some of the sheets; what is dealt with was noted.
fn inspections() -> impl Strategy<Value = Vec<InspectionDraft>> {
    let all = sheets();
    let count = all.len();
    subsequence(all, 0..=count).prop_map(|mut some| {
        let noted: Vec<String> = (some.iter())
            .filter(|draft| draft.sheet == Sheet::Finding)
            .map(|draft| draft.key.clone())
            .collect();
        some.retain(|draft| draft.sheet != Sheet::Settled || noted.contains(&draft.key));
        let grey = some.iter().any(|draft| draft.key == "grey");
        some.retain(|draft| grey || draft.get("with") != "grey");
        some
    })
}

fn job() -> impl Strategy<Value = JobDraft> {
    let joints = joints();
    let bench = bench();
    let title = "[^\\p{Cc}]{1,40}".prop_filter("a title is filled", |t| !t.trim().is_empty());
    let note = "([^\\p{Cc}]|\n){0,80}";
    select(vec!["thou", "mm"]).prop_flat_map(move |unit| {
        let joints = joints.clone();
        let bench = bench.clone();
        let stated = (prop::option::of(limits(unit)), prop::option::of(walk(unit)));
        (
            (title.clone(), "(|[a-z0-9-]{1,64})"),
            note,
            pump(),
            leaves(unit),
            stated,
            (
                readings(unit),
                inspections(),
                trials(),
                choices(),
                (searches(), upkeeps()),
            ),
        )
            .prop_map(
                move |(
                    (title, follows),
                    note,
                    pump,
                    leaves,
                    (limits, walk),
                    (readings, inspections, trials, choices, (search, upkeep)),
                )| {
                    JobDraft {
                        title,
                        note,
                        follows,
                        pump: Some(pump),
                        leaves: Some(leaves),
                        limits,
                        walk,
                        joints: joints.clone(),
                        tools: tools(),
                        fits: fits(),
                        bench: bench.clone(),
                        inspections,
                        photos: photos(),
                        choices: run_on(choices, &trials),
                        diagnosis: suspecting(search, &trials),
                        upkeep,
                        trials,
                        readings,
                    }
                },
            )
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_a_job_leaves_and_comes_back_the_same(draft in job()) {
        let there = import(&write(&id(), &draft));
        let text = export(&there);
        let again = import(&text);
        prop_assert_eq!(said(&fold(&again).0), said(&fold(&there).0));
        prop_assert_eq!(export(&again), text);
    }

    #[test]
    fn law_an_export_adds_nothing_to_its_own_job(draft in job()) {
        let there = import(&write(&id(), &draft));
        let file = parse("job.toml", &export(&there)).unwrap();
        prop_assert_eq!(file.entries(&id(), &there, &by()).unwrap(), Vec::new());
    }

    #[test]
    fn law_any_text_is_read_or_refused(text in "(?s).{0,200}") {
        let _ = parse("job.toml", &format!("format = \"pumpwright job\"\nversion = 1\n{text}"));
        let _ = parse("job.toml", &text);
    }
}

/// The unit behind a pair counts for both, so the first leaf is written out with it.
#[test]
fn law_a_leaf_of_another_unit_keeps_its_value() {
    let text = include_str!("../../../cli/example/patrol-craft.toml").replace(
        "\"A 12\" = \"13 goes free; 14 goes free; 15 won't go\"",
        "\"A 12\" = \"0.35-0.38 mm\"",
    );
    let there = import(&text);
    let again = import(&export(&there));
    let values = |entries: &[Entry]| -> Vec<u64> {
        let job = fold(entries).0;
        let tries = job.tries.values().flatten();
        tries
            .map(|tried| tried.value.leaf.value.to_bits())
            .collect()
    };
    assert_eq!(values(&again), values(&there));
    assert_eq!(export(&again), export(&there));
    assert!(export(&there).contains("\"A 12\" = \"0.35 mm goes; 0.38 mm won’t go\""));
}
