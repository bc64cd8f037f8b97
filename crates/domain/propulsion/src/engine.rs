//! The torque an engine gives at full throttle, and where it is held back.

use crate::Error;
use crate::cubic::cubic;
use crate::error::within;

/// How an engine breathes, where nothing but its rated power is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Breathing {
    /// Naturally aspirated: most torque at 0.77 of the rated speed, most power at it.
    Free,
    /// A centrifugal blower: torque still rises at the rated speed.
    Blower,
    /// A turbocharger or a displacement blower: torque is level, and falls off at the rated speed.
    Plateau,
}

/// Torque at full throttle against speed.
#[derive(Clone, Debug, PartialEq)]
enum Torque {
    /// `tau_p [1 − a ((n − n_p)/n_p)²]`.
    Parabola { most: f64, at: f64, fall: f64 },
    /// Speeds, torques and slopes, joined by cubics that do not overshoot.
    Curve(Vec<[f64; 3]>),
}

/// An engine at full throttle.
#[derive(Clone, Debug, PartialEq)]
pub struct Engine {
    torque: Torque,
    /// The speed the maker rates it at, `rad/s`.
    pub rated: f64,
    /// The speed it is held back at, `rad/s`.
    pub limiter: f64,
}

/// Fewer points are no curve.
const POINTS: usize = 3;

impl Engine {
    /// An engine whose torque is a parabola.
    ///
    /// `tau = tau_p [1 − a ((n − n_p)/n_p)²]`
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `most` | `tau_p` | `N m` |
    /// | `at` | `n_p` | `rad/s` |
    /// | `fall` | `a` | `1` |
    /// | `limiter` | where it is held back; also taken as its rated speed | `rad/s` |
    /// | `returns` | the engine |  |
    ///
    /// Range: torque above 0 up to the limiter.
    /// Source: common practice, no source.
    ///
    /// # Errors
    /// A torque, a speed or a fall outside that range.
    pub fn parabola(most: f64, at: f64, fall: f64, limiter: f64) -> Result<Self, Error> {
        within("torque", most, 5.0, 1000.0)?;
        within("speed of most torque", at, 100.0, 1500.0)?;
        within("speed of the limiter", limiter, 0.5 * at, 2.0 * at)?;
        within("fall of the torque", fall, 0.0, 4.0)?;
        let torque = Torque::Parabola { most, at, fall };
        Ok(Self {
            torque,
            rated: limiter,
            limiter,
        })
    }

    /// An engine of which only the rating is known.
    ///
    /// Parabola with `n_p = n_r / x`. Naturally aspirated: `x = 1.3` and `a = 1/[(x − 1)(3x − 1)]`, so that
    /// power is greatest at the rated speed. Blower: `x = 0.92`, `a = 1.2`. Plateau: `x = 1.15`, `a = 0.5`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `power` | rated | `W` |
    /// | `speed` | rated | `rad/s` |
    /// | `limiter` | where it is held back | `rad/s` |
    /// | `breathing` | the shape |  |
    /// | `returns` | the engine |  |
    ///
    /// Range: 5 kW to 400 kW, limiter 1 to 1.3 times the rated speed.
    /// Source: common practice, no source; the shapes are assumed.
    ///
    /// # Errors
    /// A power or a speed outside that range.
    pub fn rated(
        power: f64,
        speed: f64,
        limiter: f64,
        breathing: Breathing,
    ) -> Result<Self, Error> {
        within("rated power", power, 5e3, 4e5)?;
        within("rated engine speed", speed, 200.0, 1200.0)?;
        within("speed of the limiter", limiter, speed, 1.3 * speed)?;
        let (over, fall) = match breathing {
            Breathing::Free => (1.3, 1.0 / (0.3 * 2.9)),
            Breathing::Blower => (0.92, 1.2),
            Breathing::Plateau => (1.15, 0.5),
        };
        let shape = 1.0 - fall * (over - 1.0_f64).powi(2);
        let torque = Torque::Parabola {
            most: power / speed / shape,
            at: speed / over,
            fall,
        };
        Ok(Self {
            torque,
            rated: speed,
            limiter,
        })
    }

    /// An engine whose torque was measured, joined by cubics that keep rises and falls (Fritsch and Butland).
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `points` | in the order of speed |  |
    /// | `limiter` | within a fortieth of the last point, or below it | `rad/s` |
    /// | `returns` | the engine; rated where the points make most power |  |
    ///
    /// Range: at least three points, torque above 0.
    /// Source: `fritsch-1984`.
    ///
    /// # Errors
    /// Fewer points, points out of order, torque that is none, a limiter beyond the curve.
    pub fn curve(points: &[[f64; 2]], limiter: f64) -> Result<Self, Error> {
        #[expect(clippy::cast_precision_loss, reason = "a handful of points")]
        within(
            "points of the torque curve",
            points.len() as f64,
            POINTS as f64,
            200.0,
        )?;
        for pair in points.windows(2) {
            within(
                "next speed of the torque curve",
                pair[1][0],
                pair[0][0] + 1.0,
                1500.0,
            )?;
        }
        for point in points {
            within("torque", point[1], 1.0, 1000.0)?;
        }
        let last = points[points.len() - 1][0];
        within("speed of the limiter", limiter, points[0][0], 1.025 * last)?;
        let most = |a: &&[f64; 2], b: &&[f64; 2]| (a[0] * a[1]).total_cmp(&(b[0] * b[1]));
        let rated = points.iter().max_by(most).map_or(limiter, |point| point[0]);
        Ok(Self {
            torque: Torque::Curve(sloped(points)),
            rated: rated.min(limiter),
            limiter,
        })
    }

    /// The least speed its torque is known at, `rad/s`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | the slowest point of the curve | `rad/s` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn least(&self) -> f64 {
        match &self.torque {
            Torque::Parabola { at, fall, .. } => at * (1.0 - (0.8 / fall.max(0.8)).sqrt()),
            Torque::Curve(points) => points[0][0],
        }
    }

    /// Torque at full throttle, `N m`, at a speed between [`Engine::least`] and the limiter.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `speed` | of the engine | `rad/s` |
    /// | `returns` | torque | `N m` |
    ///
    /// Range: from [`Engine::least`] to the limiter.
    /// Source: definition.
    pub fn torque(&self, speed: f64) -> f64 {
        match &self.torque {
            Torque::Parabola { most, at, fall } => most * (1.0 - fall * (speed / at - 1.0).powi(2)),
            Torque::Curve(points) => joined(points, speed),
        }
    }
}

/// Slopes that do not overshoot, beside each point.
fn sloped(points: &[[f64; 2]]) -> Vec<[f64; 3]> {
    let steps: Vec<[f64; 2]> = points
        .windows(2)
        .map(|pair| {
            let width = pair[1][0] - pair[0][0];
            [width, (pair[1][1] - pair[0][1]) / width]
        })
        .collect();
    let end = |[h0, d0]: [f64; 2], [h1, d1]: [f64; 2]| {
        let slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
        if slope * d0 <= 0.0 {
            0.0
        } else if d0 * d1 < 0.0 && slope.abs() > 3.0 * d0.abs() {
            3.0 * d0
        } else {
            slope
        }
    };
    let inner = |[h0, d0]: [f64; 2], [h1, d1]: [f64; 2]| {
        if d0 * d1 <= 0.0 {
            return 0.0;
        }
        let (w0, w1) = (2.0 * h1 + h0, h1 + 2.0 * h0);
        (w0 + w1) / (w0 / d0 + w1 / d1)
    };
    let last = steps.len() - 1;
    points
        .iter()
        .enumerate()
        .map(|(at, point)| {
            let slope = match at {
                0 => end(steps[0], steps[1]),
                at if at > last => end(steps[last], steps[last - 1]),
                at => inner(steps[at - 1], steps[at]),
            };
            [point[0], point[1], slope]
        })
        .collect()
}

fn joined(points: &[[f64; 3]], at: f64) -> f64 {
    let next = points.partition_point(|point| point[0] < at);
    let next = next.clamp(1, points.len() - 1);
    let ([x0, y0, d0], [x1, y1, d1]) = (points[next - 1], points[next]);
    cubic([[y0, d0], [y1, d1]], x1 - x0, (at - x0) / (x1 - x0))
}
