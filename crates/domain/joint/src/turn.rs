//! A screw turned by an angle: "contact, then an eighth of a turn".

use std::f64::consts::{PI, TAU};

use crate::error::{not_negative, positive};
use crate::thread::circle;
use crate::yielding::tensile_yield;
use crate::{Bearing, Class, Error, Head, Screw};

/// What is squeezed between head and hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Seat {
    /// Metal on metal.
    MetalLip,
    /// A lip of nylon or a plastic like it.
    PlasticLip,
    /// Rubber or an O-ring, as long as the parts it seals do not yet touch.
    Rubber,
}

impl Seat {
    /// Young's modulus to reckon with.
    ///
    /// `E`: aluminium for metal, nylon that has taken up some water, rubber of middling hardness
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | E | Young's modulus | `Pa` |
    ///
    /// Range: nylon is from 1e9 full of water to 3e9 dry, rubber from 2e6 to 10e6.
    /// Source: `common practice, no source`.
    pub const fn modulus(self) -> f64 {
        match self {
            Self::MetalLip => ALUMINIUM,
            Self::PlasticLip => 1.5e9,
            Self::Rubber => 10e6,
        }
    }
}

/// Young's modulus of aluminium castings.
const ALUMINIUM: f64 = 71e9;

/// Young's modulus of austenitic stainless steel.
const STAINLESS: f64 = 193e9;

/// Share of yield in plain tension up to which an angle is called sensible. Twist adds a third to a
/// half, and a stiffness is known to a quarter at best.
const SENSIBLE: f64 = 0.5;

/// A screw through one part into a tapped hole.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `grip` | t | thickness of what is clamped | `m` |
/// | `clamped` | Ep | Young's modulus of what is clamped | `Pa` |
/// | `screw` | Es | of the screw | `Pa` |
/// | `tapped` | Em | of the part with the thread | `Pa` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clamp {
    /// Thickness of what is clamped.
    pub grip: f64,
    /// Young's modulus of what is clamped.
    pub clamped: f64,
    /// Young's modulus of the screw.
    pub screw: f64,
    /// Young's modulus of the part with the thread.
    pub tapped: f64,
}

impl Clamp {
    /// A stainless screw into aluminium.
    pub const fn of(grip: f64, seat: Seat) -> Self {
        Self {
            grip,
            clamped: seat.modulus(),
            screw: STAINLESS,
            tapped: ALUMINIUM,
        }
    }
}

/// How far a screw comes forward.
///
/// `s = P theta / (2 pi)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `pitch` | P | pitch of the thread | `m` |
/// | `angle` | theta | turned | `rad` |
/// | returns | s | approach | `m` |
///
/// Range: `P > 0`, `theta >= 0`.
/// Source: `definition`, of a pitch.
///
/// # Errors
/// [`Error::NotPositive`] or [`Error::Negative`] outside the range.
pub fn approach(pitch: f64, angle: f64) -> Result<f64, Error> {
    let angle = not_negative("the angle", angle)?;
    Ok(positive("the pitch", pitch)? * angle / TAU)
}

/// Stiffness of a screw with thread up to its head, in a tapped hole.
///
/// `1/k = h d/(Es AN) + (t + d/2)/(Es A3) + 0.33 d/(Em AN)`,
/// `AN = pi d^2/4`, h = 0.5 for a hexagon, 0.4 for a socket head
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | d, A3, h | thread and head | |
/// | `clamp` | t, Es, Em | grip and moduli | |
/// | returns | k | stiffness | `N/m` |
///
/// Range: lengths and moduli above 0.
/// Source: `vdi-2230`, resilience of the bolt, from memory.
///
/// # Errors
/// [`Error::NotPositive`], and those of the screw.
pub fn screw_stiffness(screw: &Screw, clamp: &Clamp) -> Result<f64, Error> {
    let geometry = screw.checked()?;
    let d = screw.thread.diameter;
    let grip = positive("the grip", clamp.grip)?;
    let modulus = positive("the modulus of the screw", clamp.screw)?;
    let tapped = positive("the modulus of the tapped part", clamp.tapped)?;
    let head = match screw.head {
        Head::Hex => 0.5,
        Head::Socket => 0.4,
    };
    let shank = circle(d);
    let give = head * d / (modulus * shank)
        + (grip + 0.5 * d) / (modulus * geometry.core_area)
        + 0.33 * d / (tapped * shank);
    Ok(1.0 / give)
}

/// Stiffness of a clamped part, a cone of 30 degrees under the head.
///
/// `k = pi E dh tan a / ln(((2 t tan a + dw - dh)(dw + dh)) / ((2 t tan a + dw + dh)(dw - dh)))`, a = 30°
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `bearing` | dw, dh | ring under the head | |
/// | `thickness` | t | of the part | `m` |
/// | `modulus` | E | its Young's modulus | `Pa` |
/// | returns | k | stiffness | `N/m` |
///
/// Range: all above 0, `dw > dh`; a part wide enough to hold the cone.
/// Source: `budynas-nisbett`, equation 8-20.
///
/// # Errors
/// [`Error::NotPositive`] or [`Error::Outside`] outside the range.
pub fn clamped_stiffness(bearing: &Bearing, thickness: f64, modulus: f64) -> Result<f64, Error> {
    bearing.check()?;
    let (outer, hole) = (bearing.outer, bearing.hole);
    let tangent = 1.0 / 3.0_f64.sqrt();
    let spread = 2.0 * positive("the thickness of the part", thickness)? * tangent;
    let modulus = positive("the modulus of the part", modulus)?;
    let over = (spread + outer - hole) * (outer + hole);
    let under = (spread + outer + hole) * (outer - hole);
    Ok(PI * modulus * hole * tangent / (over / under).ln())
}

/// Stiffness of screw and clamped part together, as an angle meets it.
///
/// `1/k = 1/ks + 1/kp`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | ks | by [`screw_stiffness`] | |
/// | `clamp` | kp | by [`clamped_stiffness`] | |
/// | returns | k | stiffness of the two in series | `N/m` |
///
/// Range: as of the two.
/// Source: `vdi-2230`, resilience of bolt and plates.
///
/// # Errors
/// [`Error::NotPositive`], and those of the screw.
pub fn stiffness(screw: &Screw, clamp: &Clamp) -> Result<f64, Error> {
    let part = clamped_stiffness(&screw.bearing, clamp.grip, clamp.clamped)?;
    Ok(1.0 / (1.0 / screw_stiffness(screw, clamp)? + 1.0 / part))
}

/// Preload after an angle from true contact, as long as nothing yields.
///
/// `F = k P theta / (2 pi)`
///
/// The first few hundredths of a millimetre of a real joint go into burrs, paint and seal; and the
/// screw itself twists by a few degrees. Both make the true preload less.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | P, k | thread and head | |
/// | `clamp` | k | what is clamped | |
/// | `angle` | theta | turned from contact | `rad` |
/// | returns | F | preload of the elastic model | `N` |
///
/// Range: `theta >= 0`.
/// Source: `vdi-2230`, resilience of bolt and plates.
///
/// # Errors
/// [`Error::Negative`], [`Error::NotPositive`], and those of the screw.
pub fn elastic_preload(screw: &Screw, clamp: &Clamp, angle: f64) -> Result<f64, Error> {
    Ok(stiffness(screw, clamp)? * approach(screw.thread.pitch, angle)?)
}

/// Angle from true contact that reaches half of yield in plain tension.
///
/// `theta = 2 pi 0.5 As Rp0.2 / (k P)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `screw` | As, P, k | thread and head | |
/// | `class` | Rp0.2 | proof stress | |
/// | `clamp` | k | what is clamped | |
/// | returns | theta | angle | `rad` |
///
/// Range: as of [`elastic_preload`].
/// Source: `vdi-2230`, resilience of bolt and plates; that half is enough is common practice.
///
/// # Errors
/// [`Error::NotPositive`], and those of the screw.
pub fn sensible_angle(screw: &Screw, class: Class, clamp: &Clamp) -> Result<f64, Error> {
    let load = SENSIBLE * tensile_yield(&screw.thread, class)?;
    Ok(TAU * load / (stiffness(screw, clamp)? * screw.thread.pitch))
}

/// Whether an angle after contact is a good idea.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It leaves the screw at half of yield at most.
    Sensible,
    /// It may overload the screw: the joint is too hard for it.
    TooMuch,
}

/// Judges an angle after true contact by the elastic model.
///
/// # Errors
/// [`Error::Negative`], [`Error::NotPositive`], and those of the screw.
pub fn verdict(screw: &Screw, class: Class, clamp: &Clamp, angle: f64) -> Result<Verdict, Error> {
    let angle = not_negative("the angle", angle)?;
    if angle <= sensible_angle(screw, class, clamp)? {
        Ok(Verdict::Sensible)
    } else {
        Ok(Verdict::TooMuch)
    }
}
