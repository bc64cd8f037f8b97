//! Why an option does what it does: where the engine's power goes with it, and where it went.

use propulsion::budget::Budget;

/// Where power goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// What the engine gives at the speed it is let turn.
    Engine,
    /// Shock at the leading edge.
    Incidence,
    /// Swirl past the vanes.
    Swirl,
    /// Friction in the pump.
    Friction,
    /// The gap at the tips.
    Gap,
    /// Breakdown of the suction.
    Breakdown,
    /// The jet, faster or slower than pushes best.
    Jet,
    /// The intake.
    Intake,
    /// The nozzle.
    Nozzle,
}

/// One cause, with what it gives or takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reason {
    /// Which.
    pub cause: Cause,
    /// Power for pushing the craft that it gives; below 0 that it takes, `W`.
    pub gives: f64,
}

/// How many are told.
const TOLD: usize = 3;
/// Less than this share of the shaft's power is nothing to tell.
const LEAST: f64 = 0.000_5;

/// The causes of the difference between two budgets, the largest first.
pub(super) fn reasons(now: &Budget, with: &Budget) -> Vec<Reason> {
    let share =
        |part: fn(&Budget) -> f64| (part(now) / now.shaft - part(with) / with.shaft) * with.shaft;
    let useful = now.useful / now.shaft;
    let mut reasons = vec![
        (Cause::Engine, (with.shaft - now.shaft) * useful),
        (Cause::Incidence, share(|budget| budget.incidence)),
        (Cause::Swirl, share(|budget| budget.swirl)),
        (Cause::Friction, share(|budget| budget.friction)),
        (Cause::Gap, share(|budget| budget.leakage)),
        (Cause::Breakdown, share(|budget| budget.breakdown)),
        (Cause::Jet, share(|budget| budget.jet)),
        (Cause::Intake, share(|budget| budget.intake)),
        (Cause::Nozzle, share(|budget| budget.nozzle)),
    ];
    reasons.retain(|(_, gives)| gives.abs() > LEAST * now.shaft);
    reasons.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
    let reason = |(cause, gives)| Reason { cause, gives };
    reasons.into_iter().take(TOLD).map(reason).collect()
}
