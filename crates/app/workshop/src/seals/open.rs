//! What must be mended before a joint is sealed: what may not meet, what is too old, what does not fit.

use jiff::civil::Date;
use joint::compound::Compound;
use joint::galvanic::Water;
use joint::meets::{Rule, Severity, Thing, clashes};

use super::{Age, Material, face, thread};
use crate::entry::Key;
use crate::job::Job;
use crate::joints::{Face, Hole, Joint};

/// Something that keeps a joint open.
#[derive(Clone, Debug, PartialEq)]
pub enum Open {
    /// Two things that must not meet.
    Clash(Rule),
    /// A compound past its shelf life.
    Stale {
        /// Its name.
        name: String,
        /// How old it is and how long it keeps.
        age: Age,
    },
    /// No bead both seals and stays clear, in metres.
    NoBead {
        /// The least that seals.
        least: f64,
        /// The greatest that stays clear.
        most: f64,
    },
    /// A compound that may not be put on at the temperature of the bench.
    NotHere {
        /// Its name.
        name: String,
        /// The temperature.
        temperature: f64,
        /// At which it may.
        applied: joint::Interval,
    },
    /// The joint's condition no longer says what was said to be on the thread.
    ThreadDiffers,
    /// A bead is described, and the joint has faces without sealant.
    NoSealantThere,
}

/// What stands together in a joint: compounds, metals, water.
pub(crate) fn things(
    job: &Job,
    joint: &Joint,
    on_thread: Option<Compound>,
    on_face: Option<Compound>,
) -> Vec<Thing> {
    let mut things: Vec<Thing> = on_thread.into_iter().map(Thing::Compound).collect();
    things.extend(on_face.map(Thing::Compound));
    match joint.hole {
        Hole::Aluminium => things.push(Thing::Aluminium),
        Hole::Steel | Hole::Brass => things.push(Thing::BareMetal),
        Hole::Laminate | Hole::Plastic => {}
    }
    if job.water().value != Water::Fresh {
        things.push(Thing::SaltWater);
    }
    things
}

/// Every rule that the compounds of a joint break, what only the data sheet can allow included.
pub fn rules(job: &Job, key: &Key) -> Vec<Rule> {
    let Some(state) = job.joints.get(key) else {
        return Vec::new();
    };
    let joint = &state.joint.value;
    let on_thread = thread::of(job, key, joint).map(|on| on.material.class);
    let seal = job.seals().seals.get(key);
    let on_face = seal.and_then(|fact| Some(job.material(&fact.value.with)?.class));
    clashes(&things(job, joint, on_thread, on_face))
}

/// What keeps a joint open on a day, the worst first.
pub fn at(job: &Job, key: &Key, on: Date) -> Vec<Open> {
    let Some(state) = job.joints.get(key) else {
        return Vec::new();
    };
    let joint = &state.joint.value;
    let never = |rule: &Rule| rule.severity == Severity::Never;
    let mut open: Vec<Open> = rules(job, key)
        .into_iter()
        .filter(never)
        .map(Open::Clash)
        .collect();
    if job.seals().threads.contains_key(key) && thread::stated(job, key).is_none() {
        open.push(Open::ThreadDiffers);
    }
    if let Some(on_thread) = thread::of(job, key, joint) {
        open.extend(material(job, &on_thread.material, on));
        open.extend(not_here(job, &on_thread.material, on_thread.times.is_err()));
    }
    let Some(seal) = job.seals().seals.get(key) else {
        return open;
    };
    if matches!(joint.face, Face::Bare | Face::ORing) {
        open.push(Open::NoSealantThere);
    }
    if let Some(bead) = face::of(job, &seal.value) {
        open.extend(material(job, &bead.material, on));
        open.extend(not_here(job, &bead.material, bead.times.is_err()));
        if let Err(joint::Error::NoBead { least, most }) = bead.fits {
            open.push(Open::NoBead { least, most });
        }
    }
    open
}

fn material(job: &Job, material: &Material, on: Date) -> Option<Open> {
    let own = &job.seals().compounds.get(material.own.as_ref()?)?.value;
    let age = own.stale(on)?;
    Some(Open::Stale {
        name: material.name.clone(),
        age,
    })
}

fn not_here(job: &Job, material: &Material, refused: bool) -> Option<Open> {
    let temperature = job.air().temperature;
    let applied = material.sheet.applied;
    (refused && !applied.contains(temperature)).then(|| Open::NotHere {
        name: material.name.clone(),
        temperature,
        applied,
    })
}
