//! The keys of what is wrong and of what was looked at.

use serde::Deserialize;

use super::Field;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Search {
    pub(crate) outing: Option<Field>,
    #[serde(default)]
    pub(crate) yes: Vec<Field>,
    #[serde(default)]
    pub(crate) no: Vec<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Looked {
    pub(crate) check: Field,
    pub(crate) found: Field,
    pub(crate) note: Option<Field>,
}
