//! How far apart two places are, and which way: for checking a log's speeds against its positions.
//!
//! Below [`PLANE_LIMIT`] the ellipsoid is taken for its tangent plane, which is off by less than a
//! tenth of a millimetre there; beyond it the geodesic is solved. A sphere would be off by up to
//! 0.3 %, as much as a rebuilt pump gains.

use std::f64::consts::TAU;

use geographiclib_rs::{Geodesic, InverseGeodesic};

/// Two places closer than this are on one tangent plane.
pub const PLANE_LIMIT: f64 = 2_000.0;

/// A place on the ellipsoid, in radians, north and east positive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Geodetic, −π/2 to π/2.
    pub latitude: f64,
    /// −π to π, or 0 to 2π.
    pub longitude: f64,
}

/// The way from one place to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// In metres.
    pub distance: f64,
    /// Course at the start, from true north clockwise, −π to π.
    pub course: f64,
    /// Course on arrival.
    pub arriving: f64,
}

/// The figure of the Earth that places refer to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ellipsoid {
    /// Equatorial radius in metres.
    pub radius: f64,
    /// Of the poles against the equator.
    pub flattening: f64,
}

/// What satellite receivers use.
///
/// Source: `nga-wgs84`.
pub const WGS84: Ellipsoid = Ellipsoid {
    radius: 6_378_137.0,
    flattening: 1.0 / 298.257_223_563,
};

impl Place {
    /// From degrees, as every log writes them; none outside −90 to 90 and −180 to 360.
    pub fn from_degrees(latitude: f64, longitude: f64) -> Option<Self> {
        let inside = (-90.0..=90.0).contains(&latitude) && (-180.0..=360.0).contains(&longitude);
        inside.then(|| Self {
            latitude: latitude.to_radians(),
            longitude: longitude.to_radians(),
        })
    }
}

/// The shortest way between two places on an ellipsoid.
#[derive(Clone, Debug)]
pub struct Earth {
    shape: Ellipsoid,
    geodesic: Geodesic,
}

impl Earth {
    /// Of that shape.
    pub fn new(shape: Ellipsoid) -> Self {
        Self {
            shape,
            geodesic: Geodesic::new(shape.radius, shape.flattening),
        }
    }

    /// The geodesic from one place to another, to a few nanometres.
    ///
    /// Source: `karney-2013`.
    pub fn geodesic(&self, from: Place, to: Place) -> Leg {
        let (distance, course, arriving, _): (f64, f64, f64, f64) = self.geodesic.inverse(
            from.latitude.to_degrees(),
            from.longitude.to_degrees(),
            to.latitude.to_degrees(),
            to.longitude.to_degrees(),
        );
        Leg {
            distance,
            course: course.to_radians(),
            arriving: arriving.to_radians(),
        }
    }

    /// Metres east and north on the plane that touches midway.
    ///
    /// `W^2 = 1 - e^2 sin^2(φ)`, `north = a (1 - e^2) / W^3 Δφ`, `east = a / W cos(φ) Δλ`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `from`, `to` | φ, λ | two places near each other | |
    /// | `returns[0]` | | east | `m` |
    /// | `returns[1]` | | north | `m` |
    ///
    /// Range: places less than [`PLANE_LIMIT`] apart and not at a pole.
    /// Source: `rapp-1991`, radii of curvature in the meridian and the prime vertical.
    pub fn plane(&self, from: Place, to: Place) -> [f64; 2] {
        let square = self.shape.flattening * (2.0 - self.shape.flattening);
        let (sine, cosine) = f64::midpoint(from.latitude, to.latitude).sin_cos();
        let w2 = 1.0 - square * sine * sine;
        let across = self.shape.radius / w2.sqrt();
        let along = across * (1.0 - square) / w2;
        let east = across * cosine * turn(from.longitude, to.longitude);
        [east, along * (to.latitude - from.latitude)]
    }

    /// Metres east and north, on the plane where it holds, else along the geodesic's first course.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `from`, `to` | | two places | |
    /// | `returns[0]` | | east | `m` |
    /// | `returns[1]` | | north | `m` |
    ///
    /// Range: any two places.
    /// Source: `karney-2013`.
    pub fn step(&self, from: Place, to: Place) -> [f64; 2] {
        let near = self.plane(from, to);
        // Near a pole the meridians run together and no plane takes a longitude.
        let polar = from.latitude.abs().max(to.latitude.abs()) > 1.5;
        if near[0].hypot(near[1]) < PLANE_LIMIT && !polar {
            return near;
        }
        let leg = self.geodesic(from, to);
        [
            leg.distance * leg.course.sin(),
            leg.distance * leg.course.cos(),
        ]
    }
}

impl Default for Earth {
    fn default() -> Self {
        Self::new(WGS84)
    }
}

/// The turn from one course to another, the short way round.
///
/// `turn = ((to - from + π) mod 2π) - π`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `from` | | course before | `rad` |
/// | `to` | | course after | `rad` |
/// | `returns` | | clockwise positive, −π to below π | `rad` |
///
/// Range: any finite courses.
/// Source: definition.
pub fn turn(from: f64, to: f64) -> f64 {
    // Where there is nothing to wrap, the difference is exact as it is.
    let plain = to - from;
    let half = 0.5 * TAU;
    if (-half..half).contains(&plain) {
        plain
    } else {
        (plain + half).rem_euclid(TAU) - half
    }
}

/// The mean of courses, each taken for an arrow of length one.
///
/// `mean = atan2(Σ sin(c), Σ cos(c))`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `courses` | c | from true north, clockwise | `rad` |
/// | `returns` | | 0 to below 2π; none where the arrows cancel | `rad` |
///
/// Range: finite courses; at least one.
/// Source: `fisher-1993`, mean direction.
pub fn mean_course(courses: &[f64]) -> Option<f64> {
    let (east, north) = courses.iter().fold((0.0, 0.0), |(east, north), course| {
        (east + course.sin(), north + course.cos())
    });
    bearing(east, north, 1e-9)
}

/// The course of an arrow, 0 to below 2π; none where it is no longer than `least`.
pub(crate) fn bearing(east: f64, north: f64, least: f64) -> Option<f64> {
    let course = east.atan2(north).rem_euclid(TAU);
    // The remainder of a hair below nothing rounds to a whole turn.
    let course = if course < TAU { course } else { 0.0 };
    (east.hypot(north) > least).then_some(course)
}
