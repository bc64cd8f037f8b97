//! A length as typed, with its value.

use quantity::{Entered, Kind, Unit};
use serde::{Deserialize, Serialize};

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

/// [`Entered`], of a length.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Length {
    text: String,
    bare: LengthUnit,
    unit: LengthUnit,
    #[expect(clippy::struct_field_names, reason = "the key carries the unit")]
    length_m: f64,
}

impl From<&Entered> for Length {
    fn from(entered: &Entered) -> Self {
        Self {
            text: entered.text.clone(),
            bare: LengthUnit(entered.bare),
            unit: LengthUnit(entered.unit),
            length_m: entered.value,
        }
    }
}

impl From<Length> for Entered {
    fn from(length: Length) -> Self {
        Self {
            text: length.text,
            bare: length.bare.0,
            unit: length.unit.0,
            value: length.length_m,
        }
    }
}
