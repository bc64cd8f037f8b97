//! What is said of compounds, seals and metals, folded.

use super::{Misfit, Objection, fact};
use crate::entry::{Entry, Key};
use crate::job::{Fact, Job};
use crate::seals::{Sealing, Seals, Stuff};

/// Takes one entry in. What is said anew takes the place of the old.
pub(super) fn take(had: &mut Seals, entry: &Entry, said: &Sealing) {
    match said {
        Sealing::Bench(around) => had.bench = Some(fact(entry, around.clone())),
        Sealing::Compound { key, compound } => {
            had.compounds
                .insert(key.clone(), fact(entry, compound.clone()));
        }
        Sealing::Thread { joint, thread } => {
            had.threads
                .insert(joint.clone(), fact(entry, thread.clone()));
        }
        Sealing::Seal { joint, seal } => {
            had.seals.insert(joint.clone(), fact(entry, seal.clone()));
        }
        Sealing::Contact { joint, contact } => {
            had.contacts
                .insert(joint.clone(), fact(entry, contact.clone()));
        }
    }
}

/// What is said of a joint or a compound that is not there goes out, and is objected to.
pub(super) fn close(job: &mut Job) -> Vec<Objection> {
    let mut objections = Vec::new();
    let Job {
        joints, inspected, ..
    } = job;
    let seals = &mut inspected.seals;
    let compounds = &seals.compounds;
    let known = |with: &Stuff| match with {
        Stuff::Own(key) => compounds.contains_key(key),
        Stuff::Class(_) => true,
    };
    let joint = |key: &Key| joints.contains_key(key);
    let fits = |key: &Key, with: Option<&Stuff>| match with {
        _ if !joint(key) => Some(Misfit::SealsNoJoint),
        Some(with) if !known(with) => Some(Misfit::NoSuchCompound),
        _ => None,
    };
    seals
        .threads
        .retain(|key, fact| kept(fact, fits(key, Some(&fact.value.with)), &mut objections));
    seals
        .seals
        .retain(|key, fact| kept(fact, fits(key, Some(&fact.value.with)), &mut objections));
    seals
        .contacts
        .retain(|key, fact| kept(fact, fits(key, None), &mut objections));
    objections
}

fn kept<T>(fact: &Fact<T>, misfit: Option<Misfit>, objections: &mut Vec<Objection>) -> bool {
    objections.extend(misfit.map(|why| Objection {
        entry: fact.entry.clone(),
        position: fact.position,
        why,
    }));
    misfit.is_none()
}
