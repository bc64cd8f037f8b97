//! A day on the water, and what a careful person brings home from it.

use super::chance::Chance;
use super::craft::Craft;
use super::faults::Wrong;
use super::{Drawn, FIFTY, THIRTY, passed, turns};

/// Measured; nothing where the craft does not plane that day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Outing {
    /// `m/s`.
    pub(crate) top_speed: Option<f64>,
    /// Of the engine there, `rad/s`.
    pub(crate) top_engine: Option<f64>,
    /// `s` from when the throttle begins to open, if within 40 s.
    pub(crate) to_30_mph: Option<f64>,
    pub(crate) to_50_mph: Option<f64>,
    /// Of the engine as the craft passes 3 m/s, `rad/s`.
    pub(crate) launch_engine: Option<f64>,
    /// As the craft passes 20, 30 and 40 mph at full throttle.
    pub(crate) passing_engine: [Option<f64>; 3],
}

/// Steps of 20 ms up to 1.6 s and of 100 ms up to 40 s.
const LONG: u32 = 464;
const STRETCH: f64 = 5.0;
/// Speed at which the engine is read as it pulls away, `m/s`.
const AWAY: f64 = 3.0;
/// 20 and 40 miles an hour.
pub(crate) const TWENTY: f64 = 8.9408;
pub(crate) const FORTY: f64 = 17.8816;

/// Streams of what is drawn beside the craft; attempts and numbers lie below.
const BESIDE: u32 = 57;
const DAY: u64 = 40;

impl Drawn {
    /// What is drawn for this craft and a purpose, another for each seed.
    pub(crate) fn beside(&self, purpose: u64, seed: u64) -> Chance {
        let seed = self.seed ^ seed.wrapping_mul(0xd6e8_feb8_6659_fd93);
        Chance::new(seed, self.stream | purpose << BESIDE)
    }

    /// The craft with all that is wrong with it; its sizes are its own, whatever the severity.
    pub(crate) fn harmed(&self, wrong: &[(Wrong, f64)]) -> Craft {
        wrong
            .iter()
            .fold(self.craft.clone(), |craft, &(wrong, severity)| {
                craft.harmed(wrong, severity, &mut self.beside(wrong.number(), 0))
            })
    }

    /// A day with its own load, wind, air and water, and the noise of what is read; seed 0 has none of it.
    ///
    /// Load 8 kg, wind left over 0.4 m/s, air and power 1 % each, speed 0.15 m/s, engine 25 a minute, 80
    /// while pulling away, 50 as it passes a speed, times 0.12 s and 2 % (all sd).
    pub(crate) fn outing(&self, wrong: &[(Wrong, f64)], seed: u64) -> Outing {
        self.day(wrong, seed, [1.0; 2])
    }

    /// The same by the means of four runs and three starts: what is read scatters less, the day does not.
    pub(crate) fn trial(&self, wrong: &[(Wrong, f64)], seed: u64) -> Outing {
        self.day(wrong, seed, [0.5, 3_f64.sqrt().recip()])
    }

    fn day(&self, wrong: &[(Wrong, f64)], seed: u64, [run, start]: [f64; 2]) -> Outing {
        let mut chance = self.beside(DAY, seed);
        let mut normal = |sd: f64| {
            let drawn = chance.normal(0.0, sd);
            if seed == 0 { 0.0 } else { drawn }
        };
        let mut craft = self.harmed(wrong);
        craft.hull.mass += normal(8.0);
        let wind = normal(0.4);
        craft.hull.air *= 1.0 + normal(0.01);
        craft.engine.torque *= 1.0 + normal(0.01);
        craft.water.density *= 1.0 + normal(0.003);
        craft.water.viscosity *= 1.0 + normal(0.03);
        craft.water.vapour *= 1.0 + normal(0.03);
        craft.water.air *= 1.0 + normal(0.005);
        let mut bare = craft.outing(wind);
        let mut off = |value: &mut Option<f64>, sd: f64, share: f64| {
            let (fixed, growing) = (normal(sd), normal(share));
            *value = value.map(|value| value * (1.0 + growing) + fixed);
        };
        off(&mut bare.top_speed, run * 0.15, 0.0);
        off(&mut bare.top_engine, run * turns(25.0), 0.0);
        off(&mut bare.to_30_mph, start * 0.12, start * 0.02);
        off(&mut bare.to_50_mph, start * 0.12, start * 0.02);
        off(&mut bare.launch_engine, start * turns(80.0), 0.0);
        for engine in &mut bare.passing_engine {
            off(engine, start * turns(50.0), 0.0);
        }
        bare
    }
}

impl Craft {
    /// What there is to measure, against a wind.
    fn outing(&self, wind: f64) -> Outing {
        let rig = self.rig().against(wind).stretched(STRETCH);
        // What comes when little changes any more is solved for.
        let states = rig.run(LONG, |state| {
            state.speed >= FIFTY || (state.time > 5.0 && state.acceleration < 0.01)
        });
        let last = states[states.len() - 1];
        let Some((top_speed, shaft)) = rig.top(last.speed).filter(|top| self.planes(top.0)) else {
            return Outing::default();
        };
        let torque = rig.point(shaft, top_speed, None).torque;
        Outing {
            top_speed: Some(top_speed),
            top_engine: Some(self.engine_speed(shaft, torque)),
            to_30_mph: passed(&states, THIRTY, |state| state.time),
            to_50_mph: passed(&states, FIFTY, |state| state.time),
            launch_engine: passed(&states, AWAY, |state| state.engine),
            passing_engine: [TWENTY, THIRTY, FORTY]
                .map(|speed| passed(&states, speed, |state| state.engine)),
        }
    }
}
