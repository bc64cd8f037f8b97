//! Choosing an impeller, a ring or a nozzle: the craft, what could be fitted, what is wanted.

pub mod answer;
pub mod craft;
pub mod seen;

use std::collections::BTreeMap;

use propulsion::engine::Breathing;
use quantity::{Entered, Unit};

use crate::entry::{EntryId, Key};
use crate::gap::short_digest;
use crate::job::{Fact, Job};

/// How the angles of a blade are known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Angles {
    /// Measured on this impeller.
    Measured,
    /// As stamped or told by its maker, whose radius and way of measuring are the maker's own.
    Stamped,
}

/// What could be fitted together, or is fitted now. What is not said stays as it is fitted now.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fitting {
    /// What it is called.
    pub name: String,
    /// Angle of the leading edge from the plane of rotation.
    pub leading: Option<Entered>,
    /// Angle of the trailing edge.
    pub trailing: Option<Entered>,
    /// The radius the angles are taken at; the tip where nobody said.
    pub radius: Option<Entered>,
    /// How the angles are known; stamped where nobody said.
    pub angles: Option<Angles>,
    /// Who made it, as the person calls them: stamped angles are compared within one maker only.
    pub maker: String,
    /// Blades.
    pub blades: Option<u8>,
    /// Diameter of the hub at the leading edge.
    pub hub: Option<Entered>,
    /// The trailing edge is cupped.
    pub cup: Option<bool>,
    /// Mean radial gap between this impeller and its ring.
    pub gap: Option<Entered>,
    /// Bore of the nozzle.
    pub nozzle: Option<Entered>,
    /// Anything else.
    pub note: String,
}

/// The craft, as far as anybody said; what nobody said is assumed and shown.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CraftFacts {
    /// Mass of the craft ready to go, without people.
    pub mass: Option<Entered>,
    /// Mass of those on board, with what they carry.
    pub riders: Option<Entered>,
    /// Length of the hull on the water.
    pub length: Option<Entered>,
    /// Beam between the chines.
    pub beam: Option<Entered>,
    /// Deadrise aft.
    pub deadrise: Option<Entered>,
    /// Centre of gravity ahead of the transom.
    pub balance: Option<Entered>,
    /// Rated power.
    pub power: Option<Entered>,
    /// Engine speed it is rated at.
    pub rated: Option<Entered>,
    /// Engine speed it is held back at.
    pub limiter: Option<Entered>,
    /// How it breathes.
    pub breathing: Option<Breathing>,
    /// Measured full-throttle torque by engine speed; empty where nobody measured.
    pub curve: Vec<(Entered, Entered)>,
    /// The engine speed the manual wants at full throttle: from, to.
    pub wanted: Option<(Entered, Entered)>,
    /// Diameter of the impeller over its tips.
    pub impeller: Option<Entered>,
    /// What was fitted when the craft was run.
    pub fitted: Fitting,
    /// The outing it was run on; the latest before the rebuild where nobody said.
    pub outing: Option<Key>,
    /// The manual's page.
    pub page: String,
}

/// What is wanted of the craft.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Want {
    /// Off the line: least time to a speed.
    Pull,
    /// Top speed.
    Speed,
    /// Both, share for share.
    Both,
}

/// What is wanted, and by which yardstick.
#[derive(Clone, Debug, PartialEq)]
pub struct Wish {
    /// What counts.
    pub want: Want,
    /// The speed a start is timed to; 30 mph where nobody said.
    pub to: Option<Entered>,
}

/// A steady reading at part throttle: the most telling kind there is.
#[derive(Clone, Debug, PartialEq)]
pub struct Steady {
    /// Engine speed.
    pub engine: Entered,
    /// Speed of the craft; none where it was tied up.
    pub speed: Option<Entered>,
    /// Pull on the rope, where it was tied up.
    pub pull: Option<Entered>,
}

/// What a person took an option to do.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The option.
    pub option: Key,
    /// Digest of what the answer rests on.
    pub evidence: String,
    /// The answer as it was told.
    pub words: String,
    /// Change of the engine's speed at full throttle: low, middle, high of the 80 % band, `rad/s`.
    pub engine: [f64; 3],
    /// Change of the top speed, likewise, `m/s`.
    pub speed: [f64; 3],
    /// Change of the time to the speed of the wish, likewise, `s`; none where it cannot be said.
    pub time: Option<[f64; 3]>,
    /// The program that told it.
    pub program: String,
}

/// One thing said about what to fit.
#[derive(Clone, Debug, PartialEq)]
pub enum Choosing {
    /// The craft is described: all of it, not only what is new.
    Craft(Box<CraftFacts>),
    /// Something that could be fitted.
    Option {
        /// Names it within the job.
        key: Key,
        /// What was said.
        fitting: Box<Fitting>,
    },
    /// It is not to be thought about any more.
    OptionPutAway {
        /// Which.
        key: Key,
    },
    /// What is wanted.
    Wish(Wish),
    /// Steady readings at part throttle: all of them, not only what is new.
    Steadies(Vec<Steady>),
    /// The person takes an option.
    Taken(Box<Told>),
}

/// An option as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct OptionState {
    /// Where it was named first.
    pub since: u64,
    /// What is said of it.
    pub fitting: Fact<Fitting>,
}

/// All that was said about what to fit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Choices {
    /// The craft.
    pub craft: Option<Fact<CraftFacts>>,
    /// The options, by key.
    pub options: BTreeMap<Key, OptionState>,
    /// What is wanted.
    pub wish: Option<Fact<Wish>>,
    /// Steady readings.
    pub steadies: Option<Fact<Vec<Steady>>>,
    /// What was taken.
    pub taken: Option<Fact<Told>>,
}

impl Choices {
    /// The options in the order they were named.
    pub fn in_order(&self) -> Vec<(&Key, &OptionState)> {
        let mut options: Vec<_> = self.options.iter().collect();
        options.sort_by_key(|(_, state)| state.since);
        options
    }
}

/// The unit a bare speed takes: that of the first outing, else miles per hour.
pub fn speed_unit(job: &Job) -> Unit {
    let outings = job.trials.in_order(None);
    let first = outings.first().map(|(_, state)| &state.outing.value);
    first.map_or(Unit::MilePerHour, |outing| outing.unit)
}

/// Names all that an answer about options rests on: the entries that said it.
pub fn evidence(job: &Job) -> String {
    let mut words = vec!["1".to_owned(), crate::water::evidence(job)];
    let mut add = |word: &str, entry: &EntryId| words.push(format!("{word} {entry}"));
    let choices = &job.choices;
    if let Some(craft) = &choices.craft {
        add("craft", &craft.entry);
    }
    if let Some(wish) = &choices.wish {
        add("wish", &wish.entry);
    }
    if let Some(steadies) = &choices.steadies {
        add("steady", &steadies.entry);
    }
    for state in choices.options.values() {
        add("option", &state.fitting.entry);
    }
    if let Some(gap) = &job.accepted {
        add("gap", &gap.entry);
    }
    if let Some(pump) = &job.pump {
        add("pump", &pump.entry);
    }
    if let Some(sizes) = &job.inspected.sizes {
        add("sizes", &sizes.entry);
    }
    short_digest(&words.join(" "))
}
