//! Everything people write that is to be understood.

use quantity::Unit::{
    Bar, Celsius, Degree, Fahrenheit, FahrenheitDifference, Hour, Inch, Kelvin, KelvinDifference,
    Kilogram, KilogramForce, KilogramForceMetre, Micrometre, Millimetre, Newton, NewtonMetre,
    Pascal, Pound, PoundForce, PoundForceFoot, PoundForceInch, Psi, Rpm, Second, Thou, Turn,
};
use quantity::{Unit, parse};

use crate::si;

/// A text, the unit in force, the unit that counts, and how to say the same thing plainly.
type Case = (&'static str, Unit, Unit, &'static str);

fn check((text, bare, unit, plainly): Case) {
    let entered = parse(text, bare).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(entered.text, text);
    assert_eq!(entered.bare, bare);
    assert_eq!(entered.unit, unit, "{text}");
    let plain = si(plainly, unit);
    assert_eq!(
        entered.value.to_bits(),
        plain.to_bits(),
        "{text} is {plainly} {}",
        unit.symbol()
    );
}

#[test]
fn practice_lengths_at_the_bench() {
    let cases: &[Case] = &[
        ("0.013", Inch, Inch, "0.013"),
        (".013 in", Millimetre, Inch, "0.013"),
        (".013in.", Millimetre, Inch, "0.013"),
        ("13", Thou, Thou, "13"),
        ("13 thou", Millimetre, Thou, "13"),
        ("13 Thou", Millimetre, Thou, "13"),
        ("13 mil", Millimetre, Thou, "13"),
        ("0.33mm", Inch, Millimetre, "0.33"),
        (".33 mm", Inch, Millimetre, "0.33"),
        ("0,33 mm", Inch, Millimetre, "0.33"),
        ("1,234", Millimetre, Millimetre, "1.234"),
        ("5.", Millimetre, Millimetre, "5"),
        ("+0.33", Millimetre, Millimetre, "0.33"),
        ("330 µm", Millimetre, Micrometre, "330"),
        ("330 μm", Millimetre, Micrometre, "330"),
        ("330 um", Millimetre, Micrometre, "330"),
        ("1/64\"", Millimetre, Inch, "0.015625"),
        ("1/64 ″", Millimetre, Inch, "0.015625"),
        ("1/64”", Millimetre, Inch, "0.015625"),
        ("1/64''", Millimetre, Inch, "0.015625"),
        ("1⁄64", Inch, Inch, "0.015625"),
        ("5-5/16\"", Millimetre, Inch, "5.3125"),
        ("5–5/16\"", Millimetre, Inch, "5.3125"),
        ("5 5/16 in", Millimetre, Inch, "5.3125"),
        ("5½ in", Millimetre, Inch, "5.5"),
        ("5 ¼ in", Millimetre, Inch, "5.25"),
        ("5-¾\"", Millimetre, Inch, "5.75"),
        ("½", Inch, Inch, "0.5"),
        ("-5 5/16", Inch, Inch, "-5.3125"),
        ("\u{2212}0.02", Millimetre, Millimetre, "-0.02"),
        ("\u{2009}13\u{a0}thou\u{202f}", Millimetre, Thou, "13"),
    ];
    cases.iter().copied().for_each(check);
}

#[test]
fn practice_torques_and_turns() {
    let cases: &[Case] = &[
        ("18 ft-lb", NewtonMetre, PoundForceFoot, "18"),
        ("18 lb-ft", NewtonMetre, PoundForceFoot, "18"),
        ("18 lbf·ft", NewtonMetre, PoundForceFoot, "18"),
        ("18 lbf ft", NewtonMetre, PoundForceFoot, "18"),
        ("18 ft.-lbs.", NewtonMetre, PoundForceFoot, "18"),
        ("18 FT-LBS", NewtonMetre, PoundForceFoot, "18"),
        ("20 in-lb", NewtonMetre, PoundForceInch, "20"),
        ("25 N·m", PoundForceFoot, NewtonMetre, "25"),
        ("25 Nm", PoundForceFoot, NewtonMetre, "25"),
        ("25 N.m", PoundForceFoot, NewtonMetre, "25"),
        ("25 N-m", PoundForceFoot, NewtonMetre, "25"),
        ("25 N\u{a0}m", PoundForceFoot, NewtonMetre, "25"),
        ("2.5 kgf·m", NewtonMetre, KilogramForceMetre, "2.5"),
        ("2.5 kg-m", NewtonMetre, KilogramForceMetre, "2.5"),
        ("1/8 turn", Degree, Turn, "0.125"),
        ("45°", Turn, Degree, "45"),
    ];
    cases.iter().copied().for_each(check);
}

#[test]
fn practice_everything_else() {
    let cases: &[Case] = &[
        ("7600 rpm", Rpm, Rpm, "7600"),
        ("7600 RPM", Rpm, Rpm, "7600"),
        ("7600 r/min", Rpm, Rpm, "7600"),
        ("48 °F", Celsius, Fahrenheit, "48"),
        ("48 F", Celsius, Fahrenheit, "48"),
        ("48 deg F", Celsius, Fahrenheit, "48"),
        ("48ºF", Celsius, Fahrenheit, "48"),
        ("-5 °C", Kelvin, Celsius, "-5"),
        ("−5 ° C", Kelvin, Celsius, "-5"),
        ("9 °F", KelvinDifference, FahrenheitDifference, "9"),
        ("9 Δ°F", KelvinDifference, FahrenheitDifference, "9"),
        ("5 K", FahrenheitDifference, KelvinDifference, "5"),
        ("24 h", Second, Hour, "24"),
        ("24", Hour, Hour, "24"),
        ("14 PSI", Bar, Psi, "14"),
        ("14 lbf / in²", Bar, Psi, "14"),
        ("12 lb", Newton, PoundForce, "12"),
        ("100000", Pascal, Pascal, "100000"),
    ];
    cases.iter().copied().for_each(check);
}

/// What is wanted decides whether a pound is a mass or its weight.
#[test]
fn practice_masses_and_what_they_weigh() {
    let cases: &[Case] = &[
        ("350", Kilogram, Kilogram, "350"),
        ("350 kg", Pound, Kilogram, "350"),
        ("350 kilograms", Pound, Kilogram, "350"),
        ("1 Kilogram", Pound, Kilogram, "1"),
        ("780 lb", Kilogram, Pound, "780"),
        ("780 lbs.", Kilogram, Pound, "780"),
        ("780 LBS", Kilogram, Pound, "780"),
        ("780 pounds", Kilogram, Pound, "780"),
        ("1 pound", Kilogram, Pound, "1"),
        ("12 lbs", Newton, PoundForce, "12"),
        ("12 kg", Newton, KilogramForce, "12"),
    ];
    cases.iter().copied().for_each(check);
    assert_eq!(Unit::from_symbol("lb"), Some(Pound));
    assert_eq!(Unit::from_symbol("lbf"), Some(PoundForce));
}

#[test]
fn law_a_size_is_the_same_number_however_it_is_spelled() {
    let same = |texts: &[&str], bare| {
        let first = si(texts[0], bare);
        for text in texts {
            assert_eq!(si(text, bare).to_bits(), first.to_bits(), "{text}");
        }
    };
    same(
        &[
            "13 thou",
            "0.013 in",
            "0.3302 mm",
            "330.2 µm",
            "0.0003302 m",
        ],
        Millimetre,
    );
    same(&["1/64 in", "0.396875 mm", "15.625 thou"], Millimetre);
    same(&["1/8 turn", "45°", "45 deg"], Degree);
    same(&["68 °F", "20 °C", "293.15 K"], Kelvin);
    same(&["14 psi", "14 lbf/in²", "14 lb/in2"], Pascal);
    same(&["18 lbf·ft", "216 lbf·in"], NewtonMetre);
    same(&["2.5 kgf·m", "250 kgf·cm"], NewtonMetre);
}

#[test]
fn law_every_leaf_of_a_feeler_set_is_one_number_in_thou_inch_and_millimetre() {
    for leaf in 1..=60_u32 {
        let thou = si(&leaf.to_string(), Thou);
        let inch = si(&format!("0.{leaf:03}"), Inch);
        let tenths_of_micrometres = leaf * 254;
        let millimetre = format!(
            "{}.{:04}",
            tenths_of_micrometres / 10_000,
            tenths_of_micrometres % 10_000
        );
        assert_eq!(thou.to_bits(), inch.to_bits(), "{leaf} thou");
        assert_eq!(
            thou.to_bits(),
            si(&millimetre, Millimetre).to_bits(),
            "{leaf} thou"
        );
    }
}

#[test]
fn law_a_step_of_temperature_is_not_a_temperature() {
    assert_eq!(Unit::from_symbol("°C"), Some(Celsius));
    assert_eq!(Unit::from_symbol("Δ°C"), Some(Unit::CelsiusDifference));
    assert_eq!(si("9 °F", KelvinDifference).to_bits(), 5.0_f64.to_bits());
    assert_eq!(
        si("9 °F", Kelvin).to_bits(),
        260.372_222_222_222_2_f64.to_bits()
    );
}

#[test]
fn practice_prices_and_shares_have_no_unit() {
    for (text, value) in [
        ("45", 45.0),
        (" 45,50 ", 45.5),
        (".5", 0.5),
        ("2 1/2", 2.5),
        ("2½", 2.5),
        ("0", 0.0),
        ("-3", -3.0),
    ] {
        let plain = quantity::plain(text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(plain.text, text);
        assert_eq!(plain.value.to_bits(), f64::to_bits(value), "{text}");
    }
}
