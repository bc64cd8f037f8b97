//! SI shown as text.

use quantity::Unit::{
    Celsius, Degree, Fahrenheit, FahrenheitDifference, Inch, Metre, Millimetre, NewtonMetre,
    PoundForceFoot, Psi, Rpm, Thou, Turn,
};
use quantity::{Unit, format, number, parse};

use crate::si;

fn check((typed, bare, shown, decimals, expected): (&str, Unit, Unit, u32, &str)) {
    assert_eq!(
        number(si(typed, bare), shown, decimals),
        expected,
        "{typed} {}",
        bare.symbol()
    );
}

#[test]
fn practice_a_reading_in_the_other_unit() {
    [
        ("0.3302", Millimetre, Millimetre, 2, "0.33"),
        ("0.3302", Millimetre, Thou, 0, "13"),
        ("13 thou", Millimetre, Thou, 0, "13"),
        ("13 thou", Millimetre, Inch, 3, "0.013"),
        ("0.33", Millimetre, Thou, 1, "13.0"),
        ("0.33", Millimetre, Thou, 3, "12.992"),
        ("1/64 in", Millimetre, Millimetre, 6, "0.396875"),
        ("18 ft-lb", NewtonMetre, NewtonMetre, 1, "24.4"),
        ("25", NewtonMetre, PoundForceFoot, 1, "18.4"),
        ("45°", Degree, Turn, 3, "0.125"),
        ("7600 rpm", Rpm, Rpm, 0, "7600"),
        ("68 °F", Celsius, Celsius, 1, "20.0"),
        ("-40", Celsius, Fahrenheit, 0, "-40"),
        ("0.1", Celsius, Celsius, 1, "0.1"),
    ]
    .into_iter()
    .for_each(check);
}

/// Source: ASME A112.18.1-2018 / CSA B125.1-18, annex A, prints 1.655 to 1.66 and 1.625 to 1.62.
#[test]
fn published_halves_go_to_even() {
    for unit in Unit::ALL {
        check(("1.655", *unit, *unit, 2, "1.66"));
        check(("1.625", *unit, *unit, 2, "1.62"));
        check(("-1.625", *unit, *unit, 2, "-1.62"));
        check(("2.5", *unit, *unit, 0, "2"));
        check(("3.5", *unit, *unit, 0, "4"));
        check(("2.5000001", *unit, *unit, 0, "3"));
    }
}

#[test]
fn law_zero_has_no_minus_sign() {
    assert_eq!(number(-0.0, Millimetre, 1), "0.0");
    assert_eq!(number(-1e-9, Millimetre, 2), "0.00");
    assert_eq!(number(-1e-300, Psi, 3), "0.000");
    assert_eq!(number(-4e-4, Metre, 3), "0.000");
    assert_eq!(number(-6e-4, Metre, 3), "-0.001");
}

#[test]
fn practice_symbols_stand_behind_a_space_that_does_not_break() {
    assert_eq!(format(0.000_330_2, Millimetre, 2), "0.33\u{a0}mm");
    assert_eq!(format(0.000_330_2, Thou, 1), "13.0\u{a0}thou");
    assert_eq!(format(293.15, Celsius, 0), "20\u{a0}°C");
    assert_eq!(format(5.0, FahrenheitDifference, 0), "9\u{a0}°F");
    assert_eq!(format(std::f64::consts::FRAC_PI_4, Degree, 0), "45°");
}

#[test]
fn law_any_number_has_words() {
    for unit in Unit::ALL {
        for decimals in [0, 2, 28, 40] {
            for value in [1e300, 1e40, 1e25, 123_456.789, 1e-20, 5e-324] {
                let text = number(value, *unit, decimals);
                let (_, part) = text.split_once('.').unwrap_or((&text, ""));
                assert_eq!(part.len(), decimals as usize, "{text}");
            }
        }
    }
    // Whoever lets these through shall see them.
    assert_eq!(number(f64::NAN, Millimetre, 2), "NaN");
    assert_eq!(number(f64::NEG_INFINITY, Millimetre, 2), "-inf");
}

#[test]
fn practice_what_was_typed_is_worded_with_its_unit() {
    for (text, bare, expected) in [
        ("22", NewtonMetre, "22\u{a0}N·m"),
        ("5-5/16\"", Millimetre, "5-5/16\""),
        (" 13 thou ", Millimetre, "13 thou"),
        ("14", Degree, "14°"),
        ("14.5 deg", Degree, "14.5 deg"),
        ("1/8", Turn, "1/8\u{a0}turn"),
    ] {
        assert_eq!(parse(text, bare).unwrap().worded(), expected);
    }
}
