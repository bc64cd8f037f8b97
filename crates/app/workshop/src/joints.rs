//! Joints: what holds the pump together, what the manual says of each, and how far each has come.

use joint::{Class, Condition, Head, Seat};
use quantity::Entered;

use crate::entry::Key;
use crate::job::{Fact, Job};
use crate::tools::Fittings;

/// A joint of equal screws.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// What it joins, in the person's words.
    pub name: String,
    /// The thread by its designation, as typed: `M8`, `M10x1.25`.
    pub thread: String,
    /// The kind of head.
    pub head: Head,
    /// How many screws.
    pub count: u8,
    /// What is stamped on the heads.
    pub class: Class,
    /// What the screws go into.
    pub hole: Hole,
    /// How deep the thread of a screw is held, where that was measured.
    pub engagement: Option<Entered>,
    /// How they are tightened.
    pub tightening: Tightening,
    /// What is really on the thread and under the head.
    pub condition: Condition,
    /// What lies between the faces.
    pub face: Face,
    /// Where in the craft's manual; empty when not said.
    pub page: String,
}

/// What a screw goes into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hole {
    /// A tapped hole in cast aluminium.
    Aluminium,
    /// A nut or a tapped hole of steel.
    Steel,
    /// A brass insert.
    Brass,
    /// An insert in laminate.
    Laminate,
    /// Plastic.
    Plastic,
}

/// What lies between the faces of a joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// Metal on metal.
    Bare,
    /// A bead or a film of sealant.
    Sealant,
    /// A gasket.
    Gasket,
    /// An O-ring in its groove.
    ORing,
}

/// How the screws are tightened.
#[derive(Clone, Debug, PartialEq)]
pub enum Tightening {
    /// To a torque of the craft's manual.
    Torque {
        /// The figure.
        figure: Entered,
        /// The same in the other unit the manual prints.
        second: Option<Entered>,
        /// The condition of thread and head the figure holds for.
        stated_for: Condition,
    },
    /// To contact, and then a fraction of a turn.
    Turn {
        /// The fraction.
        turn: Entered,
        /// What the head seats on.
        seat: Seat,
        /// Thickness of what is clamped.
        grip: Entered,
    },
    /// Nothing is known yet.
    NotStated,
}

/// How far the screws of a joint have come. A screw that is torqued is in, one that is marked is
/// torqued.
#[derive(Clone, Debug, PartialEq)]
pub struct Fastened {
    /// How many are in, by hand.
    pub in_place: u8,
    /// How many of these are torqued.
    pub torqued: u8,
    /// How many of these carry their paint mark.
    pub marked: u8,
    /// How far the passes before the last have come. In the last, screws count as torqued.
    pub pass: Option<Pass>,
    /// They are stand-ins, to be replaced before the joint counts.
    pub temporary: bool,
    /// What was told when screws were torqued.
    pub shown: Option<TorqueShown>,
}

/// A pass round the circle that is under way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pass {
    /// Which pass, from 1.
    pub number: u8,
    /// How many screws have had it, in the order of tightening.
    pub screws: u8,
}

/// What a person was told when they torqued a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TorqueShown {
    /// The torque asked for; none for a turn.
    pub torque: Option<f64>,
    /// Least preload to expect.
    pub preload_low: f64,
    /// Greatest preload to expect.
    pub preload_high: f64,
}

/// A joint of the job, with how far it has come.
#[derive(Clone, Debug, PartialEq)]
pub struct JointState {
    /// The position of its first description; joints stand in this order.
    pub since: u64,
    /// What was described last.
    pub joint: Fact<Joint>,
    /// The latest count.
    pub fastened: Option<Fact<Fastened>>,
    /// Its wrench, its hole, what sort of joint it is.
    pub fittings: Fittings,
}

impl JointState {
    /// Every screw in, torqued and marked, none of them a stand-in.
    pub fn done(&self) -> bool {
        let count = self.joint.value.count;
        self.fastened
            .as_ref()
            .is_some_and(|f| f.value.marked == count && !f.value.temporary)
    }

    /// The pass under way, of so many, and how far it has come; none before all screws are in and
    /// when all are torqued.
    pub fn under_way(&self, passes: u8) -> Option<Pass> {
        let count = self.joint.value.count;
        let fastened = &self.fastened.as_ref()?.value;
        if fastened.in_place < count || fastened.temporary || fastened.torqued == count {
            return None;
        }
        if fastened.torqued > 0 {
            return Some(Pass {
                number: passes,
                screws: fastened.torqued,
            });
        }
        let pass = fastened.pass.unwrap_or(Pass {
            number: 1,
            screws: 0,
        });
        Some(if pass.screws == count {
            Pass {
                number: pass.number + 1,
                screws: 0,
            }
        } else {
            pass
        })
    }

    /// How many are in, torqued and marked.
    pub fn counts(&self) -> (u8, u8, u8) {
        let fastened = self.fastened.as_ref().map(|fact| &fact.value);
        fastened.map_or((0, 0, 0), |f| (f.in_place, f.torqued, f.marked))
    }
}

impl Job {
    /// The joints in the order they were first described.
    pub fn joints_in_order(&self) -> Vec<(&Key, &JointState)> {
        let mut joints: Vec<_> = self.joints.iter().collect();
        joints.sort_by_key(|(_, state)| state.since);
        joints
    }
}
