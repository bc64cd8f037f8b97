//! Invented pumps with known faults, felt with invented leaves. Committed before what it judges.
//!
//! Every spot of an impeller of four blades at eight clock positions is felt with the whole leaf
//! set. The ring is rough besides its faults, the hand scatters, the leaf set is off as one, and
//! none of these is told to whoever looks for the fault.

use std::f64::consts::{PI, TAU};

use clearance::{Answer, Cell, Feel, Model, Try, cell};
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};

/// Blades of an invented impeller.
pub(crate) const BLADES: usize = 4;
/// Clock positions at which each is felt.
pub(crate) const POSITIONS: usize = 8;
/// Least and greatest roughness of an invented ring: sd of a spot about the faults.
const ROUGH: (f64, f64) = (3e-6, 15e-6);

/// A kind of fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    OffCentre,
    Oval,
    Local,
    Blade,
    Runout,
}

/// A fault as it is: where, and how far the gap departs. Angles in rad, clockwise from 12.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Fault {
    pub(crate) kind: Kind,
    /// Position or blade counted from zero, for the kinds that have one.
    pub(crate) place: usize,
    /// Direction in which the gap is largest, for the kinds that have one.
    pub(crate) angle: f64,
    /// Amplitude of a wave, or departure of a place or a blade, in `m`.
    pub(crate) size: f64,
}

impl Fault {
    /// What the fault adds to the gap of a blade at a position.
    pub(crate) fn adds(&self, blade: usize, position: usize) -> f64 {
        let clock = TAU * count(position) / count(POSITIONS);
        let turn = TAU * count(blade) / count(BLADES);
        let here = |place: usize| if place == self.place { self.size } else { 0.0 };
        match self.kind {
            Kind::OffCentre => self.size * (clock - self.angle).cos(),
            Kind::Oval => self.size * (2.0 * (clock - self.angle)).cos(),
            Kind::Runout => self.size * (turn - self.angle).cos(),
            Kind::Local => here(position),
            Kind::Blade => here(blade),
        }
    }
}

/// Leaf sets of the trade: steps of 0.05 mm, and inch leaves in steps of 1 to 2 thou.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Leaves {
    Metric,
    Inch,
}

impl Leaves {
    pub(crate) fn thicknesses(self) -> Vec<f64> {
        let thou = 25.4e-6;
        match self {
            Self::Metric => (1..=24).map(|i| f64::from(i) * 50e-6).collect(),
            Self::Inch => (2..=20)
                .chain((22..=50).step_by(2))
                .map(|i| f64::from(i) * thou)
                .collect(),
        }
    }

    /// The step in which effects are counted.
    pub(crate) fn step(self) -> f64 {
        match self {
            Self::Metric => 50e-6,
            Self::Inch => 25.4e-6,
        }
    }
}

/// An invented pump: its faults, its gaps, and what the leaves said. Spots run blade by blade.
#[derive(Clone, Debug)]
pub(crate) struct Pump {
    pub(crate) faults: Vec<Fault>,
    pub(crate) gaps: Vec<f64>,
    pub(crate) cells: Vec<Cell>,
}

/// One pump. `effect` is what each fault makes of the gap, greatest less least, in `m`.
pub(crate) fn pump(kinds: &[Kind], effect: f64, leaves: Leaves, seed: u64) -> Pump {
    let mut dice = Dice(Pcg64Mcg::seed_from_u64(seed));
    let faults: Vec<Fault> = kinds.iter().map(|&kind| dice.fault(kind, effect)).collect();
    let mean = dice.between(0.45e-3, 0.60e-3);
    let rough = dice.between(ROUGH.0, ROUGH.1);
    let model = Model::default();
    let off = dice.between(-model.leaf_tolerance, model.leaf_tolerance);
    let mut gaps = Vec::new();
    let mut cells = Vec::new();
    for blade in 0..BLADES {
        for position in 0..POSITIONS {
            let faulty: f64 = faults.iter().map(|f| f.adds(blade, position)).sum();
            let gap = (mean + faulty + rough * dice.normal()).max(0.0);
            let felt = gap - off + model.feel.scatter * dice.normal();
            gaps.push(gap);
            cells.push(feel(felt, leaves, &model.feel));
        }
    }
    Pump {
        faults,
        gaps,
        cells,
    }
}

/// What a whole leaf set says of one indicated gap.
fn feel(indicated: f64, leaves: Leaves, hand: &Feel) -> Cell {
    let tries: Vec<Try> = leaves
        .thicknesses()
        .into_iter()
        .map(|thickness| Try {
            thickness,
            answer: if indicated > thickness + hand.goes {
                Answer::Goes
            } else {
                Answer::WontGo
            },
        })
        .collect();
    cell(&tries, hand).unwrap()
}

/// Draws of one pump.
struct Dice(Pcg64Mcg);

impl Dice {
    fn fault(&mut self, kind: Kind, effect: f64) -> Fault {
        let angle = self.between(0.0, TAU);
        let sign = if self.between(0.0, 1.0) < 0.5 {
            -1.0
        } else {
            1.0
        };
        let (places, size) = match kind {
            Kind::Local => (POSITIONS, sign * effect),
            Kind::Blade => (BLADES, sign * effect),
            // A wave's greatest and least are twice its amplitude apart.
            Kind::OffCentre | Kind::Oval | Kind::Runout => (1, 0.5 * effect),
        };
        let place = usize::try_from(self.0.next_u64() % places as u64).unwrap();
        let angle = if kind == Kind::Oval {
            0.5 * angle
        } else {
            angle
        };
        Fault {
            kind,
            place,
            angle,
            size,
        }
    }

    /// A number from the open interval 0 to 1.
    #[expect(clippy::cast_precision_loss, reason = "52 bits fit")]
    fn uniform(&mut self) -> f64 {
        ((self.0.next_u64() >> 12) as f64 + 0.5) * f64::powi(0.5, 52)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }

    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.uniform().ln()).sqrt();
        radius * (TAU * self.uniform()).cos()
    }
}

#[expect(clippy::cast_precision_loss, reason = "counts of blades and positions")]
fn count(n: usize) -> f64 {
    n as f64
}

#[test]
fn law_a_fault_has_the_size_asked_for() {
    for kind in [
        Kind::OffCentre,
        Kind::Oval,
        Kind::Local,
        Kind::Blade,
        Kind::Runout,
    ] {
        let fault = pump(&[kind], 2e-4, Leaves::Metric, 3).faults[0];
        let at = |i: usize| fault.adds(i / POSITIONS, i % POSITIONS);
        let adds: Vec<f64> = (0..BLADES * POSITIONS).map(at).collect();
        let spread = adds.iter().fold(f64::MIN, |a, &b| a.max(b))
            - adds.iter().fold(f64::MAX, |a, &b| a.min(b));
        // Seen at few angles a wave may show the cosine of half a pitch less, oval and runout the most.
        let seen = (PI / 4.0).cos();
        assert!(
            spread <= 2e-4 * (1.0 + 1e-12) && spread >= 2e-4 * seen * (1.0 - 1e-12),
            "{kind:?} {spread}"
        );
    }
}

#[test]
fn law_every_cell_is_a_step_wide_and_near_its_gap() {
    for (leaves, steps) in [(Leaves::Metric, 1.0), (Leaves::Inch, 2.0)] {
        let pump = pump(&[Kind::Local, Kind::Oval], 1e-4, leaves, 5);
        for (gap, cell) in pump.gaps.iter().zip(&pump.cells) {
            assert!(cell.high - cell.low <= steps * leaves.step() * (1.0 + 1e-9));
            // Five standard deviations of the hand, and the leaf set off by its most.
            assert!(cell.low - 30e-6 <= *gap && *gap <= cell.high + 30e-6);
        }
    }
}
