//! What is left to plan, with everything that has happened worked into it: steps whose starts are
//! sought, differences between these starts, and what is left of every resource.

use std::collections::VecDeque;

use crate::graph::Edge;
use crate::network::{Network, ORIGIN, end, start};
use crate::profile::{NEVER, Profile};
use crate::{Progress, Resources, Source};

/// Project scheduling with least and most lags under limited resources (`bartusch-1988`).
///
/// `S_j >= S_i + w` for every tie, and at no time more in use than is left of any resource.
#[derive(Clone, Debug)]
pub(crate) struct Problem {
    /// The step of the plan behind each.
    pub(crate) steps: Vec<usize>,
    pub(crate) lasts: Vec<i64>,
    /// Whether the whole is over only after it; not so for a step left off.
    pub(crate) counts: Vec<bool>,
    /// Resource and units, none for a step without duration.
    pub(crate) needs: Vec<Vec<(usize, i64)>>,
    /// Who starts how much later than each at least.
    pub(crate) after: Vec<Vec<(usize, i64)>>,
    /// The same ties seen from their other end.
    pub(crate) before: Vec<Vec<(usize, i64)>>,
    /// Least start by time alone, before any tie.
    pub(crate) release: Vec<i64>,
    /// Most start by time alone, before any tie.
    pub(crate) latest: Vec<i64>,
    /// What is left of each resource for these steps.
    pub(crate) left: Vec<Profile>,
    /// When what is running ends at the earliest.
    pub(crate) busy: i64,
}

impl Problem {
    /// What some steps and some edges of a network leave to plan. The edges are consistent.
    pub(crate) fn new(
        network: &Network,
        edges: &[Edge],
        keep: &[bool],
        resources: &Resources,
    ) -> Self {
        let plan_steps = network.plan.steps().len();
        let progress = &network.situation.progress;
        let open = |step: usize| {
            matches!(progress[step], Progress::NotStarted | Progress::Deferred) && keep[step]
        };
        let steps: Vec<usize> = (0..plan_steps).filter(|&step| open(step)).collect();
        let mut place = vec![None; plan_steps];
        for (variable, &step) in steps.iter().enumerate() {
            place[step] = Some(variable);
        }
        let lasts: Vec<i64> = steps.iter().map(|&step| network.lasts(step)).collect();
        let holds = |step: usize| {
            resources.needs[step]
                .iter()
                .map(|&(r, u)| (r, i64::from(u)))
        };
        let needs = steps.iter().zip(&lasts).map(|(&step, &lasts)| {
            let needed = holds(step).filter(|_| lasts > 0);
            needed.collect()
        });
        let counts = steps
            .iter()
            .map(|&step| progress[step] != Progress::Deferred);
        let now = network.situation.now;
        let mut problem = Self {
            needs: needs.collect(),
            counts: counts.collect(),
            after: vec![Vec::new(); steps.len()],
            before: vec![Vec::new(); steps.len()],
            release: vec![now; steps.len()],
            latest: vec![NEVER; steps.len()],
            left: resources
                .list
                .iter()
                .map(Profile::beside_absences)
                .collect(),
            busy: now,
            steps,
            lasts,
        };
        for (step, progress) in progress.iter().enumerate() {
            if let Progress::Running { began } = *progress {
                let ends = began + network.lasts(step);
                problem.busy = problem.busy.max(ends);
                for (resource, units) in holds(step) {
                    problem.left[resource].take(began, ends, units);
                }
            }
        }
        for edge in edges {
            problem.tie(network, &place, edge);
        }
        problem
    }

    /// Works an edge between points into ties between starts.
    fn tie(&mut self, network: &Network, place: &[Option<usize>], edge: &Edge) {
        if matches!(edge.source, Source::Duration(_)) {
            return;
        }
        // Where a point stands: a start and how long after it, or a time.
        let stands = |point: usize| -> Result<(usize, i64), Option<i64>> {
            if point == ORIGIN {
                return Err(Some(0));
            }
            let step = (point - 1) / 2;
            let ends = point == end(step);
            if let Some(variable) = place[step] {
                return Ok((variable, if ends { self.lasts[variable] } else { 0 }));
            }
            let began = network.happened(start(step));
            let over = began.map(|began| began + network.lasts(step));
            Err(network.happened(point).or(over))
        };
        match (stands(edge.from), stands(edge.to)) {
            (Ok((from, off)), Ok((to, on))) if from != to => {
                let weight = edge.weight + off - on;
                self.after[from].push((to, weight));
                self.before[to].push((from, weight));
            }
            (Err(Some(time)), Ok((to, on))) => {
                self.release[to] = self.release[to].max(time + edge.weight - on);
            }
            (Ok((from, off)), Err(Some(time))) => {
                self.latest[from] = self.latest[from].min(time - edge.weight - off);
            }
            _ => {}
        }
    }

    pub(crate) fn len(&self) -> usize {
        self.steps.len()
    }

    /// The earliest start from a time on at which a step finds all it needs.
    pub(crate) fn fits(&self, left: &[Profile], step: usize, from: i64) -> Option<i64> {
        let (lasts, mut start) = (self.lasts[step], from);
        loop {
            let before = start;
            for &(resource, units) in &self.needs[step] {
                start = left[resource].earliest(start, lasts, units)?;
            }
            if start == before || self.needs[step].len() < 2 {
                return Some(start);
            }
        }
    }

    /// The latest start up to a time at which a step finds all it needs.
    pub(crate) fn fits_until(&self, left: &[Profile], step: usize, until: i64) -> Option<i64> {
        let (lasts, mut start) = (self.lasts[step], until);
        loop {
            let before = start;
            for &(resource, units) in &self.needs[step] {
                start = left[resource].latest(start, lasts, units)?;
            }
            if start == before || self.needs[step].len() < 2 {
                return Some(start);
            }
        }
    }

    /// The least starts that obey every tie and every absence, each step alone with the resources.
    pub(crate) fn earliest(&self) -> Option<Vec<i64>> {
        let mut starts = self.release.clone();
        let mut queue: VecDeque<usize> = (0..self.len()).collect();
        let mut queued = vec![true; self.len()];
        while let Some(step) = queue.pop_front() {
            queued[step] = false;
            starts[step] = self.fits(&self.left, step, starts[step])?;
            if starts[step] > self.latest[step] {
                return None;
            }
            for &(then, weight) in &self.after[step] {
                if starts[step] + weight > starts[then] {
                    starts[then] = starts[step] + weight;
                    if !queued[then] {
                        queued[then] = true;
                        queue.push_back(then);
                    }
                }
            }
        }
        Some(starts)
    }

    /// The greatest starts that obey the same, with every step over by a finish.
    pub(crate) fn latest(&self, finish: i64) -> Option<Vec<i64>> {
        let by = |step: usize| {
            let finish = if self.counts[step] { finish } else { NEVER };
            self.latest[step].min(finish - self.lasts[step])
        };
        let mut starts: Vec<i64> = (0..self.len()).map(by).collect();
        let mut queue: VecDeque<usize> = (0..self.len()).rev().collect();
        let mut queued = vec![true; self.len()];
        while let Some(step) = queue.pop_front() {
            queued[step] = false;
            starts[step] = self.fits_until(&self.left, step, starts[step])?;
            if starts[step] < self.release[step] {
                return None;
            }
            for &(first, weight) in &self.before[step] {
                if starts[step] - weight < starts[first] {
                    starts[first] = starts[step] - weight;
                    if !queued[first] {
                        queued[first] = true;
                        queue.push_back(first);
                    }
                }
            }
        }
        Some(starts)
    }

    /// Starts with what is left off put where it must be, if they obey everything.
    pub(crate) fn holds(&self, mut starts: Vec<i64>) -> Option<Vec<i64>> {
        let earliest = self.earliest()?;
        for step in (0..self.len()).filter(|&step| !self.counts[step]) {
            starts[step] = earliest[step];
        }
        // Those left off hang on one another and on the rest.
        for _ in 0..=self.len() {
            for step in (0..self.len()).filter(|&step| !self.counts[step]) {
                let ties = self.before[step].iter();
                let after = ties.map(|&(first, weight)| starts[first] + weight);
                starts[step] = after.fold(starts[step], i64::max);
            }
        }
        let timed = (0..self.len()).all(|step| {
            let ties = &mut self.after[step].iter();
            (self.release[step]..=self.latest[step]).contains(&starts[step])
                && ties.all(|&(then, weight)| starts[then] >= starts[step] + weight)
        });
        let mut left = self.left.clone();
        for (step, &start) in starts.iter().enumerate() {
            if self.fits(&left, step, start) != Some(start) {
                return None;
            }
            for &(resource, units) in &self.needs[step] {
                left[resource].take(start, start + self.lasts[step], units);
            }
        }
        timed.then_some(starts)
    }

    /// When all is over if the steps start so.
    pub(crate) fn finish(&self, starts: &[i64]) -> i64 {
        let counted = (0..self.len()).filter(|&step| self.counts[step]);
        let ends = counted.map(|step| starts[step] + self.lasts[step]);
        ends.fold(self.busy, i64::max)
    }

    /// The same problem with time running backwards from a finish. What bounds a step from above by
    /// time alone bounds it from below; nothing bounds it from above any more.
    pub(crate) fn mirrored(&self, finish: i64) -> Self {
        let mut turned = Self {
            after: vec![Vec::new(); self.len()],
            before: vec![Vec::new(); self.len()],
            latest: vec![NEVER; self.len()],
            left: self.left.iter().map(|left| left.mirrored(finish)).collect(),
            busy: 0,
            ..self.clone()
        };
        for step in 0..self.len() {
            turned.release[step] = (finish - self.latest[step] - self.lasts[step]).max(0);
            for &(then, weight) in &self.after[step] {
                let weight = weight + self.lasts[then] - self.lasts[step];
                turned.after[then].push((step, weight));
                turned.before[step].push((then, weight));
            }
        }
        turned
    }

    /// Steps that bound one another both ways, so that one can't be placed without the others. In an
    /// order in which ties lead from earlier blocks to later ones only.
    pub(crate) fn blocks(&self) -> Vec<Vec<usize>> {
        let mut order = Vec::new();
        let mut seen = vec![false; self.len()];
        for root in 0..self.len() {
            walk(&self.after, root, &mut seen, &mut order);
        }
        let mut seen = vec![false; self.len()];
        let mut blocks = Vec::new();
        for &root in order.iter().rev() {
            let mut block = Vec::new();
            walk(&self.before, root, &mut seen, &mut block);
            block.sort_unstable();
            if !block.is_empty() {
                blocks.push(block);
            }
        }
        blocks
    }

    /// The same with only some of its steps.
    pub(crate) fn only(&self, steps: &[usize]) -> Self {
        let mut place = vec![None; self.len()];
        for (new, &old) in steps.iter().enumerate() {
            place[old] = Some(new);
        }
        let ties = |ties: &[Vec<(usize, i64)>]| -> Vec<Vec<(usize, i64)>> {
            let kept = steps.iter().map(|&old| {
                let named = ties[old].iter();
                let named = named.filter_map(|&(other, weight)| Some((place[other]?, weight)));
                named.collect()
            });
            kept.collect()
        };
        let times = |times: &[i64]| steps.iter().map(|&old| times[old]).collect();
        Self {
            steps: steps.iter().map(|&old| self.steps[old]).collect(),
            lasts: times(&self.lasts),
            counts: steps.iter().map(|&old| self.counts[old]).collect(),
            needs: steps.iter().map(|&old| self.needs[old].clone()).collect(),
            after: ties(&self.after),
            before: ties(&self.before),
            release: times(&self.release),
            latest: times(&self.latest),
            left: self.left.clone(),
            busy: self.busy,
        }
    }
}

/// The steps that a step leads to and that were not seen before, each after all it leads to.
fn walk(ties: &[Vec<(usize, i64)>], root: usize, seen: &mut [bool], order: &mut Vec<usize>) {
    if std::mem::replace(&mut seen[root], true) {
        return;
    }
    let mut stack = vec![(root, 0)];
    while let Some((step, next)) = stack.last_mut() {
        let Some(&(other, _)) = ties[*step].get(*next) else {
            order.push(*step);
            stack.pop();
            continue;
        };
        *next += 1;
        if !std::mem::replace(&mut seen[other], true) {
            stack.push((other, 0));
        }
    }
}
