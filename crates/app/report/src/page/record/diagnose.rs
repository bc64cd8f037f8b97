//! What was said about what is wrong, a line an entry.

use workshop::diagnose::Diagnosing;
use workshop::entry::Entry;

use super::water::named;
use crate::page::diagnose::{check, say};
use crate::words::upper;

pub(super) fn of_diagnosing(said: &Diagnosing, entries: &[Entry]) -> String {
    match said {
        Diagnosing::Suspect { outing: Some(key) } => {
            format!("{} falls short", named(key, entries))
        }
        Diagnosing::Suspect { outing: None } => "the latest outing falls short".to_owned(),
        Diagnosing::Symptoms(all) => {
            let yes = all.values().filter(|yes| **yes).count();
            let no = all.len() - yes;
            format!("heard and seen: {yes} so, {no} not so")
        }
        Diagnosing::Checked { check, found, note } => {
            let name = upper(check::words(*check).name);
            let what = match found {
                Some(true) => "something found",
                Some(false) => "nothing found",
                None => "not done after all",
            };
            let note = match note.as_str() {
                "" => String::new(),
                note => format!(", {note}"),
            };
            format!("{name}: {what}{note}")
        }
        Diagnosing::MadeSafe(true) => "said: the craft can’t start".to_owned(),
        Diagnosing::MadeSafe(false) => "said: the craft may start again".to_owned(),
        Diagnosing::Taken(told) => {
            format!("cause taken: {}. {}", say::fault(told.fault), told.words)
        }
    }
}
