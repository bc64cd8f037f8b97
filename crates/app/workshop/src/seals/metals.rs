//! The metals of a joint in their water, and which joint of the pump to see to first.

use std::f64::consts::PI;

use joint::galvanic::{self, Contact, Measure, Metal, Part, Risk, Water};
use joint::{Class, Screw};

use super::{Coat, Stainless, Taken, Touch};
use crate::entry::Key;
use crate::job::Job;
use crate::joints::{Hole, Joint};
use crate::torque;

/// A contact with what it was reckoned from.
#[derive(Clone, Debug, PartialEq)]
pub struct Metals {
    /// The joint.
    pub joint: Key,
    /// What the screws are of.
    pub screw: Taken<Metal>,
    /// The coat on what they go into.
    pub coat: Taken<Coat>,
    /// The contact.
    pub contact: Contact,
    /// How bad it is and what to do next.
    pub risk: Risk,
}

/// What the screws are of.
pub fn screw(joint: &Joint, touch: Option<&Touch>) -> Taken<Metal> {
    let steel = |metal| Taken {
        value: metal,
        assumed: false,
    };
    match joint.class {
        Class::Steel8_8 | Class::Steel10_9 => steel(Metal::Steel),
        _ => {
            let said = touch.and_then(|touch| touch.screw).map(|said| match said {
                Stainless::A2 => Metal::Stainless304,
                Stainless::A4 => Metal::Stainless316,
            });
            Taken::or(said, Metal::Stainless304)
        }
    }
}

/// What they go into; none where that is no metal, or where its metal is not known.
pub fn hole(joint: &Joint) -> Option<Metal> {
    match joint.hole {
        Hole::Aluminium => Some(Metal::Aluminium),
        Hole::Steel => Some(Metal::Steel),
        Hole::Brass => Some(Metal::Brass),
        Hole::Laminate | Hole::Plastic => None,
    }
}

/// Bare metal assumed at a scratch that nobody sees, and at scratches that one does see, a screw.
const SCRATCHES: [f64; 2] = [1e-6, 1e-5];
/// Bare housing assumed to lie in reach of the current in salt water, a screw.
const REACHED: f64 = 0.002;
/// How far from a head the current reaches in fresh water.
const NEAR: f64 = 0.005;

/// Wetted metal without a coat, of a head and of what lies round it.
///
/// The head: `A = PI d^2 / 4`, d the outer diameter of its bearing ring. The rest is assumed.
fn bare(screw: &Screw, coat: Coat, water: Water) -> (f64, f64) {
    let disc = |diameter: f64| 0.25 * PI * diameter * diameter;
    let head = disc(screw.bearing.outer);
    let round = match (coat, water) {
        (Coat::Whole, _) => SCRATCHES[0],
        (Coat::Scratched, _) => SCRATCHES[1],
        (Coat::None, Water::Fresh) => disc(screw.bearing.outer + 2.0 * NEAR) - head,
        (Coat::None, Water::Brackish | Water::Salt) => REACHED,
    };
    (head, round)
}

/// The contact of one joint; none where no two metals meet.
pub fn of(job: &Job, key: &Key) -> Option<Metals> {
    let joint = &job.joints.get(key)?.joint.value;
    let touch = job.seals().contacts.get(key).map(|fact| &fact.value);
    let water = job.water().value;
    let coat = Taken::or(touch.and_then(|touch| touch.coat), Coat::Scratched);
    let metal = screw(joint, touch);
    let (head, round) = bare(&torque::screw(joint).ok()?, coat.value, water);
    let said = |of: fn(&Touch) -> Option<Measure>, or| touch.and_then(of).unwrap_or(or);
    let contact = Contact {
        parts: [
            Part {
                metal: metal.value,
                bare: head,
            },
            Part {
                metal: hole(joint)?,
                bare: round,
            },
        ],
        water,
        // A screw in a tapped hole touches it with its thread, whatever lies under its head.
        insulation: said(|touch| touch.insulated, Measure::Shut),
        seal: said(|touch| touch.sealed, Measure::Open),
        coat: said(|touch| touch.coated, Measure::Open),
        anode: said(|touch| touch.anode, Measure::Open),
    };
    Some(Metals {
        joint: key.clone(),
        screw: metal,
        coat,
        risk: contact.risk().ok()?,
        contact,
    })
}

/// Every contact of the pump, the one to see to first in front.
pub fn rank(job: &Job) -> Vec<Metals> {
    let joints = job.joints_in_order();
    let all: Vec<Metals> = joints
        .into_iter()
        .filter_map(|(key, _)| of(job, key))
        .collect();
    let contacts: Vec<Contact> = all.iter().map(|metals| metals.contact).collect();
    let ranked = galvanic::rank(&contacts).unwrap_or_default();
    ranked
        .into_iter()
        .map(|(place, _)| all[place].clone())
        .collect()
}
