//! Which line of service is to blame for a refusal.

use std::ops::Range;

use workshop::entry::Key;
use workshop::refusal::Refusal;
use workshop::upkeep::Servicing;

use crate::JobFile;
use crate::blame::field_of;
use crate::inspect::Places;

impl JobFile {
    /// The value of what was to be recorded.
    pub(crate) fn of_upkeep(&self, said: &Servicing, refusal: &Refusal) -> Option<Range<usize>> {
        let (draft, places) = (&self.draft.upkeep, &self.upkeep);
        let field = refusal.field();
        // Of rows without a key the one that reads as this.
        let row = |at: Option<usize>, rows: &[Places]| field_of(rows.get(at?)?, field);
        match said {
            Servicing::Usage(_) => field_of(&places.usage, field),
            Servicing::Part { key, .. } => row(keyed(&draft.parts, key), &places.parts),
            Servicing::Piece { key, .. } => row(keyed(&draft.pieces, key), &places.pieces),
            Servicing::Rule { task, .. } => row(keyed(&draft.rules, task), &places.rules),
            Servicing::Meter(read) => {
                let mut rows = draft.meter.iter();
                let same = rows.position(|row| row.read().as_ref() == Ok(read));
                row(same, &places.meter)
            }
            Servicing::Happened(what) => {
                let mut rows = draft.mishaps.iter();
                let same = rows.position(|row| row.read().as_ref() == Ok(what));
                row(same, &places.mishaps)
            }
            Servicing::Done(done) => {
                let mut rows = draft.done.iter();
                let same = rows.position(|row| row.read().as_ref() == Ok(done));
                row(same, &places.done)
            }
            Servicing::Rechecked { point, .. } => {
                let mut rows = draft.recheck.iter();
                let same = rows.position(|row| row.read().is_ok_and(|(of, ..)| of == *point));
                row(same, &places.recheck)
            }
            Servicing::Closed(_) => None,
        }
    }

    /// The value that is refused for the same reason when it is read by itself.
    pub(crate) fn unreadable_upkeep(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let (draft, places) = (&self.draft.upkeep, &self.upkeep);
        let field = refusal.field();
        let same = |refused: Option<Refusal>| refused.as_ref() == Some(refusal);
        if let Some(usage) = &draft.usage
            && same(usage.read().err())
        {
            return field_of(&places.usage, field);
        }
        // A key that is none has no field of a form: an option's, a sort's or a task's is named here.
        for ((key, sort), here) in draft.parts.iter().zip(&places.parts) {
            if same(Key::new(key).err()) {
                return field_of(here, Some("key"));
            }
            if same(sort.read().err()) {
                return field_of(here, field.or(Some("option")));
            }
        }
        for ((key, piece), here) in draft.pieces.iter().zip(&places.pieces) {
            if same(Key::new(key).err()) {
                return field_of(here, Some("key"));
            }
            if same(piece.read().err()) {
                return field_of(here, field.or(Some("part")));
            }
        }
        for ((key, rule), here) in draft.rules.iter().zip(&places.rules) {
            if same(Key::new(key).err()) {
                return field_of(here, Some("task"));
            }
            if same(rule.read().err()) {
                return field_of(here, field);
            }
        }
        let meter = draft.meter.iter().map(|row| row.read().err());
        let mishaps = draft.mishaps.iter().map(|row| row.read().err());
        let done = draft.done.iter().map(|row| row.read().err());
        let points = draft.recheck.iter().map(|row| row.read().err());
        let meter = meter.zip(&places.meter);
        let mishaps = mishaps.zip(&places.mishaps);
        let done = done.zip(&places.done);
        let points = points.zip(&places.recheck);
        let mut all = meter.chain(mishaps).chain(done).chain(points);
        let (_, here) = all.find(|(refused, _)| same(refused.clone()))?;
        // A day that is none has no field of a form, nor has a key.
        let on = here.iter().any(|(name, _)| *name == "on");
        let named = field.or(match refusal {
            Refusal::BadId { .. } => Some("task"),
            _ if on => Some("on"),
            _ => None,
        });
        field_of(here, named)
    }
}

fn keyed<T>(all: &[(String, T)], key: &Key) -> Option<usize> {
    all.iter().position(|(known, _)| known == key.as_str())
}
