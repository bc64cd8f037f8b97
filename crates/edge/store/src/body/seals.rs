//! Compounds, seals and metals.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use workshop::draft::inspect::seal_words::{COATS, COMPOUNDS, EDGES, MEASURES, STAINLESS, WATERS};
use workshop::draft::word;
use workshop::entry::{Body, Key};
use workshop::inspect::Inspection;
use workshop::seals::{self, OwnCure, Sealing, Stuff};

use super::typed::{Duration, Gap, Length, Temperature};
use super::{Encoded, Fault, key, may, of, read, whole, write};

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Sealing) -> Result<Encoded, Fault> {
    match said {
        Sealing::Bench(around) => write("bench-stated", &Around::from(around)),
        Sealing::Compound { key, compound } => {
            write("compound-described", &Compound::new(key, compound))
        }
        Sealing::Thread { joint, thread } => {
            let thread = Thread {
                joint: joint.to_string(),
                with: thread.with.word(),
                primed: thread.primed,
            };
            write("thread-stated", &thread)
        }
        Sealing::Seal { joint, seal } => write("seal-described", &Seal::new(joint, seal)),
        Sealing::Contact { joint, contact } => {
            write("contact-stated", &Contact::new(joint, contact))
        }
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("bench-stated", 1) => of_json::<Around>(json),
        ("compound-described", 1) => of_json::<Compound>(json),
        ("thread-stated", 1) => of_json::<Thread>(json),
        ("seal-described", 1) => of_json::<Seal>(json),
        ("contact-stated", 1) => of_json::<Contact>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Sealing: TryFrom<T, Error = String>,
{
    let said = Sealing::try_from(read::<T>(json)?);
    whole(said.map(|said| Body::Inspected(Inspection::Sealing(said))))
}

fn stuff(text: &str) -> Result<Stuff, String> {
    Stuff::read(text).map_err(|refusal| refusal.to_string())
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Around {
    water: String,
    temperature: Option<Temperature>,
    humidity_percent: Option<u8>,
}

impl From<&seals::Around> for Around {
    fn from(around: &seals::Around) -> Self {
        Self {
            water: word(&WATERS, around.water).to_owned(),
            temperature: around.temperature.as_ref().map(Temperature::from),
            humidity_percent: around.humidity,
        }
    }
}

impl TryFrom<Around> for Sealing {
    type Error = String;

    fn try_from(stored: Around) -> Result<Self, String> {
        Ok(Self::Bench(seals::Around {
            water: of(&WATERS, &stored.water)?,
            temperature: stored.temperature.map(Into::into),
            humidity: stored.humidity_percent,
        }))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "by", rename_all = "kebab-case", deny_unknown_fields)]
enum Cure {
    Class {},
    Depth { day: Length },
    Time { full: Duration },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Compound {
    #[expect(clippy::struct_field_names, reason = "the field is the key")]
    compound: String,
    name: String,
    class: String,
    working: Option<Duration>,
    skin: Option<Duration>,
    cure: Cure,
    shelf_months: Option<u8>,
    made: Option<String>,
}

impl Compound {
    fn new(key: &Key, own: &seals::Own) -> Self {
        Self {
            compound: key.to_string(),
            name: own.name.clone(),
            class: word(&COMPOUNDS, own.class).to_owned(),
            working: own.working.as_ref().map(Duration::from),
            skin: own.skin.as_ref().map(Duration::from),
            cure: match &own.cure {
                OwnCure::AsItsClass => Cure::Class {},
                OwnCure::Depth(day) => Cure::Depth { day: day.into() },
                OwnCure::Time(full) => Cure::Time { full: full.into() },
            },
            shelf_months: own.shelf,
            made: own.made.map(|made| made.to_string()),
        }
    }
}

impl TryFrom<Compound> for Sealing {
    type Error = String;

    fn try_from(stored: Compound) -> Result<Self, String> {
        let made = stored.made.map(|made| {
            let day: Result<Date, _> = made.parse();
            day.map_err(|error| error.to_string())
        });
        Ok(Self::Compound {
            key: key(&stored.compound)?,
            compound: seals::Own {
                name: stored.name,
                class: of(&COMPOUNDS, &stored.class)?,
                working: stored.working.map(Into::into),
                skin: stored.skin.map(Into::into),
                cure: match stored.cure {
                    Cure::Class {} => OwnCure::AsItsClass,
                    Cure::Depth { day } => OwnCure::Depth(day.into()),
                    Cure::Time { full } => OwnCure::Time(full.into()),
                },
                shelf: stored.shelf_months,
                made: made.transpose()?,
            },
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Thread {
    joint: String,
    with: String,
    primed: bool,
}

impl TryFrom<Thread> for Sealing {
    type Error = String;

    fn try_from(stored: Thread) -> Result<Self, String> {
        Ok(Self::Thread {
            joint: key(&stored.joint)?,
            thread: seals::OnThread {
                with: stuff(&stored.with)?,
                primed: stored.primed,
            },
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Seal {
    joint: String,
    with: String,
    sealed: Length,
    room: Length,
    gap: Option<Gap>,
    line: Option<Length>,
    edges: String,
    passage: Option<Length>,
}

impl Seal {
    fn new(joint: &Key, seal: &seals::Seal) -> Self {
        Self {
            joint: joint.to_string(),
            with: seal.with.word(),
            sealed: (&seal.sealed).into(),
            room: (&seal.room).into(),
            gap: seal.gap.as_ref().map(Gap::from),
            line: seal.line.as_ref().map(Length::from),
            edges: word(&EDGES, seal.edges).to_owned(),
            passage: seal.passage.as_ref().map(Length::from),
        }
    }
}

impl TryFrom<Seal> for Sealing {
    type Error = String;

    fn try_from(stored: Seal) -> Result<Self, String> {
        Ok(Self::Seal {
            joint: key(&stored.joint)?,
            seal: seals::Seal {
                with: stuff(&stored.with)?,
                sealed: stored.sealed.into(),
                room: stored.room.into(),
                gap: stored.gap.map(Into::into),
                line: stored.line.map(Into::into),
                edges: of(&EDGES, &stored.edges)?,
                passage: stored.passage.map(Into::into),
            },
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Contact {
    joint: String,
    screw: Option<String>,
    coat: Option<String>,
    insulated: Option<String>,
    sealed: Option<String>,
    coated: Option<String>,
    anode: Option<String>,
}

impl Contact {
    fn new(joint: &Key, touch: &seals::Touch) -> Self {
        let measure = |measure: Option<_>| measure.map(|of| word(&MEASURES, of).to_owned());
        Self {
            joint: joint.to_string(),
            screw: touch.screw.map(|of| word(&STAINLESS, of).to_owned()),
            coat: touch.coat.map(|of| word(&COATS, of).to_owned()),
            insulated: measure(touch.insulated),
            sealed: measure(touch.sealed),
            coated: measure(touch.coated),
            anode: measure(touch.anode),
        }
    }
}

impl TryFrom<Contact> for Sealing {
    type Error = String;

    fn try_from(stored: Contact) -> Result<Self, String> {
        Ok(Self::Contact {
            joint: key(&stored.joint)?,
            contact: seals::Touch {
                screw: may(&STAINLESS, stored.screw.as_ref())?,
                coat: may(&COATS, stored.coat.as_ref())?,
                insulated: may(&MEASURES, stored.insulated.as_ref())?,
                sealed: may(&MEASURES, stored.sealed.as_ref())?,
                coated: may(&MEASURES, stored.coated.as_ref())?,
                anode: may(&MEASURES, stored.anode.as_ref())?,
            },
        })
    }
}
