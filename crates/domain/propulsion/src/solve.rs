//! Where a function crosses nought.

use crate::Error;

/// Steps before a search gives up; halving alone needs about fifty.
const STEPS: u32 = 200;

/// The place between two ends, where the values are known, at which a continuous function crosses nought, by Brent's
/// and Dekker's method.
///
/// What it cannot bracket, and what is no number on the way, is no balance.
pub(crate) fn between(
    what: &'static str,
    mut f: impl FnMut(f64) -> f64,
    [(low, at_low), (high, at_high)]: [(f64, f64); 2],
    tolerance: f64,
) -> Result<f64, Error> {
    let none = Error::NoBalance { what, low, high };
    // The best so far, the one before, and the end on the other side.
    let (mut b, mut a) = (high, low);
    let (mut fb, mut fa) = (at_high, at_low);
    if fa == 0.0 {
        return Ok(a);
    }
    if fb == 0.0 {
        return Ok(b);
    }
    if !fa.is_finite() || !fb.is_finite() || fa.is_sign_positive() == fb.is_sign_positive() {
        return Err(none);
    }
    let (mut c, mut fc) = (a, fa);
    let mut step = b - a;
    let mut before = step;
    for _ in 0..STEPS {
        if fc.abs() < fb.abs() {
            (a, b, c) = (b, c, b);
            (fa, fb, fc) = (fb, fc, fb);
        }
        let small = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        let half = 0.5 * (c - b);
        if half.abs() <= small || fb == 0.0 {
            return Ok(b);
        }
        let tried = (before.abs() >= small && fa.abs() > fb.abs())
            .then(|| interpolated([a, b, c], [fa, fb, fc]))
            .filter(|d| {
                // Inward, well short of the other end, and less than half of the step before last.
                let inward = d * half.signum();
                inward >= 0.0
                    && inward < 1.5 * half.abs() - 0.5 * small
                    && d.abs() < 0.5 * before.abs()
            });
        (step, before) = tried.map_or((half, half), |d| (d, step));
        (a, fa) = (b, fb);
        b += if step.abs() > small {
            step
        } else {
            small.copysign(half)
        };
        fb = f(b);
        if !fb.is_finite() {
            return Err(none);
        }
        if fb.is_sign_positive() == fc.is_sign_positive() {
            (c, fc) = (a, fa);
            step = b - a;
            before = step;
        }
    }
    Err(none)
}

/// The step from `b` by a parabola on its side through three points, or by a line through two.
#[expect(clippy::float_cmp, reason = "the same place, not nearly the same")]
fn interpolated([a, b, c]: [f64; 3], [fa, fb, fc]: [f64; 3]) -> f64 {
    let s = fb / fa;
    if a == c {
        return (c - b) * s / (s - 1.0);
    }
    let (q, r) = (fa / fc, fb / fc);
    let p = s * ((c - b) * q * (q - r) - (b - a) * (r - 1.0));
    -p / ((q - 1.0) * (r - 1.0) * (s - 1.0))
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::between;
    use crate::Error;

    fn bracketed(
        f: impl Fn(f64) -> f64,
        [low, high]: [f64; 2],
        tolerance: f64,
    ) -> Result<f64, Error> {
        let ends = [(low, f(low)), (high, f(high))];
        between("a test", f, ends, tolerance)
    }

    fn counted(f: impl Fn(f64) -> f64, span: [f64; 2], tolerance: f64) -> (f64, u32) {
        let count = Cell::new(0);
        let counting = |x| {
            count.set(count.get() + 1);
            f(x)
        };
        let found = bracketed(counting, span, tolerance);
        (found.unwrap(), count.get())
    }

    #[test]
    fn law_roots_known_in_closed_form_are_found_in_few_steps() {
        type Case = (fn(f64) -> f64, [f64; 2], f64, u32);
        // At a triple root the lines lie flat: scipy's brentq takes more than a hundred steps as well.
        let cases: [Case; 6] = [
            (|x| x * x - 2.0, [0.0, 2.0], 2.0_f64.sqrt(), 10),
            (|x| 2.0 - x * x, [2.0, 0.0], 2.0_f64.sqrt(), 10),
            (|x| x.exp() - 1000.0, [0.0, 20.0], 1000.0_f64.ln(), 20),
            (|x| (x - 0.3).powi(3), [0.0, 1.0], 0.3, 110),
            (|x| x.cos(), [1.0, 2.0], std::f64::consts::FRAC_PI_2, 10),
            (|x| if x < 0.7 { -1.0 } else { 1e6 }, [0.0, 1.0], 0.7, 120),
        ];
        for (f, span, root, most) in cases {
            let (found, count) = counted(f, span, 1e-12);
            let cubic = if most == 110 { 1e-5 } else { 1e-11 };
            assert!((found - root).abs() < cubic, "{found} for {root}");
            assert!(count <= most, "{count} steps to {root}");
        }
    }

    #[test]
    fn law_a_root_at_an_end_is_taken() {
        assert_eq!(counted(|x| x, [0.0, 1.0], 1e-9).0.to_bits(), 0);
        assert_eq!(counted(|x| x - 1.0, [0.0, 1.0], 1e-9).1, 2);
    }

    #[test]
    fn law_what_does_not_cross_or_is_no_number_is_refused() {
        for f in [|_| 1.0, |x: f64| (x - 2.0).sqrt()] as [fn(f64) -> f64; 2] {
            let none = Error::NoBalance {
                what: "a test",
                low: 0.0,
                high: 1.0,
            };
            assert_eq!(bracketed(f, [0.0, 1.0], 1e-9), Err(none));
        }
    }
}
