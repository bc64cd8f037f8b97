//! Integrals over an age, and roots between two.

use std::f64::consts::PI;

use statrs::function::gamma::gamma_lr;

/// Halvings of a bracket; 200 leave neighbouring numbers of any start.
const HALVINGS: usize = 200;
/// Nodes of the rule on either side of its middle.
const NODES: i32 = 104;
/// Step between nodes; what lies beyond 104 of them weighs less than rounding.
const STEP: f64 = 1.0 / 32.0;

/// `∫ f` from 0 to an end, by the double exponential rule: it bears the root-like start of `t^β`.
pub(crate) fn integral(f: impl Fn(f64) -> f64, end: f64) -> f64 {
    let node = |k: i32| {
        let u = f64::from(k) * STEP;
        let fold = (-PI * u.sinh()).exp();
        let weight = PI * u.cosh() * fold / ((1.0 + fold) * (1.0 + fold));
        weight * f(end / (1.0 + fold))
    };
    STEP * end * (-NODES..=NODES).map(node).sum::<f64>()
}

/// Where a function that is below zero at `low` and above at `high` turns.
pub(crate) fn root(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            break;
        }
        if f(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// What a gamma law of rate one stays below with some chance.
pub(crate) fn gamma_quantile(shape: f64, share: f64) -> f64 {
    let over = |value: f64| gamma_lr(shape, value) - share;
    let mut high = shape + 1.0;
    while over(high) < 0.0 {
        high *= 2.0;
    }
    root(over, 0.0, high)
}
