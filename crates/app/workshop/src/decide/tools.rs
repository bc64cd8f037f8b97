//! Whether something may be said of the tools, or found at a joint.

use super::joints::joint_of;
use super::{LONGEST_TEXT, Range, TORQUE, filled, in_order, text, within};
use crate::entry::Key;
use crate::job::Job;
use crate::joints::{Hole, Joint, JointState, Tightening};
use crate::refusal::{Refusal, Snag};
use crate::tools::{Adapter, Depth, Tool, Tooling, Wrench};
use crate::torque::{self, tool};

const STEP: Range = Range {
    least: 0.001,
    greatest: 50.0,
};
const LEVER: Range = Range {
    least: 0.05,
    greatest: 2.0,
};
const OFFSET: Range = Range {
    least: 0.001,
    greatest: 0.5,
};
const ANGLE: Range = Range {
    least: 0.0,
    greatest: std::f64::consts::PI,
};
const DEPTH: Range = Range {
    least: 0.001,
    greatest: 0.2,
};
/// Nothing may be lost.
const LOST: Range = Range {
    least: 0.0,
    greatest: 0.2,
};
/// A scale has so many steps at least.
const MARKS: f64 = 10.0;

/// Refuses what cannot be so.
pub(super) fn check(job: &Job, said: &Tooling) -> Result<(), Refusal> {
    match said {
        Tooling::WrenchDescribed { wrench, .. } => check_wrench(wrench),
        Tooling::ToolChosen { joint, tool } => check_tool(job, joint_of(job, joint)?, tool),
        Tooling::HoleMeasured { joint, hole } => {
            check_hole(&joint_of(job, joint)?.joint.value, hole)
        }
        Tooling::RoleSaid { joint, .. } => joint_of(job, joint).map(|_| ()),
    }
}

fn snag<T>(snag: Snag) -> Result<T, Refusal> {
    Err(Refusal::Tooled(snag))
}

fn check_wrench(wrench: &Wrench) -> Result<(), Refusal> {
    filled("name", &wrench.name)?;
    text("name", &wrench.name, LONGEST_TEXT)?;
    let Wrench {
        scale,
        least,
        most,
        step,
        ..
    } = wrench;
    let figures = [
        ("least", Some(least), &TORQUE),
        ("most", Some(most), &TORQUE),
        ("step", step.as_ref(), &STEP),
    ];
    for (field, entered, range) in figures {
        let Some(entered) = entered else { continue };
        if entered.unit != *scale {
            return snag(Snag::Crossed {
                field,
                entered: entered.clone(),
                scale: *scale,
            });
        }
        within(field, entered, range)?;
    }
    // One that is set at the factory has a single torque.
    if least.value.total_cmp(&most.value).is_ne() || step.is_some() {
        in_order("least", least, most)?;
    }
    match step {
        Some(step) if step.value * MARKS > most.value => snag(Snag::Step {
            step: step.clone(),
            most: most.clone(),
        }),
        _ => Ok(()),
    }
}

fn check_tool(job: &Job, state: &JointState, chosen: &Tool) -> Result<(), Refusal> {
    if !job.wrenches.contains_key(&chosen.wrench) {
        let key = chosen.wrench.to_string();
        return snag(Snag::NoSuchWrench { key });
    }
    if let Some(adapter) = &chosen.adapter {
        check_adapter(adapter)?;
    }
    let joint = &state.joint.value;
    if matches!(joint.tightening, Tightening::Turn { .. }) {
        return snag(Snag::NoWrenchForTurn);
    }
    let Some(card) = torque::card(job, state) else {
        return Ok(());
    };
    let figure = match &joint.tightening {
        Tightening::Torque { figure, .. } => (figure.value, figure.unit),
        _ => match card.torque {
            Some(torque) => (torque, quantity::Unit::NewtonMetre),
            // Nothing to hold it against yet.
            None => return Ok(()),
        },
    };
    match tool::set(job, chosen, figure, &card.passes) {
        Some(Err(outside)) => snag(Snag::Outside(outside)),
        _ => Ok(()),
    }
}

fn check_adapter(adapter: &Adapter) -> Result<(), Refusal> {
    within("lever", &adapter.lever, &LEVER)?;
    within("offset", &adapter.offset, &OFFSET)?;
    within("angle", &adapter.angle, &ANGLE)?;
    // Whatever the torque: the lever that is left must turn the screw.
    match adapter.numbers().setting(1.0) {
        Ok(_) => Ok(()),
        Err(_) => snag(Snag::NoLever {
            offset: adapter.offset.clone(),
        }),
    }
}

fn check_hole(joint: &Joint, hole: &Depth) -> Result<(), Refusal> {
    within("reach", &hole.reach, &DEPTH)?;
    within("threaded", &hole.threaded, &DEPTH)?;
    within("lost", &hole.lost, &LOST)?;
    if hole.reach.value > hole.threaded.value {
        return snag(Snag::Bottoms {
            reach: hole.reach.clone(),
            threaded: hole.threaded.clone(),
        });
    }
    if hole.lost.value >= hole.reach.value {
        return snag(Snag::NothingHeld {
            lost: hole.lost.clone(),
            reach: hole.reach.clone(),
        });
    }
    let Some(insert) = &hole.insert else {
        return Ok(());
    };
    if joint.hole != Hole::Aluminium {
        return snag(Snag::NoInsert);
    }
    within("insert", insert, &DEPTH)?;
    let pitch = torque::screw(joint)?.thread.pitch;
    match joint::strip::wire_length(insert.value, pitch) {
        Ok(_) => Ok(()),
        Err(_) => snag(Snag::ShortInsert {
            insert: insert.clone(),
        }),
    }
}

/// Refuses a typed length that the hole, as measured, does not have.
pub(super) fn fits_hole(job: &Job, key: &Key, joint: &Joint) -> Result<(), Refusal> {
    let state = job.joints.get(key);
    let hole = state.and_then(|state| state.fittings.hole.as_ref());
    match (&joint.engagement, hole.map(|fact| &fact.value.threaded)) {
        (Some(engagement), Some(threaded)) if engagement.value > threaded.value => {
            snag(Snag::LongerThanHole {
                engagement: engagement.clone(),
                threaded: threaded.clone(),
            })
        }
        _ => Ok(()),
    }
}
