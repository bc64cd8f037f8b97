//! Every plan there is, tried in good order: branching on who of two goes first.
//!
//! The least starts that obey all ties and absences are a plan unless some steps together hold more
//! than is left. In any plan some two of these do not overlap, so each order of each two is tried; or,
//! if only an absence makes them too many, one of them starts later. What is done with is forbidden to
//! the rest (`de-reyck-herroelen-1998`). Between, every step is kept between its least and most start,
//! pairs with one order left are put in it, and a resource with too much work between two times ends a
//! way.

use std::collections::VecDeque;

use crate::bound::overload;
use crate::problem::Problem;
use crate::profile::{NEVER, Profile};

/// What some nodes brought.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Starts that finish below what was asked.
    Found(Vec<i64>),
    /// There are none.
    Exhausted,
    /// Nodes ran out; there is more to try.
    Paused,
}

/// A search for starts that finish below a limit. It can be left and taken up again.
pub(crate) struct Engine {
    problem: Problem,
    /// Pairs that can't hold a resource at once.
    pairs: Vec<(usize, usize)>,
    /// Who is tried first: the lower goes before.
    hint: Vec<i64>,
    below: i64,
    frames: Vec<Frame>,
    /// Ties added, as who from and who to.
    added: Vec<(usize, usize)>,
    state: State,
    begun: bool,
}

/// One way out of a conflict.
#[derive(Clone, Copy, Debug)]
enum Turn {
    /// The one is over before the other starts.
    Before(usize, usize),
    /// A step starts at a time or later.
    From(usize, i64),
}

#[derive(Clone)]
struct State {
    least: Vec<i64>,
    most: Vec<i64>,
}

struct Frame {
    state: State,
    /// How many ties were there.
    ties: usize,
    /// Ways to try, the next last.
    turns: Vec<Turn>,
    done: Vec<Turn>,
}

impl Engine {
    /// Starts that finish below a limit are sought, near some others.
    pub(crate) fn new(problem: &Problem, hint: &[i64], below: i64) -> Self {
        let mut pairs = Vec::new();
        for one in 0..problem.len() {
            for other in one + 1..problem.len() {
                let clash = problem.needs[one].iter().any(|&(r, units)| {
                    let room = problem.left[r].greatest();
                    let also = problem.needs[other].iter().find(|(s, _)| *s == r);
                    also.is_some_and(|(_, more)| units + more > room)
                });
                if clash {
                    pairs.push((one, other));
                }
            }
        }
        Self {
            problem: problem.clone(),
            pairs,
            hint: hint.to_vec(),
            below,
            frames: Vec::new(),
            added: Vec::new(),
            state: State {
                least: problem.release.clone(),
                most: vec![NEVER; problem.len()],
            },
            begun: false,
        }
    }

    /// Tries up to so many nodes.
    pub(crate) fn run(&mut self, nodes: usize) -> Outcome {
        if !self.begun {
            self.begun = true;
            let last = |step: usize| {
                let finish = if self.problem.counts[step] {
                    self.below - 1
                } else {
                    NEVER
                };
                self.problem.latest[step].min(finish - self.problem.lasts[step])
            };
            self.state.most = (0..self.problem.len()).map(last).collect();
            let all: Vec<usize> = (0..self.problem.len()).collect();
            if self.problem.busy >= self.below || !self.propagate(&all) {
                return Outcome::Exhausted;
            }
            match self.descend() {
                None => {}
                Some(outcome) => return outcome,
            }
        }
        for _ in 0..nodes {
            let Some(frame) = self.frames.last_mut() else {
                return Outcome::Exhausted;
            };
            self.state.clone_from(&frame.state);
            let (kept, turn, done) = (frame.ties, frame.turns.pop(), frame.done.clone());
            frame.done.extend(turn);
            while self.added.len() > kept {
                if let Some((from, to)) = self.added.pop() {
                    self.problem.after[from].pop();
                    self.problem.before[to].pop();
                }
            }
            let Some(turn) = turn else {
                self.frames.pop();
                continue;
            };
            let mut moved = Vec::new();
            for other in done {
                moved.extend(self.forbid(other));
            }
            moved.extend(self.take(turn));
            if self.propagate(&moved)
                && let Some(outcome) = self.descend()
            {
                return outcome;
            }
        }
        Outcome::Paused
    }

    fn take(&mut self, turn: Turn) -> [usize; 2] {
        match turn {
            Turn::Before(first, then) => {
                self.tie(first, then, self.problem.lasts[first]);
                [first, then]
            }
            Turn::From(step, time) => {
                self.state.least[step] = self.state.least[step].max(time);
                [step; 2]
            }
        }
    }

    fn forbid(&mut self, turn: Turn) -> [usize; 2] {
        match turn {
            Turn::Before(first, then) => {
                // The other starts before the one is over.
                self.tie(then, first, 1 - self.problem.lasts[first]);
                [first, then]
            }
            Turn::From(step, time) => {
                self.state.most[step] = self.state.most[step].min(time - 1);
                [step; 2]
            }
        }
    }

    fn tie(&mut self, from: usize, to: usize, weight: i64) {
        self.problem.after[from].push((to, weight));
        self.problem.before[to].push((from, weight));
        self.added.push((from, to));
    }

    /// Puts pairs in the only order left, then opens the first conflict, or has found a plan.
    fn descend(&mut self) -> Option<Outcome> {
        loop {
            match self.force() {
                None => return None,
                Some(false) => break,
                Some(true) => {}
            }
        }
        let State { least, most } = &self.state;
        let over =
            (0..self.problem.left.len()).any(|r| overload(&self.problem, r, least, most).is_some());
        if over {
            return None;
        }
        let Some(turns) = self.conflict() else {
            return Some(Outcome::Found(self.state.least.clone()));
        };
        self.frames.push(Frame {
            state: self.state.clone(),
            ties: self.added.len(),
            turns,
            done: Vec::new(),
        });
        None
    }

    /// The ways out for steps of which not all can hold a resource at once up to a time, the best
    /// last.
    fn turns(&self, together: &[usize], always: bool, until: i64) -> Vec<Turn> {
        let State { least, most } = &self.state;
        if !always {
            let mut turns: Vec<usize> = together.to_vec();
            turns.retain(|&step| until <= most[step]);
            turns.sort_by_key(|&step| self.hint[step]);
            return turns.iter().map(|&step| Turn::From(step, until)).collect();
        }
        let mut orders = Vec::new();
        for &first in together {
            for &then in together {
                if first != then && self.possible(first, then) {
                    orders.push((first, then));
                }
            }
        }
        // As the hint has it, then whoever must begin sooner.
        orders.sort_by_key(|&(first, then)| {
            let with = self.hint[first] < self.hint[then];
            (with, most[then] - least[first])
        });
        let turns = orders.into_iter();
        turns
            .map(|(first, then)| Turn::Before(first, then))
            .collect()
    }

    fn possible(&self, first: usize, then: usize) -> bool {
        self.state.least[first] + self.problem.lasts[first] <= self.state.most[then]
    }

    /// Puts pairs with one order left in it. Whether any moved; none where no order is left.
    fn force(&mut self) -> Option<bool> {
        let mut moved = Vec::new();
        for place in 0..self.pairs.len() {
            let (one, other) = self.pairs[place];
            let State { least, most } = &self.state;
            let lasts = &self.problem.lasts;
            let (forth, back) = (self.possible(one, other), self.possible(other, one));
            let (first, then) = match (forth, back) {
                (true, true) => continue,
                (false, false) => return None,
                (true, false) => (one, other),
                (false, true) => (other, one),
            };
            let gives = least[first] + lasts[first] > least[then]
                || most[then] - lasts[first] < most[first];
            if gives {
                let weight = lasts[first];
                self.tie(first, then, weight);
                moved.extend([first, then]);
            }
        }
        if moved.is_empty() {
            return Some(false);
        }
        self.propagate(&moved).then_some(true)
    }

    /// Least and most starts by all ties and absences; no where some step has none left.
    fn propagate(&mut self, moved: &[usize]) -> bool {
        self.push(moved, true) && self.push(moved, false)
    }

    fn push(&mut self, moved: &[usize], forward: bool) -> bool {
        let problem = &self.problem;
        let State { least, most } = &mut self.state;
        let mut queue: VecDeque<usize> = moved.iter().copied().collect();
        let mut queued = vec![false; problem.len()];
        for &step in moved {
            queued[step] = true;
        }
        let mut visits = 0;
        let mut patience = 8 * (problem.len() + 8);
        while let Some(step) = queue.pop_front() {
            queued[step] = false;
            let place = if forward {
                problem.fits(&problem.left, step, least[step])
            } else {
                problem.fits_until(&problem.left, step, most[step])
            };
            let Some(place) = place else { return false };
            if forward {
                least[step] = place;
            } else {
                most[step] = place;
            }
            if least[step] > most[step] {
                return false;
            }
            let ties = if forward {
                &problem.after[step]
            } else {
                &problem.before[step]
            };
            for &(other, weight) in ties {
                let grows = if forward {
                    let start = least[step] + weight;
                    let grows = start > least[other];
                    least[other] = least[other].max(start);
                    grows
                } else {
                    let start = most[step] - weight;
                    let grows = start < most[other];
                    most[other] = most[other].min(start);
                    grows
                };
                if grows && !std::mem::replace(&mut queued[other], true) {
                    queue.push_back(other);
                }
            }
            visits += 1;
            if visits > patience {
                // Steps that push each other round in a ring would creep to the limit.
                if ring(problem) {
                    return false;
                }
                patience = usize::MAX;
            }
        }
        true
    }

    /// The ways out of the first conflict when all start at their least.
    fn conflict(&self) -> Option<Vec<Turn>> {
        let problem = &self.problem;
        let least = &self.state.least;
        let mut order: Vec<usize> = (0..problem.len())
            .filter(|&s| problem.lasts[s] > 0)
            .collect();
        order.sort_by_key(|&step| (least[step], step));
        let mut left: Vec<Profile> = problem.left.clone();
        for (place, &step) in order.iter().enumerate() {
            let (begins, lasts) = (least[step], problem.lasts[step]);
            for &(resource, units) in &problem.needs[step] {
                if left[resource].earliest(begins, lasts, units) != Some(begins) {
                    return Some(self.clash(resource, &order[..=place]));
                }
                left[resource].take(begins, begins + lasts, units);
            }
        }
        None
    }

    /// As few of some steps as hold too much of a resource while the last of them lasts; all of them
    /// have begun by then.
    fn clash(&self, resource: usize, order: &[usize]) -> Vec<Turn> {
        let problem = &self.problem;
        let least = &self.state.least;
        let left = &problem.left[resource];
        let units = |step: usize| {
            let need = problem.needs[step].iter().find(|(r, _)| *r == resource);
            need.map_or(0, |(_, units)| *units)
        };
        let ends = |step: usize| least[step] + problem.lasts[step];
        let last = order[order.len() - 1];
        // What is left only falls where an absence begins.
        let times = left.changes(least[last], ends(last));
        for (place, &time) in times.iter().enumerate() {
            let there = left.at(time);
            let holds = |&step: &usize| units(step) > 0 && ends(step) > time;
            let mut few: Vec<usize> = order.iter().copied().filter(holds).collect();
            let mut sum: i64 = few.iter().map(|&step| units(step)).sum();
            if sum <= there {
                continue;
            }
            few.sort_by_key(|&step| (units(step), self.hint[step]));
            few.retain(|&step| {
                let spared = sum - units(step) > there;
                if spared {
                    sum -= units(step);
                }
                !spared
            });
            let change = times.get(place + 1).copied().unwrap_or(NEVER);
            let until = few.iter().map(|&step| ends(step)).fold(change, i64::min);
            return self.turns(&few, sum > left.greatest(), until);
        }
        Vec::new()
    }
}

/// Whether some steps push each other round for ever by ties alone.
fn ring(problem: &Problem) -> bool {
    let mut far = vec![0; problem.len()];
    for _ in 0..=problem.len() {
        let mut grown = false;
        for step in 0..problem.len() {
            for &(then, weight) in &problem.after[step] {
                if far[step] + weight > far[then] {
                    far[then] = far[step] + weight;
                    grown = true;
                }
            }
        }
        if !grown {
            return false;
        }
    }
    true
}
