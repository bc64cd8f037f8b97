//! Torque wrenches, and what is said of a joint beyond its description.

use quantity::Unit;
use serde::{Deserialize, Serialize};
use workshop::draft::tools::{ROLES, SCALES};
use workshop::draft::word;
use workshop::entry::{Body, Key};
use workshop::tools::{self, Tooling};

use super::typed::{Angle, Length, Torque};
use super::{Encoded, Fault, key, of, read, whole, write};

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Tooling) -> Result<Encoded, Fault> {
    match said {
        Tooling::WrenchDescribed { key, wrench } => {
            write("wrench-described", &Described::new(key, wrench))
        }
        Tooling::ToolChosen { joint, tool } => write("tool-chosen", &Tool::new(joint, tool)),
        Tooling::HoleMeasured { joint, hole } => write("hole-measured", &Hole::new(joint, hole)),
        Tooling::RoleSaid { joint, role } => {
            let role = Role {
                joint: joint.to_string(),
                role: word(&ROLES, *role).to_owned(),
            };
            write("joint-role", &role)
        }
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("wrench-described", 1) => of_json::<Described>(json),
        ("tool-chosen", 1) => of_json::<Tool>(json),
        ("hole-measured", 1) => of_json::<Hole>(json),
        ("joint-role", 1) => of_json::<Role>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Tooling: TryFrom<T, Error = String>,
{
    let said = read::<T>(json)?;
    whole(Tooling::try_from(said).map(Body::Tooled))
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Described {
    wrench: String,
    name: String,
    scale: String,
    least: Torque,
    most: Torque,
    step: Option<Torque>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Tool {
    joint: String,
    wrench: String,
    adapter: Option<Adapter>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Adapter {
    lever: Length,
    offset: Length,
    angle: Angle,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Hole {
    joint: String,
    reach: Length,
    threaded: Length,
    lost: Length,
    insert: Option<Length>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Role {
    joint: String,
    role: String,
}

impl Described {
    fn new(key: &Key, wrench: &tools::Wrench) -> Self {
        Self {
            wrench: key.to_string(),
            name: wrench.name.clone(),
            scale: word(&SCALES, wrench.scale).to_owned(),
            least: (&wrench.least).into(),
            most: (&wrench.most).into(),
            step: wrench.step.as_ref().map(Torque::from),
        }
    }
}

impl TryFrom<Described> for Tooling {
    type Error = String;

    fn try_from(stored: Described) -> Result<Self, String> {
        let scale: Unit = of(&SCALES, &stored.scale)?;
        let wrench = tools::Wrench {
            name: stored.name,
            scale,
            least: stored.least.into(),
            most: stored.most.into(),
            step: stored.step.map(Into::into),
        };
        let key = key(&stored.wrench)?;
        Ok(Self::WrenchDescribed { key, wrench })
    }
}

impl Tool {
    fn new(joint: &Key, tool: &tools::Tool) -> Self {
        Self {
            joint: joint.to_string(),
            wrench: tool.wrench.to_string(),
            adapter: tool.adapter.as_ref().map(|adapter| Adapter {
                lever: (&adapter.lever).into(),
                offset: (&adapter.offset).into(),
                angle: (&adapter.angle).into(),
            }),
        }
    }
}

impl TryFrom<Tool> for Tooling {
    type Error = String;

    fn try_from(stored: Tool) -> Result<Self, String> {
        let tool = tools::Tool {
            wrench: key(&stored.wrench)?,
            adapter: stored.adapter.map(|adapter| tools::Adapter {
                lever: adapter.lever.into(),
                offset: adapter.offset.into(),
                angle: adapter.angle.into(),
            }),
        };
        let joint = key(&stored.joint)?;
        Ok(Self::ToolChosen { joint, tool })
    }
}

impl Hole {
    fn new(joint: &Key, hole: &tools::Depth) -> Self {
        Self {
            joint: joint.to_string(),
            reach: (&hole.reach).into(),
            threaded: (&hole.threaded).into(),
            lost: (&hole.lost).into(),
            insert: hole.insert.as_ref().map(Length::from),
        }
    }
}

impl TryFrom<Hole> for Tooling {
    type Error = String;

    fn try_from(stored: Hole) -> Result<Self, String> {
        let hole = tools::Depth {
            reach: stored.reach.into(),
            threaded: stored.threaded.into(),
            lost: stored.lost.into(),
            insert: stored.insert.map(Into::into),
        };
        let joint = key(&stored.joint)?;
        Ok(Self::HoleMeasured { joint, hole })
    }
}

impl TryFrom<Role> for Tooling {
    type Error = String;

    fn try_from(stored: Role) -> Result<Self, String> {
        let joint = key(&stored.joint)?;
        let role = of(&ROLES, &stored.role)?;
        Ok(Self::RoleSaid { joint, role })
    }
}
