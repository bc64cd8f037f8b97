//! What nobody can read off a craft, what is believed of it beforehand, and one belief of all of it.

use std::ops::{Index, IndexMut};

/// A quantity that is learnt from runs, or carried with its spread.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Unknown {
    /// Torque of this engine over that of its curve.
    Engine,
    /// By how much that share rises for every share of speed above the rated one.
    Rise,
    /// By how much the flow leaves flatter than Constant's rule says, `rad`.
    Deviation,
    /// Share of the shock at the leading edge that is lost.
    Incidence,
    /// Share of the swirl that the vanes do not recover.
    Stator,
    /// Friction on blades and walls.
    Friction,
    /// Loss of the intake over the energy it takes in.
    Intake,
    /// How much slower the water taken in is.
    Wake,
    /// Loss of the throat at low speed.
    Throat,
    /// Drag of the hull over that of the method.
    Hull,
    /// Air drag: coefficient times area, `m²`.
    Air,
    /// Drag of the hump over weight, beyond the method.
    Hump,
    /// Suction specific speed at which half of the head is lost.
    Breakdown,
    /// By how much that rises for every radian the leading edge is steeper than the one learnt from.
    Bite,
    /// Share of air the intake draws at rest, fading with speed.
    Froth,
    /// Efficiency of the pump over what the losses leave.
    Efficiency,
    /// Mass with riders and fuel over what was told.
    Mass,
    /// Head lost for every blade height of gap.
    GapHead,
    /// Efficiency lost for every blade height of gap.
    GapEfficiency,
}

/// What is believed before a craft has run: a normal law, cut off where it makes no sense.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// The quantity.
    pub of: Unknown,
    /// Its mean.
    pub mean: f64,
    /// Its standard deviation.
    pub spread: f64,
    /// No less than this.
    pub least: f64,
    /// No more than this.
    pub most: f64,
}

/// How many there are.
pub const COUNT: usize = 19;

const fn prior(of: Unknown, mean: f64, spread: f64, bounds: [f64; 2]) -> Prior {
    Prior {
        of,
        mean,
        spread,
        least: bounds[0],
        most: bounds[1],
    }
}

/// The most the flow may leave off the rule.
const OFF: f64 = 6.0_f64.to_radians();

/// The beliefs, in the order of [`Unknown`]. Assumed, no source; breakdown lies between the 1.6 to 4.7 of pumps
/// (`brennen-1994`, table 5.1) and the 9 that inducer-like blades would need to leave the line as they do.
pub const PRIORS: [Prior; COUNT] = [
    prior(Unknown::Engine, 1.0, 0.07, [0.6, 1.4]),
    prior(Unknown::Rise, 0.0, 0.3, [-2.5, 2.0]),
    prior(Unknown::Deviation, 0.0, 1.5_f64.to_radians(), [-OFF, OFF]),
    prior(Unknown::Incidence, 0.30, 0.15, [0.0, 1.0]),
    prior(Unknown::Stator, 0.30, 0.10, [0.0, 1.0]),
    prior(Unknown::Friction, 0.05, 0.025, [0.0, 0.15]),
    prior(Unknown::Intake, 0.20, 0.07, [0.0, 0.6]),
    prior(Unknown::Wake, 0.05, 0.03, [0.0, 0.25]),
    prior(Unknown::Throat, 0.20, 0.10, [0.0, 1.0]),
    prior(Unknown::Hull, 1.6, 0.6, [0.3, 5.0]),
    prior(Unknown::Air, 0.50, 0.12, [0.1, 1.2]),
    prior(Unknown::Hump, 0.15, 0.20, [-0.2, 1.2]),
    prior(Unknown::Breakdown, 6.7, 2.7, [2.5, 20.0]),
    prior(Unknown::Bite, -0.6, 1.2, [-12.0, 12.0]),
    prior(Unknown::Froth, 0.28, 0.12, [0.0, 0.5]),
    prior(Unknown::Efficiency, 1.0, 0.03, [0.8, 1.1]),
    prior(Unknown::Mass, 1.0, 0.02, [0.8, 1.2]),
    prior(Unknown::GapHead, 3.0, 1.2, [0.0, 9.0]),
    prior(Unknown::GapEfficiency, 2.0, 0.7, [0.0, 6.0]),
];

impl Unknown {
    /// All, in order.
    pub const ALL: [Self; COUNT] = {
        let mut all = [Self::Engine; COUNT];
        let mut at = 0;
        while at < COUNT {
            all[at] = PRIORS[at].of;
            at += 1;
        }
        all
    };

    /// What is believed of it beforehand.
    pub fn prior(self) -> &'static Prior {
        &PRIORS[self as usize]
    }
}

/// One belief of every unknown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unknowns(pub [f64; COUNT]);

impl Unknowns {
    /// The means of the priors.
    pub fn expected() -> Self {
        Self(PRIORS.map(|prior| prior.mean))
    }

    /// Whether every value is one that makes sense.
    pub fn sensible(&self) -> bool {
        // A bound reckoned in spreads comes back a last digit off.
        let within = |(value, prior): (&f64, &Prior)| {
            let slack = 1e-9 * prior.spread;
            (prior.least - slack..=prior.most + slack).contains(value)
        };
        self.0.iter().zip(&PRIORS).all(within)
    }
}

impl Index<Unknown> for Unknowns {
    type Output = f64;

    fn index(&self, of: Unknown) -> &f64 {
        &self.0[of as usize]
    }
}

impl IndexMut<Unknown> for Unknowns {
    fn index_mut(&mut self, of: Unknown) -> &mut f64 {
        &mut self.0[of as usize]
    }
}
