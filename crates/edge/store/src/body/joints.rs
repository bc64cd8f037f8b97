//! Joints as described, and how far their screws have come.

use serde::{Deserialize, Serialize};
use workshop::draft::{CLASSES, CONDITIONS, FACES, HEADS, HOLES, SEATS, word};
use workshop::entry::{Body, Key};
use workshop::joints;

use super::typed::{Angle, Length, Torque};
use super::{key, of};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Described {
    joint: String,
    name: String,
    thread: String,
    head: String,
    count: u8,
    class: String,
    hole: String,
    /// From version 2.
    #[serde(default)]
    engagement: Option<Length>,
    tightening: Tightening,
    condition: String,
    face: String,
    page: String,
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "to", rename_all = "kebab-case", deny_unknown_fields)]
enum Tightening {
    Torque {
        figure: Torque,
        second: Option<Torque>,
        stated_for: String,
    },
    Turn {
        turn: Angle,
        seat: String,
        grip: Length,
    },
    NotStated {},
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Fastened {
    joint: String,
    in_place: u8,
    torqued: u8,
    marked: u8,
    temporary: bool,
    /// From version 2.
    #[serde(default)]
    pass: Option<Pass>,
    shown: Option<Shown>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Pass {
    number: u8,
    screws: u8,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shown {
    torque_n_m: Option<f64>,
    preload_low_n: f64,
    preload_high_n: f64,
}

impl Described {
    pub(super) fn new(key: &Key, joint: &joints::Joint) -> Self {
        Self {
            joint: key.to_string(),
            name: joint.name.clone(),
            thread: joint.thread.clone(),
            head: word(&HEADS, joint.head).to_owned(),
            count: joint.count,
            class: word(&CLASSES, joint.class).to_owned(),
            hole: word(&HOLES, joint.hole).to_owned(),
            engagement: joint.engagement.as_ref().map(Length::from),
            tightening: match &joint.tightening {
                joints::Tightening::Torque {
                    figure,
                    second,
                    stated_for,
                } => Tightening::Torque {
                    figure: figure.into(),
                    second: second.as_ref().map(Torque::from),
                    stated_for: word(&CONDITIONS, *stated_for).to_owned(),
                },
                joints::Tightening::Turn { turn, seat, grip } => Tightening::Turn {
                    turn: turn.into(),
                    seat: word(&SEATS, *seat).to_owned(),
                    grip: grip.into(),
                },
                joints::Tightening::NotStated => Tightening::NotStated {},
            },
            condition: word(&CONDITIONS, joint.condition).to_owned(),
            face: word(&FACES, joint.face).to_owned(),
            page: joint.page.clone(),
        }
    }
}

impl TryFrom<Described> for Body {
    type Error = String;

    fn try_from(stored: Described) -> Result<Self, String> {
        let key = key(&stored.joint)?;
        let tightening = match stored.tightening {
            Tightening::Torque {
                figure,
                second,
                stated_for,
            } => joints::Tightening::Torque {
                figure: figure.into(),
                second: second.map(Into::into),
                stated_for: of(&CONDITIONS, &stated_for)?,
            },
            Tightening::Turn { turn, seat, grip } => joints::Tightening::Turn {
                turn: turn.into(),
                seat: of(&SEATS, &seat)?,
                grip: grip.into(),
            },
            Tightening::NotStated {} => joints::Tightening::NotStated,
        };
        let joint = joints::Joint {
            name: stored.name,
            thread: stored.thread,
            head: of(&HEADS, &stored.head)?,
            count: stored.count,
            class: of(&CLASSES, &stored.class)?,
            hole: of(&HOLES, &stored.hole)?,
            engagement: stored.engagement.map(Into::into),
            tightening,
            condition: of(&CONDITIONS, &stored.condition)?,
            face: of(&FACES, &stored.face)?,
            page: stored.page,
        };
        Ok(Self::JointDescribed { key, joint })
    }
}

impl Fastened {
    pub(super) fn new(key: &Key, fastened: &joints::Fastened) -> Self {
        Self {
            joint: key.to_string(),
            in_place: fastened.in_place,
            torqued: fastened.torqued,
            marked: fastened.marked,
            temporary: fastened.temporary,
            pass: fastened.pass.map(|pass| Pass {
                number: pass.number,
                screws: pass.screws,
            }),
            shown: fastened.shown.map(|shown| Shown {
                torque_n_m: shown.torque,
                preload_low_n: shown.preload_low,
                preload_high_n: shown.preload_high,
            }),
        }
    }
}

impl TryFrom<Fastened> for Body {
    type Error = String;

    fn try_from(stored: Fastened) -> Result<Self, String> {
        let key = key(&stored.joint)?;
        let fastened = joints::Fastened {
            in_place: stored.in_place,
            torqued: stored.torqued,
            marked: stored.marked,
            temporary: stored.temporary,
            pass: stored.pass.map(|pass| joints::Pass {
                number: pass.number,
                screws: pass.screws,
            }),
            shown: stored.shown.map(|shown| joints::TorqueShown {
                torque: shown.torque_n_m,
                preload_low: shown.preload_low_n,
                preload_high: shown.preload_high_n,
            }),
        };
        Ok(Self::JointFastened { key, fastened })
    }
}
