//! What a person at the bench asks: what may start now, and which clock is running.

use crate::network::start;
use crate::{Ask, Contradiction, Network, Progress, Source};

/// Whether a step may start now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Readiness {
    /// It may: all it waits for is over, and starting breaks no window.
    Ready,
    /// It may not, for all of these reasons.
    Waits(Vec<Wait>),
    /// It is left off for now.
    Deferred,
    /// It has begun, whether or not it has ended.
    Begun,
}

/// Why a step may not start yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wait {
    /// A gate is closed.
    Gate,
    /// A step before it is not done.
    Step {
        /// The rule that puts it before.
        rule: usize,
        /// The step that is not done.
        step: usize,
    },
    /// A lag is not over, or its time has not come.
    Until {
        /// The rule.
        rule: usize,
        /// When it lets go, in seconds from the origin.
        time: i64,
    },
    /// The step it starts together with waits itself.
    Partner {
        /// The rule that couples them.
        rule: usize,
        /// The step that waits.
        step: usize,
    },
    /// Started now, a clock would run out before its work could be done.
    TooEarly {
        /// When it may start, in seconds from the origin.
        time: i64,
        /// What holds it up, from now or the origin on.
        because: Vec<Source>,
    },
}

/// A clock that is running: a step must start or end before it runs out.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `rule` | the rule that runs | |
/// | `deadline` | what must happen, and when | |
/// | `left` | seconds left, below zero when it has run out | `s` |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Clock {
    /// The rule that runs.
    pub rule: usize,
    /// What must happen, and when.
    pub deadline: Deadline,
    /// Seconds left, below zero when it has run out.
    pub left: i64,
}

/// What must happen, and by when in seconds from the origin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Deadline {
    /// A step must have started.
    Start {
        /// The step.
        step: usize,
        /// By when.
        by: i64,
    },
    /// A step must have ended.
    End {
        /// The step.
        step: usize,
        /// By when.
        by: i64,
    },
}

impl Network<'_> {
    /// Whether each step may start now, and if not, why not.
    ///
    /// Starting any or all of the ready steps at once keeps every window open.
    ///
    /// # Errors
    /// What contradicts itself, hardest first.
    pub fn ready(&self) -> Result<Vec<Readiness>, Vec<Contradiction>> {
        let (graph, reach) = self.earliest(&self.edges)?;
        let steps = self.plan.steps().len();
        let mut waits: Vec<Vec<Wait>> = (0..steps).map(|step| self.waits(step)).collect();
        for &step in &self.situation.closed {
            waits[step].insert(0, Wait::Gate);
        }
        for (step, waits) in waits.iter_mut().enumerate() {
            let early = reach.distance[start(step)].filter(|&time| time > self.situation.now);
            if let Some(time) = early.filter(|_| waits.is_empty()) {
                let path = graph.path(&reach, start(step));
                waits.push(Wait::TooEarly {
                    time,
                    because: path.iter().map(|edge| edge.source).collect(),
                });
            }
        }
        self.add_partners(&mut waits);
        let said = waits.into_iter().zip(&self.situation.progress);
        let said = said.map(|(waits, progress)| match progress {
            Progress::Deferred => Readiness::Deferred,
            Progress::NotStarted if waits.is_empty() => Readiness::Ready,
            Progress::NotStarted => Readiness::Waits(waits),
            Progress::Running { .. } | Progress::Done { .. } | Progress::DoneBefore => {
                Readiness::Begun
            }
        });
        Ok(said.collect())
    }

    /// The clocks that are running, the one that runs out first in front. One that has run out is
    /// still among them while its step has not come.
    pub fn clocks(&self) -> Vec<Clock> {
        let rules = self.plan.rules().iter().enumerate();
        let mut clocks: Vec<Clock> = rules
            .filter_map(|(rule, said)| {
                let deadline = self.deadline(said.ask)?;
                let (Deadline::Start { by, .. } | Deadline::End { by, .. }) = deadline;
                Some(Clock {
                    rule,
                    deadline,
                    left: by - self.situation.now,
                })
            })
            .collect();
        clocks.sort_by_key(|clock| clock.left);
        clocks
    }

    fn deadline(&self, ask: Ask) -> Option<Deadline> {
        let began = |step: usize| match self.situation.progress[step] {
            Progress::Running { began } | Progress::Done { began, .. } => Some(began),
            _ => None,
        };
        let ended = |step: usize| match self.situation.progress[step] {
            Progress::Done { ended, .. } => Some(ended),
            _ => None,
        };
        let waits = |step: usize| {
            let progress = self.situation.progress[step];
            matches!(progress, Progress::NotStarted | Progress::Deferred)
        };
        let runs = |step: usize| matches!(self.situation.progress[step], Progress::Running { .. });
        match ask {
            Ask::StartWithin { first, then, most } if waits(then) => Some(Deadline::Start {
                step: then,
                by: ended(first)? + most,
            }),
            Ask::StartWithinStart { first, then, most } if waits(then) => Some(Deadline::Start {
                step: then,
                by: began(first)? + most,
            }),
            Ask::FinishedWithin { first, then, most } if waits(then) || runs(then) => {
                Some(Deadline::End {
                    step: then,
                    by: ended(first)? + most,
                })
            }
            Ask::Together { first, then } if waits(then) => Some(Deadline::Start {
                step: then,
                by: began(first)?,
            }),
            Ask::Together { first, then } if waits(first) => Some(Deadline::Start {
                step: first,
                by: began(then)?,
            }),
            _ => None,
        }
    }

    /// What a step waits for by its own rules. A step left off passes on what it waits for.
    fn waits(&self, step: usize) -> Vec<Wait> {
        let now = self.situation.now;
        let until = |rule, time| (time > now).then_some(Wait::Until { rule, time });
        let mut waits = Vec::new();
        for (rule, said) in self.plan.rules().iter().enumerate() {
            match said.ask {
                Ask::After { first, then, lag } if then == step => {
                    match self.situation.progress[first] {
                        Progress::NotStarted | Progress::Running { .. } => {
                            waits.push(Wait::Step { rule, step: first });
                        }
                        Progress::Done { ended, .. } => waits.extend(until(rule, ended + lag)),
                        Progress::DoneBefore => waits.extend(until(rule, now.min(0) + lag)),
                        Progress::Deferred => waits.extend(self.waits(first)),
                    }
                }
                Ask::NotBefore { step: which, time } if which == step => {
                    waits.extend(until(rule, time));
                }
                _ => {}
            }
        }
        waits
    }

    /// Holds back steps whose partner is held back, until nobody is added.
    fn add_partners(&self, waits: &mut [Vec<Wait>]) {
        let open = |step: usize| self.situation.progress[step] == Progress::NotStarted;
        let rules = self.plan.rules().iter().enumerate();
        let couples: Vec<(usize, usize, usize)> = rules
            .filter_map(|(rule, said)| match said.ask {
                Ask::Together { first, then } if open(first) && open(then) => {
                    Some((rule, first, then))
                }
                _ => None,
            })
            .flat_map(|(rule, one, other)| [(rule, one, other), (rule, other, one)])
            .collect();
        let mut grown = true;
        while grown {
            grown = false;
            for &(rule, step, partner) in &couples {
                if waits[step].is_empty() && !waits[partner].is_empty() {
                    waits[step].push(Wait::Partner {
                        rule,
                        step: partner,
                    });
                    grown = true;
                }
            }
        }
    }
}
