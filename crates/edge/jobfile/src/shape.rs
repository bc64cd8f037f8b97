//! The keys of a job file, each value with the place where it stands.

pub(crate) mod bench;
pub(crate) mod choose;
pub(crate) mod diagnose;
pub(crate) mod inspect;
pub(crate) mod photos;
pub(crate) mod tools;
pub(crate) mod upkeep;
pub(crate) mod water;

use std::fmt;
use std::marker::PhantomData;
use std::mem::take;
use std::ops::Range;

use serde::Deserialize;
use serde::de::{Deserializer, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};
use toml::Spanned;

/// A value as typed, and where.
pub(crate) type Field = Spanned<Text>;

/// What is looked at before anything else; other keys may be those of a newer version.
#[derive(Deserialize)]
pub(crate) struct Head {
    pub(crate) format: Option<Spanned<String>>,
    pub(crate) version: Option<Spanned<i64>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Shape {
    #[serde(rename = "format")]
    _format: IgnoredAny,
    #[serde(rename = "version")]
    _version: IgnoredAny,
    pub(crate) job: Option<Job>,
    pub(crate) card: Option<Card>,
    pub(crate) pump: Option<Pump>,
    pub(crate) leaves: Option<Leaves>,
    pub(crate) limits: Option<Limits>,
    pub(crate) walk: Option<Walk>,
    pub(crate) plan: Option<bench::Plan>,
    #[serde(default)]
    pub(crate) steps: Rows<bench::Step>,
    #[serde(default)]
    pub(crate) rules: Vec<bench::Rule>,
    #[serde(default)]
    pub(crate) parts: Rows<bench::Part>,
    #[serde(default)]
    pub(crate) tools: Rows<bench::Tool>,
    #[serde(default)]
    pub(crate) items: Rows<bench::Item>,
    pub(crate) crew: Option<bench::Crew>,
    #[serde(default)]
    pub(crate) progress: Rows<bench::Progress>,
    #[serde(default)]
    pub(crate) account: Rows<bench::Account>,
    #[serde(default)]
    pub(crate) returned: Rows<bench::Account>,
    #[serde(default)]
    pub(crate) joints: Rows<Joint>,
    #[serde(default)]
    pub(crate) wrenches: Rows<tools::Wrench>,
    #[serde(default)]
    pub(crate) fits: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) readings: Rows<Field>,
    pub(crate) rotor: Option<Rows<Field>>,
    pub(crate) leak_test: Option<Rows<Field>>,
    pub(crate) alignment: Option<Rows<Field>>,
    #[serde(default)]
    pub(crate) as_found: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) supplies: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) findings: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) settled: Rows<Rows<Field>>,
    pub(crate) sizes: Option<Rows<Field>>,
    pub(crate) ring: Option<Rows<Field>>,
    pub(crate) cone: Option<Rows<Field>>,
    pub(crate) reread: Option<Rows<Field>>,
    #[serde(default)]
    pub(crate) visits: Rows<Rows<Field>>,
    pub(crate) bench: Option<Rows<Field>>,
    #[serde(default)]
    pub(crate) compounds: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) threads: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) seals: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) contacts: Rows<Rows<Field>>,
    #[serde(default)]
    pub(crate) photos: Rows<photos::Photo>,
    #[serde(default)]
    pub(crate) outing: Vec<water::Outing>,
    pub(crate) craft: Option<Spanned<choose::Craft>>,
    #[serde(default)]
    pub(crate) option: Vec<Spanned<choose::Fitting>>,
    pub(crate) wish: Option<choose::Wish>,
    #[serde(default)]
    pub(crate) steady: Vec<choose::Steady>,
    pub(crate) diagnosis: Option<Spanned<diagnose::Search>>,
    #[serde(default)]
    pub(crate) check: Vec<diagnose::Looked>,
    pub(crate) service: Option<Spanned<upkeep::Service>>,
    #[serde(default)]
    pub(crate) sort: Vec<upkeep::Sort>,
    #[serde(default)]
    pub(crate) piece: Vec<upkeep::Piece>,
    #[serde(default)]
    pub(crate) due: Vec<upkeep::Due>,
    #[serde(default)]
    pub(crate) meter: Vec<upkeep::Meter>,
    #[serde(default)]
    pub(crate) mishap: Vec<upkeep::Mishap>,
    #[serde(default)]
    pub(crate) done: Vec<upkeep::Done>,
    #[serde(default)]
    pub(crate) recheck: Vec<upkeep::Recheck>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Job {
    pub(crate) id: Field,
    pub(crate) title: Field,
    pub(crate) note: Option<Field>,
    pub(crate) follows: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Card {
    pub(crate) title: Field,
    pub(crate) note: Option<Field>,
    pub(crate) follows: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Pump {
    #[serde(deserialize_with = "count")]
    pub(crate) blades: Field,
    #[serde(deserialize_with = "count")]
    pub(crate) positions: Field,
    pub(crate) bore: Field,
    pub(crate) view: Field,
    pub(crate) rotation: Field,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Leaves {
    pub(crate) unit: Field,
    pub(crate) thicknesses: Spanned<Thicknesses>,
    pub(crate) width: Field,
    pub(crate) lead: Field,
    pub(crate) posture: Field,
    pub(crate) tolerance: Option<Field>,
    pub(crate) feel: Option<Field>,
}

impl Leaves {
    /// Where each leaf of a list stands.
    pub(crate) fn spans(&self) -> impl Iterator<Item = Range<usize>> {
        let items = self.thicknesses.get_ref().items.iter();
        items.map(Field::span)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Limits {
    pub(crate) least: Option<Field>,
    pub(crate) greatest: Option<Field>,
    pub(crate) measure: Field,
    pub(crate) page: Option<Field>,
    #[serde(default)]
    pub(crate) rub_in: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Walk {
    pub(crate) go: Option<Field>,
    pub(crate) no_go: Option<Field>,
    pub(crate) order: Option<Field>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Joint {
    pub(crate) name: Field,
    pub(crate) thread: Field,
    pub(crate) head: Field,
    #[serde(deserialize_with = "count")]
    pub(crate) count: Field,
    pub(crate) class: Field,
    pub(crate) hole: Field,
    pub(crate) engagement: Option<Field>,
    pub(crate) torque: Option<Field>,
    pub(crate) second: Option<Field>,
    pub(crate) stated_for: Option<Field>,
    pub(crate) turn: Option<Field>,
    pub(crate) seat: Option<Field>,
    pub(crate) grip: Option<Field>,
    pub(crate) condition: Field,
    pub(crate) face: Field,
    pub(crate) page: Option<Field>,
    pub(crate) role: Option<Field>,
    pub(crate) hole_measured: Option<tools::Hole>,
    pub(crate) tool: Option<tools::Tool>,
    pub(crate) screws: Option<Screws>,
}

/// How far the screws of a joint have come.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Screws {
    #[serde(rename = "in", deserialize_with = "count")]
    pub(crate) in_place: Field,
    #[serde(deserialize_with = "count")]
    pub(crate) torqued: Field,
    #[serde(deserialize_with = "count")]
    pub(crate) marked: Field,
    #[serde(default)]
    pub(crate) temporary: bool,
    #[serde(default, deserialize_with = "some_count")]
    pub(crate) pass: Option<Field>,
    #[serde(default, deserialize_with = "some_count")]
    pub(crate) gone: Option<Field>,
}

/// Text in quotes. A number without them would not say its unit.
#[derive(Debug)]
pub(crate) struct Text(pub(crate) String);

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

fn some_count<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Field>, D::Error> {
    count(deserializer).map(Some)
}

/// The leaves: a list, or one text with spaces between.
pub(crate) struct Thicknesses {
    /// The items of a list.
    pub(crate) items: Vec<Field>,
    joined: String,
}

impl Thicknesses {
    /// All of it as one text.
    pub(crate) fn joined(given: Spanned<Self>) -> Field {
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

impl Shape {
    /// The tables of the plan, taken out.
    pub(crate) fn bench(&mut self) -> bench::Tables {
        bench::Tables {
            plan: self.plan.take(),
            steps: take(&mut self.steps).in_order(),
            rules: take(&mut self.rules),
            parts: take(&mut self.parts).in_order(),
            tools: take(&mut self.tools).in_order(),
            items: take(&mut self.items).in_order(),
            crew: self.crew.take(),
            progress: take(&mut self.progress).in_order(),
            account: take(&mut self.account).in_order(),
            returned: take(&mut self.returned).in_order(),
        }
    }
}

/// The rows of a table whose keys the person chooses: spots, joints.
pub(crate) struct Rows<T>(Vec<(Spanned<String>, T)>);

impl<T> Default for Rows<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Rows<T> {
    /// In the order of the file; the parser hands them over by name.
    pub(crate) fn in_order(mut self) -> Vec<(Spanned<String>, T)> {
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
