//! When each step is worked, with the hands, the tools and the hours there are.

use assembly::{Ask, Limit, Network, NoSchedule, Pace, Progress, Resources, Situation};
use jiff::{Timestamp, ZonedDateTime};

use super::model::{Model, expected};
use super::resources::{away, patience, resources, too_much};
use super::{Shortage, Source, instant};
use crate::job::Job;
use crate::plan::{Opens, Plan};

pub use assembly::SoFar;

/// A day, for how far ahead hours are laid out.
const DAY: i64 = 86_400; // not a conversion: a stretch of the calendar
/// How often a plan is tried with other durations, and the seed: the same job gives the same answer.
pub const TRIES: u32 = 200;
const SEED: u64 = 6;
/// The share of tries that a time is told for.
const SHARE: f64 = 0.8;
/// How far ahead at first, in days after what the rules alone ask for, and how often that doubles.
const AHEAD: (i64, u32) = (30, 5);
/// A plan nobody waits for to the second begins at the next round time.
const ROUND: i64 = 300;

/// When a step is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// From when.
    pub from: Timestamp,
    /// Until when.
    pub until: Timestamp,
}

/// What keeps a plan from being over sooner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Slowest {
    /// What follows from each other: steps and waits.
    Chain(Vec<Source>),
    /// The same, with the hours nobody is there.
    Hours,
    /// Work that only these hands, or this tool, can do.
    Work {
        /// The tool, by its place; none for hands.
        tool: Option<usize>,
        /// The steps that need it.
        steps: Vec<usize>,
    },
    /// Every other order was tried.
    Tried,
}

/// A step that has no time yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Untimed {
    /// The step.
    pub step: usize,
    /// The step without a time that it hangs on; none where a part of its own is missing.
    pub after: Option<usize>,
}

/// When each step is worked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Timetable {
    /// When it begins: now, or the next round time.
    pub begins: Timestamp,
    /// By step; none for what is done before, left off or without a time.
    pub slots: Vec<Option<Slot>>,
    /// When all of it is over.
    pub finish: Timestamp,
    /// No order is over sooner.
    pub bound: Timestamp,
    /// Why not sooner than the bound.
    pub slowest: Slowest,
    /// What has no time, because a part is missing and no day is known for it.
    pub untimed: Vec<Untimed>,
    /// When the craft may float, go full throttle, is closed; none where a step of it has no time or
    /// is left off.
    pub ready: [Option<Timestamp>; 3],
    /// When nobody is there, until all is over.
    pub away: Vec<Slot>,
    /// How it fares with other durations, where a step may take longer than its least.
    pub tried: Option<Tried>,
}

impl Timetable {
    /// No other order is over sooner.
    pub fn best(&self) -> bool {
        self.finish <= self.bound
    }
}

/// How a plan fares when steps take longer than their least.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tried {
    /// When four of five tries are over; none where more miss a working time.
    pub over: Option<Timestamp>,
    /// In how many of [`TRIES`] a working time or a deadline was missed.
    pub missed: usize,
}

/// Why there is no timetable.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoTimetable {
    /// The rules contradict each other already.
    Contradictory,
    /// No order of the steps does it with these hands, tools and hours.
    Impossible(Shortage),
    /// None was found; whether there is one is not known.
    NotFound,
}

/// The timetable of a job: quickly, and the same for the same job and time. Gates are taken to open
/// when their turn comes. `have` seconds from now hands are there in any case.
pub fn timetable(
    job: &Job,
    now: &ZonedDateTime,
    have: Option<i64>,
) -> Option<Result<Timetable, NoTimetable>> {
    Some(Desk::of(job, now, have)?.table(quickly))
}

fn quickly(network: &Network<'_>, resources: &Resources) -> Result<assembly::Schedule, NoSchedule> {
    network.schedule(resources)
}

/// The best timetable, or the best found until `go_on` says no.
pub fn proved(
    job: &Job,
    now: &ZonedDateTime,
    have: Option<i64>,
    mut go_on: impl FnMut(SoFar) -> bool,
) -> Option<Result<Timetable, NoTimetable>> {
    Some(
        Desk::of(job, now, have)?
            .table(|network, resources| network.prove(resources, None, &mut go_on)),
    )
}

/// What a timetable is made of.
struct Desk<'a> {
    model: Model<'a>,
    now: &'a ZonedDateTime,
    have: Option<i64>,
    situation: Situation,
}

impl<'a> Desk<'a> {
    fn of(job: &'a Job, now: &'a ZonedDateTime, have: Option<i64>) -> Option<Self> {
        let plan = job.bench.plan()?;
        let model = Model::of(job, plan, now.timestamp())?;
        let closed = (0..plan.steps.len()).filter(|step| without_a_day(job, plan, *step));
        // While a clock runs every second counts.
        let begins = match (model.clocks().is_empty(), have) {
            (true, None) => (model.now() + ROUND - 1).div_euclid(ROUND) * ROUND,
            _ => model.now(),
        };
        let situation = Situation {
            now: begins,
            pace: Pace::Likely,
            finish: None,
            closed: closed.collect(),
            progress: model.situation().progress.clone(),
        };
        Some(Self {
            model,
            now,
            have,
            situation,
        })
    }

    /// Lays out hours as far as the plan reaches.
    fn table(
        &self,
        mut schedule: impl FnMut(&Network<'_>, &Resources) -> Result<assembly::Schedule, NoSchedule>,
    ) -> Result<Timetable, NoTimetable> {
        let numbers = self.model.numbers();
        let network =
            Network::new(numbers, &self.situation).map_err(|_| NoTimetable::Contradictory)?;
        let begins = self.situation.now;
        let hands = self.model.job.bench.crew().hands;
        let open = |step: usize| {
            let progress = self.situation.progress[step];
            progress == Progress::NotStarted && !self.situation.closed.contains(&step)
        };
        if let Some(found) = too_much(self.model.plan, hands, open) {
            return Err(NoTimetable::Impossible(found));
        }
        let (first, doublings) = AHEAD;
        let mut until = begins + first * DAY;
        if let Ok(windows) = network.windows() {
            let last = windows.iter().map(|window| window.ends).max();
            until += (last.unwrap_or(begins) - begins).max(0);
        }
        for turn in 0..=doublings {
            let away = away(self.model.job, self.now, self.have, (begins, until));
            let resources = resources(numbers, self.model.plan, hands, &away);
            match schedule(&network, &resources) {
                // Beyond the hours laid out hands would be there all the time.
                Ok(found) if found.finish > until && !away.is_empty() && turn < doublings => {
                    until += until - begins;
                }
                Ok(found) => {
                    let tried = self.tried(&network, &resources, &found);
                    return Ok(Timetable {
                        tried,
                        ..self.told(&found, &away)
                    });
                }
                Err(NoSchedule::Contradictory(_)) => return Err(NoTimetable::Contradictory),
                Err(NoSchedule::Impossible | NoSchedule::NotFound) => {
                    let found = network.shortage(&resources, patience());
                    return Err(match found {
                        Ok(Some(found)) => NoTimetable::Impossible(self.model.short(&found)),
                        _ => NoTimetable::NotFound,
                    });
                }
            }
        }
        Err(NoTimetable::NotFound)
    }

    /// Tries the plan with durations drawn between least and most.
    fn tried(
        &self,
        network: &Network<'_>,
        resources: &Resources,
        found: &assembly::Schedule,
    ) -> Option<Tried> {
        let steps = self.model.numbers().steps().iter().zip(&found.starts);
        let mut planned = steps.filter(|(_, start)| start.is_some());
        if !planned.any(|(step, _)| step.most > step.least) {
            return None;
        }
        let chance = network.tries(resources, found, (TRIES, SEED));
        Some(Tried {
            over: chance.time(SHARE).map(instant),
            missed: chance.missed,
        })
    }

    fn told(&self, found: &assembly::Schedule, away: &[(i64, i64)]) -> Timetable {
        let plan = self.model.plan;
        let slot = |step: usize| {
            let from = found.starts[step]?;
            Some(Slot {
                from: instant(from),
                until: instant(self.model.over(step, from, self.situation.now)),
            })
        };
        let slots: Vec<Option<Slot>> = (0..plan.steps.len()).map(slot).collect();
        let untimed = found.left_out.iter().map(|left| Untimed {
            step: left.step,
            after: left.because.map(|(_, step)| step),
        });
        let untimed: Vec<Untimed> = untimed.collect();
        let gone = away.iter().filter(|(from, _)| *from < found.finish);
        Timetable {
            begins: instant(self.situation.now),
            ready: Opens::ALL.map(|opens| self.ready(opens, &slots)),
            slots,
            finish: instant(found.finish),
            bound: instant(found.bound),
            slowest: self.slowest(&found.limit),
            untimed,
            tried: None,
            away: gone
                .map(|&(from, until)| Slot {
                    from: instant(from),
                    until: instant(until.min(found.finish)),
                })
                .collect(),
        }
    }

    /// When the last step of a readiness is over and what cures before a later step has cured, if every
    /// one of its steps has a time or is done.
    fn ready(&self, opens: Opens, slots: &[Option<Slot>]) -> Option<Timestamp> {
        let plan = self.model.plan;
        let of = plan
            .steps
            .iter()
            .enumerate()
            .filter(|(_, step)| step.opens <= opens);
        let mut last = instant(self.situation.now);
        for (place, step) in of {
            match slots[place] {
                Some(slot) => last = last.max(slot.until),
                None if self.model.job.bench.of(&step.key).done.is_some() => {}
                None => return None,
            }
        }
        let over = |step: usize| match (slots[step], self.situation.progress[step]) {
            (Some(slot), _) => Some(slot.until.as_second()),
            (None, Progress::Done { ended, .. }) => Some(ended),
            (None, _) => None,
        };
        for rule in self.model.numbers().rules() {
            let Ask::After { first, then, lag } = rule.ask else {
                continue;
            };
            if plan.steps[first].opens <= opens && plan.steps[then].opens > opens {
                last = last.max(instant(over(first)? + lag));
            }
        }
        Some(last)
    }

    fn slowest(&self, limit: &Limit) -> Slowest {
        match limit {
            Limit::Times(path) => {
                let sources = path.iter().map(|source| self.model.source(*source));
                Slowest::Chain(sources.collect())
            }
            Limit::Away => Slowest::Hours,
            Limit::Work {
                resource, steps, ..
            } => Slowest::Work {
                tool: resource.checked_sub(1),
                steps: steps.clone(),
            },
            Limit::Tried => Slowest::Tried,
        }
    }
}

/// A step that waits for a part nobody knows the day of.
fn without_a_day(job: &Job, plan: &Plan, step: usize) -> bool {
    let mut needs = plan.steps[step].needs.iter();
    needs.any(|key| !job.bench.at_hand(key) && expected(job, key).is_none())
}
