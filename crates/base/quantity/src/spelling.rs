//! How people spell units.

use crate::{Kind, Unit};

/// Spellings in which capitals matter, beside the symbol of each unit.
const EXACT: &[(&str, Unit)] = &[
    ("um", Unit::Micrometre),
    ("\"", Unit::Inch),
    ("'", Unit::Foot),
    ("Nm", Unit::NewtonMetre),
    ("kp", Unit::KilogramForce),
    ("hPa", Unit::Millibar),
    ("m3/s", Unit::CubicMetrePerSecond),
    ("m3/h", Unit::CubicMetrePerHour),
    ("l/s", Unit::LitrePerSecond),
    ("l/min", Unit::LitrePerMinute),
    ("C", Unit::Celsius),
    ("F", Unit::Fahrenheit),
    ("K", Unit::KelvinDifference),
    ("°C", Unit::CelsiusDifference),
    ("°F", Unit::FahrenheitDifference),
    ("C", Unit::CelsiusDifference),
    ("F", Unit::FahrenheitDifference),
];

/// Spellings in which capitals do not matter, because no other unit looks like them.
const WORDS: &[(&str, Unit)] = &[
    ("metre", Unit::Metre),
    ("metres", Unit::Metre),
    ("meter", Unit::Metre),
    ("meters", Unit::Metre),
    ("micron", Unit::Micrometre),
    ("microns", Unit::Micrometre),
    ("in", Unit::Inch),
    ("inch", Unit::Inch),
    ("inches", Unit::Inch),
    ("thou", Unit::Thou),
    ("thous", Unit::Thou),
    ("mil", Unit::Thou),
    ("mils", Unit::Thou),
    ("ft", Unit::Foot),
    ("foot", Unit::Foot),
    ("feet", Unit::Foot),
    ("kg", Unit::Kilogram),
    ("kilogram", Unit::Kilogram),
    ("kilograms", Unit::Kilogram),
    ("lb", Unit::Pound),
    ("lbs", Unit::Pound),
    ("pound", Unit::Pound),
    ("pounds", Unit::Pound),
    ("lbf", Unit::PoundForce),
    ("lb", Unit::PoundForce),
    ("lbs", Unit::PoundForce),
    ("kgf", Unit::KilogramForce),
    ("kg", Unit::KilogramForce),
    ("lbf·ft", Unit::PoundForceFoot),
    ("ft·lbf", Unit::PoundForceFoot),
    ("lb·ft", Unit::PoundForceFoot),
    ("lbs·ft", Unit::PoundForceFoot),
    ("ft·lb", Unit::PoundForceFoot),
    ("ft·lbs", Unit::PoundForceFoot),
    ("ftlb", Unit::PoundForceFoot),
    ("ftlbs", Unit::PoundForceFoot),
    ("lbft", Unit::PoundForceFoot),
    ("foot·pound", Unit::PoundForceFoot),
    ("foot·pounds", Unit::PoundForceFoot),
    ("pound·foot", Unit::PoundForceFoot),
    ("pound·feet", Unit::PoundForceFoot),
    ("lbf·in", Unit::PoundForceInch),
    ("in·lbf", Unit::PoundForceInch),
    ("lb·in", Unit::PoundForceInch),
    ("lbs·in", Unit::PoundForceInch),
    ("in·lb", Unit::PoundForceInch),
    ("in·lbs", Unit::PoundForceInch),
    ("inlb", Unit::PoundForceInch),
    ("inlbs", Unit::PoundForceInch),
    ("lbin", Unit::PoundForceInch),
    ("inch·pound", Unit::PoundForceInch),
    ("inch·pounds", Unit::PoundForceInch),
    ("kgf·m", Unit::KilogramForceMetre),
    ("kg·m", Unit::KilogramForceMetre),
    ("kgf·cm", Unit::KilogramForceCentimetre),
    ("kg·cm", Unit::KilogramForceCentimetre),
    ("kpa", Unit::Kilopascal),
    ("bar", Unit::Bar),
    ("psi", Unit::Psi),
    ("lbf/in2", Unit::Psi),
    ("lb/in2", Unit::Psi),
    ("kgf/cm2", Unit::KilogramForcePerSquareCentimetre),
    ("kg/cm2", Unit::KilogramForcePerSquareCentimetre),
    ("inhg", Unit::InchOfMercury),
    ("in·hg", Unit::InchOfMercury),
    ("kw", Unit::Kilowatt),
    ("hp", Unit::Horsepower),
    ("bhp", Unit::Horsepower),
    ("ps", Unit::MetricHorsepower),
    ("metric·hp", Unit::MetricHorsepower),
    ("lpm", Unit::LitrePerMinute),
    ("gpm", Unit::GallonPerMinute),
    ("gal/min", Unit::GallonPerMinute),
    ("km/h", Unit::KilometrePerHour),
    ("kmh", Unit::KilometrePerHour),
    ("kph", Unit::KilometrePerHour),
    ("mph", Unit::MilePerHour),
    ("mi/h", Unit::MilePerHour),
    ("kt", Unit::Knot),
    ("kts", Unit::Knot),
    ("knot", Unit::Knot),
    ("knots", Unit::Knot),
    ("rpm", Unit::Rpm),
    ("r/min", Unit::Rpm),
    ("rev/min", Unit::Rpm),
    ("deg", Unit::Degree),
    ("degree", Unit::Degree),
    ("degrees", Unit::Degree),
    ("turn", Unit::Turn),
    ("turns", Unit::Turn),
    ("rev", Unit::Turn),
    ("revs", Unit::Turn),
    ("deg·c", Unit::Celsius),
    ("deg·f", Unit::Fahrenheit),
    ("deg·c", Unit::CelsiusDifference),
    ("deg·f", Unit::FahrenheitDifference),
    ("sec", Unit::Second),
    ("second", Unit::Second),
    ("seconds", Unit::Second),
    ("min", Unit::Minute),
    ("mins", Unit::Minute),
    ("minute", Unit::Minute),
    ("minutes", Unit::Minute),
    ("hr", Unit::Hour),
    ("hrs", Unit::Hour),
    ("hour", Unit::Hour),
    ("hours", Unit::Hour),
    ("day", Unit::Day),
    ("days", Unit::Day),
    ("ohm", Unit::Ohm),
    ("ohms", Unit::Ohm),
];

/// The unit spelled so; of several, the one of the wanted kind.
pub(crate) fn lookup(text: &str, wanted: Option<Kind>) -> Option<Unit> {
    let plain = plain(text);
    let folded = plain.to_lowercase();
    let symbols = Unit::ALL
        .iter()
        .filter(|u| self::plain(u.symbol()) == plain)
        .copied();
    let exact = EXACT.iter().filter(|(s, _)| *s == plain).map(|&(_, u)| u);
    let words = WORDS.iter().filter(|(s, _)| *s == folded).map(|&(_, u)| u);
    let found: Vec<Unit> = symbols.chain(exact).chain(words).collect();
    found
        .iter()
        .find(|u| Some(u.kind()) == wanted)
        .or(found.first())
        .copied()
}

/// One way to write what looks alike: every product as `·`, powers as digits, quotes straight.
fn plain(text: &str) -> String {
    let mut plain = String::new();
    for c in text.chars() {
        match c {
            '·' | '⋅' | '∙' | '•' | '.' | '*' | '×' => join(&mut plain),
            c if c.is_whitespace() || is_dash(c) => join(&mut plain),
            '^' => {}
            '²' => plain.push('2'),
            '³' => plain.push('3'),
            'μ' => plain.push('µ'),
            '″' | '”' | '“' => plain.push('"'),
            '′' | '’' | '‘' => plain.push('\''),
            'º' | '˚' => plain.push('°'),
            '∆' => plain.push('Δ'),
            '\u{2126}' => plain.push('Ω'),
            '℃' => plain.push_str("°C"),
            '℉' => plain.push_str("°F"),
            '/' | '⁄' | '∕' => {
                plain.truncate(plain.trim_end_matches('·').len());
                plain.push('/');
            }
            c => plain.push(c),
        }
    }
    plain.truncate(plain.trim_end_matches('·').len());
    if plain == "''" {
        "\"".to_owned()
    } else {
        plain
    }
}

/// A `·` between two parts, never first, doubled or after a stroke.
fn join(plain: &mut String) {
    if !plain.is_empty() && !plain.ends_with(['·', '/', '°', 'Δ']) {
        plain.push('·');
    }
}

/// A hyphen, en dash or minus sign.
pub(crate) fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2010}' | '\u{2011}' | '\u{2013}' | '\u{2212}')
}
