//! What must be in its place in the end, and is easily forgotten.

use super::{Opens, Plan};
use crate::entry::Key;

/// A tool that a step holds while it is worked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tool {
    /// Names it within the plan.
    pub key: Key,
    /// In the person's words.
    pub name: String,
    /// How many there are.
    pub count: u16,
}

/// Something that must be in its place, or off the craft again, when the job is closed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Names it within the plan.
    pub key: Key,
    /// In the person's words.
    pub name: String,
    /// What it is.
    pub kind: ItemKind,
    /// How many there are.
    pub count: u16,
    /// The step that puts it there, or takes it off.
    pub step: Option<Key>,
}

/// What is accounted for at the end. Fasteners of a step and of a joint are counted there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ItemKind {
    /// A drain or filler plug.
    Plug,
    /// A clip, clamp or circlip.
    Clip,
    /// A hose or line.
    Hose,
    /// A cable or linkage.
    Cable,
    /// A guard, grate or cover.
    Guard,
    /// A plug or lead of a sensor.
    Sensor,
    /// Something that must come off again: a rag, a cap, a stand-in, a tag.
    Temporary,
    /// Something else.
    Other,
}

impl Item {
    /// The readiness it holds up while it is not accounted for: that of its step. Without a step,
    /// what keeps water out or in, what steers and stops, what is left in the pump, and what keeps
    /// hands out hold up floating; the rest holds up closing. Common practice, no source.
    pub fn opens(&self, plan: &Plan) -> Opens {
        let step = self.step.as_ref().and_then(|step| plan.place(step));
        match (step, self.kind) {
            (Some(step), _) => plan.steps[step].opens,
            (None, ItemKind::Sensor | ItemKind::Other) => Opens::Closed,
            (None, _) => Opens::Float,
        }
    }
}

impl ItemKind {
    /// All, in the order they are gone through.
    pub const ALL: [Self; 8] = [
        Self::Plug,
        Self::Clip,
        Self::Hose,
        Self::Cable,
        Self::Guard,
        Self::Sensor,
        Self::Temporary,
        Self::Other,
    ];
}
