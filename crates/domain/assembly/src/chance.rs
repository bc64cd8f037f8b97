//! How likely all is over by a time, when nobody knows how long the work takes.

use std::collections::VecDeque;

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};
use statrs::function::erf::erfc;

use crate::graph::Edge;
use crate::network::{Network, ORIGIN, end, start};
use crate::profile::{NEVER, Profile};
use crate::{Contradiction, Progress, Resources, Schedule, Source, Step};

/// The mean of a duration between a least and a most.
///
/// `mean = (least + 4 likely + most) / 6`
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `step` | least, likely and most | `s` |
/// | `returns` | mean | `s` |
///
/// Range: every step of a plan.
/// Source: `malcolm-1959`.
pub fn mean(step: Step) -> f64 {
    real(step.least + 4 * step.likely + step.most) / 6.0
}

/// The variance of a duration between a least and a most.
///
/// `variance = ((most - least) / 6)^2`
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `step` | least, likely and most | `s` |
/// | `returns` | variance | unit of the step, squared |
///
/// Range: every step of a plan.
/// Source: `malcolm-1959`.
pub fn variance(step: Step) -> f64 {
    (real(step.most - step.least) / 6.0).powi(2)
}

/// The critical path taken as if nothing else could ever be longer.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `mean` | when all is over, with every duration at its mean | `s` |
/// | `variance` | sum over the critical path | `s` squared |
/// | `path` | the steps on it, in order | |
#[derive(Clone, Debug, PartialEq)]
pub struct Pert {
    /// When all is over, with every duration at its mean; seconds from the origin.
    pub mean: f64,
    /// Sum over the critical path, in seconds squared.
    pub variance: f64,
    /// The steps on it, in order. Where several paths are as long, one of them.
    pub path: Vec<usize>,
}

impl Pert {
    /// The probability that all is over by a time, by the normal law.
    ///
    /// `P = Phi((t - mean) / sqrt(variance))`
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `time` | t, from the origin | `s` |
    /// | `returns` | P | `1` |
    ///
    /// Reads high where other paths are nearly as long, since any of them can be the last.
    ///
    /// Range: any time; without variance, all or nothing.
    /// Source: `malcolm-1959`.
    pub fn by(&self, time: i64) -> f64 {
        let off = real(time) - self.mean;
        if self.variance > 0.0 {
            erfc(-off / (2.0 * self.variance).sqrt()) / 2.0
        } else {
            f64::from(u8::from(off >= 0.0))
        }
    }
}

/// When all was over in every one of many tries.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `finishes` | of the tries that went well, from the soonest to the latest | `s` |
/// | `missed` | tries in which a window or a deadline was missed | |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chance {
    /// Of the tries that went well, from the soonest to the latest; seconds from the origin.
    pub finishes: Vec<i64>,
    /// Tries in which a window or a deadline was missed.
    pub missed: usize,
}

impl Chance {
    /// The share of all tries that were over by a time, with no window missed.
    ///
    /// `share = over / (well + missed)`
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `time` | from the origin | `s` |
    /// | `returns` | share | `1` |
    ///
    /// Range: any time; nothing without tries. Its standard error is at most half of one over the
    /// root of their number.
    /// Source: definition.
    pub fn by(&self, time: i64) -> f64 {
        let over = self.finishes.partition_point(|&finish| finish <= time);
        let tries = self.finishes.len() + self.missed;
        count(over) / count(tries.max(1))
    }

    /// The time by which a share of all tries was over, if so many were.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `share` | from 0 to 1 | `1` |
    ///
    /// Range: a share above 0; none beyond the share that went well.
    /// Source: definition.
    pub fn time(&self, share: f64) -> Option<i64> {
        let tries = self.finishes.len() + self.missed;
        let over = (0..self.finishes.len()).find(|&k| count(k + 1) >= share * count(tries));
        over.map(|k| self.finishes[k])
    }

    /// The mean finish of the tries that went well.
    ///
    /// `mean = sum of finishes / well`
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `returns` | from the origin | `s` |
    ///
    /// Range: one try that went well, or more; else not a number.
    /// Source: definition.
    pub fn mean(&self) -> f64 {
        let sum: f64 = self.finishes.iter().map(|&finish| real(finish)).sum();
        sum / count(self.finishes.len())
    }
}

impl Network<'_> {
    /// The critical path at mean durations and its variance; hands and tools are not known to it.
    ///
    /// What stands before a closed gate counts as if it were open.
    ///
    /// # Errors
    /// What contradicts itself at the pace of the situation, or at mean durations.
    pub fn pert(&self) -> Result<Pert, Vec<Contradiction>> {
        // Counted in sixths of a second, means are whole.
        let six = |edge: &Edge| {
            let weight = match edge.source {
                Source::Duration(step) if self.situation.progress[step] == Progress::NotStarted => {
                    let Step {
                        least,
                        likely,
                        most,
                    } = self.plan.steps()[step];
                    edge.weight.signum() * (least + 4 * likely + most)
                }
                _ => 6 * edge.weight,
            };
            Edge { weight, ..*edge }
        };
        let edges: Vec<Edge> = self.edges.iter().map(six).collect();
        let (graph, reach) = self.earliest(&edges)?;
        let last = (0..self.plan.steps().len())
            .filter(|&step| self.situation.progress[step] != Progress::Deferred)
            .filter_map(|step| Some((reach.distance[end(step)]?, end(step))))
            .max_by_key(|&(time, point)| (time, std::cmp::Reverse(point)));
        let (time, point) = last.unwrap_or((6 * self.situation.now, ORIGIN));
        let path = graph.path(&reach, point);
        let path = path.iter().filter_map(|edge| match edge.source {
            Source::Duration(step) if self.situation.progress[step] == Progress::NotStarted => {
                Some(step)
            }
            _ => None,
        });
        let path: Vec<usize> = path.collect();
        let spreads = path.iter().map(|&step| variance(self.plan.steps()[step]));
        Ok(Pert {
            mean: real(time) / 6.0,
            variance: spreads.sum(),
            path,
        })
    }

    /// Tries a plan many times with durations drawn between least and most, and tells when each try
    /// was over.
    ///
    /// `x = least + (most - least) B`, `B ~ Beta(1 + 4 (likely - least) / (most - least),
    /// 1 + 4 (most - likely) / (most - least))` (`malcolm-1959`, `vose-2008`), to the whole second,
    /// drawn by `cheng-1978`.
    ///
    /// Each resource passes from step to step in the order of the schedule, and its absences stand;
    /// units that are away only in part are not watched over. A running step takes at least what it
    /// has taken. What the schedule leaves out is left out here.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `tries` | how many | |
    /// | `seed` | the same seed gives the same tries; more tries begin with the fewer | |
    pub fn tries(
        &self,
        resources: &Resources,
        schedule: &Schedule,
        (tries, seed): (u32, u64),
    ) -> Chance {
        let walk = Walk::new(self, resources, schedule);
        let all = (0..tries).map(|number| walk.once(seed.wrapping_add(number.into())));
        let mut finishes: Vec<i64> = all.flatten().collect();
        finishes.sort_unstable();
        let well = u32::try_from(finishes.len()).unwrap_or(tries);
        Chance {
            missed: (tries - well) as usize,
            finishes,
        }
    }
}

/// A plan ready to be gone through many times.
struct Walk<'a> {
    network: &'a Network<'a>,
    /// The edges that leave each point.
    leaving: Vec<Vec<Edge>>,
    left: Vec<Profile>,
    needs: Vec<Vec<(usize, i64)>>,
    /// The steps whose durations are drawn.
    drawn: Vec<usize>,
    /// The points that must all be over.
    ends: Vec<usize>,
}

impl<'a> Walk<'a> {
    fn new(network: &'a Network, resources: &Resources, schedule: &Schedule) -> Self {
        let steps = network.plan.steps().len();
        let progress = &network.situation.progress;
        let keep: Vec<bool> = (0..steps)
            .map(|step| schedule.left_out.iter().all(|left| left.step != step))
            .collect();
        let mut edges = network.edges_of(&keep);
        edges.retain(|edge| edge.source != Source::Finish);
        for resource in 0..resources.list.len() {
            edges.extend(passed_on(network, resources, schedule, resource));
        }
        let mut leaving = vec![Vec::new(); 1 + 2 * steps];
        for edge in edges {
            leaving[edge.from].push(edge);
        }
        let opens = |step: &usize| {
            let open = matches!(
                progress[*step],
                Progress::NotStarted | Progress::Running { .. }
            );
            open && keep[*step]
        };
        let drawn: Vec<usize> = (0..steps).filter(opens).collect();
        let needs = (0..steps).map(|step| {
            let waits = progress[step] == Progress::NotStarted;
            let needs = resources.needs[step].iter().filter(|_| waits);
            needs.map(|&(r, units)| (r, i64::from(units))).collect()
        });
        Self {
            network,
            leaving,
            left: resources
                .list
                .iter()
                .map(Profile::beside_absences)
                .collect(),
            needs: needs.collect(),
            ends: drawn.iter().map(|&step| end(step)).collect(),
            drawn,
        }
    }

    /// When all is over in one try; none if a window was missed.
    fn once(&self, seed: u64) -> Option<i64> {
        let mut dice = Pcg64Mcg::seed_from_u64(seed);
        let mut lasts = vec![0; self.needs.len()];
        for &step in &self.drawn {
            let taken = match self.network.situation.progress[step] {
                Progress::Running { began } => self.network.situation.now - began,
                _ => 0,
            };
            lasts[step] = draw(self.network.plan.steps()[step], &mut dice).max(taken);
        }
        let points = self.leaving.len();
        let mut times = vec![-NEVER; points];
        times[ORIGIN] = 0;
        let mut queue = VecDeque::from([ORIGIN]);
        let mut queued = vec![false; points];
        let mut visits = 0;
        while let Some(point) = queue.pop_front() {
            queued[point] = false;
            visits += 1;
            // What goes round and round has missed a window; so has what pushes the origin.
            if visits > 32 * points || times[ORIGIN] > 0 {
                return None;
            }
            let step = point.saturating_sub(1) / 2;
            if point == start(step) {
                times[point] = self.fits(step, times[point], lasts[step])?;
            }
            for edge in &self.leaving[point] {
                let weight = match edge.source {
                    Source::Duration(step) if edge.from == start(step) => lasts[step],
                    Source::Duration(step) => -lasts[step],
                    _ => edge.weight,
                };
                let time = times[point] + weight;
                if time > times[edge.to] {
                    times[edge.to] = time;
                    if !std::mem::replace(&mut queued[edge.to], true) {
                        queue.push_back(edge.to);
                    }
                }
            }
        }
        let ends = self.ends.iter().map(|&point| times[point]);
        Some(ends.fold(self.network.situation.now, i64::max))
    }

    fn fits(&self, step: usize, from: i64, lasts: i64) -> Option<i64> {
        let mut time = from;
        loop {
            let before = time;
            for &(resource, units) in &self.needs[step] {
                time = self.left[resource].earliest(time, lasts, units)?;
            }
            if time == before {
                return Some(time);
            }
        }
    }
}

/// Each unit of a resource goes from step to step in the order of a schedule, to whoever takes it
/// soonest after it was given back.
fn passed_on(
    network: &Network,
    resources: &Resources,
    schedule: &Schedule,
    resource: usize,
) -> Vec<Edge> {
    let progress = &network.situation.progress;
    let holds = |step: usize| {
        let need = resources.needs[step].iter().find(|(r, _)| *r == resource);
        need.map_or(0, |(_, units)| *units as usize)
    };
    let mut order: Vec<(i64, usize)> = schedule
        .starts
        .iter()
        .enumerate()
        .filter(|(step, _)| {
            matches!(
                progress[*step],
                Progress::NotStarted | Progress::Running { .. }
            ) && holds(*step) > 0
        })
        .filter_map(|(step, start)| Some(((*start)?, step)))
        .collect();
    order.sort_unstable();
    let all: usize = order.iter().map(|&(_, step)| holds(step)).sum();
    let units = all.min(resources.list[resource].capacity as usize);
    // When each unit is given back, and by whom.
    let mut free: Vec<(i64, Option<usize>)> = vec![(-NEVER, None); units];
    let mut edges = Vec::new();
    for (begins, step) in order {
        free.sort_unstable();
        // The ones given back last before it begins, so that the fewest are waited for.
        let ready = free.partition_point(|&(time, _)| time <= begins);
        let from = ready.saturating_sub(holds(step));
        let ends = begins + network.lasts(step);
        for (time, by) in &mut free[from..ready] {
            if let Some(before) = by.filter(|&before| before != step) {
                edges.push(Edge {
                    from: end(before),
                    to: start(step),
                    weight: 0,
                    source: Source::Now,
                });
            }
            (*time, *by) = (ends, Some(step));
        }
    }
    edges.retain(|edge| progress[(edge.to - 1) / 2] == Progress::NotStarted);
    edges.sort_unstable_by_key(|edge| (edge.from, edge.to));
    edges.dedup();
    edges
}

/// A duration between least and most.
fn draw(step: Step, dice: &mut Pcg64Mcg) -> i64 {
    let (least, span) = (real(step.least), real(step.most - step.least));
    if step.most == step.least {
        return step.least;
    }
    let peak = 4.0 * (real(step.likely) - least) / span;
    let share = beta(1.0 + peak, 5.0 - peak, dice);
    whole(least + span * share)
}

/// A draw of the beta law by algorithm BB of `cheng-1978`; on its edge, where that has none, by
/// turning the distribution round.
fn beta(first: f64, second: f64, dice: &mut Pcg64Mcg) -> f64 {
    if first <= 1.0 {
        return 1.0 - uniform(dice).powf(1.0 / second);
    }
    if second <= 1.0 {
        return uniform(dice).powf(1.0 / first);
    }
    let (a, b) = (first.min(second), first.max(second));
    let sum = a + b;
    let beta = ((sum - 2.0) / (2.0 * a * b - sum)).sqrt();
    let gamma = a + 1.0 / beta;
    loop {
        let (u, v) = (uniform(dice), uniform(dice));
        let odds = beta * (u / (1.0 - u)).ln();
        let w = a * odds.exp();
        let z = (u * u * v).ln();
        let r = gamma * odds - 4.0_f64.ln();
        if r + sum * (sum / (b + w)).ln() >= z {
            let share = w / (b + w);
            return if first <= second { share } else { 1.0 - share };
        }
    }
}

/// A number from the open interval 0 to 1.
#[expect(clippy::cast_precision_loss, reason = "52 bits fit")]
fn uniform(dice: &mut Pcg64Mcg) -> f64 {
    ((dice.next_u64() >> 12) as f64 + 0.5) * f64::powi(0.5, 52)
}

#[expect(
    clippy::cast_precision_loss,
    reason = "sums of times stay far below 2^53"
)]
fn real(time: i64) -> f64 {
    time as f64
}

#[expect(clippy::cast_precision_loss, reason = "nobody makes so many tries")]
fn count(many: usize) -> f64 {
    many as f64
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "between two whole numbers of seconds"
)]
fn whole(time: f64) -> i64 {
    time.round() as i64
}
