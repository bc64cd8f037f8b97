//! What the domain finds, in the terms of the plan.

use assembly::{Ask, Rule, Source as From};

use crate::assemble::{Because, Contradiction, Part, Source};

/// The rules without the limits that contradict the rest; without all that do, if none is a limit.
pub(super) fn without(
    rules: &[(Rule, Because)],
    found: &[assembly::Contradiction],
) -> Option<Vec<(Rule, Because)>> {
    let parts = found.iter().flat_map(|found| &found.parts);
    let named: Vec<usize> = parts
        .filter_map(|part| match part.source {
            From::Rule(rule) => Some(rule),
            _ => None,
        })
        .collect();
    let limit = |rule: &usize| {
        !matches!(
            rules[*rule].0.ask,
            Ask::After { .. } | Ask::NotBefore { .. }
        )
    };
    let limits: Vec<usize> = named.iter().copied().filter(limit).collect();
    let out = if limits.is_empty() { named } else { limits };
    let kept = rules
        .iter()
        .enumerate()
        .filter(|(place, _)| !out.contains(place));
    (!out.is_empty()).then(|| kept.map(|(_, rule)| *rule).collect())
}

pub(super) fn of(source: From, because: &[Because]) -> Source {
    match source {
        From::Rule(rule) => Source::Because(because[rule]),
        From::Duration(step) => Source::Duration(step),
        From::Happened(step) => Source::Happened(step),
        From::Now | From::Finish | From::StartNow => Source::Now,
    }
}

pub(super) fn said(found: &assembly::Contradiction, because: &[Because]) -> Contradiction {
    let part = |part: &assembly::Part| Part {
        source: of(part.source, because),
        adds: part.adds,
        change: part.change.filter(|_| part.offered),
    };
    Contradiction {
        parts: found.parts.iter().map(part).collect(),
        short: found.short_by,
    }
}
