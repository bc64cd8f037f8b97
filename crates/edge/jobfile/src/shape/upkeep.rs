//! The keys of service: use, sorts of part, pieces, the hour meter, mishaps, what falls due, what was done, the recheck.
//! What happened names its day: a file is read on another, and again.

use serde::Deserialize;

use super::{Field, some_count};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Service {
    pub(crate) currency: Option<Field>,
    pub(crate) water: Option<Field>,
    pub(crate) silt: Option<Field>,
    pub(crate) sand: Option<Field>,
    pub(crate) week: Option<Field>,
    pub(crate) season: Option<Field>,
    pub(crate) from: Option<Field>,
    pub(crate) until: Option<Field>,
    pub(crate) keep: Option<Field>,
    pub(crate) wage: Option<Field>,
    pub(crate) failure: Option<Field>,
    pub(crate) worth: Option<Field>,
    pub(crate) between: Option<Field>,
    pub(crate) floor: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Sort {
    pub(crate) key: Field,
    pub(crate) name: Field,
    pub(crate) kind: Option<Field>,
    pub(crate) option: Option<Field>,
    pub(crate) price: Option<Field>,
    pub(crate) supplies: Option<Field>,
    pub(crate) labour: Option<Field>,
    pub(crate) tenth: Option<Field>,
    pub(crate) half: Option<Field>,
    pub(crate) trust: Option<Field>,
    pub(crate) ruin: Option<Field>,
    pub(crate) lost: Option<Field>,
    pub(crate) lost_at: Option<Field>,
    pub(crate) note: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Piece {
    pub(crate) key: Field,
    pub(crate) sort: Field,
    pub(crate) elsewhere: Option<Field>,
    pub(crate) water: Option<Field>,
    pub(crate) fitted: Field,
    pub(crate) good: Option<Field>,
    pub(crate) end: Option<Field>,
    pub(crate) ended: Option<Field>,
    pub(crate) note: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Meter {
    pub(crate) on: Field,
    pub(crate) hours: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Mishap {
    pub(crate) what: Field,
    pub(crate) on: Field,
    pub(crate) hours: Option<Field>,
    pub(crate) note: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Due {
    pub(crate) task: Field,
    pub(crate) name: Option<Field>,
    pub(crate) hours: Option<Field>,
    #[serde(default, deserialize_with = "some_count")]
    pub(crate) months: Option<Field>,
    #[serde(default)]
    pub(crate) after: Vec<Field>,
    pub(crate) edge: Option<Field>,
    pub(crate) page: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Done {
    pub(crate) task: Field,
    pub(crate) on: Field,
    pub(crate) hours: Option<Field>,
    pub(crate) note: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Recheck {
    pub(crate) point: Field,
    pub(crate) found: Field,
    pub(crate) note: Option<Field>,
}
