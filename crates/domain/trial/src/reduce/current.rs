//! Speed through the water and the current from three headings or more.

use std::f64::consts::TAU;

use nalgebra::{DMatrix, DVector, Matrix3, Vector3};

use crate::Error;
use crate::error::{finite, positive};
use crate::segment::real;

/// Fewest degrees of arc that the headings must span: under a quarter of a turn the circle is guessed.
const ARC: f64 = TAU / 4.0;
/// Most that the readings may miss the circle by, as a share of its radius. Source: common practice, no source.
const UNEVEN: f64 = 0.15;
/// Steps of the refinement before it is given up.
const STEPS: usize = 100;
/// Share of the radius by which the last step may move.
const CLOSE: f64 = 1e-13;

/// One heading held at one throttle.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `speed` | G | over ground | `m/s` |
/// | `course` | x | over ground, from true north, clockwise | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Speed over ground.
    pub speed: f64,
    /// Course over ground, from true north, clockwise.
    pub course: f64,
}

/// A circle through the ends of velocities over ground: its radius is the speed, its centre the current.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `speed` | V | through the water | `m/s` |
/// | `east` | | current, toward the east | `m/s` |
/// | `north` | | current, toward the north | `m/s` |
/// | `left` | | root of the mean square by which the readings miss the circle | `m/s` |
/// | `arc` | | least arc that holds every heading | `rad` |
/// | `uncertainty` | | standard uncertainty of the speed if the readings err independently; infinite for three | `m/s` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Speed through the water.
    pub speed: f64,
    /// Current toward the east.
    pub east: f64,
    /// Current toward the north.
    pub north: f64,
    /// Root of the mean square by which the readings miss the circle.
    pub left: f64,
    /// Least arc that holds every heading.
    pub arc: f64,
    /// Standard uncertainty of the speed if the readings err independently; infinite for three.
    pub uncertainty: f64,
}

impl Circle {
    /// Speed of the current.
    ///
    /// `|u| = sqrt(u_E^2 + u_N^2)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | u | | `m/s` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn current(&self) -> f64 {
        self.east.hypot(self.north)
    }

    /// Where the current goes to, from true north, clockwise. Wind is told by where it comes from, the other way.
    ///
    /// `atan2(u_E, u_N)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | | from 0 to a turn | `rad` |
    ///
    /// Range: a current other than nought.
    /// Source: definition.
    pub fn toward(&self) -> f64 {
        self.east.atan2(self.north).rem_euclid(TAU)
    }

    /// Heading through the water on a leg: the way its velocity points without the current.
    ///
    /// `atan2(G sin x - u_E, G cos x - u_N)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `returns` | | from 0 to a turn | `rad` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn heading(&self, leg: &Leg) -> f64 {
        let (east, north) = ends(leg);
        (east - self.east).atan2(north - self.north).rem_euclid(TAU)
    }
}

fn ends(leg: &Leg) -> (f64, f64) {
    (leg.speed * leg.course.sin(), leg.speed * leg.course.cos())
}

/// Speed and current from three headings or more, each at the same throttle.
///
/// Least `sum (|g_i - u| - V)^2` by Gauss and Newton, from the algebraic circle
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `legs` | g | velocities over ground | |
///
/// Range: three legs or more, headings over a quarter of a turn, one speed through the water.
/// Source: `gander-1994`.
///
/// # Errors
/// [`Error::TooFew`]; [`Error::Outside`] for an arc too short; [`Error::Contradicted`] where the speed through the
/// water was not the same.
pub fn current(legs: &[Leg]) -> Result<Circle, Error> {
    let mut circle = algebraic(legs)?;
    let points: Vec<(f64, f64)> = legs.iter().map(ends).collect();
    let mut inverse = Matrix3::zeros();
    for _ in 0..STEPS {
        let (mut square, mut side) = (Matrix3::zeros(), Vector3::zeros());
        for (east, north) in &points {
            let (x, y) = (east - circle.east, north - circle.north);
            let far = positive("the distance of a leg from the current", x.hypot(y))?;
            let row = Vector3::new(x / far, y / far, 1.0);
            square += row * row.transpose();
            side += row * (far - circle.speed);
        }
        inverse = square.try_inverse().ok_or(too_narrow(circle.arc))?;
        let step = inverse * side;
        circle.east += step[0];
        circle.north += step[1];
        circle.speed += step[2];
        if step.norm() <= CLOSE * circle.speed.abs() {
            break;
        }
    }
    positive("the speed through the water", circle.speed)?;
    let squares: f64 = points.iter().map(|p| miss(&circle, *p).powi(2)).sum();
    circle.left = (squares / real(legs.len())).sqrt();
    circle.arc = arc(legs.iter().map(|leg| circle.heading(leg)));
    if circle.arc < ARC {
        return Err(too_narrow(circle.arc));
    }
    if circle.left > UNEVEN * circle.speed {
        return Err(Error::Contradicted {
            what: "one speed through the water on every heading",
            value: circle.left,
            most: UNEVEN * circle.speed,
        });
    }
    circle.uncertainty = if legs.len() > 3 {
        (squares / real(legs.len() - 3) * inverse[(2, 2)]).sqrt()
    } else {
        f64::INFINITY
    };
    Ok(circle)
}

/// The circle by linear least squares.
///
/// `2 E_i u_E + 2 N_i u_N + k = E_i^2 + N_i^2`, `V = sqrt(k + u_E^2 + u_N^2)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `legs` | E, N | velocities over ground | |
///
/// Range: three legs or more, courses over a quarter of a turn.
/// Source: `gander-1994`; it leans to small circles where the readings scatter.
///
/// # Errors
/// [`Error::TooFew`], [`Error::NotPositive`], [`Error::Outside`].
pub fn algebraic(legs: &[Leg]) -> Result<Circle, Error> {
    let count = legs.len();
    if count < 3 {
        return Err(Error::TooFew {
            what: "headings",
            count,
            least: 3,
        });
    }
    for leg in legs {
        positive("the speed of a leg", leg.speed)?;
        finite("the course of a leg", leg.course)?;
    }
    let over_ground = arc(legs.iter().map(|leg| leg.course));
    if over_ground < ARC {
        return Err(too_narrow(over_ground));
    }
    let points: Vec<(f64, f64)> = legs.iter().map(ends).collect();
    // About the middle of the ends, in units of their size: columns of one order.
    let scale = legs.iter().map(|leg| leg.speed).fold(0.0, f64::max);
    let middle = |pick: fn(&(f64, f64)) -> f64| points.iter().map(pick).sum::<f64>() / real(count);
    let (east, north) = (middle(|p| p.0), middle(|p| p.1));
    let at: Vec<(f64, f64)> = points
        .iter()
        .map(|p| ((p.0 - east) / scale, (p.1 - north) / scale))
        .collect();
    let design = DMatrix::from_fn(count, 3, |i, k| match k {
        0 => 2.0 * at[i].0,
        1 => 2.0 * at[i].1,
        _ => 1.0,
    });
    let side = DVector::from_fn(count, |i, _| at[i].0.powi(2) + at[i].1.powi(2));
    let parts = design.qr();
    let solved = parts
        .r()
        .solve_upper_triangular(&(parts.q().transpose() * side))
        .ok_or(too_narrow(over_ground))?;
    let square = solved[2] + solved[0].powi(2) + solved[1].powi(2);
    let mut circle = Circle {
        speed: scale * positive("the square of the speed through the water", square)?.sqrt(),
        east: east + scale * solved[0],
        north: north + scale * solved[1],
        left: 0.0,
        arc: 0.0,
        uncertainty: f64::INFINITY,
    };
    let squares: f64 = points.iter().map(|p| miss(&circle, *p).powi(2)).sum();
    circle.left = (squares / real(count)).sqrt();
    circle.arc = arc(legs.iter().map(|leg| circle.heading(leg)));
    Ok(circle)
}

fn miss(circle: &Circle, (east, north): (f64, f64)) -> f64 {
    (east - circle.east).hypot(north - circle.north) - circle.speed
}

fn too_narrow(arc: f64) -> Error {
    Error::Outside {
        what: "the arc of the headings in radians",
        value: arc,
        low: ARC,
        high: TAU,
    }
}

/// Least arc that holds all of some directions: a turn less the widest gap between neighbours.
fn arc(directions: impl Iterator<Item = f64>) -> f64 {
    let mut all: Vec<f64> = directions.map(|d| d.rem_euclid(TAU)).collect();
    all.sort_by(f64::total_cmp);
    let round = all
        .first()
        .zip(all.last())
        .map_or(TAU, |(a, b)| a + TAU - b);
    let gaps = all.windows(2).map(|w| w[1] - w[0]);
    TAU - gaps.fold(round, f64::max)
}

/// Speed and current from three speeds over ground, at headings a third of a turn apart.
///
/// `m = mean G^2`, `a_i = G_i^2 / m - 1`, `mu = sum a_i^2 / 6`, `b = 1/2 + sqrt(1/4 - mu)`, `V = sqrt(m b)`,
/// `|u| = sqrt(m mu / b)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `speeds` | G | over ground | `m/s` |
/// | `returns` | V, u | speed through the water, speed of the current | `m/s` |
///
/// Range: a current slower than the craft.
/// Source: `three-headings`.
///
/// # Errors
/// [`Error::NotPositive`]; [`Error::Contradicted`] where no such current gives these speeds.
pub fn equal_headings(speeds: [f64; 3]) -> Result<(f64, f64), Error> {
    for speed in speeds {
        positive("the speed of a leg", speed)?;
    }
    let mean = speeds.iter().map(|g| g * g).sum::<f64>() / 3.0;
    let mu = speeds
        .iter()
        .map(|g| (g * g / mean - 1.0).powi(2))
        .sum::<f64>()
        / 6.0;
    if mu > 0.25 {
        return Err(Error::Contradicted {
            what: "a current slower than the craft",
            value: mu,
            most: 0.25,
        });
    }
    let b = 0.5 + (0.25 - mu).sqrt();
    Ok(((mean * b).sqrt(), (mean * mu / b).sqrt()))
}
