//! How long parts last, what an hour costs, and what was fitted, in pictures.

use chart::{
    Ahead, Basin, BasinChart, Foreseen, Found, Happening, HistoryChart, Lasting, LastingChart,
    Look, Piece as Drawn, Scale, When, basin, history, lasting as lasts,
};
use quantity::{Entered, Unit};
use workshop::upkeep::answer::PartSays;
use workshop::upkeep::{End, Mishap, Piece};

use super::{View, say};
use crate::page::Section;

/// Parts a chart of costs holds.
const MOST: usize = 3;
/// Ages are drawn up to so many times where nine in ten of the shortest life are gone.
const FAR: f64 = 4.0;
/// Marks along the hours of the craft.
const MARKS: u32 = 6;

fn hours(seconds: f64) -> f64 {
    Unit::Hour.from_si(seconds)
}

/// How many are left at which age, a row a sort, and where the fitted one stands.
pub(super) fn lasting(view: &View<'_>) -> Option<Section> {
    let season = view.job.upkeep.usage().season;
    let season = season.map(|season| hours(season.value));
    let line = |part: &PartSays| {
        let [most, half, few] = part.lasts.as_ref()?.gone.map(hours);
        let fitted = part.in_use.as_ref();
        Some(Lasting {
            label: part.name.clone(),
            note: String::new(),
            most,
            half,
            few,
            now: fitted.map(|fitted| Ahead {
                age: hours(fitted.age),
                season,
            }),
        })
    };
    let rows: Vec<Lasting> = view.says.parts.iter().filter_map(line).collect();
    let shortest = rows.iter().map(|row| row.few).fold(f64::INFINITY, f64::min);
    let longest = rows.iter().map(|row| row.few).fold(0.0, f64::max);
    let until = (longest > FAR * shortest).then_some(FAR * shortest);
    (!rows.is_empty()).then(|| Section::Picture {
        heading: "How long each lasts".to_owned(),
        svg: lasts(&LastingChart {
            title: "How many are left at which age".to_owned(),
            along: "engine hours since fitted".to_owned(),
            decimals: 0,
            until,
            rows,
        }),
        caption: "In the water it runs in, strikes among it. The fitted one as it is today, and a season \
                  from now where the hours of a season are said."
            .to_owned(),
    })
}

/// What an hour costs by the age of replacement: the sorts of one kind in one picture.
pub(super) fn costing(view: &View<'_>) -> Vec<Section> {
    let mut kinds: Vec<Vec<&PartSays>> = Vec::new();
    for part in view.says.parts.iter().filter(|part| part.costs.is_some()) {
        let like = kinds
            .iter_mut()
            .find(|kind| kind.len() < MOST && part.kind.is_some() && kind[0].kind == part.kind);
        match like {
            Some(kind) => kind.push(part),
            None => kinds.push(vec![part]),
        }
    }
    kinds.iter().filter_map(|kind| cost(view, kind)).collect()
}

fn cost(view: &View<'_>, parts: &[&PartSays]) -> Option<Section> {
    let last = parts.iter().filter_map(|part| part.lasts.as_ref());
    let last: Vec<f64> = last.map(|lasts| lasts.gone[2]).collect();
    let shortest = last.iter().copied().fold(f64::INFINITY, f64::min);
    let longest = last.iter().copied().fold(0.0, f64::max);
    let last = longest.min(FAR * shortest);
    let basins: Vec<Basin> = parts.iter().filter_map(|part| bowl(part, last)).collect();
    let names: Vec<&str> = parts.iter().map(|part| part.name.as_str()).collect();
    let usage = view.job.upkeep.usage();
    let money = match usage.currency.as_str() {
        "" => "cost of an hour".to_owned(),
        currency => format!("cost, {currency} an hour"),
    };
    let own = parts
        .iter()
        .any(|part| part.costs.as_ref().is_some_and(|costs| costs.own_time));
    let own = if own {
        " Your own time at nothing."
    } else {
        ""
    };
    (!basins.is_empty()).then(|| Section::Picture {
        heading: format!("What an hour costs: {}", names.join(", ")),
        svg: basin(&BasinChart {
            title: "What an hour costs, by the age at which it is replaced".to_owned(),
            along: "replaced at, engine hours".to_owned(),
            up: money,
            decimals: 2,
            age_decimals: 0,
            basins,
        }),
        caption: format!(
            "With the 80\u{a0}% band. Over the heavy bar the age matters little, 5\u{a0}% at most: pick \
             the one that suits.{own}"
        ),
    })
}

fn bowl(part: &PartSays, last: f64) -> Option<Basin> {
    let costs = part.costs.as_ref()?;
    let shown = costs.curve.iter().filter(|point| point.age <= last);
    let points = shown.map(|point| {
        let [low, middle, high] = point.rate;
        Foreseen {
            at: hours(point.age),
            low,
            middle,
            high,
        }
    });
    let (from, to) = costs.flat;
    Some(Basin {
        name: part.name.clone(),
        points: points.collect(),
        least: costs.best.map(hours),
        flat: Some((hours(from), to.map(hours))),
    })
}

/// What was fitted to this craft, looked at and taken out, and its strikes, over its hours.
pub(super) fn fitted(view: &View<'_>) -> Option<Section> {
    let now = view.says.hours.as_ref()?.today;
    let upkeep = &view.job.upkeep;
    let own = upkeep.pieces_in_order().into_iter();
    let own = own.filter(|(_, piece)| !piece.elsewhere);
    let pieces: Vec<Drawn> = own
        .map(|(_, piece)| {
            let part = upkeep.parts.get(&piece.part);
            let name = part.map(|state| state.said.value.name.clone());
            drawn(piece, name.unwrap_or_else(|| piece.part.to_string()))
        })
        .collect();
    let strikes = upkeep.mishaps.iter().map(|one| &one.what.value);
    let strikes = strikes.filter(|one| one.what == Mishap::Strike);
    let events = strikes.filter_map(|one| {
        Some(Happening {
            when: at(one.hours.as_ref()?),
            mark: "S".to_owned(),
            words: "a hard strike".to_owned(),
        })
    });
    let along = Scale {
        values: (0.0, hours(now)),
        places: (0.0, 1.0),
    };
    let along = along.nice(MARKS);
    let ticks = along.ticks(MARKS).into_iter();
    (!pieces.is_empty()).then(|| Section::Picture {
        heading: "What was fitted".to_owned(),
        svg: history(&HistoryChart {
            title: "What was fitted, looked at and taken out".to_owned(),
            along: "engine hours".to_owned(),
            // Zero has no sign.
            ticks: ticks
                .map(|tick| (tick, format!("{:.0}", tick + 0.0)))
                .collect(),
            now: When {
                at: hours(now),
                text: say::hours(now),
            },
            pieces,
            events: events.collect(),
        }),
        caption: "Pieces of other craft count for how long a part lasts, and are not drawn."
            .to_owned(),
    })
}

fn at(entered: &Entered) -> When {
    When {
        at: hours(entered.value),
        text: entered.worded(),
    }
}

fn drawn(piece: &Piece, label: String) -> Drawn {
    let good = piece.good.as_ref().map(|good| (good, Found::Good));
    let end = piece.end.as_ref().map(|(end, hours)| {
        let found = match end {
            End::Worn => Found::Worn,
            End::Failed => Found::Failed,
            End::Struck => Found::Struck,
            End::Good => Found::Good,
        };
        (hours, found)
    });
    let look = |(hours, found): (&Entered, Found)| Look {
        when: at(hours),
        found,
    };
    Drawn {
        label,
        note: piece.note.clone(),
        fitted: Some(at(&piece.fitted)),
        looks: good.into_iter().chain(end).map(look).collect(),
        out: piece.end.as_ref().map(|(_, hours)| at(hours)),
    }
}
