//! What a plan says beside its order: of a step how and with what, and the lists at its end.

use workshop::plan::{ItemKind, Plan, Step, seconds};

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

/// Parts, tools, and what is accounted for.
pub(super) fn of(plan: &Plan) -> Vec<Section> {
    let parts = plan.parts.iter().map(|part| part.name.clone()).collect();
    let tools = plan
        .tools
        .iter()
        .map(|tool| counted(&tool.name, tool.count));
    let notes = |heading: &str, notes: Vec<String>| {
        let heading = heading.to_owned();
        (!notes.is_empty()).then_some(Section::Notes { heading, notes })
    };
    let lists = [
        notes("Parts and consumables", parts),
        notes("Tools", tools.collect()),
        notes("Accounted for at the end", accounted(plan)),
    ];
    lists.into_iter().flatten().collect()
}

/// One line a kind.
fn accounted(plan: &Plan) -> Vec<String> {
    let line = |kind: ItemKind| {
        let items = plan.items.iter().filter(|item| item.kind == kind);
        let items: Vec<String> = items.map(|item| counted(&item.name, item.count)).collect();
        (!items.is_empty()).then(|| format!("{}: {}.", heading(kind), items.join("; ")))
    };
    ItemKind::ALL.into_iter().filter_map(line).collect()
}

fn counted(name: &str, count: u16) -> String {
    match count {
        1 => name.to_owned(),
        count => format!("{name}, {count}"),
    }
}

fn heading(kind: ItemKind) -> &'static str {
    match kind {
        ItemKind::Plug => "Plugs",
        ItemKind::Clip => "Clips and clamps",
        ItemKind::Hose => "Hoses",
        ItemKind::Cable => "Cables and linkage",
        ItemKind::Guard => "Guards, grates, covers",
        ItemKind::Sensor => "Sensors",
        ItemKind::Temporary => "Off again",
        ItemKind::Other => "Else",
    }
}
