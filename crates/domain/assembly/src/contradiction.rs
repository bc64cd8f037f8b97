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
    /// The start at once that is looked ahead of.
    StartNow,
}

/// One part of a contradiction.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `source` | where it comes from | |
/// | `adds` | seconds it asks for; below zero, seconds it grants | `s` |
/// | `change` | the lag, limit, time or duration that alone would just mend it | `s` |
/// | `offered` | whether a person may be asked to make that change | |
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Part {
    /// Where it comes from.
    pub source: Source,
    /// Seconds it asks for; below zero, seconds it grants.
    pub adds: i64,
    /// The lag, limit, time or duration that alone would just mend it, all other rules counted. It
    /// may have to give more than the contradiction is short by, where longer ways round are short
    /// by more. None where no such change can: a fact, an order without a lag, a duration that would
    /// fall below its least, another way round that does not pass here.
    pub change: Option<i64>,
    /// Whether a person may be asked to make that change. Never a change of physics.
    pub offered: bool,
}

/// Parts that cannot all be true.
///
/// Take any one rule away and the others can, with every duration and everything that happened as
/// it is. Each part leads to the next and the last, a limit that the others overrun, back to the
/// first.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `parts` | in walking order | |
/// | `short_by` | sum of what they add: the seconds that are missing | `s` |
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contradiction {
    /// In walking order.
    pub parts: Vec<Part>,
    /// The seconds that are missing.
    pub short_by: i64,
}

/// The contradictions of a network, hardest first: one for each of as many rules as must be left out
/// for the rest to stand.
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
        found = network.graph(&kept).longest(ORIGIN).map(drop);
    }
    let mut contradictions = Vec::new();
    for out in given {
        let core = core(network, &kept, &out);
        if let Some(ring) = core {
            let all = [kept.as_slice(), &out].concat();
            contradictions.push(said(network, &all, &ring));
        } else {
            // Left out in vain: what else is left out was to blame.
            kept.extend(out);
        }
    }
    contradictions.sort_by_key(|found| Reverse(found.short_by));
    contradictions
}

/// What to leave out first when looking for more: a wish, then what limits from above, since an order
/// may be part of many contradictions; what a person may give before what they may not; never facts.
fn hardness(network: &Network, source: Source) -> u8 {
    let Source::Rule(rule) = source else {
        return match source {
            Source::Finish | Source::StartNow => 0,
            Source::Duration(_) => 5,
            _ => 6,
        };
    };
    let rule = network.plan.rules()[rule];
    let order = matches!(
        rule.ask,
        Ask::After { .. } | Ask::Together { .. } | Ask::NotBefore { .. }
    );
    match (order, rule.firmness) {
        (false, Firmness::Negotiable) => 1,
        (false, Firmness::Physics) => 2,
        (true, Firmness::Negotiable) => 3,
        (true, Firmness::Physics) => 4,
    }
}

/// The ring that misses most when some edges join others that stand, one of the joining last.
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

/// The ring that some edges make with as few of those that stand as will do. The worst ring may run
/// through orders that only make it worse; they explain nothing.
fn core(network: &Network, kept: &[Edge], joining: &[Edge]) -> Option<Vec<Edge>> {
    let is_rule = |source| {
        !matches!(
            source,
            Source::Duration(_) | Source::Happened(_) | Source::Now
        )
    };
    let mut ring = worst(&network.graph(kept), joining)?;
    let mut needed: Vec<Source> = ring.iter().map(|edge| edge.source).collect();
    needed.retain(|&source| is_rule(source) && source != joining[0].source);
    for source in needed.clone() {
        if !needed.contains(&source) {
            continue;
        }
        let without: Vec<Edge> = kept
            .iter()
            .filter(|edge| {
                !is_rule(edge.source) || (needed.contains(&edge.source) && edge.source != source)
            })
            .copied()
            .collect();
        if let Some(smaller) = worst(&network.graph(&without), joining) {
            needed.retain(|other| smaller.iter().any(|edge| edge.source == *other));
            ring = smaller;
        }
    }
    Some(ring)
}

/// A ring of edges as parts.
fn said(network: &Network, all: &[Edge], ring: &[Edge]) -> Contradiction {
    let mut parts: Vec<Part> = Vec::new();
    for edge in ring {
        // What happened with one step may lead to the origin and out of it again.
        if let Some(last) = parts.last_mut().filter(|last| last.source == edge.source) {
            last.adds += edge.weight;
            continue;
        }
        let change = mending(network, all, edge).and_then(|weight| meant(network, edge, weight));
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
    Contradiction {
        short_by: parts.iter().map(|part| part.adds).sum(),
        parts,
    }
}

/// The greatest weight of one edge with which all edges stand, if one there is.
///
/// A duration holds both ways, but if the rest stands, the most it may be is never below the least.
fn mending(network: &Network, all: &[Edge], edge: &Edge) -> Option<i64> {
    let (same, rest): (Vec<Edge>, Vec<Edge>) =
        all.iter().partition(|other| other.source == edge.source);
    // A ring that is left runs through the limit left out, which this edge leads to: it is met.
    let reach = network.graph(&rest).longest(edge.to).ok()?;
    // One finish is an edge from every step.
    let alike = same.iter().filter(|other| other.to == edge.to);
    alike
        .filter_map(|other| reach.distance[other.from].map(|back| -back))
        .min()
}

/// The number a person would give for an edge to weigh so much, if it is one they can give.
fn meant(network: &Network, edge: &Edge, weight: i64) -> Option<i64> {
    match edge.source {
        Source::Rule(rule) => match network.plan.rules()[rule].ask {
            Ask::After { .. } => (weight >= 0).then_some(weight),
            Ask::NotBefore { .. } => Some(weight),
            Ask::StartWithin { .. }
            | Ask::FinishedWithin { .. }
            | Ask::StartWithinStart { .. }
            | Ask::FinishedBy { .. } => Some(-weight),
            Ask::Together { .. } => None,
        },
        Source::Finish | Source::StartNow => Some(-weight),
        Source::Duration(step) => {
            let work = network.plan.steps()[step];
            let least = match network.situation.progress[step] {
                Progress::Running { began } => work.least.max(network.situation.now - began),
                Progress::NotStarted => work.least,
                _ => return None,
            };
            let lasts = if edge.from == start(step) {
                weight
            } else {
                -weight
            };
            (least..=work.most).contains(&lasts).then_some(lasts)
        }
        Source::Happened(_) | Source::Now => None,
    }
}
