//! Whether a circle of screws, and how far it has come, can be so.

use super::{LONGEST_TEXT, MOST_SCREWS, Range, TORQUE, each, filled, text, within};
use crate::entry::Key;
use crate::job::Job;
use crate::joints::{Fastened, Joint, JointState, Pass, Tightening};
use crate::refusal::Refusal;
use crate::torque;

const TURN: Range = Range {
    least: 0.01,
    greatest: std::f64::consts::TAU,
};
const GRIP: Range = Range {
    least: 0.000_5,
    greatest: 0.2,
};
/// Held thread, `m`.
const ENGAGEMENT: Range = Range {
    least: 0.001,
    greatest: 0.1,
};

pub(super) fn check_joint(joint: &Joint) -> Result<(), Refusal> {
    filled("name", &joint.name)?;
    text("name", &joint.name, LONGEST_TEXT)?;
    text("page", &joint.page, LONGEST_TEXT)?;
    torque::screw(joint)?;
    if !(1..=MOST_SCREWS).contains(&joint.count) {
        return Err(Refusal::NotACount {
            field: "count",
            text: joint.count.to_string(),
            allowed: "1 to 32 screws",
        });
    }
    if let Some(engagement) = &joint.engagement {
        within("engagement", engagement, &ENGAGEMENT)?;
    }
    match &joint.tightening {
        Tightening::Torque { figure, second, .. } => each([
            ("torque", Some(figure), &TORQUE),
            ("second", second.as_ref(), &TORQUE),
        ]),
        Tightening::Turn { turn, grip, .. } => {
            within("turn", turn, &TURN)?;
            within("grip", grip, &GRIP)
        }
        Tightening::NotStated => Ok(()),
    }
}

pub(super) fn check_fastened(job: &Job, key: &Key, fastened: &Fastened) -> Result<(), Refusal> {
    let state = joint_of(job, key)?;
    let joint = &state.joint.value;
    let Fastened {
        in_place,
        torqued,
        marked,
        temporary,
        pass,
        ..
    } = *fastened;
    at_most("in", in_place, joint.count, "the joint has")?;
    at_most("torqued", torqued, in_place, "are in")?;
    at_most("marked", marked, torqued, "are torqued")?;
    if torqued == 0 && pass.is_none() {
        return Ok(());
    }
    if temporary {
        return Err(Refusal::TemporaryTorqued);
    }
    let card = torque::card(job, state);
    if let Some(stop) = card.as_ref().and_then(|card| card.stop.clone()) {
        return Err(Refusal::FigureStops { stop });
    }
    // A generic figure is one to torque to.
    let generic = card.as_ref().is_some_and(|card| card.torque.is_some());
    if joint.tightening == Tightening::NotStated && !generic {
        return Err(Refusal::NoFigure);
    }
    match (pass, card) {
        (Some(pass), Some(card)) => check_pass(joint, (in_place, torqued), pass, card.pass_count()),
        _ => Ok(()),
    }
}

pub(super) fn joint_of<'a>(job: &'a Job, key: &Key) -> Result<&'a JointState, Refusal> {
    job.joints.get(key).ok_or_else(|| Refusal::NoSuchJoint {
        key: key.to_string(),
    })
}

/// A pass before the last, of so many, with every screw in and none torqued.
fn check_pass(
    joint: &Joint,
    (in_place, torqued): (u8, u8),
    pass: Pass,
    passes: u8,
) -> Result<(), Refusal> {
    if pass.number == 0 {
        return Err(Refusal::NotACount {
            field: "pass",
            text: "0".to_owned(),
            allowed: "the number of a pass, from 1",
        });
    }
    if in_place < joint.count {
        return Err(Refusal::NotAllIn {
            in_place,
            of: joint.count,
        });
    }
    let most = if torqued > 0 { 0 } else { passes - 1 };
    let of = "passes come before the last, in which screws count as torqued";
    at_most("pass", pass.number, most, of)?;
    at_most("gone", pass.screws, joint.count, "the joint has")
}

/// No more than there can be.
fn at_most(field: &'static str, number: u8, most: u8, of: &'static str) -> Result<(), Refusal> {
    if number > most {
        return Err(Refusal::TooMany {
            field,
            number,
            most,
            of,
        });
    }
    Ok(())
}
