//! The usual rebuild of a jet pump as a plan to begin with, from a few answers about the craft.
//!
//! All of it is common practice without a source, invented for this program and from no manual.
//! Times, waits and working times are assumed: they are there to be replaced by what the craft's
//! manual and the data sheets say. Torques and limits have no figure here at all.

mod closing;
mod controls;
mod craft;
mod driveline;
mod housing;
mod impeller;
mod intake;
mod lists;
mod order;
mod plate;
mod sealing;
mod strip;
mod table;
mod water;
mod wet;

use crate::decide::check_plan;
use crate::job::Job;
use crate::plan::Plan;
use crate::refusal::{Obstacle, Refusal};

pub use craft::{Bearing, Counts, Craft, Driveline, Has, Ring, Shoe};

/// What the plan is called; named anew, it is a person's own.
pub const NAME: &str = "Usual rebuild, from no manual";

/// The usual plan for a craft.
///
/// # Errors
///
/// None for any craft whose counts are within their range; a table that contradicts itself would be
/// refused like any other plan.
pub fn usual(craft: &Craft) -> Result<Plan, Refusal> {
    let plan = table::plan(craft)?;
    check_plan(&plan)?;
    Ok(plan)
}

/// The usual plan for a job that has none. `id` is that of the act: sent twice, it lays one plan.
pub fn lay(job: &Job, id: &str, craft: &Craft) -> Result<Plan, Refusal> {
    match &job.bench.plan {
        Some(had) if had.entry.as_str() != id => Err(Refusal::Work(Obstacle::PlanThere {
            plan: had.value.name.clone(),
        })),
        _ => usual(craft),
    }
}

/// Whether a plan is still called the usual one, so that its times are nobody's own.
pub fn is_usual(plan: &Plan) -> bool {
    plan.name == NAME
}
