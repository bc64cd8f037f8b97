//! What hands and tools can't do, said so that a person can choose what to give.

use std::cmp::Reverse;

use crate::feasible::{Undecided, feasible};
use crate::graph::Edge;
use crate::problem::Problem;
use crate::{
    Ask, Firmness, Network, NoSchedule, Pace, Plan, Progress, Resources, Situation, Source,
};

/// What takes part in a shortage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Want {
    /// A rule of the plan.
    Rule(usize),
    /// The finish asked for.
    Finish,
    /// There is no more of a resource than there is.
    Capacity(usize),
    /// A resource is away at times.
    Away(usize),
    /// The time the work of a step takes.
    Duration(usize),
}

/// One part of a shortage.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `want` | what it is | |
/// | `change` | what alone would mend it | `s`; a count for a capacity |
/// | `offered` | whether a person may be asked to make that change | |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Missing {
    /// What it is.
    pub want: Want,
    /// What alone would mend it, all else counted: another lag, limit, time, finish or duration in
    /// seconds, another capacity, or for how many seconds every absence would have to begin later.
    /// None where no such change was found.
    pub change: Option<i64>,
    /// Whether a person may be asked to make that change. Never a change of physics.
    pub offered: bool,
}

/// Rules and resources that can't all be met, though the times alone don't contradict themselves.
///
/// With everything that has happened and every duration as it is, take any one of the rules, the
/// finish, the capacities or the absences away and the others can be met. The durations among the
/// parts are those that would mend it if shortened.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `parts` | rules in the order of the plan, the finish, capacities, absences, durations | |
/// | `minimal` | whether it was shown that no part can be spared | |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shortage {
    /// Rules in the order of the plan, the finish, capacities, absences, durations.
    pub parts: Vec<Missing>,
    /// Whether it was shown that no part can be spared.
    pub minimal: bool,
}

/// A question whether a plan can be met, and those answered on the way.
struct Asking<'n, 'g> {
    network: &'n Network<'n>,
    resources: &'n Resources,
    scope: Scope,
    go_on: &'g mut dyn FnMut() -> bool,
    /// Some question was left open.
    open: bool,
}

impl Network<'_> {
    /// Why hands and tools can't do it: a least set of rules and resources that can't all be met, by
    /// leaving out one after the other (`chinneck-dravnieks-1991`). None if there is a schedule.
    ///
    /// What is spared first: the resource that most steps hold, so that the press is named and not
    /// the hands that work it; then physics, so that what is left can be given.
    ///
    /// `go_on` is asked now and then; the answer no ends it with what is known.
    ///
    /// # Errors
    /// What contradicts itself by times alone, or that it is not known whether there is a schedule.
    pub fn shortage(
        &self,
        resources: &Resources,
        mut go_on: impl FnMut() -> bool,
    ) -> Result<Option<Shortage>, NoSchedule> {
        let task = self.task(resources)?;
        match feasible(&task.problem, &mut go_on) {
            Ok(Some(_)) => return Ok(None),
            Ok(None) => {}
            Err(Undecided) => return Err(NoSchedule::NotFound),
        }
        let scope = Scope::All(self.kept().0);
        Ok(Some(explain(self, resources, scope, &mut go_on)))
    }
}

/// The least set of what can't be met, known to be short.
pub(crate) fn explain(
    network: &Network,
    resources: &Resources,
    scope: Scope,
    go_on: &mut dyn FnMut() -> bool,
) -> Shortage {
    let mut asking = Asking {
        network,
        resources,
        scope,
        go_on,
        open: false,
    };
    let wants = asking.least(asking.wants());
    let minimal = !asking.open;
    let mut parts: Vec<Missing> = wants.iter().map(|&want| asking.mended(want)).collect();
    parts.extend(asking.shortened(&wants));
    Shortage { parts, minimal }
}

/// What a question is about.
pub(crate) enum Scope {
    /// All that can be planned.
    All(Vec<bool>),
    /// A step started now and the chain of its clocks.
    Ahead(usize, Vec<bool>),
}

impl Scope {
    fn keep(&self) -> &[bool] {
        match self {
            Self::All(keep) | Self::Ahead(_, keep) => keep,
        }
    }

    fn edges(&self, network: &Network) -> Vec<Edge> {
        match self {
            Self::All(keep) => network.edges_of(keep),
            Self::Ahead(step, within) => network.edges_ahead(*step, within),
        }
    }
}

impl Asking<'_, '_> {
    /// All that can be left out, what is spared first in front.
    fn wants(&self) -> Vec<Want> {
        let edges = self.scope.edges(self.network);
        let has = |source| edges.iter().any(|edge: &Edge| edge.source == source);
        let users = |resource: usize| {
            let needs = self.resources.needs.iter().flatten();
            needs.filter(|(r, _)| *r == resource).count()
        };
        let mut list: Vec<usize> = (0..self.resources.list.len()).collect();
        list.sort_by_key(|&resource| Reverse(users(resource)));
        let units = list.iter().flat_map(|&r| {
            let away = !self.resources.list[r].away.is_empty();
            [Some(Want::Capacity(r)), away.then_some(Want::Away(r))]
        });
        let mut wants: Vec<Want> = units.flatten().collect();
        let rules = self.network.plan.rules();
        for firmness in [Firmness::Physics, Firmness::Negotiable] {
            let alike = (0..rules.len()).filter(|&rule| rules[rule].firmness == firmness);
            wants.extend(
                alike
                    .filter(|&rule| has(Source::Rule(rule)))
                    .map(Want::Rule),
            );
        }
        wants.extend(has(Source::Finish).then_some(Want::Finish));
        wants
    }

    /// A set of these that can't be met and of which none can be spared, unless a question was left
    /// open. Great pieces are left out first, then small ones.
    fn least(&mut self, mut wants: Vec<Want>) -> Vec<Want> {
        let mut piece = wants.len().div_ceil(2);
        while piece > 0 {
            let mut from = 0;
            while from < wants.len() {
                let until = (from + piece).min(wants.len());
                let rest = [&wants[..from], &wants[until..]].concat();
                // Only a question about a single one tells whether it can be spared.
                let open = self.open;
                if self.possible(self.network, self.resources, &rest) {
                    from = until;
                    self.open = open || (self.open && piece == 1);
                } else {
                    wants = rest;
                }
            }
            piece /= 2;
        }
        wants.sort_unstable();
        wants
    }

    /// Whether some wants can be met with everything that is no want. What is not known counts as yes.
    fn possible(&mut self, network: &Network, resources: &Resources, wants: &[Want]) -> bool {
        let mut edges = self.scope.edges(network);
        edges.retain(|edge| match edge.source {
            Source::Rule(rule) => wants.contains(&Want::Rule(rule)),
            Source::Finish => wants.contains(&Want::Finish),
            _ => true,
        });
        let mut given = resources.clone();
        for (number, resource) in given.list.iter_mut().enumerate() {
            if !wants.contains(&Want::Away(number)) {
                resource.away.clear();
            }
            if !wants.contains(&Want::Capacity(number)) {
                resource.away.clear();
                resource.capacity = u32::MAX;
            }
        }
        let problem = Problem::new(network, &edges, self.scope.keep(), &given);
        let found = feasible(&problem, &mut *self.go_on);
        self.open |= found == Err(Undecided);
        found != Ok(None)
    }

    /// Whether all can be met, for sure, with something changed.
    fn mends(&mut self, plan: &Plan, situation: &Situation, resources: &Resources) -> bool {
        let Ok(network) = Network::new(plan, situation) else {
            return false;
        };
        let edges = self.scope.edges(&network);
        if network.earliest(&edges).is_err() {
            return false;
        }
        let problem = Problem::new(&network, &edges, self.scope.keep(), resources);
        matches!(feasible(&problem, &mut *self.go_on), Ok(Some(_)))
    }

    fn mended(&mut self, want: Want) -> Missing {
        let change = match want {
            Want::Rule(rule) => self.other_value(rule),
            Want::Finish => self.later(),
            Want::Capacity(resource) => self.more(resource),
            Want::Away(resource) => self.longer(resource),
            Want::Duration(_) => None,
        };
        let physics = match want {
            Want::Rule(rule) => self.network.plan.rules()[rule].firmness == Firmness::Physics,
            _ => false,
        };
        Missing {
            want,
            change,
            offered: change.is_some() && !physics,
        }
    }

    fn other_value(&mut self, rule: usize) -> Option<i64> {
        let (plan, situation) = (self.network.plan, self.network.situation);
        let ask = plan.rules()[rule].ask;
        let value = ask.value()?;
        let (room, sign) = match ask {
            Ask::NotBefore { .. } => (value - situation.now.min(0), -1),
            Ask::After { .. } => (value, -1),
            _ => (self.room(), 1),
        };
        let resources = self.resources;
        let by = nearest(room, |by| {
            let plan = plan.with_value(rule, value + sign * by);
            self.mends(&plan, situation, resources)
        });
        by.map(|by| value + sign * by)
    }

    fn later(&mut self) -> Option<i64> {
        let (network, resources) = (self.network, self.resources);
        let finish = network.situation.finish?;
        let by = nearest(self.room(), |by| {
            let later = Situation {
                finish: Some(finish + by),
                ..network.situation.clone()
            };
            self.mends(network.plan, &later, resources)
        });
        by.map(|by| finish + by)
    }

    fn more(&mut self, resource: usize) -> Option<i64> {
        let (network, resources) = (self.network, self.resources);
        let held = resources.needs.iter().flatten();
        let held = held.filter(|(r, _)| *r == resource);
        let most: i64 = held.map(|&(_, units)| i64::from(units)).sum();
        let capacity = i64::from(resources.list[resource].capacity);
        let by = nearest(most - capacity, |by| {
            let mut more = resources.clone();
            more.list[resource].capacity = u32::try_from(capacity + by).unwrap_or(u32::MAX);
            self.mends(network.plan, network.situation, &more)
        });
        by.map(|by| capacity + by)
    }

    fn longer(&mut self, resource: usize) -> Option<i64> {
        let (network, resources) = (self.network, self.resources);
        let away = resources.list[resource].away.iter();
        let longest = away.map(|away| away.until - away.from).max()?;
        nearest(longest, |by| {
            let mut less = resources.clone();
            let away = &mut less.list[resource].away;
            for away in away.iter_mut() {
                away.from += by;
            }
            away.retain(|away| away.from < away.until);
            self.mends(network.plan, network.situation, &less)
        })
    }

    /// The steps of these rules that would mend it by taking less long, though never below their
    /// least.
    fn shortened(&mut self, wants: &[Want]) -> Vec<Missing> {
        let (plan, situation) = (self.network.plan, self.network.situation);
        // At another pace the others would change with it.
        if situation.pace != Pace::Likely {
            return Vec::new();
        }
        let rules = wants.iter().filter_map(|want| match *want {
            Want::Rule(rule) => Some(plan.rules()[rule].ask.steps()),
            _ => None,
        });
        let mut steps: Vec<usize> = rules.flatten().collect();
        steps.retain(|&step| situation.progress[step] == Progress::NotStarted);
        steps.sort_unstable();
        steps.dedup();
        let resources = self.resources;
        let mut found = Vec::new();
        for step in steps {
            let (lasts, least) = (self.network.lasts(step), plan.steps()[step].least);
            let by = nearest(lasts - least, |by| {
                let plan = plan.with_duration(step, lasts - by);
                self.mends(&plan, situation, resources)
            });
            found.extend(by.map(|by| Missing {
                want: Want::Duration(step),
                change: Some(lasts - by),
                offered: true,
            }));
        }
        found
    }

    /// More seconds than any limit could need to give.
    fn room(&self) -> i64 {
        let network = self.network;
        let work: i64 = (0..self.scope.keep().len())
            .map(|step| network.lasts(step).max(0))
            .sum();
        let values = network
            .plan
            .rules()
            .iter()
            .filter_map(|rule| rule.ask.value());
        let values: i64 = values.map(i64::abs).sum();
        let away = self
            .resources
            .list
            .iter()
            .flat_map(|resource| &resource.away);
        let away = away.map(|away| away.until.abs()).max().unwrap_or(0);
        work + values + away + network.situation.now.abs() + 1
    }
}

/// The least change up to a room that mends, if more of it mends all the better.
fn nearest(room: i64, mut mends: impl FnMut(i64) -> bool) -> Option<i64> {
    if room <= 0 || !mends(room) {
        return None;
    }
    let (mut fails, mut enough) = (0, room);
    // From small to great: the least is mostly small against the room.
    let mut step = 1;
    while fails + step < enough {
        if mends(fails + step) {
            enough = fails + step;
            break;
        }
        fails += step;
        step *= 2;
    }
    while enough - fails > 1 {
        let middle = fails + (enough - fails) / 2;
        if mends(middle) {
            enough = middle;
        } else {
            fails = middle;
        }
    }
    Some(enough)
}
