//! Property classes: what a screw is made of.

use crate::{Error, Thread};

/// The property class marked on a screw's head.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Class {
    /// Steel 8.8.
    Steel8_8,
    /// Steel 10.9.
    Steel10_9,
    /// Austenitic stainless steel A2-50 or A4-50, soft.
    Stainless50,
    /// Austenitic stainless steel A2-70 or A4-70, cold worked.
    Stainless70,
    /// Austenitic stainless steel A2-80 or A4-80, cold worked hard.
    Stainless80,
    /// Stainless steel without a mark: no stronger than class 50 as far as anybody knows.
    StainlessUnmarked,
}

/// What a material bears.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `tensile` | Rm | tensile strength | `Pa` |
/// | `proof` | Rp0.2 | stress that leaves 0.2 % of strain | `Pa` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Tensile strength.
    pub tensile: f64,
    /// Stress that leaves 0.2 % of strain.
    pub proof: f64,
}

/// Up to this diameter class 8.8 has its lower figures.
const STEEL_STEP: f64 = 16e-3;

impl Class {
    /// Every class.
    pub const ALL: [Self; 6] = [
        Self::Steel8_8,
        Self::Steel10_9,
        Self::Stainless50,
        Self::Stainless70,
        Self::Stainless80,
        Self::StainlessUnmarked,
    ];

    /// The least the class guarantees at this size.
    ///
    /// Source: `iso-898-1` for steel, `iso-3506-1` for stainless; that a screw without a mark counts
    /// as class 50 is common practice.
    ///
    /// # Errors
    /// [`Error::NotPositive`] or [`Error::Pitch`] for a thread that is none.
    pub fn strength(self, thread: &Thread) -> Result<Strength, Error> {
        thread.geometry()?;
        let (tensile, proof) = match self {
            Self::Steel8_8 if thread.diameter <= STEEL_STEP => (800e6, 640e6),
            Self::Steel8_8 => (830e6, 660e6),
            Self::Steel10_9 => (1040e6, 940e6),
            Self::Stainless50 | Self::StainlessUnmarked => (500e6, 210e6),
            Self::Stainless70 => (700e6, 450e6),
            Self::Stainless80 => (800e6, 600e6),
        };
        Ok(Strength { tensile, proof })
    }

    /// Where its figures come from: a key of the bibliography, or that there is none.
    pub const fn source(self) -> &'static str {
        match self {
            Self::Steel8_8 | Self::Steel10_9 => "iso-898-1",
            Self::Stainless50 | Self::Stainless70 | Self::Stainless80 => "iso-3506-1",
            Self::StainlessUnmarked => NO_SOURCE,
        }
    }
}

/// What stands where no book can be named.
pub(crate) const NO_SOURCE: &str = "common practice, no source";

/// What stands where a figure or rule was not read anywhere for this work.
pub(crate) const FROM_MEMORY: &str = "from memory";
