//! The plan, its parts and how far it has come, as typed.

mod account;
mod crew;
mod edit;
mod item;
mod kinds;
mod progress;
mod usual;

use jiff::ZonedDateTime;
use jiff::fmt::temporal::DateTimeParser;
use quantity::{Entered, Unit};

use super::{Choice, choose, day, length, optional, typed, word};
use crate::act::Act;
use crate::entry::{Body, Key};
use crate::job::Job;
use crate::plan::{Ask, Gate, Opens, Part, Plan, Rule, Stated, Status, Step, Work};
use crate::refusal::{Obstacle, Refusal};

pub use account::{AccountDraft, READIES, deferred, excuse};
pub use crew::{CrewDraft, written as shift_words};
pub use edit::Edit;
pub use item::{ITEMS, ItemDraft, ToolDraft};
pub use kinds::{RULES, RuleKind};
pub use progress::{ProgressDraft, estimated, fasteners};
pub use usual::{BEARINGS, DRIVELINES, HAS, SHOES, USUAL_RINGS, UsualDraft};

/// The words for [`Opens`].
pub const OPENS: [Choice<Opens>; 3] = [
    ("float", Opens::Float),
    ("full-throttle", Opens::FullThrottle),
    ("closed", Opens::Closed),
];
/// The words for [`Gate`].
pub const GATES: [Choice<Gate>; 4] = [
    ("gap-in", Gate::GapIn),
    ("leak-tight", Gate::LeakTight),
    ("aligned", Gate::Aligned),
    ("gap-reread", Gate::GapReread),
];
/// The words for [`Status`].
pub const STATUSES: [Choice<Status>; 3] = [
    ("at-hand", Status::AtHand),
    ("on-order", Status::OnOrder),
    ("missing", Status::Missing),
];

/// Everything about the plan as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BenchDraft {
    /// What it is a plan of; without it, no plan is laid.
    pub plan: Option<String>,
    /// The steps.
    pub steps: Vec<StepDraft>,
    /// The rules between them.
    pub rules: Vec<RuleDraft>,
    /// The parts, and where they are.
    pub parts: Vec<PartDraft>,
    /// The tools the steps hold.
    pub tools: Vec<ToolDraft>,
    /// What is accounted for at the end.
    pub items: Vec<ItemDraft>,
    /// Who works, and when, if that was said.
    pub crew: Option<CrewDraft>,
    /// How far each step has come.
    pub progress: Vec<ProgressDraft>,
    /// What was told of the things to account for.
    pub accounts: Vec<AccountDraft>,
    /// How many tools are back.
    pub returned: Vec<AccountDraft>,
}

/// [`Step`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StepDraft {
    /// Its key.
    pub key: String,
    /// What is done.
    pub name: String,
    /// May be empty.
    pub group: String,
    /// May be empty.
    pub how: String,
    /// How long; a bare number is minutes.
    pub takes: String,
    /// May be empty.
    pub most: String,
    /// Keys of parts.
    pub needs: Vec<String>,
    /// Pairs of hands; empty for one.
    pub hands: String,
    /// Keys of tools.
    pub tools: Vec<String>,
    /// A word of [`GATES`], or empty.
    pub gate: String,
    /// A word of [`OPENS`].
    pub opens: String,
    /// How many; may be empty.
    pub fasteners: String,
    /// Whether one may stand in.
    pub temporary: bool,
    /// May be empty.
    pub caution: String,
    /// It cannot be taken back.
    pub irreversible: bool,
}

/// [`Rule`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct RuleDraft {
    /// A word of [`RULES`].
    pub kind: String,
    /// Key of the step before, or of the only step.
    pub first: String,
    /// Key of the step after; empty where there is only one.
    pub then: String,
    /// The lag, the limit or the time; a bare number is minutes.
    pub time: String,
    /// Why.
    pub why: String,
    /// Nobody may be asked to give it up.
    pub physics: bool,
}

/// [`Part`] and [`Stated`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PartDraft {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// A word of [`STATUSES`], or empty.
    pub status: String,
    /// The day it is expected; may be empty.
    pub expected: String,
}

impl StepDraft {
    /// The draft that reads as `step`.
    pub fn of(step: &Step) -> Self {
        Self {
            key: step.key.to_string(),
            name: step.name.clone(),
            group: step.group.clone(),
            how: step.how.clone(),
            takes: typed(&step.takes, Unit::Minute),
            most: step.most.as_ref().map_or_else(String::new, minutes),
            needs: step.needs.iter().map(Key::to_string).collect(),
            hands: match step.hands {
                1 => String::new(),
                hands => hands.to_string(),
            },
            tools: step.tools.iter().map(Key::to_string).collect(),
            gate: step.gate.map_or("", |gate| word(&GATES, gate)).to_owned(),
            opens: word(&OPENS, step.opens).to_owned(),
            fasteners: step.fasteners.map_or_else(String::new, |n| n.to_string()),
            temporary: step.temporary,
            caution: step.caution.clone(),
            irreversible: step.irreversible,
        }
    }

    fn read(&self) -> Result<Step, Refusal> {
        let needs = self.needs.iter().map(|key| Key::new(key));
        let tools = self.tools.iter().map(|key| Key::new(key));
        Ok(Step {
            key: Key::new(&self.key)?,
            name: self.name.clone(),
            group: self.group.clone(),
            how: self.how.clone(),
            takes: length("takes", &self.takes, Unit::Minute)?,
            most: optional("most", &self.most, Unit::Minute)?,
            needs: needs.collect::<Result<_, _>>()?,
            hands: match self.hands.trim() {
                "" => 1,
                text => number("hands", text)?,
            },
            tools: tools.collect::<Result<_, _>>()?,
            gate: given("gate", &self.gate, &GATES)?,
            opens: choose("opens", &self.opens, &OPENS)?,
            fasteners: match self.fasteners.trim() {
                "" => None,
                text => Some(number("fasteners", text)?),
            },
            temporary: self.temporary,
            caution: self.caution.clone(),
            irreversible: self.irreversible,
        })
    }
}

impl RuleDraft {
    fn of(rule: &Rule) -> Self {
        let [first, then] = rule.ask.steps();
        let (kind, time) = match &rule.ask {
            Ask::After { lag, .. } => (
                RuleKind::After,
                lag.as_ref().map_or_else(String::new, minutes),
            ),
            Ask::StartWithin { most, .. } => (RuleKind::StartWithin, minutes(most)),
            Ask::FinishedWithin { most, .. } => (RuleKind::FinishedWithin, minutes(most)),
            Ask::StartWithinStart { most, .. } => (RuleKind::StartWithinStart, minutes(most)),
            Ask::Together { .. } => (RuleKind::Together, String::new()),
            Ask::NotBefore { time, .. } => (RuleKind::NotBefore, time.to_string()),
            Ask::FinishedBy { time, .. } => (RuleKind::FinishedBy, time.to_string()),
        };
        let alone = matches!(kind, RuleKind::NotBefore | RuleKind::FinishedBy);
        Self {
            kind: word(&RULES, kind).to_owned(),
            first: first.to_string(),
            then: if alone {
                String::new()
            } else {
                then.to_string()
            },
            time,
            why: rule.why.clone(),
            physics: rule.physics,
        }
    }

    fn read(&self) -> Result<Rule, Refusal> {
        let first = match self.first.as_str() {
            "" => return Err(Refusal::Empty { field: "first" }),
            first => Key::new(first)?,
        };
        let then = || match self.then.as_str() {
            "" => Err(Refusal::Empty { field: "then" }),
            then => Key::new(then),
        };
        let most = || length("time", &self.time, Unit::Minute);
        let ask = match choose("kind", &self.kind, &RULES)? {
            RuleKind::After => Ask::After {
                first,
                then: then()?,
                lag: optional("time", &self.time, Unit::Minute)?,
            },
            RuleKind::StartWithin => Ask::StartWithin {
                first,
                then: then()?,
                most: most()?,
            },
            RuleKind::FinishedWithin => Ask::FinishedWithin {
                first,
                then: then()?,
                most: most()?,
            },
            RuleKind::StartWithinStart => Ask::StartWithinStart {
                first,
                then: then()?,
                most: most()?,
            },
            RuleKind::Together => Ask::Together {
                first,
                then: then()?,
            },
            RuleKind::NotBefore => Ask::NotBefore {
                step: first,
                time: moment(&self.time)?,
            },
            RuleKind::FinishedBy => Ask::FinishedBy {
                step: first,
                time: moment(&self.time)?,
            },
        };
        Ok(Rule {
            ask,
            why: self.why.clone(),
            physics: self.physics,
        })
    }
}

impl PartDraft {
    fn of(part: &Part, job: &Job) -> Self {
        let told = job.bench.parts.get(&part.key);
        let stated = told.map(|told| &told.value);
        let day = stated.and_then(|stated| stated.expected);
        Self {
            key: part.key.to_string(),
            name: part.name.clone(),
            status: stated
                .map_or("", |stated| word(&STATUSES, stated.status))
                .to_owned(),
            expected: day.map_or_else(String::new, |day| day.to_string()),
        }
    }

    /// Where the part is, if that was said.
    pub fn stated(&self) -> Result<Option<Stated>, Refusal> {
        let Some(status) = given("status", &self.status, &STATUSES)? else {
            return Ok(None);
        };
        let expected = day(&self.expected)?;
        Ok(Some(Stated { status, expected }))
    }
}

impl BenchDraft {
    /// The draft that brings an empty job to the plan of this one and as far.
    pub fn of(job: &Job) -> Self {
        let crew = job.bench.crew.as_ref();
        let crew = crew.map(|crew| CrewDraft::of(&crew.value));
        let bench = &job.bench;
        let Some(plan) = bench.plan() else {
            return Self {
                crew,
                ..Self::default()
            };
        };
        let progress = plan.steps.iter().filter_map(|step| {
            let progress = job.bench.progress.get(&step.key)?;
            Some(ProgressDraft::of(step, progress))
        });
        Self {
            plan: Some(plan.name.clone()),
            steps: plan.steps.iter().map(StepDraft::of).collect(),
            rules: plan.rules.iter().map(RuleDraft::of).collect(),
            parts: (plan.parts.iter())
                .map(|part| PartDraft::of(part, job))
                .collect(),
            tools: plan.tools.iter().map(ToolDraft::of).collect(),
            items: plan.items.iter().map(ItemDraft::of).collect(),
            crew,
            progress: progress.collect(),
            accounts: (plan.items.iter())
                .filter_map(|item| Some(AccountDraft::of(&item.key, bench.items.get(&item.key)?)))
                .collect(),
            returned: (plan.tools.iter())
                .filter_map(|tool| Some(AccountDraft::of(&tool.key, bench.tools.get(&tool.key)?)))
                .collect(),
        }
    }

    /// The plan, if one is laid.
    pub fn read(&self) -> Result<Option<Plan>, Refusal> {
        let Some(name) = &self.plan else {
            return match self.steps.first() {
                Some(_) => Err(Refusal::Empty { field: "plan" }),
                None => Ok(None),
            };
        };
        let part = |part: &PartDraft| {
            Ok(Part {
                key: Key::new(&part.key)?,
                name: part.name.clone(),
            })
        };
        Ok(Some(Plan {
            name: name.clone(),
            steps: (self.steps.iter())
                .map(StepDraft::read)
                .collect::<Result<_, _>>()?,
            rules: (self.rules.iter())
                .map(RuleDraft::read)
                .collect::<Result<_, _>>()?,
            parts: self
                .parts
                .iter()
                .map(part)
                .collect::<Result<_, Refusal>>()?,
            tools: (self.tools.iter())
                .map(ToolDraft::read)
                .collect::<Result<_, _>>()?,
            items: (self.items.iter())
                .map(ItemDraft::read)
                .collect::<Result<_, _>>()?,
        }))
    }

    /// The acts that bring `job` to what this says. What has happened is only ever added.
    pub(super) fn acts(&self, job: &Job) -> Result<Vec<Act>, Refusal> {
        let mut acts = Vec::new();
        if let Some(plan) = self.read()?
            && job
                .bench
                .plan()
                .is_none_or(|had| written(had) != written(&plan))
        {
            acts.push(Act::Record(Body::Work(Work::PlanLaid(plan))));
        }
        if let Some(crew) = self.crew.as_ref().map(CrewDraft::read).transpose()?
            && job.bench.crew.as_ref().is_none_or(|had| had.value != crew)
        {
            acts.push(Act::Record(Body::Work(Work::CrewStated(crew))));
        }
        for part in &self.parts {
            let key = Key::new(&part.key)?;
            let had = job.bench.parts.get(&key);
            if let Some(stated) = part.stated()?
                && had.is_none_or(|had| had.value != stated)
            {
                let stated = Work::PartStated { part: key, stated };
                acts.push(Act::Record(Body::Work(stated)));
            }
        }
        for progress in &self.progress {
            acts.extend(progress.acts(job)?);
        }
        acts.extend(account::acts(&job.bench, &self.accounts, &self.returned)?);
        Ok(acts)
    }
}

/// A plan by what it means, however it was spaced.
fn written(plan: &Plan) -> impl PartialEq {
    let steps: Vec<StepDraft> = plan.steps.iter().map(StepDraft::of).collect();
    let rules: Vec<RuleDraft> = plan.rules.iter().map(RuleDraft::of).collect();
    let (name, parts) = (plan.name.clone(), plan.parts.clone());
    (
        name,
        steps,
        rules,
        parts,
        plan.tools.clone(),
        plan.items.clone(),
    )
}

fn number(field: &'static str, text: &str) -> Result<u16, Refusal> {
    text.parse().map_err(|_| Refusal::NotACount {
        field,
        text: text.to_owned(),
        allowed: "a whole number",
    })
}

fn given<T: Copy>(
    field: &'static str,
    text: &str,
    choices: &[Choice<T>],
) -> Result<Option<T>, Refusal> {
    if text.trim().is_empty() {
        Ok(None)
    } else {
        choose(field, text, choices).map(Some)
    }
}

fn minutes(entered: &Entered) -> String {
    typed(entered, Unit::Minute)
}

/// A country may change its clock after a file was written; the moment stays what it was.
fn moment(text: &str) -> Result<ZonedDateTime, Refusal> {
    const TIMES: DateTimeParser =
        DateTimeParser::new().offset_conflict(jiff::tz::OffsetConflict::AlwaysOffset);
    TIMES.parse_zoned_datetime(text.trim()).map_err(|_| {
        Refusal::Work(Obstacle::NoTime {
            text: text.to_owned(),
        })
    })
}
