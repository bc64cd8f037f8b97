//! What diameters, the ring's material and the shims at hand say of the gap.

use clearance::cone::{Seat, Shim, Stack, radial_change, stack};
use clearance::thermal::{Fitted, Holding, Metal, Polymer, Ride, gap_change};
use clearance::{Error, Interval};

use super::{Cone, RingSeat, Sizes};
use crate::draft::inspect::words::POLYMERS;
use crate::gap::Shown;
use crate::job::{Job, Measure};

/// A change of the gap below this is lost in the leaves, `m`. Assumed, no source.
pub const MATTERS: f64 = 0.000_01;
/// The most a shim is off what is marked on it, `m`. Assumed, no source.
pub const SHIM: f64 = 0.000_005;

/// What the diameters say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Diameters {
    /// Mean of the bores.
    pub mean: f64,
    /// Greatest less least bore.
    pub oval: f64,
    /// How many bores were read.
    pub count: usize,
    /// Half of the mean bore less the impeller's diameter.
    pub gap: Option<f64>,
}

/// The diameters, if any bore was read.
pub fn diameters(sizes: &Sizes) -> Option<Diameters> {
    let bores: Vec<f64> = sizes
        .bores
        .iter()
        .flatten()
        .map(|bore| bore.value)
        .collect();
    let count = bores.len();
    let ends = bores
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), bore| {
            (low.min(*bore), high.max(*bore))
        });
    let number = f64::from(u32::try_from(count).ok().filter(|count| *count > 0)?);
    let mean = bores.iter().sum::<f64>() / number;
    let impeller = sizes.impeller.as_ref();
    Some(Diameters {
        mean,
        oval: ends.1 - ends.0,
        count,
        gap: impeller.map(|(diameter, _)| 0.5 * (mean - diameter.value)),
    })
}

/// What the gap becomes in the water ridden in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InWater {
    /// Change of the radial gap.
    pub change: Interval,
    /// The least gap then, where a result is taken.
    pub least: Option<Interval>,
}

/// Where the ring is of plastic, all is known that is asked for, and it matters.
pub fn in_water(job: &Job) -> Option<InWater> {
    let ring = &job.inspected.ring.as_ref()?.value;
    let holding = match ring.seat {
        RingSeat::MetalPressed | RingSeat::Cast => return None,
        RingSeat::PlasticPressed | RingSeat::PlasticBonded => Holding::Held,
        RingSeat::PlasticLoose => Holding::Free,
    };
    let (wall, bench, water) = (
        ring.wall.as_ref()?,
        ring.bench.as_ref()?,
        ring.water.as_ref()?,
    );
    let bore = 0.5 * job.pump.as_ref()?.value.bore.value;
    let ride = Ride {
        warmer: water.value - bench.value,
        soaked: Interval {
            low: 0.0,
            high: if ring.soaked { 0.0 } else { 1.0 },
        },
    };
    let polymers: Vec<Polymer> = match ring.polymer {
        Some(polymer) => vec![polymer],
        None => POLYMERS.map(|(_, polymer)| polymer).to_vec(),
    };
    let changes = polymers.into_iter().map(|polymer| {
        let fitted = Fitted {
            polymer,
            bore,
            outside: bore + wall.value,
            holding,
            housing: Metal::Aluminium,
            impeller: ring.impeller,
        };
        gap_change(&fitted, ride).ok()
    });
    let change = changes
        .collect::<Option<Vec<_>>>()?
        .into_iter()
        .reduce(|all, one| Interval {
            low: all.low.min(one.low),
            high: all.high.max(one.high),
        })?;
    let taken = job.accepted.as_ref().map(|fact| fact.value.least);
    (change.low.abs().max(change.high.abs()) >= MATTERS).then_some(InWater {
        change,
        least: taken.map(|least| Interval {
            low: least.low + change.low,
            high: least.high + change.high,
        }),
    })
}

/// What can be said of the shims.
#[derive(Clone, Debug, PartialEq)]
pub enum Shims {
    /// This stack brings the mean gap nearest to the middle of the manual's limits.
    Stack(Stack),
    /// No stack of those at hand does: one between these thicknesses is missing.
    Missing {
        /// The least.
        low: f64,
        /// The greatest.
        high: f64,
    },
    /// The gap is not taken, or the manual's limits are not both stated as radial.
    Unknown,
}

/// Which shims to put in, where the ring is conical.
pub fn shims(job: &Job) -> Option<Shims> {
    let cone = &job.inspected.cone.as_ref()?.value;
    Some(suggested(job, cone).unwrap_or(Shims::Unknown))
}

fn suggested(job: &Job, cone: &Cone) -> Option<Shims> {
    let taken: &Shown = &job.accepted.as_ref()?.value;
    let limits = &job.limits.as_ref()?.value;
    let allowed = Interval {
        low: limits.least.as_ref()?.value,
        high: limits.greatest.as_ref()?.value,
    };
    if limits.measure != Measure::Radial {
        return None;
    }
    let by_stack = radial_change(cone.fitted.value, cone.half_angle.value).ok()?;
    let by_stack = if cone.opens { by_stack } else { -by_stack };
    let seat = Seat {
        bare: Interval {
            low: taken.mean.low - by_stack,
            high: taken.mean.high - by_stack,
        },
        half_angle: cone.half_angle.value,
        opens: cone.opens,
    };
    let at_hand: Vec<Shim> = cone
        .shims
        .iter()
        .map(|shim| Shim {
            thickness: shim.value,
            tolerance: SHIM,
        })
        .collect();
    let wanted = f64::midpoint(allowed.low, allowed.high);
    match stack(&seat, &at_hand, wanted, allowed) {
        Ok(stack) => Some(Shims::Stack(stack)),
        Err(Error::NoStack { low, high, .. }) => Some(Shims::Missing { low, high }),
        Err(_) => None,
    }
}
