//! The run from rest step by step, with what turns: the inertia that the balance at every speed leaves out.

use std::cell::RefCell;

use differential_equations::prelude::{
    CrossingDirection, Event, EventConfig, ExplicitRungeKutta, IVP, ODE,
};

use crate::Error;
use crate::craft::{Conditions, Craft};
use crate::error::within;
use crate::matching::{Station, guess};

/// A throttle and what turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Launch {
    /// Inertia of engine and impeller at the engine's shaft, `kg m²`; 0 where they follow at once.
    pub inertia: f64,
    /// Engine speed before the throttle opens, `rad/s`.
    pub idle: f64,
    /// Time the throttle takes to open, `s`.
    pub opens: f64,
}

impl Launch {
    /// A throttle that is open, and an engine that follows at once.
    pub const AT_ONCE: Self = Self {
        inertia: 0.0,
        idle: 0.0,
        opens: 0.0,
    };
}

/// A moment of the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Time since the throttle began to open, `s`.
    pub time: f64,
    /// Distance since, `m`.
    pub distance: f64,
    /// Speed, `m/s`.
    pub speed: f64,
    /// Engine speed, `rad/s`.
    pub engine: f64,
}

/// Distance, speed, engine speed.
type State = [f64; 3];

const RELATIVE: f64 = 1e-8;
/// The moment is where the speed is met so closely, `m/s`; a step is a hundred times longer.
const FOUND: f64 = 1e-4;
const ABSOLUTE: f64 = 1e-8;
/// Where the engine leaves its limiter the forces have a corner, which a long step would be bent by, `s`.
const LONGEST: f64 = 0.02;
/// Over this share above the limiter the torque fades to nothing: assumed, no source.
const CUT: f64 = 0.005;

struct Motion<'a> {
    craft: &'a Craft,
    day: &'a Conditions,
    launch: Launch,
    /// The first balance that had no solution.
    failed: RefCell<Option<Error>>,
}

impl Motion<'_> {
    fn rates(&self, time: f64, [_, speed, engine]: State) -> Result<State, Error> {
        let station = Station::new(self.craft, self.day, speed.max(0.0));
        let [at, flow] = guess(self.craft);
        let (point, spin) = if self.launch.inertia > 0.0 {
            // A trial step may overshoot below rest.
            let engine = engine.max(0.5 * self.launch.idle);
            let point = station.at(engine, flow * engine / at)?;
            let open = if self.launch.opens > 0.0 {
                (time / self.launch.opens).clamp(0.0, 1.0)
            } else {
                1.0
            };
            let least = self.craft.engine.least();
            let limiter = self.craft.engine.limiter;
            let over = ((engine / limiter - 1.0) / CUT).clamp(0.0, 1.0);
            let given = self.craft.torque(self.day, engine.clamp(least, limiter));
            let spin = (open * (1.0 - over) * given - point.power / engine) / self.launch.inertia;
            // Throttled below its idle an engine idles.
            let stalls = engine <= self.launch.idle && spin < 0.0;
            (point, if stalls { 0.0 } else { spin })
        } else {
            (station.full([at, flow])?, 0.0)
        };
        let force = point.thrust - self.craft.resistance(self.day, speed.max(0.0));
        let force = if speed <= 0.0 { force.max(0.0) } else { force };
        Ok([speed, force / self.craft.inertia(), spin])
    }
}

impl ODE<f64, State> for Motion<'_> {
    fn diff(&self, time: f64, state: &State, rates: &mut State) {
        *rates = self.rates(time, *state).unwrap_or_else(|error| {
            self.failed.borrow_mut().get_or_insert(error);
            [0.0; 3]
        });
    }
}

/// The moment a speed is passed.
struct Reached(f64);

impl Event<f64, State> for Reached {
    fn config(&self) -> EventConfig {
        EventConfig::new(CrossingDirection::Positive, Some(1))
    }

    fn event(&self, _: f64, state: &State) -> f64 {
        state[1] - self.0
    }
}

/// Runs a craft up from rest by an embedded Runge-Kutta method of order 8.
///
/// `m (1 + k_a) dV/dt = T − R`, `I dn/dt = theta(t) tau_e(n) − tau_p(n, V)`; without inertia `tau_e = tau_p`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as fitted, on that day |  |
/// | `day` | as fitted, on that day |  |
/// | `launch` | `I`, idle, the opening of the throttle `theta` |  |
/// | `until` | how long | `s` |
/// | `returns` | moments 0.1 s apart |  |
///
/// Range: up to 120 s; below its curve the engine gives the torque of the curve's first point.
/// Source: definition.
///
/// # Errors
/// A time outside that range; no balance on the way.
pub fn surge(
    craft: &Craft,
    day: &Conditions,
    launch: Launch,
    until: f64,
) -> Result<Vec<Moment>, Error> {
    within("time of the run", until, 0.1, 120.0)?;
    let motion = motion(craft, day, launch)?;
    let solution = IVP::ode(&motion, 0.0, until, [0.0, 0.0, launch.idle])
        .even(0.1)
        .method(
            ExplicitRungeKutta::dop853()
                .rtol(RELATIVE)
                .atol(ABSOLUTE)
                .h_max(LONGEST),
        )
        .solve();
    let solution = finished(&motion, solution)?;
    solution
        .into_iter()
        .map(|(time, state)| moment(&motion, time, state))
        .collect()
}

/// The moment a speed is reached, by the same run; none within a minute.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as [`surge`] |  |
/// | `day` | as [`surge`] |  |
/// | `launch` | as [`surge`] |  |
/// | `speed` | the speed | `m/s` |
/// | `returns` | the moment |  |
///
/// Range: as [`surge`].
/// Source: definition.
///
/// # Errors
/// As [`surge`].
pub fn reached(
    craft: &Craft,
    day: &Conditions,
    launch: Launch,
    speed: f64,
) -> Result<Option<Moment>, Error> {
    let motion = motion(craft, day, launch)?;
    let event = Reached(speed);
    let solution = IVP::ode(&motion, 0.0, 60.0, [0.0, 0.0, launch.idle])
        .event(&event)
        .method(
            ExplicitRungeKutta::dop853()
                .rtol(RELATIVE)
                .atol(ABSOLUTE)
                .h_max(LONGEST),
        )
        .solve();
    let passed = finished(&motion, solution)?.into_iter();
    let mut passed = passed.filter(|(_, state)| (state[1] - speed).abs() < FOUND);
    passed
        .next()
        .map(|(time, state)| moment(&motion, time, state))
        .transpose()
}

fn motion<'a>(craft: &'a Craft, day: &'a Conditions, launch: Launch) -> Result<Motion<'a>, Error> {
    craft.check()?;
    within("inertia", launch.inertia, 0.0, 10.0)?;
    if launch.inertia > 0.0 {
        within("idle speed", launch.idle, 10.0, craft.engine.limiter)?;
    }
    Ok(Motion {
        craft,
        day,
        launch,
        failed: RefCell::new(None),
    })
}

type Solved<E> = Result<differential_equations::solution::Solution<f64, State>, E>;

fn finished<E>(motion: &Motion<'_>, solution: Solved<E>) -> Result<Vec<(f64, State)>, Error> {
    if let Some(error) = motion.failed.borrow_mut().take() {
        return Err(error);
    }
    let unsteady = |_| Error::NoBalance {
        what: "step of the run from rest",
        low: 0.0,
        high: 0.0,
    };
    let solution = solution.map_err(unsteady)?;
    Ok(solution.t.into_iter().zip(solution.y).collect())
}

fn moment(
    motion: &Motion<'_>,
    time: f64,
    [distance, speed, engine]: State,
) -> Result<Moment, Error> {
    let engine = if motion.launch.inertia > 0.0 {
        engine
    } else {
        let station = Station::new(motion.craft, motion.day, speed.max(0.0));
        station.full(guess(motion.craft))?.engine
    };
    Ok(Moment {
        time,
        distance,
        speed,
        engine,
    })
}
