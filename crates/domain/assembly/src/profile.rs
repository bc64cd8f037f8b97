//! What is left of a resource over time.

use crate::Resource;

/// Before everything and after everything; far outside any time accepted.
pub(crate) const NEVER: i64 = 1 << 50;

/// A step function: `left[k]` from `times[k]` until just before `times[k + 1]`.
#[derive(Clone, Debug)]
pub(crate) struct Profile {
    times: Vec<i64>,
    left: Vec<i64>,
}

impl Profile {
    pub(crate) fn of(capacity: i64) -> Self {
        Self {
            times: vec![-NEVER],
            left: vec![capacity],
        }
    }

    /// What is left of a resource beside its absences.
    pub(crate) fn beside_absences(resource: &Resource) -> Self {
        let mut profile = Self::of(i64::from(resource.capacity));
        for away in &resource.away {
            profile.take(away.from, away.until, i64::from(away.units));
        }
        profile
    }

    /// Takes units away from a time until just before another.
    pub(crate) fn take(&mut self, from: i64, until: i64, units: i64) {
        if until <= from || units == 0 {
            return;
        }
        let first = self.split(from);
        let last = self.split(until);
        for left in &mut self.left[first..last] {
            *left -= units;
        }
        // Fewer segments are walked faster.
        for place in [last, first] {
            if place > 0 && self.left[place - 1] == self.left[place] {
                self.times.remove(place);
                self.left.remove(place);
            }
        }
    }

    /// The segment that begins at a time, made if there is none.
    fn split(&mut self, time: i64) -> usize {
        let place = self.times.partition_point(|&other| other < time);
        if self.times.get(place) != Some(&time) {
            let left = self.left[place.max(1) - 1];
            self.times.insert(place, time);
            self.left.insert(place, left);
        }
        place
    }

    /// The earliest start from a time on at which so many are left for so long.
    pub(crate) fn earliest(&self, from: i64, lasts: i64, units: i64) -> Option<i64> {
        if lasts == 0 {
            return Some(from);
        }
        let mut start = from;
        let mut place = self.times.partition_point(|&time| time <= from).max(1) - 1;
        while place < self.times.len() && self.times[place] < start + lasts {
            if self.left[place] < units {
                start = *self.times.get(place + 1)?;
            }
            place += 1;
        }
        Some(start)
    }

    /// The latest start up to a time at which so many are left for so long.
    pub(crate) fn latest(&self, until: i64, lasts: i64, units: i64) -> Option<i64> {
        if lasts == 0 {
            return Some(until);
        }
        let mut start = until;
        let mut place = self.times.partition_point(|&time| time < until + lasts);
        while place > 0 {
            let begins = self.times[place - 1];
            if self.times.get(place).is_some_and(|&ends| ends <= start) {
                break;
            }
            if self.left[place - 1] < units {
                if place == 1 {
                    return None;
                }
                start = begins - lasts;
            }
            place -= 1;
        }
        Some(start)
    }

    /// The most that is ever left.
    pub(crate) fn greatest(&self) -> i64 {
        self.left.iter().copied().fold(0, i64::max)
    }

    /// What is left at a time.
    pub(crate) fn at(&self, time: i64) -> i64 {
        let place = self.times.partition_point(|&other| other <= time);
        self.left[place.max(1) - 1]
    }

    /// A time, and when what is left changes between it and another.
    pub(crate) fn changes(&self, from: i64, until: i64) -> Vec<i64> {
        let within = self.times.iter().copied();
        let within = within.filter(|&time| from < time && time < until);
        std::iter::once(from).chain(within).collect()
    }

    /// Unit seconds left up to each of some times, counted from the first. The times rise.
    pub(crate) fn work(&self, times: &[i64]) -> Vec<i128> {
        let Some(&first) = times.first() else {
            return Vec::new();
        };
        let mut place = self.times.partition_point(|&time| time <= first).max(1) - 1;
        let (mut at, mut sum) = (first, 0_i128);
        let mut sums = Vec::with_capacity(times.len());
        for &time in times {
            while at < time {
                let ends = self.times.get(place + 1).copied().unwrap_or(NEVER);
                let to = ends.min(time);
                sum += i128::from(to - at) * i128::from(self.left[place].max(0));
                at = to;
                if at == ends {
                    place += 1;
                }
            }
            sums.push(sum);
        }
        sums
    }

    /// The same with time running backwards from a time.
    pub(crate) fn mirrored(&self, about: i64) -> Self {
        let turned = self.times[1..].iter().rev().map(|time| about - time);
        Self {
            times: std::iter::once(-NEVER).chain(turned).collect(),
            left: self.left.iter().rev().copied().collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two, one away from 10 to 20, both from 30 to 40.
    fn shifts() -> Profile {
        let mut profile = Profile::of(2);
        profile.take(10, 20, 1);
        profile.take(30, 40, 2);
        profile
    }

    #[test]
    fn law_a_step_fits_between() {
        let profile = shifts();
        let starts = [(0, 10, 2), (0, 11, 2), (5, 10, 2), (5, 30, 1), (0, 30, 1)];
        let found = starts.map(|(from, lasts, units)| profile.earliest(from, lasts, units));
        assert_eq!(found, [Some(0), Some(40), Some(20), Some(40), Some(0)]);
        let found = [(35, 10, 2), (19, 10, 2), (39, 1, 1), (25, 5, 2)]
            .map(|(until, lasts, units)| profile.latest(until, lasts, units));
        assert_eq!(found, [Some(20), Some(0), Some(29), Some(25)]);
        assert_eq!(profile.earliest(0, 1, 3), None);
        assert_eq!(profile.latest(0, 1, 3), None);
    }

    #[test]
    fn law_the_mirror_keeps_what_is_left() {
        let mirrored = shifts().mirrored(100);
        assert_eq!(mirrored.earliest(100 - 35 - 10, 10, 2), Some(70));
        assert_eq!(shifts().work(&[0, 10, 25, 35, 50]), [0, 20, 40, 50, 70]);
        assert_eq!(mirrored.work(&[50, 65, 75, 90, 100]), [0, 20, 30, 50, 70]);
    }
}
