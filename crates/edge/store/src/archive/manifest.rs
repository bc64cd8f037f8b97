//! What an archive says of itself: which job, and every other file with its size and checksum.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::digest::sha256;

/// What an archive of a job holds.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Manifest {
    /// `pumpwright job archive`.
    pub(super) format: String,
    /// The version of the format.
    pub(super) version: u32,
    /// The program that wrote the archive.
    pub(super) program: String,
    /// The job's id.
    pub(super) job: String,
    /// Craft and reason.
    pub(super) title: String,
    /// When the archive was made: RFC 3339.
    pub(super) made_at: String,
    /// How many entries the job has.
    pub(super) entries: u64,
    /// Photos that entries name and that were not on the bench the archive was made on, by SHA-256.
    pub(super) photos_absent: Vec<String>,
    /// Every file but this one, in the order of their names.
    pub(super) files: Vec<FileSays>,
}

/// A file as it must be.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct FileSays {
    /// Its name in the archive.
    pub(super) name: String,
    /// Its size when unpacked.
    pub(super) bytes: u64,
    /// Its SHA-256, in small hexadecimal digits.
    pub(super) sha256: String,
}

/// As much of a manifest as every version will have.
#[derive(Debug, Deserialize)]
pub(super) struct Head {
    pub(super) format: String,
    pub(super) version: u32,
}

impl FileSays {
    pub(super) fn of(name: &str, content: &[u8]) -> Self {
        Self {
            name: name.to_owned(),
            bytes: content.len() as u64,
            sha256: sha256(content),
        }
    }
}
