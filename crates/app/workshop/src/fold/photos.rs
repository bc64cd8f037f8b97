//! What is said of photos, folded.

use super::{Misfit, Objection, fact};
use crate::entry::Entry;
use crate::job::Job;
use crate::photos::{Album, Photo, PhotoState, Photography};

/// Takes one entry in, or says what does not fit.
pub(super) fn take(album: &mut Album, entry: &Entry, said: &Photography) -> Option<Misfit> {
    match said {
        Photography::Taken { photo, said } => {
            let since = album.get(photo).map(|state| state.since);
            let state = PhotoState {
                since: since.unwrap_or(entry.position),
                photo: fact(entry, said.clone()),
            };
            album.0.insert(photo.clone(), state);
        }
        Photography::Captioned {
            photo,
            subject,
            words,
        } => match album.0.get_mut(photo) {
            Some(state) => {
                let said = Photo {
                    subject: subject.clone(),
                    words: words.clone(),
                    ..state.photo.value
                };
                state.photo = fact(entry, said);
            }
            None => return Some(Misfit::NoSuchPhoto),
        },
        Photography::PutAway { photo } => {
            if album.0.remove(photo).is_none() {
                return Some(Misfit::NoSuchPhoto);
            }
        }
    }
    None
}

/// A photo of something that is not here any more.
pub(super) fn close(job: &Job) -> impl Iterator<Item = Objection> {
    let photos = job.photos.in_order().into_iter();
    photos
        .filter(|(_, state)| !state.photo.value.subject.is_in(job))
        .map(|(_, state)| Objection {
            entry: state.photo.entry.clone(),
            position: state.photo.position,
            why: Misfit::PhotoOfNothing,
        })
}
