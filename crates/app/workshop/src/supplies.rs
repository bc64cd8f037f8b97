//! What must be at hand: parts, consumables and special tools, grown from the findings, the joints
//! and the plan, and what a person adds by hand. Each says why it is on the list.

mod grow;

use jiff::civil::Date;

use crate::entry::Key;
use crate::inspect::parts::is_open;
use crate::job::Job;
use crate::plan::Status;

/// What kind of thing it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// Goes into the craft and stays there.
    Part,
    /// Is used up.
    Consumable,
    /// Is used and kept.
    Tool,
}

impl Group {
    /// All, in the order of the list.
    pub const ALL: [Self; 3] = [Self::Part, Self::Consumable, Self::Tool];
}

/// Where a thing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whereabouts {
    /// On the bench.
    AtHand,
    /// Ordered and not here.
    OnOrder,
    /// Neither here nor ordered.
    Missing,
    /// It is not needed after all.
    NotNeeded,
}

impl Whereabouts {
    /// As a part of the plan says it; none where the plan has no such word.
    pub fn status(self) -> Option<Status> {
        match self {
            Self::AtHand => Some(Status::AtHand),
            Self::OnOrder => Some(Status::OnOrder),
            Self::Missing => Some(Status::Missing),
            Self::NotNeeded => None,
        }
    }
}

impl From<Status> for Whereabouts {
    fn from(status: Status) -> Self {
        match status {
            Status::AtHand => Self::AtHand,
            Status::OnOrder => Self::OnOrder,
            Status::Missing => Self::Missing,
        }
    }
}

/// What a person says of one thing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    /// Its name, where a person added it; empty for what is on the list by itself.
    pub name: String,
    /// What kind of thing, where a person added it.
    pub group: Option<Group>,
    /// Where it is.
    pub whereabouts: Option<Whereabouts>,
    /// The day it is expected, where it is on order.
    pub expected: Option<Date>,
    /// Why it is not needed, or why it was added.
    pub reason: String,
}

/// Why something is on the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Why {
    /// In a breath: `seal, torn lip`.
    pub words: String,
    /// Common practice says that it takes this; else somebody said so.
    pub practice: bool,
}

/// One thing that must be at hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Supply {
    /// Names it within the job; a part of the plan with the same name is the same thing.
    pub key: Key,
    /// In words.
    pub name: String,
    /// What kind of thing.
    pub group: Group,
    /// Why, each once.
    pub why: Vec<Why>,
    /// Where it is; nobody has said where it is none.
    pub whereabouts: Option<Whereabouts>,
    /// The day it is expected.
    pub expected: Option<Date>,
    /// Why it is not needed.
    pub reason: String,
}

impl Supply {
    /// Nothing is left to do about it.
    pub fn settled(&self) -> bool {
        matches!(
            self.whereabouts,
            Some(Whereabouts::AtHand | Whereabouts::NotNeeded)
        )
    }
}

/// The list, by kind of thing.
pub fn supplies(job: &Job) -> Vec<Supply> {
    let mut list = List(Vec::new());
    if let Some(plan) = job.bench.plan() {
        for part in &plan.parts {
            let steps = plan
                .steps
                .iter()
                .filter(|step| step.needs.contains(&part.key));
            let steps: Vec<String> = steps.map(|step| format!("step “{}”", step.name)).collect();
            let why = if steps.is_empty() {
                "the plan".to_owned()
            } else {
                steps.join(", ")
            };
            let group = by_name(&part.name);
            list.add((part.key.as_str(), &part.name, group), (&why, false));
        }
    }
    for (_, state) in job.inspected.findings_in_order() {
        if is_open(state) {
            grow::finding(&mut list, &state.finding.value);
        }
    }
    grow::joints(&mut list, job);
    grow::fits(&mut list, job);
    grow::beads(&mut list, job);
    for (key, fact) in &job.inspected.supplies {
        let said = &fact.value;
        if !said.name.is_empty() {
            // The reason of what is not needed stands there, not here.
            let why = match said.reason.as_str() {
                reason if reason.is_empty() || said.whereabouts == Some(Whereabouts::NotNeeded) => {
                    "added by hand"
                }
                reason => reason,
            };
            let group = said.group.unwrap_or(Group::Part);
            list.add((key.as_str(), &said.name, group), (why, false));
        }
    }
    let mut all = list.0;
    for supply in &mut all {
        state(job, supply);
    }
    all.sort_by_key(|supply| supply.group);
    all
}

/// What kind of thing a part of the plan is, by the words of its name.
fn by_name(name: &str) -> Group {
    let name = name.to_lowercase();
    let mut words = name.split(|c: char| !c.is_alphanumeric());
    let group = words.find_map(|word| match word {
        "adhesive" | "cleaner" | "degreaser" | "grease" | "oil" | "paint" | "primer" | "resin"
        | "sealant" | "threadlocker" => Some(Group::Consumable),
        "drill" | "puller" | "tool" | "wrench" => Some(Group::Tool),
        _ => None,
    });
    group.unwrap_or(Group::Part)
}

/// Where it is, by what was said last.
fn state(job: &Job, supply: &mut Supply) {
    let said = job.inspected.supplies.get(&supply.key);
    let part = job.bench.parts.get(&supply.key);
    match (said, part) {
        (Some(fact), part)
            if fact.value.whereabouts == Some(Whereabouts::NotNeeded)
                && part.is_none_or(|told| told.position < fact.position) =>
        {
            supply.whereabouts = Some(Whereabouts::NotNeeded);
            supply.reason.clone_from(&fact.value.reason);
        }
        (_, Some(told)) => {
            supply.whereabouts = Some(told.value.status.into());
            supply.expected = told.value.expected;
        }
        _ => {}
    }
}

/// The list as it grows: the same name is the same thing.
struct List(Vec<Supply>);

impl List {
    fn add(&mut self, (key, name, group): (&str, &str, Group), (why, practice): (&str, bool)) {
        let Ok(key) = Key::new(key) else { return };
        let why = Why {
            words: why.to_owned(),
            practice,
        };
        match self.0.iter_mut().find(|supply| supply.key == key) {
            Some(there) => {
                // The plan does not say what kind of thing its parts are; what grows does.
                there.group = group;
                if !there.why.iter().any(|known| known.words == why.words) {
                    there.why.push(why);
                }
            }
            None => self.0.push(Supply {
                key,
                name: name.to_owned(),
                group,
                why: vec![why],
                whereabouts: None,
                expected: None,
                reason: String::new(),
            }),
        }
    }
}
