//! Whether something may be said of a joint that is no circle of screws.

use super::{LONGEST_TEXT, Range, TORQUE, each, filled, in_order, text, within};
use crate::draft::{CHECKS, word};
use crate::entry::Key;
use crate::fits::{self, Check, Checked, Fill, Fit, FitKind, Impeller, Press, Pressed, mount};
use crate::job::Job;
use crate::refusal::{Refusal, Unfit};

/// Beyond a millimetre on the diameter a unit has slipped.
const TIGHT: Range = Range {
    least: -0.001,
    greatest: 0.001,
};
const SEAT: Range = Range {
    least: 0.003,
    greatest: 0.3,
};
const CORD: Range = Range {
    least: 0.000_5,
    greatest: 0.02,
};
const PLAY: Range = Range {
    least: 0.0,
    greatest: 0.03,
};
const OHMS: Range = Range {
    least: 0.0,
    greatest: 100_000_000.0,
};
const OHM_LIMIT: Range = Range {
    least: 0.01,
    greatest: 100.0,
};
const SHIM: Range = Range {
    least: 0.0,
    greatest: 0.02,
};
/// The most studs with shims.
const MOST_STUDS: usize = 16;
/// The most lips looked at together.
const MOST_LIPS: usize = 3;

fn unfit<T>(unfit: Unfit) -> Result<T, Refusal> {
    Err(Refusal::Unfit(unfit))
}

pub(super) fn check_fit(fit: &Fit) -> Result<(), Refusal> {
    filled("name", &fit.name)?;
    text("name", &fit.name, LONGEST_TEXT)?;
    text("page", &fit.page, LONGEST_TEXT)?;
    match &fit.kind {
        FitKind::Press(press) => check_press(press),
        FitKind::Lips(lips) if lips.is_empty() => Err(Refusal::Empty { field: "lip_1" }),
        FitKind::Lips(lips) if lips.len() > MOST_LIPS => {
            too_many("lip_1", lips.len(), "1 to 3 lips")
        }
        FitKind::ORing { sizes, .. } => sizes.as_ref().map_or(Ok(()), |sizes| {
            each([
                ("cord", Some(&sizes.cord), &CORD),
                ("inner", Some(&sizes.inner), &SEAT),
                ("seat", Some(&sizes.seat), &SEAT),
                ("depth", Some(&sizes.depth), &CORD),
                ("width", Some(&sizes.width), &CORD),
            ])
        }),
        FitKind::Fill(fill) => check_fill(fill),
        FitKind::Spline {
            least, greatest, ..
        } => {
            each([
                ("least", least.as_ref(), &PLAY),
                ("greatest", greatest.as_ref(), &PLAY),
            ])?;
            match (least, greatest) {
                (Some(least), Some(greatest)) => in_order("least", least, greatest),
                _ => Ok(()),
            }
        }
        FitKind::Cable { threads: Some(n) } if *n > 60 => Err(Refusal::NotACount {
            field: "threads",
            text: n.to_string(),
            allowed: "0 to 60 threads",
        }),
        FitKind::Plug { torque } => each([("torque", torque.as_ref(), &TORQUE)]),
        FitKind::Anode { greatest } => each([("greatest", greatest.as_ref(), &OHM_LIMIT)]),
        FitKind::Shims(studs) if studs.is_empty() => Err(Refusal::Empty { field: "studs" }),
        FitKind::Shims(studs) if studs.len() > MOST_STUDS => {
            too_many("studs", studs.len(), "1 to 16 studs")
        }
        FitKind::Shims(studs) => each(studs.iter().map(|stud| ("studs", Some(stud), &SHIM))),
        FitKind::Impeller(impeller) => check_impeller(impeller),
        FitKind::Lips(_) | FitKind::Hose { .. } | FitKind::Cable { .. } => Ok(()),
    }
}

fn too_many(field: &'static str, count: usize, allowed: &'static str) -> Result<(), Refusal> {
    Err(Refusal::NotACount {
        field,
        text: count.to_string(),
        allowed,
    })
}

fn check_press(press: &Press) -> Result<(), Refusal> {
    each([
        ("shaft", press.shaft.as_ref(), &TIGHT),
        ("housing", press.housing.as_ref(), &TIGHT),
        ("diameter", press.diameter.as_ref(), &SEAT),
    ])?;
    text("place", &press.place, LONGEST_TEXT)?;
    if press.what == Pressed::Bush && press.front.is_some() {
        return unfit(Unfit::BushHasNoFront);
    }
    Ok(())
}

fn check_fill(fill: &Fill) -> Result<(), Refusal> {
    filled("product", &fill.product)?;
    text("product", &fill.product, LONGEST_TEXT)?;
    text("amount", &fill.amount, LONGEST_TEXT)?;
    let amount = fill.amount.trim();
    if !amount.is_empty() && !amount.chars().any(char::is_alphabetic) {
        let text = amount.to_owned();
        return unfit(Unfit::AmountWithoutUnit { text });
    }
    if fill.until == fits::Until::Amount {
        filled("amount", amount)?;
    }
    Ok(())
}

fn check_impeller(impeller: &Impeller) -> Result<(), Refusal> {
    if impeller.torque.is_none() && impeller.second.is_some() {
        return Err(Refusal::Empty { field: "torque" });
    }
    each([
        ("torque", impeller.torque.as_ref(), &TORQUE),
        ("second", impeller.second.as_ref(), &TORQUE),
    ])?;
    text("compound", &impeller.compound, LONGEST_TEXT)
}

pub(super) fn check_checked(job: &Job, key: &Key, checked: &Checked) -> Result<(), Refusal> {
    let Some(state) = job.fits.get(key) else {
        let key = key.to_string();
        return unfit(Unfit::NoSuchFit { key });
    };
    let fit = &state.fit.value;
    let all = fit.kind.checks();
    if let Some(strange) = checked.ticks.iter().find(|tick| !all.contains(tick)) {
        return unfit(Unfit::NoSuchCheck {
            text: word(&CHECKS, *strange).to_owned(),
            checks: all.iter().map(|check| word(&CHECKS, *check)).collect(),
        });
    }
    if let Some(reading) = &checked.reading {
        match &fit.kind {
            FitKind::Anode { .. } => within("reading", reading, &OHMS)?,
            FitKind::Spline { .. } => within("reading", reading, &PLAY)?,
            _ => {
                let text = reading.text.clone();
                return unfit(Unfit::NothingToRead { text });
            }
        }
    }
    match mount::stop(job, fit) {
        Some(stop) if checked.ticks.contains(&Check::Tightened) => unfit(Unfit::Stops { stop }),
        _ => Ok(()),
    }
}
