//! Invented craft whose physics is of other forms than this crate's: what a calibration is judged against.
//!
//! Nothing here comes from the crate under test. The rotor is cut into strips of unequal axial velocity;
//! deviation follows Carter with a slope in incidence; shock is one-sided and of a broken power; the
//! stator's loss goes with the swirl angle; the gap acts by a power of gap and lift and by turning missed;
//! breakdown goes by what the blade needs over what there is, and takes work and head apart; air in the
//! intake dies away with speed; the intake loses by its velocity ratio and swallows a boundary layer; the
//! hull is flat-plate friction on a shrinking area, `W²/q`, a lopsided hump and spray; the engine's curve
//! is wavy and its limiter soft; the shaft has inertia and the throttle takes time.
//! Forms and coefficients: from memory and common practice, no source; all craft are invented.
//!
//! The tests of other crates include it by its path, so it stands alone; what must hold of it is in `truth_laws`.

pub(crate) mod chance;
pub(crate) mod craft;
mod draw;
pub(crate) mod faults;
pub(crate) mod outing;
mod pump;
pub(crate) mod signs;

use chance::{Chance, Wander};
use craft::{Craft, Rig, STEP, State};
use std::f64::consts::PI;

/// 30 and 50 miles an hour, `m/s`.
pub(crate) const THIRTY: f64 = 13.4112;
pub(crate) const FIFTY: f64 = 22.352;

/// Revolutions a minute as `rad/s`.
pub(crate) fn turns(per_minute: f64) -> f64 {
    per_minute * PI / 30.0
}

/// The water the log was taken in, known well enough to count as exact.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Water {
    /// `K`.
    pub(crate) temperature: f64,
    /// Salt over the whole by mass, `kg/kg`.
    pub(crate) salinity: f64,
    /// `kg/m³`.
    pub(crate) density: f64,
    /// Kinematic, `m²/s`.
    pub(crate) viscosity: f64,
    /// `Pa`.
    pub(crate) vapour_pressure: f64,
    /// Of the air at the water, `Pa`.
    pub(crate) air_pressure: f64,
}

/// What a person types: measured, so a little wrong. A `_sd` is that of the error.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Told {
    /// Of the impeller, `m`; exact.
    pub(crate) diameter: f64,
    /// Hub over tip, off by 0.005 or so.
    pub(crate) hub: f64,
    /// Blade angles at the tip from the plane of rotation, `rad`.
    pub(crate) leading: f64,
    /// At the trailing edge.
    pub(crate) trailing: f64,
    /// Of each angle on its own.
    pub(crate) angle_sd: f64,
    /// How many; the truth knows only the solidity.
    pub(crate) blades: u32,
    /// Blades times chord over circumference at the tip, off by 0.05 or so; every other person knows it.
    pub(crate) solidity: Option<f64>,
    /// Bore, `m`.
    pub(crate) nozzle: f64,
    pub(crate) nozzle_sd: f64,
    /// Radial, `m`.
    pub(crate) gap: f64,
    pub(crate) gap_sd: f64,
    /// Whether the engine is blown.
    pub(crate) charged: bool,
    /// What the maker says, `W` at `rad/s`; the engine differs by 6 % (sd).
    pub(crate) rated_power: f64,
    pub(crate) rated_speed: f64,
    /// Where the maker cuts the engine, `rad/s`, to 50 a minute; the cut is soft and 20 a minute (sd) off.
    pub(crate) limiter: f64,
    /// All that moves, `kg`: craft, fuel and whoever rides.
    pub(crate) mass: f64,
    pub(crate) mass_sd: f64,
    /// `m`.
    pub(crate) length: f64,
    /// At the chine, `m`.
    pub(crate) beam: f64,
    /// `rad`.
    pub(crate) deadrise: f64,
    pub(crate) water: Water,
}

/// One line of the log.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Reading {
    /// Of the logger, `s`.
    pub(crate) time: f64,
    /// Over ground by satellite, late and noisy, `m/s`.
    pub(crate) speed: f64,
    /// Noisy, `rad/s`.
    pub(crate) engine: f64,
}

/// What is changed, everything else being as in the log.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Swap {
    None,
    /// Both edges one degree steeper at the tip.
    Steeper,
    /// Both edges one degree flatter.
    Flatter,
    /// The trailing edge alone one degree steeper.
    TrailingOnly,
    /// Bore one millimetre wider.
    NozzleWider,
    /// Bore one millimetre narrower.
    NozzleNarrower,
    /// Radial gap of 0.15 mm, whatever it was.
    GapRenewed,
}

impl Swap {
    pub(crate) const ALL: [Self; 7] = [
        Self::None,
        Self::Steeper,
        Self::Flatter,
        Self::TrailingOnly,
        Self::NozzleWider,
        Self::NozzleNarrower,
        Self::GapRenewed,
    ];
}

/// Without noise, wind or current. Times count from when the throttle begins to open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Outcome {
    /// Steady, `m/s`.
    pub(crate) top_speed: f64,
    /// Engine speed there, `rad/s`.
    pub(crate) top_engine: f64,
    /// `s` to 13.4112 m/s, if reached within 25 s.
    pub(crate) to_30_mph: Option<f64>,
    /// `s` to 22.352 m/s, if reached within 25 s.
    pub(crate) to_50_mph: Option<f64>,
    /// Engine speed one second after the throttle began to open, `rad/s`.
    pub(crate) engine_at_launch: f64,
    /// Greatest in the run, `m/s²`.
    pub(crate) peak_acceleration: f64,
}

/// Why a drawn craft is no craft anyone would own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Thrown {
    /// Leading angle outside 11 to 17 degrees, bore outside 80 to 90 mm, or power outside 60 to 230 kW.
    Unlikely,
    /// No speed at which thrust and resistance meet, or below 16 or above 38 m/s.
    Speed,
    /// Engine at top speed below 0.95 or above 1.03 of rated, or held by the limiter.
    Match,
    /// Does not come within 3 % of its top speed in 25 s from rest.
    Stuck,
    /// Thrust at rest below 0.25 of the weight, or peak acceleration below 0.25 or above 0.80 of gravity.
    Launch,
    /// After one of the swaps thrust less resistance falls below a twentieth of the weight somewhere up to 12 m/s.
    Fragile,
}

/// A craft: what is told of it, and what it is.
#[derive(Clone, Debug)]
pub(crate) struct Drawn {
    pub(crate) told: Told,
    /// What was drawn and thrown away before it, in order.
    pub(crate) thrown: Vec<Thrown>,
    pub(crate) craft: Craft,
    seed: u64,
    stream: u64,
}

/// Craft of a number: alone in its stream, so that none depends on how many are drawn.
/// Attempt follows attempt, each in its own stream, until one is kept.
pub(crate) fn draw(seed: u64, number: u64) -> Drawn {
    let mut thrown = Vec::new();
    for attempt in 0.. {
        let stream = number << 20 | attempt << 1;
        match attempted(&mut Chance::new(seed, stream)) {
            Ok((told, craft)) => {
                return Drawn {
                    told,
                    thrown,
                    craft,
                    seed,
                    stream,
                };
            }
            Err(why) => thrown.push(why),
        }
    }
    unreachable!("attempts do not end")
}

/// The engine is chosen as a maker would: for the pump and the hull, near its rated speed at top speed.
fn attempted(chance: &mut Chance) -> Result<(Told, Craft), Thrown> {
    let draw::Drawing {
        mut craft,
        mut told,
        matched,
        stronger,
    } = draw::drawing(chance);
    let degrees = craft.pump.leading.to_degrees();
    if !(11.0..=17.0).contains(&degrees) || !(0.080..=0.090).contains(&craft.nozzle) {
        return Err(Thrown::Unlikely);
    }
    let shaft = matched * told.rated_speed;
    let rig = craft.rig();
    let left = |speed: f64| rig.excess(shaft, speed);
    let speed = chance::root((12.0, 45.0), left).ok_or(Thrown::Speed)?;
    if !(16.0..=38.0).contains(&speed) {
        return Err(Thrown::Speed);
    }
    let asked = rig.point(shaft, speed, None).torque;
    let engine = &mut craft.engine;
    engine.torque = (asked + engine.drive.1) / (1.0 - engine.drive.0) / engine.torque(shaft);
    let power = engine.torque * engine.rated / stronger;
    if !(60e3..=230e3).contains(&power) {
        return Err(Thrown::Unlikely);
    }
    told.rated_power = (power / 500.0).round() * 500.0;
    told.limiter = turns((engine.limiter / turns(50.0)).round() * 50.0);
    let cut = (shaft - engine.limiter) / engine.softness;
    if !(0.95..=1.03).contains(&matched) || cut > -3.0 {
        return Err(Thrown::Match);
    }
    let weight = craft.hull.mass * craft::GRAVITY;
    let rig = craft.rig();
    let at_rest = rig
        .settled(0.0)
        .map(|shaft| rig.point(shaft, 0.0, None).thrust);
    if at_rest.is_none_or(|thrust| thrust < 0.25 * weight) {
        return Err(Thrown::Launch);
    }
    let states = rig.run(RUN, |_| false);
    if states.last().is_none_or(|last| last.speed < 0.97 * speed) {
        return Err(Thrown::Stuck);
    }
    if !(0.25..=0.80).contains(&(peak(&states) / craft::GRAVITY)) {
        return Err(Thrown::Launch);
    }
    if Swap::ALL
        .into_iter()
        .any(|swap| fragile(&swapped(&craft, swap)))
    {
        return Err(Thrown::Fragile);
    }
    Ok((told, craft))
}

fn fragile(craft: &Craft) -> bool {
    let rig = craft.rig();
    let left = |speed: f64| rig.settled(speed).map(|shaft| rig.excess(shaft, speed));
    let least = 0.05 * craft.hull.mass * craft::GRAVITY;
    [0.0, 3.0, 6.0, 9.0, 12.0]
        .into_iter()
        .any(|speed| left(speed).is_none_or(|left| left < least))
}

/// The craft after a swap.
pub(crate) fn swapped(craft: &Craft, swap: Swap) -> Craft {
    let mut craft = craft.clone();
    let degree = 1_f64.to_radians();
    let (leading, trailing) = match swap {
        Swap::Steeper => (degree, degree),
        Swap::Flatter => (-degree, -degree),
        Swap::TrailingOnly => (0.0, degree),
        _ => (0.0, 0.0),
    };
    craft.pump.leading += leading;
    craft.pump.trailing += trailing;
    match swap {
        Swap::NozzleWider => craft.nozzle += 1e-3,
        Swap::NozzleNarrower => craft.nozzle -= 1e-3,
        Swap::GapRenewed => craft.pump.gap = 0.15e-3,
        _ => {}
    }
    craft
}

/// Steps of 25 s.
pub(crate) const RUN: u32 = 1250;
/// The step at 1 s.
const LAUNCH: usize = 50;

fn peak(states: &[State]) -> f64 {
    states
        .iter()
        .map(|state| state.acceleration)
        .fold(0.0, f64::max)
}

/// When, or at which shaft speed, a run passes a speed.
pub(crate) fn passed(states: &[State], speed: f64, what: impl Fn(&State) -> f64) -> Option<f64> {
    let i = states.iter().position(|state| state.speed >= speed)?;
    let (before, after) = (states[i.checked_sub(1)?], states[i]);
    let share = (speed - before.speed) / (after.speed - before.speed);
    Some(what(&before) + share * (what(&after) - what(&before)))
}

impl Drawn {
    /// What the craft does after a swap.
    pub(crate) fn outcome(&self, swap: Swap) -> Outcome {
        let craft = swapped(&self.craft, swap);
        let rig = craft.rig();
        // What follows 50 miles an hour, or comes when nothing changes any more, is solved for.
        let states = rig.run(RUN, |state| {
            state.speed >= FIFTY || (state.time > 5.0 && state.acceleration < 0.02)
        });
        let last = states[states.len() - 1];
        let (top_speed, top_engine) = rig
            .top(last.speed)
            .expect("a craft that was kept has a top speed");
        Outcome {
            top_speed,
            top_engine,
            to_30_mph: passed(&states, THIRTY, |state| state.time),
            to_50_mph: passed(&states, FIFTY, |state| state.time),
            engine_at_launch: states[LAUNCH].shaft,
            peak_acceleration: peak(&states),
        }
    }

    /// One run from rest at full throttle, 10 readings a second over 22 s.
    ///
    /// The logger starts up to 0.6 s before the throttle. Speed comes 0.1 to 0.5 s late with noise of
    /// 0.1 to 0.15 m/s, engine speed at once with noise of 20 to 40 a minute, both correlated over five
    /// samples. A wind of 1 m/s (sd) and a current of 0.1 m/s (sd) remain.
    pub(crate) fn log(&self) -> Vec<Reading> {
        let chance = &mut Chance::new(self.seed, self.stream | 1);
        let wind = chance.normal(0.0, 1.0);
        let current = chance.normal(0.0, 0.1);
        let start = chance.within(0.0, 0.6);
        let late = chance.within(0.1, 0.5);
        let noise = chance.within(0.10, 0.15);
        let mut of_speed = Wander::new(chance, noise, 5.0);
        let noise = turns(chance.within(20.0, 40.0));
        let mut of_engine = Wander::new(chance, noise, 5.0);
        let states = self.craft.rig().against(wind).run(RUN, |_| false);
        let at = |time: f64, what: fn(&State) -> f64| {
            let next = states
                .iter()
                .position(|state| state.time > time)
                .unwrap_or(states.len() - 1);
            let Some(i) = next.checked_sub(1).filter(|_| time > 0.0) else {
                return what(&states[0]);
            };
            let share = (time - states[i].time) / STEP;
            what(&states[i]) + share * (what(&states[i + 1]) - what(&states[i]))
        };
        (0..=220)
            .map(|i| {
                let time = f64::from(i) / 10.0;
                let speed =
                    at(time - start - late, |state| state.speed) + current + of_speed.next(chance);
                let engine = at(time - start, |state| state.shaft) + of_engine.next(chance);
                Reading {
                    time,
                    speed: speed.abs(),
                    engine,
                }
            })
            .collect()
    }

    pub(crate) fn rig(&self) -> Rig<'_> {
        self.craft.rig()
    }
}
