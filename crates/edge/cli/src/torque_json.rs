//! `torque --json`: the joints for other programs.
//!
//! The shape is a promise: a change of it is a new version with its own schema. What is not known
//! is null.

mod bench;
mod fits;
mod seal;

use jiff::ZonedDateTime;
use joint::Interval;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::{CLASSES, CONDITIONS, word};
use workshop::entry::{JobId, Key};
use workshop::job::Job;
use workshop::joints::{JointState, Tightening};
use workshop::torque::{Card, card};

use crate::document::{lines, schema_of};

const VERSION: u32 = 2;

/// How tight each joint of a job is to be, what to expect of it, and how far it has come.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Document {
    /// Which document this is.
    #[serde(rename = "document")]
    name: Name,
    /// The version of its shape.
    #[schemars(extend("const" = VERSION))]
    version: u32,
    /// The program that wrote it.
    program: &'static str,
    /// The job's id.
    job: String,
    /// Joints that are torqued and marked.
    done: usize,
    /// The joints, in the order they were described.
    joints: Vec<Joint>,
    /// Water and air. From version 2.
    around: seal::Around,
    /// Joints by their metals, the one to see to first in front. From version 2.
    metals_first: Vec<String>,
    /// The joints that are no circle of screws, in the order they were described.
    fits: Vec<fits::Fit>,
}

#[derive(Serialize, JsonSchema)]
enum Name {
    #[serde(rename = "pumpwright torque")]
    Torque,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Joint {
    /// Names the joint in its job.
    key: String,
    /// What it joins.
    name: String,
    /// Designation of the thread.
    thread: String,
    /// Property class.
    class: &'static str,
    /// What is really on thread and head.
    condition: &'static str,
    /// How many screws.
    screws: u8,
    /// How many of them are in.
    in_place: u8,
    /// How many of these are torqued.
    torqued: u8,
    /// How many of these carry a paint mark.
    marked: u8,
    /// These are stand-ins.
    temporary: bool,
    /// Every screw in, torqued and marked.
    done: bool,
    /// The torque of the craft's manual, or a generic one where `bench` says it is assumed.
    torque_n_m: Option<f64>,
    /// The manual's two figures agree; null where it gives one.
    figures_agree: Option<bool>,
    /// Why it must not be torqued yet.
    stop: Option<String>,
    /// Preload to expect in each screw.
    preload: Option<Force>,
    /// Share of yield used at the most, tension and twist together.
    yield_used: Option<f64>,
    /// The turn after contact.
    turn_rad: Option<f64>,
    /// Screw numbers in the order of tightening.
    order: Vec<usize>,
    /// Passes after the one by hand, as shares of the torque.
    passes: Vec<f64>,
    /// Its wrench, its hole, how even it ends.
    bench: bench::Bench,
    /// What goes on thread and face. From version 2.
    seals: seal::Seals,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Force {
    low_n: f64,
    high_n: f64,
}

fn force(Interval { low, high }: Interval) -> Force {
    Force {
        low_n: low,
        high_n: high,
    }
}

/// The document as text.
pub(crate) fn write(id: &JobId, job: &Job, now: &ZonedDateTime) -> String {
    let joints = job.joints_in_order();
    lines(&Document {
        name: Name::Torque,
        version: VERSION,
        program: workshop::PROGRAM,
        job: id.to_string(),
        done: joints.iter().filter(|(_, state)| state.done()).count(),
        joints: joints
            .into_iter()
            .map(|(key, state)| line(job, (key, state), now))
            .collect(),
        around: seal::Around::of(job),
        metals_first: seal::metals_first(job),
        fits: fits::of(job),
    })
}

/// The JSON Schema of the document as text.
pub(crate) fn schema() -> String {
    schema_of(schemars::schema_for!(Document))
}

fn line(job: &Job, (key, state): (&Key, &JointState), now: &ZonedDateTime) -> Joint {
    let joint = &state.joint.value;
    let card = card(job, state);
    let (in_place, torqued, marked) = state.counts();
    let expected = card.as_ref().and_then(|card| card.expected);
    let turn = match &joint.tightening {
        Tightening::Turn { turn, .. } => Some(turn.value),
        Tightening::Torque { .. } | Tightening::NotStated => None,
    };
    Joint {
        key: key.to_string(),
        name: joint.name.clone(),
        thread: joint.thread.clone(),
        class: word(&CLASSES, joint.class),
        condition: word(&CONDITIONS, joint.condition),
        screws: joint.count,
        in_place,
        torqued,
        marked,
        temporary: state
            .fastened
            .as_ref()
            .is_some_and(|fact| fact.value.temporary),
        done: state.done(),
        torque_n_m: card.as_ref().and_then(|card| card.torque),
        figures_agree: card.as_ref().and_then(|card| card.agrees),
        stop: card
            .as_ref()
            .and_then(|card| card.stop.as_ref())
            .map(ToString::to_string),
        preload: expected.map(|expected| force(expected.preload)),
        yield_used: expected.map(|expected| expected.used.high),
        turn_rad: turn,
        order: card
            .as_ref()
            .map_or_else(Vec::new, |Card { order, .. }| order.clone()),
        bench: bench::Bench::of(state, card.as_ref()),
        passes: card.map_or_else(Vec::new, |card| card.passes),
        seals: seal::Seals::of(job, key, now),
    }
}
