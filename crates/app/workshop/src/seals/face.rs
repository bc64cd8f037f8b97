//! A bead between two faces: how thick, what becomes of it when they close, and how long it takes.

use joint::Interval;
use joint::bead::{self, Face};
use joint::compound::{Compound, Place, Surface, Times};

use super::{Material, Seal, Taken};
use crate::job::Job;

/// The gap that is assumed between two machined faces.
///
/// Common practice, no source.
pub const GAP: Interval = Interval {
    low: 0.000_02,
    high: 0.000_1,
};

/// What a cartridge is assumed to hold, `m^3`: the usual size of a hand gun.
pub const CARTRIDGE: f64 = 0.000_31;

/// The compounds that are laid as a bead on a face.
pub const FACES: [Compound; 6] = [
    Compound::FlangeSealant,
    Compound::NeutralSilicone,
    Compound::AcetoxySilicone,
    Compound::Polyurethane,
    Compound::HybridPolymer,
    Compound::Epoxy,
];

/// A bead and what becomes of it.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `laid` | diameter of the bead reckoned with: the middle of those that do, or the least that seals | `m` |
/// | `film` | width of the film where the gap is widest and where it is narrowest | `m` |
/// | `ridge` | radius of what comes out on each side where the gap is narrowest | `m` |
/// | `left_open` | share of the passage that a ridge all round leaves | `1` |
/// | `share` | share of a cartridge that the line takes | `1` |
#[derive(Clone, Debug, PartialEq)]
pub struct Bead {
    /// What it is laid of.
    pub material: Material,
    /// The gap.
    pub gap: Taken<Interval>,
    /// The beads that seal everywhere and stay clear everywhere, or why there is none.
    pub fits: Result<Interval, joint::Error>,
    /// Diameter reckoned with.
    pub laid: f64,
    /// Width of the film.
    pub film: Interval,
    /// What comes out.
    pub ridge: f64,
    /// What is left of the passage.
    pub left_open: Option<f64>,
    /// How much of a cartridge.
    pub share: Option<f64>,
    /// How long things take in the air of the bench, or why it may not be put on here.
    pub times: Result<Times, joint::Error>,
}

/// The bead; none for a seal that [`decide`](crate::decide::decide) would have refused.
pub fn of(job: &Job, seal: &Seal) -> Option<Bead> {
    let material = job.material(&seal.with)?;
    let said = seal.gap.as_ref().map(|(low, high)| Interval {
        low: low.value,
        high: high.value,
    });
    let gap = Taken::or(said, GAP);
    let face = Face {
        sealed: seal.sealed.value,
        room: seal.room.value,
        gap: gap.value,
    };
    let fits = face.bead();
    let laid = match &fits {
        Ok(bead) => f64::midpoint(bead.low, bead.high),
        Err(joint::Error::NoBead { least, .. }) => *least,
        Err(_) => return None,
    };
    let ridge = bead::ridge(laid, face.room, gap.value.low).ok()?;
    let passage = seal.passage.as_ref();
    let line = seal.line.as_ref();
    let place = Place {
        air: job.air(),
        // An airless cure in a flange meets whatever the faces are of; the slower is reckoned with.
        surface: Surface::Passive,
        depth: seal.edges.depth(face.room).ok()?,
    };
    Some(Bead {
        times: material.sheet.times(&place),
        material,
        gap,
        fits,
        laid,
        film: Interval {
            low: bead::spread(laid, gap.value.high).ok()?,
            high: bead::spread(laid, gap.value.low).ok()?,
        },
        ridge,
        left_open: passage.and_then(|passage| bead::left_open(ridge, passage.value).ok()),
        share: line.and_then(|line| Some(line.value / bead::length(CARTRIDGE, laid).ok()?)),
    })
}
