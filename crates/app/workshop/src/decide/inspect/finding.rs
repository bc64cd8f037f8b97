//! Whether a finding may be noted so, and said to be dealt with.

use super::super::{LONGEST_TEXT, each, filled, text};
use super::{FLAW_SIZE, slip};
use crate::entry::Key;
use crate::inspect::parts::{OWN, names, teardown};
use crate::inspect::{Area, Finding, Flaw, How, Settled, Severity, Todo};
use crate::job::{Job, blade_name};
use crate::refusal::{Refusal, Slip};

/// The highest number of a vane.
const MOST_VANES: u8 = 40;

/// Refuses what makes no sense, and what is no work for the bench.
pub(super) fn check(job: &Job, finding: &Finding) -> Result<(), Refusal> {
    for (field, words) in [
        ("words", &finding.words),
        ("place", &finding.place),
        ("reason", &finding.reason),
        ("severity_why", &finding.severity_why),
    ] {
        text(field, words, LONGEST_TEXT)?;
    }
    check_which(job, finding)?;
    if finding.flaw == Flaw::Other {
        filled("words", &finding.words)?;
    }
    each([
        ("depth", finding.depth.as_ref(), &FLAW_SIZE),
        ("length", finding.length.as_ref(), &FLAW_SIZE),
        ("tip", finding.tip.as_ref(), &FLAW_SIZE),
    ])?;
    let Finding { area, flaw, .. } = *finding;
    if !flaw.makes_sense_at(area) {
        return slip(Slip::NoSuchFlawHere { area, flaw });
    }
    match (flaw, finding.todo) {
        (Flaw::Nothing, Todo::Fit) => Ok(()),
        (Flaw::Nothing, _) => slip(Slip::SoundToDo),
        (flaw, Todo::Dress) if !flaw.file_job() => slip(Slip::NoFileJob { area, flaw }),
        (_, Todo::Fit) => filled("reason", &finding.reason),
        _ => Ok(()),
    }?;
    check_severity(finding)
}

/// More or less than usual asks for a reason.
fn check_severity(finding: &Finding) -> Result<(), Refusal> {
    let usual = finding.flaw.usual_severity(finding.area);
    if finding.severity == usual {
        return Ok(());
    }
    if finding.flaw == Flaw::Nothing && finding.severity != Severity::Watch {
        return slip(Slip::SoundMatters);
    }
    if finding.severity_why.trim().is_empty() {
        return slip(Slip::SeverityUnexplained { usual });
    }
    Ok(())
}

/// Blades by letter, vanes by number, some in own words; of the rest there is one.
fn check_which(job: &Job, finding: &Finding) -> Result<(), Refusal> {
    text("which", &finding.which, LONGEST_TEXT)?;
    if finding.area.named() {
        return Ok(());
    }
    let blades = job.pump.as_ref().map(|pump| pump.value.blades);
    for name in names(&finding.which) {
        let text = name.to_owned();
        match finding.area {
            Area::Blades if (0..blades.unwrap_or(8)).any(|blade| blade_name(blade) == name) => {}
            Area::Blades => return slip(Slip::NoSuchBlade { text, blades }),
            Area::Vanes
                if name
                    .parse()
                    .is_ok_and(|n: u8| (1..=MOST_VANES).contains(&n)) => {}
            Area::Vanes => return slip(Slip::NoSuchVane { text }),
            _ => return slip(Slip::OnlyOne { text }),
        }
    }
    let several = matches!(finding.area, Area::Blades | Area::Vanes);
    if several && finding.flaw != Flaw::Nothing {
        filled("which", &finding.which)?;
    }
    Ok(())
}

/// A finding is dealt with; a result that is out is taken as it is, or measured anew.
pub(super) fn check_settled(job: &Job, key: &Key, settled: &Settled) -> Result<(), Refusal> {
    let known = job.inspected.findings.contains_key(key);
    if !known {
        let out = teardown(job).unfit;
        let out = out.iter().any(|unfit| unfit.own() == Some(key.as_str()));
        if !out {
            let key = key.to_string();
            return slip(Slip::NoSuchFinding { key });
        }
        if settled.how != How::Accepted {
            return slip(Slip::MeasureAnew);
        }
    }
    sane(settled)
}

/// What a file tells: the result may be measured after it.
pub(super) fn sane_settled(job: &Job, key: &Key, settled: &Settled) -> Result<(), Refusal> {
    if OWN.contains(&key.as_str()) && settled.how == How::Accepted {
        return sane(settled);
    }
    check_settled(job, key, settled)
}

fn sane(settled: &Settled) -> Result<(), Refusal> {
    text("reason", &settled.reason, LONGEST_TEXT)?;
    match settled.how {
        How::Accepted => filled("reason", &settled.reason),
        How::Replaced | How::Repaired => Ok(()),
    }
}
