//! The wrench, the hole and the evenness of a joint, for other programs.

use joint::Interval;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::tools::ROLES;
use workshop::draft::word;
use workshop::joints::JointState;
use workshop::torque::{By, Card, Generic};

/// What the card says beyond figure, preload and order.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Bench {
    /// What sort of joint it is: ordinary, impeller or stator.
    role: Option<&'static str>,
    /// The torque is a generic one, assumed, not the manual's.
    assumed: bool,
    /// What to set the chosen wrench to.
    setting: Option<Setting>,
    /// How deep the thread is held.
    held: Option<Held>,
    /// Half width of the preloads' scatter over their middle.
    scatter: Option<Share>,
    /// How even the circle ends, by a model in which each neighbour loses a share of every gain.
    even: Option<Even>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Setting {
    /// The wrench by its name.
    wrench: String,
    /// The unit of its scale.
    scale: &'static str,
    /// The mark to set.
    mark_n_m: f64,
    /// The same in the unit of the scale.
    mark_on_scale: f64,
    /// How far off it may be, as a share.
    error: f64,
    /// The mark of each pass.
    passes_n_m: Vec<f64>,
    /// Whether the wrench measures that pass.
    passes_measured: Vec<bool>,
    /// What the figure's bare number would give on this scale; null where both have one unit.
    crossed_n_m: Option<f64>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Held {
    length_m: f64,
    /// How it is known: typed, hole or insert.
    by: &'static str,
    /// Held so deep, the screw breaks before its thread strips; null where that is not known.
    needed: Option<Length>,
    /// The pull at which it strips.
    strips: Option<super::Force>,
    /// How many times over it bears the preload.
    margin: Option<Share>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Length {
    low_m: f64,
    high_m: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Share {
    low: f64,
    high: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Even {
    /// What the loosest screw lacks after each pass, as a share.
    lacks: Vec<f64>,
    /// The same after a single pass at whole torque.
    once: f64,
    /// Passes that leave no screw lacking more than 2 %.
    worth: Option<usize>,
    /// Worst tilting moment of the star, over one screw's.
    star: f64,
    /// The same going round.
    round: f64,
}

fn share(Interval { low, high }: Interval) -> Share {
    Share { low, high }
}

impl Bench {
    pub(super) fn of(state: &JointState, card: Option<&Card>) -> Self {
        let role = state.fittings.role();
        let generic = card.and_then(|card| card.generic.as_ref());
        let even = card.and_then(|card| card.even.as_ref());
        Self {
            role: role.map(|role| word(&ROLES, role)),
            assumed: matches!(generic, Some(Generic::Offered { .. })),
            setting: card.and_then(setting),
            held: card.and_then(held),
            scatter: card.and_then(|card| card.scatter).map(share),
            even: even.map(|even| Even {
                lacks: even.lacks.clone(),
                once: even.once,
                worth: even.worth,
                star: even.star,
                round: even.round,
            }),
        }
    }
}

fn setting(card: &Card) -> Option<Setting> {
    let setting = card.setting.as_ref()?;
    let passes = &setting.passes;
    Some(Setting {
        wrench: setting.wrench.clone(),
        scale: setting.scale.symbol(),
        mark_n_m: setting.mark,
        mark_on_scale: setting.scale.from_si(setting.mark),
        error: setting.applied.error,
        passes_n_m: passes.iter().map(|pass| pass.mark).collect(),
        passes_measured: passes.iter().map(|pass| pass.measured).collect(),
        crossed_n_m: setting.crossed,
    })
}

fn held(card: &Card) -> Option<Held> {
    let held = card.held?;
    Some(Held {
        length_m: held.length,
        by: match held.by {
            By::Typed => "typed",
            By::Hole { .. } => "hole",
            By::Insert { .. } => "insert",
        },
        needed: card.strip.map(|strip| Length {
            low_m: strip.needed.low,
            high_m: strip.needed.high,
        }),
        strips: card.strip.and_then(|strip| strip.at).map(super::force),
        margin: card.strip.and_then(|strip| strip.margin).map(share),
    })
}
