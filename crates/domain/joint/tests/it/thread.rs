use joint::{Bearing, Head, Thread};

use crate::{assert_near, hex};

/// Designation, P, d2, d3, D1 in mm, As, A3 in mm^2, lead angle in degrees.
const TABLE: [(&str, f64, [f64; 6]); 9] = [
    ("M4", 0.7, [3.5453, 3.1412, 3.2422, 8.779, 7.750, 3.596]),
    ("M5", 0.8, [4.4804, 4.0185, 4.1340, 14.183, 12.683, 3.253]),
    ("M6", 1.0, [5.3505, 4.7731, 4.9175, 20.123, 17.894, 3.405]),
    ("M8", 1.25, [7.1881, 6.4664, 6.6468, 36.609, 32.841, 3.168]),
    ("M8x1", 1.0, [7.3505, 6.7731, 6.9175, 39.167, 36.030, 2.480]),
    ("M10", 1.5, [9.0257, 8.1597, 8.3762, 57.990, 52.292, 3.028]),
    (
        "M10x1.25",
        1.25,
        [9.1881, 8.4664, 8.6468, 61.199, 56.297, 2.480],
    ),
    (
        "M12",
        1.75,
        [10.8633, 9.8530, 10.1056, 84.267, 76.247, 2.935],
    ),
    (
        "M24x2",
        2.0,
        [22.7010, 21.5463, 21.8349, 384.416, 364.614, 1.606],
    ),
];

#[test]
fn computed_python_geometry() {
    // Python 3.11.7, unrounded formulas of ISO 68-1 and ISO 724; the digits it printed.
    for (text, pitch, [d2, d3, d1, stress, core, lead]) in TABLE {
        let thread: Thread = text.parse().unwrap();
        let geometry = thread.geometry().unwrap();
        assert_near(thread.pitch * 1e3, pitch, 1e-12);
        assert_near(geometry.pitch_diameter * 1e3, d2, 5.1e-5);
        assert_near(geometry.core_diameter * 1e3, d3, 5.1e-5);
        assert_near(geometry.hole_diameter * 1e3, d1, 5.1e-5);
        assert_near(geometry.stress_area * 1e6, stress, 5.1e-4);
        assert_near(geometry.core_area * 1e6, core, 5.1e-4);
        assert_near(geometry.lead.to_degrees(), lead, 5.1e-4);
    }
}

#[test]
fn published_iso_898_1_stress_areas() {
    // ISO 898-1 as a printed table of loads quotes it. It rounds to three digits: 0.5 %.
    for (text, area) in [
        ("M4", 8.78),
        ("M5", 14.2),
        ("M6", 20.1),
        ("M8", 36.6),
        ("M10", 58.0),
        ("M12", 84.3),
    ] {
        let thread: Thread = text.parse().unwrap();
        assert_near(
            thread.geometry().unwrap().stress_area * 1e6,
            area,
            0.005 * area,
        );
    }
}

#[test]
fn published_iso_heads_and_holes() {
    // ISO 4014 grade A, ISO 4762 plain, ISO 273 medium; the holes of M5 to M10 read in bd_warehouse
    // 0.4.0, the rest from memory. Tabulated, so exact.
    for (text, face, socket, hole) in [
        ("M5", 6.88, 8.5, 5.5),
        ("M6", 8.88, 10.0, 6.6),
        ("M8", 11.63, 13.0, 9.0),
        ("M10", 14.63, 16.0, 11.0),
        ("M12", 16.63, 18.0, 13.5),
        ("M24", 33.61, 36.0, 26.0),
    ] {
        let thread: Thread = text.parse().unwrap();
        let bearing = Bearing::of(&thread, Head::Hex).unwrap();
        assert_near(bearing.outer * 1e3, face, 1e-12);
        assert_near(bearing.hole * 1e3, hole, 1e-12);
        let bearing = Bearing::of(&thread, Head::Socket).unwrap();
        assert_near(bearing.outer * 1e3, socket, 1e-12);
    }
}

#[test]
fn published_iso_273_medium_holes() {
    // ISO 273 as a printed table quotes it. Tabulated, so exact.
    for (text, hole) in [
        ("M4", 4.5),
        ("M6", 6.6),
        ("M8", 9.0),
        ("M10", 11.0),
        ("M12", 13.5),
        ("M14", 15.5),
        ("M16", 17.5),
    ] {
        let bearing = Bearing::of(&text.parse().unwrap(), Head::Hex).unwrap();
        assert_near(bearing.hole * 1e3, hole, 1e-12);
    }
}

#[test]
fn computed_python_mean_diameter_is_near_that_of_even_pressure() {
    // Python 3.11.7: 7.796 mm with the pressure even on the ring, 7.740 mm by the mean.
    let bearing = hex("M6").bearing;
    let (outer, hole) = (0.5 * bearing.outer, 0.5 * bearing.hole);
    let even = 4.0 / 3.0 * (outer.powi(3) - hole.powi(3)) / (outer * outer - hole * hole);
    assert_near(even * 1e3, 7.796, 5.1e-4);
    assert_near(bearing.mean_diameter().unwrap() * 1e3, 7.740, 5.1e-4);
}

#[test]
fn law_a_designation_however_it_is_written() {
    let fine = Thread {
        diameter: 8e-3,
        pitch: 1e-3,
    };
    for text in ["M8x1", "M8×1", "m8X1", " M8 × 1.0 ", "M8x1,00", "M8.0x1"] {
        assert_eq!(text.parse(), Ok(fine), "{text}");
    }
    let coarse = Thread {
        diameter: 8e-3,
        pitch: 1.25e-3,
    };
    for text in ["M8", "m8", "M8x1.25", "m8x1.25", "M8×1,25"] {
        assert_eq!(text.parse(), Ok(coarse), "{text}");
    }
    for text in [
        "", "M", "8", "M7", "M8x2", "M8x", "Mx1", "M8x1x1", "M-8", "M8e0", "Mx", "M8 1", "N8",
        "M.", "M25", "M6x-1", "M6xinf",
    ] {
        assert!(text.parse::<Thread>().is_err(), "{text}");
    }
}

#[test]
fn law_every_thread_is_read_back_and_has_a_head() {
    let mut shown = Vec::new();
    for thread in Thread::all() {
        let text = thread.to_string();
        assert_eq!(text.parse(), Ok(thread), "{text}");
        for head in [Head::Hex, Head::Socket] {
            let bearing = Bearing::of(&thread, head).unwrap();
            assert!(
                thread.diameter < bearing.hole && bearing.hole < bearing.outer,
                "{text}"
            );
        }
        shown.push(text);
    }
    for text in ["M4", "M8", "M8×1", "M10×1.25", "M24×2"] {
        assert!(shown.iter().any(|known| known == text), "{text}");
    }
}
