//! The plan, its parts, and how far it has come.

use serde::Deserialize;
use toml::Spanned;

use super::{Field, count};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Plan {
    pub(crate) name: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Step {
    pub(crate) name: Field,
    pub(crate) group: Option<Field>,
    pub(crate) how: Option<Field>,
    pub(crate) takes: Field,
    pub(crate) most: Option<Field>,
    #[serde(default)]
    pub(crate) needs: Vec<Field>,
    #[serde(default, deserialize_with = "counted")]
    pub(crate) hands: Option<Field>,
    #[serde(default)]
    pub(crate) tools: Vec<Field>,
    pub(crate) gate: Option<Field>,
    pub(crate) opens: Field,
    #[serde(default, deserialize_with = "counted")]
    pub(crate) fasteners: Option<Field>,
    #[serde(default)]
    pub(crate) temporary: bool,
    pub(crate) caution: Option<Field>,
    #[serde(default)]
    pub(crate) irreversible: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Rule {
    pub(crate) kind: Field,
    pub(crate) first: Field,
    pub(crate) then: Option<Field>,
    pub(crate) time: Option<Field>,
    pub(crate) why: Option<Field>,
    #[serde(default)]
    pub(crate) physics: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Part {
    pub(crate) name: Field,
    pub(crate) status: Option<Field>,
    pub(crate) expected: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Tool {
    pub(crate) name: Field,
    #[serde(default, deserialize_with = "counted")]
    pub(crate) count: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Item {
    pub(crate) name: Field,
    pub(crate) kind: Field,
    #[serde(default, deserialize_with = "counted")]
    pub(crate) count: Option<Field>,
    pub(crate) step: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Crew {
    #[serde(deserialize_with = "count")]
    pub(crate) hands: Field,
    pub(crate) hours: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Progress {
    pub(crate) begun: Option<Field>,
    pub(crate) done: Option<Field>,
    pub(crate) witnessed: Option<bool>,
    #[serde(default, rename = "in", deserialize_with = "counted")]
    pub(crate) count: Option<Field>,
    #[serde(default, deserialize_with = "counted")]
    pub(crate) temporary: Option<Field>,
    pub(crate) ready: Option<Field>,
    pub(crate) reason: Option<Field>,
    pub(crate) release: Option<Field>,
    pub(crate) until: Option<Field>,
    pub(crate) again: Option<Field>,
    pub(crate) estimate: Option<Field>,
    pub(crate) estimate_most: Option<Field>,
    pub(crate) went_ahead: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Account {
    #[serde(rename = "in", deserialize_with = "count")]
    pub(crate) count: Field,
    pub(crate) ready: Option<Field>,
    pub(crate) reason: Option<Field>,
}

/// A count that may be left out.
fn counted<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Option<Field>, D::Error> {
    count(deserializer).map(Some)
}

/// All tables of the plan.
pub(crate) struct Tables {
    pub(crate) plan: Option<Plan>,
    pub(crate) steps: Vec<(Spanned<String>, Step)>,
    pub(crate) rules: Vec<Rule>,
    pub(crate) parts: Vec<(Spanned<String>, Part)>,
    pub(crate) tools: Vec<(Spanned<String>, Tool)>,
    pub(crate) items: Vec<(Spanned<String>, Item)>,
    pub(crate) crew: Option<Crew>,
    pub(crate) progress: Vec<(Spanned<String>, Progress)>,
    pub(crate) account: Vec<(Spanned<String>, Account)>,
    pub(crate) returned: Vec<(Spanned<String>, Account)>,
}
