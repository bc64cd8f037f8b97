//! A prismatic bottom that planes: trim, wetted lengths, resistance by Savitsky's method, in named variants.
//!
//! The fits of the method take degrees; everything that enters or leaves is in radians.

mod balance;
pub(in crate::hull) mod fits;

use crate::Error;
use crate::error::within;
use crate::water::Water;

/// What the method knows of the bottom and of what it carries.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `beam` | between the chines | `m` |
/// | `deadrise` | of the bottom to the horizontal | `rad` |
/// | `lcg` | centre of gravity before the transom | `m` |
/// | `vcg` | centre of gravity above the keel | `m` |
/// | `thrust_height` | line of thrust above the keel, where `thrust_forward` says | `m` |
/// | `thrust_forward` | that place before the transom | `m` |
/// | `thrust_angle` | of the thrust to the keel, bow up | `rad` |
/// | `roughness` | of the bottom | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bottom {
    /// Between the chines.
    pub beam: f64,
    /// Of the bottom to the horizontal.
    pub deadrise: f64,
    /// Centre of gravity before the transom.
    pub lcg: f64,
    /// Centre of gravity above the keel.
    pub vcg: f64,
    /// Line of thrust above the keel.
    pub thrust_height: f64,
    /// Where the height of the line of thrust was taken, before the transom.
    pub thrust_forward: f64,
    /// Of the thrust to the keel, bow up.
    pub thrust_angle: f64,
    /// Of the bottom.
    pub roughness: Roughness,
}

/// What is added to the friction of a smooth bottom.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Roughness {
    /// So much to the coefficient of friction, `1`.
    Allowance(f64),
    /// By the average height of the roughness, `m`, after Mosaad 1986 as openplaning 0.4.9 carries it.
    Mosaad1986(f64),
    /// By the average height of the roughness, `m`, after Townsin 1984 as openplaning 0.4.9 carries it.
    Townsin1984(f64),
}

/// What is carried, how fast, on what water.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `mass` | with crew and fuel | `kg` |
/// | `speed` | through the water | `m/s` |
/// | `water` | under it | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    /// With crew and fuel.
    pub mass: f64,
    /// Through the water.
    pub speed: f64,
    /// Under it.
    pub water: Water,
}

/// How far the chine is wetted when the keel is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wetted {
    /// `L_k - L_c = (b/pi) tan beta / tan tau`, eq. 3 of `savitsky-1964`.
    Savitsky1964,
    /// Eqs. 12 to 15 of `savitsky-1976`.
    Savitsky1976,
    /// The rise of the water by a fit to table 8.3 of `faltinsen-2005`.
    Faltinsen2005,
}

/// What becomes of the wetted area when the chines come out of the water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DryChines {
    /// Nothing: a chine may be wetted over less than no length, and the area stays `lambda b^2 / cos beta`.
    AsWet,
    /// What is left is a triangle before the transom.
    Triangle,
}

/// The friction of a smooth plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// `0.242/sqrt(C_f) = log10(Re C_f)`.
    Schoenherr,
    /// `C_f = 0.075/(log10 Re - 2)^2`.
    Ittc1957,
}

/// By how much the water under the bottom is slower than the craft.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slowing {
    /// As under a flat bottom.
    Flat,
    /// Less so by deadrise, one reading of page 83 of `savitsky-1964`.
    Deadrise,
}

/// Which speed's dynamic pressure the friction has; its Reynolds number always has that of the bottom.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pressure {
    /// Of the water under the bottom.
    Bottom,
    /// Of the craft.
    Craft,
}

/// What is brought into balance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Balance {
    /// All forces through the centre of gravity; the bottom lifts the weight. The simple case.
    Simple,
    /// Weight lifted by the bottom, moments with thrust and friction where they are, eq. 35 of `savitsky-1964`.
    General,
    /// Forces and moments of bottom, friction, thrust, air and flaps together.
    Whole {
        /// What the wind of travel meets.
        air: Option<Air>,
        /// Flaps at the transom.
        flaps: Option<Flaps>,
    },
}

/// A box that the wind of travel meets.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `forward` | its face before the transom | `m` |
/// | `height` | its top above the keel | `m` |
/// | `width` | across, times how full the face is | `m` |
/// | `drag` | coefficient on the face above the water | `1` |
/// | `density` | of the air | `kg/m^3` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Its face before the transom.
    pub forward: f64,
    /// Its top above the keel.
    pub height: f64,
    /// Across, times how full the face is.
    pub width: f64,
    /// Coefficient on the face above the water.
    pub drag: f64,
    /// Of the air.
    pub density: f64,
}

/// Flaps at the transom, by `savitsky-1976`.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `chord` | fore and aft | `m` |
/// | `span` | both together, in beams | `1` |
/// | `angle` | turned down | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flaps {
    /// Fore and aft.
    pub chord: f64,
    /// Both together, in beams.
    pub span: f64,
    /// Turned down.
    pub angle: f64,
}

/// One reading of the method, out of several in print.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Method {
    /// How far the chine is wetted.
    pub wetted: Wetted,
    /// What becomes of the area without it.
    pub dry: DryChines,
    /// Friction of a smooth plate.
    pub line: Line,
    /// Of the water under the bottom.
    pub slowing: Slowing,
    /// Of the friction.
    pub pressure: Pressure,
    /// What is brought into balance.
    pub balance: Balance,
}

impl Method {
    /// As the paper reckons its table 2: all forces through the centre of gravity.
    pub const SIMPLE: Self = Self {
        wetted: Wetted::Savitsky1964,
        dry: DryChines::AsWet,
        line: Line::Schoenherr,
        slowing: Slowing::Deadrise,
        pressure: Pressure::Bottom,
        balance: Balance::Simple,
    };
    /// As the paper reckons its table 1: thrust and friction where they are.
    pub const GENERAL: Self = Self {
        balance: Balance::General,
        ..Self::SIMPLE
    };
    /// All forces and moments, dry chines as a triangle, the friction line of 1957: for a small fast craft.
    pub const WHOLE: Self = Self {
        wetted: Wetted::Savitsky1964,
        dry: DryChines::Triangle,
        line: Line::Ittc1957,
        slowing: Slowing::Deadrise,
        pressure: Pressure::Craft,
        balance: Balance::Whole {
            air: None,
            flaps: None,
        },
    };
}

/// A quantity of the answer that lies outside what the method was fitted to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beyond {
    /// Its name, as a person would say it.
    pub what: &'static str,
    /// Its value, in SI.
    pub value: f64,
    /// The least the method states.
    pub low: f64,
    /// The greatest.
    pub high: f64,
}

impl Beyond {
    /// The first of these as an error.
    pub(super) fn refused(beyond: &[Self]) -> Option<Error> {
        beyond.first().map(|first| Error::Outside {
            what: first.what,
            value: first.value,
            low: first.low,
            high: first.high,
        })
    }
}

/// How the craft runs.
#[derive(Clone, Debug, PartialEq)]
#[must_use]
pub struct Planing {
    /// Of the keel to the water, `rad`.
    pub trim: f64,
    /// Mean wetted length in beams, `1`.
    pub length_ratio: f64,
    /// Wetted keel, `m`.
    pub keel: f64,
    /// Wetted chine, `m`; below nought only with [`DryChines::AsWet`].
    pub chine: f64,
    /// Bottom that rubs, `m²`.
    pub area: f64,
    /// Of the bottom's pressure along the way, `N`.
    pub pressure_drag: f64,
    /// Of friction along the way, `N`.
    pub friction_drag: f64,
    /// Of air along the way, `N`.
    pub air_drag: f64,
    /// All together, with flaps, `N`.
    pub resistance: f64,
    /// `C_v = V/sqrt(g b)`, `1`.
    pub speed_coefficient: f64,
    /// Coefficient of friction of the smooth bottom, `1`.
    pub friction_coefficient: f64,
    /// The chines run dry.
    pub chines_dry: bool,
    /// What lies outside the method's stated range; empty where it holds.
    pub beyond: Vec<Beyond>,
}

impl Planing {
    /// The same, or an error where the method does not hold.
    ///
    /// # Errors
    /// The first quantity outside the method's stated range.
    pub fn held(self) -> Result<Self, Error> {
        Beyond::refused(&self.beyond).map_or(Ok(self), Err)
    }
}

/// Where a planing craft runs steadily.
///
/// `C_L0 = tau^1.1 (0.0120 lambda^0.5 + 0.0055 lambda^2.5/C_v^2)`,
/// `C_Lb = C_L0 - 0.0065 beta C_L0^0.6`,
/// `l_p = lambda b (0.75 - 1/(5.21 C_v^2/lambda^2 + 2.39))`, with the moments about the centre of gravity nought.
///
/// Range: stated in the answer. `1 <= C_v <= 13`, 2 to 15 degrees of trim, `lambda <= 4`; beyond, the answer
/// is given and [`Planing::beyond`] says by what; [`Planing::held`] refuses it.
/// Source: `savitsky-1964`; `savitsky-1976` and `faltinsen-2005` for the variants that name them.
///
/// # Errors
/// A size that is no size, and a craft that finds no balance between a twentieth of a degree and 35 degrees.
pub fn planing(bottom: &Bottom, state: &State, method: &Method) -> Result<Planing, Error> {
    checked(bottom, state, method)?;
    balance::Case::new(bottom, state, method).run()
}

/// Sizes that can be sizes at all; what the method was fitted to is told with the answer.
fn checked(bottom: &Bottom, state: &State, method: &Method) -> Result<(), Error> {
    const LEAST: f64 = f64::MIN_POSITIVE;
    const MOST: f64 = f64::MAX;
    // Neither a wall nor a bottom that is hollow.
    let steep = std::f64::consts::FRAC_PI_3;
    within("beam", bottom.beam, LEAST, MOST)?;
    within("deadrise", bottom.deadrise, 0.0, steep)?;
    within(
        "centre of gravity before the transom",
        bottom.lcg,
        LEAST,
        MOST,
    )?;
    within("centre of gravity above the keel", bottom.vcg, -MOST, MOST)?;
    within("height of the thrust", bottom.thrust_height, -MOST, MOST)?;
    within("place of the thrust", bottom.thrust_forward, -MOST, MOST)?;
    within("angle of the thrust", bottom.thrust_angle, -0.5, 0.5)?;
    match bottom.roughness {
        Roughness::Allowance(more) => within("allowance for roughness", more, 0.0, 0.01)?,
        Roughness::Mosaad1986(height) | Roughness::Townsin1984(height) => {
            within("height of the roughness", height, 0.0, 0.01)?
        }
    };
    within("mass", state.mass, LEAST, MOST)?;
    within("speed", state.speed, LEAST, MOST)?;
    within("density of water", state.water.density, LEAST, MOST)?;
    within("viscosity of water", state.water.viscosity, LEAST, MOST)?;
    if let Balance::Whole { air, flaps } = method.balance {
        if let Some(air) = air {
            within("height of what meets the air", air.height, 0.0, MOST)?;
            within("place of what meets the air", air.forward, -MOST, MOST)?;
            within("width of what meets the air", air.width, 0.0, MOST)?;
            within("drag coefficient of air", air.drag, 0.0, MOST)?;
            within("density of air", air.density, 0.0, MOST)?;
        }
        if let Some(flaps) = flaps {
            within("chord of the flaps", flaps.chord, 0.0, MOST)?;
            within("span of the flaps", flaps.span, 0.0, 1.0)?;
            within("angle of the flaps", flaps.angle, 0.0, steep)?;
        }
    }
    Ok(())
}
