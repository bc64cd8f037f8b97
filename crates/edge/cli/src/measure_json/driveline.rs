//! Whether engine and pump are in line.

use clearance::Estimated;
use schemars::JsonSchema;
use serde::Serialize;
use workshop::draft::inspect::words::WAYS;
use workshop::draft::word;
use workshop::inspect::align::{self, Doubt, Limited};
use workshop::job::Job;

use super::Verdict;

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Driveline {
    /// How it was read: `slides`, `bar` or `dials`.
    way: &'static str,
    /// In line, not in line, or neither can be said.
    verdict: Verdict,
    /// Why nothing can be said; null where nothing stands against it.
    doubt: Option<DoubtName>,
    /// Where the engine's shaft stands at the coupling; null where the bar only slides.
    offset: Option<Offset>,
    /// How it goes on forward; null where no angle was read.
    slope: Option<Slope>,
    /// The manual's limits, each with the probability that it is kept.
    held: Vec<Held>,
    /// How every mount must move; empty where it cannot be said.
    mounts: Vec<Mount>,
    /// What remains with the shims at hand; null where none are named.
    left: Option<Left>,
    /// The page of the manual; empty when not said.
    page: String,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum DoubtName {
    /// Four readings do not close.
    Open,
    /// One place of the shaft does not fit the others.
    Misfit,
    NoSag,
    NoLimit,
    NoPage,
    NoAngle,
    TooClose,
}

/// Up and to port; below zero down and to starboard. Uncertainties are standard uncertainties.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[expect(clippy::struct_field_names, reason = "the keys carry the unit")]
struct Offset {
    up_m: f64,
    up_uncertainty_m: f64,
    port_m: f64,
    port_uncertainty_m: f64,
}

/// Climbing and going to port forward.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[expect(clippy::struct_field_names, reason = "the keys carry the unit")]
struct Slope {
    up_rad: f64,
    up_uncertainty_rad: f64,
    port_rad: f64,
    port_uncertainty_rad: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case", tag = "what", deny_unknown_fields)]
enum Held {
    Offset {
        limit_m: f64,
        #[schemars(range(min = 0, max = 1))]
        probability_within: Option<f64>,
        verdict: Verdict,
    },
    Angle {
        limit_rad: f64,
        #[schemars(range(min = 0, max = 1))]
        probability_within: Option<f64>,
        verdict: Verdict,
    },
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Mount {
    /// Its name.
    name: String,
    /// How it must move.
    moves: Offset,
    /// Thickness of the shims under it when it was read.
    now_m: f64,
    /// Thickness of the stack at hand that comes nearest; null where no shims are named.
    stack_m: Option<f64>,
    /// The shims of that stack.
    shims_m: Vec<f64>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Left {
    /// High, below zero low, at the coupling.
    offset_m: f64,
    /// Climbing forward.
    slope_rad: f64,
    /// Held against the manual's limits.
    held: Vec<Held>,
}

fn verdict(verdict: clearance::Verdict) -> Verdict {
    match verdict {
        clearance::Verdict::In => Verdict::In,
        clearance::Verdict::Out => Verdict::Out,
        clearance::Verdict::Undecided => Verdict::Undecided,
    }
}

fn offset([up, port]: [Estimated; 2]) -> Offset {
    Offset {
        up_m: up.value,
        up_uncertainty_m: up.uncertainty,
        port_m: port.value,
        port_uncertainty_m: port.uncertainty,
    }
}

fn slope([up, port]: [Estimated; 2]) -> Slope {
    Slope {
        up_rad: up.value,
        up_uncertainty_rad: up.uncertainty,
        port_rad: port.value,
        port_uncertainty_rad: port.uncertainty,
    }
}

fn held(held: &[align::Held]) -> Vec<Held> {
    let one = |held: &align::Held| match held.what {
        Limited::Offset => Held::Offset {
            limit_m: held.limit,
            probability_within: held.within,
            verdict: verdict(held.verdict),
        },
        Limited::Angle => Held::Angle {
            limit_rad: held.limit,
            probability_within: held.within,
            verdict: verdict(held.verdict),
        },
    };
    held.iter().map(one).collect()
}

/// What is said of it now.
pub(super) fn of(job: &Job) -> Option<Driveline> {
    let said = &job.inspected.alignment.as_ref()?.value;
    let answer = align::answer(said)?;
    let mount = |told: &align::MountMove| {
        let stack = told.stack.as_ref();
        let shims = stack.map_or(&[][..], |stack| &stack.shims);
        Mount {
            name: told.name.clone(),
            moves: offset([told.up, told.port]),
            now_m: told.now,
            stack_m: stack.map(|stack| stack.thickness),
            shims_m: shims.iter().map(|shim| said.shims[*shim].value).collect(),
        }
    };
    Some(Driveline {
        way: word(&WAYS, said.read.way()),
        verdict: verdict(answer.verdict),
        doubt: answer.doubt.map(|doubt| match doubt {
            Doubt::Open(..) => DoubtName::Open,
            Doubt::Misfit(..) => DoubtName::Misfit,
            Doubt::NoSag => DoubtName::NoSag,
            Doubt::NoLimit => DoubtName::NoLimit,
            Doubt::NoPage => DoubtName::NoPage,
            Doubt::NoAngle => DoubtName::NoAngle,
            Doubt::Close => DoubtName::TooClose,
        }),
        offset: answer.offset.map(offset),
        slope: answer.slope.map(slope),
        held: held(&answer.held),
        mounts: answer.moves.iter().map(mount).collect(),
        left: answer.left.as_ref().map(|left| Left {
            offset_m: left.rest.offset,
            slope_rad: left.rest.slope,
            held: held(&left.held),
        }),
        page: said.page.clone(),
    })
}
