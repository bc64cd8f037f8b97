//! Service, out of a job file and into one.

mod blame;
mod write;

use std::mem::take;
use std::ops::Range;

use workshop::draft::UpkeepDraft;
use workshop::draft::upkeep::{
    DoneDraft, MeterDraft, MishapDraft, PieceDraft, PointDraft, RuleDraft, SortDraft, UsageDraft,
};

use crate::blame::field_of;
use crate::complaint::{Complaint, Source};
use crate::inspect::Places;
use crate::shape::upkeep::{Due, Piece, Service, Sort};
use crate::shape::{Field, Shape};
use crate::{Fields, JobFile};

/// The places of all that is said about service.
#[derive(Debug, Default)]
pub(crate) struct UpkeepPlaces {
    usage: Places,
    parts: Vec<Places>,
    pieces: Vec<Places>,
    meter: Vec<Places>,
    mishaps: Vec<Places>,
    rules: Vec<Places>,
    done: Vec<Places>,
    recheck: Vec<Places>,
}

/// What is said, with the places of its values, in the order of the file.
pub(crate) fn read(
    source: &Source,
    shape: &mut Shape,
) -> Result<(UpkeepDraft, UpkeepPlaces), Complaint> {
    let (mut draft, mut places) = (UpkeepDraft::default(), UpkeepPlaces::default());
    if let Some(service) = shape.service.take() {
        let mut fields = Fields(vec![("service", service.span())]);
        draft.usage = Some(usage(service.into_inner(), &mut fields));
        places.usage = fields.0;
    }
    for sort in take(&mut shape.sort) {
        let (key, sort, here) = of_sort(sort);
        once(source, &draft.parts, ("sort of part", &key), &here)?;
        draft.parts.push((key, sort));
        places.parts.push(here);
    }
    for piece in take(&mut shape.piece) {
        let (key, piece, here) = of_piece(piece);
        once(source, &draft.pieces, ("piece", &key), &here)?;
        draft.pieces.push((key, piece));
        places.pieces.push(here);
    }
    for due in take(&mut shape.due) {
        let (key, rule, here) = of_due(due);
        once(source, &draft.rules, ("rule for", &key), &here)?;
        draft.rules.push((key, rule));
        places.rules.push(here);
    }
    happened(shape, &mut draft, &mut places);
    let told = [&places.meter, &places.mishaps, &places.done];
    told.into_iter()
        .flatten()
        .try_for_each(|here| dated(source, here))?;
    for point in take(&mut shape.recheck) {
        let mut fields = Fields(Vec::new());
        let point = PointDraft {
            point: fields.take("point", point.point),
            found: fields.take("found", point.found),
            note: fields.given("note", point.note),
        };
        let known = |other: &PointDraft| other.point.trim() == point.point.trim();
        if draft.recheck.iter().any(known) {
            let why = format!(
                "The point “{}” stands above already. Keep one of them.",
                point.point.trim()
            );
            let at = fields.0.first().map_or(0..0, |(_, at)| at.clone());
            return Err(source.complain(at, &why));
        }
        draft.recheck.push(point);
        places.recheck.push(fields.0);
    }
    Ok((draft, places))
}

/// A key stands once; its place is the first of its table.
fn once<T>(
    source: &Source,
    had: &[(String, T)],
    (what, key): (&str, &String),
    here: &Places,
) -> Result<(), Complaint> {
    if had.iter().any(|(known, _)| known == key) {
        let at = here.first().map_or(0..0, |(_, at)| at.clone());
        let why = format!("There is a {what} “{key}” above already. Keep one of them.");
        return Err(source.complain(at, &why));
    }
    Ok(())
}

/// A day left empty would be that of the reading.
fn dated(source: &Source, here: &Places) -> Result<(), Complaint> {
    let empty = |at: &Range<usize>| {
        let typed = source.text[at.clone()].trim_matches(['"', '\'']);
        typed.trim().is_empty()
    };
    match here.iter().find(|(field, at)| *field == "on" && empty(at)) {
        Some((_, at)) => Err(source.complain(at.clone(), "This is empty and must be filled in.")),
        None => Ok(()),
    }
}

/// What was read, what happened and what was done, each a row of its own.
fn happened(shape: &mut Shape, draft: &mut UpkeepDraft, places: &mut UpkeepPlaces) {
    for read in take(&mut shape.meter) {
        let mut fields = Fields(Vec::new());
        draft.meter.push(MeterDraft {
            on: fields.take("on", read.on),
            hours: fields.take("hours", read.hours),
        });
        places.meter.push(fields.0);
    }
    for what in take(&mut shape.mishap) {
        let mut fields = Fields(Vec::new());
        draft.mishaps.push(MishapDraft {
            what: fields.take("what", what.what),
            on: fields.take("on", what.on),
            hours: fields.given("hours", what.hours),
            note: fields.given("note", what.note),
        });
        places.mishaps.push(fields.0);
    }
    for done in take(&mut shape.done) {
        let mut fields = Fields(Vec::new());
        draft.done.push(DoneDraft {
            task: fields.take("task", done.task),
            on: fields.take("on", done.on),
            hours: fields.given("hours", done.hours),
            note: fields.given("note", done.note),
        });
        places.done.push(fields.0);
    }
}

fn usage(service: Service, fields: &mut Fields) -> UsageDraft {
    let mut given = |name, field: Option<Field>| fields.given(name, field);
    UsageDraft {
        currency: given("currency", service.currency),
        water: given("water", service.water),
        silt: given("silt", service.silt),
        sand: given("sand", service.sand),
        week: given("week", service.week),
        season: given("season", service.season),
        from: given("from", service.from),
        until: given("until", service.until),
        keep: given("keep", service.keep),
        wage: given("wage", service.wage),
        failure: given("failure", service.failure),
        worth: given("worth", service.worth),
        between: given("between", service.between),
        floor: given("floor", service.floor),
    }
}

fn of_sort(sort: Sort) -> (String, SortDraft, Places) {
    let mut fields = Fields(Vec::new());
    let key = fields.take("key", sort.key);
    let name = fields.take("name", sort.name);
    let mut given = |name, field: Option<Field>| fields.given(name, field);
    let draft = SortDraft {
        name,
        kind: given("kind", sort.kind),
        option: given("option", sort.option),
        price: given("price", sort.price),
        supplies: given("supplies", sort.supplies),
        labour: given("labour", sort.labour),
        tenth: given("tenth", sort.tenth),
        half: given("half", sort.half),
        trust: given("trust", sort.trust),
        ruin: given("ruin", sort.ruin),
        lost: given("lost", sort.lost),
        lost_at: given("lost_at", sort.lost_at),
        note: given("note", sort.note),
    };
    (key, draft, fields.0)
}

fn of_piece(piece: Piece) -> (String, PieceDraft, Places) {
    let mut fields = Fields(Vec::new());
    let key = fields.take("key", piece.key);
    let draft = PieceDraft {
        part: fields.take("part", piece.sort),
        elsewhere: fields.given("elsewhere", piece.elsewhere),
        water: fields.given("water", piece.water),
        fitted: fields.take("fitted", piece.fitted),
        good: fields.given("good", piece.good),
        end: fields.given("end", piece.end),
        ended: fields.given("ended", piece.ended),
        note: fields.given("note", piece.note),
    };
    (key, draft, fields.0)
}

fn of_due(due: Due) -> (String, RuleDraft, Places) {
    let mut fields = Fields(Vec::new());
    let task = fields.take("task", due.task);
    let mut after = Vec::new();
    for word in due.after {
        after.push(fields.take("after", word));
    }
    let mut given = |name, field: Option<Field>| fields.given(name, field);
    let draft = RuleDraft {
        name: given("name", due.name),
        hours: given("hours", due.hours),
        months: given("months", due.months),
        after,
        edge: given("edge", due.edge),
        page: given("page", due.page),
    };
    (task, draft, fields.0)
}

impl JobFile {
    /// Where the first thing of one craft stands, and what it is. A card has what parts cost and how long they last:
    /// what is needed to read that, and pieces that ended, as of another craft.
    pub(crate) fn of_one_craft(&self) -> Option<(Range<usize>, &'static str)> {
        let (draft, places) = (&self.draft.upkeep, &self.upkeep);
        let along = ["service", "currency", "silt", "sand"];
        let mut usage = places.usage.iter();
        if let Some((_, at)) = usage.find(|(field, _)| !along.contains(field)) {
            return Some((at.clone(), "hours and waters of a craft’s use"));
        }
        let mut pieces = draft.pieces.iter().zip(&places.pieces);
        let here =
            |piece: &PieceDraft| piece.elsewhere.trim() != "yes" || piece.end.trim().is_empty();
        if let Some((_, of)) = pieces.find(|((_, piece), _)| here(piece)) {
            return Some((field_of(of, None)?, "pieces but those that ended elsewhere"));
        }
        let tables = [
            &places.meter,
            &places.mishaps,
            &places.done,
            &places.recheck,
        ];
        let all = tables.into_iter().flatten().flatten();
        let first = all.map(|(_, at)| at.clone()).min_by_key(|at| at.start);
        first.map(|at| (at, "hours, mishaps and work done"))
    }
}
