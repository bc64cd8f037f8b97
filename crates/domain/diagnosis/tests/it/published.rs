//! Small worked cases.

use diagnosis::next::gain;
use diagnosis::score::{brier, surprise};

use crate::near;

/// Worked by hand from the definitions.
#[test]
fn computed_gain_of_a_check_between_three() {
    let found = gain(&[0.5, 0.3, 0.2], &[0.1, 0.6, 0.3]);
    near(found.something, 0.29, 1e-12);
    near(found.bits, 0.166_680_09, 1e-8);
}

/// Worked by hand from the definitions.
#[test]
fn computed_scores_of_three_shares() {
    let shares = [0.6, 0.3, 0.1];
    near(brier(&shares, 0), 0.26, 1e-12);
    near(brier(&shares, 2), 1.26, 1e-12);
    near(surprise(&shares, 0), 0.510_825_62, 1e-8);
    near(surprise(&shares, 2), std::f64::consts::LN_10, 1e-12);
}
