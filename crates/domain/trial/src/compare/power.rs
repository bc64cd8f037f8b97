//! How many runs it takes to see a difference, told before going out.

use statrs::distribution::{Continuous, ContinuousCDF, Gamma, Normal};

use crate::Error;
use crate::error::{finite, positive, within};
use crate::figure::two_sided;
use crate::segment::real;

/// Most double runs of a side that are tried.
const MOST: usize = 200;
/// Steps of the integral over the scatter found.
const STEPS: u32 = 2000;

/// Probability that a difference shows, at 95 in a hundred, with so many results before and after.
///
/// `P(|T| > t)` of Student's law off its middle by `D / (s sqrt(2/n))`, with `2 n - 2` degrees of freedom, as
/// `integral over w of [1 - F(t w - d) + F(-t w - d)] f(w) dw`, w the ratio of the scatter found to the true one
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `difference` | D | to be seen | unit of the value |
/// | `deviation` | s | of one result | unit of the value |
/// | `count` | n | results of either side | |
/// | `returns` | | probability | `1` |
///
/// Range: `s > 0`, 2 to 200 results.
/// Source: `johnson-welch-1940`; the integral is the definition of the law.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn power(difference: f64, deviation: f64, count: usize) -> Result<f64, Error> {
    let off = finite("the difference to be seen", difference)?.abs();
    let deviation = positive("the scatter of one result", deviation)?;
    within("the results of either side", real(count), 2.0, real(MOST))?;
    let freedom = real(2 * count - 2);
    let off = off / (deviation * (2.0 / real(count)).sqrt());
    let limit = two_sided(0.95, freedom)?;
    let normal = Normal::standard();
    let Ok(law) = Gamma::new(0.5 * freedom, 0.5 * freedom) else {
        return Err(Error::NotPositive {
            what: "the degrees of freedom",
            value: freedom,
        });
    };
    let shown = |w: f64| normal.sf(limit * w - off) + normal.cdf(-limit * w - off);
    // w squared follows the gamma law; beyond these ends lies less than 1e-14 of it.
    let spread = 12.0 / (2.0 * freedom).sqrt();
    let (low, high) = ((1.0 - spread).max(0.0), 1.0 + spread);
    let step = (high - low) / f64::from(STEPS);
    let mut sum = 0.0;
    for i in 0..=STEPS {
        let w = low + step * f64::from(i);
        let weight = match i {
            0 | STEPS => 1.0,
            _ if i % 2 == 1 => 4.0,
            _ => 2.0,
        };
        if w > 0.0 {
            sum += weight * shown(w) * 2.0 * w * law.ln_pdf(w * w).exp();
        }
    }
    Ok(sum * step / 3.0)
}

/// Fewest results of either side with which a difference shows with a probability; none up to two hundred.
///
/// Range: as [`power`]; `0 < wanted < 1`, a difference other than nought.
/// Source: `johnson-welch-1940`.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn runs_needed(difference: f64, deviation: f64, wanted: f64) -> Result<Option<usize>, Error> {
    positive("the size of the difference", difference.abs())?;
    within(
        "the probability wanted",
        wanted,
        f64::EPSILON,
        1.0 - f64::EPSILON,
    )?;
    for count in 2..=MOST {
        if power(difference, deviation, count)? >= wanted {
            return Ok(Some(count));
        }
    }
    Ok(None)
}
