//! ISO metric threads and their geometry.

use std::f64::consts::PI;
use std::fmt;
use std::str::FromStr;

use crate::Error;
use crate::error::positive;

/// A metric thread.
///
/// Parsed from its designation: `M6`, `M8x1`, `M8×1`, `m8x1.25`. A designation without a pitch is
/// the coarse thread. Source: `iso-262`.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `diameter` | d | nominal diameter | `m` |
/// | `pitch` | P | from one turn of the thread to the next | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thread {
    /// Nominal diameter.
    pub diameter: f64,
    /// From one turn of the thread to the next.
    pub pitch: f64,
}

/// Nominal diameter, coarse pitch, fine pitches.
type Row = (f64, f64, &'static [f64]);

/// Sizes from M4 to M24 without the ones nobody stocks.
const THREADS: [Row; 12] = [
    (4e-3, 0.7e-3, &[]),
    (5e-3, 0.8e-3, &[]),
    (6e-3, 1e-3, &[]),
    (8e-3, 1.25e-3, &[1e-3]),
    (10e-3, 1.5e-3, &[1.25e-3, 1e-3]),
    (12e-3, 1.75e-3, &[1.5e-3, 1.25e-3]),
    (14e-3, 2e-3, &[1.5e-3]),
    (16e-3, 2e-3, &[1.5e-3]),
    (18e-3, 2.5e-3, &[2e-3, 1.5e-3]),
    (20e-3, 2.5e-3, &[2e-3, 1.5e-3]),
    (22e-3, 2.5e-3, &[2e-3, 1.5e-3]),
    (24e-3, 3e-3, &[2e-3]),
];

/// Diameters and areas of the basic profile.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `pitch_diameter` | d2 | where thread and gap are equally wide | `m` |
/// | `core_diameter` | d3 | bottom of the screw's thread | `m` |
/// | `hole_diameter` | D1 | crest of the internal thread | `m` |
/// | `stress_area` | As | what a tensile test of the thread sees | `m^2` |
/// | `core_area` | A3 | cross section of the core | `m^2` |
/// | `lead` | phi | lead angle at the pitch diameter | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geometry {
    /// Where thread and gap are equally wide.
    pub pitch_diameter: f64,
    /// Bottom of the screw's thread.
    pub core_diameter: f64,
    /// Crest of the internal thread.
    pub hole_diameter: f64,
    /// What a tensile test of the thread sees.
    pub stress_area: f64,
    /// Cross section of the core.
    pub core_area: f64,
    /// Lead angle at the pitch diameter.
    pub lead: f64,
}

/// The core diameter lies this many profile heights below the nominal one.
const CORE_DEPTH: f64 = 17.0 / 12.0;

impl Thread {
    /// Every thread that has a designation here, coarse before fine within a size.
    pub fn all() -> impl Iterator<Item = Self> {
        THREADS.iter().flat_map(|&(diameter, coarse, fine)| {
            std::iter::once(coarse)
                .chain(fine.iter().copied())
                .map(move |pitch| Self { diameter, pitch })
        })
    }

    /// Diameters and areas of the basic profile.
    ///
    /// `H = sqrt(3)/2 P`, `d2 = d - 3/4 H`, `D1 = d - 5/4 H`, `d3 = d - 17/12 H`,
    /// `As = pi/4 ((d2 + d3)/2)^2`, `A3 = pi/4 d3^2`, `phi = atan(P / (pi d2))`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `self` | d, P | nominal diameter and pitch | `m` |
    /// | returns | d2, d3, D1, As, A3, phi | as in [`Geometry`] | |
    ///
    /// Range: `d > 0`, `0 < P`, `17/12 H < d`.
    /// Source: `iso-68-1`, `iso-724`; the stress area as in `iso-898-1`.
    ///
    /// # Errors
    /// [`Error::NotPositive`] or [`Error::Pitch`] outside the range.
    pub fn geometry(&self) -> Result<Geometry, Error> {
        let d = positive("the nominal diameter", self.diameter)?;
        let pitch = positive("the pitch", self.pitch)?;
        let height = 0.5 * 3.0_f64.sqrt() * pitch;
        let core_diameter = d - CORE_DEPTH * height;
        if core_diameter <= 0.0 {
            return Err(Error::Pitch {
                pitch,
                limit: d / (CORE_DEPTH * 0.5 * 3.0_f64.sqrt()),
            });
        }
        let pitch_diameter = d - 0.75 * height;
        Ok(Geometry {
            pitch_diameter,
            core_diameter,
            hole_diameter: d - 1.25 * height,
            stress_area: circle(0.5 * (pitch_diameter + core_diameter)),
            core_area: circle(core_diameter),
            lead: (pitch / (PI * pitch_diameter)).atan(),
        })
    }

    fn is_coarse(&self) -> bool {
        THREADS
            .iter()
            .any(|row| same(row.0, self.diameter) && same(row.1, self.pitch))
    }
}

/// Area of a circle from its diameter.
pub(crate) fn circle(diameter: f64) -> f64 {
    0.25 * PI * diameter * diameter
}

/// Both come from decimal text, so equal numbers are the same bits.
pub(crate) fn same(a: f64, b: f64) -> bool {
    a.to_bits() == b.to_bits()
}

impl FromStr for Thread {
    type Err = Error;

    fn from_str(text: &str) -> Result<Self, Error> {
        let unknown = |known| Error::Designation {
            text: text.into(),
            known,
        };
        let (diameter, pitch) = numbers(text).ok_or_else(|| unknown(Vec::new()))?;
        let known: Vec<Self> = Self::all()
            .filter(|known| same(known.diameter, diameter))
            .collect();
        // The coarse thread stands first.
        let found = known
            .iter()
            .find(|known| pitch.is_none_or(|pitch| same(known.pitch, pitch)));
        found.copied().ok_or_else(|| unknown(known))
    }
}

/// Diameter and, if there is one, pitch of a text such as `M8x1`.
fn numbers(text: &str) -> Option<(f64, Option<f64>)> {
    let rest = text.trim().strip_prefix(['M', 'm'])?;
    match rest.split_once(['x', 'X', '×']) {
        Some((size, pitch)) => Some((millimetres(size)?, Some(millimetres(pitch)?))),
        None => Some((millimetres(rest)?, None)),
    }
}

/// A plain decimal number of millimetres, the comma allowed, as exactly the metres of the table.
fn millimetres(text: &str) -> Option<f64> {
    let text = text.trim().replace(',', ".");
    let plain = text.chars().all(|c| c.is_ascii_digit() || c == '.');
    plain.then(|| format!("{text}e-3").parse().ok()).flatten()
}

/// The designation, the pitch left out where the thread is a coarse one.
impl fmt::Display for Thread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let size = quantity::number(self.diameter, quantity::Unit::Millimetre, 0);
        write!(f, "M{size}")?;
        if self.is_coarse() {
            return Ok(());
        }
        let pitch = quantity::number(self.pitch, quantity::Unit::Millimetre, 2);
        write!(f, "×{}", pitch.trim_end_matches('0').trim_end_matches('.'))
    }
}
