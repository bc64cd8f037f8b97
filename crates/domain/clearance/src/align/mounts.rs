//! What the mounts must do, and what a mount left off does at the coupling.

use nalgebra::{DMatrix, DVector};

use super::coupling::Axis;
use crate::error::finite;
use crate::{Error, Estimated};

/// Where a mount of the engine stands.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `forward` | of the plane of the coupling | `m` |
/// | `port` | of the engine's axis, below zero to starboard | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mount {
    /// Forward of the plane of the coupling.
    pub forward: f64,
    /// To port of the engine's axis, below zero to starboard.
    pub port: f64,
}

/// How a mount must move.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// Up: shims in; below zero, shims out.
    pub up: Estimated,
    /// To port; below zero, to starboard.
    pub port: Estimated,
}

/// What brings the engine's axis onto the pump's: every mount by what the axis is off above it.
///
/// `m_i = -(o + s x_i)`, up and to port
///
/// The engine moves as one stiff body. Turned about its own axis it changes nothing at the coupling, so its
/// roll is left as it is found and both mounts at one distance move alike.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `axis` | o, s | where the axis lies | |
/// | `mounts` | x | where the mounts stand | |
///
/// Range: two mounts or more, some of them 10 mm apart along the axis.
/// Source: definition, of a stiff body moved by little.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`].
pub fn moves(axis: &Axis, mounts: &[Mount]) -> Result<Vec<Move>, Error> {
    apart(mounts)?;
    let against = |found: Estimated| Estimated {
        value: -found.value,
        ..found
    };
    Ok(mounts
        .iter()
        .map(|mount| Move {
            up: against(axis.up.at(mount.forward)),
            port: against(axis.port.at(mount.forward)),
        })
        .collect())
}

/// What is left when the mounts do not stand where they should.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `offset` | of the axis at the plane of the coupling, up | `m` |
/// | `slope` | of the axis, climbing forward | `rad` |
/// | `roll` | port side up | `rad` |
/// | `rock` | the most a mount stands off the plane the engine takes | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rest {
    /// Of the axis at the plane of the coupling, up.
    pub offset: f64,
    /// Of the axis, climbing forward.
    pub slope: f64,
    /// Port side up.
    pub roll: f64,
    /// The most a mount stands off the plane the engine takes.
    pub rock: f64,
}

/// How the engine stands on mounts that are too high or too low.
///
/// `e_i = o + s x_i + r y_i` by least squares; of several, the flattest
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `mounts` | x, y | where the mounts stand | |
/// | `high` | `e_i` | how much too high each is | `m` |
///
/// Range: as [`moves`], one height for each mount.
/// Source: definition, of least squares.
///
/// # Errors
/// [`Error::TooFew`], [`Error::Outside`], [`Error::NoSuchPlace`].
pub fn rest(mounts: &[Mount], high: &[f64]) -> Result<Rest, Error> {
    apart(mounts)?;
    if mounts.len() != high.len() {
        return Err(Error::NoSuchPlace {
            what: "mount",
            at: high.len().max(mounts.len()) - 1,
            of: mounts.len().min(high.len()),
        });
    }
    for value in high {
        finite("the height of a mount", *value)?;
    }
    let row = |mount: &Mount| [1.0, mount.forward, mount.port];
    let rows: Vec<f64> = mounts.iter().flat_map(row).collect();
    let matrix = DMatrix::from_row_slice(mounts.len(), 3, &rows);
    let wanted = DVector::from_row_slice(high);
    // Mounts all on one side tell no roll: the shortest answer leaves it at nothing.
    let found = matrix
        .clone()
        .svd(true, true)
        .solve(&wanted, 1e-9)
        .map_err(|_| Error::NotConverged {
            what: "the plane through the mounts",
            steps: 1,
        })?;
    let off = &matrix * &found - wanted;
    Ok(Rest {
        offset: found[0],
        slope: found[1],
        roll: found[2],
        rock: off.amax(),
    })
}

fn apart(mounts: &[Mount]) -> Result<(), Error> {
    if mounts.len() < 2 {
        return Err(Error::TooFew {
            what: "mounts",
            count: mounts.len(),
            least: 2,
        });
    }
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for mount in mounts {
        finite("a mount's distance to port", mount.port)?;
        let forward = finite("a mount's distance forward", mount.forward)?;
        least = least.min(forward);
        most = most.max(forward);
    }
    if most - least < 0.01 {
        return Err(Error::Outside {
            what: "the distance between the mounts along the axis",
            value: most - least,
            low: 0.01,
            high: f64::INFINITY,
        });
    }
    Ok(())
}
