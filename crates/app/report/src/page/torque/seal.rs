//! What goes on threads and faces, and which metals meet in which water.

pub(crate) mod say;

use jiff::ZonedDateTime;
use joint::compound::{Cure, Edges, Surface};
use joint::meets::Severity;
use quantity::{Unit, format, number};
use workshop::entry::Key;
use workshop::job::Job;
use workshop::joints::{Joint, JointState};
use workshop::seals::face::{self, Bead};
use workshop::seals::metals::{self, Metals};
use workshop::seals::thread::{self, Threaded};
use workshop::seals::{Coat, Seal, hazard, open};

use crate::drawing;
use crate::page::{FactRow, Section, Table, plain, row, soft, strong};

/// What the card of a joint says of compounds and metals.
pub(crate) fn rows(job: &Job, key: &Key, joint: &Joint) -> Vec<FactRow> {
    let on_thread = thread::of(job, key, joint);
    let seal = job.seals().seals.get(key).map(|fact| &fact.value);
    let bead = seal.and_then(|seal| Some((seal, face::of(job, seal)?)));
    let mut rows = vec![cleaning(on_thread.as_ref(), bead.is_some())];
    if let Some(on) = &on_thread {
        rows.extend(on_the_thread(job, on));
    }
    if let Some((seal, bead)) = &bead {
        rows.push(on_the_face(bead));
        rows.extend(closing(job, seal, bead));
    }
    rows.extend(
        metals::of(job, key)
            .as_ref()
            .map(|metals| in_water(job, metals)),
    );
    rows
}

fn cleaning(on: Option<&Threaded>, sealed: bool) -> FactRow {
    let mut words = say::clean_thread(on.map(|on| on.material.class)).to_owned();
    if sealed {
        words.push_str(
            "; both faces: old sealant off with plastic, degreased, dry, and no finger on them after",
        );
    }
    row(
        "Clean first",
        vec![plain(words)],
        "common practice, no source",
    )
}

fn on_the_thread(job: &Job, on: &Threaded) -> Vec<FactRow> {
    let mut value = vec![
        strong(on.material.name.clone()),
        plain(format!(": {}", say::dose(on.material.class))),
    ];
    if on.wants_activator {
        value.push(plain(
            "; these metals slow its cure: activator on both threads, or the longer wait",
        ));
    } else if on.surface == Surface::Primed {
        value.push(plain("; with activator on both threads"));
    }
    let origin = if on.assumed {
        "taken from the joint’s condition; common practice, no source"
    } else {
        "as you said; common practice, no source"
    };
    let mut rows = vec![row("Put on the thread", value, origin)];
    rows.push(sets(job, on));
    rows
}

/// How long it takes, and how it comes off.
fn sets(job: &Job, on: &Threaded) -> FactRow {
    let times = on.times.as_ref().ok();
    let mut value = Vec::new();
    if let Some(working) = times.and_then(|times| times.working) {
        value.push(plain(format!(
            "{} after closing turn it no more; ",
            say::least(working)
        )));
    }
    if let Some(cured) = times.and_then(|times| times.cured) {
        value.push(plain("full strength after "));
        value.push(strong(say::span(cured)));
        value.push(plain("; "));
    }
    let removal = say::removal(on.material.sheet.removal);
    let (name, removal, air) = match on.material.sheet.cure {
        Cure::Never => ("It comes off", removal, String::new()),
        _ => (
            "It sets",
            format!("off again: {removal}"),
            format!("; at {}", say::air(job)),
        ),
    };
    value.push(plain(removal));
    row(name, value, format!("{}{air}", say::source(&on.material)))
}

fn on_the_face(bead: &Bead) -> FactRow {
    let mm = |metres: f64| format(metres, Unit::Millimetre, 2);
    let mut value = match &bead.fits {
        Ok(fits) => vec![
            strong(format!(
                "{} to {}",
                number(fits.low, Unit::Millimetre, 2),
                mm(fits.high)
            )),
            plain(format!(
                " of {}, along the middle of the face",
                bead.material.name
            )),
        ],
        Err(_) => vec![
            strong(mm(bead.laid)),
            plain(format!(" of {} seals, and comes out", bead.material.name)),
        ],
    };
    if let Some(left) = bead.left_open.filter(|_| bead.ridge > 0.0) {
        value.push(plain(format!(
            ": a ridge of {} on each side leaves {:.0}\u{a0}% of the passage open",
            mm(bead.ridge),
            left * 100.0
        )));
    }
    if let Some(share) = bead.share {
        value.push(soft(format!(
            "; the line takes {} of a cartridge of 310\u{a0}mL, assumed",
            percent(share)
        )));
    }
    let gap = if bead.gap.assumed {
        "assumed"
    } else {
        "measured"
    };
    let gap = format!(
        "the volume kept; gap {} to {}, {gap}",
        number(bead.gap.value.low, Unit::Millimetre, 2),
        mm(bead.gap.value.high)
    );
    row("Bead on the face", value, gap)
}

/// How long there is to close the joint, and when it has cured.
fn closing(job: &Job, seal: &Seal, bead: &Bead) -> Option<FactRow> {
    let times = bead.times.as_ref().ok()?;
    let mut value = Vec::new();
    if let Some(working) = times.working {
        value.push(strong(format!("within {}", say::least(working))));
    }
    if let Some(skin) = times.skin {
        value.push(plain(format!(
            ", every torque before it has a skin, {} at the soonest",
            say::least(skin)
        )));
    }
    if let Some(cured) = times.cured {
        value.push(plain(format!("; cured through after {}", say::span(cured))));
    }
    let edges = match (bead.material.sheet.cure, seal.edges) {
        (Cure::Moisture(_), Edges::Both) => ", the widest film, air at both edges",
        (Cure::Moisture(_), Edges::One) => ", the widest film, air at one edge only",
        _ => "",
    };
    let removal = say::removal(bead.material.sheet.removal);
    value.push(plain(format!("; off again: {removal}")));
    let origin = format!(
        "{}; at {}{edges}",
        say::source(&bead.material),
        say::air(job)
    );
    Some(row("Close the joint", value, origin))
}

/// `4 %`, and for next to nothing `under 1 %`.
fn percent(share: f64) -> String {
    if share < 0.01 {
        "under 1\u{a0}%".to_owned()
    } else {
        format!("{:.0}\u{a0}%", share * 100.0)
    }
}

fn in_water(job: &Job, metals: &Metals) -> FactRow {
    let couple = &metals.risk.couple;
    let screw = if metals.screw.assumed {
        "; screws of A2 assumed"
    } else {
        ""
    };
    let pair = if couple.cathode == couple.anode {
        format!("both {}", say::metal(couple.anode))
    } else {
        format!(
            "{} eats {}",
            say::metal(couple.cathode),
            say::metal(couple.anode)
        )
    };
    row(
        "Metals in their water",
        vec![plain(say::step(metals.risk.next))],
        format!("{pair}; {}{screw}", say::water(job)),
    )
}

/// What must be mended at a joint before it is sealed, in words.
pub fn open_at(job: &Job, key: &Key, now: &ZonedDateTime) -> Vec<String> {
    let open = open::at(job, key, now.date());
    open.iter().map(say::open).collect()
}

/// What can hurt at a joint, in words.
pub fn cautions_at(job: &Job, key: &Key) -> Vec<&'static str> {
    hazard::at(job, key).into_iter().map(say::caution).collect()
}

/// What to mind at a joint: first what is wrong, then what to ask, then what can hurt.
pub(crate) fn notes(job: &Job, key: &Key, open: &[String]) -> Vec<String> {
    let mut notes = open.to_vec();
    let asks = open::rules(job, key);
    let asks = asks
        .iter()
        .filter(|rule| rule.severity == Severity::AskTheSheet);
    notes.extend(asks.map(|rule| {
        format!(
            "Ask the data sheets whether these may meet: {} ({}).",
            say::meeting(rule),
            rule.source
        )
    }));
    let cautions = cautions_at(job, key).into_iter();
    notes.extend(cautions.map(|caution| format!("Caution: {caution}")));
    notes
}

/// What keeps a joint open, with the joint's name before it.
pub(crate) fn named(joint: &Joint, open: &[String]) -> Vec<String> {
    let open = open.iter();
    open.map(|open| format!("{}: {open}", joint.name)).collect()
}

/// The bead of a joint across its face.
pub(crate) fn picture(job: &Job, key: &Key, state: &JointState) -> Option<Section> {
    let seal = &job.seals().seals.get(key)?.value;
    let bead = face::of(job, seal)?;
    let name = &state.joint.value.name;
    let drawing = drawing::bead(&drawing::Bead {
        name: name.clone(),
        laid: bead.laid,
        sealed: seal.sealed.value,
        room: seal.room.value,
        gap: (bead.gap.value.low, bead.gap.value.high),
        film: (bead.film.low, bead.film.high),
        ridge: bead.ridge,
        passage: seal.passage.as_ref().map(|passage| passage.value),
    });
    Some(Section::Picture {
        heading: format!("{name}: the bead"),
        svg: drawing.svg,
        caption: drawing.caption,
    })
}

/// Which joint to see to first, by its metals.
pub(crate) fn ranked(job: &Job) -> Option<Section> {
    let ranked = metals::rank(job);
    let rows: Vec<Vec<String>> = ranked
        .iter()
        .filter_map(|metals| {
            let state = job.joints.get(&metals.joint)?;
            Some(vec![
                state.joint.value.name.clone(),
                suffers(metals),
                say::step(metals.risk.next),
            ])
        })
        .collect();
    let first = ranked.first()?;
    let coat = match (first.coat.assumed, first.coat.value) {
        (true, _) => "coats not stated count as scratched",
        (false, Coat::Whole) => "a whole coat counts with a scratch that nobody sees",
        (false, _) => "coats as stated",
    };
    Some(Section::Table(Table {
        heading: "Metals: which joint first".to_owned(),
        head: ["Joint", "What suffers", "Next"]
            .map(str::to_owned)
            .to_vec(),
        rows,
        caption: format!(
            "In {}. Ranked by how much bare noble metal draws on how little bare base metal; areas \
             assumed from the heads, {coat}. A washer with a sleeve, a gasket with sleeved screws and \
             whole hard anodising insulate; a washer alone, grease, sealant where parts clamp, paint \
             and conversion films do not. Never seal or paint the seat of an anode. Common practice.",
            say::water(job)
        ),
    }))
}

fn suffers(metals: &Metals) -> String {
    let anode = say::metal(metals.risk.couple.anode);
    if metals.risk.threatens {
        format!("{anode}, {} as fast as alone", times(metals.risk.attack))
    } else if say::taken(metals.contact.seal) || say::taken(metals.contact.insulation) {
        "nothing while water or current is kept out".to_owned()
    } else {
        "nothing that should last".to_owned()
    }
}

/// `some 20 times`, rounded to one digit: the areas are assumed.
fn times(attack: f64) -> String {
    let scale = 10.0_f64.powf(attack.log10().floor());
    let rounded = (attack / scale).round() * scale;
    if rounded < 2.0 {
        "hardly more than".to_owned()
    } else {
        format!("some {rounded:.0} times")
    }
}

/// The joints on the build sheet: thread, face, metals, in words.
pub(crate) fn sheet(job: &Job) -> Option<Section> {
    let joints = job.joints_in_order();
    let rows: Vec<Vec<String>> = joints
        .into_iter()
        .map(|(key, state)| {
            let joint = &state.joint.value;
            let on = thread::of(job, key, joint);
            let seal = job.seals().seals.get(key).map(|fact| &fact.value);
            let bead = seal.and_then(|seal| face::of(job, seal));
            vec![
                joint.name.clone(),
                on.map_or_else(
                    || "nothing, or not known".to_owned(),
                    |on| {
                        let assumed = if on.assumed { ", assumed" } else { "" };
                        format!("{}{assumed}", on.material.name)
                    },
                ),
                bead.map_or_else(
                    || "no bead described".to_owned(),
                    |bead| {
                        format!(
                            "bead of {} of {}",
                            format(bead.laid, Unit::Millimetre, 2),
                            bead.material.name
                        )
                    },
                ),
                metals::of(job, key).map_or_else(
                    || "no two metals".to_owned(),
                    |metals| say::step(metals.risk.next),
                ),
            ]
        })
        .collect();
    (!rows.is_empty()).then(|| {
        Section::Table(Table {
            heading: "Compounds and metals".to_owned(),
            head: [
                "Joint",
                "On the thread",
                "Between the faces",
                "Metals, next",
            ]
            .map(str::to_owned)
            .to_vec(),
            rows,
            caption: format!("In {}; bench at {}.", say::water(job), say::air(job)),
        })
    })
}

/// What can hurt at any joint.
pub(crate) fn cautions(job: &Job) -> Vec<&'static str> {
    hazard::of(job).into_iter().map(say::caution).collect()
}
