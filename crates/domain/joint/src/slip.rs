//! A torque that was misprinted or misread.
//!
//! A manual prints the same torque in two units, each rounded. Where the two disagree by more than
//! their rounding, one of them slipped, and the size of the disagreement says how.

use quantity::{Kind, Unit};

use crate::conversion::lowest_ceiling;
use crate::error::{not_negative, positive};
use crate::yielding::ceiling;
use crate::{Class, Error, FrictionRange, Interval, Screw};

/// A torque as printed.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `torque` | T | the figure, converted from its unit | `N m` |
/// | `rounding` | r | half a unit of its last printed place, converted too | `N m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The figure, converted from its unit.
    pub torque: f64,
    /// Half a unit of its last printed place, converted too.
    pub rounding: f64,
    /// The unit it was printed in.
    pub unit: Unit,
}

/// How a figure may have slipped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slip {
    /// The decimal point: ten times too large.
    TenTimesTooLarge,
    /// The decimal point: ten times too small.
    TenTimesTooSmall,
    /// The figure belongs to another unit than the one beside it.
    Unit {
        /// The unit it was meant in.
        meant: Unit,
        /// The unit that stands beside it.
        printed: Unit,
    },
}

/// Which of two figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    /// The first.
    First,
    /// The second.
    Second,
}

/// One slip that would explain a disagreement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suspect {
    /// The figure that would have slipped.
    pub figure: Which,
    /// How.
    pub slip: Slip,
    /// The torque it would have been.
    pub torque: f64,
}

/// Two figures for one torque.
#[derive(Clone, Debug, PartialEq)]
pub enum Comparison {
    /// Both say the same as far as their rounding tells.
    Agree,
    /// They do not.
    Differ {
        /// The second over the first.
        ratio: f64,
        /// The slips that would explain it, the nearest first; none where nothing known does.
        suspects: Vec<Suspect>,
    },
}

/// A single figure against what the screw bears.
#[derive(Clone, Debug, PartialEq)]
pub enum Plausibility {
    /// Within 90 % of yield whatever the friction of the range.
    Within,
    /// Within it only if the friction is on the rough side.
    OnlyIfRough {
        /// Torque up to which any friction of the range would do.
        limit: f64,
    },
    /// Above it whatever the friction.
    Above {
        /// Torque at 90 % of yield at the roughest.
        limit: f64,
        /// Slips that would explain it, in no order.
        slips: Vec<(Slip, f64)>,
    },
}

/// Units in which torques are printed.
const TORQUES: [Unit; 5] = [
    Unit::NewtonMetre,
    Unit::PoundForceFoot,
    Unit::PoundForceInch,
    Unit::KilogramForceMetre,
    Unit::KilogramForceCentimetre,
];

/// Figures may be this far apart beyond their rounding: tables are converted with short factors.
const SLACK: f64 = 0.02;

/// A slip must lead to at least this share of the limit to be worth telling.
const USEFUL: f64 = 0.2;

impl Figure {
    fn check(&self) -> Result<(), Error> {
        positive("the printed torque", self.torque)?;
        not_negative("the rounding of the printed torque", self.rounding)?;
        if self.unit.kind() == Kind::Torque {
            Ok(())
        } else {
            Err(Error::Unit { unit: self.unit })
        }
    }

    fn range(&self) -> Interval {
        Interval {
            low: self.torque - self.rounding,
            high: self.torque + self.rounding,
        }
    }

    fn agrees(&self, other: &Self) -> bool {
        let apart = (self.torque - other.torque).abs();
        self.range().overlaps(&other.range()) || apart <= SLACK * self.torque.max(other.torque)
    }

    /// The figure as it would have been without the slip.
    fn without(&self, slip: Slip) -> Self {
        let by = slip.factor();
        Self {
            torque: self.torque / by,
            rounding: self.rounding / by,
            unit: self.unit,
        }
    }

    /// Every slip this figure can have made.
    fn slips(&self) -> impl Iterator<Item = Slip> {
        let printed = self.unit;
        let units = TORQUES
            .into_iter()
            .filter(move |meant| *meant != printed)
            .map(move |meant| Slip::Unit { meant, printed });
        [Slip::TenTimesTooLarge, Slip::TenTimesTooSmall]
            .into_iter()
            .chain(units)
    }
}

impl Slip {
    /// How many times too large the torque reads.
    ///
    /// `f = T read / T meant`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | f | the figure as read over the figure as meant | `1` |
    ///
    /// Range: any slip between units of torque.
    /// Source: `definition`, of the units.
    pub fn factor(self) -> f64 {
        match self {
            Self::TenTimesTooLarge => 10.0,
            Self::TenTimesTooSmall => 0.1,
            Self::Unit { meant, printed } => meant.from_si(1.0) / printed.from_si(1.0),
        }
    }
}

/// Holds two figures for one torque against one another.
///
/// They agree when the intervals of their rounding overlap, or when they are within 2 %.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`] or [`Error::Unit`] for a figure that is none.
pub fn compare(first: &Figure, second: &Figure) -> Result<Comparison, Error> {
    first.check()?;
    second.check()?;
    if first.agrees(second) {
        return Ok(Comparison::Agree);
    }
    let mut suspects = Vec::new();
    for (figure, slipped, other) in [
        (Which::First, first, second),
        (Which::Second, second, first),
    ] {
        for slip in slipped.slips() {
            let meant = slipped.without(slip);
            if meant.agrees(other) {
                let apart = (meant.torque / other.torque).ln().abs();
                let torque = meant.torque;
                suspects.push((
                    apart,
                    Suspect {
                        figure,
                        slip,
                        torque,
                    },
                ));
            }
        }
    }
    suspects.sort_by(|a, b| a.0.total_cmp(&b.0));
    Ok(Comparison::Differ {
        ratio: second.torque / first.torque,
        suspects: suspects.into_iter().map(|(_, suspect)| suspect).collect(),
    })
}

/// Holds a single figure against 90 % of yield of the stated size and class.
///
/// A slip is told when it leads to a torque the screw bears, and to no less than a fifth of that.
/// Source: the ceiling from `vdi-2230`; the fifth is common practice.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`], [`Error::Unit`], and those of the screw.
pub fn plausibility(
    figure: &Figure,
    screw: &Screw,
    class: Class,
    friction: &FrictionRange,
) -> Result<Plausibility, Error> {
    figure.check()?;
    friction.check()?;
    let least = lowest_ceiling(screw, class, friction)?;
    let limit = ceiling(screw, class, friction.high())?.torque.max(least);
    if figure.torque <= least {
        return Ok(Plausibility::Within);
    }
    if figure.torque <= limit {
        return Ok(Plausibility::OnlyIfRough { limit: least });
    }
    let useful = Interval {
        low: USEFUL * limit,
        high: limit,
    };
    let slips = figure
        .slips()
        .map(|slip| (slip, figure.without(slip).torque))
        .filter(|(_, torque)| useful.contains(*torque))
        .collect();
    Ok(Plausibility::Above { limit, slips })
}
