//! Parts that are pressed or shrunk in, O-rings in their grooves, and which way things face.
//!
//! How hard a press fit holds, and with how much force it goes in, follow from the walls of both
//! parts and are reckoned where sleeves are. Here: on which ring to push, and how hot to make it
//! instead.

use crate::error::{not_negative, positive, within};
use crate::thread::circle;
use crate::{Error, Interval};

/// How tight a bearing sits, as interference on the diameter, below zero for a clearance.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `shaft` | | of its bore on the shaft | `m` |
/// | `housing` | | of its outside in the housing | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BearingFit {
    /// Of its bore on the shaft.
    pub shaft: f64,
    /// Of its outside in the housing.
    pub housing: f64,
}

/// On which ring to push a bearing, and where it goes first. Never through the balls: that dents
/// the tracks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Push {
    /// On neither: it slides in by hand.
    ByHand,
    /// On the inner ring: first onto the shaft, with it into the housing.
    Inner,
    /// On the outer ring: first into the housing, then the shaft through it.
    Outer,
    /// On both at once, with a plate across.
    Both,
}

/// No bearing of a small pump sits as tight or as loose.
const FITS: Interval = Interval {
    low: -1e-3,
    high: 1e-3,
};

impl BearingFit {
    /// On which ring to push, to put it in as to take it out.
    ///
    /// Source: `bearing-pressing`; that the tight seat comes first is common practice.
    ///
    /// # Errors
    /// [`Error::Outside`] beyond a millimetre either way, where a unit has slipped.
    pub fn push(&self) -> Result<Push, Error> {
        within("the fit on the shaft", self.shaft, FITS)?;
        within("the fit in the housing", self.housing, FITS)?;
        Ok(match (self.shaft > 0.0, self.housing > 0.0) {
            (false, false) => Push::ByHand,
            (true, false) => Push::Inner,
            (false, true) => Push::Outer,
            (true, true) => Push::Both,
        })
    }
}

/// What a bearing without seals bears for some hours, `K`.
///
/// Source: `bearing-heating`.
pub const BEARS_BEARING: f64 = 394.15;
/// What a bearing with rubber seals bears, `K`.
///
/// Source: `bearing-seals`.
pub const BEARS_SEALED: f64 = 383.15;
/// What a painted, hardened aluminium casting bears for a short while, `K`.
///
/// Source: common practice, no source.
pub const BEARS_CASTING: f64 = 393.15;

/// An outer part that is heated to slip over an inner one.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `diameter` | D | diameter of the seat | `m` |
/// | `interference` | i | interference on the diameter, both parts at `room` | `m` |
/// | `clearance` | c | clearance wanted on the diameter while it slips | `m` |
/// | `outer` | ao | linear expansion of the outer part | `1/K` |
/// | `inner` | ai | linear expansion of the inner part | `1/K` |
/// | `room` | T0 | temperature at which both were measured | `K` |
/// | `inner_at` | Ti | temperature of the inner part: `room`, or that of a freezer | `K` |
/// | `bears` | | the most the outer part bears | `K` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shrink {
    /// Diameter of the seat.
    pub diameter: f64,
    /// Interference on the diameter.
    pub interference: f64,
    /// Clearance wanted on the diameter while it slips.
    pub clearance: f64,
    /// Linear expansion of the outer part.
    pub outer: f64,
    /// Linear expansion of the inner part.
    pub inner: f64,
    /// Temperature at which both were measured.
    pub room: f64,
    /// Temperature of the inner part.
    pub inner_at: f64,
    /// The most the outer part bears: [`BEARS_BEARING`] and its like, or its own data sheet.
    pub bears: f64,
}

impl Shrink {
    /// How hot the outer part must be to slip over the inner one.
    ///
    /// `To = T0 + (i + c + ai D (Ti - T0)) / (ao D)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | D, i, c, ao, ai, T0, Ti | the parts | |
    /// | returns | To | temperature of the outer part | `K` |
    ///
    /// Range: `i, c, ai >= 0`, the rest above zero. At or below `room` when cooling alone does.
    /// Source: `budynas-nisbett`, thermal strain.
    ///
    /// # Errors
    /// [`Error::TooHot`] beyond what it bears; [`Error::Negative`], [`Error::NotPositive`].
    pub fn heat_to(&self) -> Result<f64, Error> {
        let diameter = positive("the diameter of the seat", self.diameter)?;
        let over = not_negative("the interference", self.interference)?
            + not_negative("the clearance wanted", self.clearance)?;
        let outer = positive("the expansion of the outer part", self.outer)?;
        let inner = not_negative("the expansion of the inner part", self.inner)?;
        let room = positive("the temperature of the room", self.room)?;
        let inner_at = positive("the temperature of the inner part", self.inner_at)?;
        let bears = positive("what the outer part bears", self.bears)?;
        let needed = room + (over / diameter + inner * (inner_at - room)) / outer;
        if needed > bears {
            return Err(Error::TooHot { needed, bears });
        }
        Ok(needed)
    }
}

/// An O-ring and its groove.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `cord` | s | diameter of the cord | `m` |
/// | `inner` | d1 | inner diameter of the free ring | `m` |
/// | `seat` | D | diameter the ring is stretched over | `m` |
/// | `depth` | h | from the bottom of the groove to the face it seals against, gap included | `m` |
/// | `width` | b | width of the groove | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ORing {
    /// Diameter of the cord.
    pub cord: f64,
    /// Inner diameter of the free ring.
    pub inner: f64,
    /// Diameter the ring is stretched over.
    pub seat: f64,
    /// From the bottom of the groove to the face it seals against.
    pub depth: f64,
    /// Width of the groove.
    pub width: f64,
}

/// How an O-ring sits.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `stretch` | e | stretch of the ring, below zero where it is loose | `1` |
/// | `squeeze` | q | squeeze of the cord | `1` |
/// | `fill` | f | share of the groove it takes | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sits {
    /// Stretch of the ring.
    pub stretch: f64,
    /// Squeeze of the cord.
    pub squeeze: f64,
    /// Share of the groove it takes.
    pub fill: f64,
}

/// Where an O-ring that nothing moves seals: stretch.
///
/// Source: `oring-glands`.
pub const STRETCH: Interval = Interval {
    low: 0.0,
    high: 0.05,
};
/// Where an O-ring that nothing moves seals: squeeze of a face or of a radial seat.
///
/// Source: `oring-glands`.
pub const SQUEEZE: Interval = Interval {
    low: 0.10,
    high: 0.30,
};
/// Where an O-ring that nothing moves seals: fill. Beyond it, heat and swelling find no room.
///
/// Source: `oring-glands`.
pub const FILL: Interval = Interval {
    low: 0.65,
    high: 0.85,
};

impl ORing {
    /// How it sits in its groove.
    ///
    /// `e = D / d1 - 1`, `s' = s / sqrt(1 + e)`, `q = 1 - h / s'`, `f = PI s'^2 / (4 b h)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | s, d1, D, h, b | ring and groove | `m` |
    /// | returns | e, q, f | stretch, squeeze, fill | `1` |
    ///
    /// The cord keeps its volume, so a stretched ring is thinner.
    ///
    /// Range: all above zero.
    /// Source: `oring-glands`; the thinning from rubber that keeps its volume.
    ///
    /// # Errors
    /// [`Error::NotPositive`] outside the range.
    pub fn sits(&self) -> Result<Sits, Error> {
        let over = positive("the diameter the ring goes over", self.seat)?;
        let ratio = over / positive("the inner diameter of the ring", self.inner)?;
        let cord = positive("the cord", self.cord)? / ratio.sqrt();
        let depth = positive("the depth of the groove", self.depth)?;
        let width = positive("the width of the groove", self.width)?;
        Ok(Sits {
            stretch: ratio - 1.0,
            squeeze: 1.0 - depth / cord,
            fill: circle(cord) / (depth * width),
        })
    }
}

impl Sits {
    /// Whether an O-ring that nothing moves seals so.
    pub fn is_sound(&self) -> bool {
        STRETCH.contains(self.stretch) && SQUEEZE.contains(self.squeeze) && FILL.contains(self.fill)
    }
}

/// Something with a front and a back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Front {
    /// The open side of a lip, with its spring, that keeps oil or grease in.
    LipHolding,
    /// The open side of a lip that keeps water and grit out, or lets fresh grease leave.
    LipExcluding,
    /// The open side of a lip under pressure.
    LipUnderPressure,
    /// The sealed side of a bearing that is sealed on one.
    SealedSide,
    /// The wide shoulder of the outer ring of an angular contact bearing.
    WideShoulder,
}

/// Where a front looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Looks {
    /// Towards the bearing.
    AtBearing,
    /// Towards the water.
    AtWater,
    /// Towards the pressure.
    AtPressure,
    /// The way the thrust pushes the shaft: ahead, while an impeller drives the craft.
    WithThrust,
}

impl Front {
    /// Which way it looks; a lip looks at what it stops. The craft's manual goes before it.
    ///
    /// Source: `lip-direction`, `lip-purge` for lips; the bearings are from memory.
    pub const fn looks(self) -> Looks {
        match self {
            Self::LipHolding => Looks::AtBearing,
            Self::LipExcluding | Self::SealedSide => Looks::AtWater,
            Self::LipUnderPressure => Looks::AtPressure,
            Self::WideShoulder => Looks::WithThrust,
        }
    }
}
