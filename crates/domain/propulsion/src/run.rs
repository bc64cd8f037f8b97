//! From rest to the speed where thrust and drag meet, at full throttle.

use crate::Error;
use crate::breakdown::GRAVITY;
use crate::craft::{Conditions, Craft};
use crate::cubic::sloped;
use crate::drag::FASTEST;
use crate::matching::{Held, Point, Station, guess};
use crate::solve::between;

/// A run at full throttle from rest: engine and pump in balance at every speed.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The points passed, from rest up to just below the top speed.
    pub points: Vec<Point>,
    /// Resistance at each, `N`.
    pub resistance: Vec<f64>,
    /// Time at each, `s`.
    pub times: Vec<f64>,
    /// Time in which the rest to the top speed would fade to 1/e, at each, `s`: smooth up to the top,
    /// where the time for every m/s grows beyond all bounds.
    fades: Vec<[f64; 2]>,
    /// Where thrust and drag meet.
    pub top: Point,
}

/// Distance between the speeds passed, `m/s`.
const STEP: f64 = 0.5;
/// How closely the top speed is told, as a share of it.
const CLOSE: f64 = 1e-10;
/// No more than this share of the top speed has a time: beyond, an ant decides it.
pub const NEARLY: f64 = 0.985;

/// Runs a craft up from rest.
///
/// `t(V) = ∫ m (1 + k_a) dV / (T(V) − R(V))`, with `(V_top − V)` times the integrand as cubics between speeds
/// 0.5 m/s apart; top speed where `T = R`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as fitted, on that day |  |
/// | `day` | as fitted, on that day |  |
/// | `returns` | the run |  |
///
/// Range: a craft that gets over its hump and tops out below 45 m/s.
/// Source: definition.
///
/// # Errors
/// No balance of engine and pump; thrust below the drag at rest or at the hump; no top speed below 45 m/s.
pub fn run(craft: &Craft, day: &Conditions) -> Result<Run, Error> {
    swept(craft, day, None)
}

/// The same for a craft that is known to plane: where thrust falls short at the hump, so little of the weight
/// is taken to be left that passing it takes very long. Without it there is an edge beyond which
/// nothing is known, and whoever looks for the best belief stops at it.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as [`run`] |  |
/// | `day` | as [`run`] |  |
/// | `returns` | the run; its times are long where it would hang at the hump |  |
///
/// Range: as [`run`].
/// Source: definition.
///
/// # Errors
/// As [`run`], but for the hump.
pub fn run_of_planing(craft: &Craft, day: &Conditions) -> Result<Run, Error> {
    swept(craft, day, Some(LEFT_AT_HUMP * craft.weighs() * GRAVITY))
}

/// Share of the weight.
const LEFT_AT_HUMP: f64 = 0.004;
/// Beyond this volume Froude number no hump is looked for.
const PAST_HUMP: f64 = 4.0;

fn swept(craft: &Craft, day: &Conditions, floor: Option<f64>) -> Result<Run, Error> {
    craft.check()?;
    let short = |high: f64| Error::NoBalance {
        what: "thrust and drag",
        low: 0.0,
        high,
    };
    let length = (craft.weighs() / day.water.density).cbrt();
    let past = PAST_HUMP * (GRAVITY * length).sqrt();
    let mut points: Vec<Point> = Vec::with_capacity(80);
    let (mut resistance, mut pace) = (Vec::with_capacity(80), Vec::with_capacity(80));
    let mut near = guess(craft);
    let mut speed = 0.0;
    let beyond = loop {
        let point = Station::new(craft, day, speed).full(near)?;
        let drag = craft.resistance(day, speed);
        near = [point.engine, point.flow];
        let left = point.thrust - drag;
        let left = match floor {
            Some(floor) if speed < past => left.max(floor),
            _ => left,
        };
        if left <= 0.0 {
            break (point, left);
        }
        points.push(point);
        resistance.push(drag);
        pace.push(craft.inertia() / left);
        speed += STEP;
        if speed > FASTEST {
            return Err(short(FASTEST));
        }
    };
    let Some(below) = points.last().filter(|below| below.speed >= past - STEP) else {
        return Err(short(beyond.0.speed));
    };
    let top = meeting(craft, day, [*below, beyond.0], beyond.1)?;
    let fades = pace
        .iter()
        .zip(&points)
        .map(|(pace, point)| pace * (top.speed - point.speed));
    let fades = sloped(&fades.collect::<Vec<f64>>(), STEP);
    let times = times(&points, &fades, top.speed);
    Ok(Run {
        points,
        resistance,
        times,
        fades,
        top,
    })
}

/// Where thrust less drag goes through nought, between a point below and one beyond.
fn meeting(
    craft: &Craft,
    day: &Conditions,
    [below, above]: [Point; 2],
    beyond: f64,
) -> Result<Point, Error> {
    let at = |speed: f64| Station::new(craft, day, speed).full([below.engine, below.flow]);
    let surplus = |speed: f64| {
        at(speed).map_or(f64::NAN, |point| {
            point.thrust - craft.resistance(day, speed)
        })
    };
    let ends = [
        (
            below.speed,
            below.thrust - craft.resistance(day, below.speed),
        ),
        (above.speed, beyond),
    ];
    at(between(
        "thrust and drag",
        surplus,
        ends,
        CLOSE * above.speed,
    )?)
}

/// Seconds from one speed to another of the same panel: the cubic over what is left to the top.
fn passage([start, end]: [[f64; 2]; 2], left: f64, moved: f64) -> f64 {
    let ([y0, d0], [y1, d1]) = (start, end);
    let second = (3.0 * (y1 - y0) / STEP - 2.0 * d0 - d1) / STEP;
    let third = (2.0 * (y0 - y1) / STEP + d0 + d1) / (STEP * STEP);
    // In u, what is left to the top: y = c0 + c1 u + c2 u² + c3 u³ with V − V0 = left − u.
    let c3 = -third;
    let c2 = second + 3.0 * third * left;
    let c1 = -d0 - 2.0 * second * left - 3.0 * third * left * left;
    let c0 = y0 + left * (d0 + left * (second + left * third));
    let (from, to) = (left, left - moved);
    c0 * (from / to).ln()
        + c1 * (from - to)
        + c2 * (from * from - to * to) / 2.0
        + c3 * (from.powi(3) - to.powi(3)) / 3.0
}

fn times(points: &[Point], fades: &[[f64; 2]], top: f64) -> Vec<f64> {
    let mut time = 0.0;
    let mut times = vec![0.0];
    for at in 1..points.len() {
        time += passage([fades[at - 1], fades[at]], top - points[at - 1].speed, STEP);
        times.push(time);
    }
    times
}

/// Straight from one speed to the next.
fn mixed([start, end]: [f64; 2], moved: f64) -> f64 {
    let t = moved / STEP;
    (1.0 - t) * start + t * end
}

impl Run {
    /// Time from rest to a speed, `s`; none where it is not reached, or only just.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `speed` | at most 0.985 of the top speed | `m/s` |
    /// | `returns` | the time | `s` |
    ///
    /// Range: as [`run`].
    /// Source: definition.
    pub fn time_to(&self, speed: f64) -> Option<f64> {
        let (at, within) = self.place(speed)?;
        let ends = [self.fades[at], self.fades[at + 1]];
        let left = self.top.speed - self.points[at].speed;
        Some(self.times[at] + passage(ends, left, within))
    }

    /// Greatest acceleration, `m/s²`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | acceleration | `m/s^2` |
    ///
    /// Range: as [`run`].
    /// Source: definition.
    pub fn peak_acceleration(&self) -> f64 {
        let each = self.fades.iter().zip(&self.points);
        let each = each.map(|([fades, _], point)| (self.top.speed - point.speed) / fades);
        each.fold(0.0, f64::max)
    }

    /// Engine speed at a speed of the craft, `rad/s`; that of the top beyond the last point.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `speed` | of the craft | `m/s` |
    /// | `returns` | engine speed | `rad/s` |
    ///
    /// Range: as [`run`].
    /// Source: definition.
    pub fn engine_at(&self, speed: f64) -> f64 {
        self.between(speed, |point| point.engine)
    }

    /// Thrust at a speed of the craft, `N`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `speed` | of the craft | `m/s` |
    /// | `returns` | thrust | `N` |
    ///
    /// Range: as [`run`].
    /// Source: definition.
    pub fn thrust_at(&self, speed: f64) -> f64 {
        self.between(speed, |point| point.thrust)
    }

    /// Drag at a speed of the craft, `N`: that of the top beyond the last point.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `speed` | of the craft | `m/s` |
    /// | `returns` | drag | `N` |
    ///
    /// Range: as [`run`].
    /// Source: definition.
    pub fn drag_at(&self, speed: f64) -> f64 {
        match self.place(speed) {
            Some((at, within)) => mixed([self.resistance[at], self.resistance[at + 1]], within),
            None => self.top.thrust,
        }
    }

    /// Something of the points at a speed between them, straight from one to the next.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `speed` | of the craft | `m/s` |
    /// | `returns` | whatever is asked of a point | unit of the quantity |
    ///
    /// Range: as [`run`].
    /// Source: definition.
    pub fn between(&self, speed: f64, of: impl Fn(&Point) -> f64) -> f64 {
        match self.place(speed) {
            Some((at, within)) => mixed([of(&self.points[at]), of(&self.points[at + 1])], within),
            None => of(&self.top),
        }
    }

    /// Speed and engine speed at a time since the throttle was open; rest before it.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `time` | since the throttle was open | `s` |
    /// | `returns` | speed and engine speed | unit of the column |
    ///
    /// Range: as [`run`]; near the top speed the craft closes in on it.
    /// Source: definition.
    pub fn state_at(&self, time: f64) -> [f64; 2] {
        if time <= 0.0 {
            return [0.0, self.points[0].engine];
        }
        let next = self.times.partition_point(|passed| *passed < time);
        if next >= self.times.len() {
            return self.closing_in(time);
        }
        let at = next - 1;
        let (start, end) = (self.points[at].speed, self.points[next].speed);
        let ends = [self.fades[at], self.fades[next]];
        let left = self.top.speed - start;
        let rest = time - self.times[at];
        // Newton from the straight line: time and speed go almost together within a panel.
        let mut moved = STEP * rest / (self.times[next] - self.times[at]);
        for _ in 0..3 {
            let fades = ends[0][0] + (ends[1][0] - ends[0][0]) * moved / STEP;
            let pace = fades / (left - moved);
            moved += (rest - passage(ends, left, moved)) / pace;
            moved = moved.clamp(0.0, end - start);
        }
        let engine = mixed([self.points[at].engine, self.points[next].engine], moved);
        [start + moved, engine]
    }

    /// Past the last point: what is missing of the top speed fades exponentially.
    fn closing_in(&self, time: f64) -> [f64; 2] {
        let last = self.points.len() - 1;
        let (speed, top) = (self.points[last].speed, self.top.speed);
        let missing = top - speed;
        let fades = self.fades[last][0];
        let left = missing * (-(time - self.times[last]) / fades).exp();
        let share = left / missing;
        let engine = share * self.points[last].engine + (1.0 - share) * self.top.engine;
        [top - left, engine]
    }

    fn place(&self, speed: f64) -> Option<(usize, f64)> {
        let reach = self.points[self.points.len() - 1].speed;
        if !(0.0..=reach.min(NEARLY * self.top.speed)).contains(&speed) {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a place in a table of ninety"
        )]
        let at = ((speed / STEP) as usize).min(self.points.len() - 2);
        Some((at, speed - self.points[at].speed))
    }

    /// Whether the limiter holds the engine at a speed of the craft.
    pub fn limited_at(&self, speed: f64) -> bool {
        let near = self.points.iter().rev().find(|point| point.speed <= speed);
        near.is_some_and(|point| point.held == Held::Limiter)
    }
}
