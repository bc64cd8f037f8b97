//! Fixes, one after another, into a log: what every kind of file has in common.

use std::mem::take;

use super::reject::{Rejects, Why};
use crate::geodesy::{Earth, Place};
use crate::keep::{Keep, Kept};

/// No craft changes its speed faster, in m/s². Source: common practice, no source.
const FASTEST_CHANGE: f64 = 15.0;
/// Stamps jitter and positions scatter, so a change is judged over at least so many seconds.
const LEAST_STEP: f64 = 0.1;
const LEAST_STEP_OF_PLACES: f64 = 1.0;
/// A speed between places that counts as a place gone wrong.
const FASTEST: f64 = 100.0;
/// Worse fixes are set aside. Source: common practice, no source.
const WORST_DILUTION: f64 = 5.0;
const LEAST_SATELLITES: f64 = 5.0;
/// After so many seconds without a fix any speed is possible.
const FORGOTTEN: f64 = 10.0;
/// Steps longer than this many milliseconds are counted as this long.
const LONGEST_STEP: usize = 100_000;

/// What one fix of any file says.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Fix {
    /// In nanoseconds, from 1970 or from a zero of the file's own.
    pub(crate) time: Option<i64>,
    pub(crate) place: Option<Place>,
    pub(crate) speed: Option<f64>,
    pub(crate) course: Option<f64>,
    pub(crate) engine: Option<f64>,
    pub(crate) dilution: Option<f64>,
    pub(crate) satellites: Option<f64>,
    /// Where it stands.
    pub(crate) line: u64,
}

/// A fix that may count.
#[derive(Clone, Copy, Debug)]
struct Point {
    fix: Fix,
    time: i64,
    /// The log broke off before it.
    broken: bool,
}

/// The last fix, held until the next shows that it stands.
#[derive(Clone, Copy, Debug)]
struct Held {
    point: Point,
    kept: Kept,
    /// What its leg began at.
    from: Option<Point>,
}

/// Sums for comparing the receiver's speeds with positions.
#[derive(Clone, Copy, Debug, Default)]
struct Check {
    legs: u32,
    by_speed: f64,
    by_place: f64,
}

#[derive(Debug, Default)]
pub(crate) struct Gather {
    earth: Earth,
    keep: Keep,
    last: Option<Held>,
    suspect: Option<Point>,
    broken: bool,
    check: Check,
    /// Of the last two places, for the unit check and for two craft in one file.
    trail: [Option<(i64, f64, Place)>; 2],
    /// How many steps took so many milliseconds.
    steps: Vec<u32>,
    pub(crate) first: Option<i64>,
    pub(crate) rejects: Rejects,
    speedless: Rejects,
    /// Fixes that reached the log, thinned ones too.
    pub(crate) fixes: u64,
    pub(crate) with_speed: u64,
    pub(crate) with_course: bool,
    /// Times the clock stepped back.
    pub(crate) back: u64,
    /// Fixes that jumped away and back again.
    pub(crate) fro: u64,
    placed: u64,
}

impl Gather {
    /// The log broke off here.
    pub(crate) fn broken(&mut self) {
        self.broken = true;
        self.trail = [None; 2];
    }

    /// Takes a fix, `text` being what it was read from.
    pub(crate) fn fix(&mut self, fix: Fix, text: &[u8]) {
        match Self::fault(&fix) {
            Ok(time) => {
                self.watch(&fix, time);
                let broken = take(&mut self.broken);
                self.offer(Point { fix, time, broken });
            }
            Err(why) => self.rejects.add(why, fix.line, text),
        }
    }

    fn fault(fix: &Fix) -> Result<i64, Why> {
        let null = |p: Place| p.latitude == 0.0 && p.longitude == 0.0;
        let poor = fix.dilution.is_some_and(|d| d > WORST_DILUTION)
            || fix.satellites.is_some_and(|n| n < LEAST_SATELLITES);
        match fix.time {
            None => Err(Why::NoTime),
            _ if fix.place.is_some_and(null) => Err(Why::NullPlace),
            _ if poor => Err(Why::PoorFix),
            _ if fix.place.is_none() && fix.speed.is_none() => Err(Why::NoSpeed),
            Some(time) => Ok(time),
        }
    }

    /// Compares speed with places, and looks for a track that jumps to and fro.
    fn watch(&mut self, fix: &Fix, time: i64) {
        let Some(place) = fix.place else { return };
        self.placed += 1;
        let [before, last] = self.trail;
        if let Some((then, speed, from)) = last {
            let step = self.earth.step(from, place);
            let distance = step[0].hypot(step[1]);
            if let Some((_, _, before)) = before.filter(|_| distance > 10.0) {
                let [east, north] = self.earth.step(before, place);
                self.fro += u64::from(east.hypot(north) < 0.25 * distance);
            }
            let over = seconds(time.saturating_sub(then));
            let pace = distance / over;
            let mean = f64::midpoint(speed, fix.speed.unwrap_or(f64::NAN));
            if over > 0.0 && over <= FORGOTTEN && (2.0..FASTEST).contains(&pace) && mean.is_finite()
            {
                self.check.legs += 1;
                self.check.by_speed += mean * over;
                self.check.by_place += distance;
            }
        }
        self.trail = [last, Some((time, fix.speed.unwrap_or(f64::NAN), place))];
    }

    /// Holds back what does not fit its neighbours until the next fix tells which of them is wrong.
    fn offer(&mut self, point: Point) {
        let Some(last) = self.last.map(|held| held.point) else {
            self.accept(point);
            return;
        };
        let fits = self.agree(&last, &point);
        match self.suspect.take() {
            None if fits => self.accept(point),
            None => self.suspect = Some(point),
            Some(suspect) if !fits && self.agree(&suspect, &point) => {
                self.accept(Point {
                    broken: true,
                    ..suspect
                });
                self.accept(point);
            }
            Some(suspect) => {
                self.outlier(&suspect);
                let point = Point {
                    broken: point.broken || suspect.broken,
                    ..point
                };
                if fits {
                    self.accept(point);
                } else {
                    self.suspect = Some(point);
                }
            }
        }
    }

    fn outlier(&mut self, point: &Point) {
        let text = point.fix.speed.map_or_else(
            || "a jump of the position".to_owned(),
            |v| format!("{v:.2} m/s"),
        );
        self.rejects
            .add(Why::Outlier, point.fix.line, text.as_bytes());
    }

    fn agree(&self, a: &Point, b: &Point) -> bool {
        let over = seconds(b.time.saturating_sub(a.time));
        if b.broken || over <= 0.0 || over > FORGOTTEN {
            return true;
        }
        if let (Some(from), Some(to)) = (a.fix.speed, b.fix.speed) {
            return (to - from).abs() <= FASTEST_CHANGE * over.max(LEAST_STEP);
        }
        let (None, None, Some(from), Some(to)) =
            (a.fix.speed, b.fix.speed, a.fix.place, b.fix.place)
        else {
            return true;
        };
        let step = self.earth.step(from, to);
        let pace = step[0].hypot(step[1]) / over;
        let before = match &self.last {
            Some(held) if held.point.time == a.time && held.from.is_some() => held.kept.pace(),
            _ => return pace < FASTEST,
        };
        (pace - before).abs() <= FASTEST_CHANGE * over.max(LEAST_STEP_OF_PLACES)
    }

    fn accept(&mut self, mut point: Point) {
        let mut from = None;
        if let Some(held) = self.last {
            if point.time == held.point.time {
                let line = held.point.fix.line;
                self.rejects
                    .add(Why::Duplicate, line, b"an earlier fix of the same instant");
                self.uncount(&held.point.fix);
                point.broken |= held.kept.broken;
                from = held.from;
            } else {
                if point.time < held.point.time {
                    self.back += 1;
                    point.broken = true;
                }
                self.keep.push(held.kept);
                from = (!point.broken).then_some(held.point);
            }
        }
        if let Some(from) = from.filter(|_| self.last.is_some_and(|l| l.point.time != point.time)) {
            self.count_step(point.time.saturating_sub(from.time));
        }
        self.first = self.first.or(Some(point.time));
        let kept = self.kept(&point, from.as_ref());
        self.last = Some(Held { point, kept, from });
    }

    fn count_step(&mut self, step: i64) {
        // Half a millisecond up, so that a step of 33.333 ms counts as 33.
        let rounded = usize::try_from(step.saturating_add(500_000) / 1_000_000);
        let rounded = rounded.unwrap_or(LONGEST_STEP).min(LONGEST_STEP);
        if self.steps.len() <= rounded {
            self.steps.resize(rounded + 1, 0);
        }
        self.steps[rounded] += 1;
    }

    fn uncount(&mut self, fix: &Fix) {
        self.fixes -= 1;
        self.with_speed -= u64::from(fix.speed.is_some());
    }

    fn kept(&mut self, point: &Point, from: Option<&Point>) -> Kept {
        let fix = &point.fix;
        self.fixes += 1;
        self.with_speed += u64::from(fix.speed.is_some());
        self.with_course |= fix.course.is_some();
        if fix.speed.is_none() {
            self.speedless.add(Why::NoSpeed, fix.line, b"");
        }
        let over = from.map_or(0.0, |from| seconds(point.time.saturating_sub(from.time)));
        let places = from.and_then(|from| Some((from.fix.place?, fix.place?)));
        let [east, north] = places.map_or([f64::NAN; 2], |(a, b)| self.earth.step(a, b));
        #[expect(
            clippy::cast_possible_truncation,
            reason = "good to a part in ten million"
        )]
        let leg = [east, north, over].map(|x| x as f32);
        Kept {
            time: point.time,
            speed: fix.speed.unwrap_or(f64::NAN),
            course: fix.course.unwrap_or(f64::NAN),
            engine: fix.engine.unwrap_or(f64::NAN),
            leg,
            gap: leg[2],
            broken: point.broken,
        }
    }

    /// Ends the reading: what was kept, and the median step.
    pub(crate) fn finish(mut self) -> super::finish::Gathered {
        if let Some(suspect) = self.suspect.take() {
            self.outlier(&suspect);
        }
        if let Some(held) = self.last.take() {
            self.keep.push(held.kept);
        }
        let ratio = (self.check.legs >= 10 && self.check.by_place >= 100.0)
            .then(|| self.check.by_speed / self.check.by_place);
        let step = median(&self.steps);
        let (kept, thinned) = self.keep.finish();
        super::finish::Gathered {
            kept,
            thinned,
            step,
            ratio,
            first: self.first,
            rejects: self.rejects,
            speedless: self.speedless,
            fixes: self.fixes,
            with_speed: self.with_speed,
            with_course: self.with_course,
            back: self.back,
            two_craft: self.fro >= 10 && 4 * self.fro >= self.placed,
        }
    }
}

/// Seconds, from nanoseconds.
#[expect(clippy::cast_precision_loss, reason = "rounded once, to the nearest")]
pub(crate) fn seconds(nanoseconds: i64) -> f64 {
    nanoseconds as f64 / 1e9
}

/// The median of counted milliseconds, in seconds.
fn median(steps: &[u32]) -> Option<f64> {
    let total: u64 = steps.iter().map(|&n| u64::from(n)).sum();
    let mut passed = 0;
    for (milliseconds, &count) in (0_i64..).zip(steps) {
        passed += u64::from(count);
        if total > 0 && 2 * passed >= total {
            return Some(seconds(1_000_000 * milliseconds));
        }
    }
    None
}
