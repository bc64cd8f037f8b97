//! What was said about service, a line an entry.

use jiff::civil::Date;
use quantity::Entered;
use workshop::entry::Key;
use workshop::upkeep::{Servicing, tasks};

use crate::page::service::say;

pub(super) fn of_servicing(said: &Servicing) -> String {
    match said {
        Servicing::Usage(_) => "how the craft is used".to_owned(),
        Servicing::Part {
            part: Some(part), ..
        } => format!("sort of part described: {}", part.name),
        Servicing::Part { key, part: None } => format!("sort of part put away: {key}"),
        Servicing::Piece {
            piece: Some(piece), ..
        } => {
            let end = piece.end.as_ref();
            let end = end.map_or_else(
                || "in use".to_owned(),
                |(end, hours)| format!("{} at {}", say::end(*end), hours.worded()),
            );
            let place = if piece.elsewhere {
                ", of another craft"
            } else {
                ""
            };
            let fitted = piece.fitted.worded();
            format!("{}: fitted at {fitted}, {end}{place}", piece.part)
        }
        Servicing::Piece { key, piece: None } => format!("piece put away: {key}"),
        Servicing::Meter(read) => format!(
            "hour meter: {}{}",
            read.hours.worded(),
            on(read.on.as_ref())
        ),
        Servicing::Happened(what) => format!(
            "{}{}{}{}",
            say::mishap(what.what),
            at(what.hours.as_ref()),
            on(what.on.as_ref()),
            note(&what.note)
        ),
        Servicing::Rule {
            task,
            rule: Some(rule),
        } => format!("due, as stated: {}", name(task, &rule.name)),
        Servicing::Rule { task, rule: None } => {
            format!("due as general practice has it: {}", name(task, ""))
        }
        Servicing::Done(done) => format!(
            "done: {}{}{}{}",
            name(&done.task, ""),
            at(done.hours.as_ref()),
            on(done.on.as_ref()),
            note(&done.note)
        ),
        Servicing::Rechecked {
            point,
            well,
            note: found,
        } => {
            let well = match well {
                Some(true) => "well",
                Some(false) => "amiss",
                None => "not looked at after all",
            };
            format!("recheck, {}: {well}{}", point.name(), note(found))
        }
        Servicing::Closed(told) => format!("job closed. {}", told.words),
    }
}

fn name(task: &Key, own: &str) -> String {
    match (own, tasks::task(task.as_str())) {
        ("", Some(task)) => task.name.to_owned(),
        ("", None) => task.to_string(),
        (own, _) => own.to_owned(),
    }
}

fn on(day: Option<&Date>) -> String {
    day.map_or_else(String::new, |day| format!(", {day}"))
}

fn at(hours: Option<&Entered>) -> String {
    hours.map_or_else(String::new, |hours| format!(" at {}", hours.worded()))
}

fn note(text: &str) -> String {
    match text {
        "" => String::new(),
        text => format!(", {text}"),
    }
}
