//! Placing steps one after another: fast, and a plan as good as the order they are taken in.

use std::collections::VecDeque;

use crate::problem::Problem;
use crate::profile::{NEVER, Profile};

/// What is placed so far.
#[derive(Clone)]
struct Board {
    left: Vec<Profile>,
    /// The least start of each step by those placed.
    floor: Vec<i64>,
    starts: Vec<i64>,
}

/// Steps that are placed together or not at all, and how far they are apart at least.
pub(crate) struct Block {
    steps: Vec<usize>,
    /// From each to each, by the ties among them.
    apart: Vec<Vec<i64>>,
}

/// A problem made ready for placing in many orders.
pub(crate) struct Placer<'a> {
    problem: &'a Problem,
    blocks: Vec<Block>,
    /// The block of each step.
    home: Vec<usize>,
    /// Latest starts by time and ties alone.
    latest: Vec<i64>,
}

impl<'a> Placer<'a> {
    /// None where time alone leaves some step no start.
    pub(crate) fn new(problem: &'a Problem) -> Option<Self> {
        let latest = problem.latest(NEVER / 2)?;
        let mut home = vec![0; problem.len()];
        let blocks = problem.blocks();
        for (number, block) in blocks.iter().enumerate() {
            for &step in block {
                home[step] = number;
            }
        }
        let apart = |steps: Vec<usize>| Block {
            apart: apart(problem, &steps),
            steps,
        };
        Some(Self {
            problem,
            blocks: blocks.into_iter().map(apart).collect(),
            home,
            latest,
        })
    }

    /// Starts for all steps; the step with the least key is taken first of those whose turn it can be.
    /// Else the step that found no place.
    pub(crate) fn place(&self, keys: &[i64]) -> Result<Vec<i64>, usize> {
        let mut waits = vec![0; self.blocks.len()];
        for step in 0..self.problem.len() {
            for &(then, _) in &self.problem.after[step] {
                if self.home[then] != self.home[step] {
                    waits[self.home[then]] += 1;
                }
            }
        }
        let urgency = |block: usize| {
            let steps = &self.blocks[block].steps;
            steps.iter().map(|&step| keys[step]).min()
        };
        let mut ready: Vec<usize> = (0..waits.len()).filter(|&b| waits[b] == 0).collect();
        let mut board = Board {
            left: self.problem.left.clone(),
            floor: self.problem.release.clone(),
            starts: vec![0; self.problem.len()],
        };
        while let Some(next) = (0..ready.len()).min_by_key(|&r| (urgency(ready[r]), ready[r])) {
            let block = &self.blocks[ready.swap_remove(next)];
            if let [step] = block.steps[..] {
                self.place_alone(step, &mut board)?;
            } else {
                self.place_block(block, keys, &mut board)?;
            }
            for &step in &block.steps {
                for &(then, weight) in &self.problem.after[step] {
                    board.floor[then] = board.floor[then].max(board.starts[step] + weight);
                    if self.home[then] != self.home[step] {
                        waits[self.home[then]] -= 1;
                        if waits[self.home[then]] == 0 {
                            ready.push(self.home[then]);
                        }
                    }
                }
            }
        }
        Ok(board.starts)
    }

    fn place_alone(&self, step: usize, board: &mut Board) -> Result<(), usize> {
        let start = self.problem.fits(&board.left, step, board.floor[step]);
        let start = start.filter(|&start| start <= self.latest[step]);
        self.take(board, step, start.ok_or(step)?);
        Ok(())
    }

    fn take(&self, board: &mut Board, step: usize, start: i64) {
        board.starts[step] = start;
        let ends = start + self.problem.lasts[step];
        for &(resource, units) in &self.problem.needs[step] {
            board.left[resource].take(start, ends, units);
        }
    }

    /// Places a block as a whole. A step that comes too late for one placed before it is taken earlier;
    /// if that doesn't help, the one placed before is held back by as much.
    fn place_block(&self, block: &Block, keys: &[i64], board: &mut Board) -> Result<(), usize> {
        let count = block.steps.len();
        let mut keys = keys.to_vec();
        let mut stuck = None;
        for round in 1..=8 + 4 * i64::try_from(count).unwrap_or(0) {
            let mut trial = board.clone();
            match self.try_block(block, &keys, &mut trial) {
                Ok(()) => {
                    *board = trial;
                    return Ok(());
                }
                Err(Late {
                    step, held: None, ..
                }) => return Err(step),
                Err(Late {
                    step,
                    held: Some(place),
                    by,
                }) => {
                    if stuck == Some(step) {
                        let held = block.steps[place];
                        board.floor[held] = trial.starts[held] + by;
                    }
                    stuck = Some(step);
                    keys[step] = -NEVER * round;
                }
            }
        }
        Err(stuck.unwrap_or(block.steps[0]))
    }

    fn try_block(&self, block: &Block, keys: &[i64], board: &mut Board) -> Result<(), Late> {
        let count = block.steps.len();
        let apart = &block.apart;
        let own = |from: usize| board.floor[block.steps[from]];
        let mut low: Vec<i64> = (0..count)
            .map(|to| {
                let ways = (0..count).map(|from| own(from).saturating_add(apart[from][to]));
                ways.fold(-NEVER, i64::max)
            })
            .collect();
        let mut high = vec![(NEVER, None); count];
        let mut waits: Vec<usize> = (0..count)
            .map(|to| (0..count).filter(|&from| apart[from][to] > 0).count())
            .collect();
        let mut open = vec![true; count];
        for _ in 0..count {
            let free = (0..count).filter(|&k| open[k] && waits[k] == 0);
            let Some(next) = free.min_by_key(|&k| (keys[block.steps[k]], low[k], k)) else {
                break;
            };
            let step = block.steps[next];
            let late = |by| Late {
                step,
                held: None,
                by,
            };
            let start = self
                .problem
                .fits(&board.left, step, low[next])
                .ok_or(late(0))?;
            if start > self.latest[step] {
                return Err(late(0));
            }
            let (most, held) = high[next];
            if start > most {
                let by = start - most;
                return Err(Late { step, held, by });
            }
            self.take(board, step, start);
            open[next] = false;
            for other in 0..count {
                low[other] = low[other].max(start.saturating_add(apart[next][other]));
                let most = start.saturating_sub(apart[other][next]);
                if most < high[other].0 {
                    high[other] = (most, Some(next));
                }
                waits[other] -= usize::from(apart[next][other] > 0);
            }
        }
        Ok(())
    }
}

/// A step of a block that would start too late for one placed before it, or for good.
struct Late {
    step: usize,
    held: Option<usize>,
    by: i64,
}

/// How far the steps of a block come after one another at least; far below nothing where no way
/// leads. Their ties are consistent.
fn apart(problem: &Problem, steps: &[usize]) -> Vec<Vec<i64>> {
    let mut place = vec![None; problem.len()];
    for (new, &old) in steps.iter().enumerate() {
        place[old] = Some(new);
    }
    let from = |root: usize| {
        let mut far = vec![-NEVER; steps.len()];
        far[root] = 0;
        let mut queue = VecDeque::from([root]);
        while let Some(here) = queue.pop_front() {
            for &(then, weight) in &problem.after[steps[here]] {
                let Some(then) = place[then] else { continue };
                if far[here] + weight > far[then] {
                    far[then] = far[here] + weight;
                    queue.push_back(then);
                }
            }
        }
        far
    };
    (0..steps.len()).map(from).collect()
}
