use clearance::sagitta;

use crate::assert_near;

#[test]
fn computed_numpy_sagitta() {
    // numpy 2.4.6, in mm, printed to 1e-5.
    let widths = [3.0, 6.0, 10.0, 12.7];
    for (radius, row) in [
        (50.0, [0.02251, 0.09008, 0.25063, 0.40486]),
        (70.0, [0.01607, 0.06432, 0.17880, 0.28861]),
        (80.0, [0.01406, 0.05627, 0.15640, 0.25241]),
    ] {
        for (width, s) in widths.into_iter().zip(row) {
            assert_near(sagitta(radius, width).unwrap(), s, 5.1e-6);
        }
    }
}

#[test]
fn law_sagitta_of_a_narrow_leaf() {
    // w^2 / (8 R), the next term being (w / 4 R)^2 of it and the one after that its square.
    let s = sagitta(0.07, 1e-4).unwrap();
    let ratio = s * 8.0 * 0.07 / 1e-8;
    assert_near(ratio, 1.0 + (1e-4 / 0.28_f64).powi(2), 1e-12);
}
