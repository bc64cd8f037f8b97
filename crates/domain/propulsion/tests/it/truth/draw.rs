//! A craft of its own for every number.

use super::chance::Chance;
use super::craft::{Craft, Engine, Hull, Intake, Surroundings};
use super::faults::Harm;
use super::pump::{Cavity, Hidden, Pump};
use super::{Told, Water, turns};
use std::f64::consts::TAU;

/// What is drawn before the engine is chosen for the pump.
pub(crate) struct Drawing {
    pub(crate) craft: Craft,
    pub(crate) told: Told,
    /// Shaft speed at top speed the maker aimed at, over rated.
    pub(crate) matched: f64,
    /// Power of the engine over what its maker says.
    pub(crate) stronger: f64,
}

fn rad(chance: &mut Chance, mean: f64, sd: f64) -> f64 {
    chance.normal(mean, sd).to_radians()
}

/// Vapour pressure after Magnus, density a parabola, viscosity a quotient: each near enough for an invented lake.
fn water(chance: &mut Chance) -> Water {
    let celsius = chance.within(8.0, 27.0);
    let salt = if chance.happens(0.4) { 35.0 } else { 0.0 };
    let dynamic = 4.2844e-5 + 1.0 / (0.157 * (celsius + 64.993_f64).powi(2) - 91.296);
    let density = 1000.0 - 0.0049 * (celsius - 4.0_f64).powi(2) + 0.76 * salt;
    Water {
        temperature: celsius + 273.15,
        salinity: salt / 1e3,
        density,
        viscosity: dynamic * (1.0 + 0.0021 * salt) / density,
        vapour_pressure: 611.2
            * (17.62 * celsius / (243.12 + celsius)).exp()
            * (1.0 - 0.00057 * salt),
        air_pressure: chance.normal(100.8e3, 700.0),
    }
}

fn hidden(chance: &mut Chance, hub: f64, trailing: f64) -> Hidden {
    let middle = f64::midpoint(1.0, hub * hub).sqrt();
    // Where the axial velocity is seven tenths of the pitch the swirl is three tenths of the wheel.
    let swirl = (0.29 * middle / (0.71 * trailing.tan())).atan();
    Hidden {
        twist: chance.normal(0.97, 0.04),
        skew: (chance.normal(-0.03, 0.05), chance.normal(0.03, 0.05)),
        layers: chance.within(0.05, 0.13),
        turn: chance.normal(0.03, 0.03),
        carter: chance.about(0.75, 0.2),
        miss: rad(chance, 0.0, 0.8),
        miss_incidence: chance.within(0.05, 0.25),
        shock_front: (chance.about(0.012, 0.35), chance.within(1.4, 1.9)),
        shock_back: (chance.about(0.020, 0.35), chance.within(2.1, 2.7)),
        profile: chance.about(0.0085, 0.25),
        stall: chance.about(8.0, 0.3),
        stator: swirl + rad(chance, 0.0, 4.0),
        stator_loss: (chance.about(0.05, 0.3), chance.about(0.5, 0.3)),
        swirl: chance.within(0.05, 0.25),
        leak: (
            chance.about(0.011, 0.3),
            chance.within(0.75, 1.1),
            chance.within(1.2, 1.7),
        ),
        slack: chance.about(0.013, 0.3),
        disc: chance.about(0.006, 0.3),
        cavity: Cavity {
            axial: chance.within(1.05, 1.35),
            blade: chance.about(0.055, 0.10),
            onset: chance.within(0.75, 1.05),
            scale: chance.within(0.75, 1.3),
            power: chance.within(1.2, 2.0),
            work: chance.within(0.14, 0.32),
            head: chance.within(0.50, 0.66),
        },
    }
}

fn intake(chance: &mut Chance, length: f64) -> Intake {
    Intake {
        throat: chance.within(1.0, 1.25),
        grate: chance.about(0.24, 0.25),
        slowing: chance.about(0.34, 0.25),
        lip: chance.about(0.08, 0.3),
        ahead: length * chance.within(0.45, 0.6),
        width: chance.within(0.2, 0.3),
        exponent: chance.within(6.0, 9.0),
        thickness: chance.about(1.15, 0.2),
        bubbles: chance.within(0.10, 0.28),
        bubbles_speed: chance.within(6.0, 12.0),
        bubbles_head: chance.within(0.8, 2.4),
    }
}

fn hull(chance: &mut Chance, told: &Told, mass: f64) -> Hull {
    let wetted = told.length * told.beam / told.deadrise.cos() * chance.within(0.5, 0.72);
    Hull {
        length: told.length,
        beam: told.beam,
        mass,
        wetted,
        afloat: chance.within(1.3, 1.7),
        shrinking: chance.within(0.15, 0.6),
        roughness: chance.within(0.0002, 0.0009),
        lift: chance.about(1.7, 0.2),
        lifted: chance.within(2.1, 2.8),
        hump: (
            chance.within(0.04, 0.10),
            chance.within(1.3, 1.9),
            chance.within(0.2, 0.35),
            chance.within(0.3, 0.6),
        ),
        spray: chance.about(0.0021, 0.35),
        air: chance.about(0.5, 0.2),
        along: (chance.within(0.01, 0.06), chance.within(0.08, 0.20)),
        deduction: (chance.normal(0.0, 0.03), chance.normal(0.02, 0.03)),
    }
}

/// One unit of torque; the maker's choice for this pump comes afterwards.
fn engine(chance: &mut Chance, (charged, rated): (bool, f64)) -> Engine {
    let (slope, bend) = if charged {
        (chance.within(-0.6, 0.05), chance.within(-0.9, -0.2))
    } else {
        // Strongest in torque at 68 to 80 % of rated speed.
        let slope = chance.within(-1.05, -0.55);
        (slope, slope / (2.0 * chance.within(0.20, 0.32)))
    };
    let mut wave = |number: (f64, f64), height: f64| {
        (
            chance.normal(0.0, height),
            chance.within(number.0, number.1),
            chance.within(0.0, TAU),
        )
    };
    let waves = [
        wave((0.8, 1.4), 0.015),
        wave((1.6, 2.4), 0.009),
        wave((2.6, 3.6), 0.004),
    ];
    Engine {
        torque: 1.0,
        rated,
        limiter: rated * chance.within(1.03, 1.07) + turns(chance.normal(0.0, 20.0)),
        softness: turns(chance.within(20.0, 55.0)),
        bend: (slope, bend, chance.normal(0.0, 0.15)),
        waves,
        drive: (chance.within(0.015, 0.04), chance.within(0.5, 2.0)),
        inertia: chance.about(0.035, 0.25),
        opening: chance.within(0.2, 0.5),
    }
}

/// Geometry in the order in which a bigger pump has all of it bigger.
fn pump(chance: &mut Chance, size: f64) -> (Pump, f64) {
    let diameter = 0.140 + 0.020 * (0.75 * size + 0.25 * chance.within(0.0, 1.0));
    let diameter = (diameter / 0.0005).round() * 0.0005;
    let hub = chance.within(0.40, 0.50);
    let trailing = chance.within(16.0, 24.0).to_radians();
    let pump = Pump {
        diameter,
        hub,
        // Pitch grows by a third along the blade, which leaves little incidence at top speed.
        leading: (trailing.tan() / chance.normal(1.33, 0.07)).atan(),
        trailing,
        solidity: chance.within(1.1, 1.5),
        gap: chance.about(0.28e-3, 0.5).clamp(0.1e-3, 0.6e-3),
        hidden: hidden(chance, hub, trailing),
    };
    let nozzle = 0.0850 + 0.25 * (diameter - 0.150) + chance.normal(0.0, 0.0015);
    (pump, nozzle)
}

/// The stronger, the heavier, and two ride now and then.
fn mass(chance: &mut Chance, pump: &Pump, rated: f64) -> f64 {
    let strength =
        (rated / 7500.0).powi(3) * (pump.diameter / 0.155).powi(5) * (pump.trailing.tan() / 0.384);
    let dry = (225.0 + 130.0 * strength).clamp(230.0, 400.0) + chance.normal(0.0, 15.0);
    let riders = if chance.happens(0.3) {
        chance.normal(155.0, 18.0)
    } else {
        chance.normal(84.0, 11.0)
    };
    dry.clamp(230.0, 420.0) + riders
}

/// What is measured and typed; power and limiter come with the engine.
fn told(chance: &mut Chance, pump: &Pump, nozzle: f64, mass: f64) -> Told {
    Told {
        diameter: pump.diameter,
        hub: chance.normal(pump.hub, 0.005),
        leading: pump.leading + rad(chance, 0.0, 0.5),
        trailing: pump.trailing + rad(chance, 0.0, 0.5),
        angle_sd: 0.5_f64.to_radians(),
        blades: if chance.happens(0.5) { 3 } else { 4 },
        solidity: chance
            .happens(0.5)
            .then(|| chance.normal(pump.solidity, 0.05)),
        nozzle: chance.normal(nozzle, 0.1e-3),
        nozzle_sd: 0.1e-3,
        gap: chance.normal(pump.gap, 0.03e-3).max(0.02e-3),
        gap_sd: 0.03e-3,
        charged: false,
        rated_power: 0.0,
        rated_speed: 0.0,
        limiter: 0.0,
        mass: chance.normal(mass, 8.0),
        mass_sd: 8.0,
        length: chance.within(2.6, 3.3),
        beam: chance.within(0.95, 1.2),
        deadrise: chance.within(18.0, 25.0).to_radians(),
        water: water(chance),
    }
}

/// Everything but the size of the engine.
pub(crate) fn drawing(chance: &mut Chance) -> Drawing {
    let size = chance.within(0.0, 1.0);
    let rated = 6500.0 + 1700.0 * (0.6 * size + 0.4 * chance.within(0.0, 1.0));
    let rated = (rated / 50.0).round() * 50.0;
    let (pump, nozzle) = pump(chance, size);
    let mass = mass(chance, &pump, rated);
    let told = Told {
        charged: chance.happens(0.25 + 0.5 * size),
        rated_speed: turns(rated),
        ..told(chance, &pump, nozzle, mass)
    };
    let craft = Craft {
        water: Surroundings {
            density: told.water.density,
            viscosity: told.water.viscosity,
            vapour: told.water.vapour_pressure,
            air: told.water.air_pressure,
        },
        pump,
        nozzle,
        contraction: chance.within(0.97, 1.0),
        nozzle_loss: chance.about(0.022, 0.3),
        aft: chance.within(3.0, 6.0).to_radians().cos(),
        height: chance.normal(0.05, 0.04),
        intake: intake(chance, told.length),
        hull: hull(chance, &told, mass),
        engine: engine(chance, (told.charged, told.rated_speed)),
        harm: Harm::default(),
    };
    Drawing {
        craft,
        told,
        matched: chance.normal(0.995, 0.015),
        stronger: chance.normal(1.0, 0.06),
    }
}
