//! What is said about what to fit, folded.

use super::{Misfit, Objection, fact};
use crate::choose::{Choices, Choosing, OptionState, evidence};
use crate::entry::Entry;
use crate::job::Job;

/// Takes one entry in, or says what does not fit.
pub(super) fn take(choices: &mut Choices, entry: &Entry, said: &Choosing) -> Option<Misfit> {
    match said {
        Choosing::Craft(facts) => choices.craft = Some(fact(entry, (**facts).clone())),
        Choosing::Option { key, fitting } => {
            let had = choices.options.get(key).map(|state| state.since);
            let state = OptionState {
                since: had.unwrap_or(entry.position),
                fitting: fact(entry, (**fitting).clone()),
            };
            choices.options.insert(key.clone(), state);
        }
        Choosing::OptionPutAway { key } => {
            if choices.options.remove(key).is_none() {
                return Some(Misfit::NoSuchOption);
            }
        }
        Choosing::Wish(wish) => choices.wish = Some(fact(entry, wish.clone())),
        Choosing::Steadies(all) => choices.steadies = Some(fact(entry, all.clone())),
        Choosing::Taken(told) => choices.taken = Some(fact(entry, (**told).clone())),
    }
    None
}

/// An option taken that is not here any more, or taken on other grounds.
pub(super) fn close(job: &Job) -> Vec<Objection> {
    let taken = job.choices.taken.iter();
    let stale = taken.filter(|taken| {
        taken.value.evidence != evidence(job)
            || !job.choices.options.contains_key(&taken.value.option)
    });
    let objection = |taken: &crate::job::Fact<crate::choose::Told>| Objection {
        entry: taken.entry.clone(),
        position: taken.position,
        why: Misfit::OptionTakenOnOtherGrounds,
    };
    stale.map(objection).collect()
}
