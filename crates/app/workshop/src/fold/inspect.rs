//! What is said of the parts around the gap, folded.

use super::{Misfit, fact};
use crate::entry::Entry;
use crate::inspect::parts::OWN;
use crate::inspect::{FindingState, Inspected, Inspection};

/// Takes one entry in, or says what does not fit. What is said anew takes the place of the old.
pub(super) fn take(had: &mut Inspected, entry: &Entry, said: &Inspection) -> Option<Misfit> {
    match said {
        Inspection::Rotor(rotor) => had.rotor = Some(fact(entry, rotor.as_ref().clone())),
        Inspection::Leak(test) => had.leak = Some(fact(entry, test.clone())),
        Inspection::Alignment(read) => {
            let read = fact(entry, read.as_ref().clone());
            had.alignment_found.get_or_insert_with(|| read.clone());
            had.alignment = Some(read);
        }
        Inspection::Found { key, finding } => {
            let finding = fact(entry, finding.clone());
            let since = had.findings.get(key).map(|state| state.since);
            // Noted anew, a finding is open again.
            let state = FindingState {
                since: since.unwrap_or(entry.position),
                finding,
                settled: None,
            };
            had.findings.insert(key.clone(), state);
        }
        Inspection::AsFound { key, found } => {
            had.found.insert(key.clone(), fact(entry, found.clone()));
        }
        Inspection::Supply { key, supply } => {
            let mut supply = supply.clone();
            // Said again where it is, it keeps its name.
            if let Some(before) = had.supplies.get(key).filter(|_| supply.name.is_empty()) {
                supply.name.clone_from(&before.value.name);
                supply.group = before.value.group;
            }
            had.supplies.insert(key.clone(), fact(entry, supply));
        }
        Inspection::Settled { finding, settled } => match had.findings.get_mut(finding) {
            Some(state) => state.settled = Some(fact(entry, settled.clone())),
            None if OWN.contains(&finding.as_str()) => {
                let settled = fact(entry, settled.clone());
                had.answered.insert(finding.clone(), settled);
            }
            None => return Some(Misfit::NoSuchFinding),
        },
        Inspection::Sizes(sizes) => had.sizes = Some(fact(entry, sizes.clone())),
        Inspection::Ring(ring) => had.ring = Some(fact(entry, ring.clone())),
        Inspection::Cone(cone) => had.cone = Some(fact(entry, cone.clone())),
        Inspection::Reread(reread) => had.reread = Some(fact(entry, reread.clone())),
        Inspection::Sealing(said) => super::seals::take(&mut had.seals, entry, said),
        Inspection::Visit { key, visit } => {
            had.visits.insert(key.clone(), fact(entry, visit.clone()));
        }
    }
    None
}
