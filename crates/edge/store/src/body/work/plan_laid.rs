//! The plan: its steps, rules, parts, tools and what is accounted for.

use serde::{Deserialize, Serialize};
use workshop::plan;

use super::crew::{Item, Tool};
use super::{Duration, Name, Time};

fn one() -> u16 {
    1
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Plan {
    name: String,
    steps: Vec<Step>,
    rules: Vec<Rule>,
    parts: Vec<Part>,
    #[serde(default)]
    tools: Vec<Tool>,
    #[serde(default)]
    items: Vec<Item>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Gate {
    GapIn,
    /// From version 2 on, as is the next.
    LeakTight,
    GapReread,
    /// From version 3 on.
    Aligned,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "plan::Opens", rename_all = "kebab-case")]
enum Opens {
    Float,
    FullThrottle,
    Closed,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Step {
    key: Name,
    name: String,
    #[serde(default)]
    group: String,
    #[serde(default)]
    how: String,
    takes: Duration,
    most: Option<Duration>,
    needs: Vec<Name>,
    /// One pair, where an older version does not say.
    #[serde(default = "one")]
    hands: u16,
    #[serde(default)]
    tools: Vec<Name>,
    gate: Option<Gate>,
    #[serde(with = "Opens")]
    opens: plan::Opens,
    fasteners: Option<u16>,
    temporary: bool,
    caution: String,
    irreversible: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Rule {
    ask: Ask,
    why: String,
    physics: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
enum Ask {
    After {
        first: Name,
        then: Name,
        lag: Option<Duration>,
    },
    StartWithin {
        first: Name,
        then: Name,
        most: Duration,
    },
    FinishedWithin {
        first: Name,
        then: Name,
        most: Duration,
    },
    StartWithinStart {
        first: Name,
        then: Name,
        most: Duration,
    },
    Together {
        first: Name,
        then: Name,
    },
    NotBefore {
        step: Name,
        time: Time,
    },
    FinishedBy {
        step: Name,
        time: Time,
    },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Part {
    key: Name,
    name: String,
}

impl From<&plan::Plan> for Plan {
    fn from(plan: &plan::Plan) -> Self {
        let part = |part: &plan::Part| Part {
            key: Name(part.key.clone()),
            name: part.name.clone(),
        };
        let rule = |rule: &plan::Rule| Rule {
            ask: Ask::from(&rule.ask),
            why: rule.why.clone(),
            physics: rule.physics,
        };
        Self {
            name: plan.name.clone(),
            steps: plan.steps.iter().map(Step::from).collect(),
            rules: plan.rules.iter().map(rule).collect(),
            parts: plan.parts.iter().map(part).collect(),
            tools: plan.tools.iter().map(Tool::from).collect(),
            items: plan.items.iter().map(Item::from).collect(),
        }
    }
}

impl From<Plan> for plan::Plan {
    fn from(plan: Plan) -> Self {
        let part = |part: Part| plan::Part {
            key: part.key.0,
            name: part.name,
        };
        let rule = |rule: Rule| plan::Rule {
            ask: rule.ask.into(),
            why: rule.why,
            physics: rule.physics,
        };
        Self {
            name: plan.name,
            steps: plan.steps.into_iter().map(Into::into).collect(),
            rules: plan.rules.into_iter().map(rule).collect(),
            parts: plan.parts.into_iter().map(part).collect(),
            tools: plan.tools.into_iter().map(Into::into).collect(),
            items: plan.items.into_iter().map(Into::into).collect(),
        }
    }
}

impl From<&plan::Step> for Step {
    fn from(step: &plan::Step) -> Self {
        Self {
            key: Name(step.key.clone()),
            name: step.name.clone(),
            group: step.group.clone(),
            how: step.how.clone(),
            takes: Duration::from(&step.takes),
            most: step.most.as_ref().map(Duration::from),
            needs: step.needs.iter().cloned().map(Name).collect(),
            hands: step.hands,
            tools: step.tools.iter().cloned().map(Name).collect(),
            gate: step.gate.map(|gate| match gate {
                plan::Gate::GapIn => Gate::GapIn,
                plan::Gate::LeakTight => Gate::LeakTight,
                plan::Gate::Aligned => Gate::Aligned,
                plan::Gate::GapReread => Gate::GapReread,
            }),
            opens: step.opens,
            fasteners: step.fasteners,
            temporary: step.temporary,
            caution: step.caution.clone(),
            irreversible: step.irreversible,
        }
    }
}

impl From<Step> for plan::Step {
    fn from(step: Step) -> Self {
        Self {
            key: step.key.0,
            name: step.name,
            group: step.group,
            how: step.how,
            takes: step.takes.into(),
            most: step.most.map(Into::into),
            needs: step.needs.into_iter().map(|name| name.0).collect(),
            hands: step.hands,
            tools: step.tools.into_iter().map(|name| name.0).collect(),
            gate: step.gate.map(|gate| match gate {
                Gate::GapIn => plan::Gate::GapIn,
                Gate::LeakTight => plan::Gate::LeakTight,
                Gate::Aligned => plan::Gate::Aligned,
                Gate::GapReread => plan::Gate::GapReread,
            }),
            opens: step.opens,
            fasteners: step.fasteners,
            temporary: step.temporary,
            caution: step.caution,
            irreversible: step.irreversible,
        }
    }
}

impl From<&plan::Ask> for Ask {
    fn from(ask: &plan::Ask) -> Self {
        let [first, then] = ask.steps();
        let (first, then) = (Name(first.clone()), Name(then.clone()));
        match ask {
            plan::Ask::After { lag, .. } => Self::After {
                first,
                then,
                lag: lag.as_ref().map(Duration::from),
            },
            plan::Ask::StartWithin { most, .. } => Self::StartWithin {
                first,
                then,
                most: most.into(),
            },
            plan::Ask::FinishedWithin { most, .. } => Self::FinishedWithin {
                first,
                then,
                most: most.into(),
            },
            plan::Ask::StartWithinStart { most, .. } => Self::StartWithinStart {
                first,
                then,
                most: most.into(),
            },
            plan::Ask::Together { .. } => Self::Together { first, then },
            plan::Ask::NotBefore { time, .. } => Self::NotBefore {
                step: first,
                time: Time(time.clone()),
            },
            plan::Ask::FinishedBy { time, .. } => Self::FinishedBy {
                step: first,
                time: Time(time.clone()),
            },
        }
    }
}

impl From<Ask> for plan::Ask {
    fn from(ask: Ask) -> Self {
        match ask {
            Ask::After { first, then, lag } => Self::After {
                first: first.0,
                then: then.0,
                lag: lag.map(Into::into),
            },
            Ask::StartWithin { first, then, most } => Self::StartWithin {
                first: first.0,
                then: then.0,
                most: most.into(),
            },
            Ask::FinishedWithin { first, then, most } => Self::FinishedWithin {
                first: first.0,
                then: then.0,
                most: most.into(),
            },
            Ask::StartWithinStart { first, then, most } => Self::StartWithinStart {
                first: first.0,
                then: then.0,
                most: most.into(),
            },
            Ask::Together { first, then } => Self::Together {
                first: first.0,
                then: then.0,
            },
            Ask::NotBefore { step, time } => Self::NotBefore {
                step: step.0,
                time: time.0,
            },
            Ask::FinishedBy { step, time } => Self::FinishedBy {
                step: step.0,
                time: time.0,
            },
        }
    }
}
