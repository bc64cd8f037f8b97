//! What a person's tools are, and what was found at a joint beyond its description: the torque
//! wrenches, the one chosen for a joint, the hole as a depth gauge finds it, what sort of joint it is.

use quantity::{Entered, Unit};

use crate::entry::Key;
use crate::job::{Fact, Job};

/// One of these is said.
#[derive(Clone, Debug, PartialEq)]
pub enum Tooling {
    /// A torque wrench as its scale tells it.
    WrenchDescribed {
        /// Names it within the job.
        key: Key,
        /// What was said.
        wrench: Wrench,
    },
    /// The wrench a joint is tightened with.
    ToolChosen {
        /// The joint.
        joint: Key,
        /// The wrench and what it carries.
        tool: Tool,
    },
    /// The hole of a joint, measured.
    HoleMeasured {
        /// The joint.
        joint: Key,
        /// What was measured.
        hole: Depth,
    },
    /// What sort of joint it is.
    RoleSaid {
        /// The joint.
        joint: Key,
        /// The sort.
        role: Role,
    },
}

/// A torque wrench as its scale tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct Wrench {
    /// What the person calls it.
    pub name: String,
    /// The unit of its scale.
    pub scale: Unit,
    /// Lowest marked torque.
    pub least: Entered,
    /// Greatest marked torque.
    pub most: Entered,
    /// From mark to mark; none for one that is set at the factory.
    pub step: Option<Entered>,
}

/// What a joint is tightened with.
#[derive(Clone, Debug, PartialEq)]
pub struct Tool {
    /// The wrench.
    pub wrench: Key,
    /// What carries its square away from the screw.
    pub adapter: Option<Adapter>,
}

/// An adapter in the plane of the handle, as measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Adapter {
    /// From the middle of the hand to the square.
    pub lever: Entered,
    /// From the square to the screw.
    pub offset: Entered,
    /// Between the two: 0 straight out, half a turn back over the handle.
    pub angle: Entered,
}

/// A hole as a depth gauge finds it.
#[derive(Clone, Debug, PartialEq)]
pub struct Depth {
    /// How far the screw goes into the hole with the parts together.
    pub reach: Entered,
    /// Depth of good thread in the hole, from its mouth.
    pub threaded: Entered,
    /// Of that, not held at the mouth.
    pub lost: Entered,
    /// Nominal length of the wire insert in it, where there is one.
    pub insert: Option<Entered>,
}

/// What sort of joint it is, as far as a figure may be taken from anywhere but the craft's manual.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// It holds a cover, a plate, a bracket.
    Ordinary,
    /// It holds the impeller.
    Impeller,
    /// It holds the stator.
    Stator,
}

/// A wrench of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct WrenchState {
    /// The position of its first description; wrenches stand in this order.
    pub since: u64,
    /// What was described last.
    pub wrench: Fact<Wrench>,
}

/// What was said of a joint beyond its description.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fittings {
    /// The wrench chosen.
    pub tool: Option<Fact<Tool>>,
    /// The hole measured.
    pub hole: Option<Fact<Depth>>,
    /// What sort of joint it is.
    pub role: Option<Fact<Role>>,
}

impl Wrench {
    /// The wrench in numbers.
    pub(crate) fn numbers(&self) -> joint::tool::Wrench {
        joint::tool::Wrench {
            least: self.least.value,
            most: self.most.value,
            step: self.step.as_ref().map_or(0.0, |step| step.value),
        }
    }
}

impl Adapter {
    /// The adapter in numbers.
    pub(crate) fn numbers(&self) -> joint::tool::Adapter {
        joint::tool::Adapter {
            lever: self.lever.value,
            offset: self.offset.value,
            angle: self.angle.value,
        }
    }
}

impl Depth {
    /// The hole in numbers.
    pub(crate) fn numbers(&self) -> joint::strip::Reach {
        joint::strip::Reach {
            reach: self.reach.value,
            threaded: self.threaded.value,
            lost: self.lost.value,
        }
    }
}

impl Fittings {
    /// What sort of joint it is, where that was said.
    pub fn role(&self) -> Option<Role> {
        self.role.as_ref().map(|fact| fact.value)
    }
}

impl Job {
    /// The wrenches in the order they were first described.
    pub fn wrenches_in_order(&self) -> Vec<(&Key, &Wrench)> {
        let mut wrenches: Vec<_> = self.wrenches.iter().collect();
        wrenches.sort_by_key(|(_, state)| state.since);
        let told = wrenches.into_iter();
        told.map(|(key, state)| (key, &state.wrench.value))
            .collect()
    }
}
