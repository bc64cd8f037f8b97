//! What falls due, by whichever rule comes first.

use jiff::ToSpan;
use jiff::civil::Date;

use super::hours::{Hours, Season};
use super::tasks::{TASKS, Task};
use super::{Dated, Done, Edge, Mishap, Rule, Upkeep};
use crate::entry::Key;
use crate::inspect::wear::wear;
use crate::job::Job;
use clearance::trend::Crossing;

/// Why a task falls due.
#[derive(Clone, Debug, PartialEq)]
pub enum By {
    /// So many hours, in seconds, since it was last done.
    Hours(f64),
    /// So many months since it was last done.
    Months(u8),
    /// A mishap, on this day, and it was not done since.
    Mishap(Mishap, Date),
    /// The season begins on this day.
    Launch(Date),
    /// The season is over on this day.
    LayUp(Date),
    /// The gap meets the manual's limit, as it grows, in seconds of engine time: early and likely.
    Gap(f64, f64),
    /// Beyond it, the chance that this piece gets through a season more is under the floor.
    Chance(Key),
    /// The cheapest age to replace this piece.
    Cost(Key),
}

/// When something is reached.
#[derive(Clone, Debug, PartialEq)]
pub struct When {
    /// Why then.
    pub by: By,
    /// The engine hours, in seconds, where hours decide it.
    pub hours: Option<f64>,
    /// The day, where it can be told.
    pub on: Option<Date>,
}

/// Where the figures of a task come from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Says {
    /// The person, from the manual's page; empty where no page was named.
    Stated(String),
    /// General practice.
    Practice,
    /// Reckoned from what is known of the part.
    Reckoned,
}

/// What falls due.
#[derive(Clone, Debug, PartialEq)]
pub struct Due {
    /// Names it: a task, or `renew-` and the sort of a part.
    pub task: Key,
    /// What it is called.
    pub name: String,
    /// The first that comes.
    pub first: When,
    /// The others, in the order they come.
    pub then: Vec<When>,
    /// It is past: of its day, or of its hours.
    pub overdue: bool,
    /// When it was done last, and at how many hours; none where it counts from this rebuild.
    pub last: Option<(Date, Option<f64>)>,
    /// Where its figures come from.
    pub says: Says,
    /// How often it was done: names this time of it.
    pub cycle: usize,
}

/// What a day and the hours are, for all tasks.
pub(super) struct Now<'a> {
    pub(super) job: &'a Job,
    pub(super) today: Date,
    pub(super) hours: Option<&'a Hours>,
}

/// A task, general or of the person's own, with the rule in force.
struct Plan<'a> {
    key: Key,
    name: String,
    rule: std::borrow::Cow<'a, Rule>,
    says: Says,
}

/// Every task with its rule.
fn plans(upkeep: &Upkeep) -> Vec<Plan<'_>> {
    let general = TASKS.iter().filter_map(|task| {
        let key = Key::new(task.key).ok()?;
        let stated = upkeep.rules.get(&key).map(|fact| &fact.value);
        Some(match stated {
            Some(rule) => Plan {
                name: named(&rule.name, task.name),
                rule: std::borrow::Cow::Borrowed(rule),
                says: Says::Stated(rule.page.clone()),
                key,
            },
            None => Plan {
                name: task.name.to_owned(),
                rule: std::borrow::Cow::Owned(practice(task)),
                says: Says::Practice,
                key,
            },
        })
    });
    let own = upkeep.rules.iter();
    let own = own.filter(|(key, _)| super::tasks::task(key.as_str()).is_none());
    let own = own.map(|(key, fact)| Plan {
        key: key.clone(),
        name: fact.value.name.clone(),
        rule: std::borrow::Cow::Borrowed(&fact.value),
        says: Says::Stated(fact.value.page.clone()),
    });
    general.chain(own).collect()
}

fn named(own: &str, general: &str) -> String {
    if own.trim().is_empty() { general } else { own }.to_owned()
}

/// General practice as a rule.
fn practice(task: &Task) -> Rule {
    let hours = task
        .hours
        .and_then(|hours| quantity::parse(&hours.to_string(), quantity::Unit::Hour).ok());
    Rule {
        name: task.name.to_owned(),
        hours,
        months: task.months,
        after: task.after.iter().copied().collect(),
        edge: task.edge,
        page: String::new(),
    }
}

/// What falls due, the first first, and the tasks whose day nobody can tell.
pub(super) fn due(now: &Now<'_>) -> (Vec<Due>, Vec<String>) {
    let (mut due, mut undated) = (Vec::new(), Vec::new());
    for plan in plans(&now.job.upkeep) {
        match now.due(&plan) {
            Some(one) => due.push(one),
            None if plan.rule.hours.is_some() || plan.rule.months.is_some() => {
                undated.push(plan.name);
            }
            None => {}
        }
    }
    (due, undated)
}

impl Now<'_> {
    fn season(&self) -> Season {
        Season::of(&self.job.upkeep)
    }

    /// The last time a task was done.
    fn last(&self, task: &Key) -> Option<&Dated<Done>> {
        let done = self.job.upkeep.done.iter();
        let done = done.filter(|done| done.what.value.task == *task);
        done.max_by_key(|done| (done.on, done.what.position))
    }

    fn due(&self, plan: &Plan<'_>) -> Option<Due> {
        let last = self.last(&plan.key);
        let since = last.map(|done| done.on);
        let since = since.or_else(|| self.hours.map(|hours| hours.rebuilt.1));
        let mut all: Vec<When> = Vec::new();
        all.extend(self.mishap(plan));
        all.extend(self.by_hours(plan, last));
        all.extend(since.and_then(|since| months(plan, since)));
        all.extend(self.edge(plan, since));
        if plan.key.as_str() == "gap" {
            all.extend(self.gap());
        }
        let done = self.job.upkeep.done.iter();
        let cycle = done.filter(|done| done.what.value.task == plan.key).count();
        let last = last.map(|done| {
            let hours = done.what.value.hours.as_ref();
            (done.on, hours.map(|hours| hours.value))
        });
        first_of(all).map(|(first, then)| Due {
            task: plan.key.clone(),
            name: plan.name.clone(),
            overdue: self.past(&first),
            first,
            then,
            last,
            says: plan.says.clone(),
            cycle,
        })
    }

    /// Whether its day is over, or its hours are.
    pub(super) fn past(&self, when: &When) -> bool {
        let over = when.on.is_some_and(|on| match when.by {
            By::Mishap(..) => on <= self.today,
            _ => on < self.today,
        });
        let run = when.hours.zip(self.hours);
        over || run.is_some_and(|(hours, now)| now.today > hours)
    }

    /// At engine hours, with the day they are thought to be reached on.
    pub(super) fn at(&self, by: By, hours: f64) -> When {
        let on = self.hours.and_then(|now| now.day(self.season(), hours));
        When {
            by,
            hours: Some(hours),
            on,
        }
    }

    fn by_hours(&self, plan: &Plan<'_>, last: Option<&Dated<Done>>) -> Option<When> {
        let every = plan.rule.hours.as_ref()?.value;
        let now = self.hours?;
        let from = match last {
            Some(done) => {
                let said = done.what.value.hours.as_ref();
                said.map_or_else(|| now.at(&self.job.upkeep, done.on), |said| said.value)
            }
            None => now.rebuilt.0,
        };
        Some(self.at(By::Hours(every), from + every))
    }

    /// The latest mishap that asks for it and was not followed by it.
    fn mishap(&self, plan: &Plan<'_>) -> Option<When> {
        let last = self.last(&plan.key);
        let mishaps = self.job.upkeep.mishaps.iter();
        let open = mishaps.filter(|what| {
            plan.rule.after.contains(&what.what.value.what)
                && last.is_none_or(|done| {
                    (done.on, done.what.position) < (what.on, what.what.position)
                })
        });
        let first = open.min_by_key(|what| (what.on, what.what.position))?;
        Some(When {
            by: By::Mishap(first.what.value.what, first.on),
            hours: None,
            on: Some(first.on),
        })
    }

    /// An edge that went by undone stays; one done in the season it belongs to is over.
    fn edge(&self, plan: &Plan<'_>, since: Option<Date>) -> Option<When> {
        let edge = plan.rule.edge?;
        let launch = edge == Edge::Launch;
        let (before, next) = self.season().edges(launch, self.today)?;
        let by = |on| match edge {
            Edge::Launch => By::Launch(on),
            Edge::LayUp => By::LayUp(on),
        };
        let near = |edge: Date| edge.checked_sub(EARLY.days()).unwrap_or(edge);
        let when = |on| When {
            by: by(on),
            hours: None,
            on: Some(on),
        };
        let missed = before.filter(|edge| since.is_some_and(|since| since < near(*edge)));
        if let Some(missed) = missed {
            return Some(when(missed));
        }
        // Done ahead of the edge that comes: the one after that.
        let done = self.last(&plan.key).map(|done| done.on);
        if done.is_some_and(|done| done >= near(next)) {
            let after = next.tomorrow().ok()?;
            let (_, after) = self.season().edges(launch, after)?;
            return Some(when(after));
        }
        Some(when(next))
    }

    /// Where the gap is followed over the visits and meets the limit.
    fn gap(&self) -> Option<When> {
        let wear = wear(self.job)?;
        let begins = wear.begins();
        let trend = wear.trend?;
        match trend.crossing? {
            Crossing::Ahead(met) | Crossing::Behind(met) if trend.line.slope > 0.0 => {
                let (early, likely) = (begins + met.soonest, begins + met.run);
                Some(self.at(By::Gap(early, likely), early))
            }
            _ => None,
        }
    }
}

/// The first that comes, and the others in order. What has no day comes after what has.
pub(super) fn first_of(mut all: Vec<When>) -> Option<(When, Vec<When>)> {
    all.sort_by_key(order);
    let mut all = all.into_iter();
    let first = all.next()?;
    Some((first, all.collect()))
}

/// Days before an edge from which on doing its task is doing it for that edge.
const EARLY: i32 = 75;

fn months(plan: &Plan<'_>, since: Date) -> Option<When> {
    let months = plan.rule.months?;
    // From when it was done, never from when it was due; the last of a shorter month stands for a day it lacks.
    let on = since.checked_add(i32::from(months).months()).ok()?;
    Some(When {
        by: By::Months(months),
        hours: None,
        on: Some(on),
    })
}

/// A mishap first of all, then by day; hours without a day come last.
pub(super) fn order(when: &When) -> (bool, bool, Option<Date>, u64) {
    let mishap = matches!(when.by, By::Mishap(..));
    let hours = when.hours.unwrap_or(0.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "whole seconds of an hour meter, to sort by"
    )]
    let seconds = hours.max(0.0) as u64;
    (!mishap, when.on.is_none(), when.on, seconds)
}
