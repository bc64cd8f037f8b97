//! The fits of the method and how they are turned round; angles in degrees as printed.

use super::{Line, Roughness, Slowing, Wetted};

/// Steps of Newton's method before giving up; a handful is usual.
const STEPS: u32 = 60;

/// A step of Newton's method so small that the next would be lost in rounding: the error squares.
const LAST: f64 = 1e-8;

/// The lift of a flat bottom that gives this lift with deadrise, sought from a value near it.
///
/// `C_Lb = C_L0 - 0.0065 beta C_L0^0.6` rises and is convex where its value is positive, so Newton's method comes
/// down on it from the right without overshooting, and jumps there from the left.
pub(super) fn flat_lift(lift: f64, deadrise: f64, near: Option<f64>) -> f64 {
    let k = 0.0065 * deadrise;
    if lift.is_nan() || lift <= 0.0 {
        return f64::NAN;
    }
    // To the right of the root: there the deadrise takes half at most.
    let mut c = near.unwrap_or_else(|| 2.0 * lift.max((2.0 * k).powf(2.5)));
    for _ in 0..STEPS {
        let taken = k * c.powf(0.6);
        let step = (c - taken - lift) / (1.0 - 0.6 * taken / c);
        c -= step;
        if step.abs() <= LAST * c {
            break;
        }
    }
    c
}

/// The wetted length in beams for `C_L0/tau^1.1 = 0.0120 lambda^0.5 + 0.0055 lambda^2.5/C_v^2`.
///
/// In the root of lambda the right side is convex, so Newton's method comes down from the right.
pub(super) fn length_ratio(lift: f64, speed_squared: f64) -> f64 {
    let (a, c) = (0.0120, 0.0055 / speed_squared);
    let mut u = (lift / a).min((lift / c).powf(0.2));
    for _ in 0..STEPS {
        let fourth = u.powi(4);
        let step = (u * (a + c * fourth) - lift) / (a + 5.0 * c * fourth);
        u -= step;
        if step.abs() <= LAST * u {
            break;
        }
    }
    u * u
}

/// `C_L0/tau^1.1`, which [`length_ratio`] turns round.
pub(super) fn lift_by_length(lambda: f64, speed_squared: f64) -> f64 {
    lambda.sqrt() * (0.0120 + 0.0055 * lambda * lambda / speed_squared)
}

/// Centre of pressure before the transom, in beams.
pub(super) fn pressure_centre(lambda: f64, speed_squared: f64) -> f64 {
    let square = lambda * lambda;
    lambda * (0.75 - square / (5.21 * speed_squared + 2.39 * square))
}

/// The wetted length in beams whose centre of pressure lies here; it rises with the length everywhere.
pub(super) fn length_for_centre(centre: f64, speed_squared: f64) -> f64 {
    let a = 5.21 * speed_squared;
    let (mut low, mut high) = (centre / 0.75, centre / (0.75 - 1.0 / 2.39));
    let mut lambda = low;
    for _ in 0..STEPS {
        let square = lambda * lambda;
        let whole = a + 2.39 * square;
        let off = lambda * (0.75 - square / whole) - centre;
        if off > 0.0 {
            high = lambda;
        } else {
            low = lambda;
        }
        let slope = 0.75 - square * (3.0 * a + 2.39 * square) / (whole * whole);
        let next = lambda - off / slope;
        let next = if (low..=high).contains(&next) {
            next
        } else {
            0.5 * (low + high)
        };
        let done = (next - lambda).abs() <= LAST * lambda;
        lambda = next;
        if done {
            break;
        }
    }
    lambda
}

/// Square of the speed of the water under the bottom over the craft's.
pub(super) fn slowed(lambda: f64, power: f64, cosine: f64, (deadrise, how): (f64, Slowing)) -> f64 {
    let flat = 0.0120 * lambda.sqrt() * power;
    let taken = match how {
        Slowing::Flat => flat,
        Slowing::Deadrise => flat - 0.0065 * deadrise * flat.powf(0.6),
    };
    1.0 - taken / (lambda * cosine)
}

/// Friction of a smooth plate at a Reynolds number.
pub(in crate::hull) fn friction(line: Line, reynolds: f64) -> f64 {
    let log = reynolds.log10();
    let ittc = 0.075 / ((log - 2.0) * (log - 2.0));
    match line {
        Line::Ittc1957 => ittc,
        Line::Schoenherr => {
            // Newton's method in the root of the coefficient.
            let mut root = ittc.sqrt();
            for _ in 0..STEPS {
                let off = 0.242 / root - log - 2.0 * root.log10();
                let slope = -0.242 / (root * root) - 2.0 * std::f64::consts::LOG10_E / root;
                let step = off / slope;
                root -= step;
                if step.abs() <= LAST * root {
                    break;
                }
            }
            root * root
        }
    }
}

/// What roughness adds to the coefficient of friction; nothing where the flow does not feel it.
pub(in crate::hull) fn roughened(roughness: Roughness, length: f64, reynolds: f64) -> f64 {
    let smooth = || reynolds.powf(-1.0 / 3.0);
    match roughness {
        Roughness::Allowance(more) => more,
        Roughness::Mosaad1986(height) | Roughness::Townsin1984(height) if height <= 0.0 => 0.0,
        Roughness::Mosaad1986(height) => {
            (6e-3 * reynolds.powf(0.093) * ((height / length).cbrt() - 5.8 * smooth())).max(0.0)
        }
        Roughness::Townsin1984(height) => {
            (0.044 * ((height / length).cbrt() - 10.0 * smooth()) + 1.25e-4).max(0.0)
        }
    }
}

/// Where the bottom is wet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lengths {
    /// Keel, in beams.
    pub(super) keel: f64,
    /// Chine, in beams, below nought when the spray never reaches it.
    pub(super) chine: f64,
    /// From where the keel enters to where the spray would reach the chine, in beams.
    pub(super) entry: f64,
}

/// The wetted lengths for a mean one; `dry` says whether a dry chine counts as none in the mean.
pub(super) fn lengths(
    wetted: Wetted,
    lambda: f64,
    trim: f64,
    (deadrise, dry): (f64, bool),
) -> Lengths {
    let tangent = deadrise.to_radians().tan();
    let entry = match wetted {
        Wetted::Savitsky1964 => tangent / (std::f64::consts::PI * trim.to_radians().tan()),
        Wetted::Faltinsen2005 => {
            let rise = 5.754_510_457_848_798e-1
                + deadrise
                    * (-1.130_563_334_939_335e-3
                        + deadrise
                            * (-6.815_747_611_588_763e-5 - 2.100_644_618_790_201e-6 * deadrise));
            0.5 * tangent / ((1.0 + rise) * trim.to_radians())
        }
        Wetted::Savitsky1976 => return lengths_1976(lambda, trim, deadrise, dry),
    };
    let (keel, chine) = (lambda + 0.5 * entry, lambda - 0.5 * entry);
    if dry && chine < 0.0 {
        return Lengths {
            keel: 2.0 * lambda,
            chine: 2.0 * lambda - entry,
            entry,
        };
    }
    Lengths { keel, chine, entry }
}

fn lengths_1976(lambda: f64, trim: f64, deadrise: f64, dry: bool) -> Lengths {
    let (a, b) = (deadrise.to_radians().tan(), trim.to_radians().tan());
    let w = (0.57 + 1e-3 * deadrise) * (a / (2.0 * b) - deadrise / 167.0); // not a conversion: a fit's coefficients
    let chine = |y: f64| y - 0.2 * (-y / 0.3).exp();
    // Half of keel and chine is what is left of the mean; concave and rising, so from the left.
    let half = lambda - 0.03;
    let mut y = half.min(0.5 * (2.0 * half - w));
    for _ in 0..STEPS {
        let off = 0.5 * (y + w + chine(y)) - half;
        let slope = 1.0 + (0.1 / 0.3) * (-y / 0.3).exp();
        let step = off / slope;
        y -= step;
        if step.abs() <= LAST * (y.abs() + 1.0) {
            break;
        }
    }
    if dry && chine(y) < 0.0 {
        y = 2.0 * half - w;
    }
    Lengths {
        keel: y + w,
        chine: chine(y),
        entry: y + w - chine(y),
    }
}

#[cfg(test)]
mod tests {
    use super::{
        flat_lift, friction, length_for_centre, length_ratio, lengths, lift_by_length,
        pressure_centre,
    };
    use crate::hull::planing::{Line, Wetted};

    fn near(ours: f64, theirs: f64, relative: f64, what: &str) {
        let off = ours / theirs - 1.0;
        assert!(
            off.abs() <= relative,
            "{what}: {ours} for {theirs}, {off:.1e}"
        );
    }

    /// By scipy 1.17.1, optimize.brentq of the line, to the digits of a reference sheet.
    #[test]
    fn computed_friction_lines() {
        for (reynolds, schoenherr, ittc) in [
            (3.61e8, 0.001_742, 0.001_744),
            (2.42e8, 0.001_836, 0.001_840),
            (1.73e8, 0.001_921, 0.001_927),
            (1e7, 0.002_934, 0.003_000),
            (1e6, 0.004_409, 0.004_687),
        ] {
            let ours = friction(Line::Schoenherr, reynolds);
            near(ours, schoenherr, 3e-4, "Schoenherr");
            near(friction(Line::Ittc1957, reynolds), ittc, 3e-4, "of 1957");
            near(
                0.242 / ours.sqrt(),
                (reynolds * ours).log10(),
                1e-14,
                "line",
            );
        }
    }

    #[test]
    fn law_what_is_turned_round_turns_back() {
        for lambda in [1e-3, 0.02, 0.4, 1.4, 3.4, 9.0, 60.0] {
            for speed_squared in [0.04, 1.0, 10.0, 92.0] {
                let lift = lift_by_length(lambda, speed_squared);
                near(length_ratio(lift, speed_squared), lambda, 1e-13, "length");
                let centre = pressure_centre(lambda, speed_squared);
                let back = length_for_centre(centre, speed_squared);
                near(back, lambda, 1e-13, "length for a centre");
            }
        }
        for deadrise in [0.0, 5.0, 22.0, 60.0] {
            for lift in [1e-6, 1e-3, 0.069, 0.5, 20.0] {
                for start in [None, Some(3.0), Some(1e4)] {
                    let flat = flat_lift(lift, deadrise, start);
                    let back = flat - 0.0065 * deadrise * flat.powf(0.6);
                    near(back, lift, 1e-9, "lift");
                }
            }
        }
    }

    #[test]
    fn law_keel_and_chine_have_the_mean_that_was_asked_for() {
        for kind in [
            Wetted::Savitsky1964,
            Wetted::Savitsky1976,
            Wetted::Faltinsen2005,
        ] {
            // What the fit of 1976 adds to the mean.
            let more = if kind == Wetted::Savitsky1976 {
                0.03
            } else {
                0.0
            };
            for (lambda, trim) in [(3.4, 2.3), (1.4, 5.0), (0.3, 2.0), (0.2, 12.0)] {
                let wet = lengths(kind, lambda, trim, (22.0, false));
                near(0.5 * (wet.keel + wet.chine) + more, lambda, 1e-12, "mean");
                let dry = lengths(kind, lambda, trim, (22.0, true));
                let chine = dry.chine.max(0.0);
                near(0.5 * (dry.keel + chine) + more, lambda, 1e-12, "dry mean");
                assert_eq!(wet.chine < 0.0, dry.chine < 0.0);
            }
        }
    }
}
