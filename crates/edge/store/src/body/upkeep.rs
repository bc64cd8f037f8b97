//! What is said about service.

mod parts;

use std::collections::BTreeSet;

use jiff::civil::Date;
use quantity::Entered;
use serde::{Deserialize, Serialize};
use workshop::draft::upkeep::{CARRIED, EDGES, MISHAPS, POINTS, WELL};
use workshop::draft::word;
use workshop::entry::Body;
use workshop::upkeep::{self, Servicing};

use self::parts::{Described, Piece, PieceDescribed, Sort};
use super::typed::Duration;
use super::{Encoded, Fault, key, may, of, read, whole, write};

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Servicing) -> Result<Encoded, Fault> {
    match said {
        Servicing::Usage(usage) => write("usage-stated", &Usage::from(&**usage)),
        Servicing::Part { key, part } => {
            let sort = key.to_string();
            let said = part.as_deref().map(Sort::from);
            write("sort-described", &Described { sort, said })
        }
        Servicing::Piece { key, piece } => {
            let piece_key = key.to_string();
            let said = piece.as_deref().map(Piece::from);
            write(
                "piece-described",
                &PieceDescribed {
                    piece: piece_key,
                    said,
                },
            )
        }
        Servicing::Meter(read) => write("meter-read", &Meter::from(read)),
        Servicing::Happened(what) => write("mishap-told", &Happened::from(what)),
        Servicing::Rule { task, rule } => {
            let task = task.to_string();
            let said = rule.as_deref().map(Rule::from);
            write("rule-stated", &Stated { task, said })
        }
        Servicing::Done(done) => write("task-done", &Done::from(done)),
        Servicing::Rechecked { point, well, note } => {
            let point = Rechecked {
                point: word(&POINTS, *point).to_owned(),
                found: well.map(|well| word(&WELL, well).to_owned()),
                note: note.clone(),
            };
            write("point-rechecked", &point)
        }
        Servicing::Closed(told) => write("job-closed", &Closed::from(&**told)),
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("usage-stated", 1) => of_json::<Usage>(json),
        ("sort-described", 1) => of_json::<Described>(json),
        ("piece-described", 1) => of_json::<PieceDescribed>(json),
        ("meter-read", 1) => of_json::<Meter>(json),
        ("mishap-told", 1) => of_json::<Happened>(json),
        ("rule-stated", 1) => of_json::<Stated>(json),
        ("task-done", 1) => of_json::<Done>(json),
        ("point-rechecked", 1) => of_json::<Rechecked>(json),
        ("job-closed", 1) => of_json::<Closed>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Servicing: TryFrom<T, Error = String>,
{
    let said = read::<T>(json)?;
    whole(Servicing::try_from(said).map(Body::Serviced))
}

fn typed(entered: Option<&Entered>) -> Option<Duration> {
    entered.map(Into::into)
}

fn entered(typed: Option<Duration>) -> Option<Entered> {
    typed.map(Into::into)
}

/// A number without a unit, with the text as typed: a price in the job's currency, a share, a count.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Plain {
    number: f64,
    text: String,
}

fn plain(said: Option<&quantity::Plain>) -> Option<Plain> {
    said.map(|plain| Plain {
        number: plain.value,
        text: plain.text.clone(),
    })
}

fn said(stored: Option<Plain>) -> Option<quantity::Plain> {
    stored.map(|plain| quantity::Plain {
        text: plain.text,
        value: plain.number,
    })
}

fn day(text: Option<String>) -> Result<Option<Date>, String> {
    let read = |text: String| text.parse().map_err(|_| format!("“{text}” is no day"));
    text.map(read).transpose()
}

fn month_day(text: &str) -> Result<upkeep::MonthDay, String> {
    upkeep::MonthDay::parse(text).ok_or_else(|| format!("“{text}” is no month and day"))
}

/// Percents and prices are plain numbers; prices are in the currency.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Usage {
    currency: String,
    water: Option<String>,
    silt: Option<Plain>,
    sand: Option<Plain>,
    week: Option<Duration>,
    season: Option<Duration>,
    open: Option<(String, String)>,
    keep: Option<Duration>,
    wage_per_hour: Option<Plain>,
    failure: Option<Plain>,
    worth_per_hour: Option<Plain>,
    between: Option<Duration>,
    floor_percent: Option<Plain>,
}

impl From<&upkeep::Usage> for Usage {
    fn from(usage: &upkeep::Usage) -> Self {
        Self {
            currency: usage.currency.clone(),
            water: usage.water.map(|water| word(&CARRIED, water).to_owned()),
            silt: plain(usage.silt.as_ref()),
            sand: plain(usage.sand.as_ref()),
            week: typed(usage.week.as_ref()),
            season: typed(usage.season.as_ref()),
            open: usage
                .open
                .map(|(from, until)| (from.to_string(), until.to_string())),
            keep: typed(usage.keep.as_ref()),
            wage_per_hour: plain(usage.wage.as_ref()),
            failure: plain(usage.failure.as_ref()),
            worth_per_hour: plain(usage.worth.as_ref()),
            between: typed(usage.between.as_ref()),
            floor_percent: plain(usage.floor.as_ref()),
        }
    }
}

impl TryFrom<Usage> for Servicing {
    type Error = String;

    fn try_from(stored: Usage) -> Result<Self, String> {
        let open = stored.open.map(|(from, until)| {
            let (from, until) = (month_day(&from)?, month_day(&until)?);
            Ok::<_, String>((from, until))
        });
        Ok(Self::Usage(Box::new(upkeep::Usage {
            currency: stored.currency,
            water: may(&CARRIED, stored.water.as_ref())?,
            silt: said(stored.silt),
            sand: said(stored.sand),
            week: entered(stored.week),
            season: entered(stored.season),
            open: open.transpose()?,
            keep: entered(stored.keep),
            wage: said(stored.wage_per_hour),
            failure: said(stored.failure),
            worth: said(stored.worth_per_hour),
            between: entered(stored.between),
            floor: said(stored.floor_percent),
        })))
    }
}

/// Without a day it is that of the entry.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Meter {
    on: Option<String>,
    hours: Duration,
}

impl From<&upkeep::Meter> for Meter {
    fn from(read: &upkeep::Meter) -> Self {
        Self {
            on: read.on.map(|on| on.to_string()),
            hours: (&read.hours).into(),
        }
    }
}

impl TryFrom<Meter> for Servicing {
    type Error = String;

    fn try_from(stored: Meter) -> Result<Self, String> {
        Ok(Self::Meter(upkeep::Meter {
            on: day(stored.on)?,
            hours: stored.hours.into(),
        }))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Happened {
    what: String,
    on: Option<String>,
    hours: Option<Duration>,
    note: String,
}

impl From<&upkeep::Happened> for Happened {
    fn from(what: &upkeep::Happened) -> Self {
        Self {
            what: word(&MISHAPS, what.what).to_owned(),
            on: what.on.map(|on| on.to_string()),
            hours: typed(what.hours.as_ref()),
            note: what.note.clone(),
        }
    }
}

impl TryFrom<Happened> for Servicing {
    type Error = String;

    fn try_from(stored: Happened) -> Result<Self, String> {
        Ok(Self::Happened(upkeep::Happened {
            what: of(&MISHAPS, &stored.what)?,
            on: day(stored.on)?,
            hours: entered(stored.hours),
            note: stored.note,
        }))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Rule {
    name: String,
    hours: Option<Duration>,
    months: Option<u8>,
    after: Vec<String>,
    edge: Option<String>,
    page: String,
}

impl From<&upkeep::Rule> for Rule {
    fn from(rule: &upkeep::Rule) -> Self {
        let after = rule.after.iter();
        Self {
            name: rule.name.clone(),
            hours: typed(rule.hours.as_ref()),
            months: rule.months,
            after: after.map(|what| word(&MISHAPS, *what).to_owned()).collect(),
            edge: rule.edge.map(|edge| word(&EDGES, edge).to_owned()),
            page: rule.page.clone(),
        }
    }
}

impl TryFrom<Rule> for upkeep::Rule {
    type Error = String;

    fn try_from(stored: Rule) -> Result<Self, String> {
        let after = stored.after.iter().map(|what| of(&MISHAPS, what));
        Ok(Self {
            name: stored.name,
            hours: entered(stored.hours),
            months: stored.months,
            after: after.collect::<Result<BTreeSet<_>, _>>()?,
            edge: may(&EDGES, stored.edge.as_ref())?,
            page: stored.page,
        })
    }
}

/// None goes back to general practice.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Stated {
    task: String,
    said: Option<Rule>,
}

impl TryFrom<Stated> for Servicing {
    type Error = String;

    fn try_from(stored: Stated) -> Result<Self, String> {
        let rule = stored.said.map(upkeep::Rule::try_from).transpose()?;
        Ok(Self::Rule {
            task: key(&stored.task)?,
            rule: rule.map(Box::new),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Done {
    task: String,
    on: Option<String>,
    hours: Option<Duration>,
    note: String,
}

impl From<&upkeep::Done> for Done {
    fn from(done: &upkeep::Done) -> Self {
        Self {
            task: done.task.to_string(),
            on: done.on.map(|on| on.to_string()),
            hours: typed(done.hours.as_ref()),
            note: done.note.clone(),
        }
    }
}

impl TryFrom<Done> for Servicing {
    type Error = String;

    fn try_from(stored: Done) -> Result<Self, String> {
        Ok(Self::Done(upkeep::Done {
            task: key(&stored.task)?,
            on: day(stored.on)?,
            hours: entered(stored.hours),
            note: stored.note,
        }))
    }
}

/// None takes it back.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Rechecked {
    point: String,
    found: Option<String>,
    note: String,
}

impl TryFrom<Rechecked> for Servicing {
    type Error = String;

    fn try_from(stored: Rechecked) -> Result<Self, String> {
        Ok(Self::Rechecked {
            point: of(&POINTS, &stored.point)?,
            well: may(&WELL, stored.found.as_ref())?,
            note: stored.note,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Closed {
    evidence: String,
    words: String,
    program: String,
}

impl From<&upkeep::Told> for Closed {
    fn from(told: &upkeep::Told) -> Self {
        Self {
            evidence: told.evidence.clone(),
            words: told.words.clone(),
            program: told.program.clone(),
        }
    }
}

impl TryFrom<Closed> for Servicing {
    type Error = String;

    fn try_from(stored: Closed) -> Result<Self, String> {
        Ok(Self::Closed(Box::new(upkeep::Told {
            evidence: stored.evidence,
            words: stored.words,
            program: stored.program,
        })))
    }
}
