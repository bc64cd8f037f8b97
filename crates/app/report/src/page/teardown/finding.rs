//! The findings, each as a card, and the results that are out, which are findings by themselves.

use workshop::assemble::words::capital;
use workshop::draft::InspectionDraft;
use workshop::draft::inspect::words;
use workshop::entry::{EntryId, JobId, Key};
use workshop::inspect::parts::{Unfit, answered, blades_left, is_open, teardown};
use workshop::inspect::{FindingState, Flaw, Inspection, Severity, Todo};
use workshop::job::Job;
use workshop::photos::Subject;

use super::say;
use crate::page::forms::finding as forms;
use crate::page::forms::label;
use crate::page::{Card, Form, Refused, Section, Tone, photos, plain, row};
use crate::words as said;

/// A card a finding; what is sound in one list.
pub(super) fn cards((id, job): (&JobId, &Job), refused: Option<&Refused>) -> Vec<Section> {
    let mut sections = Vec::new();
    if teardown(job).unfit.contains(&Unfit::Gap) || accepted(job, "gap-out").is_some() {
        sections.push(Section::Card(gap_out(job, refused)));
    }
    let (sound, flawed): (Vec<_>, Vec<_>) = (job.inspected.findings_in_order().into_iter())
        .partition(|(_, state)| state.finding.value.flaw == Flaw::Nothing);
    for (key, state) in flawed {
        sections.push(Section::Card(card(job, (key, state), refused)));
        let subject = Subject::Finding(key.clone());
        sections.push(photos::strip((id, job), &subject, refused));
    }
    if !sound.is_empty() {
        let sound = sound
            .iter()
            .map(|(_, state)| say::sound(&state.finding.value));
        let sound: Vec<String> = sound.collect();
        sections.push(Section::Notes {
            heading: "Looked over, nothing found".to_owned(),
            notes: vec![said::list(&sound, sound.len())],
        });
    }
    sections
}

/// Nobody noted this one: the result that was taken did.
fn gap_out(job: &Job, refused: Option<&Refused>) -> Card {
    let accepted = accepted(job, "gap-out");
    let open = "Open until it is cured, measured anew, and that result taken on the Measure page; or \
                accepted as it is with a reason.";
    Card {
        heading: "Tip clearance".to_owned(),
        tone: if accepted.is_some() {
            Tone::Open
        } else {
            Tone::Stop
        },
        state: "taken as out of tolerance".to_owned(),
        rows: Vec::new(),
        notes: vec![accepted.unwrap_or_else(|| open.to_owned())],
        forms: accept(job, "gap-out", refused).collect(),
    }
}

/// What was said of a result that is out, while it counts.
pub(super) fn accepted(job: &Job, own: &str) -> Option<String> {
    if !answered(job, own) {
        return None;
    }
    let mut all = job.inspected.answered.iter();
    let (_, fact) = all.find(|(key, _)| key.as_str() == own)?;
    Some(format!("Accepted as it is: {}", fact.value.reason))
}

/// The form to accept a result that is out, where there is one to accept.
pub(super) fn accept(
    job: &Job,
    own: &'static str,
    refused: Option<&Refused>,
) -> impl Iterator<Item = Form> {
    let unfit = teardown(job).unfit;
    let out = unfit.iter().any(|unfit| unfit.own() == Some(own));
    out.then(|| forms::accept(own, refused)).into_iter()
}

fn card(job: &Job, (key, state): (&Key, &FindingState), refused: Option<&Refused>) -> Card {
    let finding = &state.finding.value;
    let todo = label(&forms::TODOS, &words::TODOS, finding.todo);
    let open = is_open(state);
    let mut rows = Vec::new();
    if !finding.place.is_empty() {
        rows.push(row(
            "Where",
            vec![plain(finding.place.as_str())],
            "noted by you",
        ));
    }
    for (name, size) in [
        ("Deep", &finding.depth),
        ("Long", &finding.length),
        ("Tip", &finding.tip),
    ] {
        rows.extend(
            size.iter()
                .map(|size| row(name, vec![plain(size.worded())], "measured by you")),
        );
    }
    if open {
        let usual = finding.severity == finding.flaw.usual_severity(finding.area);
        rows.push(row(
            "While open it",
            vec![plain(severity(finding.severity))],
            match (usual, finding.severity_why.as_str()) {
                (true, _) => "as usual for such a flaw; common practice, no source".to_owned(),
                (false, why) => format!("said by you: {why}"),
            },
        ));
    }
    if !finding.reason.is_empty() {
        rows.push(row(
            "Why",
            vec![plain(finding.reason.as_str())],
            "noted by you",
        ));
    }
    let noted = Inspection::Found {
        key: key.clone(),
        finding: finding.clone(),
    };
    let draft = InspectionDraft::of(&noted, job.unit());
    let mut forms: Vec<Form> = Vec::new();
    if open {
        forms.push(forms::settle(key, refused));
    }
    forms.push(forms::finding(&draft, refused));
    Card {
        heading: capital(&say::finding(finding)),
        tone: match (open, finding.todo) {
            (false, _) => Tone::Good,
            (true, Todo::Dress) if finding.severity != Severity::Float => Tone::Open,
            (true, _) => Tone::Stop,
        },
        state: settled(state).unwrap_or_else(|| todo.to_owned()),
        rows,
        notes: notes(job, state),
        forms,
    }
}

/// What to mind while it is open.
fn notes(job: &Job, state: &FindingState) -> Vec<String> {
    let finding = &state.finding.value;
    let mut notes = Vec::new();
    if !is_open(state) {
        return notes;
    }
    if finding.flaw == Flaw::NickLeading && finding.todo == Todo::Dress {
        let left = blades_left(job);
        if !left.is_empty() {
            notes.push(format!(
                "Dress {} alike, or the impeller runs out of balance. (Common practice, no source.)",
                match left.as_slice() {
                    [one] => format!("blade {one}"),
                    many => format!("blades {}", said::list(many, many.len())),
                }
            ));
        }
    }
    notes.extend(caution(finding.flaw).map(str::to_owned));
    notes
}

/// What can hurt while it is mended.
pub(super) fn caution(flaw: Flaw) -> Option<&'static str> {
    match flaw {
        Flaw::Snapped => Some(
            "Caution: goggles on. A drill or an extractor breaks, and chips of hard steel fly. \
             Never heat a bolt in resin or beside a fuel line; what the craft’s manual says goes \
             first.",
        ),
        Flaw::SpunInsert | Flaw::Debonded => Some(
            "Caution: resin and dust. Gloves, goggles, mask, window open. The craft’s manual and \
             the data sheet say which adhesive and how long it cures.",
        ),
        Flaw::Seized | Flaw::Stretched => Some(
            "Caution: rods and springs under load let go at once. Take the load off first; hands \
             and face out of line.",
        ),
        _ => None,
    }
}

/// How much an open finding matters, after “it”.
pub(crate) fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Float => "stops the craft from floating",
        Severity::Throttle => "must be closed before full throttle",
        Severity::Watch => "is watched, and closed at the end",
    }
}

fn settled(state: &FindingState) -> Option<String> {
    let settled = &state.settled.as_ref()?.value;
    let how = label(&forms::HOWS, &words::HOWS, settled.how);
    Some(match settled.reason.as_str() {
        "" => how.to_owned(),
        reason => format!("{how}: {reason}"),
    })
}

/// Findings as lines of a record: what, how it stands.
pub(super) fn rows(job: &Job) -> Vec<(String, String, &EntryId)> {
    let mut rows = Vec::new();
    for (_, state) in job.inspected.findings_in_order() {
        let finding = &state.finding.value;
        let todo = label(&forms::TODOS, &words::TODOS, finding.todo);
        let todo = match finding.flaw {
            Flaw::Nothing => "sound",
            _ => todo,
        };
        let why = match finding.reason.as_str() {
            "" => String::new(),
            reason => format!(", {reason}"),
        };
        let stands = match settled(state) {
            Some(settled) => format!("{todo}{why}; {settled}"),
            None if is_open(state) => {
                format!("{todo}{why}; open: {}", severity(finding.severity))
            }
            None => format!("{todo}{why}"),
        };
        let entry = state.settled.as_ref().map(|fact| &fact.entry);
        let entry = entry.unwrap_or(&state.finding.entry);
        rows.push((capital(&say::finding(finding)), stands, entry));
    }
    for (own, what) in [
        ("gap-out", "Tip clearance out"),
        ("rotor-out", "Rotor not fit"),
        ("leak-out", "Housing leaks"),
        ("reread-out", "Gap out after the last torque"),
    ] {
        let fact = job.inspected.answered.iter();
        let mut fact = fact.filter(|(key, _)| key.as_str() == own);
        if let (Some((_, fact)), Some(accepted)) = (fact.next(), accepted(job, own)) {
            rows.push((what.to_owned(), accepted, &fact.entry));
        }
    }
    rows
}
