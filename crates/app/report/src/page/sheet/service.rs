//! Service on the build sheet: the recheck, what was told when the job was closed, what falls due next.

use workshop::job::Job;
use workshop::upkeep::answer::answer;
use workshop::upkeep::evidence;
use workshop::upkeep::recheck::Point;

use super::{View, by, find, when};
use crate::page::service::{answer as told, say};
use crate::page::{FactRow, Section, plain, row};
use crate::words::{count, list, manual};

/// Nothing while nothing was told.
pub(super) fn service(view: &View<'_>) -> Option<Section> {
    if view.job.upkeep.is_empty() {
        return None;
    }
    let rows: Vec<FactRow> = closed(view)
        .into_iter()
        .chain(rechecked(view))
        .chain(next(view))
        .chain(rules(view))
        .chain(mishaps(view))
        .collect();
    (!rows.is_empty()).then(|| Section::Facts {
        heading: "Service".to_owned(),
        rows,
    })
}

/// What keeps a recheck that was begun open.
pub(super) fn open(job: &Job) -> Vec<String> {
    let seen = &job.upkeep.recheck;
    let amiss = seen.iter().filter(|(_, told)| !told.what.value.0);
    let mut open: Vec<String> = amiss
        .map(|(point, _)| format!("Recheck: amiss at {}.", point.name()))
        .collect();
    let left = Point::ALL.len() - seen.len();
    if !seen.is_empty() && left > 0 {
        let points = count(left, "point", "points");
        open.push(format!("Recheck: {points} not looked at yet."));
    }
    open
}

fn closed(view: &View<'_>) -> Vec<FactRow> {
    let Some(closed) = &view.job.upkeep.closed else {
        return Vec::new();
    };
    let told = &closed.what.value;
    let grounds = if told.evidence == evidence(view.job) {
        "the same"
    } else {
        "other ones: look at Service again"
    };
    let mut rows = vec![
        row(
            "Closed",
            vec![plain(told.words.clone())],
            told.program.clone(),
        ),
        row("Grounds now", vec![plain(grounds)], ""),
    ];
    if let Some(entry) = find(view.entries, &closed.what.entry) {
        rows.push(row("Closed on", vec![plain(when(view, entry))], by(entry)));
    }
    rows
}

fn rechecked<'a>(view: &View<'a>) -> impl Iterator<Item = FactRow> + use<'a> {
    let entries = view.entries;
    let seen = &view.job.upkeep.recheck;
    let none = seen.is_empty().then(|| {
        row(
            "Recheck after the first hour",
            vec![plain("not done yet")],
            "",
        )
    });
    let left = Point::ALL
        .into_iter()
        .filter(|point| !seen.contains_key(point));
    let left: Vec<String> = left.map(|point| point.name().to_owned()).collect();
    let left = (!seen.is_empty() && !left.is_empty()).then(|| {
        let all = list(&left, Point::ALL.len());
        row("Recheck: not looked at yet", vec![plain(all)], "")
    });
    let points = Point::ALL.into_iter().filter_map(move |point| {
        let told = seen.get(&point)?;
        let (well, note) = &told.what.value;
        let what = if *well { "as it should be" } else { "amiss" };
        let note = match note.as_str() {
            "" => String::new(),
            note => format!(": {note}"),
        };
        let who = find(entries, &told.what.entry).map_or_else(String::new, by);
        Some(row(name(point), vec![plain(format!("{what}{note}"))], who))
    });
    none.into_iter().chain(points).chain(left)
}

fn name(point: Point) -> String {
    format!("Recheck: {}", point.name())
}

/// What comes next, as it is today.
fn next(view: &View<'_>) -> Option<FactRow> {
    let says = answer(view.job, view.now.date());
    let next = told::ahead(&says)?;
    Some(row("What comes next", vec![plain(next)], "as of today"))
}

/// When tasks fall due other than general practice has it.
fn rules<'a>(view: &View<'a>) -> impl Iterator<Item = FactRow> + use<'a> {
    let job = view.job;
    job.upkeep.rules.iter().map(move |(key, fact)| {
        row(
            say::named(job, key),
            vec![plain(say::rule(&fact.value))],
            manual(&fact.value.page),
        )
    })
}

fn mishaps<'a>(view: &View<'a>) -> impl Iterator<Item = FactRow> + use<'a> {
    let (entries, today) = (view.entries, view.now.date());
    view.job.upkeep.mishaps.iter().map(move |one| {
        let said = &one.what.value;
        let note = match said.note.as_str() {
            "" => String::new(),
            note => format!(": {note}"),
        };
        row(
            "Mishap",
            vec![plain(format!(
                "{}, {}{note}",
                say::mishap(said.what),
                say::day(one.on, today)
            ))],
            find(entries, &one.what.entry).map_or_else(String::new, by),
        )
    })
}
