//! A joint as typed.

use joint::{Class, Condition, Head, Seat};
use quantity::Unit;

use super::{Choice, choose, count, length, optional, typed, word};
use crate::joints::{Face, Fastened, Hole, Joint, JointState, Pass, Tightening};
use crate::refusal::Refusal;

/// The words for [`Head`].
pub const HEADS: [Choice<Head>; 2] = [("hex", Head::Hex), ("socket", Head::Socket)];
/// The words for [`Class`].
pub const CLASSES: [Choice<Class>; 6] = [
    ("stainless-70", Class::Stainless70),
    ("stainless-80", Class::Stainless80),
    ("stainless-50", Class::Stainless50),
    ("stainless-unmarked", Class::StainlessUnmarked),
    ("8.8", Class::Steel8_8),
    ("10.9", Class::Steel10_9),
];
/// The words for [`Hole`].
pub const HOLES: [Choice<Hole>; 5] = [
    ("aluminium", Hole::Aluminium),
    ("steel", Hole::Steel),
    ("brass-insert", Hole::Brass),
    ("laminate-insert", Hole::Laminate),
    ("plastic", Hole::Plastic),
];
/// The words for [`Condition`].
pub const CONDITIONS: [Choice<Condition>; 7] = [
    ("dry", Condition::Dry),
    ("light-oil", Condition::LightOil),
    ("grease", Condition::Grease),
    ("anti-seize", Condition::AntiSeize),
    ("threadlocker", Condition::Threadlocker),
    ("ptfe-paste", Condition::PtfePaste),
    ("unknown", Condition::Unknown),
];
/// The words for [`Face`].
pub const FACES: [Choice<Face>; 4] = [
    ("bare", Face::Bare),
    ("sealant", Face::Sealant),
    ("gasket", Face::Gasket),
    ("o-ring", Face::ORing),
];
/// The words for [`Seat`].
pub const SEATS: [Choice<Seat>; 3] = [
    ("metal", Seat::MetalLip),
    ("plastic", Seat::PlasticLip),
    ("rubber", Seat::Rubber),
];

/// [`Joint`] as typed. A torque, or a turn with its seat and grip, or neither.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct JointDraft {
    /// What it joins.
    pub name: String,
    /// Designation of the thread.
    pub thread: String,
    /// A word of [`HEADS`].
    pub head: String,
    /// How many screws.
    pub count: String,
    /// A word of [`CLASSES`].
    pub class: String,
    /// A word of [`HOLES`].
    pub hole: String,
    /// How deep the thread is held; a bare number is millimetres. May be empty.
    pub engagement: String,
    /// The manual's torque; a bare number is newton metres. May be empty.
    pub torque: String,
    /// The same in the manual's other unit. May be empty.
    pub second: String,
    /// A word of [`CONDITIONS`]: what the figure holds for.
    pub stated_for: String,
    /// A turn after contact; a bare number is turns. May be empty.
    pub turn: String,
    /// A word of [`SEATS`], with a turn.
    pub seat: String,
    /// Thickness of what is clamped, with a turn; a bare number is millimetres.
    pub grip: String,
    /// A word of [`CONDITIONS`]: what is really on thread and head.
    pub condition: String,
    /// A word of [`FACES`].
    pub face: String,
    /// Page of the manual. May be empty.
    pub page: String,
}

/// [`Fastened`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FastenedDraft {
    /// How many are in.
    pub in_place: String,
    /// How many of these are torqued.
    pub torqued: String,
    /// How many of these are marked.
    pub marked: String,
    /// They are stand-ins.
    pub temporary: bool,
    /// The pass under way before the last; empty when none is.
    pub pass: String,
    /// How many screws have had it.
    pub gone: String,
}

impl JointDraft {
    /// The draft that reads as `joint`.
    pub fn of(joint: &Joint) -> Self {
        let mut draft = Self {
            name: joint.name.clone(),
            thread: joint.thread.clone(),
            head: word(&HEADS, joint.head).to_owned(),
            count: joint.count.to_string(),
            class: word(&CLASSES, joint.class).to_owned(),
            hole: word(&HOLES, joint.hole).to_owned(),
            engagement: (joint.engagement.as_ref())
                .map_or_else(String::new, |held| typed(held, Unit::Millimetre)),
            condition: word(&CONDITIONS, joint.condition).to_owned(),
            face: word(&FACES, joint.face).to_owned(),
            page: joint.page.clone(),
            ..Self::default()
        };
        match &joint.tightening {
            Tightening::Torque {
                figure,
                second,
                stated_for,
            } => {
                draft.torque = typed(figure, Unit::NewtonMetre);
                let second = second.as_ref();
                draft.second = second.map_or_else(String::new, |s| typed(s, Unit::PoundForceFoot));
                word(&CONDITIONS, *stated_for).clone_into(&mut draft.stated_for);
            }
            Tightening::Turn { turn, seat, grip } => {
                draft.turn = typed(turn, Unit::Turn);
                word(&SEATS, *seat).clone_into(&mut draft.seat);
                draft.grip = typed(grip, Unit::Millimetre);
            }
            Tightening::NotStated => {}
        }
        draft
    }

    /// Reads it.
    pub fn read(&self) -> Result<Joint, Refusal> {
        Ok(Joint {
            name: self.name.trim().to_owned(),
            thread: self.thread.trim().to_owned(),
            head: choose("head", &self.head, &HEADS)?,
            count: count("count", &self.count, "a number of screws from 1 to 32")?,
            class: choose("class", &self.class, &CLASSES)?,
            hole: choose("hole", &self.hole, &HOLES)?,
            engagement: optional("engagement", &self.engagement, Unit::Millimetre)?,
            tightening: self.tightening()?,
            condition: choose("condition", &self.condition, &CONDITIONS)?,
            face: choose("face", &self.face, &FACES)?,
            page: self.page.trim().to_owned(),
        })
    }

    fn tightening(&self) -> Result<Tightening, Refusal> {
        let given = |text: &str| !text.trim().is_empty();
        if given(&self.torque) && given(&self.turn) {
            return Err(Refusal::TwoWays { field: "turn" });
        }
        if given(&self.torque) {
            return Ok(Tightening::Torque {
                figure: length("torque", &self.torque, Unit::NewtonMetre)?,
                second: optional("second", &self.second, Unit::PoundForceFoot)?,
                stated_for: choose("stated_for", &self.stated_for, &CONDITIONS)?,
            });
        }
        if given(&self.second) {
            return Err(Refusal::Empty { field: "torque" });
        }
        if given(&self.turn) {
            return Ok(Tightening::Turn {
                turn: length("turn", &self.turn, Unit::Turn)?,
                seat: choose("seat", &self.seat, &SEATS)?,
                grip: length("grip", &self.grip, Unit::Millimetre)?,
            });
        }
        Ok(Tightening::NotStated)
    }
}

impl FastenedDraft {
    /// The draft that reads as what a joint has come to.
    pub fn of(state: &JointState) -> Self {
        let (in_place, torqued, marked) = state.counts();
        let temporary = state
            .fastened
            .as_ref()
            .is_some_and(|fact| fact.value.temporary);
        let fastened = state.fastened.as_ref().map(|fact| &fact.value);
        let pass = fastened.and_then(|fastened| fastened.pass);
        let number = |n: Option<u8>| n.map_or_else(String::new, |n| n.to_string());
        let [in_place, torqued, marked] = [in_place, torqued, marked].map(|n| n.to_string());
        Self {
            in_place,
            torqued,
            marked,
            temporary,
            pass: number(pass.map(|pass| pass.number)),
            gone: number(pass.map(|pass| pass.screws)),
        }
    }

    /// Reads it. What was told is put in by [`decide`](crate::decide::decide).
    pub fn read(&self) -> Result<Fastened, Refusal> {
        let screws = "a number of screws, 0 for none";
        Ok(Fastened {
            in_place: count("in", &self.in_place, screws)?,
            torqued: count("torqued", &self.torqued, screws)?,
            marked: count("marked", &self.marked, screws)?,
            temporary: self.temporary,
            pass: if self.pass.is_empty() {
                None
            } else {
                Some(Pass {
                    number: count("pass", &self.pass, "the number of a pass, from 1")?,
                    screws: count("gone", &self.gone, screws)?,
                })
            },
            shown: None,
        })
    }
}
