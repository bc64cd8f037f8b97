//! The Teardown page: what was found, what is not fit to go back, and what nobody has looked at.

pub(crate) mod finding;
pub(crate) mod found;
mod gap;
mod parts;
pub(crate) mod say;
pub(crate) mod supplies;
mod wear;

use workshop::draft::inspect::{Sheet, words};
use workshop::draft::word;
use workshop::inspect::Area;
use workshop::inspect::found::{Sort, opened, record};
use workshop::inspect::parts::{Look, Teardown, teardown};
use workshop::job::Job;

use super::forms::finding as findings;
use super::forms::inspect as sheets;
use super::{
    Answer, Button, FormName, Next, Page, Run, Section, Target, Tone, Weight, frame, plain, strong,
};
use crate::words as said;

pub use super::torque::View;
pub(crate) use gap::rows as gap_rows;
pub(crate) use parts::rows as part_rows;
pub(crate) use say::{finding_of as finding_words, journal};

/// Safety beside the step that can hurt.
pub const CAUTIONS: [&str; 4] = [
    "Roll the hull only to the side its manual allows, and slowly: to the other side water runs into \
     the engine. Battery off and safety lanyard out before a hand goes into the pump.",
    "Bolts that may snap, drills and extractors: goggles on. Rods, cables and springs under load let \
     go at once: take the load off first, hands and face out of line.",
    "Blade edges cut: gloves on. Spin the rotor by hand only, with battery and safety lanyard off.",
    "Leak test: low pressure only, as the craft’s manual says; goggles on, stand aside of plugs and \
     covers, and never blow with the mouth.",
];

/// Rules of the bench that no figure decides.
const RULES: [&str; 4] = [
    "Small nicks in a leading edge are dressed by hand, round and smooth, the same on all blades.",
    "Never file the tips: the gap grows for good.",
    "Never set a blade’s angle by eye.",
    "A crack at the root, a missing piece or a blade bent beyond the manual goes out for repair or \
     is scrapped.",
];

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Teardown(view.id.clone());
    let state = teardown(view.job);
    Page {
        title: "Teardown".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: Vec::new(),
        answer: found::answer(view.job).unwrap_or_else(|| answer(view.job, &state)),
        evidence: evidence(view, &state),
        next: found::next(view.job, view.refused).unwrap_or_else(|| next(view, &state)),
        // What can hurt once it is open comes when it is.
        cautions: match found::answer(view.job) {
            Some(_) => CAUTIONS[..2].to_vec(),
            None => CAUTIONS.to_vec(),
        },
    }
}

/// The cautions for the build sheet: nothing while nothing was torn down.
pub(crate) fn cautions(job: &Job) -> impl Iterator<Item = &'static str> {
    let state = teardown(job);
    let begun = !state.seen.is_empty() || !record(job).had.is_empty();
    begun.then_some(CAUTIONS).into_iter().flatten()
}

/// Where the teardown stands, for the list of stages.
pub(crate) fn stage(job: &Job) -> String {
    let state = teardown(job);
    let all = state.seen.len() + state.unseen.len();
    match (state.unfit.len(), state.undecided.len(), state.seen.len()) {
        (0, 0, 0) => match record(job) {
            record if record.had.is_empty() => "nothing inspected yet".to_owned(),
            record => format!("as found: {} of {}", record.had.len(), Sort::ASKED.len()),
        },
        (0, 0, seen) => format!("{seen} of {all} looked at"),
        (0, undecided, _) => format!("{undecided} not decided"),
        (unfit, ..) => format!("{unfit} not fit"),
    }
}

/// What keeps the teardown open, each in a sentence.
pub(crate) fn open(job: &Job) -> Vec<String> {
    let state = teardown(job);
    let mut open: Vec<String> = state
        .unfit
        .iter()
        .map(|unfit| format!("Not fit to go back: {}.", say::unfit(job, unfit)))
        .collect();
    if !state.undecided.is_empty() {
        open.push(format!("Not decided: {}.", doubts(&state)));
    }
    open.extend(
        (state.dress.iter()).map(|key| format!("Still to dress: {}.", say::finding_of(job, key))),
    );
    open.extend(found::open(job));
    // Somebody who only measures is not asked for the rest.
    if !state.unseen.is_empty() && !state.seen.is_empty() {
        open.push(format!("Not inspected: {}.", looks(&state.unseen)));
    }
    open
}

fn answer(job: &Job, state: &Teardown) -> Answer {
    let unfit: Vec<String> = (state.unfit.iter())
        .map(|unfit| say::unfit(job, unfit))
        .collect();
    let dress: Vec<String> = (state.dress.iter())
        .map(|key| say::finding_of(job, key))
        .collect();
    let doubts = doubts(state);
    let (tone, headline) = match (unfit.len(), dress.len(), state.seen.len()) {
        (0, ..) if !doubts.is_empty() => (
            Tone::Open,
            format!("Nothing is shown to be unfit, and not decided: {doubts}."),
        ),
        (0, 0, 0) => (Tone::Plain, "Nothing inspected yet.".to_owned()),
        (0, 0, _) => (Tone::Good, "Everything inspected may go back.".to_owned()),
        (0, n, _) => (
            Tone::Open,
            format!(
                "Everything inspected may go back, once {} dressed.",
                if n == 1 {
                    "one thing is"
                } else {
                    "what is named here is"
                }
            ),
        ),
        (1, ..) => (
            Tone::Stop,
            format!("One thing is not fit to go back: {}.", unfit[0]),
        ),
        (2, ..) => (
            Tone::Stop,
            format!("Two things are not fit to go back: {}.", unfit.join("; ")),
        ),
        (n, ..) => (
            Tone::Stop,
            format!("{} things are not fit to go back.", say::number(n)),
        ),
    };
    Answer {
        tone,
        headline,
        detail: detail(job, state, (&unfit, &dress)),
        origin:
            "Findings as you noted them · limits of the craft’s manual as you stated them · what \
                 is told by feel: common practice, no source"
                .to_owned(),
    }
}

/// What keeps it open, what it takes, and what nobody has looked at.
fn detail(job: &Job, state: &Teardown, (unfit, dress): (&[String], &[String])) -> Vec<Run> {
    let doubts = doubts(state);
    let mut detail: Vec<Run> = Vec::new();
    // More than two would drown the headline.
    if unfit.len() > 2 {
        detail.push(strong(unfit.join("; ")));
        detail.push(plain(". "));
    }
    if !unfit.is_empty() && !doubts.is_empty() {
        detail.push(plain(format!("Not decided: {doubts}. ")));
    }
    if !dress.is_empty() {
        detail.push(plain("Still to dress: "));
        detail.push(strong(dress.join("; ")));
        detail.push(plain(". "));
    }
    let kept = record(job);
    if !kept.missing.is_empty() && !kept.had.is_empty() {
        let missing = found::missing(&kept);
        detail.push(plain(format!("As found, not on record: {missing}. ")));
    }
    if let Some(wanted) = supplies::wanted(job) {
        detail.push(plain(format!("{wanted} ")));
    }
    if state.unseen.is_empty() {
        detail.push(plain("Everything on the list was looked at."));
    } else {
        detail.push(plain(format!(
            "Not looked at yet: {}.",
            some(&state.unseen)
        )));
    }
    detail
}

fn doubts(state: &Teardown) -> String {
    let doubts = state.undecided.iter().map(say::undecided);
    let doubts: Vec<String> = doubts.map(str::to_owned).collect();
    said::list(&doubts, doubts.len())
}

fn looks(looks: &[Look]) -> String {
    named(looks, looks.len())
}

/// The first few: more would drown the answer.
fn some(looks: &[Look]) -> String {
    named(looks, 4)
}

fn named(looks: &[Look], most: usize) -> String {
    let looks: Vec<String> = looks
        .iter()
        .map(|look| say::look(*look).to_owned())
        .collect();
    said::list(&looks, most)
}

fn evidence(view: &View<'_>, state: &Teardown) -> Vec<Section> {
    let (job, refused) = (view.job, view.refused);
    let mut sections = Vec::new();
    let open: Vec<String> = frame::objections(view.objections).collect();
    if !open.is_empty() {
        let heading = "Open".to_owned();
        sections.push(Section::Notes {
            heading,
            notes: open,
        });
    }
    let record = found::sections((view.id, job), refused);
    // Once it is open, what was found inside comes first.
    let (first, last) = if opened(job) {
        (Vec::new(), record)
    } else {
        (record, Vec::new())
    };
    sections.extend(first);
    sections.extend(finding::cards((view.id, job), refused));
    let next = state.unseen.first();
    let mut blank = sheets::blank(Sheet::Finding);
    if let Some(Look::Area(area)) = next {
        let area = word(&words::AREAS, *area).to_owned();
        blank.fields.insert("area", area);
    }
    sections.push(Section::Form(findings::finding(&blank, refused)));
    sections.push(parts::rotor(job, refused));
    sections.extend(parts::leak(job, refused));
    sections.extend(supplies::sections(job, refused));
    sections.extend(last);
    sections.extend(gap::sections(job, refused));
    sections.push(Section::Notes {
        heading: "Rules of the bench; common practice, no source".to_owned(),
        notes: RULES.map(str::to_owned).to_vec(),
    });
    sections
}

/// The first thing nobody has looked at.
fn next(view: &View<'_>, state: &Teardown) -> Next {
    let job = view.job;
    match state.unseen.first() {
        Some(Look::Area(area)) => {
            let key = word(&words::AREAS, *area);
            let sound = |label: &str, words: &str, weight, press| Button {
                label: label.to_owned(),
                form: FormName::Finding,
                values: vec![
                    ("finding", String::new()),
                    ("area", key.to_owned()),
                    ("flaw", "nothing".to_owned()),
                    ("words", words.to_owned()),
                    ("todo", "fit".to_owned()),
                ],
                weight,
                key: Some(press),
            };
            let none = area.named() || matches!(area, Area::Shoe | Area::Grate | Area::RidePlate);
            let none = none.then(|| {
                sound(
                    "None on this craft",
                    "none on this craft",
                    Weight::Plain,
                    'o',
                )
            });
            let sound = sound("Sound: nothing found", "", Weight::Main, 'n');
            Next::Ask {
                question: vec![
                    plain("Look at "),
                    strong(say::look(Look::Area(*area))),
                    plain(format!(
                        ": {} If something is found, note it above.",
                        ask(*area)
                    )),
                ],
                buttons: (std::iter::once(sound).chain(none))
                    .chain(frame::undo(job))
                    .collect(),
                write: None,
            }
        }
        Some(Look::Rotor) => Next::Ask {
            question: vec![
                plain("Put the dial on "),
                strong("the rotor"),
                plain(", push it both ways, spin it by hand, and fill in the sheet above."),
            ],
            buttons: frame::undo(job),
            write: None,
        },
        Some(Look::Leak) => Next::Ask {
            question: vec![
                plain("Close the housing for "),
                strong("the leak test"),
                plain(" when seals and bearing are in, and fill in the sheet above."),
            ],
            buttons: frame::undo(job),
            write: None,
        },
        None => Next::Ask {
            question: vec![plain(if state.unfit.is_empty() && state.dress.is_empty() {
                "Everything on the list was looked at. Go on to Measure."
            } else {
                "Everything on the list was looked at. Say above what became of what is open."
            })],
            buttons: frame::undo(job),
            write: None,
        },
    }
}

/// What to look for.
fn ask(area: Area) -> &'static str {
    match area {
        Area::Blades => "nicks, bends, a crack at the root, rounded tips?",
        Area::Vanes => "chips, bends, cracks?",
        Area::Nozzle => "nicks, scores, corrosion?",
        Area::Ring => "scores, swelling, a loose seat?",
        Area::Flange => "a step from part to part, corrosion on the face?",
        Area::Seal => "a torn lip, a hard lip, grit?",
        Area::Bearing => "corrosion, discoloured balls, water in the grease?",
        Area::Hull => "inserts that spin or lift, cracks, bare glass round the holes?",
        Area::Bolts => "snapped, stretched, rusted or bent; threads with metal in them?",
        Area::Shoe => "does it ring hollow when tapped; does a leaf go under its edge?",
        Area::Grate => "bent or cracked bars, a loose bolt, rope wound in?",
        Area::RidePlate => "bent, cracked, scraped through; bolts that turn?",
        Area::Driveline => "worn splines, torn bellows, a perished coupling, play?",
        Area::Mounts => "perished rubber, rubber off the metal, shims that have wandered?",
        Area::Lines => "split, hard or blocked hoses, loose clamps, sand at the bends?",
        Area::Controls => "torn boots, stiff or stretched cables, bent rods, worn balls?",
        Area::Anode => "more than half gone, painted over, loose?",
    }
}
