//! The forms about findings.

use workshop::draft::InspectionDraft;
use workshop::entry::Key;

use super::inspect::or_none;
use super::{Blank, about, choice, line, number};
use crate::page::{Form, FormName, Refused};

pub(crate) const AREAS: [(&str, &str); 17] = [
    ("blades", "impeller blades"),
    ("vanes", "stator vanes"),
    ("nozzle", "nozzle"),
    ("ring", "wear ring surface"),
    ("flange", "flange and its step"),
    ("seal", "shaft seal"),
    ("bearing", "bearing"),
    ("hull", "hull and its inserts"),
    ("bolts", "bolts and studs"),
    ("shoe", "pump shoe and its bond"),
    ("grate", "intake grate"),
    ("ride-plate", "ride plate"),
    ("driveline", "driveline and coupling"),
    ("mounts", "mounts and shims"),
    ("lines", "cooling and bailer lines"),
    ("controls", "steering, reverse, trim controls"),
    ("anode", "anode"),
];
pub(crate) const FLAWS: [(&str, &str); 29] = [
    ("nothing", "nothing: looked over and sound"),
    ("nick-leading", "nick in the leading edge"),
    ("nick-trailing", "nick in the trailing edge"),
    ("bent", "bent"),
    ("root-crack", "crack at the root"),
    ("missing-piece", "a piece is missing"),
    ("tip-rounded", "tip rounded"),
    ("chipped", "chipped"),
    ("step", "step from part to part"),
    ("scored", "scored"),
    ("swollen", "swollen"),
    ("corroded", "corroded"),
    ("grit", "dirt or grit in it"),
    ("cracked", "cracked"),
    ("snapped", "snapped off"),
    ("spun-insert", "an insert that spins"),
    ("pulled-thread", "thread pulled out"),
    ("debonded", "bond has let go"),
    ("torn-boot", "torn boot or bellows"),
    ("torn-lip", "torn lip"),
    ("perished", "perished or hardened rubber"),
    ("split", "split"),
    ("blocked", "blocked"),
    ("seized", "seized"),
    ("stretched", "stretched"),
    ("worn-splines", "worn splines"),
    ("loose", "loose in its seat"),
    ("spent", "spent: more than half gone"),
    ("other", "something else"),
];
pub(crate) const TODOS: [(&str, &str); 5] = [
    ("dress", "dress at the bench"),
    ("repair", "repair at the bench"),
    ("send-out", "send out"),
    ("scrap", "scrap"),
    ("fit", "fit as it is"),
];
pub(crate) const HOWS: [(&str, &str); 3] = [
    ("replaced", "replaced"),
    ("repaired", "repaired or dressed"),
    ("accepted", "accepted as it is"),
];

/// Note a finding, which has no key yet, or say one anew.
pub(crate) fn finding(draft: &InspectionDraft, refused: Option<&Refused>) -> Form {
    let mm = |key, label| number(key, label, draft.get(key)).unit("mm");
    let of = |key: &'static str| draft.get(key);
    let blank = Blank {
        name: FormName::Finding,
        heading: if draft.key.is_empty() {
            "Note a finding"
        } else {
            "Change what was noted"
        },
        intro: "One flaw at a time; the same flaw on several blades is one.",
        submit: "Keep the finding",
        fields: vec![
            choice("area", "Looked at", of("area"), &AREAS),
            choice("flaw", "Found", of("flaw"), &FLAWS),
            line("which", "Which", of("which"))
                .hint("blades by letter: A B; vanes by number: 3; a bolt, mount or hose by name"),
            line("words", "In your own words", of("words"))
                .hint("must be filled in for something else"),
            line("place", "Where on it", of("place")).hint("outer third"),
            mm("depth", "How deep"),
            mm("length", "How long"),
            mm("tip", "Length of the tip"),
            choice(
                "severity",
                "While it is open it",
                of("severity"),
                &or_none(
                    "matters as much as such a flaw usually does",
                    &[
                        ("stops-floating", "stops the craft from floating"),
                        (
                            "before-full-throttle",
                            "must be closed before full throttle",
                        ),
                        ("watch", "is watched, and closed at the end"),
                    ],
                ),
            ),
            line(
                "severity_why",
                "Why more or less than usual",
                of("severity_why"),
            )
            .hint("asked for where you say otherwise than usual"),
            choice("todo", "What to do", of("todo"), &TODOS),
            line("reason", "Why", of("reason")).hint("asked for where a flaw is fitted as it is"),
        ],
    };
    about(blank, ("finding", draft.key.clone()), refused, false)
}

/// Say what became of a finding.
pub(crate) fn settle(key: &Key, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Settle,
        heading: "It is dealt with …",
        intro: "It stays on record with what became of it.",
        submit: "Keep it",
        fields: vec![
            choice("how", "It is", "", &HOWS),
            line("reason", "With what, or why", "").hint("asked for where it is accepted as it is"),
        ],
    };
    about(blank, ("finding", key.to_string()), refused, false)
}

/// Take a result that is out as it is; otherwise it is measured anew.
pub(crate) fn accept(own: &str, refused: Option<&Refused>) -> Form {
    let blank = Blank {
        name: FormName::Settle,
        heading: "Accept it as it is …",
        intro: "It is mended by measuring it anew. Accepted, it stays on record with your reason, \
                until it is measured again.",
        submit: "Accept it",
        fields: vec![line("reason", "Why it may stay so", "")],
    };
    let mut form = about(blank, ("finding", own.to_owned()), refused, false);
    form.values.push(("how", "accepted".to_owned()));
    form
}
