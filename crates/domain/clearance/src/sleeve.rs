//! A sleeve in its housing: pressure, stress, and how far what grows behind it closes the bore.
//!
//! Two elastic cylinders of equal length, open at the ends, alike all the way round. Not covered: a
//! blister at one place, which can close the bore there by all it grows, and a thin sleeve lifting off
//! its seat under pressure from outside.

use std::f64::consts::TAU;

use crate::Error;
use crate::error::{not_negative, positive, within};

/// How a material gives.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `modulus` | modulus of elasticity | `Pa` |
/// | `poisson` | Poisson's ratio | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Elastic {
    /// Modulus of elasticity.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

impl Elastic {
    fn check(&self) -> Result<(), Error> {
        positive("the modulus of elasticity", self.modulus)?;
        within("Poisson's ratio", self.poisson, 0.0, 0.5)?;
        Ok(())
    }
}

/// One cylinder.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `inner` | inner radius | `m` |
/// | `outer` | outer radius | `m` |
/// | `material` | how it gives | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cylinder {
    /// Inner radius.
    pub inner: f64,
    /// Outer radius.
    pub outer: f64,
    /// How it gives.
    pub material: Elastic,
}

/// What a wall bears at one radius, and how far it moves.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `hoop` | stress round the wall, tension positive | `Pa` |
/// | `radial` | stress through the wall | `Pa` |
/// | `moves` | displacement outwards | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Stress round the wall.
    pub hoop: f64,
    /// Stress through the wall.
    pub radial: f64,
    /// Displacement outwards.
    pub moves: f64,
}

/// Pressures on a cylinder.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `inside` | on its bore | `Pa` |
/// | `outside` | on its skin | `Pa` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressures {
    /// On its bore.
    pub inside: f64,
    /// On its skin.
    pub outside: f64,
}

impl Cylinder {
    fn check(&self) -> Result<(), Error> {
        self.material.check()?;
        let inner = positive("the inner radius", self.inner)?;
        above("the outer radius", self.outer, inner)
    }

    /// Stress and displacement at a radius of a thick cylinder with open ends.
    ///
    /// `A = (p_i a^2 - p_o b^2) / (b^2 - a^2)`, `B = (p_i - p_o) a^2 b^2 / (b^2 - a^2)`,
    /// `hoop = A + B / r^2`, `radial = A - B / r^2`, `u = r (hoop - nu radial) / E`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | a, b, E, nu | radii and material | |
    /// | `under` | `p_i`, `p_o` | pressures inside and outside | `Pa` |
    /// | `radius` | r | where | `m` |
    ///
    /// Range: `0 < a < b`, `a <= r <= b`, elastic.
    /// Source: `timoshenko-1970` (Lamé's thick cylinder).
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Outside`].
    pub fn wall(&self, under: Pressures, radius: f64) -> Result<Wall, Error> {
        self.check()?;
        within("the radius in the wall", radius, self.inner, self.outer)?;
        let (a2, b2) = (self.inner * self.inner, self.outer * self.outer);
        let even = (under.inside * a2 - under.outside * b2) / (b2 - a2);
        let bent = (under.inside - under.outside) * a2 * b2 / (b2 - a2) / (radius * radius);
        let (hoop, radial) = (even + bent, even - bent);
        let Elastic { modulus, poisson } = self.material;
        Ok(Wall {
            hoop,
            radial,
            moves: radius * (hoop - poisson * radial) / modulus,
        })
    }
}

/// A sleeve pressed into a housing.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `bore` | radius of the sleeve's bore | `m` |
/// | `seat` | radius where sleeve and housing touch | `m` |
/// | `skin` | outer radius of the housing | `m` |
/// | `sleeve` | material of the sleeve | |
/// | `housing` | material of the housing | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sleeved {
    /// Radius of the sleeve's bore.
    pub bore: f64,
    /// Radius where sleeve and housing touch.
    pub seat: f64,
    /// Outer radius of the housing.
    pub skin: f64,
    /// Material of the sleeve.
    pub sleeve: Elastic,
    /// Material of the housing.
    pub housing: Elastic,
}

/// What a press fit does to both parts. Displacements are outwards, tension is positive.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `pressure` | between sleeve and housing | `Pa` |
/// | `bore` | displacement of the sleeve's bore | `m` |
/// | `sleeve_seat` | displacement of the sleeve's outside | `m` |
/// | `housing_seat` | displacement of the housing's inside | `m` |
/// | `skin` | displacement of the housing's outside | `m` |
/// | `hoop_bore` | stress round the sleeve's bore | `Pa` |
/// | `hoop_sleeve` | stress round the sleeve's outside | `Pa` |
/// | `hoop_housing` | stress round the housing's inside | `Pa` |
/// | `hoop_skin` | stress round the housing's outside | `Pa` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressed {
    /// Pressure between sleeve and housing.
    pub pressure: f64,
    /// Displacement of the sleeve's bore.
    pub bore: f64,
    /// Displacement of the sleeve's outside.
    pub sleeve_seat: f64,
    /// Displacement of the housing's inside.
    pub housing_seat: f64,
    /// Displacement of the housing's outside.
    pub skin: f64,
    /// Stress round the sleeve's bore.
    pub hoop_bore: f64,
    /// Stress round the sleeve's outside.
    pub hoop_sleeve: f64,
    /// Stress round the housing's inside.
    pub hoop_housing: f64,
    /// Stress round the housing's outside.
    pub hoop_skin: f64,
}

/// A press fit.
///
/// `p = d / (R (C_i / E_i + C_o / E_o))`, `C_i = (R^2 + r_i^2) / (R^2 - r_i^2) - nu_i`,
/// `C_o = (r_o^2 + R^2) / (r_o^2 - R^2) + nu_o`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `parts` | `r_i`, R, `r_o`, E, nu | radii and materials | |
/// | `interference` | d | **radial** interference, half of that of the diameters | `m` |
///
/// Range: `d >= 0`, `0 < r_i < R < r_o`, elastic.
/// Source: `timoshenko-1970`.
///
/// # Errors
/// [`Error::Negative`] for a loose sleeve; [`Error::NotPositive`], [`Error::Outside`].
pub fn press(parts: &Sleeved, interference: f64) -> Result<Pressed, Error> {
    joined(
        parts,
        not_negative("the radial interference", interference)?,
    )
}

/// The same for a sleeve that cannot come loose, where a mismatch of either sign is borne.
pub(crate) fn joined(parts: &Sleeved, mismatch: f64) -> Result<Pressed, Error> {
    let sleeve = Cylinder {
        inner: parts.bore,
        outer: parts.seat,
        material: parts.sleeve,
    };
    let housing = Cylinder {
        inner: parts.seat,
        outer: parts.skin,
        material: parts.housing,
    };
    // Everything is in proportion, so the mismatch of one pascal gives the pressure.
    let on_sleeve = |pressure| Pressures {
        inside: 0.0,
        outside: pressure,
    };
    let on_housing = |pressure| Pressures {
        inside: pressure,
        outside: 0.0,
    };
    let give = housing.wall(on_housing(1.0), parts.seat)?.moves
        - sleeve.wall(on_sleeve(1.0), parts.seat)?.moves;
    let pressure = mismatch / give;
    let inside = sleeve.wall(on_sleeve(pressure), parts.bore)?;
    let under = sleeve.wall(on_sleeve(pressure), parts.seat)?;
    let over = housing.wall(on_housing(pressure), parts.seat)?;
    let outside = housing.wall(on_housing(pressure), parts.skin)?;
    Ok(Pressed {
        pressure,
        bore: inside.moves,
        sleeve_seat: under.moves,
        housing_seat: over.moves,
        skin: outside.moves,
        hoop_bore: inside.hoop,
        hoop_sleeve: under.hoop,
        hoop_housing: over.hoop,
        hoop_skin: outside.hoop,
    })
}

/// Share of what grows behind a sleeve that shows as a smaller bore.
///
/// `kappa = -u(r_i) / d`
///
/// Above one for a thick ring of low modulus: squeezed, its wall also grows thicker.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `parts` | | radii and materials | |
/// | returns | kappa | bore closure ratio, of radii | `1` |
///
/// Range: as [`press`].
/// Source: `timoshenko-1970`, by the definition of the ratio.
///
/// # Errors
/// As [`press`].
pub fn closure_ratio(parts: &Sleeved) -> Result<f64, Error> {
    // Any interference does; that of the seat's own radius keeps the numbers near one.
    Ok(-press(parts, parts.seat)?.bore / parts.seat)
}

/// What corrosion behind a sleeve does.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `closes` | by how much the radius of the bore shrinks | `m` |
/// | `pressure` | what is added to the pressure of the fit | `Pa` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// By how much the radius of the bore shrinks.
    pub closes: f64,
    /// What is added to the pressure of the fit.
    pub pressure: f64,
}

/// Corrosion product of one thickness all round between a tight sleeve and its housing.
///
/// `closes = kappa x`: the growth adds to the interference
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `parts` | | radii and materials | |
/// | `thickness` | x | net growth of the layer, beyond the metal it has eaten | `m` |
///
/// Range: `x >= 0`; the sleeve is tight before and the layer gives way nowhere, so it is the most
/// an even layer can do.
/// Source: `timoshenko-1970`.
///
/// # Errors
/// [`Error::Negative`], and as [`press`].
pub fn growth(parts: &Sleeved, thickness: f64) -> Result<Growth, Error> {
    let pressed = joined(
        parts,
        not_negative("the thickness of the growth", thickness)?,
    )?;
    Ok(Growth {
        closes: -pressed.bore,
        pressure: pressed.pressure,
    })
}

/// Force to push a sleeve over its whole seat.
///
/// `F = 2 PI R L p mu`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `seat` | R | radius where sleeve and housing touch | `m` |
/// | `length` | L | length of the seat | `m` |
/// | `pressure` | p | between them | `Pa` |
/// | `friction` | mu | coefficient of friction | `1` |
/// | returns | F | force along the axis | `N` |
///
/// Range: all zero or more, seat and length above zero.
/// Source: `budynas-nisbett`.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`].
pub fn press_force(seat: f64, length: f64, pressure: f64, friction: f64) -> Result<f64, Error> {
    let area = TAU * positive("the radius of the seat", seat)? * positive("its length", length)?;
    Ok(area * not_negative("the pressure", pressure)? * not_negative("the friction", friction)?)
}

fn above(what: &'static str, value: f64, low: f64) -> Result<(), Error> {
    if value > low && value.is_finite() {
        return Ok(());
    }
    Err(Error::Outside {
        what,
        value,
        low,
        high: f64::INFINITY,
    })
}
