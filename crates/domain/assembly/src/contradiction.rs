//! What cannot all be true, said so that a person can choose what to give.

use std::cmp::Reverse;

use crate::graph::{Edge, Graph};
use crate::network::{Network, ORIGIN, start};
use crate::{Ask, Firmness, Progress};

/// Where a difference comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Source {
    /// A rule of the plan.
    Rule(usize),
    /// The time the work of a step takes.
    Duration(usize),
    /// What happened with a step.
    Happened(usize),
    /// Nothing starts before now.
    Now,
    /// The finish asked for.
    Finish,
}

/// One part of a contradiction.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `source` | where it comes from | |
/// | `adds` | seconds it asks for; below zero, seconds it grants | `s` |
/// | `change` | the lag, limit, time or duration that would just mend it, all else as it is | `s` |
/// | `offered` | whether a person may be asked to make that change | |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Part {
    /// Where it comes from.
    pub source: Source,
    /// Seconds it asks for; below zero, seconds it grants.
    pub adds: i64,
    /// The lag, limit, time or duration that would just mend it, all else as it is. None where no
    /// such change can: a fact, a plain order, a duration that would fall below its least.
    pub change: Option<i64>,
    /// Whether a person may be asked to make that change. Never a change of physics.
    pub offered: bool,
}

/// Parts that cannot all be true. Take any one away and the rest can.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `parts` | in walking order: each leads to the next, the last back to the first | |
/// | `short_by` | sum of what they add: the seconds that are missing | `s` |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// In walking order: each leads to the next, the last back to the first.
    pub parts: Vec<Part>,
    /// The seconds that are missing.
    pub short_by: i64,
}

/// All contradictions of a network, hardest first: each in one of the softest parts without which
/// the network would stand, with the ring that misses most through it.
pub(crate) fn explain(network: &Network, graph: &Graph, first: Vec<Edge>) -> Vec<Contradiction> {
    let mut kept = graph.edges().to_vec();
    let mut given: Vec<Vec<Edge>> = Vec::new();
    let mut found = Err(first);
    while let Err(ring) = found {
        let sources = ring.iter().map(|edge| edge.source);
        let Some(softest) = sources.min_by_key(|&source| hardness(network, source)) else {
            break;
        };
        let (out, rest) = kept.into_iter().partition(|edge| edge.source == softest);
        given.push(out);
        kept = rest;
        found = Graph::new(network.points(), kept.clone())
            .longest(ORIGIN)
            .map(drop);
    }
    let mut contradictions = Vec::new();
    // Backwards, so that what was given up in vain finds all that was taken out later back.
    for out in given.into_iter().rev() {
        match worst(&Graph::new(network.points(), kept.clone()), &out) {
            Some(ring) => contradictions.push(said(network, &ring)),
            None => kept.extend(out),
        }
    }
    contradictions.sort_by_key(|found| Reverse(found.short_by));
    contradictions
}

/// What to give first: a wish, then a limit, then an order, then physics, and facts never.
fn hardness(network: &Network, source: Source) -> u8 {
    let Source::Rule(rule) = source else {
        return match source {
            Source::Finish => 0,
            Source::Duration(_) => 5,
            _ => 6,
        };
    };
    let rule = network.plan.rules()[rule];
    let order = matches!(rule.ask, Ask::After { .. } | Ask::Together { .. });
    match (rule.firmness, order) {
        (Firmness::Negotiable, false) => 1,
        (Firmness::Negotiable, true) => 2,
        (Firmness::Physics, false) => 3,
        (Firmness::Physics, true) => 4,
    }
}

/// The ring that misses most when one of some edges joins a graph that stands, that edge last.
fn worst(graph: &Graph, joining: &[Edge]) -> Option<Vec<Edge>> {
    let rings = joining.iter().filter_map(|edge| {
        let reach = graph.longest(edge.to).ok()?;
        let short = reach.distance[edge.from]? + edge.weight;
        let mut ring = graph.path(&reach, edge.from);
        ring.push(*edge);
        (short > 0).then_some((short, ring))
    });
    rings.max_by_key(|(short, _)| *short).map(|(_, ring)| ring)
}

/// A ring of edges as parts.
fn said(network: &Network, ring: &[Edge]) -> Contradiction {
    let short_by = ring.iter().map(|edge| edge.weight).sum();
    let mut parts: Vec<Part> = Vec::new();
    for edge in ring {
        // What happened with one step may lead to the origin and out of it again.
        if let Some(last) = parts.last_mut().filter(|last| last.source == edge.source) {
            last.adds += edge.weight;
            continue;
        }
        let change = change(network, edge, short_by);
        let physics = match edge.source {
            Source::Rule(rule) => network.plan.rules()[rule].firmness == Firmness::Physics,
            _ => false,
        };
        parts.push(Part {
            source: edge.source,
            adds: edge.weight,
            change,
            offered: change.is_some() && !physics,
        });
    }
    Contradiction { parts, short_by }
}

/// What the number behind an edge would have to be for a ring to close without a miss.
fn change(network: &Network, edge: &Edge, short_by: i64) -> Option<i64> {
    let less = edge.weight - short_by;
    match edge.source {
        Source::Rule(rule) => match network.plan.rules()[rule].ask {
            Ask::After { .. } => (less >= 0).then_some(less),
            Ask::NotBefore { .. } => Some(less),
            Ask::StartWithin { .. }
            | Ask::FinishedWithin { .. }
            | Ask::StartWithinStart { .. }
            | Ask::FinishedBy { .. } => Some(-less),
            Ask::Together { .. } => None,
        },
        Source::Finish => Some(-less),
        Source::Duration(step) => {
            let work = network.plan.steps()[step];
            let (lasts, since) = match network.situation.progress[step] {
                Progress::Running { began } => (work.least, network.situation.now - began),
                Progress::NotStarted => (work.least, 0),
                _ => return None,
            };
            if edge.from == start(step) {
                (less >= lasts.max(since)).then_some(less)
            } else {
                (-less <= work.most).then_some(-less)
            }
        }
        Source::Happened(_) | Source::Now => None,
    }
}
