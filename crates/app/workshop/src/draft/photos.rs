//! Photos, as typed.

use crate::act::Act;
use crate::decide::LONGEST_EDGE;
use crate::entry::Body;
use crate::job::Job;
use crate::photos::{Photo, PhotoHash, Photography, Subject};
use crate::refusal::Refusal;

/// [`Photo`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PhotoDraft {
    /// The hash of the picture.
    pub photo: String,
    /// Its width in pixels.
    pub width: String,
    /// Its height in pixels.
    pub height: String,
    /// What it is of; the whole job when empty.
    pub subject: String,
    /// What it shows. May be empty.
    pub words: String,
}

impl PhotoDraft {
    /// The draft that reads as `photo`.
    pub fn of(hash: &PhotoHash, photo: &Photo) -> Self {
        Self {
            photo: hash.to_string(),
            width: photo.width.to_string(),
            height: photo.height.to_string(),
            subject: match &photo.subject {
                Subject::Job => String::new(),
                subject => subject.to_string(),
            },
            words: photo.words.clone(),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<(PhotoHash, Photo), Refusal> {
        let photo = Photo {
            width: pixels("width", &self.width)?,
            height: pixels("height", &self.height)?,
            subject: subject(&self.subject)?,
            words: self.words.trim().to_owned(),
        };
        Ok((PhotoHash::new(&self.photo)?, photo))
    }
}

/// A subject as typed; the whole job when nothing is.
pub fn subject(text: &str) -> Result<Subject, Refusal> {
    match text.trim() {
        "" => Ok(Subject::Job),
        text => Subject::read(text),
    }
}

fn pixels(field: &'static str, text: &str) -> Result<u32, Refusal> {
    let text = text.trim();
    let whole = text.parse().ok().filter(|n| (1..=LONGEST_EDGE).contains(n));
    whole.ok_or_else(|| Refusal::NotACount {
        field,
        text: text.to_owned(),
        allowed: "a whole number of pixels from 1 to 2560",
    })
}

/// The photos of a job.
pub(super) fn drafts(job: &Job) -> Vec<PhotoDraft> {
    let photos = job.photos.in_order().into_iter();
    photos
        .map(|(hash, state)| PhotoDraft::of(hash, &state.photo.value))
        .collect()
}

/// The acts that bring `job` to these photos, where it says otherwise or nothing.
pub(super) fn acts(drafts: &[PhotoDraft], job: &Job) -> Result<Vec<Act>, Refusal> {
    let mut acts = Vec::new();
    for draft in drafts {
        let (photo, said) = draft.read()?;
        let had = job.photos.get(&photo);
        if had.is_none_or(|had| had.photo.value != said) {
            let body = Body::Photographed(Photography::Taken { photo, said });
            acts.push(Act::Recount(body, None));
        }
    }
    Ok(acts)
}
