//! The things a person fills in. Values stand as typed; a refusal stands at its field.

pub(crate) mod account;
pub(crate) mod align;
pub(crate) mod choose;
pub(crate) mod devices;
pub(crate) mod diagnose;
mod fields;
pub(crate) mod finding;
pub(crate) mod fit;
pub(crate) mod found;
pub(crate) mod inspect;
pub(crate) mod photos;
pub(crate) mod plan;
pub(crate) mod seal;
pub(crate) mod service;
pub(crate) mod supply;
pub(crate) mod things;
pub(crate) mod tools;
pub(crate) mod usual;
pub(crate) mod water;
pub(crate) mod work;

use quantity::Unit;
use workshop::draft::{
    Choice, FastenedDraft, JointDraft, LeavesDraft, LimitsDraft, PumpDraft, WalkDraft, word,
};
use workshop::entry::Key;
use workshop::job::Job;
use workshop::joints::{Joint, JointState};

use self::fields::{choice, choice_of, field, line, many, number};
use super::{Field, FieldKind, Form, FormName, Refused};

/// A form still without its values.
struct Blank {
    name: FormName,
    heading: &'static str,
    intro: &'static str,
    submit: &'static str,
    fields: Vec<Field>,
}

impl Blank {
    /// Fills in what was typed and why it was refused, if this is the form that was refused.
    fn with(self, refused: Option<&Refused>, open: bool) -> Form {
        let mine = refused.filter(|refused| refused.form == self.name);
        let mut fields = self.fields;
        let mut refusal = None;
        if let Some(refused) = mine {
            for field in &mut fields {
                // Ticks of one field are sent one by one.
                let typed = refused.typed.iter().filter(|(key, _)| key == field.key);
                let typed: Vec<&str> = typed.map(|(_, text)| text.as_str()).collect();
                field.value = typed.join(" ");
                field.refusal = (refused.field == Some(field.key)).then(|| refused.why.clone());
            }
            if fields.iter().all(|field| field.refusal.is_none()) {
                refusal = Some(refused.why.clone());
            }
        }
        Form {
            name: self.name,
            heading: self.heading.to_owned(),
            intro: self.intro.to_owned(),
            quick: Vec::new(),
            fields,
            values: Vec::new(),
            submit: self.submit.to_owned(),
            refusal,
            open: open || mine.is_some(),
        }
    }
}

/// Begin a job.
pub fn open(jobs: &[(String, String)], refused: Option<&Refused>) -> Form {
    let mut like = vec![(String::new(), "no other: begin with nothing".to_owned())];
    like.extend_from_slice(jobs);
    let blank = Blank {
        name: FormName::Open,
        heading: "Begin a job",
        intro: "One job is one pump on the bench, from the box of parts to the recheck.",
        submit: "Begin",
        fields: vec![
            line("title", "Craft and reason", "").hint("Patrol craft 2: pump out for the winter"),
            field("note", "Note", "", FieldKind::Lines)
                .hint("Anything worth reading first. May stay empty."),
            choice_of("like", "The same pump as", "", like)
                .hint("Its steps, joints and limits come along; its readings do not."),
            field("card", "Or a card of the pump", "", FieldKind::File)
                .hint("Choose the file, or paste its text. May stay empty."),
        ],
    };
    blank.with(refused, true)
}

/// Bring the archive of a job in.
pub fn archive(refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Archive,
        heading: "Bring an archive in",
        intro: "One job whole, with its photos, as another bench gave it out. Where the job is here \
                already, only what is missing is added; nothing here is changed.",
        submit: "Bring it in",
        fields: vec![
            field("archive", "The archive", "", FieldKind::Log)
                .hint("A ZIP file. It is checked whole before anything is taken from it."),
        ],
    };
    blank.with(refused, false)
}

/// Describe the pump.
pub fn pump(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let known = job.pump.as_ref().map(|fact| PumpDraft::of(&fact.value));
    let draft = known.unwrap_or(PumpDraft {
        positions: "8".to_owned(),
        view: "looking-forward".to_owned(),
        ..PumpDraft::default()
    });
    let blank = Blank {
        name: FormName::Pump,
        heading: "The pump",
        intro: "Blades are lettered A, B, C … the way the clock runs. Mark blade A with a pen and \
                twelve o’clock on the ring.",
        submit: "Keep the pump",
        fields: vec![
            number("blades", "Blades", &draft.blades).hint("2 to 8"),
            choice(
                "positions",
                "Clock positions to read",
                &draft.positions,
                &[("4", "4"), ("6", "6"), ("8", "8"), ("12", "12")],
            ),
            number("bore", "Bore of the wear ring", &draft.bore)
                .unit("mm")
                .hint("155 or 6-1/8 in"),
            choice(
                "view",
                "The clock is read",
                &draft.view,
                &[
                    ("looking-forward", "from behind, looking forward"),
                    ("looking-aft", "from ahead, looking aft"),
                ],
            ),
            choice(
                "rotation",
                "Seen so, the impeller turns",
                &draft.rotation,
                &[
                    ("clockwise", "clockwise"),
                    ("anticlockwise", "anticlockwise"),
                ],
            ),
        ],
    };
    blank.with(refused, open)
}

/// Describe the leaves.
pub fn leaves(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let known = job.leaves.as_ref().map(|fact| LeavesDraft::of(&fact.value));
    let draft = known.unwrap_or(LeavesDraft {
        unit: "thou".to_owned(),
        ..LeavesDraft::default()
    });
    let blank = Blank {
        name: FormName::Leaves,
        heading: "The leaves",
        intro: "A wide flat leaf laid across the curve of the ring cannot reach its bottom and \
                reads low; how it is led in decides how much.",
        submit: "Keep the leaves",
        fields: vec![
            choice(
                "unit",
                "The leaves are marked in",
                &draft.unit,
                &[
                    ("thou", "thousandths of an inch (thou)"),
                    ("mm", "millimetres"),
                ],
            ),
            line("thicknesses", "Leaves there are", &draft.thicknesses)
                .hint("8 9 10 11 12 13 14 15 16 18 20"),
            number("width", "Width of a leaf", &draft.width)
                .unit("mm")
                .hint("12.7 or 1/2 in"),
            choice("lead", "The leaf is led in", &draft.lead, &LEADS),
            choice("posture", "While measuring", &draft.posture, &POSTURES),
            number("tolerance", "Leaves are true within", &draft.tolerance)
                .unit("mm")
                .hint("if you have measured them; else 0.005 mm is assumed"),
            number(
                "feel",
                "A leaf just goes when the gap is larger by",
                &draft.feel,
            )
            .unit("mm")
            .hint("from your own repeats; else 0.010 mm is assumed"),
        ],
    };
    blank.with(refused, open)
}

/// Words for how a leaf is led in.
pub(crate) const LEADS: [(&str, &str); 3] = [
    ("along-shaft", "along the shaft, flat across the curve"),
    ("round-ring", "round the ring, bending to the curve"),
    (
        "under-edge",
        "along the shaft, the tip under the leaf’s edge",
    ),
];

/// Words for how the pump lies.
pub(crate) const POSTURES: [(&str, &str); 4] = [
    ("craft-upright", "the pump is in the craft, upright"),
    ("craft-on-side", "the pump is in the craft, on its side"),
    ("bench-shaft-level", "the pump is on the bench, shaft level"),
    (
        "bench-shaft-upright",
        "the pump is on the bench, shaft upright",
    ),
];

/// State the manual's limits.
pub fn limits(job: &Job, refused: Option<&Refused>, open: bool) -> Form {
    let unit = job.unit();
    let draft = job
        .limits
        .as_ref()
        .map(|fact| LimitsDraft::of(&fact.value, unit));
    let draft = draft.unwrap_or_default();
    let tick = if draft.rub_in { "yes" } else { "" };
    let blank = Blank {
        name: FormName::Limits,
        heading: "What the craft’s manual allows",
        intro: "Fill in one figure or both. Without a manual leave this alone: the gap is measured \
                all the same, and nothing is called in or out.",
        submit: "Keep the limits",
        fields: vec![
            number("least", "Not tighter than", &draft.least).unit(unit.symbol()),
            number("greatest", "Not wider than", &draft.greatest).unit(unit.symbol()),
            choice(
                "measure",
                "The figures are",
                &draft.measure,
                &[
                    ("radial", "radial: on one side, tip to ring"),
                    ("diametral", "diametral: both sides together"),
                ],
            ),
            line("page", "Page of the manual", &draft.page).hint("5-14"),
            field(
                "rub_in",
                "The manual permits a new ring to rub itself in",
                tick,
                FieldKind::Tick,
            )
            .hint("Then “too tight” is not held against it."),
        ],
    };
    blank.with(refused, open)
}

/// Choose the order of trying.
pub fn walk(job: &Job, refused: Option<&Refused>) -> Form {
    let unit = job.unit();
    let draft = job
        .walk
        .as_ref()
        .map(|fact| WalkDraft::of(&fact.value, unit))
        .unwrap_or_default();
    let blank = Blank {
        name: FormName::Walk,
        heading: "The order of trying",
        intro: "One leaf round all spots is the fewest changes of leaf. One blade round the clock, \
                then every blade at its tightest place, tells ring from blade soonest. Two leaves, \
                one that must go and one that must not, are quickest and say least.",
        submit: "Keep the order",
        fields: vec![
            choice(
                "order",
                "Go",
                if draft.order.is_empty() {
                    "leaf-by-leaf"
                } else {
                    &draft.order
                },
                &[
                    ("leaf-by-leaf", "one leaf round all spots, then the next"),
                    (
                        "round-first",
                        "blade A round the clock, then every blade at the tightest",
                    ),
                ],
            ),
            number("go", "Or with two leaves: the one that must go", &draft.go).unit(unit.symbol()),
            number("no_go", "and the one that must not", &draft.no_go).unit(unit.symbol()),
        ],
    };
    blank.with(refused, false)
}

/// The label of a choice's value: the words a person reads for the word a form sends.
pub(crate) fn label<T: PartialEq + Copy>(
    labels: &[(&'static str, &'static str)],
    choices: &[Choice<T>],
    value: T,
) -> &'static str {
    let key = word(choices, value);
    labels
        .iter()
        .find(|(known, _)| *known == key)
        .map_or("", |(_, label)| label)
}

pub(crate) const HEADS: [(&str, &str); 2] = [("hex", "hexagon head"), ("socket", "socket head")];
pub(crate) const CLASSES: [(&str, &str); 6] = [
    ("stainless-70", "stainless A2-70 or A4-70"),
    ("stainless-80", "stainless A4-80"),
    ("stainless-50", "stainless A2-50 or A4-50"),
    ("stainless-unmarked", "stainless, unmarked"),
    ("8.8", "steel 8.8"),
    ("10.9", "steel 10.9"),
];
pub(crate) const HOLES: [(&str, &str); 5] = [
    ("aluminium", "cast aluminium"),
    ("steel", "steel"),
    ("brass-insert", "a brass insert"),
    ("laminate-insert", "an insert in laminate"),
    ("plastic", "plastic"),
];
pub(crate) const CONDITIONS: [(&str, &str); 7] = [
    ("dry", "clean and dry"),
    ("light-oil", "light oil"),
    ("grease", "grease on thread and head"),
    ("anti-seize", "anti-seize on thread and head"),
    ("threadlocker", "threadlocker on the thread, head dry"),
    ("ptfe-paste", "PTFE paste on the thread, head dry"),
    ("unknown", "not known"),
];
pub(crate) const FACES: [(&str, &str); 4] = [
    ("bare", "bare faces"),
    ("sealant", "sealant"),
    ("gasket", "a gasket"),
    ("o-ring", "an O-ring"),
];
pub(crate) const SEATS: [(&str, &str); 3] = [
    ("metal", "metal"),
    ("plastic", "a plastic lip"),
    ("rubber", "rubber"),
];

/// Describe a joint; with a key, the one described already.
pub fn joint(known: Option<(&Key, &Joint)>, refused: Option<&Refused>, open: bool) -> Form {
    let draft = known.map_or_else(
        || JointDraft {
            head: "hex".to_owned(),
            face: "bare".to_owned(),
            ..JointDraft::default()
        },
        |(_, joint)| JointDraft::of(joint),
    );
    let key = known.map_or_else(String::new, |(key, _)| key.to_string());
    let blank = Blank {
        name: FormName::Joint,
        heading: if known.is_some() {
            "Change what was described"
        } else {
            "Describe a joint"
        },
        intro: "Type the figure in both units the manual prints: a misprint or a slip of the eye \
                then shows. A torque, or a turn after contact, not both.",
        submit: "Keep the joint",
        fields: vec![
            line("name", "What it joins", &draft.name).hint("Pump housing to stator"),
            line("thread", "Thread", &draft.thread).hint("M8 or M10x1.25"),
            number("count", "Screws", &draft.count),
            choice("head", "Head", &draft.head, &HEADS),
            choice("class", "Stamped on the head", &draft.class, &CLASSES),
            choice("hole", "They go into", &draft.hole, &HOLES),
            number("engagement", "The thread is held over", &draft.engagement)
                .unit("mm")
                .hint("measured, without the run-out; may stay empty"),
            number("torque", "The manual’s torque", &draft.torque)
                .unit("N·m")
                .hint("22 or 16 lbf·ft"),
            number("second", "The same in its other unit", &draft.second).unit("lbf·ft"),
            choice(
                "stated_for",
                "The figure holds for",
                &draft.stated_for,
                &CONDITIONS,
            ),
            number("turn", "Or: to contact, then a turn of", &draft.turn)
                .unit("turn")
                .hint("1/8"),
            choice("seat", "then the head seats on", &draft.seat, &SEATS),
            number("grip", "and what is clamped is thick", &draft.grip).unit("mm"),
            choice(
                "condition",
                "Really on thread and head",
                &draft.condition,
                &CONDITIONS,
            ),
            choice("face", "Between the faces", &draft.face, &FACES),
            line("page", "Page of the manual", &draft.page).hint("5-18"),
        ],
    };
    about(blank, ("joint", key), refused, open)
}

/// Count the screws of a joint.
pub fn fasten(key: &Key, state: &JointState, refused: Option<&Refused>) -> Form {
    let draft = FastenedDraft::of(state);
    let blank = Blank {
        name: FormName::Fasten,
        heading: "Count the screws",
        intro: "For a joint that is half done. A screw that is torqued is in; one that is marked is \
                torqued.",
        submit: "Keep the count",
        fields: vec![
            number("in", "In, by hand", &draft.in_place),
            number("torqued", "Of these torqued", &draft.torqued),
            number("marked", "Of these marked", &draft.marked),
            field(
                "temporary",
                "These are stand-ins, to be replaced",
                if draft.temporary { "yes" } else { "" },
                FieldKind::Tick,
            ),
        ],
    };
    about(blank, ("joint", key.to_string()), refused, false)
}

/// A form about one thing of many: a refusal is shown at that one only.
fn about(
    blank: Blank,
    (name, key): (&'static str, String),
    refused: Option<&Refused>,
    open: bool,
) -> Form {
    let typed = |refused: &&Refused| refused.typed.iter().any(|(n, k)| n == name && *k == key);
    let mut form = blank.with(refused.filter(typed), open);
    form.values = vec![(name, key)];
    form
}

/// Write a whole reading at a spot.
pub fn reading(unit: Unit, spot: &str, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Reading,
        heading: "",
        intro: "",
        submit: "Keep",
        fields: vec![
            number("reading", &format!("Write {spot}, as 13-14"), "")
                .unit(unit.symbol())
                .hint("13-14"),
        ],
    };
    let mut form = blank.with(refused, true);
    form.values = vec![("spot", spot.to_owned())];
    form
}
