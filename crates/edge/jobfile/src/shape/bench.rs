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
    pub(crate) takes: Field,
    pub(crate) most: Option<Field>,
    #[serde(default)]
    pub(crate) needs: Vec<Field>,
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
pub(crate) struct Progress {
    pub(crate) begun: Option<Field>,
    pub(crate) done: Option<Field>,
    pub(crate) witnessed: Option<bool>,
    #[serde(default, rename = "in", deserialize_with = "counted")]
    pub(crate) count: Option<Field>,
    #[serde(default, deserialize_with = "counted")]
    pub(crate) temporary: Option<Field>,
    pub(crate) reason: Option<Field>,
    pub(crate) release: Option<Field>,
    pub(crate) went_ahead: Option<Field>,
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
    pub(crate) progress: Vec<(Spanned<String>, Progress)>,
}
