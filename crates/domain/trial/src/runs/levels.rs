//! Where the speed of a log stands at one level.

use super::{Options, Piece};
use crate::segment::{changes, median, noise, real};
use crate::smooth::{Motion, motion, polynomial};
use crate::{Error, Sample};

/// Seconds a smoother looks to either side. Source: common practice, no source.
pub(super) const SIDE: f64 = 1.0;
/// Steps that differ by less than this share are equal.
const EQUAL: f64 = 0.02;
/// Readings a second that are enough to find levels by.
const RATE: f64 = 2.0;
/// How many times dearer a change is than plain noise would ask. Source: common practice, no source.
const SAFETY: f64 = 2.5;
/// Unrest of the acceleration, m^2/s^5: a launch of some m/s^2 within a second. Source: common practice, no
/// source.
const UNREST: f64 = 4.0;
/// Fewest readings of a level.
const LEAST: usize = 2;
/// Share of it below which no level is looked for.
const SLOW: f64 = 0.7;

/// The fast parts of a piece, cut where the speed changes its level.
pub(super) fn levels<'a>(
    piece: &'a Piece,
    options: &Options,
    floor: f64,
) -> Result<Vec<&'a [Sample]>, Error> {
    let samples = &piece.samples;
    let (smoothed, every) = smoothed(samples, options)?;
    let step = usual_step(samples) * real(every);
    let grid: Vec<f64> = smoothed.iter().step_by(every).copied().collect();
    let speeds: Vec<f64> = samples.iter().map(|s| s.speed).collect();
    if grid.len() < 2 * LEAST {
        return Ok(vec![&samples[..]]);
    }
    // A change that a run may hold unnoticed is not worth a cut: its price is that of splitting a run of the
    // shortest length in halves that differ by twice the scatter allowed.
    let noise = noise(&speeds)?;
    let by_noise = 2.0 * noise * noise * real(grid.len()).ln() * SAFETY;
    let by_limit = options.shortest / step * options.scatter * options.scatter;
    let mut from = 0;
    let mut parts = Vec::new();
    // What is slow is no run, and hours of it need no cutting.
    let fast = |speed: &f64| *speed >= SLOW * floor;
    for part in grid.chunk_by(|a, b| fast(a) == fast(b)) {
        if fast(&part[0]) && part.len() >= LEAST {
            let mut begin = from * every;
            for end in changes(part, by_noise.max(by_limit), LEAST)? {
                let to = ((from + end) * every).min(samples.len());
                parts.push(&samples[begin..to]);
                begin = to;
            }
        }
        from += part.len();
    }
    Ok(parts)
}

pub(super) fn usual_step(samples: &[Sample]) -> f64 {
    let mut steps: Vec<f64> = samples.windows(2).map(|w| w[1].time - w[0].time).collect();
    median(&mut steps)
}

/// Smoothed speeds, and every how many of them are enough to find levels by.
fn smoothed(samples: &[Sample], options: &Options) -> Result<(Vec<f64>, usize), Error> {
    let speeds: Vec<f64> = samples.iter().map(|s| s.speed).collect();
    let step = usual_step(samples);
    let half = whole(SIDE / step).max(2);
    if samples.len() < 2 * half + 1 {
        return Ok((speeds, 1));
    }
    let every = whole(1.0 / (RATE * step)).max(1);
    let even = |w: &[Sample]| (w[1].time - w[0].time - step).abs() <= EQUAL * step;
    if samples.windows(2).all(even) {
        return Ok((polynomial(&speeds, half, 2, 0)?, every));
    }
    let times: Vec<f64> = samples.iter().map(|s| s.time).collect();
    let reading = options.receiver.reading;
    let prior = Motion {
        variance: reading * reading,
        unrest: UNREST,
        start: [speeds[0], 0.0],
        doubt: [reading * reading, UNREST],
    };
    let found = motion(&times, &speeds, &prior)?;
    Ok((found.iter().map(|s| s.speed).collect(), every))
}

/// A number of steps, cut down to a whole one; the window of a smoother is never wide.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held between nought and ten thousand"
)]
fn whole(steps: f64) -> usize {
    steps.clamp(0.0, 1e4) as usize
}
