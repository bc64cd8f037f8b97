//! What was inspected, in words.

use clearance::Verdict;
use workshop::draft::inspect::words;
use workshop::entry::Key;
use workshop::inspect::parts::{Look, Unfit, names};
use workshop::inspect::rotor::{Fault, Travel};
use workshop::inspect::{Area, Finding, Flaw, Inspection, Push};
use workshop::job::Job;

use crate::page::forms::inspect as sheets;
use crate::page::forms::label;
use crate::words as said;

/// `two`, `three`; from ten on in figures.
pub(super) fn number(count: usize) -> String {
    const WORDS: [&str; 10] = [
        "No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine",
    ];
    WORDS
        .get(count)
        .map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

pub(super) fn look(look: Look) -> &'static str {
    match look {
        Look::Area(Area::Blades) => "the blades",
        Look::Area(Area::Vanes) => "the stator vanes",
        Look::Area(Area::Nozzle) => "the nozzle",
        Look::Area(Area::Ring) => "the wear ring’s surface",
        Look::Area(Area::Flange) => "the flange and its step",
        Look::Area(Area::Seal) => "the shaft seal",
        Look::Area(Area::Bearing) => "the bearing",
        Look::Rotor => "the rotor on the dial",
        Look::Leak => "the leak test",
    }
}

pub(super) fn unfit(job: &Job, unfit: &Unfit) -> String {
    match unfit {
        Unfit::Finding(key) => finding_of(job, key),
        Unfit::Rotor(fault) => self::fault(*fault).to_owned(),
        Unfit::Beyond(travel) => format!("{} beyond the manual’s limit", self::travel(*travel)),
        Unfit::Leaks => "the housing leaks".to_owned(),
        Unfit::Gap => "the tip clearance is out of tolerance".to_owned(),
        Unfit::Reread => "the gap read after the last torque is out, or the rotor rubs".to_owned(),
    }
}

/// What was tested and not decided.
pub(super) fn undecided(what: &Unfit) -> &'static str {
    match what {
        Unfit::Beyond(travel) => self::travel(*travel),
        Unfit::Leaks => "the leak test",
        Unfit::Gap => "the tip clearance",
        Unfit::Reread => "the gap after the last torque",
        Unfit::Finding(_) | Unfit::Rotor(_) => "",
    }
}

pub(super) fn fault(fault: Fault) -> &'static str {
    match fault {
        Fault::Rough => "a rough bearing",
        Fault::Gritty => "a gritty bearing",
        Fault::Binds => "a rotor that binds",
        Fault::SplineStep => "a step in the splines",
    }
}

pub(super) fn travel(travel: Travel) -> &'static str {
    match travel {
        Travel::Float => "end float",
        Travel::Radial => "radial play",
        Travel::First => "runout far from the impeller",
        Travel::Second => "runout near the impeller",
    }
}

pub(crate) fn finding_of(job: &Job, key: &Key) -> String {
    let state = job.inspected.findings.get(key);
    state.map_or_else(String::new, |state| {
        let finding = &state.finding.value;
        format!("{} ({})", where_(finding), flaw(finding))
    })
}

/// `blades A and B: nick in the leading edge`.
pub(super) fn finding(finding: &Finding) -> String {
    format!("{}: {}", where_(finding), flaw(finding))
}

/// `blades A and B`, `stator vane 3`, `the nozzle`.
pub(super) fn where_(finding: &Finding) -> String {
    let which: Vec<String> = names(&finding.which).map(str::to_owned).collect();
    let list = said::list(&which, which.len());
    match (finding.area, which.len()) {
        (Area::Blades, 1) => format!("blade {list}"),
        (Area::Blades, 2..) => format!("blades {list}"),
        (Area::Vanes, 1) => format!("stator vane {list}"),
        (Area::Vanes, 2..) => format!("stator vanes {list}"),
        (area, _) => look(Look::Area(area)).to_owned(),
    }
}

pub(super) fn flaw(finding: &Finding) -> String {
    match (finding.flaw, finding.words.as_str()) {
        (Flaw::Nothing, _) => "nothing found".to_owned(),
        (Flaw::Other, words) => words.to_owned(),
        (flaw, "") => label(&sheets::FLAWS, &words::FLAWS, flaw).to_owned(),
        (flaw, words) => format!(
            "{}, {words}",
            label(&sheets::FLAWS, &self::words::FLAWS, flaw)
        ),
    }
}

pub(super) fn leak(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::In => "tight",
        Verdict::Out => "it leaks",
        Verdict::Undecided => "cannot say",
    }
}

/// A line of the journal.
pub(crate) fn journal(entry: &Inspection) -> String {
    match entry {
        Inspection::Rotor(_) => "rotor looked at".to_owned(),
        Inspection::Leak(test) => {
            let by = match test.push {
                Push::Pressure => "pressure",
                Push::Vacuum => "vacuum",
            };
            let shown = test.shown.map_or("not judged", |shown| leak(shown.verdict));
            format!("leak test by {by}: {shown}")
        }
        Inspection::Found { finding, .. } => format!("looked at {}", self::finding(finding)),
        Inspection::Settled { finding, settled } => {
            let how = label(&sheets::HOWS, &words::HOWS, settled.how);
            match settled.reason.as_str() {
                "" => format!("{finding}: {how}"),
                reason => format!("{finding}: {how}, {reason}"),
            }
        }
        Inspection::Sizes(_) => "bore and impeller measured".to_owned(),
        Inspection::Ring(_) => "ring described".to_owned(),
        Inspection::Cone(_) => "cone and shims described".to_owned(),
        Inspection::Reread(again) => format!(
            "gap read once more: {}",
            match again.shown {
                Some(Verdict::In) => "within limits and free",
                Some(Verdict::Out) => "out of limits, or it rubs",
                _ => "not decided",
            }
        ),
        Inspection::Sealing(said) => crate::page::torque::seal::say::journal(said),
        Inspection::Visit { visit, .. } => {
            format!("visit at {} engine hours told", visit.hours.worded())
        }
    }
}
