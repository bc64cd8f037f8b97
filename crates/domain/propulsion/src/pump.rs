//! A pump from the angles of its blades: helical mean line.
//!
//! One turn of a helix of pitch `P` screws water forward by `P`. What goes through for every turn, over
//! that pitch, is the advance `f`; the work done on the water, the shock at the leading edge and the
//! swirl left behind are all functions of it.

use std::f64::consts::PI;

use crate::Error;
use crate::error::within;

/// The blades of an impeller, their angles taken at the tip from the plane of rotation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blades {
    /// Angle of the leading edge, `rad`.
    pub leading: f64,
    /// Angle of the trailing edge, `rad`.
    pub trailing: f64,
    /// Chords of all blades over the circle at the tip: blades times chord / (2 pi r).
    pub solidity: f64,
}

/// An impeller in its ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pump {
    /// Diameter over the tips, `m`.
    pub diameter: f64,
    /// Diameter of the hub over that of the tips.
    pub hub: f64,
    /// Its blades.
    pub blades: Blades,
    /// Radial gap between tip and ring, `m`.
    pub gap: f64,
    /// The gap at which head and efficiency are known, `m`: that of the run learnt from.
    pub gap_known: f64,
    /// The leading edge's angle at which the breakdown is known, `rad`: that of the run learnt from.
    pub leading_known: f64,
    /// Turns of the impeller for every turn of the engine.
    pub ratio: f64,
}

/// What is lost, and how much the flow lags behind the blades.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Losses {
    /// Share of the shock at the leading edge that is lost, `k_i`.
    pub incidence: f64,
    /// Share of the swirl that the vanes do not turn into pressure, `k_s`.
    pub stator: f64,
    /// Friction on blades and walls, `k_f`, at [`SOLIDITY`].
    pub friction: f64,
    /// By how much the flow leaves flatter than Constant's rule says, `rad`.
    pub deviation: f64,
}

/// The solidity at which `k_f` is told; friction goes with the area of the blades. Assumed, no source.
pub const SOLIDITY: f64 = 1.3;

/// Head and work of one pump at one shaft speed: `gH = c0 + c1 Q + c2 Q²`, `gH_E = E − w Q`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Characteristic {
    /// `c0`, `c1`, `c2`.
    pub(crate) head: [f64; 3],
    /// `E`, and what a `m³/s` takes off the work.
    pub(crate) work: [f64; 2],
}

/// How far the head of each loss goes, `J/kg`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadLosses {
    /// Shock at the leading edge.
    pub incidence: f64,
    /// Swirl past the vanes.
    pub stator: f64,
    /// Friction.
    pub friction: f64,
}

impl Blades {
    /// Blades of a helix known at another radius than the tip's.
    ///
    /// `tan beta_tip = (r / R) tan beta_r`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `angle` | angle from the plane of rotation at `radius` | `rad` |
    /// | `radius` | where it was measured, `r` | `m` |
    /// | `tip` | radius of the tip, `R` | `m` |
    /// | `returns` | the angle at the tip | `rad` |
    ///
    /// Range: 0 < r <= R, angles between 2 and 60 degrees.
    /// Source: definition (a helix has one pitch).
    ///
    /// # Errors
    /// An angle or a radius outside that range.
    pub fn at_tip(angle: f64, radius: f64, tip: f64) -> Result<f64, Error> {
        within("blade angle", angle, 2f64.to_radians(), 60f64.to_radians())?;
        within("radius of the blade angle", radius, 0.2 * tip, tip)?;
        Ok((radius / tip * angle.tan()).atan())
    }
}

/// Pitch of a helix: how far one turn screws forward.
///
/// `P = pi d tan(beta)`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `diameter` | twice the radius of the angle | `m` |
/// | `angle` | from the plane of rotation | `rad` |
/// | `returns` | the pitch | `m` |
///
/// Range: angles between 0 and 90 degrees.
/// Source: definition.
pub fn pitch(diameter: f64, angle: f64) -> f64 {
    PI * diameter * angle.tan()
}

/// Constant's rule: by how much the flow leaves flatter than the blade.
///
/// `delta = 0.26 (beta_TE − beta_LE) / sigma^(1/2)`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `blades` | angles and solidity `sigma` |  |
/// | `returns` | the deviation | `rad` |
///
/// Range: an early rule for cascades of moderate turning.
/// Source: `brennen-1994`, eq. 3.19.
pub fn deviation(blades: &Blades) -> f64 {
    0.26 * (blades.trailing - blades.leading) / blades.solidity.sqrt()
}

impl Pump {
    /// Refuses what is no axial or mixed-flow impeller of a small craft.
    ///
    /// # Errors
    /// The diameter, hub, angles, solidity or gap lie outside what the mean line holds for; a trailing
    /// edge flatter than the leading edge.
    pub fn check(&self) -> Result<(), Error> {
        let degrees = |low: f64, high: f64| (low.to_radians(), high.to_radians());
        within("impeller diameter", self.diameter, 0.08, 0.4)?;
        within("hub over tip diameter", self.hub, 0.2, 0.7)?;
        let (low, high) = degrees(5.0, 40.0);
        within(
            "leading edge angle at the tip",
            self.blades.leading,
            low,
            high,
        )?;
        let low = self.blades.leading;
        within(
            "trailing edge angle at the tip",
            self.blades.trailing,
            low,
            high,
        )?;
        within("solidity", self.blades.solidity, 0.5, 3.0)?;
        within("gap over blade height", self.gap_share(), 0.0, MOST_GAP)?;
        within("gear ratio", self.ratio, 0.3, 3.0)?;
        Ok(())
    }

    /// Area between hub and ring, `m²`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | area | `m^2` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn area(&self) -> f64 {
        0.25 * PI * self.diameter.powi(2) * (1.0 - self.hub.powi(2))
    }

    /// Mean square radius by mass, `m²`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | mean square | `m^2` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn square_radius(&self) -> f64 {
        self.diameter.powi(2) * (1.0 + self.hub.powi(2)) / 8.0
    }

    /// Height of the blades, `m`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | height | `m` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn height(&self) -> f64 {
        0.5 * self.diameter * (1.0 - self.hub)
    }

    /// The gap over the height of the blades.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | share | `1` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn gap_share(&self) -> f64 {
        self.gap / self.height()
    }

    /// By how much the gap's share is more than the one known.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | more of it | `1` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn gap_more(&self) -> f64 {
        (self.gap - self.gap_known) / self.height()
    }

    /// Advance over pitch at the trailing edge, where attached flow is 0.5 to 0.95.
    pub(crate) fn advance(&self, losses: &Losses, flow_per_turn: f64) -> [f64; 2] {
        let [a, b] = self.per_turn(losses);
        [flow_per_turn * a, flow_per_turn * b]
    }

    /// `1 / (A P)` at the leading and at the trailing edge.
    fn per_turn(&self, losses: &Losses) -> [f64; 2] {
        let leaving = self.blades.trailing - deviation(&self.blades) - losses.deviation;
        [self.blades.leading, leaving]
            .map(|angle| 1.0 / (self.area() * pitch(self.diameter, angle)))
    }

    /// What is lost to friction at this solidity.
    fn friction(&self, losses: &Losses) -> f64 {
        losses.friction * self.blades.solidity / SOLIDITY
    }

    /// Head and work as they follow from the flow, for a shaft that turns at 1 rad/s: every term of
    /// `c0` goes with its square, of `c1` with it.
    pub(crate) fn characteristic(&self, losses: &Losses) -> Characteristic {
        let energy = self.square_radius();
        let [a, b] = self.per_turn(losses).map(|per_turn| per_turn * 2.0 * PI);
        let (i, s, f) = (losses.incidence, losses.stator, self.friction(losses));
        Characteristic {
            head: [
                energy * (1.0 - 0.5 * (i + s + f)),
                energy * (i * a + s * b - b),
                -0.5 * energy * (i * a * a + s * b * b) - 0.5 * f / self.area().powi(2),
            ],
            work: [energy, energy * b],
        }
    }

    /// Head of each loss, none of them the remainder of the others.
    ///
    /// `h_i = k_i E (1 − f_1)²/2`, `h_s = k_s E (1 − f_2)²/2`, `h_f = k_f (c_x² + E)/2`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `losses` | `k_i`, `k_s`, `k_f`, offset of the deviation |  |
    /// | `speed` | of the shaft | `rad/s` |
    /// | `flow` | through the pump | `m^3/s` |
    /// | `returns` | head of each loss | `J/kg` |
    ///
    /// Range: as [`Pump::head`].
    /// Source: `brennen-1994`, ch. 3, for the forms.
    pub fn losses(&self, losses: &Losses, speed: f64, flow: f64) -> HeadLosses {
        let energy = speed.powi(2) * self.square_radius();
        let [f1, f2] = self.advance(losses, 2.0 * PI * flow / speed);
        let axial = flow / self.area();
        HeadLosses {
            incidence: 0.5 * losses.incidence * energy * (1.0 - f1).powi(2),
            stator: 0.5 * losses.stator * energy * (1.0 - f2).powi(2),
            friction: 0.5 * self.friction(losses) * (axial.powi(2) + energy),
        }
    }

    /// The work done on every kilogram, by Euler.
    ///
    /// `gH_E = E (1 − f_2)`, `E = Om² D² (1 + nu²)/8`, `f_2 = Q / (A n pi D tan(beta_TE − delta))`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `losses` | only the offset of the deviation counts |  |
    /// | `speed` | of the shaft, `Om` | `rad/s` |
    /// | `flow` | `Q` | `m^3/s` |
    /// | `returns` | the work | `J/kg` |
    ///
    /// Range: attached flow, `0.5 < f_2 < 0.95`; no swirl ahead.
    /// Source: `brennen-1994`, ch. 2 and 3.
    pub fn work(&self, losses: &Losses, speed: f64, flow: f64) -> f64 {
        let [energy, falls] = self.characteristic(losses).work;
        speed * (speed * energy - falls * flow)
    }

    /// The head that is left for the jet, without gap and breakdown.
    ///
    /// `gH = gH_E − h_i − h_s − h_f`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `losses` | `k_i`, `k_s`, `k_f`, offset of the deviation |  |
    /// | `speed` | of the shaft | `rad/s` |
    /// | `flow` | `Q` | `m^3/s` |
    /// | `returns` | the head | `J/kg` |
    ///
    /// Range: attached flow, `0.5 < f_2 < 0.95`; neither shut off nor reversed.
    /// Source: definition.
    pub fn head(&self, losses: &Losses, speed: f64, flow: f64) -> f64 {
        let [c0, c1, c2] = self.characteristic(losses).head;
        speed * speed * c0 + speed * c1 * flow + c2 * flow * flow
    }
}

/// The widest gap over the height of the blades that the slopes below hold for.
pub const MOST_GAP: f64 = 0.05;

/// What a wider gap leaves of head and of efficiency.
///
/// `k_psi = 1 − s_psi (lam − lam_0)`, `k_eta = 1 − s_eta (lam − lam_0)`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `more` | `lam − lam_0`: gap over blade height, more than the one known | `1` |
/// | `slopes` | `s_psi`, `s_eta` | `1` |
/// | `returns` | `k_psi`, `k_eta` | `1` |
///
/// Range: a gap of at most 0.05 of the blade height.
/// Source: common practice, no source.
/// the slopes are common practice, no source, and a factor of 3 apart.
pub fn gap_factors(more: f64, slopes: [f64; 2]) -> [f64; 2] {
    slopes.map(|slope| 1.0 - slope * more)
}
