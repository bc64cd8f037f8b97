//! The wrench: what to set it to, how sure that is, and what it cannot measure.

use std::fmt;

use joint::slip::Slip;
use joint::{Applied, Interval, tool};
use quantity::Unit;

use crate::job::Job;
use crate::tools::{Tool, Wrench};

/// What to set the chosen wrench to.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// The wrench, as the person calls it.
    pub wrench: String,
    /// The unit of its scale.
    pub scale: Unit,
    /// Decimals its marks have in that unit.
    pub places: u32,
    /// The mark for the whole torque, `N m`.
    pub mark: f64,
    /// Torque at the screw over the setting, where an adapter changes it.
    pub gain: Option<f64>,
    /// The figure at the screw with the error of the wrench.
    pub applied: Applied,
    /// The mark of each pass.
    pub passes: Vec<Mark>,
    /// What the screw would get if the figure's bare number were set on this scale, `N m`; none
    /// where both have the same unit.
    pub crossed: Option<f64>,
}

/// The mark for one pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// What to set, `N m`.
    pub mark: f64,
    /// The wrench measures so much; if not, this pass goes by another wrench or by feel.
    pub measured: bool,
}

/// A wrench that does not measure what is asked of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Outside {
    /// The wrench, as the person calls it.
    pub wrench: String,
    /// The unit of its scale.
    pub scale: Unit,
    /// What it would have to be set to, `N m`.
    pub setting: f64,
    /// What it may be used for, `N m`.
    pub range: Interval,
    /// The person's other wrenches that measure it.
    pub others: Vec<String>,
}

impl Setting {
    /// A torque of the scale as it is read there: `71 lbf·in`.
    pub fn read(&self, torque: f64) -> String {
        quantity::format(torque, self.scale, self.places)
    }
}

impl fmt::Display for Outside {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = |torque| quantity::format(torque, self.scale, 1);
        write!(
            f,
            "The wrench “{}” is good for {} to {}, and it would have to be set to {}. ",
            self.wrench,
            quantity::number(self.range.low, self.scale, 1),
            text(self.range.high),
            text(self.setting)
        )?;
        if self.setting < self.range.low {
            f.write_str("Below a fifth of its greatest torque a wrench is not used. ")?;
        }
        match self.others.as_slice() {
            [] => f.write_str("Describe a wrench that measures it, and choose that one."),
            others => write!(f, "Take {}.", others.join(" or ")),
        }
    }
}

/// What to set for a torque at the screw, pass by pass; or why this wrench will not do. None where
/// the wrench is not described.
pub(crate) fn set(
    job: &Job,
    tool: &Tool,
    (torque, meant): (f64, Unit),
    shares: &[f64],
) -> Option<Result<Setting, Outside>> {
    let wrench = &job.wrenches.get(&tool.wrench)?.wrench.value;
    let numbers = wrench.numbers();
    let range = numbers.range().ok()?;
    let gain = match &tool.adapter {
        Some(adapter) => adapter.numbers().delivered(1.0).ok()?,
        None => 1.0,
    };
    let setting = torque / gain;
    let Ok(set) = numbers.applied(setting) else {
        let others = able(job, setting).into_iter();
        let others = others.filter(|(key, _)| *key != tool.wrench);
        return Some(Err(Outside {
            wrench: wrench.name.clone(),
            scale: wrench.scale,
            setting,
            range,
            others: others.map(|(_, name)| format!("“{name}”")).collect(),
        }));
    };
    let passes = shares.iter().map(|share| Mark {
        mark: mark(&numbers, share * setting),
        measured: range.contains(share * setting),
    });
    let crossed = (meant != wrench.scale).then(|| torque * crossed(meant, wrench.scale));
    Some(Ok(Setting {
        wrench: wrench.name.clone(),
        scale: wrench.scale,
        places: places(wrench),
        mark: mark(&numbers, setting),
        gain: tool.adapter.as_ref().map(|_| gain),
        applied: Applied { torque, ..set },
        passes: passes.collect(),
        crossed: crossed.map(|crossed| crossed * gain),
    }))
}

/// What a number set on a scale of another unit than it was meant for gives, over what was meant.
fn crossed(meant: Unit, scale: Unit) -> f64 {
    let printed = scale;
    Slip::Unit { meant, printed }.factor()
}

/// The wrenches that measure a setting, by key and name.
pub(crate) fn able(job: &Job, setting: f64) -> Vec<(crate::entry::Key, String)> {
    let wrenches = job.wrenches_in_order().into_iter();
    wrenches
        .filter(|(_, wrench)| wrench.numbers().applied(setting).is_ok())
        .map(|(key, wrench)| (key.clone(), wrench.name.clone()))
        .collect()
}

/// The nearest mark of the scale; the setting itself where there are none between its ends.
fn mark(wrench: &tool::Wrench, setting: f64) -> f64 {
    if wrench.step <= 0.0 {
        return setting;
    }
    let nearest = wrench.least + wrench.step * ((setting - wrench.least) / wrench.step).round();
    if nearest > wrench.most {
        nearest - wrench.step
    } else {
        nearest
    }
}

/// Decimals that tell the marks of a scale apart, three at most.
fn places(wrench: &Wrench) -> u32 {
    let Some(step) = &wrench.step else {
        return 1;
    };
    let whole = |torque: f64, places: u32| {
        let scaled = wrench.scale.from_si(torque) * 10_f64.powi(places.cast_signed());
        (scaled - scaled.round()).abs() < 1e-6
    };
    let both = |places: &u32| whole(step.value, *places) && whole(wrench.least.value, *places);
    (0..3).find(both).unwrap_or(3)
}
