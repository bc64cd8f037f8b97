//! What a plan says beside its order: of a step how and with what, and the lists at its end.

use workshop::plan::{Plan, Step, seconds};

use super::{FactRow, Section, plain, words};
use crate::page::row;

/// What a plan says of a step.
pub(super) fn said(plan: &Plan, step: &Step) -> Vec<FactRow> {
    let named = |keys: Vec<String>| keys.join(", ");
    let parts = plan
        .parts
        .iter()
        .filter(|part| step.needs.contains(&part.key));
    let tools = plan
        .tools
        .iter()
        .filter(|tool| step.tools.contains(&tool.key));
    let hands = match step.hands {
        1 => String::new(),
        hands => format!("{hands} pairs"),
    };
    let most = step.most.as_ref();
    let most = most.map_or_else(String::new, |most| words::span(seconds(most)));
    let rows = [
        ("Part of the job", step.group.clone()),
        ("How", step.how.clone()),
        ("At most", most),
        ("Hands", hands),
        (
            "Needs",
            named(parts.map(|part| part.name.clone()).collect()),
        ),
        (
            "Holds",
            named(tools.map(|tool| tool.name.clone()).collect()),
        ),
    ];
    let said = rows.into_iter().filter(|(_, said)| !said.is_empty());
    said.map(|(name, said)| row(name, vec![plain(said)], "the plan"))
        .collect()
}

/// What can hurt, and what cannot be taken back.
pub(super) fn minded(step: &Step) -> Vec<String> {
    let mut notes = Vec::new();
    if !step.caution.is_empty() {
        notes.push(format!("Caution: {}", step.caution));
    }
    if step.irreversible {
        notes.push("It cannot be taken back.".to_owned());
    }
    notes
}

/// The parts; tools and things to account for have lists of their own, with their forms.
pub(super) fn parts(plan: &Plan) -> Option<Section> {
    let names: Vec<String> = plan.parts.iter().map(|part| part.name.clone()).collect();
    (!names.is_empty()).then(|| Section::Facts {
        heading: "What it needs".to_owned(),
        rows: vec![row(
            "Parts and consumables",
            vec![plain(names.join("; "))],
            "",
        )],
    })
}
