//! Where engine and pump meet at one speed of the craft.

use crate::Error;
use crate::breakdown::{Suction, suction_energy};
use crate::craft::{Conditions, Craft, MECHANICAL};
use crate::jet::Duct;
use crate::pump::{Characteristic, gap_factors};
use crate::unknown::Unknown;

/// What holds the engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// The pump asks for all it gives.
    Pump,
    /// Its limiter: the pump asks for less.
    Limiter,
}

/// Engine, pump and jet at one speed of the craft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Speed of the craft, `m/s`.
    pub speed: f64,
    /// Speed of the engine, `rad/s`.
    pub engine: f64,
    /// Speed of the impeller, `rad/s`.
    pub shaft: f64,
    /// Flow, `m³/s`.
    pub flow: f64,
    /// Thrust, `N`.
    pub thrust: f64,
    /// Power into the pump's shaft, `W`.
    pub power: f64,
    /// Share of the head that breakdown leaves.
    pub head_left: f64,
    /// Suction specific speed over that of breakdown.
    pub suction: f64,
    /// What holds the engine.
    pub held: Held,
}

/// A craft on a day at one speed, all that does not change with the shaft's speed reckoned once.
pub(crate) struct Station<'a> {
    craft: &'a Craft,
    day: &'a Conditions,
    speed: f64,
    pump: Characteristic,
    duct: Duct,
    suction: Suction,
    /// What gap and ills leave of head, and of work over efficiency.
    left: [f64; 2],
    density: f64,
    turns: f64,
}

/// Suction a pump needs more for every blade height of gap: 5 % for a hundredth, by the order of
/// doi 10.1177/1687814017696227.
const GAP_SUCTION: f64 = 5.0;
const ROUNDS: usize = 60;
const CLOSE: f64 = 1e-10;

impl<'a> Station<'a> {
    pub(crate) fn new(craft: &'a Craft, day: &'a Conditions, speed: f64) -> Self {
        let losses = craft.losses();
        let duct = craft.duct();
        let slopes = [Unknown::GapHead, Unknown::GapEfficiency].map(|of| craft.unknowns[of]);
        let more = craft.pump.gap_more();
        let [head, efficiency] = gap_factors(more, slopes);
        let over_boiling = (day.pressure - day.water.vapour_pressure) / day.water.density;
        let energy =
            suction_energy(over_boiling, duct.ram(speed), 0.0) / (1.0 + GAP_SUCTION * more);
        let [air, aired] = craft.aired(speed);
        let head = head * (1.0 - craft.ills.head) * aired;
        let efficiency =
            efficiency * (1.0 - craft.ills.efficiency) * craft.unknowns[Unknown::Efficiency];
        Self {
            craft,
            day,
            speed,
            pump: craft.pump.characteristic(&losses),
            duct,
            suction: Suction::new(energy, craft.breaks()),
            left: [head, head / (efficiency * MECHANICAL)],
            density: day.water.density * (1.0 - air),
            turns: craft.pump.ratio * (1.0 - craft.ills.slip),
        }
    }

    /// The flow at a shaft speed: `B(S) k gH(Q) = gH_R(Q)`, the left falling and the right rising.
    fn flow(&self, shaft: f64, near: f64) -> Result<f64, Error> {
        let [c0, c1, c2] = self.pump.head;
        let (mut low, mut high) = (0.0, f64::INFINITY);
        let mut flow = near;
        for _ in 0..ROUNDS {
            let head = shaft * shaft * c0 + (shaft * c1 + c2 * flow) * flow;
            let slope = shaft * c1 + 2.0 * c2 * flow;
            let [left, falls] = self.suction.head(shaft, flow);
            let surplus = self.left[0] * left * head - self.duct.head(flow, self.speed);
            if surplus > 0.0 {
                low = flow;
            } else {
                high = flow;
            }
            let asked = self.duct.rises(flow, self.speed);
            let steep = self.left[0] * (falls * head + left * slope) - asked;
            let mut next = flow - surplus / steep;
            if !(next > low && next < high) {
                next = if high.is_finite() {
                    f64::midpoint(low, high)
                } else {
                    2.0 * low.max(near)
                };
            }
            if (next - flow).abs() <= CLOSE * flow {
                return Ok(next);
            }
            flow = next;
        }
        Err(Error::NoBalance {
            what: "head of the pump and of the jet",
            low,
            high,
        })
    }

    /// The torque the pump asks of the engine, and its flow.
    fn asks(&self, engine: f64, near: f64) -> Result<[f64; 2], Error> {
        let shaft = engine * self.turns;
        let flow = self.flow(shaft, near)?;
        Ok([
            self.power(shaft, flow) / shaft * self.craft.pump.ratio,
            flow,
        ])
    }

    fn power(&self, shaft: f64, flow: f64) -> f64 {
        let [energy, falls] = self.pump.work;
        let work = shaft * (shaft * energy - falls * flow);
        let [left, _] = self.suction.head(shaft, flow);
        self.density * flow * work * self.left[1] * Suction::power(left)
    }

    /// The point at an engine speed that is held there.
    pub(crate) fn at(&self, engine: f64, near: f64) -> Result<Point, Error> {
        let shaft = engine * self.turns;
        let flow = self.flow(shaft, near)?;
        Ok(self.point(engine, flow, Held::Pump))
    }

    fn point(&self, engine: f64, flow: f64, held: Held) -> Point {
        let shaft = engine * self.turns;
        let thrust = self.duct.thrust(self.density, flow, self.speed);
        Point {
            speed: self.speed,
            engine,
            shaft,
            flow,
            thrust: thrust * (1.0 - self.craft.ills.jet),
            power: self.power(shaft, flow),
            head_left: self.suction.head(shaft, flow)[0],
            suction: self.suction.over(shaft, flow),
            held,
        }
    }

    /// Full throttle, searched from a guess of engine speed and flow.
    pub(crate) fn full(&self, near: [f64; 2]) -> Result<Point, Error> {
        let limiter = self.craft.engine.limiter;
        let least = self.craft.engine.least().max(0.2 * limiter);
        let [mut engine, mut flow] = near;
        let (mut low, mut high) = (least, limiter);
        let mut before: Option<[f64; 2]> = None;
        for _ in 0..ROUNDS {
            let [asked, through] = self.asks(engine, flow)?;
            flow = through;
            let given = self.craft.torque(self.day, engine);
            let surplus = given - asked;
            if surplus > 0.0 {
                if engine >= limiter {
                    return Ok(self.point(engine, flow, Held::Limiter));
                }
                low = engine;
            } else {
                if engine <= least {
                    break;
                }
                high = engine;
            }
            // What the pump asks for goes about with the square of the speed.
            let steep = match before {
                Some([at, was]) if (at - engine).abs() > f64::EPSILON * engine => {
                    (surplus - was) / (engine - at)
                }
                _ => -2.0 * asked / engine,
            };
            before = Some([engine, surplus]);
            let mut next = engine - surplus / steep;
            if surplus > 0.0 && next >= limiter {
                next = limiter;
            } else if surplus <= 0.0 && next <= least {
                next = least;
            } else if !(next > low && next < high) {
                next = f64::midpoint(low, high);
            }
            if (next - engine).abs() <= CLOSE * engine || high - low <= CLOSE * high {
                flow += (next - engine) * flow / engine;
                return Ok(self.point(next, flow, Held::Pump));
            }
            flow *= next / engine;
            engine = next;
        }
        Err(Error::NoBalance {
            what: "torque of the engine and of the pump",
            low: least,
            high: limiter,
        })
    }
}

/// Where to begin when nothing is known.
pub(crate) fn guess(craft: &Craft) -> [f64; 2] {
    let engine = 0.95 * craft.engine.limiter;
    let tip = 0.5 * engine * craft.pump.ratio * craft.pump.diameter;
    [engine, 0.6 * tip * crate::jet::bore_area(craft.nozzle)]
}

/// Full throttle at one speed of the craft.
///
/// `tau_e(n) = tau_p(n, V)`, or the limiter where the pump asks for less there;
/// `tau_p = rho Q gH_E k_psi B^0.7 / (eta_m k_eta Om)` at the flow where `B k_psi gH = gH_R`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as it is fitted |  |
/// | `day` | water, air |  |
/// | `speed` | of the craft, 0 to 45 | `m/s` |
/// | `returns` | engine, flow, thrust, power, what is left by breakdown |  |
///
/// Range: engine speeds its torque is known at.
/// Source: definition.
///
/// # Errors
/// No balance below the limiter and above the least speed of the engine's curve.
pub fn full_throttle(craft: &Craft, day: &Conditions, speed: f64) -> Result<Point, Error> {
    Station::new(craft, day, speed).full(guess(craft))
}

/// The same from the point at another speed nearby, quicker.
///
/// As [`full_throttle`].
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as there |  |
/// | `day` | as there |  |
/// | `speed` | of the craft | `m/s` |
/// | `near` | a point not far away |  |
/// | `returns` | the point |  |
///
/// Range: as there.
/// Source: definition.
///
/// # Errors
/// As there.
pub fn full_throttle_near(
    craft: &Craft,
    day: &Conditions,
    speed: f64,
    near: &Point,
) -> Result<Point, Error> {
    Station::new(craft, day, speed).full([near.engine, near.flow])
}

/// Part throttle: the engine is held at a speed, whatever torque that takes.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as [`full_throttle`] |  |
/// | `day` | as [`full_throttle`] |  |
/// | `speed` | of the craft, 0 where it is tied up | `m/s` |
/// | `engine` | the engine's speed | `rad/s` |
/// | `returns` | the point |  |
///
/// Range: up to the limiter.
/// Source: definition.
///
/// # Errors
/// No flow in balance; an engine speed beyond the limiter.
pub fn part_throttle(
    craft: &Craft,
    day: &Conditions,
    speed: f64,
    engine: f64,
) -> Result<Point, Error> {
    crate::error::within("engine speed", engine, 1.0, craft.engine.limiter)?;
    let [full, flow] = guess(craft);
    Station::new(craft, day, speed).at(engine, flow * engine / full)
}
