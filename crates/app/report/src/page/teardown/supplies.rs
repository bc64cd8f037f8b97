//! Parts, consumables and special tools, in one list by kind.

use workshop::job::Job;
use workshop::supplies::{Group, Supply, Whereabouts, supplies};

use crate::page::forms::supply as forms;
use crate::page::{Refused, Section, Table};
use crate::words::list;

/// Where the list comes from.
const ORIGIN: &str = "Grown from the findings, the joints and the plan. * It takes this by common \
    practice, no source; the craft’s manual names the right one.";

/// The list, and the forms to say where a thing is and to add one.
pub(super) fn sections(job: &Job, refused: Option<&Refused>) -> Vec<Section> {
    let supplies = supplies(job);
    let mut sections = tables(&supplies);
    if !supplies.is_empty() {
        sections.push(Section::Form(forms::whereabouts(&supplies, refused)));
    }
    sections.push(Section::Form(forms::add(refused)));
    sections
}

/// One table a kind of thing; printed on the build sheet as on the page.
pub(crate) fn tables(supplies: &[Supply]) -> Vec<Section> {
    let mut tables = Vec::new();
    for group in Group::ALL {
        let of = supplies.iter().filter(|supply| supply.group == group);
        let rows: Vec<Vec<String>> = of
            .map(|supply| vec![supply.name.clone(), whereabouts(supply), why(supply)])
            .collect();
        if !rows.is_empty() {
            tables.push(Section::Table(Table {
                heading: name(group).to_owned(),
                head: ["What", "Where it is", "Why"].map(str::to_owned).to_vec(),
                rows,
                // Said once, under the last.
                caption: String::new(),
            }));
        }
    }
    if let Some(Section::Table(last)) = tables.last_mut() {
        ORIGIN.clone_into(&mut last.caption);
    }
    tables
}

/// The name of a kind of thing.
pub(crate) fn name(group: Group) -> &'static str {
    match group {
        Group::Part => "Parts",
        Group::Consumable => "Consumables",
        Group::Tool => "Special tools",
    }
}

/// `✓ at hand`, `on order, expected 2026-05-09`.
pub(crate) fn whereabouts(supply: &Supply) -> String {
    match supply.whereabouts {
        None => "○ nobody has said".to_owned(),
        Some(Whereabouts::AtHand) => "✓ at hand".to_owned(),
        Some(Whereabouts::OnOrder) => match supply.expected {
            Some(day) => format!("● on order, expected {day}"),
            None => "● on order, no day said".to_owned(),
        },
        Some(Whereabouts::Missing) => "✕ missing".to_owned(),
        Some(Whereabouts::NotNeeded) => format!("– not needed: {}", supply.reason),
    }
}

fn why(supply: &Supply) -> String {
    let star = |practice| if practice { " *" } else { "" };
    let why = supply.why.iter();
    let why: Vec<String> = why
        .map(|why| format!("{}{}", why.words, star(why.practice)))
        .collect();
    list(&why, 4)
}

/// What is not at hand, for the answer: `3 parts and 1 tool are not at hand`.
pub(super) fn wanted(job: &Job) -> Option<String> {
    let open = supplies(job);
    let open: Vec<&Supply> = open.iter().filter(|supply| !supply.settled()).collect();
    let ordered = open.iter();
    let ordered = ordered
        .filter(|supply| supply.whereabouts == Some(Whereabouts::OnOrder))
        .count();
    match open.len() {
        0 => None,
        n => Some(format!(
            "Of parts, consumables and tools {n} {} not at hand, {ordered} of them on order.",
            if n == 1 { "is" } else { "are" }
        )),
    }
}
