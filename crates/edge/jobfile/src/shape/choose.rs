//! The keys of a craft, of what could be fitted, of what is wanted and of steady readings.

use serde::Deserialize;

use super::{Field, some_count};

/// What is fitted, and an option with its key.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Fitting {
    pub(crate) key: Option<Field>,
    pub(crate) name: Option<Field>,
    pub(crate) leading: Option<Field>,
    pub(crate) trailing: Option<Field>,
    pub(crate) radius: Option<Field>,
    pub(crate) angles: Option<Field>,
    pub(crate) maker: Option<Field>,
    #[serde(default, deserialize_with = "some_count")]
    pub(crate) blades: Option<Field>,
    pub(crate) hub: Option<Field>,
    pub(crate) cup: Option<Field>,
    pub(crate) gap: Option<Field>,
    pub(crate) nozzle: Option<Field>,
    pub(crate) note: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Craft {
    pub(crate) mass: Option<Field>,
    pub(crate) riders: Option<Field>,
    pub(crate) length: Option<Field>,
    pub(crate) beam: Option<Field>,
    pub(crate) deadrise: Option<Field>,
    pub(crate) balance: Option<Field>,
    pub(crate) power: Option<Field>,
    pub(crate) rated: Option<Field>,
    pub(crate) limiter: Option<Field>,
    pub(crate) breathing: Option<Field>,
    pub(crate) curve: Option<Field>,
    pub(crate) wanted_from: Option<Field>,
    pub(crate) wanted_to: Option<Field>,
    pub(crate) impeller: Option<Field>,
    pub(crate) outing: Option<Field>,
    pub(crate) page: Option<Field>,
    pub(crate) fitted: Option<Fitting>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Wish {
    pub(crate) want: Field,
    pub(crate) to: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Steady {
    pub(crate) engine: Field,
    pub(crate) speed: Option<Field>,
    pub(crate) pull: Option<Field>,
}
