//! What is not fit to go back, what is still to dress, and what nobody has looked at.

use std::collections::BTreeSet;

use clearance::Verdict;
use clearance::rotor::Judged;

use super::rotor::{Fault, Travel};
use super::{Area, FindingState, Flaw, Settled, Severity, Todo, rotor};
use crate::draft::inspect::words::{AREAS, FLAWS};
use crate::draft::word;
use crate::entry::Key;
use crate::job::{Fact, Job, blade_name};

/// Something that is not fit to go back, or of which that is not decided.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// A finding that is repaired, sent out or scrapped, and not dealt with.
    Finding(Key),
    /// What the hand felt of the rotor.
    Rotor(Fault),
    /// A travel of the dial against the manual's limit.
    Beyond(Travel),
    /// The leak test.
    Leaks,
    /// The gap as it was taken.
    Gap,
    /// The gap read once more.
    Reread,
}

impl Unfit {
    /// The name a result that is out goes by, so that it can be answered like a finding.
    pub fn own(&self) -> Option<&'static str> {
        match self {
            Self::Finding(_) => None,
            Self::Rotor(_) | Self::Beyond(_) => Some("rotor-out"),
            Self::Leaks => Some("leak-out"),
            Self::Gap => Some("gap-out"),
            Self::Reread => Some("reread-out"),
        }
    }

    /// How much a result that is out matters: common practice, no source. That of a finding stands
    /// with it.
    fn severity(&self) -> Severity {
        match self {
            Self::Rotor(Fault::Binds) => Severity::Float,
            _ => Severity::Throttle,
        }
    }
}

/// The names under which a result that is out can be answered.
pub const OWN: [&str; 4] = ["rotor-out", "leak-out", "gap-out", "reread-out"];

/// The position of the result that a name stands for, where there is one.
fn result(job: &Job, own: &str) -> Option<u64> {
    let had = &job.inspected;
    match own {
        "rotor-out" => had.rotor.as_ref().map(|fact| fact.position),
        "leak-out" => had.leak.as_ref().map(|fact| fact.position),
        "gap-out" => job.accepted.as_ref().map(|fact| fact.position),
        _ => had.reread.as_ref().map(|fact| fact.position),
    }
}

/// A result that a name stands for was measured, and judged.
pub fn decided(job: &Job, own: &str) -> bool {
    match own {
        "leak-out" => {
            let test = job.inspected.leak.as_ref();
            test.is_some_and(|test| test.value.shown.is_some())
        }
        own => result(job, own).is_some(),
    }
}

/// Why a result that is out was taken as it is, where nothing was measured since.
pub fn answer<'a>(job: &'a Job, own: &str) -> Option<&'a Fact<Settled>> {
    let mut answers = job.inspected.answered.iter();
    let (_, fact) = answers.find(|(key, _)| key.as_str() == own)?;
    result(job, own)
        .is_none_or(|at| at < fact.position)
        .then_some(fact)
}

/// A result that is out was taken as it is, and nothing was measured since.
pub fn answered(job: &Job, own: &str) -> bool {
    answer(job, own).is_some()
}

/// Something open, with the readiness it holds up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    /// The finding, or the name of the result that is out.
    pub key: Key,
    /// How much it matters.
    pub severity: Severity,
    /// What it is, in a breath: `bolts upper left, snapped`.
    pub what: String,
}

/// Everything that is open, findings first: what is sent out, scrapped, repaired or dressed and not
/// dealt with, and every result that is out.
pub fn held(job: &Job) -> Vec<Held> {
    let findings = job.inspected.findings_in_order().into_iter();
    let findings = findings.filter(|(_, state)| is_open(state));
    let mut held: Vec<Held> = findings
        .map(|(key, state)| Held {
            key: key.clone(),
            severity: state.finding.value.severity,
            what: breath(&state.finding.value),
        })
        .collect();
    for unfit in teardown(job).unfit {
        let Some(key) = unfit.own().and_then(|own| Key::new(own).ok()) else {
            continue;
        };
        let severity = unfit.severity();
        match held.iter_mut().find(|there| there.key == key) {
            Some(there) => there.severity = there.severity.min(severity),
            None => held.push(Held {
                what: match unfit {
                    Unfit::Gap => "tip clearance out of tolerance",
                    Unfit::Leaks => "the housing leaks",
                    Unfit::Reread => "gap out or rubbing after the last torque",
                    _ => "rotor not fit",
                }
                .to_owned(),
                key,
                severity,
            }),
        }
    }
    held
}

/// `bolts upper left, snapped`
pub(crate) fn breath(finding: &super::Finding) -> String {
    let area = word(&AREAS, finding.area).replace('-', " ");
    let flaw = match finding.flaw {
        Flaw::Other => finding.words.clone(),
        flaw => word(&FLAWS, flaw).replace('-', " "),
    };
    match finding.which.as_str() {
        "" => format!("{area}, {flaw}"),
        which => format!("{area} {which}, {flaw}"),
    }
}

/// Something that can be looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// A part.
    Area(Area),
    /// The rotor on the dial and in the hand.
    Rotor,
    /// The closed housing under pressure or vacuum.
    Leak,
}

/// The state of the teardown.
#[derive(Clone, Debug, PartialEq)]
pub struct Teardown {
    /// What is not fit to go back.
    pub unfit: Vec<Unfit>,
    /// What was tested, and neither held nor failed.
    pub undecided: Vec<Unfit>,
    /// Findings still to dress.
    pub dress: Vec<Key>,
    /// What was looked at.
    pub seen: Vec<Look>,
    /// What was not, in the order to ask for it.
    pub unseen: Vec<Look>,
}

/// Draws it from the job.
pub fn teardown(job: &Job) -> Teardown {
    let had = &job.inspected;
    let open = |todo: &[Todo]| -> Vec<Key> {
        let findings = had.findings_in_order().into_iter();
        findings
            .filter(|(_, state)| is_open(state) && todo.contains(&state.finding.value.todo))
            .map(|(key, _)| key.clone())
            .collect()
    };
    let mut unfit: Vec<Unfit> = open(&[Todo::Repair, Todo::SendOut, Todo::Scrap])
        .into_iter()
        .map(Unfit::Finding)
        .collect();
    let mut judged = Vec::new();
    if let Some(told) = &had.rotor {
        let answer = rotor::answer(&told.value);
        unfit.extend(answer.faults.into_iter().map(Unfit::Rotor));
        judged.extend(answer.checks.into_iter().filter_map(|check| {
            let Judged::Held { verdict, .. } = check.judged else {
                return None;
            };
            Some((verdict, Unfit::Beyond(check.travel)))
        }));
    }
    let leak = had.leak.as_ref().and_then(|test| test.value.shown);
    let gap = job.accepted.as_ref().map(|taken| taken.value.verdict);
    let reread = had.reread.as_ref().and_then(|again| again.value.shown);
    judged.extend(leak.map(|shown| (shown.verdict, Unfit::Leaks)));
    judged.extend(gap.map(|verdict| (verdict, Unfit::Gap)));
    judged.extend(reread.map(|verdict| (verdict, Unfit::Reread)));
    let mut undecided = Vec::new();
    for (verdict, what) in judged {
        match verdict {
            Verdict::In => {}
            Verdict::Out => unfit.push(what),
            Verdict::Undecided => undecided.push(what),
        }
    }
    unfit.retain(|unfit| unfit.own().is_none_or(|own| !answered(job, own)));
    let looks = Area::ALL.into_iter().map(Look::Area);
    let (seen, unseen) = looks
        .chain([Look::Rotor, Look::Leak])
        .partition(|look| looked(job, *look));
    Teardown {
        unfit,
        undecided,
        dress: open(&[Todo::Dress]),
        seen,
        unseen,
    }
}

/// A flaw nobody has dealt with; what is fitted as it is was dealt with when that was said.
pub fn is_open(state: &FindingState) -> bool {
    state.settled.is_none() && state.finding.value.todo != Todo::Fit
}

fn looked(job: &Job, look: Look) -> bool {
    let had = &job.inspected;
    match look {
        Look::Area(area) => had
            .findings
            .values()
            .any(|state| state.finding.value.area == area),
        Look::Rotor => had.rotor.is_some(),
        Look::Leak => had.leak.is_some(),
    }
}

/// The names in a text such as `A B` or `3, 4`.
pub fn names(which: &str) -> impl Iterator<Item = &str> {
    which.split([' ', ',', ';']).filter(|name| !name.is_empty())
}

/// Blades whose leading edges nobody said are dressed, while others’ are: dressed alike they stay in
/// balance.
pub fn blades_left(job: &Job) -> Vec<String> {
    let blades = job.pump.as_ref().map_or(0, |pump| pump.value.blades);
    let all: BTreeSet<String> = (0..blades).map(blade_name).collect();
    let dressed: BTreeSet<String> = job
        .inspected
        .findings
        .values()
        .map(|state| &state.finding.value)
        .filter(|finding| {
            finding.area == Area::Blades
                && finding.flaw == Flaw::NickLeading
                && finding.todo == Todo::Dress
        })
        .flat_map(|finding| names(&finding.which).map(str::to_owned))
        .collect();
    if dressed.is_empty() {
        return Vec::new();
    }
    all.difference(&dressed).cloned().collect()
}
