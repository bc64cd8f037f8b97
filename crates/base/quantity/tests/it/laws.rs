//! What must hold for any text and any unit.

use proptest::prelude::*;
use quantity::{Kind, Reason, Unit, format, number, parse};

use crate::{base, si};

fn units() -> impl Strategy<Value = Unit> {
    prop::sample::select(Unit::ALL)
}

/// A decimal with so many digits after the point, as a person would write it.
fn decimals() -> impl Strategy<Value = (String, u32)> {
    (any::<bool>(), 0..1_000_000_u32, 0..=6_u32, any::<u32>()).prop_map(
        |(negative, whole, places, part)| {
            let sign = if negative && whole > 0 { "-" } else { "" };
            let part = part % 10_u32.pow(places);
            let width = places as usize;
            let point = if places == 0 {
                String::new()
            } else {
                format!(".{part:0width$}")
            };
            (format!("{sign}{whole}{point}"), places)
        },
    )
}

proptest! {
    #[test]
    fn law_round_trip((text, places) in decimals(), unit in units()) {
        let value = si(&text, unit);
        prop_assert_eq!(&number(value, unit, places), &text);
        let again = si(&format(value, unit, places), unit);
        prop_assert_eq!(again.to_bits(), value.to_bits());
    }

    #[test]
    fn law_a_computed_value_survives_its_wording(value in 1e-3..1e3_f64, unit in units()) {
        let whole = number(value, unit, 0).chars().filter(char::is_ascii_digit).count();
        let places = 17 - u32::try_from(whole)?;
        let again = si(&number(value, unit, places), unit);
        let zero = si("0", unit);
        let half_a_step = (si("1", unit) - zero) * 0.1_f64.powi(places.try_into()?) * 0.5;
        // Into the unit and out of it again: some four roundings of what was added up.
        let tolerance = half_a_step + 4.0 * f64::EPSILON * (value + zero);
        prop_assert!((again - value).abs() <= tolerance, "{value:?} came back as {again:?}");
    }

    #[test]
    fn law_no_text_is_too_strange(text in "\\PC*", unit in units()) {
        judge(&text, unit);
    }

    #[test]
    fn law_no_almost_number_is_too_strange(
        text in "[-+−0-9.,/ ½eExXmµN·°\"'\u{a0}\n]{0,70}",
        unit in units(),
    ) {
        judge(&text, unit);
    }

    #[test]
    fn law_an_unknown_unit_is_pointed_at(
        (text, _) in decimals(),
        lead in " {0,3}",
        gap in "[ \u{a0}]{0,3}",
        word in "[g-w]{0,4}q[g-w]{0,4}",
        unit in units(),
    ) {
        let typed = format!("{lead}{text}{gap}{word}");
        let error = parse(&typed, unit).unwrap_err();
        prop_assert_eq!(error.column, typed.chars().count() - word.chars().count() + 1);
        prop_assert_eq!(error.reason, Reason::UnknownUnit { unit: word, wanted: unit.kind() });
    }

    #[test]
    fn law_more_is_more(a in 0..1_000_000_u32, b in 0..1_000_000_u32, unit in units()) {
        let (a_si, b_si) = (si(&a.to_string(), unit), si(&b.to_string(), unit));
        prop_assert_eq!(a.cmp(&b), a_si.total_cmp(&b_si));
    }

    #[test]
    fn law_twice_the_number_is_twice_the_value((text, _) in decimals(), unit in units()) {
        let half = si(&text, unit);
        let twice = half * 2.0;
        let doubled = si(&double(&text), unit);
        let affine = matches!(unit, Unit::Celsius | Unit::Fahrenheit);
        prop_assert_eq!(doubled.to_bits() == twice.to_bits(), !affine);
    }
}

/// Twice a decimal of at most six places, without a float in between.
fn double(text: &str) -> String {
    let (sign, size) = text
        .strip_prefix('-')
        .map_or(("", text), |size| ("-", size));
    let (whole, part) = size.split_once('.').unwrap_or((size, ""));
    let millionths: u64 = format!("{whole}{part:0<6}").parse().expect("only digits");
    format!(
        "{sign}{}.{:06}",
        millionths * 2 / 1_000_000,
        millionths * 2 % 1_000_000
    )
}

/// Either a finite number or an error that stays within the text and on one line.
fn judge(text: &str, unit: Unit) {
    match parse(text, unit) {
        Ok(entered) => {
            assert!(entered.value.is_finite());
            assert_eq!(entered.text, text);
            assert_eq!(entered.unit.kind(), unit.kind());
        }
        Err(error) => {
            assert_eq!(error.text, text);
            assert!((1..=text.chars().count() + 1).contains(&error.column));
            assert!(!error.to_string().contains(char::is_control));
        }
    }
}

#[test]
fn law_only_temperature_starts_elsewhere_than_at_zero() {
    for unit in Unit::ALL {
        let starts_at_zero = si("0", *unit).to_bits() == 0.0_f64.to_bits();
        let shifted = matches!(unit, Unit::Celsius | Unit::Fahrenheit);
        assert_eq!(starts_at_zero, !shifted, "{unit:?}");
        assert!(!shifted || unit.kind() == Kind::Temperature);
    }
}

#[test]
fn law_every_symbol_is_its_own_and_is_read_back() {
    for unit in Unit::ALL {
        assert_eq!(Unit::from_symbol(unit.symbol()), Some(*unit));
        // In a text the symbol may come with the kind already known.
        assert_eq!(
            parse(&format!("1 {}", unit.symbol()), *unit).unwrap().unit,
            *unit
        );
    }
}

#[test]
fn law_units_are_listed_once_in_order_and_the_si_unit_leads_its_kind() {
    assert!(Unit::ALL.is_sorted_by(|a, b| a < b && a.kind() <= b.kind()));
    assert_eq!(Unit::ALL.len(), Unit::Ohm as usize + 1);
    for unit in Unit::ALL {
        assert_eq!(si("1", base(unit.kind())).to_bits(), 1.0_f64.to_bits());
    }
}

#[test]
fn law_the_largest_and_the_smallest_that_can_be_typed_fit_every_unit() {
    for unit in Unit::ALL {
        for text in [
            "999999999999999999",
            "-999999999999999999",
            ".000000000000000001",
            "99999999999999999/7",
            "1/99999999999999999",
            "9-9/9999999999999999",
            "999999999999999-99/7",
        ] {
            assert!(si(text, *unit).is_finite());
        }
    }
}

#[test]
fn law_a_kind_fits_into_a_sentence() {
    for unit in Unit::ALL {
        let kind = unit.kind().to_string();
        assert!(kind.starts_with("a ") || kind.starts_with("an "), "{kind}");
    }
}
