//! The form of a bore: circles through its points, and what so few points can tell.
//!
//! At the bench a bore is read at eight or twelve points. The figures here are therefore *n-point
//! estimates*: a lobe that falls between the points is not in them, and they are never the roundness
//! of the standard, which is taken from a filtered profile of hundreds of points.

use std::f64::consts::{PI, TAU};

use crate::error::finite;
use crate::{Error, Interval, real};

/// Most points a bore may be read at: the search for the minimum zone looks at all pairs of pairs.
const MOST: usize = 40;
/// Steps before the least-squares circle is given up.
const STEPS: usize = 500;
/// What rounding may add to half a turn between opposite points.
const ROUNDING: f64 = 1e-9;

/// A point in a plane square to the shaft.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `x` | towards clock angle zero | `m` |
/// | `y` | a quarter turn on | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Towards clock angle zero.
    pub x: f64,
    /// A quarter turn on.
    pub y: f64,
}

impl Point {
    fn to(self, other: Self) -> f64 {
        (other.x - self.x).hypot(other.y - self.y)
    }
}

/// Point of a bore read as a radius at a clock angle.
///
/// `x = r cos t`, `y = r sin t`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `radius` | r | from the axis the radii are measured from | `m` |
/// | `angle` | t | clock angle | `rad` |
/// | returns | x, y | the point | `m` |
///
/// Range: any.
/// Source: definition.
pub fn point(radius: f64, angle: f64) -> Point {
    Point {
        x: radius * angle.cos(),
        y: radius * angle.sin(),
    }
}

/// A circle.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `centre` | its centre | `m` |
/// | `radius` | its radius | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Circle {
    /// Its centre.
    pub centre: Point,
    /// Its radius.
    pub radius: f64,
}

/// Two circles of one centre with all points between them.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `centre` | the common centre | `m` |
/// | `inner` | radius of the inner circle | `m` |
/// | `outer` | radius of the outer circle | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Zone {
    /// The common centre.
    pub centre: Point,
    /// Radius of the inner circle.
    pub inner: f64,
    /// Radius of the outer circle.
    pub outer: f64,
}

impl Zone {
    /// Distance of the two circles: the n-point estimate of the roundness about their centre.
    ///
    /// `w = outer - inner`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | w | width of the zone | `m` |
    ///
    /// Range: any zone.
    /// Source: `iso-12181-1` for the zone; of few points only an estimate from below.
    pub fn width(&self) -> f64 {
        self.outer - self.inner
    }
}

/// The zone about a given centre that just holds all points.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `points` | points of the bore | `m` |
/// | `centre` | of both circles | `m` |
///
/// Range: at least three points.
/// Source: `iso-12181-1`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn zone_about(points: &[Point], centre: Point) -> Result<Zone, Error> {
    check(points, 3)?;
    Ok(zone(points, centre))
}

fn zone(points: &[Point], centre: Point) -> Zone {
    let away = points.iter().map(|point| centre.to(*point));
    let all = Interval::around(away);
    Zone {
        centre,
        inner: all.low,
        outer: all.high,
    }
}

/// Least-squares circle: the sum of the squared distances of the points from it is least.
///
/// `sum (sqrt((x_i - a)^2 + (y_i - b)^2) - r)^2 -> least`
///
/// By Gauss-Newton steps from the mean point, the radius eliminated as the mean distance.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `points` | x, y | points of the bore | `m` |
/// | returns | a, b, r | centre and radius | `m` |
///
/// Range: 3 to 40 points, not in one line.
/// Source: `gander-1994`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`]; [`Error::NotConverged`] for points in a line.
pub fn least_squares(points: &[Point]) -> Result<Circle, Error> {
    check(points, 3)?;
    let count = real(points.len());
    let mean = |of: &dyn Fn(&Point) -> f64| points.iter().map(of).sum::<f64>() / count;
    let mut centre = Point {
        x: mean(&|p| p.x),
        y: mean(&|p| p.y),
    };
    for _ in 0..STEPS {
        let radius = mean(&|p| centre.to(*p));
        let (east, north) = (
            mean(&|p| (p.x - centre.x) / centre.to(*p)),
            mean(&|p| (p.y - centre.y) / centre.to(*p)),
        );
        // Normal equations of the centre alone: the directions less their means.
        let (mut xx, mut xy, mut yy, mut x, mut y) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for p in points {
            let away = centre.to(*p);
            let (c, s) = (
                (p.x - centre.x) / away - east,
                (p.y - centre.y) / away - north,
            );
            let off = away - radius;
            (xx, xy, yy) = (xx + c * c, xy + c * s, yy + s * s);
            (x, y) = (x + c * off, y + s * off);
        }
        let determinant = xx * yy - xy * xy;
        let step = Point {
            x: (yy * x - xy * y) / determinant,
            y: (xx * y - xy * x) / determinant,
        };
        centre = Point {
            x: centre.x + step.x,
            y: centre.y + step.y,
        };
        if step.x.hypot(step.y) <= 1e-13 * radius {
            let radius = mean(&|p| centre.to(*p));
            return Ok(Circle { centre, radius });
        }
    }
    Err(Error::NotConverged {
        what: "the least-squares circle",
        steps: STEPS,
    })
}

/// Minimum zone: the two circles of one centre that hold all points and are closest together.
///
/// At the best centre two points on the outer circle and two on the inner alternate; every such
/// pair of pairs is tried, so the answer is exact.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `points` | points of the bore | `m` |
///
/// Range: 4 to 40 points all round the bore.
/// Source: `iso-12181-1`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`], [`Error::NotAround`].
pub fn minimum_zone(points: &[Point]) -> Result<Zone, Error> {
    check(points, 4)?;
    let mut best = zone(points, middle(points)?);
    let pairs = pairs(points.len());
    for (at, &(i, j)) in pairs.iter().enumerate() {
        for &(k, l) in &pairs[at + 1..] {
            let centre = crossing([points[i], points[j]], [points[k], points[l]]);
            if let Some(found) = narrower(points, centre, best.width()) {
                best = found;
            }
        }
    }
    Ok(best)
}

/// The zone about a centre if it is narrower than the best so far; most are given up early.
fn narrower(points: &[Point], centre: Point, best: f64) -> Option<Zone> {
    let (mut inner, mut outer) = (f64::INFINITY, 0.0_f64);
    for point in points {
        let away = centre.to(*point);
        (inner, outer) = (inner.min(away), outer.max(away));
        // A centre that is no number is never narrower.
        if outer - inner < best {
            continue;
        }
        return None;
    }
    Some(Zone {
        centre,
        inner,
        outer,
    })
}

/// Smallest circle round all points: what an impeller of this outline needs.
///
/// It rests on two points across a diameter or on three; all are tried.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `points` | points of the outline | `m` |
///
/// Range: 3 to 40 points.
/// Source: `iso-12181-1`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn minimum_circumscribed(points: &[Point]) -> Result<Circle, Error> {
    check(points, 3)?;
    let reach = |centre: Point| zone(points, centre).outer;
    let pairs = pairs(points.len())
        .into_iter()
        .map(|(i, j)| halfway(points[i], points[j]));
    let threes = triples(points.len())
        .into_iter()
        .map(|[i, j, k]| crossing([points[i], points[j]], [points[j], points[k]]));
    let first = Circle {
        centre: mean_point(points),
        radius: reach(mean_point(points)),
    };
    Ok(pairs.chain(threes).fold(first, |best, centre| {
        let radius = reach(centre);
        if is_finite(centre) && radius < best.radius {
            Circle { centre, radius }
        } else {
            best
        }
    }))
}

/// Largest circle inside all points: what the blades can swing in.
///
/// It rests on three points that are not all on one side of it; all such are tried.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `points` | points of the bore | `m` |
///
/// Range: 3 to 40 points all round the bore.
/// Source: `iso-12181-1`.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`], [`Error::NotAround`].
pub fn maximum_inscribed(points: &[Point]) -> Result<Circle, Error> {
    check(points, 3)?;
    let centre = middle(points)?;
    let mut best = Circle {
        centre,
        radius: 0.0,
    };
    for [i, j, k] in triples(points.len()) {
        let corners = [points[i], points[j], points[k]];
        let centre = crossing([corners[0], corners[1]], [corners[1], corners[2]]);
        if !is_finite(centre) || widest(&corners, centre) > PI * (1.0 + ROUNDING) {
            continue;
        }
        let radius = zone(points, centre).inner;
        if radius > best.radius {
            best = Circle { centre, radius };
        }
    }
    if best.radius > 0.0 {
        Ok(best)
    } else {
        let widest = widest(points, centre);
        Err(Error::NotAround { widest })
    }
}

fn is_finite(point: Point) -> bool {
    point.x.is_finite() && point.y.is_finite()
}

fn halfway(a: Point, b: Point) -> Point {
    Point {
        x: 0.5 * (a.x + b.x),
        y: 0.5 * (a.y + b.y),
    }
}

/// Where the two lines meet that are as far from either point of a pair; not finite for parallels.
fn crossing([a, b]: [Point; 2], [c, d]: [Point; 2]) -> Point {
    let origin = halfway(a, b);
    let other = halfway(c, d);
    let (ux, uy) = (b.x - a.x, b.y - a.y);
    let (vx, vy) = (d.x - c.x, d.y - c.y);
    let across = ux * vy - uy * vx;
    // Measured from the first middle, on whose line the answer lies.
    let along = (vx * (other.x - origin.x) + vy * (other.y - origin.y)) / across;
    Point {
        x: origin.x - along * uy,
        y: origin.y + along * ux,
    }
}

fn mean_point(points: &[Point]) -> Point {
    let count = real(points.len());
    Point {
        x: points.iter().map(|p| p.x).sum::<f64>() / count,
        y: points.iter().map(|p| p.y).sum::<f64>() / count,
    }
}

fn pairs(count: usize) -> Vec<(usize, usize)> {
    (0..count)
        .flat_map(|i| (i + 1..count).map(move |j| (i, j)))
        .collect()
}

fn triples(count: usize) -> Vec<[usize; 3]> {
    pairs(count)
        .into_iter()
        .flat_map(|(i, j)| (j + 1..count).map(move |k| [i, j, k]))
        .collect()
}

/// Widest angle between neighbours, seen from a centre.
fn widest(points: &[Point], centre: Point) -> f64 {
    let mut angles: Vec<f64> = points
        .iter()
        .map(|p| (p.y - centre.y).atan2(p.x - centre.x))
        .collect();
    angles.sort_by(f64::total_cmp);
    let last = angles[0] + TAU - angles[angles.len() - 1];
    angles
        .windows(2)
        .map(|pair| pair[1] - pair[0])
        .fold(last, f64::max)
}

fn check(points: &[Point], least: usize) -> Result<(), Error> {
    let count = points.len();
    if count < least {
        return Err(Error::TooFew {
            what: "points of the bore",
            count,
            least,
        });
    }
    if count > MOST {
        return Err(Error::Outside {
            what: "the number of points",
            value: real(count),
            low: real(least),
            high: real(MOST),
        });
    }
    for point in points {
        finite("a coordinate of a point", point.x)?;
        finite("a coordinate of a point", point.y)?;
    }
    Ok(())
}

/// The middle of the points, if they go all round it.
fn middle(points: &[Point]) -> Result<Point, Error> {
    let centre = least_squares(points)?.centre;
    let widest = widest(points, centre);
    if widest < PI {
        Ok(centre)
    } else {
        Err(Error::NotAround { widest })
    }
}
