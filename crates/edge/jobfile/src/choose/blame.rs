//! Which line of what to fit is to blame for a refusal.

use std::ops::Range;

use workshop::choose::Choosing;
use workshop::entry::Key;
use workshop::job::Job;
use workshop::refusal::{Misfitting, Refusal};

use crate::JobFile;
use crate::blame::field_of;
use crate::inspect::Places;

impl JobFile {
    /// The value of what was to be recorded.
    pub(crate) fn of_choice(&self, said: &Choosing, refusal: &Refusal) -> Option<Range<usize>> {
        let field = refusal.field();
        let places = &self.choices;
        match said {
            Choosing::Craft(_) => field_of(&places.craft, field),
            Choosing::Option { key, .. } => {
                let here = |(known, _): &(String, _)| known == key.as_str();
                let option = self.draft.choices.options.iter().position(here)?;
                field_of(places.options.get(option)?, field)
            }
            Choosing::Wish(_) => field_of(&places.wish, field),
            Choosing::Steadies(_) => {
                // What has neither a speed nor a pull is known by its engine speed.
                let named = match refusal {
                    Refusal::Choice(Misfitting::SpeedOrPull { .. }) => Some("engine"),
                    _ => field,
                };
                let here = |one: &&Places| self.holds(one, named, refusal);
                let one = places.steadies.iter().find(here);
                // Of readings that are too many the last is one.
                let one = one.or_else(|| places.steadies.last());
                one.and_then(|one| field_of(one, field))
            }
            Choosing::OptionPutAway { .. } | Choosing::Taken(_) => None,
        }
    }

    /// The value that is refused for the same reason when it is read by itself.
    pub(crate) fn unreadable_choice(&self, refusal: &Refusal, job: &Job) -> Option<Range<usize>> {
        let (unit, speed) = (self.unit(job), self.draft.speed_unit(job));
        let (draft, places) = (&self.draft.choices, &self.choices);
        let field = refusal.field();
        let same = |refused: Option<Refusal>| refused.as_ref() == Some(refusal);
        if let Some(craft) = &draft.craft
            && same(craft.read(unit).err())
        {
            // An outing's key is the only one in it.
            return field_of(&places.craft, field.or(Some("outing")));
        }
        for ((key, option), here) in draft.options.iter().zip(&places.options) {
            if same(Key::new(key).err()) {
                return field_of(here, Some("key"));
            }
            if same(option.read(unit).err()) {
                return field_of(here, field);
            }
        }
        if let Some(wish) = &draft.wish
            && same(wish.read(speed).err())
        {
            return field_of(&places.wish, field);
        }
        let mut steadies = draft.steadies.iter().zip(&places.steadies);
        let (_, here) = steadies.find(|(one, _)| same(one.read(speed).err()))?;
        field_of(here, field)
    }
}
