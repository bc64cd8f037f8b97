//! What a flat leaf loses across a round bore.

use crate::Error;
use crate::error::positive;

/// Sagitta: how far the middle of a flat leaf stands off the bore its edges touch.
///
/// `s = R - sqrt(R^2 - (w/2)^2)`, written `(w/2)^2 / (R + sqrt(R^2 - (w/2)^2))` to lose no digits
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `radius` | R | radius of the wear ring's bore | `m` |
/// | `width` | w | width of the leaf across the curve | `m` |
/// | returns | s | the most a flat leaf can read low | `m` |
///
/// Range: `R > 0`, `0 < w < 2 R`.
/// Source: `definition`, of a chord's height.
///
/// # Errors
/// [`Error::NotPositive`] or [`Error::Width`] outside the range.
pub fn sagitta(radius: f64, width: f64) -> Result<f64, Error> {
    let radius = positive("the bore radius", radius)?;
    let half = 0.5 * positive("the leaf width", width)?;
    if half >= radius {
        return Err(Error::Width {
            value: width,
            diameter: 2.0 * radius,
        });
    }
    Ok(half * half / (radius + (radius * radius - half * half).sqrt()))
}
