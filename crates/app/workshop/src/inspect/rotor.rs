//! What the dial and the hand say of the rotor.

use clearance::rotor::{self, Judged, Pushed};
use clearance::{Estimated, Interval, rectangular};
use quantity::Entered;

use super::{Rotor, Spin};
use crate::gap::REQUIRED;

/// Half width of the dial's error when nobody stated it, `m`. Assumed, no source.
pub const DIAL: f64 = 0.000_01;

/// What was held against a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Travel {
    /// End float.
    Float,
    /// Radial play.
    Radial,
    /// Total indicator reading at the first station.
    First,
    /// Total indicator reading at the second station.
    Second,
}

/// One travel of the dial, with what may be said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// Which.
    pub travel: Travel,
    /// How much, and how sure.
    pub found: Estimated,
    /// The manual's limit.
    pub limit: Option<Entered>,
    /// What may be said.
    pub judged: Judged,
}

/// What a hand feels and no limit is needed for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The bearing is rough.
    Rough,
    /// The bearing is gritty.
    Gritty,
    /// The rotor binds.
    Binds,
    /// The splines have a step.
    SplineStep,
}

/// What is said of the rotor.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Half width of the dial's error.
    pub dial: f64,
    /// That error was assumed.
    pub assumed: bool,
    /// Every travel that was read.
    pub checks: Vec<Check>,
    /// How far off its axis the shaft may run at the impeller; the angles were not noted.
    pub at_impeller: Option<Interval>,
    /// What is not fit by feel.
    pub faults: Vec<Fault>,
}

/// Judges the rotor. What the domain would refuse never passes [`decide`](crate::decide::decide).
pub fn answer(rotor: &Rotor) -> Answer {
    let dial = rotor.dial.as_ref().map_or(DIAL, |dial| dial.value);
    let mut checks = Vec::new();
    let mut check = |travel, one: f64, other: f64, limit: &Option<Entered>| {
        let pushed = Pushed {
            one,
            other,
            uncertainty: rectangular(dial),
        };
        let greatest = limit.as_ref().map(|limit| limit.value);
        let judged = rotor::play(&pushed)
            .and_then(|found| Ok((found, rotor::judge(&found, greatest, REQUIRED)?)));
        if let Ok((found, judged)) = judged {
            checks.push(Check {
                travel,
                found,
                limit: limit.clone(),
                judged,
            });
        }
    };
    if let Some((aft, forward)) = &rotor.float {
        check(Travel::Float, aft.value, forward.value, &rotor.float_limit);
    }
    if let Some((up, down)) = &rotor.radial {
        check(Travel::Radial, up.value, down.value, &rotor.radial_limit);
    }
    if let Some(runout) = &rotor.runout {
        // A total indicator reading is what the dial shows at most less what it shows at least.
        let limit = &rotor.runout_limit;
        check(Travel::First, runout.first.value, 0.0, limit);
        check(Travel::Second, runout.second.value, 0.0, limit);
    }
    Answer {
        dial,
        assumed: rotor.dial.is_none(),
        checks,
        at_impeller: at_impeller(rotor),
        faults: faults(rotor),
    }
}

fn at_impeller(rotor: &Rotor) -> Option<Interval> {
    let runout = rotor.runout.as_ref()?;
    let station = |station, total: &Entered| rotor::Runout {
        station,
        total: total.value,
        high: 0.0,
    };
    let second = runout.apart.value;
    let at = second + runout.beyond.value;
    rotor::runs_at_most(
        station(0.0, &runout.first),
        station(second, &runout.second),
        at,
    )
    .ok()
}

fn faults(rotor: &Rotor) -> Vec<Fault> {
    let felt = rotor.spin.and_then(|spin| match spin {
        Spin::Smooth => None,
        Spin::Rough => Some(Fault::Rough),
        Spin::Gritty => Some(Fault::Gritty),
        Spin::Binds => Some(Fault::Binds),
    });
    let step = (rotor.spline_step == Some(true)).then_some(Fault::SplineStep);
    felt.into_iter().chain(step).collect()
}
