//! What was typed about service, read.

use std::collections::BTreeSet;

use quantity::{Entered, Plain, Unit, plain};

use super::super::water::may;
use super::super::{Choice, choose, day, length, optional, typed, word};
use super::{
    CARRIED, DoneDraft, EDGES, ELSEWHERE, ENDINGS, MISHAPS, MeterDraft, MishapDraft, POINTS,
    PieceDraft, PointDraft, RuleDraft, SORTS, SortDraft, TRUSTS, UsageDraft, WELL,
};
use crate::entry::Key;
use crate::refusal::{Miscount, Refusal};
use crate::upkeep::recheck::Point;
use crate::upkeep::{Done, Happened, Meter, MonthDay, Part, Piece, Rule, Usage};

pub(super) fn hours(entered: Option<&Entered>) -> String {
    entered.map_or_else(String::new, |entered| typed(entered, Unit::Hour))
}

fn figure(plain: Option<&Plain>) -> String {
    plain.map_or_else(String::new, |plain| plain.text.trim().to_owned())
}

pub(super) fn maybe<T: PartialEq + Copy>(choices: &[Choice<T>], value: Option<T>) -> String {
    value.map_or("", |value| word(choices, value)).to_owned()
}

fn some_hours(field: &'static str, text: &str) -> Result<Option<Entered>, Refusal> {
    optional(field, text, Unit::Hour)
}

fn some_figure(field: &'static str, text: &str) -> Result<Option<Plain>, Refusal> {
    match text.trim() {
        "" => Ok(None),
        text => plain(text)
            .map(Some)
            .map_err(|error| Refusal::Unreadable { field, error }),
    }
}

fn some_key(text: &str) -> Result<Option<Key>, Refusal> {
    match text.trim() {
        "" => Ok(None),
        text => Key::new(text).map(Some),
    }
}

fn month_day(field: &'static str, text: &str) -> Result<Option<MonthDay>, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        return Ok(None);
    }
    match MonthDay::parse(text) {
        Some(day) => Ok(Some(day)),
        None => Err(Refusal::Upkeep(Miscount::NoMonthDay {
            field,
            text: text.to_owned(),
        })),
    }
}

impl UsageDraft {
    /// The draft that reads as `usage`.
    pub fn of(usage: &Usage) -> Self {
        let edge = |at: fn((MonthDay, MonthDay)) -> MonthDay| {
            usage
                .open
                .map(at)
                .map_or_else(String::new, |day| day.to_string())
        };
        Self {
            currency: usage.currency.clone(),
            water: maybe(&CARRIED, usage.water),
            silt: figure(usage.silt.as_ref()),
            sand: figure(usage.sand.as_ref()),
            week: hours(usage.week.as_ref()),
            season: hours(usage.season.as_ref()),
            from: edge(|(from, _)| from),
            until: edge(|(_, until)| until),
            keep: hours(usage.keep.as_ref()),
            wage: figure(usage.wage.as_ref()),
            failure: figure(usage.failure.as_ref()),
            worth: figure(usage.worth.as_ref()),
            between: hours(usage.between.as_ref()),
            floor: figure(usage.floor.as_ref()),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Usage, Refusal> {
        let open = match (
            month_day("from", &self.from)?,
            month_day("until", &self.until)?,
        ) {
            (Some(from), Some(until)) => Some((from, until)),
            (None, None) => None,
            (from, _) => {
                return Err(Refusal::Upkeep(Miscount::Half {
                    field: if from.is_some() { "until" } else { "from" },
                    beside: "An edge of the season",
                }));
            }
        };
        Ok(Usage {
            currency: self.currency.trim().to_owned(),
            water: may("water", &self.water, &CARRIED)?,
            silt: some_figure("silt", &self.silt)?,
            sand: some_figure("sand", &self.sand)?,
            week: some_hours("week", &self.week)?,
            season: some_hours("season", &self.season)?,
            open,
            keep: some_hours("keep", &self.keep)?,
            wage: some_figure("wage", &self.wage)?,
            failure: some_figure("failure", &self.failure)?,
            worth: some_figure("worth", &self.worth)?,
            between: some_hours("between", &self.between)?,
            floor: some_figure("floor", &self.floor)?,
        })
    }
}

impl SortDraft {
    /// The draft that reads as `part`.
    pub fn of(part: &Part) -> Self {
        Self {
            name: part.name.clone(),
            kind: maybe(&SORTS, part.kind),
            option: part
                .option
                .as_ref()
                .map_or_else(String::new, Key::to_string),
            price: figure(part.price.as_ref()),
            supplies: figure(part.supplies.as_ref()),
            labour: hours(part.labour.as_ref()),
            tenth: hours(part.tenth.as_ref()),
            half: hours(part.half.as_ref()),
            trust: maybe(&TRUSTS, part.trust),
            ruin: figure(part.ruin.as_ref()),
            lost: figure(part.lost.as_ref()),
            lost_at: hours(part.lost_at.as_ref()),
            note: part.note.clone(),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Part, Refusal> {
        Ok(Part {
            name: self.name.trim().to_owned(),
            kind: may("kind", &self.kind, &SORTS)?,
            option: some_key(&self.option)?,
            price: some_figure("price", &self.price)?,
            supplies: some_figure("supplies", &self.supplies)?,
            labour: some_hours("labour", &self.labour)?,
            tenth: some_hours("tenth", &self.tenth)?,
            half: some_hours("half", &self.half)?,
            trust: may("trust", &self.trust, &TRUSTS)?,
            ruin: some_figure("ruin", &self.ruin)?,
            lost: some_figure("lost", &self.lost)?,
            lost_at: some_hours("lost_at", &self.lost_at)?,
            note: self.note.trim().to_owned(),
        })
    }
}

impl PieceDraft {
    /// The draft that reads as `piece`.
    pub fn of(piece: &Piece) -> Self {
        Self {
            part: piece.part.to_string(),
            elsewhere: if piece.elsewhere { "yes" } else { "" }.to_owned(),
            water: maybe(&CARRIED, piece.water),
            fitted: hours(Some(&piece.fitted)),
            good: hours(piece.good.as_ref()),
            end: maybe(&ENDINGS, piece.end.as_ref().map(|(end, _)| *end)),
            ended: hours(piece.end.as_ref().map(|(_, hours)| hours)),
            note: piece.note.clone(),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Piece, Refusal> {
        let part = some_key(&self.part)?.ok_or(Refusal::Empty { field: "part" })?;
        let end = may("end", &self.end, &ENDINGS)?;
        let ended = some_hours("ended", &self.ended)?;
        let end = match (end, ended) {
            (Some(end), Some(ended)) => Some((end, ended)),
            (None, None) => None,
            (end, _) => {
                return Err(Refusal::Upkeep(Miscount::Half {
                    field: if end.is_some() { "ended" } else { "end" },
                    beside: "The end of a piece, or its hours,",
                }));
            }
        };
        Ok(Piece {
            part,
            elsewhere: may("elsewhere", &self.elsewhere, &ELSEWHERE)?.unwrap_or(false),
            water: may("water", &self.water, &CARRIED)?,
            fitted: length("fitted", &self.fitted, Unit::Hour)?,
            good: some_hours("good", &self.good)?,
            end,
            note: self.note.trim().to_owned(),
        })
    }
}

impl MeterDraft {
    /// Reads it.
    pub fn read(&self) -> Result<Meter, Refusal> {
        Ok(Meter {
            on: day(&self.on)?,
            hours: length("hours", &self.hours, Unit::Hour)?,
        })
    }
}

impl MishapDraft {
    /// Reads it.
    pub fn read(&self) -> Result<Happened, Refusal> {
        Ok(Happened {
            what: choose("what", &self.what, &MISHAPS)?,
            on: day(&self.on)?,
            hours: some_hours("hours", &self.hours)?,
            note: self.note.trim().to_owned(),
        })
    }
}

impl RuleDraft {
    /// The draft that reads as `rule`.
    pub fn of(rule: &Rule) -> Self {
        let after = rule
            .after
            .iter()
            .map(|what| word(&MISHAPS, *what).to_owned());
        Self {
            name: rule.name.clone(),
            hours: hours(rule.hours.as_ref()),
            months: rule.months.map_or_else(String::new, |n| n.to_string()),
            after: after.collect(),
            edge: maybe(&EDGES, rule.edge),
            page: rule.page.clone(),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Rule, Refusal> {
        let months = match self.months.trim() {
            "" => None,
            text => Some(super::super::count(
                "months",
                text,
                "a number of months from 1 to 120",
            )?),
        };
        let after = self
            .after
            .iter()
            .map(|text| choose("after", text, &MISHAPS));
        Ok(Rule {
            name: self.name.trim().to_owned(),
            hours: some_hours("hours", &self.hours)?,
            months,
            after: after.collect::<Result<BTreeSet<_>, _>>()?,
            edge: may("edge", &self.edge, &EDGES)?,
            page: self.page.trim().to_owned(),
        })
    }
}

impl DoneDraft {
    /// Reads it.
    pub fn read(&self) -> Result<Done, Refusal> {
        Ok(Done {
            task: some_key(&self.task)?.ok_or(Refusal::Empty { field: "task" })?,
            on: day(&self.on)?,
            hours: some_hours("hours", &self.hours)?,
            note: self.note.trim().to_owned(),
        })
    }
}

impl PointDraft {
    /// Reads it.
    pub fn read(&self) -> Result<(Point, bool, String), Refusal> {
        Ok((
            choose("point", &self.point, &POINTS)?,
            choose("found", &self.found, &WELL)?,
            self.note.trim().to_owned(),
        ))
    }
}
