//! Parts that follow one another until an end: the renewal equation of what they cost, on a grid.
//!
//! The grid meets the age of replacement, so that no step of the cost lies within a cell. The law of the life
//! is exact in every cell and only the cost is a straight line there, so the mean is exact however coarse the
//! grid; twice as fine a grid then takes the error of the second order away.

use crate::cost::Cost;
use crate::life::Life;

/// Cells of the grid to the shortest width in which a life bends, where the horizon is one life.
pub(crate) const FINE: f64 = 24.0;
/// The least of them; over many lives an error at the ends weighs as much less, and the mean step is exact.
const COARSE: f64 = 4.0;
/// Fewest cells to a horizon or to an age of replacement.
const CELLS: f64 = 12.0;
/// Cycles reckoned one by one; those beyond are mean ones.
const CYCLES: f64 = 64.0;
/// Share left below which the rest of a life is not looked at.
const NOTHING: f64 = 1e-13;
/// Part of an age by which an end may miss it and still meet it.
const MEETS: f64 = 1e-9;
/// Halvings of the first cell, where `t^β` may rise like a root.
const HALVINGS: i32 = 10;

/// Lives, costs, and the age of replacement, which may be without bound.
#[derive(Clone, Copy)]
pub(crate) struct Plan<'a> {
    pub(crate) life: &'a Life,
    pub(crate) cost: &'a Cost,
    pub(crate) at: f64,
}

/// What new parts will cost, by the time left: `V = S + W`, S without a step and W the steps of parts that
/// all get to their age, `W(h) = c_p sum R(T)^k` over `0 < k T < h`.
struct Ahead<'a> {
    plan: Plan<'a>,
    step: f64,
    smooth: Vec<f64>,
    /// Cells to the age of replacement, and the share that gets there.
    turn: usize,
    left: f64,
    /// Mean share failed in the first cell beyond half of that at its end.
    bulge: f64,
}

impl Ahead<'_> {
    /// What S begins like after `k` replacements that were planned: `R(T)^k (c_f + k c_p)` for a share failed.
    fn rise(&self, turns: usize) -> f64 {
        let turns = crate::real(turns);
        self.left.powf(turns) * (self.plan.cost.failed + turns * self.plan.cost.planned)
    }

    /// S, which without its root-like rise is a parabola through three nodes between two replacements.
    fn smooth(&self, time: f64) -> f64 {
        let place = (time / self.step).max(0.0);
        let node = whole((place - MEETS).ceil() - 1.0);
        let turns = node / self.turn;
        let begin = turns * self.turn;
        let node = node.max(begin + 1) - 1;
        let rise = self.rise(turns);
        let begins = |place: f64| {
            let since = (place - crate::real(begin)) * self.step;
            rise * fails(self.plan.life, 0.0, since)
        };
        let at = |node: usize| self.smooth[node] - begins(crate::real(node));
        let (first, middle, last) = (at(node), at(node + 1), at(node + 2));
        let share = place - crate::real(node);
        let bow = 0.5 * (last - middle - (middle - first));
        begins(place) + first + share * (middle - first + (share - 1.0) * bow)
    }

    /// Planned replacements before the end where no part fails; one that meets the end is not made.
    fn most(&self, time: f64) -> usize {
        whole((time / self.plan.at - MEETS).ceil() - 1.0)
    }

    fn all(&self, time: f64) -> f64 {
        let steps = (0..self.most(time)).fold(0.0, |sum, _| self.left * (1.0 + sum));
        self.smooth(time) + self.plan.cost.planned * steps
    }
}

/// A number that is no less than nought, cut to a whole one.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "of counts of cells and cycles, which are far below 2^52; below nought is none"
)]
pub(crate) fn whole(number: f64) -> usize {
    number as usize
}

/// Shares failed at both ends of a cell and their mean in it.
struct Cell {
    first: f64,
    mean: f64,
    last: f64,
    middle: f64,
}

/// Chance that a part of an age fails within a time more.
fn fails(life: &Life, age: f64, more: f64) -> f64 {
    if more > 0.0 {
        let gone = if age > 0.0 { life.spent(age) } else { 0.0 };
        // A part past all that its law can count fails at once.
        if gone.is_finite() {
            -(gone - life.spent(age + more)).exp_m1()
        } else {
            1.0
        }
    } else {
        0.0
    }
}

impl Cell {
    /// By Simpson's rule; the first by that rule on its halves, and theirs.
    fn of(life: &Life, age: f64, first: (f64, f64), end: f64) -> Self {
        let (start, share) = first;
        let last = fails(life, age, end);
        let middle = fails(life, age, 0.5 * (start + end));
        let mean = if start > 0.0 {
            (share + 4.0 * middle + last) / 6.0
        } else {
            let half = |k: i32| {
                let top = end * 0.5_f64.powi(k);
                let each = fails(life, age, 0.5 * top)
                    + 4.0 * fails(life, age, 0.75 * top)
                    + fails(life, age, top);
                each / 6.0 * 0.5_f64.powi(k + 1)
            };
            (0..HALVINGS).map(half).sum()
        };
        Self {
            first: share,
            mean,
            last,
            middle,
        }
    }

    /// `∫ (a + t) R dt` over it, by Simpson's rule.
    fn worn(&self, start: f64, end: f64) -> f64 {
        let middle = 0.5 * (start + end);
        let each = start * (1.0 - self.first)
            + 4.0 * middle * (1.0 - self.middle)
            + end * (1.0 - self.last);
        (end - start) / 6.0 * each
    }
}

/// `sum a b`, in lanes.
fn dot(a: &[f64], b: &[f64]) -> f64 {
    let (a, rest) = a.as_chunks::<8>();
    let (b, other) = b.as_chunks::<8>();
    let mut lanes = [0.0; 8];
    for (a, b) in a.iter().zip(b) {
        for ((lane, a), b) in lanes.iter_mut().zip(a).zip(b) {
            *lane += a * b;
        }
    }
    let tail: f64 = rest.iter().zip(other).map(|(a, b)| a * b).sum();
    lanes.iter().sum::<f64>() + tail
}

impl Plan<'_> {
    /// The grid's step: it meets the age of replacement, or else the horizon.
    fn step(&self, hours: f64, fine: f64) -> f64 {
        let bend = self.life.bend();
        let cycles = hours * (1.0 / self.at + self.life.pace());
        let cells = (fine / cycles.max(1.0).sqrt()).max(COARSE * fine / FINE);
        let span = hours.min(self.at);
        let least = CELLS * fine / FINE;
        span / (0.5 * (cells * span * bend).max(least)).ceil()
    }

    /// What new parts cost, up to a horizon above nought.
    ///
    /// `S(h) = b(h) + ∫ f(t) S(h − t) dt + R(T) S(h − T)`, the integral from 0 to the lesser of T and h, with S a
    /// straight line in every cell and `f` exact.
    fn ahead(&self, hours: f64, step: f64) -> Ahead<'_> {
        let nodes = 1 + whole((hours / step - MEETS).ceil()).max(1);
        let turn = if self.at < hours {
            whole((self.at / step).round())
        } else {
            nodes + 1
        };
        let window = turn.min(nodes);
        // Of the cell up to a node: what its beginning weighs in the sum, and what its end does.
        let (mut weight, mut source, mut shares) = (vec![0.0], vec![0.0], vec![0.0]);
        let (mut share, mut worn, mut near) = (0.0, 0.0, 0.0);
        for node in 1..=window {
            let (start, end) = (crate::real(node - 1) * step, crate::real(node) * step);
            let cell = Cell::of(self.life, 0.0, (start, share), end);
            if node == 1 {
                near = cell.mean;
            } else {
                weight[node - 1] += cell.mean - cell.first;
            }
            weight.push(cell.last - cell.mean);
            if self.cost.fading > 0.0 {
                worn += cell.worn(start, end);
            }
            share = cell.last;
            shares.push(share);
            source.push(self.cost.failed * share + self.cost.fading * worn);
        }
        let end = source[window];
        let left = if turn <= nodes { 1.0 - share } else { 0.0 };
        let reach = 1 + weight.iter().rposition(|one| *one > NOTHING).unwrap_or(0);
        weight.truncate(reach);
        weight.reverse();
        weight.pop();
        let mut ahead = Ahead {
            plan: *self,
            step,
            smooth: vec![0.0],
            turn,
            left,
            bulge: near - 0.5 * shares[1],
        };
        let mut rise = 0.0;
        for node in 1..=nodes {
            let from = node.saturating_sub(weight.len());
            let skip = weight.len() - (node - from);
            let mut sum = dot(&weight[skip..], &ahead.smooth[from..node]);
            let turns = (node - 1) / turn;
            let since = node - turns * turn;
            if since == 1 {
                rise = ahead.rise(turns) * ahead.bulge;
            }
            sum += (shares[since] - shares[since - 1]) * rise;
            sum += if node <= turn {
                source[node.min(window)]
            } else {
                // Steps that were taken out of S come back as exact shares.
                let stays = left.powf(crate::real(turns)) * (1.0 - shares[since]);
                end + self.cost.planned * (left - stays) + left * ahead.smooth[node - turn]
            };
            ahead.smooth.push(sum / (1.0 - near));
        }
        ahead
    }

    /// Expected cost for a part of some age over a horizon; both checked.
    pub(crate) fn over(&self, age: f64, hours: f64, fine: f64) -> f64 {
        if hours <= 0.0 {
            return 0.0;
        }
        if age >= self.at {
            return self.cost.planned + self.over(0.0, hours, fine);
        }
        let mut hours = hours;
        let mut mean = 0.0;
        if hours * (1.0 / self.at + self.life.pace()) > CYCLES {
            let (cost, run) = (
                self.cost.cycle(self.life, self.at.min(f64::MAX)),
                self.life.run(self.at),
            );
            let many = (hours / run - CYCLES).floor().max(0.0);
            hours -= many * run;
            mean = many * cost;
        }
        let step = self.step(hours, fine);
        let coarse = self.on(step, age, hours);
        let fine = self.on(0.5 * step, age, hours);
        mean + fine + (fine - coarse) / 3.0
    }

    /// The same on one grid.
    fn on(&self, step: f64, age: f64, hours: f64) -> f64 {
        let ahead = self.ahead(hours, step);
        if age <= 0.0 && self.at >= hours {
            ahead.all(hours)
        } else {
            self.first(&ahead, age, hours)
        }
    }

    /// The part that is in, and the new ones after it.
    fn first(&self, ahead: &Ahead<'_>, age: f64, hours: f64) -> f64 {
        let last = (self.at - age).min(hours);
        let node = whole((hours / ahead.step - MEETS).ceil());
        let (mut start, mut share, mut value) = (0.0, 0.0, ahead.smooth(hours));
        let (mut sum, mut worn) = (0.0, 0.0);
        for node in (0..node).rev() {
            let end = (hours - crate::real(node) * ahead.step).min(last);
            let cell = Cell::of(self.life, age, (start, share), end);
            let after = if end < last {
                ahead.smooth[node]
            } else {
                ahead.smooth(hours - end)
            };
            sum += (cell.mean - cell.first) * value + (cell.last - cell.mean) * after;
            if node % ahead.turn == 0 && start > 0.0 && end < last {
                sum += (cell.last - cell.first) * ahead.rise(node / ahead.turn) * ahead.bulge;
            }
            worn += cell.worn(age + start, age + end);
            (start, share, value) = (end, cell.last, after);
            if end >= last || 1.0 - share < NOTHING {
                break;
            }
        }
        let mut power = 1.0;
        for turn in 1..=ahead.most(hours) {
            power *= ahead.left;
            let before = last.min(hours - crate::real(turn) * self.at);
            sum += self.cost.planned * power * fails(self.life, age, before);
        }
        let failed = fails(self.life, age, last);
        if last < hours * (1.0 - MEETS) {
            sum += (1.0 - failed) * (self.cost.planned + ahead.all(hours - last));
        }
        sum + self.cost.failed * failed + self.cost.fading * worn
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cost::{Bill, Fade};

    /// A grid twice as fine, and one eight times, says the same.
    #[test]
    fn law_a_finer_grid_changes_nothing() {
        let fade = Fade {
            share: 0.1,
            after: 100.0,
            worth: 4.0,
        };
        let bill = Bill {
            part: 53.0,
            consumables: 0.0,
            labour: 0.0,
            wage: 0.0,
            failure: 150.0,
            fade: Some(fade),
        };
        let cost = bill.cost().unwrap();
        for (shape, allowed) in [
            // A life that begins like a root is no straight line in the first cell.
            (0.5, 2e-3),
            (0.8, 2e-4),
            (1.0, 1e-4),
            (1.5, 1e-4),
            (2.2, 1e-4),
            (4.0, 1e-4),
            (10.0, 1e-4),
            (50.0, 1e-4),
        ] {
            for ruin in [0.0, 0.01] {
                let life = Life::new(shape, 100.0).unwrap().struck(ruin, 1.0).unwrap();
                for at in [10.0, 33.0, 70.0, 150.0, f64::INFINITY] {
                    for hours in [1.0, 30.0, 70.7, 100.0, 210.0, 1000.0] {
                        for age in [0.0, 20.0, 90.0] {
                            let plan = Plan {
                                life: &life,
                                cost: &cost,
                                at,
                            };
                            let plain = plan.over(age, hours, FINE);
                            for finer in [2.0, 8.0] {
                                let fine = plan.over(age, hours, finer * FINE);
                                assert!(
                                    (plain - fine).abs() <= allowed * fine,
                                    "shape {shape}, ruin {ruin}, at {at}, age {age}, {hours}: {plain}, {fine}"
                                );
                            }
                        }
                    }
                }
            }
        }
    }
}
