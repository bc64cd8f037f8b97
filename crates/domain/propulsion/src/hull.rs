//! What the hull asks for, from rest to planing.
//!
//! Air is not in it: who knows the rider knows the face that meets the wind.

pub mod planing;
pub mod preplaning;

use crate::Error;
use crate::error::within;
use crate::water::Water;
use planing::{Beyond, Bottom, DryChines, Method, Planing, Roughness, State, planing};
use preplaning::{Form, LAST, preplaning};

/// Standard gravity.
pub(crate) const GRAVITY: f64 = 9.806_65;

/// From this speed coefficient on the bottom planes.
const PLANES: f64 = 2.5;

/// A hull: the bottom it planes on and the shape it swims with.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `bottom` | what it planes on | |
/// | `length` | of the waterline at rest | `m` |
/// | `entrance` | half the angle of entrance of the waterline | `rad` |
/// | `transom` | area of the transom under water over the largest section | `1` |
/// | `beam_draft` | beam over draft | `1` |
/// | `dry` | what becomes of the wetted area when the chines run dry | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hull {
    /// What it planes on.
    pub bottom: Bottom,
    /// Of the waterline at rest.
    pub length: f64,
    /// Half the angle of entrance of the waterline.
    pub entrance: f64,
    /// Area of the transom under water over the largest section.
    pub transom: f64,
    /// Beam over draft.
    pub beam_draft: f64,
    /// What becomes of the wetted area when the chines run dry: the widest open question of a small fast craft,
    /// worth half of the resistance at 30 m/s.
    pub dry: DryChines,
}

impl Hull {
    /// A sit-down jet craft of this length, beam and deadrise, smooth; the rest is assumed in proportion.
    ///
    /// Centre of gravity 0.39 of the length before the transom and 0.45 of the beam above the keel, thrust along
    /// the keel and a tenth of the beam above it, half angle of entrance 25 degrees, transom 0.9 of the largest
    /// section, beam of five drafts.
    ///
    /// Range: any size; who weighs the craft at both ends knows better.
    /// Source: common practice, no source: assumed.
    ///
    /// # Errors
    /// A size that is no size.
    pub fn typical(length: f64, beam: f64, deadrise: f64) -> Result<Self, Error> {
        let length = within(
            "length of the waterline",
            length,
            f64::MIN_POSITIVE,
            f64::MAX,
        )?;
        let beam = within("beam", beam, f64::MIN_POSITIVE, f64::MAX)?;
        let deadrise = within("deadrise", deadrise, 0.0, std::f64::consts::FRAC_PI_3)?;
        Ok(Self {
            bottom: Bottom {
                beam,
                deadrise,
                lcg: 0.39 * length,
                vcg: 0.45 * beam,
                thrust_height: 0.1 * beam,
                thrust_forward: 0.0,
                thrust_angle: 0.0,
                roughness: Roughness::Allowance(0.0),
            },
            length,
            entrance: 25.0_f64.to_radians(),
            transom: 0.9,
            beam_draft: 5.0,
            dry: DryChines::Triangle,
        })
    }

    fn method(&self) -> Method {
        Method {
            dry: self.dry,
            ..Method::WHOLE
        }
    }

    fn form(&self) -> Form {
        Form {
            length: self.length,
            beam: self.bottom.beam,
            entrance: self.entrance,
            transom: self.transom,
            beam_draft: self.beam_draft,
            roughness: self.bottom.roughness,
        }
    }
}

/// How a craft moves at a speed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Regime {
    /// It swims: a parabola up to the regression.
    Swimming,
    /// It climbs: the regression.
    Climbing,
    /// Between the regression and planing.
    Between,
    /// It planes.
    Planing,
}

/// What the hull asks for at a speed.
#[derive(Clone, Debug, PartialEq)]
#[must_use]
pub struct Resistance {
    /// Along the way, without air, `N`.
    pub force: f64,
    /// How it moves.
    pub regime: Regime,
    /// How it planes, where planing has a say.
    pub planing: Option<Planing>,
    /// What lies outside the stated range of what was used; empty where all holds.
    pub beyond: Vec<Beyond>,
}

impl Resistance {
    /// The same, or an error where a method does not hold.
    ///
    /// # Errors
    /// The first quantity outside a method's stated range.
    pub fn held(self) -> Result<Self, Error> {
        Beyond::refused(&self.beyond).map_or(Ok(self), Err)
    }
}

/// The resistance of a hull at any speed.
///
/// `R = R_1 (V/V_1)^2` up to a Froude number of volume of 1, the regression up to 2, Savitsky's method from a speed
/// coefficient of 2.5 on; between, the regression's last value fades into it by `s^2 (3 - 2 s)`.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `mass` | with crew and fuel | `kg` |
/// | `speed` | through the water | `m/s` |
///
/// Range: of the parts, told in the answer; the parabola and the fading have no source. A beam under three
/// quarters of the cube root of the volume would plane before the regression ends, and is refused.
/// Source: `mercier-1973`, `savitsky-1964`; the joints from memory.
///
/// # Errors
/// A size that is no size, a speed below nought, a craft that finds no balance.
pub fn resistance(hull: &Hull, mass: f64, speed: f64, water: &Water) -> Result<Resistance, Error> {
    within("mass", mass, f64::MIN_POSITIVE, f64::MAX)?;
    within(
        "density of water",
        water.density,
        f64::MIN_POSITIVE,
        f64::MAX,
    )?;
    let speed = within("speed", speed, 0.0, f64::MAX)?;
    let root = (mass / water.density).cbrt();
    let wide = hull.bottom.beam / root;
    within("beam in cube roots of the volume", wide, 0.75, f64::MAX)?;
    let unit = (GRAVITY * root).sqrt();
    let planes = PLANES * (GRAVITY * hull.bottom.beam).sqrt();
    let at = |speed: f64| State {
        mass,
        speed,
        water: *water,
    };
    if speed >= planes {
        let planing = planing(&hull.bottom, &at(speed), &hull.method())?;
        return Ok(Resistance {
            force: planing.resistance,
            regime: Regime::Planing,
            beyond: planing.beyond.clone(),
            planing: Some(planing),
        });
    }
    // A whisker inside both ends, so that rounding does not put the ends outside.
    let climbs = (speed / unit).clamp(1.0 + 1e-15, LAST - 1e-15) * unit;
    let before = preplaning(&hull.form(), &at(climbs))?;
    let mut beyond = before.beyond;
    let (force, regime, planing) = if speed <= unit {
        let share = speed / unit;
        (before.resistance * share * share, Regime::Swimming, None)
    } else if speed <= LAST * unit {
        (before.resistance, Regime::Climbing, None)
    } else {
        let planing = planing(&hull.bottom, &at(speed), &hull.method())?;
        let s = (speed - LAST * unit) / (planes - LAST * unit);
        let s = s * s * (3.0 - 2.0 * s);
        beyond.extend(planing.beyond.iter().copied());
        let force = before.resistance * (1.0 - s) + planing.resistance * s;
        (force, Regime::Between, Some(planing))
    };
    Ok(Resistance {
        force,
        regime,
        planing,
        beyond,
    })
}

/// Notes a value outside the range a method states.
fn told(beyond: &mut Vec<Beyond>, what: &'static str, value: f64, (low, high): (f64, f64)) {
    if !(low..=high).contains(&value) {
        beyond.push(Beyond {
            what,
            value,
            low,
            high,
        });
    }
}
