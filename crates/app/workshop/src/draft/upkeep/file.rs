//! Service in a job file: what it says, and the acts that bring a job to it.

use jiff::civil::Date;
use quantity::{Entered, Unit, number};

use super::super::word;
use super::read::{hours, maybe};
use super::{
    CARRIED, DoneDraft, MISHAPS, MeterDraft, MishapDraft, POINTS, PieceDraft, PointDraft,
    RuleDraft, SortDraft, UpkeepDraft, UsageDraft, WELL,
};
use crate::act::Act;
use crate::entry::{Body, Key};
use crate::job::Job;
use crate::refusal::Refusal;
use crate::upkeep::recheck::Point;
use crate::upkeep::{Carries, Done, Happened, Meter, Piece, Servicing};

/// What was said about service. Each day is written out, so that a file says it whenever it is read.
pub(in super::super) fn drafts(job: &Job) -> UpkeepDraft {
    let upkeep = &job.upkeep;
    let parts = upkeep.parts_in_order();
    let parts = parts.into_iter().map(|(key, part)| {
        let mut draft = SortDraft::of(part);
        // An option that is gone cannot be read.
        let options = &job.choices.options;
        if part
            .option
            .as_ref()
            .is_some_and(|option| !options.contains_key(option))
        {
            draft.option.clear();
        }
        (key.to_string(), draft)
    });
    // A piece of a sort that is gone cannot be read.
    let pieces = upkeep.pieces_in_order().into_iter();
    let pieces = pieces.filter(|(_, piece)| upkeep.parts.contains_key(&piece.part));
    let pieces = pieces.map(|(key, piece)| (key.to_string(), PieceDraft::of(piece)));
    let rules = upkeep.rules.iter();
    let rules = rules.map(|(key, fact)| (key.to_string(), RuleDraft::of(&fact.value)));
    let known = |key: &Key| {
        crate::upkeep::tasks::task(key.as_str()).is_some() || upkeep.rules.contains_key(key)
    };
    let done = upkeep
        .done
        .iter()
        .filter(|done| known(&done.what.value.task));
    UpkeepDraft {
        // Where nothing is said of it there is nothing to bring.
        usage: upkeep
            .usage
            .as_ref()
            .map(|fact| UsageDraft::of(&fact.value))
            .filter(|usage| *usage != UsageDraft::default()),
        parts: parts.collect(),
        pieces: pieces.collect(),
        meter: upkeep
            .meter
            .iter()
            .map(|read| meter(read.on, &read.what.value))
            .collect(),
        mishaps: upkeep
            .mishaps
            .iter()
            .map(|what| mishap(what.on, &what.what.value))
            .collect(),
        rules: rules.collect(),
        done: done
            .map(|done| task_done(done.on, &done.what.value))
            .collect(),
        recheck: upkeep
            .recheck
            .iter()
            .map(|(point, told)| {
                let (well, note) = &told.what.value;
                looked_at(*point, *well, note)
            })
            .collect(),
    }
}

fn meter(on: Date, read: &Meter) -> MeterDraft {
    MeterDraft {
        on: on.to_string(),
        hours: hours(Some(&read.hours)),
    }
}

fn mishap(on: Date, what: &Happened) -> MishapDraft {
    MishapDraft {
        what: word(&MISHAPS, what.what).to_owned(),
        on: on.to_string(),
        hours: hours(what.hours.as_ref()),
        note: what.note.clone(),
    }
}

fn task_done(on: Date, done: &Done) -> DoneDraft {
    DoneDraft {
        task: done.task.to_string(),
        on: on.to_string(),
        hours: hours(done.hours.as_ref()),
        note: done.note.clone(),
    }
}

fn looked_at(point: Point, well: bool, note: &str) -> PointDraft {
    PointDraft {
        point: word(&POINTS, point).to_owned(),
        found: word(&WELL, well).to_owned(),
        note: note.to_owned(),
    }
}

/// The acts that bring `job` to this, where it says otherwise or nothing. What is held against it was read first, so
/// that the same written otherwise is nothing new.
pub(in super::super) fn acts(draft: &UpkeepDraft, job: &Job) -> Result<Vec<Act>, Refusal> {
    let had = drafts(job);
    let mut news = Vec::new();
    if let Some(usage) = &draft.usage {
        let usage = usage.read()?;
        let said = UsageDraft::of(&usage);
        if said != UsageDraft::default() && had.usage != Some(said) {
            news.push(Servicing::Usage(Box::new(usage)));
        }
    }
    for (name, part) in &draft.parts {
        let (key, part) = (Key::new(name)?, part.read()?);
        if fresh(&had.parts, name, &SortDraft::of(&part)) {
            let part = Some(Box::new(part));
            news.push(Servicing::Part { key, part });
        }
    }
    for (name, piece) in &draft.pieces {
        let (key, piece) = (Key::new(name)?, piece.read()?);
        if fresh(&had.pieces, name, &PieceDraft::of(&piece)) {
            let piece = Some(Box::new(piece));
            news.push(Servicing::Piece { key, piece });
        }
    }
    for (name, rule) in &draft.rules {
        let (task, rule) = (Key::new(name)?, rule.read()?);
        if fresh(&had.rules, name, &RuleDraft::of(&rule)) {
            let rule = Some(Box::new(rule));
            news.push(Servicing::Rule { task, rule });
        }
    }
    news.extend(happened(draft, &had)?);
    let tell = |said| Act::Recount(Body::Serviced(said), None);
    Ok(news.into_iter().map(tell).collect())
}

/// Whether one of this name is not there, or otherwise.
fn fresh<T: PartialEq>(had: &[(String, T)], name: &str, draft: &T) -> bool {
    !had.iter().any(|(known, had)| known == name && had == draft)
}

/// What happened and was done that the job does not know of. What says no day is of the day it is told, and is new.
fn happened(draft: &UpkeepDraft, had: &UpkeepDraft) -> Result<Vec<Servicing>, Refusal> {
    let mut news = Vec::new();
    for read in &draft.meter {
        let read = read.read()?;
        if read
            .on
            .is_none_or(|on| !had.meter.contains(&meter(on, &read)))
        {
            news.push(Servicing::Meter(read));
        }
    }
    for what in &draft.mishaps {
        let what = what.read()?;
        if what
            .on
            .is_none_or(|on| !had.mishaps.contains(&mishap(on, &what)))
        {
            news.push(Servicing::Happened(what));
        }
    }
    for done in &draft.done {
        let done = done.read()?;
        if done
            .on
            .is_none_or(|on| !had.done.contains(&task_done(on, &done)))
        {
            news.push(Servicing::Done(done));
        }
    }
    for point in &draft.recheck {
        let (point, well, note) = point.read()?;
        if !had.recheck.contains(&looked_at(point, well, &note)) {
            let well = Some(well);
            news.push(Servicing::Rechecked { point, well, note });
        }
    }
    Ok(news)
}

impl UpkeepDraft {
    /// What holds for any craft with this pump: what parts cost and how long they last, the manual's rules, and what
    /// the pieces that ended here lasted, as records of another craft. Of the use only what these cannot be read
    /// without.
    pub(in super::super) fn card(self, job: &Job) -> Self {
        let parts = self.parts.into_iter().map(|(key, part)| {
            let option = String::new();
            (key, SortDraft { option, ..part })
        });
        let water = job.upkeep.usage().water;
        let ended = |(key, _): &(String, PieceDraft)| {
            let mut pieces = job.upkeep.pieces.iter();
            let (_, state) = pieces.find(|(named, _)| named.as_str() == key)?;
            told_of(&state.said.value, water).map(|piece| (key.clone(), piece))
        };
        let usage = self.usage.map(|usage| UsageDraft {
            currency: usage.currency,
            silt: usage.silt,
            sand: usage.sand,
            ..UsageDraft::default()
        });
        Self {
            usage: usage.filter(|usage| *usage != UsageDraft::default()),
            parts: parts.collect(),
            pieces: self.pieces.iter().filter_map(ended).collect(),
            rules: self.rules,
            ..Self::default()
        }
    }
}

/// A piece that ended, by its own hours and in the water it ran in; none where it ran for no time.
fn told_of(piece: &Piece, water: Option<Carries>) -> Option<PieceDraft> {
    let (_, ended) = piece.end.as_ref()?;
    let water = maybe(&CARRIED, piece.water.or(water));
    let draft = PieceDraft {
        water,
        ..PieceDraft::of(piece)
    };
    if piece.elsewhere {
        return Some(draft);
    }
    let own = |hours: &Entered| {
        let run = number(hours.value - piece.fitted.value, Unit::Hour, 2);
        run.trim_end_matches('0').trim_end_matches('.').to_owned()
    };
    let ended = own(ended);
    (ended != "0").then(|| PieceDraft {
        elsewhere: "yes".to_owned(),
        fitted: "0".to_owned(),
        good: piece.good.as_ref().map_or_else(String::new, own),
        ended,
        ..draft
    })
}
