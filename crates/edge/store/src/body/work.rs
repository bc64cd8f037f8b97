//! What is said of the plan and its steps.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use workshop::entry::{Body, Key};
use workshop::plan;
use workshop::refusal::Refusal;

use super::typed::Duration;
use super::{Encoded, Fault, read, write};

/// Writes what is said, each kind in its own shape.
pub(super) fn encode(work: &plan::Work) -> Result<Encoded, Fault> {
    match work.clone() {
        plan::Work::PlanLaid(plan) => write("plan-laid", &Plan::from(&plan)),
        plan::Work::StepBegun { step } => write("step-begun", &Begun { step: Name(step) }),
        plan::Work::StepDone { step, witnessed } => {
            let step = Name(step);
            write("step-done", &Done { step, witnessed })
        }
        plan::Work::StepDeferred {
            step,
            reason,
            release,
        } => {
            let deferred = Deferred {
                step: Name(step),
                reason,
                release,
            };
            write("step-deferred", &deferred)
        }
        plan::Work::FastenersIn {
            step,
            count,
            temporary,
        } => {
            let fasteners = Fasteners {
                step: Name(step),
                count,
                temporary,
            };
            write("fasteners-in", &fasteners)
        }
        plan::Work::PartStated { part, stated } => {
            let stated = Stated {
                part: Name(part),
                status: stated.status,
                expected: stated.expected.map(Day),
            };
            write("part-stated", &stated)
        }
        plan::Work::GateOverridden { step, reason } => {
            let step = Name(step);
            write("gate-overridden", &Overridden { step, reason })
        }
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    let work = match (kind, version) {
        // The second version knows more gates and is otherwise the first.
        ("plan-laid", 1..=3) => read::<Plan>(json).map(|plan| plan::Work::PlanLaid(plan.into())),
        ("step-begun", 1) => {
            read::<Begun>(json).map(|begun| plan::Work::StepBegun { step: begun.step.0 })
        }
        ("step-done", 1) => read::<Done>(json).map(|done| plan::Work::StepDone {
            step: done.step.0,
            witnessed: done.witnessed,
        }),
        ("step-deferred", 1) => read::<Deferred>(json).map(|said| plan::Work::StepDeferred {
            step: said.step.0,
            reason: said.reason,
            release: said.release,
        }),
        ("fasteners-in", 1) => read::<Fasteners>(json).map(|said| plan::Work::FastenersIn {
            step: said.step.0,
            count: said.count,
            temporary: said.temporary,
        }),
        ("part-stated", 1) => read::<Stated>(json).map(|said| plan::Work::PartStated {
            part: said.part.0,
            stated: plan::Stated {
                status: said.status,
                expected: said.expected.map(|day| day.0),
            },
        }),
        ("gate-overridden", 1) => read::<Overridden>(json).map(|said| plan::Work::GateOverridden {
            step: said.step.0,
            reason: said.reason,
        }),
        _ => return None,
    };
    Some(work.map(Body::Work))
}

/// A [`Key`] as text.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct Name(Key);

impl TryFrom<String> for Name {
    type Error = Refusal;

    fn try_from(text: String) -> Result<Self, Refusal> {
        Key::new(&text).map(Self)
    }
}

impl From<Name> for String {
    fn from(name: Name) -> Self {
        name.0.to_string()
    }
}

/// A day as `2026-05-09`.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct Day(Date);

impl TryFrom<String> for Day {
    type Error = jiff::Error;

    fn try_from(text: String) -> Result<Self, jiff::Error> {
        text.parse().map(Self)
    }
}

impl From<Day> for String {
    fn from(day: Day) -> Self {
        day.0.to_string()
    }
}

/// A time with its zone.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct Time(ZonedDateTime);

impl TryFrom<String> for Time {
    type Error = jiff::Error;

    fn try_from(text: String) -> Result<Self, jiff::Error> {
        crate::row::TIMES.parse_zoned_datetime(&text).map(Self)
    }
}

impl From<Time> for String {
    fn from(time: Time) -> Self {
        time.0.to_string()
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Begun {
    step: Name,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Done {
    step: Name,
    witnessed: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Deferred {
    step: Name,
    reason: String,
    release: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Fasteners {
    step: Name,
    count: u16,
    temporary: u16,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "plan::Status", rename_all = "kebab-case")]
enum Status {
    AtHand,
    OnOrder,
    Missing,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Stated {
    part: Name,
    #[serde(with = "Status")]
    status: plan::Status,
    expected: Option<Day>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Overridden {
    step: Name,
    reason: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Plan {
    name: String,
    steps: Vec<Step>,
    rules: Vec<Rule>,
    parts: Vec<Part>,
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
    takes: Duration,
    most: Option<Duration>,
    needs: Vec<Name>,
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
        }
    }
}

impl From<&plan::Step> for Step {
    fn from(step: &plan::Step) -> Self {
        Self {
            key: Name(step.key.clone()),
            name: step.name.clone(),
            takes: Duration::from(&step.takes),
            most: step.most.as_ref().map(Duration::from),
            needs: step.needs.iter().cloned().map(Name).collect(),
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
            takes: step.takes.into(),
            most: step.most.map(Into::into),
            needs: step.needs.into_iter().map(|name| name.0).collect(),
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
