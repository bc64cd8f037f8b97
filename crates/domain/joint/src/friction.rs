//! What is on the thread and under the head, and the friction that goes with it.

use crate::bearing::FRICTION;
use crate::error::within;
use crate::strength::NO_SOURCE;
use crate::{Error, Interval};

/// One pair of coefficients of friction.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `thread` | mu | in the thread | `1` |
/// | `head` | `mu_b` | under the head | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Friction {
    /// In the thread.
    pub thread: f64,
    /// Under the head.
    pub head: f64,
}

impl Friction {
    pub(crate) fn check(&self) -> Result<(), Error> {
        within("the friction in the thread", self.thread, FRICTION)?;
        within("the friction under the head", self.head, FRICTION)?;
        Ok(())
    }
}

/// What is known of the two coefficients of friction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FrictionRange {
    /// In the thread.
    pub thread: Interval,
    /// Under the head.
    pub head: Interval,
}

impl FrictionRange {
    /// The slipperiest pair: most preload for a torque.
    pub const fn low(&self) -> Friction {
        Friction {
            thread: self.thread.low,
            head: self.head.low,
        }
    }

    /// The roughest pair: least preload for a torque.
    pub const fn high(&self) -> Friction {
        Friction {
            thread: self.thread.high,
            head: self.head.high,
        }
    }

    pub(crate) fn check(&self) -> Result<(), Error> {
        self.thread.within("the friction in the thread", FRICTION)?;
        self.head.within("the friction under the head", FRICTION)?;
        Ok(())
    }
}

/// What is on the thread and under the head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Condition {
    /// Both degreased and clean.
    Dry,
    /// A film of oil on both, as delivered or wiped on.
    LightOil,
    /// Marine grease on the thread and under the head.
    Grease,
    /// Anti-seize paste on the thread and under the head.
    AntiSeize,
    /// Anaerobic threadlocker on the thread, the head dry.
    Threadlocker,
    /// White PTFE paste or thread sealant on the thread, the head dry.
    PtfePaste,
    /// Nobody can say.
    Unknown,
}

const DRY: Interval = Interval {
    low: 0.20,
    high: 0.35,
};

impl Condition {
    /// Every condition.
    pub const ALL: [Self; 7] = [
        Self::Dry,
        Self::LightOil,
        Self::Grease,
        Self::AntiSeize,
        Self::Threadlocker,
        Self::PtfePaste,
        Self::Unknown,
    ];

    /// The friction to reckon with, stainless steel into aluminium, brass or stainless steel.
    ///
    /// Working intervals built on the classes of `vdi-2230`, never a point. A dry stainless thread
    /// that galls goes beyond any of them. What nobody knows spans all the others.
    pub fn friction(self) -> FrictionRange {
        let both = |low, high| {
            let range = Interval { low, high };
            FrictionRange {
                thread: range,
                head: range,
            }
        };
        let thread = |low, high| FrictionRange {
            thread: Interval { low, high },
            head: DRY,
        };
        match self {
            Self::Dry => both(0.20, 0.35),
            Self::LightOil => both(0.14, 0.30),
            Self::Grease => both(0.10, 0.16),
            Self::AntiSeize => both(0.08, 0.16),
            Self::Threadlocker => thread(0.14, 0.24),
            Self::PtfePaste => thread(0.04, 0.16),
            Self::Unknown => FrictionRange {
                thread: Interval {
                    low: 0.04,
                    high: 0.35,
                },
                head: Interval {
                    low: 0.08,
                    high: 0.35,
                },
            },
        }
    }

    /// What its intervals rest on: a key of the bibliography, or that there is none.
    pub const fn basis(self) -> &'static str {
        match self {
            Self::Dry | Self::LightOil | Self::Grease | Self::AntiSeize | Self::Threadlocker => {
                "vdi-2230"
            }
            Self::PtfePaste | Self::Unknown => NO_SOURCE,
        }
    }
}
