//! The questions before the usual plan.

use workshop::draft::bench::UsualDraft;
use workshop::usual::Craft;

use super::{Blank, choice, many, number};
use crate::page::{Field, Form, FormName, Refused, Section};

const RINGS: [(&str, &str); 3] = [
    ("pressed", "a new one is pressed in"),
    ("bonded", "a new one is bonded in"),
    ("stays", "it stays"),
];
const DRIVELINES: [(&str, &str); 3] = [
    ("gauge-bar", "gauge bar, four shaft angles"),
    ("dial", "dial on rim and face"),
    ("bolted", "not at all: bolted solid"),
];
const SHOES: [(&str, &str); 2] = [
    ("stays", "one with the hull, or sound"),
    ("bonded", "bonded in anew"),
];
const BEARINGS: [(&str, &str); 2] = [("greased", "grease"), ("oil", "oil")];
const HAS: [(&str, &str); 8] = [
    ("reverse", "a reverse gate"),
    ("trim", "trim"),
    ("second-bailer", "a second bailer line"),
    ("conical-ring", "a conical ring, set by shims"),
    ("cooling-plate", "a ride plate that cools the engine"),
    ("by-wire", "throttle, steering or reverse by wire"),
    ("painted-nozzle", "a nozzle to be painted"),
    ("hull-repair", "hull to be filled at intake or plate"),
];

/// The usual plan, with answers that may stay as they are.
pub(crate) fn usual(refused: Option<&Refused>, open: bool) -> Form {
    let draft = UsualDraft::of(&Craft::default());
    let has = HAS.map(|(word, label)| (word.to_owned(), label.to_owned()));
    let mut fields = vec![
        choice("ring", "The wear ring", &draft.ring, &RINGS),
        choice(
            "driveline",
            "The driveline is checked",
            &draft.driveline,
            &DRIVELINES,
        ),
        choice("shoe", "The pump shoe is", &draft.shoe, &SHOES),
        choice(
            "bearing",
            "The pump’s bearings run in",
            &draft.bearing,
            &BEARINGS,
        ),
        many("has", "The craft has", &draft.has.join(" "), has.to_vec()),
    ];
    fields.extend(counts(&draft));
    let blank = Blank {
        name: FormName::Usual,
        heading: "Lay the usual plan",
        intro: "A whole rebuild, from the first photograph to the recheck after the first hour. It is \
                common practice, from no manual: every time in it is assumed. Put in what your manual \
                and your data sheets say.",
        submit: "Lay the usual plan",
        fields,
    };
    blank.with(refused, open)
}

/// Why the plan was not laid, where the page has a plan and no longer this form.
pub(crate) fn not_laid(refused: Option<&Refused>) -> Option<Section> {
    let refused = refused.filter(|refused| refused.form == FormName::Usual)?;
    Some(Section::Notes {
        heading: "The usual plan was not laid".to_owned(),
        notes: vec![refused.why.clone()],
    })
}

fn counts(draft: &UsualDraft) -> [Field; 6] {
    let count = |key, label, value: &str| number(key, label, value);
    [
        count("housing", "Bolts of the housing joint", &draft.housing)
            .hint("Count them, so that none is forgotten. Each of these may stay empty."),
        count("cone", "Screws of the tail cone", &draft.cone),
        count("nozzle", "Bolts of the nozzle", &draft.nozzle),
        count("pump", "Bolts of the pump to its shoe", &draft.pump),
        count("grate", "Bolts of the intake grate", &draft.grate),
        count("plate", "Bolts of the ride plate", &draft.plate),
    ]
}
