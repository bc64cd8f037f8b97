//! How good told chances were, once the truth is known.

/// The Brier score of several classes; less is better.
///
/// `sum_j (p_j − [j = t])²`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `shares` | `p` | `1` |
/// | `truth` | `t`, the place of what it was |  |
/// | `returns` | 0 to 2 | `1` |
///
/// Range: any shares.
/// Source: `brier-1950`.
pub fn brier(shares: &[f64], truth: usize) -> f64 {
    let each = shares.iter().enumerate();
    each.map(|(at, share)| (share - f64::from(u8::from(at == truth))).powi(2))
        .sum()
}

/// The logarithmic score; less is better.
///
/// `−ln p_t`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `shares` | `p` | `1` |
/// | `truth` | `t`, the place of what it was |  |
/// | `returns` | nats | `1` |
///
/// Range: any shares.
/// Source: `gneiting-2007`.
pub fn surprise(shares: &[f64], truth: usize) -> f64 {
    -shares[truth].ln()
}

/// Whether told confidences come true as often as they say: the expected calibration error.
///
/// `sum_b (n_b/n) |mean confidence_b − hit rate_b|`, bins of the same number of cases by confidence
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `told` | the confidence in each answer, and whether it came true | `1` |
/// | `least` | cases a bin holds at least; 400 keep its own error at 0.025 | `1` |
/// | `returns` | the error, and each bin's mean confidence, hit rate and count | `1` |
///
/// Range: at least one bin full; what is left over joins the last.
/// Source: common practice, no source.
pub fn reliability(told: &[(f64, bool)], least: usize) -> (f64, Vec<(f64, f64, usize)>) {
    let mut sorted = told.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    let bins = (sorted.len() / least.max(1)).clamp(1, 10);
    let size = sorted.len() / bins;
    let mut rows = Vec::new();
    for bin in 0..bins {
        let end = if bin + 1 == bins {
            sorted.len()
        } else {
            (bin + 1) * size
        };
        let inside = &sorted[bin * size..end];
        let count = crate::real(inside.len().max(1));
        let confidence = inside.iter().map(|one| one.0).sum::<f64>() / count;
        let hits = inside.iter().filter(|one| one.1).count();
        rows.push((confidence, crate::real(hits) / count, inside.len()));
    }
    let all = crate::real(sorted.len().max(1));
    let error = rows
        .iter()
        .map(|(confidence, hit, count)| crate::real(*count) / all * (confidence - hit).abs());
    (error.sum(), rows)
}
