//! Water, intake, hull and engine, and what they settle on.

use super::chance::root;
use super::faults::Harm;
use super::pump::{Cut, Pump, Work};
use std::f64::consts::PI;

pub(crate) const GRAVITY: f64 = 9.80665;
const AIR: f64 = 1.2;

/// The water and the air above it.
#[derive(Clone, Debug)]
pub(crate) struct Surroundings {
    pub(crate) density: f64,
    pub(crate) viscosity: f64,
    pub(crate) vapour: f64,
    pub(crate) air: f64,
}

/// What brings the water to the pump.
#[derive(Clone, Debug)]
pub(crate) struct Intake {
    /// Throat over the annulus of the pump.
    pub(crate) throat: f64,
    /// Losses over `v²/2` of the throat, of what the water slows down by, of what it speeds up by.
    pub(crate) grate: f64,
    pub(crate) slowing: f64,
    pub(crate) lip: f64,
    /// Boundary layer: hull ahead, width captured, exponent, thickness over that of a flat plate.
    pub(crate) ahead: f64,
    pub(crate) width: f64,
    pub(crate) exponent: f64,
    pub(crate) thickness: f64,
    /// Air at rest as a share of the volume; the speed over which it goes; what it loses over the jet's `v²/2`.
    pub(crate) bubbles: f64,
    pub(crate) bubbles_speed: f64,
    pub(crate) bubbles_head: f64,
}

/// Momentum and energy of what is captured over the free stream, and what is lost, `J/kg`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Captured {
    pub(crate) momentum: f64,
    pub(crate) energy: f64,
    pub(crate) loss: f64,
}

/// What the hull asks for.
#[derive(Clone, Debug)]
pub(crate) struct Hull {
    pub(crate) length: f64,
    pub(crate) beam: f64,
    /// All that moves.
    pub(crate) mass: f64,
    /// Wetted at 15 m/s, afloat over that, the exponent by which it shrinks.
    pub(crate) wetted: f64,
    pub(crate) afloat: f64,
    pub(crate) shrinking: f64,
    pub(crate) roughness: f64,
    /// Of the drag of lift, `k W²/(q b²)`, and the Froude number of volume at which lift has come.
    pub(crate) lift: f64,
    pub(crate) lifted: f64,
    /// Height over the weight, Froude number of volume, width in its logarithm below and above.
    pub(crate) hump: (f64, f64, f64, f64),
    /// Spray, strakes, plate: area of drag, `m²`.
    pub(crate) spray: f64,
    pub(crate) air: f64,
    /// Water that moves along, over the mass: planing, and how much more afloat.
    pub(crate) along: (f64, f64),
    /// Thrust deduction planing, and how much more afloat.
    pub(crate) deduction: (f64, f64),
}

/// Full throttle.
#[derive(Clone, Debug)]
pub(crate) struct Engine {
    /// Torque at rated speed, `N·m`; rated speed and limiter, `rad/s`.
    pub(crate) torque: f64,
    pub(crate) rated: f64,
    pub(crate) limiter: f64,
    /// Speed over which the limiter takes hold, `rad/s`.
    pub(crate) softness: f64,
    /// Slope, bend, twist about rated speed, of torque over torque, speed over speed.
    pub(crate) bend: (f64, f64, f64),
    /// Height, waves over the range of speed, phase.
    pub(crate) waves: [(f64, f64, f64); 3],
    /// Share of torque lost, and `N·m` lost whatever the torque.
    pub(crate) drive: (f64, f64),
    /// `kg·m²`.
    pub(crate) inertia: f64,
    /// Time the throttle takes to open, `s`.
    pub(crate) opening: f64,
}

impl Engine {
    fn shape(&self, speed: f64) -> f64 {
        let x = speed / self.rated - 1.0;
        let (slope, bend, twist) = self.bend;
        let smooth = 1.0 + x * (slope + x * (bend + x * twist));
        let waves: f64 = self
            .waves
            .iter()
            .map(|(height, number, phase)| {
                height * ((2.0 * PI * number * x + phase).sin() - phase.sin())
            })
            .sum();
        (smooth + waves).max(0.25)
    }

    /// At the flange, without what the drive loses.
    pub(crate) fn torque(&self, speed: f64) -> f64 {
        let cut = 1.0 / (1.0 + ((speed - self.limiter) / self.softness).exp());
        self.torque * self.shape(speed) * cut
    }
}

impl Hull {
    fn volume_froude(&self, speed: f64, density: f64) -> f64 {
        speed / (GRAVITY * (self.mass / density).cbrt()).sqrt()
    }

    /// How far the craft still floats rather than planes.
    fn floating(&self, froude: f64) -> f64 {
        (-(froude / self.lifted).powi(3)).exp()
    }

    /// Against water and air, with a wind against the course.
    pub(crate) fn resistance(&self, water: &Surroundings, speed: f64, wind: f64) -> f64 {
        let pressure = water.density * speed * speed / 2.0;
        let froude = self.volume_froude(speed, water.density);
        let floating = self.floating(froude);
        let planing = self.wetted * (speed / 15.0).max(0.3).powf(-self.shrinking);
        let wetted = planing + (self.afloat * self.wetted - planing).max(0.0) * floating;
        let reynolds = (speed * self.length * 0.7 / water.viscosity).max(1e5);
        let friction = 0.455 / reynolds.log10().powf(2.58) + self.roughness;
        let weight = self.mass * GRAVITY;
        let lift = if speed > 0.5 {
            let carried = 1.0 - floating;
            self.lift * (weight * carried).powi(2) / (pressure * self.beam * self.beam)
        } else {
            0.0
        };
        let (height, at, below, above) = self.hump;
        let off = (froude.max(0.01) / at).ln();
        let width = if off < 0.0 { below } else { above };
        let hump = height * weight * (-off * off / (2.0 * width * width)).exp();
        let air = AIR / 2.0 * self.air * (speed + wind) * (speed + wind).abs();
        pressure * (wetted * friction + self.spray) + lift + hump + air
    }

    fn moved(&self, water: &Surroundings, speed: f64) -> f64 {
        let floating = self.floating(self.volume_froude(speed, water.density));
        self.mass * (1.0 + self.along.0 + self.along.1 * floating)
    }
}

impl Intake {
    fn captured(&self, water: &Surroundings, speed: f64, (flow, annulus): (f64, f64)) -> Captured {
        let throat = flow / (self.throat * annulus);
        let slower = (speed - throat).max(0.0);
        let faster = (throat - 1.2 * speed).max(0.0);
        let loss = (self.grate * throat * throat
            + self.slowing * slower * slower
            + self.lip * faster * faster)
            / 2.0;
        if speed < 0.2 {
            return Captured {
                momentum: 1.0,
                energy: 1.0,
                loss,
            };
        }
        let reynolds = speed * self.ahead / water.viscosity;
        let layer = self.thickness * 0.37 * self.ahead * reynolds.powf(-0.2);
        let sheet = flow / (speed * self.width);
        let m = self.exponent;
        let (momentum, energy) = if sheet <= layer * m / (m + 1.0) {
            let height = (sheet * (m + 1.0) / (m * layer)).powf(m / (m + 1.0));
            let edge = height.powf(1.0 / m);
            (
                edge * (m + 1.0) / (m + 2.0),
                edge * edge * (m + 1.0) / (m + 3.0),
            )
        } else {
            let outside = sheet + layer / (m + 1.0) - layer;
            (
                (layer * m / (m + 2.0) + outside) / sheet,
                (layer * m / (m + 3.0) + outside) / sheet,
            )
        };
        Captured {
            momentum,
            energy,
            loss,
        }
    }

    fn bubbles(&self, speed: f64) -> f64 {
        self.bubbles * (-(speed / self.bubbles_speed).powf(1.4)).exp()
    }
}

/// The whole craft; `pump` and `nozzle` are what a swap changes.
#[derive(Clone, Debug)]
pub(crate) struct Craft {
    pub(crate) water: Surroundings,
    pub(crate) pump: Pump,
    /// Of the bore, `m`; narrowest jet over it; loss over `v²/2`; share of the jet that points aft.
    pub(crate) nozzle: f64,
    pub(crate) contraction: f64,
    pub(crate) nozzle_loss: f64,
    pub(crate) aft: f64,
    /// Of the jet and of the shaft above the water at rest, `m`.
    pub(crate) height: f64,
    pub(crate) intake: Intake,
    pub(crate) hull: Hull,
    pub(crate) engine: Engine,
    pub(crate) harm: Harm,
}

/// A craft with its pump cut, ready to be solved.
pub(crate) struct Rig<'a> {
    pub(crate) craft: &'a Craft,
    cut: Cut,
    /// Of a run, `s`.
    step: f64,
    /// Factor on it once the engine has settled.
    stretch: f64,
    /// Against the course, `m/s`.
    wind: f64,
}

/// What the jet does at a shaft speed and a speed.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Point {
    pub(crate) flow: f64,
    /// Of mass, `kg/s`.
    pub(crate) mass_flow: f64,
    pub(crate) stream: f64,
    pub(crate) captured: Captured,
    pub(crate) work: Work,
    /// Taken by air, `J/kg`.
    pub(crate) frothed: f64,
    pub(crate) disc: f64,
    pub(crate) torque: f64,
    pub(crate) thrust: f64,
}

impl Craft {
    pub(crate) fn rig(&self) -> Rig<'_> {
        Rig {
            craft: self,
            cut: self.pump.cut(7),
            step: STEP,
            stretch: 1.0,
            wind: 0.0,
        }
    }

    /// Of the engine, where the shaft of the pump turns at a speed and takes a torque.
    pub(crate) fn engine_speed(&self, shaft: f64, torque: f64) -> f64 {
        shaft / (1.0 - self.harm.slip(torque / self.engine.torque))
    }

    /// What reaches the impeller there.
    pub(crate) fn delivered(&self, shaft: f64, torque: f64) -> f64 {
        let engine = &self.engine;
        let speed = self.engine_speed(shaft, torque);
        let ratio = speed / engine.rated;
        let burnt = engine.torque(speed) * self.harm.strength(ratio);
        burnt * (1.0 - engine.drive.0) - engine.drive.1 - self.harm.rubbing(ratio)
    }
}

impl Craft {
    /// Whether the hull no longer floats to speak of.
    pub(crate) fn planes(&self, speed: f64) -> bool {
        let froude = self.hull.volume_froude(speed, self.water.density);
        self.hull.floating(froude) < 0.15
    }
}

impl Rig<'_> {
    /// The same with other strips and another step.
    pub(crate) fn finer(mut self, strips: u32, step: f64) -> Self {
        self.cut = self.craft.pump.cut(strips);
        self.step = step;
        self
    }

    /// The same in longer steps once the engine has settled, where a time to a hundredth will do.
    pub(crate) fn stretched(mut self, stretch: f64) -> Self {
        self.stretch = stretch;
        self
    }

    pub(crate) fn against(mut self, wind: f64) -> Self {
        self.wind = wind;
        self
    }

    /// Left over of the head at a flow, and all that comes of it.
    fn at(&self, shaft: f64, speed: f64, flow: f64) -> (f64, Point) {
        let craft = self.craft;
        let water = &craft.water;
        let intake = &craft.intake;
        let captured = intake.captured(water, speed, (flow, craft.pump.area()));
        let ram = captured.energy * speed * speed / 2.0 - captured.loss;
        let above = (water.air - water.vapour) / water.density + ram - GRAVITY * craft.height;
        let work = self.cut.work(shaft, flow, above);
        let bubbles = intake.bubbles(speed);
        let jet = flow / (craft.contraction * PI * craft.nozzle * craft.nozzle / 4.0);
        let drawn = craft.harm.air(speed);
        let frothed = (intake.bubbles_head * bubbles + craft.harm.frothed(drawn)) * jet * jet / 2.0;
        let asked = (1.0 + craft.nozzle_loss) * jet * jet / 2.0 - ram + GRAVITY * craft.height;
        let mass_flow = water.density * (1.0 - bubbles) * (1.0 - drawn) * flow;
        let radius = craft.pump.diameter / 2.0;
        let disc = craft.pump.hidden.disc * water.density * shaft * shaft * radius.powi(5);
        let floating = craft
            .hull
            .floating(craft.hull.volume_froude(speed, water.density));
        let deduction = craft.hull.deduction.0 + craft.hull.deduction.1 * floating;
        let point = Point {
            flow,
            mass_flow,
            stream: jet,
            captured,
            work,
            frothed,
            disc,
            torque: mass_flow * work.given / shaft + disc,
            thrust: (1.0 - deduction) * mass_flow * (craft.aft * jet - captured.momentum * speed),
        };
        (work.head() - frothed - asked, point)
    }

    /// Where the head of the pump meets that of the jet; from a flow nearby where one is known.
    pub(crate) fn point(&self, shaft: f64, speed: f64, near: Option<f64>) -> Point {
        let most = 0.8 * self.craft.pump.area() * shaft * self.craft.pump.diameter / 2.0
            * self.craft.pump.trailing.tan()
            * 2.0;
        let (mut low, mut high) = (0.02 * most, most);
        let mut a = near.unwrap_or(0.45 * most).clamp(low, high);
        let mut at_a = self.at(shaft, speed, a).0;
        let mut b = a * (1.0 + 0.01 * at_a.signum());
        loop {
            let (left, point) = self.at(shaft, speed, b);
            if left > 0.0 {
                low = low.max(b);
            } else {
                high = high.min(b);
            }
            let mut next = b - left * (b - a) / (left - at_a);
            if !(low < next && next < high) {
                next = f64::midpoint(low, high);
            }
            if (next - b).abs() <= 1e-10 * b || high - low <= 1e-10 * high {
                return point;
            }
            (a, at_a, b) = (b, left, next);
        }
    }

    /// Shaft speed at which engine and pump agree, at a speed.
    pub(crate) fn settled(&self, speed: f64) -> Option<f64> {
        let engine = &self.craft.engine;
        let left = |shaft: f64| {
            let torque = self.point(shaft, speed, None).torque;
            self.craft.delivered(shaft, torque) - torque
        };
        let most = 1.15 * engine.limiter;
        root((0.6 * engine.rated, most), left).or_else(|| root((0.2 * engine.rated, most), left))
    }

    /// What is left of the thrust at a shaft speed.
    pub(crate) fn excess(&self, shaft: f64, speed: f64) -> f64 {
        self.point(shaft, speed, None).thrust
            - self
                .craft
                .hull
                .resistance(&self.craft.water, speed, self.wind)
    }

    /// Top speed and the shaft speed there, sought from a speed nearby.
    pub(crate) fn top(&self, near: f64) -> Option<(f64, f64)> {
        let left = |speed: f64| {
            self.settled(speed)
                .map_or(f64::NAN, |shaft| self.excess(shaft, speed))
        };
        let mut ends = (near, near);
        for _ in 0..60 {
            if left(ends.1) <= 0.0 {
                break;
            }
            ends = (ends.1, ends.1 + 0.5);
        }
        for _ in 0..60 {
            if left(ends.0) >= 0.0 {
                break;
            }
            ends = (ends.0 - 0.5, ends.0);
        }
        let speed = root(ends, left)?;
        Some((speed, self.settled(speed)?))
    }
}

/// What a run is at a time after the throttle began to open.
#[derive(Clone, Copy, Debug)]
pub(crate) struct State {
    pub(crate) time: f64,
    pub(crate) speed: f64,
    pub(crate) shaft: f64,
    /// Of the engine.
    pub(crate) engine: f64,
    /// `m/s²`.
    pub(crate) acceleration: f64,
}

/// Step of a run, `s`.
pub(crate) const STEP: f64 = 0.02;
/// When an engine has followed its throttle, whatever its inertia, `s`.
const SETTLED: f64 = 1.6;

impl Rig<'_> {
    /// From idle and rest at full throttle, for so many steps or until told to stop.
    pub(crate) fn run(&self, steps: u32, stop: impl Fn(&State) -> bool) -> Vec<State> {
        let craft = self.craft;
        let engine = &craft.engine;
        let mut state = State {
            time: 0.0,
            speed: 0.0,
            shaft: 0.18 * engine.rated,
            engine: 0.18 * engine.rated,
            acceleration: 0.0,
        };
        let idle = self.point(state.shaft, 0.0, None);
        let mut flow = idle.flow / state.shaft;
        let mut states = Vec::new();
        let mut step = self.step;
        for i in 0..=steps {
            let point = self.point(state.shaft, state.speed, Some(flow * state.shaft));
            flow = point.flow / state.shaft;
            let resistance = craft.hull.resistance(&craft.water, state.speed, self.wind);
            let standing = state.speed <= 0.0 && point.thrust < resistance;
            let now = if standing {
                0.0
            } else {
                (point.thrust - resistance) / craft.hull.moved(&craft.water, state.speed)
            };
            let before = if i == 0 { now } else { state.acceleration };
            state.acceleration = now;
            state.engine = craft.engine_speed(state.shaft, point.torque);
            states.push(state);
            if stop(&state) {
                break;
            }
            let settled = if state.time >= SETTLED {
                self.stretch
            } else {
                1.0
            };
            let half = 0.5 * self.step * settled / step;
            step = self.step * settled;
            // Two steps of Adams and Bashforth for the speed; the shaft is stiff: two thirds implicit.
            state.speed = (state.speed + step * ((1.0 + half) * now - half * before)).max(0.0);
            let open = (state.time / engine.opening).min(1.0);
            let given = |shaft: f64| {
                idle.torque + open * (craft.delivered(shaft, point.torque) - idle.torque)
            };
            let net = given(state.shaft) - point.torque;
            let slope = (given(state.shaft + 0.1) - given(state.shaft - 0.1)) / 0.2
                - 2.0 * point.torque / state.shaft;
            let change = step * net / (engine.inertia - 0.65 * step * slope.min(0.0));
            state.shaft = (state.shaft + change).max(0.1 * engine.rated);
            state.time += step;
        }
        states
    }
}
