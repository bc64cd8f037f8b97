//! What falls due, and when, in words.

use jiff::civil::Date;
use workshop::entry::Key;
use workshop::upkeep::Mishap;
use workshop::upkeep::answer::{Answer as Says, By, Due, Says as Whose, When};

use super::{View, say};
use crate::page::forms::service as forms;
use crate::page::{Card, FactRow, Section, Target, Tone, plain, row, soft, strong};
use crate::words;

/// Names told in a row.
const NAMED: usize = 6;

/// The mishap that calls for a task, and its day.
pub(super) fn mishap(due: &Due) -> Option<(Mishap, Date)> {
    match due.first.by {
        By::Mishap(what, on) => Some((what, on)),
        _ => None,
    }
}

/// A part to renew: that is told by its pieces, and is no task.
pub(super) fn renews(due: &Due) -> bool {
    due.says == Whose::Reckoned
}

/// What is done: `Gap by leaf, blades and edges`, `Renew Plastic ring`
pub(super) fn name(due: &Due) -> String {
    if renews(due) {
        format!("Renew {}", due.name)
    } else {
        due.name.clone()
    }
}

/// The same within a sentence.
pub(super) fn within(due: &Due) -> String {
    if renews(due) {
        format!("renew {}", due.name)
    } else {
        say::within(&due.task, &due.name)
    }
}

/// What leads of all that no mishap calls for: a task that is overdue, then a part past its age, then what comes
/// first.
pub(super) fn leading(says: &Says) -> Option<&Due> {
    let calm = || says.due.iter().filter(|due| mishap(due).is_none());
    let task = calm().find(|due| due.overdue && !renews(due));
    task.or_else(|| calm().find(|due| due.overdue))
        .or_else(|| calm().next())
}

/// `at 125 h, about 14 June`, `by 9 May`
pub(super) fn at(when: &When, today: Date) -> String {
    let on = when.on.map(|on| say::day(on, today));
    match (&when.by, when.hours, on) {
        (By::Mishap(..), ..) => "at once".to_owned(),
        (_, Some(hours), Some(on)) => format!("at {}, about {on}", say::hours(hours)),
        (_, Some(hours), None) => format!("at {}", say::hours(hours)),
        (By::LayUp(_), None, Some(on)) => format!("after {on}"),
        (_, None, Some(on)) => format!("by {on}"),
        (_, None, None) => "no day can be told".to_owned(),
    }
}

/// `by 14 June, or at 125 h, whichever comes first`
pub(super) fn first(due: &Due, today: Date) -> String {
    let counted = |when: &&When| when.hours.is_some();
    let other = due
        .then
        .iter()
        .find(|when| counted(when) != counted(&&due.first) && (counted(when) || when.on.is_some()));
    let first = at(&due.first, today);
    match (mishap(due), other) {
        (None, Some(other)) if due.first.hours.is_some() || due.first.on.is_some() => {
            let other = match other.hours {
                Some(hours) => format!("at {}", say::hours(hours)),
                None => at(other, today),
            };
            format!("{first}, or {other}, whichever comes first")
        }
        _ => first,
    }
}

/// Since when it is overdue: `since 14 June`
pub(super) fn since(due: &Due, today: Date) -> String {
    let (hours, on) = (due.first.hours, due.first.on.filter(|on| *on < today));
    match (hours, on) {
        (Some(hours), _) => format!("since {}", say::hours(hours)),
        (None, Some(on)) => format!("since {}", say::day(on, today)),
        (None, None) => "by now".to_owned(),
    }
}

/// Why then.
pub(super) fn because(by: &By, view: &View<'_>) -> String {
    let today = view.says.today;
    match by {
        By::Hours(hours) => format!("{} after the last time", say::hours(*hours)),
        By::Months(n) => format!(
            "{} after the last time",
            words::count(usize::from(*n), "month", "months")
        ),
        By::Mishap(what, on) => format!("{}, {}", say::mishap(*what), say::day(*on, today)),
        By::Launch(_) => "the season begins".to_owned(),
        By::LayUp(_) => "the season is over".to_owned(),
        By::Gap(_, likely) => format!(
            "the gap may meet the manual’s limit, likely at {}",
            say::hours(*likely)
        ),
        By::Chance(piece) => format!(
            "{}, less sure to get through the season than you accept",
            piece_name(view, piece)
        ),
        By::Cost(piece) => format!("cheapest age to replace {}", piece_name(view, piece)),
    }
}

/// Whether it is about this piece.
pub(super) fn of_piece(by: &By, piece: &Key) -> bool {
    matches!(by, By::Chance(of) | By::Cost(of) if of == piece)
}

/// The sort that a piece is of, by its name.
fn piece_name(view: &View<'_>, piece: &Key) -> String {
    let upkeep = &view.job.upkeep;
    let part = upkeep.pieces.get(piece).map(|state| &state.said.value.part);
    let part = part.and_then(|part| upkeep.parts.get(part));
    part.map_or_else(|| piece.to_string(), |state| state.said.value.name.clone())
}

fn whose(says: &Whose) -> String {
    match says {
        Whose::Stated(page) => words::manual(page),
        Whose::Practice => "general practice".to_owned(),
        Whose::Reckoned => "reckoned from what is known of it".to_owned(),
    }
}

/// Every task that falls due, the first first.
pub(super) fn list(view: &View<'_>) -> Section {
    let says = view.says;
    let mut rows: Vec<FactRow> = says.due.iter().map(|due| line(view, due)).collect();
    if !says.undated.is_empty() {
        rows.push(row(
            words::list(&says.undated, NAMED),
            vec![soft("no day can be told yet")],
            "say when it was last done, or read the hour meter",
        ));
    }
    let overdue = says.due.iter().any(|due| due.overdue);
    let job = view.job;
    let rules = job.upkeep.rules.iter();
    let rules = rules.map(|(task, fact)| forms::ruled((task, &fact.value), job, view.refused));
    let added = [forms::listed(job, view.refused), forms::rule(view.refused)];
    Section::Card(Card {
        heading: "What falls due".to_owned(),
        tone: if overdue { Tone::Open } else { Tone::Plain },
        state: match rows.len() {
            0 => "nothing yet: read the hour meter".to_owned(),
            _ => "the first that comes counts".to_owned(),
        },
        rows,
        notes: Vec::new(),
        forms: added.into_iter().chain(rules).collect(),
    })
}

fn line(view: &View<'_>, due: &Due) -> FactRow {
    let today = view.says.today;
    let when = match mishap(due) {
        None if due.overdue && renews(due) => format!("now, {}", since(due, today)),
        None if due.overdue => format!("overdue {}", since(due, today)),
        _ => at(&due.first, today),
    };
    let mut value = vec![
        strong(when),
        plain(format!(": {}", because(&due.first.by, view))),
    ];
    value.extend(due.then.iter().map(|when| {
        soft(format!(
            "; or {}: {}",
            at(when, today),
            because(&when.by, view)
        ))
    }));
    let last = match (due.last, &due.first.by) {
        _ if renews(due) => String::new(),
        (Some((on, hours)), _) => {
            let at = hours.map_or_else(String::new, |hours| format!(", at {}", say::hours(hours)));
            format!(" · last done {}{at}", say::day(on, today))
        }
        (None, By::Hours(_) | By::Months(_)) => " · counted from this rebuild".to_owned(),
        (None, _) => String::new(),
    };
    row(name(due), value, format!("{}{last}", whose(&due.says)))
}

/// What to take along: what falls due on a day, the label, the history.
pub(super) fn along(view: &View<'_>) -> Section {
    let dated = view.says.due.iter().any(|due| due.first.on.is_some());
    let link = |target, words: &str, more: &str| (target, words.to_owned(), more.to_owned());
    let calendar = dated.then(|| {
        let more = "what falls due, a day each, for any calendar";
        link(Target::Calendar(view.id.clone()), "Calendar file", more)
    });
    let (label, history) = (
        Target::Label(view.id.clone()),
        Target::History(view.id.clone()),
    );
    let always = [
        link(
            label,
            "Pump label",
            "for the housing; its code opens the history",
        ),
        link(
            history,
            "History",
            "this pump and all its jobs, for a phone at the water",
        ),
    ];
    Section::Ways {
        heading: "Take it along".to_owned(),
        links: calendar.into_iter().chain(always).collect(),
    }
}

/// The tasks that a mishap calls for, each with the mishap.
pub(crate) fn called(says: &Says) -> impl Iterator<Item = (&Due, Mishap, Date)> {
    let called = says.due.iter();
    called.filter_map(|due| mishap(due).map(|(what, on)| (due, what, on)))
}

/// The first thing that falls due, for a label: `Gap by leaf, blades and edges, at 125 h, about 14 June`
pub(crate) fn in_short(says: &Says) -> String {
    let first = called(says).next().map(|(due, ..)| due);
    let Some(one) = first.or_else(|| leading(says)) else {
        return "no day can be told yet".to_owned();
    };
    let when = match mishap(one) {
        None if one.overdue => format!("overdue {}", since(one, says.today)),
        _ => self::first(one, says.today),
    };
    format!("{}, {when}", name(one))
}
