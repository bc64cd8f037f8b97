//! What a person states before measuring: the job, the pump, the leaves, the limits, the walk.

use serde::{Deserialize, Serialize};
use workshop::entry::{Body, JobId};
use workshop::job;

use super::typed::{Length, LengthUnit};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Opened {
    pub(super) title: String,
    pub(super) note: String,
    pub(super) follows: Option<String>,
}

/// Before a job could name the earlier job of its pump.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OpenedV1 {
    title: String,
    note: String,
}

impl From<OpenedV1> for Opened {
    fn from(opened: OpenedV1) -> Self {
        Self {
            title: opened.title,
            note: opened.note,
            follows: None,
        }
    }
}

impl TryFrom<Opened> for Body {
    type Error = String;

    fn try_from(opened: Opened) -> Result<Self, String> {
        let follows = opened.follows.map(|id| JobId::new(&id)).transpose();
        Ok(Self::JobOpened {
            title: opened.title,
            note: opened.note,
            follows: follows.map_err(|refusal| refusal.to_string())?,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "job::View", rename_all = "kebab-case")]
enum View {
    LookingForward,
    LookingAft,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "job::Rotation", rename_all = "kebab-case")]
enum Rotation {
    Clockwise,
    Anticlockwise,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "job::Lead", rename_all = "kebab-case")]
enum Lead {
    AlongShaft,
    RoundRing,
    UnderEdge,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "job::Posture", rename_all = "kebab-case")]
enum Posture {
    CraftUpright,
    CraftOnSide,
    BenchShaftLevel,
    BenchShaftUpright,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "job::Measure", rename_all = "kebab-case")]
enum Measure {
    Radial,
    Diametral,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Pump {
    blades: u8,
    positions: u8,
    bore: Length,
    #[serde(with = "View")]
    view: job::View,
    #[serde(with = "Rotation")]
    rotation: job::Rotation,
}

impl From<&job::Pump> for Pump {
    fn from(pump: &job::Pump) -> Self {
        Self {
            blades: pump.blades,
            positions: pump.positions,
            bore: Length::from(&pump.bore),
            view: pump.view,
            rotation: pump.rotation,
        }
    }
}

impl From<Pump> for job::Pump {
    fn from(pump: Pump) -> Self {
        Self {
            blades: pump.blades,
            positions: pump.positions,
            bore: pump.bore.into(),
            view: pump.view,
            rotation: pump.rotation,
        }
    }
}

/// Version 1 knew neither the leaves' tolerance nor the feel of the hand.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LeavesV1 {
    marked_in: LengthUnit,
    thicknesses: Vec<Length>,
    width: Length,
    #[serde(with = "Lead")]
    lead: job::Lead,
    #[serde(with = "Posture")]
    posture: job::Posture,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Leaves {
    unit: LengthUnit,
    thicknesses: Vec<Length>,
    width: Length,
    #[serde(with = "Lead")]
    lead: job::Lead,
    #[serde(with = "Posture")]
    posture: job::Posture,
    /// Half width; the set's tolerance.
    thickness_error: Option<Length>,
    feel: Option<Length>,
}

impl From<LeavesV1> for Leaves {
    fn from(old: LeavesV1) -> Self {
        Self {
            unit: old.marked_in,
            thicknesses: old.thicknesses,
            width: old.width,
            lead: old.lead,
            posture: old.posture,
            thickness_error: None,
            feel: None,
        }
    }
}

impl From<&job::LeafSet> for Leaves {
    fn from(leaves: &job::LeafSet) -> Self {
        Self {
            unit: LengthUnit(leaves.unit),
            thicknesses: leaves.thicknesses.iter().map(Length::from).collect(),
            width: Length::from(&leaves.width),
            lead: leaves.lead,
            posture: leaves.posture,
            thickness_error: leaves.tolerance.as_ref().map(Length::from),
            feel: leaves.feel.as_ref().map(Length::from),
        }
    }
}

impl From<Leaves> for job::LeafSet {
    fn from(leaves: Leaves) -> Self {
        Self {
            unit: leaves.unit.0,
            thicknesses: leaves.thicknesses.into_iter().map(Into::into).collect(),
            width: leaves.width.into(),
            lead: leaves.lead,
            posture: leaves.posture,
            tolerance: leaves.thickness_error.map(Into::into),
            feel: leaves.feel.map(Into::into),
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Limits {
    least: Option<Length>,
    greatest: Option<Length>,
    #[serde(with = "Measure")]
    measure: job::Measure,
    page: String,
    rub_in: bool,
}

impl From<&job::Limits> for Limits {
    fn from(limits: &job::Limits) -> Self {
        Self {
            least: limits.least.as_ref().map(Length::from),
            greatest: limits.greatest.as_ref().map(Length::from),
            measure: limits.measure,
            page: limits.page.clone(),
            rub_in: limits.rub_in,
        }
    }
}

impl From<Limits> for job::Limits {
    fn from(limits: Limits) -> Self {
        Self {
            least: limits.least.map(Into::into),
            greatest: limits.greatest.map(Into::into),
            measure: limits.measure,
            page: limits.page,
            rub_in: limits.rub_in,
        }
    }
}

/// The braces of `LeafByLeaf` make serde refuse further fields there too.
#[derive(Serialize, Deserialize)]
#[serde(tag = "order", rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum Walk {
    LeafByLeaf {},
    /// From version 2.
    RoundFirst {},
    TwoLeaves {
        go: Length,
        no_go: Length,
    },
}

impl From<&job::Walk> for Walk {
    fn from(walk: &job::Walk) -> Self {
        match walk {
            job::Walk::LeafByLeaf => Self::LeafByLeaf {},
            job::Walk::RoundFirst => Self::RoundFirst {},
            job::Walk::TwoLeaves { go, no_go } => Self::TwoLeaves {
                go: go.into(),
                no_go: no_go.into(),
            },
        }
    }
}

impl From<Walk> for job::Walk {
    fn from(walk: Walk) -> Self {
        match walk {
            Walk::LeafByLeaf {} => Self::LeafByLeaf,
            Walk::RoundFirst {} => Self::RoundFirst,
            Walk::TwoLeaves { go, no_go } => Self::TwoLeaves {
                go: go.into(),
                no_go: no_go.into(),
            },
        }
    }
}
