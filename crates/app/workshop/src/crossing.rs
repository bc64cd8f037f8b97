//! What two devices said of the same thing without seeing each other.
//!
//! The journal takes both, and the fold lets the later one count where only one can. That is told,
//! until somebody who saw both says it anew, or one of them is undone.

use std::collections::BTreeMap;

use crate::choose::Choosing;
use crate::diagnose::Diagnosing;
use crate::entry::{Body, Entry, Key};
use crate::inspect::Inspection;
use crate::photos::Photography;
use crate::plan::Work;
use crate::seals::Sealing;
use crate::tools::Tooling;
use crate::upkeep::Servicing;
use crate::water::Trialling;

/// What an entry is about: the kind of thing, and which.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct About {
    /// The kind of thing.
    pub kind: &'static str,
    /// Which of its kind; empty where there is one in a job.
    pub key: String,
}

/// Entries about one thing whose authors had not seen each other's.
#[derive(Clone, Debug, PartialEq)]
pub struct Crossing {
    /// What they are about.
    pub about: About,
    /// The entries, in the order of the journal.
    pub said: Vec<Entry>,
}

/// The crossings of a journal that nobody has settled yet, in the order of their last entries.
pub fn crossings(entries: &[Entry]) -> Vec<Crossing> {
    crate::fold::fold(entries).0.crossed
}

/// The same of entries in order, of which some count.
pub(crate) fn of(ordered: &[&Entry], live: &[bool]) -> Vec<Crossing> {
    // Most journals are of one device, or of several that saw each other.
    if ordered
        .iter()
        .all(|entry| entry.new.seen + 1 >= entry.position)
    {
        return Vec::new();
    }
    let mut things: BTreeMap<About, Vec<&Entry>> = BTreeMap::new();
    for (entry, _) in ordered.iter().zip(live).filter(|(_, live)| **live) {
        for about in about(&entry.new.body) {
            things.entry(about).or_default().push(entry);
        }
    }
    let crossing = |(about, said): (About, Vec<&Entry>)| {
        let said = unsettled(&said);
        (!said.is_empty()).then_some(Crossing { about, said })
    };
    let mut found: Vec<Crossing> = things.into_iter().filter_map(crossing).collect();
    found.sort_by_key(|crossing| crossing.said.last().map(|entry| entry.position));
    found
}

/// Of all that was said of one thing, what crossed and was not said anew by somebody who saw it.
fn unsettled(said: &[&Entry]) -> Vec<Entry> {
    let mut crossed = vec![false; said.len()];
    for (later, entry) in said.iter().enumerate() {
        let unseen = (0..later).rev();
        let unseen = unseen.take_while(|earlier| said[*earlier].position > entry.new.seen);
        for earlier in unseen {
            let other = said[earlier];
            let settled = |entry_after: &&Entry| saw(entry_after, other) && saw(entry_after, entry);
            if !saw(entry, other)
                && other.new.body != entry.new.body
                && !said[later + 1..].iter().any(settled)
            {
                crossed[earlier] = true;
                crossed[later] = true;
            }
        }
    }
    let crossed = said.iter().zip(crossed).filter(|(_, crossed)| *crossed);
    crossed.map(|(entry, _)| (*entry).clone()).collect()
}

/// Whether the author of the one had seen the other, or had written it.
fn saw(author: &Entry, other: &Entry) -> bool {
    author.new.seen >= other.position || author.new.device == other.new.device
}

/// What an entry is about. What only adds to a list, such as a mishap, and a withdrawal, which names
/// its own entry, are about nothing that another could say otherwise.
pub fn about(body: &Body) -> Vec<About> {
    let one = |kind, key: &dyn ToString| {
        let key = key.to_string();
        vec![About { kind, key }]
    };
    let the = |kind| one(kind, &"");
    match body {
        Body::JobOpened { .. } => the("job"),
        Body::PumpDescribed(_) => the("pump"),
        Body::LeavesDescribed(_) => the("leaves"),
        Body::LimitsStated(_) => the("limits"),
        Body::WalkChosen(_) => the("walk"),
        Body::LeavesTried { spot, .. } => one("spot", &format!("{} {}", spot.blade, spot.position)),
        Body::GapAccepted(_) => the("result"),
        Body::Work(work) => of_work(work),
        Body::JointDescribed { key, .. } | Body::FitDescribed { key, .. } => one("joint", key),
        Body::JointFastened { key, .. } | Body::FitChecked { key, .. } => one("count", key),
        Body::Tooled(said) => match said {
            Tooling::WrenchDescribed { key, .. } => one("wrench", key),
            Tooling::ToolChosen { joint, .. } => one("tool", joint),
            Tooling::HoleMeasured { joint, .. } => one("hole", joint),
            Tooling::RoleSaid { joint, .. } => one("role", joint),
        },
        Body::Inspected(said) => of_inspection(said),
        Body::Photographed(
            Photography::Taken { photo, .. }
            | Photography::Captioned { photo, .. }
            | Photography::PutAway { photo },
        ) => one("photo", photo),
        Body::Trialled(said) => match said {
            Trialling::Outing { key, .. } => one("outing", key),
            Trialling::Log { digest, .. } | Trialling::LogPutAway { digest } => one("log", digest),
            Trialling::Runs { digest, .. } => one("runs", digest),
            Trialling::Figures { outing, .. } => one("figures", outing),
            Trialling::Taken(_) => the("trial result"),
        },
        Body::Chose(said) => match said {
            Choosing::Craft(_) => the("craft"),
            Choosing::Option { key, .. } | Choosing::OptionPutAway { key } => one("option", key),
            Choosing::Wish(_) => the("wish"),
            Choosing::Steadies(_) => the("steadies"),
            Choosing::Taken(_) => the("option taken"),
        },
        Body::Diagnosed(said) => match said {
            Diagnosing::Suspect { .. } => the("suspect"),
            Diagnosing::Symptoms(_) => the("symptoms"),
            Diagnosing::Checked { check, .. } => one("check", &format!("{check:?}")),
            Diagnosing::MadeSafe(_) => the("safe"),
            Diagnosing::Taken(_) => the("cause taken"),
        },
        Body::Serviced(said) => match said {
            Servicing::Usage(_) => the("usage"),
            Servicing::Part { key, .. } => one("sort", key),
            Servicing::Piece { key, .. } => one("piece", key),
            Servicing::Rule { task, .. } => one("rule", task),
            Servicing::Rechecked { point, .. } => one("recheck", &format!("{point:?}")),
            Servicing::Closed(_) => the("closing"),
            Servicing::Meter(_) | Servicing::Happened(_) | Servicing::Done(_) => Vec::new(),
        },
        Body::Withdrawn { .. } | Body::Unknown { .. } => Vec::new(),
    }
}

fn of_work(work: &Work) -> Vec<About> {
    let one = |kind, key: &Key| About {
        kind,
        key: key.to_string(),
    };
    let the = |kind| About {
        kind,
        key: String::new(),
    };
    vec![match work {
        Work::PlanLaid(_) => the("plan"),
        Work::CrewStated(_) => the("crew"),
        Work::StepBegun { step }
        | Work::StepDone { step, .. }
        | Work::StepDeferred { step, .. }
        | Work::StepAgain { step, .. } => one("step", step),
        Work::StepEstimated { step, .. } => one("estimate", step),
        Work::FastenersIn { step, .. } => one("fasteners", step),
        Work::GateOverridden { step, .. } => one("gate", step),
        Work::PartStated { part, .. } => one("part", part),
        Work::ItemTold { item, .. } => one("item", item),
        Work::ToolsCounted(counted) => {
            return counted.keys().map(|tool| one("tool count", tool)).collect();
        }
    }]
}

fn of_inspection(said: &Inspection) -> Vec<About> {
    let (kind, key) = match said {
        Inspection::Rotor(_) => ("rotor", ""),
        Inspection::Leak(_) => ("leak", ""),
        Inspection::Alignment(_) => ("alignment", ""),
        Inspection::Found { key, .. } => ("finding", key.as_str()),
        Inspection::AsFound { key, .. } => ("as found", key.as_str()),
        Inspection::Supply { key, .. } => ("supply", key.as_str()),
        Inspection::Settled { finding, .. } => ("settled", finding.as_str()),
        Inspection::Sizes(_) => ("sizes", ""),
        Inspection::Ring(_) => ("ring", ""),
        Inspection::Cone(_) => ("cone", ""),
        Inspection::Reread(_) => ("reread", ""),
        Inspection::Visit { key, .. } => ("visit", key.as_str()),
        Inspection::Sealing(said) => match said {
            Sealing::Bench(_) => ("bench", ""),
            Sealing::Compound { key, .. } => ("compound", key.as_str()),
            Sealing::Thread { joint, .. } => ("thread", joint.as_str()),
            Sealing::Seal { joint, .. } => ("seal", joint.as_str()),
            Sealing::Contact { joint, .. } => ("contact", joint.as_str()),
        },
    };
    let key = key.to_owned();
    vec![About { kind, key }]
}
