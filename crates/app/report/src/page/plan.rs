//! The Plan page: the steps, what holds between them, what they need, and how each is changed.

mod lists;

use workshop::assemble::{Assembly, assess, words};
use workshop::entry::{EntryId, Key};
use workshop::plan::{Opens, Plan, Step, seconds};
use workshop::usual::is_usual;

use super::assemble::lists::groups;
use super::assemble::{View, say, told};
use super::forms::plan as forms;
use super::forms::plan::Drawn;
use super::forms::things;
use super::forms::usual::{not_laid, usual};
use super::{Answer, Card, FactRow, Next, Page, Section, Target, Tone, frame, plain, row, strong};
use crate::words::count;

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let fact = view.job.bench.plan.as_ref();
    let drawn = Drawn {
        entry: fact.map_or("", |fact| EntryId::as_str(&fact.entry)),
        refused: view.refused,
    };
    let assembly = assess(view.job, view.now.timestamp());
    let both = fact.map(|fact| &fact.value).zip(assembly.as_ref());
    let asked = both.and_then(|(plan, _)| pointed(view, plan));
    let (answer, evidence) = match both {
        Some((plan, assembly)) => (
            answer(view, plan, assembly),
            evidence(view, drawn, plan, asked),
        ),
        None => (none(), vec![Section::Form(forms::new_step(drawn, None))]),
    };
    let next = match (both, asked) {
        (None, _) => Next::Fill(usual(view.refused, true)),
        (Some(_), asked) => Next::Ask {
            question: vec![plain(match asked {
                Some(step) => format!("“{}” may be changed above.", step.name),
                None => "Add a step, or point at one to change it.".to_owned(),
            })],
            buttons: frame::undo(view.job),
            write: None,
        },
    };
    let assemble = Target::Assemble(view.id.clone());
    Page {
        title: "Plan".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &assemble),
        here: Some(match asked {
            Some(step) => Target::PlanStep(view.id.clone(), step.key.clone()),
            None => Target::Plan(view.id.clone()),
        }),
        clocks: both.map_or_else(Vec::new, |(plan, assembly)| {
            told(plan, &assembly.clocks, assembly.now, view.now)
        }),
        answer,
        evidence,
        next,
        cautions: vec![CAUTION],
    }
}

/// What a plan of one's own leaves open.
const CAUTION: &str = "The plan is as good as what was typed. Order, waits and cautions of the \
    craft’s manual and of the data sheets come first.";

fn none() -> Answer {
    Answer {
        tone: Tone::Plain,
        headline: "No plan yet.".to_owned(),
        detail: vec![plain(
            "The usual plan comes from a few answers, from no manual. Or add the steps one by one, \
             each after the one it follows; rules for cures and working times come next. A card \
             from someone with the same pump brings all of it at once: begin the job from it.",
        )],
        origin: String::new(),
    }
}

fn answer(view: &View<'_>, plan: &Plan, assembly: &Assembly) -> Answer {
    let steps = count(plan.steps.len(), "step", "steps");
    let rules = count(plan.rules.len(), "rule", "rules");
    let parts = count(plan.parts.len(), "part", "parts");
    let found = assembly.contradictions.first();
    let (tone, headline) = match found {
        Some(found) => (
            Tone::Stop,
            format!("The plan does not fit: {} short.", words::span(found.short)),
        ),
        None => (
            Tone::Good,
            format!("The plan fits: {steps}, {rules}, {parts}."),
        ),
    };
    let detail = match found {
        Some(found) => vec![plain(say::contradiction(plan, found, view.now))],
        None => ready(view, plan, assembly),
    };
    Answer {
        tone,
        headline,
        detail,
        origin: origin(plan),
    }
}

/// Whose plan it is: the usual one is nobody's until it is named anew.
pub(crate) fn origin(plan: &Plan) -> String {
    if is_usual(plan) {
        format!(
            "{}: assumed. Put in your manual’s order and your data sheets’ times, then name it anew",
            plan.name
        )
    } else {
        format!("{}, as you laid it", plan.name)
    }
}

/// The earliest time at which the craft may float.
fn ready(view: &View<'_>, plan: &Plan, assembly: &Assembly) -> Vec<super::Run> {
    let open = plan.steps.iter().zip(&assembly.steps);
    let float = open.filter(|(step, _)| step.opens == Opens::Float);
    let ends = float.map(|(_, standing)| standing.ends).max();
    ends.map_or_else(Vec::new, |at| {
        vec![
            plain("What must be done before it floats is done "),
            strong(format!("{} at the earliest", words::when(at, view.now))),
            plain(", by these times alone; Assemble counts the hands too."),
        ]
    })
}

/// The step a person pointed at, or the one whose form was refused.
fn pointed<'a>(view: &View<'_>, plan: &'a Plan) -> Option<&'a Step> {
    let refused = view.refused.and_then(|refused| {
        let about = |(name, _): &&(String, String)| name == "step" || name == "first";
        Key::new(&refused.typed.iter().find(about)?.1).ok()
    });
    let place = plan.place(view.at.or(refused.as_ref())?)?;
    Some(&plan.steps[place])
}

fn evidence(view: &View<'_>, drawn: Drawn<'_>, plan: &Plan, asked: Option<&Step>) -> Vec<Section> {
    if let Some(step) = asked {
        let back = (
            Target::Plan(view.id.clone()),
            "All steps of the plan".to_owned(),
            count(plan.steps.len(), "step", "steps"),
        );
        return vec![
            Section::Card(card(view, drawn, plan, step)),
            Section::Ways {
                heading: "Back".to_owned(),
                links: vec![back],
            },
        ];
    }
    let mut sections: Vec<Section> = not_laid(view.refused).into_iter().collect();
    sections.push(Section::Form(forms::new_step(drawn, Some(plan))));
    sections.extend(steps(view, plan));
    sections.extend(lists::parts(plan));
    sections.push(Section::Form(forms::new_part(drawn)));
    if !plan.parts.is_empty() {
        sections.push(Section::Form(forms::part_off(drawn, plan)));
    }
    sections.extend(accounted(view, drawn, plan));
    sections.push(Section::Form(forms::name(drawn, plan)));
    sections.push(hand_on(view));
    sections
}

/// The things to account for and the tools, and how each list is changed.
fn accounted(view: &View<'_>, drawn: Drawn<'_>, plan: &Plan) -> Vec<Section> {
    let several = |name: &str, count: u16| match count {
        1 => name.to_owned(),
        n => format!("{name} × {n}"),
    };
    let mut sections = Vec::new();
    if !plan.items.is_empty() {
        let links = plan.items.iter().map(|item| {
            let step = item.step.as_ref().and_then(|step| plan.place(step));
            let step = step.map_or("no step", |step| plan.steps[step].name.as_str());
            let target = Target::Item(view.id.clone(), item.key.clone());
            (target, several(&item.name, item.count), step.to_owned())
        });
        sections.push(Section::Folded {
            heading: "To account for".to_owned(),
            state: count(plan.items.len(), "thing", "things"),
            links: links.collect(),
        });
    }
    sections.push(Section::Form(things::new_item(drawn, plan)));
    if !plan.items.is_empty() {
        sections.push(Section::Form(things::item_off(drawn, plan)));
    }
    if !plan.tools.is_empty() {
        let tools = plan.tools.iter();
        sections.push(Section::Notes {
            heading: "Tools".to_owned(),
            notes: tools.map(|tool| several(&tool.name, tool.count)).collect(),
        });
    }
    sections.push(Section::Form(things::new_tool(drawn)));
    if !plan.tools.is_empty() {
        sections.push(Section::Form(things::tool_off(drawn, plan)));
    }
    sections
}

/// A step with its rules, and what may be changed about them.
fn card(view: &View<'_>, drawn: Drawn<'_>, plan: &Plan, step: &Step) -> Card {
    let rules = plan.rules.iter().enumerate();
    let rules = rules.filter(|(_, rule)| rule.names(&step.key));
    let rules: Vec<usize> = rules.map(|(place, _)| place).collect();
    let asked = rules.iter().map(|place| {
        row(
            if plan.rules[*place].physics {
                "Must".to_owned()
            } else {
                "Rule".to_owned()
            },
            vec![plain(say::asks(plan, *place, view.now))],
            plan.rules[*place].why.clone(),
        )
    });
    let mut changes = vec![
        forms::step(drawn, plan, step),
        forms::new_rule(drawn, plan, step),
    ];
    if !rules.is_empty() {
        let named = rules
            .iter()
            .map(|place| (place.to_string(), say::asks(plan, *place, view.now)));
        changes.push(forms::rule_off(drawn, named.collect()));
    }
    changes.push(forms::step_off(drawn, plan, step));
    for form in &mut changes {
        // A refusal at one of them leads back to this step.
        if !form
            .values
            .iter()
            .any(|(name, _)| ["step", "first"].contains(name))
        {
            form.values.push(("step", step.key.to_string()));
        }
    }
    Card {
        heading: step.name.clone(),
        tone: Tone::Plain,
        state: words::span(seconds(&step.takes)),
        rows: lists::said(plan, step).into_iter().chain(asked).collect(),
        notes: lists::minded(step),
        forms: changes,
    }
}

/// The steps, each part of the job folded by itself.
fn steps(view: &View<'_>, plan: &Plan) -> Vec<Section> {
    let link = |place: usize| {
        let step = &plan.steps[place];
        let rules = plan.rules.iter().filter(|rule| rule.names(&step.key));
        let rules = count(rules.count(), "rule", "rules");
        (
            Target::PlanStep(view.id.clone(), step.key.clone()),
            step.name.clone(),
            format!("{}, {rules}", words::span(seconds(&step.takes))),
        )
    };
    let done = |place: &usize| view.job.bench.of(&plan.steps[*place].key).done.is_some();
    let section = |(group, places): (String, Vec<usize>)| {
        let links = places.iter().map(|place| link(*place)).collect();
        if group.is_empty() {
            let heading = "Steps: point at one to change it".to_owned();
            return Section::Links { heading, links };
        }
        let done = places.iter().filter(|place| done(place)).count();
        Section::Folded {
            heading: group,
            state: format!("{done} of {} done", places.len()),
            links,
        }
    };
    groups(plan).into_iter().map(section).collect()
}

fn hand_on(view: &View<'_>) -> Section {
    Section::Ways {
        heading: "To keep and to hand on".to_owned(),
        links: vec![
            (
                Target::Card(view.id.clone()),
                "The card of this pump".to_owned(),
                "steps, joints, limits, page numbers, for whoever has the same".to_owned(),
            ),
            (
                Target::File(view.id.clone()),
                "The job as a text file".to_owned(),
                "all of it, readings too".to_owned(),
            ),
            (
                Target::Archive(view.id.clone()),
                "Archive".to_owned(),
                "everything, with photos, in one file".to_owned(),
            ),
        ],
    }
}
