//! Straight legs of a piece of one speed: a craft that turns at full throttle runs on behind the turn.

use std::collections::VecDeque;

use super::Options;
use super::plateau::wrapped;
use crate::Sample;

/// Share of the turn a run may make that a leg may: what the ends of a turn add is to stay inside it.
const SHARE: f64 = 0.8;
/// A course is the middle one of so many, so that one wild reading cuts no leg.
const MIDDLE: usize = 5;

/// The straight legs of a piece that are as long as a run, in order; the piece itself where it is straight,
/// has no course, or has no such leg.
pub(super) fn legs<'a>(samples: &'a [Sample], options: &Options) -> Vec<&'a [Sample]> {
    let Some(courses) = unwound(samples) else {
        return vec![samples];
    };
    let mut found = Vec::new();
    let mut open = vec![(0, samples.len())];
    while let Some((from, to)) = open.pop() {
        let part = &samples[from..to];
        let Some((first, last)) = longest(part, &courses[from..to], SHARE * options.turn) else {
            continue;
        };
        if part[last].time - part[first].time < options.shortest {
            continue;
        }
        if (first, last + 1) == (0, samples.len()) {
            return vec![samples];
        }
        found.push((from + first, from + last + 1));
        open.push((from, from + first));
        open.push((from + last + 1, to));
    }
    if found.is_empty() {
        return vec![samples];
    }
    found.sort_unstable();
    found
        .into_iter()
        .map(|(from, to)| &samples[from..to])
        .collect()
}

/// Courses without the jump at north, each the middle one of its neighbours; none where one is missing.
fn unwound(samples: &[Sample]) -> Option<Vec<f64>> {
    let mut courses: Vec<f64> = Vec::with_capacity(samples.len());
    for sample in samples {
        let course = sample.course?;
        let before = courses.last().copied().unwrap_or(course);
        courses.push(before + wrapped(course - before));
    }
    let half = MIDDLE / 2;
    let middle = |at: usize| {
        let from = at.saturating_sub(half);
        let to = (at + half + 1).min(courses.len());
        let mut near = courses[from..to].to_vec();
        near.sort_by(f64::total_cmp);
        near[near.len() / 2]
    };
    Some((0..courses.len()).map(middle).collect())
}

/// First and last of the longest window, in time, whose courses spread no more than `most`.
fn longest(samples: &[Sample], courses: &[f64], most: f64) -> Option<(usize, usize)> {
    let (mut least, mut greatest) = (VecDeque::new(), VecDeque::new());
    let mut from = 0;
    let mut best: Option<(usize, usize)> = None;
    for at in 0..courses.len() {
        while least
            .back()
            .is_some_and(|&i: &usize| courses[i] >= courses[at])
        {
            least.pop_back();
        }
        least.push_back(at);
        while greatest
            .back()
            .is_some_and(|&i: &usize| courses[i] <= courses[at])
        {
            greatest.pop_back();
        }
        greatest.push_back(at);
        while courses[greatest[0]] - courses[least[0]] > most {
            from += 1;
            if least[0] < from {
                least.pop_front();
            }
            if greatest[0] < from {
                greatest.pop_front();
            }
        }
        let lasts = |(first, last): (usize, usize)| samples[last].time - samples[first].time;
        if best.is_none_or(|known| lasts((from, at)) > lasts(known)) {
            best = Some((from, at));
        }
    }
    best
}
