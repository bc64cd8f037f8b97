//! What the readings of the driveline say.

use clearance::align::coupling::{self, Axis, rim_and_face, two_stations};
use clearance::align::limits::inside;
use clearance::align::mounts::{Mount, Rest, moves, rest};
use clearance::align::stacks::{Stack, stacks};
use clearance::align::sweep::{
    Closure, Instrument, Runout, Sweep, Swept, Total, Turn, closure, swept,
};
use clearance::{Estimated, Verdict, verdict};
use quantity::Entered;

use super::{Alignment, Dials, MountAt, Read, Shown, Station, Turned};
use crate::gap::REQUIRED;

/// Where readings were taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Round the bar, at the station farther aft.
    Aft,
    /// Round the bar, at the station farther forward.
    Forward,
    /// On the rim.
    Rim,
    /// On the face.
    Face,
}

/// Why nothing can be said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Doubt {
    /// The four readings do not close.
    Open(Place, u8, Closure),
    /// A place of the shaft fits neither what stays nor what turns.
    Misfit(Place, f64, f64),
    /// Nobody looked how far the bracket of the dial sags.
    NoSag,
    /// The manual's limit was not stated.
    NoLimit,
    /// The bar slides, and no manual was named that takes this for its test.
    NoPage,
    /// One station tells no angle.
    NoAngle,
    /// It lies too near a limit.
    Close,
}

/// What the manual limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limited {
    /// How far apart the axes are at the coupling.
    Offset,
    /// How they are inclined.
    Angle,
}

/// Something held against a limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// What.
    pub what: Limited,
    /// The limit, as an offset and not as a total reading.
    pub limit: f64,
    /// Probability that it is kept; none where a plane was not read.
    pub within: Option<f64>,
    /// What may be said.
    pub verdict: Verdict,
}

/// How a mount must move.
#[derive(Clone, Debug, PartialEq)]
pub struct MountMove {
    /// Its name.
    pub name: String,
    /// Up: shims in; below zero, shims out.
    pub up: Estimated,
    /// To port; below zero, to starboard.
    pub port: Estimated,
    /// Thickness of the shims under it now.
    pub now: f64,
    /// The stack of shims at hand that comes nearest; none where no shims were named.
    pub stack: Option<Stack>,
}

/// What remains once the stacks are in and every mount is moved sideways as told.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// How the engine stands then.
    pub rest: Rest,
    /// Held against the manual's limits.
    pub held: Vec<Held>,
}

/// What is said of the driveline.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// In: in line. Out: not. Undecided: cannot say.
    pub verdict: Verdict,
    /// Why nothing can be said, or what the verdict leaves open.
    pub doubt: Option<Doubt>,
    /// What a reading repeats within.
    pub repeat: f64,
    /// Offset of the engine's axis at the coupling, up and to port.
    pub offset: Option<[Estimated; 2]>,
    /// Its slope, climbing and to port forward.
    pub slope: Option<[Estimated; 2]>,
    /// What turns with the shaft, where it was turned.
    pub runouts: Vec<(Place, Runout)>,
    /// What was held against the manual's limits.
    pub held: Vec<Held>,
    /// How the mounts must move; empty where it cannot be said or none is named.
    pub moves: Vec<MountMove>,
    /// What remains after the shims at hand.
    pub left: Option<Left>,
}

impl Answer {
    fn only(verdict: Verdict, doubt: Option<Doubt>) -> Self {
        Self {
            verdict,
            doubt,
            repeat: 0.0,
            offset: None,
            slope: None,
            runouts: Vec::new(),
            held: Vec::new(),
            moves: Vec::new(),
            left: None,
        }
    }
}

/// Judges a reading; none for one that [`decide`](crate::decide::decide) would have refused.
pub fn answer(said: &Alignment) -> Option<Answer> {
    let read = match &said.read {
        Read::Slides(free) if free.contains(&false) => {
            return Some(Answer::only(Verdict::Out, None));
        }
        // Common practice, no source; a verdict only by the manual's own test.
        Read::Slides(_) if said.page.is_empty() => {
            return Some(Answer::only(Verdict::Undecided, Some(Doubt::NoPage)));
        }
        Read::Slides(_) => return Some(Answer::only(Verdict::In, None)),
        read => read,
    };
    let step = said.step.as_ref()?.value;
    let repeat = said.repeat.as_ref().map_or(step, |repeat| repeat.value);
    let instrument = Instrument { step, repeat };
    let found = match read {
        Read::Bar { aft, forward } => bar(aft, forward.as_ref(), instrument)?,
        Read::Dials(dials) => dialled(dials, instrument)?,
        Read::Slides(_) => return None,
    };
    let held = hold(said, found.offset, found.slope, found.sag_unknown);
    let (verdict, doubt) = found.broken.map_or_else(
        || judged(&held, &found),
        |doubt| (Verdict::Undecided, Some(doubt)),
    );
    let axis = found
        .axis
        .filter(|_| found.broken.is_none() && !found.sag_unknown);
    let (moves, left) = axis.map_or_else(
        || (Vec::new(), None),
        |axis| {
            let moves = told(said, &axis);
            let left = left(said, &axis, &moves);
            (moves, left)
        },
    );
    Some(Answer {
        verdict,
        doubt,
        repeat,
        offset: Some(found.offset),
        slope: found.slope,
        runouts: found.runouts,
        held,
        moves,
        left,
    })
}

/// What the readings say before any limit.
struct Found {
    offset: [Estimated; 2],
    slope: Option<[Estimated; 2]>,
    axis: Option<Axis>,
    runouts: Vec<(Place, Runout)>,
    broken: Option<Doubt>,
    sag_unknown: bool,
}

impl Found {
    fn of(axis: &Axis) -> Self {
        Self {
            offset: [axis.up.offset, axis.port.offset],
            slope: Some([axis.up.slope, axis.port.slope]),
            axis: Some(*axis),
            runouts: Vec::new(),
            broken: None,
            sag_unknown: false,
        }
    }
}

/// Readings at one place, and why they cannot be taken.
fn swept_at(
    place: Place,
    turns: &[Turned],
    instrument: Instrument,
) -> Option<(Swept, Option<Doubt>)> {
    let turn = |turned: &Turned| {
        let [top, starboard, bottom, port] = turned.read.each_ref().map(|read| read.value);
        Turn {
            turned: f64::from(turned.quarter) * std::f64::consts::FRAC_PI_2,
            sweep: Sweep {
                top,
                starboard,
                bottom,
                port,
            },
        }
    };
    let all: Vec<Turn> = turns.iter().map(turn).collect();
    let mut broken = None;
    for (turn, turned) in all.iter().zip(turns) {
        let closes = closure(&turn.sweep, instrument).ok()?;
        if !closes.holds() {
            broken = broken.or(Some(Doubt::Open(place, turned.quarter, closes)));
        }
    }
    let found = swept(&all, instrument).ok()?;
    if !found.holds() {
        broken = broken.or(Some(Doubt::Misfit(place, found.misfit, found.explained)));
    }
    Some((found, broken))
}

fn bar(aft: &Station, forward: Option<&Station>, instrument: Instrument) -> Option<Found> {
    let (one, broken) = swept_at(Place::Aft, &aft.turns, instrument)?;
    let mut runouts: Vec<(Place, Runout)> = Vec::new();
    runouts.extend(one.runout.map(|runout| (Place::Aft, runout)));
    let Some(forward) = forward else {
        return Some(Found {
            offset: [one.up.offset(), one.port.offset()],
            slope: None,
            axis: None,
            runouts,
            broken,
            sag_unknown: false,
        });
    };
    let (other, too) = swept_at(Place::Forward, &forward.turns, instrument)?;
    runouts.extend(other.runout.map(|runout| (Place::Forward, runout)));
    let at = |forward: &Entered, swept| coupling::Station {
        forward: forward.value,
        swept,
    };
    let axis = two_stations(&at(&aft.at, one), &at(&forward.at, other)).ok()?;
    Some(Found {
        runouts,
        broken: broken.or(too),
        ..Found::of(&axis)
    })
}

fn dialled(dials: &Dials, instrument: Instrument) -> Option<Found> {
    let (rim, broken) = swept_at(Place::Rim, &dials.rim, instrument)?;
    let (face, too) = swept_at(Place::Face, &dials.face, instrument)?;
    // Sag is what one dial shows at 6 less what it shows at 12.
    let sag = dials.sag.as_ref().map(|sag| Total {
        value: sag.value,
        uncertainty: instrument.uncertainty().unwrap_or(0.0) * std::f64::consts::SQRT_2,
    });
    let clean = sag.map_or(rim, |sag| rim.without_sag(sag));
    let axis = rim_and_face(&clean, &face, dials.across.value, dials.carrier).ok()?;
    let runouts = [(Place::Rim, rim), (Place::Face, face)];
    let runouts = runouts.into_iter();
    Some(Found {
        runouts: runouts
            .filter_map(|(place, swept)| Some((place, swept.runout?)))
            .collect(),
        broken: broken.or(too),
        sag_unknown: sag.is_none(),
        ..Found::of(&axis)
    })
}

/// Holds what was found against every limit that the manual states.
fn hold(
    said: &Alignment,
    offset: [Estimated; 2],
    slope: Option<[Estimated; 2]>,
    sag_unknown: bool,
) -> Vec<Held> {
    let mut held = Vec::new();
    if let Some(limit) = &said.offset_limit {
        let limit = limit.value * if said.total { 0.5 } else { 1.0 };
        held.push(if sag_unknown {
            // Up is not known; out only where the sideways part alone is beyond.
            let flat = Estimated {
                value: 0.0,
                uncertainty: offset[1].uncertainty * 1e-3, // not a conversion: next to certain
            };
            let aside = inside(flat, offset[1], limit).ok();
            let out = aside.is_some_and(|p| verdict(p, REQUIRED) == Verdict::Out);
            Held {
                what: Limited::Offset,
                limit,
                within: None,
                verdict: if out {
                    Verdict::Out
                } else {
                    Verdict::Undecided
                },
            }
        } else {
            held_to(Limited::Offset, Some(offset), limit)
        });
    }
    if let Some(limit) = &said.angle_limit {
        held.push(held_to(Limited::Angle, slope, limit.value));
    }
    held
}

fn held_to(what: Limited, found: Option<[Estimated; 2]>, limit: f64) -> Held {
    let within = found.and_then(|[up, port]| inside(up, port, limit).ok());
    Held {
        what,
        limit,
        within,
        verdict: within.map_or(Verdict::Undecided, |p| verdict(p, REQUIRED)),
    }
}

/// Out if anything is, in if everything stated is.
fn judged(held: &[Held], found: &Found) -> (Verdict, Option<Doubt>) {
    let any = |verdict| held.iter().any(|held| held.verdict == verdict);
    if held.is_empty() {
        (Verdict::Undecided, Some(Doubt::NoLimit))
    } else if any(Verdict::Out) {
        (Verdict::Out, found.sag_unknown.then_some(Doubt::NoSag))
    } else if found.sag_unknown {
        (Verdict::Undecided, Some(Doubt::NoSag))
    } else if found.slope.is_none() {
        (Verdict::Undecided, Some(Doubt::NoAngle))
    } else if any(Verdict::Undecided) {
        (Verdict::Undecided, Some(Doubt::Close))
    } else {
        (Verdict::In, None)
    }
}

fn places(mounts: &[MountAt]) -> Vec<Mount> {
    let mount = |mount: &MountAt| Mount {
        forward: mount.forward.value,
        port: mount.port.value,
    };
    mounts.iter().map(mount).collect()
}

/// How the mounts must move, with the shims at hand.
fn told(said: &Alignment, axis: &Axis) -> Vec<MountMove> {
    let found = moves(axis, &places(&said.mounts)).unwrap_or_default();
    let wanted: Vec<f64> = found
        .iter()
        .zip(&said.mounts)
        .map(|(found, mount)| mount.shims.value + found.up.value)
        .collect();
    let shims: Vec<f64> = said.shims.iter().map(|shim| shim.value).collect();
    let chosen = if shims.is_empty() {
        None
    } else {
        stacks(&wanted, &shims).ok()
    };
    let stack = |at: usize| chosen.as_ref().map(|stacks| stacks[at].clone());
    found
        .iter()
        .zip(&said.mounts)
        .enumerate()
        .map(|(at, (found, mount))| MountMove {
            name: mount.name.clone(),
            up: found.up,
            port: found.port,
            now: mount.shims.value,
            stack: stack(at),
        })
        .collect()
}

/// What remains when the stacks are in: as unsure as the reading it rests on.
fn left(said: &Alignment, axis: &Axis, moves: &[MountMove]) -> Option<Left> {
    let off: Option<Vec<f64>> = moves
        .iter()
        .map(|told| Some(told.stack.as_ref()?.off))
        .collect();
    let rest = rest(&places(&said.mounts), &off?).ok()?;
    let remains = |value, found: Estimated| Estimated {
        value,
        uncertainty: found.uncertainty,
    };
    let offset = [
        remains(rest.offset, axis.up.offset),
        remains(0.0, axis.port.offset),
    ];
    let slope = [
        remains(rest.slope, axis.up.slope),
        remains(0.0, axis.port.slope),
    ];
    Some(Left {
        rest,
        held: hold(said, offset, Some(slope), false),
    })
}

/// What is put on record of a reading.
pub(crate) fn shown(said: &Alignment) -> Option<Shown> {
    let answer = answer(said)?;
    let values = |pair: [Estimated; 2]| pair.map(|found| found.value);
    Some(Shown {
        verdict: answer.verdict,
        offset: answer.offset.map(values),
        slope: answer.slope.map(values),
    })
}
