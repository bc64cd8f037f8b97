//! What was felt where, and what each cause would add there.

use std::f64::consts::TAU;

use crate::error::{not_negative, positive};
use crate::{Cell, Error, Model, real};

/// Roughness of a ring in use: equally likely standard deviations, in `m`, of a spot about all that
/// has a cause. Which of them it is, the readings tell.
///
/// From a ring hardly run to one well scored, each twice the one before.
/// Assumed. Source: `common practice, no source`.
pub const ROUGHNESS: [f64; 3] = [4e-6, 8e-6, 16e-6];

/// Blades, clock positions and axial stations at which a gap can be felt.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    blades: usize,
    angles: Vec<f64>,
    stations: usize,
}

impl Frame {
    /// A frame whose positions stand at the angles given.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `blades` | blades of the impeller | |
    /// | `angles` | clock angle of each position, clockwise from 12 | `rad` |
    /// | `stations` | places along the shaft | |
    ///
    /// # Errors
    /// [`Error::Empty`] without blades, positions or stations; [`Error::Outside`] for an angle not
    /// from 0 to a full turn; [`Error::Twice`] for an angle given twice.
    pub fn new(blades: usize, angles: Vec<f64>, stations: usize) -> Result<Self, Error> {
        for (count, what) in [
            (blades, "blade"),
            (angles.len(), "clock position"),
            (stations, "station along the shaft"),
        ] {
            if count == 0 {
                return Err(Error::Empty { what });
            }
        }
        for (i, &angle) in angles.iter().enumerate() {
            if !(0.0..TAU).contains(&angle) {
                return Err(Error::Outside {
                    what: "the clock angle",
                    value: angle,
                    low: 0.0,
                    high: TAU,
                });
            }
            if angles[..i].iter().any(|a| a.to_bits() == angle.to_bits()) {
                return Err(Error::Twice {
                    what: "clock position",
                    at: i,
                });
            }
        }
        Ok(Self {
            blades,
            angles,
            stations,
        })
    }

    /// A frame of evenly spaced positions, the first at 12.
    ///
    /// # Errors
    /// As [`Frame::new`].
    pub fn even(blades: usize, positions: usize, stations: usize) -> Result<Self, Error> {
        let angle = |p| TAU * real(p) / real(positions);
        Self::new(blades, (0..positions).map(angle).collect(), stations)
    }

    /// Number of blades.
    pub fn blades(&self) -> usize {
        self.blades
    }

    /// Number of clock positions.
    pub fn positions(&self) -> usize {
        self.angles.len()
    }

    /// Number of stations along the shaft.
    pub fn stations(&self) -> usize {
        self.stations
    }

    /// Clock angle of a position, in `rad`. It panics, as indexing does, when there is no such position.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | clockwise from 12 | `rad` |
    ///
    /// Range: a position of the frame.
    /// Source: definition.
    pub fn angle(&self, position: usize) -> f64 {
        self.angles[position]
    }

    /// Every spot, station by station, blade by blade.
    pub fn spots(&self) -> impl Iterator<Item = Spot> + '_ {
        let (blades, positions) = (self.blades, self.angles.len());
        (0..self.stations * blades * positions).map(move |i| Spot {
            station: i / (blades * positions),
            blade: i / positions % blades,
            position: i % positions,
        })
    }

    pub(super) fn check(&self, spot: Spot) -> Result<(), Error> {
        for (at, of, what) in [
            (spot.blade, self.blades, "blade"),
            (spot.position, self.angles.len(), "clock position"),
            (spot.station, self.stations, "station along the shaft"),
        ] {
            if at >= of {
                return Err(Error::NoSuchPlace { what, at, of });
            }
        }
        Ok(())
    }
}

/// A blade under a clock position at a station, each counted from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot {
    /// Place along the shaft.
    pub station: usize,
    /// The blade that stands there.
    pub blade: usize,
    /// Clock position of the housing.
    pub position: usize,
}

/// The cell felt at a spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Where.
    pub spot: Spot,
    /// What the leaves left open there.
    pub cell: Cell,
}

/// Something that makes the gap differ from spot to spot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The shaft stands off the ring's centre: a wave once round the clock.
    OffCentre,
    /// The ring is oval: a wave twice round the clock.
    Oval,
    /// The ring is swollen or gouged at one position: every blade meets it there.
    Local(usize),
    /// One blade is shorter or longer than the rest: it carries that wherever it goes.
    Blade(usize),
    /// The impeller runs off its own centre, bent or badly bored: a wave once round the blades.
    Runout,
    /// Every blade has its own length.
    Uneven,
    /// One reading stands alone: the leaf rode on a ridge, or the answer was a slip.
    Stray(Spot),
}

impl Cause {
    /// How many columns it brings.
    pub(super) fn width(self, frame: &Frame) -> usize {
        match self {
            Self::OffCentre | Self::Oval | Self::Runout => 2,
            Self::Local(_) | Self::Blade(_) | Self::Stray(_) => 1,
            Self::Uneven => frame.blades - 1,
        }
    }

    /// Appends what a unit of each of its parameters adds at a spot.
    fn append(self, frame: &Frame, spot: Spot, row: &mut Vec<f64>) {
        let mut wave = |angle: f64| row.extend([angle.cos(), angle.sin()]);
        let flag = |yes: bool| f64::from(u8::from(yes));
        match self {
            Self::OffCentre => wave(frame.angles[spot.position]),
            Self::Oval => wave(2.0 * frame.angles[spot.position]),
            Self::Runout => wave(TAU * real(spot.blade) / real(frame.blades)),
            Self::Local(position) => row.push(flag(spot.position == position)),
            Self::Blade(blade) => row.push(flag(spot.blade == blade)),
            Self::Stray(stray) => row.push(flag(spot == stray)),
            Self::Uneven => {
                let last = flag(spot.blade + 1 == frame.blades);
                row.extend((0..frame.blades - 1).map(|k| flag(spot.blade == k) - last));
            }
        }
    }

    pub(super) fn check(self, frame: &Frame) -> Result<(), Error> {
        let spot = |blade, position| Spot {
            station: 0,
            blade,
            position,
        };
        match self {
            Self::Local(position) => frame.check(spot(0, position)),
            Self::Blade(blade) => frame.check(spot(blade, 0)),
            Self::Stray(stray) => frame.check(stray),
            Self::OffCentre | Self::Oval | Self::Runout | Self::Uneven => Ok(()),
        }
    }
}

/// Appends the flags of the stations and what the causes add at a spot.
pub(super) fn row(frame: &Frame, causes: &[Cause], spot: Spot) -> Vec<f64> {
    let mut row: Vec<f64> = (0..frame.stations)
        .map(|station| f64::from(u8::from(spot.station == station)))
        .collect();
    for cause in causes {
        cause.append(frame, spot, &mut row);
    }
    row
}

/// All that was felt round a pump, and what stands between a leaf and a gap.
#[derive(Clone, Debug, PartialEq)]
pub struct Survey {
    frame: Frame,
    readings: Vec<Reading>,
    model: Model,
    roughness: Vec<f64>,
}

impl Survey {
    /// Readings at spots of a frame, one a spot.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `frame` | where readings may be taken | |
    /// | `readings` | cells of the indicated gap; an upper end may be infinite | `m` |
    /// | `model` | feel, leaf set, chord; its spread between spots is not used | |
    /// | `roughness` | equally likely sd of a spot about its causes, as [`ROUGHNESS`]; one if known | `m` |
    ///
    /// # Errors
    /// [`Error::Empty`], [`Error::NoSuchPlace`], [`Error::Twice`], [`Error::Cell`],
    /// [`Error::NoUpperBound`] when every leaf went in everywhere, [`Error::NotPositive`] when
    /// neither feel nor roughness scatters, and those of the model.
    pub fn new(
        frame: Frame,
        readings: Vec<Reading>,
        model: Model,
        roughness: &[f64],
    ) -> Result<Self, Error> {
        model.check()?;
        for &roughness in roughness {
            not_negative("the roughness of the ring", roughness)?;
            positive("the scatter of a spot", model.feel.scatter.hypot(roughness))?;
        }
        if roughness.is_empty() {
            return Err(Error::Empty { what: "roughness" });
        }
        for (at, Reading { spot, cell }) in readings.iter().enumerate() {
            frame.check(*spot)?;
            let Cell { low, high } = *cell;
            if low.is_nan() || low < 0.0 || high.is_nan() || low >= high {
                return Err(Error::Cell { low, high });
            }
            if readings[..at].iter().any(|before| before.spot == *spot) {
                let what = "spot";
                return Err(Error::Twice { what, at });
            }
        }
        if readings.is_empty() {
            return Err(Error::Empty { what: "reading" });
        }
        if readings.iter().all(|r| r.cell.high.is_infinite()) {
            let largest = readings.iter().map(|r| r.cell.low).fold(0.0, f64::max);
            return Err(Error::NoUpperBound { largest });
        }
        Ok(Self {
            frame,
            readings,
            model,
            roughness: roughness.to_vec(),
        })
    }

    /// Where readings may be taken.
    pub fn frame(&self) -> &Frame {
        &self.frame
    }

    /// What was felt.
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// What stands between a leaf and a gap.
    pub fn model(&self) -> &Model {
        &self.model
    }

    /// Roughness of the ring: sd of the gap at a spot about its causes, equally likely values.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | as given | `m` |
    ///
    /// Range: any survey.
    /// Source: definition.
    pub fn roughness(&self) -> &[f64] {
        &self.roughness
    }

    /// Scatters of the indicated gap at a spot about its causes, one for each roughness.
    ///
    /// `sigma_i = sqrt(feel^2 + roughness_i^2)`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | sigma | standard deviations, equally likely | `m` |
    ///
    /// Range: any survey.
    /// Source: definition.
    pub fn scatters(&self) -> impl Iterator<Item = f64> + '_ {
        let feel = self.model.feel.scatter;
        self.roughness.iter().map(move |rough| feel.hypot(*rough))
    }

    /// The scatter that stands for all of them: the root of their mean square.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | standard deviation | `m` |
    ///
    /// Range: any survey.
    /// Source: definition.
    pub fn scatter(&self) -> f64 {
        let squares: f64 = self.scatters().map(|scatter| scatter * scatter).sum();
        (squares / real(self.roughness.len())).sqrt()
    }

    /// The cells in units of the scatter, about the middle of all finite ends, which comes second.
    pub(super) fn standard(&self) -> (Vec<Cell>, f64) {
        let ends = || {
            let both = |r: &Reading| [r.cell.low, r.cell.high];
            self.readings
                .iter()
                .flat_map(both)
                .filter(|x| x.is_finite())
        };
        let low = ends().fold(f64::INFINITY, f64::min);
        let high = ends().fold(f64::NEG_INFINITY, f64::max);
        let (middle, unit) = (0.5 * (low + high), self.scatter());
        let scaled = |r: &Reading| Cell {
            low: (r.cell.low - middle) / unit,
            high: (r.cell.high - middle) / unit,
        };
        (self.readings.iter().map(scaled).collect(), middle)
    }
}
