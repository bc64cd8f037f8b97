//! The card of a joint: how tight, in which order, what to expect, and what to mind.

use std::fmt;

use joint::slip::{Comparison, Figure, Plausibility, Suspect, compare, plausibility};
use joint::turn::{self, Clamp, Verdict};
use joint::{Applied, Conversion, FrictionRange, Interval, Screw, Stated, Thread, pattern, strip};
use quantity::{Entered, Unit};

use crate::joints::{Face, Hole, Joint, Tightening, TorqueShown};
use crate::refusal::Refusal;

/// Error of a torque wrench above 10 N·m, and below: `iso-6789`, as quoted; not read.
const WRENCH: [f64; 2] = [0.04, 0.06];
/// Torque up to which a wrench may be off by more, `N m`.
const SMALL: f64 = 10.0;

/// Everything there is to say about a joint before it is touched.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Screw numbers in the order of tightening.
    pub order: Vec<usize>,
    /// Passes after the first by hand, as shares of the torque.
    pub passes: Vec<f64>,
    /// The torque to set; none for a turn, or where none is stated.
    pub torque: Option<f64>,
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

/// How the hole's thread stands against the screw.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Held so deep, the screw breaks before the hole strips.
    pub needed: Interval,
    /// The pull at which it strips, for the depth that was measured.
    pub at: Option<Interval>,
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
pub fn card(joint: &Joint) -> Option<Card> {
    let screw = screw(joint).ok()?;
    let mut card = Card {
        order: pattern::star(usize::from(joint.count)).ok()?,
        passes: match joint.face {
            Face::Gasket => pattern::GASKET.to_vec(),
            Face::Bare | Face::Sealant | Face::ORing => pattern::METAL_FACES.to_vec(),
        },
        torque: None,
        agrees: None,
        stop: None,
        expected: None,
        converted: None,
        strip: strip(joint, &screw.thread),
        turn: None,
        wrench: WRENCH[0],
    };
    match &joint.tightening {
        Tightening::Torque {
            figure,
            second,
            stated_for,
        } => {
            let stated = stated_for.friction();
            to_torque(&mut card, joint, (figure, second.as_ref()), &stated)?;
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
        Tightening::NotStated => {}
    }
    Some(card)
}

fn strip(joint: &Joint, thread: &Thread) -> Option<Strip> {
    if joint.hole != Hole::Aluminium {
        return None;
    }
    let held = joint.engagement.as_ref();
    Some(Strip {
        needed: strip::needed(thread, joint.class, strip::CASTING).ok()?,
        at: held.and_then(|held| strip::strips_at(thread, held.value, strip::CASTING).ok()),
    })
}

/// What there is to say of a torque.
fn to_torque(
    card: &mut Card,
    joint: &Joint,
    (figure, second): (&Entered, Option<&Entered>),
    stated: &FrictionRange,
) -> Option<()> {
    let screw = &screw(joint).ok()?;
    let found = &joint.condition.friction();
    card.torque = Some(figure.value);
    card.wrench = if figure.value > SMALL {
        WRENCH[0]
    } else {
        WRENCH[1]
    };
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
    let applied = Applied {
        torque: figure.value,
        error: card.wrench,
    };
    card.expected = Some(expected(joint, screw, applied, found)?);
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
pub(crate) fn shown(joint: &Joint) -> Option<TorqueShown> {
    let card = card(joint)?;
    let expected = card.expected?;
    Some(TorqueShown {
        torque: card.torque,
        preload_low: expected.preload.low,
        preload_high: expected.preload.high,
    })
}
