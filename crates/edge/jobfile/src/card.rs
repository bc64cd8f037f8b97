//! A card says what is true of every pump of its kind, and nothing of one craft.

use std::ops::Range;

use workshop::draft::JobDraft;

use super::{Complaint, JobFile};

impl JobFile {
    /// Whether it is a card.
    pub fn is_card(&self) -> bool {
        self.id.is_none()
    }

    /// The job that a card begins. Where it came from stands before whatever else is noted.
    #[must_use]
    pub fn begin(mut self, title: &str, note: &str) -> Self {
        let from = format!("From the card “{}”.", self.draft.title);
        let notes = [from.as_str(), self.draft.note.as_str(), note];
        let notes = notes.into_iter().filter(|note| !note.is_empty());
        self.draft = JobDraft {
            title: title.to_owned(),
            note: notes.collect::<Vec<_>>().join("\n"),
            ..self.draft
        };
        self
    }

    /// Refuses what belongs to one craft, so that nobody takes another's readings for their own.
    pub(crate) fn only_a_card(&self) -> Result<(), Complaint> {
        let says = |at: Range<usize>, what: &str| {
            let why = format!("A card holds no {what}: they are of one craft. Take them out.");
            Err(self.source.complain(at, &why))
        };
        if let Some((key, _)) = self.rows.first() {
            return says(key.clone(), "readings");
        }
        if let Some(at) = self.named("thicknesses") {
            return says(at, "leaves");
        }
        if let Some(at) = self.named("go").or_else(|| self.named("order")) {
            return says(at, "leaves");
        }
        if let Some((_, at)) = self.sheets.iter().flatten().next() {
            return says(at.clone(), "findings and measurements");
        }
        if let Some((_, at)) = self.photos.iter().flatten().next() {
            return says(at.clone(), "photos");
        }
        if let Some(at) = self
            .trials
            .iter()
            .find_map(crate::water::TrialPlaces::first)
        {
            return says(at, "water tests");
        }
        if let Some(at) = self.choices.first() {
            return says(at, "facts of a craft and no options");
        }
        if let Some((at, what)) = self.of_one_craft() {
            return says(at, what);
        }
        if let Some(at) = self.search.first() {
            return says(at, "signs and checks");
        }
        let mut joints = self.joints.iter().flatten();
        if let Some((_, at)) = joints.find(|(field, _)| *field == "in") {
            return says(at.clone(), "counts");
        }
        let mut joints = self.joints.iter().flatten();
        if let Some((_, at)) = joints.find(|(field, _)| *field == "reach" || *field == "wrench") {
            return says(at.clone(), "measured holes and chosen wrenches");
        }
        if let Some((_, at)) = self.wrenches.iter().flatten().next() {
            return says(at.clone(), "torque wrenches");
        }
        let mut fits = self.fits.iter().flatten();
        let of_one_craft = ["checked", "reading", "threads", "studs"];
        if let Some((_, at)) = fits.find(|(field, _)| of_one_craft.contains(field)) {
            return says(at.clone(), "ticks and readings");
        }
        if let Some((_, at)) = self.bench.iter().find(|(field, _)| *field == "status") {
            return says(at.clone(), "whereabouts of parts");
        }
        if let Some((_, at)) = self.bench.iter().find(|(field, _)| *field == "crew") {
            return says(at.clone(), "who works");
        }
        let told = ["account", "returned"];
        if let Some((_, at)) = self.bench.iter().find(|(field, _)| told.contains(field)) {
            return says(at.clone(), "account of things and tools");
        }
        // The steps of the plan come first, then those that have come somewhere.
        let mut steps = self.bench.iter().filter(|(field, _)| *field == "step");
        let progress = steps.nth(self.draft.bench.steps.len());
        progress.map_or(Ok(()), |(_, at)| says(at.clone(), "progress"))
    }
}
