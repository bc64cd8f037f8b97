//! What is on the thread of a joint, how long that takes, and how it comes off.

use joint::Condition;
use joint::compound::{Compound, Place, Surface, Times};

use super::{Material, Stuff, Taken, metals};
use crate::entry::Key;
use crate::job::Job;
use crate::joints::Joint;

/// What is on the thread.
#[derive(Clone, Debug, PartialEq)]
pub struct Threaded {
    /// The compound; assumed where only the joint's condition is known.
    pub material: Material,
    /// Nobody said more than the joint's condition.
    pub assumed: bool,
    /// What an airless cure meets.
    pub surface: Surface,
    /// It wants an activator here.
    pub wants_activator: bool,
    /// How long things take in the air of the bench, or why it may not be put on here.
    pub times: Result<Times, joint::Error>,
}

/// The compound a condition stands for; none for a thread with nothing on it.
pub fn usual(condition: Condition) -> Option<Compound> {
    match condition {
        Condition::Grease => Some(Compound::Grease),
        Condition::AntiSeize => Some(Compound::AntiSeize),
        Condition::Threadlocker => Some(Compound::ThreadlockerMedium),
        Condition::PtfePaste => Some(Compound::PtfePaste),
        Condition::Dry | Condition::LightOil | Condition::Unknown => None,
    }
}

/// What was said to be on the thread, and whether with activator, if the joint's condition still says
/// the same.
pub fn stated(job: &Job, key: &Key) -> Option<(Material, bool)> {
    let said = &job.seals().threads.get(key)?.value;
    let joint = &job.joints.get(key)?.joint.value;
    let material = job.material(&said.with)?;
    (material.class.condition() == Some(joint.condition)).then_some((material, said.primed))
}

/// What is on the thread of a joint; none where nothing is, or where it is not known.
pub fn of(job: &Job, key: &Key, joint: &Joint) -> Option<Threaded> {
    let (material, primed, assumed) = if let Some((material, primed)) = stated(job, key) {
        (material, primed, false)
    } else {
        let usual = Stuff::Class(usual(joint.condition)?);
        (job.material(&usual)?, false, true)
    };
    let touch = job.seals().contacts.get(key).map(|fact| &fact.value);
    let screw: Taken<_> = metals::screw(joint, touch);
    let surface = match (primed, metals::hole(joint)) {
        (true, _) => Surface::Primed,
        (false, Some(hole)) => Surface::between([screw.value, hole]),
        // Plastic and laminate bring no ions.
        (false, None) => Surface::Passive,
    };
    let place = Place {
        air: job.air(),
        surface,
        // Only a cure by moisture heeds it, and none of those goes on a thread.
        depth: 1.0,
    };
    Some(Threaded {
        wants_activator: material.sheet.wants_activator(surface),
        times: material.sheet.times(&place),
        material,
        assumed,
        surface,
    })
}
