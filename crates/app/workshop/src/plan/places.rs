//! Where something stands in a plan, by its key.

use super::{Ask, Plan, seconds};
use crate::entry::Key;
use crate::refusal::{Obstacle, Refusal};

impl Plan {
    /// The place of a step in the list.
    pub fn place(&self, key: &Key) -> Option<usize> {
        self.steps.iter().position(|step| step.key == *key)
    }

    /// The place of a step that must be there.
    pub fn place_of(&self, key: &Key) -> Result<usize, Refusal> {
        there(self.place(key), key, |key| Obstacle::NoSuchStep { key })
    }

    /// The place of a part in the list.
    pub fn part(&self, key: &Key) -> Option<usize> {
        self.parts.iter().position(|part| part.key == *key)
    }

    /// The place of a part that must be there.
    pub fn part_of(&self, key: &Key) -> Result<usize, Refusal> {
        there(self.part(key), key, |key| Obstacle::NoSuchPart { key })
    }

    /// The place of a thing to account for in the list.
    pub fn item(&self, key: &Key) -> Option<usize> {
        self.items.iter().position(|item| item.key == *key)
    }

    /// The place of a thing that must be there.
    pub fn item_of(&self, key: &Key) -> Result<usize, Refusal> {
        there(self.item(key), key, |key| Obstacle::NoSuchItem { key })
    }

    /// The place of a tool in the list.
    pub fn tool(&self, key: &Key) -> Option<usize> {
        self.tools.iter().position(|tool| tool.key == *key)
    }

    /// The place of a tool that must be there.
    pub fn tool_of(&self, key: &Key) -> Result<usize, Refusal> {
        there(self.tool(key), key, |key| Obstacle::NoSuchTool { key })
    }

    /// The longest wait after a step, in seconds, where a rule gives one.
    pub fn longest_wait(&self, step: &Key) -> Option<i64> {
        let waits = self.rules.iter().filter_map(|rule| match &rule.ask {
            Ask::After { first, lag, .. } if first == step => lag.as_ref().map(seconds),
            _ => None,
        });
        waits.max()
    }
}

fn there(
    place: Option<usize>,
    key: &Key,
    missing: fn(String) -> Obstacle,
) -> Result<usize, Refusal> {
    place.ok_or_else(|| Refusal::Work(missing(key.to_string())))
}
