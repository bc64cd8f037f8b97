//! Whether something may be said of a photo.

use super::{LONGEST_NOTE, text};
use crate::job::Job;
use crate::photos::{Photo, PhotoHash, Photography, Subject};
use crate::refusal::{Blur, Refusal};

/// The most photos in a job.
pub const MOST_PHOTOS: usize = 1000;
/// The longest edge a kept picture has, in pixels.
pub const LONGEST_EDGE: u32 = 2560;

/// Refuses what cannot be so.
pub(super) fn check(job: &Job, said: &Photography) -> Result<(), Refusal> {
    if let Photography::Taken { photo, .. } = said
        && let Some(there) = job.photos.get(photo)
    {
        return Err(Refusal::Photo(Blur::HereAlready {
            short: photo.short().to_owned(),
            subject: there.photo.value.subject.to_string(),
        }));
    }
    sane(job, said)
}

/// What a file tells may also say anew what a photo here is of.
pub(super) fn sane(job: &Job, said: &Photography) -> Result<(), Refusal> {
    match said {
        Photography::Taken { photo, said } => {
            if job.photos.get(photo).is_none() && job.photos.len() >= MOST_PHOTOS {
                return Err(Refusal::Photo(Blur::TooMany { most: MOST_PHOTOS }));
            }
            sized(said)?;
            of(job, &said.subject, &said.words)
        }
        Photography::Captioned {
            photo,
            subject,
            words,
        } => {
            here(job, photo)?;
            of(job, subject, words)
        }
        Photography::PutAway { photo } => here(job, photo),
    }
}

fn sized(photo: &Photo) -> Result<(), Refusal> {
    let edges = [("width", photo.width), ("height", photo.height)];
    let bad = edges
        .into_iter()
        .find(|(_, edge)| !(1..=LONGEST_EDGE).contains(edge));
    bad.map_or(Ok(()), |(field, pixels)| {
        Err(Refusal::Photo(Blur::NoSize {
            field,
            pixels,
            most: LONGEST_EDGE,
        }))
    })
}

fn of(job: &Job, subject: &Subject, words: &str) -> Result<(), Refusal> {
    text("words", words, LONGEST_NOTE)?;
    if subject.is_in(job) {
        return Ok(());
    }
    Err(Refusal::Photo(Blur::NoSuchSubject {
        text: subject.to_string(),
    }))
}

fn here(job: &Job, photo: &PhotoHash) -> Result<(), Refusal> {
    if job.photos.get(photo).is_some() {
        return Ok(());
    }
    Err(Refusal::Photo(Blur::NoSuchPhoto {
        short: photo.short().to_owned(),
    }))
}
