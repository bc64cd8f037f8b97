//! What one of each unit is, from the definitions, another library and exact fractions.

use quantity::{Kind, Unit};

use crate::{base, si};

fn check(text: &str, kind: Kind, expected: f64, relative: f64) {
    let value = si(text, base(kind));
    let error = ((value - expected) / expected).abs();
    assert!(
        error <= relative,
        "{text}: {value:?}, expected {expected:?}, off by {error:e}"
    );
}

/// Exact by definition, so the nearest f64 and nothing else.
///
/// Source: the international yard and pound agreement of 1959 (inch, pound), the third General
/// Conference on Weights and Measures of 1901 (standard gravity), the US gallon of 231 in³, the
/// nautical mile of 1852 m.
#[test]
fn published_definitions_hold_to_the_bit() {
    for (text, kind, expected) in [
        ("1 in", Kind::Length, 0.0254),
        ("1 thou", Kind::Length, 2.54e-5),
        ("1 ft", Kind::Length, 0.3048),
        ("1 lb", Kind::Mass, 0.453_592_37),
        ("1 lbf", Kind::Force, 4.448_221_615_260_5),
        ("1 kgf", Kind::Force, 9.80665),
        ("1 kgf·m", Kind::Torque, 9.80665),
        ("1 bar", Kind::Pressure, 1e5),
        ("1 PS", Kind::Power, 735.498_75),
        ("60 gal/min", Kind::Flow, 0.003_785_411_784),
        ("3600 kn", Kind::Speed, 1852.0),
        ("1 mph", Kind::Speed, 0.44704),
        ("30 rpm", Kind::ShaftSpeed, std::f64::consts::PI),
        ("1 turn", Kind::Angle, std::f64::consts::TAU),
        ("20 °C", Kind::Temperature, 293.15),
        ("68 °F", Kind::Temperature, 293.15),
        ("-40 °F", Kind::Temperature, 233.15),
        ("-40 °C", Kind::Temperature, 233.15),
        ("9 °F", Kind::TemperatureDifference, 5.0),
        ("24 h", Kind::Duration, 86_400.0),
        ("0.4 ohm", Kind::Resistance, 0.4),
    ] {
        assert_eq!(si(text, base(kind)).to_bits(), expected.to_bits(), "{text}");
    }
}

/// pint 0.25.3: `UnitRegistry().Quantity(1.0, unit).to(si).magnitude`.
///
/// It multiplies factors in f64, hence 1e-15, some four units in the last place.
#[test]
fn computed_one_of_each_unit_agrees_with_pint_0_25_3() {
    for (text, kind, expected) in [
        ("1 in", Kind::Length, 0.0254),
        ("0.001 in", Kind::Length, 2.54e-5),
        ("1 thou", Kind::Length, 2.539_999_999_999_999_7e-5),
        ("1 ft", Kind::Length, 0.304_799_999_999_999_96),
        ("1 lb", Kind::Mass, 0.453_592_370_000_000_1),
        ("1 lbf", Kind::Force, 4.448_221_615_260_500_5),
        ("1 lbf·ft", Kind::Torque, 1.355_817_948_331_400_6),
        ("1 lbf·in", Kind::Torque, 0.112_984_829_027_616_71),
        ("1 kgf·m", Kind::Torque, 9.80665),
        ("1 kgf·cm", Kind::Torque, 0.098_066_5),
        ("1 psi", Kind::Pressure, 6_894.757_293_168_363_5),
        ("1 bar", Kind::Pressure, 1e5),
        ("1 mbar", Kind::Pressure, 100.0),
        ("1 kgf/cm²", Kind::Pressure, 98_066.5),
        ("1 inHg", Kind::Pressure, 3_386.388_640_340_999_7),
        ("1 hp", Kind::Power, 745.699_871_582_270_1),
        ("1 PS", Kind::Power, 735.498_75),
        ("1 m³/h", Kind::Flow, 0.000_277_777_777_777_777_8),
        ("1 L/s", Kind::Flow, 0.001_000_000_000_000_000_2),
        ("1 L/min", Kind::Flow, 1.666_666_666_666_667e-5),
        ("1 gal/min", Kind::Flow, 6.309_019_639_999_999e-5),
        ("1 km/h", Kind::Speed, 0.277_777_777_777_777_8),
        ("1 mph", Kind::Speed, 0.44704),
        ("1 kn", Kind::Speed, 0.514_444_444_444_444_5),
        ("1 ft/s", Kind::Speed, 0.304_799_999_999_999_96),
        ("1 rpm", Kind::ShaftSpeed, 0.104_719_755_119_659_77),
        ("1°", Kind::Angle, 0.017_453_292_519_943_295),
        ("1 turn", Kind::Angle, std::f64::consts::TAU),
        ("1 °F", Kind::TemperatureDifference, 0.555_555_555_555_555_6),
    ] {
        check(text, kind, expected, 1e-15);
    }
    // The value pint rounds from is 6894.757293168361; another order of products gives this one.
    check("1 psi", Kind::Pressure, 6_894.757_293_168_361, 4e-16);
    for (text, expected) in [
        ("20 °C", 293.15),
        ("68 °F", 293.150_000_000_000_03),
        ("48 °F", 282.038_888_888_888_9),
        ("-40 °F", 233.15),
        ("-40 °C", 233.149_999_999_999_98),
    ] {
        // It subtracts nearly equal numbers, which costs more digits than multiplying.
        check(text, Kind::Temperature, expected, 1e-13);
    }
}

/// Python 3 `float(fractions.Fraction(number) * factor)`, which rounds correctly, as we must.
#[test]
fn computed_values_are_the_nearest_f64_by_python_fractions() {
    for (text, kind, expected) in [
        ("13 thou", Kind::Length, 0.000_330_2),
        ("47 thou", Kind::Length, 0.001_193_8_f64),
        ("0.013 in", Kind::Length, 0.000_330_2),
        ("787.5 lb", Kind::Mass, 357.203_991_375),
        ("176.37 lb", Kind::Mass, 80.000_086_296_9),
        ("1.1 lb", Kind::Mass, 0.498_951_607),
        ("37.3 psi", Kind::Pressure, 257_174.447_035_179_88),
        ("145.0377 psi", Kind::Pressure, 999_999.739_859_364_8),
        ("18 lbf·ft", Kind::Torque, 24.404_723_069_965_208),
        ("87.35 lbf·ft", Kind::Torque, 118.430_697_786_747_83),
        ("20 lbf·in", Kind::Torque, 2.259_696_580_552_334),
        ("172.9 hp", Kind::Power, 128_931.507_796_574_51),
        ("999.999 gal/min", Kind::Flow, 0.063_090_133_309_803_6),
        ("53.7 kn", Kind::Speed, 27.625_666_666_666_667),
        ("108.1 km/h", Kind::Speed, 30.027_777_777_777_78),
        ("67.25 mph", Kind::Speed, 30.063_44),
        ("1.625 L/min", Kind::Flow, 2.708_333_333_333_333_2e-5),
        ("29.92 inHg", Kind::Pressure, 101_320.748_119_002_72),
        ("310 PS", Kind::Power, 228_004.612_5),
        ("1.1 kgf/cm²", Kind::Pressure, 107_873.15),
        ("48 °F", Kind::Temperature, 282.038_888_888_888_9),
        ("67.9 °F", Kind::Temperature, 293.094_444_444_444_43),
        ("-459.67 °F", Kind::Temperature, 0.0),
        ("0.1 °F", Kind::Temperature, 255.427_777_777_777_78),
        ("-5 °C", Kind::Temperature, 268.15),
        ("36.6 °C", Kind::Temperature, 309.75),
    ] {
        assert_eq!(si(text, base(kind)).to_bits(), expected.to_bits(), "{text}");
    }
}

/// A scale of force shows what a mass weighs under standard gravity.
#[test]
fn law_a_pound_weighs_a_pound_force() {
    for (mass, force) in [("1 lb", "1 lbf"), ("1 kg", "1 kgf"), ("330 lb", "330 lbf")] {
        let weight = si(mass, Unit::Kilogram) * 9.806_65; // not a conversion: standard gravity
        check(force, Kind::Force, weight, 4e-16);
    }
}

#[test]
fn law_torque_is_not_energy() {
    for text in ["J", "kJ", "W·s", "N"] {
        assert_ne!(
            Unit::from_symbol(text).map(Unit::kind),
            Some(Kind::Torque),
            "{text}"
        );
    }
    assert_eq!(Unit::from_symbol("J"), None);
}
