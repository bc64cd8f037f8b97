//! Tools, and what is found at a joint, as typed.

use std::collections::BTreeMap;

use quantity::{Entered, Unit, parse};

use super::{Choice, choose, length, optional, typed, word};
use crate::act::Act;
use crate::entry::{Body, Key};
use crate::job::Job;
use crate::joints::JointState;
use crate::refusal::{Refusal, Snag};
use crate::tools::{Adapter, Depth, Fittings, Role, Tool, Tooling, Wrench};

/// The units a torque wrench may be marked in.
pub const SCALES: [Choice<Unit>; 5] = [
    ("N·m", Unit::NewtonMetre),
    ("lbf·ft", Unit::PoundForceFoot),
    ("lbf·in", Unit::PoundForceInch),
    ("kgf·m", Unit::KilogramForceMetre),
    ("kgf·cm", Unit::KilogramForceCentimetre),
];
/// The words for [`Role`].
pub const ROLES: [Choice<Role>; 3] = [
    ("ordinary", Role::Ordinary),
    ("impeller", Role::Impeller),
    ("stator", Role::Stator),
];

/// [`Wrench`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WrenchDraft {
    /// What it is called.
    pub name: String,
    /// A word of [`SCALES`], or the unit written another way.
    pub scale: String,
    /// Lowest mark; a bare number is in the unit of the scale.
    pub least: String,
    /// Greatest mark.
    pub most: String,
    /// From mark to mark. May be empty.
    pub step: String,
}

/// [`Tool`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ToolDraft {
    /// Key of the wrench.
    pub wrench: String,
    /// Hand to square; a bare number is millimetres. May be empty.
    pub lever: String,
    /// Square to screw; a bare number is millimetres. May be empty.
    pub offset: String,
    /// Between the two; a bare number is degrees. May be empty.
    pub angle: String,
}

/// [`Depth`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DepthDraft {
    /// How far the screw goes in; a bare number is millimetres.
    pub reach: String,
    /// Depth of good thread.
    pub threaded: String,
    /// Not held at the mouth.
    pub lost: String,
    /// Nominal length of a wire insert. May be empty.
    pub insert: String,
}

/// What is said of a joint beyond its description, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FittingsDraft {
    /// A word of [`ROLES`]. May be empty.
    pub role: String,
    /// The hole.
    pub hole: Option<DepthDraft>,
    /// The wrench.
    pub tool: Option<ToolDraft>,
}

/// The tools of a job as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ToolsDraft {
    /// The wrenches, by key.
    pub wrenches: Vec<(String, WrenchDraft)>,
    /// What is said of the joints, by their keys.
    pub joints: BTreeMap<String, FittingsDraft>,
}

impl WrenchDraft {
    /// The draft that reads as `wrench`.
    pub fn of(wrench: &Wrench) -> Self {
        let read = |entered: &Entered| typed(entered, wrench.scale);
        Self {
            name: wrench.name.clone(),
            scale: word(&SCALES, wrench.scale).to_owned(),
            least: read(&wrench.least),
            most: read(&wrench.most),
            step: wrench.step.as_ref().map_or_else(String::new, read),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Wrench, Refusal> {
        let scale = self.scale()?;
        Ok(Wrench {
            name: self.name.trim().to_owned(),
            scale,
            least: length("least", &self.least, scale)?,
            most: length("most", &self.most, scale)?,
            step: optional("step", &self.step, scale)?,
        })
    }

    /// The unit, also where it is written another way than the word for it, such as `ft-lb`.
    fn scale(&self) -> Result<Unit, Refusal> {
        let one = parse(&format!("1 {}", self.scale.trim()), Unit::NewtonMetre);
        match one {
            Ok(one) if !one.is_bare() => Ok(one.unit),
            _ => choose("scale", &self.scale, &SCALES),
        }
    }
}

impl ToolDraft {
    /// The draft that reads as `tool`.
    pub fn of(tool: &Tool) -> Self {
        let mut draft = Self {
            wrench: tool.wrench.to_string(),
            ..Self::default()
        };
        if let Some(adapter) = &tool.adapter {
            draft.lever = typed(&adapter.lever, Unit::Millimetre);
            draft.offset = typed(&adapter.offset, Unit::Millimetre);
            draft.angle = typed(&adapter.angle, Unit::Degree);
        }
        draft
    }

    /// Reads it.
    pub fn read(&self) -> Result<Tool, Refusal> {
        if self.wrench.trim().is_empty() {
            return Err(Refusal::Empty { field: "wrench" });
        }
        Ok(Tool {
            wrench: Key::new(self.wrench.trim())?,
            adapter: self.adapter()?,
        })
    }

    fn adapter(&self) -> Result<Option<Adapter>, Refusal> {
        let figures = [
            ("lever", &self.lever),
            ("offset", &self.offset),
            ("angle", &self.angle),
        ];
        let empty = |(_, text): &&(_, &String)| text.trim().is_empty();
        match figures.iter().filter(empty).count() {
            3 => return Ok(None),
            0 => {}
            _ => {
                let field = figures.iter().find(empty).map_or("lever", |(name, _)| name);
                return Err(Refusal::Tooled(Snag::HalfAnAdapter { field }));
            }
        }
        Ok(Some(Adapter {
            lever: length("lever", &self.lever, Unit::Millimetre)?,
            offset: length("offset", &self.offset, Unit::Millimetre)?,
            angle: length("angle", &self.angle, Unit::Degree)?,
        }))
    }
}

impl DepthDraft {
    /// The draft that reads as `hole`.
    pub fn of(hole: &Depth) -> Self {
        let mm = |entered: &Entered| typed(entered, Unit::Millimetre);
        Self {
            reach: mm(&hole.reach),
            threaded: mm(&hole.threaded),
            lost: mm(&hole.lost),
            insert: hole.insert.as_ref().map_or_else(String::new, mm),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Depth, Refusal> {
        Ok(Depth {
            reach: length("reach", &self.reach, Unit::Millimetre)?,
            threaded: length("threaded", &self.threaded, Unit::Millimetre)?,
            lost: length("lost", &self.lost, Unit::Millimetre)?,
            insert: optional("insert", &self.insert, Unit::Millimetre)?,
        })
    }
}

/// A [`Role`] as typed.
pub fn role(text: &str) -> Result<Role, Refusal> {
    choose("role", text, &ROLES)
}

impl FittingsDraft {
    /// The draft that reads as what is said of a joint.
    pub fn of(fittings: &Fittings) -> Self {
        let (hole, tool) = (fittings.hole.as_ref(), fittings.tool.as_ref());
        Self {
            role: (fittings.role()).map_or_else(String::new, |role| word(&ROLES, role).to_owned()),
            hole: hole.map(|fact| DepthDraft::of(&fact.value)),
            tool: tool.map(|fact| ToolDraft::of(&fact.value)),
        }
    }

    /// Without what belongs to one craft, or one bench.
    pub(super) fn card(self) -> Self {
        Self {
            role: self.role,
            ..Self::default()
        }
    }

    /// Whether anything in it is refused by itself, and why.
    pub fn refused(&self) -> Option<Refusal> {
        let role = (!self.role.is_empty()).then(|| role(&self.role).err());
        let hole = self.hole.as_ref().map(|hole| hole.read().err());
        let tool = self.tool.as_ref().map(|tool| tool.read().err());
        [role, hole, tool].into_iter().flatten().flatten().next()
    }
}

impl ToolsDraft {
    /// The draft of what `job` says.
    pub fn of(job: &Job) -> Self {
        let wrenches = job.wrenches_in_order().into_iter();
        let joints = job.joints.iter();
        let said = joints.map(|(key, state)| (key, FittingsDraft::of(&state.fittings)));
        let said = said.filter(|(_, said)| *said != FittingsDraft::default());
        Self {
            wrenches: wrenches
                .map(|(key, wrench)| (key.to_string(), WrenchDraft::of(wrench)))
                .collect(),
            joints: said.map(|(key, said)| (key.to_string(), said)).collect(),
        }
    }

    /// Without what belongs to one craft, or one bench.
    pub(super) fn card(self) -> Self {
        let joints = self.joints.into_iter();
        let joints = joints.map(|(key, said)| (key, said.card()));
        let joints = joints.filter(|(_, said)| *said != FittingsDraft::default());
        Self {
            wrenches: Vec::new(),
            joints: joints.collect(),
        }
    }

    /// The wrenches that the job does not have so.
    pub(super) fn new_wrenches(&self, job: &Job) -> Result<Vec<Act>, Refusal> {
        let mut acts = Vec::new();
        for (key, draft) in &self.wrenches {
            let (key, wrench) = (Key::new(key)?, draft.read()?);
            let had = job.wrenches.get(&key).map(|state| &state.wrench.value);
            if had.map(WrenchDraft::of) != Some(WrenchDraft::of(&wrench)) {
                acts.push(record(Tooling::WrenchDescribed { key, wrench }));
            }
        }
        Ok(acts)
    }

    /// What the job does not have so of a joint, in the order that it is needed.
    pub(super) fn of_joint(
        &self,
        key: &Key,
        had: Option<&JointState>,
    ) -> Result<Vec<Act>, Refusal> {
        let Some(draft) = self.joints.get(key.as_str()) else {
            return Ok(Vec::new());
        };
        let had = had.map(|state| FittingsDraft::of(&state.fittings));
        let had = had.unwrap_or_default();
        let mut acts = Vec::new();
        if !draft.role.is_empty() {
            let role = role(&draft.role)?;
            if had.role != word(&ROLES, role) {
                let joint = key.clone();
                acts.push(record(Tooling::RoleSaid { joint, role }));
            }
        }
        if let Some(hole) = &draft.hole {
            let hole = hole.read()?;
            if had.hole != Some(DepthDraft::of(&hole)) {
                let joint = key.clone();
                acts.push(record(Tooling::HoleMeasured { joint, hole }));
            }
        }
        if let Some(tool) = &draft.tool {
            let tool = tool.read()?;
            if had.tool != Some(ToolDraft::of(&tool)) {
                let joint = key.clone();
                acts.push(record(Tooling::ToolChosen { joint, tool }));
            }
        }
        Ok(acts)
    }
}

fn record(said: Tooling) -> Act {
    Act::Record(Body::Tooled(said))
}
