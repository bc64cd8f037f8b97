//! Findings, and what became of them.

use serde::{Deserialize, Serialize};
use workshop::draft::inspect::words::{AREAS, FLAWS, HOWS, SEVERITIES, TODOS};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::inspect::{self, Inspection};

use super::super::typed::Length;
use super::super::{key, of};
use super::entered;

/// As it was before a finding said how much it matters.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FindingV1 {
    finding: String,
    area: String,
    which: String,
    flaw: String,
    words: String,
    place: String,
    depth: Option<Length>,
    length: Option<Length>,
    tip: Option<Length>,
    todo: String,
    reason: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Finding {
    #[expect(clippy::struct_field_names, reason = "the field is the key")]
    finding: String,
    area: String,
    which: String,
    flaw: String,
    words: String,
    place: String,
    depth: Option<Length>,
    length: Option<Length>,
    tip: Option<Length>,
    severity: String,
    severity_why: String,
    todo: String,
    reason: String,
}

impl Finding {
    pub(super) fn new(key: &Key, finding: &inspect::Finding) -> Self {
        Self {
            finding: key.to_string(),
            area: word(&AREAS, finding.area).to_owned(),
            which: finding.which.clone(),
            flaw: word(&FLAWS, finding.flaw).to_owned(),
            words: finding.words.clone(),
            place: finding.place.clone(),
            depth: finding.depth.as_ref().map(Length::from),
            length: finding.length.as_ref().map(Length::from),
            tip: finding.tip.as_ref().map(Length::from),
            severity: word(&SEVERITIES, finding.severity).to_owned(),
            severity_why: finding.severity_why.clone(),
            todo: word(&TODOS, finding.todo).to_owned(),
            reason: finding.reason.clone(),
        }
    }
}

impl TryFrom<FindingV1> for Inspection {
    type Error = String;

    /// It matters as much as such a flaw usually does.
    fn try_from(old: FindingV1) -> Result<Self, String> {
        let (area, flaw) = (of(&AREAS, &old.area)?, of(&FLAWS, &old.flaw)?);
        let severity = word(&SEVERITIES, flaw.usual_severity(area)).to_owned();
        Self::try_from(Finding {
            finding: old.finding,
            area: old.area,
            which: old.which,
            flaw: old.flaw,
            words: old.words,
            place: old.place,
            depth: old.depth,
            length: old.length,
            tip: old.tip,
            severity,
            severity_why: String::new(),
            todo: old.todo,
            reason: old.reason,
        })
    }
}

impl TryFrom<Finding> for Inspection {
    type Error = String;

    fn try_from(stored: Finding) -> Result<Self, String> {
        let finding = inspect::Finding {
            area: of(&AREAS, &stored.area)?,
            which: stored.which,
            flaw: of(&FLAWS, &stored.flaw)?,
            words: stored.words,
            place: stored.place,
            depth: entered(stored.depth),
            length: entered(stored.length),
            tip: entered(stored.tip),
            severity: of(&SEVERITIES, &stored.severity)?,
            severity_why: stored.severity_why,
            todo: of(&TODOS, &stored.todo)?,
            reason: stored.reason,
        };
        let key = key(&stored.finding)?;
        Ok(Self::Found { key, finding })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Settled {
    pub(super) finding: String,
    pub(super) how: String,
    pub(super) reason: String,
}

impl TryFrom<Settled> for Inspection {
    type Error = String;

    fn try_from(stored: Settled) -> Result<Self, String> {
        Ok(Self::Settled {
            finding: key(&stored.finding)?,
            settled: inspect::Settled {
                how: of(&HOWS, &stored.how)?,
                reason: stored.reason,
            },
        })
    }
}
