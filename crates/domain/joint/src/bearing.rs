//! Where the head bears, and the screw as a whole.

use crate::error::{not_negative, positive};
use crate::thread::same;
use crate::{Error, Geometry, Interval, Thread};

/// The shape of a screw's head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Head {
    /// Hexagon head. Source: `iso-4014`.
    Hex,
    /// Cylindrical head with a hexagon socket. Source: `iso-4762`.
    Socket,
}

/// The ring on which a head bears.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `outer` | dw | outer diameter of the bearing face | `m` |
/// | `hole` | dh | diameter of the hole under it | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bearing {
    /// Outer diameter of the bearing face.
    pub outer: f64,
    /// Diameter of the hole under it.
    pub hole: f64,
}

/// Nominal diameter; bearing face of a hexagon head, at least, and of a socket head, at most;
/// medium clearance hole.
const HEADS: [(f64, f64, f64, f64); 12] = [
    (4e-3, 5.88e-3, 7e-3, 4.5e-3),
    (5e-3, 6.88e-3, 8.5e-3, 5.5e-3),
    (6e-3, 8.88e-3, 10e-3, 6.6e-3),
    (8e-3, 11.63e-3, 13e-3, 9e-3),
    (10e-3, 14.63e-3, 16e-3, 11e-3),
    (12e-3, 16.63e-3, 18e-3, 13.5e-3),
    (14e-3, 19.64e-3, 21e-3, 15.5e-3),
    (16e-3, 22.49e-3, 24e-3, 17.5e-3),
    (18e-3, 25.34e-3, 27e-3, 20e-3),
    (20e-3, 28.19e-3, 30e-3, 22e-3),
    (22e-3, 31.71e-3, 33e-3, 24e-3),
    (24e-3, 33.61e-3, 36e-3, 26e-3),
];

impl Bearing {
    /// The bearing ring of a plain head over a medium clearance hole.
    ///
    /// The hexagon's face is the least the standard allows; the socket head's is its whole
    /// diameter, a little more than the flat part of it.
    /// Source: `iso-4014`, `iso-4762`, `iso-273`.
    ///
    /// # Errors
    /// [`Error::NoHead`] for a size that is not in the table.
    pub fn of(thread: &Thread, head: Head) -> Result<Self, Error> {
        let diameter = thread.diameter;
        HEADS
            .iter()
            .find(|row| same(row.0, diameter))
            .map(|&(_, hex, socket, hole)| Self {
                outer: match head {
                    Head::Hex => hex,
                    Head::Socket => socket,
                },
                hole,
            })
            .ok_or(Error::NoHead { diameter })
    }

    /// Diameter at which the friction under the head acts.
    ///
    /// `Dkm = (dw + dh) / 2`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | dw, dh | outer and inner diameter of the ring | `m` |
    /// | returns | Dkm | mean diameter | `m` |
    ///
    /// Range: `dw > dh > 0`.
    /// Source: `vdi-2230`, `iso-16047`.
    ///
    /// # Errors
    /// [`Error::NotPositive`] or [`Error::Outside`] outside the range.
    pub fn mean_diameter(&self) -> Result<f64, Error> {
        self.check()?;
        Ok(0.5 * (self.outer + self.hole))
    }

    pub(crate) fn check(&self) -> Result<(), Error> {
        positive("the hole under the head", self.hole)?;
        positive("the bearing face of the head", self.outer)?;
        if self.outer > self.hole {
            return Ok(());
        }
        Err(Error::Outside {
            what: "the bearing face of the head",
            value: self.outer,
            low: self.hole,
            high: f64::INFINITY,
        })
    }
}

/// A screw as it stands in its joint.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `bearing` | dw, dh | ring on which the head bears | `m` |
/// | `prevailing` | Tp | torque to turn it before it clamps: nylon insert, coating, dirt | `N m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw {
    /// Its thread.
    pub thread: Thread,
    /// The shape of its head.
    pub head: Head,
    /// Ring on which the head, or the washer under it, bears.
    pub bearing: Bearing,
    /// Torque to turn it before it clamps.
    pub prevailing: f64,
}

impl Screw {
    /// A plain screw that turns freely, its head on a medium clearance hole.
    ///
    /// # Errors
    /// [`Error::NoHead`] for a size that is not in the table.
    pub fn new(thread: Thread, head: Head) -> Result<Self, Error> {
        Ok(Self {
            thread,
            head,
            bearing: Bearing::of(&thread, head)?,
            prevailing: 0.0,
        })
    }

    /// Its geometry, once everything about it has been checked.
    pub(crate) fn checked(&self) -> Result<Geometry, Error> {
        self.bearing.check()?;
        not_negative("the prevailing torque", self.prevailing)?;
        self.thread.geometry()
    }
}

/// What a coefficient of friction may be; above one, surfaces have seized rather than slid.
pub(crate) const FRICTION: Interval = Interval {
    low: 0.0,
    high: 1.0,
};
