//! How probably two axes lie within a limit.

use crate::error::{finite, positive};
use crate::{Band, Error, Estimated};

/// Steps of the sum over one plane.
const STEPS: usize = 2000;
/// Beyond so many standard uncertainties nothing is summed.
const FAR: f64 = 9.0;

/// Probability that what is off up and to port is together no more than a limit.
///
/// `p = integral from -L to L of phi((y - m_y) / u_y) / u_y [Phi((c - m_x) / u_x) - Phi((-c - m_x) / u_x)] dy`,
/// `c = sqrt(L^2 - y^2)`
///
/// By Simpson's rule over `y = L sin t`, where nothing has an edge.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `up` | `m_x`, `u_x` | off in one plane | unit of the limit |
/// | `port` | `m_y`, `u_y` | off in the other | unit of the limit |
/// | `limit` | L | most both may be off together | unit of the limit |
/// | returns | p | | `1` |
///
/// Range: `L > 0`, uncertainties above zero; both planes read apart.
/// Source: `jcgm-106`, clause 7.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Outside`].
pub fn inside(up: Estimated, port: Estimated, limit: f64) -> Result<f64, Error> {
    let most = positive("the limit", limit)?;
    let spread = positive("an uncertainty", port.uncertainty)?;
    finite("what is off", up.value)?;
    let middle = finite("what is off", port.value)?;
    let across = |half: f64| {
        up.probability_within(&Band {
            least: Some(-half),
            greatest: Some(half),
        })
    };
    let (low, high) = (middle - FAR * spread, middle + FAR * spread);
    if low >= most || high <= -most {
        return Ok(0.0);
    }
    let (from, to) = (
        (low.max(-most) / most).asin(),
        (high.min(most) / most).asin(),
    );
    let step = (to - from) / crate::real(STEPS);
    let mut sum = 0.0;
    for at in 0..=STEPS {
        let t = from + crate::real(at) * step;
        let weight = match at {
            0 | STEPS => 1.0,
            _ if at % 2 == 1 => 4.0,
            _ => 2.0,
        };
        let z = (most * t.sin() - middle) / spread;
        let half = most * t.cos().max(0.0);
        sum += weight * (-0.5 * z * z).exp() * half * across(half)?;
    }
    let whole = sum * step / 3.0 / (spread * (2.0 * std::f64::consts::PI).sqrt());
    Ok(whole.clamp(0.0, 1.0))
}
