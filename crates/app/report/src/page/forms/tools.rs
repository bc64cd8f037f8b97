//! The wrenches, and what a person finds or chooses at a joint: short forms, one question each.

use workshop::draft::tools::{DepthDraft, ROLES, ToolDraft, WrenchDraft};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::job::Job;
use workshop::joints::{JointState, Tightening};
use workshop::tools::Wrench;

use super::{Blank, about, choice, choice_of, line, number};
use crate::page::{Form, FormName, Refused};

/// Words for the unit of a scale.
const SCALES: [(&str, &str); 5] = [
    ("N·m", "newton metres, N·m"),
    ("lbf·ft", "foot pounds, lbf·ft"),
    ("lbf·in", "inch pounds, lbf·in"),
    ("kgf·m", "kilogram metres, kgf·m"),
    ("kgf·cm", "kilogram centimetres, kgf·cm"),
];

/// Words for what sort of joint it is.
const SORTS: [(&str, &str); 3] = [
    ("ordinary", "a cover, a plate, a bracket"),
    ("impeller", "the impeller"),
    ("stator", "the stator"),
];

/// Describe a torque wrench; with a key, the one described already.
pub(crate) fn wrench(known: Option<(&Key, &Wrench)>, refused: Option<&Refused>) -> Form {
    let draft = known.map_or_else(WrenchDraft::default, |(_, wrench)| WrenchDraft::of(wrench));
    let blank = Blank {
        name: FormName::Wrench,
        heading: "Describe a torque wrench",
        intro: "As its scale tells it. Each joint then says what to set, in this unit, and how sure \
                that is.",
        submit: "Keep the wrench",
        fields: vec![
            line("name", "Name", &draft.name).hint("Click wrench, small"),
            choice("scale", "Its scale is in", &draft.scale, &SCALES),
            number("least", "Lowest mark", &draft.least).hint("5"),
            number("most", "Greatest mark", &draft.most).hint("25"),
            number("step", "From mark to mark", &draft.step)
                .hint("0.5; empty for one that is set at the factory"),
        ],
    };
    let key = known.map_or_else(String::new, |(key, _)| key.to_string());
    let mut form = about(blank, ("key", key), refused, false);
    if let Some((_, wrench)) = known {
        form.heading = format!("Change “{}”", wrench.name);
    }
    form
}

/// What may be chosen, measured or said at a joint; nothing that would be refused or change nothing.
pub(crate) fn of_joint(
    job: &Job,
    key: &Key,
    state: &JointState,
    refused: Option<&Refused>,
) -> Vec<Form> {
    let tightening = &state.joint.value.tightening;
    let wrench = match tightening {
        Tightening::Turn { .. } => None,
        Tightening::Torque { .. } | Tightening::NotStated => tool(job, key, state, refused),
    };
    let sort = (*tightening == Tightening::NotStated).then(|| role(key, state, refused));
    let hole = hole(key, state, refused);
    wrench.into_iter().chain([hole]).chain(sort).collect()
}

/// Choose the wrench of a joint; none before there is one to choose.
fn tool(job: &Job, key: &Key, state: &JointState, refused: Option<&Refused>) -> Option<Form> {
    let wrenches = job.wrenches_in_order();
    if wrenches.is_empty() {
        return None;
    }
    let known = state.fittings.tool.as_ref();
    let draft = known.map_or_else(ToolDraft::default, |fact| ToolDraft::of(&fact.value));
    let wrenches = wrenches.into_iter();
    let named = wrenches.map(|(key, wrench)| (key.to_string(), wrench.name.clone()));
    let blank = Blank {
        name: FormName::Tool,
        heading: "Choose the wrench",
        intro: "The last three only for an adapter that carries the square away from the screw, such \
                as a crow-foot. A socket extension along the screw changes nothing.",
        submit: "Keep the wrench",
        fields: vec![
            choice_of("wrench", "Wrench", &draft.wrench, named.collect()),
            number(
                "lever",
                "Adapter: middle of the hand to the square",
                &draft.lever,
            )
            .unit("mm"),
            number("offset", "Square to the screw", &draft.offset).unit("mm"),
            number("angle", "Angle between the two", &draft.angle)
                .unit("°")
                .hint("0 straight out, 90 square across, 180 turned back"),
        ],
    };
    Some(about(blank, ("joint", key.to_string()), refused, false))
}

/// Measure the hole of a joint.
fn hole(key: &Key, state: &JointState, refused: Option<&Refused>) -> Form {
    let known = state.fittings.hole.as_ref();
    let draft = known.map_or_else(DepthDraft::default, |fact| DepthDraft::of(&fact.value));
    let blank = Blank {
        name: FormName::Hole,
        heading: "Measure the hole",
        intro: "With a depth gauge, parts together. What is found here counts before a held length \
                that was typed.",
        submit: "Keep the hole",
        fields: vec![
            number("reach", "The screw goes in", &draft.reach)
                .unit("mm")
                .hint("its length less all that it clamps"),
            number("threaded", "Good thread, from the mouth", &draft.threaded).unit("mm"),
            number("lost", "Of that, not held at the mouth", &draft.lost)
                .unit("mm")
                .hint("countersink, corrosion, first turn; 0 for none"),
            number("insert", "Length of a wire insert", &draft.insert)
                .unit("mm")
                .hint("as it is sold; empty for none"),
        ],
    };
    about(blank, ("joint", key.to_string()), refused, false)
}

/// Say what sort of joint it is.
fn role(key: &Key, state: &JointState, refused: Option<&Refused>) -> Form {
    let role = state.fittings.role();
    let blank = Blank {
        name: FormName::Role,
        heading: "Say what sort of joint it is",
        intro: "Without the manual’s figure an ordinary joint is offered a generic one, marked as \
                assumed. The impeller and the stator never are.",
        submit: "Keep",
        fields: vec![choice(
            "role",
            "It holds",
            role.map_or("", |role| word(&ROLES, role)),
            &SORTS,
        )],
    };
    about(blank, ("joint", key.to_string()), refused, false)
}
