//! Which line of a job file is to blame for a refusal.

use std::ops::Range;

use quantity::{ParseError, Reason, Unit};
use workshop::draft::bench::RuleDraft;
use workshop::draft::tools::FittingsDraft;
use workshop::draft::{FitDraft, InspectionDraft, JointDraft};
use workshop::entry::{Body, Key};
use workshop::inspect::Inspection;
use workshop::job::{Job, Spot};
use workshop::plan::Work;
use workshop::reading;
use workshop::refusal::{Misstep, Obstacle, Refusal};

use super::JobFile;
use super::complaint::{Complaint, sentence};
use crate::error::Error;
use crate::inspect;

impl JobFile {
    /// Points at the value that was refused, where one is to blame. `about` is what was to be
    /// recorded, when it came so far.
    pub(crate) fn blame(&self, refusal: Refusal, about: Option<&Body>, job: &Job) -> Error {
        let at = match (about, refusal.field()) {
            (Some(Body::LeavesTried { spot, .. }), _) => self.row_of(*spot, &refusal, job),
            (Some(Body::JointDescribed { key, .. } | Body::JointFastened { key, .. }), field) => {
                self.of_joint(key, field)
            }
            (Some(Body::FitDescribed { key, .. } | Body::FitChecked { key, .. }), field) => {
                self.of_fit(key.as_str(), field)
            }
            (Some(Body::Inspected(said)), field) => self.of_sheet(said, field),
            (Some(Body::Tooled(said)), field) => self.of_tooling(said, field),
            (Some(Body::Photographed(said)), field) => self.of_photo(said, field),
            (Some(Body::Trialled(said)), _) => self.of_trial(said, &refusal),
            (Some(Body::Chose(said)), _) => self.of_choice(said, &refusal),
            (Some(Body::Diagnosed(said)), _) => self.of_search(said, &refusal),
            (Some(Body::Serviced(said)), _) => self.of_upkeep(said, &refusal),
            _ if self.in_bench(&refusal).is_some() => self.in_bench(&refusal),
            _ if self.rule(&refusal).is_some() => self.rule(&refusal),
            (Some(Body::Work(Work::ItemTold { item, .. })), _) => self.told_of("account", item),
            (Some(Body::Work(Work::ToolsCounted(counted))), _) => {
                let told = |tool| self.told_of("returned", tool);
                counted.keys().find_map(told)
            }
            (Some(Body::Work(_)), _) => self.bench.first().map(|(_, at)| at.clone()),
            (None, field) if self.unreadable_joint(&refusal).is_some() => {
                let joint = self.unreadable_joint(&refusal);
                joint.and_then(|joint| self.in_joint(joint, field))
            }
            (None, field) if self.unreadable_wrench(&refusal).is_some() => {
                let wrench = self.unreadable_wrench(&refusal);
                wrench.and_then(|wrench| self.in_wrench(wrench, field))
            }
            (None, field) if self.unreadable_sheet(&refusal, job).is_some() => {
                let sheet = self.unreadable_sheet(&refusal, job);
                sheet.and_then(|sheet| self.in_sheet(sheet, field))
            }
            (None, field) if self.unreadable_fit(&refusal).is_some() => {
                let key = self.unreadable_fit(&refusal);
                key.and_then(|key| self.of_fit(&key, field))
            }
            (None, _) if self.unreadable_photo(&refusal).is_some() => {
                self.unreadable_photo(&refusal)
            }
            (None, _) if self.unreadable_trial(&refusal).is_some() => {
                self.unreadable_trial(&refusal)
            }
            (None, _) if self.unreadable_choice(&refusal, job).is_some() => {
                self.unreadable_choice(&refusal, job)
            }
            (None, _) if self.unreadable_search(&refusal).is_some() => {
                self.unreadable_search(&refusal)
            }
            (None, _) if self.unreadable_upkeep(&refusal).is_some() => {
                self.unreadable_upkeep(&refusal)
            }
            (None, Some("reading" | "spot")) => self.unreadable_row(&refusal, job),
            (_, Some("thicknesses")) => self.leaf(&refusal).or_else(|| self.named("thicknesses")),
            (_, Some(field)) => self.named(field),
            (_, None) => match refusal {
                Refusal::OtherTitle { .. } => self.named("title"),
                Refusal::FollowsOther { .. } | Refusal::BadId { .. } => self.named("follows"),
                Refusal::Missing(_) => self.rows.first().map(|(key, _)| key.clone()),
                _ => None,
            },
        };
        match at {
            Some(at) => Error::Line(self.complain(at, &refusal)),
            None => Error::Refused(refusal),
        }
    }

    /// Points at a value, or at what in it was refused.
    pub(crate) fn complain(&self, value: Range<usize>, refusal: &Refusal) -> Complaint {
        let at = self.within(&value, refusal).unwrap_or(value);
        self.source.complain(at, &sentence(&refusal.to_string()))
    }

    /// Where a field of this name stands.
    pub(crate) fn named(&self, name: &str) -> Option<Range<usize>> {
        let field = self.fields.iter().find(|(known, _)| *known == name);
        field.map(|(_, at)| at.clone())
    }

    /// The leaf that is what was refused, or holds it.
    fn leaf(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let refused = refused(refusal)?;
        let typed = |at: &Range<usize>| self.source.text[at.clone()].trim_matches(['"', '\'', ' ']);
        // Of a leaf that is there twice the second is the one too many.
        let same = self.leaves.iter().rfind(|at| typed(at) == refused);
        let holds = || self.leaves.iter().find(|at| typed(at).contains(refused));
        same.or_else(holds).cloned()
    }

    /// The field of a joint, or its key where the refusal belongs to no field.
    pub(crate) fn of_joint(&self, key: &Key, field: Option<&str>) -> Option<Range<usize>> {
        let here = |(known, ..): &(String, JointDraft, _)| known == key.as_str();
        let joint = self.draft.joints.iter().position(here)?;
        self.in_joint(joint, field)
    }

    fn in_joint(&self, joint: usize, field: Option<&str>) -> Option<Range<usize>> {
        let fields = self.joints.get(joint)?;
        let named = |name: &str| fields.iter().find(|(known, _)| *known == name);
        // A part of an adapter that is missing is missed where the rest of it stands.
        let beside = field.filter(|field| ["lever", "offset", "angle"].contains(field));
        let at = field
            .and_then(named)
            .or_else(|| beside.and(named("wrench")));
        at.or_else(|| named("joint")).map(|(_, at)| at.clone())
    }

    /// The value of the plan that is what was refused, where one says so in the same field.
    fn in_bench(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let refused = refused(refusal)?;
        let here = |(name, at): &&(&'static str, Range<usize>)| {
            let typed = self.source.text[at.clone()].trim_matches(['"', '\'']);
            match refusal {
                Refusal::Work(_) | Refusal::BadId { .. } => typed == refused,
                _ => refusal.field() == Some(*name) && typed.contains(refused),
            }
        };
        // Of what is there twice the second is the one too many.
        self.bench.iter().rfind(here).map(|(_, at)| at.clone())
    }

    /// Where something is told of a thing or a tool.
    fn told_of(&self, table: &str, key: &Key) -> Option<Range<usize>> {
        let here = |(name, at): &&(&'static str, Range<usize>)| {
            *name == table && self.source.text[at.clone()].trim_matches(['"', '\'']) == key.as_str()
        };
        self.bench.iter().find(here).map(|(_, at)| at.clone())
    }

    /// The rule that closes a ring: of those in it the last.
    fn rule(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let ring = match refusal {
            Refusal::Work(Obstacle::Ring { steps }) => steps.clone(),
            Refusal::Work(Obstacle::ToItself { step }) => vec![step.clone(), step.clone()],
            _ => return None,
        };
        let bench = &self.draft.bench;
        let name = |key: &str| {
            let step = bench.steps.iter().find(|step| step.key == key);
            step.map(|step| step.name.clone())
        };
        let closes = |rule: &RuleDraft| {
            let both = name(&rule.first).zip(name(&rule.then));
            both.is_some_and(|both| {
                ring.windows(2)
                    .any(|two| *two == [both.0.clone(), both.1.clone()])
            })
        };
        let rule = bench.rules.iter().rposition(closes)?;
        let mut firsts = self.bench.iter().filter(|(field, _)| *field == "first");
        firsts.nth(rule).map(|(_, at)| at.clone())
    }

    /// The joint that is refused for the same reason when it is read by itself.
    fn unreadable_joint(&self, refusal: &Refusal) -> Option<usize> {
        self.draft.joints.iter().position(|(key, joint, screws)| {
            let said = self.draft.tools.joints.get(key);
            Key::new(key).as_ref() == Err(refusal)
                || said.and_then(FittingsDraft::refused).as_ref() == Some(refusal)
                || joint.read().as_ref() == Err(refusal)
                || screws
                    .as_ref()
                    .is_some_and(|screws| screws.read().as_ref() == Err(refusal))
        })
    }

    /// The field of a joint that is no circle of screws, or its key.
    fn of_fit(&self, key: &str, field: Option<&str>) -> Option<Range<usize>> {
        let fits = &self.draft.fits;
        let fit = fits.iter().position(|draft| draft.key == key)?;
        let places = self.fits.get(fit)?;
        let named = |name: &str| places.iter().find(|(known, _)| *known == name);
        let at = field.and_then(named).or_else(|| named(inspect::KEY));
        at.map(|(_, at)| at.clone())
    }

    /// The joint that is refused for the same reason when it is read by itself.
    fn unreadable_fit(&self, refusal: &Refusal) -> Option<String> {
        let read = |draft: &FitDraft| {
            let fit = Key::new(&draft.key).and_then(|_| draft.read());
            fit.and_then(|fit| draft.checked(&fit)).err()
        };
        let fits = self.draft.fits.iter();
        let mut fits = fits.filter(|draft| read(draft).as_ref() == Some(refusal));
        fits.next().map(|draft| draft.key.clone())
    }

    fn row_of(&self, spot: Spot, refusal: &Refusal, job: &Job) -> Option<Range<usize>> {
        let positions = self.positions(job)?;
        let here = |(key, _): &(String, String)| reading::read_spot(key, positions) == Ok(spot);
        let row = self.draft.readings.iter().position(here)?;
        let (key, value) = &self.rows[row];
        match refusal {
            Refusal::NoSuchSpot { .. } | Refusal::Missing(_) => Some(key.clone()),
            _ => Some(value.clone()),
        }
    }

    /// The row that is refused for the same reason when it is read by itself.
    fn unreadable_row(&self, refusal: &Refusal, job: &Job) -> Option<Range<usize>> {
        let positions = self.positions(job)?;
        let unit = self.unit(job);
        self.draft
            .readings
            .iter()
            .zip(&self.rows)
            .find_map(|((spot, text), (key, value))| {
                if reading::read_spot(spot, positions).as_ref() == Err(refusal) {
                    Some(key.clone())
                } else if reading::read(text, unit).as_ref() == Err(refusal) {
                    Some(value.clone())
                } else {
                    None
                }
            })
    }

    /// The sheet of what was said, at its field.
    fn of_sheet(&self, said: &Inspection, field: Option<&str>) -> Option<Range<usize>> {
        // The unit of a bare gap plays no part in which sheet it is.
        let said = InspectionDraft::of(said, Unit::Millimetre);
        let here = |draft: &InspectionDraft| draft.sheet == said.sheet && draft.key == said.key;
        let sheet = self.draft.inspections.iter().position(here)?;
        self.in_sheet(sheet, field)
    }

    /// The field of a sheet, or its key, or the first of its values.
    fn in_sheet(&self, sheet: usize, field: Option<&str>) -> Option<Range<usize>> {
        let places = self.sheets.get(sheet)?;
        let named = |name: &str| places.iter().find(|(known, _)| *known == name);
        let at = field.and_then(named).or_else(|| named(inspect::KEY));
        at.or_else(|| places.first()).map(|(_, at)| at.clone())
    }

    /// The sheet that is refused for the same reason when it is read by itself.
    fn unreadable_sheet(&self, refusal: &Refusal, job: &Job) -> Option<usize> {
        let unit = self.unit(job);
        let sheets = &self.draft.inspections;
        sheets
            .iter()
            .position(|draft| draft.read(unit).as_ref() == Err(refusal))
    }

    /// What a bare gap is in: the unit of the file's leaves, else of the job's.
    pub(crate) fn unit(&self, job: &Job) -> Unit {
        let leaves = self.draft.leaves.as_ref();
        let leaves = leaves.and_then(|leaves| leaves.read().ok());
        leaves.map_or_else(|| job.unit(), |leaves| leaves.unit)
    }

    /// The clock positions of the pump as the file has it, else as the job has it.
    fn positions(&self, job: &Job) -> Option<u8> {
        let here = self.draft.pump.as_ref().and_then(|pump| pump.read().ok());
        let there = job.pump.as_ref().map(|pump| &pump.value);
        here.as_ref().or(there).map(|pump| pump.positions)
    }

    /// What in a value was refused, where it can be found as it was typed.
    fn within(&self, value: &Range<usize>, refusal: &Refusal) -> Option<Range<usize>> {
        let refused = refused(refusal)?;
        let typed = &self.source.text[value.clone()];
        let start = value.start + typed.find(refused)?;
        let Refusal::Unreadable { error, .. } = refusal else {
            return Some(start..start + refused.len());
        };
        let (skip, length) = trouble(error);
        Some(start + skip..start + skip + length)
    }
}

/// The field of these places, else the first of them.
pub(crate) fn field_of(places: &inspect::Places, field: Option<&str>) -> Option<Range<usize>> {
    let named = |name: &str| places.iter().find(|(known, _)| *known == name);
    let at = field.and_then(named).or_else(|| places.first());
    at.map(|(_, at)| at.clone())
}

/// The text that was refused, as typed.
pub(crate) fn refused(refusal: &Refusal) -> Option<&str> {
    let text = match refusal {
        Refusal::Unreadable { error, .. } => &error.text,
        Refusal::OutOfRange { entered, .. } => &entered.text,
        Refusal::UnlikeTheLeaves { leaf, .. } => &leaf.text,
        Refusal::NotACount { text, .. }
        | Refusal::NotAChoice { text, .. }
        | Refusal::LeafTwice { text }
        | Refusal::BadSpot { text }
        | Refusal::BadId { text }
        | Refusal::Work(
            Obstacle::NoSuchStep { key: text }
            | Obstacle::NoSuchPart { key: text }
            | Obstacle::NoSuchTool { key: text }
            | Obstacle::NoSuchItem { key: text }
            | Obstacle::NoHours { text }
            | Obstacle::Twice { key: text }
            | Obstacle::NoTime { text }
            | Obstacle::NoDay { text },
        ) => text,
        Refusal::OutOfOrder { low, .. } => low,
        Refusal::BadReading { part, .. } => part,
        Refusal::Inspected(slip) => slip.refused()?,
        Refusal::Tooled(snag) => snag.refused()?,
        Refusal::Unfit(unfit) => unfit.refused()?,
        Refusal::Photo(blur) => blur.refused()?,
        Refusal::Choice(misfitting) => misfitting.refused()?,
        Refusal::Search(Misstep::YesAndNo { symptom }) => symptom,
        Refusal::Upkeep(miscount) => miscount.refused()?,
        _ => return None,
    };
    (!text.is_empty()).then_some(text)
}

/// The bytes of a text before the trouble, and the bytes of the trouble.
fn trouble(error: &ParseError) -> (usize, usize) {
    let start = error
        .text
        .char_indices()
        .nth(error.column.saturating_sub(1));
    let start = start.map_or(error.text.len(), |(byte, _)| byte);
    let rest = error.text[start..].trim_end();
    let length = match &error.reason {
        Reason::UnknownUnit { unit, .. } | Reason::WrongKind { unit, .. } => unit.len(),
        _ => rest.chars().next().map_or(1, char::len_utf8),
    };
    (start, length)
}
