//! Everything that is refused, and the words it is refused with.

use quantity::Unit::{
    Celsius, KelvinDifference, Kilogram, Metre, Millimetre, NewtonMetre, Rpm, Second,
};
use quantity::{Kind, Reason, Unit, parse};

const NUMBER: &str =
    "write it in plain digits, such as 0.33, 5/16 or 5-5/16, with the unit after it";
const MARK: &str = "keep one comma or point, and do not group thousands";
const LENGTHS: &str = "write a length in m, cm, mm, µm, in, thou or ft";
const TORQUES: &str = "write a torque in N·m, lbf·ft, lbf·in, kgf·m or kgf·cm";

fn check(text: &str, bare: Unit, expected: &str) {
    let error = parse(text, bare).expect_err(text);
    assert_eq!(error.to_string(), expected);
    assert_eq!(error.text, text);
    assert!(
        expected.contains(&format!("column {}", error.column)),
        "{expected}"
    );
}

#[test]
fn law_every_refusal_says_what_where_and_what_to_do() {
    let empty = "nothing is written, from column 1 on: write a number, and its unit if it is not \
                 the one shown";
    check("", Millimetre, empty);
    check(" \u{a0}", Millimetre, empty);
    check(
        &"0".repeat(65),
        Millimetre,
        "65 characters are too many, at most 64 are read and column 65 is beyond: write one number \
         and its unit",
    );
    check(
        "0.330200000000000000001 mm",
        Millimetre,
        "“0.330200000000000000001 mm” has more than 18 digits, from column 20 on: write fewer",
    );
    check(
        "1/0 in",
        Millimetre,
        "“1/0 in” divides by zero at column 3: write the fraction again",
    );
    check(
        "0.3 furlong",
        Millimetre,
        &format!("“furlong” at column 5 of “0.3 furlong” is not a unit known here: {LENGTHS}"),
    );
    check(
        "25 N·m",
        Millimetre,
        &format!("“N·m” at column 4 of “25 N·m” is the unit of a torque: {LENGTHS}"),
    );
    check(
        "25 J",
        NewtonMetre,
        &format!("“J” at column 4 of “25 J” is not a unit known here: {TORQUES}"),
    );
    check(
        "5 m",
        Second,
        "“m” at column 3 of “5 m” is the unit of a length: write a duration in s, min, h or d",
    );
    check(
        "780 lbf",
        Kilogram,
        "“lbf” at column 5 of “780 lbf” is the unit of a force: write a mass in kg or lb",
    );
    check(
        "18 lb",
        NewtonMetre,
        &format!("“lb” at column 4 of “18 lb” is the unit of a mass: {TORQUES}"),
    );
    check(
        "5 Δ°C",
        Celsius,
        "“Δ°C” at column 3 of “5 Δ°C” is the unit of a temperature difference: write a temperature \
         in K, °C or °F",
    );
    check(
        "5 mm",
        KelvinDifference,
        "“mm” at column 3 of “5 mm” is the unit of a length: write a temperature difference in K, \
         °C or °F",
    );
    check(
        "5 a\u{7}b",
        Rpm,
        "“a\u{fffd}b” at column 3 of “5 a\u{fffd}b” is not a unit known here: write a shaft speed \
         in rad/s or rpm",
    );
}

#[test]
fn practice_what_is_not_a_number() {
    for (text, column) in [
        ("abc", 1),
        ("NaN", 1),
        ("inf", 1),
        ("-∞", 2),
        ("thou", 1),
        (".", 1),
        ("- mm", 3),
        ("--5", 2),
        ("+-5", 2),
        ("1e3", 2),
        ("1.5E-3 mm", 4),
        ("0x1F", 2),
        ("12 34 mm", 4),
        ("5 - 5/16", 3),
        ("5-", 2),
        ("5/", 3),
        ("/16", 1),
        ("1/2/3", 4),
        ("1/2.5", 4),
        ("1.5/2", 4),
        ("5.5 1/2", 5),
        ("½½", 2),
        ("٣ mm", 1),
    ] {
        check(
            text,
            Millimetre,
            &format!("“{text}” is not a number at column {column}: {NUMBER}"),
        );
    }
}

#[test]
fn practice_marks_that_may_group_thousands() {
    for (text, column) in [
        ("1,234.5", 6),
        ("1.234,5", 6),
        ("1,234,567", 6),
        ("1.2.3", 4),
        ("1,,2 mm", 3),
    ] {
        check(
            text,
            Millimetre,
            &format!("“{text}” has a second decimal mark at column {column}: {MARK}"),
        );
    }
}

#[test]
fn law_capitals_matter_where_a_prefix_could_be_misread() {
    for text in ["5 Mm", "5 nm", "5 MM"] {
        let reason = parse(text, Metre).unwrap_err().reason;
        assert_eq!(
            reason,
            Reason::UnknownUnit {
                unit: text[2..].to_owned(),
                wanted: Kind::Length
            }
        );
    }
    assert_eq!(Unit::from_symbol("mPa"), None);
    assert_eq!(Unit::from_symbol("MPa"), Some(Unit::Megapascal));
    assert_eq!(Unit::from_symbol("kn"), Some(Unit::Knot));
    assert_eq!(Unit::from_symbol("kN"), Some(Unit::Kilonewton));
    assert_eq!(Unit::from_symbol(""), None);
}

#[test]
fn law_a_plain_number_is_refused_with_anything_behind_it() {
    let check = |text: &str, expected: &str| {
        let error = quantity::plain(text).expect_err(text);
        assert_eq!(error.to_string(), expected);
    };
    check(
        "45 €",
        "“45 €” has something behind its number at column 4: write the number alone",
    );
    check(
        "3 mm",
        "“3 mm” has something behind its number at column 3: write the number alone",
    );
    check(
        "1,250.00",
        &format!("“1,250.00” has a second decimal mark at column 6: {MARK}"),
    );
    check(
        "€ 45",
        &format!("“€ 45” is not a number at column 1: {NUMBER}"),
    );
    check(
        "",
        "nothing is written, from column 1 on: write a number, and its unit if it is not the one shown",
    );
}
