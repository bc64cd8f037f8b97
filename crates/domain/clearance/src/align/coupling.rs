//! Where the engine's axis lies at the coupling, seen from the pump's.

use super::sweep::Swept;
use crate::error::finite;
use crate::{Error, Estimated};

/// Which shaft the dials are fixed to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Carrier {
    /// The pump's: the plungers touch the engine's coupling.
    Pump,
    /// The engine's: the plungers touch the pump's coupling.
    Engine,
}

/// The engine's axis in one plane, as a line.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `offset` | where it passes the plane of the coupling | `m` |
/// | `slope` | how it goes on from there, forward | `rad` |
/// | `together` | covariance of both | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Where it passes the plane of the coupling.
    pub offset: Estimated,
    /// How it goes on from there, forward.
    pub slope: Estimated,
    /// Covariance of both.
    pub together: f64,
}

impl Line {
    /// Where the axis is at a distance forward of the coupling.
    ///
    /// `a(x) = o + s x`, `u^2 = u_o^2 + 2 x cov + x^2 u_s^2`
    ///
    /// What the tape may be off is left out: a millimetre at 2 mm/m is 2 micrometres.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `forward` | x | of the plane of the coupling, below zero aft of it | `m` |
    /// | returns | a | off the pump's axis | `m` |
    ///
    /// Range: small angles.
    /// Source: definition; `jcgm-100`, equation 13.
    pub fn at(&self, forward: f64) -> Estimated {
        let tilted = forward * self.slope.uncertainty;
        let square =
            self.offset.uncertainty.powi(2) + 2.0 * forward * self.together + tilted.powi(2);
        Estimated {
            value: self.offset.value + forward * self.slope.value,
            uncertainty: square.max(0.0).sqrt(),
        }
    }
}

/// The engine's axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// Up.
    pub up: Line,
    /// To port.
    pub port: Line,
}

/// The axis from a rim and a face.
///
/// `o = T_rim / 2`, `s = T_face / D`; a rim read from the engine's shaft has the other sign
///
/// An engine that stands high pushes a plunger held by the pump's shaft in at 12. A face of an axis that
/// climbs forward leans aft at 12 and pushes it in, whichever shaft carries the dial.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `rim` | `T_rim` | swing on the rim, in the plane of the coupling | |
/// | `face` | `T_face` | swing on the face | |
/// | `diameter` | D | of the circle on the face | `m` |
/// | `carrier` | | which shaft the dials are fixed to | |
///
/// Range: `D > 0`; small angles; a face read without end float.
/// Source: definition; the same as `coupling-sheet` and `rim-face-sheet` give it.
///
/// # Errors
/// [`Error::NotPositive`].
pub fn rim_and_face(
    rim: &Swept,
    face: &Swept,
    diameter: f64,
    carrier: Carrier,
) -> Result<Axis, Error> {
    let sign = match carrier {
        Carrier::Pump => 1.0,
        Carrier::Engine => -1.0,
    };
    let line = |rim: Estimated, slope| Line {
        offset: Estimated {
            value: sign * rim.value,
            ..rim
        },
        slope,
        together: 0.0,
    };
    Ok(Axis {
        up: line(rim.up.offset(), face.up.slope(diameter)?),
        port: line(rim.port.offset(), face.port.slope(diameter)?),
    })
}

/// Gaps round a bar, or a rim, at one place along it.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `forward` | of the plane of the coupling, below zero aft of it | `m` |
/// | `swept` | what the gaps say | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Forward of the plane of the coupling, below zero aft of it.
    pub forward: f64,
    /// What the gaps say.
    pub swept: Swept,
}

/// The axis from two stations along a bar that lies in the pump.
///
/// `s = (o_2 - o_1) / (x_2 - x_1)`, `o = (x_2 o_1 - x_1 o_2) / (x_2 - x_1)`
///
/// The engine's bore round a bar: where it stands high, the gap above the bar is the wider.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `one` | `x_1`, `o_1` | a station | |
/// | `other` | `x_2`, `o_2` | another | |
///
/// Range: stations a millimetre apart or more; small angles.
/// Source: definition; `jcgm-100`, equation 13.
///
/// # Errors
/// [`Error::Outside`].
pub fn two_stations(one: &Station, other: &Station) -> Result<Axis, Error> {
    let (first, second) = (
        finite("a station along the bar", one.forward)?,
        finite("a station along the bar", other.forward)?,
    );
    let apart = second - first;
    if apart.abs() < 0.001 {
        return Err(Error::Outside {
            what: "the distance between the stations",
            value: apart.abs(),
            low: 0.001,
            high: f64::INFINITY,
        });
    }
    let line = |one: Estimated, other: Estimated| {
        let (a, b) = (second / apart, -first / apart);
        let (u, v) = (one.uncertainty, other.uncertainty);
        Line {
            offset: Estimated {
                value: a * one.value + b * other.value,
                uncertainty: (a * u).hypot(b * v),
            },
            slope: Estimated {
                value: (other.value - one.value) / apart,
                uncertainty: u.hypot(v) / apart.abs(),
            },
            together: (b * v * v - a * u * u) / apart,
        }
    };
    let (from, to) = (&one.swept, &other.swept);
    Ok(Axis {
        up: line(from.up.offset(), to.up.offset()),
        port: line(from.port.offset(), to.port.offset()),
    })
}
