//! The card of a joint: how tight, in which order, what to expect, and what to mind.

mod even;
mod generic;
mod hole;
pub(crate) mod tool;

use std::fmt;

use joint::slip::{Comparison, Figure, Plausibility, Suspect, compare, plausibility};
use joint::tool::class_error;
use joint::turn::{self, Clamp, Verdict};
use joint::{Applied, Conversion, FrictionRange, Interval, Screw, Stated, Thread, pattern, strip};
use quantity::{Entered, Unit};

use crate::job::Job;
use crate::joints::{Face, Joint, JointState, Tightening, TorqueShown};
use crate::refusal::Refusal;

pub use even::{Even, WANTED};
pub use generic::{Generic, MARGIN, SHARE, Why};
pub use hole::{By, Held, Strip};
pub use tool::{Mark, Outside, Setting};

/// Everything there is to say about a joint before it is touched.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Screw numbers in the order of tightening.
    pub order: Vec<usize>,
    /// Passes after the first by hand, as shares of the torque.
    pub passes: Vec<f64>,
    /// The torque at the screw; none for a turn, or where there is none to go by.
    pub torque: Option<f64>,
    /// What may be offered where the manual states nothing; none where it states something.
    pub generic: Option<Generic>,
    /// What to set the chosen wrench to; none where none is chosen, or it will not do.
    pub setting: Option<Setting>,
    /// The person's wrenches that measure the torque.
    pub able: Vec<String>,
    /// The figure's second unit agrees; none where only one was stated.
    pub agrees: Option<bool>,
    /// Why the joint must not be torqued yet.
    pub stop: Option<Stop>,
    /// What to expect in each screw, for what is really on it.
    pub expected: Option<Expected>,
    /// The figure holds for another condition: what would give the same preload here.
    pub converted: Option<Conversion>,
    /// Whether the hole may strip; only in cast aluminium, where the thread's limits are known.
    pub strip: Option<Strip>,
    /// How deep the thread is held, where that is known.
    pub held: Option<Held>,
    /// How even the circle ends; none for a single screw.
    pub even: Option<Even>,
    /// How far the preloads scatter, half the width over the middle; only for a torque.
    pub scatter: Option<Interval>,
    /// A turn after contact.
    pub turn: Option<Turned>,
    /// Error of the wrench reckoned with.
    pub wrench: f64,
}

/// What a torque leaves in a screw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// Preload.
    pub preload: Interval,
    /// Share of yield used, tension and twist together.
    pub used: Interval,
}

/// What a turn after contact does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turned {
    /// The angle asked for.
    pub angle: f64,
    /// How far the screw comes forward.
    pub approach: f64,
    /// Angle that reaches half of yield.
    pub sensible: f64,
    /// Whether the angle is a good idea on this seat.
    pub verdict: Verdict,
}

/// What is wrong with the figure itself.
#[derive(Clone, Debug, PartialEq)]
pub enum Stop {
    /// The manual's two figures do not agree.
    Differ {
        /// The figures as typed.
        figures: (String, String),
        /// The slip that would explain it best.
        suspect: Option<Suspect>,
    },
    /// The figure is more than the screw bears.
    Above {
        /// The figure as typed.
        figure: String,
        /// What the screw bears.
        limit: f64,
    },
    /// The wrench chosen does not measure it.
    Wrench(Outside),
}

impl fmt::Display for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Differ {
                figures: (first, second),
                suspect,
            } => {
                write!(f, "The manual’s figures {first} and {second} do not agree")?;
                if let Some(suspect) = suspect {
                    let meant = quantity::format(suspect.torque, Unit::NewtonMetre, 1);
                    write!(f, "; one slip would explain it, and {meant} would be meant")?;
                }
                f.write_str(". Look them up again and mend one.")
            }
            Self::Above { figure, limit } => write!(
                f,
                "{figure} is more than this screw bears: at most {} at 90\u{a0}% of yield. Check \
                 size, class and unit.",
                quantity::format(*limit, Unit::NewtonMetre, 1)
            ),
            Self::Wrench(outside) => write!(f, "{outside}"),
        }
    }
}

impl Card {
    /// Passes after the one by hand: of a torque as many as its faces want, of a turn one.
    pub fn pass_count(&self) -> u8 {
        if self.torque.is_some() {
            u8::try_from(self.passes.len()).unwrap_or(u8::MAX)
        } else {
            1
        }
    }
}

/// The screw of a joint, or why there is none.
pub(crate) fn screw(joint: &Joint) -> Result<Screw, Refusal> {
    let thread: Result<Thread, joint::Error> = joint.thread.parse();
    let screw = thread.and_then(|thread| Screw::new(thread, joint.head));
    screw.map_err(|error| Refusal::BadThread { error })
}

/// The card; none for a joint that [`decide`](crate::decide::decide) would have refused.
pub fn card(job: &Job, state: &JointState) -> Option<Card> {
    let joint = &state.joint.value;
    let screw = screw(joint).ok()?;
    let order = pattern::star(usize::from(joint.count)).ok()?;
    let passes = match joint.face {
        Face::Gasket => pattern::GASKET.to_vec(),
        Face::Bare | Face::Sealant | Face::ORing => pattern::METAL_FACES.to_vec(),
    };
    let held = hole::held(joint, &screw.thread, &state.fittings);
    let mut card = Card {
        even: even::even(&order, &passes),
        order,
        passes,
        torque: None,
        generic: None,
        setting: None,
        able: Vec::new(),
        agrees: None,
        stop: None,
        expected: None,
        converted: None,
        strip: hole::strip(joint, &screw.thread, held.as_ref()),
        held,
        scatter: None,
        turn: None,
        wrench: class_error(f64::INFINITY),
    };
    match &joint.tightening {
        Tightening::Torque {
            figure,
            second,
            stated_for,
        } => {
            let stated = stated_for.friction();
            to_torque(
                &mut card,
                (joint, &screw),
                (figure, second.as_ref()),
                &stated,
            )?;
            with_wrench(&mut card, job, state, (figure.value, figure.unit));
        }
        Tightening::Turn { turn, seat, grip } => {
            let clamp = Clamp::of(grip.value, *seat);
            card.turn = Some(Turned {
                angle: turn.value,
                approach: turn::approach(screw.thread.pitch, turn.value).ok()?,
                sensible: turn::sensible_angle(&screw, joint.class, &clamp).ok()?,
                verdict: turn::verdict(&screw, joint.class, &clamp, turn.value).ok()?,
            });
        }
        Tightening::NotStated => {
            let role = state.fittings.role();
            let generic = generic::generic(joint, role, &screw, card.strip.as_ref());
            card.generic = Some(generic);
            if let Generic::Offered { torque, .. } = generic {
                card.torque = Some(torque);
                with_wrench(&mut card, job, state, (torque, Unit::NewtonMetre));
            }
        }
    }
    if let Some(torque) = card.torque {
        expect(&mut card, joint, &screw, torque)?;
    }
    Some(card)
}

/// The wrench to reckon with: the one chosen, else a sound one of which nothing is known.
fn with_wrench(card: &mut Card, job: &Job, state: &JointState, figure: (f64, Unit)) {
    // Of a wrench that is not known, the one that just reaches is the least exact.
    card.wrench = class_error(figure.0);
    let able = tool::able(job, figure.0).into_iter();
    card.able = able.map(|(_, name)| name).collect();
    let tool = state.fittings.tool.as_ref();
    match tool.and_then(|tool| tool::set(job, &tool.value, figure, &card.passes)) {
        Some(Ok(setting)) => {
            card.wrench = setting.applied.error;
            card.setting = Some(setting);
        }
        Some(Err(outside)) if card.stop.is_none() && !state.done() => {
            card.stop = Some(Stop::Wrench(outside));
        }
        _ => {}
    }
}

/// What a torque leaves in each screw, and what the hole makes of that.
fn expect(card: &mut Card, joint: &Joint, screw: &Screw, torque: f64) -> Option<()> {
    let applied = Applied {
        torque,
        error: card.wrench,
    };
    let expected = expected(joint, screw, applied, &joint.condition.friction())?;
    card.expected = Some(expected);
    card.scatter = even::scatter(card.wrench);
    if let Some(strip) = &mut card.strip {
        strip.margin = strip
            .at
            .and_then(|at| strip::margin(at, expected.preload).ok());
    }
    Some(())
}

/// What there is to say of a torque.
fn to_torque(
    card: &mut Card,
    (joint, screw): (&Joint, &Screw),
    (figure, second): (&Entered, Option<&Entered>),
    stated: &FrictionRange,
) -> Option<()> {
    let found = &joint.condition.friction();
    card.torque = Some(figure.value);
    if let Some(second) = second {
        let compared = compare(&printed(figure), &printed(second)).ok()?;
        card.agrees = Some(compared == Comparison::Agree);
        card.stop = differ((figure, second), compared, |torque| {
            let figure = Figure {
                torque,
                ..printed(figure)
            };
            above(joint, figure, screw, stated).is_none()
        });
    }
    if card.stop.is_none() {
        let limit = above(joint, printed(figure), screw, stated);
        card.stop = limit.map(|limit| Stop::Above {
            figure: figure.worded(),
            limit,
        });
    }
    if *stated != *found {
        let stated = Stated {
            torque: figure.value,
            friction: *stated,
        };
        card.converted = joint::convert(screw, joint.class, &stated, found).ok();
    }
    Some(())
}

fn expected(
    joint: &Joint,
    screw: &Screw,
    applied: Applied,
    found: &FrictionRange,
) -> Option<Expected> {
    Some(Expected {
        preload: joint::preload_range(screw, applied, found).ok()?,
        used: joint::utilisation(screw, joint.class, applied, found).ok()?,
    })
}

/// Two figures that do not agree, with the nearest slip that leads to a torque the screw bears.
pub(crate) fn differ(
    figures: (&Entered, &Entered),
    compared: Comparison,
    bears: impl Fn(f64) -> bool,
) -> Option<Stop> {
    let Comparison::Differ { suspects, .. } = compared else {
        return None;
    };
    Some(Stop::Differ {
        figures: (figures.0.worded(), figures.1.worded()),
        suspect: suspects.into_iter().find(|suspect| bears(suspect.torque)),
    })
}

/// What the screw bears, where the figure is beyond it whatever the friction of its condition.
fn above(joint: &Joint, figure: Figure, screw: &Screw, stated: &FrictionRange) -> Option<f64> {
    match plausibility(&figure, screw, joint.class, stated) {
        Ok(Plausibility::Above { limit, .. }) => Some(limit),
        _ => None,
    }
}

/// The figure with half a unit of its last printed place.
pub(crate) fn printed(entered: &Entered) -> Figure {
    let number = entered
        .text
        .trim()
        .trim_end_matches(|c: char| !c.is_ascii_digit());
    let places = number
        .rsplit_once(['.', ','])
        .map_or(0, |(_, places)| places.len());
    let one = entered.value / entered.unit.from_si(entered.value);
    let places = i32::try_from(places).unwrap_or(0);
    Figure {
        torque: entered.value,
        rounding: 0.5 * one * 10_f64.powi(-places),
        unit: entered.unit,
    }
}

/// What is put on record when screws of this joint are torqued.
pub(crate) fn shown(job: &Job, state: &JointState) -> Option<TorqueShown> {
    let card = card(job, state)?;
    let expected = card.expected?;
    Some(TorqueShown {
        torque: card.torque,
        preload_low: expected.preload.low,
        preload_high: expected.preload.high,
    })
}
