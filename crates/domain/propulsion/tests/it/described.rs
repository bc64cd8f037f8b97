//! An invented craft as a person would describe it, and its log as a water test takes it.

use propulsion::calibrate::{Evidence, Plateau, Reading, Start};
use propulsion::craft::{Conditions, Craft, Ills};
use propulsion::drag::Drag;
use propulsion::engine::{Breathing, Engine};
use propulsion::hull::{Hull, resistance};
use propulsion::pump::{Blades, Pump};
use propulsion::unknown::Unknowns;
use propulsion::water::Water;

use crate::truth::{Drawn, Told};

/// The craft as a person would describe it.
pub(crate) fn described(told: &Told) -> (Craft, Conditions) {
    let water = Water {
        density: told.water.density,
        viscosity: told.water.viscosity,
        vapour_pressure: told.water.vapour_pressure,
    };
    let day = Conditions {
        water,
        pressure: told.water.air_pressure,
        ..Conditions::fresh()
    };
    let hull = Hull::typical(told.length, told.beam, told.deadrise).unwrap();
    let breathing = if told.charged {
        Breathing::Plateau
    } else {
        Breathing::Free
    };
    let limiter = told.limiter.max(told.rated_speed);
    let craft = Craft {
        pump: Pump {
            diameter: told.diameter,
            hub: told.hub,
            blades: Blades {
                leading: told.leading,
                trailing: told.trailing.max(told.leading),
                solidity: told.solidity.unwrap_or(1.3),
            },
            gap: told.gap,
            gap_known: told.gap,
            leading_known: told.leading,
            ratio: 1.0,
        },
        nozzle: told.nozzle,
        engine: Engine::rated(told.rated_power, told.rated_speed, limiter, breathing).unwrap(),
        drag: Drag::new(told.mass, |mass, speed| {
            Ok(resistance(&hull, mass, speed, &water)?.force)
        })
        .unwrap(),
        mass: told.mass,
        ills: Ills::NONE,
        unknowns: Unknowns::expected(),
    };
    (craft, day)
}

/// The log as the runs of a water test would be taken from it.
pub(crate) fn seen(drawn: &Drawn) -> Evidence {
    let log = drawn.log();
    let moved = log.iter().rposition(|reading| reading.speed < 1.0).unwrap();
    let begin = log[moved].time;
    let readings = log[moved..].iter().map(|reading| Reading {
        time: reading.time - begin,
        speed: reading.speed,
        engine: Some(reading.engine),
    });
    let end = &log[log.len() - 50..];
    let count = f64::from(u32::try_from(end.len()).unwrap());
    let mean = |of: fn(&crate::truth::Reading) -> f64| end.iter().map(of).sum::<f64>() / count;
    Evidence {
        starts: vec![Start {
            readings: readings.collect(),
        }],
        plateaus: vec![Plateau {
            speed: Some([mean(|reading| reading.speed), 0.25]),
            engine: Some([mean(|reading| reading.engine), 3.0]),
        }],
        ..Evidence::default()
    }
}
