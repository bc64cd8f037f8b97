//! Short forms for compounds, seals and metals.

use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::entry::Key;
use workshop::inspect::Inspection;
use workshop::job::Job;
use workshop::seals::thread::usual;
use workshop::seals::{Sealing, Stuff};

use super::inspect::blank;
use super::{Blank, about, choice, choice_of, line, number};
use crate::page::{Form, FormName, Refused};

const WATERS: [(&str, &str); 3] = [
    ("salt", "salt"),
    ("brackish", "brackish"),
    ("fresh", "fresh"),
];
const THREADS: [(&str, &str); 7] = [
    ("threadlocker-medium", "medium-strength threadlocker"),
    ("threadlocker-low", "low-strength threadlocker"),
    ("threadlocker-high", "high-strength threadlocker"),
    ("grease", "marine grease"),
    ("anti-seize", "anti-seize without copper"),
    ("copper-anti-seize", "anti-seize with copper or graphite"),
    ("ptfe-paste", "PTFE paste"),
];
const FACES: [(&str, &str); 6] = [
    ("neutral-silicone", "silicone, neutral cure"),
    ("acetoxy-silicone", "silicone that smells of vinegar"),
    ("polyurethane", "polyurethane"),
    ("hybrid-polymer", "hybrid polymer"),
    ("flange-sealant", "anaerobic flange sealant"),
    ("epoxy", "two-part epoxy"),
];
const EDGES: [(&str, &str); 2] = [
    ("both", "both edges"),
    ("one", "one edge: the other ends at a seal or at water"),
];
const PRIMED: [(&str, &str); 2] = [("no", "no"), ("yes", "yes, on both threads")];
const STAINLESS: [(&str, &str); 3] = [
    ("", "not stamped: A2 is assumed"),
    ("a2", "A2"),
    ("a4", "A4"),
];
const COATS: [(&str, &str); 4] = [
    ("", "not looked at: scratched is assumed"),
    ("whole", "whole"),
    ("scratched", "scratched"),
    ("none", "there is none"),
];
const MEASURES: [(&str, &str); 4] = [
    ("", "not said"),
    ("taken", "done"),
    ("open", "could be done"),
    ("shut", "cannot be done here"),
];

/// The water the craft runs in, and the air at the bench.
pub(crate) fn around(job: &Job, refused: Option<&Refused>) -> Form {
    let had = job.seals().bench.as_ref();
    let draft = had.map_or_else(
        || blank(Sheet::Bench),
        |fact| draft(Sealing::Bench(fact.value.clone()), job),
    );
    let or = |key: &'static str, or: &'static str| match draft.get(key) {
        "" if had.is_none() => or.to_owned(),
        text => text.to_owned(),
    };
    let blank = Blank {
        name: FormName::Around,
        heading: "The water, and the air at the bench",
        intro: "The saltiest water the craft sees. Cures wait for warmth and damp: what stands here is \
                assumed until it is kept.",
        submit: "Keep water and air",
        fields: vec![
            choice("water", "Water", &or("water", "salt"), &WATERS),
            number(
                "temperature",
                "Temperature at the bench",
                &or("temperature", "23"),
            )
            .unit("°C"),
            number("humidity", "Relative humidity", &or("humidity", "50")).unit("%"),
        ],
    };
    blank.with(refused, false)
}

/// A compound by its own data sheet; without a key a new one.
pub(crate) fn compound(job: &Job, key: Option<&Key>, refused: Option<&Refused>) -> Form {
    let had = key.and_then(|key| Some((key, &job.seals().compounds.get(key)?.value)));
    let draft = had.map_or_else(
        || blank(Sheet::Compound),
        |(key, own)| {
            let (key, compound) = (key.clone(), own.clone());
            draft(Sealing::Compound { key, compound }, job)
        },
    );
    let of = |key: &'static str| draft.get(key);
    let classes: Vec<_> = THREADS.iter().chain(&FACES).copied().collect();
    let form = Blank {
        name: FormName::Compound,
        heading: if had.is_some() {
            "Change a compound of yours"
        } else {
            "A compound of yours, by its data sheet"
        },
        intro: "What the sheet does not say may stay empty: its class’s figures then count. Figures \
                at 23 °C and 50 % humidity.",
        submit: "Keep the compound",
        fields: vec![
            line("name", "What stands on it", of("name")).hint("grey sealant, second shelf"),
            choice("class", "It is", of("class"), &classes),
            line("made", "Made on", of("made")).hint("2026-05-09"),
            number("shelf", "It keeps", of("shelf")).unit("months"),
            number("working", "It can be worked for", of("working")).unit("min"),
            number("skin", "It has a skin after", of("skin")).unit("min"),
            number("cure_depth", "It cures in the first day", of("cure_depth"))
                .unit("mm")
                .hint("if it cures by damp air: silicone, polyurethane, hybrid"),
            number(
                "cure_time",
                "or it has full strength after",
                of("cure_time"),
            )
            .unit("h")
            .hint("if it is a threadlocker, flange sealant or epoxy"),
        ],
    };
    about(form, ("compound", draft.key.clone()), refused, false)
}

/// What is on the thread of a joint.
pub(crate) fn on_thread(job: &Job, key: &Key, refused: Option<&Refused>) -> Form {
    let had = job.seals().threads.get(key).map(|fact| &fact.value);
    let condition = job.joints.get(key).map(|state| state.joint.value.condition);
    let usual = condition
        .and_then(usual)
        .map(|usual| Stuff::Class(usual).word());
    let with = had.map_or(usual.unwrap_or_default(), |on| on.with.word());
    let primed = if had.is_some_and(|on| on.primed) {
        "yes"
    } else {
        "no"
    };
    let form = Blank {
        name: FormName::OnThread,
        heading: "What is on the thread",
        intro: "",
        submit: "Keep it",
        fields: vec![
            choice_of("with", "On the thread", &with, stuffs(job, &THREADS)),
            choice("primed", "Activator", primed, &PRIMED),
        ],
    };
    about(form, ("joint", key.to_string()), refused, false)
}

/// A bead of sealant on the face of a joint.
pub(crate) fn seal(job: &Job, key: &Key, refused: Option<&Refused>) -> Form {
    let draft = job.seals().seals.get(key).map_or_else(
        || blank(Sheet::Seal),
        |fact| {
            let (joint, seal) = (key.clone(), fact.value.clone());
            draft(Sealing::Seal { joint, seal }, job)
        },
    );
    let mm = |key, label| number(key, label, draft.get(key)).unit("mm");
    let form = Blank {
        name: FormName::Seal,
        heading: "The bead on the face",
        intro: "Measured across the face, the bead along its middle.",
        submit: "Keep the bead",
        fields: vec![
            choice_of("with", "Sealant", draft.get("with"), stuffs(job, &FACES)),
            mm("sealed", "It must seal at least so wide").hint("4"),
            mm("room", "It reaches an edge or a water passage when so wide").hint("10"),
            choice(
                "edges",
                "Air reaches the film from",
                draft.get("edges"),
                &EDGES,
            ),
            mm("passage", "Diameter of the nearest water passage").hint("may stay empty"),
            mm("line", "Length of the line").hint("may stay empty"),
            mm("gap_low", "Gap left between the faces, least")
                .hint("if you measured it; else 0.02 to 0.10 mm is assumed"),
            mm("gap_high", "and greatest"),
        ],
    };
    about(form, ("joint", key.to_string()), refused, false)
}

/// The metals of a joint.
pub(crate) fn contact(job: &Job, key: &Key, refused: Option<&Refused>) -> Form {
    let draft = job.seals().contacts.get(key).map_or_else(
        || blank(Sheet::Contact),
        |fact| {
            let (joint, contact) = (key.clone(), fact.value.clone());
            draft(Sealing::Contact { joint, contact }, job)
        },
    );
    let measure = |key, label| choice(key, label, draft.get(key), &MEASURES);
    let form = Blank {
        name: FormName::Contact,
        heading: "Its metals and coats",
        intro: "",
        submit: "Keep the metals",
        fields: vec![
            choice(
                "screw",
                "Screws of stainless",
                draft.get("screw"),
                &STAINLESS,
            ),
            choice("coat", "Paint round the screws", draft.get("coat"), &COATS),
            measure("sealed", "Water kept out of thread and head"),
            measure("coated", "Heads of the screws painted"),
            measure("insulated", "Washer and sleeve that insulate"),
            measure("anode", "Anode in metallic contact"),
        ],
    };
    about(form, ("joint", key.to_string()), refused, false)
}

fn draft(said: Sealing, job: &Job) -> InspectionDraft {
    InspectionDraft::of(&Inspection::Sealing(said), job.unit())
}

/// The classes that belong there, and of the person's own those of such a class.
fn stuffs(job: &Job, classes: &[(&'static str, &'static str)]) -> Vec<(String, String)> {
    let belongs = |class| {
        let word = Stuff::Class(class).word();
        classes.iter().any(|(known, _)| *known == word)
    };
    let own = job.seals().compounds.iter();
    let own = own.filter(|(_, fact)| belongs(fact.value.class));
    let own = own.map(|(key, fact)| (key.to_string(), fact.value.name.clone()));
    let classes = classes.iter();
    let classes = classes.map(|(word, label)| ((*word).to_owned(), (*label).to_owned()));
    own.chain(classes).collect()
}
