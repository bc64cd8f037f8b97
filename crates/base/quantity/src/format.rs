//! SI numbers to text.

use rust_decimal::{Decimal, RoundingStrategy};

use crate::Unit;
use crate::exact::Exact;

/// An SI value worded in a unit, rounded half to even in decimal, without the symbol.
///
/// What is rounded is the number a person would have written: the shortest decimal in that unit
/// that [`parse`](crate::parse) reads as this very value. So 1.625 becomes `1.62` and 1.655 becomes
/// `1.66`, whatever their binary neighbours. Zero never has a minus sign. A value that is not
/// finite appears as `NaN` or `inf`, for the caller to be ashamed of.
pub fn number(value: f64, unit: Unit, decimals: u32) -> String {
    let text = match meant(value, unit) {
        Some(decimal) => rounded(decimal, decimals),
        // Far outside of what anyone types; binary to decimal is exact here as well.
        None => format!("{:.*}", decimals as usize, unit.from_si(value)),
    };
    match text.strip_prefix('-') {
        Some(zero) if zero.chars().all(|c| matches!(c, '0' | '.')) => zero.to_owned(),
        _ => text,
    }
}

/// [`number`] with a no-break space and the symbol: `13.0 thou`, `0.33 mm`.
///
/// The sign of an angle in degrees stands close, `45°`, and a step of temperature goes without its
/// `Δ`, for the sentence around it says so.
pub fn format(value: f64, unit: Unit, decimals: u32) -> String {
    let number = number(value, unit, decimals);
    format!("{number}{}{}", unit.space(), unit.worded())
}

/// The shortest decimal in the unit that reads back as the value; failing that, the nearest.
fn meant(value: f64, unit: Unit) -> Option<Decimal> {
    let near = unit.from_si(value);
    let written = |places: usize| Decimal::from_scientific(&format!("{near:.places$e}")).ok();
    // 17 significant digits tell any two f64 apart.
    let mut candidates = (0..17).filter_map(written);
    candidates
        .find(|d| exact(*d).is_some_and(|e| unit.to_si(e).to_bits() == value.to_bits()))
        .or_else(|| written(16))
}

/// The decimal as a rational number, if it has no more digits than a typed one may have.
fn exact(decimal: Decimal) -> Option<Exact> {
    let (over, scale) = (decimal.mantissa(), decimal.scale());
    (over.abs() < Exact::LIMIT && scale <= Exact::DIGITS)
        .then(|| Exact::new(over, 10_i128.pow(scale)))
}

fn rounded(decimal: Decimal, decimals: u32) -> String {
    let rounded = decimal.round_dp_with_strategy(decimals, RoundingStrategy::MidpointNearestEven);
    let mut text = rounded.to_string();
    // Decimal pads no further than its own precision, so the last zeros are ours.
    if rounded.scale() == 0 && decimals > 0 {
        text.push('.');
    }
    text.extend((rounded.scale()..decimals).map(|_| '0'));
    text
}
