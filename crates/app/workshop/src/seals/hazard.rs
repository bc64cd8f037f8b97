//! What can hurt a person who cleans, seals and locks.

use std::collections::BTreeSet;

use joint::compound::Compound;

use super::{face, thread};
use crate::entry::Key;
use crate::job::Job;

/// What can hurt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hazard {
    /// Solvent for degreasing.
    Solvent,
    /// Uncured anaerobics and epoxy sensitise the skin.
    Skin,
    /// Isocyanates of polyurethane and two-part paint.
    Isocyanate,
    /// Vapour of acetic acid.
    Acid,
    /// Vapour of an oxime or an alcohol.
    Vapour,
    /// Heat on a high-strength threadlocker.
    Heat,
}

impl Hazard {
    /// All, in the order they are told.
    pub const ALL: [Self; 6] = [
        Self::Solvent,
        Self::Skin,
        Self::Isocyanate,
        Self::Acid,
        Self::Vapour,
        Self::Heat,
    ];
}

/// What a compound brings with it, the cleaning before it included.
pub fn of_compound(compound: Compound) -> &'static [Hazard] {
    use Hazard::{Acid, Heat, Isocyanate, Skin, Solvent, Vapour};
    match compound {
        Compound::Grease
        | Compound::AntiSeize
        | Compound::CopperAntiSeize
        | Compound::PtfePaste => &[],
        Compound::ThreadlockerLow | Compound::ThreadlockerMedium | Compound::FlangeSealant => {
            &[Solvent, Skin]
        }
        Compound::ThreadlockerHigh => &[Solvent, Skin, Heat],
        Compound::AcetoxySilicone => &[Solvent, Acid],
        Compound::NeutralSilicone | Compound::HybridPolymer => &[Solvent, Vapour],
        Compound::Polyurethane | Compound::Paint => &[Solvent, Isocyanate],
        Compound::Epoxy => &[Solvent, Skin],
    }
}

/// What can hurt at one joint.
pub fn at(job: &Job, key: &Key) -> BTreeSet<Hazard> {
    let Some(state) = job.joints.get(key) else {
        return BTreeSet::new();
    };
    let on_thread = thread::of(job, key, &state.joint.value).map(|on| on.material.class);
    let seal = job.seals().seals.get(key);
    let on_face = seal.and_then(|fact| face::of(job, &fact.value));
    let classes = on_thread
        .into_iter()
        .chain(on_face.map(|bead| bead.material.class));
    let hazards = classes.flat_map(of_compound).copied();
    // What is done hurts nobody any more, but for what comes off with heat only.
    let left = |hazard: &Hazard| !state.done() || *hazard == Hazard::Heat;
    hazards.filter(left).collect()
}

/// What can hurt at any joint of the job.
pub fn of(job: &Job) -> BTreeSet<Hazard> {
    job.joints.keys().flat_map(|key| at(job, key)).collect()
}
