//! What a finding, a joint and a bead ask for. Common practice, no source, but where a person named
//! the thing.

use joint::Condition;
use joint::compound::Compound;

use super::{Group, List};
use crate::assemble::words::capital;
use crate::draft::inspect::seal_words::COMPOUNDS;
use crate::draft::word;
use crate::fits::FitKind;
use crate::inspect::parts::breath;
use crate::inspect::{Area, Finding, Flaw, Todo};
use crate::job::Job;
use crate::joints::Face;
use crate::seals::Stuff;

use Group::{Consumable, Part, Tool};

type Thing = (&'static str, &'static str, Group);

const SEAL: [Thing; 3] = [
    ("shaft-seal", "Shaft seal", Part),
    (
        "lip-grease",
        "Water-resistant grease for the lip",
        Consumable,
    ),
    ("seal-driver", "Driver or tube of the seal’s diameter", Tool),
];
const PRESS: Thing = ("press", "Press, or plates and a long screw", Tool);
const SPLINE_GREASE: Thing = (
    "spline-grease",
    "Water-resistant grease for the splines",
    Consumable,
);
const CABLE_GREASE: Thing = ("cable-grease", "Grease for cable ends", Consumable);
const HOLDER: Thing = (
    "impeller-holder",
    "Holder for the shaft and tool for the impeller",
    Tool,
);
const ANODE: [Thing; 2] = [
    ("anode", "Anode", Part),
    ("wire-brush", "Wire brush for the anode’s seat", Tool),
];
const BEARING: [Thing; 3] = [
    ("bearing", "Bearing", Part),
    ("bearing-puller", "Bearing puller", Tool),
    PRESS,
];
const RING: [Thing; 2] = [
    ("wear-ring", "Wear ring", Part),
    ("ring-press", "Press tool for the wear ring", Tool),
];
const SNAPPED: [Thing; 6] = [
    ("bolt", "Bolt or stud as the manual names it", Part),
    ("thread-insert", "Thread insert of that size", Part),
    ("penetrating-oil", "Penetrating oil", Consumable),
    (
        "left-hand-drills",
        "Left-hand drills and a centre punch",
        Tool,
    ),
    ("extractor", "Screw extractor", Tool),
    (
        "insert-kit",
        "Drill, tap and driver for the thread insert",
        Tool,
    ),
];
const THREAD: [Thing; 2] = [
    ("thread-insert", "Thread insert of that size", Part),
    (
        "insert-kit",
        "Drill, tap and driver for the thread insert",
        Tool,
    ),
];
const INSERT: [Thing; 3] = [
    ("hull-insert", "Hull insert", Part),
    (
        "insert-adhesive",
        "Adhesive for the insert, as the manual names it",
        Consumable,
    ),
    ("degreaser", "Degreaser", Consumable),
];
const LAMINATE: [Thing; 3] = [
    (
        "laminate",
        "Resin and glass for the hull, as the manual names them",
        Consumable,
    ),
    ("abrasive", "Abrasive paper", Consumable),
    ("mask", "Dust mask, gloves, goggles", Tool),
];
const SHOE: [Thing; 3] = [
    (
        "shoe-adhesive",
        "Adhesive for the pump shoe, as the manual names it",
        Consumable,
    ),
    ("degreaser", "Degreaser", Consumable),
    ("scraper", "Scraper of plastic", Tool),
];
const HOSE: [Thing; 2] = [
    ("hose", "Hose of that bore, for that water or gas", Part),
    ("hose-clamps", "Hose clamps of stainless steel", Part),
];
const FILE: [Thing; 1] = [(
    "fine-file",
    "Fine half-round file and abrasive fleece",
    Tool,
)];

/// What an open finding takes. What is sent out or fitted as it is takes nothing here.
pub(super) fn finding(list: &mut List, finding: &Finding) {
    let why = breath(finding);
    for thing in things(finding) {
        list.add(*thing, (&why, true));
    }
}

fn things(finding: &Finding) -> &'static [Thing] {
    match finding.todo {
        Todo::Fit | Todo::SendOut => return &[],
        Todo::Dress if matches!(finding.area, Area::Blades | Area::Vanes | Area::Nozzle) => {
            return &FILE;
        }
        Todo::Dress => return &[("abrasive", "Abrasive paper", Consumable)],
        Todo::Scrap | Todo::Repair => {}
    }
    match (finding.area, finding.flaw) {
        (Area::Bolts, Flaw::Snapped) => &SNAPPED,
        (Area::Hull, Flaw::SpunInsert | Flaw::PulledThread | Flaw::Loose) => &INSERT,
        (_, Flaw::PulledThread) => &THREAD,
        (Area::Hull, _) => &LAMINATE,
        (Area::Bolts, _) => &[("bolt", "Bolt or stud as the manual names it", Part)],
        (Area::Seal, _) => &SEAL,
        (Area::Bearing, _) => &BEARING,
        (Area::Ring, _) => &RING,
        (Area::Shoe, _) => &SHOE,
        (Area::Lines, Flaw::Blocked) => &[],
        (Area::Lines, _) => &HOSE,
        (Area::Controls, Flaw::TornBoot) => &[("boot", "Cable or rod boot", Part)],
        (Area::Controls, _) => &[("cable", "Control cable or rod", Part), CABLE_GREASE],
        (Area::Driveline, Flaw::TornBoot) => &[("bellows", "Driveline bellows or boot", Part)],
        (Area::Driveline, _) => &[
            (
                "driveline-part",
                "Drive shaft, coupling or its rubber, as found",
                Part,
            ),
            SPLINE_GREASE,
        ],
        (Area::Mounts, _) => &[
            ("mount", "Mount", Part),
            ("shims", "Shims of the thicknesses found", Part),
        ],
        (Area::Blades, _) => &[("impeller", "Impeller", Part), HOLDER],
        (Area::Vanes | Area::Flange, _) => &[("stator", "Stator or pump housing", Part)],
        (Area::Nozzle, _) => &[("nozzle", "Nozzle", Part)],
        (Area::Grate, _) => &[("intake-grate", "Intake grate", Part)],
        (Area::RidePlate, _) => &[("ride-plate", "Ride plate", Part)],
        (Area::Anode, _) => &ANODE,
    }
}

/// What goes on the threads and between the faces of joints that are not done.
pub(super) fn joints(list: &mut List, job: &Job) {
    for (key, state) in job.joints_in_order() {
        if state.done() {
            continue;
        }
        let joint = &state.joint.value;
        let on = match joint.condition {
            Condition::LightOil => Some(("light-oil", "Light oil")),
            Condition::Grease => Some(("grease", "Grease for threads")),
            Condition::AntiSeize => Some(("anti-seize", "Anti-seize paste")),
            Condition::Threadlocker => Some(("threadlocker", "Threadlocker")),
            Condition::PtfePaste => Some(("ptfe-paste", "PTFE paste")),
            Condition::Dry | Condition::Unknown => None,
        };
        if let Some((what, name)) = on {
            let why = format!("threads of “{}”", joint.name);
            list.add((what, name, Consumable), (&why, false));
        }
        let why = format!("between the faces of “{}”", joint.name);
        match joint.face {
            Face::Bare => {}
            Face::Sealant => list.add(("sealant", "Sealant", Consumable), (&why, false)),
            Face::Gasket => {
                let name = format!("Gasket for “{}”", joint.name);
                list.add((&format!("gasket-{key}"), &name, Part), (&why, false));
            }
            Face::ORing => {
                let name = format!("O-ring for “{}”", joint.name);
                list.add((&format!("o-ring-{key}"), &name, Part), (&why, false));
            }
        }
    }
}

/// What belongs to the joints that are no circle of screws and are not done.
pub(super) fn fits(list: &mut List, job: &Job) {
    for (key, state) in job.fits_in_order() {
        if job.fit_done(state) {
            continue;
        }
        let fit = &state.fit.value;
        let why = format!("“{}”", fit.name);
        for thing in usual(&fit.kind) {
            list.add(*thing, (&why, true));
        }
        // What the person named, or what is made for this joint only.
        let (name, group) = match &fit.kind {
            FitKind::ORing { .. } => (format!("O-ring for “{}”", fit.name), Part),
            FitKind::Plug { .. } => (format!("Washer or ring for “{}”", fit.name), Part),
            FitKind::Fill(fill) => (fill.product.clone(), Consumable),
            FitKind::Impeller(impeller) if !impeller.compound.is_empty() => {
                (format!("For its thread: {}", impeller.compound), Consumable)
            }
            _ => continue,
        };
        list.add((&format!("fit-{key}"), &name, group), (&why, false));
    }
}

/// What such a joint usually takes.
fn usual(kind: &FitKind) -> &'static [Thing] {
    match kind {
        FitKind::Press(_) => &[PRESS],
        FitKind::Lips(_) => &SEAL,
        FitKind::ORing { .. } => &[("ring-grease", "Grease that its rubber bears", Consumable)],
        FitKind::Spline { .. } => &[SPLINE_GREASE],
        FitKind::Impeller(_) => &[HOLDER],
        FitKind::Anode { .. } => &ANODE,
        FitKind::Cable { .. } => &[CABLE_GREASE],
        FitKind::Fill(_) | FitKind::Plug { .. } | FitKind::Hose { .. } | FitKind::Shims(_) => &[],
    }
}

/// Compounds that were named for a thread or a face, and the activator where one is said.
pub(super) fn beads(list: &mut List, job: &Job) {
    let seals = job.seals();
    let open = |key: &crate::entry::Key| {
        let state = job.joints.get(key).filter(|state| !state.done())?;
        Some(state.joint.value.name.clone())
    };
    for (key, fact) in &seals.threads {
        let Some(name) = open(key) else { continue };
        let why = format!("threads of “{name}”");
        stuff(list, job, &fact.value.with, &why);
        if fact.value.primed {
            list.add(("activator", "Activator", Consumable), (&why, false));
        }
    }
    for (key, fact) in &seals.seals {
        let Some(name) = open(key) else { continue };
        let why = format!("the face of “{name}”");
        stuff(list, job, &fact.value.with, &why);
    }
}

fn stuff(list: &mut List, job: &Job, stuff: &Stuff, why: &str) {
    match stuff {
        Stuff::Class(class) => {
            let key = class_key(*class);
            let name = capital(&key.replace('-', " "));
            list.add((key, &name, Consumable), (why, false));
        }
        Stuff::Own(key) => {
            let own = job.seals().compounds.get(key);
            let name = own.map_or(key.as_str(), |fact| fact.value.name.as_str());
            list.add((key.as_str(), name, Consumable), (why, false));
        }
    }
}

fn class_key(class: Compound) -> &'static str {
    word(&COMPOUNDS, class)
}
