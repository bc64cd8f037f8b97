//! What an entry says, as JSON: a shape for every kind and version that ever landed.
//!
//! Numbers carry their unit in the key. A quantity keeps the text as typed beside its SI value.
//! An entry of an old version is brought up to date as it is read, by a pure function of its kind;
//! its row stays as it is. A kind or a version that is not known here was written by a newer
//! program and is kept verbatim.

mod account;
mod choose;
mod crew;
mod diagnose;
mod fits;
mod found;
mod inspect;
mod joints;
mod measured;
mod photos;
mod plan_laid;
mod seals;
mod shown;
mod stated;
mod supply;
mod tools;
mod typed;
mod upkeep;
mod water;
mod work;

use std::fmt;

use serde::Serialize;
use serde::de::DeserializeOwned;
use workshop::draft::Choice;
use workshop::entry::{Body, Key};

/// A body ready to be stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Encoded {
    /// The kind, such as `leaves-tried`.
    pub kind: String,
    /// The version of the kind's shape.
    pub version: u32,
    /// The JSON: keys in the order of the shape, no white space.
    pub json: String,
}

/// Why a body cannot be read or written.
#[derive(Debug)]
pub enum Fault {
    /// The JSON has not the shape of its kind and version.
    Json(serde_json::Error),
    /// No version of the kind was ever numbered so.
    NoSuchVersion(u32),
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Json(error) => write!(f, "{error}"),
            Self::NoSuchVersion(version) => write!(f, "there never was a version {version}"),
        }
    }
}

impl std::error::Error for Fault {}

impl From<serde_json::Error> for Fault {
    fn from(error: serde_json::Error) -> Self {
        Self::Json(error)
    }
}

/// Every kind this program knows, with the version it writes.
pub const KINDS: [(&str, u32); 74] = [
    ("job-opened", 2),
    ("pump-described", 1),
    ("leaves-described", 2),
    ("limits-stated", 1),
    ("walk-chosen", 2),
    ("leaves-tried", 1),
    ("gap-accepted", 1),
    ("joint-described", 2),
    ("joint-fastened", 2),
    ("fit-described", 1),
    ("fit-checked", 1),
    ("withdrawn", 1),
    ("plan-laid", 3),
    ("step-begun", 1),
    ("step-done", 1),
    ("step-deferred", 3),
    ("step-again", 1),
    ("step-estimated", 1),
    ("crew-stated", 1),
    ("fasteners-in", 1),
    ("part-stated", 1),
    ("item-told", 1),
    ("tools-counted", 1),
    ("gate-overridden", 1),
    ("rotor-checked", 1),
    ("leak-tested", 1),
    ("driveline-read", 1),
    ("finding-noted", 2),
    ("finding-settled", 1),
    ("sizes-measured", 1),
    ("ring-described", 1),
    ("cone-described", 1),
    ("gap-reread", 1),
    ("visit-told", 1),
    ("wrench-described", 1),
    ("tool-chosen", 1),
    ("hole-measured", 1),
    ("joint-role", 1),
    ("bench-stated", 1),
    ("compound-described", 1),
    ("thread-stated", 1),
    ("seal-described", 1),
    ("contact-stated", 1),
    ("photo-taken", 1),
    ("photo-captioned", 1),
    ("photo-put-away", 1),
    ("as-found-noted", 1),
    ("supply-stated", 1),
    ("outing-described", 1),
    ("log-read", 1),
    ("log-put-away", 1),
    ("runs-set", 1),
    ("figures-read", 1),
    ("trial-taken", 1),
    ("craft-described", 1),
    ("option-described", 1),
    ("option-put-away", 1),
    ("wish-stated", 1),
    ("steadies-read", 1),
    ("option-taken", 1),
    ("outing-suspected", 1),
    ("symptoms-told", 1),
    ("check-done", 1),
    ("craft-stilled", 1),
    ("cause-taken", 1),
    ("usage-stated", 1),
    ("sort-described", 1),
    ("piece-described", 1),
    ("meter-read", 1),
    ("mishap-told", 1),
    ("rule-stated", 1),
    ("task-done", 1),
    ("point-rechecked", 1),
    ("job-closed", 1),
];

/// Writes a body in the version of today; one of a newer program as it came.
pub fn encode(body: &Body) -> Result<Encoded, Fault> {
    match body {
        Body::JobOpened {
            title,
            note,
            follows,
        } => {
            let opened = stated::Opened {
                title: title.clone(),
                note: note.clone(),
                follows: follows.as_ref().map(ToString::to_string),
            };
            write("job-opened", &opened)
        }
        Body::PumpDescribed(pump) => write("pump-described", &stated::Pump::from(pump)),
        Body::LeavesDescribed(leaves) => write("leaves-described", &stated::Leaves::from(leaves)),
        Body::LimitsStated(limits) => write("limits-stated", &stated::Limits::from(limits)),
        Body::WalkChosen(walk) => write("walk-chosen", &stated::Walk::from(walk)),
        Body::LeavesTried {
            spot,
            tries,
            afresh,
        } => {
            let there = measured::Tries::new(*spot, tries, *afresh);
            write("leaves-tried", &there)
        }
        Body::GapAccepted(shown) => write("gap-accepted", &shown::Shown::from(shown)),
        Body::JointDescribed { key, joint } => {
            write("joint-described", &joints::Described::new(key, joint))
        }
        Body::JointFastened { key, fastened } => {
            write("joint-fastened", &joints::Fastened::new(key, fastened))
        }
        Body::FitDescribed { key, fit } => write("fit-described", &fits::Described::new(key, fit)),
        Body::FitChecked { key, checked } => {
            write("fit-checked", &fits::Checked::new(key, checked))
        }
        Body::Withdrawn { entry } => write("withdrawn", &measured::Withdrawn::from(entry)),
        Body::Work(work) => work::encode(work),
        Body::Inspected(said) => inspect::encode(said),
        Body::Tooled(said) => tools::encode(said),
        Body::Photographed(said) => photos::encode(said),
        Body::Trialled(said) => water::encode(said),
        Body::Chose(said) => choose::encode(said),
        Body::Diagnosed(said) => diagnose::encode(said),
        Body::Serviced(said) => upkeep::encode(said),
        Body::Unknown {
            kind,
            version,
            json,
        } => Ok(Encoded {
            kind: kind.clone(),
            version: *version,
            json: json.clone(),
        }),
    }
}

/// Reads a stored body, bringing an old version up to date.
pub fn decode(kind: &str, version: u32, json: &str) -> Result<Body, Fault> {
    let known = KINDS.iter().find(|(known, _)| *known == kind);
    if known.is_none_or(|(_, newest)| version > *newest) {
        return Ok(Body::Unknown {
            kind: kind.to_owned(),
            version,
            json: json.to_owned(),
        });
    }
    match (kind, version) {
        ("job-opened", 1) => {
            whole(stated::Opened::from(read::<stated::OpenedV1>(json)?).try_into())
        }
        ("job-opened", 2) => whole(read::<stated::Opened>(json)?.try_into()),
        ("pump-described", 1) => Ok(Body::PumpDescribed(read::<stated::Pump>(json)?.into())),
        ("leaves-described", 1) => {
            let leaves = stated::Leaves::from(read::<stated::LeavesV1>(json)?);
            Ok(Body::LeavesDescribed(leaves.into()))
        }
        ("leaves-described", 2) => Ok(Body::LeavesDescribed(read::<stated::Leaves>(json)?.into())),
        ("limits-stated", 1) => Ok(Body::LimitsStated(read::<stated::Limits>(json)?.into())),
        ("walk-chosen", 1 | 2) => Ok(Body::WalkChosen(read::<stated::Walk>(json)?.into())),
        ("leaves-tried", 1) => Ok(read::<measured::Tries>(json)?.into()),
        ("gap-accepted", 1) => Ok(Body::GapAccepted(read::<shown::Shown>(json)?.into())),
        ("joint-described", 1 | 2) => whole(read::<joints::Described>(json)?.try_into()),
        ("joint-fastened", 1 | 2) => whole(read::<joints::Fastened>(json)?.try_into()),
        ("fit-described", 1) => whole(read::<fits::Described>(json)?.try_into()),
        ("fit-checked", 1) => whole(read::<fits::Checked>(json)?.try_into()),
        ("withdrawn", 1) => Ok(read::<measured::Withdrawn>(json)?.into()),
        _ => work::decode(kind, version, json)
            .or_else(|| inspect::decode(kind, version, json))
            .or_else(|| tools::decode(kind, version, json))
            .or_else(|| seals::decode(kind, version, json))
            .or_else(|| photos::decode(kind, version, json))
            .or_else(|| water::decode(kind, version, json))
            .or_else(|| choose::decode(kind, version, json))
            .or_else(|| diagnose::decode(kind, version, json))
            .or_else(|| upkeep::decode(kind, version, json))
            .unwrap_or(Err(Fault::NoSuchVersion(version))),
    }
}

/// The value a stored word stands for. The words are those of the job file and never change.
fn of<T: Copy>(choices: &[Choice<T>], text: &str) -> Result<T, String> {
    let known = choices.iter().find(|(known, _)| *known == text);
    known
        .map(|(_, value)| *value)
        .ok_or_else(|| format!("“{text}” is no word of this list"))
}

/// A word that may be absent.
fn may<T: Copy>(choices: &[Choice<T>], text: Option<&String>) -> Result<Option<T>, String> {
    text.map(|text| of(choices, text)).transpose()
}

fn key(text: &str) -> Result<Key, String> {
    Key::new(text).map_err(|refusal| refusal.to_string())
}

/// What has the shape of its kind but holds a word that is none.
fn whole(body: Result<Body, String>) -> Result<Body, Fault> {
    body.map_err(|why| Fault::Json(serde::de::Error::custom(why)))
}

fn read<T: DeserializeOwned>(json: &str) -> Result<T, Fault> {
    Ok(serde_json::from_str(json)?)
}

fn write(kind: &'static str, shape: &impl Serialize) -> Result<Encoded, Fault> {
    let newest = KINDS.iter().find(|(known, _)| *known == kind);
    Ok(Encoded {
        kind: kind.to_owned(),
        version: newest.map_or(0, |(_, version)| *version),
        json: serde_json::to_string(shape)?,
    })
}
