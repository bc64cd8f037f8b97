//! What a person at the water wants to know of a pump whose label they scanned.

use jiff::ZonedDateTime;
use jiff::civil::Date;
use workshop::assemble::assess;
use workshop::entry::{Body, Entry, JobId};
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::upkeep::answer::Answer as Says;
use workshop::upkeep::evidence as rests_on;

use super::record::{by, stamp, what};
use super::service::{self, answer::ahead, due, say};
use super::{
    Answer, FactRow, Next, Page, Section, Target, Tone, assemble, frame, label, plain, row,
};
use crate::words;

/// Another job of the same pump.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Other {
    /// Its id.
    pub id: JobId,
    /// Craft and reason, and the day it was last worked on; none for a job that is not on this bench.
    pub here: Option<(String, Date)>,
}

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// The whole journal, for who did what and when.
    pub entries: &'a [Entry],
    /// What falls due.
    pub says: &'a Says,
    /// The earlier jobs of the same pump, the nearest first.
    pub earlier: &'a [Other],
    /// The later ones, the nearest first.
    pub later: &'a [Other],
    /// The time, in the person's zone.
    pub now: &'a ZonedDateTime,
}

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::History(view.id.clone());
    let service = Target::Service(view.id.clone());
    let mut evidence = vec![Section::Facts {
        heading: "This pump".to_owned(),
        rows: rows(view),
    }];
    evidence.extend(others("Later jobs of this pump", view.later));
    evidence.extend(others("Earlier jobs of this pump", view.earlier));
    evidence.push(links(view.id));
    let notes: Vec<String> = frame::objections(view.objections).collect();
    if !notes.is_empty() {
        evidence.push(Section::Notes {
            heading: "What no longer fits".to_owned(),
            notes,
        });
    }
    Page {
        title: "History".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &service),
        here: Some(here),
        clocks: Vec::new(),
        answer: answer(view),
        evidence,
        next: Next::Go {
            words: vec![plain(
                "Something happened on the water? Say it under Service; it says what to look at.",
            )],
            links: vec![(service, "Service".to_owned())],
        },
        cautions: service::CAUTIONS.to_vec(),
    }
}

/// Where the pump stands, in a sentence.
fn answer(view: &View<'_>) -> Answer {
    let (tone, headline, held) = state(view);
    let mut detail = Vec::new();
    if !held.is_empty() {
        detail.push(plain(format!("{held} ")));
    }
    if let Some(later) = view.later.first() {
        let named = later
            .here
            .as_ref()
            .map_or_else(|| later.id.to_string(), |(title, _)| title.clone());
        detail.push(plain(format!(
            "There is a later job of this pump: {named}. "
        )));
    }
    detail.extend(ahead(view.says).map(plain));
    Answer {
        tone,
        headline,
        detail,
        origin: format!(
            "As the journal stands on {}, job {}",
            view.now.date(),
            view.id
        ),
    }
}

/// The state, and what holds it up.
fn state(view: &View<'_>) -> (Tone, String, String) {
    let said = |tone, words: &str, held: String| (tone, words.to_owned(), held);
    if let Some((_, what, on)) = due::called(view.says).next() {
        let day = say::day(on, view.says.today);
        let what = words::upper(say::mishap(what));
        let words = format!("{what} on {day}: look at the pump before it runs.");
        return (Tone::Stop, words, String::new());
    }
    let closed = view.job.upkeep.closed.as_ref();
    if let Some(closed) = closed.filter(|told| told.what.value.evidence == rests_on(view.job)) {
        let day = say::day(closed.on, view.says.today);
        let words = format!("Rebuilt, rechecked and closed on {day}.");
        return (Tone::Good, words, String::new());
    }
    let plan = view.job.bench.plan();
    let Some((plan, assembly)) = plan.zip(assess(view.job, view.now.timestamp())) else {
        let words = "No plan says whether this craft may go on the water.";
        return said(Tone::Open, words, String::new());
    };
    let [float, full, _] = &assembly.levels;
    let held = |level| assemble::blocked(plan, level, view.now);
    match (float.blocks.is_empty(), full.blocks.is_empty()) {
        (true, true) => {
            let words = "It may float and go full throttle; the job is not closed yet.";
            said(Tone::Open, words, String::new())
        }
        (true, false) => said(
            Tone::Open,
            "It may float, and not go full throttle yet.",
            held(full),
        ),
        (false, _) => said(Tone::Stop, "It may not float yet.", held(float)),
    }
}

fn rows(view: &View<'_>) -> Vec<FactRow> {
    let mut rows = Vec::new();
    let said = |name: &str, value: String, origin: String| row(name, vec![plain(value)], origin);
    rows.extend(label::pump(view.job).map(|pump| said("Pump", pump, String::new())));
    let fitted = label::fitted(view.job);
    if !fitted.is_empty() {
        rows.push(said(
            "Fitted",
            words::list(&fitted, 4),
            "pieces in use".to_owned(),
        ));
    }
    rows.push(said(
        "Gap",
        label::gap(view.job),
        "as it was taken".to_owned(),
    ));
    if let Some((entry, what)) = last(view) {
        let at = entry
            .new
            .happened_at
            .timestamp()
            .to_zoned_datetime(view.now.time_zone().clone());
        rows.push(said(
            "Done last",
            words::upper(&what),
            format!("{}, {}", stamp(&at), by(entry)),
        ));
    }
    if let Some(hours) = &view.says.hours {
        let read = format!(
            "{} on {}",
            say::hours(hours.read),
            say::day(hours.on, view.says.today)
        );
        rows.push(said("Hour meter", read, "as read last".to_owned()));
    }
    rows.push(said("Due next", due::in_short(view.says), String::new()));
    rows
}

/// The last thing done that is told in words and not undone.
fn last<'a>(view: &View<'a>) -> Option<(&'a Entry, String)> {
    let undone = |entry: &Entry| {
        let mut entries = view.entries.iter();
        entries.any(
            |other| matches!(&other.new.body, Body::Withdrawn { entry: of } if *of == entry.new.id),
        )
    };
    let done = view.entries.iter().rev();
    let mut done =
        done.filter(|entry| !matches!(entry.new.body, Body::Withdrawn { .. }) && !undone(entry));
    done.find_map(|entry| Some((entry, what(view.job, &entry.new.body, view.entries)?)))
}

fn others(heading: &str, others: &[Other]) -> Vec<Section> {
    let (here, gone): (Vec<&Other>, Vec<&Other>) =
        others.iter().partition(|other| other.here.is_some());
    let link = |other: &&Other| {
        let (title, day) = other.here.clone()?;
        Some((
            Target::History(other.id.clone()),
            title,
            format!("last worked on {day}"),
        ))
    };
    let links: Vec<_> = here.iter().filter_map(link).collect();
    let notes = gone
        .iter()
        .map(|other| format!("Job “{}” is not on this bench.", other.id));
    let notes: Vec<String> = notes.collect();
    let mut sections = Vec::new();
    if !links.is_empty() {
        let heading = heading.to_owned();
        sections.push(Section::Links { heading, links });
    }
    if !notes.is_empty() {
        let heading = if here.is_empty() {
            heading
        } else {
            "Before that"
        };
        sections.push(Section::Notes {
            heading: heading.to_owned(),
            notes,
        });
    }
    sections
}

fn links(id: &JobId) -> Section {
    let link = |target, words: &str, more: &str| (target, words.to_owned(), more.to_owned());
    Section::Ways {
        heading: "All that is known of it".to_owned(),
        links: vec![
            link(
                Target::Sheet(id.clone()),
                "Build sheet",
                "what was done, by whom, with what",
            ),
            link(
                Target::Record(id.clone()),
                "Measuring record",
                "readings and photos",
            ),
            link(Target::Water(id.clone()), "Water test", "how it ran"),
            link(
                Target::Service(id.clone()),
                "Service",
                "what falls due, and what to do after a mishap",
            ),
            link(
                Target::Label(id.clone()),
                "Pump label",
                "to print once more",
            ),
        ],
    }
}
