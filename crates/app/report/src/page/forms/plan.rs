//! The plan, said step by step.

use workshop::draft::bench::{GATES, StepDraft};
use workshop::plan::{Gate, Plan, Step};

use super::{Blank, choice, choice_of, field, line, many, number};
use crate::page::{FieldKind, Form, FormName, Refused};

/// Words for what a step holds up.
const OPENS: [(&str, &str); 3] = [
    ("float", "before it floats"),
    ("full-throttle", "before full throttle"),
    ("closed", "before the job is closed"),
];

/// Words for the kinds of a rule, as they stand between two steps.
const KINDS: [(&str, &str); 7] = [
    (
        "after",
        "is done before the other begins, with a wait where one is given",
    ),
    (
        "start-within",
        "ends at most so long before the other begins",
    ),
    (
        "finished-within",
        "ends at most so long before the other is done",
    ),
    (
        "start-within-start",
        "begins at most so long before the other begins",
    ),
    ("together", "begins together with the other"),
    ("not-before", "begins not before a day and time"),
    ("finished-by", "is done by a day and time"),
];

/// What forms of the plan are about: the entry they were drawn from, and where they stand.
#[derive(Clone, Copy)]
pub(crate) struct Drawn<'a> {
    pub(crate) entry: &'a str,
    pub(crate) refused: Option<&'a Refused>,
}

impl Drawn<'_> {
    pub(super) fn form(self, blank: Blank, about: Vec<(&'static str, String)>, open: bool) -> Form {
        let mut form = blank.with(self.refused, open);
        form.values = vec![("seen", self.entry.to_owned())];
        form.values.extend(about);
        form
    }
}

/// A step more; with none yet, the first of a new plan.
pub(crate) fn new_step(drawn: Drawn<'_>, plan: Option<&Plan>) -> Form {
    let draft = StepDraft {
        opens: "float".to_owned(),
        ..StepDraft::default()
    };
    let mut fields = Vec::new();
    if plan.is_none() {
        fields.push(line("plan", "What it is a plan of", "").hint("Rebuild with a new ring"));
    }
    fields.extend(step_fields(&draft, plan));
    if let Some(plan) = plan {
        let last = plan.steps.last().map_or("", |step| step.key.as_str());
        let mut steps = vec![(String::new(), "nothing: it may begin at once".to_owned())];
        steps.extend(steps_of(plan));
        fields.insert(1, choice_of("follows", "It comes after", last, steps));
    }
    let blank = Blank {
        name: FormName::NewStep,
        heading: if plan.is_some() {
            "Add a step …"
        } else {
            "Lay a plan of your own, beginning with its first step …"
        },
        intro: "Time is for the work of the hands; what waits to cure is a rule.",
        submit: "Add the step",
        fields,
    };
    drawn.form(blank, Vec::new(), false)
}

/// A step said anew.
pub(crate) fn step(drawn: Drawn<'_>, plan: &Plan, step: &Step) -> Form {
    let blank = Blank {
        name: FormName::PlanStep,
        heading: "Say this step anew …",
        intro: "What was done of it stays done.",
        submit: "Keep the step",
        fields: step_fields(&StepDraft::of(step), Some(plan)),
    };
    drawn.form(blank, vec![("step", step.key.to_string())], false)
}

fn step_fields(draft: &StepDraft, plan: Option<&Plan>) -> Vec<super::Field> {
    let tick = |set: bool| if set { "yes" } else { "" };
    let mut fields = vec![
        line("name", "What is done", &draft.name).hint("Press the new ring in"),
        number("takes", "It takes", &draft.takes)
            .unit("min")
            .hint("20, or 2 h"),
        number("most", "and at most", &draft.most)
            .unit("min")
            .hint("only where it may not take longer"),
        choice("opens", "It must be done", &draft.opens, &OPENS),
        line("group", "Part of the job", &draft.group).hint("Driveline. May stay empty."),
        field(
            "how",
            "How, and what proves it",
            &draft.how,
            FieldKind::Lines,
        ),
        number("hands", "Pairs of hands", &draft.hands).hint("1 where left empty, 0 for none"),
    ];
    let parts = plan.map_or(&[][..], |plan| &plan.parts);
    if !parts.is_empty() {
        let parts = parts
            .iter()
            .map(|part| (part.key.to_string(), part.name.clone()));
        let needs = draft.needs.join(" ");
        fields.push(many("needs", "It needs", &needs, parts.collect()));
    }
    let tools = plan.map_or(&[][..], |plan| &plan.tools);
    if !tools.is_empty() {
        let tools = tools
            .iter()
            .map(|tool| (tool.key.to_string(), tool.name.clone()));
        let held = draft.tools.join(" ");
        fields.push(many("tools", "It holds", &held, tools.collect()));
    }
    fields.extend([
        choice_of("gate", "It waits for", &draft.gate, gates()),
        number("fasteners", "Fasteners to count", &draft.fasteners)
            .hint("empty where none are counted"),
        field(
            "temporary",
            "A fastener may stand in for a while",
            tick(draft.temporary),
            FieldKind::Tick,
        ),
        line("caution", "What can hurt", &draft.caution).hint("Gloves and goggles."),
        field(
            "irreversible",
            "It cannot be taken back",
            tick(draft.irreversible),
            FieldKind::Tick,
        ),
    ]);
    fields
}

/// The gates a step may wait for.
fn gates() -> Vec<(String, String)> {
    let gates = GATES.map(|(word, gate)| {
        let label = match gate {
            Gate::GapIn => "the gap, measured and taken as in tolerance",
            Gate::LeakTight => "the closed housing, tested and found tight",
            Gate::Aligned => "the driveline, read and found in line",
            Gate::GapReread => "the gap, read once more after the last torque",
        };
        (word.to_owned(), label.to_owned())
    });
    let none = (String::new(), "nothing but the rules".to_owned());
    std::iter::once(none).chain(gates).collect()
}

/// A step less.
pub(crate) fn step_off(drawn: Drawn<'_>, plan: &Plan, step: &Step) -> Form {
    let rules = plan.rules.iter().filter(|rule| rule.names(&step.key));
    let rules = match rules.count() {
        0 => String::new(),
        n => format!(
            " {} that name it go with it.",
            crate::words::count(n, "rule", "rules")
        ),
    };
    let mut form = drawn.form(
        Blank {
            name: FormName::StepOff,
            heading: "Take this step off the plan …",
            intro: "",
            submit: "Take it off",
            fields: Vec::new(),
        },
        vec![("step", step.key.to_string())],
        false,
    );
    form.intro = format!("For a step this pump does not have; undo brings it back.{rules}");
    form
}

/// A rule more, from this step.
pub(crate) fn new_rule(drawn: Drawn<'_>, plan: &Plan, step: &Step) -> Form {
    let mut steps = vec![(String::new(), "no other: a day and time".to_owned())];
    steps.extend(steps_of(plan).filter(|(key, _)| key != step.key.as_str()));
    let blank = Blank {
        name: FormName::NewRule,
        heading: "Add a rule from this step …",
        intro: "A cure is a wait. A working time is a limit: the other step is done, or begun, in time.",
        submit: "Add the rule",
        fields: vec![
            choice("kind", "This step", "after", &KINDS),
            choice_of("then", "The other step", "", steps),
            number("time", "Time", "")
                .unit("min")
                .hint("24 h, or 2026-05-20T08:00:00+02:00[Europe/Berlin]"),
            line("why", "Why, and from where", "").hint("cure, data sheet p. 2"),
            field(
                "physics",
                "A cure, a working time or a safety gate: nobody may give it up",
                "",
                FieldKind::Tick,
            ),
        ],
    };
    drawn.form(blank, vec![("first", step.key.to_string())], false)
}

/// A rule less, of those given with their words.
pub(crate) fn rule_off(drawn: Drawn<'_>, rules: Vec<(String, String)>) -> Form {
    let blank = Blank {
        name: FormName::RuleOff,
        heading: "Take a rule out …",
        intro: "Undo brings it back.",
        submit: "Take it out",
        fields: vec![choice_of("rule", "The rule", "", rules)],
    };
    drawn.form(blank, Vec::new(), false)
}

/// A part more.
pub(crate) fn new_part(drawn: Drawn<'_>) -> Form {
    let blank = Blank {
        name: FormName::NewPart,
        heading: "Add a part, a consumable or a tool …",
        intro: "A step that needs it waits until it is at hand.",
        submit: "Add it",
        fields: vec![line("part", "What it is", "").hint("Wear ring")],
    };
    drawn.form(blank, Vec::new(), false)
}

/// A part less.
pub(crate) fn part_off(drawn: Drawn<'_>, plan: &Plan) -> Form {
    let parts = plan
        .parts
        .iter()
        .map(|part| (part.key.to_string(), part.name.clone()));
    let blank = Blank {
        name: FormName::PartOff,
        heading: "Take a part off the list …",
        intro: "Only what no step needs.",
        submit: "Take it off",
        fields: vec![choice_of("part", "Which", "", parts.collect())],
    };
    drawn.form(blank, Vec::new(), false)
}

/// Another name.
pub(crate) fn name(drawn: Drawn<'_>, plan: &Plan) -> Form {
    let blank = Blank {
        name: FormName::PlanName,
        heading: "Name the plan anew …",
        intro: "",
        submit: "Keep the name",
        fields: vec![line("plan", "What it is a plan of", &plan.name)],
    };
    drawn.form(blank, Vec::new(), false)
}

pub(super) fn steps_of(plan: &Plan) -> impl Iterator<Item = (String, String)> {
    plan.steps
        .iter()
        .map(|step| (step.key.to_string(), step.name.clone()))
}
