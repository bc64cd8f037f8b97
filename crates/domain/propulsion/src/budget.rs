//! Where the power of the engine goes: every loss by its own formula, none the remainder.

use crate::breakdown::left;
use crate::craft::{Conditions, Craft, MECHANICAL, NOZZLE};
use crate::matching::Point;
use crate::pump::gap_factors;
use crate::unknown::Unknown;

/// Where power goes, `W`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Budget {
    /// Into the pump's shaft.
    pub shaft: f64,
    /// Bearings, seals.
    pub mechanical: f64,
    /// Tip gap, damage, and what makes the pump better or worse than its losses say.
    pub leakage: f64,
    /// Shock at the leading edge.
    pub incidence: f64,
    /// Swirl past the vanes.
    pub swirl: f64,
    /// Friction in the pump.
    pub friction: f64,
    /// Breakdown of the suction.
    pub breakdown: f64,
    /// Nozzle.
    pub nozzle: f64,
    /// Intake, throat included.
    pub intake: f64,
    /// Energy left behind in the jet, less what the wake gave.
    pub jet: f64,
    /// Pushing the craft.
    pub useful: f64,
}

/// Where the power of one point goes.
///
/// With `P = rho Q gH_E k B^0.7/(eta_m k_eta)`: mechanical `(1 − eta_m) P`; leakage `(1 − k_eta) eta_m P`;
/// each head loss `h` as `rho Q h k B^0.7`; breakdown `rho Q gH k (B^0.7 − B)`; nozzle `rho Q phi_n V_j²/2`;
/// intake `rho Q [eps (1 − w)² V²/2 + h_d]`; jet `rho Q [(V_j − V)² − w² V²]/2`; useful `T V`
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | of the point |  |
/// | `day` | of the point |  |
/// | `point` | a balance found for them |  |
/// | `returns` | where it goes | `W` |
///
/// Range: as the point's; the parts add up to the shaft's power where the heads balance.
/// Source: definition.
pub fn budget(craft: &Craft, day: &Conditions, point: &Point) -> Budget {
    let losses = craft.losses();
    let duct = craft.duct();
    let slopes = [Unknown::GapHead, Unknown::GapEfficiency].map(|of| craft.unknowns[of]);
    let [head_left, gap] = gap_factors(craft.pump.gap_more(), slopes);
    let [air, aired] = craft.aired(point.speed);
    let k = head_left * (1.0 - craft.ills.head) * aired;
    let efficiency = gap * (1.0 - craft.ills.efficiency) * craft.unknowns[Unknown::Efficiency];
    let [broken, powered] = left(point.suction);
    let mass = day.water.density * (1.0 - air) * point.flow;
    let heads = craft.pump.losses(&losses, point.shaft, point.flow);
    let head = craft.pump.head(&losses, point.shaft, point.flow);
    let work = craft.pump.work(&losses, point.shaft, point.flow);
    let shaft = mass * work * k * powered / (MECHANICAL * efficiency);
    let (jet, speed) = (point.flow / duct.jet, point.speed);
    let wake = duct.wake;
    Budget {
        shaft,
        mechanical: (1.0 - MECHANICAL) * shaft,
        leakage: (1.0 - efficiency) * MECHANICAL * shaft,
        incidence: mass * heads.incidence * k * powered,
        swirl: mass * heads.stator * k * powered,
        friction: mass * heads.friction * k * powered,
        breakdown: mass * head * k * (powered - broken),
        nozzle: 0.5 * mass * NOZZLE * jet * jet,
        intake: mass
            * (0.5 * duct.intake * ((1.0 - wake) * speed).powi(2) + duct.sucked(point.flow, speed)),
        jet: 0.5 * mass * ((jet - speed).powi(2) - (wake * speed).powi(2)),
        useful: duct.thrust(mass / point.flow, point.flow, speed) * speed,
    }
}

impl Budget {
    /// All that is lost and what is useful, `W`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `returns` | their sum | `W` |
    ///
    /// Range: any.
    /// Source: definition.
    pub fn together(&self) -> f64 {
        self.mechanical
            + self.leakage
            + self.incidence
            + self.swirl
            + self.friction
            + self.breakdown
            + self.nozzle
            + self.intake
            + self.jet
            + self.useful
    }
}
