//! Before a clock is started: does all that must come in time fit?

use crate::feasible::{Undecided, feasible};
use crate::graph::Edge;
use crate::network::{Network, ORIGIN, start};
use crate::problem::Problem;
use crate::shortage::{self, Scope};
use crate::{
    Ask, Contradiction, Error, Pace, Progress, Resources, Rule, Shortage, Situation, Source, Window,
};

/// What a step sets running if it starts now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LookAhead {
    /// The steps that its clocks are for and whatever must still be done before those, in the order
    /// of their earliest starts. What each of them needs must be at hand.
    pub chain: Vec<usize>,
    /// How it fits, or what contradicts itself, hardest first.
    pub outcome: Result<Fit, Vec<Contradiction>>,
}

/// How a chain fits.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `windows` | of the steps of the chain, in its order | |
/// | `spare` | least slack of any of them, if any clock bounds it | `s` |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fit {
    /// Of the steps of the chain, in its order.
    pub windows: Vec<Window>,
    /// Least slack of any of them, if any clock bounds it.
    pub spare: Option<i64>,
}

/// What a step sets running if it starts now, with the hands and tools there are.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `chain` | the steps that its clocks are for and whatever must still be done before those | |
/// | `outcome` | whether they can all be done in time | |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ahead {
    /// The steps that its clocks are for and whatever must still be done before those, in the order of
    /// the plan. What each of them needs must be at hand.
    pub chain: Vec<usize>,
    /// Whether they can all be done in time.
    pub outcome: Continuation,
}

/// Whether a chain can be done in time. A pace tells whether it is with everything taking as long as
/// it may, or as little.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Continuation {
    /// It can. When each step of the plan starts if all take as long as they may; none for those
    /// that don't matter to it.
    Fits(Vec<Option<i64>>),
    /// Times alone contradict themselves.
    Contradictory(Pace, Vec<Contradiction>),
    /// Hands and tools can't do it.
    Short(Pace, Shortage),
    /// A step of the chain stands before a closed gate, so its clock would run out.
    Gate(usize),
    /// It isn't known: it was told to stop, or there was too much to try.
    Undecided(Pace),
}

impl Network<'_> {
    /// What happens if a step starts now: which steps its clocks are for, and whether they fit even
    /// if everything takes as long as it may.
    ///
    /// Looks only at rules of the chain, so that a deadline next week doesn't spoil a joint today.
    /// It counts on as many hands as the rules would use at once; [`look_ahead_with`] counts those
    /// there are. Whether its turn has come at all is told by [`ready`](Network::ready).
    ///
    /// [`look_ahead_with`]: Network::look_ahead_with
    ///
    /// # Errors
    /// [`Error::NoSuchStep`], or [`Error::NotOpen`] for a step that has begun or is left off.
    pub fn look_ahead(&self, step: usize) -> Result<LookAhead, Error> {
        let within = self.chain_from(step)?;
        let mut chain = self.others(step, &within);
        let slowly = self.at_pace(Pace::Most);
        let network = Network::new(self.plan, &slowly)?;
        let edges = network.edges_ahead(step, &within);
        let outcome = network.solve(&edges).map(|windows| {
            chain.sort_by_key(|&other| windows[other].earliest);
            let windows: Vec<Window> = chain.iter().map(|&other| windows[other]).collect();
            let spare = windows.iter().filter_map(Window::slack).min();
            Fit { windows, spare }
        });
        Ok(LookAhead { chain, outcome })
    }

    /// The same with the hands and tools there are: whether the step can start now and everything its
    /// clocks are for be done in time, with everybody there who is needed, between the absences.
    ///
    /// It must go with everything taking as long as it may, and with everything taking as little: a
    /// window can also be missed by being too soon for it. Both are answered for; what lies between
    /// is not tried. Other steps can wait and hold nothing, but for those that run.
    ///
    /// `go_on` is asked now and then; the answer no leaves the question open.
    ///
    /// # Errors
    /// [`Error::NoSuchStep`], or [`Error::NotOpen`] for a step that has begun or is left off.
    pub fn look_ahead_with(
        &self,
        step: usize,
        resources: &Resources,
        mut go_on: impl FnMut() -> bool,
    ) -> Result<Ahead, Error> {
        let within = self.chain_from(step)?;
        let chain = self.others(step, &within);
        let gate = chain.iter().find(|&&other| {
            let waits = self.situation.progress[other] == Progress::NotStarted;
            waits && self.situation.closed.contains(&other)
        });
        let mut outcome = gate.map(|&gate| Continuation::Gate(gate));
        for pace in [Pace::Least, Pace::Most] {
            if !matches!(outcome, None | Some(Continuation::Fits(_))) {
                break;
            }
            let situation = self.at_pace(pace);
            let network = Network::new(self.plan, &situation)?;
            let edges = network.edges_ahead(step, &within);
            if let Err(found) = network.earliest(&edges) {
                outcome = Some(Continuation::Contradictory(pace, found));
                break;
            }
            let problem = Problem::new(&network, &edges, &within, resources);
            outcome = Some(match feasible(&problem, &mut go_on) {
                Ok(Some(starts)) => Continuation::Fits(network.starts(&problem, &starts)),
                Err(Undecided) => Continuation::Undecided(pace),
                Ok(None) => {
                    let scope = Scope::Ahead(step, within.clone());
                    let found = shortage::explain(&network, resources, scope, &mut go_on);
                    Continuation::Short(pace, found)
                }
            });
        }
        let outcome = outcome.unwrap_or(Continuation::Undecided(Pace::Most));
        Ok(Ahead { chain, outcome })
    }

    /// The chain of a step that can be looked ahead of, itself among it.
    fn chain_from(&self, step: usize) -> Result<Vec<bool>, Error> {
        let steps = self.plan.steps().len();
        match self.situation.progress.get(step) {
            None => Err(Error::NoSuchStep { step, steps }),
            Some(Progress::NotStarted) => Ok(self.chain(step)),
            Some(_) => Err(Error::NotOpen { step }),
        }
    }

    /// The open steps of a chain beside the one it begins with.
    fn others(&self, step: usize, within: &[bool]) -> Vec<usize> {
        let all = 0..within.len();
        let open = |&other: &usize| within[other] && other != step && self.is_open(other);
        all.filter(open).collect()
    }

    /// The same situation at another pace, with no finish asked for.
    fn at_pace(&self, pace: Pace) -> Situation {
        Situation {
            pace,
            finish: None,
            ..self.situation.clone()
        }
    }

    /// The edges of a chain, and the start at once that is looked ahead of.
    pub(crate) fn edges_ahead(&self, step: usize, within: &[bool]) -> Vec<Edge> {
        let mut edges = self.edges.clone();
        edges.retain(|edge| match edge.source {
            Source::Rule(rule) => self.concerns(self.plan.rules()[rule], within),
            _ => true,
        });
        edges.push(Edge {
            from: start(step),
            to: ORIGIN,
            weight: -self.situation.now,
            source: Source::StartNow,
        });
        edges
    }

    /// The step, every open step a clock of these is for, and every open step before one of these.
    fn chain(&self, step: usize) -> Vec<bool> {
        let mut within = vec![false; self.plan.steps().len()];
        within[step] = true;
        let mut grown = true;
        while grown {
            grown = false;
            for rule in self.plan.rules() {
                let [first, then] = rule.ask.steps();
                let joins = match rule.ask {
                    Ask::After { .. } | Ask::Together { .. } if within[then] => first,
                    Ask::NotBefore { .. } | Ask::FinishedBy { .. } | Ask::After { .. } => continue,
                    _ if within[first] => then,
                    _ => continue,
                };
                // A step left off needs nothing itself, but passes on what is before it.
                let passes = matches!(rule.ask, Ask::After { .. })
                    && self.situation.progress[joins] == Progress::Deferred;
                if !within[joins] && (self.is_open(joins) || passes) {
                    within[joins] = true;
                    grown = true;
                }
            }
        }
        within
    }

    fn is_open(&self, step: usize) -> bool {
        let progress = self.situation.progress[step];
        matches!(progress, Progress::NotStarted | Progress::Running { .. })
    }

    /// Whether a rule ties steps of a chain to each other, to the origin or to what has happened.
    fn concerns(&self, rule: Rule, within: &[bool]) -> bool {
        rule.ask.steps().into_iter().all(|step| {
            let progress = self.situation.progress[step];
            within[step] || matches!(progress, Progress::Done { .. } | Progress::DoneBefore)
        })
    }
}
