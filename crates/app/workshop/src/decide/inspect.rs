//! Whether something may be said of the parts around the gap.

mod finding;
mod found;
mod supply;

use super::{BORE, LEAF, LONGEST_TEXT, Range, each, in_order, like_the_set, text, within};
use crate::draft::inspect::Sheet;
use crate::entry::Key;
use crate::inspect::align::{self, Alignment};
use crate::inspect::{
    Cone, Inspection, LeakTest, Method, Reread, Ring, Rotor, Sizes, Track, Visit, leak, reread,
};
use crate::job::{Job, Tried};
use crate::refusal::{Need, Refusal, Slip};

/// A dial may stand below its zero.
const DIAL_READING: Range = Range {
    least: -0.025,
    greatest: 0.025,
};
const TRAVEL: Range = Range {
    least: 0.0,
    greatest: 0.01,
};
const DIAL_ERROR: Range = Range {
    least: 0.000_000_5,
    greatest: 0.000_1,
};
const ALONG: Range = Range {
    least: 0.001,
    greatest: 1.0,
};
const FLAW_SIZE: Range = Range {
    least: 0.000_01,
    greatest: 0.3,
};
/// Compressed air stores energy: a housing is tested at low pressure only.
const GAUGE: Range = Range {
    least: 1000.0,
    greatest: 100_000.0,
};
const GAUGE_END: Range = Range {
    least: 0.0,
    greatest: 100_000.0,
};
const GAUGE_STEP: Range = Range {
    least: 1.0,
    greatest: 10_000.0,
};
const FALL: Range = Range {
    least: 0.0,
    greatest: 50_000.0,
};
const HOLD: Range = Range {
    least: 10.0,
    greatest: 172_800.0,
};
/// From 20 degrees of frost to 60 °C.
const AROUND: Range = Range {
    least: 253.15,
    greatest: 333.15,
};
const WALL: Range = Range {
    least: 0.000_5,
    greatest: 0.05,
};
const HALF_ANGLE: Range = Range {
    least: 0.01,
    greatest: 1.0,
};
const STACK: Range = Range {
    least: 0.0,
    greatest: 0.02,
};
const SHIM: Range = Range {
    least: 0.000_01,
    greatest: 0.01,
};
const HOURS: Range = Range {
    least: 0.0,
    greatest: 36_000_000.0,
};
/// The most shims that are looked at together.
const MOST_SHIMS: usize = 16;

/// Refuses what cannot be so, or is no work for the bench.
pub(super) fn check(job: &Job, said: &Inspection) -> Result<(), Refusal> {
    match said {
        Inspection::Rotor(rotor) => check_rotor(rotor),
        Inspection::Leak(test) => check_leak(test),
        Inspection::Found { finding, .. } => finding::check(job, finding),
        Inspection::Alignment(read) => super::align::check(read),
        Inspection::AsFound { key, found } => found::check(job, key, found),
        Inspection::Supply { key, supply } => supply::check(job, key, supply),
        Inspection::Settled { finding, settled } => finding::check_settled(job, finding, settled),
        Inspection::Sizes(sizes) => check_sizes(job, sizes),
        Inspection::Ring(ring) => check_ring(ring),
        Inspection::Cone(cone) => check_cone(cone),
        Inspection::Reread(reread) => check_reread(job, reread),
        Inspection::Visit { key, visit } => check_visit(job, key, visit),
        // Asked of what stands beside this module, which knows the day.
        Inspection::Sealing(_) => Ok(()),
    }
}

/// The same of what a file tells of the past.
pub(super) fn sane(job: &Job, said: &Inspection) -> Result<(), Refusal> {
    match said {
        Inspection::Settled { finding, settled } => finding::sane_settled(job, finding, settled),
        Inspection::Supply { key, supply } => supply::sane(job, key, supply),
        said => check(job, said),
    }
}

/// Puts beside a test and a reading what is told of them now.
pub(super) fn told(job: &Job, said: Inspection) -> Inspection {
    match said {
        Inspection::Leak(test) => Inspection::Leak(LeakTest {
            shown: leak::shown(&test),
            ..test
        }),
        Inspection::Alignment(read) => Inspection::Alignment(Box::new(Alignment {
            shown: align::shown(&read),
            ..*read
        })),
        Inspection::Reread(again) => Inspection::Reread(Reread {
            shown: reread::verdict(job, &again).ok(),
            ..again
        }),
        other => other,
    }
}

fn slip<T>(slip: Slip) -> Result<T, Refusal> {
    Err(Refusal::Inspected(slip))
}

fn blank<T>(sheet: Sheet) -> Result<T, Refusal> {
    slip(Slip::Blank {
        field: sheet.fields()[0],
    })
}

fn check_rotor(rotor: &Rotor) -> Result<(), Refusal> {
    let nothing = Rotor::default();
    let found = [
        rotor.float != nothing.float,
        rotor.radial != nothing.radial,
        rotor.runout != nothing.runout,
        rotor.track != nothing.track,
        rotor.spline_step != nothing.spline_step,
        rotor.spin != nothing.spin,
    ];
    if !found.contains(&true) {
        return blank(Sheet::Rotor);
    }
    let (float, radial) = (rotor.float.as_ref(), rotor.radial.as_ref());
    let runout = rotor.runout.as_ref();
    let groove = match &rotor.track {
        Some(Track::Groove(depth)) => Some(depth),
        _ => None,
    };
    each([
        ("float_aft", float.map(|pair| &pair.0), &DIAL_READING),
        ("float_forward", float.map(|pair| &pair.1), &DIAL_READING),
        ("radial_up", radial.map(|pair| &pair.0), &DIAL_READING),
        ("radial_down", radial.map(|pair| &pair.1), &DIAL_READING),
        ("runout_first", runout.map(|r| &r.first), &TRAVEL),
        ("runout_second", runout.map(|r| &r.second), &TRAVEL),
        ("runout_apart", runout.map(|r| &r.apart), &ALONG),
        ("runout_beyond", runout.map(|r| &r.beyond), &ALONG),
        ("groove", groove, &FLAW_SIZE),
        ("dial", rotor.dial.as_ref(), &DIAL_ERROR),
        ("float_limit", rotor.float_limit.as_ref(), &TRAVEL),
        ("radial_limit", rotor.radial_limit.as_ref(), &TRAVEL),
        ("runout_limit", rotor.runout_limit.as_ref(), &TRAVEL),
    ])?;
    text("page", &rotor.page, LONGEST_TEXT)
}

fn check_leak(test: &LeakTest) -> Result<(), Refusal> {
    let kelvins = test.temperatures.as_ref();
    each([
        ("start", Some(&test.start), &GAUGE),
        ("end", Some(&test.end), &GAUGE_END),
        ("hold", Some(&test.hold), &HOLD),
        ("start_temperature", kelvins.map(|pair| &pair.0), &AROUND),
        ("end_temperature", kelvins.map(|pair| &pair.1), &AROUND),
        ("step", Some(&test.step), &GAUGE_STEP),
        ("allowed", test.allowed.as_ref(), &FALL),
    ])?;
    text("page", &test.page, LONGEST_TEXT)
}

fn check_sizes(job: &Job, sizes: &Sizes) -> Result<(), Refusal> {
    if *sizes == Sizes::default() {
        return blank(Sheet::Sizes);
    }
    let fields = Sheet::Sizes.fields().iter().zip(&sizes.bores);
    each(fields.map(|(field, bore)| (*field, bore.as_ref(), &BORE)))?;
    let Some((diameter, method)) = &sizes.impeller else {
        return Ok(());
    };
    within("impeller", diameter, &BORE)?;
    let blades = job.pump.as_ref().map(|pump| pump.value.blades);
    match blades.filter(|blades| !blades.is_multiple_of(2)) {
        Some(blades) if *method == Method::TwoTips => slip(Slip::NoTipAcross { blades }),
        _ => Ok(()),
    }
}

fn check_ring(ring: &Ring) -> Result<(), Refusal> {
    each([
        ("wall", ring.wall.as_ref(), &WALL),
        ("bench", ring.bench.as_ref(), &AROUND),
        ("water", ring.water.as_ref(), &AROUND),
    ])
}

fn check_cone(cone: &Cone) -> Result<(), Refusal> {
    within("half_angle", &cone.half_angle, &HALF_ANGLE)?;
    within("fitted", &cone.fitted, &STACK)?;
    let count = cone.shims.len();
    if count == 0 {
        return Err(Refusal::Empty { field: "shims" });
    }
    if count > MOST_SHIMS {
        return slip(Slip::TooMany {
            field: "shims",
            count,
            most: MOST_SHIMS,
        });
    }
    each(cone.shims.iter().map(|shim| ("shims", Some(shim), &SHIM)))
}

fn check_reread(job: &Job, again: &Reread) -> Result<(), Refusal> {
    let leaves = job.leaves.as_ref().ok_or(Refusal::Missing(Need::Leaves))?;
    if job.pump.is_none() {
        return Err(Refusal::Missing(Need::Pump));
    }
    text("rubs", &again.rubs, LONGEST_TEXT)?;
    if again.clocks.iter().all(Vec::is_empty) && again.rubs.is_empty() {
        return blank(Sheet::Reread);
    }
    for (field, tries) in Sheet::Reread.fields().iter().zip(&again.clocks) {
        if tries.len() > super::MOST_TRIES {
            return slip(Slip::TooMany {
                field,
                count: tries.len(),
                most: super::MOST_TRIES,
            });
        }
        tries.iter().try_for_each(|Tried { leaf, .. }| {
            within(field, leaf, &LEAF)?;
            like_the_set(leaf, &leaves.value)
        })?;
    }
    Ok(())
}

fn check_visit(job: &Job, key: &Key, visit: &Visit) -> Result<(), Refusal> {
    within("hours", &visit.hours, &HOURS)?;
    let others = job
        .inspected
        .visits
        .iter()
        .filter(|(other, _)| *other != key);
    match &visit.gap {
        Some((low, high)) => {
            within("gap", low, &LEAF)?;
            within("gap", high, &LEAF)?;
            if low == high {
                Ok(())
            } else {
                in_order("gap", low, high)
            }
        }
        None if others.clone().any(|(_, fact)| fact.value.gap.is_none()) => {
            slip(Slip::ThisVisitTwice)
        }
        None => Ok(()),
    }
}
