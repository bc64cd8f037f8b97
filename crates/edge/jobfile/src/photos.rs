//! What is said of photos, out of a job file and into one. The pictures do not travel in it.

use std::ops::Range;

use toml::Spanned;
use workshop::draft::PhotoDraft;
use workshop::photos::Photography;
use workshop::refusal::Refusal;

use crate::inspect::{KEY, Places};
use crate::shape::photos::Photo;
use crate::write::Page;
use crate::{Fields, JobFile};

/// The photos, and the places of their values.
pub(crate) fn read(rows: Vec<(Spanned<String>, Photo)>) -> (Vec<PhotoDraft>, Vec<Places>) {
    let read = |(key, photo): (Spanned<String>, Photo)| {
        let mut fields = Fields(vec![(KEY, key.span())]);
        let draft = PhotoDraft {
            photo: key.into_inner(),
            width: fields.take("width", photo.width),
            height: fields.take("height", photo.height),
            subject: fields.given("subject", photo.subject),
            words: fields.given("words", photo.words),
        };
        (draft, fields.0)
    };
    rows.into_iter().map(read).unzip()
}

impl JobFile {
    /// The field of the photo that was to be recorded, or its key.
    pub(crate) fn of_photo(&self, said: &Photography, field: Option<&str>) -> Option<Range<usize>> {
        let Photography::Taken { photo, .. } = said else {
            return None;
        };
        let here = |draft: &PhotoDraft| draft.photo == photo.as_str();
        self.in_photo(self.draft.photos.iter().position(here)?, field)
    }

    /// The field of the photo that is refused for the same reason when it is read by itself.
    pub(crate) fn unreadable_photo(&self, refusal: &Refusal) -> Option<Range<usize>> {
        let read = |draft: &PhotoDraft| draft.read().as_ref() == Err(refusal);
        let photo = self.draft.photos.iter().position(read)?;
        self.in_photo(photo, refusal.field())
    }

    fn in_photo(&self, photo: usize, field: Option<&str>) -> Option<Range<usize>> {
        let places = self.photos.get(photo)?;
        let named = |name: &str| places.iter().find(|(known, _)| *known == name);
        let at = field.and_then(named).or_else(|| named(KEY));
        at.map(|(_, at)| at.clone())
    }
}

impl Page {
    /// A photo as its table. What is empty is left out.
    pub(crate) fn photo(&mut self, draft: &PhotoDraft) {
        self.table(&format!("photos.{}", draft.photo));
        self.line("width", &draft.width);
        self.line("height", &draft.height);
        self.filled("subject", &draft.subject);
        self.filled("words", &draft.words);
    }
}
