//! Quantities as a run shows them, and as they are reckoned with.

use diagnosis::signature::Observable;
use propulsion::observe::LAUNCH;
use propulsion::run::Run;

use super::seen::Measured;

/// A time that is not reached, `s`: later than any craft that gets there.
const NEVER: f64 = 40.0;
/// No time falls below this share of what it should be: assumed, no source.
const SHORTEST: f64 = 0.2;

/// What a run shows of a quantity, in SI; the gap is no matter of runs.
pub(super) fn shows(run: &Run, of: Observable) -> f64 {
    match of {
        Observable::TopSpeed => run.top.speed,
        Observable::TopEngine => run.top.engine,
        Observable::LaunchEngine => run.engine_at(LAUNCH),
        Observable::Passing(at) => run.engine_at(at),
        Observable::Start(to) => run.time_to(to).unwrap_or(NEVER).min(NEVER),
        Observable::Gap => 0.0,
    }
}

/// A quantity after it went as a belief sees it go, as it is reckoned with. The engine takes its time to answer and the
/// hand to open, whatever the pump does: so a time goes by as many seconds, not by as large a share.
pub(super) fn moved(of: Observable, from: f64, [before, after]: [f64; 2]) -> f64 {
    match of {
        // What the belief never sees reached tells no seconds.
        Observable::Start(_) if before >= NEVER => from.ln(),
        Observable::Start(_) if after >= NEVER => NEVER.ln(),
        Observable::Start(_) => (from + after - before).clamp(SHORTEST * from, NEVER).ln(),
        _ => from + after - before,
    }
}

/// A quantity as it is reckoned with: times by their logarithms, for what doubles one doubles it for fast and slow craft.
pub(super) fn on_scale(of: Observable, value: f64) -> f64 {
    match of {
        Observable::Start(_) => value.ln(),
        _ => value,
    }
}

/// The same back.
pub(super) fn off_scale(of: Observable, value: f64) -> f64 {
    match of {
        Observable::Start(_) => value.exp(),
        _ => value,
    }
}

/// A measured quantity as it is reckoned with, and its uncertainty.
pub fn reckoned(measured: &Measured) -> (f64, f64) {
    let value = on_scale(measured.observable, measured.value);
    match measured.observable {
        Observable::Start(_) => (value, measured.uncertainty / measured.value),
        _ => (value, measured.uncertainty),
    }
}
