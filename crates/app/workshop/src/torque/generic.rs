//! A figure for an ordinary joint of which no manual is at hand: computed, and marked assumed.

use std::fmt;

use joint::tool::class_error;
use joint::{Applied, Condition, FrictionRange, Screw, preload_range, strip, utilisation};

use super::hole::Strip;
use crate::joints::{Face, Hole, Joint};
use crate::tools::Role;

/// Share of yield, tension and twist together, that the slipperiest thread may use.
///
/// Source: `budynas-nisbett`, 8-9, preloads a joint that is opened again to three quarters of the
/// proof load; twist is counted here as well, so the preload stays below that.
pub const SHARE: f64 = 0.75;

/// How many times the preload the hole must bear at its worst. Common practice, no source: a
/// corroded hole is worse than a sound one.
pub const MARGIN: f64 = 1.25;

/// What may be offered without a manual.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Generic {
    /// A torque, rounded down to two digits.
    Offered {
        /// The torque, `N m`.
        torque: f64,
        /// The hole allows no more, though the screw would.
        by_hole: bool,
    },
    /// Nothing.
    Withheld(Why),
}

/// Why there is no generic figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// Nobody said what sort of joint it is.
    NotSaid,
    /// It holds the impeller.
    Impeller,
    /// It holds the stator.
    Stator,
    /// Its name speaks of one of the two.
    Named,
    /// Nobody can say what is on the thread.
    Condition,
    /// What a gasket bears is not known.
    Gasket,
    /// What its hole bears is not known.
    Holder,
    /// How deep the thread is held is not known.
    NotMeasured,
    /// The limits of its thread are not known, and so not when the hole strips.
    NoLimits,
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotSaid => {
                "No generic figure is offered before it is said below what sort of joint this is."
            }
            Self::Impeller => "For the impeller there is no figure but that of the craft’s manual.",
            Self::Stator => "For the stator there is no figure but that of the craft’s manual.",
            Self::Named => {
                "Its name speaks of the impeller or the stator, and for those there is no figure but \
                 that of the craft’s manual. If it is neither, name it by what it is."
            }
            Self::Condition => {
                "No generic figure without knowing what is on the thread: clean it, put on what \
                 belongs there, and say so."
            }
            Self::Gasket => "No generic figure for a gasket: what it bears is not known here.",
            Self::Holder => {
                "No generic figure for such a hole: an insert in laminate pulls out or spins before \
                 a screw yields, and plastic creeps."
            }
            Self::NotMeasured => {
                "No generic figure before the hole is measured: in cast aluminium it may strip first."
            }
            Self::NoLimits => {
                "No generic figure for this thread in cast aluminium: when the hole strips is known \
                 here for M5, M6, M8 and M10, coarse, only."
            }
        })
    }
}

pub(super) fn generic(
    joint: &Joint,
    role: Option<Role>,
    screw: &Screw,
    strip: Option<&Strip>,
) -> Generic {
    match permitted(joint, role, strip) {
        Err(why) => Generic::Withheld(why),
        Ok(strip) => reckon(joint, screw, strip).unwrap_or(Generic::Withheld(Why::Condition)),
    }
}

/// The strength of the hole, where it counts; or why there is no figure.
fn permitted<'a>(
    joint: &Joint,
    role: Option<Role>,
    strip: Option<&'a Strip>,
) -> Result<Option<&'a Strip>, Why> {
    let name = joint.name.to_lowercase();
    match role {
        None => return Err(Why::NotSaid),
        Some(Role::Impeller) => return Err(Why::Impeller),
        Some(Role::Stator) => return Err(Why::Stator),
        Some(Role::Ordinary) if ["impeller", "stator"].iter().any(|of| name.contains(of)) => {
            return Err(Why::Named);
        }
        Some(Role::Ordinary) => {}
    }
    if joint.condition == Condition::Unknown {
        return Err(Why::Condition);
    }
    if joint.face == Face::Gasket {
        return Err(Why::Gasket);
    }
    match (joint.hole, strip) {
        (Hole::Steel, _) => Ok(None),
        (Hole::Aluminium, None) => Err(Why::NoLimits),
        (Hole::Aluminium, Some(strip)) if strip.at.is_none() => Err(Why::NotMeasured),
        (Hole::Aluminium, strip) => Ok(strip),
        (Hole::Brass | Hole::Laminate | Hole::Plastic, _) => Err(Why::Holder),
    }
}

/// Use of yield and preload both grow with the torque, so one newton metre gives the rates.
fn reckon(joint: &Joint, screw: &Screw, strip: Option<&Strip>) -> Option<Generic> {
    let friction: FrictionRange = joint.condition.friction();
    let one = Applied {
        torque: 1.0,
        // The least exact wrench: nothing is known of the one that will be used.
        error: class_error(0.0),
    };
    let used = utilisation(screw, joint.class, one, &friction).ok()?;
    let by_screw = SHARE / used.high;
    let by_hole = match strip.and_then(|strip| strip.at) {
        Some(at) => {
            let preload = preload_range(screw, one, &friction).ok()?;
            strip::margin(at, preload).ok()?.low / MARGIN
        }
        None => f64::INFINITY,
    };
    Some(Generic::Offered {
        torque: down(by_screw.min(by_hole)),
        by_hole: by_hole < by_screw,
    })
}

/// Rounded down to two digits: never more than was reckoned.
fn down(torque: f64) -> f64 {
    let scale = 10_f64.powf(1.0 - torque.log10().floor());
    (torque * scale).floor() / scale
}
