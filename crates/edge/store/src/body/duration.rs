//! A duration as typed, with its value.

use quantity::{Entered, Kind, Unit};
use serde::{Deserialize, Serialize};

/// A unit of duration by its symbol.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(try_from = "String", into = "&'static str")]
struct DurationUnit(Unit);

impl TryFrom<String> for DurationUnit {
    type Error = String;

    fn try_from(symbol: String) -> Result<Self, String> {
        Unit::ALL
            .iter()
            .find(|unit| unit.kind() == Kind::Duration && unit.symbol() == symbol)
            .map(|unit| Self(*unit))
            .ok_or_else(|| format!("“{symbol}” is no unit of duration"))
    }
}

impl From<DurationUnit> for &'static str {
    fn from(unit: DurationUnit) -> Self {
        unit.0.symbol()
    }
}

/// [`Entered`], of a duration.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Duration {
    text: String,
    bare: DurationUnit,
    unit: DurationUnit,
    #[expect(clippy::struct_field_names, reason = "the key carries the unit")]
    duration_s: f64,
}

impl From<&Entered> for Duration {
    fn from(entered: &Entered) -> Self {
        Self {
            text: entered.text.clone(),
            bare: DurationUnit(entered.bare),
            unit: DurationUnit(entered.unit),
            duration_s: entered.value,
        }
    }
}

impl From<Duration> for Entered {
    fn from(duration: Duration) -> Self {
        Self {
            text: duration.text,
            bare: duration.bare.0,
            unit: duration.unit.0,
            value: duration.duration_s,
        }
    }
}
