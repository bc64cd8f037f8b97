//! Tools and what is accounted for, as typed.

use super::{Choice, choose, number, word};
use crate::entry::Key;
use crate::plan::{Item, ItemKind, Tool};
use crate::refusal::Refusal;

/// The words for [`ItemKind`].
pub const ITEMS: [Choice<ItemKind>; 8] = [
    ("plug", ItemKind::Plug),
    ("clip", ItemKind::Clip),
    ("hose", ItemKind::Hose),
    ("cable", ItemKind::Cable),
    ("guard", ItemKind::Guard),
    ("sensor", ItemKind::Sensor),
    ("temporary", ItemKind::Temporary),
    ("other", ItemKind::Other),
];

/// [`Tool`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ToolDraft {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// How many there are; empty for one.
    pub count: String,
}

impl ToolDraft {
    pub(super) fn of(tool: &Tool) -> Self {
        Self {
            key: tool.key.to_string(),
            name: tool.name.clone(),
            count: several(tool.count),
        }
    }

    pub(super) fn read(&self) -> Result<Tool, Refusal> {
        Ok(Tool {
            key: Key::new(&self.key)?,
            name: self.name.clone(),
            count: or_one(&self.count)?,
        })
    }
}

/// [`Item`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ItemDraft {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// A word of [`ITEMS`].
    pub kind: String,
    /// How many there are; empty for one.
    pub count: String,
    /// Key of its step; may be empty.
    pub step: String,
}

impl ItemDraft {
    pub(super) fn of(item: &Item) -> Self {
        Self {
            key: item.key.to_string(),
            name: item.name.clone(),
            kind: word(&ITEMS, item.kind).to_owned(),
            count: several(item.count),
            step: item.step.as_ref().map_or_else(String::new, Key::to_string),
        }
    }

    pub(super) fn read(&self) -> Result<Item, Refusal> {
        Ok(Item {
            key: Key::new(&self.key)?,
            name: self.name.clone(),
            kind: choose("kind", &self.kind, &ITEMS)?,
            count: or_one(&self.count)?,
            step: match self.step.as_str() {
                "" => None,
                step => Some(Key::new(step)?),
            },
        })
    }
}

fn several(count: u16) -> String {
    match count {
        1 => String::new(),
        many => many.to_string(),
    }
}

fn or_one(text: &str) -> Result<u16, Refusal> {
    match text.trim() {
        "" => Ok(1),
        text => number("count", text),
    }
}
