//! From what was kept to a log: stretches, speeds from places, and the last refusals.

use quantity::Unit;

use super::reject::{Rejects, Why};
use super::{Kind, Options, Reading, Refused, SpeedFrom};
use crate::geodesy::bearing;
use crate::keep::{Kept, Thinned};
use crate::read::gather::seconds;
use crate::{Log, Sample};

/// A step longer than so many median steps is a gap. Source: common practice, no source.
const GAP: f64 = 2.5;
/// Slower than this a course from places is noise, in m/s.
const CREEP: f64 = 1.0;

/// What one source gave.
pub(crate) struct Gathered {
    pub(crate) kept: Vec<Kept>,
    pub(crate) thinned: Option<Thinned>,
    pub(crate) step: Option<f64>,
    pub(crate) ratio: Option<f64>,
    pub(crate) first: Option<i64>,
    pub(crate) rejects: Rejects,
    pub(crate) speedless: Rejects,
    pub(crate) fixes: u64,
    pub(crate) with_speed: u64,
    pub(crate) with_course: bool,
    pub(crate) back: u64,
    pub(crate) two_craft: bool,
}

/// What the reader of one kind of file knows about it.
pub(crate) struct About {
    pub(crate) kind: Kind,
    /// Where in the file the receiver's speeds stand.
    pub(crate) place: String,
    pub(crate) unit: Unit,
    /// Whether times count from 1970.
    pub(crate) dated: bool,
    /// Instants without a zone, taken for UTC.
    pub(crate) zoneless: u64,
    pub(crate) counts: Vec<(String, u64)>,
    /// What else could have been read, with its fixes.
    pub(crate) others: Vec<(String, u64)>,
    /// What was set aside before it became a fix.
    pub(crate) rejects: Rejects,
}

impl Gathered {
    pub(crate) fn reading(mut self, about: About, options: &Options) -> Result<Reading, Refused> {
        let receiver = self.with_speed > 0 && 2 * self.with_speed >= self.fixes;
        let mut rejects = about.rejects;
        rejects.merge(self.rejects);
        if receiver {
            rejects.merge(self.speedless);
        }
        if self.two_craft {
            return Err(Refused::Interleaved);
        }
        if receiver {
            contradiction(self.ratio, about.unit, options)?;
            absent_speeds(&mut self.kept);
        }
        let zero = self.first.unwrap_or_default();
        let parts = split(&self.kept, self.step);
        let sample = |part: &[Kept], at: usize| -> Option<Sample> {
            let kept = &part[at];
            let moved = around(part, at);
            let speed = if receiver { kept.speed } else { moved?.0 };
            let course = if self.with_course {
                Some(kept.course).filter(|c| !c.is_nan())
            } else {
                moved.and_then(|m| m.1)
            };
            Some(Sample {
                time: seconds(kept.time.saturating_sub(zero)),
                speed,
                course,
                engine: Some(kept.engine).filter(|e| !e.is_nan()),
            })
        };
        let stretches: Vec<Vec<Sample>> = parts
            .into_iter()
            .map(|part| (0..part.len()).filter_map(|at| sample(part, at)).collect())
            .filter(|stretch: &Vec<Sample>| !stretch.is_empty())
            .collect();
        let rejected = rejects.sorted();
        if stretches.is_empty() {
            return Err(nothing(rejected));
        }
        Ok(Reading {
            log: Log {
                zero: about.dated.then(|| seconds(zero)),
                stretches,
            },
            kind: about.kind,
            speed_from: if receiver {
                SpeedFrom::Receiver(about.place)
            } else {
                SpeedFrom::Positions
            },
            fixes: self.fixes,
            counts: about.counts,
            others: about.others,
            rejected,
            unit_check: self.ratio.filter(|_| receiver),
            step: self.step,
            clock_back: self.back,
            zoneless: about.zoneless,
            weeks_behind: weeks_behind(about.dated.then(|| seconds(zero)), options.now),
            thinned: self.thinned,
        })
    }
}

/// Why nothing was left, as plainly as it can be said.
fn nothing(rejected: Vec<super::Rejected>) -> Refused {
    match rejected.first() {
        Some(most) if most.why == Why::NoTime => Refused::NoTime { fixes: most.count },
        Some(most) if most.why == Why::NoSpeed => Refused::NoSpeed { fixes: most.count },
        _ => Refused::NothingLeft { rejected },
    }
}

/// In a log with speeds, a fix without one does not count: an empty speed is not zero.
fn absent_speeds(kept: &mut Vec<Kept>) {
    let (mut gap, mut broken) = (0.0, false);
    kept.retain_mut(|sample| {
        gap += sample.gap;
        broken |= sample.broken;
        if sample.speed.is_nan() {
            return false;
        }
        sample.gap = gap;
        sample.broken = broken;
        (gap, broken) = (0.0, false);
        true
    });
}

/// Stretches without a break or a gap, each with its samples in rising time.
fn split(kept: &[Kept], step: Option<f64>) -> Vec<&[Kept]> {
    let longest = step.map_or(f64::INFINITY, |step| GAP * step.max(1e-3) * (1.0 + 1e-6));
    kept.chunk_by(|a, b| !b.broken && f64::from(b.gap) <= longest && b.time > a.time)
        .collect()
}

/// Speed and course from the legs on both sides of a place, where there are any.
fn around(part: &[Kept], at: usize) -> Option<(f64, Option<f64>)> {
    let own = (at > 0).then(|| part[at].leg.map(f64::from));
    let next = part.get(at + 1).and_then(|next| {
        let leg = next.leg.map(f64::from);
        // Where samples between were given up, the leg began at one of them.
        let adjacent = (seconds(next.time.saturating_sub(part[at].time)) - leg[2]).abs() < 1e-4;
        adjacent.then_some(leg)
    });
    let (mut way, mut over, mut east, mut north) = (0.0, 0.0, 0.0, 0.0);
    for leg in own.into_iter().chain(next).filter(|leg| !leg[0].is_nan()) {
        way += leg[0].hypot(leg[1]);
        over += leg[2];
        east += leg[0];
        north += leg[1];
    }
    (over > 0.0).then(|| (way / over, bearing(east, north, CREEP * over)))
}

const UNITS: [Unit; 5] = [
    Unit::MetrePerSecond,
    Unit::KilometrePerHour,
    Unit::MilePerHour,
    Unit::Knot,
    Unit::FootPerSecond,
];

/// Refuses speeds that positions say are in another unit, unless the person has settled it.
fn contradiction(ratio: Option<f64>, stated: Unit, options: &Options) -> Result<(), Refused> {
    let Some(ratio) = ratio.filter(|_| options.speed_unit.is_none()) else {
        return Ok(());
    };
    // How far off the speeds are if the numbers are in another unit.
    let off = |unit: Unit| (ratio * unit_size(unit) / unit_size(stated)).ln().abs();
    let likely = UNITS
        .into_iter()
        .filter(|unit| *unit != stated && off(*unit) < 0.04)
        .min_by(|a, b| off(*a).total_cmp(&off(*b)));
    let far = off(stated) > 0.25 || (off(stated) > 0.07 && likely.is_some());
    if far {
        return Err(Refused::Unit {
            stated,
            ratio,
            likely,
        });
    }
    Ok(())
}

/// One of a unit in SI.
pub(crate) fn unit_size(unit: Unit) -> f64 {
    quantity::parse("1", unit).map_or(f64::NAN, |one| one.value)
}

/// The 10-bit week of old receivers starts anew after 1024 weeks: how many times it has, it seems.
fn weeks_behind(zero: Option<f64>, now: Option<f64>) -> u32 {
    let period = f64::from(super::ROLLOVER_WEEKS) * seconds(7 * super::time::DAY);
    match (zero, now) {
        (Some(zero), Some(now)) if now - zero >= period => {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "a small count, above zero"
            )]
            let periods = ((now - zero) / period) as u32;
            periods * super::ROLLOVER_WEEKS
        }
        _ => 0,
    }
}
