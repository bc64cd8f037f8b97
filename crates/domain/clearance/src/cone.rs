//! A conical impeller in a conical ring: the gap is set along the shaft, with shims.

use std::f64::consts::FRAC_PI_2;

use crate::error::{finite, not_negative, positive, within};
use crate::{Error, Interval, real};

/// Radial change of the gap when a conical impeller moves along its shaft.
///
/// `dr = dz tan(b)`
///
/// The gap square to the cone's surface, in which a leaf lies flat, changes by `dz sin(b)`.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `axial` | dz | movement away from the narrow end of the ring | `m` |
/// | `half_angle` | b | between the cone's surface and its axis | `rad` |
/// | returns | dr | what is added to the radial gap | `m` |
///
/// Range: `0 < b < PI / 2`.
/// Source: definition.
///
/// # Errors
/// [`Error::Outside`].
pub fn radial_change(axial: f64, half_angle: f64) -> Result<f64, Error> {
    Ok(finite("the axial movement", axial)? * slope(half_angle)?)
}

fn slope(half_angle: f64) -> Result<f64, Error> {
    if half_angle > 0.0 && half_angle < FRAC_PI_2 {
        Ok(half_angle.tan())
    } else {
        Err(Error::Outside {
            what: "the half angle of the cone",
            value: half_angle,
            low: 0.0,
            high: FRAC_PI_2,
        })
    }
}

/// How the gap answers to shims.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `bare` | radial gap without any shim, as an interval | `m` |
/// | `half_angle` | between the cone's surface and its axis | `rad` |
/// | `opens` | whether a thicker stack opens the gap, or closes it | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// Radial gap without any shim.
    pub bare: Interval,
    /// Between the cone's surface and its axis.
    pub half_angle: f64,
    /// Whether a thicker stack opens the gap.
    pub opens: bool,
}

/// One shim at hand.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `thickness` | as measured or marked | `m` |
/// | `tolerance` | most it is off, either way | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shim {
    /// As measured or marked.
    pub thickness: f64,
    /// Most it is off, either way.
    pub tolerance: f64,
}

/// A stack of shims and the gap it gives.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// Which of the shims at hand, counted from zero.
    pub shims: Vec<usize>,
    /// Thickness of the stack, in `m`.
    pub thickness: f64,
    /// The radial gap it gives, in `m`.
    pub gap: Interval,
}

/// Most shims at hand: the search looks at every stack of them.
const MOST: usize = 16;
/// Stacks nearer to each other than this are the same: rounding, far below any shim's tolerance.
const SAME: f64 = 1e-9;

/// The stack of the shims at hand that brings the middle of the gap nearest to a wanted value.
///
/// `g = bare +- sum t_i tan(b)`; of equally good stacks the one of fewest shims, then the first
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `seat` | bare, b | how the gap answers | |
/// | `shims` | t | every shim at hand, the fitted ones too | `m` |
/// | `wanted` | | radial gap to come nearest to | `m` |
/// | `allowed` | | where the middle of the gap may come to lie | `m` |
///
/// Range: at most 16 shims, `allowed` around `wanted`; whether the whole interval keeps a limit is
/// asked of [`Band`](crate::Band) afterwards.
/// Source: definition.
///
/// # Errors
/// [`Error::NoStack`] with the stack that is missing; [`Error::Outside`], [`Error::NotPositive`],
/// [`Error::Negative`].
pub fn stack(seat: &Seat, shims: &[Shim], wanted: f64, allowed: Interval) -> Result<Stack, Error> {
    check(seat, shims, wanted, allowed)?;
    let per_shim = slope(seat.half_angle)? * if seat.opens { 1.0 } else { -1.0 };
    let middle = 0.5 * (seat.bare.low + seat.bare.high);
    let gap = |thickness: f64| middle + thickness * per_shim;
    // Whole steps of rounding, so that equal stacks compare as equal.
    let off = |thickness: f64| ((gap(thickness) - wanted).abs() / SAME).round();
    let best = (0..1_u32 << shims.len())
        .map(|chosen| (off(thickness(shims, chosen)), chosen.count_ones(), chosen))
        .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)).then(a.2.cmp(&b.2)))
        .map_or(0, |(_, _, chosen)| chosen);
    let sum = thickness(shims, best);
    let ends = [allowed.low, allowed.high].map(|gap| (gap - middle) / per_shim);
    let needed = Interval::around(ends);
    if sum < needed.low - SAME || sum > needed.high + SAME {
        return Err(Error::NoStack {
            low: needed.low,
            high: needed.high,
            nearest: sum,
        });
    }
    let at = taken(shims.len(), best);
    let tolerance: f64 = at.iter().map(|&i| shims[i].tolerance).sum();
    let loose = tolerance * per_shim.abs();
    Ok(Stack {
        gap: Interval {
            low: seat.bare.low + sum * per_shim - loose,
            high: seat.bare.high + sum * per_shim + loose,
        },
        shims: at,
        thickness: sum,
    })
}

fn taken(count: usize, chosen: u32) -> Vec<usize> {
    (0..count).filter(|i| chosen >> i & 1 == 1).collect()
}

fn thickness(shims: &[Shim], chosen: u32) -> f64 {
    let at = taken(shims.len(), chosen);
    at.iter().map(|&i| shims[i].thickness).sum()
}

fn check(seat: &Seat, shims: &[Shim], wanted: f64, allowed: Interval) -> Result<(), Error> {
    let Interval { low, high } = seat.bare;
    finite("the gap without shims", low)?;
    finite("the gap without shims", high)?;
    within("the gap without shims", high, low, f64::INFINITY)?;
    if shims.len() > MOST {
        return Err(Error::Outside {
            what: "the number of shims at hand",
            value: real(shims.len()),
            low: 0.0,
            high: real(MOST),
        });
    }
    for shim in shims {
        positive("the thickness of a shim", shim.thickness)?;
        not_negative("the tolerance of a shim", shim.tolerance)?;
    }
    not_negative("the least gap allowed", allowed.low)?;
    finite("the greatest gap allowed", allowed.high)?;
    within("the gap wanted", wanted, allowed.low, allowed.high)?;
    Ok(())
}
