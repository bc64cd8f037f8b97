//! One change to the plan, as typed. The plan that comes of it is laid whole, so that undo brings
//! back the one before.

use super::{ItemDraft, RuleDraft, StepDraft, ToolDraft};
use crate::entry::{EntryId, Key};
use crate::job::Job;
use crate::plan::{Ask, Part, Plan, Rule};
use crate::refusal::{Obstacle, Refusal};

/// One change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Edit {
    /// Another name for the plan.
    Name(String),
    /// A step more, or the first of a new plan.
    NewStep {
        /// The step; its key is made from its name.
        step: StepDraft,
        /// Key of the step it comes after; empty for one that waits for none.
        follows: String,
        /// The name of the plan, where none is laid yet.
        plan: String,
    },
    /// A step said anew.
    Step(StepDraft),
    /// A step less, and the rules that name it.
    StepOff(String),
    /// A rule more.
    NewRule(RuleDraft),
    /// A rule less, by its place in the list.
    RuleOff(String),
    /// A part more, by its name.
    NewPart(String),
    /// A part less.
    PartOff(String),
    /// A thing more to account for; its key is made from its name.
    NewItem(ItemDraft),
    /// A thing less.
    ItemOff(String),
    /// A tool more; its key is made from its name.
    NewTool(ToolDraft),
    /// A tool less.
    ToolOff(String),
}

impl Edit {
    /// The plan with this change. `seen` is the entry of the plan the person was looking at, empty
    /// for none: a plan that was changed meanwhile is looked at again first.
    pub fn apply(&self, job: &Job, seen: &str) -> Result<Plan, Refusal> {
        let fact = job.bench.plan.as_ref();
        if fact.map_or("", |fact| EntryId::as_str(&fact.entry)) != seen {
            return Err(Refusal::Work(Obstacle::PlanChanged));
        }
        let mut plan = match (fact, self) {
            (Some(fact), _) => fact.value.clone(),
            (None, Self::NewStep { plan, .. }) => Plan {
                name: filled("plan", plan)?,
                steps: Vec::new(),
                rules: Vec::new(),
                parts: Vec::new(),
                tools: Vec::new(),
                items: Vec::new(),
            },
            (None, _) => return Err(Refusal::Work(Obstacle::NoPlan)),
        };
        match self {
            Self::Name(name) => plan.name = filled("plan", name)?,
            Self::NewStep { step, follows, .. } => new_step(&mut plan, step, follows)?,
            Self::Step(draft) => {
                let step = draft.read()?;
                let place = plan.place_of(&step.key)?;
                plan.steps[place] = step;
            }
            Self::StepOff(key) => step_off(&mut plan, job, &Key::new(key)?)?,
            Self::NewRule(draft) => plan.rules.push(draft.read()?),
            Self::RuleOff(place) => {
                let place = place.parse().ok();
                let place = place.filter(|place: &usize| *place < plan.rules.len());
                plan.rules
                    .remove(place.ok_or(Refusal::Empty { field: "rule" })?);
            }
            Self::NewPart(name) => {
                let name = filled("part", name)?;
                let key = Key::free(&name, "part", |key| plan.part(key).is_some())?;
                plan.parts.push(Part { key, name });
            }
            Self::PartOff(key) => part_off(&mut plan, &Key::new(key)?)?,
            Self::NewItem(draft) => new_item(&mut plan, draft)?,
            Self::ItemOff(key) => item_off(&mut plan, job, &Key::new(key)?)?,
            Self::NewTool(draft) => new_tool(&mut plan, draft)?,
            Self::ToolOff(key) => tool_off(&mut plan, job, &Key::new(key)?)?,
        }
        Ok(plan)
    }
}

/// A new step stands behind the one it comes after.
fn new_step(plan: &mut Plan, draft: &StepDraft, follows: &str) -> Result<(), Refusal> {
    let name = filled("name", &draft.name)?;
    let key = Key::free(&name, "step", |key| plan.place(key).is_some())?;
    let step = StepDraft {
        key: key.to_string(),
        ..draft.clone()
    };
    let step = step.read()?;
    if follows.is_empty() {
        plan.steps.push(step);
        return Ok(());
    }
    let first = Key::new(follows)?;
    let place = plan.place_of(&first)?;
    plan.steps.insert(place + 1, step);
    plan.rules.push(Rule {
        ask: Ask::After {
            first,
            then: key,
            lag: None,
        },
        why: String::new(),
        physics: false,
    });
    Ok(())
}

fn step_off(plan: &mut Plan, job: &Job, key: &Key) -> Result<(), Refusal> {
    let place = plan.place_of(key)?;
    if job.bench.progress.contains_key(key) {
        let step = plan.steps[place].name.clone();
        return Err(Refusal::Work(Obstacle::HasHistory { step }));
    }
    plan.steps.remove(place);
    plan.rules.retain(|rule| !rule.names(key));
    for item in &mut plan.items {
        item.step.take_if(|step| step == key);
    }
    Ok(())
}

fn new_item(plan: &mut Plan, draft: &ItemDraft) -> Result<(), Refusal> {
    let name = filled("name", &draft.name)?;
    let key = Key::free(&name, "thing", |key| plan.item(key).is_some())?;
    let draft = ItemDraft {
        key: key.to_string(),
        name,
        ..draft.clone()
    };
    plan.items.push(draft.read()?);
    Ok(())
}

/// What something was told of stays on the list, so that nothing is lost from sight.
fn item_off(plan: &mut Plan, job: &Job, key: &Key) -> Result<(), Refusal> {
    let place = plan.item_of(key)?;
    if job.bench.items.contains_key(key) {
        let item = plan.items[place].name.clone();
        return Err(Refusal::Work(Obstacle::ToldOf { item }));
    }
    plan.items.remove(place);
    Ok(())
}

fn new_tool(plan: &mut Plan, draft: &ToolDraft) -> Result<(), Refusal> {
    let name = filled("name", &draft.name)?;
    let key = Key::free(&name, "tool", |key| plan.tool(key).is_some())?;
    let draft = ToolDraft {
        key: key.to_string(),
        name,
        ..draft.clone()
    };
    plan.tools.push(draft.read()?);
    Ok(())
}

fn tool_off(plan: &mut Plan, job: &Job, key: &Key) -> Result<(), Refusal> {
    let place = plan.tool_of(key)?;
    let name = || plan.tools[place].name.clone();
    if job.bench.tools.contains_key(key) {
        return Err(Refusal::Work(Obstacle::ToldOf { item: name() }));
    }
    if let Some(step) = plan.steps.iter().find(|step| step.tools.contains(key)) {
        return Err(Refusal::Work(Obstacle::Needed {
            part: name(),
            step: step.name.clone(),
        }));
    }
    plan.tools.remove(place);
    Ok(())
}

fn part_off(plan: &mut Plan, key: &Key) -> Result<(), Refusal> {
    let place = plan.part_of(key)?;
    if let Some(step) = plan.steps.iter().find(|step| step.needs.contains(key)) {
        return Err(Refusal::Work(Obstacle::Needed {
            part: plan.parts[place].name.clone(),
            step: step.name.clone(),
        }));
    }
    plan.parts.remove(place);
    Ok(())
}

fn filled(field: &'static str, text: &str) -> Result<String, Refusal> {
    match text.trim() {
        "" => Err(Refusal::Empty { field }),
        text => Ok(text.to_owned()),
    }
}
