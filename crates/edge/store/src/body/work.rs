//! What is said of the plan and its steps.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use workshop::entry::{Body, Key};
use workshop::plan;
use workshop::refusal::Refusal;

use super::account::{Counted, Deferred, DeferredV2, Told};
use super::crew::Crew;
use super::plan_laid::Plan;
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
            until,
        } => {
            let deferred = Deferred::new(Name(step), reason, (release, until.map(Name)));
            write("step-deferred", &deferred)
        }
        plan::Work::ItemTold { item, account } => {
            write("item-told", &Told::new(Name(item), account))
        }
        plan::Work::ToolsCounted(counted) => write("tools-counted", &Counted::new(counted)),
        plan::Work::StepAgain { step, reason } => {
            let step = Name(step);
            write("step-again", &Reasoned { step, reason })
        }
        plan::Work::StepEstimated { step, takes, most } => {
            let estimated = Estimated {
                step: Name(step),
                takes: Duration::from(&takes),
                most: most.as_ref().map(Duration::from),
            };
            write("step-estimated", &estimated)
        }
        plan::Work::CrewStated(crew) => write("crew-stated", &Crew::from(&crew)),
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
            write("gate-overridden", &Reasoned { step, reason })
        }
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    let work = match (kind, version) {
        // The second version knows more gates, the third hands, tools and what is accounted for.
        ("plan-laid", 1..=3) => read::<Plan>(json).map(|plan| plan::Work::PlanLaid(plan.into())),
        ("step-begun", 1) => {
            read::<Begun>(json).map(|begun| plan::Work::StepBegun { step: begun.step.0 })
        }
        ("step-done", 1) => read::<Done>(json).map(|done| plan::Work::StepDone {
            step: done.step.0,
            witnessed: done.witnessed,
        }),
        ("step-deferred", 1 | 2) => {
            read::<DeferredV2>(json).map(|said| Deferred::from(said).into())
        }
        ("step-deferred", 3) => read::<Deferred>(json).map(Into::into),
        ("item-told", 1) => read::<Told>(json).map(Into::into),
        ("tools-counted", 1) => read::<Counted>(json).map(Into::into),
        ("step-again", 1) => read::<Reasoned>(json).map(|said| plan::Work::StepAgain {
            step: said.step.0,
            reason: said.reason,
        }),
        ("step-estimated", 1) => read::<Estimated>(json).map(|said| plan::Work::StepEstimated {
            step: said.step.0,
            takes: said.takes.into(),
            most: said.most.map(Into::into),
        }),
        ("crew-stated", 1) => read::<Crew>(json).map(|crew| plan::Work::CrewStated(crew.into())),
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
        ("gate-overridden", 1) => read::<Reasoned>(json).map(|said| plan::Work::GateOverridden {
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
pub(super) struct Name(pub(super) Key);

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
pub(super) struct Time(pub(super) ZonedDateTime);

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
struct Estimated {
    step: Name,
    takes: Duration,
    most: Option<Duration>,
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
struct Reasoned {
    step: Name,
    reason: String,
}
