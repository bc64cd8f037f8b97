//! The plan, its parts, and how far it has come.

use serde::Deserialize;
use toml::Spanned;

use super::{Field, count};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::job_file) struct Plan {
    pub(in crate::job_file) name: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::job_file) struct Step {
    pub(in crate::job_file) name: Field,
    pub(in crate::job_file) takes: Field,
    pub(in crate::job_file) most: Option<Field>,
    #[serde(default)]
    pub(in crate::job_file) needs: Vec<Field>,
    pub(in crate::job_file) gate: Option<Field>,
    pub(in crate::job_file) opens: Field,
    #[serde(default, deserialize_with = "counted")]
    pub(in crate::job_file) fasteners: Option<Field>,
    #[serde(default)]
    pub(in crate::job_file) temporary: bool,
    pub(in crate::job_file) caution: Option<Field>,
    #[serde(default)]
    pub(in crate::job_file) irreversible: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::job_file) struct Rule {
    pub(in crate::job_file) kind: Field,
    pub(in crate::job_file) first: Field,
    pub(in crate::job_file) then: Option<Field>,
    pub(in crate::job_file) time: Option<Field>,
    pub(in crate::job_file) why: Option<Field>,
    #[serde(default)]
    pub(in crate::job_file) physics: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::job_file) struct Part {
    pub(in crate::job_file) name: Field,
    pub(in crate::job_file) status: Option<Field>,
    pub(in crate::job_file) expected: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(in crate::job_file) struct Progress {
    pub(in crate::job_file) begun: Option<Field>,
    pub(in crate::job_file) done: Option<Field>,
    pub(in crate::job_file) witnessed: Option<bool>,
    #[serde(default, rename = "in", deserialize_with = "counted")]
    pub(in crate::job_file) count: Option<Field>,
    #[serde(default, deserialize_with = "counted")]
    pub(in crate::job_file) temporary: Option<Field>,
    pub(in crate::job_file) reason: Option<Field>,
    pub(in crate::job_file) release: Option<Field>,
    pub(in crate::job_file) went_ahead: Option<Field>,
}

/// A count that may be left out.
fn counted<'de, D: serde::Deserializer<'de>>(deserializer: D) -> Result<Option<Field>, D::Error> {
    count(deserializer).map(Some)
}

/// All tables of the plan.
pub(in crate::job_file) struct Tables {
    pub(in crate::job_file) plan: Option<Plan>,
    pub(in crate::job_file) steps: Vec<(Spanned<String>, Step)>,
    pub(in crate::job_file) rules: Vec<Rule>,
    pub(in crate::job_file) parts: Vec<(Spanned<String>, Part)>,
    pub(in crate::job_file) progress: Vec<(Spanned<String>, Progress)>,
}
