//! The as-found record: what is taken, what is refused, and where it comes back.

use quantity::Unit;
use workshop::act::Act;
use workshop::draft::inspect::{Sheet, free_key};
use workshop::draft::{FitDraft, InspectionDraft};
use workshop::entry::{Body, Key};
use workshop::fits::card;
use workshop::inspect::found::{Clock, Seen, Sort, all, beside, record};

use crate::inspect::{Fields, draft, keep, say, with};
use crate::journal::Journal;

const GAP: Fields = &[("sort", "gap"), ("gap", "13-18")];
const MARKS: Fields = &[
    ("sort", "witness-marks"),
    ("at", "hull"),
    ("marks", "in-line"),
];
const SHIMS: Fields = &[
    ("sort", "shims"),
    ("at", "mounts"),
    ("shims", "A: 0.5, 0.2; B: none; C: 0.5"),
];
const HOSE: Fields = &[
    ("sort", "hose"),
    ("at", "1"),
    ("from", "pump"),
    ("to", "exhaust"),
];
const CABLE: Fields = &[
    ("sort", "cable"),
    ("at", "Steering cable"),
    ("threads", "7"),
];
const RING: Fields = &[("sort", "ring"), ("clock", "4:30")];
const OTHER: Fields = &[
    ("sort", "other"),
    ("at", "bailer"),
    ("words", "full of sand"),
];

const EVERY: [(&str, Fields); 7] = [
    ("gap", GAP),
    ("marks", MARKS),
    ("shims", SHIMS),
    ("hose", HOSE),
    ("cable", CABLE),
    ("ring", RING),
    ("other", OTHER),
];

fn fit(journal: &mut Journal, key: &str, fields: &[(&str, &str)]) {
    let text = |field: &str| {
        let found = fields.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    };
    let fit = FitDraft::new(key.to_owned(), text).read().unwrap();
    let key = Key::new(key).unwrap();
    journal.record(Body::FitDescribed { key, fit });
}

/// What its card says of it: the lines about what was found, and what to mind.
fn card_of(journal: &Journal, key: &str) -> (Vec<String>, Vec<String>) {
    let job = journal.job();
    let card = card(&job, &job.fits[&Key::new(key).unwrap()]);
    let lines = card.lines.iter().map(|line| line.words.clone());
    let found = lines
        .filter(|words| words.starts_with("As found"))
        .collect();
    (found, card.mind)
}

#[test]
fn law_the_record_is_whole_when_each_thing_is_seen_or_is_not_there() {
    let mut journal = Journal::described();
    assert_eq!(record(&journal.job()).missing, Sort::ASKED);
    keep(&mut journal, Sheet::AsFound, "gap", GAP);
    keep(&mut journal, Sheet::AsFound, "marks", MARKS);
    keep(
        &mut journal,
        Sheet::AsFound,
        "shims",
        &[("sort", "shims"), ("state", "none")],
    );
    keep(
        &mut journal,
        Sheet::AsFound,
        "hose",
        &[("sort", "hose"), ("state", "apart")],
    );
    let stands = record(&journal.job());
    assert_eq!(stands.missing, [Sort::Cable, Sort::Ring]);
    keep(&mut journal, Sheet::AsFound, "cable", CABLE);
    keep(&mut journal, Sheet::AsFound, "ring", RING);
    let stands = record(&journal.job());
    assert_eq!((stands.missing, stands.opened), (vec![], false));
    journal.act(Act::Undo);
    assert_eq!(record(&journal.job()).missing, [Sort::Ring]);
}

#[test]
fn law_what_can_only_be_seen_inside_says_that_it_is_open() {
    let opened = |sheet, fields: Fields| {
        let mut journal = Journal::described();
        keep(&mut journal, sheet, "x", fields);
        record(&journal.job()).opened
    };
    let sound = |area| [("area", area), ("flaw", "nothing"), ("todo", "fit")];
    assert!(!opened(Sheet::Finding, &sound("grate")));
    assert!(!opened(Sheet::Finding, &sound("anode")));
    assert!(opened(Sheet::Finding, &sound("seal")));
    assert!(opened(Sheet::Rotor, &[("spin", "smooth")]));
    assert!(!opened(Sheet::AsFound, CABLE));
}

#[test]
fn law_what_was_found_comes_back_out_of_its_sheet() {
    for (key, fields) in EVERY {
        for unit in [Unit::Thou, Unit::Millimetre] {
            let said = draft(Sheet::AsFound, key, fields).read(unit).unwrap();
            let again = InspectionDraft::of(&said, unit);
            assert_eq!(again.read(unit).unwrap(), said, "{again:?}");
        }
    }
}

#[test]
fn law_shims_are_summed_by_stud() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::AsFound, "shims", SHIMS);
    let job = journal.job();
    let Seen::Shims(stacks) = &all(&job)[0].1.value.seen else {
        panic!("shims");
    };
    let told: Vec<(&str, String)> = stacks
        .iter()
        .map(|stack| (stack.stud.as_str(), format!("{:.6}", stack.total())))
        .collect();
    assert_eq!(
        told,
        [("A", "0.000700"), ("B", "0.000000"), ("C", "0.000500")]
            .map(|(stud, sum)| (stud, sum.to_owned()))
    );
    assert_eq!(
        all(&job)[0].1.value.to_string(),
        "stud A: 0.70\u{a0}mm (0.2\u{a0}mm + 0.5\u{a0}mm); stud B: none; stud C: 0.5\u{a0}mm"
    );
}

#[test]
fn law_a_clock_is_read_as_it_is_spoken() {
    for (text, said) in [
        ("12", "12"),
        ("4:30", "4:30"),
        ("4.30", "4:30"),
        ("9 o’clock", "9"),
        ("12:05", "12:05"),
    ] {
        assert_eq!(Clock::read(text).unwrap().to_string(), said);
    }
    for text in ["", "0", "13", "4:60", "noon", "-3"] {
        assert_eq!(Clock::read(text), None, "{text}");
    }
}

#[test]
fn law_a_refusal_of_the_record_names_the_field_and_the_way_out() {
    let mut journal = Journal::described();
    for (fields, field, words) in [
        (with(GAP, &[("gap", "")]), "gap", "This is empty"),
        (
            with(GAP, &[("gap", "18-13")]),
            "gap",
            "“18” must be smaller",
        ),
        (with(GAP, &[("gap", "300")]), "gap", "“300” was read as"),
        (with(MARKS, &[("at", "")]), "at", "This is empty"),
        (
            with(MARKS, &[("moved", "2")]),
            "moved",
            "Marks in line have not moved.",
        ),
        (
            with(MARKS, &[("marks", "moved"), ("moved", "2 m")]),
            "moved",
            "“2 m” is",
        ),
        (
            with(SHIMS, &[("shims", "0.5 0.2")]),
            "shims",
            "“0.5 0.2” does not say which stud",
        ),
        (
            with(SHIMS, &[("shims", "A: 0.5; A: 0.2")]),
            "shims",
            "Stud “A” is named twice.",
        ),
        (
            with(SHIMS, &[("shims", "A: 50")]),
            "shims",
            "“50” was read as 50",
        ),
        (with(SHIMS, &[("shims", "A: thick")]), "shims", "“thick”"),
        (with(HOSE, &[("to", "")]), "to", "This is empty"),
        (with(CABLE, &[("threads", "many")]), "threads", "“many”"),
        (with(CABLE, &[("threads", "61")]), "threads", "“61”"),
        (
            with(CABLE, &[("gap", "13")]),
            "gap",
            "This belongs to another kind of record.",
        ),
        (
            with(CABLE, &[("state", "none")]),
            "threads",
            "It is said not to be there",
        ),
        (
            with(RING, &[("clock", "13")]),
            "clock",
            "“13” is no place of a clock.",
        ),
        (with(OTHER, &[("words", "")]), "words", "This is empty"),
    ] {
        let why = say(&mut journal.clone(), Sheet::AsFound, "x", &fields).unwrap_err();
        assert_eq!(why.field(), Some(field), "{why}");
        assert!(why.to_string().starts_with(words), "{why}");
    }
    // There are none, and one is on record.
    keep(&mut journal, Sheet::AsFound, "cable", CABLE);
    let none: Fields = &[("sort", "cable"), ("state", "none")];
    let why = say(&mut journal.clone(), Sheet::AsFound, "none", none).unwrap_err();
    assert_eq!(why.field(), Some("state"));
    assert!(why.to_string().contains("7 threads showing"), "{why}");
    // The other way about, what was seen since counts.
    let mut late = Journal::described();
    keep(&mut late, Sheet::AsFound, "none", none);
    keep(&mut late, Sheet::AsFound, "cable", CABLE);
    assert_eq!(all(&late.job()).len(), 1);
}

#[test]
fn law_the_cable_card_says_what_was_found_and_what_differs() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::AsFound, "steering-cable", CABLE);
    let cable = |threads| {
        [
            ("kind", "cable"),
            ("name", "Steering cable"),
            ("threads", threads),
        ]
    };
    fit(&mut journal, "steering", &cable("7"));
    let (found, mind) = card_of(&journal, "steering");
    assert_eq!(found, ["As found, Steering cable: 7 threads showing."]);
    assert_eq!(mind, Vec::<String>::new());
    fit(&mut journal, "steering", &cable("5"));
    let (_, mind) = card_of(&journal, "steering");
    assert!(
        mind[0].starts_with("As found 7 threads showed, and 5 are said here."),
        "{mind:?}"
    );
    // Another cable has another number, and of two nobody knows which is meant by no name.
    let reverse: Fields = &[("sort", "cable"), ("at", "Reverse cable"), ("threads", "4")];
    keep(&mut journal, Sheet::AsFound, "reverse", reverse);
    let (found, mind) = card_of(&journal, "steering");
    assert_eq!((found.len(), mind.len()), (1, 1));
    fit(
        &mut journal,
        "trim",
        &[("kind", "cable"), ("name", "Trim cable"), ("threads", "3")],
    );
    let (found, mind) = card_of(&journal, "trim");
    assert_eq!((found.len(), mind.len()), (2, 0));
}

#[test]
fn law_the_shim_card_says_which_stud_differs() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::AsFound, "shims", SHIMS);
    let shims = |studs| [("kind", "shims"), ("name", "Mount shims"), ("studs", studs)];
    fit(&mut journal, "mounts", &shims("0.7; 0; 0.5"));
    let (found, mind) = card_of(&journal, "mounts");
    assert_eq!((found.len(), mind), (1, vec![]));
    fit(&mut journal, "mounts", &shims("0.7; 0.2; 0.5"));
    let (_, mind) = card_of(&journal, "mounts");
    assert!(
        mind[0].contains("stud B: 0.00\u{a0}mm as found, now 0.2\u{a0}mm"),
        "{mind:?}"
    );
    fit(&mut journal, "mounts", &shims("0.7; 0.5"));
    let (_, mind) = card_of(&journal, "mounts");
    assert!(mind[0].contains("shims at 3 studs, and 2"), "{mind:?}");
}

#[test]
fn practice_what_is_needed_again_stands_beside_its_step() {
    let mut journal = Journal::described();
    for (key, fields) in EVERY {
        keep(&mut journal, Sheet::AsFound, key, fields);
    }
    let job = journal.job();
    let sort = |name: &str| beside(&job, name).first().map(|fact| fact.value.sort);
    assert_eq!(sort("Press the new ring in"), Some(Sort::Ring));
    assert_eq!(sort("Steering cable on"), Some(Sort::Cable));
    assert_eq!(sort("Hoses on"), Some(Sort::Hose));
    assert_eq!(sort("Engine mounts to bed"), Some(Sort::Shims));
    assert_eq!(sort("Driveline in, coupling greased"), Some(Sort::Shims));
    assert_eq!(sort("Bearing cover to stator"), None);
}

#[test]
fn law_a_new_record_gets_a_key_of_its_words() {
    let mut journal = Journal::described();
    let key = |journal: &Journal, fields: Fields| {
        free_key(&journal.job(), &draft(Sheet::AsFound, "", fields))
            .unwrap()
            .to_string()
    };
    assert_eq!(key(&journal, CABLE), "steering-cable");
    keep(&mut journal, Sheet::AsFound, "steering-cable", CABLE);
    assert_eq!(key(&journal, CABLE), "steering-cable-2");
    assert_eq!(key(&journal, RING), "ring");
}
