//! What was found and measured on the bench, as evidence of what is wrong.

use std::collections::BTreeMap;

use clearance::Verdict;
use clearance::rotor::Judged;
use diagnosis::check::{Check, Found};
use diagnosis::signature::Observable;

use super::seen::Measured;
use super::{found_since, of_the_suspect, suspect};
use crate::inspect::align::answer as in_line;
use crate::inspect::{Area, Flaw, leak, rotor};
use crate::job::{Fact, Job};

/// Standard uncertainties between the ends of a 90 % interval of a normal law.
const ACROSS: f64 = 3.289_707_253_902_945;

/// Every check that says something of the craft as it ran: those done under Diagnose, and what the bench
/// found after that run and before the next. What was done under Diagnose counts before the rest.
pub(super) fn found(job: &Job) -> Vec<Found> {
    let mut all: BTreeMap<Check, bool> = BTreeMap::new();
    let mut tell = |check: Check, something: bool| *all.entry(check).or_insert(false) |= something;
    for state in job.inspected.findings.values() {
        let finding = &state.finding;
        let check = check(finding.value.area, finding.value.flaw);
        if let Some(check) = check.filter(|_| found_since(job, finding.position)) {
            tell(check, finding.value.flaw != Flaw::Nothing);
        }
    }
    if let Some(test) = since(job, job.inspected.leak.as_ref())
        && let Some(verdict) = leak::answer(test).map(|answer| answer.judged.verdict)
    {
        tell(Check::Soap, verdict == Verdict::Out);
    }
    if let Some(told) = since(job, job.inspected.rotor.as_ref()) {
        let answer = rotor::answer(told);
        let out = answer.checks.iter().any(out);
        if told.spin.is_some() || !answer.checks.is_empty() {
            tell(Check::Turn, out || !answer.faults.is_empty());
        }
    }
    if let Some(answer) = since(job, job.inspected.alignment.as_ref()).and_then(in_line)
        && answer.verdict != Verdict::Undecided
    {
        tell(Check::Dials, answer.verdict == Verdict::Out);
    }
    for (check, fact) in &job.diagnosis.checks {
        if of_the_suspect(job, fact.position) {
            all.insert(*check, fact.value.0);
        }
    }
    let all = all.into_iter();
    all.map(|(check, something)| Found { check, something })
        .collect()
}

fn out(check: &rotor::Check) -> bool {
    let out = Verdict::Out;
    matches!(check.judged, Judged::Held { verdict, .. } if verdict == out)
}

/// What the bench said of the craft as it ran.
fn since<'a, T>(job: &Job, said: Option<&'a Fact<T>>) -> Option<&'a T> {
    let said = said.filter(|fact| found_since(job, fact.position));
    said.map(|fact| &fact.value)
}

/// The check that a part looked at answers; none where it tells of no fault on the list.
fn check(area: Area, flaw: Flaw) -> Option<Check> {
    match (area, flaw) {
        (Area::Blades | Area::Vanes, _) => Some(Check::Blades),
        (Area::Grate, Flaw::Nothing | Flaw::Blocked | Flaw::Grit) => Some(Check::Intake),
        (Area::Ring, Flaw::Nothing | Flaw::Loose | Flaw::Debonded) => Some(Check::Ring),
        (Area::Bearing, _) => Some(Check::Turn),
        (
            Area::Shoe | Area::Seal,
            Flaw::Debonded | Flaw::TornLip | Flaw::Perished | Flaw::Cracked,
        ) => Some(Check::Soap),
        (Area::Lines, Flaw::Nothing | Flaw::Blocked | Flaw::Split) => Some(Check::Hoses),
        (Area::Controls, Flaw::Bent) => Some(Check::Gate),
        (Area::Driveline, Flaw::Perished | Flaw::WornSplines | Flaw::Loose) => Some(Check::Mark),
        _ => None,
    }
}

/// The mean gap as it was taken after the suspect outing; none where nobody measured it since.
pub(super) fn gap(job: &Job) -> Option<Measured> {
    let ran = suspect(job).map_or(0, |(_, state)| state.since);
    let taken = job.accepted.as_ref().filter(|fact| fact.position > ran);
    let mean = since(job, taken)?.mean;
    Some(Measured {
        observable: Observable::Gap,
        value: mean.median,
        uncertainty: (mean.high - mean.low) / ACROSS,
    })
}
