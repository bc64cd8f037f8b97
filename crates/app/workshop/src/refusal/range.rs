//! A quantity outside its range, in words.

use std::fmt;

use quantity::{Entered, Kind, Unit, parse};

pub(super) fn out_of_range(
    f: &mut fmt::Formatter<'_>,
    entered: &Entered,
    least: f64,
    greatest: f64,
) -> fmt::Result {
    let unit = entered.unit;
    write!(
        f,
        "{}{} outside {} to {}\u{a0}{}. Check the unit and the decimal point{}.",
        as_read(entered),
        if entered.is_bare() {
            ", which is"
        } else {
            " is"
        },
        inward(unit.from_si(least), f64::ceil),
        inward(unit.from_si(greatest), f64::floor),
        unit.symbol(),
        other_unit(entered, least, greatest),
    )
}

/// `“0.013” was read as 0.013 thou`, or only the text where it had its unit.
pub(super) fn as_read(entered: &Entered) -> String {
    if entered.is_bare() {
        format!("“{}” was read as {}", entered.text, entered.worded())
    } else {
        format!("“{}”", entered.text)
    }
}

/// A length with the decimals it needs, three at most.
pub(super) fn short(value: f64, unit: Unit) -> String {
    let text = quantity::number(value, unit, 3);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// What to write where another unit of length was meant: those in which the number would do.
pub(super) fn other_unit(entered: &Entered, least: f64, greatest: f64) -> String {
    if entered.unit.kind() != Kind::Length || !entered.is_bare() {
        return String::new();
    }
    let text = entered.text.trim();
    let others = [
        (Unit::Inch, "inches"),
        (Unit::Millimetre, "millimetres"),
        (Unit::Thou, "thousandths of an inch"),
    ];
    let would_do =
        |unit: Unit| parse(text, unit).is_ok_and(|read| (least..=greatest).contains(&read.value));
    let hints = others.into_iter().filter(|(unit, _)| would_do(*unit));
    let hints =
        hints.map(|(unit, name)| format!("; for {name} write {text}\u{a0}{}", unit.symbol()));
    hints.collect::<Vec<_>>().concat()
}

/// A bound with three digits, rounded to the side where it still holds.
fn inward(bound: f64, round: impl Fn(f64) -> f64) -> String {
    if bound == 0.0 {
        return "0".to_owned();
    }
    let places = (2.0 - bound.abs().log10().floor()).max(0.0);
    let scale = 10.0_f64.powf(places);
    // A bound that is a round number but for its last bits stays that number.
    let near = (bound * scale).round();
    let whole = if (near - bound * scale).abs() < 1e-6 {
        near
    } else {
        round(bound * scale)
    };
    format!("{}", whole / scale)
}
