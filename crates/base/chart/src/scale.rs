//! From a value to a place on an axis.

use std::cmp::Ordering;

/// A straight scale from values to places on the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// The values at the two ends.
    pub values: (f64, f64),
    /// The places of these two ends.
    pub places: (f64, f64),
}

impl Scale {
    /// Where a value stands. A scale of no width puts everything in its middle.
    pub fn place(&self, value: f64) -> f64 {
        let (low, high) = self.values;
        let (from, to) = self.places;
        if high > low {
            from + (value - low) / (high - low) * (to - from)
        } else {
            f64::midpoint(from, to)
        }
    }

    /// Round values between the two ends, about `wanted` of them: steps of 1, 2 or 5 by a power of ten.
    pub fn ticks(&self, wanted: u32) -> Vec<f64> {
        let (low, high) = self.values;
        let step = step(high - low, wanted);
        if step <= 0.0 {
            return Vec::new();
        }
        // A value that is a whole step but for its last digits still counts as one.
        let slack = 1e-9;
        let first = (low / step - slack).ceil();
        let last = (high / step + slack).floor();
        std::iter::successors(Some(first), |n| Some(n + 1.0))
            .take_while(|n| *n <= last)
            .map(|n| n * step)
            .collect()
    }

    /// How many decimals tell these ticks apart.
    pub fn decimals(&self, wanted: u32) -> u32 {
        let step = step(self.values.1 - self.values.0, wanted);
        // A step of 1, 2 or 5 thousandths needs three; more than twelve is no axis anybody reads.
        (0..12)
            .find(|decimals| step * 10_f64.powi(*decimals) > 1.0 - 1e-9)
            .map_or(0, i32::unsigned_abs)
    }

    /// The same scale with its values widened to whole ticks.
    #[must_use]
    pub fn nice(self, wanted: u32) -> Self {
        let (low, high) = self.values;
        let step = step(high - low, wanted);
        if step <= 0.0 {
            return self;
        }
        let values = ((low / step).floor() * step, (high / step).ceil() * step);
        Self { values, ..self }
    }
}

/// The span of the finite values, if there are any; a single one gets room on both sides to stand in.
pub(crate) fn span(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    let (low, high) = values
        .filter(|value| value.is_finite())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
    match low.total_cmp(&high) {
        Ordering::Less => Some((low, high)),
        Ordering::Equal => Some((
            low - low.abs() / 10.0 - 1e-3,
            high + high.abs() / 10.0 + 1e-3,
        )),
        Ordering::Greater => None,
    }
}

/// The round step that divides a span into about `wanted` parts; 0 when there is none.
fn step(span: f64, wanted: u32) -> f64 {
    if !(span.is_finite() && span > 0.0) {
        return 0.0;
    }
    let raw = span / f64::from(wanted.max(1));
    let ten = 10_f64.powf(raw.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|m| m * ten)
        .find(|step| *step >= raw * (1.0 - 1e-9))
        .unwrap_or(10.0 * ten)
}
