//! What goes on threads and faces, and which metals meet in which water: what a person said of it.
//!
//! Everything here may stay unsaid. What is then taken in its place is an assumption and says so.

pub mod face;
pub mod hazard;
pub mod metals;
pub mod open;
pub mod thread;

use std::collections::BTreeMap;

use jiff::civil::Date;
use joint::Interval;
use joint::compound::{Air, Compound, Cure, Edges, OWN, REFERENCE, Sheet};
use joint::galvanic::{Measure, Water};
use quantity::Entered;

use crate::entry::Key;
use crate::job::{Fact, Job};

/// What is said of compounds, seals and metals.
#[derive(Clone, Debug, PartialEq)]
pub enum Sealing {
    /// The water the craft runs in, and the air at the bench.
    Bench(Around),
    /// A compound by its own data sheet.
    Compound {
        /// Names it within the job.
        key: Key,
        /// What its sheet says.
        compound: Own,
    },
    /// What is on the thread of a joint.
    Thread {
        /// The joint.
        joint: Key,
        /// What.
        thread: OnThread,
    },
    /// A bead of sealant between the faces of a joint.
    Seal {
        /// The joint.
        joint: Key,
        /// The face and what goes on it.
        seal: Seal,
    },
    /// The metals of a joint.
    Contact {
        /// The joint.
        joint: Key,
        /// How they stand to one another.
        contact: Touch,
    },
}

/// The water the craft runs in, and the air at the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct Around {
    /// The saltiest water it sees.
    pub water: Water,
    /// Temperature of parts and air; assumed when not given.
    pub temperature: Option<Entered>,
    /// Relative humidity in per cent; assumed when not given.
    pub humidity: Option<u8>,
}

/// A compound by its own data sheet. What the sheet does not say is that of its class.
#[derive(Clone, Debug, PartialEq)]
pub struct Own {
    /// What stands on it, in the person's words.
    pub name: String,
    /// What kind it is.
    pub class: Compound,
    /// How long it can be worked.
    pub working: Option<Entered>,
    /// Until it has a skin.
    pub skin: Option<Entered>,
    /// How it cures.
    pub cure: OwnCure,
    /// How many months it keeps unopened.
    pub shelf: Option<u8>,
    /// The day it was made.
    pub made: Option<Date>,
}

/// How a compound cures by its own data sheet, at 23 °C and 50 %.
#[derive(Clone, Debug, PartialEq)]
pub enum OwnCure {
    /// The sheet was not asked.
    AsItsClass,
    /// So deep in the first day.
    Depth(Entered),
    /// So long to full strength.
    Time(Entered),
}

/// A class of compounds, or one of the person's own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stuff {
    /// By its class.
    Class(Compound),
    /// By its own data sheet.
    Own(Key),
}

/// What is on the thread of a joint.
#[derive(Clone, Debug, PartialEq)]
pub struct OnThread {
    /// What.
    pub with: Stuff,
    /// Activator was put on both threads.
    pub primed: bool,
}

/// A bead of sealant between two faces.
#[derive(Clone, Debug, PartialEq)]
pub struct Seal {
    /// What it is laid of.
    pub with: Stuff,
    /// Least width the film must have everywhere.
    pub sealed: Entered,
    /// Width it may have before it reaches an edge or a water passage.
    pub room: Entered,
    /// Gap that is left between the closed faces, least and greatest; assumed when not given.
    pub gap: Option<(Entered, Entered)>,
    /// Length of the line.
    pub line: Option<Entered>,
    /// Which edges see air.
    pub edges: Edges,
    /// Diameter of the nearest water passage.
    pub passage: Option<Entered>,
}

/// How the metals of a joint stand to one another. What is not said is assumed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Touch {
    /// Which stainless steel the screws are of.
    pub screw: Option<Stainless>,
    /// The coat on what the screws go into.
    pub coat: Option<Coat>,
    /// Something between the metals that insulates.
    pub insulated: Option<Measure>,
    /// A seal that keeps the water away.
    pub sealed: Option<Measure>,
    /// A coat on the noble part.
    pub coated: Option<Measure>,
    /// An anode in metallic contact.
    pub anode: Option<Measure>,
}

/// A stainless steel by its mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stainless {
    /// A2, that is 304.
    A2,
    /// A4, that is 316.
    A4,
}

/// How the coat on a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coat {
    /// Whole, as far as one sees.
    Whole,
    /// Scratched.
    Scratched,
    /// There is none.
    None,
}

/// All that was said of compounds, seals and metals.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Seals {
    /// Water and air.
    pub bench: Option<Fact<Around>>,
    /// The person's own compounds.
    pub compounds: BTreeMap<Key, Fact<Own>>,
    /// What is on the threads, by joint.
    pub threads: BTreeMap<Key, Fact<OnThread>>,
    /// The beads, by joint.
    pub seals: BTreeMap<Key, Fact<Seal>>,
    /// The metals, by joint.
    pub contacts: BTreeMap<Key, Fact<Touch>>,
}

/// The water that is assumed: the hardest on metals.
pub const WATER: Water = Water::Salt;

/// A value that was said, or assumed in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken<T> {
    /// The value.
    pub value: T,
    /// Nobody said it.
    pub assumed: bool,
}

impl<T> Taken<T> {
    /// What was said, or a default in its place.
    pub fn or(said: Option<T>, default: T) -> Self {
        Self {
            assumed: said.is_none(),
            value: said.unwrap_or(default),
        }
    }
}

/// A compound ready to be reckoned with.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// Its name.
    pub name: String,
    /// Its class.
    pub class: Compound,
    /// What is known of it.
    pub sheet: Sheet,
    /// It is the person's own, with its key.
    pub own: Option<Key>,
}

/// How old a compound is against how long it keeps, in days.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Age {
    /// Since it was made.
    pub days: i32,
    /// How long it surely keeps.
    pub keeps: i32,
}

impl Own {
    /// What is known of it: its own sheet, and where that is silent its class.
    pub fn sheet(&self) -> Sheet {
        let class = self.class.sheet();
        let point = |entered: &Option<Entered>| entered.as_ref().map(|e| Interval::point(e.value));
        let cure = match (&self.cure, class.cure) {
            (OwnCure::Depth(depth), _) => Cure::Moisture(Interval::point(depth.value)),
            (OwnCure::Time(full), Cure::Airless { active, passive }) => Cure::Airless {
                active: Interval::point(full.value),
                // As much longer on a metal that slows it as its class takes.
                passive: Interval {
                    low: full.value * passive.low / active.high,
                    high: full.value * passive.high / active.low,
                },
            },
            (OwnCure::Time(full), _) => Cure::Reaction(Interval::point(full.value)),
            (OwnCure::AsItsClass, cure) => cure,
        };
        Sheet {
            working: point(&self.working).or(class.working),
            skin: point(&self.skin).or(class.skin),
            cure,
            source: OWN,
            ..class
        }
    }

    /// Its age on a day, if it is past its shelf life then.
    pub fn stale(&self, on: Date) -> Option<Age> {
        let made = self.made?;
        let days = |to: Date| (to - made).get_days();
        let life = self.shelf.map(|months| {
            let until = made.saturating_add(jiff::Span::new().months(i64::from(months)));
            Interval::point(f64::from(days(until)) * DAY)
        });
        let sheet = Sheet {
            shelf: life.unwrap_or(self.class.sheet().shelf),
            ..self.sheet()
        };
        let age = f64::from(days(on)).max(0.0) * DAY;
        match sheet.keeps(age) {
            Err(joint::Error::Stale { limit, .. }) => Some(Age {
                days: days(on),
                #[expect(clippy::cast_possible_truncation, reason = "days of a few years")]
                keeps: (limit / DAY) as i32,
            }),
            _ => None,
        }
    }
}

/// Seconds of a day.
const DAY: f64 = 86_400.0;

impl Job {
    /// What was said of compounds, seals and metals.
    pub fn seals(&self) -> &Seals {
        &self.inspected.seals
    }

    /// The water, said or assumed.
    pub fn water(&self) -> Taken<Water> {
        Taken::or(self.seals().bench.as_ref().map(|f| f.value.water), WATER)
    }

    /// The temperature at the bench, said or assumed.
    pub fn temperature(&self) -> Taken<f64> {
        let bench = self.seals().bench.as_ref();
        let said = bench.and_then(|fact| fact.value.temperature.as_ref());
        Taken::or(said.map(|entered| entered.value), REFERENCE.temperature)
    }

    /// The relative humidity at the bench, said or assumed.
    pub fn humidity(&self) -> Taken<f64> {
        let bench = self.seals().bench.as_ref();
        let said = bench.and_then(|fact| fact.value.humidity);
        Taken::or(
            said.map(|percent| f64::from(percent) / 100.0),
            REFERENCE.humidity,
        )
    }

    /// The air at the bench.
    pub fn air(&self) -> Air {
        Air {
            temperature: self.temperature().value,
            humidity: self.humidity().value,
        }
    }

    /// A compound, if it is known.
    pub fn material(&self, stuff: &Stuff) -> Option<Material> {
        Some(match stuff {
            Stuff::Class(class) => Material {
                name: class.to_string(),
                class: *class,
                sheet: class.sheet(),
                own: None,
            },
            Stuff::Own(key) => {
                let own = &self.seals().compounds.get(key)?.value;
                Material {
                    name: own.name.clone(),
                    class: own.class,
                    sheet: own.sheet(),
                    own: Some(key.clone()),
                }
            }
        })
    }
}
