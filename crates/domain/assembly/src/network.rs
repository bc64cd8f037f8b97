//! Every rule and everything that happened as differences between points in time.

use crate::graph::{Edge, Graph, Reach};
use crate::{Ask, Contradiction, Error, Plan, Progress, Situation, Source, contradiction};

/// The point all times count from.
pub(crate) const ORIGIN: usize = 0;

/// The point where a step starts.
pub(crate) fn start(step: usize) -> usize {
    1 + 2 * step
}

/// The point where a step ends.
pub(crate) fn end(step: usize) -> usize {
    2 + 2 * step
}

/// A plan in a situation: what follows from both.
///
/// A rule that what happened has broken for good, such as a working time that has run out, can't be
/// obeyed by any plan and would spoil every one. It is told by [`Network::broken`] and binds nothing.
#[derive(Clone, Debug)]
pub struct Network<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) situation: &'a Situation,
    pub(crate) edges: Vec<Edge>,
    broken: Vec<Broken>,
}

/// When a step can start. In seconds from the origin.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `earliest` | earliest start that obeys every rule; when it began, if it has | `s` |
/// | `latest` | latest such start, if anything bounds it | `s` |
/// | `ends` | when it ends if it starts at the earliest | `s` |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Window {
    /// Earliest start that obeys every rule; when it began, if it has.
    pub earliest: i64,
    /// Latest such start, if anything bounds it.
    pub latest: Option<i64>,
    /// When it ends if it starts at the earliest.
    pub ends: i64,
}

impl Window {
    /// What the start can slip: `latest - earliest`, if anything bounds it.
    pub fn slack(&self) -> Option<i64> {
        self.latest.map(|latest| latest - self.earliest)
    }
}

/// A rule that what happened has broken: nothing still to come can mend it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Broken {
    /// The rule.
    pub rule: usize,
    /// By how many seconds, so far.
    pub by: i64,
}

impl<'a> Network<'a> {
    /// The differences that a plan and a situation ask for.
    ///
    /// # Errors
    /// What happened is told for another number of steps, later than now, or ends before it begins.
    pub fn new(plan: &'a Plan, situation: &'a Situation) -> Result<Self, Error> {
        situation.check(plan)?;
        let mut network = Self {
            plan,
            situation,
            edges: Vec::new(),
            broken: Vec::new(),
        };
        for step in 0..plan.steps().len() {
            network.place(step);
        }
        for rule in 0..plan.rules().len() {
            network.bind(rule);
        }
        Ok(network)
    }

    /// The rules that what happened has broken, in the order of the plan.
    pub fn broken(&self) -> &[Broken] {
        &self.broken
    }

    /// When every step can start, by all the rules together.
    ///
    /// `earliest = longest(origin, start)`, `latest = -longest(start, origin)`
    ///
    /// | symbol | meaning | unit |
    /// |--------|---------|------|
    /// | longest(a, b) | greatest sum of least times on a way from a to b | `s` |
    ///
    /// The starts that are all earliest obey every rule, and so do those that are all latest.
    ///
    /// Range: at most 2^40 s either side of the origin.
    /// Source: `dechter-1991`.
    ///
    /// # Errors
    /// What contradicts itself, hardest first.
    pub fn windows(&self) -> Result<Vec<Window>, Vec<Contradiction>> {
        self.solve(&self.edges)
    }

    /// The windows that some edges leave.
    pub(crate) fn solve(&self, edges: &[Edge]) -> Result<Vec<Window>, Vec<Contradiction>> {
        let (graph, ahead) = self.earliest(edges)?;
        // Every point is reached from the origin, so a ring would have been met on the way ahead.
        let back = graph.reversed().longest(ORIGIN);
        let back = back.map_err(|ring| contradiction::explain(self, &graph, ring))?;
        let window = |step| {
            Some(Window {
                earliest: ahead.distance[start(step)]?,
                latest: back.distance[start(step)].map(|left| -left),
                ends: ahead.distance[end(step)]?,
            })
        };
        // Every step is placed after now or where it happened, so none is left out.
        Ok((0..self.plan.steps().len()).filter_map(window).collect())
    }

    /// The longest paths from the origin over some edges.
    pub(crate) fn earliest(&self, edges: &[Edge]) -> Result<(Graph, Reach), Vec<Contradiction>> {
        let graph = self.graph(edges);
        match graph.longest(ORIGIN) {
            Ok(reach) => Ok((graph, reach)),
            Err(ring) => Err(contradiction::explain(self, &graph, ring)),
        }
    }

    /// Edges between the points of this network.
    pub(crate) fn graph(&self, edges: &[Edge]) -> Graph {
        Graph::new(1 + 2 * self.plan.steps().len(), edges.to_vec())
    }

    /// How long a step that is not done takes here.
    pub(crate) fn lasts(&self, step: usize) -> i64 {
        let work = self.plan.steps()[step].at(self.situation.pace);
        match self.situation.progress[step] {
            Progress::Deferred => 0,
            Progress::Running { began } => work.max(self.situation.now - began),
            _ => work,
        }
    }

    /// When a point happened, if it has.
    pub(crate) fn happened(&self, point: usize) -> Option<i64> {
        let Some(step) = point.checked_sub(1).map(|place| place / 2) else {
            return Some(0);
        };
        match self.situation.progress[step] {
            Progress::Running { began } | Progress::Done { began, .. } if point == start(step) => {
                Some(began)
            }
            Progress::Done { ended, .. } => Some(ended),
            Progress::DoneBefore => Some(self.situation.now.min(0)),
            Progress::NotStarted | Progress::Running { .. } | Progress::Deferred => None,
        }
    }

    /// Places a step: where it happened, or not before now and as long as it takes.
    fn place(&mut self, step: usize) {
        let (begins, ends) = (start(step), end(step));
        let edge = |from, to, weight, source| Edge {
            from,
            to,
            weight,
            source,
        };
        for point in [begins, ends] {
            if let Some(time) = self.happened(point) {
                let source = Source::Happened(step);
                self.edges.push(edge(ORIGIN, point, time, source));
                self.edges.push(edge(point, ORIGIN, -time, source));
            }
        }
        if self.happened(begins).is_none() {
            let now = self.situation.now;
            self.edges.push(edge(ORIGIN, begins, now, Source::Now));
        }
        if self.happened(ends).is_none() {
            let lasts = self.lasts(step);
            let source = Source::Duration(step);
            self.edges.push(edge(begins, ends, lasts, source));
            self.edges.push(edge(ends, begins, -lasts, source));
            if let Some(finish) = self.situation.finish {
                self.edges.push(edge(ends, ORIGIN, -finish, Source::Finish));
            }
        }
    }

    /// Adds what a rule asks, unless it can't be judged or is broken.
    fn bind(&mut self, rule: usize) {
        let ask = self.plan.rules()[rule].ask;
        for (from, to, weight) in self.differences(ask).into_iter().flatten() {
            let (before, after) = (self.happened(from), self.happened(to));
            let least = before.unwrap_or(self.situation.now) + weight;
            // Whoever has begun without waiting can't be made to wait.
            let jumped = before.is_none() && matches!(ask, Ask::After { .. });
            match after {
                Some(after) if least > after || jumped => self.broken.push(Broken {
                    rule,
                    by: least - after,
                }),
                _ => self.edges.push(Edge {
                    from,
                    to,
                    weight,
                    source: Source::Rule(rule),
                }),
            }
        }
    }

    /// What a rule asks as differences: from, to, and by how much `to` comes later at least.
    fn differences(&self, ask: Ask) -> [Option<(usize, usize, i64)>; 2] {
        let is = |step: usize, what: Progress| self.situation.progress[step] == what;
        let steps = ask.steps();
        let absent = steps.iter().any(|&step| is(step, Progress::Deferred));
        let unseen = steps.iter().any(|&step| is(step, Progress::DoneBefore));
        match ask {
            Ask::After { first, then, lag } if !is(then, Progress::DoneBefore) => {
                let lag = if is(first, Progress::Deferred) {
                    0
                } else {
                    lag
                };
                [Some((end(first), start(then), lag)), None]
            }
            Ask::NotBefore { step, time } if !unseen => [Some((ORIGIN, start(step), time)), None],
            _ if absent || unseen => [None, None],
            Ask::StartWithin { first, then, most } => {
                [Some((start(then), end(first), -most)), None]
            }
            Ask::FinishedWithin { first, then, most } => {
                [Some((end(then), end(first), -most)), None]
            }
            Ask::StartWithinStart { first, then, most } => {
                [Some((start(then), start(first), -most)), None]
            }
            Ask::Together { first, then }
                if is(first, Progress::NotStarted) && is(then, Progress::NotStarted) =>
            {
                let (one, other) = (start(first), start(then));
                [Some((one, other, 0)), Some((other, one, 0))]
            }
            Ask::FinishedBy { step, time } => [Some((end(step), ORIGIN, -time)), None],
            Ask::After { .. } | Ask::NotBefore { .. } | Ask::Together { .. } => [None, None],
        }
    }
}
