//! What goes on threads and faces: how long it can be worked, when it has cured, how long it keeps.
//!
//! "24 hours" is no answer. A silicone cures from its edges inward, as the square root of time and
//! only as fast as the air is damp; a threadlocker waits for bare iron or copper; an epoxy halves its
//! pace for every ten kelvin. So every answer here is an interval, and a person's own data sheet goes
//! before the classes: [`Sheet`] is plain data.

mod classes;

use std::fmt;

use crate::error::{not_negative, positive, within};
use crate::galvanic::Metal;
use crate::{Error, Interval};

/// A compound by its class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Compound {
    /// Marine grease.
    Grease,
    /// Anti-seize paste with nickel or without metal.
    AntiSeize,
    /// Anti-seize paste with copper or graphite.
    CopperAntiSeize,
    /// Low-strength anaerobic threadlocker.
    ThreadlockerLow,
    /// Medium-strength anaerobic threadlocker.
    ThreadlockerMedium,
    /// High-strength anaerobic threadlocker.
    ThreadlockerHigh,
    /// White PTFE paste.
    PtfePaste,
    /// Anaerobic flange sealant.
    FlangeSealant,
    /// One-part silicone that gives off acetic acid.
    AcetoxySilicone,
    /// One-part silicone of neutral cure.
    NeutralSilicone,
    /// One-part polyurethane.
    Polyurethane,
    /// One-part hybrid polymer with silane ends.
    HybridPolymer,
    /// Two-part epoxy.
    Epoxy,
    /// Two-part paint.
    Paint,
}

/// What makes a compound set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cure {
    /// It stays as it is.
    Never,
    /// Damp air, from the edges inward: so deep after one day at [`REFERENCE`], `m`.
    Moisture(Interval),
    /// Want of air on bare metal: seconds to full strength at [`REFERENCE`].
    Airless {
        /// On a metal that helps, or with an activator.
        active: Interval,
        /// On a metal that does not, without one.
        passive: Interval,
    },
    /// A reaction of two parts: seconds to full strength at [`REFERENCE`].
    Reaction(Interval),
}

/// How it comes off again.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Removal {
    /// Wiped off.
    Wipe,
    /// The screw turns out with hand tools.
    HandTools,
    /// The screw turns out when heated to so many `K`: not beside seals, fuel, plastic or on a
    /// painted casting.
    Heat(Interval),
    /// Parts are cut and levered apart, the rest scraped with plastic.
    Cut,
    /// Ground or stripped.
    Grind,
}

/// What is known of a compound, from its data sheet or as a class of data sheets has it.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `working` | tw | how long it can be worked at [`REFERENCE`], an airless cure from closing on; none without a limit | `s` |
/// | `skin` | ts | until it has a skin at [`REFERENCE`], none if it has none | `s` |
/// | `shelf` | | how long it keeps unopened | `s` |
/// | `applied` | T | temperatures at which it may be put on | `K` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// How long it can be worked.
    pub working: Option<Interval>,
    /// Until it has a skin.
    pub skin: Option<Interval>,
    /// What makes it set, and how fast.
    pub cure: Cure,
    /// How long it keeps unopened.
    pub shelf: Interval,
    /// Temperatures at which it may be put on.
    pub applied: Interval,
    /// How it comes off again.
    pub removal: Removal,
    /// A key of the bibliography, `from memory`, or [`OWN`].
    pub source: &'static str,
}

/// The source of a sheet that a person has in hand.
pub const OWN: &str = "its own data sheet";

/// The air round a joint.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `temperature` | T | temperature of parts and air | `K` |
/// | `humidity` | RH | relative humidity | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Temperature of parts and air.
    pub temperature: f64,
    /// Relative humidity.
    pub humidity: f64,
}

/// The air data sheets speak of: 23 °C and half saturated.
pub const REFERENCE: Air = Air {
    temperature: 296.15,
    humidity: 0.5,
};

/// The surface an airless cure meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Surface {
    /// Both parts of bare iron, copper, brass or bronze.
    Active,
    /// At least one of a metal that slows the cure, or of none.
    Passive,
    /// Activator on both.
    Primed,
}

impl Surface {
    /// The surface between two bare metals.
    ///
    /// Chromium in stainless steel and the skin of aluminium, titanium and zinc hold the cure back.
    /// Source: `adhesives-questions`.
    pub fn between(metals: [Metal; 2]) -> Self {
        let helps = |metal| {
            matches!(
                metal,
                Metal::Steel
                    | Metal::Copper
                    | Metal::Brass
                    | Metal::TinBronze
                    | Metal::AluminiumBronze
                    | Metal::NickelAluminiumBronze
            )
        };
        if metals.into_iter().all(helps) {
            Self::Active
        } else {
            Self::Passive
        }
    }
}

/// Which edges of a bead or film see air.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Edges {
    /// Both.
    Both,
    /// One: the other ends at a seal, a gallery or water.
    One,
}

impl Edges {
    /// How deep damp air must go between two flanges.
    ///
    /// `z = w / 2` from both edges, `z = w` from one
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `width` | w | width of the sealed face | `m` |
    /// | returns | z | depth to cure through | `m` |
    ///
    /// Range: `w > 0`.
    /// Source: `definition`.
    ///
    /// # Errors
    /// [`Error::NotPositive`] outside the range.
    pub fn depth(self, width: f64) -> Result<f64, Error> {
        let width = positive("the width of the face", width)?;
        Ok(match self {
            Self::Both => 0.5 * width,
            Self::One => width,
        })
    }
}

/// One day, in which data sheets give the depth of a cure.
const DAY: f64 = 86_400.0;

/// Temperatures for which the vapour pressure and the pace of a reaction are reckoned.
const BENCH: Interval = Interval {
    low: 263.15,
    high: 323.15,
};

/// Relative humidities at which something cures at all.
const DAMP: Interval = Interval {
    low: 0.01,
    high: 1.0,
};

/// A reaction's pace for ten kelvin more.
const PACE: Interval = Interval {
    low: 1.5,
    high: 3.0,
};

impl Air {
    /// Pressure of the water vapour in it.
    ///
    /// `p = RH 610.94 exp(17.625 t / (t + 243.04))`, t in degrees Celsius
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | T, RH | temperature and relative humidity | |
    /// | returns | p | vapour pressure | `Pa` |
    ///
    /// Range: T from 263.15 to 323.15 K, RH from 0.01 to 1.
    /// Source: `alduchov-1996`.
    ///
    /// # Errors
    /// [`Error::Outside`] outside the range.
    pub fn vapour(&self) -> Result<f64, Error> {
        let temperature = within("the temperature", self.temperature, BENCH)?;
        let humidity = within("the relative humidity", self.humidity, DAMP)?;
        let celsius = quantity::Unit::Celsius.from_si(temperature);
        Ok(humidity * 610.94 * (17.625 * celsius / (celsius + 243.04)).exp())
    }
}

/// Where a compound sets.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `depth` | z | depth that damp air must go, from [`Edges::depth`]; only a cure by moisture heeds it | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// The air round it.
    pub air: Air,
    /// What it lies on; only an airless cure heeds it.
    pub surface: Surface,
    /// Depth that damp air must go.
    pub depth: f64,
}

/// How long things take, from when it was put on or mixed.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `working` | tw | how long it can be worked | `s` |
/// | `skin` | ts | until it has a skin | `s` |
/// | `cured` | tc | until it has cured through | `s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Times {
    /// How long it can be worked; none without a limit.
    pub working: Option<Interval>,
    /// Until it has a skin; none if it has none.
    pub skin: Option<Interval>,
    /// Until it has cured through; none if it never does.
    pub cured: Option<Interval>,
}

/// How many times longer than at [`REFERENCE`] things take.
struct Slowing {
    /// At the surface, where the skin forms.
    surface: Interval,
    /// All the way through.
    through: Interval,
}

impl Sheet {
    /// How long it can be worked, until it has a skin, and until it has cured through.
    ///
    /// Moisture: `tc = s (z / z1)^2` of a day with `s = p0 / p`; at the surface `s` to `s^2`.
    /// Any other cure: `s = c^((T0 - T) / 10 K)` with c from 1.5 to 3.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `place` | T, p, z | temperature, pressure of the vapour, depth | |
    /// | returns | tw, ts, tc | working time, skin, cure | `s` |
    ///
    /// Range: that of [`Air::vapour`], T within `applied`, `z > 0`. Cold slows the chemistry
    /// besides, so a cold answer for moisture is a floor.
    /// Source: `comyn-1998` for the front; `polyurethane-sheets` for the square, a skin three times as
    /// fast at 90 as at 50 % humidity; `epoxy-makers` for c = 2, its spread from memory.
    ///
    /// # Errors
    /// [`Error::Outside`], [`Error::NotPositive`], [`Error::Order`] outside the range.
    pub fn times(&self, place: &Place) -> Result<Times, Error> {
        let depth = positive("the depth to cure through", place.depth)?;
        let slowing = self.slowing(place.air)?;
        let at_surface = |time: Option<Interval>| {
            time.map(|time| stretched(time, slowing.surface))
                .transpose()
        };
        let cured = match self.cure {
            Cure::Never => None,
            Cure::Moisture(day) => {
                let day = above_zero("the depth cured in a day", day)?;
                Some(Interval {
                    low: DAY * (depth / day.high).powi(2),
                    high: DAY * (depth / day.low).powi(2),
                })
            }
            Cure::Airless { passive, .. } if place.surface == Surface::Passive => Some(passive),
            Cure::Airless { active: full, .. } | Cure::Reaction(full) => Some(full),
        };
        Ok(Times {
            working: at_surface(self.working)?,
            skin: at_surface(self.skin)?,
            cured: cured
                .map(|time| stretched(time, slowing.through))
                .transpose()?,
        })
    }

    fn slowing(&self, air: Air) -> Result<Slowing, Error> {
        within(
            "the temperature for this compound",
            air.temperature,
            self.applied,
        )?;
        let vapour = air.vapour()?;
        let between = |one: f64, other: f64| Interval {
            low: one.min(other),
            high: one.max(other),
        };
        if let Cure::Moisture(_) = self.cure {
            let slower = REFERENCE.vapour()? / vapour;
            return Ok(Slowing {
                surface: between(slower, slower * slower),
                through: Interval::point(slower),
            });
        }
        let steps = (REFERENCE.temperature - air.temperature) / 10.0;
        let all = between(PACE.low.powf(steps), PACE.high.powf(steps));
        Ok(Slowing {
            surface: all,
            through: all,
        })
    }

    /// Passes a compound that surely keeps, refuses one past its shelf life.
    ///
    /// # Errors
    /// [`Error::Stale`] beyond the least shelf life, [`Error::Negative`] for an age that is none.
    pub fn keeps(&self, age: f64) -> Result<(), Error> {
        let age = not_negative("the age of the compound", age)?;
        let limit = above_zero("the shelf life", self.shelf)?.low;
        if age > limit {
            return Err(Error::Stale { age, limit });
        }
        Ok(())
    }

    /// Whether it wants an activator on such a surface.
    pub fn wants_activator(&self, surface: Surface) -> bool {
        matches!(self.cure, Cure::Airless { .. }) && surface == Surface::Passive
    }
}

/// An interval above zero with its ends in order.
fn above_zero(what: &'static str, interval: Interval) -> Result<Interval, Error> {
    positive(what, interval.low)?;
    interval.within(
        what,
        Interval {
            low: 0.0,
            high: f64::MAX,
        },
    )
}

fn stretched(time: Interval, by: Interval) -> Result<Interval, Error> {
    let time = above_zero("the time at the reference", time)?;
    Ok(Interval {
        low: time.low * by.low,
        high: time.high * by.high,
    })
}

impl fmt::Display for Compound {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Grease => "grease",
            Self::AntiSeize => "anti-seize without copper",
            Self::CopperAntiSeize => "anti-seize with copper or graphite",
            Self::ThreadlockerLow => "low-strength threadlocker",
            Self::ThreadlockerMedium => "medium-strength threadlocker",
            Self::ThreadlockerHigh => "high-strength threadlocker",
            Self::PtfePaste => "PTFE paste",
            Self::FlangeSealant => "anaerobic flange sealant",
            Self::AcetoxySilicone => "acetoxy silicone",
            Self::NeutralSilicone => "neutral silicone",
            Self::Polyurethane => "polyurethane",
            Self::HybridPolymer => "hybrid polymer",
            Self::Epoxy => "epoxy",
            Self::Paint => "paint",
        })
    }
}
