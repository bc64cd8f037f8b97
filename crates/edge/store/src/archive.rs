//! One job whole, in one file: to be kept for years, handed on, opened on another bench, and merged.
//!
//! The file is a ZIP that can be read without this program; `docs/archive.md` describes it.
//! [`Store::archive`](crate::Store::archive) writes it. [`Archive::open`] checks all of it before
//! anything is believed, and [`Store::take_in`](crate::Store::take_in) brings it into a store.

mod damage;
mod line;
mod manifest;
mod pack;
mod read;
mod refused;
mod take;
mod unpack;

use workshop::photos::PhotoHash;

pub use damage::Damage;
pub use pack::Archived;
pub use read::Archive;
pub use refused::Refused;
pub use take::{Merged, Told};

/// How an archive begins; a job file, which is text, never does.
pub const BEGINS: [u8; 4] = *b"PK\x03\x04";

/// The version of the format that is written, and the newest that is read.
pub const VERSION: u32 = 1;

/// What the manifest calls the format.
const FORMAT: &str = "pumpwright job archive";

const README: &str = "README.txt";
const MANIFEST: &str = "manifest.json";
const ENTRIES: &str = "entries.jsonl";
const FOLDER: &str = "photos/";

/// How much an archive may hold. What is written keeps to them too, so that it can be read again.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Bytes of the file itself, and of all that it unpacks to.
    pub bytes: u64,
    /// Files in it.
    pub files: u64,
    /// Entries.
    pub entries: u64,
    /// Bytes of all entries.
    pub text: u64,
    /// Bytes of one entry.
    pub line: u64,
    /// Bytes of one photo.
    pub photo: u64,
    /// Bytes of the manifest.
    pub manifest: u64,
}

impl Limits {
    /// The limits of every archive: some hundred times what a long rebuild with many photos takes.
    pub const USUAL: Self = Self {
        bytes: 1 << 30,
        files: 20_000,
        entries: 100_000,
        text: 128 << 20,
        line: 32 << 20,
        photo: 16 << 20,
        manifest: 8 << 20,
    };
}

/// The JSON Schema of the manifest.
pub fn manifest_schema() -> schemars::Schema {
    schemars::schema_for!(manifest::Manifest)
}

/// The JSON Schema of a line of the entries.
pub fn entry_schema() -> schemars::Schema {
    schemars::schema_for!(line::Line)
}

/// Where the picture stands in an archive, and where the small one.
fn names(photo: &PhotoHash) -> [String; 2] {
    [
        format!("{FOLDER}{photo}.jpg"),
        format!("{FOLDER}{photo}-small.jpg"),
    ]
}

/// The photo whose picture, large or small, has this name.
fn photo_of(name: &str) -> Option<PhotoHash> {
    let name = name.strip_prefix(FOLDER)?.strip_suffix(".jpg")?;
    PhotoHash::new(name.strip_suffix("-small").unwrap_or(name)).ok()
}

/// The most bytes that a file of this name may have.
fn most(name: &str, limits: &Limits) -> u64 {
    match name {
        README => 64 << 10,
        MANIFEST => limits.manifest,
        ENTRIES => limits.text,
        _ => limits.photo,
    }
}
