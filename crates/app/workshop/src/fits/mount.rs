//! The impeller on its shaft: which way it comes off and goes on, seen from where one stands.

use std::fmt;

use joint::shaft::{Drive, End, Mount, Rotation, Running, Turned};
use joint::slip::{Comparison, compare};

use super::{Fit, FitKind, Impeller};
use crate::job::{self, Job, View};
use crate::torque::{Stop, differ, printed};

/// Which way an impeller is turned while its shaft is held. A shaft that is turned while the
/// impeller is held goes the other way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Turning {
    /// Where one stands.
    pub seen_from: End,
    /// That is where the pump's clock is read from; else nothing is known of it, and from behind is
    /// assumed.
    pub by_pump: bool,
    /// To tighten.
    pub tighten: Rotation,
    /// To loosen.
    pub loosen: Rotation,
    /// How the impeller turns while the craft goes ahead.
    pub runs: Option<Rotation>,
    /// What that does to the thread.
    pub running: Option<Running>,
    /// Which part drives which.
    pub drive: Drive,
}

/// Why an impeller must not be tightened yet.
#[derive(Clone, Debug, PartialEq)]
pub enum FitStop {
    /// Its manual's torque is not stated, and there is no other.
    NoTorque,
    /// The manual's two figures do not agree.
    Figures(Stop),
    /// Running would unscrew it.
    Unscrews,
}

impl fmt::Display for FitStop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoTorque => f.write_str(
                "No torque is stated for the impeller, and no other stands in for it. Find it in \
                 the craft’s manual; until then the joint stays open.",
            ),
            Self::Figures(stop) => write!(f, "{stop}"),
            Self::Unscrews => f.write_str(
                "As it is described, the pump’s own torque would unscrew this impeller. One of hand \
                 of the thread, end it goes on from, which part drives, and sense of rotation is \
                 written down wrong, and the arrows with it. Look again before you put force on it.",
            ),
        }
    }
}

/// Which way to turn; none for what is no impeller.
pub fn turning(job: &Job, fit: &Fit) -> Option<Turning> {
    let FitKind::Impeller(impeller) = &fit.kind else {
        return None;
    };
    let mount = mount(impeller);
    let pump = job.pump.as_ref().map(|fact| &fact.value);
    let seen_from = pump.map_or(End::Aft, |pump| match pump.view {
        View::LookingForward => End::Aft,
        View::LookingAft => End::Ahead,
    });
    let runs = pump.map(|pump| match pump.rotation {
        job::Rotation::Clockwise => Rotation::Clockwise,
        job::Rotation::Anticlockwise => Rotation::Anticlockwise,
    });
    Some(Turning {
        seen_from,
        by_pump: pump.is_some(),
        tighten: mount.tightening(Turned::Impeller, seen_from),
        loosen: mount.loosening(Turned::Impeller, seen_from),
        runs,
        running: runs.map(|runs| mount.running(runs, seen_from)),
        drive: impeller.drive,
    })
}

/// Why an impeller must not be tightened yet.
pub(crate) fn stop(job: &Job, fit: &Fit) -> Option<FitStop> {
    let FitKind::Impeller(impeller) = &fit.kind else {
        return None;
    };
    if turning(job, fit).is_some_and(|turning| turning.running == Some(Running::Loosens)) {
        return Some(FitStop::Unscrews);
    }
    let Some(torque) = &impeller.torque else {
        return Some(FitStop::NoTorque);
    };
    let second = impeller.second.as_ref()?;
    let compared: Comparison = compare(&printed(torque), &printed(second)).ok()?;
    // Nothing is known here of what the thread bears, so no slip is named: it would be a guess.
    differ((torque, second), compared, |_| false).map(FitStop::Figures)
}

fn mount(impeller: &Impeller) -> Mount {
    Mount {
        hand: impeller.hand,
        goes_on_from: impeller.goes_on_from,
        drive: impeller.drive,
    }
}
