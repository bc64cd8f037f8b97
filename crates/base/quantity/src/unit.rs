//! Units: what they measure, how they are written, and what they are exactly.

use std::f64::consts::PI;
use std::fmt;

use crate::exact::Exact;

/// What a number measures.
///
/// Displayed for use in a sentence: "a length", "a shaft speed".
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// In metres.
    Length,
    /// In kilograms; what a scale shows in newtons is a force.
    Mass,
    /// In newtons.
    Force,
    /// In newton metres; an energy is something else.
    Torque,
    /// In pascals.
    Pressure,
    /// In watts.
    Power,
    /// Volume per time, in cubic metres per second.
    Flow,
    /// In metres per second.
    Speed,
    /// In radians per second.
    ShaftSpeed,
    /// In radians.
    Angle,
    /// In kelvins above absolute zero.
    Temperature,
    /// A rise or a fall, in kelvins.
    TemperatureDifference,
    /// In seconds.
    Duration,
    /// Electrical, in ohms.
    Resistance,
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Length => "a length",
            Self::Mass => "a mass",
            Self::Force => "a force",
            Self::Torque => "a torque",
            Self::Pressure => "a pressure",
            Self::Power => "a power",
            Self::Flow => "a flow",
            Self::Speed => "a speed",
            Self::ShaftSpeed => "a shaft speed",
            Self::Angle => "an angle",
            Self::Temperature => "a temperature",
            Self::TemperatureDifference => "a temperature difference",
            Self::Duration => "a duration",
            Self::Resistance => "a resistance",
        })
    }
}

/// A unit someone may write or read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// The SI unit of length.
    Metre,
    /// 0.01 m.
    Centimetre,
    /// 0.001 m.
    Millimetre,
    /// 0.000 001 m.
    Micrometre,
    /// 0.0254 m.
    Inch,
    /// A thousandth of an inch, also called mil.
    Thou,
    /// 12 in.
    Foot,
    /// The SI unit of mass.
    Kilogram,
    /// The avoirdupois pound, 0.453 592 37 kg.
    Pound,
    /// The SI unit of force.
    Newton,
    /// 1000 N.
    Kilonewton,
    /// The weight of a pound.
    PoundForce,
    /// The weight of a kilogram, as on a spring scale.
    KilogramForce,
    /// The SI unit of torque.
    NewtonMetre,
    /// The pound-foot or foot-pound of torque wrenches.
    PoundForceFoot,
    /// The pound-inch or inch-pound of small torque wrenches.
    PoundForceInch,
    /// 9.80665 N·m.
    KilogramForceMetre,
    /// A hundredth of the former.
    KilogramForceCentimetre,
    /// The SI unit of pressure.
    Pascal,
    /// 1000 Pa.
    Kilopascal,
    /// 1 000 000 Pa.
    Megapascal,
    /// 100 Pa.
    Millibar,
    /// 100 000 Pa.
    Bar,
    /// Pound-force per square inch.
    Psi,
    /// Kilogram-force per square centimetre.
    KilogramForcePerSquareCentimetre,
    /// Conventional inch of mercury, of vacuum gauges: 13 595.1 kg/m³ under standard gravity.
    InchOfMercury,
    /// The SI unit of power.
    Watt,
    /// 1000 W.
    Kilowatt,
    /// 550 foot-pounds per second.
    Horsepower,
    /// 75 kilogram-force metres per second.
    MetricHorsepower,
    /// The SI unit of flow.
    CubicMetrePerSecond,
    /// 1/3600 m³/s.
    CubicMetrePerHour,
    /// 0.001 m³/s.
    LitrePerSecond,
    /// 1/60 L/s.
    LitrePerMinute,
    /// US gallon of 231 cubic inches, per minute.
    GallonPerMinute,
    /// The SI unit of speed.
    MetrePerSecond,
    /// 1/3.6 m/s.
    KilometrePerHour,
    /// 5280 feet per hour.
    MilePerHour,
    /// 1852 metres per hour.
    Knot,
    /// 0.3048 m/s.
    FootPerSecond,
    /// The SI unit of shaft speed.
    RadianPerSecond,
    /// Turns per minute.
    Rpm,
    /// The SI unit of angle.
    Radian,
    /// 1/360 turn.
    Degree,
    /// Once around.
    Turn,
    /// The SI unit of temperature.
    Kelvin,
    /// From 273.15 K, in kelvins.
    Celsius,
    /// From 459.67 °F below zero, in steps of 5/9 K.
    Fahrenheit,
    /// A step of one kelvin.
    KelvinDifference,
    /// A step of one degree Celsius: one kelvin.
    CelsiusDifference,
    /// A step of one degree Fahrenheit: 5/9 K.
    FahrenheitDifference,
    /// The SI unit of duration.
    Second,
    /// 60 s.
    Minute,
    /// 60 min.
    Hour,
    /// 24 h.
    Day,
    /// The SI unit of electrical resistance.
    Ohm,
}

impl Unit {
    /// Every unit, by kind, the SI unit of each first.
    pub const ALL: &[Unit] = &[
        Self::Metre,
        Self::Centimetre,
        Self::Millimetre,
        Self::Micrometre,
        Self::Inch,
        Self::Thou,
        Self::Foot,
        Self::Kilogram,
        Self::Pound,
        Self::Newton,
        Self::Kilonewton,
        Self::PoundForce,
        Self::KilogramForce,
        Self::NewtonMetre,
        Self::PoundForceFoot,
        Self::PoundForceInch,
        Self::KilogramForceMetre,
        Self::KilogramForceCentimetre,
        Self::Pascal,
        Self::Kilopascal,
        Self::Megapascal,
        Self::Millibar,
        Self::Bar,
        Self::Psi,
        Self::KilogramForcePerSquareCentimetre,
        Self::InchOfMercury,
        Self::Watt,
        Self::Kilowatt,
        Self::Horsepower,
        Self::MetricHorsepower,
        Self::CubicMetrePerSecond,
        Self::CubicMetrePerHour,
        Self::LitrePerSecond,
        Self::LitrePerMinute,
        Self::GallonPerMinute,
        Self::MetrePerSecond,
        Self::KilometrePerHour,
        Self::MilePerHour,
        Self::Knot,
        Self::FootPerSecond,
        Self::RadianPerSecond,
        Self::Rpm,
        Self::Radian,
        Self::Degree,
        Self::Turn,
        Self::Kelvin,
        Self::Celsius,
        Self::Fahrenheit,
        Self::KelvinDifference,
        Self::CelsiusDifference,
        Self::FahrenheitDifference,
        Self::Second,
        Self::Minute,
        Self::Hour,
        Self::Day,
        Self::Ohm,
    ];

    /// What it measures.
    pub fn kind(self) -> Kind {
        match self {
            Self::Metre
            | Self::Centimetre
            | Self::Millimetre
            | Self::Micrometre
            | Self::Inch
            | Self::Thou
            | Self::Foot => Kind::Length,
            Self::Kilogram | Self::Pound => Kind::Mass,
            Self::Newton | Self::Kilonewton | Self::PoundForce | Self::KilogramForce => Kind::Force,
            Self::NewtonMetre
            | Self::PoundForceFoot
            | Self::PoundForceInch
            | Self::KilogramForceMetre
            | Self::KilogramForceCentimetre => Kind::Torque,
            Self::Pascal
            | Self::Kilopascal
            | Self::Megapascal
            | Self::Millibar
            | Self::Bar
            | Self::Psi
            | Self::KilogramForcePerSquareCentimetre
            | Self::InchOfMercury => Kind::Pressure,
            Self::Watt | Self::Kilowatt | Self::Horsepower | Self::MetricHorsepower => Kind::Power,
            Self::CubicMetrePerSecond
            | Self::CubicMetrePerHour
            | Self::LitrePerSecond
            | Self::LitrePerMinute
            | Self::GallonPerMinute => Kind::Flow,
            Self::MetrePerSecond
            | Self::KilometrePerHour
            | Self::MilePerHour
            | Self::Knot
            | Self::FootPerSecond => Kind::Speed,
            Self::RadianPerSecond | Self::Rpm => Kind::ShaftSpeed,
            Self::Radian | Self::Degree | Self::Turn => Kind::Angle,
            Self::Kelvin | Self::Celsius | Self::Fahrenheit => Kind::Temperature,
            Self::KelvinDifference | Self::CelsiusDifference | Self::FahrenheitDifference => {
                Kind::TemperatureDifference
            }
            Self::Second | Self::Minute | Self::Hour | Self::Day => Kind::Duration,
            Self::Ohm => Kind::Resistance,
        }
    }

    /// Its one symbol, unlike that of any other unit: a step of temperature is `ΔK`, `Δ°C`, `Δ°F`.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Metre => "m",
            Self::Centimetre => "cm",
            Self::Millimetre => "mm",
            Self::Micrometre => "µm",
            Self::Inch => "in",
            Self::Thou => "thou",
            Self::Foot => "ft",
            Self::Kilogram => "kg",
            Self::Pound => "lb",
            Self::Newton => "N",
            Self::Kilonewton => "kN",
            Self::PoundForce => "lbf",
            Self::KilogramForce => "kgf",
            Self::NewtonMetre => "N·m",
            Self::PoundForceFoot => "lbf·ft",
            Self::PoundForceInch => "lbf·in",
            Self::KilogramForceMetre => "kgf·m",
            Self::KilogramForceCentimetre => "kgf·cm",
            Self::Pascal => "Pa",
            Self::Kilopascal => "kPa",
            Self::Megapascal => "MPa",
            Self::Millibar => "mbar",
            Self::Bar => "bar",
            Self::Psi => "psi",
            Self::KilogramForcePerSquareCentimetre => "kgf/cm²",
            Self::InchOfMercury => "inHg",
            Self::Watt => "W",
            Self::Kilowatt => "kW",
            Self::Horsepower => "hp",
            Self::MetricHorsepower => "PS",
            Self::CubicMetrePerSecond => "m³/s",
            Self::CubicMetrePerHour => "m³/h",
            Self::LitrePerSecond => "L/s",
            Self::LitrePerMinute => "L/min",
            Self::GallonPerMinute => "gal/min",
            Self::MetrePerSecond => "m/s",
            Self::KilometrePerHour => "km/h",
            Self::MilePerHour => "mph",
            Self::Knot => "kn",
            Self::FootPerSecond => "ft/s",
            Self::RadianPerSecond => "rad/s",
            Self::Rpm => "rpm",
            Self::Radian => "rad",
            Self::Degree => "°",
            Self::Turn => "turn",
            Self::Kelvin => "K",
            Self::Celsius => "°C",
            Self::Fahrenheit => "°F",
            Self::KelvinDifference => "ΔK",
            Self::CelsiusDifference => "Δ°C",
            Self::FahrenheitDifference => "Δ°F",
            Self::Second => "s",
            Self::Minute => "min",
            Self::Hour => "h",
            Self::Day => "d",
            Self::Ohm => "Ω",
        }
    }

    /// The unit of an accepted spelling: its symbol, a common abbreviation, its name.
    ///
    /// `K`, `°C` and `°F` are temperatures here; only [`parse`](crate::parse), which knows what is
    /// wanted, reads them as steps of temperature.
    pub fn from_symbol(text: &str) -> Option<Unit> {
        crate::spelling::lookup(text, None)
    }

    /// As it stands after a number: the symbol, a step of temperature without its `Δ`.
    pub(crate) fn worded(self) -> &'static str {
        self.symbol().trim_start_matches('Δ')
    }

    /// What stands between a number and it: the sign of an angle stands close.
    pub(crate) fn space(self) -> &'static str {
        if self == Self::Degree { "" } else { "\u{a0}" }
    }

    /// A number in this unit as SI, rounded to the nearest `f64`.
    pub(crate) fn to_si(self, typed: Exact) -> f64 {
        let rational = typed.plus(self.zero()).times(self.factor()).nearest();
        if self.circular() {
            rational * PI
        } else {
            rational
        }
    }

    /// An SI number in this unit, for pictures; words go through [`number`](crate::number).
    ///
    /// `n = x / factor - zero`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `value` | x | the quantity | SI unit of its kind |
    /// | returns | n | the number in this unit, within a few units in the last place | this unit |
    ///
    /// Range: any finite value.
    /// Source: `definition`.
    pub fn from_si(self, value: f64) -> f64 {
        let rational = if self.circular() { value / PI } else { value };
        rational / self.factor().nearest() - self.zero().nearest()
    }

    /// What to add before the factor applies; the scales of temperature alone start elsewhere.
    const fn zero(self) -> Exact {
        match self {
            Self::Celsius => Exact::new(27_315, 100),
            Self::Fahrenheit => Exact::new(45_967, 100),
            _ => Exact::ZERO,
        }
    }

    /// Whether the factor is to be multiplied by π as well.
    const fn circular(self) -> bool {
        matches!(self, Self::Rpm | Self::Degree | Self::Turn)
    }
}
