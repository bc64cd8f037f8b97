//! A quantity as typed, with its value under a key that carries the unit.

use std::collections::BTreeMap;
use std::marker::PhantomData;

use quantity::{Entered, Kind, Unit};
use serde::ser::SerializeStruct as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// A kind of quantity and the key of its SI value.
pub(super) trait Keyed {
    const KIND: Kind;
    const KEY: &'static str;
}

#[derive(Clone)]
pub(super) struct LengthKind;
#[derive(Clone)]
pub(super) struct TorqueKind;
#[derive(Clone)]
pub(super) struct AngleKind;
#[derive(Clone)]
pub(super) struct DurationKind;
#[derive(Clone)]
pub(super) struct PressureKind;
#[derive(Clone)]
pub(super) struct TemperatureKind;
#[derive(Clone)]
pub(super) struct ResistanceKind;
#[derive(Clone)]
pub(super) struct SpeedKind;
#[derive(Clone)]
pub(super) struct ShaftSpeedKind;
#[derive(Clone)]
pub(super) struct MassKind;
#[derive(Clone)]
pub(super) struct ForceKind;
#[derive(Clone)]
pub(super) struct PowerKind;

impl Keyed for LengthKind {
    const KIND: Kind = Kind::Length;
    const KEY: &'static str = "length_m";
}

impl Keyed for TorqueKind {
    const KIND: Kind = Kind::Torque;
    const KEY: &'static str = "torque_n_m";
}

impl Keyed for AngleKind {
    const KIND: Kind = Kind::Angle;
    const KEY: &'static str = "angle_rad";
}

impl Keyed for DurationKind {
    const KIND: Kind = Kind::Duration;
    const KEY: &'static str = "duration_s";
}

impl Keyed for PressureKind {
    const KIND: Kind = Kind::Pressure;
    const KEY: &'static str = "pressure_pa";
}

impl Keyed for TemperatureKind {
    const KIND: Kind = Kind::Temperature;
    const KEY: &'static str = "temperature_k";
}

impl Keyed for ResistanceKind {
    const KIND: Kind = Kind::Resistance;
    const KEY: &'static str = "resistance_ohm";
}

impl Keyed for SpeedKind {
    const KIND: Kind = Kind::Speed;
    const KEY: &'static str = "speed_m_s";
}

impl Keyed for ShaftSpeedKind {
    const KIND: Kind = Kind::ShaftSpeed;
    const KEY: &'static str = "shaft_speed_rad_s";
}

impl Keyed for MassKind {
    const KIND: Kind = Kind::Mass;
    const KEY: &'static str = "mass_kg";
}

impl Keyed for ForceKind {
    const KIND: Kind = Kind::Force;
    const KEY: &'static str = "force_n";
}

impl Keyed for PowerKind {
    const KIND: Kind = Kind::Power;
    const KEY: &'static str = "power_w";
}

pub(super) type Length = Typed<LengthKind>;
pub(super) type Torque = Typed<TorqueKind>;
pub(super) type Angle = Typed<AngleKind>;
pub(super) type Duration = Typed<DurationKind>;
pub(super) type Pressure = Typed<PressureKind>;
pub(super) type Temperature = Typed<TemperatureKind>;
pub(super) type Resistance = Typed<ResistanceKind>;
pub(super) type Speed = Typed<SpeedKind>;
pub(super) type ShaftSpeed = Typed<ShaftSpeedKind>;
pub(super) type Mass = Typed<MassKind>;
pub(super) type Force = Typed<ForceKind>;
pub(super) type Power = Typed<PowerKind>;

/// [`Entered`], of one kind.
#[derive(Clone)]
pub(super) struct Typed<K> {
    entered: Entered,
    kind: PhantomData<K>,
}

impl<K> From<&Entered> for Typed<K> {
    fn from(entered: &Entered) -> Self {
        Self {
            entered: entered.clone(),
            kind: PhantomData,
        }
    }
}

impl<K> From<Typed<K>> for Entered {
    fn from(typed: Typed<K>) -> Self {
        typed.entered
    }
}

impl<K: Keyed> Serialize for Typed<K> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Entered {
            text,
            bare,
            unit,
            value,
        } = &self.entered;
        let mut shape = serializer.serialize_struct("Typed", 4)?;
        shape.serialize_field("text", text)?;
        shape.serialize_field("bare", bare.symbol())?;
        shape.serialize_field("unit", unit.symbol())?;
        shape.serialize_field(K::KEY, value)?;
        shape.end()
    }
}

impl<'de, K: Keyed> Deserialize<'de> for Typed<K> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        struct Shape {
            text: String,
            bare: String,
            unit: String,
            #[serde(flatten)]
            values: BTreeMap<String, f64>,
        }
        let shape = Shape::deserialize(deserializer)?;
        let value = match shape.values.iter().next() {
            Some((key, value)) if key == K::KEY && shape.values.len() == 1 => *value,
            _ => {
                return Err(de::Error::custom(format!(
                    "“{}” must stand here, and no other",
                    K::KEY
                )));
            }
        };
        let unit = |symbol: &str| {
            let known = Unit::ALL
                .iter()
                .find(|u| u.kind() == K::KIND && u.symbol() == symbol);
            known
                .copied()
                .ok_or_else(|| de::Error::custom(format!("“{symbol}” is no unit of {}", K::KIND)))
        };
        let (bare, unit) = (unit(&shape.bare)?, unit(&shape.unit)?);
        let entered = Entered {
            text: shape.text,
            bare,
            unit,
            value,
        };
        Ok(Self {
            entered,
            kind: PhantomData,
        })
    }
}

/// A unit of length by its symbol.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(try_from = "String", into = "&'static str")]
pub(super) struct LengthUnit(pub(super) Unit);

impl TryFrom<String> for LengthUnit {
    type Error = String;

    fn try_from(symbol: String) -> Result<Self, String> {
        Unit::ALL
            .iter()
            .find(|unit| unit.kind() == Kind::Length && unit.symbol() == symbol)
            .map(|unit| Self(*unit))
            .ok_or_else(|| format!("“{symbol}” is no unit of length"))
    }
}

impl From<LengthUnit> for &'static str {
    fn from(unit: LengthUnit) -> Self {
        unit.0.symbol()
    }
}

/// Ends of a gap, equal where it was one number.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Gap {
    low: Length,
    high: Length,
}

impl From<&(Entered, Entered)> for Gap {
    fn from((low, high): &(Entered, Entered)) -> Self {
        Self {
            low: low.into(),
            high: high.into(),
        }
    }
}

impl From<Gap> for (Entered, Entered) {
    fn from(gap: Gap) -> Self {
        (gap.low.into(), gap.high.into())
    }
}
