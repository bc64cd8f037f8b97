//! The job's plan as the numbers that the domain counts with. Its origin is the Unix epoch, so its
//! times are those of instants.

mod told;

use assembly::{
    Ask, Continuation, Deadline, Network, Pace, Plan as Numbers, Progress, Readiness, Resources,
    Rule, Situation, Source as From, Step, Window,
};
use jiff::Timestamp;
use jiff::tz::TimeZone;
use quantity::Entered;

use super::resources::{away, patience, resources, told};
use super::{
    Because, Broken, Clock, Contradiction, Shortage, Source, State, Wait, gate_open, instant,
};
use crate::job::Job;
use crate::plan::{self, Plan, Status, seconds};
use told::{of, said, without};

/// How far ahead hours are looked at before a clock is started.
const AHEAD: i64 = 2 * 86_400; // not a conversion: a stretch of the calendar

/// The plan in numbers, with where each rule comes from.
pub(super) struct Model<'a> {
    pub(super) job: &'a Job,
    pub(super) plan: &'a Plan,
    numbers: Numbers,
    because: Vec<Because>,
    situation: Situation,
}

/// The windows, with what had to be left aside to have any.
pub(super) struct Settled {
    pub(super) windows: Vec<Window>,
    pub(super) contradictions: Vec<Contradiction>,
    readiness: Vec<Readiness>,
    because: Vec<Because>,
}

impl<'a> Model<'a> {
    /// None for a plan that the domain does not take; such a one never passes the fold.
    pub(super) fn of(job: &'a Job, plan: &'a Plan, now: Timestamp) -> Option<Self> {
        let steps = plan
            .steps
            .iter()
            .map(|step| expected_to_take(job, step))
            .collect();
        let progress: Vec<Progress> = plan.steps.iter().map(|step| progress(job, step)).collect();
        let (rules, because) = rules(job, plan, &progress).into_iter().unzip();
        let latest = progress.iter().filter_map(|progress| match *progress {
            Progress::Running { began } => Some(began),
            Progress::Done { ended, .. } => Some(ended),
            _ => None,
        });
        // A clock that was set back must not undo what has happened.
        let now = latest.fold(now.as_second(), i64::max);
        let closed = (0..plan.steps.len()).filter(|place| closed(job, &plan.steps[*place]));
        Some(Self {
            job,
            plan,
            numbers: Numbers::new(steps, rules).ok()?,
            because,
            situation: Situation {
                now,
                pace: Pace::Likely,
                progress,
                finish: None,
                closed: closed.collect(),
            },
        })
    }

    pub(super) fn numbers(&self) -> &Numbers {
        &self.numbers
    }

    pub(super) fn situation(&self) -> &Situation {
        &self.situation
    }

    /// When a step ends that begins, or began, at a time.
    pub(super) fn over(&self, step: usize, from: i64, now: i64) -> i64 {
        match self.situation.progress[step] {
            Progress::Done { ended, .. } => ended,
            Progress::Running { began } => (began + self.numbers.steps()[step].likely).max(now),
            _ => from + self.numbers.steps()[step].likely,
        }
    }

    /// Where a difference comes from, in the terms of the plan.
    pub(super) fn source(&self, source: From) -> Source {
        of(source, &self.because)
    }

    pub(super) fn now(&self) -> i64 {
        self.situation.now
    }

    fn network(&self) -> Option<Network<'_>> {
        Network::new(&self.numbers, &self.situation).ok()
    }

    pub(super) fn clocks(&self) -> Vec<Clock> {
        let clocks = self
            .network()
            .map_or_else(Vec::new, |network| network.clocks());
        let said = clocks.into_iter().filter_map(|clock| {
            let Because::Rule(rule) = self.because[clock.rule] else {
                return None;
            };
            let (step, by, ended) = match clock.deadline {
                Deadline::Start { step, by } => (step, by, false),
                Deadline::End { step, by } => (step, by, true),
            };
            let first = self.plan.rules[rule].ask.steps()[0];
            Some(Clock {
                rule,
                first: self.plan.place(first)?,
                step,
                ended,
                by: instant(by),
            })
        });
        said.collect()
    }

    pub(super) fn broken(&self) -> Vec<Broken> {
        let network = self.network();
        let broken = network.iter().flat_map(Network::broken);
        broken
            .filter_map(|broken| match self.because[broken.rule] {
                Because::Rule(rule) => Some(Broken {
                    rule,
                    by: broken.by,
                }),
                Because::Delivery(_) => None,
            })
            .collect()
    }

    /// Lags after steps that are done which are not over: first, then, and when they are.
    pub(super) fn cures(&self) -> Vec<(usize, usize, i64)> {
        let rules = self.numbers.rules().iter();
        let lag = rules.filter_map(|rule| match (rule.ask, &self.situation.progress) {
            (Ask::After { first, then, lag }, progress) => match progress[first] {
                Progress::Done { ended, .. } if ended + lag > self.now() => {
                    Some((first, then, ended + lag))
                }
                _ => None,
            },
            _ => None,
        });
        lag.collect()
    }

    /// Windows that obey every rule, or every rule but the limits that contradict the rest.
    pub(super) fn settle(&self) -> Option<Settled> {
        let mut rules: Vec<(Rule, Because)> = self
            .numbers
            .rules()
            .iter()
            .copied()
            .zip(self.because.iter().copied())
            .collect();
        let mut contradictions = Vec::new();
        loop {
            let (kept, because): (Vec<Rule>, Vec<Because>) = rules.iter().copied().unzip();
            let numbers = Numbers::new(self.numbers.steps().to_vec(), kept).ok()?;
            let network = Network::new(&numbers, &self.situation).ok()?;
            match (network.windows(), network.ready()) {
                (Ok(windows), Ok(readiness)) => {
                    return Some(Settled {
                        windows,
                        contradictions,
                        readiness,
                        because,
                    });
                }
                (Err(found), _) | (_, Err(found)) => {
                    let said = found.iter().map(|found| said(found, &because));
                    if contradictions.is_empty() {
                        contradictions.extend(said);
                    }
                    rules = without(&rules, &found)?;
                }
            }
        }
    }

    pub(super) fn states(&self, settled: &Settled) -> Option<Vec<State>> {
        let network = self.network()?;
        let state = |place: usize| {
            let of = self.job.bench.of(&self.plan.steps[place].key);
            match self.situation.progress[place] {
                Progress::Done { ended, .. } => State::Done {
                    at: instant(ended),
                    witnessed: of.done.is_some_and(|done| done.value),
                },
                Progress::Running { began } => State::Running {
                    since: instant(began),
                    over: self.now() - began > self.numbers.steps()[place].most,
                },
                Progress::Deferred => State::Deferred,
                Progress::NotStarted | Progress::DoneBefore => {
                    let waits = self.waits(&network, settled, place);
                    if waits.is_empty() {
                        State::Ready
                    } else {
                        State::Waits(waits)
                    }
                }
            }
        };
        Some((0..self.plan.steps.len()).map(state).collect())
    }

    fn waits(&self, network: &Network<'_>, settled: &Settled, place: usize) -> Vec<Wait> {
        let mut waits = match &settled.readiness[place] {
            Readiness::Waits(waits) => waits
                .iter()
                .filter_map(|wait| self.wait_of(place, wait, &settled.because))
                .collect(),
            _ => Vec::new(),
        };
        waits.dedup();
        let parts = self.missing(place);
        waits.extend(parts.map(|part| Wait::Part { part, later: None }));
        if waits.is_empty() && self.sets_a_clock(place) {
            waits.extend(self.ahead(network, place));
        }
        waits
    }

    /// What would keep the steps from coming in time that must follow this one.
    fn ahead(&self, network: &Network<'_>, place: usize) -> Vec<Wait> {
        let resources = self.resources();
        let Ok(ahead) = network.look_ahead_with(place, &resources, patience()) else {
            return Vec::new();
        };
        let mut waits = Vec::new();
        for &step in &ahead.chain {
            let part = |part| Wait::Part {
                part,
                later: Some(step),
            };
            waits.extend(self.missing(step).map(part));
            if self.situation.closed.contains(&step) {
                waits.push(Wait::GateAhead { step });
            }
        }
        match ahead.outcome {
            Continuation::Contradictory(_, found) => {
                let said = found.iter().map(|found| said(found, &self.because));
                waits.push(Wait::NoTime(said.collect()));
            }
            Continuation::Short(_, found) => waits.push(Wait::NoHands(self.short(&found))),
            // A gate that is closed was told above. Nobody is held up by a question left open.
            Continuation::Fits(_) | Continuation::Gate(_) | Continuation::Undecided(_) => {}
        }
        waits
    }

    /// Who begins a step is there, at whatever hour; from then on until the end of the hours stated.
    fn resources(&self) -> Resources {
        let now = instant(self.now()).to_zoned_datetime(TimeZone::UTC);
        let mut gone = away(self.job, &now, None, (self.now(), self.now() + AHEAD));
        if gone.first().is_some_and(|(from, _)| *from <= self.now()) {
            gone.clear();
        }
        resources(&self.numbers, self.plan, self.job.bench.crew().hands, &gone)
    }

    /// A shortage in the terms of the plan.
    pub(super) fn short(&self, found: &assembly::Shortage) -> Shortage {
        told(found, &self.because)
    }

    fn wait_of(&self, place: usize, wait: &assembly::Wait, because: &[Because]) -> Option<Wait> {
        Some(match *wait {
            assembly::Wait::Gate => Wait::Gate(self.plan.steps[place].gate?),
            assembly::Wait::Step { step, .. } => Wait::Step { step },
            assembly::Wait::Until { rule, time } => Wait::Until {
                because: because[rule],
                at: instant(time),
            },
            assembly::Wait::Partner { step, .. } => Wait::Partner { step },
            assembly::Wait::TooEarly { time, .. } => Wait::TooEarly { at: instant(time) },
        })
    }

    fn sets_a_clock(&self, place: usize) -> bool {
        self.numbers.rules().iter().any(|rule| {
            matches!(rule.ask, Ask::StartWithin { first, .. }
                | Ask::FinishedWithin { first, .. }
                | Ask::StartWithinStart { first, .. } if first == place)
        })
    }

    fn missing(&self, place: usize) -> impl Iterator<Item = usize> {
        let needs = self.plan.steps[place].needs.iter();
        let missing = needs.filter(|part| !self.job.bench.at_hand(part));
        missing.filter_map(|part| self.plan.part(part))
    }
}

fn closed(job: &Job, step: &plan::Step) -> bool {
    let free = job.bench.of(&step.key).overridden.is_some();
    step.gate.is_some_and(|gate| !free && !gate_open(job, gate))
}

fn duration(step: &plan::Step) -> Step {
    lasting(&step.takes, step.most.as_ref())
}

/// By the plan, or as was said since.
fn expected_to_take(job: &Job, step: &plan::Step) -> Step {
    let told = job.bench.of(&step.key).estimate.map(|told| told.value);
    told.map_or_else(
        || duration(step),
        |told| lasting(&told.takes, told.most.as_ref()),
    )
}

fn lasting(takes: &Entered, most: Option<&Entered>) -> Step {
    let least = seconds(takes);
    Step {
        least,
        likely: least,
        most: most.map_or(least, seconds),
    }
}

fn progress(job: &Job, step: &plan::Step) -> Progress {
    let of = job.bench.of(&step.key);
    let begun = of
        .begun
        .as_ref()
        .map(|begun| begun.at.timestamp().as_second());
    match (begun, of.done, of.deferred) {
        (began, Some(done), _) => {
            let ended = done.at.timestamp().as_second();
            // One that began after it ended has an objection; when it began is then not known.
            let began = began.filter(|began| *began <= ended).unwrap_or(ended);
            Progress::Done { began, ended }
        }
        (Some(began), None, _) => Progress::Running { began },
        (None, None, Some(_)) => Progress::Deferred,
        (None, None, None) => Progress::NotStarted,
    }
}

/// The rules in numbers, and the deliveries. Of a step that nobody saw done, only what comes after
/// it is judged, counted from when that was said: the safe side for a cure, and no side at all for
/// a working time.
fn rules(job: &Job, plan: &Plan, progress: &[Progress]) -> Vec<(Rule, Because)> {
    let unseen = |place: usize| {
        let done = job.bench.of(&plan.steps[place].key).done;
        done.is_some_and(|done| !done.value)
    };
    let mut rules = Vec::new();
    for (place, rule) in plan.rules.iter().enumerate() {
        let Some(ask) = ask(plan, rule) else { continue };
        let judged = match ask {
            Ask::After { then, .. } => !unseen(then),
            Ask::StartWithin { first, then, .. }
            | Ask::FinishedWithin { first, then, .. }
            | Ask::StartWithinStart { first, then, .. }
            | Ask::Together { first, then } => !unseen(first) && !unseen(then),
            Ask::NotBefore { step, .. } | Ask::FinishedBy { step, .. } => !unseen(step),
        };
        if judged {
            let rule = if rule.physics {
                Rule::physics(ask)
            } else {
                Rule::negotiable(ask)
            };
            rules.push((rule, Because::Rule(place)));
        }
    }
    for (place, step) in plan.steps.iter().enumerate() {
        if progress[place] != Progress::NotStarted {
            continue;
        }
        for key in &step.needs {
            if let (Some(part), Some(time)) = (plan.part(key), expected(job, key)) {
                let ask = Ask::NotBefore { step: place, time };
                rules.push((Rule::negotiable(ask), Because::Delivery(part)));
            }
        }
    }
    rules
}

/// The beginning of the day a part on order is expected, where the person is.
pub(super) fn expected(job: &Job, part: &crate::entry::Key) -> Option<i64> {
    let told = job.bench.parts.get(part)?;
    let date = told.value.expected?;
    let day = date.to_zoned_datetime(told.at.time_zone().clone()).ok()?;
    (told.value.status == Status::OnOrder).then(|| day.timestamp().as_second())
}

fn ask(plan: &Plan, rule: &plan::Rule) -> Option<Ask> {
    let [first, then] = rule.ask.steps();
    let (first, then) = (plan.place(first)?, plan.place(then)?);
    Some(match &rule.ask {
        plan::Ask::After { lag, .. } => Ask::After {
            first,
            then,
            lag: lag.as_ref().map_or(0, seconds),
        },
        plan::Ask::StartWithin { most, .. } => Ask::StartWithin {
            first,
            then,
            most: seconds(most),
        },
        plan::Ask::FinishedWithin { most, .. } => Ask::FinishedWithin {
            first,
            then,
            most: seconds(most),
        },
        plan::Ask::StartWithinStart { most, .. } => Ask::StartWithinStart {
            first,
            then,
            most: seconds(most),
        },
        plan::Ask::Together { .. } => Ask::Together { first, then },
        plan::Ask::NotBefore { time, .. } => Ask::NotBefore {
            step: first,
            time: time.timestamp().as_second(),
        },
        plan::Ask::FinishedBy { time, .. } => Ask::FinishedBy {
            step: first,
            time: time.timestamp().as_second(),
        },
    })
}

/// The steps of a ring of plain order, if the plan has one.
pub(crate) fn ring(plan: &Plan) -> Option<Vec<usize>> {
    let steps = plan.steps.iter().map(duration).collect();
    let rules = plan.rules.iter().filter_map(|rule| ask(plan, rule));
    match Numbers::new(steps, rules.map(Rule::negotiable).collect()) {
        Err(assembly::Error::Ring { steps, .. }) => Some(steps),
        _ => None,
    }
}
