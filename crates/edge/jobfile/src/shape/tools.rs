//! Torque wrenches, and what was found or chosen at a joint.

use serde::Deserialize;

use super::Field;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Wrench {
    pub(crate) name: Field,
    pub(crate) scale: Field,
    pub(crate) least: Field,
    pub(crate) most: Field,
    pub(crate) step: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Tool {
    pub(crate) wrench: Field,
    pub(crate) lever: Option<Field>,
    pub(crate) offset: Option<Field>,
    pub(crate) angle: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Hole {
    pub(crate) reach: Field,
    pub(crate) threaded: Field,
    pub(crate) lost: Field,
    pub(crate) insert: Option<Field>,
}
