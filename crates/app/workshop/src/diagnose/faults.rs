//! What a fault of some size changes about a craft, in the model that choosing uses too.
//!
//! Sizes at severity 1 are from memory, no source; their errors are in what a signature may be off by.

use diagnosis::fault::Fault;
use propulsion::change::Change;
use propulsion::craft::Craft;
use propulsion::pump::MOST_GAP;

/// More gap when it is worn right out, `m`.
const WORN: f64 = 0.5e-3;
/// More gap where a ring has come loose.
const LOOSE: f64 = 0.6e-3;
/// Mass of a hull full of water, `kg`.
const SOAKED: f64 = 40.0;

/// The changes; none for what the water does not show.
///
/// Sizes grow with `s^1.5`: of the first half of the way to bad little is noticed. Tuned, like the sizes, on the
/// first half of `docs/studies/faults.md`.
pub(super) fn changes(fault: Fault, severity: f64, craft: &Craft) -> Vec<Change> {
    let s = severity.powf(1.5);
    let gap = |more: f64| {
        // Beyond this the slopes of the gap are not known.
        let room = MOST_GAP * craft.pump.height() - craft.pump.gap;
        Change::Gap(craft.pump.gap + s * more.min(room))
    };
    let blades = |head: f64, efficiency: f64| Change::Blades { head, efficiency };
    let nozzle = |area: f64| Change::Nozzle(craft.nozzle * (1.0 + area).sqrt());
    match fault {
        // A worn tip lets go of load before it eats more of it: engines are known to turn a little faster.
        Fault::Clearance => vec![gap(WORN), blades(0.04 * s, 0.01 * s)],
        Fault::Air => vec![Change::Air(0.2 * s), blades(0.02 * s, 0.0)],
        Fault::Grate => vec![Change::Intake {
            taken_in: 0.4 * s,
            throat: 1.5 * s,
        }],
        Fault::Blade => vec![blades(0.05 * s, 0.06 * s)],
        Fault::NozzleWide => vec![nozzle(0.06 * severity)],
        Fault::NozzleNarrow => vec![nozzle(-0.06 * severity)],
        Fault::Engine => vec![Change::Torque(0.20 * s)],
        Fault::Limp => vec![Change::Limiter(
            craft.engine.limiter * (1.0 - 0.4 * severity),
        )],
        Fault::Dirty => vec![Change::Hull(0.28 * s)],
        Fault::Heavy => vec![Change::Ballast(SOAKED * severity)],
        Fault::Slip => vec![Change::Slip(0.08 * s)],
        Fault::Ring => vec![gap(LOOSE), blades(0.06 * s, 0.05 * s)],
        Fault::Bearing => vec![Change::Torque(0.02 * s)],
        Fault::Misaligned => vec![Change::Torque(0.01 * s)],
        // Nothing, until it runs hot and its control holds it back.
        Fault::Hoses if severity > 0.7 => {
            vec![Change::Limiter(craft.engine.limiter * (1.5 - severity))]
        }
        Fault::Nothing | Fault::Unlisted | Fault::Hoses => Vec::new(),
        Fault::Gate => vec![Change::Jet(0.13 * s)],
    }
}
