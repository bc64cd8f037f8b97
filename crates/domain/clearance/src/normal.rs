//! The normal law where it is thin: logarithms of tails and cells, and draws from a cell.

use std::f64::consts::{FRAC_1_SQRT_2, LN_2, SQRT_2};

use errorfunctions::RealErrorFunctions;
use statrs::function::erf::erfc_inv;

/// Logarithm of the standard normal distribution function, exact far into the lower tail.
///
/// `ln Phi(x) = ln(erfcx(-x / sqrt 2) / 2) - x^2 / 2` below zero
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `x` | x | standardised value | `1` |
/// | returns | ln Phi | logarithm of the probability | `1` |
///
/// Range: any x, also infinite.
/// Source: `johnson-2012` for erfcx.
pub fn ln_normal_cdf(x: f64) -> f64 {
    if x == f64::NEG_INFINITY {
        x
    } else if x > 0.0 {
        (-upper_tail(x)).ln_1p()
    } else {
        (0.5 * RealErrorFunctions::erfcx(-x * FRAC_1_SQRT_2)).ln() - 0.5 * x * x
    }
}

/// Logarithm of the probability that a standard normal value lies between `low` and `high`.
///
/// `ln(Phi(b) - Phi(a)) = ln Phi(b) + ln(1 - exp(ln Phi(a) - ln Phi(b)))`, mirrored when `a > 0`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `low` | a | standardised lower end | `1` |
/// | `high` | b | standardised upper end | `1` |
/// | returns | | logarithm of the probability | `1` |
///
/// Range: `a < b`, either may be infinite.
/// Source: `machler-2012` for `ln(1 - exp(-x))`.
pub fn ln_cell_probability(low: f64, high: f64) -> f64 {
    let (a, b) = if low > 0.0 {
        (-high, -low)
    } else {
        (low, high)
    };
    let top = ln_normal_cdf(b);
    let drop = top - ln_normal_cdf(a);
    // Each branch keeps its digits where the other loses them.
    top + if drop > LN_2 {
        (-(-drop).exp()).ln_1p()
    } else {
        (-(-drop).exp_m1()).ln()
    }
}

/// Probability that a standard normal value lies between `low` and `high`: nothing far out.
pub(crate) fn cell_probability(low: f64, high: f64) -> f64 {
    // From the side where the tails keep their digits.
    if low + high < 0.0 {
        upper_tail(-high) - upper_tail(-low)
    } else {
        upper_tail(low) - upper_tail(high)
    }
}

/// Probability that a standard normal value exceeds `x`.
pub(crate) fn upper_tail(x: f64) -> f64 {
    0.5 * RealErrorFunctions::erfc(x * FRAC_1_SQRT_2)
}

/// Standard normal value exceeded with probability `tail`.
pub(crate) fn upper_quantile(tail: f64) -> f64 {
    SQRT_2 * erfc_inv(2.0 * tail)
}

/// A standard normal law cut off to a cell, ready to be drawn from.
#[derive(Clone, Copy)]
pub(crate) struct Truncated {
    /// The cell, mirrored to the side where the tails keep their digits.
    low: f64,
    high: f64,
    /// Probabilities above `low` and above `high`.
    above_low: f64,
    above_high: f64,
    mirrored: bool,
}

impl Truncated {
    pub(crate) fn new(low: f64, high: f64) -> Self {
        let mirrored = low + high < 0.0;
        let (low, high) = if mirrored { (-high, -low) } else { (low, high) };
        Self {
            low,
            high,
            above_low: upper_tail(low),
            above_high: upper_tail(high),
            mirrored,
        }
    }

    /// The value below which the fraction `u` of the cut-off law lies.
    pub(crate) fn quantile(&self, u: f64) -> f64 {
        let tail = self.above_high + (1.0 - u) * (self.above_low - self.above_high);
        // Rounding, or a tail below the smallest number, must not leave the cell.
        let x = upper_quantile(tail).max(self.low).min(self.high);
        if self.mirrored { -x } else { x }
    }
}
