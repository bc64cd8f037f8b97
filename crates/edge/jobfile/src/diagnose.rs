//! What is wrong, out of a job file and into one.
//!
//! That a craft can't start is no part of a file: that is said by whoever stands beside it.

use std::mem::take;
use std::ops::Range;

use workshop::diagnose::Diagnosing;
use workshop::draft::diagnose::{CHECKS, CheckDraft};
use workshop::draft::{SearchDraft, word};
use workshop::entry::Key;
use workshop::refusal::{Misstep, Refusal};

use crate::blame::field_of;
use crate::complaint::{Complaint, Source};
use crate::inspect::Places;
use crate::shape::{Field, Shape};
use crate::write::{Page, quoted};
use crate::{Fields, JobFile};

/// The places of all that is said of what is wrong.
#[derive(Debug, Default)]
pub(crate) struct SearchPlaces {
    /// The table itself, then its outing.
    table: Places,
    yes: Vec<Range<usize>>,
    no: Vec<Range<usize>>,
    checks: Vec<Places>,
}

impl SearchPlaces {
    /// Where the first of it stands.
    pub(crate) fn first(&self) -> Option<Range<usize>> {
        let tables = self.table.iter().chain(self.checks.iter().flatten());
        let all = tables.map(|(_, at)| at.clone());
        all.min_by_key(|at| at.start)
    }

    fn outing(&self) -> Option<Range<usize>> {
        field_of(&self.table, Some("outing"))
    }
}

/// What is said, with the places of its values, in the order of the file.
pub(crate) fn read(
    source: &Source,
    shape: &mut Shape,
) -> Result<(SearchDraft, SearchPlaces), Complaint> {
    let (mut draft, mut places) = (SearchDraft::default(), SearchPlaces::default());
    if let Some(search) = shape.diagnosis.take() {
        let mut fields = Fields(vec![("diagnosis", search.span())]);
        let search = search.into_inner();
        draft.outing = fields.given("outing", search.outing);
        places.table = fields.0;
        (draft.yes, places.yes) = list(search.yes);
        (draft.no, places.no) = list(search.no);
    }
    for one in take(&mut shape.check) {
        let mut fields = Fields(Vec::new());
        let check = CheckDraft {
            check: fields.take("check", one.check),
            found: fields.take("found", one.found),
            note: fields.given("note", one.note),
        };
        let known = |other: &CheckDraft| other.check.trim() == check.check.trim();
        if draft.checks.iter().any(known) {
            let why = format!(
                "The check “{}” stands above already. Keep one of them.",
                check.check.trim()
            );
            let at = field_of(&fields.0, Some("check")).unwrap_or(0..0);
            return Err(source.complain(at, &why));
        }
        draft.checks.push(check);
        places.checks.push(fields.0);
    }
    Ok((draft, places))
}

fn list(fields: Vec<Field>) -> (Vec<String>, Vec<Range<usize>>) {
    let each = fields.into_iter();
    each.map(|field| {
        let at = field.span();
        (field.into_inner().0, at)
    })
    .unzip()
}

impl JobFile {
    /// The value of what was to be recorded.
    pub(crate) fn of_search(&self, said: &Diagnosing, refusal: &Refusal) -> Option<Range<usize>> {
        let places = &self.search;
        match said {
            Diagnosing::Suspect { .. } => places.outing(),
            Diagnosing::Symptoms(_) => places.yes.first().or(places.no.first()).cloned(),
            Diagnosing::Checked { check, .. } => {
                let word = word(&CHECKS, *check);
                let mut checks = self.draft.diagnosis.checks.iter();
                let at = checks.position(|draft| draft.check.trim() == word)?;
                field_of(places.checks.get(at)?, refusal.field())
            }
            Diagnosing::MadeSafe(_) | Diagnosing::Taken(_) => None,
        }
    }

    /// The value that is refused for the same reason when it is read by itself.
    pub(crate) fn unreadable_search(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let (draft, places) = (&self.draft.diagnosis, &self.search);
        let same = |refused: Option<Refusal>| refused.as_ref() == Some(refusal);
        let outing = draft.outing.trim();
        if !outing.is_empty() && same(Key::new(outing).err()) {
            return places.outing();
        }
        if let Refusal::Search(Misstep::YesAndNo { symptom }) = refusal {
            let mut words = draft.no.iter().zip(&places.no);
            let both = words.find(|(text, _)| text.trim() == symptom);
            return both.map(|(_, at)| at.clone());
        }
        let yes = draft.yes.iter().zip(&places.yes);
        let no = draft.no.iter().zip(&places.no);
        let words = yes.map(|one| (true, one)).chain(no.map(|one| (false, one)));
        for (so, (text, at)) in words {
            let (mut alone, text) = (SearchDraft::default(), text.clone());
            let list = if so { &mut alone.yes } else { &mut alone.no };
            list.push(text);
            if same(alone.symptoms().err()) {
                return Some(at.clone());
            }
        }
        let mut checks = draft.checks.iter().zip(&places.checks);
        let (_, here) = checks.find(|(check, _)| same(check.read().err()))?;
        field_of(here, refusal.field())
    }
}

impl Page {
    /// What is empty is left out.
    pub(crate) fn search(&mut self, draft: &SearchDraft) {
        let SearchDraft {
            outing,
            yes,
            no,
            checks,
        } = draft;
        if !(outing.is_empty() && yes.is_empty() && no.is_empty()) {
            self.table("diagnosis");
            self.filled("outing", outing);
            self.words("yes", yes);
            self.words("no", no);
        }
        for check in checks {
            self.table("[check]");
            self.text("check", &check.check);
            self.text("found", &check.found);
            self.filled("note", &check.note);
        }
    }

    /// Words as a list, where there are any.
    pub(crate) fn words(&mut self, key: &str, words: &[String]) {
        if !words.is_empty() {
            let list: Vec<String> = words.iter().map(|word| quoted(word)).collect();
            self.line(key, &format!("[{}]", list.join(", ")));
        }
    }
}
