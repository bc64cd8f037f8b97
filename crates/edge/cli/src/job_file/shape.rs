//! The keys of a job file, each value with the place where it stands.

pub(super) mod bench;

use std::fmt;
use std::marker::PhantomData;

use serde::Deserialize;
use serde::de::{Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use toml::Spanned;

/// A value as typed, and where.
pub(super) type Field = Spanned<Text>;

/// What is looked at before anything else; other keys may be those of a newer version.
#[derive(Deserialize)]
pub(super) struct Head {
    pub(super) format: Option<Spanned<String>>,
    pub(super) version: Option<Spanned<i64>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Shape {
    #[serde(rename = "format")]
    _format: IgnoredAny,
    #[serde(rename = "version")]
    _version: IgnoredAny,
    pub(super) job: Job,
    pub(super) pump: Option<Pump>,
    pub(super) leaves: Option<Leaves>,
    pub(super) limits: Option<Limits>,
    pub(super) walk: Option<Walk>,
    pub(super) plan: Option<bench::Plan>,
    #[serde(default)]
    pub(super) steps: Rows<bench::Step>,
    #[serde(default)]
    pub(super) rules: Vec<bench::Rule>,
    #[serde(default)]
    pub(super) parts: Rows<bench::Part>,
    #[serde(default)]
    pub(super) progress: Rows<bench::Progress>,
    #[serde(default)]
    pub(super) joints: Rows<Joint>,
    #[serde(default)]
    pub(super) readings: Rows<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Job {
    pub(super) id: Field,
    pub(super) title: Field,
    pub(super) note: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Pump {
    #[serde(deserialize_with = "count")]
    pub(super) blades: Field,
    #[serde(deserialize_with = "count")]
    pub(super) positions: Field,
    pub(super) bore: Field,
    pub(super) view: Field,
    pub(super) rotation: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Leaves {
    pub(super) unit: Field,
    pub(super) thicknesses: Spanned<Thicknesses>,
    pub(super) width: Field,
    pub(super) lead: Field,
    pub(super) posture: Field,
    pub(super) tolerance: Option<Field>,
    pub(super) feel: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Limits {
    pub(super) least: Option<Field>,
    pub(super) greatest: Option<Field>,
    pub(super) measure: Field,
    pub(super) page: Option<Field>,
    #[serde(default)]
    pub(super) rub_in: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Walk {
    pub(super) go: Field,
    pub(super) no_go: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Joint {
    pub(super) name: Field,
    pub(super) thread: Field,
    pub(super) head: Field,
    #[serde(deserialize_with = "count")]
    pub(super) count: Field,
    pub(super) class: Field,
    pub(super) hole: Field,
    pub(super) torque: Option<Field>,
    pub(super) second: Option<Field>,
    pub(super) stated_for: Option<Field>,
    pub(super) turn: Option<Field>,
    pub(super) seat: Option<Field>,
    pub(super) grip: Option<Field>,
    pub(super) condition: Field,
    pub(super) face: Field,
    pub(super) page: Option<Field>,
    pub(super) screws: Option<Screws>,
}

/// How far the screws of a joint have come.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Screws {
    #[serde(rename = "in", deserialize_with = "count")]
    pub(super) in_place: Field,
    #[serde(deserialize_with = "count")]
    pub(super) torqued: Field,
    #[serde(deserialize_with = "count")]
    pub(super) marked: Field,
    #[serde(default)]
    pub(super) temporary: bool,
}

/// Text in quotes. A number without them would not say its unit.
#[derive(Debug)]
pub(super) struct Text(pub(super) String);

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Quoted;
        impl Visitor<'_> for Quoted {
            type Value = Text;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("text in quotes")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Text, E> {
                Ok(Text(text.to_owned()))
            }
        }
        deserializer.deserialize_str(Quoted)
    }
}

/// A whole number, with quotes or without.
struct Count(String);

impl<'de> Deserialize<'de> for Count {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Whole;
        impl Visitor<'_> for Whole {
            type Value = Count;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a whole number")
            }

            fn visit_i64<E: Error>(self, number: i64) -> Result<Count, E> {
                Ok(Count(number.to_string()))
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Count, E> {
                Ok(Count(text.to_owned()))
            }
        }
        deserializer.deserialize_any(Whole)
    }
}

fn count<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Field, D::Error> {
    let count = Spanned::<Count>::deserialize(deserializer)?;
    Ok(Spanned::new(count.span(), Text(count.into_inner().0)))
}

/// The leaves: a list, or one text with spaces between.
pub(super) struct Thicknesses {
    /// The items of a list.
    pub(super) items: Vec<Field>,
    joined: String,
}

impl Thicknesses {
    /// All of it as one text.
    pub(super) fn joined(given: Spanned<Self>) -> Field {
        Spanned::new(given.span(), Text(given.into_inner().joined))
    }
}

impl<'de> Deserialize<'de> for Thicknesses {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct List;
        impl<'de> Visitor<'de> for List {
            type Value = Thicknesses;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a list of leaves in quotes")
            }

            fn visit_str<E: Error>(self, text: &str) -> Result<Thicknesses, E> {
                Ok(Thicknesses {
                    items: Vec::new(),
                    joined: text.to_owned(),
                })
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Thicknesses, A::Error> {
                let mut items: Vec<Field> = Vec::new();
                while let Some(item) = list.next_element()? {
                    items.push(item);
                }
                let texts: Vec<&str> = items.iter().map(|item| item.get_ref().0.as_str()).collect();
                let joined = texts.join("; ");
                Ok(Thicknesses { items, joined })
            }
        }
        deserializer.deserialize_any(List)
    }
}

/// The rows of a table whose keys the person chooses: spots, joints.
pub(super) struct Rows<T>(Vec<(Spanned<String>, T)>);

impl<T> Default for Rows<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Rows<T> {
    /// In the order of the file; the parser hands them over by name.
    pub(super) fn in_order(mut self) -> Vec<(Spanned<String>, T)> {
        self.0.sort_by_key(|(key, _)| key.span().start);
        self.0
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Rows<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Table<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for Table<T> {
            type Value = Rows<T>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a table, such as lines \"A 1:30\" = \"13-14\"")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Rows<T>, A::Error> {
                let mut rows = Vec::new();
                while let Some(row) = map.next_entry()? {
                    rows.push(row);
                }
                Ok(Rows(rows))
            }
        }
        deserializer.deserialize_map(Table(PhantomData))
    }
}
