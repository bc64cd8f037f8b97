//! The photos of a job: what each shows, in whose words. The pictures themselves lie elsewhere.

use std::collections::BTreeMap;
use std::fmt;

use crate::entry::Key;
use crate::job::{Fact, Job};
use crate::refusal::{Blur, Refusal};

/// Names a picture by its content: the SHA-256 of its bytes, 64 small hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PhotoHash(String);

/// What a photo is of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The job as a whole.
    Job,
    /// A finding.
    Finding(Key),
    /// A step of the plan.
    Step(Key),
    /// A joint that is a circle of screws.
    Joint(Key),
    /// Another joint.
    Fit(Key),
    /// Something as it was found.
    AsFound(Key),
    /// A thing on the list.
    Item(Key),
}

/// What is said of a photo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Photo {
    /// Its width in pixels.
    pub width: u32,
    /// Its height in pixels.
    pub height: u32,
    /// What it is of.
    pub subject: Subject,
    /// What it shows, in the person's words; may be empty.
    pub words: String,
}

/// Something about a photo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Photography {
    /// A photo was taken.
    Taken {
        /// Which picture.
        photo: PhotoHash,
        /// What is said of it.
        said: Photo,
    },
    /// It shows something else, or is said in other words.
    Captioned {
        /// Which picture.
        photo: PhotoHash,
        /// What it is of.
        subject: Subject,
        /// What it shows.
        words: String,
    },
    /// It is no part of the record.
    PutAway {
        /// Which picture.
        photo: PhotoHash,
    },
}

/// A photo that is part of the record.
#[derive(Clone, Debug, PartialEq)]
pub struct PhotoState {
    /// Where it was taken into the record first.
    pub since: u64,
    /// What is said of it now.
    pub photo: Fact<Photo>,
}

/// The photos of a job, by picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Album(pub(crate) BTreeMap<PhotoHash, PhotoState>);

/// The digits of a hash.
const DIGITS: usize = 64;

impl PhotoHash {
    /// Reads a hash, or refuses it.
    pub fn new(text: &str) -> Result<Self, Refusal> {
        let digit = |b: u8| b.is_ascii_digit() || (b'a'..=b'f').contains(&b);
        if text.len() == DIGITS && text.bytes().all(digit) {
            Ok(Self(text.to_owned()))
        } else {
            Err(Refusal::Photo(Blur::BadHash {
                text: text.chars().take(DIGITS + 1).collect(),
            }))
        }
    }

    /// All of it.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Enough of it to find the photo by on paper.
    pub fn short(&self) -> &str {
        &self.0[..8]
    }
}

impl fmt::Display for PhotoHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Subject {
    /// Its kind, and its key where it has one.
    fn parts(&self) -> (&'static str, Option<&Key>) {
        match self {
            Self::Job => ("job", None),
            Self::Finding(key) => ("finding", Some(key)),
            Self::Step(key) => ("step", Some(key)),
            Self::Joint(key) => ("joint", Some(key)),
            Self::Fit(key) => ("fit", Some(key)),
            Self::AsFound(key) => ("as-found", Some(key)),
            Self::Item(key) => ("item", Some(key)),
        }
    }

    /// Reads a subject as it is displayed: `job`, or a kind and a key, such as `step close-up`.
    pub fn read(text: &str) -> Result<Self, Refusal> {
        let bad = || {
            Refusal::Photo(Blur::BadSubject {
                text: text.chars().take(DIGITS).collect(),
            })
        };
        let Some((kind, key)) = text.trim().split_once(' ') else {
            return match text.trim() {
                "job" => Ok(Self::Job),
                _ => Err(bad()),
            };
        };
        let key = Key::new(key).map_err(|_| bad())?;
        Ok(match kind {
            "finding" => Self::Finding(key),
            "step" => Self::Step(key),
            "joint" => Self::Joint(key),
            "fit" => Self::Fit(key),
            "as-found" => Self::AsFound(key),
            "item" => Self::Item(key),
            _ => return Err(bad()),
        })
    }

    /// Whether the job has it.
    pub fn is_in(&self, job: &Job) -> bool {
        match self {
            Self::Finding(key) => job.inspected.findings.contains_key(key),
            Self::Step(key) => {
                let plan = job.bench.plan();
                plan.is_some_and(|plan| plan.place(key).is_some())
            }
            Self::Joint(key) => job.joints.contains_key(key),
            Self::Fit(key) => job.fits.contains_key(key),
            Self::AsFound(key) => job.inspected.found.contains_key(key),
            Self::Item(key) => {
                let plan = job.bench.plan();
                plan.is_some_and(|plan| plan.item(key).is_some())
            }
            Self::Job => true,
        }
    }
}

impl fmt::Display for Subject {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.parts() {
            (kind, Some(key)) => write!(f, "{kind} {key}"),
            (kind, None) => f.write_str(kind),
        }
    }
}

impl Album {
    /// The photo of this picture.
    pub fn get(&self, photo: &PhotoHash) -> Option<&PhotoState> {
        self.0.get(photo)
    }

    /// All photos, in the order they were taken.
    pub fn in_order(&self) -> Vec<(&PhotoHash, &PhotoState)> {
        let mut photos: Vec<_> = self.0.iter().collect();
        photos.sort_by_key(|(_, state)| state.since);
        photos
    }

    /// The photos of one subject, in the order they were taken.
    pub fn of(&self, subject: &Subject) -> Vec<(&PhotoHash, &PhotoState)> {
        let mut photos = self.in_order();
        photos.retain(|(_, state)| state.photo.value.subject == *subject);
        photos
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}
