//! The keys of a photo.

use serde::Deserialize;

use super::{Field, count};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Photo {
    #[serde(deserialize_with = "count")]
    pub(crate) width: Field,
    #[serde(deserialize_with = "count")]
    pub(crate) height: Field,
    pub(crate) subject: Option<Field>,
    pub(crate) words: Option<Field>,
}
