//! A craft and a day: all that the model needs to know.

use crate::Error;
use crate::breakdown::GRAVITY;
use crate::drag::Drag;
use crate::engine::Engine;
use crate::error::within;
use crate::jet::{Duct, bore_area};
use crate::pump::{Losses, Pump};
use crate::unknown::{Unknown, Unknowns};
use crate::water::Water;

/// A craft as it is fitted now, with one belief of what cannot be read off it.
#[derive(Clone, Debug, PartialEq)]
pub struct Craft {
    /// Impeller and ring.
    pub pump: Pump,
    /// Bore of the nozzle, `m`.
    pub nozzle: f64,
    /// Engine at full throttle.
    pub engine: Engine,
    /// What the hull asks for.
    pub drag: Drag,
    /// Mass with riders and fuel, as told, `kg`.
    pub mass: f64,
    /// What is wrong with it; nothing where it is well.
    pub ills: Ills,
    /// What is believed of the rest.
    pub unknowns: Unknowns,
}

/// What can be wrong, in sizes; [`Ills::NONE`] is a craft that is well.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ills {
    /// Share of the engine's torque that is missing.
    pub torque: f64,
    /// Share of the shaft's turns that is lost on the way to the impeller.
    pub slip: f64,
    /// Share of the head that is missing.
    pub head: f64,
    /// Share of the efficiency that is missing.
    pub efficiency: f64,
    /// Share of air in the pump at rest.
    pub air: f64,
    /// Loss of the intake, more than it had.
    pub intake: f64,
    /// Loss of the throat, more than it had.
    pub throat: f64,
    /// Share of the thrust that something in the jet takes.
    pub jet: f64,
    /// What dirt adds at 20 m/s, `d`, over the hull's drag there; at other speeds with their square.
    pub hull: f64,
    /// Mass more than it was, `kg`.
    pub mass: f64,
}

impl Ills {
    /// A craft that is well.
    pub const NONE: Self = Self {
        torque: 0.0,
        slip: 0.0,
        head: 0.0,
        efficiency: 0.0,
        air: 0.0,
        intake: 0.0,
        throat: 0.0,
        jet: 0.0,
        hull: 0.0,
        mass: 0.0,
    };
}

/// A day on the water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// The water.
    pub water: Water,
    /// Pressure of the air at the place, `Pa`.
    pub pressure: f64,
    /// Density of the air, `kg/m³`.
    pub air: f64,
    /// Power of the engine in this air over that of its curve.
    pub power: f64,
    /// Wind from ahead, `m/s`; below 0 from behind.
    pub headwind: f64,
}

/// Loss of the nozzle over the jet's energy: `bulten-2006`, p. 38.
pub(crate) const NOZZLE: f64 = 0.02;
/// What shaft, bearings and seals leave: common practice, no source.
pub(crate) const MECHANICAL: f64 = 0.97;
/// Water that must be sped up with the craft, over its mass: common practice, no source.
pub(crate) const ADDED: f64 = 0.05;
/// Speed at which air in the pump has faded to 1/e, `m/s`: assumed, no source.
const AIR_FADES: f64 = 8.0;
/// The head suffers so many times from air as the density does: assumed, no source.
const AIR_HEAD: f64 = 1.5;
/// Speed at which the drag of dirt is told as a share of the hull's, `m/s`.
const DIRT: f64 = 20.0; // not a conversion: a speed
/// The hump's place and width as volume Froude numbers: assumed, no source.
const HUMP: [f64; 2] = [2.2, 0.74];

impl Craft {
    /// Refuses what the model does not hold for.
    ///
    /// # Errors
    /// The pump's own ([`Pump::check`]); a nozzle wider than the pump or narrower than a quarter of it; no mass.
    pub fn check(&self) -> Result<(), Error> {
        self.pump.check()?;
        let widest = (4.0 * self.pump.area() / std::f64::consts::PI).sqrt();
        within("nozzle bore", self.nozzle, 0.3 * self.pump.diameter, widest)?;
        within(
            "mass",
            self.mass,
            0.7 * self.drag.mass,
            1.3 * self.drag.mass,
        )?;
        Ok(())
    }

    /// Mass with what is believed of it, `kg`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | craft, riders, fuel | `kg` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn weighs(&self) -> f64 {
        self.mass * self.unknowns[Unknown::Mass] + self.ills.mass
    }

    /// Mass that is sped up, water with it, `kg`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | a twentieth more than it weighs | `kg` |
    ///
    /// Range: planing.
    /// Source: common practice, no source.
    pub fn inertia(&self) -> f64 {
        (1.0 + ADDED) * self.weighs()
    }

    pub(crate) fn losses(&self) -> Losses {
        Losses {
            incidence: self.unknowns[Unknown::Incidence],
            stator: self.unknowns[Unknown::Stator],
            friction: self.unknowns[Unknown::Friction],
            deviation: self.unknowns[Unknown::Deviation],
        }
    }

    pub(crate) fn duct(&self) -> Duct {
        Duct {
            jet: bore_area(self.nozzle),
            throat: self.pump.area(),
            nozzle: NOZZLE,
            intake: self.unknowns[Unknown::Intake] + self.ills.intake,
            suction: self.unknowns[Unknown::Throat] + self.ills.throat,
            wake: self.unknowns[Unknown::Wake],
        }
    }

    /// The suction specific speed of breakdown with these blades: a steeper leading edge meets slow water
    /// at a greater angle.
    pub(crate) fn breaks(&self) -> f64 {
        let steeper = self.pump.blades.leading - self.pump.leading_known;
        self.unknowns[Unknown::Breakdown] * (self.unknowns[Unknown::Bite] * steeper).exp()
    }

    /// Share of air in the pump at a speed, and what it leaves of the head.
    pub(crate) fn aired(&self, speed: f64) -> [f64; 2] {
        let air = (self.unknowns[Unknown::Froth] + self.ills.air) * (-speed / AIR_FADES).exp();
        [air, (1.0 - AIR_HEAD * air).max(0.0)]
    }

    /// Torque of the engine at full throttle that reaches the pump's shaft, `N m`, at an engine speed.
    pub(crate) fn torque(&self, day: &Conditions, engine: f64) -> f64 {
        let rise = 1.0 + self.unknowns[Unknown::Rise] * (engine / self.engine.rated - 1.0);
        let scale = self.unknowns[Unknown::Engine] * rise * (1.0 - self.ills.torque) * day.power;
        self.engine.torque(engine) * scale
    }

    /// What holds the craft back.
    ///
    /// `R = k_R [R_h(V, m) + d R_h(20 m/s, m) (V/20 m/s)²] + r_h m g exp[−((Fn − 2.2)/0.74)²] (Fn/2.2)² + rho_a (V + V_w)² C_d A/2`, `Fn = V/(g vol^(1/3))^(1/2)`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `day` | water and air, wind from ahead `V_w` |  |
    /// | `speed` | `V`, 0 to 45 | `m/s` |
    /// | `returns` | resistance | `N` |
    ///
    /// Range: as the drag's.
    /// Source: `savitsky-1964`, `mercier-1973`.
    pub fn resistance(&self, day: &Conditions, speed: f64) -> f64 {
        let mass = self.weighs();
        // Dirt rubs, and so goes with the square of the speed: it tells little at the hump.
        let dirt = match self.ills.hull {
            0.0 => 0.0,
            share => share * self.drag.at(mass, DIRT) * (speed / DIRT).powi(2),
        };
        let length = (mass / day.water.density).cbrt();
        let froude = speed / (GRAVITY * length).sqrt();
        let [place, width] = HUMP;
        let bell = (-((froude - place) / width).powi(2)).exp() * (froude / place).powi(2);
        let wind = speed + day.headwind;
        self.unknowns[Unknown::Hull] * (self.drag.at(mass, speed) + dirt)
            + self.unknowns[Unknown::Hump] * mass * GRAVITY * bell
            + 0.5 * day.air * self.unknowns[Unknown::Air] * wind * wind.abs()
    }
}

impl Conditions {
    /// A day of 15 °C and 101 325 Pa on fresh water, without wind, power as on the curve.
    pub fn fresh() -> Self {
        Self {
            water: Water {
                density: 999.1026,
                viscosity: 1.1386e-6,
                vapour_pressure: 1705.8,
            },
            pressure: 101_325.0,
            air: 1.225,
            power: 1.0,
            headwind: 0.0,
        }
    }
}
