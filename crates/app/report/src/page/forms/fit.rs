//! Joints that are no circle of screws: one form a kind, so that only its own fields are asked.

use workshop::draft::{CHECKS, FitDraft, KINDS, word};
use workshop::entry::Key;
use workshop::fits::{Check, Fit, FitKind, FitState, Kind};

use super::{Blank, choice, line, many, number};
use crate::page::{Field, Form, FormName, Refused};

const YES: [(&str, &str); 2] = [("no", "no"), ("yes", "yes")];
const PRESSED: [(&str, &str); 3] = [
    ("bearing", "a bearing without rubber seals"),
    ("sealed-bearing", "a bearing with rubber seals"),
    ("bush", "a bush or a ring"),
];
const FRONTS: [(&str, &str); 3] = [
    ("", "none: both sides alike"),
    ("sealed-side", "it is sealed on one side"),
    ("wide-shoulder", "its outer ring has one wide shoulder"),
];
const LIPS: [(&str, &str); 3] = [
    ("keeps-water-out", "keeps water and grit out"),
    ("keeps-grease-in", "keeps grease or oil in"),
    ("holds-pressure", "holds a pressure"),
];
const RUBBERS: [(&str, &str); 5] = [
    ("", "not known"),
    ("nitrile", "nitrile"),
    ("epdm", "EPDM"),
    ("natural", "natural rubber"),
    ("other", "something else"),
];
const FILLS: [(&str, &str); 2] = [("grease", "grease"), ("oil", "oil")];
const UNTILS: [(&str, &str); 3] = [
    ("shows", "until it shows fresh"),
    ("level", "up to the mark or the edge of the hole"),
    ("amount", "that amount and no more"),
];
const CARRIES: [(&str, &str); 3] = [
    ("cooling-water", "cooling water"),
    ("bilge-water", "bilge water"),
    ("exhaust", "exhaust"),
];
const HANDS: [(&str, &str); 2] = [("right", "right hand"), ("left", "left hand")];
const ENDS: [(&str, &str); 2] = [
    ("aft", "from aft: it moves forward as it goes on"),
    ("ahead", "from ahead: it moves aft as it goes on"),
];
const DRIVES: [(&str, &str); 2] = [
    (
        "shaft-drives-impeller",
        "the shaft drives the impeller through this thread",
    ),
    (
        "impeller-drags-shaft",
        "splines drive the impeller; the thread only holds a stub shaft it drags along",
    ),
];

/// A kind in words, and what it is for.
pub(crate) fn kind_words(kind: Kind) -> (&'static str, &'static str) {
    match kind {
        Kind::Impeller => (
            "Impeller on its shaft",
            "Look at the thread, not at a picture: hand, end and drive differ from craft to craft, \
             and the arrows are drawn from them. Rotation is that of the pump, under Measure.",
        ),
        Kind::Press => (
            "Press fit: bearing, bush, ring",
            "Interference on the diameter: shaft less bore, outside less housing. Below zero it is \
             loose. Leave empty what was not measured.",
        ),
        Kind::Lips => (
            "Lip seals",
            "In order from the water, so that each looks at what it stops.",
        ),
        Kind::ORing => (
            "O-ring",
            "Sizes only where they were measured: all five, or none.",
        ),
        Kind::Fill => (
            "Grease or oil to fill",
            "As the manual has it, with its unit.",
        ),
        Kind::Spline => (
            "Spline that slides in",
            "Limits are the manual’s own; without one, some play must be left.",
        ),
        Kind::Shims => (
            "Shims under studs",
            "Write the stacks as they were found, before they are mixed.",
        ),
        Kind::Hose => ("Hose and clamp", "One card a hose."),
        Kind::Cable => (
            "Cable end",
            "Count the threads that show beyond the nut before you loosen it.",
        ),
        Kind::Plug => (
            "Drain or filling plug",
            "Without the manual’s torque none is assumed.",
        ),
        Kind::Anode => (
            "Anode",
            "Its seat is bare metal, and an ohmmeter proves it.",
        ),
    }
}

/// Describe one of this kind, which has no key yet.
pub(crate) fn new(kind: Kind, refused: Option<&Refused>) -> Form {
    let draft = FitDraft::new(String::new(), |_| String::new());
    let typed = refused.filter(|refused| named(refused, "kind") == Some(word(&KINDS, kind)));
    form(kind, &draft, kind_words(kind).0, typed)
}

/// Say anew what was described.
pub(crate) fn known(key: &Key, fit: &Fit, refused: Option<&Refused>) -> Form {
    let draft = FitDraft::described(key, fit);
    form(
        fit.kind.kind(),
        &draft,
        "Change what was described",
        refused,
    )
}

fn named<'a>(refused: &'a Refused, name: &str) -> Option<&'a str> {
    let found = refused.typed.iter().find(|(key, _)| key == name);
    found.map(|(_, text)| text.as_str())
}

fn about(blank: Blank, key: &str, refused: Option<&Refused>, open: bool) -> Form {
    blank.with(
        refused.filter(|refused| named(refused, "fit").unwrap_or_default() == key),
        open,
    )
}

fn form(kind: Kind, draft: &FitDraft, heading: &'static str, refused: Option<&Refused>) -> Form {
    let mut fields = vec![
        line("name", "What it is called", draft.get("name")).hint("as you would say it aloud"),
    ];
    fields.extend(own(kind, draft));
    fields.push(line("page", "Page of the manual", draft.get("page")).hint("5-12"));
    let blank = Blank {
        name: FormName::Fit,
        heading,
        intro: kind_words(kind).1,
        submit: "Keep the joint",
        fields,
    };
    let mut form = about(blank, &draft.key, refused, false);
    form.values = vec![
        ("kind", word(&KINDS, kind).to_owned()),
        ("fit", draft.key.clone()),
    ];
    form
}

#[expect(clippy::too_many_lines, reason = "a list of fields a kind")]
fn own(kind: Kind, draft: &FitDraft) -> Vec<Field> {
    let of = |key: &'static str, label, from: &[(&'static str, &'static str)]| {
        choice(key, label, draft.get(key), from)
    };
    let mm = |key: &'static str, label| number(key, label, draft.get(key)).unit("mm");
    let words = |key: &'static str, label| line(key, label, draft.get(key));
    match kind {
        Kind::Impeller => vec![
            of("hand", "Its thread is", &HANDS),
            of("goes_on_from", "It goes on its shaft", &ENDS),
            of("drive", "What drives what", &DRIVES),
            number("torque", "The manual’s torque", draft.get("torque"))
                .unit("N·m")
                .hint("from its own manual, or empty: none is assumed"),
            number("second", "The same in its other unit", draft.get("second")).unit("lbf·ft"),
            words("compound", "What the manual puts on the thread")
                .hint("in its words; may stay empty"),
        ],
        Kind::Press => vec![
            of("what", "What is pressed in", &PRESSED),
            mm("shaft", "Interference on the shaft").hint("0.010; -0.005 for a loose one"),
            mm("housing", "Interference in the housing"),
            mm("diameter", "Diameter of the tight seat")
                .hint("tells how warm the outer part must be to slip"),
            of("front", "What about it has a front", &FRONTS),
            words("place", "Where it comes in the row")
                .hint("second on the shaft, behind the spacer"),
        ],
        Kind::Lips => vec![
            of("lip_1", "The lip nearest the water", &LIPS),
            of("lip_2", "The next, if there is one", &or_none(&LIPS)),
            of("lip_3", "and the next", &or_none(&LIPS)),
        ],
        Kind::ORing => vec![
            of("rubber", "It is made of", &RUBBERS),
            mm("cord", "Diameter of the cord"),
            mm("inner", "Inner diameter of the ring, free"),
            mm("seat", "Diameter it goes over"),
            mm(
                "depth",
                "From the bottom of the groove to the face it seals against",
            ),
            mm("width", "Width of the groove"),
        ],
        Kind::Fill => vec![
            of("with", "It is filled with", &FILLS),
            words("product", "Which, by the manual").hint("water-resistant grease"),
            words("amount", "How much").hint("30 g or 60 mL; empty where the manual says none"),
            of("until", "Until when", &UNTILS),
        ],
        Kind::Spline => vec![
            of("bumpers", "Rubber bumpers belong in it", &YES),
            mm("least", "The manual’s least play along the shaft"),
            mm("greatest", "and its greatest"),
        ],
        Kind::Shims => vec![
            words("studs", "Stack at each stud, with the clock from the top")
                .unit("mm")
                .hint("0.5; 0.3; 0.3; 0 for none"),
        ],
        Kind::Hose => vec![
            of("carries", "In it runs", &CARRIES),
            of("below", "It lies below the waterline", &YES),
        ],
        Kind::Cable => vec![
            number(
                "threads",
                "Threads that showed, as found",
                draft.get("threads"),
            )
            .hint("empty where nobody counted"),
        ],
        Kind::Plug => {
            vec![number("torque", "The manual’s torque", draft.get("torque")).unit("N·m")]
        }
        Kind::Anode => vec![
            number(
                "greatest",
                "The manual’s greatest resistance, anode to casting",
                draft.get("greatest"),
            )
            .unit("Ω")
            .hint("else 1 Ω: common practice, no source"),
        ],
    }
}

/// A choice that need not be made.
fn or_none(of: &[(&'static str, &'static str)]) -> Vec<(&'static str, &'static str)> {
    let mut all = vec![("", "none")];
    all.extend_from_slice(of);
    all
}

/// Tick what is done of a joint, and write what was read.
pub(crate) fn check(key: &Key, state: &FitState, refused: Option<&Refused>) -> Form {
    let fit = &state.fit.value;
    let draft = FitDraft::of(key, state);
    let checks = fit.kind.checks();
    let checks = checks.into_iter().map(|check| {
        let label = label(&fit.kind, check).to_owned();
        (word(&CHECKS, check).to_owned(), label)
    });
    let mut fields = vec![many(
        "checked",
        "Done",
        draft.get("checked"),
        checks.collect(),
    )];
    fields.extend(read(fit, draft.get("reading")));
    let blank = Blank {
        name: FormName::FitCheck,
        heading: "Tick what is done",
        intro: "What is ticked stays ticked until you take it out. Do it in this order.",
        submit: "Keep the ticks",
        fields,
    };
    let mut form = about(blank, key.as_str(), refused, false);
    form.values = vec![("fit", key.to_string())];
    form
}

/// The field of what is measured; none where nothing is.
fn read(fit: &Fit, text: &str) -> Option<Field> {
    let unit = fit.limit()?.unit.symbol();
    let (label, hint) = match fit.kind {
        FitKind::Anode { .. } => ("Anode to bare casting", "the leads’ own reading taken off"),
        _ => ("Play left along the shaft", "measured once all is home"),
    };
    Some(number("reading", label, text).unit(unit).hint(hint))
}

/// Write what is measured, with what is ticked already.
pub(crate) fn reading(key: &Key, state: &FitState, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::FitCheck,
        heading: "",
        intro: "",
        submit: "Keep",
        fields: read(&state.fit.value, "").into_iter().collect(),
    };
    let mut form = about(blank, key.as_str(), refused, true);
    form.values = ticked(key, state);
    form
}

/// What a tick more sends.
pub(crate) fn with_tick(key: &Key, state: &FitState, check: Check) -> Vec<(&'static str, String)> {
    let mut values = ticked(key, state);
    values.push(("checked", word(&CHECKS, check).to_owned()));
    let draft = FitDraft::of(key, state);
    values.push(("reading", draft.get("reading").to_owned()));
    values
}

fn ticked(key: &Key, state: &FitState) -> Vec<(&'static str, String)> {
    let ticks = state.ticks().iter();
    let ticks = ticks.map(|tick| ("checked", word(&CHECKS, *tick).to_owned()));
    [("fit", key.to_string())]
        .into_iter()
        .chain(ticks)
        .collect()
}

/// What a tick says, at this kind of joint.
pub(crate) fn label(kind: &FitKind, check: Check) -> &'static str {
    match (check, kind) {
        (Check::Clean, FitKind::ORing { .. }) => "Groove and face clean, no scratch across",
        (Check::Clean, FitKind::Hose { .. }) => "Spigot clean, hose sound",
        (Check::Clean, FitKind::Spline { .. }) => "Old grease out of both halves, no step felt",
        (Check::Clean, FitKind::Fill(_)) => "Plug or nipple and all round it clean",
        (Check::Clean, FitKind::Impeller(_)) => "Threads and splines clean and degreased",
        (Check::Clean, FitKind::Shims(_)) => "Faces and shims clean and flat",
        (Check::Clean, _) => "Clean, and looked over",
        (Check::Bare, _) => "Seat and screw bare and bright",
        (Check::Facing, FitKind::Lips(_)) => "Each lip looks the way the card says",
        (Check::Facing, _) => "It faces the way the card says",
        (Check::Greased, FitKind::Lips(_)) => "Lips greased, space between half filled",
        (Check::Greased, _) => "Greased as the card says",
        (Check::BumpersIn, _) => "Bumpers are in",
        (Check::Compound, _) => "On the thread what the manual says, nothing else",
        (Check::HolderSeated, _) => "Holder sits fully on the splines",
        (Check::OldOut, _) => "What was in it is out",
        (Check::Filled, _) => "Filled",
        (Check::Reached, FitKind::Fill(fill)) => match fill.until {
            workshop::fits::Until::Shows => "It shows fresh",
            workshop::fits::Until::Level => "It stands at the level",
            workshop::fits::Until::Amount => "The whole amount is in, and no more",
        },
        (Check::Reached, _) => "As far as the card says",
        (Check::NewSeal, _) => "New washer or ring",
        (Check::NotTwisted, _) => "New ring, not twisted",
        (Check::NotPinched, _) => "Faces meet all round, nothing pinched",
        (Check::ByStud, _) => "Each stack on its own stud",
        (Check::Home, FitKind::Hose { .. }) => "Pushed home to the stop",
        (Check::Home, _) => "Home all round",
        (Check::Clamped, _) => "Clamped behind the bead",
        (Check::ThreadsSet, _) => "As many threads show as found",
        (Check::Tightened, FitKind::Impeller(_)) => "Tightened to the manual’s torque",
        (Check::Tightened, _) => "Tightened as the card says",
        (Check::Locked, _) => "Locked: nut, pin or clip",
        (Check::Pulled, _) => "Pulled by hand, and held",
        (Check::Unpainted, _) => "Nothing painted or sealed over",
        (Check::InLine, _) => "Line up measured after the last pass",
        (Check::FullTravel, _) => "Full travel both ways, nothing binds",
        (Check::TurnsFree, FitKind::Press(_)) => "Turns smooth by hand",
        (Check::TurnsFree, _) => "Turns free by hand all round",
        (Check::Dry, _) => "Dry after a quarter of an hour",
    }
}
