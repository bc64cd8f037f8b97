//! How even the screws of a circle end, and how far their preloads scatter.

use joint::scatter::{Method, combined, half_width};
use joint::{Interval, pattern};

/// A screw may lack so much: little beside what friction scatters. Common practice, no source.
pub const WANTED: f64 = 0.02;

/// What a circle of screws comes to, by the model in which each neighbour loses a share of what a
/// screw gains. To compare, not to predict.
#[derive(Clone, Debug, PartialEq)]
pub struct Even {
    /// What the loosest screw lacks after each of the card's passes, as a share.
    pub lacks: Vec<f64>,
    /// What it would lack after a single pass at whole torque.
    pub once: f64,
    /// How many passes leave no screw lacking more than [`WANTED`]; none where twenty do not.
    pub worth: Option<usize>,
    /// How hard the star tilts the parts at worst, over one screw's pull.
    pub star: f64,
    /// The same, one after the other round the circle.
    pub round: f64,
}

/// None for a single screw, which has no neighbour.
pub(super) fn even(order: &[usize], passes: &[f64]) -> Option<Even> {
    if order.len() < 2 {
        return None;
    }
    let loss = pattern::NEIGHBOUR_LOSS;
    let first = passes.iter().take_while(|share| **share < 1.0).count();
    let ring = pattern::ring(order.len()).ok()?;
    let lacks = |passes: &[f64]| -> Option<Vec<f64>> {
        let after = pattern::remaining(order, passes, loss).ok()?;
        Some(after.iter().map(|loads| pattern::lacking(loads)).collect())
    };
    Some(Even {
        lacks: lacks(passes)?,
        once: *lacks(&[1.0])?.first()?,
        worth: pattern::passes_needed(order, &passes[..first], loss, WANTED).ok(),
        star: pattern::tilting(order).ok()?,
        round: pattern::tilting(&ring).ok()?,
    })
}

/// Half width of the scatter by torque wrench with the friction only estimated, and the wrench's own.
pub(super) fn scatter(wrench: f64) -> Option<Interval> {
    let factor = Method::TorqueEstimated.factor();
    let both = |factor| combined(half_width(factor).ok()?, wrench).ok();
    Some(Interval {
        low: both(factor.low)?,
        high: both(factor.high)?,
    })
}
