//! Which line of service is to blame for a refusal.

use std::ops::Range;

use workshop::draft::upkeep::POINTS;
use workshop::draft::word;
use workshop::entry::Key;
use workshop::refusal::{Obstacle, Refusal};
use workshop::upkeep::Servicing;

use crate::JobFile;
use crate::blame::{field_of, refused};
use crate::inspect::Places;

/// Figures that go together: where one is missing, it is missed at the other.
const TOGETHER: [(&str, &str); 4] = [
    ("tenth", "half"),
    ("lost", "lost_at"),
    ("from", "until"),
    ("end", "ended"),
];

impl JobFile {
    /// The value of what was to be recorded.
    pub(crate) fn of_upkeep(&self, said: &Servicing, refusal: &Refusal) -> Option<Range<usize>> {
        let (draft, places) = (&self.draft.upkeep, &self.upkeep);
        let here = match said {
            Servicing::Usage(_) => &places.usage,
            Servicing::Part { key, .. } => keyed(&draft.parts, key, &places.parts)?,
            Servicing::Piece { key, .. } => keyed(&draft.pieces, key, &places.pieces)?,
            Servicing::Rule { task, .. } => keyed(&draft.rules, task, &places.rules)?,
            Servicing::Meter(said) => {
                let same = draft
                    .meter
                    .iter()
                    .map(|one| one.read().as_ref() == Ok(said));
                nth(same, &places.meter)?
            }
            Servicing::Happened(said) => {
                let same = draft
                    .mishaps
                    .iter()
                    .map(|one| one.read().as_ref() == Ok(said));
                nth(same, &places.mishaps)?
            }
            Servicing::Done(said) => {
                let same = draft.done.iter().map(|one| one.read().as_ref() == Ok(said));
                nth(same, &places.done)?
            }
            Servicing::Rechecked { point, .. } => {
                let word = word(&POINTS, *point);
                let same = draft.recheck.iter().map(|one| one.point.trim() == word);
                nth(same, &places.recheck)?
            }
            Servicing::Closed(_) => return None,
        };
        self.among(here, refusal)
    }

    /// The value that is refused for the same reason when it is read by itself.
    pub(crate) fn unreadable_upkeep(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let (draft, places) = (&self.draft.upkeep, &self.upkeep);
        let same = |refused: Option<Refusal>| refused.as_ref() == Some(refusal);
        if let Some(usage) = &draft.usage
            && same(usage.read().err())
        {
            return self.among(&places.usage, refusal);
        }
        let parts = draft.parts.iter();
        let parts = parts.map(|(key, one)| (Key::new(key).err(), one.read().err()));
        let pieces = draft.pieces.iter();
        let pieces = pieces.map(|(key, one)| (Key::new(key).err(), one.read().err()));
        let rules = draft.rules.iter();
        let rules = rules.map(|(key, one)| (Key::new(key).err(), one.read().err()));
        let named = (parts.zip(&places.parts))
            .chain(pieces.zip(&places.pieces))
            .chain(rules.zip(&places.rules));
        for ((key, said), here) in named {
            // The name is the first of its places.
            if same(key) {
                return field_of(here, None);
            }
            if same(said) {
                return self.among(here, refusal);
            }
        }
        let meter = draft.meter.iter().map(|one| one.read().err());
        let mishaps = draft.mishaps.iter().map(|one| one.read().err());
        let done = draft.done.iter().map(|one| one.read().err());
        let recheck = draft.recheck.iter().map(|one| one.read().err());
        let mut told = (meter.zip(&places.meter))
            .chain(mishaps.zip(&places.mishaps))
            .chain(done.zip(&places.done))
            .chain(recheck.zip(&places.recheck));
        let (_, here) = told.find(|(refused, _)| refused.as_ref() == Some(refusal))?;
        self.among(here, refusal)
    }

    /// The field of the refusal, of several of its name the one that was refused.
    fn among(&self, here: &Places, refusal: &Refusal) -> Option<Range<usize>> {
        let field = match refusal {
            Refusal::Work(Obstacle::Future { .. } | Obstacle::NoDay { .. }) => Some("on"),
            // A key of something else that is none.
            Refusal::BadId { .. } => {
                let keys = ["option", "part", "task"].map(Some);
                let mut keys = keys.into_iter();
                keys.find(|key| self.holds(here, *key, refusal))?
            }
            _ => refusal.field(),
        };
        let field = field.map(|field| missed_at(here, field));
        let refused = refused(refusal);
        let stands = |(known, at): &&(&'static str, Range<usize>)| {
            let typed = self.source.text[at.clone()].trim_matches(['"', '\'']);
            Some(*known) == field && Some(typed.trim()) == refused
        };
        let at = here.iter().find(stands);
        at.map_or_else(|| field_of(here, field), |(_, at)| Some(at.clone()))
    }
}

/// The field, or the one it goes with where it is missing.
fn missed_at<'a>(here: &Places, field: &'a str) -> &'a str {
    let there = |name: &str| here.iter().any(|(known, _)| *known == name);
    let other = TOGETHER.iter().find_map(|(one, other)| match field {
        field if field == *one => Some(*other),
        field if field == *other => Some(*one),
        _ => None,
    });
    other
        .filter(|other| !there(field) && there(other))
        .unwrap_or(field)
}

fn keyed<'a, T>(named: &[(String, T)], key: &Key, places: &'a [Places]) -> Option<&'a Places> {
    nth(named.iter().map(|(known, _)| known == key.as_str()), places)
}

/// The places of the first that is so.
fn nth(mut so: impl Iterator<Item = bool>, places: &[Places]) -> Option<&Places> {
    so.position(|so| so).and_then(|at| places.get(at))
}
