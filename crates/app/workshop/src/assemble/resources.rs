//! The hands and tools of a job, as the domain counts them, and what they cannot do.

use assembly::{Away, Demand, Plan as Numbers, Resource, Resources, Want};
use jiff::ZonedDateTime;

use super::{Because, hours};
use crate::job::Job;
use crate::plan::Plan;

/// How often a search may ask whether to go on: a bound that needs no clock, so that an answer is
/// the same on every machine.
const PATIENCE: usize = 400;

/// When hands are away between two seconds. Hours are of the zone they were stated in.
pub(super) fn away(
    job: &Job,
    now: &ZonedDateTime,
    have: Option<i64>,
    range: (i64, i64),
) -> Vec<(i64, i64)> {
    let told = job.bench.crew.as_ref();
    let now = told.map_or_else(
        || now.clone(),
        |told| now.with_time_zone(told.at.time_zone().clone()),
    );
    hours::away(&job.bench.crew(), &now, have, range)
}

/// Hands first, then the tools in the order of the plan.
pub(super) fn resources(
    numbers: &Numbers,
    plan: &Plan,
    hands: u16,
    away: &[(i64, i64)],
) -> Resources {
    let units = u32::from(hands);
    let gone = away
        .iter()
        .map(|&(from, until)| Away { from, until, units });
    let hands = Resource {
        capacity: units,
        away: gone.collect(),
    };
    let tools = plan.tools.iter();
    let tools = tools.map(|tool| Resource::of(u32::from(tool.count)));
    let list = std::iter::once(hands).chain(tools).collect();
    let mut demands = Vec::new();
    for (step, said) in plan.steps.iter().enumerate() {
        let mut hold = |resource, units| {
            demands.push(Demand {
                step,
                resource,
                units,
            });
        };
        hold(0, u32::from(said.hands));
        for tool in said.tools.iter().filter_map(|key| plan.tool(key)) {
            hold(1 + tool, 1);
        }
    }
    // Every step and tool named here is in the plan, and no absence ends before it begins.
    Resources::new(numbers, list, &demands).unwrap_or_else(|_| Resources::none(numbers))
}

/// Asks to go on so often, and no more.
pub(super) fn patience() -> impl FnMut() -> bool {
    let mut left = PATIENCE;
    move || {
        left = left.saturating_sub(1);
        left > 0
    }
}

/// What takes part in a shortage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Short {
    /// A rule or a delivery.
    Because(Because),
    /// There are only so many pairs of hands.
    Hands,
    /// The hours they are there.
    Hours,
    /// There is only so much of a tool, by its place.
    Tool(usize),
    /// The time a step takes.
    Duration(usize),
    /// What one step alone holds at once.
    Holds(usize),
}

/// One part of a shortage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lack {
    /// What it is.
    pub what: Short,
    /// What alone would mend it, where a person may be asked for that: seconds, or how many.
    pub change: Option<i64>,
}

/// What hands and tools cannot do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shortage {
    /// Its parts.
    pub parts: Vec<Lack>,
    /// It was shown that none can be spared.
    pub minimal: bool,
}

/// A shortage in the terms of the plan.
pub(super) fn told(found: &assembly::Shortage, because: &[Because]) -> Shortage {
    let parts = found.parts.iter().filter_map(|part| {
        let what = match part.want {
            Want::Rule(rule) => Short::Because(because[rule]),
            Want::Capacity(0) => Short::Hands,
            Want::Capacity(resource) => Short::Tool(resource - 1),
            Want::Away(_) => Short::Hours,
            Want::Duration(step) => Short::Duration(step),
            Want::Finish => return None,
        };
        Some(Lack {
            what,
            change: part.change.filter(|_| part.offered),
        })
    });
    Shortage {
        parts: parts.collect(),
        minimal: found.minimal,
    }
}

/// A step that alone holds more than there is: what it lacks is told without a search.
pub(super) fn too_much(plan: &Plan, hands: u16, open: impl Fn(usize) -> bool) -> Option<Shortage> {
    let lack = |step: usize, what, needed: u16| Shortage {
        parts: vec![
            Lack {
                what: Short::Holds(step),
                change: None,
            },
            Lack {
                what,
                change: Some(needed.into()),
            },
        ],
        minimal: true,
    };
    let steps = plan.steps.iter().enumerate();
    let mut steps = steps.filter(|(step, _)| open(*step));
    let most = steps.clone().map(|(_, step)| step.hands).max()?;
    if most > hands {
        let step = steps.find(|(_, step)| step.hands == most);
        return step.map(|(step, _)| lack(step, Short::Hands, most));
    }
    steps.find_map(|(step, said)| {
        let (tool, twice) = said.tools.iter().find_map(|key| {
            let held = said.tools.iter().filter(|other| *other == key).count();
            let tool = plan.tool(key)?;
            let held = u16::try_from(held).ok()?;
            (held > plan.tools[tool].count).then_some((tool, held))
        })?;
        Some(lack(step, Short::Tool(tool), twice))
    })
}
