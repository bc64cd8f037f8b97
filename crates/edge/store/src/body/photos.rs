//! What is said of photos.

use serde::{Deserialize, Serialize};
use workshop::entry::Body;
use workshop::photos::{Photo, PhotoHash, Photography, Subject};

use super::{Encoded, Fault, read, whole, write};

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Photography) -> Result<Encoded, Fault> {
    match said {
        Photography::Taken { photo, said } => {
            let taken = Taken {
                photo: photo.to_string(),
                width_px: said.width,
                height_px: said.height,
                subject: said.subject.to_string(),
                words: said.words.clone(),
            };
            write("photo-taken", &taken)
        }
        Photography::Captioned {
            photo,
            subject,
            words,
        } => {
            let captioned = Captioned {
                photo: photo.to_string(),
                subject: subject.to_string(),
                words: words.clone(),
            };
            write("photo-captioned", &captioned)
        }
        Photography::PutAway { photo } => {
            let photo = photo.to_string();
            write("photo-put-away", &PutAway { photo })
        }
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("photo-taken", 1) => of_json::<Taken>(json),
        ("photo-captioned", 1) => of_json::<Captioned>(json),
        ("photo-put-away", 1) => of_json::<PutAway>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Photography: TryFrom<T, Error = String>,
{
    let said = read::<T>(json)?;
    whole(Photography::try_from(said).map(Body::Photographed))
}

fn photo(text: &str) -> Result<PhotoHash, String> {
    PhotoHash::new(text).map_err(|refusal| refusal.to_string())
}

fn subject(text: &str) -> Result<Subject, String> {
    Subject::read(text).map_err(|refusal| refusal.to_string())
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Taken {
    photo: String,
    width_px: u32,
    height_px: u32,
    subject: String,
    words: String,
}

impl TryFrom<Taken> for Photography {
    type Error = String;

    fn try_from(taken: Taken) -> Result<Self, String> {
        Ok(Self::Taken {
            photo: photo(&taken.photo)?,
            said: Photo {
                width: taken.width_px,
                height: taken.height_px,
                subject: subject(&taken.subject)?,
                words: taken.words,
            },
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Captioned {
    photo: String,
    subject: String,
    words: String,
}

impl TryFrom<Captioned> for Photography {
    type Error = String;

    fn try_from(captioned: Captioned) -> Result<Self, String> {
        Ok(Self::Captioned {
            photo: photo(&captioned.photo)?,
            subject: subject(&captioned.subject)?,
            words: captioned.words,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PutAway {
    photo: String,
}

impl TryFrom<PutAway> for Photography {
    type Error = String;

    fn try_from(put_away: PutAway) -> Result<Self, String> {
        Ok(Self::PutAway {
            photo: photo(&put_away.photo)?,
        })
    }
}
