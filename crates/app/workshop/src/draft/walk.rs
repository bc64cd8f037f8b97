//! The order of trying, as typed.

use quantity::Unit;

use super::{length, typed};
use crate::job::Walk;
use crate::refusal::Refusal;

/// The words for the order of trying where no two leaves are named.
pub const ORDERS: [&str; 2] = ["leaf-by-leaf", "round-first"];

/// [`Walk`] as typed: two leaves, or both empty for an order of [`ORDERS`].
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WalkDraft {
    /// The leaf that must go.
    pub go: String,
    /// The leaf that must not.
    pub no_go: String,
    /// A word of [`ORDERS`], or empty for the first.
    pub order: String,
}

impl WalkDraft {
    /// The draft that reads as `walk` where a bare number takes `unit`.
    pub fn of(walk: &Walk, unit: Unit) -> Self {
        match walk {
            Walk::LeafByLeaf => Self::default(),
            Walk::RoundFirst => Self {
                order: "round-first".to_owned(),
                ..Self::default()
            },
            Walk::TwoLeaves { go, no_go } => Self {
                go: typed(go, unit),
                no_go: typed(no_go, unit),
                ..Self::default()
            },
        }
    }

    /// Reads it; a bare number takes `unit`.
    pub fn read(&self, unit: Unit) -> Result<Walk, Refusal> {
        if self.go.trim().is_empty() && self.no_go.trim().is_empty() {
            return match self.order.trim() {
                "" | "leaf-by-leaf" => Ok(Walk::LeafByLeaf),
                "round-first" => Ok(Walk::RoundFirst),
                text => Err(Refusal::NotAChoice {
                    field: "order",
                    text: text.to_owned(),
                    choices: ORDERS.to_vec(),
                }),
            };
        }
        let go = length("go", &self.go, unit)?;
        Ok(Walk::TwoLeaves {
            go,
            no_go: length("no_go", &self.no_go, unit)?,
        })
    }
}
