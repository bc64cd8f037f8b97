//! Whether an act may be done, and the entries it becomes. Strict, where the fold is total.

mod account;
mod align;
mod choose;
mod diagnose;
mod fits;
mod inspect;
mod joints;
mod photos;
mod seals;
mod span;
mod tools;
mod upkeep;
mod water;
mod work;

use jiff::ZonedDateTime;
use quantity::Entered;

use crate::act::{Act, Stamp};
use crate::entry::{Body, NewEntry};
use crate::inspect::Inspection;
use crate::job::{Job, LeafSet, Limits, Pump, Spot, Tried, Walk};
use crate::joints::Fastened;
use crate::refusal::{Apart, Need, Obstacle, Refusal};
use crate::torque;

pub use choose::{MOST_OPTIONS, MOST_POINTS, MOST_STEADIES};
pub use photos::{LONGEST_EDGE, MOST_PHOTOS};
pub use upkeep::{MOST_PARTS, MOST_PIECES, MOST_RULES};
pub use water::{MOST_RUNS, MOST_SAMPLES, may_float};
pub use work::MOST_STEPS;
pub(crate) use work::check_plan;

/// The longest text in one field, in characters.
pub const LONGEST_TEXT: usize = 200;
/// The longest note, in characters.
pub const LONGEST_NOTE: usize = 2000;
/// The most leaves in a set.
pub const MOST_LEAVES: usize = 64;
/// The most leaves tried in one entry.
pub const MOST_TRIES: usize = 16;

/// The least and the greatest that may be entered, SI.
struct Range {
    least: f64,
    greatest: f64,
}

const LEAF: Range = Range {
    least: 0.000_01,
    greatest: 0.003,
};
const WIDTH: Range = Range {
    least: 0.001,
    greatest: 0.05,
};
const BORE: Range = Range {
    least: 0.05,
    greatest: 0.5,
};
/// A limit of 0.013 thou is one of 0.013 in with its unit forgotten, so the range starts well above.
const LIMIT: Range = Range {
    least: 0.000_05,
    greatest: 0.006,
};
const ERROR: Range = Range {
    least: 0.0,
    greatest: 0.000_1,
};
const FEEL: Range = Range {
    least: 0.000_001,
    greatest: 0.000_2,
};

const TORQUE: Range = Range {
    least: 0.1,
    greatest: 1000.0,
};
/// The most screws in one joint.
pub const MOST_SCREWS: u8 = 32;

/// Turns an act into the entries to append, or refuses it.
pub fn decide(job: &Job, act: Act, mut stamp: Stamp) -> Result<Vec<NewEntry>, Refusal> {
    if let Some((kind, version)) = &job.read_only {
        return Err(Refusal::ReadOnly {
            kind: kind.clone(),
            version: *version,
        });
    }
    let body = match act {
        Act::Record(body) => {
            check(job, &body, &stamp.now)?;
            told(job, body)
        }
        Act::Recount(body, at) => {
            let at = at.unwrap_or_else(|| stamp.now.clone());
            recounted(job, &body, &at, &stamp)?;
            stamp.now = at;
            body
        }
        Act::Undo => {
            let step = job.undo.as_ref().ok_or(Refusal::NothingToUndo)?;
            Body::Withdrawn {
                entry: step.entry.clone(),
            }
        }
        Act::Redo => {
            let step = job.redo.as_ref().ok_or(Refusal::NothingToRedo)?;
            Body::Withdrawn {
                entry: step.entry.clone(),
            }
        }
    };
    let seen = match stamp.seen {
        Some(seen) if seen > job.position => {
            let position = job.position;
            return Err(Refusal::Apart(Apart::Ahead { seen, position }));
        }
        seen => seen.unwrap_or(job.position),
    };
    text("device", &stamp.device, LONGEST_TEXT)?;
    text("who", &stamp.who, LONGEST_TEXT)?;
    Ok(vec![NewEntry {
        id: stamp.id,
        seen,
        happened_at: stamp.now,
        device: stamp.device,
        who: stamp.who,
        program: crate::PROGRAM.to_owned(),
        body,
    }])
}

fn check(job: &Job, body: &Body, now: &ZonedDateTime) -> Result<(), Refusal> {
    match body {
        Body::JobOpened { title, note, .. } => {
            if job.position > 0 {
                return Err(Refusal::AlreadyOpen);
            }
            filled("title", title)?;
            text("title", title, LONGEST_TEXT)?;
            text("note", note, LONGEST_NOTE)
        }
        _ if job.title.is_none() => Err(Refusal::Missing(Need::Job)),
        Body::PumpDescribed(pump) => check_pump(pump),
        Body::LeavesDescribed(leaves) => check_leaves(leaves),
        Body::LimitsStated(limits) => check_limits(limits),
        Body::WalkChosen(walk) => check_walk(walk),
        Body::LeavesTried { spot, tries, .. } => check_tries(job, *spot, tries),
        Body::GapAccepted(shown) => {
            let now = crate::gap::evidence(job).map_err(Refusal::Missing)?;
            if shown.evidence == now {
                Ok(())
            } else {
                Err(Refusal::ShownIsStale)
            }
        }
        Body::Work(work) => work::check(job, work, now),
        Body::JointDescribed { key, joint } => {
            joints::check_joint(joint)?;
            tools::fits_hole(job, key, joint)
        }
        Body::JointFastened { key, fastened } => joints::check_fastened(job, key, fastened),
        Body::Tooled(said) => tools::check(job, said),
        Body::Inspected(Inspection::Sealing(said)) => seals::check(job, said, now),
        Body::FitDescribed { fit, .. } => fits::check_fit(fit),
        Body::FitChecked { key, checked } => fits::check_checked(job, key, checked),
        Body::Inspected(said) => inspect::check(job, said),
        Body::Photographed(said) => photos::check(job, said),
        Body::Trialled(said) => water::check(job, said, now),
        Body::Chose(said) => choose::check(job, said),
        Body::Diagnosed(said) => diagnose::check(job, said),
        Body::Serviced(said) => upkeep::check(job, said, now),
        Body::Withdrawn { entry } => {
            // Undo and Redo choose their own target; a client may not name another's.
            Err(Refusal::NoSuchEntry {
                entry: entry.to_string(),
            })
        }
        Body::Unknown { kind, version, .. } => Err(Refusal::ReadOnly {
            kind: kind.clone(),
            version: *version,
        }),
    }
}

/// What a file tells of the past. It cannot be of the future.
fn recounted(job: &Job, body: &Body, at: &ZonedDateTime, stamp: &Stamp) -> Result<(), Refusal> {
    if at.timestamp() > stamp.now.timestamp() {
        let at = at.strftime("%Y-%m-%d %H:%M").to_string();
        return Err(Refusal::Work(Obstacle::Future { at }));
    }
    match body {
        Body::Work(work) if job.title.is_some() => work::sane(job, work),
        Body::Inspected(Inspection::Sealing(said)) if job.title.is_some() => {
            seals::sane(job, said, at)
        }
        Body::Photographed(said) if job.title.is_some() => photos::sane(job, said),
        Body::Trialled(said) if job.title.is_some() => water::sane(job, said),
        Body::Chose(said) if job.title.is_some() => choose::sane(job, said),
        Body::Inspected(said) if job.title.is_some() => inspect::sane(job, said),
        body => check(job, body, at),
    }
}

/// Puts beside what was done what was told for it.
fn told(job: &Job, body: Body) -> Body {
    match body {
        Body::JointFastened { key, fastened } => {
            let state = job.joints.get(&key).filter(|_| fastened.torqued > 0);
            let shown = state.and_then(|state| torque::shown(job, state));
            let fastened = Fastened { shown, ..fastened };
            Body::JointFastened { key, fastened }
        }
        Body::FitChecked { key, checked } => {
            let fit = job.fits.get(&key).map(|state| &state.fit.value);
            let shown = fit.map(|fit| crate::fits::shown(job, fit));
            let checked = crate::fits::Checked { shown, ..checked };
            Body::FitChecked { key, checked }
        }
        Body::Inspected(said) => Body::Inspected(inspect::told(job, said)),
        other => other,
    }
}

fn check_pump(pump: &Pump) -> Result<(), Refusal> {
    if !(2..=8).contains(&pump.blades) {
        return Err(Refusal::NotACount {
            field: "blades",
            text: pump.blades.to_string(),
            allowed: "a number of blades from 2 to 8",
        });
    }
    if ![4, 6, 8, 12].contains(&pump.positions) {
        return Err(Refusal::NotACount {
            field: "positions",
            text: pump.positions.to_string(),
            allowed: "4, 6, 8 or 12 clock positions",
        });
    }
    within("bore", &pump.bore, &BORE)
}

fn check_leaves(leaves: &LeafSet) -> Result<(), Refusal> {
    if leaves.thicknesses.is_empty() {
        return Err(Refusal::Empty {
            field: "thicknesses",
        });
    }
    if leaves.thicknesses.len() > MOST_LEAVES {
        return Err(Refusal::NotACount {
            field: "thicknesses",
            text: leaves.thicknesses.len().to_string(),
            allowed: "1 to 64 leaves",
        });
    }
    for leaf in &leaves.thicknesses {
        within("thicknesses", leaf, &LEAF)?;
    }
    if let Some(pair) = leaves
        .thicknesses
        .windows(2)
        .find(|pair| pair[0].value >= pair[1].value)
    {
        return Err(Refusal::LeafTwice {
            text: pair[1].text.clone(),
        });
    }
    within("width", &leaves.width, &WIDTH)?;
    each([
        ("tolerance", leaves.tolerance.as_ref(), &ERROR),
        ("feel", leaves.feel.as_ref(), &FEEL),
    ])
}

fn check_limits(limits: &Limits) -> Result<(), Refusal> {
    text("page", &limits.page, LONGEST_TEXT)?;
    if limits.least.is_none() && limits.greatest.is_none() {
        return Err(Refusal::Empty { field: "least" });
    }
    for (field, limit) in [("least", &limits.least), ("greatest", &limits.greatest)] {
        let Some(limit) = limit else { continue };
        // A plain 0 as the least says that the blades may touch.
        if field == "greatest" || limit.value != 0.0 {
            within(field, limit, &LIMIT)?;
        }
    }
    match (&limits.least, &limits.greatest) {
        (Some(least), Some(greatest)) => in_order("least", least, greatest),
        _ => Ok(()),
    }
}

fn check_walk(walk: &Walk) -> Result<(), Refusal> {
    let Walk::TwoLeaves { go, no_go } = walk else {
        return Ok(());
    };
    within("go", go, &LEAF)?;
    within("no_go", no_go, &LEAF)?;
    in_order("go", go, no_go)
}

fn check_tries(job: &Job, spot: Spot, tries: &[Tried]) -> Result<(), Refusal> {
    let pump = &job.pump.as_ref().ok_or(Refusal::Missing(Need::Pump))?.value;
    let leaves = job.leaves.as_ref().ok_or(Refusal::Missing(Need::Leaves))?;
    if spot.blade >= pump.blades || spot.position >= pump.positions {
        let (blades, positions) = (pump.blades, pump.positions);
        return Err(Refusal::NoSuchSpot {
            spot,
            blades,
            positions,
        });
    }
    if tries.is_empty() {
        return Err(Refusal::Empty { field: "reading" });
    }
    if tries.len() > MOST_TRIES {
        return Err(Refusal::NotACount {
            field: "reading",
            text: tries.len().to_string(),
            allowed: "1 to 16 leaves at a time",
        });
    }
    tries.iter().try_for_each(|tried| {
        within("reading", &tried.leaf, &LEAF)?;
        like_the_set(&tried.leaf, &leaves.value)
    })
}

/// Two leaves together may be thicker than any of the set, and a leaf bought since thinner; a unit
/// forgotten is off by more.
fn like_the_set(leaf: &Entered, set: &LeafSet) -> Result<(), Refusal> {
    let (Some(thinnest), Some(thickest)) = (set.thicknesses.first(), set.thicknesses.last()) else {
        return Ok(());
    };
    if !leaf.is_bare() || (thinnest.value / 4.0..=thickest.value * 4.0).contains(&leaf.value) {
        return Ok(());
    }
    Err(Refusal::UnlikeTheLeaves {
        leaf: leaf.clone(),
        thinnest: thinnest.clone(),
        thickest: thickest.clone(),
    })
}

fn within(field: &'static str, entered: &Entered, range: &Range) -> Result<(), Refusal> {
    if (range.least..=range.greatest).contains(&entered.value) {
        return Ok(());
    }
    Err(Refusal::OutOfRange {
        field,
        entered: entered.clone(),
        least: range.least,
        greatest: range.greatest,
    })
}

/// The same of several, those that are there.
fn each<'a>(
    ranges: impl IntoIterator<Item = (&'static str, Option<&'a Entered>, &'a Range)>,
) -> Result<(), Refusal> {
    ranges.into_iter().try_for_each(|(field, entered, range)| {
        entered.map_or(Ok(()), |entered| within(field, entered, range))
    })
}

fn in_order(field: &'static str, low: &Entered, high: &Entered) -> Result<(), Refusal> {
    if low.value < high.value {
        return Ok(());
    }
    Err(Refusal::OutOfOrder {
        field,
        low: low.text.clone(),
        high: high.text.clone(),
    })
}

fn filled(field: &'static str, value: &str) -> Result<(), Refusal> {
    if value.trim().is_empty() {
        Err(Refusal::Empty { field })
    } else {
        Ok(())
    }
}

fn text(field: &'static str, value: &str, most: usize) -> Result<(), Refusal> {
    let length = value.chars().count();
    let control = value.chars().any(|c| c.is_control() && c != '\n');
    if length <= most && !control {
        return Ok(());
    }
    Err(Refusal::BadText {
        field,
        length,
        most,
    })
}
