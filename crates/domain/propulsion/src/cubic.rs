//! Cubics that join points by value and slope.

/// Each value with its slope, `step` apart: by the parabola through three neighbours.
pub(crate) fn sloped(values: &[f64], step: f64) -> Vec<[f64; 2]> {
    let last = values.len() - 1;
    let slope = |at: usize| match at {
        0 => 2.0 * values[1] - 0.5 * values[2] - 1.5 * values[0],
        at if at == last => 1.5 * values[at] - 2.0 * values[at - 1] + 0.5 * values[at - 2],
        at => 0.5 * (values[at + 1] - values[at - 1]),
    };
    (0..=last)
        .map(|at| [values[at], slope(at) / step])
        .collect()
}

/// The cubic between two values with their slopes, at a share of the width.
pub(crate) fn cubic([start, end]: [[f64; 2]; 2], width: f64, t: f64) -> f64 {
    let ([y0, d0], [y1, d1]) = (start, end);
    let (square, cube) = (t * t, t * t * t);
    (2.0 * cube - 3.0 * square + 1.0) * y0
        + (cube - 2.0 * square + t) * width * d0
        + (3.0 * square - 2.0 * cube) * y1
        + (cube - square) * width * d1
}
