//! What each unit is in SI: the only conversion factors of the workspace.
//!
//! Every factor is built from definitions that are exact: inch and pound by the international
//! yard and pound agreement of 1959, standard gravity by the third General Conference on Weights
//! and Measures of 1901, the US gallon as 231 cubic inches, the nautical mile as 1852 m, the
//! metric horsepower as 75 kgf·m/s, mercury by convention as 13 595.1 kg/m³.

use crate::Unit;
use crate::exact::Exact;

const DECI: Exact = Exact::new(1, 10);
const CENTI: Exact = Exact::new(1, 100);
const MILLI: Exact = Exact::new(1, 1000);
const MICRO: Exact = MILLI.times(MILLI);
const KILO: Exact = Exact::new(1000, 1);

const MINUTE: Exact = Exact::new(60, 1);
const HOUR: Exact = MINUTE.times(MINUTE);
const DAY: Exact = HOUR.times(Exact::new(24, 1));

const INCH: Exact = Exact::new(254, 10_000);
const FOOT: Exact = INCH.times(Exact::new(12, 1));
const MILE: Exact = FOOT.times(Exact::new(5280, 1));
const NAUTICAL_MILE: Exact = Exact::new(1852, 1);

const GRAVITY: Exact = Exact::new(980_665, 100_000);
const POUND: Exact = Exact::new(45_359_237, 100_000_000);
const POUND_FORCE: Exact = POUND.times(GRAVITY).reduced();
const MERCURY: Exact = Exact::new(135_951, 10).times(GRAVITY).reduced();

const LITRE: Exact = DECI.times(DECI).times(DECI);
const GALLON: Exact = Exact::new(231, 1)
    .times(INCH)
    .times(INCH)
    .times(INCH)
    .reduced();

const FAHRENHEIT: Exact = Exact::new(5, 9);

impl Unit {
    /// One of this unit in SI, without π where it is [circular](Unit::circular).
    pub(crate) const fn factor(self) -> Exact {
        match self {
            Self::Centimetre => CENTI,
            Self::Millimetre => MILLI,
            Self::Micrometre => MICRO,
            Self::Inch => INCH,
            Self::Thou => INCH.times(MILLI),
            Self::Foot | Self::FootPerSecond => FOOT,
            Self::Pound => POUND,
            Self::PoundForce => POUND_FORCE,
            Self::KilogramForce | Self::KilogramForceMetre => GRAVITY,
            Self::PoundForceFoot => POUND_FORCE.times(FOOT),
            Self::PoundForceInch => POUND_FORCE.times(INCH),
            Self::KilogramForceCentimetre => GRAVITY.times(CENTI),
            Self::Millibar => Exact::new(100, 1),
            Self::Bar => Exact::new(100_000, 1),
            Self::Kilonewton | Self::Kilopascal | Self::Kilowatt => KILO,
            Self::Megapascal => KILO.times(KILO),
            Self::Psi => POUND_FORCE.per(INCH).per(INCH),
            Self::KilogramForcePerSquareCentimetre => GRAVITY.per(CENTI).per(CENTI),
            Self::InchOfMercury => MERCURY.times(INCH),
            Self::Horsepower => POUND_FORCE.times(FOOT).times(Exact::new(550, 1)),
            Self::MetricHorsepower => GRAVITY.times(Exact::new(75, 1)),
            Self::CubicMetrePerHour => Exact::ONE.per(HOUR),
            Self::LitrePerSecond => LITRE,
            Self::LitrePerMinute => LITRE.per(MINUTE),
            Self::GallonPerMinute => GALLON.per(MINUTE),
            Self::KilometrePerHour => KILO.per(HOUR),
            Self::MilePerHour => MILE.per(HOUR),
            Self::Knot => NAUTICAL_MILE.per(HOUR),
            Self::Rpm => Exact::new(2, 1).per(MINUTE),
            Self::Degree => Exact::new(1, 180),
            Self::Turn => Exact::new(2, 1),
            Self::Fahrenheit | Self::FahrenheitDifference => FAHRENHEIT,
            Self::Minute => MINUTE,
            Self::Hour => HOUR,
            Self::Day => DAY,
            Self::Metre
            | Self::Kilogram
            | Self::Newton
            | Self::NewtonMetre
            | Self::Pascal
            | Self::Watt
            | Self::CubicMetrePerSecond
            | Self::MetrePerSecond
            | Self::RadianPerSecond
            | Self::Radian
            | Self::Kelvin
            | Self::Celsius
            | Self::KelvinDifference
            | Self::CelsiusDifference
            | Self::Second
            | Self::Ohm => Exact::ONE,
        }
        .reduced()
    }
}
