use joint::{Class, tensile_yield};

use crate::{assert_near, hex};

#[test]
fn computed_python_tensile_yield_of_class_70() {
    // Python 3.11.7, As Rp0.2 in N, printed to 10 N.
    for (size, load) in [
        ("M5", 6380.0),
        ("M6", 9060.0),
        ("M8", 16470.0),
        ("M10", 26100.0),
    ] {
        let screw = hex(size);
        assert_near(
            tensile_yield(&screw.thread, Class::Stainless70).unwrap(),
            load,
            5.0,
        );
    }
}
