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
    let needed = [("Parts and consumables", parts), ("Tools", tools.collect())];
    let items = ItemKind::ALL.map(|kind| {
        let items = plan.items.iter().filter(|item| item.kind == kind);
        let items = items.map(|item| counted(&item.name, item.count));
        (heading(kind), items.collect())
    });
    let lists = [
        facts("What it needs", &needed),
        facts("Accounted for at the end", &items),
    ];
    lists.into_iter().flatten().collect()
}

/// A row a list, where there is anything on it.
fn facts(heading: &str, lists: &[(&str, Vec<String>)]) -> Option<Section> {
    let rows = lists.iter().filter(|(_, names)| !names.is_empty());
    let rows = rows.map(|(name, names)| row(*name, vec![plain(names.join("; "))], ""));
    let (heading, rows) = (heading.to_owned(), rows.collect::<Vec<_>>());
    (!rows.is_empty()).then_some(Section::Facts { heading, rows })
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
