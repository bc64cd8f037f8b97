//! The keys of an outing on the water, of its figures and of its logs.

use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, Error, Visitor};
use toml::Spanned;

use super::{Field, some_count};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Outing {
    pub(crate) key: Field,
    pub(crate) name: Field,
    pub(crate) side: Field,
    pub(crate) unit: Field,
    pub(crate) receiver: Option<Field>,
    pub(crate) water: Option<Field>,
    pub(crate) water_temperature: Option<Field>,
    pub(crate) wind: Option<Field>,
    pub(crate) waves: Option<Field>,
    pub(crate) air_temperature: Option<Field>,
    pub(crate) pressure: Option<Field>,
    #[serde(default, deserialize_with = "some_count")]
    pub(crate) humidity: Option<Field>,
    #[serde(default)]
    pub(crate) charged: bool,
    pub(crate) note: Option<Field>,
    #[serde(default)]
    pub(crate) figure: Vec<Figure>,
    #[serde(default)]
    pub(crate) log: Vec<Log>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Figure {
    pub(crate) what: Field,
    pub(crate) way: Option<Field>,
    pub(crate) to: Option<Field>,
    pub(crate) value: Field,
    pub(crate) read: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Log {
    pub(crate) digest: Field,
    pub(crate) name: Field,
    pub(crate) bytes: u64,
    pub(crate) format: Field,
    pub(crate) speed_from: Field,
    pub(crate) read: u64,
    #[serde(default)]
    pub(crate) thinned: bool,
    pub(crate) unit_ratio: Option<f64>,
    pub(crate) layout: Option<Field>,
    pub(crate) zero: Option<Field>,
    #[serde(default)]
    pub(crate) rejected: Vec<Rejected>,
    pub(crate) runs: Option<Vec<(Field, Field)>>,
    #[serde(default)]
    pub(crate) stretch: Vec<Stretch>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Rejected {
    pub(crate) why: Field,
    pub(crate) count: u64,
    pub(crate) line: u64,
    pub(crate) text: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Stretch {
    pub(crate) time_ms: Spanned<Vec<i64>>,
    pub(crate) speed_mm_s: Vec<u32>,
    #[serde(default)]
    pub(crate) course_cdeg: Vec<Maybe>,
    #[serde(default)]
    pub(crate) engine_rpm: Vec<Maybe>,
}

/// A number of a column; -1 where there is none, because the format knows no absence in a list.
pub(crate) struct Maybe(pub(crate) Option<u16>);

impl<'de> Deserialize<'de> for Maybe {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Number;
        impl Visitor<'_> for Number {
            type Value = Maybe;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a whole number from 0 to 65535, or -1 where there is none")
            }

            fn visit_i64<E: Error>(self, number: i64) -> Result<Maybe, E> {
                if number == -1 {
                    return Ok(Maybe(None));
                }
                let whole = u16::try_from(number);
                whole
                    .map(|number| Maybe(Some(number)))
                    .map_err(|_| E::invalid_value(serde::de::Unexpected::Signed(number), &self))
            }
        }
        deserializer.deserialize_i64(Number)
    }
}
