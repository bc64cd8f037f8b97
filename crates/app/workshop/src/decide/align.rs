//! What may be said of the driveline.

use std::collections::BTreeSet;

use clearance::align::stacks::{MOST_MOUNTS, MOST_SHIMS};
use quantity::Entered;

use super::{LONGEST_TEXT, Range, each, text};
use crate::draft::inspect::{AFT, FACE, FORWARD, RIM};
use crate::inspect::align::{Alignment, Dials, MountAt, Read, Station, Turned};
use crate::refusal::{Refusal, Skew, Slip};

/// A dial may stand below its zero.
const DIAL: Range = Range {
    least: -0.025,
    greatest: 0.025,
};
const GAP: Range = Range {
    least: 0.0,
    greatest: 0.02,
};
const STEP: Range = Range {
    least: 0.000_000_5,
    greatest: 0.000_5,
};
const REPEAT: Range = Range {
    least: 0.0,
    greatest: 0.000_5,
};
const ALONG: Range = Range {
    least: -1.0,
    greatest: 2.0,
};
const ACROSS: Range = Range {
    least: 0.01,
    greatest: 0.5,
};
const SAG: Range = Range {
    least: -0.005,
    greatest: 0.005,
};
const TRAVEL: Range = Range {
    least: 0.000_1,
    greatest: 0.1,
};
const OFFSET: Range = Range {
    least: 0.000_005,
    greatest: 0.005,
};
/// From a fifth of a minute of arc to 3 degrees, beyond which angles are no longer small.
const ANGLE: Range = Range {
    least: 0.000_05,
    greatest: 0.053,
};
/// Forward of the coupling, where an engine has its feet.
const AHEAD: Range = Range {
    least: 0.01,
    greatest: 3.0,
};
const ASIDE: Range = Range {
    least: -1.0,
    greatest: 1.0,
};
const STACK: Range = Range {
    least: 0.0,
    greatest: 0.05,
};
const SHIM: Range = Range {
    least: 0.000_01,
    greatest: 0.02,
};
/// Mounts nearer than this along the axis set no angle, `m`.
const APART: f64 = 0.01;

fn skew<T>(skew: Skew) -> Result<T, Refusal> {
    Err(Refusal::Inspected(Slip::Skew(skew)))
}

/// Refuses what cannot be so.
pub(super) fn check(said: &Alignment) -> Result<(), Refusal> {
    match &said.read {
        Read::Slides(_) => {}
        Read::Bar { aft, forward } => check_bar(aft, forward.as_ref())?,
        Read::Dials(dials) => check_dials(dials)?,
    }
    each([
        ("step", said.step.as_ref(), &STEP),
        ("repeat", said.repeat.as_ref(), &REPEAT),
        ("offset_limit", said.offset_limit.as_ref(), &OFFSET),
        ("angle_limit", said.angle_limit.as_ref(), &ANGLE),
    ])?;
    check_mounts(&said.mounts)?;
    if said.shims.len() > MOST_SHIMS {
        return Err(Refusal::Inspected(Slip::TooMany {
            field: "shims",
            count: said.shims.len(),
            most: MOST_SHIMS,
        }));
    }
    each(said.shims.iter().map(|shim| ("shims", Some(shim), &SHIM)))?;
    text("page", &said.page, LONGEST_TEXT)
}

/// The field of readings with the shaft turned by so many quarters.
fn field_of(fields: [&'static str; 4], turned: &Turned) -> &'static str {
    fields[usize::from(turned.quarter % 4)]
}

fn check_turns(fields: [&'static str; 4], turns: &[Turned], range: &Range) -> Result<(), Refusal> {
    turns.iter().try_for_each(|turned| {
        let field = field_of(fields, turned);
        let [first, rest @ ..] = &turned.read;
        if let Some(other) = rest.iter().find(|other| other.unit != first.unit) {
            return skew(Skew::Crossed {
                field,
                one: first.worded(),
                other: other.worded(),
            });
        }
        each(turned.read.iter().map(|read| (field, Some(read), range)))
    })
}

fn check_bar(aft: &Station, forward: Option<&Station>) -> Result<(), Refusal> {
    each([
        ("aft_at", Some(&aft.at), &ALONG),
        ("forward_at", forward.map(|s| &s.at), &ALONG),
    ])?;
    check_turns(AFT, &aft.turns, &GAP)?;
    let Some(forward) = forward else {
        return Ok(());
    };
    check_turns(FORWARD, &forward.turns, &GAP)?;
    if forward.at.value - aft.at.value < 0.001 {
        return skew(Skew::Stations {
            aft: aft.at.worded(),
            forward: forward.at.worded(),
        });
    }
    Ok(())
}

fn check_dials(dials: &Dials) -> Result<(), Refusal> {
    each([
        ("across", Some(&dials.across), &ACROSS),
        ("sag", dials.sag.as_ref(), &SAG),
        ("travel", dials.travel.as_ref(), &TRAVEL),
    ])?;
    for (fields, turns) in [(RIM, &dials.rim), (FACE, &dials.face)] {
        check_turns(fields, turns, &DIAL)?;
        let Some(travel) = &dials.travel else {
            continue;
        };
        for turned in turns {
            let by = |a: &&Entered, b: &&Entered| a.value.total_cmp(&b.value);
            let ends = (turned.read.iter().min_by(by), turned.read.iter().max_by(by));
            if let (Some(low), Some(high)) = ends
                && high.value - low.value > travel.value
            {
                return skew(Skew::Travel {
                    field: field_of(fields, turned),
                    low: low.worded(),
                    high: high.worded(),
                    travel: travel.worded(),
                });
            }
        }
    }
    Ok(())
}

fn check_mounts(mounts: &[MountAt]) -> Result<(), Refusal> {
    let (Some(first), count) = (mounts.first(), mounts.len()) else {
        return Ok(());
    };
    if count > MOST_MOUNTS {
        return Err(Refusal::Inspected(Slip::TooMany {
            field: "mounts",
            count,
            most: MOST_MOUNTS,
        }));
    }
    let mut names = BTreeSet::new();
    for mount in mounts {
        text("mounts", &mount.name, LONGEST_TEXT)?;
        if !names.insert(mount.name.as_str()) {
            let name = mount.name.clone();
            return skew(Skew::MountTwice { name });
        }
        each([
            ("mounts", Some(&mount.forward), &AHEAD),
            ("mounts", Some(&mount.port), &ASIDE),
            ("mounts", Some(&mount.shims), &STACK),
        ])?;
    }
    let along = |mount: &MountAt| (mount.forward.value - first.forward.value).abs();
    if mounts.iter().all(|mount| along(mount) < APART) {
        let at = first.forward.worded();
        return skew(Skew::MountsTogether { at });
    }
    Ok(())
}
