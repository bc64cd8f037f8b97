//! A plan for hands and tools: when each step starts, how soon all is over, and whether it can be
//! sooner.

use crate::bound::{Least, Why};
use crate::graph::Edge;
use crate::improve::improved;
use crate::network::{ORIGIN, end};
use crate::problem::Problem;
use crate::profile::NEVER;
use crate::{Ask, Contradiction, Network, Progress, Resources, Source};

/// When each step starts, so that every rule is obeyed and no more is held than is there.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `starts` | when each step starts, or began; none for what is left out, left off or was done unseen | `s` |
/// | `finish` | when all of it is over | `s` |
/// | `bound` | no plan is over sooner | `s` |
/// | `limit` | why not sooner than the bound | |
/// | `left_out` | what can't be planned yet | |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Schedule {
    /// When each step starts, or began; none for what is left out, left off or was done unseen.
    pub starts: Vec<Option<i64>>,
    /// When all of it is over.
    pub finish: i64,
    /// No plan is over sooner.
    pub bound: i64,
    /// Why not sooner than the bound.
    pub limit: Limit,
    /// What can't be planned yet, in the order of the steps.
    pub left_out: Vec<LeftOut>,
}

impl Schedule {
    /// Seconds by which a better plan could be over sooner at most; proved best when nothing.
    pub fn gap(&self) -> i64 {
        self.finish - self.bound
    }
}

/// Where a bound comes from. Times in seconds from the origin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Rules and durations alone, from the origin or now to the last end: the critical path.
    Times(Vec<Source>),
    /// The same with the times somebody or something is away.
    Away,
    /// Steps that can't avoid the time between two, and what they hold of a resource fills it.
    Work {
        /// The resource.
        resource: usize,
        /// From when on.
        from: i64,
        /// Until when, at the soonest.
        until: i64,
        /// The steps.
        steps: Vec<usize>,
    },
    /// Every other way was tried.
    Tried,
}

/// A step that can't be planned yet.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `step` | the step | |
/// | `because` | the rule and the step left out that it hangs on; none where a gate is closed before it | |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct LeftOut {
    /// The step.
    pub step: usize,
    /// The rule and the step left out that it hangs on; none where a gate is closed before it.
    pub because: Option<(usize, usize)>,
}

/// Why there is no schedule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoSchedule {
    /// Rules and times contradict themselves already with hands and tools without end.
    Contradictory(Vec<Contradiction>),
    /// Hands and tools can't do it in any order; [`Network::shortage`] tells what is in the way.
    Impossible,
    /// No order tried places every step, and whether there is one is not known.
    NotFound,
}

impl Network<'_> {
    /// A schedule of everything open: quickly, and the same for the same input.
    ///
    /// Steps behind a closed gate are left out with all that must follow them, and with the steps
    /// that would start a clock for one of them; the rest is planned. What is running holds what it
    /// needs until it ends. Steps tied by clocks are placed together or not at all.
    ///
    /// The bound is the greatest finish that is refuted by the critical path, by absences, or by work
    /// that does not fit on one resource between two times, and a second more.
    ///
    /// # Errors
    /// What contradicts itself, or that no order was found.
    pub fn schedule(&self, resources: &Resources) -> Result<Schedule, NoSchedule> {
        let task = self.task(resources)?;
        let Some(found) = improved(&task.problem) else {
            return Err(NoSchedule::NotFound);
        };
        let bound = task.limit(found.least);
        Ok(self.told(&task, &found.starts, bound))
    }

    /// What there is to plan, or what contradicts itself.
    pub(crate) fn task(&self, resources: &Resources) -> Result<Task, NoSchedule> {
        let (keep, left_out) = self.kept();
        let edges = self.edges_of(&keep);
        let earliest = self.earliest(&edges).map_err(NoSchedule::Contradictory)?;
        let (graph, reach) = earliest;
        let ends = (0..keep.len())
            .filter(|&step| keep[step] && self.situation.progress[step] != Progress::Deferred);
        let ends = ends.filter_map(|step| Some((reach.distance[end(step)]?, step)));
        let last = ends.max();
        let path = last.map(|(_, step)| graph.path(&reach, end(step)));
        Ok(Task {
            problem: Problem::new(self, &edges, &keep, resources),
            left_out,
            length: last.map_or(self.situation.now, |(time, _)| time),
            path: path
                .unwrap_or_default()
                .iter()
                .map(|edge| edge.source)
                .collect(),
        })
    }

    /// The edges that tie kept steps to each other, to the origin and to what happened.
    pub(crate) fn edges_of(&self, keep: &[bool]) -> Vec<Edge> {
        let kept = |point: usize| point == ORIGIN || keep[(point - 1) / 2];
        let mut edges = self.edges.clone();
        edges.retain(|edge| kept(edge.from) && kept(edge.to));
        edges
    }

    /// When every step starts: as planned, or when it began.
    pub(crate) fn starts(&self, problem: &Problem, planned: &[i64]) -> Vec<Option<i64>> {
        let progress = self.situation.progress.iter();
        let mut starts: Vec<Option<i64>> = progress
            .map(|progress| match *progress {
                Progress::Running { began } | Progress::Done { began, .. } => Some(began),
                _ => None,
            })
            .collect();
        for (variable, &step) in problem.steps.iter().enumerate() {
            starts[step] = problem.counts[variable].then_some(planned[variable]);
        }
        starts
    }

    /// Which steps can be planned, and which not and why.
    pub(crate) fn kept(&self) -> (Vec<bool>, Vec<LeftOut>) {
        let steps = self.plan.steps().len();
        let progress = &self.situation.progress;
        let waits =
            |step: usize| matches!(progress[step], Progress::NotStarted | Progress::Deferred);
        let mut out: Vec<Option<LeftOut>> = vec![None; steps];
        for &step in &self.situation.closed {
            // What was begun in spite of a gate is a fact.
            if progress[step] == Progress::NotStarted {
                out[step] = Some(LeftOut {
                    step,
                    because: None,
                });
            }
        }
        let mut grown = true;
        while grown {
            grown = false;
            for (rule, said) in self.plan.rules().iter().enumerate() {
                let pairs = match said.ask {
                    Ask::After { first, then, .. } => [(first, then); 2],
                    // Nobody starts a clock for what can't come.
                    Ask::StartWithin { first, then, .. }
                    | Ask::FinishedWithin { first, then, .. }
                    | Ask::StartWithinStart { first, then, .. } => [(then, first); 2],
                    Ask::Together { first, then } => [(first, then), (then, first)],
                    Ask::NotBefore { .. } | Ask::FinishedBy { .. } => continue,
                };
                let after = matches!(said.ask, Ask::After { .. });
                for (one, other) in pairs {
                    // Only order passes through a step put off; its clocks rest.
                    let binds = after
                        || ![one, other]
                            .iter()
                            .any(|&s| progress[s] == Progress::Deferred);
                    if out[one].is_some() && out[other].is_none() && waits(other) && binds {
                        let because = Some((rule, one));
                        out[other] = Some(LeftOut {
                            step: other,
                            because,
                        });
                        grown = true;
                    }
                }
            }
        }
        let keep = out.iter().map(Option::is_none).collect();
        // A step put off is not planned anyhow; it only passed its order on.
        let told = out.into_iter().flatten();
        let told = told.filter(|left| progress[left.step] == Progress::NotStarted);
        (keep, told.collect())
    }
}

/// What there is to plan.
pub(crate) struct Task {
    pub(crate) problem: Problem,
    pub(crate) left_out: Vec<LeftOut>,
    /// How soon all could be over by the rules alone, and the way there.
    pub(crate) length: i64,
    pub(crate) path: Vec<Source>,
}

impl Task {
    /// A bound and why there is none better, in the words of the plan.
    pub(crate) fn limit(&self, least: Least) -> (i64, Limit) {
        let limit = match least.why {
            Why::Work(work) => Limit::Work {
                resource: work.resource,
                from: work.from,
                until: work.until,
                steps: work.steps.iter().map(|&v| self.problem.steps[v]).collect(),
            },
            Why::Alone if least.finish > self.length => Limit::Away,
            Why::Alone => Limit::Times(self.path.clone()),
        };
        (least.finish, limit)
    }

    /// The starts of a schedule in the order of the problem, if they still hold.
    pub(crate) fn planned(&self, schedule: &Schedule) -> Option<Vec<i64>> {
        let problem = &self.problem;
        let place = |(&step, &counts): (&usize, &bool)| {
            let start = schedule.starts.get(step).copied().flatten();
            // What is left off is put where it must be.
            if counts { start } else { Some(NEVER) }
        };
        let starts: Option<Vec<i64>> = problem
            .steps
            .iter()
            .zip(&problem.counts)
            .map(place)
            .collect();
        problem.holds(starts?)
    }
}
