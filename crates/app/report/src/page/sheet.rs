//! The build sheet: what was done to this pump, by whom, with what, and what is still open.
//!
//! One record to print. It says what was told when a thing was done and what would be said now, so
//! that a later program, or a later reading, cannot rewrite what a person went by.

mod account;
mod choose;
mod diagnose;
mod fits;
mod service;
mod trial;

use jiff::ZonedDateTime;
use quantity::{Unit, format, number};
use workshop::assemble::{Assembly, assess};
use workshop::audit::{Audit, audit};
use workshop::entry::{Entry, JobId};
use workshop::fold::Objection;
use workshop::gap::Judgement;
use workshop::job::Job;
use workshop::joints::{JointState, Tightening, TorqueShown};
use workshop::plan::{Deferral, Plan};
use workshop::refusal::Need;
use workshop::supplies::supplies;
use workshop::torque::card;

use super::record::{by, find, stamp, told};
use super::{
    Answer, Next, Page, Section, Table, Target, Tone, assemble, forms, frame, measure, photos,
    plain, row, teardown, torque,
};
use crate::words;

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// The answer of Measure, or what must be described first.
    pub judgement: Result<&'a Judgement, Need>,
    /// The whole journal, for who did what and when.
    pub entries: &'a [Entry],
    /// The time, in the person's zone.
    pub now: &'a ZonedDateTime,
}

/// What a sheet is not.
const RECORD: &str = "This sheet is a record, not a release. The craft’s manual, local rules and \
    licensed practice decide whether the craft may float and run.";

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Sheet(view.id.clone());
    let assembly = assess(view.job, view.now.timestamp());
    let account = assembly.as_ref().map_or_else(
        || audit(view.job, view.now.timestamp()),
        |all| all.account.clone(),
    );
    let open = open(view, assembly.as_ref(), &account);
    let mut evidence = Vec::new();
    if !open.is_empty() {
        evidence.push(Section::Notes {
            heading: "Open".to_owned(),
            notes: open.clone(),
        });
    }
    evidence.extend(inspected(view));
    evidence.extend(teardown::supplies::tables(&supplies(view.job)));
    evidence.extend(gap(view));
    evidence.extend(joints(view));
    evidence.extend(torque::seal::sheet(view.job));
    evidence.extend(fits::fits(view));
    evidence.extend(choose::choose(view));
    evidence.extend(trial::trial(view));
    evidence.extend(diagnose::diagnose(view));
    evidence.extend(service::service(view));
    if let (Some(plan), Some(assembly)) = (view.job.bench.plan(), assembly.as_ref()) {
        evidence.extend(work(view, plan, assembly));
    }
    evidence.push(account::account(view, &account));
    if let Ok(judgement) = view.judgement {
        evidence.push(measure::rests_on(view.job, judgement));
    }
    evidence.extend(photos::all(view.id, view.job));
    evidence.push(signed());
    Page {
        title: "Build sheet".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: Vec::new(),
        answer: answer(view, open.len()),
        evidence,
        next: Next::Print {
            words: Vec::new(),
            links: vec![
                (
                    Target::Record(view.id.clone()),
                    "Measuring record".to_owned(),
                ),
                (Target::Audit(view.id.clone()), "Account".to_owned()),
                (Target::Label(view.id.clone()), "Pump label".to_owned()),
                (Target::History(view.id.clone()), "History".to_owned()),
                (
                    Target::Archive(view.id.clone()),
                    "Archive (everything, with photos)".to_owned(),
                ),
            ],
        },
        cautions: [RECORD]
            .into_iter()
            .chain(teardown::cautions(view.job))
            .chain(torque::seal::cautions(view.job))
            .collect(),
    }
}

fn answer(view: &View<'_>, open: usize) -> Answer {
    let entries = words::count(view.entries.len(), "entry", "entries");
    let touched = view.entries.last().map_or_else(String::new, |last| {
        format!(", the last {}", when(view, last))
    });
    let (tone, headline) = match open {
        0 => (Tone::Good, "Nothing is open.".to_owned()),
        n => (
            Tone::Open,
            format!("{} open.", words::count(n, "item is", "items are")),
        ),
    };
    Answer {
        tone,
        headline,
        detail: vec![plain(format!(
            "Drawn from {entries} of the journal{touched}; every number below says where it comes \
             from."
        ))],
        origin: format!("Job {}, {}", view.id, workshop::PROGRAM),
    }
}

/// Everything that keeps the job open, each in a sentence.
fn open(view: &View<'_>, assembly: Option<&Assembly>, account: &Audit) -> Vec<String> {
    let mut open = Vec::new();
    match (view.judgement, &view.job.accepted) {
        (Err(_), _) => open.push("The gap is not measured.".to_owned()),
        (Ok(_), None) => open.push("The gap is measured, but no result is taken.".to_owned()),
        (Ok(_), Some(_)) => {}
    }
    let fits = view.job.fits_in_order().into_iter();
    let fits = fits.filter_map(|(_, state)| torque::fit::open_words(view.job, state));
    let fits: Vec<String> = fits.collect();
    if view.job.joints.is_empty() && view.job.fits.is_empty() {
        open.push("No joint is described.".to_owned());
    }
    for (_, state) in view.job.joints_in_order() {
        let joint = &state.joint.value;
        if let Some(stop) = card(view.job, state).and_then(|card| card.stop) {
            open.push(format!("{}: {stop}", joint.name));
        } else if !state.done() {
            open.push(format!("{}: {}.", joint.name, torque::state_words(state)));
        }
    }
    open.extend(fits);
    if let (Some(plan), Some(assembly)) = (view.job.bench.plan(), assembly) {
        for level in assembly
            .levels
            .iter()
            .filter(|level| !level.blocks.is_empty())
            .take(1)
        {
            open.push(assemble::blocked(plan, level, view.now));
        }
        for step in &plan.steps {
            if let Some(deferral) = view.job.bench.of(&step.key).deferred {
                let Deferral {
                    reason, release, ..
                } = deferral.value;
                open.push(format!(
                    "“{}” is left off: {}. Until: {release}.",
                    step.name,
                    forms::account::said(&reason)
                ));
            }
        }
    }
    for (key, state) in view.job.joints_in_order() {
        let at = torque::seal::open_at(view.job, key, view.now);
        open.extend(torque::seal::named(&state.joint.value, &at));
    }
    open.extend(account::open(view, account));
    open.extend(teardown::open(view.job));
    open.extend(service::open(view.job));
    open.extend(frame::objections(view.objections));
    open
}

/// What was inspected, and what surrounds the gap.
fn inspected(view: &View<'_>) -> Option<Section> {
    let rows: Vec<Vec<String>> = teardown::found::lines(view.job)
        .into_iter()
        .chain(teardown::part_rows(view.job))
        .chain(teardown::gap_rows(view.job))
        .map(|(what, stands, entry)| {
            let entry = find(view.entries, entry);
            let who = entry.map_or_else(
                || "–".to_owned(),
                |entry| format!("{}, {}", by(entry), when(view, entry)),
            );
            vec![what, stands, who]
        })
        .collect();
    (!rows.is_empty()).then(|| {
        Section::Table(Table {
            heading: "Teardown".to_owned(),
            head: ["What", "How it stands", "Who, when"]
                .map(str::to_owned)
                .to_vec(),
            rows,
            caption: "What is told by feel, and what a file may do: common practice, no source."
                .to_owned(),
        })
    })
}

/// The steps of the plan, and every gate that was passed with a reason.
fn work(view: &View<'_>, plan: &Plan, assembly: &Assembly) -> Vec<Section> {
    let rows = plan
        .steps
        .iter()
        .zip(&assembly.steps)
        .map(|(step, standing)| {
            let progress = view.job.bench.of(&step.key);
            let told = progress.done.as_ref().map(|told| &told.entry);
            let told = told.or(progress.begun.as_ref().map(|told| &told.entry));
            let entry = told.and_then(|id| find(view.entries, id));
            vec![
                step.name.clone(),
                assemble::say::state(plan, standing, view.now),
                entry.map_or_else(
                    || "–".to_owned(),
                    |entry| format!("{}, {}", by(entry), when(view, entry)),
                ),
            ]
        });
    let mut sections = vec![Section::Table(Table {
        heading: "Steps".to_owned(),
        head: ["Step", "How it stands", "Who, when"]
            .map(str::to_owned)
            .to_vec(),
        rows: rows.collect(),
        caption: format!("Plan: {}, as it was laid.", plan.name),
    })];
    let passed: Vec<String> = plan
        .steps
        .iter()
        .filter_map(|step| {
            let told = view.job.bench.of(&step.key).overridden?;
            let entry = find(view.entries, &told.entry)?;
            Some(format!(
                "“{}” went ahead before its gate opened: {}. {}, {}.",
                step.name,
                told.value,
                by(entry),
                when(view, entry)
            ))
        })
        .collect();
    if !passed.is_empty() {
        let heading = "Gates passed with a reason".to_owned();
        sections.push(Section::Notes {
            heading,
            notes: passed,
        });
    }
    sections
}

/// The gap: as it was told when it was taken, and as it would be told now.
fn gap(view: &View<'_>) -> Option<Section> {
    let unit = view.job.unit();
    let now = view.judgement.ok()?.shown().map(|shown| told(&shown, unit));
    let now_words = now
        .clone()
        .unwrap_or_else(|| "nothing: no usable reading".to_owned());
    let row = |name: &str, value: String, origin: String| row(name, vec![plain(value)], origin);
    let accepted = view.job.accepted.as_ref();
    let entry = accepted.and_then(|fact| find(view.entries, &fact.entry));
    let rows = match (accepted, entry) {
        (Some(fact), Some(entry)) => {
            let then = told(&fact.value, unit);
            let same = now.as_ref() == Some(&then);
            vec![
                row("Told then", then, entry.new.program.clone()),
                row(
                    "Would be told now",
                    if same {
                        "the same".to_owned()
                    } else {
                        now_words
                    },
                    workshop::PROGRAM.to_owned(),
                ),
                row("Taken", when(view, entry), by(entry)),
            ]
        }
        _ => vec![row(
            "Not taken; now",
            now_words,
            workshop::PROGRAM.to_owned(),
        )],
    };
    Some(Section::Facts {
        heading: "Tip clearance".to_owned(),
        rows,
    })
}

/// Every joint with its figure, its count, and what was told when it was torqued.
fn joints(view: &View<'_>) -> Option<Section> {
    let head = [
        "Joint",
        "Screws and figure",
        "How far",
        "Preload told",
        "Who, when",
    ];
    let rows: Vec<Vec<String>> = view
        .job
        .joints_in_order()
        .into_iter()
        .map(|(_, state)| joint(view, state))
        .collect();
    (!rows.is_empty()).then(|| {
        Section::Table(Table {
            heading: "Joints".to_owned(),
            head: head.map(str::to_owned).to_vec(),
            rows,
            caption:
                "Figures from the craft’s manual as stated; preload in each screw by VDI 2230, \
                      friction as an interval."
                    .to_owned(),
        })
    })
}

fn joint(view: &View<'_>, state: &JointState) -> Vec<String> {
    let joint = &state.joint.value;
    let card = card(view.job, state);
    let figure = match &joint.tightening {
        Tightening::Torque { figure, second, .. } => match second {
            Some(second) => format!("{} ({})", figure.worded(), second.worded()),
            None => figure.worded(),
        },
        Tightening::Turn { turn, .. } => format!("contact, then {}", turn.worded()),
        Tightening::NotStated => match card.as_ref().and_then(|card| card.torque) {
            Some(torque) => format!("{}, assumed, no manual", torque::both(torque).0),
            None => "not stated".to_owned(),
        },
    };
    let wrench = card.as_ref().and_then(|card| card.setting.as_ref());
    let wrench = wrench.map_or_else(String::new, |setting| {
        format!(
            "; “{}” set to {}",
            setting.wrench,
            setting.read(setting.mark)
        )
    });
    let page = match joint.page.as_str() {
        "" => String::new(),
        page => format!(", p. {page}"),
    };
    let fastened = state.fastened.as_ref();
    let then = fastened.and_then(|fact| fact.value.shown);
    let now = card.as_ref().and_then(|card| {
        let preload = card.expected?.preload;
        Some(TorqueShown {
            torque: card.torque,
            preload_low: preload.low,
            preload_high: preload.high,
        })
    });
    let entry = fastened.and_then(|fact| find(view.entries, &fact.entry));
    vec![
        joint.name.clone(),
        format!("{} × {}, {figure}{page}{wrench}", joint.count, joint.thread),
        torque::state_words(state),
        match (then, now) {
            (Some(then), Some(now)) if then == now => format!("{}; now the same", expected(then)),
            (Some(then), Some(now)) => format!("{}; now {}", expected(then), expected(now)),
            (Some(then), None) => format!("{}; now none", expected(then)),
            (None, Some(now)) => format!("not yet; now {}", expected(now)),
            (None, None) => "none".to_owned(),
        },
        entry.map_or_else(
            || "–".to_owned(),
            |entry| format!("{}, {}", by(entry), when(view, entry)),
        ),
    ]
}

/// `7.0 to 12.6 kN`
fn expected(shown: TorqueShown) -> String {
    format!(
        "{} to {}",
        number(shown.preload_low, Unit::Kilonewton, 1),
        format(shown.preload_high, Unit::Kilonewton, 1)
    )
}

/// In the reader's zone, as the times of the steps are, so that two times of one row agree.
fn when(view: &View<'_>, entry: &Entry) -> String {
    let at = entry.new.happened_at.timestamp();
    stamp(&at.to_zoned_datetime(view.now.time_zone().clone()))
}

/// A place to sign on paper.
fn signed() -> Section {
    Section::Table(Table {
        heading: "Signed".to_owned(),
        head: ["", "Name", "Date"].map(str::to_owned).to_vec(),
        rows: ["Done by", "Looked over by"]
            .map(|who| {
                vec![
                    who.to_owned(),
                    "____________________".to_owned(),
                    "__________".to_owned(),
                ]
            })
            .to_vec(),
        caption: String::new(),
    })
}
