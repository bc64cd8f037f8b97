//! Forces and moments at a trim, and the trim at which they leave nothing over.

use super::fits::{
    flat_lift, friction, length_for_centre, length_ratio, lengths, lift_by_length, pressure_centre,
    roughened, slowed,
};
use super::{
    Air, Balance, Beyond, Bottom, DryChines, Flaps, Method, Planing, Pressure, State, Wetted,
};
use crate::Error;
use crate::hull::{GRAVITY, told};
use crate::solve::between;

/// Where a balance is sought, in degrees: far outside what the method was fitted to.
const FLATTEST: f64 = 0.05;
const STEEPEST: f64 = 35.0;

/// How closely the trim is sought, of itself.
const CLOSE: f64 = 1e-11;

/// A craft at a speed, with what does not change with trim.
pub(super) struct Case<'a> {
    bottom: &'a Bottom,
    state: &'a State,
    method: &'a Method,
    weight: f64,
    /// Square of the speed coefficient.
    speed_squared: f64,
    /// Dynamic pressure.
    dynamic: f64,
    /// In degrees.
    deadrise: f64,
    tangent: f64,
    cosine: f64,
}

/// What acts at a trim with a wetted length; forces level and aft, upright, moments bow up.
#[derive(Clone, Copy)]
struct Forces {
    lambda: f64,
    keel: f64,
    chine: f64,
    area: f64,
    /// Of friction above the keel.
    lever: f64,
    coefficient: f64,
    /// Along the keel.
    friction: f64,
    /// Level, and its moment.
    air: (f64, f64),
    /// Level, upright, and its moment.
    flaps: (f64, f64, f64),
}

/// A trim and its functions.
#[derive(Clone, Copy)]
struct Trim {
    degrees: f64,
    sine: f64,
    cosine: f64,
    /// To 1.1.
    power: f64,
}

impl Trim {
    fn new(degrees: f64) -> Self {
        let (sine, cosine) = degrees.to_radians().sin_cos();
        Self {
            degrees,
            sine,
            cosine,
            power: degrees.powf(1.1),
        }
    }

    fn tangent(self) -> f64 {
        self.sine / self.cosine
    }
}

impl<'a> Case<'a> {
    pub(super) fn new(bottom: &'a Bottom, state: &'a State, method: &'a Method) -> Self {
        let speed = state.speed;
        Self {
            bottom,
            state,
            method,
            weight: state.mass * GRAVITY,
            speed_squared: speed * speed / (GRAVITY * bottom.beam),
            dynamic: 0.5 * state.water.density * speed * speed,
            deadrise: bottom.deadrise.to_degrees(),
            tangent: bottom.deadrise.tan(),
            cosine: bottom.deadrise.cos(),
        }
    }

    pub(super) fn run(&self) -> Result<Planing, Error> {
        let lift = self.flat(self.weight, None);
        let centre = self.bottom.lcg / self.bottom.beam;
        // The simple case has its answer without a search; the others lie near.
        let lambda = length_for_centre(centre, self.speed_squared);
        let simple = (lift / lift_by_length(lambda, self.speed_squared)).powf(1.0 / 1.1);
        if !simple.is_finite() {
            return Err(none());
        }
        let degrees = match self.method.balance {
            Balance::Simple if (FLATTEST..=STEEPEST).contains(&simple) => simple,
            Balance::Simple => return Err(none()),
            _ => self.sought(lift, simple)?,
        };
        let trim = Trim::new(degrees);
        let (forces, lift) = self.settled(trim, lift).ok_or_else(none)?;
        Ok(self.told(trim, &forces, lift))
    }

    /// The trim whose moments leave nothing over; they turn the bow down ever more as it rises.
    fn sought(&self, lift: f64, near: f64) -> Result<f64, Error> {
        let over = |degrees: f64| self.over(Trim::new(degrees), lift);
        let mut near = near.clamp(FLATTEST, STEEPEST);
        let mut rest = over(near);
        let up = rest > 0.0;
        // Centres of pressure go as the trim to about -1.1 to -2.2: this step goes a little beyond the balance.
        let mut step = rest.abs().clamp(1e-6, 0.3);
        loop {
            let far = if up {
                (near * (1.0 + step)).min(STEEPEST)
            } else {
                (near / (1.0 + step)).max(FLATTEST)
            };
            let now = over(far);
            if now.is_nan() || (rest.is_nan()) || far.to_bits() == near.to_bits() {
                return Err(none());
            }
            if (now > 0.0) != up {
                let ends = [(near, rest), (far, now)];
                return between("trim", over, ends, CLOSE * near).map_err(|_| none());
            }
            (near, rest) = (far, now);
            step *= 2.0;
        }
    }

    /// What turns the bow up at a trim, in weights times the distance of the centre of gravity.
    fn over(&self, trim: Trim, lift: f64) -> f64 {
        let Some((forces, lift)) = self.settled(trim, lift) else {
            return f64::NAN;
        };
        let bottom = self.bottom;
        let centre = pressure_centre(forces.lambda, self.speed_squared) * bottom.beam;
        let (along, across) = bottom.thrust_angle.sin_cos();
        // The line of thrust below the centre of gravity.
        let below = (bottom.vcg - bottom.thrust_height) * across
            - (bottom.lcg - bottom.thrust_forward) * along;
        let arm = bottom.lcg - centre;
        let moment = if let Balance::Whole { .. } = self.method.balance {
            let (level, _) = self.along(trim, &forces, lift);
            let thrust = level / (trim.degrees.to_radians() + bottom.thrust_angle).cos();
            -lift / trim.cosine * arm
                + forces.friction * (forces.lever - bottom.vcg)
                + forces.air.1
                + forces.flaps.2
                + thrust * below
        } else {
            // Eq. 35 of the paper, turned round.
            let turned = (trim.degrees.to_radians() + bottom.thrust_angle).sin();
            let lever = bottom.vcg - 0.25 * bottom.beam * self.tangent;
            -self.weight * ((1.0 - trim.sine * turned) * arm / trim.cosine - below * trim.sine)
                - forces.friction * (lever - below)
        };
        moment / (self.weight * bottom.lcg)
    }

    /// The flat bottom's coefficient of lift for a force.
    fn flat(&self, force: f64, near: Option<f64>) -> f64 {
        let square = self.bottom.beam * self.bottom.beam;
        flat_lift(force / (self.dynamic * square), self.deadrise, near)
    }

    /// Forces whose upright sum carries the weight, and the lift of the bottom in it.
    fn settled(&self, trim: Trim, flat: f64) -> Option<(Forces, f64)> {
        let length = |flat: f64| length_ratio(flat / trim.power, self.speed_squared);
        if !matches!(self.method.balance, Balance::Whole { .. }) {
            let forces = self.forces(trim, length(flat));
            return forces.friction.is_finite().then_some((forces, self.weight));
        }
        let slope = (trim.degrees.to_radians() + self.bottom.thrust_angle).tan();
        let share = 1.0 / (1.0 + trim.tangent() * slope);
        let mut lift = self.weight * share;
        let mut near = flat;
        // What friction, air and thrust along it lift changes little with the wetted length, and nothing where
        // thrust and friction both follow the keel.
        for _ in 0..60 {
            near = self.flat(lift, Some(near));
            let forces = self.forces(trim, length(near));
            let level = forces.friction * trim.cosine + forces.air.0 + forces.flaps.0;
            let carried =
                self.weight + forces.friction * trim.sine - forces.flaps.1 - level * slope;
            let next = carried * share;
            if !next.is_finite() {
                return None;
            }
            if (next - lift).abs() <= 1e-13 * lift {
                return Some((forces, lift));
            }
            lift = next;
        }
        None
    }

    fn forces(&self, trim: Trim, lambda: f64) -> Forces {
        let (bottom, beam) = (self.bottom, self.bottom.beam);
        let dry = self.method.dry == DryChines::Triangle;
        let wet = lengths(
            self.method.wetted,
            lambda,
            trim.degrees,
            (self.deadrise, dry),
        );
        // Along the keel where the chine is wet too, and where it is not; without deadrise nothing is not.
        let (full, part) = match (dry, wet.chine < 0.0) {
            (true, true) => (0.0, wet.keel * wet.keel / (2.0 * wet.entry)),
            (true, false) => (wet.chine, 0.5 * wet.entry),
            (false, _) => (lambda, 0.0),
        };
        let area = beam * beam * (full + part) / self.cosine;
        let lever = beam * self.tangent * (full / 4.0 + part / 6.0) / (full + part);
        let slow = slowed(
            lambda,
            trim.power,
            trim.cosine,
            (self.deadrise, self.method.slowing),
        );
        let length = lambda * beam;
        let reynolds = self.state.speed * slow.sqrt() * length / self.state.water.viscosity;
        let coefficient = friction(self.method.line, reynolds);
        let rough = roughened(bottom.roughness, length, reynolds);
        let pressure = match self.method.pressure {
            Pressure::Bottom => self.dynamic * slow,
            Pressure::Craft => self.dynamic,
        };
        let keel = wet.keel * beam;
        let (air, flaps) = match self.method.balance {
            Balance::Whole { air, flaps } => (
                air.map_or((0.0, 0.0), |air| self.air(trim, keel, &air)),
                flaps.map_or((0.0, 0.0, 0.0), |flaps| self.flaps(trim, &flaps)),
            ),
            _ => ((0.0, 0.0), (0.0, 0.0, 0.0)),
        };
        Forces {
            lambda,
            keel,
            chine: beam * if dry { wet.chine.max(0.0) } else { wet.chine },
            area,
            lever,
            coefficient,
            friction: pressure * area * (coefficient + rough),
            air,
            flaps,
        }
    }

    /// Drag of a face between the water and its top, and its moment.
    fn air(&self, trim: Trim, keel: f64, air: &Air) -> (f64, f64) {
        let (bottom, speed) = (self.bottom, self.state.speed);
        let reach = trim.sine * (air.forward - keel) + trim.cosine * air.height;
        let drag = 0.5 * air.density * air.drag * (reach * air.width).max(0.0) * speed * speed;
        let above = trim.sine * (bottom.lcg - keel) + trim.cosine * bottom.vcg;
        (drag, drag * (0.5 * reach - above))
    }

    /// `lift = 0.046 chord delta span b rho V^2/2`, `drag = 0.0052 lift (tau + delta)`, in degrees.
    fn flaps(&self, trim: Trim, flaps: &Flaps) -> (f64, f64, f64) {
        let (beam, angle) = (self.bottom.beam, flaps.angle.to_degrees());
        let lift = 0.046 * flaps.chord * angle * flaps.span * beam * self.dynamic;
        let drag = 0.0052 * lift * (trim.degrees + angle);
        let place = 0.6 * beam + flaps.chord * (1.0 - flaps.span);
        (drag, lift, -lift * (self.bottom.lcg - place))
    }

    /// Along the way: all together, and of the bottom's pressure.
    fn along(&self, trim: Trim, forces: &Forces, lift: f64) -> (f64, f64) {
        let pressure = lift * trim.tangent();
        let friction = match self.method.balance {
            Balance::Whole { .. } => forces.friction * trim.cosine,
            // Friction lifts nothing there, so pressure carries what it pulls down.
            _ => forces.friction / trim.cosine,
        };
        (
            pressure + friction + forces.air.0 + forces.flaps.0,
            pressure,
        )
    }

    fn told(&self, trim: Trim, forces: &Forces, lift: f64) -> Planing {
        let (resistance, pressure_drag) = self.along(trim, forces, lift);
        Planing {
            trim: trim.degrees.to_radians(),
            length_ratio: forces.lambda,
            keel: forces.keel,
            chine: forces.chine,
            area: forces.area,
            pressure_drag,
            friction_drag: resistance - pressure_drag - forces.air.0 - forces.flaps.0,
            air_drag: forces.air.0,
            resistance,
            speed_coefficient: self.speed_squared.sqrt(),
            friction_coefficient: forces.coefficient,
            chines_dry: forces.chine <= 0.0,
            beyond: self.beyond(trim, forces),
        }
    }

    /// What lies outside the stated range.
    fn beyond(&self, trim: Trim, forces: &Forces) -> Vec<Beyond> {
        let mut beyond = Vec::new();
        let mut tell = |what, value, low, high| told(&mut beyond, what, value, (low, high));
        let degrees = |x: f64| x.to_radians();
        let speed = self.speed_squared.sqrt();
        tell("speed coefficient", speed, 1.0, 13.0);
        tell("trim", degrees(trim.degrees), degrees(2.0), degrees(15.0));
        tell("wetted length in beams", forces.lambda, 0.0, 4.0);
        if self.method.wetted == Wetted::Faltinsen2005 {
            tell(
                "deadrise",
                self.bottom.deadrise,
                degrees(4.0),
                degrees(40.0),
            );
        }
        if let Balance::Whole {
            flaps: Some(flaps), ..
        } = self.method.balance
        {
            let mean = 0.5 * (forces.keel + forces.chine);
            tell("chord of the flaps", flaps.chord, 0.0, 0.1 * mean);
            tell("angle of the flaps", flaps.angle, 0.0, degrees(15.0));
            tell("speed coefficient for flaps", speed, 2.0, 7.0);
        }
        beyond
    }
}

fn none() -> Error {
    Error::NoBalance {
        what: "trim",
        low: FLATTEST.to_radians(),
        high: STEEPEST.to_radians(),
    }
}
