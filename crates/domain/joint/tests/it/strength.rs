use joint::{Class, Thread, tensile_yield};

use crate::assert_near;

fn stress_area(thread: &Thread) -> f64 {
    thread.geometry().unwrap().stress_area
}

#[test]
fn published_iso_898_1_ultimate_loads_of_8_8() {
    // ISO 898-1 as a printed table quotes it, N; it computes with rounded areas: 1 %.
    for (text, load) in [
        ("M5", 11_350.0),
        ("M6", 16_100.0),
        ("M8", 29_200.0),
        ("M10", 46_400.0),
    ] {
        let thread: Thread = text.parse().unwrap();
        let tensile = Class::Steel8_8.strength(&thread).unwrap().tensile;
        assert_near(stress_area(&thread) * tensile, load, 0.01 * load);
    }
}

#[test]
fn computed_python_loads_of_class_70() {
    // Python 3.11.7, As Rm and As Rp0.2 in kN, printed to 0.01 kN.
    for (text, ultimate, proof) in [
        ("M5", 9.93, 6.38),
        ("M6", 14.09, 9.06),
        ("M8", 25.63, 16.47),
        ("M10", 40.59, 26.10),
    ] {
        let thread: Thread = text.parse().unwrap();
        let tensile = Class::Stainless70.strength(&thread).unwrap().tensile;
        assert_near(stress_area(&thread) * tensile / 1e3, ultimate, 5.1e-3);
        let load = tensile_yield(&thread, Class::Stainless70).unwrap();
        assert_near(load / 1e3, proof, 5.1e-3);
    }
}

#[test]
fn published_classes() {
    // Steel: a printed table of ISO 898-1. Stainless: Rm from a printed table of ISO 3506-1, Rp0.2
    // from memory. Rp0.2 of 8.8 above M16: a printed fine-thread table of VDI 2230. Exact, in MPa.
    let (small, large): (Thread, Thread) = ("M8".parse().unwrap(), "M24x2".parse().unwrap());
    for (class, thread, tensile, proof) in [
        (Class::Steel8_8, small, 800.0, 640.0),
        (Class::Steel8_8, large, 830.0, 660.0),
        (Class::Steel10_9, small, 1040.0, 940.0),
        (Class::Steel10_9, large, 1040.0, 940.0),
        (Class::Stainless50, small, 500.0, 210.0),
        (Class::Stainless70, small, 700.0, 450.0),
        (Class::Stainless80, small, 800.0, 600.0),
    ] {
        let strength = class.strength(&thread).unwrap();
        assert_near(strength.tensile / 1e6, tensile, 1e-9);
        assert_near(strength.proof / 1e6, proof, 1e-9);
    }
}

#[test]
fn practice_an_unmarked_screw_counts_as_the_softest() {
    let thread = "M6".parse().unwrap();
    let unmarked = Class::StainlessUnmarked.strength(&thread).unwrap();
    for class in Class::ALL {
        let strength = class.strength(&thread).unwrap();
        assert!(unmarked.proof <= strength.proof && unmarked.tensile <= strength.tensile);
        let sourced = class.source() != "common practice, no source";
        assert_eq!(sourced, class != Class::StainlessUnmarked);
    }
}
