//! The measuring record: what was measured, by whom, with what, and what was concluded.

mod choose;
mod diagnose;
mod upkeep;
mod water;

use clearance::{Estimate, Verdict};
use jiff::ZonedDateTime;
use quantity::Unit;
use workshop::assemble::words::span;
use workshop::entry::{Body, Entry, EntryId};
use workshop::gap::{Judgement, Shown};
use workshop::job::{Job, Pump};
use workshop::photos::Photography;
use workshop::plan::{Account, Status, Work, seconds};
use workshop::reading::{write, write_spot};
use workshop::refusal::Need;
use workshop::tools::{Role, Tooling};

use super::measure::{self, CAUTION, View};
use super::{Next, Page, Section, Table, Target, frame, photos, plain, row, teardown};
use crate::words;

/// The page. `entries` is the whole journal, for who did what and when.
pub fn page(view: &View<'_>, entries: &[Entry]) -> Page {
    let mut evidence = Vec::new();
    let mut answer = measure::begin(Need::Pump);
    // A long table: photos stand before it, where they are found.
    let mut leaves = None;
    if let (Ok(judgement), Some(pump)) = (view.judgement, view.job.pump.as_ref()) {
        let (said, shown) = measure::printed(&View { at: None, ..*view }, judgement);
        answer = said;
        evidence.extend(shown);
        evidence.extend(taken(view, judgement, entries));
        leaves = Some(tried(view, &pump.value));
    }
    evidence.push(photos::of_job((view.id, view.job), view.refused));
    evidence.extend(leaves);
    evidence.push(journal(view, entries));
    Page {
        title: "Measuring record".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        here: Some(Target::Record(view.id.clone())),
        clocks: Vec::new(),
        stages: frame::stages(view.id, view.job, &Target::Record(view.id.clone())),
        answer,
        evidence,
        next: Next::Print {
            words: Vec::new(),
            links: vec![(
                Target::Measure(view.id.clone()),
                "Back to Measure".to_owned(),
            )],
        },
        cautions: vec![CAUTION],
    }
}

/// What was taken as the result, as it was told then, and whether it would be told so now.
fn taken(view: &View<'_>, judgement: &Judgement, entries: &[Entry]) -> Option<Section> {
    let accepted = view.job.accepted.as_ref()?;
    let entry = find(entries, &accepted.entry)?;
    let unit = view.job.unit();
    let told = told(&accepted.value, unit);
    let now = judgement.shown().map(|shown| self::told(&shown, unit));
    let now = match now {
        Some(now) if now == told => "the same".to_owned(),
        Some(now) => now,
        None => "nothing: there is no usable reading".to_owned(),
    };
    let row = |name: &str, value: String, origin: &str| row(name, vec![plain(value)], origin);
    Some(Section::Facts {
        heading: "Result taken".to_owned(),
        rows: vec![
            row("Told then", told, &entry.new.program),
            row("Would be told now", now, workshop::PROGRAM),
            row("Taken", when(entry), &by(entry)),
        ],
    })
}

pub(crate) fn told(shown: &Shown, unit: Unit) -> String {
    let verdict = verdict(shown.verdict);
    let within = shown.within.map_or_else(
        || "no limit stated".to_owned(),
        |within| format!("{} within limits", words::percent(within)),
    );
    let figure = |name: &str, e: &Estimate| {
        format!(
            "{name} {} ({})",
            words::length(e.median, unit),
            words::interval(e.low, e.high, unit)
        )
    };
    format!(
        "{verdict}, {within}; {}, {}, {}",
        figure("least", &shown.least),
        figure("mean", &shown.mean),
        figure("greatest", &shown.greatest)
    )
}

fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::In => "in tolerance",
        Verdict::Out => "out of tolerance",
        Verdict::Undecided => "not decided",
    }
}

/// `undone: entry 14, reading at A 12`; an undoing undone is a restoring.
fn undone(job: &Job, id: &EntryId, entries: &[Entry]) -> String {
    let Some(at) = entries.iter().position(|entry| entry.new.id == *id) else {
        return format!("undone: {id}, which is not here");
    };
    let entry = &entries[at];
    let what = match &entry.new.body {
        // Only earlier entries: one that names itself would never end.
        Body::Withdrawn { entry } => {
            return undone(job, entry, &entries[..at]).replacen("undone", "restored", 1);
        }
        body => line(job, body, entries),
    };
    format!("undone: entry {}, {what}", entry.position)
}

/// What an entry says, in a line of the journal, a reading too.
pub(crate) fn line(job: &Job, body: &Body, entries: &[Entry]) -> String {
    match body {
        Body::LeavesTried { spot, .. } => {
            let positions = job.pump.as_ref().map_or(1, |pump| pump.value.positions);
            format!("reading at {}", write_spot(*spot, positions))
        }
        body => what(job, body, entries).unwrap_or_default(),
    }
}

/// Every leaf tried that counts, spot by spot.
fn tried(view: &View<'_>, pump: &Pump) -> Section {
    let unit = view.job.unit();
    let rows = view.job.tries.iter().map(|(spot, tries)| {
        let tries: Vec<_> = tries.iter().map(|tried| tried.value.clone()).collect();
        vec![write_spot(*spot, pump.positions), write(&tries, unit)]
    });
    Section::Table(Table {
        heading: "Every leaf tried".to_owned(),
        head: vec!["Spot".to_owned(), "Leaves, in the order tried".to_owned()],
        rows: rows.collect(),
        caption: format!(
            "A bare number is in {}. What was withdrawn is left out.",
            unit.symbol()
        ),
    })
}

/// Who described and decided what, and when; readings are counted, not listed again.
fn journal(view: &View<'_>, entries: &[Entry]) -> Section {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut readings = 0_usize;
    for entry in entries {
        let Some(what) = what(view.job, &entry.new.body, entries) else {
            readings += 1;
            continue;
        };
        rows.push(vec![
            entry.position.to_string(),
            what,
            when(entry),
            by(entry),
        ]);
    }
    let head = ["Entry", "What", "When", "Who"].map(str::to_owned).to_vec();
    Section::Table(Table {
        heading: "Journal".to_owned(),
        head,
        rows,
        caption: format!(
            "{} in all, {readings} of them readings. Job {}, written by {}.",
            words::count(entries.len(), "entry", "entries"),
            view.id,
            workshop::PROGRAM
        ),
    })
}

pub(crate) fn what(job: &Job, body: &Body, entries: &[Entry]) -> Option<String> {
    Some(match body {
        Body::JobOpened { .. } => "job opened".to_owned(),
        Body::PumpDescribed(_) => "pump described".to_owned(),
        Body::LeavesDescribed(_) => "leaves described".to_owned(),
        Body::LimitsStated(_) => "manual’s limits stated".to_owned(),
        Body::WalkChosen(_) => "order of trying chosen".to_owned(),
        Body::LeavesTried { .. } => return None,
        Body::GapAccepted(shown) => format!("result taken: {}", verdict(shown.verdict)),
        Body::JointDescribed { joint, .. } => format!("joint described: {}", joint.name),
        Body::JointFastened { key, fastened } => format!(
            "{key}: {} in, {} torqued, {} marked{}{}",
            fastened.in_place,
            fastened.torqued,
            fastened.marked,
            if fastened.temporary {
                ", stand-ins"
            } else {
                ""
            },
            (fastened.pass).map_or_else(String::new, |pass| format!(
                ", {} through pass {}",
                pass.screws, pass.number
            ))
        ),
        Body::FitDescribed { fit, .. } => format!("joint described: {}", fit.name),
        Body::FitChecked { key, checked } => format!(
            "{key}: {}",
            words::count(checked.ticks.len(), "tick", "ticks")
        ),
        Body::Work(work) => of_work(work),
        Body::Inspected(said) => teardown::journal(said),
        Body::Tooled(said) => of_tools(said),
        Body::Photographed(said) => of_photo(said),
        Body::Trialled(said) => water::of_water(said, entries),
        Body::Chose(said) => choose::of_choosing(said),
        Body::Diagnosed(said) => diagnose::of_diagnosing(said, entries),
        Body::Serviced(said) => upkeep::of_servicing(said),
        Body::Withdrawn { entry } => undone(job, entry, entries),
        Body::Unknown { kind, .. } => format!("newer entry: {kind}"),
    })
}

fn of_work(work: &Work) -> String {
    match work {
        Work::PlanLaid(plan) => format!("plan laid: {}", plan.name),
        Work::StepBegun { step } => format!("{step}: begun"),
        Work::StepDone { step, witnessed } if *witnessed => format!("{step}: done"),
        Work::StepDone { step, .. } => format!("{step}: done before, not witnessed"),
        Work::StepDeferred {
            step,
            reason,
            release,
            ..
        } => format!("{step}: left off, {}, until {release}", reason.said()),
        Work::ItemTold { item, account } => format!("{item}: {}", told_of(account)),
        Work::ToolsCounted(counted) => {
            let counted = counted.iter();
            let counted = counted.map(|(tool, account)| format!("{tool} {}", told_of(account)));
            format!("tools back: {}", counted.collect::<Vec<_>>().join("; "))
        }
        Work::StepAgain { step, reason } => format!("{step}: to be done again, {reason}"),
        Work::StepEstimated { step, takes, .. } => {
            format!("{step}: will take {}", span(seconds(takes)))
        }
        Work::CrewStated(crew) => crate::page::assemble::say::crew(crew),
        Work::FastenersIn {
            step,
            count,
            temporary,
        } => format!("{step}: {count} fasteners in, {temporary} of them standing in"),
        Work::PartStated { part, stated } => match stated.status {
            Status::AtHand => format!("{part}: at hand"),
            Status::OnOrder => format!("{part}: on order"),
            Status::Missing => format!("{part}: missing"),
        },
        Work::GateOverridden { step, reason } => {
            format!("{step}: goes ahead before its gate opens, {reason}")
        }
    }
}

fn of_photo(said: &Photography) -> String {
    let words = |words: &str| match words {
        "" => String::new(),
        words => format!(", {words}"),
    };
    match said {
        Photography::Taken { photo, said } => {
            format!(
                "photo {}: {}{}",
                photo.short(),
                said.subject,
                words(&said.words)
            )
        }
        Photography::Captioned {
            photo,
            subject,
            words: new,
        } => format!("photo {} said anew: {subject}{}", photo.short(), words(new)),
        Photography::PutAway { photo } => format!("photo {} taken away", photo.short()),
    }
}

/// `2, the rest left out: part on order`.
fn told_of(account: &Account) -> String {
    match &account.missing {
        Some(excuse) => format!("{}, the rest left out: {}", account.count, excuse.said()),
        None => account.count.to_string(),
    }
}

fn of_tools(said: &Tooling) -> String {
    match said {
        Tooling::WrenchDescribed { wrench, .. } => {
            format!("torque wrench described: {}", wrench.name)
        }
        Tooling::ToolChosen { joint, tool } => format!("{joint}: wrench chosen, {}", tool.wrench),
        Tooling::HoleMeasured { joint, hole } => format!(
            "{joint}: hole measured, screw {} into {} of thread",
            hole.reach.worded(),
            hole.threaded.worded()
        ),
        Tooling::RoleSaid { joint, role } => match role {
            Role::Ordinary => format!("{joint}: an ordinary joint"),
            Role::Impeller => format!("{joint}: holds the impeller"),
            Role::Stator => format!("{joint}: holds the stator"),
        },
    }
}

/// The person's own time, to the minute, with its offset.
pub(crate) fn when(entry: &Entry) -> String {
    stamp(&entry.new.happened_at)
}

/// `2026-05-09 09:45 +02:00`
pub(crate) fn stamp(at: &ZonedDateTime) -> String {
    at.strftime("%Y-%m-%d %H:%M %:z").to_string()
}

/// The entry of this id.
pub(crate) fn find<'a>(entries: &'a [Entry], id: &EntryId) -> Option<&'a Entry> {
    entries.iter().find(|entry| entry.new.id == *id)
}

pub(crate) fn by(entry: &Entry) -> String {
    match (entry.new.who.as_str(), entry.new.device.as_str()) {
        ("", "") => "nobody said".to_owned(),
        ("", device) => device.to_owned(),
        (who, "") => who.to_owned(),
        (who, device) => format!("{who}, {device}"),
    }
}
