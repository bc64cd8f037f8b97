//! Things to account for and tools, added to the plan and taken off it.

use workshop::draft::bench::ITEMS;
use workshop::plan::{ItemKind, Plan};

use super::plan::{Drawn, steps_of};
use super::{Blank, choice_of, line, number};
use crate::page::{Form, FormName};

/// A thing more to account for.
pub(crate) fn new_item(drawn: Drawn<'_>, plan: &Plan) -> Form {
    let kinds = ITEMS.map(|(word, kind)| {
        let label = match kind {
            ItemKind::Plug => "a drain or filler plug",
            ItemKind::Clip => "a clip, clamp or circlip",
            ItemKind::Hose => "a hose or line",
            ItemKind::Cable => "a cable or linkage",
            ItemKind::Guard => "a guard, grate or cover",
            ItemKind::Sensor => "a plug or lead of a sensor",
            ItemKind::Temporary => "something to come off again: a rag, a cap, a tag",
            ItemKind::Other => "something else",
        };
        (word.to_owned(), label.to_owned())
    });
    let mut steps = vec![(String::new(), "no step of the plan".to_owned())];
    steps.extend(steps_of(plan));
    let step = "The step that puts it there, or takes it off";
    let blank = Blank {
        name: FormName::NewItem,
        heading: "Add a thing to account for …",
        intro: "What must be in its place in the end, or off again, and is easily forgotten. The \
                craft is not ready while nobody has told of it.",
        submit: "Add it",
        fields: vec![
            line("name", "What it is", "").hint("Stern drain plug"),
            choice_of("kind", "It is", "plug", kinds.to_vec()),
            number("count", "How many", "").hint("1 where left empty"),
            choice_of("step", step, "", steps),
        ],
    };
    drawn.form(blank, Vec::new(), false)
}

/// A thing less.
pub(crate) fn item_off(drawn: Drawn<'_>, plan: &Plan) -> Form {
    let items = plan.items.iter();
    let items = items.map(|item| (item.key.to_string(), item.name.clone()));
    let blank = Blank {
        name: FormName::ItemOff,
        heading: "Take a thing off the list …",
        intro: "Only what nobody has told of. What this craft does not have is left out with a \
                reason on the Account page.",
        submit: "Take it off",
        fields: vec![choice_of("item", "Which", "", items.collect())],
    };
    drawn.form(blank, Vec::new(), false)
}

/// A tool more.
pub(crate) fn new_tool(drawn: Drawn<'_>) -> Form {
    let blank = Blank {
        name: FormName::NewTool,
        heading: "Add a tool …",
        intro: "Steps hold it while they are worked; in the end it is counted back.",
        submit: "Add it",
        fields: vec![
            line("name", "What it is", "").hint("Torque wrench"),
            number("count", "How many", "").hint("1 where left empty"),
        ],
    };
    drawn.form(blank, Vec::new(), false)
}

/// A tool less.
pub(crate) fn tool_off(drawn: Drawn<'_>, plan: &Plan) -> Form {
    let tools = plan.tools.iter();
    let tools = tools.map(|tool| (tool.key.to_string(), tool.name.clone()));
    let blank = Blank {
        name: FormName::ToolOff,
        heading: "Take a tool off the list …",
        intro: "Only what no step holds, and nobody has counted.",
        submit: "Take it off",
        fields: vec![choice_of("tool", "Which", "", tools.collect())],
    };
    drawn.form(blank, Vec::new(), false)
}
