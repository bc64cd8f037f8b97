//! Whether something may be told of what is accounted for.

use std::collections::BTreeMap;

use super::{LONGEST_TEXT, filled, text};
use crate::entry::Key;
use crate::plan::{Account, Excuse, Plan, Ready};
use crate::refusal::{Obstacle, Refusal};

/// A thing: one of the plan, no more of it than there are, and no reason where none is missing.
pub(super) fn item(plan: &Plan, key: &Key, account: &Account) -> Result<(), Refusal> {
    let item = &plan.items[plan.item_of(key)?];
    told(&item.name, item.count, account)
}

/// Tools: the same, for each of them.
pub(super) fn tools(plan: &Plan, counted: &BTreeMap<Key, Account>) -> Result<(), Refusal> {
    if counted.is_empty() {
        return Err(Refusal::Empty { field: "tool" });
    }
    counted.iter().try_for_each(|(key, account)| {
        let tool = &plan.tools[plan.tool_of(key)?];
        told(&tool.name, tool.count, account)
    })
}

/// A ready-made reason may wait for its words; own words are all there is of theirs.
pub(super) fn excuse(excuse: &Excuse) -> Result<(), Refusal> {
    if excuse.ready == Ready::OwnWords {
        filled("reason", &excuse.words)?;
    }
    text("reason", &excuse.words, LONGEST_TEXT)
}

fn told(name: &str, of: u16, account: &Account) -> Result<(), Refusal> {
    let Account { count, missing } = account;
    if *count > of {
        let (item, count) = (name.to_owned(), *count);
        return Err(Refusal::Work(Obstacle::TooManyItems { item, count, of }));
    }
    match missing {
        Some(_) if *count == of => {
            let item = name.to_owned();
            Err(Refusal::Work(Obstacle::NoneMissing { item, of }))
        }
        Some(missing) => excuse(missing),
        None => Ok(()),
    }
}
