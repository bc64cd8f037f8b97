//! Many orders tried, the best kept: placing is fast, so that a better order is cheaper than a cleverer
//! way of placing.

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};

use crate::bound::{self, Least};
use crate::greedy::Placer;
use crate::problem::Problem;
use crate::profile::NEVER;

/// Placed steps that one answer may cost.
const EFFORT: usize = 8_000;
/// Times a step that found no place is moved forward in the order.
const RESCUES: usize = 24;
const SEED: u64 = 1991;

/// The best starts found and what can't be beaten.
pub(crate) struct Found {
    pub(crate) starts: Vec<i64>,
    pub(crate) least: Least,
}

pub(crate) struct Search<'a> {
    problem: &'a Problem,
    placer: Placer<'a>,
    best: Option<(i64, Vec<i64>)>,
    /// Placed steps left to try.
    left: usize,
    /// Nothing below this is sought.
    goal: i64,
    dice: Pcg64Mcg,
}

/// Starts for all steps by the first orders tried, however good.
pub(crate) fn placed(problem: &Problem) -> Option<Vec<i64>> {
    let mut search = Search::new(problem, None)?;
    let slack = problem.latest(NEVER / 2)?;
    for keys in [slack, tails(problem)] {
        search.rescue(&keys);
        if let Some((_, starts)) = search.best {
            return Some(starts);
        }
    }
    None
}

/// Starts for all steps, if an order is found that places them.
pub(crate) fn improved(problem: &Problem) -> Option<Found> {
    let earliest = problem.earliest()?;
    let mut search = Search::new(problem, None)?;
    search.left = EFFORT;
    let slack = problem.latest(NEVER / 2)?;
    let due = tails(problem);
    let work = followers(problem);
    for keys in [&due, &earliest, &work, &slack] {
        search.rescue(keys);
        if search.done() {
            break;
        }
    }
    let (finish, _) = search.best.clone()?;
    let least = bound::least(problem, &earliest, finish);
    search.goal = least.finish;
    search.justify();
    search.shake();
    let (_, starts) = search.best?;
    Some(Found { starts, least })
}

impl<'a> Search<'a> {
    /// A search from some known starts on, if time alone leaves every step a start.
    pub(crate) fn new(problem: &'a Problem, known: Option<Vec<i64>>) -> Option<Self> {
        let earliest = problem.earliest()?;
        Some(Self {
            problem,
            placer: Placer::new(problem)?,
            best: known.map(|starts| (problem.finish(&starts), starts)),
            left: 0,
            goal: problem.finish(&earliest),
            dice: Pcg64Mcg::seed_from_u64(SEED),
        })
    }

    /// Some more orders near the best starts known; better ones, if there are.
    pub(crate) fn more(&mut self, known: Option<&[i64]>) -> Option<Vec<i64>> {
        let starts = known?;
        self.best = Some((self.problem.finish(starts), starts.to_vec()));
        self.left = EFFORT;
        self.shake();
        let better = self
            .best
            .clone()
            .filter(|(finish, _)| *finish < self.problem.finish(starts));
        better.map(|(_, starts)| starts)
    }
}

impl Search<'_> {
    fn done(&self) -> bool {
        self.left == 0
            || self
                .best
                .as_ref()
                .is_some_and(|(finish, _)| *finish <= self.goal)
    }

    /// Places by keys, and keeps the outcome if it is the best so far.
    fn attempt(&mut self, keys: &[i64]) -> Result<i64, usize> {
        self.left = self.left.saturating_sub(self.problem.len().max(1));
        let starts = self.placer.place(keys)?;
        let finish = self.problem.finish(&starts);
        if self.best.as_ref().is_none_or(|(best, _)| finish < *best) {
            self.best = Some((finish, starts));
        }
        Ok(finish)
    }

    /// Places by keys; whoever finds no place goes to the front with all before it.
    fn rescue(&mut self, keys: &[i64]) {
        let mut keys = keys.to_vec();
        for round in 1..=RESCUES {
            let Err(step) = self.attempt(&keys) else {
                return;
            };
            let front = NEVER / 64 * i64::try_from(round).unwrap_or(1);
            let mut seen = vec![false; keys.len()];
            let mut stack = vec![step];
            while let Some(step) = stack.pop() {
                if !std::mem::replace(&mut seen[step], true) {
                    keys[step] -= front;
                    stack.extend(self.problem.before[step].iter().map(|(first, _)| *first));
                }
            }
        }
    }

    /// From the end back and forward again: what can wait is placed late, and taken in that order.
    fn justify(&mut self) {
        while !self.done() {
            let Some((before, starts)) = self.best.clone() else {
                return;
            };
            let turned = self.problem.mirrored(before);
            let Some(placer) = Placer::new(&turned) else {
                return;
            };
            let lasts = &self.problem.lasts;
            let ends = starts
                .iter()
                .zip(lasts)
                .map(|(start, d)| before - start - d);
            self.left = self.left.saturating_sub(lasts.len());
            let Ok(late) = placer.place(&ends.collect::<Vec<_>>()) else {
                return;
            };
            let keys = late.iter().zip(lasts).map(|(start, d)| before - start - d);
            let keys: Vec<i64> = keys.collect();
            if self.attempt(&keys).is_ok_and(|finish| finish < before) {
                continue;
            }
            return;
        }
    }

    /// Orders near the best one.
    fn shake(&mut self) {
        while !self.done() {
            let Some((finish, starts)) = self.best.clone() else {
                return;
            };
            let span = (finish - starts.iter().min().copied().unwrap_or(0)).max(1);
            let reach = (span / 8 + 1).unsigned_abs();
            let keys: Vec<i64> = starts
                .iter()
                .map(|start| {
                    let by = self.dice.next_u64() % (2 * reach + 1);
                    // Most stay, some move.
                    if self.dice.next_u64().is_multiple_of(4) {
                        start + by.cast_signed() - reach.cast_signed()
                    } else {
                        *start
                    }
                })
                .collect();
            if self.attempt(&keys).is_ok_and(|found| found < finish) {
                self.justify();
            }
        }
    }
}

/// Less for steps that much must follow: the longest way from each to the end, taken from nothing.
fn tails(problem: &Problem) -> Vec<i64> {
    let mut tails: Vec<i64> = problem.lasts.clone();
    let blocks = problem.blocks();
    // Backwards through the blocks; within one until nothing grows.
    for block in blocks.iter().rev() {
        for _ in 0..=block.len() {
            let mut grown = false;
            for &step in block {
                for &(then, weight) in &problem.after[step] {
                    let tail = tails[then] + weight;
                    if tail > tails[step] {
                        tails[step] = tail;
                        grown = true;
                    }
                }
            }
            if !grown {
                break;
            }
        }
    }
    tails.iter().map(|tail| -tail).collect()
}

/// Less for steps with much work of others after them.
fn followers(problem: &Problem) -> Vec<i64> {
    let weigh = |root: usize| {
        let mut seen = vec![false; problem.len()];
        let mut stack = vec![root];
        let mut sum = 0;
        while let Some(step) = stack.pop() {
            if !std::mem::replace(&mut seen[step], true) {
                sum += problem.lasts[step];
                stack.extend(problem.after[step].iter().map(|(then, _)| *then));
            }
        }
        -sum
    };
    (0..problem.len()).map(weigh).collect()
}
