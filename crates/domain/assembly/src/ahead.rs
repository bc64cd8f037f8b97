//! Before a clock is started: does all that must come in time fit?

use crate::graph::Edge;
use crate::network::{Network, ORIGIN, start};
use crate::{Ask, Contradiction, Error, Pace, Progress, Rule, Situation, Source, Window};

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

impl Network<'_> {
    /// What happens if a step starts now: which steps its clocks are for, and whether they fit even
    /// if everything takes as long as it may.
    ///
    /// Looks only at rules of the chain, so that a deadline next week doesn't spoil a joint today.
    /// It counts on as many hands as the rules would use at once. Whether its turn has come at all is
    /// told by [`ready`](Network::ready).
    ///
    /// # Errors
    /// [`Error::NoSuchStep`], or [`Error::NotOpen`] for a step that has begun or is left off.
    pub fn look_ahead(&self, step: usize) -> Result<LookAhead, Error> {
        let steps = self.plan.steps().len();
        match self.situation.progress.get(step) {
            None => return Err(Error::NoSuchStep { step, steps }),
            Some(Progress::NotStarted) => {}
            Some(_) => return Err(Error::NotOpen { step }),
        }
        let within = self.chain(step);
        let mut chain: Vec<usize> = (0..steps)
            .filter(|&other| within[other] && other != step && self.is_open(other))
            .collect();
        let slowly = Situation {
            pace: Pace::Most,
            finish: None,
            ..self.situation.clone()
        };
        let network = Network::new(self.plan, &slowly)?;
        let mut edges = network.edges.clone();
        edges.retain(|edge| match edge.source {
            Source::Rule(rule) => network.concerns(self.plan.rules()[rule], &within),
            _ => true,
        });
        edges.push(Edge {
            from: start(step),
            to: ORIGIN,
            weight: -slowly.now,
            source: Source::StartNow,
        });
        let outcome = network.solve(&edges).map(|windows| {
            chain.sort_by_key(|&other| windows[other].earliest);
            let windows: Vec<Window> = chain.iter().map(|&other| windows[other]).collect();
            let spare = windows.iter().filter_map(Window::slack).min();
            Fit { windows, spare }
        });
        Ok(LookAhead { chain, outcome })
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
